"""What a batch costs, before and after, over HTTP."""

from __future__ import annotations

from tests.api.stock import gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import BEGUN, uuid4

PRICE = {"amount": "9.00", "currency": "EUR"}


def test_a_size_costs_what_its_lots_did_and_the_record_says_both(studio: Studio) -> None:
    recipe = studio.with_recipe()["id"]
    ask = {"by": "pieces", "pieces": 20}
    assert studio.client.post(f"/api/v1/recipes/{recipe}/cost", json=ask).status_code == 409  # in no currency
    lot = with_lot(studio, price=PRICE)
    run = studio.with_run()  # two lines of 10 g of salt for a piece, 12 pieces
    studio.post(run, gathered(run, lot), weighed(run, 110_000))

    ahead = studio.client.post(f"/api/v1/recipes/{recipe}/cost", json=ask)
    after = studio.get(f"/runs/{run}/cost")

    # 400 g at 9.00 a kg; the batch took 110 g of it where its sheet asked for 240 g.
    assert (ahead.status_code, ahead.json["totals"]["EUR"]["materials"]) == (200, "3.60")
    assert ahead.json["totals"]["EUR"]["per_piece"] == "0.18"
    assert ahead.headers["Cache-Control"] == "no-store"
    assert after.json["totals"]["EUR"]["materials"] == "0.99"
    assert after.json["ahead"]["totals"]["EUR"]["materials"] == "2.16"
    # What came since is dearer, and changes no batch that was begun before it.
    dearer = {**received(uuid4(), price={**PRICE, "amount": "90"}), "at": BEGUN + 10**9}
    assert to_shelf(studio, dearer).json["answers"][0]["result"] == "kept"
    assert studio.get(f"/runs/{run}/cost").json["ahead"] == after.json["ahead"]
