"""What the bench says while a batch is made, told by a maker who answers it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import (
    DEMO_RECIPES,
    HOUR,
    MINUTE,
    MORNING,
    SECOND,
    THREE_PART,
    Maker,
    demo_sheet,
    entry,
    make_document,
    make_kit,
    make_recipe,
    sheet_of,
)

from bench import fold, now, read_recipe, record, rings, wait_phase, window_phase


def plain_sheet(kit=None, **size):
    """A kilogram in three lines for ten pieces; 2 % is 10 g, 5 g and 5 g."""
    return sheet_of(make_recipe("500 g", "250 g", "250 g", part_piece="100 g"), kit, **size)


def within(told):
    return tuple(told[field] for field in ("target_mg", "in_mg", "status", "twice"))


def answers(prompt):
    return {answer["id"]: answer for answer in prompt["answers"]}


# A whole batch


@pytest.mark.parametrize("weigh", ["running", "tare"])
@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_a_whole_batch_is_made_by_the_strong_answers_alone(name, weigh):
    sheet = demo_sheet(name, weigh=weigh)
    maker = Maker(sheet)
    for _ in range(300):
        if maker.state["finished_at"]:
            break
        maker.strong()

    told = record(sheet, maker.state, maker.entries)
    assert maker.sees["finished"] and maker.sees["prompts"] == []
    assert {step["status"] for step in told["steps"]} == {"done"}
    weighed = {line["id"] for line in sheet["lines"] if line["step"]}  # the rest is sprayed on, to texture
    assert {line["status"] for line in told["lines"] if line["line"] in weighed} == {"in"}
    assert all(2 * abs(line["deviation_mg"] or 0) <= (line["division_mg"] or 1) for line in told["lines"])
    assert told["yield"]["good"] == told["yield"]["planned"] == sheet["size"]["pieces"]
    assert [told["corrections"], told["unread"], maker.sees["owed"], maker.sees["skipped"]] == [
        [],
        [],
        [],
        [],
    ]
    assert told["finished_at"] == maker.entries[-1]["at"]


def test_the_three_part_batch_is_recorded_with_its_times():
    maker = Maker(demo_sheet(THREE_PART))
    while not maker.state["finished_at"]:
        maker.strong()

    told = record(maker.sheet, maker.state, maker.entries)
    drying = next(wait for wait in told["waits"] if wait["step"] == "base.1.drying")
    assert (drying["real_ms"], drying["early"], drying["late"]) == (6 * HOUR, False, False)
    assert [window["late"] for window in told["windows"]] == [False] * len(told["windows"])
    assert {count["step"]: count["good"] for count in told["counts"]}["embed.1.pour"] == 14
    most_off = sum(line["division_mg"] or 0 for line in told["lines"])
    assert 2 * abs(told["yield"]["planned_mg"] - told["yield"]["actual_mg"]) <= most_off


def test_what_the_scale_reads_is_what_is_recorded():
    """737.82 g on a scale of 1 g: it reads 738 g, and 738 g is what is known to be in. What was rounded up is
    taken off the next reading: 737.82 + 99.6 = 837.42 g, so that it reads 837 g."""
    maker = Maker(sheet_of(make_recipe("737.82 g", "99.6 g"), make_kit()))

    maker.choose("reads")
    first = next(line for line in record(maker.sheet, maker.state, maker.entries)["lines"])
    assert maker.entries[-1]["body"]["reading_mg"] == maker.entries[-1]["body"]["mg"] == 738_000
    assert (first["actual_mg"], first["deviation_mg"]) == (738_000, 180)

    assert maker.prompt["weigh"]["reads_mg"] == 837_000
    maker.choose("reads")
    assert maker.entries[-1]["body"] == {"line": "mix.1.l1", "mg": 99_100, "reading_mg": 837_000}


def test_what_was_poured_too_much_is_not_taken_off_the_next_line():
    maker = Maker(sheet_of(make_recipe("737.82 g", "99.6 g"), make_kit()))

    maker.tell("weighed", line="mix.1.l0", mg=740_000)

    assert maker.prompt["weigh"]["reads_mg"] == 840_000


def test_a_pour_too_small_for_the_scale_to_show_is_taken_as_asked():
    maker = Maker(sheet_of(make_recipe("500 g", "0.3 g"), make_kit()))
    maker.choose("reads")
    while maker.prompt["weigh"]["line"] != "mix.1.l1":
        maker.strong()

    maker.strong()

    assert within(maker.state["lines"]["mix.1.l1"]) == (300, 300, "in", None)


def test_three_waits_run_at_once_and_the_bench_goes_on_with_what_can_be_done():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("assembly.1.set_out")

    assert [wait["step"] for wait in maker.sees["waits"]] == [
        "topping.1.warm",
        "embed.1.cool",
        "base.1.drying",
    ]
    assert maker.prompt["kind"] == "weigh"


# Weighing


def test_the_display_climbs_line_by_line():
    maker = Maker(plain_sheet())

    readings = [maker.strong()["number"]["text"] for _ in range(3)]

    assert readings == ["500 g", "750 g", "1000 g"]


def test_tared_each_line_reads_its_own_weight():
    maker = Maker(plain_sheet(weigh="tare"))

    assert [maker.strong()["number"]["text"] for _ in range(3)] == ["500 g", "250 g", "250 g"]


def test_a_miss_within_tolerance_is_taken_and_the_next_reading_counts_it():
    maker = Maker(plain_sheet())

    maker.reads(503_000)

    assert maker.prompt["number"]["text"] == "753 g"
    assert maker.state["lines"]["mix.1.l0"]["status"] == "in"


@pytest.mark.parametrize(
    ("reading", "kind"), [(510_000, "weigh"), (511_000, "over"), (490_000, "weigh"), (489_000, "short")]
)
def test_the_tolerance_itself_is_still_within(reading, kind):
    maker = Maker(plain_sheet())

    maker.reads(reading)

    assert maker.prompt["kind"] == kind


def over_by_thirty():
    maker = Maker(plain_sheet())
    maker.strong()
    maker.reads(780_000)
    return maker


def test_too_much_offers_three_ways_with_what_each_does():
    prompt = over_by_thirty().prompt

    assert (prompt["kind"], prompt["number"]["mg"]) == ("over", 30_000)
    offered = answers(prompt)
    assert offered["take_out"]["body"] == {"line": "mix.1.l1", "mg": 30_000, "seen": 280_000}
    assert "27.2 %" in offered["leave"]["says"] and "25.0 %" in offered["leave"]["says"]  # 280 of 1030 g
    carry = offered["carry"]
    assert carry["body"]["num"] * 100 == carry["body"]["den"] * 112
    assert "1120 g" in carry["says"] and "11" in carry["says"] and "Ingredient 0 60 g" in carry["says"]


def test_taken_out_again_the_bowl_goes_on_as_planned():
    maker = over_by_thirty()

    maker.choose("take_out")

    assert maker.prompt["number"]["text"] == "1000 g"
    assert maker.state["lines"]["mix.1.l1"] == {
        **maker.state["lines"]["mix.1.l1"],
        "in_mg": 250_000,
        "status": "in",
    }


def test_left_over_it_is_noted_and_the_bowl_goes_on_from_what_is_in_it():
    maker = over_by_thirty()

    maker.choose("leave")

    assert maker.prompt["number"]["text"] == "1030 g"
    told = record(maker.sheet, maker.state, maker.entries)
    assert [each["kind"] for each in told["corrections"]] == ["left"]
    assert told["lines"][1]["deviation_ppm"] == 120_000


def test_carried_up_what_is_in_is_topped_up_and_the_rest_grows():
    maker = over_by_thirty()

    maker.choose("carry")

    top_up = maker.strong()
    assert (top_up["weigh"]["line"], top_up["weigh"]["add_mg"], top_up["number"]["text"]) == (
        "mix.1.l0",
        60_000,
        "840 g",
    )
    third = maker.strong()
    assert (third["weigh"]["add_mg"], third["number"]["text"]) == (280_000, "1120 g")
    assert {told["status"] for told in maker.state["lines"].values()} == {"in"}


def test_carrying_up_past_what_the_bowl_holds_says_so():
    maker = Maker(plain_sheet(make_kit(vessels=[vessel("Big bowl", "1100 g"), vessel("Tub", "2 kg")])))
    maker.strong()
    maker.reads(780_000)

    assert "1120 g goes in. Big bowl holds 1100 g. Take Tub." in answers(maker.prompt)["carry"]["says"]


def test_a_way_that_no_bowl_and_no_scale_of_the_kit_holds_is_not_offered():
    for kit in (
        make_kit(vessels=[vessel("Big bowl", "1100 g")]),
        make_kit(("1.7 kg", "1 g"), vessels=[vessel("Big bowl", "2 kg")]),
    ):
        maker = Maker(plain_sheet(kit))
        maker.strong()
        maker.reads(780_000)
        assert "carry" not in answers(maker.prompt) and "leave" in answers(maker.prompt)


def short_by_ten():
    maker = Maker(plain_sheet())
    maker.strong()
    maker.strong()
    maker.reads(990_000)
    return maker


def test_too_little_offers_the_rest_or_less_of_everything():
    prompt = short_by_ten().prompt

    assert (prompt["kind"], prompt["number"]["text"], prompt["weigh"]["add_mg"]) == (
        "short",
        "1000 g",
        10_000,
    )
    offered = answers(prompt)
    assert "24.2 %" in offered["leave"]["says"]  # 240 of 990 g
    assert (
        "carry" not in offered and "carry_rest" not in offered
    )  # all the rest is in, and nothing is to come


def test_the_rest_added_is_a_top_up_and_the_line_is_in():
    maker = short_by_ten()

    maker.choose("reads")

    assert maker.state["lines"]["mix.1.l2"]["in_mg"] == 250_000
    assert maker.prompt["kind"] == "pieces"


def test_a_jar_that_is_empty_makes_the_whole_batch_smaller():
    maker = Maker(plain_sheet())
    maker.reads(250_000)

    maker.choose("carry")

    assert [maker.strong()["number"]["text"] for _ in range(2)] == ["375 g", "500 g"]


def test_the_scale_went_blank_and_the_known_weight_brings_the_count_back():
    maker = Maker(plain_sheet())
    maker.reads(503_000)
    assert "503 g" in answers(maker.prompt)["zeroed"]["says"]

    maker.choose("zeroed")

    assert maker.prompt["number"]["text"] == "250 g"
    assert "zeroed" not in answers(maker.prompt)
    maker.strong()
    assert maker.prompt["number"]["text"] == "500 g"
    assert maker.state["vessels"]["mix.1.bowl"]["in_mg"] == 753_000


def test_switched_to_tare_half_way_each_line_reads_its_own_weight():
    maker = Maker(plain_sheet())
    maker.strong()

    maker.tell("switched", weigh="tare")

    assert (maker.prompt["weigh"]["how"], maker.prompt["number"]["text"]) == ("tare", "250 g")


def test_a_small_line_goes_into_a_cup_and_the_bowls_next_reading_counts_it():
    kit = make_kit(("5 kg", "1 g"), ("200 g", "0.01 g"))
    maker = Maker(sheet_of(make_recipe("500 g", "4 g", "496 g", part_piece="100 g"), kit))
    maker.strong()

    cup = maker.strong()
    assert (cup["weigh"]["how"], cup["number"]["text"], cup["weigh"]["scale"]) == ("cup", "4.00 g", "Scale 1")
    assert maker.prompt["number"]["text"] == "1000 g"


def test_a_pour_told_by_two_phones_is_counted_once():
    maker = Maker(plain_sheet())
    line = {"line": "mix.1.l0", "mg": 500_000, "reading_mg": 500_000}
    maker.entries = [
        entry("weighed", MORNING, "phone", **line),
        entry("weighed", MORNING + 1, "tablet", **line),
    ]
    maker.at = MORNING + SECOND

    maker.choose("told_twice")

    assert within(maker.state["lines"]["mix.1.l0"]) == (500_000, 500_000, "in", None)


@pytest.mark.parametrize("held", [600_000, 1_000_000])
def test_what_two_phones_tell_to_have_taken_out_is_taken_out_once(held):
    maker = Maker(plain_sheet())
    maker.reads(held)
    take_out = answers(maker.prompt)["take_out"]["body"]
    maker.entries += [
        entry("taken_out", maker.at, "phone", **take_out),
        entry("taken_out", maker.at + 1, "tablet", **take_out),
    ]
    maker.at += SECOND
    assert [each["id"] for each in maker.prompt["answers"] if each["strong"]] == ["told_twice"]

    maker.choose("told_twice")

    assert within(maker.state["lines"]["mix.1.l0"]) == (500_000, 500_000, "in", None)


def test_what_two_phones_took_out_one_after_the_other_is_believed():
    maker = Maker(plain_sheet())
    maker.reads(600_000)
    maker.entries += [
        entry("taken_out", maker.at, "phone", line="mix.1.l0", mg=60_000, seen=600_000),
        entry("taken_out", maker.at + 1, "tablet", line="mix.1.l0", mg=80_000, seen=540_000),
    ]
    maker.at += SECOND
    assert "told_twice" not in answers(maker.prompt)


def test_a_portion_that_two_phones_tell_is_weighed_out_once():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    maker.reads(1_010_000)
    portion = answers(maker.prompt)["reads"]["body"]
    maker.entries += [
        entry("portioned", maker.at, "phone", **portion),
        entry("portioned", maker.at + 1, "tablet", **portion),
    ]
    assert maker.state["portions"] == {"mix.1.rose": 505_000, "mix.1.blue": 505_000}


def test_an_optional_line_may_be_left_out_at_the_bench():
    maker = Maker(sheet_of(make_recipe("500 g", {"amount": "50 g", "optional": True})))
    assert [answer["id"] for answer in maker.prompt["answers"]][-2:] == [
        "left_out",
        "skip",
    ]  # not meant, but can be
    maker.strong()
    assert [answer["id"] for answer in maker.prompt["answers"]][2] == "left_out"

    maker.choose("left_out")

    assert maker.prompt["kind"] == "pieces"
    assert maker.state["lines"]["mix.1.l1"]["status"] == "left_out"


def test_spoons_drops_and_texture_have_no_reading():
    maker = Maker(sheet_of(make_recipe("2¾ tsp", "12 drops", "to texture", measures="us")))

    prompts = [maker.strong() for _ in range(3)]

    assert [prompt["weigh"]["how"] for prompt in prompts] == ["spoons", "count", "texture"]
    assert [prompt["number"]["text"] for prompt in prompts] == [
        "2 tsp + ½ tsp + ¼ tsp",
        "12 drops",
        "as needed",
    ]
    assert maker.prompt["kind"] == "pieces"


# Dividing and pressing


def divided(*portions, **pieces):
    return read_recipe(
        make_document(
            "1000 g",
            part_piece="100 g",
            steps=[
                {"id": "in", "kind": "weigh", "title": "Weigh", "lines": ["l0"]},
                {"id": "halve", "kind": "split", "title": "Divide", "portions": list(portions)},
                {
                    "id": "press",
                    "kind": "pieces",
                    "title": "Press",
                    "verb": "pressed",
                    "one_by_one": True,
                    "partial": True,
                    "of": [portion["id"] for portion in portions],
                    **pieces,
                },
            ],
        )
    )


ROSE, BLUE = {"id": "rose", "name": "Rose half"}, {"id": "blue", "name": "Blue half"}


def test_a_mix_is_halved_by_what_really_is_in_the_bowl():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    maker.reads(1_010_000)

    prompt = maker.strong()

    assert (prompt["kind"], prompt["number"]["text"]) == ("split", "505 g")
    assert "505 g, stays as Blue half" in prompt["says"]
    assert maker.state["portions"] == {"mix.1.rose": 505_000, "mix.1.blue": 505_000}


def test_what_the_first_half_missed_stays_in_the_other():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    maker.strong()

    maker.reads(520_000)

    assert maker.state["portions"] == {"mix.1.rose": 520_000, "mix.1.blue": 480_000}


def test_portions_by_mass_keep_their_proportion():
    maker = Maker(sheet_of(divided({**ROSE, "mass": "300 g"}, {**BLUE, "mass": "700 g"})))
    maker.reads(1_010_000)

    assert maker.prompt["number"]["text"] == "303 g"


def test_pieces_come_from_one_portion_then_the_other_and_leftovers_are_joined():
    maker = Maker(sheet_of(divided(ROSE, BLUE), pieces=10))
    maker.reads(1_010_000)
    maker.reads(550_000)  # 550 g and 460 g: five and four whole, 50 + 60 g left

    pressed = [maker.strong() for _ in range(10)]

    of = [answers(prompt)["one"]["body"]["of"] for prompt in pressed]
    assert of == ["mix.1.rose"] * 5 + ["mix.1.blue"] * 4 + ["joined"]
    assert "Rose half 50 g, Blue half 60 g. Makes 1 more" in pressed[-1]["says"]
    assert maker.state["counts"]["mix.1.press"] == {
        "good": 10, "spoiled": 0, "partial": 0, "of": {"mix.1.rose": 5, "mix.1.blue": 4, "joined": 1}
    }  # fmt: skip


def test_while_pieces_are_counted_no_answer_moves_to_another_place():
    """All at once goes with the last piece but one."""
    maker = Maker(sheet_of(divided(ROSE, BLUE), pieces=10))
    maker.reads(1_010_000)
    maker.reads(550_000)

    stood = [list(answers(maker.strong())) for _ in range(10)]

    assert ["all" in ids for ids in stood] == [True] * 9 + [False]
    assert {tuple(each for each in ids if each != "all") for ids in stood} == {
        ("one", "some", "partial", "spoiled", "enough", "skip")
    }
    assert all(ids.index("all") > ids.index("enough") for ids in stood if "all" in ids)


def test_leftovers_too_small_for_a_piece_make_a_partial_one():
    maker = Maker(sheet_of(divided(ROSE, BLUE), pieces=10))
    maker.reads(990_000)
    maker.strong()
    for _ in range(8):
        maker.strong()
    maker.strong()  # 95 g of each: nothing whole is left, so a piece of both

    prompt = maker.prompt
    assert "90 g" in prompt["says"] and "too little" in prompt["says"]
    maker.choose("partial")
    assert maker.prompt["kind"] == "finish"
    assert record(maker.sheet, maker.state, maker.entries)["yield"]["partial"] == 1


def test_a_mix_that_dries_is_sprayed_and_the_count_stands():
    maker = Maker(sheet_of(divided(ROSE, BLUE, again="Does it still hold?")))
    maker.strong(), maker.strong(), maker.strong()

    maker.choose("respray")

    says = "Does it still hold? Sprayed again once."
    assert (maker.prompt["number"]["text"], maker.prompt["says"][: len(says)]) == ("1", says)
    assert [look["answer"] for look in maker.state["looks"]["mix.1.press"]] == ["not_yet"]


def test_fewer_pieces_than_planned_is_said_with_that_is_all_there_is():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    for _ in range(4):
        maker.strong()
    maker.choose("spoiled")

    maker.choose("enough")

    told = record(maker.sheet, maker.state, maker.entries)["yield"]
    assert (told["planned"], told["good"], told["spoiled"]) == (10, 2, 1)


def pressed_at(maker, ms, **body):
    """Another touch of the same answer, so many ms after the last one."""
    maker.at = maker.entries[-1]["at"] + ms
    maker.tell("counted", **{**maker.entries[-1]["body"], **body})


def plain_pressing(**part):
    return Maker(sheet_of(make_recipe("1000 g", part_piece="100 g", **part)))


def test_a_thumb_that_bounces_counts_one_piece():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    maker.strong(), maker.strong()
    maker.choose("one")
    assert maker.entries[-1]["body"]["seen"] == 0

    pressed_at(maker, 90)
    assert maker.state["counts"]["mix.1.press"]["good"] == 1 and maker.state["unread"] == []
    pressed_at(maker, 500)  # on a screen that stood still: a second piece
    pressed_at(maker, 90, seen=2)  # and a third, that saw two
    assert maker.state["counts"]["mix.1.press"]["good"] == 3
    bodies = {key: maker.entries[-1]["body"] for key in ("phone", "tablet")}
    maker.entries += [entry("counted", maker.at + 1, device, **body) for device, body in bodies.items()]
    assert maker.state["counts"]["mix.1.press"]["good"] == 5  # the phone bounced only against itself


def test_a_count_that_does_not_say_what_it_saw_is_taken_as_ever():
    maker = plain_pressing()
    maker.strong()
    for _ in range(2):
        maker.entries.append(entry("counted", MORNING + 5000, step="mix.1.press", good=4))
    maker.entries.append(entry("counted", MORNING + 6000, step="mix.1.press", spoiled=2))

    assert maker.state["counts"]["mix.1.press"]["good"] == 8
    assert maker.state["steps"]["mix.1.press"]["status"] == "done"


def test_several_pieces_are_counted_at_once():
    maker = Maker(sheet_of(divided(ROSE, BLUE)))
    maker.strong(), maker.strong()
    several = answers(maker.prompt)["some"]
    assert (several["label"], several["most"], several["input"]) == ("Several pressed", 10, "count")

    maker.choose("some", count=3)

    assert maker.prompt["number"]["text"] == "3"


def test_what_is_spoiled_is_made_again_while_the_mix_lasts():
    maker = Maker(sheet_of(make_recipe("1164 g", part_piece="100 g", part_stays_behind="164 g"), pieces=10))
    maker.strong()
    maker.choose("some", count=9)
    maker.choose("spoiled")

    assert maker.prompt["says"].endswith("164 g left: 1 more piece.")
    assert maker.prompt["number"] == {"mg": None, "text": "9", "caption": "of 10 done"}
    maker.strong()

    told = record(maker.sheet, maker.state, maker.entries)
    assert (maker.prompt["kind"], told["yield"]["good"], told["yield"]["spoiled"]) == ("finish", 10, 1)


def test_with_nothing_left_of_the_mix_a_spoiled_piece_is_missing():
    maker = plain_pressing()
    maker.strong()
    maker.choose("some", count=9)
    maker.choose("spoiled")

    assert maker.prompt["kind"] == "finish"
    assert maker.state["expected"]["mix.1.press"] == 9


def test_scaled_up_more_pieces_are_asked_for_and_down_fewer():
    maker = plain_pressing()
    maker.reads(1_120_000)
    maker.choose("carry")
    assert maker.prompt["number"] == {"mg": None, "text": "0", "caption": "of 11 done"}

    maker = plain_pressing()
    maker.reads(890_000)
    maker.choose("carry")
    assert maker.prompt["number"]["caption"] == "of 8 done"


@given(st.lists(st.sampled_from(["one", "spoiled", "bounce", "enough"]), max_size=30), st.integers(9, 14))
def test_pieces_are_kept_whatever_is_pressed(presses, hundreds):
    """Never more pieces than the mix holds, none lost, none made of a bounce; and the bench comes to an end."""
    maker = Maker(sheet_of(make_recipe("1000 g", part_piece="100 g", steps=[
        {"id": "in", "kind": "weigh", "title": "Weigh", "lines": ["l0"]},
        {"id": "press", "kind": "pieces", "title": "Press", "one_by_one": True},
    ])))  # fmt: skip
    maker.tell("weighed", line="mix.1.l0", mg=hundreds * 100_000)
    maker.tell("left", line="mix.1.l0")
    told = {"good": 0, "spoiled": 0}
    for press in presses:
        if maker.prompt["kind"] == "finish":
            break
        if press == "bounce":
            if maker.entries[-1]["kind"] == "counted":
                pressed_at(maker, 90)
                maker.at += 1000
            continue
        maker.choose(press)
        told["good" if press == "one" else "spoiled"] += press != "enough"
        count = maker.state["counts"].get("mix.1.press", {"good": 0, "spoiled": 0})
        assert {key: count[key] for key in told} == told
        assert told["good"] <= 10 and sum(told.values()) <= max(10, hundreds)
    while maker.prompt["kind"] != "finish":
        maker.strong()
    assert maker.state["counts"].get("mix.1.press", told)["good"] <= 10


# Melting and judging


def test_a_melt_goes_burst_by_burst_with_a_look_after_each():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("embed.1.melt")
    assert maker.prompt["number"]["text"] == "15 s"

    maker.choose("heat")
    assert maker.prompt["kind"] == "heating"
    assert maker.sees["guides"][0]["phase"] == "counting"
    assert not any(answer["strong"] for answer in maker.prompt["answers"])  # no pedal ends a burst
    maker.wait(15 * SECOND)
    assert maker.sees["guides"][0]["phase"] == "ready"
    assert answers(maker.prompt)["again"]["strong"]  # three are likely, and this was the first
    maker.choose("again")
    maker.wait(15 * SECOND)
    # The last is shorter, after a rest with a stir: the look at both begins it, when it stands in the heater again.
    maker.wait(30 * SECOND)
    maker.choose("again")
    assert maker.prompt["number"] == {"mg": None, "text": "10 s", "caption": "burst 3, then stir and check"}
    maker.wait(10 * SECOND)
    assert answers(maker.prompt)["yes"]["strong"]
    maker.choose("yes")

    bursts = maker.state["bursts"]["embed.1.melt"]
    assert [(burst["ms"], burst["answer"]) for burst in bursts] == [
        (15_000, "not_yet"), (15_000, "not_yet"), (10_000, "yes")
    ]  # fmt: skip
    (told,) = [
        each
        for each in record(maker.sheet, maker.state, maker.entries)["bursts"]
        if each["component"] == "embed"
    ]
    assert (told["planned"], told["used"], told["heated_ms"]) == (3, 3, 40_000)


def test_a_melt_already_liquid_needs_no_burst():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("embed.1.melt")

    maker.choose("yes")

    assert maker.state["steps"]["embed.1.melt"]["status"] == "done"


def test_a_burst_that_is_running_comes_before_everything_else():
    maker = Maker(demo_sheet(THREE_PART))
    maker.tell("heated", step="embed.1.melt", ms=15_000)

    assert maker.sees["guides"][0]["step"] == "embed.1.melt"


def test_a_judged_mix_is_judged_again_and_each_try_keeps_its_liquid():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("base.1.damp_rose")

    maker.choose("not_yet_witch_hazel")
    maker.choose("not_yet_alcohol")
    assert maker.prompt["says"].endswith("Tried 2 times.")
    maker.choose("yes")

    looks = record(maker.sheet, maker.state, maker.entries)["looks"]
    told = next(each for each in looks if each["step"] == "base.1.damp_rose")
    assert told["tries"] == 2
    assert [look["way"] for look in told["looks"]] == ["witch_hazel", "alcohol", None]
    assert maker.state["steps"]["base.1.damp_rose"]["status"] == "done"


def test_the_caution_for_alcohol_is_seen_before_it_can_be_chosen():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("base.1.damp_rose")

    assert any("12 °C" in caution["full"] for caution in maker.prompt["cautions"])


def test_a_step_with_two_ways_is_done_in_one_of_them():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("embed.1.bubbles")

    maker.choose("way_stick")

    told = record(maker.sheet, maker.state, maker.entries)["steps"]
    assert next(step["way"] for step in told if step["step"] == "embed.1.bubbles") == "A wooden stick"


def test_a_guide_counts_only_when_asked():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("base.1.sift")
    assert maker.sees["guides"] == []

    maker.choose("begin")

    (guide,) = maker.sees["guides"]
    assert guide["until"] - guide["began_at"] == 3 * MINUTE
    assert "begin" not in answers(maker.prompt_for("base.1.sift"))
    maker.strong()
    assert maker.sees["guides"] == []


# Waits and windows


WAIT = {"began_at": 0, "earliest_at": 4 * HOUR, "usual_at": 6 * HOUR, "latest_at": 24 * HOUR}


@pytest.mark.parametrize(
    ("at", "phase"),
    [
        (0, "counting"),
        (4 * HOUR - 1, "counting"),
        (4 * HOUR, "look"),
        (6 * HOUR - 1, "look"),
        (6 * HOUR, "ready"),
        (23 * HOUR - 1, "ready"),  # a tenth of a day is more than an hour, so the warning is an hour before
        (23 * HOUR, "soon_late"),
        (24 * HOUR - 1, "soon_late"),
        (24 * HOUR, "late"),
        (10**15, "late"),
    ],
)
def test_a_wait_at_its_edges(at, phase):
    assert wait_phase(WAIT, at) == phase


def test_a_wait_with_no_latest_time_never_grows_late():
    wait = {**WAIT, "latest_at": None}

    assert wait_phase(wait, 10**15) == "ready"
    assert [ring["kind"] for ring in rings(wait)] == ["look", "ready"]


def test_a_wait_rings_when_each_phase_begins_and_never_before():
    for ring in rings(WAIT):
        before, after = wait_phase(WAIT, ring["at"] - 1), wait_phase(WAIT, ring["at"])
        assert before != after
    assert [ring["at"] for ring in rings(WAIT)] == [4 * HOUR, 6 * HOUR, 23 * HOUR]


def test_a_wait_whose_latest_is_its_usual_goes_straight_to_late():
    wait = {**WAIT, "latest_at": 6 * HOUR}

    assert wait_phase(wait, 6 * HOUR - 1) == "look"
    assert wait_phase(wait, 6 * HOUR) == "late"


@pytest.mark.parametrize(
    ("at", "phase"),
    [
        (0, "open"),
        (13 * MINUTE + 30 * SECOND - 1, "open"),
        (13 * MINUTE + 30 * SECOND, "soon_late"),
        (15 * MINUTE, "late"),
    ],
)
def test_a_window_warns_in_its_last_tenth(at, phase):
    assert window_phase({"opened_at": 0, "latest_at": 15 * MINUTE}, at) == phase


def drying():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("embed.1.cut")  # the bases are pressed
    maker.at = maker.state["steps"]["base.1.press"]["at"]
    return maker


def the_wait(maker):
    return next(wait for wait in maker.sees["waits"] if wait["step"] == "base.1.drying")


def test_a_wait_counts_from_when_its_needs_were_met_through_a_restart():
    maker = drying()
    began = maker.at

    maker.wait(4 * HOUR)

    assert the_wait(maker)["began_at"] == began
    assert (the_wait(maker)["phase"], the_wait(maker)["asks"]) == ("look", "may be dry: check")
    maker.wait(19 * HOUR)
    assert the_wait(maker)["phase"] == "soon_late" and "moisture" in the_wait(maker)["asks"]


def test_not_dry_yet_looks_again_in_a_tenth_of_the_usual_time():
    maker = drying()
    maker.wait(4 * HOUR)

    maker.choose("again", maker.prompt_for("base.1.drying"))

    assert the_wait(maker)["phase"] == "counting"
    maker.wait(36 * MINUTE - SECOND)
    assert the_wait(maker)["phase"] == "ready"


def test_dry_before_the_earliest_time_is_taken_and_recorded_as_early():
    maker = drying()
    prompt = maker.prompt_for("base.1.drying")
    assert not any(answer["strong"] for answer in prompt["answers"])

    maker.choose("done", prompt)

    (told,) = [wait for wait in record(maker.sheet, maker.state, maker.entries)["waits"] if wait["ended_at"]]
    assert told["early"]


def test_a_window_that_closed_is_said_and_recorded_as_late():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("base.1.join")
    (window,) = maker.sees["windows"]
    assert (window["step"], window["phase"]) == ("base.1.join", "open")

    maker.at = window["latest_at"]

    assert maker.sees["windows"][0]["phase"] == "late"
    assert "Back over the water bath" in maker.prompt["why"], (
        "what can still be done stands where it was at stake"
    )
    maker.wait(SECOND)
    maker.strong()
    (told,) = record(maker.sheet, maker.state, maker.entries)["windows"]
    assert told["late"]


def top_and_base():
    """A top that cannot wait, for a base that dries four hours."""

    def part(key, *steps):
        return {"id": key, "name": key.capitalize(), "steps": list(steps)}

    document = make_document("to texture")
    document["components"] = [
        part("base", {"id": "press", "kind": "do", "title": "Press"},
             {"id": "dry", "kind": "wait", "title": "Dry", "word": "dry", "earliest": "4 h", "usual": "6 h"}),
        part("top", {"id": "whip", "kind": "do", "title": "Whip"}),
    ]  # fmt: skip
    document["assembly"] = {
        "takes": [{"component": "base"}, {"component": "top"}],
        "steps": [
            {
                "id": "pipe",
                "kind": "do",
                "title": "Pipe",
                "after": ["base.dry", "top.whip"],
                "window": {"from": "top.whip", "latest": "20 min", "stake": "It stiffens."},
            }
        ],
    }
    return Maker(sheet_of(read_recipe(document)))


def test_what_opens_a_window_is_held_until_the_other_parts_are_ready():
    maker = top_and_base()
    assert maker.prompt["step"] == "base.1.press"  # though the top could be begun
    maker.strong()

    whip = maker.prompt_for("top.1.whip")
    assert whip["why"] == "Finish “Dry” first. After this, the next part can't wait."

    maker.choose("done", maker.prompt_for("base.1.dry"))
    assert not maker.prompt["why"].startswith("Finish")


def test_what_is_in_a_window_comes_first():
    maker = top_and_base()
    maker.strong()
    maker.choose("done", maker.prompt_for("base.1.dry"))
    maker.strong()

    assert (maker.prompt["step"], maker.prompt["why"]) == ("assembly.1.pipe", "It stiffens.")


# Skipping, and what is owed


def test_a_skipped_step_is_seen_and_asked_about_at_the_end():
    maker = top_and_base()
    skip = answers(maker.prompt)["skip"]
    assert skip["input"] == "note"
    maker.tell("skipped", **skip["body"], why="done last night")

    for _ in range(3):
        maker.strong()

    assert [each["title"] for each in maker.sees["skipped"]] == ["Press"]
    finish = maker.prompt
    assert finish["kind"] == "finish" and "Press" in finish["says"]
    assert record(maker.sheet, maker.state, maker.entries)["steps"][0]["why"] == "done last night"


def test_a_step_passed_over_is_owed_until_it_is_told():
    maker = top_and_base()
    maker.tell("done", step="base.1.dry")
    assert [each["title"] for each in maker.sees["owed"]] == ["Press"]

    maker.tell("done", step="base.1.press")

    assert maker.sees["owed"] == []


def test_a_finished_batch_says_nothing_more():
    maker = top_and_base()
    maker.tell("finished")

    said = maker.sees
    assert (said["finished"], said["prompts"], said["waits"], said["windows"]) == (True, [], [], [])


def test_every_way_to_answer_is_told_apart_and_at_most_one_is_strong():
    maker = Maker(demo_sheet(THREE_PART))
    while not maker.state["finished_at"]:
        for prompt in maker.sees["prompts"]:
            keys = [answer["id"] for answer in prompt["answers"]]
            assert len(keys) == len(set(keys))
            assert sum(answer["strong"] for answer in prompt["answers"]) <= 1
        maker.strong()


def test_cautions_stand_in_the_prompt_before_the_hazard():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("embed.1.melt")

    said = " ".join(caution["full"] for caution in maker.prompt["cautions"])
    assert "burn" in said and "Microwaved" in said


def test_an_instant_before_anything_happened_is_as_good_as_any():
    sheet = demo_sheet(THREE_PART)

    said = now(sheet, fold(sheet, []), 0)
    assert said["prompts"] and not said["finished"] and said["waits"] == []


# What one count leaves for the next


def test_a_spoiled_base_is_neither_piped_nor_wrapped():
    maker = Maker(demo_sheet(THREE_PART, pieces=3))
    maker.run_to("base.1.press")
    maker.choose("spoiled")
    maker.run_to("assembly.1.pipe")
    assert maker.prompt["number"]["caption"] == "of 2 piped"

    for _ in range(300):
        if maker.state["finished_at"]:
            break
        maker.strong()

    told = record(maker.sheet, maker.state, maker.entries)
    counts = {count["step"]: (count["expected"], count["good"]) for count in told["counts"]}
    assert counts["assembly.1.pipe"] == counts["assembly.1.wrap"] == (2, 2)
    assert (told["yield"]["planned"], told["yield"]["good"]) == (3, 2)


def test_a_half_that_came_out_larger_takes_more_of_its_colour():
    maker = Maker(demo_sheet(THREE_PART))
    maker.run_to("base.1.halve")
    half = maker.prompt["weigh"]["add_mg"]
    there = maker.state["vessels"]["base.1.bowl"]["in_mg"]
    other = answers(maker.prompt)["other"]
    assert other["most"] == there
    maker.reads(half + half // 10)

    (told,) = record(maker.sheet, maker.state, maker.entries)["portions"]
    assert [portion["mg"] for portion in told["portions"]] == [half + half // 10, there - half - half // 10]
    asked = {key: maker.state["lines"][f"base.1.{key}"]["target_mg"] for key in ("rose", "blue")}
    sheet = {line["line"]: line["mg"] for line in maker.sheet["lines"] if line["component"] == "base"}
    assert asked["rose"] == pytest.approx(sheet["rose"] * 1.1, abs=1)
    assert asked["blue"] == pytest.approx(sheet["blue"] * 0.9, abs=1)


def test_what_is_left_over_makes_a_partial_piece_and_that_is_the_answer_that_stands_out():
    maker = Maker(demo_sheet(THREE_PART, pieces=3))
    maker.run_to("base.1.press")
    for _ in range(2):
        maker.choose("one")
    held = sum(maker.state["vessels"][vessel]["in_mg"] for vessel in ("base.1.rose_half", "base.1.blue_half"))
    piece = maker.sheet["components"][0]["piece_mg"]
    assert held - 2 * piece >= piece  # as asked, a third whole piece comes of the joined leftovers
    assert answers(maker.prompt)["one"]["strong"]


# Slips of the hand and of the tongue


def test_after_a_carry_running_short_can_be_left_or_made_less():
    maker = Maker(plain_sheet())
    maker.reads(530_000)
    maker.choose("carry")
    maker.reads(530_000 + 200_000)

    assert {"leave", "carry_rest"} <= set(answers(maker.prompt))


def test_with_powder_in_only_what_is_to_come_is_made_less_and_nothing_is_called_too_much():
    """500 g in, 200 g of 250 g and no more: the third goes down with what is in, to 250 x 700 / 750."""
    maker = Maker(plain_sheet())
    maker.strong()
    maker.reads(500_000 + 200_000)
    offered = answers(maker.prompt)
    assert "carry" not in offered  # there is too much of the first for it already
    less = offered["carry_rest"]
    assert "933 g, enough for 9" in less["says"]
    assert "Ingredient 1 21.4 % of it instead of 25.0 %" in less["says"]

    maker.choose("carry_rest")
    prompts = [maker.strong()]

    assert [(each["kind"], each["weigh"]["add_mg"]) for each in prompts] == [("weigh", 233_333)]
    assert (maker.prompt["kind"], maker.prompt["number"]["caption"]) == ("pieces", "of 9 done")


@settings(max_examples=40)
@given(st.lists(st.integers(1, 400), min_size=2, max_size=4), st.data())
def test_a_way_that_is_offered_leads_to_its_end_and_masses_are_kept(masses, data):
    """Whatever is poured and chosen, no answer leads to "too much" of what was put right, and the bowl holds what
    the lines say."""
    maker = Maker(sheet_of(make_recipe(*(f"{each} g" for each in masses), part_piece="10 g")))
    lines = maker.sheet["lines"]
    for _ in range(16):
        if maker.prompt["kind"] == "pieces":
            break
        prompt = maker.prompt
        line = prompt["weigh"]["line"]
        if prompt["kind"] == "weigh" and data.draw(st.booleans(), "pour off"):
            maker.tell("weighed", line=line, mg=data.draw(st.integers(1, 500), "grams") * 1000)
        else:
            ways = [
                each
                for each in prompt["answers"]
                if each["id"] in ("reads", "in", "leave", "carry", "carry_rest")
            ]
            way = data.draw(st.sampled_from(ways), "way")
            was = {key for key, told in maker.state["lines"].items() if told["in_mg"]}
            maker.answer(way)
            if way["id"].startswith("carry"):
                assert not [key for key in was if maker.state["lines"][key]["status"] == "over"]
        bowl = maker.state["vessels"]["mix.1.bowl"]["in_mg"]
        assert bowl == sum(maker.state["lines"][each["id"]]["in_mg"] for each in lines)
    assert maker.prompt["kind"] in ("pieces", "weigh", "short", "over")


# Vessels, scales and limits


def vessel(name, holds, kind="bowl", empty="600 g"):
    return {"id": name.lower().replace(" ", "_"), "name": name, "kind": kind, "empty": empty, "holds": holds}


def test_capacity_is_warned_of_before_it_is_passed_and_only_then():
    kit = make_kit(vessels=[vessel("Big bowl", "1020 g"), vessel("Tub", "2 kg")])
    maker = Maker(plain_sheet(kit))
    assert "goes in" not in maker.prompt["says"]
    maker.strong()
    maker.reads(790_000)  # 290 g for 250 g
    warned = "1040 g goes in. Big bowl holds 1020 g. Take Tub."
    assert warned in maker.prompt["says"]
    maker.choose("leave")
    assert warned in maker.prompt["says"]

    maker.choose("took_tub")

    assert "goes in" not in maker.prompt["says"]
    assert maker.prompt["says"].startswith("Scale 0. Tub on, then zero.")
    assert (maker.prompt["number"]["text"], maker.state["vessels"]["mix.1.bowl"]["in_mg"]) == (
        "250 g",
        790_000,
    )
    told = record(maker.sheet, maker.state, maker.entries)
    assert told["kit"]["vessels"] == ["Tub"]
    assert [each["kind"] for each in told["corrections"]] == ["left", "took"]


def test_a_small_jug_is_not_blamed_for_the_whole_part():
    """20 g into a jug that holds 60 g, of a part of 520 g: only the bowl takes all of it."""
    kit = make_kit(vessels=[vessel("Big bowl", "3 kg"), vessel("Small jug", "60 g", "jug", "50 g")])
    steps = [
        {"id": "dry", "kind": "weigh", "title": "Dry", "lines": ["l0"]},
        {"id": "wet", "kind": "weigh", "title": "Wet", "lines": ["l1"], "into": "jug"},
        {"id": "tip", "kind": "do", "title": "Tip", "tips": ["jug"], "does": "mix"},
    ]
    maker = Maker(sheet_of(make_recipe("500 g", "20 g", steps=steps), kit))
    maker.strong()
    maker.reads(24_000)

    assert "holds" not in maker.prompt["says"] + answers(maker.prompt)["carry"]["says"]
    maker.choose("carry")
    assert maker.state["vessels"]["mix.1.bowl"]["holds_mg"] == 3_000_000


def test_another_scale_is_read_at_its_own_division_and_recorded():
    maker = Maker(plain_sheet(make_kit(("5 kg", "1 g"), ("10 kg", "20 g"))))
    maker.strong()
    other = next(
        each
        for each in maker.sheet["kit"]["scales"]
        if each["id"] != maker.state["lines"]["mix.1.l1"]["scale"]
    )
    now_on = maker.state["vessels"]["mix.1.bowl"]["scale"]

    maker.choose(f"scale_{other['id']}")

    assert maker.prompt["weigh"]["scale"] == other["name"]
    assert maker.prompt["number"]["text"] == {20_000: "240 g", 1000: "250 g"}[other["division_mg"]]
    maker.strong()
    lines = record(maker.sheet, maker.state, maker.entries)["lines"]
    assert [line["scale"] for line in lines[:2]] == [now_on, other["id"]]
    assert maker.state["lines"]["mix.1.l1"]["status"] == "in"  # half a division of 20 g is within


def test_a_scale_or_a_vessel_that_the_kit_does_not_have_is_unread():
    maker = Maker(plain_sheet())
    maker.tell("placed", vessel="mix.1.bowl", scale="borrowed")
    maker.tell("took", vessel="mix.1.bowl", instead="borrowed")

    assert len(maker.state["unread"]) == 2
    assert maker.prompt["kind"] == "weigh"


def scented(limit, grams, scent="12 g", piece="100 g"):
    document = make_document(f"{grams} g", scent, part_piece=piece)
    document["ingredients"]["i1"] |= {"kind": "fragrance", "fragrance": {"limit": limit}}
    return Maker(sheet_of(read_recipe(document)))


def test_a_limit_that_is_passed_is_said_at_once_in_the_part_and_in_the_piece():
    maker = scented("2.4 %", 988)
    maker.strong()
    maker.reads(988_000 + 40_000)

    said = "3.9 % of Mix, 3.9 % of the piece: its papers allow 2.4 %."
    assert said in maker.prompt["says"] and said in answers(maker.prompt)["leave"]["says"]


def test_more_than_asked_within_the_limit_is_no_warning():
    maker = scented("2.4 %", 988)
    maker.strong()
    maker.reads(988_000 + 20_000)

    assert maker.prompt["kind"] == "over" and "papers" not in maker.prompt["says"]


def test_two_shares_are_never_one_figure():
    maker = scented("5 %", 2495, "5 g", "250 g")
    maker.strong()
    maker.reads(2_495_000 + 6_000)

    says = answers(maker.prompt)["leave"]["says"]
    assert "0.24 % of Mix; recipe 0.20 %" in says


def test_what_no_scale_can_show_is_given_by_spoon_or_by_a_dilution_and_never_as_nothing():
    document = make_document("500 g", {"amount": "0.3 g"}, measures="metric", part_piece="50 g")
    document["ingredients"]["i1"]["density"] = {"g_per_ml": "1.2", "source": "made up"}
    maker = Maker(sheet_of(read_recipe(document)))
    prompt = next(each for each in [maker.strong(), maker.prompt] if each["weigh"]["line"] == "mix.1.l1")

    assert prompt["number"] == {"mg": None, "text": "40 % of ⅛ tsp", "caption": "by spoon"}
    assert "0.3 g is too little for Scale 0." in prompt["says"]
    assert "From 34 pieces on it shows." in prompt["says"] + prompt["more"]
    assert "+ 0 g" not in str(prompt)

    stirred = make_document({"amount": "0.3 g"}, "500 g", part_piece="50 g")
    stirred["components"][0]["steps"][0]["says"] = "All in one bowl."  # to name it takes no word of that away
    first = Maker(sheet_of(read_recipe(stirred))).prompt
    assert (
        "Or stir 5 g into 495 g of Ingredient 1: 30 g of that holds 0.3 g." in first["says"] + first["more"]
    )
    assert first["number"]["caption"] == "judged by eye"


def test_the_first_line_says_which_bowl_to_stand_on_which_scale():
    for weigh in ("running", "tare"):
        maker = Maker(plain_sheet(weigh=weigh))

        assert maker.prompt["says"].startswith("Scale 0. Bowl on, then zero.")
        maker.strong()
        assert "zero" not in maker.prompt["says"]


def test_skipping_a_weighing_says_that_it_is_the_whole_of_it():
    skip = answers(Maker(plain_sheet()).prompt)["skip"]

    assert skip["label"] == "Skip the whole step" and "Weigh" in skip["says"]


def test_past_its_window_the_prompt_says_so():
    maker = Maker(demo_sheet(THREE_PART, pieces=3))
    maker.run_to("assembly.1.pipe")
    assert not maker.prompt["why"].startswith("Past the latest.")

    maker.wait(2 * HOUR)

    assert maker.prompt_for("assembly.1.pipe")["why"].startswith("Past the latest.")
