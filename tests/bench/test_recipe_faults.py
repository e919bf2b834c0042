"""What a recipe or a kit can have wrong: each fault names its place and the way out."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import DEMO_RECIPES, THREE_PART, demo_kit, make_document, sheet_of, untouched, written

from bench import BenchError, RecipeError, canonical, check_recipe, read_kit, read_recipe, sheet_text
from bench.cautions import HAZARDS, caution
from bench.sheet_words import cautions_of
from bench.words import catalogue, language


def fault_in(document) -> BenchError:
    with pytest.raises(BenchError) as fault:
        read_recipe(document)
    assert fault.value.says.endswith((".", "?"))
    return fault.value


def changed(*path, to, document=None):
    """The three-part demo with one thing written differently."""
    document = document or written(THREE_PART)
    place = document
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = to
    return document


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_the_demo_recipes_hold_together(name):
    found = check_recipe(read_recipe(written(name)), kit=read_kit(written("kit.json")))

    levels = [finding["level"] for finding in found]
    assert "will_not_run" not in levels
    assert levels.count("look") <= 5  # a sensible handful: alcohol near a heater, a look like a cake


def do(key, *after, **other):
    return {"id": key, "kind": "do", "title": key.capitalize(), "after": list(after), **other}


def test_steps_that_wait_for_each_other_are_named_in_their_circle():
    document = make_document("to texture", steps=[do("sift", "press"), do("mix", "sift"), do("press", "mix")])

    fault = fault_in(document)
    assert "mix.sift → mix.mix → mix.press → mix.sift" in fault.says
    assert fault.where.startswith("components.0.steps.")


def test_a_circle_through_two_parts_is_found_too():
    document = written(THREE_PART)
    document["components"][0]["steps"][0]["after"] = ["topping.beat"]  # which waits for the bases to dry

    assert "circle" in fault_in(document).says


PLACES = [
    # what is written, where the fault is, what the way out says
    (make_document("3 stone"), "components.0.lines.0.amount", "Use g, kg"),
    (make_document("3"), "components.0.lines.0.amount", "Add one"),
    (make_document("1 tsp"), "components.0.lines.0.amount", "measures"),
    (make_document("240 g", steps=[do("sift")]), "components.0.lines.0", "weigh step"),
    (make_document("to texture", steps=[do("sift", "sift")]), "components.0.steps.0.after", "after itself"),
    (make_document("to texture", steps=[do("sift", "knead")]), "components.0.steps.0.after", "part.step"),
    (make_document({"amount": "240 g", "ingredient": "gold"}), "components.0.lines.0.ingredient", "i0"),
    (make_document({"amount": "240 g", "tolerance": "0 %"}), "components.0.lines.0.tolerance", "0.01 %"),
    (make_document("240 g", part_loss="100 %"), "components.0.loss", "below 100 %"),
    (make_document("240 g", part_loss="99.99999 %"), "components.0.loss", "below 100 %"),
    (make_document("240 g", part_piece="3 ml"), "components.0.piece", "a mass"),
    (make_document("240 g", part_piece="0.0001 g"), "components.0.piece", "0.001 g"),
    (make_document("240 g", part_stays_behind="300 g"), "components.0", "stays_behind"),
    (make_document("2 parts", "1 part"), "components.0.lines", "what one part is"),
    (make_document("2 parts", "100 g"), "components.0.lines", "one part"),
    (make_document("50 %", "40 %", part_piece="10 g"), "components.0.lines", "not 100 %"),
    (make_document("60 %", "50 %", part_piece="10 g"), "components.0.lines", "room for the rest"),
    (make_document("240 g", written_for=0), "written_for", "1 is the least"),
    (make_document("240 g", written_for=12.0), "written_for", "without a point"),
    (make_document("240 g", written_for=True), "written_for", "whole number"),
    (make_document("240 g", format="bowlside-recipe/9"), "format", "bowlside-recipe/1"),
    (make_document("240 g", colour="red"), "", "It could be"),
    (make_document("240 g", part_id="assembly"), "components.0.id", "another name"),
    (make_document("240 g", part_id="mix\n"), "components.0.id", "small letters"),
    (make_document("240 g", title="\ud800"), "", "Write it again"),
    (make_document("240 g", ingredients={"lamp_oil": {}}), "ingredients.lamp_oil.name", "“name” is missing"),
    (changed("components", 0, "steps", 17, "usual", to="3 h"), "components.0.steps.17", "earliest, then usual"),
    (changed("components", 0, "steps", 16, "of", to=["gold"]), "components.0.steps.16.of", "split step"),
    (changed("components", 0, "steps", 9, "portions", 0, "mass", to="1 g"), "components.0.steps.9.portions", "not both"),
    (changed("components", 0, "steps", 9, "portions", 0, "id", to="bowl"), "components.0.steps.9.portions", "of its own"),
    (changed("components", 0, "steps", 9, "portions", 0, "id", to="blue_half"), "components.0.steps.9.portions", "each portion"),
    (changed("components", 0, "steps", 7, "tips", to=["bowl"]), "components.0.steps.7.tips", "into itself"),
    (changed("components", 0, "steps", 1, "kind", to="boil"), "components.0.steps.1.kind", "weigh, do, melt"),
    (changed("components", 1, "id", to="base"), "components.1.id", "its own id"),
    (changed("assembly", "takes", 0, "component", to="gold"), "assembly.takes.0.component", "base"),
    (changed("assembly", "takes", to=[{"component": "base"}]), "assembly.takes", "Nothing takes"),
]  # fmt: skip


@pytest.mark.parametrize(("document", "where", "way_out"), PLACES)
def test_a_fault_names_its_place_and_the_way_out(document, where, way_out):
    fault = fault_in(document)

    assert fault.where == where
    assert way_out in fault.says


def test_several_parts_need_an_assembly():
    document = written(THREE_PART)
    del document["assembly"]

    assert fault_in(document).where == "assembly"


@pytest.mark.parametrize("amount", ["240 g", "2 tsp", "2 parts", "3 %", "12 drops", "2 pieces", "to texture"])
def test_a_line_that_no_step_weighs_is_missed_unless_it_goes_in_to_texture(amount):
    document = make_document("100 g", amount, measures="us", part_part="10 g")
    document["components"][0]["steps"][0]["lines"] = ["l0"]

    if amount == "to texture":
        assert read_recipe(document)
    else:
        assert fault_in(document).where == "components.0.lines.1"


@pytest.mark.parametrize(
    "name", ["Lye", "Sodium hydroxide, beads", "KOH 90 %", "Caustic-soda", "potassium  hydroxide", "NaOH"]
)
def test_lye_is_outside_this_tool(name):
    fault = fault_in(make_document("240 g", ingredients={"i0": {"name": name}}))

    assert isinstance(fault, RecipeError)
    assert fault.where == "ingredients.i0"
    assert "outside this tool" in fault.says and "ready-made base" in fault.says


@pytest.mark.parametrize("name", ["Lyceum rose", "Polyester glitter", "Kohl black mica", "Barley starch"])
def test_a_name_that_only_looks_like_lye_is_not(name):
    assert read_recipe(make_document("240 g", ingredients={"i0": {"name": name}}))


@pytest.mark.parametrize(
    "name",
    [
        "Rose 🌹 salt",
        "ملح البحر",
        "‮backwards‬",
        "<script>alert(1)</script>",
        "a & b \"c\" 'd'",
        "é\u0301",
        "x\n\ty",
        "\x00",
    ],
)
def test_a_name_in_any_letters_comes_through_untouched(name):
    recipe = read_recipe(make_document("240 g", ingredients={"i0": {"name": name}}, title=name))
    sheet = sheet_of(recipe)

    assert sheet["lines"][0]["name"] == name
    assert json.loads(canonical(sheet).encode())["recipe"]["title"] == name
    assert name in sheet_text(sheet)


def test_a_name_of_ten_thousand_letters_is_told_how_long_it_may_be():
    fault = fault_in(make_document("240 g", ingredients={"i0": {"name": "a" * 10_000}}))

    assert (fault.where, "10\u2009000" in fault.says, "200" in fault.says) == (
        "ingredients.i0.name",
        True,
        True,
    )


def test_reading_a_recipe_leaves_the_document_as_it_was():
    document = written(THREE_PART)
    (before,) = untouched(document)

    read_recipe(document)

    assert document == before


# Anything at all


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=10), inner, max_size=4),
    max_leaves=12,
)


@given(JSON)
def test_any_json_is_a_recipe_or_a_bench_error(document):
    for read in (read_recipe, read_kit):
        with pytest.raises(BenchError):
            read(document)


def every_path(node, path=()):
    yield path
    pairs = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, inner in pairs:
        yield from every_path(inner, (*path, key))


PATHS = {name: [path for path in every_path(written(name)) if path] for name in DEMO_RECIPES}
TEMPTING = st.sampled_from(
    ["", "x", "240 g", "3 %", "2 parts", "to texture", "1 tsp", "12 drops", "0 g", "bowl", "base", "jug", "press",
     "99.99999 %", "0.0001 g", "10 tonnes", 0, 1, -1, 12.0, 10**30, [], {}, None, True, ["sift"], ["sift", "sift"], "\ud800"]
)  # fmt: skip


@settings(max_examples=250)
@given(st.data())
def test_a_recipe_with_a_few_things_written_wrong_is_a_sheet_or_a_bench_error(data):
    """Every error past the reading would be a crash at the bench, so the sheet is made as well."""
    name = data.draw(st.sampled_from(DEMO_RECIPES))
    document = written(name)
    for path in data.draw(st.lists(st.sampled_from(PATHS[name]), min_size=1, max_size=3)):
        place = document
        try:
            for step in path[:-1]:
                place = place[step]
            if data.draw(st.booleans()):
                place[path[-1]] = data.draw(TEMPTING | JSON)
            else:
                del place[path[-1]]
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took this place away

    try:
        recipe = read_recipe(document)
        check_recipe(recipe)
        sheet = sheet_of(recipe, demo_kit())
    except BenchError as fault:
        assert fault.says
    else:
        assert b"\\ud" not in canonical(sheet).encode()
        assert "." in sheet_text(sheet)


def test_a_document_nested_nine_hundred_deep_is_refused_in_words():
    deep: list = []
    for _ in range(900):
        deep = [deep]

    for path in (("title",), ("components",), ("components", 0, "steps", 0, "kind"), ("measures",)):
        assert fault_in(changed(*path, to=deep)).says


# The kit


@pytest.mark.parametrize(
    ("change", "where"),
    [
        (
            {"vessels": [{"id": "b", "name": "B", "kind": "bowl", "empty": "one", "holds": "3 kg"}]},
            "vessels.0.empty",
        ),
        ({"moulds": [{"id": "m", "name": "M", "shape": "bar", "cavities": 0}]}, "moulds.0.cavities"),
        ({"moulds": [{"id": "m", "name": "M", "shape": "bar", "cavities": 6.0}]}, "moulds.0.cavities"),
        (
            {"heaters": [{"id": "h", "name": "H", "kind": "microwave", "absorbed_w": 0}]},
            "heaters.0.absorbed_w",
        ),
        ({"scales": [{"id": "s", "name": "S", "capacity": "5 l", "division": "1 g"}]}, "scales.0.capacity"),
        ({"scales": "none"}, "scales"),
        ({"ovens": []}, ""),
    ],
)
def test_a_fault_in_a_kit_names_its_place(change, where):
    with pytest.raises(BenchError) as fault:
        read_kit({"format": "bowlside-kit/1", "scales": [], **change})

    assert fault.value.where == where


# Cautions


def test_every_hazard_says_what_to_do_and_where_the_words_come_from():
    for tag, source in (("en", "Source: "), ("de", "Quelle: ")):
        entries = catalogue.read(language(tag).sources["cautions"], "cautions")
        assert set(entries) == {f"cautions-{hazard}" for hazard in HAZARDS}
        assert all(entry.comment.content.startswith(source) for entry in entries.values())


@pytest.mark.parametrize("hazard", sorted(HAZARDS))
def test_a_hazard_of_an_ingredient_is_said_before_it_is_weighed(hazard):
    sheet = sheet_of(
        read_recipe(make_document("240 g", ingredients={"i0": {"name": "It", "hazards": [hazard]}}))
    )

    assert sheet["steps"][0]["hazards"] == [hazard]
    assert caution(hazard) in cautions_of(sheet["steps"][0])


def test_hot_soap_is_said_to_burn_by_the_shorter_of_the_published_times():
    """60 °C: published tables say 5 s or 6 s; warn on the shorter."""
    assert "60 °C" in caution("hot_soap") and "5 s" in caution("hot_soap")


def test_alcohol_is_said_to_light_below_room_warmth():
    """2-propanol: flash point 12 °C, IEC 60079-20-1:2010."""
    assert "12 °C" in caution("alcohol")
