"""The search over all, and how recipes are filed. What is found is held against a plain walk over all that was put in."""

from __future__ import annotations

import json
import unicodedata
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import insert, text

import bench
from api import searching, store
from api.tables import db
from tests.api.doorway import paired
from tests.api.stock import described, received, to_shelf
from tests.api.studio import Studio
from tests.make import BEGUN, make_entry, make_recipe, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES


def found(studio: Studio, words: str, **asked: Any) -> dict[str, list[dict[str, Any]]]:
    answer = studio.client.get("/api/v1/search", query_string={"q": words, **asked})
    assert answer.status_code == 200, answer.json
    return {group["kind"]: group["found"] for group in answer.json["groups"]}


def batch(studio: Studio, title: str, number: str, *notes: str) -> str:
    run = studio.with_run_of(title)
    entries = [make_entry(run, kind="numbered", body={"number": number}, at=BEGUN + 10)]
    entries += [
        make_entry(run, body={"text": text}, at=BEGUN + 20 + place) for place, text in enumerate(notes)
    ]
    assert studio.post(run, *entries).status_code == 200
    return run


def test_each_kind_is_found_by_its_own_words_with_neither_case_nor_accents(studio: Studio) -> None:
    run = batch(studio, "Crème brûlée bar", "D-A41", "Smelled of Ölkuchen, too hot")
    told = [described("Kakaobutter, weiß"), received("lot-7", number="QX 99/b", supplier="Müller & Søn")]
    to_shelf(studio, *told)

    assert [each["id"] for each in found(studio, "d-a41")["batch"]] == [run]
    assert found(studio, "CREME BRULEE")["batch"][0]["number"] == "D-A41"
    assert found(studio, "brûlée")["recipe"][0]["title"] == "Crème brûlée bar"
    (note,) = found(studio, "olkuchen hot")["note"]
    assert (note["run"], note["number"], note["text"]) == (run, "D-A41", "Smelled of Ölkuchen, too hot")
    assert [each["id"] for each in found(studio, "KAKAOBUTTER WEISS")["ingredient"]] == ["salt-1"]
    (lot,) = found(studio, "muller qx")["lot"]
    assert (lot["id"], lot["title"], lot["number"]) == ("lot-7", "Kakaobutter, weiß", "QX 99/b")
    assert found(studio, "no such thing") == {}
    assert found(studio, "% _") == {} and found(studio, "!") == {}


def test_a_note_of_the_shelf_leads_to_what_it_is_of(studio: Studio) -> None:
    to_shelf(studio, described("Sea salt"), received("lot-7"))
    to_shelf(studio, make_entry("shelf", body={"text": "Clumps in June", "lot": "lot-7"}))

    assert found(studio, "clumps")["lot"][0]["note"] == "Clumps in June"
    assert "ingredient" not in found(studio, "clumps")


def test_a_note_that_was_taken_back_is_found_no_more_whichever_came_first(studio: Studio) -> None:
    run = studio.with_run_of("Plain bar")
    note = make_entry(run, body={"text": "wrong jug"}, at=BEGUN + 10)
    late = make_entry(run, body={"text": "wrong spoon"}, at=BEGUN + 11)
    undo = make_entry(run, kind="undone", body={"entry": note["id"]}, at=BEGUN + 20)
    undo_of_late = make_entry(run, kind="undone", body={"entry": late["id"]}, at=BEGUN + 21)
    studio.post(run, note)
    assert len(found(studio, "wrong")["note"]) == 1

    studio.post(run, undo)
    studio.post(run, undo_of_late)
    studio.post(run, late)
    assert "note" not in found(studio, "wrong")

    studio.post(run, make_entry(run, kind="undone", body={"entry": undo["id"]}, at=BEGUN + 30))
    assert [each["text"] for each in found(studio, "wrong")["note"]] == ["wrong jug"]


def test_a_remark_beside_a_signed_record_is_found_too(studio: Studio) -> None:
    run = batch(studio, "Plain bar", "26-1", "before signing")
    entries = studio.get(f"/runs/{run}/entries").json["entries"]
    studio.post(
        run, make_entry(run, kind="signed", body={"name": "Ada", **bench.seal(entries)}, at=BEGUN + 50)
    )
    studio.post(run, make_entry(run, body={"text": "after signing"}, at=BEGUN + 60))

    assert len(found(studio, "signing")["note"]) == 2


