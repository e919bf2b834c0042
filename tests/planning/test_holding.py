"""No bowl, jug, mould or mixer is given to two batches at one time: in a plan, by its own word, and at the bench."""

from __future__ import annotations

import random
from typing import Any

import pytest

import bench
from bench.holding import in_use, mould_holds, mould_pools, vessel_holds, vessel_pools
from bench.planning import make_problem, next_step, plan, plan_in_words, plan_several, replan, tasks_of
from bench.planning.emptying import can_empty
from bench.planning.layout import Day, Layout
from tests.bench.workshop import Maker, make_kit
from tests.often import often
from tests.planning.batches import HOUR, MINUTE, MONDAY, make_gap, make_hours, make_task
from tests.planning.batches import make_problem as make_bare
from tests.planning.checker import faults
from tests.planning.crossing import done_in, make_crossing, ways_on
from tests.planning.demo import DAY, HOURS, WEDNESDAY, demo_kit, demo_sheet
from tests.planning.exhaustive import best_finish
from tests.planning.mixed import mixed_day, part_of, recipes

Json = dict[str, Any]

BUTTER = next(
    place for place, each in enumerate(recipes()) if each["title"] == "Solid hand butter, in ounces"
)


def held(sheet: Json) -> dict[str, tuple[str, str]]:
    return {hold["places"][0]: (hold["from"], hold["until"]) for hold in vessel_holds(sheet)}


def test_a_bowl_is_in_use_until_its_content_leaves_it() -> None:
    """Tipped out, divided, made into pieces, or taken by the joining; a bowl that half a mix stays in goes on."""
    assert held(demo_sheet()) == {
        "base.1.bowl": ("base.1.dry", "base.1.press"),
        "base.1.jug": ("base.1.cut_butter", "base.1.join"),
        "base.1.rose_half": ("base.1.halve", "base.1.press"),
        "embed.1.bowl": ("embed.1.cut", "embed.1.pour"),
        "topping.1.bowl": ("topping.1.weigh_whip", "assembly.1.pipe"),
        "topping.1.jug": ("topping.1.weigh_white", "topping.1.fold"),
    }


def test_what_a_kit_cannot_do_even_in_turn_is_left_to_the_sheets_warning() -> None:
    """With one bowl, half the mix has nowhere to go while the other half is in it: no plan would be possible."""
    kit = demo_kit()
    kit["vessels"] = [each for each in kit["vessels"] if each["id"] in ("big_bowl", "small_jug")]

    told = held(demo_sheet(kit=kit))

    assert "base.1.bowl" in told and "base.1.rose_half" not in told


def test_any_vessel_that_fits_will_do_and_a_larger_one_is_taken_from_fewer() -> None:
    kit = demo_kit()

    assert [pool["many"] for pool in vessel_pools(kit, "bowl", 900_000)] == [4]
    assert [pool["many"] for pool in vessel_pools(kit, "bowl", 1_800_000)] == [4, 3, 1]
    assert [pool["many"] for pool in vessel_pools(kit, "bowl", 900_000, "grey_bowl")] == [4, 3]
    assert vessel_pools(kit, "bowl", 9_000_000) == vessel_pools(kit, "bowl", 1_800_000)


def test_moulds_of_two_sizes_are_counted_by_the_piece_they_take() -> None:
    kit = make_kit(
        moulds=[
            {"id": "small", "name": "Small", "shape": "bar", "cavities": 6, "sets": 2, "cavity": "60 g"},
            {"id": "large", "name": "Large", "shape": "bar", "cavities": 4, "sets": 1, "cavity": "100 g"},
        ]
    )

    assert [pool["many"] for pool in mould_pools(kit, "bar", 50_000)] == [16]
    assert [pool["many"] for pool in mould_pools(kit, "bar", 80_000)] == [16, 4]


def test_a_mould_is_in_use_from_the_first_layer_on() -> None:
    bars = next(place for place, each in enumerate(recipes()) if "Two-layer" in each["title"])
    sheet, _ = part_of(bars, 12)

    (hold,) = mould_holds(sheet)

    assert (hold["from"], hold["until"]) == ("bar.1.pour_first", "bar.1.unmould")


# In a plan


