"""A supplier's list over HTTP: it is read, kept by nobody, and what it makes goes onto the shelf."""

from __future__ import annotations

import pytest

from tests.api.stock import described, to_shelf
from tests.api.studio import Studio
from tests.make import make_entry, uuid4

LIST = {"text": "Name;Amount;Lot;Price\nSalz;1 kg;S-9;12,50", "received_on": "2026-11-30", "currency": "EUR"}


def test_a_list_is_read_keeps_nothing_and_what_it_makes_goes_onto_the_shelf(studio: Studio) -> None:
    to_shelf(studio, described("Salz"))
    before = studio.get("/shelf/entries").json["cursor"]

    read = studio.client.post("/api/v1/deliveries/read", json=LIST).json

    assert (read["open"], studio.get("/shelf/entries").json["cursor"]) == (0, before)
    lots = [
        make_entry("shelf", kind=each["kind"], body={"lot": uuid4(), **each["body"]})
        for each in read["entries"]
    ]
    assert to_shelf(studio, *lots).json["answers"][0]["result"] == "kept"
    assert studio.get("/lots").json["lots"][0]["left_mg"] == 1_000_000
    again = studio.client.post("/api/v1/deliveries/read", json=LIST).json
    assert [each["field"] for each in again["rows"][0]["questions"]] == ["had"]


@pytest.mark.parametrize(
    ("wrong", "where"),
    [({"text": ""}, "text"), ({"columns": ["colour"]}, "columns.0"), ({"colour": "x"}, ""), ({"answers": [1]}, "answers"),
     ({"received_on": ""}, "received_on"), ({"received_on": "2026-02-30"}, "received_on")],
)  # fmt: skip
def test_what_is_no_list_is_refused_and_the_field_is_named(studio: Studio, wrong: dict, where: str) -> None:
    answer = studio.client.post("/api/v1/deliveries/read", json={**LIST, **wrong})

    assert answer.status_code == 422
    assert where in answer.json["errors"][0]["field"]
