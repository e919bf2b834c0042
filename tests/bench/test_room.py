"""The room's air and the scale's test weight before the first pour, and the pH where the recipe wants one: asked, kept."""

from __future__ import annotations

import pytest
from checking import ACID, BICARBONATE, WRAP, make, wait, weigh
from workshop import DEMO_RECIPES, Maker, demo_recipe, make_kit, sheet_of

from bench import read_recipe, record
from bench.prompting.room import allowed
from bench.states import HOUR_MS


def fizz(**other):
    steps = [weigh("in", "l0", "l1"), {"id": "press", "kind": "pieces", "title": "Press"}]
    return make("200 g", "100 g", facts=[BICARBONATE, ACID], steps=steps, **other)


def at_the_bench(document, **scale):
    kit = make_kit()
    kit["scales"][0] |= scale
    return Maker(sheet_of(read_recipe(document), kit))


def ids(maker):
    return [each["id"] for each in maker.prompt["answers"]]


def test_air_is_asked_for_before_a_fizz_alone_or_where_the_recipe_says_so():
    assert read_recipe(fizz())["asks_air"] == ["mix"]
    assert "asks_air" not in read_recipe(fizz(asks_air=False))
    plain = make("100 g", facts=[{"kind": "oil"}])
    assert "asks_air" not in read_recipe(plain)
    assert read_recipe(plain | {"asks_air": True})["asks_air"] == ["mix"]
    assert any("asks_air" in demo_recipe(name) for name in DEMO_RECIPES)


def test_a_part_with_a_spray_to_texture_is_asked_about_too():
    """The demo's fizz has one, which nobody weighs."""
    document = fizz()
    document["components"][0]["lines"].append({"id": "l2", "ingredient": "i0", "amount": "to texture"})
    assert "air" in ids(at_the_bench(document))


def test_it_is_noted_once_and_kept():
    maker = at_the_bench(fizz())
    assert "air" in ids(maker)[:3] and "Read the room’s air first." in maker.prompt["says"]
    maker.tell("aired", humidity=48, mk=21_000)
    assert "air" not in ids(maker) and "air" not in maker.prompt["says"]
    assert maker.prompt["answers"][0]["ask"] == ""

    (told,) = record(maker.sheet, maker.state, maker.entries)["air"]
    assert (told["humidity"], told["mk"], told["device"]) == (48, 21_000, "phone")


@pytest.mark.parametrize(("humidity", "stops"), [(64, False), (65, True), (90, True)])
def test_damp_air_is_a_question_before_the_first_pour_and_the_maker_may_go_on(humidity, stops):
    maker = at_the_bench(fizz())
    maker.tell("aired", humidity=humidity)
    reads, other = maker.prompt["answers"][:2]
    assert bool(reads["ask"]) is bool(other["ask"]) is stops
    assert not stops or f"{humidity} % humidity" in reads["ask"]
    # and it is said before the powder is in, with a way to read the air again once it is drier
    assert (f"{humidity} % humidity" in maker.prompt["says"]) is ("air" in ids(maker)) is stops

    maker.strong()  # the second pour is no longer the first
    assert maker.prompt["answers"][0]["ask"] == ""
    assert record(maker.sheet, maker.state, maker.entries)["air"][0]["humidity"] == humidity


def test_air_that_dried_meanwhile_asks_nothing_and_an_undone_reading_is_asked_for_anew():
    maker = at_the_bench(fizz())
    maker.tell("aired", humidity=80)
    maker.tell("aired", humidity=50)
    assert maker.prompt["answers"][0]["ask"] == ""
    for each in maker.entries[:]:
        maker.tell("undone", entry=each["id"])
    assert "air" in ids(maker)


def test_a_sheet_that_asks_for_no_air_is_as_it_was():
    maker = at_the_bench(make("100 g", facts=[{"kind": "oil"}]))
    assert "air" not in ids(maker)
    maker.tell("aired", humidity=80)
    assert maker.prompt["answers"][0]["ask"] == ""