def test_a_plan_says_which_vessel_a_step_empties_and_for_what() -> None:
    """By the name that the bench has for it; a mould is counted, and has none."""
    steps = [f"{run}.{place}" for run in ("one", "two") for place in range(2)]
    tasks = [make_task(each, 10, run=each[:3]) for each in steps]
    gaps = [make_gap("one.0", "one.1"), make_gap("two.0", "two.1")]
    for thing, more, says in (
        ("bowl", {"vessel": "Big bowl"}, "Empties “Big bowl” for “"),
        ("bar", {}, "Empties the bar moulds for “"),
    ):
        holds = [
            {"equipment": thing, "many": 1, "from": f"{run}.0", "until": f"{run}.1", **more}
            for run in ("one", "two")
        ]
        problem = make_bare(
            tasks,
            gaps,
            make_hours([(9 * 60, 12 * 60)]),
            holds=holds,
            equipment={thing: {"name": thing, "many": 1}},
        )

        whys = [step["why"] for step in plan_in_words(plan(problem, changes=False))["steps"]]

        assert [why["says"][: len(says)] for why in whys if why["kind"] == "frees"] == [says]

    maker = Maker(demo_sheet())
    holds = tasks_of(maker.sheet, maker.state, run="run")["holds"]
    assert {each["vessel"] for each in holds if each["until"].endswith("base.1.press")} == {
        "Big steel bowl",
        "Tall heatproof bowl",
    }


def make_shared(seed: int) -> Json:
    """Two batches, two things that the kit has one of each: taken up, and left some steps later."""
    rng = random.Random(seed)
    tasks, gaps, holds = [], [], []
    for run in ("one", "two"):
        keys = [f"{run}.{place}" for place in range(3)]
        tasks += [make_task(key, rng.choice([5, 10, 15]), run=run) for key in keys]
        gaps += [make_gap(one, other) for one, other in zip(keys, keys[1:], strict=False)]
        if rng.random() < 0.5:
            tasks.append(make_task(f"{run}.wait", rng.choice([20, 40, 90]), kind="wait", run=run))
            gaps += [make_gap(keys[0], f"{run}.wait"), make_gap(f"{run}.wait", keys[1])]
        for thing in ("bowl", "jug"):
            begins = rng.randrange(2)
            until = rng.randrange(begins + 1, 3)
            if rng.random() < 0.8:
                holds.append({"equipment": thing, "many": 1, "from": keys[begins], "until": keys[until]})
    hours = make_hours([(9 * 60, 10 * 60 + rng.choice([0, 20, 45])), (12 * 60, 14 * 60)])
    things = {thing: {"name": thing, "many": 1} for thing in ("bowl", "jug")}
    return make_bare(tasks, gaps, hours, holds=holds, equipment=things)


def test_no_order_of_two_batches_that_share_their_things_beats_the_plan() -> None:
    """Every order of small days tried one by one; the layout, which the phone has too, keeps them apart as well."""
    for seed in range(often(60, 150)):
        problem = make_shared(seed)

        made = plan(problem, changes=False)

        assert made["finish_at"] == best_finish(problem), seed
        assert faults(problem, made) == [], seed
        day = Day(problem, problem["since"])
        laid = Layout(day, day.by_need(random.Random(seed).sample([*day.number], len(day.number))))
        if laid.placed:
            steps = [
                {
                    **step,
                    "starts_at": laid.start[day.number[step["id"]]],
                    "ends_at": laid.end[day.number[step["id"]]],
                }
                for step in made["steps"]
            ]
            assert [
                each for each in faults(problem, {**made, "steps": steps}) if "equipment" in each
            ] == [], seed


@pytest.mark.parametrize("seed", range(100, 108))
def test_mixed_batches_are_planned_with_no_more_than_the_kit_has(seed: int) -> None:
    problem, _ = mixed_day(seed)

    made = plan(problem, budget=0.5, changes=False)

    assert made["status"] in ("proven", "found")
    assert faults(problem, made) == []


def test_a_step_whose_bowl_is_in_use_is_not_next() -> None:
    """Soap sets in the one bowl: the other batch's is not begun before it is turned out; with two bowls it is."""
    filled = {"status": "done", "began_at": MONDAY, "ended_at": MONDAY + 9 * HOUR, "left_ms": 0}
    tasks = [make_task("fill", 5, **filled), make_task("set", 60, kind="wait"), make_task("empty", 5)]
    tasks += [make_task("other fill", 10), make_task("other empty", 5)]
    gaps = [make_gap("fill", "set"), make_gap("set", "empty"), make_gap("other fill", "other empty")]
    holds = [
        {"equipment": "bowl", "many": 1, "from": one, "until": two}
        for one, two in (("fill", "empty"), ("other fill", "other empty"))
    ]
    problem = make_bare(tasks, gaps, holds=holds, equipment={"bowl": {"name": "bowl", "many": 1}})
    problem["tasks"][1] |= {"status": "begun", "began_at": MONDAY + 9 * HOUR}

    told = next_step(problem, [], MONDAY + 9 * HOUR)
    roomy = {**problem, "equipment": {"bowl": {"name": "bowl", "many": 2}}}

    assert (told["step"], told["until"]) == (None, MONDAY + 10 * HOUR)
    assert next_step(roomy, [], MONDAY + 9 * HOUR)["step"] == "other fill"


# Nobody waits for the other's bowl for ever


