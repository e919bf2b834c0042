"""What to buy, over HTTP: recipes wanted by a day, less the shelf, less what open batches have set aside."""

from __future__ import annotations

from tests.api.stock import described, gathered, to_shelf, with_lot
from tests.api.studio import Studio
from tests.make import uuid4

TODAY = "2026-12-01"


def ask(studio: Studio, *wants: dict) -> dict:
    answer = studio.client.post("/api/v1/buying", json={"wants": list(wants), "today": TODAY})
    assert answer.status_code == 200, answer.json
    return answer.json


def test_what_is_set_aside_is_not_free_and_a_gram_is_promised_once(studio: Studio) -> None:
    run = studio.with_run()
    recipe = studio.get(f"/runs/{run}").json["recipe"]["id"]
    want = {"recipe": recipe, "pieces": 4, "on": "2026-12-10"}
    assert [each["name"] for each in ask(studio)["unjoined"]] == ["Sea salt"]  # the open batch wants it
    lot = with_lot(studio)

    [before] = ask(studio, want)["rows"]
    studio.post(run, gathered(run, lot, mg=950_000))
    [after] = ask(studio, want)["rows"]

    # The open batch wants its salt until it has gathered it; what it set aside is nobody else's.
    assert (before["wanted"], before["lacking"]) == (320_000, 0)
    assert (after["wanted"], after["free"], after["lacking"]) == (80_000, 50_000, 30_000)


def test_what_a_card_says_of_buying_is_kept_and_a_recipe_that_is_not_here_is_refused(studio: Studio) -> None:
    supply = {"pack": "1 kg", "lead_days": 3, "reorder_at": "2 kg"}
    to_shelf(studio, described(supply=supply))
    assert studio.get("/ingredients/salt-1").json["card"]["supply"] == supply
    assert ask(studio)["reorder"][0]["packs"]["count"] == 2

    answer = studio.client.post(
        "/api/v1/buying", json={"wants": [{"recipe": uuid4(), "pieces": 4, "on": TODAY}], "today": TODAY}
    )

    assert (answer.status_code, answer.json["errors"][0]["field"]) == (422, "wants.0.recipe")
