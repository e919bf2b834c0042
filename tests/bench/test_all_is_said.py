"""All that a recipe says reaches the bench, where it is of use, once, and in few words beside the number."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import (
    DEMO_RECIPES,
    HOUR,
    MINUTE,
    SECOND,
    THREE_PART,
    Json,
    Maker,
    demo_sheet,
    make_document,
    sheet_of,
    unsaid,
    walk,
    words_of,
    written,
)

from bench import last_times, read_recipe, record, sheet_text
from bench.brief import MOST_SHORT, MOST_WORDS, brief, in_short
from bench.cautions import HAZARDS, caution
from bench.shapes.recipe import Hazard
from bench.words import languages, speaking

SENTENCES = st.lists(
    st.lists(st.sampled_from(["pour", "it", "slowly", "1.5", "°C", "no", "froth,"]), min_size=1, max_size=30),
    max_size=5,
).map(lambda sentences: " ".join(" ".join(words) + "." for words in sentences))


def answers(prompt: Json) -> dict[str, Json]:
    return {answer["id"]: answer for answer in prompt["answers"]}


def at(step: str, name: str = THREE_PART) -> Maker:
    maker = Maker(demo_sheet(name))
    maker.run_to(step)
    return maker


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_each_title_instruction_and_reason_of_a_recipe_stands_in_a_prompt_of_its_step(name: str) -> None:
    assert unsaid(demo_sheet(name)) == []


@settings(max_examples=25)
@given(
    st.lists(st.tuples(st.sampled_from(["weigh", "do", "wait", "check", "pieces"]), SENTENCES), max_size=5)
)
def test_so_it_does_of_any_recipe(steps: list[tuple[str, str]]) -> None:
    more = {
        "weigh": {"lines": ["l0", "l1"]},
        "do": {},
        "wait": {"word": "set", "earliest": "1 h", "usual": "2 h", "test": "It gives no more."},
        "check": {"ask": "Does it hold?", "not_yet": {"do": "Stir."}},
        "pieces": {"one_by_one": True},
    }
    made: list[Json] = []
    for index, (kind, says) in enumerate(steps):
        step = {"id": f"s{index}", "kind": kind, "title": f"Step {index}", **more[kind]}
        if kind == "weigh":
            step["lines"] = [f"l{2 * index}", f"l{2 * index + 1}"]
        made.append({**step, **({"says": says} if says else {})})
    lines = [f"{10 + place} g" for place in range(2 * len(made) + 1)]
    weighed = {line for step in made for line in step.get("lines", [])}
    rest = [f"l{place}" for place in range(len(lines)) if f"l{place}" not in weighed]
    made.insert(0, {"id": "rest", "kind": "weigh", "title": "The rest", "lines": rest})

    assert unsaid(sheet_of(read_recipe(make_document(*lines, steps=made)))) == []


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_what_is_said_of_a_whole_weighing_is_said_before_the_first_pour_alone(name: str) -> None:
    sheet = demo_sheet(name)
    steps = {step["id"]: step for step in sheet["steps"]}
    said = [(prompt["step"], words_of(prompt)) for prompt in walk(sheet) if prompt["kind"] == "weigh"]

    for key in {step for step, _ in said}:
        first, *others = [words for step, words in said if step == key]
        assert steps[key]["title"] in first
        assert not any(steps[key]["title"] in words for words in others)
        assert not steps[key]["says"] or not any(steps[key]["says"] in words for words in others)


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_few_words_stand_beside_the_number(name: str) -> None:
    """At most 25, or else the title and one sentence of the recipe's own."""
    for prompt in walk(demo_sheet(name)):
        if prompt["number"] or prompt["kind"] == "wait":
            beside = f"{prompt['title']} {prompt['says']} {prompt['why']}"
            own = prompt["says"].partition("then zero. ")[2] or prompt["says"]
            stops = own.rstrip(".!?").count(". ") + own.count("? ")
            assert len(beside.split()) <= MOST_WORDS or (stops == 0 and prompt["more"]), beside


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_what_to_zero_is_said_first_and_whole_beside_the_number(name: str) -> None:
    """A reading means nothing until the vessel stands on its scale and that was zeroed."""
    sheet = demo_sheet(name)
    scales = {scale["name"] for scale in sheet["kit"]["scales"]}
    zeroed = [prompt for prompt in walk(sheet) if "then zero." in words_of(prompt)]

    assert zeroed
    for prompt in zeroed:
        scale, stands = prompt["says"].split(". ")[:2]
        assert scale in scales and stands.rstrip(".").endswith(" on, then zero"), prompt["says"]


