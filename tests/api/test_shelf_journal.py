"""The shelf's journal: kept, read on and refused exactly as a run's is."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from api import live
from api.demo import seed
from tests.api.doorway import paired
from tests.api.stock import described, received, to_shelf, with_lot
from tests.api.studio import Studio
from tests.make import Clock, make_entry, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES


def results(answer: Any) -> list[str]:
    return [each["result"] for each in answer.json["answers"]]


def test_what_is_sent_twice_is_kept_once(studio: Studio) -> None:
    card = described()

    answers = [to_shelf(studio, card), to_shelf(studio, card, dict(reversed(card.items())))]

    assert [results(each) for each in answers] == [["kept"], ["had", "had"]]
    assert studio.get("/shelf/entries").json["entries"] == [card]


def test_each_entry_is_answered_by_itself(studio: Studio, clock: Clock) -> None:
    kept = described()
    to_shelf(studio, kept)
    lot = uuid4()
    wrong = {
        "": 3,
        "run": {**described(), "run": uuid4()},
        "at": {**described(), "at": clock.ms + 365 * 86_400_000},
        "body.card.cas": described(cas="7732-18-4"),
        "body.mg": received(lot, count=3),
        "body.price.currency": received(lot, price={"amount": "1", "currency": "ZZZ"}),
        "id": {**described("Rock salt"), "id": kept["id"]},
        "body.number": received(lot, number="a\x00b"),
    }

    answer = to_shelf(studio, *wrong.values(), received(lot))

    assert results(answer) == ["refused"] * len(wrong) + ["kept"]
    assert [each.get("field") for each in answer.json["answers"]] == [*wrong, None]
    assert all(each["detail"] for each in answer.json["answers"][:-1])


def test_it_is_read_on_from_a_cursor_and_what_is_held_follows_it(studio: Studio, clock: Clock) -> None:
    entries = [received(uuid4()) for _ in range(5)]
    seen = []
    for entry in entries:
        cursor = to_shelf(studio, entry).json["cursor"]
        seen.append(len(studio.get("/shelf/entries").json["entries"]))

    first = studio.get("/shelf/entries?limit=3").json
    rest = studio.get(f"/shelf/entries?after={first['cursor']}").json

    assert seen == [1, 2, 3, 4, 5]
    assert first["entries"] + rest["entries"] == entries
    assert (first["more"], rest["more"], rest["cursor"]) == (True, False, cursor)
    assert rest["server_ms"] == clock.ms
    assert studio.get("/shelf/entries?after=x").status_code == 422


def test_whoever_reads_on_while_two_phones_write_skips_nothing(app: Any, studio: Studio) -> None:
    sent = [[received(uuid4()) for _ in range(20)] for _ in range(2)]
    done = threading.Event()
    read: list[Any] = []

    def write(entries: list[Any]) -> None:
        phone = Studio(app.test_client())
        for entry in entries:
            assert results(to_shelf(phone, entry)) == ["kept"]

    def read_on() -> None:
        reader, cursor = Studio(app.test_client()), 0
        while True:
            last = done.is_set()
            page = reader.get(f"/shelf/entries?after={cursor}").json
            read.extend(page["entries"])
            cursor = page["cursor"]
            if last:
                return

    phones = [threading.Thread(target=write, args=(each,)) for each in sent]
    reader = threading.Thread(target=read_on)
    for thread in (*phones, reader):
        thread.start()
    for thread in phones:
        thread.join()
    done.set()
    reader.join()

    assert sorted(each["id"] for each in read) == sorted(each["id"] for both in sent for each in both)


def test_the_ingredients_are_listed_by_name_with_what_is_left(studio: Studio) -> None:
    with_lot(studio, 700_000)
    to_shelf(studio, described("arrowroot", "arrowroot-1"), described("Beeswax", "wax-1", inci="Cera Alba"))
    to_shelf(studio, received(uuid4(), 50_000))

    page = studio.get("/ingredients?page_size=2").json
    one = studio.get("/ingredients/salt-1").json

    assert (page["total"], page["pages"]) == (3, 2)
    assert [each["card"]["name"] for each in page["ingredients"]] == ["arrowroot", "Beeswax"]
    assert one["left_mg"] == 750_000
    assert sorted(lot["left_mg"] for lot in one["lots"]) == [50_000, 700_000]
    assert studio.get("/ingredients/nothing").status_code == 404


def test_a_lot_that_came_before_its_card_is_listed_all_the_same(studio: Studio) -> None:
    to_shelf(studio, received(uuid4()))

    assert [each["card"] for each in studio.get("/ingredients").json["ingredients"]] == [None]


def test_the_demo_studio_has_a_shelf_whose_days_are_counted_from_today(
    app: Any, studio: Studio, clock: Clock
) -> None:
    with app.app_context():
        taken = seed()

    assert taken is not None and taken.refused == []
    past = [
        lot
        for lot in studio.get("/lots?open=true&page_size=100").json["lots"]
        if lot["best_before"] and lot["best_before"] < "2027-01-15"  # the clock's day
    ]
    assert len(past) == 1
    run = studio.get("/runs?open=false").json["runs"][0]
    assert run["number"] == "D-A41"
    assert all(lot["number"] for lot in studio.get(f"/runs/{run['id']}/record").json["lots"])


def test_an_export_carries_the_shelf_and_the_settings(studio: Studio, new_app: Any) -> None:
    lot = with_lot(studio)
    studio.client.put("/api/v1/settings", json={"batch_number": "{mark}{n}", "currency": "GBP"})
    other = Studio(new_app().test_client())
    everything = studio.get("/export").json
    everything["shelf"].append({"id": "nonsense"})

    taken = other.import_(everything).json
    again = other.import_(everything).json

    assert [each["field"] for each in taken["refused"]] == ["shelf.2.id"]
    assert (taken["kept"], again["kept"]) == (3, 0)
    assert other.get(f"/lots/{lot}").data == studio.get(f"/lots/{lot}").data
    assert other.get("/settings").json == studio.get("/settings").json
    assert other.get("/export").json["shelf"] == everything["shelf"][:2]


def test_an_export_from_before_there_was_a_shelf_is_taken_in(studio: Studio) -> None:
    studio.with_recipe()
    older = {
        key: value for key, value in studio.get("/export").json.items() if key not in ("shelf", "settings")
    }

    assert studio.import_(older).json["refused"] == []


def test_settings_that_cannot_be_are_refused_by_themselves(studio: Studio) -> None:
    everything = {**studio.get("/export").json, "settings": {"batch_number": "{n}"}}

    taken = studio.import_(everything).json
    other = studio.import_({**everything, "settings": {"batch_number": 3}}).json

    assert [each["field"] for each in taken["refused"]] == ["settings.batch_number"]
    assert [each["field"] for each in other["refused"]] == ["settings"]


def test_the_live_line_tells_of_the_shelf(app: Any, studio: Studio) -> None:
    with app.app_context():
        before = live.Mark(*live.read_row(live.MARK, {}))
        with_lot(studio)
        assert live.Mark(*live.read_row(live.MARK, {})) != before


@pytest.mark.database("sqlite")
def test_a_helper_uses_and_corrects_and_leaves_the_settings_alone(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app)), Studio(paired(app, "helper", "Tablet at the press"))
    lot = with_lot(maker)
    correction = make_entry("shelf", device="tablet", kind="corrected", body={"lot": lot, "mg": 5})

    assert results(to_shelf(helper, {**correction, "device": "phone-a"})) == ["refused"]
    assert results(to_shelf(helper, correction)) == ["kept"]
    assert helper.get(f"/lots/{lot}").json["left_mg"] == 5
    assert helper.get("/settings").status_code == 200
    refused = helper.client.put("/api/v1/settings", json={"batch_number": "{mark}{n}"})
    assert (refused.status_code, refused.json["type"]) == (403, "/problems/maker-only")