def ends(problem: Json, done: frozenset[str], known: dict[frozenset[str], bool]) -> bool:
    """Whether everything can still be done, every order tried."""
    if done not in known:
        known[done] = len(done) == len(problem["tasks"]) or any(
            ends(problem, way, known) for way in ways_on(problem, done)
        )
    return known[done]


def test_what_is_in_use_can_be_emptied_exactly_when_some_order_ends() -> None:
    """Along random ways through small worlds, against every order tried one by one."""
    said = []
    for seed in range(often(60, 150)):
        rng, problem, known = random.Random(seed), make_crossing(seed), {}
        done, ways = frozenset(), [frozenset()]
        while ways:
            done = rng.choice(ways)
            said.append(can_empty(Day(done_in(problem, done), problem["since"])))
            assert said[-1] == ends(problem, done, known), (seed, done)
            ways = ways_on(problem, done)
    assert {True, False} == set(said)


def test_a_bowl_is_not_taken_for_a_batch_whose_jug_waits_for_that_bowl() -> None:
    """One has the jug and needs the bowl next; two could take the bowl, and would need that jug: a plan's order aside."""
    tasks = [make_task("for ever", 12 * 60)]
    tasks += [
        make_task(f"{run}.{step}", 5, run=run) for run in ("one", "two") for step in ("oil", "salt", "stir")
    ]
    gaps = [make_gap(f"{run}.{step}", f"{run}.stir") for run in ("one", "two") for step in ("oil", "salt")]
    holds = [
        {"equipment": thing, "many": 1, "from": f"{run}.{step}", "until": f"{run}.stir"}
        for run in ("one", "two")
        for thing, step in (("jug", "oil"), ("bowl", "salt"))
    ]
    things = {thing: {"name": thing, "many": 1} for thing in ("bowl", "jug")}
    problem = done_in(make_bare(tasks, gaps, holds=holds, equipment=things), frozenset({"one.oil"}))

    told = next_step(problem, ["two.salt", "two.oil", "two.stir", "one.salt"], problem["since"])

    assert told["step"] == "one.salt"
    assert can_empty(Day(problem, problem["since"]))
    assert not can_empty(Day(problem, problem["since"]), Day(problem, 0).number["two.salt"])


def test_whoever_follows_the_advice_never_comes_to_stand_still() -> None:
    """Where nothing can be foreseen: all is done in the end but the step that no day holds."""
    for seed in range(8):
        problem = make_crossing(seed)
        order = random.Random(seed).sample([task["id"] for task in problem["tasks"]], len(problem["tasks"]))
        done, now = frozenset[str](), problem["since"]
        while len(done) < len(problem["tasks"]) - 1:
            told = next_step(done_in(problem, done), order, now)
            assert told["step"] or (told["until"] or 0) > now, (seed, done, told)
            assert not told["step"] or done | {told["step"]} in ways_on(problem, done), (seed, done, told)
            done, now = (done | {told["step"]}, now) if told["step"] else (done, told["until"])
            assert now < problem["since"] + 3 * DAY, (seed, done)


def two_of_the_demo(done: set[str]) -> Json:
    parts = [tasks_of(demo_sheet(), run=run) for run in ("one", "two")]
    problem = make_problem(parts, [{"name": "You", "hours": HOURS}], WEDNESDAY, WEDNESDAY + 10 * DAY)
    for task in problem["tasks"]:
        if task["id"] in done:
            task |= {"status": "done", "began_at": WEDNESDAY, "ended_at": WEDNESDAY + MINUTE, "left_ms": 0}
    return problem


def test_two_batches_that_are_in_one_bowl_by_their_own_word_still_get_a_plan() -> None:
    """A maker who has a bowl more than the kit says began both: what there is beyond the kit is held by nobody."""
    begun = {f"{run}/base.1.{step}" for run in ("one", "two") for step in ("grind", "dry")}
    problem = two_of_the_demo(begun)

    made = replan(problem, None, WEDNESDAY + 30 * MINUTE)

    assert made["status"] in ("proven", "found")


# Each ready by its own time


def due_day(runs: int, begun: int = 0) -> Json:
    """So many batches of hand butter, each wanting all the oval moulds, twice; of the first few a round is poured."""
    sheet, recipe = part_of(BUTTER, 12)
    parts = [tasks_of(sheet, run=f"run{number}") for number in range(runs)]
    problem = make_problem(parts, [{"name": "You", "hours": HOURS}], WEDNESDAY, WEDNESDAY + 14 * DAY)
    for task in problem["tasks"]:
        step = task["id"].split("/")[1]
        if int(task["run"][3:]) < begun and step.split(".")[2] in (
            "weigh_all",
            "melt",
            "vitamin_in",
            "scent_in",
            "pour",
        ):
            if step.split(".")[1] == "1":
                task |= {"status": "done", "began_at": WEDNESDAY, "ended_at": WEDNESDAY, "left_ms": 0}
            if step == "butter.1.cool":
                task |= {"status": "begun", "began_at": WEDNESDAY}
    return problem


