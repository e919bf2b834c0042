from __future__ import annotations

import json

import pytest

from tests.api.studio import Studio
from tests.make import make_recipe, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

WEIRD_TITLES = {
    "emoji": "Bath 🛁 bomb \U0001f469‍\U0001f52c",
    "right to left": "كرة الاستحمام ‏(1)",
    "markup": '<script>alert(1)</script> & <b>"salt"</b>',
    "quotes and backslashes": "\\\"}]'; DROP TABLE recipe; --",
    "line separators": "a\u2028b\u2029c",
}


def test_a_recipe_is_created_once_and_can_be_sent_again(studio: Studio) -> None:
    recipe = uuid4()

    first = studio.put_recipe(recipe, make_recipe())
    again = studio.put_recipe(recipe, make_recipe())

    assert (first.status_code, again.status_code) == (201, 200)
    assert first.json == again.json
    assert first.json["version"] == 1


def test_an_edit_with_if_match_becomes_a_new_version_and_the_old_one_stays(studio: Studio) -> None:
    recipe = studio.with_recipe(title="First")

    edited = studio.put_recipe(recipe["id"], make_recipe(title="Second"), if_match=studio.tag(1))

    assert edited.status_code == 200
    assert edited.headers["ETag"] == studio.tag(2)
    assert studio.get(f"/recipes/{recipe['id']}").json["title"] == "Second"
    assert studio.get(f"/recipes/{recipe['id']}/versions/1").json["document"]["title"] == "First"
    versions = studio.get(f"/recipes/{recipe['id']}/versions").json
    assert [version["version"] for version in versions["versions"]] == [2, 1]


def test_an_edit_without_if_match_is_428_and_a_stale_one_412(studio: Studio) -> None:
    recipe = studio.with_recipe()
    edit = make_recipe(title="Edited")

    assert studio.put_recipe(recipe["id"], edit).status_code == 428
    assert studio.put_recipe(recipe["id"], edit, if_match=studio.tag(7)).status_code == 412
    assert studio.put_recipe(uuid4(), edit, if_match=studio.tag(1)).status_code == 412
    assert studio.get(f"/recipes/{recipe['id']}").json["version"] == 1


def test_an_edit_whose_answer_was_lost_can_be_sent_again(studio: Studio) -> None:
    recipe = studio.with_recipe()
    edit = make_recipe(title="Edited")
    studio.put_recipe(recipe["id"], edit, if_match=studio.tag(1))

    again = studio.put_recipe(recipe["id"], edit, if_match=studio.tag(1))

    assert (again.status_code, again.json["version"]) == (200, 2)


@pytest.mark.database("sqlite")
def test_the_tag_of_a_compressed_answer_is_good_for_reading_and_editing(studio: Studio) -> None:
    recipe = studio.with_recipe(lines=40)
    path = f"/recipes/{recipe['id']}"
    tag = studio.get(path, **{"Accept-Encoding": "gzip"}).headers["ETag"]

    unchanged = studio.get(path, **{"Accept-Encoding": "gzip", "If-None-Match": tag})

    assert unchanged.status_code == 304
    assert studio.put_recipe(recipe["id"], make_recipe(title="Edited"), if_match=tag).status_code == 200


def test_a_reader_who_has_it_gets_304(studio: Studio) -> None:
    recipe = studio.with_recipe()

    assert studio.get(f"/recipes/{recipe['id']}", **{"If-None-Match": studio.tag(1)}).status_code == 304


@pytest.mark.parametrize("title", WEIRD_TITLES.values(), ids=WEIRD_TITLES)
def test_names_are_kept_as_they_are(studio: Studio, title: str) -> None:
    recipe = studio.with_recipe(title=title)

    assert studio.get(f"/recipes/{recipe['id']}").json["title"] == title
    assert studio.get("/recipes").json["recipes"][0]["title"] == title


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("document", "field"),
    [
        (make_recipe(title="x" * 10_000), "title"),
        (make_recipe(title="a\x00b"), "title"),
        ({**make_recipe(), "written_for": 1.5}, "written_for"),
        ({**make_recipe(), "written_for": 0}, "written_for"),
        ({**make_recipe(), "format": "cookbook/9"}, "format"),
    ],
)
def test_a_wrong_recipe_is_422_naming_the_field_and_the_way_out(
    studio: Studio, document: object, field: str
) -> None:
    answer = studio.put_recipe(uuid4(), document)

    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == field
    assert answer.json["errors"][0]["detail"]
    assert studio.get("/recipes").json["total"] == 0


def test_recipes_are_paged(studio: Studio) -> None:
    for title in ("A", "B", "C"):
        studio.with_recipe(title=title)

    page = studio.get("/recipes?page=2&page_size=2").json

    assert [recipe["title"] for recipe in page["recipes"]] == ["C"]
    assert (page["page"], page["pages"], page["total"]) == (2, 2, 3)


