"""Trials: variants with one change each are recipes with batches of their own, are compared, and one becomes a version."""

from __future__ import annotations

from typing import Any

import pytest

from tests.api.studio import Studio
from tests.api.test_figures import recipe_of
from tests.make import BEGUN, make_entry, make_run, uuid4

AMOUNT = "components.0.lines.1.amount"
JUDGES = ["Hardness", "Fizz time"]


def try_out(
    studio: Studio, recipe: dict[str, Any], *changes: Any, ids: Any = None, judges: Any = JUDGES
) -> Any:
    variants = [
        {"id": id_, "change": change and dict(zip(("where", "value"), change, strict=True))}
        for id_, change in zip(ids or [uuid4() for _ in changes], changes, strict=True)
    ]
    body = {"version": recipe["version"], "judges": judges, "variants": variants}
    return studio.client.post(f"/api/v1/recipes/{recipe['id']}/trials", json=body)


def make(studio: Studio, variant: str, good: int = 9, hardness: str = "", minutes: int = 45) -> str:
    run = uuid4()
    begun = studio.put_run(run, make_run(studio.get(f"/recipes/{variant}").json))
    assert begun.status_code == 201, begun.json
    told = [
        make_entry(run, at=BEGUN + 1, kind="counted", body={"step": "soak.1.press", "good": good}),
        make_entry(run, at=BEGUN + 2, kind="worked", body={"ms": minutes * 60_000}),
        make_entry(run, at=BEGUN + 3, kind="finished", body={}),
    ]
    if hardness:
        body = {"criterion": "judge-1", "answer": "yes", "text": hardness}
        told.append(make_entry(run, at=BEGUN + 4, kind="met", body=body))
    assert {each["result"] for each in studio.post(run, *told).json["answers"]} == {"kept"}
    return run


def test_variants_are_made_compared_and_one_becomes_the_next_version(studio: Studio) -> None:
    recipe = recipe_of(studio)
    ids = [uuid4(), uuid4(), uuid4()]
    salt = ("ingredients.salt", {"name": "Epsom salt"})
    told = try_out(studio, recipe, None, (AMOUNT, "120 g"), salt, ids=ids)

    assert told.status_code == 200, told.json
    named = {each["where"]: (each["name"], each["value"]) for each in told.json["choices"]}
    assert named[AMOUNT] == ("Soak, Sea salt", "100 g") and named["ingredients.salt"][1] == "Sea salt"
    variants = told.json["variants"]
    assert [each["letter"] for each in variants] == ["A", "B", "C"] and [e["recipe"] for e in variants] == ids
    assert [len(each["changes"]) for each in variants] == [0, 1, 1]
    assert "120 g" in variants[1]["changes"][0]["what"] and "100 g" in variants[1]["changes"][0]["what"]
    assert "Epsom salt" in variants[2]["changes"][0]["what"]
    assert [each["title"] for each in variants] == ["Salt soak, A", "Salt soak, B", "Salt soak, C"]
    assert all(each["judges"] == JUDGES and each["small_pieces"] >= 1 for each in variants)
    again = try_out(studio, recipe, None, (AMOUNT, "120 g"), salt, ids=ids)
    assert again.json == told.json  # the same ids: nothing new

    for place in range(3):
        make(studio, ids[0], minutes=45 + place)
        make(studio, ids[1], hardness=f"{7 + place}", minutes=30 + place)
    few = studio.get(f"/recipes/{recipe['id']}/trials").json["variants"]
    judged = [each["figures"]["judged"] for each in few[1]["batches"]]
    assert sorted(each["Hardness"] for each in judged) == ["7", "8", "9"]
    assert few[0]["batches"][0]["figures"]["judged"] == {}
    assert {each["says"] for each in few[1]["differences"]} == {"too_few"}  # nothing is claimed on three
    make(studio, ids[0], minutes=48)
    make(studio, ids[1], minutes=33)
    enough = studio.get(f"/recipes/{recipe['id']}/trials").json["variants"]
    assert {each["measure"]: each["says"] for each in enough[1]["differences"]}["hands"] == "less"

    won = studio.client.post(
        f"/api/v1/recipes/{recipe['id']}/trials/winner", json={"variant": ids[1], "version": 1}
    )
    assert (won.status_code, won.json["version"], won.json["title"]) == (200, 2, "Salt soak")
    document = won.json["document"]
    assert document["components"][0]["lines"][1]["amount"] == "120 g"
    assert document["written_from"] == {"recipe": ids[1], "version": 1, "letter": "B"}
    assert "trial" not in document and "good_piece" not in document
    changes = studio.get(f"/recipes/{recipe['id']}/versions/2/changes?since=1").json["changes"]
    assert len(changes) == 2  # the amount, and where it came from
    assert studio.get(f"/recipes/{recipe['id']}/trials").json["variants"] == []
    assert studio.get(f"/recipes/{ids[1]}").status_code == 200  # archived, with its batches
    later = try_out(studio, studio.get(f"/recipes/{recipe['id']}").json, None, (AMOUNT, "90 g"))
    assert [each["letter"] for each in later.json["variants"]] == ["D", "E"]


@pytest.mark.parametrize(
    ("change", "field"),
    [
        (("title", "Another"), "change.where"),
        (("components.0.lines.9.amount", "1 g"), "change.where"),
        (("components.0.steps.0.lines", []), "change.where"),
        ((AMOUNT, "100 g"), "change.value"),
        ((AMOUNT, "a lot"), AMOUNT),
        ((AMOUNT, {"g": 1}), AMOUNT),
    ],
)
@pytest.mark.database("sqlite")
def test_what_is_no_change_is_refused_by_its_field_and_nothing_is_kept(
    studio: Studio, change: Any, field: str
) -> None:
    recipe = recipe_of(studio)
    refused = try_out(studio, recipe, None, change)

    assert refused.status_code == 422
    assert refused.json["errors"][0]["field"] == f"variants.1.{field}"
    assert studio.get("/recipes").json["total"] == 1


@pytest.mark.database("sqlite")
def test_only_a_variant_of_the_newest_version_that_was_read_wins(studio: Studio) -> None:
    recipe, other = recipe_of(studio), recipe_of(studio, "Another")
    (variant,) = try_out(studio, recipe, (AMOUNT, "120 g")).json["variants"]
    ask = {"variant": variant["recipe"], "version": 1}
    for of, body in (
        (other, ask),
        (recipe, {**ask, "version": 7}),
        (recipe, {**ask, "variant": other["id"]}),
    ):
        refused = studio.client.post(f"/api/v1/recipes/{of['id']}/trials/winner", json=body)
        assert (refused.status_code, bool(refused.json["detail"])) == (409, True)


def test_a_trial_goes_through_an_export(studio: Studio, new_app: Any) -> None:
    other = Studio(new_app().test_client())
    recipe = recipe_of(studio)
    told = try_out(studio, recipe, None, (AMOUNT, "120 g")).json["variants"]
    make(studio, told[1]["recipe"], hardness="soft")

    assert other.import_(studio.get("/export").json).json["refused"] == []

    was = studio.get(f"/recipes/{recipe['id']}/trials").json
    assert other.get(f"/recipes/{recipe['id']}/trials").json == was
    assert was["variants"][1]["batches"][0]["figures"]["judged"] == {"Hardness": "soft"}
