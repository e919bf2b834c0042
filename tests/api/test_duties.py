"""The duties of selling: which a recipe has, what is said of them, and that no word of it is lost."""

from __future__ import annotations

from typing import Any

import pytest

from tests.api.studio import Studio
from tests.make import make_recipe, uuid4

SOLD = {"use": "bath", "sold_in": ["us", "eu"]}


def say(studio: Studio, about: str | None, duty: str, mark: str | None = None, **said: Any) -> Any:
    body = {"about": about, "duty": duty, "state": "seen_to", "day": "2026-11-30", "note": "", **said}
    return studio.client.put(f"/api/v1/duties/{mark or uuid4()}", json=body)


def with_recipe(studio: Studio, **said: Any) -> str:
    recipe: str = studio.put_recipe(uuid4(), make_recipe() | said).json["id"]
    return recipe


def by_id(marks: list[dict[str, Any]]) -> dict[str, dict[str, Any]]:
    return {mark["id"]: mark for mark in marks}


def standing(studio: Studio, recipe: str) -> dict[str, str]:
    return {each["id"]: each["state"] for each in studio.get(f"/recipes/{recipe}/duties").json["duties"]}


def test_a_duty_is_open_until_somebody_says_so_and_a_studios_is_said_once(studio: Studio) -> None:
    one, other = (with_recipe(studio, **SOLD, title=title) for title in ("One", "Other"))
    before = studio.get(f"/recipes/{one}/duties").json
    assert set(standing(studio, one).values()) == {"open"} and before["open"] == len(before["duties"])
    assert [law["id"] for law in before["laws"]] == ["us-cosmetic", "eu-cosmetic"]

    report = say(studio, one, "eu-report", note="by an assessor").json
    say(studio, None, "us-register", state="not_mine", note="small business")

    assert standing(studio, one)["eu-report"] == "seen_to" and standing(studio, other)["eu-report"] == "open"
    assert standing(studio, one)["us-register"] == standing(studio, other)["us-register"] == "not_mine"
    assert studio.get(f"/recipes/{one}/duties").json["open"] == before["open"] - 2

    # The same of what is still being written; of a soap bar a law more, of no recipe only what is the studio's.
    due = "/duties/due?use=bath&sold_in=us&sold_in=eu"
    assert studio.get(f"{due}&recipe={one}").json == studio.get(f"/recipes/{one}/duties").json
    told = studio.get(f"{due}&soap=true").json
    assert (
        "us-soap" in {law["id"] for law in told["laws"]}
        and by_id(told["duties"])["eu-report"]["state"] == "open"
    )
    assert by_id(told["duties"])["us-register"]["state"] == "not_mine"
    for asked in ("use=bath", "use=eat&sold_in=eu"):
        assert studio.get(f"/duties/due?{asked}").status_code == 422
    assert report in studio.get("/duties").json["marks"]


def test_the_last_word_holds_and_the_same_again_changes_nothing(studio: Studio) -> None:
    recipe, mark = with_recipe(studio, **SOLD), uuid4()

    assert say(studio, recipe, "eu-file", mark).status_code == 201
    assert say(studio, recipe, "eu-file", mark).status_code == 200
    assert say(studio, recipe, "eu-file", mark, note="another").status_code == 409
    say(studio, recipe, "eu-file", state="open", day=None, note="moved house")

    (held,) = studio.get("/duties").json["marks"]
    assert (held["state"], held["day"], held["note"]) == ("open", None, "moved house")
    assert len(studio.get("/export").json["duties"]) == 2
    tag = studio.get("/duties").headers["ETag"]
    assert studio.get("/duties", **{"If-None-Match": tag}).status_code == 304


@pytest.mark.database("sqlite")
def test_what_is_no_duty_or_is_said_of_the_wrong_thing_is_refused(studio: Studio) -> None:
    recipe = with_recipe(studio, **SOLD)

    assert say(studio, recipe, "eu-nothing").status_code == 422
    assert say(studio, None, "eu-report").status_code == 422
    assert say(studio, recipe, "us-register").status_code == 422
    assert say(studio, uuid4(), "eu-report").status_code == 404
    assert say(studio, recipe, "eu-report", state="done").status_code == 422
    assert studio.get(f"/recipes/{uuid4()}/duties").status_code == 404
    assert studio.get("/duties").json["marks"] == []


def test_a_recipe_that_does_not_say_has_no_duties_and_says_that(studio: Studio) -> None:
    told = studio.get(f"/recipes/{with_recipe(studio)}/duties").json
    assert (told["use"], told["sold_in"], told["duties"]) == (None, None, [])
    told = studio.get(f"/recipes/{with_recipe(studio, use='bath', sold_in=[])}/duties").json
    assert (told["use"], told["sold_in"], told["duties"]) == ("bath", [], [])


def test_an_import_takes_every_word_and_refuses_by_itself_what_contradicts(
    studio: Studio, new_app: Any
) -> None:
    recipe = with_recipe(studio, **SOLD)
    mark = say(studio, recipe, "eu-file").json
    say(studio, recipe, "eu-file", state="open")
    everything = studio.get("/export").json
    later = {**mark, "id": uuid4(), "duty": "of-a-later-version"}
    everything["duties"].append(later)
    other = Studio(new_app().test_client())

    assert other.import_(everything).json["refused"] == []
    assert other.import_(everything).json["kept"] == 0
    assert by_id(other.get("/export").json["duties"]) == by_id(everything["duties"])
    assert by_id(other.get("/duties").json["marks"]) == by_id([*studio.get("/duties").json["marks"], later])
    everything["duties"] = [{**mark, "note": "else"}, {**mark, "id": uuid4(), "about": uuid4()}]
    assert [each["field"] for each in other.import_(everything).json["refused"]] == ["duties.0", "duties.1"]


def test_a_label_says_first_what_is_open_also_of_a_batch_made_before_the_question(studio: Studio) -> None:
    run = studio.with_run()
    recipe = studio.get(f"/runs/{run}").json["recipe"]["id"]
    assert not [each for each in label_of(studio, run) if "duties" in each or "duty" in each]
    written = studio.get(f"/recipes/{recipe}").json["document"]
    studio.put_recipe(recipe, written | SOLD, if_match=studio.tag(1))

    count = studio.get(f"/recipes/{recipe}/duties").json["open"]
    assert label_of(studio, run)[0] == f"{count} duties of selling are open."
    say(studio, recipe, "eu-report")
    assert label_of(studio, run)[0] == f"{count - 1} duties of selling are open."


def test_a_label_that_is_told_what_it_is_for_says_what_is_open_of_that(studio: Studio) -> None:
    run = studio.with_run()
    assert label_of(studio, run, "&use=wash")[0] == "6 duties of selling are open."


def label_of(studio: Studio, run: str, asked: str = "") -> list[str]:
    return [each["says"] for each in studio.get(f"/runs/{run}/label?market=eu{asked}").json["not_checked"]]