def test_each_group_goes_on_by_pages_past_the_edges(studio: Studio) -> None:
    runs = [batch(studio, "Plain bar", f"26-{place:02}") for place in range(21)]
    groups = studio.client.get("/api/v1/search?q=bar").json["groups"]
    assert [(each["kind"], len(each["found"]), each["more"]) for each in groups] == [
        ("batch", 10, True),
        ("recipe", 10, True),
    ]
    pages = [found(studio, "bar", kind="batch", page=page).get("batch", []) for page in (1, 2, 3, 4)]
    assert [len(page) for page in pages] == [10, 10, 1, 0]
    assert {each["id"] for page in pages for each in page} == set(runs)
    assert studio.client.get("/api/v1/search?q=bar&kind=batch&page=3").json["groups"][0]["more"] is False


@pytest.mark.parametrize("query", ["", "q=", "q=%20", "q=a&kind=outlet", "q=a&page=0", f"q={'a' * 101}"])
def test_a_bad_question_names_its_field(studio: Studio, query: str) -> None:
    answer = studio.client.get(f"/api/v1/search?{query}")
    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] in ("q", "kind", "page")


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=30))
def test_folding_is_a_closure_and_forgets_what_it_should(text: str) -> None:
    """By the Unicode Standard, 3.13 (caseless matching) and UAX 15, as Python's own tables have them."""
    once = bench.folded(text)
    assert bench.folded(once) == once
    assert bench.folded(unicodedata.normalize("NFC", text)) == bench.folded(
        unicodedata.normalize("NFD", text)
    )
    assert not any(unicodedata.category(each) == "Mn" for each in once)


def test_a_recipe_is_filed_found_by_its_tag_and_brought_back(studio: Studio) -> None:
    recipe = studio.with_recipe(title="Plain bar")["id"]
    path = f"/api/v1/recipes/{recipe}/filing"
    said = studio.client.put(
        path, json={"tags": ["  Winter  market ", "Winter market", "gifts"], "archived": True}
    )
    assert said.json["tags"] == ["Winter market", "gifts"] and said.json["archived_at"]
    assert found(studio, "winter")["recipe"][0]["archived_at"] == said.json["archived_at"]
    assert studio.get("/recipes").json["recipes"][0]["tags"] == ["Winter market", "gifts"]
    assert studio.get("/recipes/all").json["recipes"][0]["archived_at"] == said.json["archived_at"]

    again = studio.client.put(path, json={"tags": ["gifts"], "archived": True}).json
    assert again["archived_at"] == said.json["archived_at"]
    back = studio.client.put(path, json={"tags": [], "archived": False}).json
    assert (back["tags"], back["archived_at"], back["version"]) == ([], None, 1)
    assert "recipe" not in found(studio, "gifts")


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"tags": [""], "archived": False}, "tags.0"),
        ({"tags": ["a" * 41], "archived": False}, "tags.0"),
        ({"tags": ["a\nb"], "archived": False}, "tags.0"),
        ({"tags": [str(place) for place in range(21)], "archived": False}, "tags"),
        ({"tags": [], "archived": "yes"}, "archived"),
        ({"tags": []}, "archived"),
    ],
)
def test_a_bad_filing_names_its_field_and_changes_nothing(studio: Studio, said: Any, field: str) -> None:
    recipe = studio.with_recipe()["id"]
    answer = studio.client.put(f"/api/v1/recipes/{recipe}/filing", json=said)
    assert answer.status_code == 422 and answer.json["errors"][0]["field"] == field
    assert studio.get("/recipes").json["recipes"][0]["tags"] == []


def test_filing_goes_through_export_and_import_and_a_new_version_keeps_it(studio: Studio) -> None:
    recipe = studio.with_recipe(title="Plain bar")
    path = f"/api/v1/recipes/{recipe['id']}/filing"
    studio.client.put(path, json={"tags": ["Größe M"], "archived": True})
    edited = {**recipe["document"], "title": "Plainer bar"}
    assert studio.put_recipe(recipe["id"], edited, studio.tag(1)).status_code == 200
    assert found(studio, "plainer grosse")["recipe"][0]["version"] == 2

    export = json.loads(studio.get("/export").data)
    (told,) = export["recipes"]
    assert told["filing"]["tags"] == ["Größe M"] and told["filing"]["archived_at"]
    other = {**export, "recipes": [{**told, "id": uuid4()}], "runs": []}
    assert studio.import_(other).json["refused"] == []
    filed = {each["id"]: each for each in studio.get("/recipes").json["recipes"]}
    assert [each["tags"] for each in filed.values()] == [["Größe M"], ["Größe M"]]
    # An export of before says nothing of it, and what is filed here stays.
    studio.client.put(path, json={"tags": ["mine"], "archived": False})
    assert studio.import_(export).json["refused"] == []
    here = {each["id"]: each for each in studio.get("/recipes").json["recipes"]}
    assert here[recipe["id"]]["tags"] == ["mine"]


