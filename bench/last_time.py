"""Last time: what former runs of a recipe say about its steps.

From batch records of one recipe (`bench/record.py`), by written step ("base.press"), rounds of one
run taken together. `last_times` says what happened; `learned` gives, once there are three runs to
learn from, the middle and the spread, which then stand in place of the recipe's word: the median and
the quartiles (linear between the two nearest ranks, both ends counted). All figures are whole numbers.
"""

from typing import Literal

from bench.shapes.record import Balance, Learned, Record, Spread, StepHistory
from bench.whole import PPM, half_even, mass, span
from bench.words import say

LEAST_RUNS = 3


def step_key(step: str) -> str:
    """The written step of a step on a sheet: "base.2.press" is "base.press"."""
    component, _, written = step.split(".", 2)
    return f"{component}.{written}"


def of_record(record: Record) -> dict[str, StepHistory]:
    """One run by written step.

    Over several rounds, bursts, tries and hands-on time are those of the average round, a wait the longest.
    """
    history: dict[str, StepHistory] = {}
    rounds: dict[str, int] = {}
    for step in record["steps"]:
        key = step_key(step["step"])
        rounds[key] = max(rounds.get(key, 0), step["round"])
        history[key] = _nothing()

    def add(step: str, field: Literal["bursts", "tries", "hands_ms"], value: int) -> None:
        one = history[step_key(step)]
        one[field] = (one[field] or 0) + value

    heat: dict[str, tuple[int, int]] = {}
    for burst in record["bursts"]:
        add(burst["step"], "bursts", burst["used"])
        history[step_key(burst["step"])]["heat_word"] = burst.get("word", "burst")
        ms, mg = heat.get(step_key(burst["step"]), (0, 0))
        heat[step_key(burst["step"])] = (ms + burst["heated_ms"], mg + burst["mg"])
    for key, (ms, mg) in heat.items():
        history[key]["heat_ms_per_kg"] = half_even(ms * PPM, mg) if mg else None
    for look in record["looks"]:
        add(look["step"], "tries", look["tries"])
    for wait in record["waits"]:
        one = history[step_key(wait["step"])]
        one["word"] = wait["word"]
        if wait["real_ms"] is not None:
            one["wait_ms"] = max(one["wait_ms"] or 0, wait["real_ms"])
    for name, ms in record["hands"]["steps"].items():
        if name:
            add(name, "hands_ms", ms)
    for key, one in history.items():
        _share_out(one, rounds[key])
    return history


def _nothing() -> StepHistory:
    return {
        "bursts": None,
        "heat_word": "burst",
        "heat_ms_per_kg": None,
        "tries": None,
        "wait_ms": None,
        "word": "",
        "hands_ms": None,
    }


def _share_out(one: StepHistory, rounds: int) -> None:
    """Make of a run's sums those of its average round."""
    if one["bursts"] is not None:
        one["bursts"] = half_even(one["bursts"], rounds)
    if one["tries"] is not None:
        one["tries"] = half_even(one["tries"], rounds)
    if one["hands_ms"] is not None:
        one["hands_ms"] = half_even(one["hands_ms"], rounds)


def last_times(records: list[Record]) -> dict[str, list[str]]:
    """What happened at each step the last times, newest first: {step: ["5 bursts"]}; and at each line that was
    weighed, under its step: {step/line: ["3 g too much"]}.

    records: newest first. What no run has anything to say of is left out.
    """
    last: dict[str, list[str]] = {}
    for record in records:
        for key, one in of_record(record).items():
            words = in_words(one)
            if words:
                last.setdefault(key, []).append(words)
        for key, off in off_by_line(record).items():
            if off:
                shown = mass(abs(off), 1000 if abs(off) >= 1000 else 10)
                last.setdefault(key, []).append(
                    say("last-time-too-much" if off > 0 else "last-time-too-little", mass=shown)
                )
    return last


def off_by_line(record: Record) -> dict[str, int]:
    """What was weighed of each line in the average round, less what was asked: {step/line: mg}."""
    off: dict[str, list[int]] = {}
    for line in record["lines"]:
        if line["step"] is not None and line["deviation_mg"] is not None and line["status"] != "open":
            key = f"{step_key(line['step'])}/{line['line'].split('.', 2)[2]}"
            off.setdefault(key, []).append(line["deviation_mg"])
    return {key: half_even(sum(each), len(each)) for key, each in off.items()}


def in_words(one: StepHistory) -> str:
    """ "5 bursts, 7 tries, dry after 6 h 10 min"; "" when there is nothing to say."""
    words = []
    if one["bursts"]:
        words.append(say("last-time-bursts", word=one["heat_word"], count=one["bursts"]))
    if one["tries"]:
        words.append(say("last-time-tries", count=one["tries"]))
    if one["wait_ms"] is not None:
        words.append(say("last-time-wait", word=one["word"], length=span(one["wait_ms"])))
    return ", ".join(words)


def learned(records: list[Record]) -> dict[str, Learned]:
    """What the runs teach of each step, of those that any run has; under "" of the batch itself.

    Of the batch: "loss_ppm" (what was unaccounted for or scraped out, of what went in) and "hands_ms" in all.
    """
    of_steps: dict[str, list[StepHistory]] = {}
    for record in records:
        for key, one in of_record(record).items():
            of_steps.setdefault(key, []).append(one)
    taught: dict[str, Learned] = {key: _taught(runs) for key, runs in of_steps.items()}
    if records:
        taught[""] = {
            "loss_ppm": _spread([_loss_ppm(record["balance"]) for record in records]),
            "hands_ms": _spread([record["hands"]["ms"] for record in records]),
        }
    return taught


def _taught(runs: list[StepHistory]) -> Learned:
    return {
        "bursts": _spread([one["bursts"] for one in runs]),
        "heat_ms_per_kg": _spread([one["heat_ms_per_kg"] for one in runs]),
        "tries": _spread([one["tries"] for one in runs]),
        "wait_ms": _spread([one["wait_ms"] for one in runs]),
        "hands_ms": _spread([one["hands_ms"] for one in runs]),
    }


def planned_hands(records: list[Record]) -> dict[str, int]:
    """Hands-on ms by written step for planning, of the steps that three runs have told of."""
    hands = {key: one.get("hands_ms") for key, one in learned(records).items() if key}
    return {key: spread["median"] for key, spread in hands.items() if spread}


def _loss_ppm(balance: Balance | None) -> int | None:
    if balance is None or balance["in_mg"] <= 0:
        return None
    return half_even((balance["unaccounted_mg"] + balance["left_mg"]) * PPM, balance["in_mg"])


def _spread(found: list[int | None]) -> Spread | None:
    """The middle and the quartiles of what runs have; None for fewer than three."""
    ranked = sorted(value for value in found if value is not None)
    if len(ranked) < LEAST_RUNS:
        return None

    def quartile(of: int) -> int:
        place, rest = divmod((len(ranked) - 1) * of, 4)
        step = ranked[place + 1] - ranked[place] if rest else 0
        return half_even(4 * ranked[place] + step * rest, 4)

    return {"runs": len(ranked), "median": quartile(2), "low": quartile(1), "high": quartile(3)}