@pytest.mark.parametrize(
    ("runs", "begun", "due"),
    [
        (2, 0, {"run0": 3, "run1": 3}),
        (3, 0, {"run0": 4, "run1": 5}),
        (2, 1, {"run1": 3}),
        (3, 1, {"run1": 4, "run0": 5}),
    ],
)
def test_batches_that_are_due_take_turns_with_their_moulds(runs: int, begun: int, due: Json) -> None:
    """Two that are due, one that is and one that is not, and one that is poured already and not due at all."""
    problem = due_day(runs, begun)
    wanted = {run: WEDNESDAY + days * DAY for run, days in due.items()}

    made = plan_several(problem, wanted, None, WEDNESDAY, budget=4)

    assert [each["why"] for each in made["due"]] == [""] * len(due)
    assert faults(problem, {**made, "aims": []}) == []
    ends = {run: max(step["ends_at"] for step in made["steps"] if step["run"] == run) for run in wanted}
    assert all(ends[run] <= at for run, at in wanted.items())


# At the bench


def batch(name: str, *told: tuple[str, Json], kit: Json | None = None) -> Json:
    sheet = demo_sheet(kit=kit)
    at_bench = Maker(sheet)
    for kind, body in told:
        at_bench.tell(kind, **body)
    return {"name": name, "sheet": sheet, "state": at_bench.state}


BUTTER_IN = ("weighed", {"line": "base.1.butter", "mg": 30_000})


def test_the_bench_says_who_has_it_and_offers_the_next_that_fits() -> None:
    mine, other = batch("D-A42"), batch("D-A41", BUTTER_IN)

    (told,) = [each for each in in_use(mine, [other]) if each["step"] == "base.1.cut_butter"]

    assert told["says"] == "In use by D-A41: “Small heatproof jug”. Take “Heatproof glass jug”."
    assert (told["place"], told["instead"]) == ("base.1.jug", "glass_jug")


def test_what_the_bench_offers_is_free_in_every_batch() -> None:
    """Whatever is in use where: what is offered fits, and nobody has it. What is used up is asked to be emptied."""
    jug = ("weighed", {"line": "embed.1.clear", "mg": 100_000})
    for others in ([BUTTER_IN], [BUTTER_IN, jug]):
        told = in_use(batch("mine"), [batch("other", *others)])
        said = {each["step"]: each for each in told}["base.1.cut_butter"]
        assert said["instead"] == ("glass_jug" if len(others) == 1 else None)
    assert said["says"] == "In use by other: “Small heatproof jug”. No other fits: empty it first."


@pytest.mark.parametrize(
    "others",
    [
        [],
        [BUTTER_IN, ("done", {"step": "base.1.join"})],
        [BUTTER_IN, ("finished", {})],
        [("took", {"vessel": "base.1.jug", "instead": "glass_jug"}), BUTTER_IN],
    ],
    ids=["nothing in it", "tipped out", "finished", "another was taken"],
)
def test_what_is_free_is_not_said_to_be_in_use(others: list[Any]) -> None:
    told = in_use(batch("mine"), [batch("other", *others)])

    assert [each for each in told if each["step"] == "base.1.cut_butter"] == []


def test_moulds_and_a_mixer_that_another_batch_has_are_said() -> None:
    sheet, _ = part_of(BUTTER, 12)
    poured = Maker(sheet)
    for step in ("weigh_all", "melt", "vitamin_in", "scent_in", "pour"):
        poured.tell("done", step=f"butter.1.{step}")
    melted = Maker(sheet)
    for step in ("weigh_all", "melt", "vitamin_in", "scent_in"):
        melted.tell("done", step=f"butter.1.{step}")
    run = {"name": "mine", "sheet": sheet, "state": melted.state}
    other = {"name": "B-2", "sheet": sheet, "state": poured.state}

    assert [each["says"] for each in in_use(run, [other])] == [
        "In use by B-2: 8 of 8 oval cavities. Turn them out first."
    ]
    unknown = {**sheet, "components": [{**each, "mould": None} for each in sheet["components"]]}
    assert in_use(run, [{**other, "sheet": unknown}]) == []


def test_a_tool_that_hands_of_another_batch_are_on_is_said() -> None:
    mine = batch("mine", ("done", {"step": "embed.1.cut"}))
    other = batch(
        "B-2", ("done", {"step": "embed.1.cut"}), ("heated", {"step": "embed.1.melt", "ms": 30_000})
    )

    said = [each["says"] for each in in_use(mine, [other]) if each["what"] == "tool"]

    assert said == ["In use by B-2: “Microwave at half power”."]
    assert bench.in_use(other, []) == []