def test_a_helper_finds_what_it_may_see_and_files_nothing(new_app: Any) -> None:
    locked = new_app(pairing=True)
    maker, helper = (Studio(paired(locked, role, role)) for role in ("maker", "helper"))
    recipe = uuid4()
    assert maker.put_recipe(recipe, make_recipe(title="Plain bar")).status_code == 201
    assert found(helper, "plain")["recipe"][0]["id"] == recipe
    refused = helper.client.put(f"/api/v1/recipes/{recipe}/filing", json={"tags": [], "archived": True})
    assert refused.status_code == 403


def filed(app: Any, texts: list[str]) -> None:
    """Rows of each table that is searched, whose folded text is this."""
    with app.app_context(), store.writing() as connection:
        for table in searching.INDEXED:
            rows = connection.execute(text(f"SELECT * FROM {table} LIMIT 1")).mappings().one()
            for place, said in enumerate(texts):
                row = {**rows, "id": uuid4(), "search": bench.folded(said)}
                if "created_at" in row:
                    row["created_at"] += place % 3
                connection.execute(insert(db.metadata.tables[table]), row)


def test_the_index_finds_what_a_walk_over_all_rows_finds_few_or_many(studio: Studio, app: Any) -> None:
    """Against Python's own `in`, on both databases; changed and deleted rows too, and words too short for an index."""
    batch(studio, "Plain bar", "26-1", "a note")
    words = ["ab", "aba", "babab", "x9-", 'a"b', "%_!", "\\\\", "ä'x", "qq"]
    texts = [f"{one}{two} {one}-{place}" for place, (one, two) in enumerate(product(words, repeat=2))]
    filed(app, texts)
    with app.app_context(), store.writing() as connection:
        for table in searching.INDEXED:
            connection.execute(
                text(f"UPDATE {table} SET search = search || ' zzz' WHERE search LIKE '%aba%'")
            )
            connection.execute(text(f"DELETE FROM {table} WHERE search LIKE '%x9-x9-%'"))
    asked = [*words, "aba zzz", "bab ab", "x9-x9", "zzz qq", "nothing has it", "a-7"]
    with app.app_context(), store.reading() as connection:
        for table, few in product(searching.INDEXED, (0, 5, 10_000)):
            there = connection.execute(text(f"SELECT id, search FROM {table}")).all()
            for each in asked:
                found = searching.words_of(each)
                with pytest.MonkeyPatch.context() as patched:
                    patched.setattr(searching, "FEW", few)
                    where, named = searching.conditions(connection, table, found)
                rows = connection.scalars(
                    text(f"SELECT id FROM {table} WHERE {' AND '.join(where)}"), named
                ).all()
                by_walk = {id for id, search in there if all(word in search for word in found)}
                assert set(rows) == by_walk and len(rows) == len(by_walk), (table, few, each)


@pytest.mark.database("sqlite")
def test_words_that_few_have_are_found_without_a_walk(studio: Studio, app: Any) -> None:
    batch(studio, "Plain bar", "26-1", "curdled")
    with app.app_context(), store.reading() as connection:
        where, named = searching.conditions(connection, "run_note", ["curdled"])
        plan = connection.execute(
            text(
                f"EXPLAIN QUERY PLAN SELECT id FROM run_note WHERE {' AND '.join(where)} ORDER BY at DESC, id"
            ),
            named,
        ).all()
    steps = [row[-1] for row in plan]
    assert any("VIRTUAL TABLE" in each for each in steps)
    assert not any(each.startswith("SCAN run_note USING") for each in steps), steps


@pytest.mark.database("postgresql")
def test_postgresql_has_an_index_of_every_three_letters(studio: Studio, app: Any) -> None:
    with app.app_context(), store.reading() as connection:
        defined = connection.scalars(
            text("SELECT indexdef FROM pg_indexes WHERE indexname LIKE '%_letters'")
        ).all()
    assert sorted(each.split(" ON ")[1].split()[0] for each in defined) == [
        "public.recipe",
        "public.run",
        "public.run_note",
    ]
    assert all("gin_trgm_ops" in each for each in defined)