@given(SENTENCES, SENTENCES, st.booleans())
def test_what_stands_first_leaves_less_room_for_the_rest(says: str, why: str, urgent: bool) -> None:
    cut = brief({"title": "Pour", "says": says, "why": why}, urgent, "Scale. Bowl on, then zero.")

    assert len(f"{cut['says']} {cut['why']}".split()) <= MOST_WORDS - 6
    assert sorted(f"{cut['says']} {cut['more']} {cut['why']}".split()) == sorted(f"{says} {why}".split())


@given(SENTENCES, SENTENCES, st.booleans())
def test_words_are_cut_between_sentences_and_none_is_lost(says: str, why: str, urgent: bool) -> None:
    cut = brief({"title": "Pour", "says": says, "why": why}, urgent)

    assert sorted(f"{cut['says']} {cut['more']} {cut['why']}".split()) == sorted(f"{says} {why}".split())
    assert f"{cut['says']} {cut['more']}".split()[: len(says.split())] == says.split()


@pytest.mark.parametrize("hazard", HAZARDS)
def test_each_caution_has_a_short_form_that_is_not_cut_off(hazard: Hazard) -> None:
    for tag in languages():
        with speaking(tag):
            full = caution(hazard)
            short = in_short(full)

            assert 2 <= len(short.split()) <= MOST_SHORT
            assert "…" not in short and full.startswith(short)


def test_a_caution_with_no_short_clause_is_cut_after_five_words() -> None:
    assert in_short("The jug and the hand that holds it must be dry.") == "The jug and the hand…"


def test_a_caution_stands_in_full_until_a_step_that_has_it_was_begun() -> None:
    maker = at("embed.1.melt")
    before = {caution["full"]: caution["seen"] for caution in maker.prompt["cautions"]}
    assert [seen for full, seen in before.items() if full.startswith("Microwaved")] == [False]

    maker.choose("heat")

    assert all(caution["seen"] for caution in maker.prompt["cautions"])


def test_a_cup_says_where_it_goes_next_and_says_it_once() -> None:
    prompts = [prompt for prompt in walk(demo_sheet()) if prompt["weigh"] and prompt["weigh"]["how"] == "cup"]
    names = {vessel["id"]: vessel["name"] for vessel in demo_sheet()["vessels"]}

    assert prompts
    for prompt in prompts:
        place = names[prompt["weigh"]["vessel"]]
        assert words_of(prompt).lower().count(place.lower()) == 1
        step = next(step for step in demo_sheet()["steps"] if step["id"] == prompt["step"])
        assert (
            f"Then into {place}." in words_of(prompt)
            or place.lower() in step["says"].lower() + step["title"].lower()
        )


def test_a_wait_asks_its_question_when_it_can_be_answered() -> None:
    maker = at("base.1.drying")
    test = "Tap one: it sounds hard"
    assert test not in words_of(maker.prompt) and "never in an oven" in words_of(maker.prompt)

    maker.wait(24 * HOUR)

    due = maker.prompt_for("base.1.drying")
    assert f"Dry yet? {test}" in f"{due['says']} {due['more']}"


def test_what_cannot_be_gone_back_from_is_asked_first() -> None:
    maker = at("base.1.drying")
    wait = next(wait for wait in maker.sees["waits"] if wait["step"] == "base.1.drying")
    maker.wait(wait["earliest_at"] - maker.at - 2 * HOUR - 22 * MINUTE)
    ask = answers(maker.prompt_for("base.1.drying"))["done"]["ask"]
    assert ask == "2 h 22 min before the earliest. Is it really dry?"

    maker.wait(3 * HOUR)

    assert answers(maker.prompt_for("base.1.drying"))["done"]["ask"] == ""


def test_what_right_is_stands_before_it_is_judged() -> None:
    assert "Right: It holds, like damp sand." in words_of(at("base.1.work_rose").prompt)
    assert "Right: Even, no clumps." in words_of(at("embed.1.colour").prompt)
    assert "Right: Only just liquid" in words_of(at("embed.1.melt").prompt)