@pytest.mark.database("sqlite")
def test_the_sheet_is_made_for_the_size_asked(studio: Studio) -> None:
    recipe = studio.with_recipe()

    sized = studio.client.post(f"/api/v1/recipes/{recipe['id']}/sheet", json={"by": "pieces", "pieces": 20})

    assert sized.json["size"]["pieces"] == 20
    assert sized.json["sheet"]["recipe"] == {"id": recipe["id"], "version": 1, "title": "Salt soak"}


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    "asked",
    [
        {"by": "pieces", "pieces": 0},
        {"by": "pieces", "pieces": 1_000_000},
        {"by": "pieces"},
        {"by": "luck"},
        {"by": "stock", "stock": {"nothing": 1}},
        {"by": "moulds", "component": "nothing", "moulds": 1},
        {"by": "pieces", "pieces": 10, "without": ["no.such"]},
        {"by": "pieces", "pieces": 10, "swaps": {"no.such": "thing"}},
    ],
)
def test_a_size_that_cannot_be_is_422(studio: Studio, asked: object) -> None:
    recipe = studio.with_recipe()

    answer = studio.client.post(f"/api/v1/recipes/{recipe['id']}/sheet", json=asked)

    assert answer.status_code == 422
    assert answer.json["errors"]


@pytest.mark.database("sqlite")
def test_the_check_lists_its_findings(studio: Studio) -> None:
    recipe = studio.with_recipe()

    assert isinstance(studio.get(f"/recipes/{recipe['id']}/checks").json["findings"], list)


@pytest.mark.database("sqlite")
def test_the_swaps_of_a_line_say_what_each_would_change(studio: Studio) -> None:
    document = make_recipe()
    component = document["components"][0]
    line = component["lines"][0]
    line["substitutes"] = [{"ingredient": "other", "amount": "5 g"}]
    document["ingredients"]["other"] = {"name": "Other", "kind": "mica"}
    recipe = studio.put_recipe(uuid4(), document).json

    (swap,) = studio.get(f"/recipes/{recipe['id']}/swaps?line={component['id']}.{line['id']}").json["swaps"]

    assert (swap["ingredient"], swap["by"], swap["mg_after"]) == ("other", "amount", 5000)
    assert "Other is a mica." in [finding["what"] for finding in swap["findings_new"]]
    assert studio.get(f"/recipes/{recipe['id']}/swaps?line=no.such").status_code == 422


def test_a_version_that_the_server_lost_is_put_back_and_never_changed(studio: Studio) -> None:
    recipe, second, other = uuid4(), make_recipe(title="Second"), make_recipe(title="Other")

    first_sent = studio.put_version(recipe, 2, second)
    again = studio.put_version(recipe, 2, second)
    changed = studio.put_version(recipe, 2, other)

    assert [each.status_code for each in (first_sent, again, changed)] == [201, 200, 409]
    assert studio.get(f"/recipes/{recipe}").json["document"] == second


def test_an_older_version_put_back_later_does_not_become_the_current_one(studio: Studio) -> None:
    recipe = uuid4()
    studio.put_version(recipe, 3, make_recipe(title="Third"))
    studio.put_version(recipe, 1, make_recipe(title="First"))

    listed = studio.get(f"/recipes/{recipe}/versions").json

    assert studio.get(f"/recipes/{recipe}").json["version"] == 3
    assert ([each["version"] for each in listed["versions"]], listed["total"]) == ([3, 1], 2)
    edited = studio.put_recipe(recipe, make_recipe(title="Fourth"), if_match=studio.tag(3))
    assert (edited.status_code, edited.json["version"]) == (200, 4)


def test_whole_recipes_come_by_pages_each_as_its_own_address_has_it(studio: Studio) -> None:
    """Past one page of 25: thirty, one of them at its second version."""
    made = [studio.with_recipe(title=f"Bar {place:02} ½ – ✓ 😀")["id"] for place in range(30)]
    studio.put_recipe(made[3], make_recipe(title="Bar 03, again"), if_match=studio.tag(1))
    listed = [each["id"] for each in studio.get("/recipes?page_size=100").json["recipes"]]

    answers = [studio.get(f"/recipes/all?page={page}") for page in (1, 2)]

    first, second = (each.json for each in answers)
    assert (first["pages"], first["total"], len(first["recipes"]), len(second["recipes"])) == (2, 30, 25, 5)
    whole = [*first["recipes"], *second["recipes"]]
    said = [*first["said"], *second["said"]]
    lines = [line.rstrip(b",") for answer in answers for line in answer.data.split(b"\n")[1:-1]]
    assert [each["id"] for each in whole] == listed
    for each, says, line in zip(whole, said, lines, strict=True):
        alone = studio.get(f"/recipes/{each['id']}")
        assert line.isascii()
        assert json.loads(line) == says
        assert {**each, **says} == {
            **alone.json,
            "etag": alone.headers["ETag"],
            "tags": [],
            "archived_at": None,
        }
