"""Last time: what former runs of a recipe say about its steps.

From batch records of one recipe (`bench/record.py`), by written step ("base.press"), rounds of one
run taken together. `last_times` says what happened; `learned` gives, once there are three runs to
learn from, the middle and the spread, which then stand in place of the recipe's word: the median and
the quartiles (linear between the two nearest ranks, both ends counted). All figures are whole numbers.
"""

from typing import Any

from bench.whole import PPM, grams, half_even, span

Json = Any  # until its shape is named

LEAST_RUNS = 3

# What is learned of a step: bursts used; heat per mass melted; looks that said not yet (sprays, stirs);
# how long a wait really was; hands-on time.
LEARNED = ("bursts", "heat_ms_per_kg", "tries", "wait_ms", "hands_ms")


def step_key(step: str) -> str:
    """The written step of a step on a sheet: "base.2.press" is "base.press"."""
    component, _, written = step.split(".", 2)
    return f"{component}.{written}"


def of_record(record: Json) -> dict[str, Json]:
    """One run by written step: {"bursts", "heat_ms_per_kg", "tries", "wait_ms", "word", "hands_ms"}.

    A field is None where the run has nothing to say of it. Over several rounds, bursts, tries and
    hands-on time are those of the average round, a wait the longest.
    """
    told: dict[str, Json] = {}
    rounds: dict[str, int] = {}
    for step in record["steps"]:
        key = step_key(step["step"])
        rounds[key] = max(rounds.get(key, 0), step["round"])
        told[key] = {**dict.fromkeys(LEARNED, None), "word": ""}

    def add(step: str, field: str, value: int) -> None:
        one = told[step_key(step)]
        one[field] = (one[field] or 0) + value

    heat: dict[str, list[int]] = {}
    for each in record["bursts"]:
        add(each["step"], "bursts", each["used"])
        ms, mg = heat.get(step_key(each["step"]), [0, 0])
        heat[step_key(each["step"])] = [ms + each["heated_ms"], mg + each["mg"]]
    for key, (ms, mg) in heat.items():
        told[key]["heat_ms_per_kg"] = half_even(ms * PPM, mg) if mg else None
    for each in record["looks"]:
        add(each["step"], "tries", each["tries"])
    for each in record["waits"]:
        one = told[step_key(each["step"])]
        one["word"] = each["word"]
        if each["real_ms"] is not None:
            one["wait_ms"] = max(one["wait_ms"] or 0, each["real_ms"])
    for step, ms in record["hands"]["steps"].items():
        if step:
            add(step, "hands_ms", ms)
    for key, one in told.items():
        for field in ("bursts", "tries", "hands_ms"):
            if one[field] is not None:
                one[field] = half_even(one[field], rounds[key])
    return told


def last_times(records: list[Json]) -> dict[str, list[str]]:
    """What happened at each step the last times, newest first: {step: ["5 bursts"]}; and at each line that was
    weighed, under its step: {step/line: ["3 g too much"]}.

    records: newest first. What no run has anything to say of is left out.
    """
    said: dict[str, list[str]] = {}
    for record in records:
        for key, one in of_record(record).items():
            words = in_words(one)
            if words:
                said.setdefault(key, []).append(words)
        for key, off in off_by_line(record).items():
            if off:
                shown = grams(abs(off), 1000 if abs(off) >= 1000 else 10)
                said.setdefault(key, []).append(f"{shown} too {'much' if off > 0 else 'little'}")
    return said


def off_by_line(record: Json) -> dict[str, int]:
    """What was weighed of each line in the average round, less what was asked: {step/line: mg}."""
    told: dict[str, list[int]] = {}
    for line in record["lines"]:
        if line["step"] is not None and line["deviation_mg"] is not None and line["status"] != "open":
            key = f"{step_key(line['step'])}/{line['line'].split('.', 2)[2]}"
            told.setdefault(key, []).append(line["deviation_mg"])
    return {key: half_even(sum(each), len(each)) for key, each in told.items()}


def in_words(one: Json) -> str:
    """ "5 bursts, 7 tries, dry after 6 h 10 min"; "" when there is nothing to say."""
    told = []
    if one["bursts"]:
        told.append(f"{one['bursts']} burst{'' if one['bursts'] == 1 else 's'}")
    if one["tries"]:
        told.append(f"{one['tries']} {'try' if one['tries'] == 1 else 'tries'}")
    if one["wait_ms"] is not None:
        told.append(f"{one['word']} after {span(one['wait_ms'])}")
    return ", ".join(told)


def learned(records: list[Json]) -> dict[str, Json]:
    """What the runs teach of each step: {step: {field: {"runs", "median", "low", "high"} or None}}.

    None: fewer than three runs have it, so the recipe's word stands. Under "" is the batch itself:
    {"loss_ppm": what was unaccounted for or scraped out, of what went in; "hands_ms": in all}.
    """
    seen: dict[str, dict[str, list[int]]] = {}
    for record in records:
        told = of_record(record)
        told[""] = {"loss_ppm": _loss_ppm(record["balance"]), "hands_ms": record["hands"]["ms"]}
        for key, one in told.items():
            fields = seen.setdefault(key, {})
            for field in ("loss_ppm", "hands_ms") if key == "" else LEARNED:
                values = fields.setdefault(field, [])
                if one[field] is not None:
                    values.append(one[field])
    return {key: {field: _spread(values) for field, values in fields.items()} for key, fields in seen.items()}


def planned_hands(records: list[Json]) -> dict[str, int]:
    """Hands-on ms by written step for planning, of the steps that three runs have told of."""
    taught = learned(records)
    return {key: one["hands_ms"]["median"] for key, one in taught.items() if key and one["hands_ms"]}


def _loss_ppm(balance: Json | None) -> int | None:
    if balance is None or balance["in_mg"] <= 0:
        return None
    return half_even((balance["unaccounted_mg"] + balance["left_mg"]) * PPM, balance["in_mg"])


def _spread(values: list[int]) -> Json | None:
    if len(values) < LEAST_RUNS:
        return None
    ranked = sorted(values)

    def quartile(of: int) -> int:
        place, rest = divmod((len(ranked) - 1) * of, 4)
        step = ranked[place + 1] - ranked[place] if rest else 0
        return half_even(4 * ranked[place] + step * rest, 4)

    return {"runs": len(values), "median": quartile(2), "low": quartile(1), "high": quartile(3)}