def test_both_ways_to_say_not_yet_begin_what_they_name_and_count_it() -> None:
    maker = at("embed.1.melt")
    maker.choose("heat")
    maker.wait(15 * SECOND)
    assert answers(maker.prompt)["again"]["label"] == "Not yet: 15 s more"
    maker.choose("again")

    # The second of three is followed by its rest, and one look ends both: no touch is asked for in between.
    assert maker.prompt["says"].startswith("Stir well, rest 30 s, then check: ")
    (burst,) = maker.sees["guides"]
    assert (burst["rests_at"] - burst["began_at"], burst["until"] - burst["rests_at"]) == (15_000, 30_000)
    maker.wait(15 * SECOND)
    assert not any(answer["strong"] for answer in maker.prompt["answers"])
    maker.wait(30 * SECOND)
    assert answers(maker.prompt)["again"]["label"] == "Not yet: 10 s more"
    maker.choose("again")
    maker.wait(10 * SECOND)
    assert answers(maker.prompt)["again"]["label"] == "Not yet: rest 30 s"  # more than was expected

    maker.choose("again")

    assert maker.prompt["number"] == {"mg": None, "text": "30 s", "caption": "rest, then 10 s more"}
    (rest,) = maker.sees["guides"]
    assert rest["until"] - rest["began_at"] == 30 * SECOND and rest["phase"] == "counting"
    assert not answers(maker.prompt)["heat"]["strong"]
    maker.wait(30 * SECOND)
    assert answers(maker.prompt)["heat"]["strong"]
    maker.choose("heat")
    assert maker.prompt["kind"] == "heating" and len(maker.sees["guides"]) == 1


def test_over_a_water_bath_it_is_heat_with_looks_and_no_rests() -> None:
    maker = at("base.1.melt_butter")
    words = []
    while maker.prompt["step"] == "base.1.melt_butter":
        words += [words_of(maker.prompt), maker.prompt["number"]["caption"]]
        words += [answer["label"] for answer in maker.prompt["answers"]]
        maker.strong()
    told = " ".join([*words, sheet_text(maker.sheet).partition("Melt the butter")[2].partition("[ ]")[0]])

    assert "burst" not in told and "rest" not in told
    assert (
        "Usually 3 min." in told and "heat 2, then stir and check" in told and "heats: 2 min, 1 min" in told
    )
    heated = record(maker.sheet, maker.state, maker.entries)["bursts"]
    assert [(each["word"], each["used"]) for each in heated] == [("heat", 2)]
    assert last_times([record(maker.sheet, maker.state, maker.entries)])["base.melt_butter"] == [
        "heated 2 times"
    ]


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_answers_never_change_places_from_one_prompt_of_a_step_to_the_next(name: str) -> None:
    """Where it is not melted, right or over yet for many times, and while it counts and when it is over."""
    maker, tries = Maker(demo_sheet(name)), dict[str, int]()
    stood: dict[tuple[str, str], list[str]] = {}
    while not maker.state["finished_at"]:
        prompt = maker.prompt
        place = (prompt["step"], (prompt["weigh"] or {}).get("line", ""))
        ids = [each["id"] for each in prompt["answers"]]
        before = stood.get(place, ids)
        assert [each for each in ids if each in before] == [each for each in before if each in ids], place
        stood[place] = ids
        counting = [each["until"] for each in maker.sees["guides"] if each["step"] == prompt["step"]]
        if counting and maker.at < max(counting):
            maker.at = max(counting)
        elif tries.setdefault(prompt["step"], 0) < 6 and (late := {"again", "not_yet"} & set(ids)):
            tries[prompt["step"]] += 1
            maker.choose(late.pop())
        else:
            maker.strong()
    assert sum(tries.values())


def test_what_went_too_far_is_told_what_to_do_and_the_time_it_takes_is_counted() -> None:
    maker = at("base.1.damp_rose")

    maker.choose("too_far")

    prompt = maker.prompt
    assert prompt["says"].startswith("Fizzing or tacky: stop spraying")
    assert prompt["number"] == {"mg": None, "text": "5 min", "caption": "then judge again"}
    (left,) = [guide for guide in maker.sees["guides"] if guide["step"] == "base.1.damp_rose"]
    assert left["until"] - left["began_at"] == 5 * MINUTE
    maker.wait(5 * MINUTE)
    assert maker.prompt_for("base.1.damp_rose")["number"] is None
    maker.choose("not_yet_alcohol", maker.prompt_for("base.1.damp_rose"))
    again = maker.prompt_for("base.1.damp_rose")
    assert again["says"].startswith("Alcohol: Four or five light sprays") and again["says"].endswith(
        "Tried 2 times."
    )


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_what_the_scale_shows_and_what_is_added_make_the_reading(name: str) -> None:
    shown: dict[str, int] = {}
    for prompt in walk(demo_sheet(name)):
        weigh = prompt["weigh"]
        if weigh and weigh["how"] == "running":
            added = (
                int(weigh["add"].removesuffix(" g").replace(" ", ""))
                if weigh["division_mg"] == 1000
                else None
            )
            if added is not None and weigh["before_mg"]:
                assert shown[weigh["vessel"]] + added * 1000 == weigh["reads_mg"]
            shown[weigh["vessel"]] = weigh["reads_mg"]