def test_a_scale_with_a_test_weight_is_proved_before_the_first_pour():
    maker = at_the_bench(fizz(asks_air=False), test_mg=100_000)
    maker.choose("prove", reading=97_000)
    assert "Scale 0 read 97 g for 100 g. Set it right first." in maker.prompt["says"]
    assert "prove_again" in ids(maker)[:3], "set right, it is asked for at hand"
    maker.choose("prove_again", reading=100_000)
    assert "Set it right" not in maker.prompt["says"]
    assert not {"prove", "prove_again"} & set(ids(maker))

    told = record(maker.sheet, maker.state, maker.entries)["proved"]
    assert [each["mg"] for each in told] == [97_000, 100_000]
    assert "prove" not in ids(at_the_bench(fizz()))  # a kit of earlier has no test weight


def lotion(*steps, **ph):
    done = [weigh("in", "l0"), {"id": "stir", "kind": "do", "title": "Stir"}, *steps]
    return make(
        "100 g", facts=[{"kind": "water"}], steps=done, good_piece={"ph": ph or {"least": "5", "most": "6.5"}}
    )


READ = {
    "id": "read",
    "kind": "check",
    "title": "Read the pH",
    "ask": "Is it right?",
    "not_yet": {"do": "A drop of citric."},
}


def until(maker, kind):
    """Made as it is asked, up to a prompt of that kind."""
    while maker.prompt["kind"] != kind:
        assert not any(each["kind"] == "met" for each in maker.prompt["answers"])
        first = next(each for each in maker.prompt["answers"] if each["strong"])
        maker.answer(first, reading=100_000 if first["input"] == "reading" else None)


def test_a_ph_is_asked_at_the_check_that_names_it_until_it_is_as_wanted():
    maker = at_the_bench(lotion(READ))
    until(maker, "check")
    yes, no = (each for each in maker.prompt["answers"] if each["kind"] == "met")
    assert (yes["label"], no["label"]) == ("pH 5 to 6.5: it is", "pH 5 to 6.5: it is not")
    assert yes["input"] == "note" and yes["body"] == {"criterion": "ph", "answer": "yes"}
    maker.tell("met", **no["body"], text="7.1")
    assert "ph_yes" in ids(maker)  # mended, and read again
    maker.tell("met", **yes["body"], text="6.0")
    assert "ph_yes" not in ids(maker)
    (told,) = record(maker.sheet, maker.state, maker.entries)["criteria"]
    assert (told["found"]["answer"], told["found"]["text"]) == ("yes", "6.0")


@pytest.mark.parametrize(
    ("wants", "words"),
    [({}, "pH 5 to 6.5"), ({"least": "8"}, "pH 8 or more"), ({"most": "5,5"}, "pH 5.5 or less")],
)
def test_where_no_check_names_it_the_end_asks_and_the_batch_may_end_without(wants, words):
    maker = at_the_bench(lotion(**wants))
    until(maker, "do")
    assert all("also" not in each for each in maker.prompt["answers"]), "the last touch would pass it over"
    until(maker, "finish")
    assert f"Read the pH now: {words} is wanted." in maker.prompt["says"]
    assert ids(maker) == ["ph_yes", "ph_no", "finish"]
    maker.tell("met", criterion="ph", answer="yes", text="6")
    assert ids(maker) == ["finish"] and "pH" not in maker.prompt["says"]


@pytest.mark.parametrize(
    ("weight", "divisions"),
    [(500, 1), (501, 2), (2000, 2), (2001, 3), (4000, 3), (4001, 5)],
)
def test_how_far_a_scale_in_use_may_be_off(weight, divisions):
    """NIST Handbook 44, 2.20 Table 6, maintenance tolerance of class III, in divisions."""
    assert allowed(weight * 10, 10) == divisions * 10


def test_in_damp_air_the_bench_counts_down_how_long_a_piece_stands_unwrapped():
    """In dry air it has a day (common practice), which is nobody's hurry."""
    press = {"id": "press", "kind": "pieces", "title": "Press"}
    steps = [weigh("in", "l0", "l1"), press, wait(), WRAP]
    maker = at_the_bench(make("200 g", "100 g", facts=[BICARBONATE, ACID], steps=steps))
    maker.tell("aired", humidity=70)
    while maker.prompt["step"] != "mix.1.rest":
        maker.strong()
    assert maker.sees["windows"] == []
    maker.tell("done", step="mix.1.rest")

    (window,) = maker.sees["windows"]
    assert (window["step"], window["latest_at"] - window["opened_at"]) == ("mix.1.wrap", 2 * HOUR_MS)
    assert "It takes up water" in maker.prompt["why"]
    maker.tell("aired", humidity=45)
    assert maker.sees["windows"] == []
