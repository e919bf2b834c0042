"""Swapping: the arithmetic by mass, by active share and by volume, and what else it changes."""

from __future__ import annotations

import pytest
from workshop import THREE_PART, make_document, sheet_of, sized, untouched, written

from bench import BenchError, RecipeError, SizeError, read_recipe, swap_effects, swaps_of
from bench.yields import make_mg


def effects(amount, substitute=None, old=None, new=None):
    """What changes when `other` stands in for i0, of which the line has this amount."""
    document = make_document(
        {"amount": amount, "substitutes": [{"ingredient": "other", **(substitute or {})}]}, "300 g"
    )
    document["measures"] = "metric"
    document["ingredients"]["i0"] |= old or {}
    document["ingredients"]["other"] = {"name": "Other", **(new or {})}
    return swap_effects(read_recipe(document), "mix.l0", "other")


def density(g_per_ml):
    return {"density": {"g_per_ml": g_per_ml, "source": "made up"}}


@pytest.mark.parametrize(
    ("amount", "substitute", "old", "new", "by", "before", "after"),
    [
        ("100 g", {}, {}, {}, "mass", 100_000, 100_000),
        ("100 g", {"amount": "80 g"}, {}, {}, "amount", 100_000, 80_000),
        ("100 g", {}, {"active": "68 %"}, {"active": "34 %"}, "active", 100_000, 200_000),
        ("91.427 g", {}, {"active": "100 %"}, {"active": "91.427 %"}, "active", 91_427, 100_000),
        ("100 g", {}, {"active": "68 %"}, {}, "mass", 100_000, 100_000),
        ("100 ml", {}, density("1.2"), density("0.9"), "volume", 120_000, 90_000),
        ("100 ml", {}, density("1.2"), {}, "volume", 120_000, None),
        ("3 pieces", {}, {}, {}, "count", None, None),
        ("to texture", {}, {}, {}, "texture", None, None),
    ],
)
def test_a_stand_in_is_worked_out_by_what_is_known(amount, substitute, old, new, by, before, after):
    told = effects(amount, substitute, old, new)

    assert (told["by"], told["mg_before"], told["mg_after"]) == (by, before, after)


@pytest.mark.parametrize("active", ["0 %", "101 %", "12 g", "lots"])
def test_an_active_share_that_cannot_be_is_refused_where_it_stands(active):
    document = make_document("100 g")
    document["ingredients"]["i0"]["active"] = active

    with pytest.raises(BenchError) as fault:
        read_recipe(document)
    assert fault.value.where == "ingredients.i0.active"


def test_an_unknown_stand_in_is_still_refused():
    with pytest.raises(RecipeError):
        read_recipe(make_document({"amount": "1 g", "substitutes": [{"ingredient": "nothing"}]}))


def test_what_the_swap_says_of_the_method():
    told = effects("100 g", {"says": "Melt it alone first.", "changes_method": True}, new=density("1"))

    assert "Melt it alone first." in told["says"] and told["says"][-1] == "The method changes."
    assert effects("100 g")["says"][-1] == "The method stays as it is."


def test_what_the_swap_changes_in_the_check_and_on_the_label():
    told = effects("1 g", old={"kind": "mica", "inci": "Mica"}, new={"kind": "lake", "inci": "CI 42090"})

    assert [each["what"] for each in told["findings_new"]] == ["Other is a lake."]
    assert [each["what"] for each in told["findings_gone"]] == ["Ingredient 0 is a mica."]
    assert (told["label_new"], told["label_gone"]) == (["CI 42090"], ["Mica"])


def test_what_another_line_still_uses_stays_on_the_label():
    told = effects("1 g", old={"inci": "Glycerin"}, new={"inci": "Glycerin"})

    assert (told["label_new"], told["label_gone"]) == ([], [])


def test_a_swap_leaves_the_recipe_as_it_is():
    recipe = read_recipe(written(THREE_PART))
    before = untouched(recipe)

    assert swaps_of(recipe, "base.butter") == ["shea"]
    assert swap_effects(recipe, "base.butter", "shea")["mg_after"] == 55_000
    assert untouched(recipe) == before


def test_a_swap_by_another_mass_does_not_seem_to_leave_the_part_short():
    """The part is sized by its pieces whatever goes in, so the check sees it at the same mass."""
    document = make_document({"amount": "100 g", "substitutes": [{"ingredient": "i1"}]}, "300 g")
    document["ingredients"]["i0"]["active"] = "60 %"
    document["ingredients"]["i1"]["active"] = "30 %"

    told = swap_effects(read_recipe(document), "mix.l0", "i1")

    assert told["mg_after"] == 2 * told["mg_before"]
    assert not [each for each in told["findings_new"] if "add up" in each["what"]]


def test_the_sheet_weighs_what_the_swap_says():
    document = make_document({"amount": "100 g", "substitutes": [{"ingredient": "i1"}]}, "300 g")
    document["ingredients"]["i0"]["active"] = "60 %"
    document["ingredients"]["i1"]["active"] = "30 %"

    sheet = sheet_of(read_recipe(document), swaps={"mix.l0": "i1"})

    assert [line["mg"] for line in sheet["lines"]] == [160_000, 240_000]  # 200 to 300, for the same 400 g


@pytest.mark.parametrize(("line", "ingredient"), [("base.nothing", "shea"), ("base.butter", "salt")])
def test_a_swap_that_cannot_be_names_the_field(line, ingredient):
    with pytest.raises(SizeError) as fault:
        swap_effects(read_recipe(written(THREE_PART)), line, ingredient)
    assert fault.value.where == ("line" if "nothing" in line else "ingredient")


# What is left: a mix to use up


@pytest.mark.parametrize("mg", [180_000, 200_000, 1_000_000, 1_857_143])
def test_a_mix_that_is_left_gives_as_many_whole_pieces_as_it_holds(mg):
    recipe = read_recipe(written(THREE_PART))
    base = recipe["components"][0]

    pieces = sized(recipe, by="mix", component="base", mg=mg)["size"]["pieces"]

    assert make_mg(base, pieces) <= mg < make_mg(base, pieces + 1)


def test_a_mix_leaves_its_spares_aside():
    recipe = read_recipe(written(THREE_PART))
    embed = recipe["components"][1]  # two spares; a mg more, since what is made is rounded to one

    assert sized(recipe, by="mix", component="embed", mg=make_mg(embed, 14) + 1)["size"]["pieces"] == 12


@pytest.mark.parametrize(
    ("component", "mg", "where"), [("base", 1000, "mg"), ("assembly", 180_000, "component")]
)
def test_a_mix_too_small_or_of_no_part_is_refused(component, mg, where):
    with pytest.raises(SizeError) as fault:
        sized(read_recipe(written(THREE_PART)), by="mix", component=component, mg=mg)
    assert fault.value.where == where
