"""What a lot was bought for is told to makers alone, by whichever way it is asked."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.api.doorway import operations, paired
from tests.api.stock import described, gathered, received, to_shelf, weighed
from tests.api.studio import Studio
from tests.make import make_entry, uuid4

PRICE = {"amount": "417.35", "currency": "EUR", "tax": {"percent": "19", "included": True}}


@pytest.fixture
def app(new_app: Any) -> Any:
    return new_app(pairing=True)


@pytest.fixture
def maker(app: Any) -> Studio:
    return Studio(paired(app))


@pytest.fixture
def helper(app: Any) -> Studio:
    return Studio(paired(app, "helper", "Tablet at the press"))


@pytest.fixture
def lot(maker: Studio) -> dict[str, Any]:
    """The entry by which a lot with a price came, as a maker's phone sent it."""
    entry = received(uuid4(), price=PRICE)
    assert to_shelf(maker, described(), entry).status_code == 200
    return entry


def without_price(entry: dict[str, Any]) -> dict[str, Any]:
    return {**entry, "body": {name: value for name, value in entry["body"].items() if name != "price"}}


@pytest.mark.database("sqlite")
def test_no_answer_to_a_helper_says_a_price(maker: Studio, helper: Studio, lot: dict[str, Any]) -> None:
    run = maker.with_run()
    maker.post(run, gathered(run, lot["body"]["lot"]), weighed(run, 4_000))
    body = {"lot": lot["body"]["lot"], "price": {**PRICE, "amount": "98.77"}}
    mended = make_entry("shelf", at=lot["at"] + 1, kind="mended", body=body)
    assert to_shelf(maker, mended).json["answers"][0]["result"] == "kept"
    document = helper.client.get("/api/v1/openapi.json").json
    addresses = [path for method, path, _ in operations(document) if method == "GET"]
    some_id = "11111111-1111-4111-8111-111111111111"
    told = 0
    for address in addresses:
        for known in (run, lot["body"]["lot"], "salt-1"):
            path = address.replace(some_id, known)
            path = f"{path}{'?market=eu' if path.endswith('/label') else ''}"
            if path.endswith("/live"):
                continue
            answer = helper.client.get(path)
            told += answer.status_code == 200
            assert not re.search(rb"417\.35|98\.77", answer.data), path

    assert told > 30
    assert b"417.35" in maker.get("/shelf/entries").data
    assert all(price in maker.get("/lots").data for price in (b"417.35", b"98.77"))


def test_a_helper_reads_the_shelf_on_and_sends_to_it_as_before(
    maker: Studio, helper: Studio, lot: dict[str, Any]
) -> None:
    own = {**received(uuid4(), price=PRICE), "device": "the-helpers"}
    assert to_shelf(helper, own).json["answers"] == [{"id": own["id"], "result": "kept"}]

    entries = helper.get("/shelf/entries").json["entries"]

    assert entries[1:] == [without_price(lot), without_price(own)]
    assert maker.get("/shelf/entries").json["entries"][1:] == [lot, own]
    again = helper.get("/shelf/entries?after=1").json
    assert (len(again["entries"]), again["more"]) == (2, False)


def test_what_a_helper_was_told_never_takes_the_place_of_what_is_kept(
    maker: Studio, helper: Studio, lot: dict[str, Any]
) -> None:
    told = without_price(lot)
    other = {**told, "body": {**told["body"], "number": "other"}}

    for studio in (helper, maker):
        results = [each["result"] for each in to_shelf(studio, told, other).json["answers"]]
        assert results == ["had", "refused"]

    assert maker.get("/shelf/entries").json["entries"][1] == lot


@pytest.mark.database("sqlite")
def test_no_answer_says_whether_a_helper_guessed_a_price(
    maker: Studio, helper: Studio, lot: dict[str, Any]
) -> None:
    guess = {**lot, "body": {**lot["body"], "price": {**PRICE, "amount": "1.00"}}}

    said = [to_shelf(helper, each).json["answers"] for each in (lot, guess)]

    assert said[0] == said[1] == [{"id": lot["id"], "result": "had"}]
    assert to_shelf(maker, guess).json["answers"][0]["result"] == "refused"


@pytest.mark.database("sqlite")
def test_money_and_the_whole_studio_stay_in_no_cache(maker: Studio, lot: dict[str, Any]) -> None:
    run = maker.with_run()
    maker.post(run, gathered(run, lot["body"]["lot"]), weighed(run, 4_000))

    for path in ("/export", f"/runs/{run}/cost"):
        answer = maker.get(path)
        assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-store"), path