def test_pieces_are_counted_by_what_is_done() -> None:
    maker = at("base.1.press")
    assert maker.prompt["number"] == {"mg": None, "text": "0", "caption": "of 12 pressed"}
    maker.strong()
    assert maker.prompt["number"] == {"mg": None, "text": "1", "caption": "of 12 pressed"}
    assert at("embed.1.pour").prompt["number"] == {"mg": None, "text": "0", "caption": "of 14 poured"}


def test_a_recipe_may_say_how_long_what_went_too_far_is_left() -> None:
    document = written(THREE_PART)
    check = next(step for part in document["components"] for step in part["steps"] if step["kind"] == "check")
    del check["too_far"]["wait"]
    sheet = sheet_of(read_recipe(document))

    assert "too_far_ms" not in next(step for step in sheet["steps"] if step["kind"] == "check")


def test_a_mix_too_wet_has_advice_and_a_timer_where_the_recipe_has_none() -> None:
    document = written(THREE_PART)
    checks = [step for part in document["components"] for step in part["steps"] if step["kind"] == "check"]
    for check in checks:
        check.pop("too_far", None)
    maker = Maker(sheet_of(read_recipe(document)))
    maker.run_to("base.1.damp_rose")

    maker.choose("too_far")

    assert maker.prompt["says"].startswith("Stop spraying.") and maker.prompt["number"]["text"] == "5 min"
    maker.run_to("embed.1.even")
    assert "too_far" not in answers(maker.prompt)  # of clumps there is no too far


def test_what_is_done_and_judged_right_is_told_by_one_touch_and_the_question_still_stands() -> None:
    maker = at("base.1.work_rose")
    assert answers(maker.prompt)["done"]["strong"]  # which leads to the question, with its "not yet"
    both = answers(maker.prompt)["done_yes"]
    assert both["label"] == "Done. It holds, like damp sand" and both["says"].startswith("Squeeze a handful")

    maker.all_of(both)

    steps = maker.state["steps"]
    assert [steps[f"base.1.{key}"]["status"] for key in ("work_rose", "damp_rose")] == ["done", "done"]
    assert maker.state["looks"]["base.1.damp_rose"][-1]["answer"] == "yes"


def test_the_answer_that_ends_the_last_step_ends_the_batch_and_none_that_stops_short_does() -> None:
    maker = Maker(demo_sheet())
    maker.run_to("assembly.1.wrap")
    told = {key: answer.get("also") for key, answer in answers(maker.prompt).items()}
    assert {key for key, then in told.items() if then} == {"all_film", "all_bag"}
    assert maker.prompt["more"].endswith("The batch ends with it.")

    maker.all_of(answers(maker.prompt)["all_bag"])
    assert maker.state["finished_at"] is not None

    maker = at("embed.1.cut")
    maker.tell("skipped", step="embed.1.cut")
    maker.run_to("assembly.1.wrap")
    assert not any(
        "also" in answer for answer in maker.prompt["answers"]
    )  # it is asked whether that was meant


def test_all_of_one_portion_says_of_which() -> None:
    """One of its six was spoiled, so the mix no longer gives the twelve that are wanted."""
    maker = at("base.1.press")
    maker.choose("spoiled")

    assert maker.prompt["number"]["caption"] == "of 12 pressed"
    assert answers(maker.prompt)["all"]["label"] == "All 5 pressed: Rose half"


def test_pieces_made_in_a_row_are_told_by_one_touch() -> None:
    maker = at("base.1.press")
    assert answers(maker.prompt)["all"]["label"] == "All 12 pressed"  # six of each half
    assert answers(maker.prompt)["one"]["strong"]

    maker.choose("some", count=6)
    maker.strong()
    assert answers(maker.prompt)["all"]["label"] == "All 5 pressed"
    maker.choose("all")

    assert maker.state["steps"]["base.1.press"]["status"] == "done"
    assert maker.state["counts"]["base.1.press"]["good"] == 12
