"""What a plan of a week does not keep, found by following it from instant to instant. It knows no model and no rule."""

from itertools import pairwise

from bench.shapes.week import Apart, SizeToMake, Week, WeekBatch, WeekHold, WeekPlan


def faults(week: Week, plan: WeekPlan) -> list[str]:
    """Each as "rule: what"; [] for a plan that can be followed as told."""
    makes = {make["id"]: make for make in week["makes"]}
    found: list[str] = []
    for number, batch in enumerate(plan["batches"]):
        make = makes[batch["make"]]
        found += [f"{rule}: batch {number}" for rule in _of_batch(week, make["sizes"][batch["size"]], batch)]
        found += _fresh(week, batch, make["keeps_ms"], number)
    found += [*_hands(week, plan), *_kit(week, plan), *_pieces(week, plan)]
    return [*found, *_lots(week, plan), *_parts(week, plan)]


def _of_batch(week: Week, size: SizeToMake, batch: WeekBatch) -> list[str]:
    if len(batch["sittings"]) != len(size["sittings"]):
        return ["sittings"]
    found = []
    for placed, sitting in zip(batch["sittings"], size["sittings"], strict=True):
        lasts = placed["ends_at"] - placed["starts_at"]
        if lasts < sitting["lasts_ms"]:
            found.append("length")
        hours = week["makers"][placed["maker"]]["hours"]
        if not any(opens <= placed["starts_at"] and placed["ends_at"] <= closes for opens, closes in hours):
            found.append("hours")
        if batch["ready_at"] < placed["starts_at"] + sitting["until_ms"]:
            found.append("ready")
    starts = [placed["starts_at"] for placed in batch["sittings"]]
    found += [rule for gap in size["apart"] for rule in _of_gap(gap, starts)]
    if sum(batch["gives"].values()) > size["good"] or any(pieces < 0 for pieces in batch["gives"].values()):
        found.append("good")
    return found


def _of_gap(gap: Apart, starts: list[int]) -> list[str]:
    apart = starts[gap["to"]] - starts[gap["from"]]
    ruined = gap["class"] == "ruin" and gap["most_ms"] is not None and apart > gap["most_ms"]
    return (["least"] if apart < gap["least_ms"] else []) + (["ruin"] if ruined else [])


def _fresh(week: Week, batch: WeekBatch, keeps_ms: int | None, number: int) -> list[str]:
    by = {want["id"]: want["by"] for want in week["wants"]}
    made = {want["id"]: want["make"] for want in week["wants"]}
    found = []
    for want in batch["gives"]:
        if made[want] != batch["make"]:
            found.append(f"recipe: {want} of batch {number}")
        if batch["ready_at"] > by[want]:
            found.append(f"late: {want} of batch {number}")
        if keeps_ms is not None and batch["ready_at"] + keeps_ms < by[want]:
            found.append(f"stale: {want} of batch {number}")
    return found


def _hands(week: Week, plan: WeekPlan) -> list[str]:
    found = []
    for maker in range(len(week["makers"])):
        spans = sorted(
            (placed["starts_at"], placed["ends_at"])
            for batch in plan["batches"]
            for placed in batch["sittings"]
            if placed["maker"] == maker
        )
        found += [f"hands: {two[0]}" for one, two in pairwise(spans) if two[0] < one[1]]
    return found


def _kit(week: Week, plan: WeekPlan) -> list[str]:
    """At every instant at which something is taken up, no more of it is in use than there is, the bench's own included.

    What the batches on the bench have is theirs, however much it is: only what is planned beside them is a fault.
    """
    sizes = {make["id"]: make["sizes"] for make in week["makes"]}
    spans: dict[str, list[tuple[int, int, int]]] = {}
    for batch in plan["batches"]:
        for hold in sizes[batch["make"]][batch["size"]]["holds"]:
            spans.setdefault(hold["equipment"], []).append(_span(batch, hold))
    found = []
    for key, those in spans.items():
        busy = [
            (each["since"], each["until"], each["many"]) for each in week["busy"] if each["equipment"] == key
        ]
        for at in (begins for begins, _, _ in [*those, *busy]):
            mine, theirs = (
                sum(many for begins, ends, many in some if begins <= at < ends) for some in (those, busy)
            )
            if mine and mine + theirs > week["equipment"][key]["many"]:
                found.append(f"equipment: {key}")
    return found


def _span(batch: WeekBatch, hold: WeekHold) -> tuple[int, int, int]:
    begins = batch["sittings"][hold["from"]]["starts_at"] + hold["from_ms"]
    return begins, batch["sittings"][hold["until"]]["starts_at"] + hold["until_ms"], hold["many"]


def _pieces(week: Week, plan: WeekPlan) -> list[str]:
    """Each want is met, or said to be short by what it lacks; and nobody is given what is not there."""
    short = {each["want"]: each["short"] for each in plan["short"]}
    found = []
    for want in week["wants"]:
        given = plan["from_there"].get(want["id"], 0)
        given += sum(batch["gives"].get(want["id"], 0) for batch in plan["batches"])
        if given + short.get(want["id"], 0) != want["pieces"]:
            found.append(f"pieces: {want['id']}")
    for make in week["makes"]:
        mine = [want for want in week["wants"] if want["make"] == make["id"]]
        for want in mine:  # of what is there in time, no more than there is for it and all before it
            until = [each for each in mine if each["by"] <= want["by"]]
            there = [
                each["pieces"]
                for each in week["there"]
                if each["make"] == make["id"] and each["since"] <= want["by"]
            ]
            if sum(plan["from_there"].get(each["id"], 0) for each in until) > sum(there):
                found.append(f"there: {want['id']}")
    return found


def _lots(week: Week, plan: WeekPlan) -> list[str]:
    sizes = {make["id"]: make["sizes"] for make in week["makes"]}
    lots = {lot["id"]: lot for lot in week["lots"]}
    counted = {lot["ingredient"] for lot in week["lots"]}
    counted |= {make["part"]["ingredient"] for make in week["makes"] if "part" in make}
    found = []
    for number, batch in enumerate(plan["batches"]):
        for ingredient, mg in sizes[batch["make"]][batch["size"]]["takes"].items():
            taken = sum(some for lot, some in batch["takes"].items() if lots[lot]["ingredient"] == ingredient)
            taken += sum(each["much"] for each in batch.get("parts", []) if each["ingredient"] == ingredient)
            if ingredient in counted and taken != mg:
                found.append(f"takes: {ingredient} of batch {number}")
        begins = batch["sittings"][0]["starts_at"]
        for key in batch["takes"]:
            until = lots[key]["until"]
            if begins < lots[key]["since"] or (until is not None and begins > until):
                found.append(f"lot: {key} of batch {number}")
    for key, lot in lots.items():
        if sum(batch["takes"].get(key, 0) for batch in plan["batches"]) > lot["mg"]:
            found.append(f"lot: {key}")
    return found


def _parts(week: Week, plan: WeekPlan) -> list[str]:
    """A part is ready before the batch that takes it is begun, and still good; and no piece goes to two."""
    makes = {make["id"]: make for make in week["makes"]}
    found = []
    fed: dict[tuple[str, int], int] = {}
    for number, batch in enumerate(plan["batches"]):
        begins = batch["sittings"][0]["starts_at"]
        for part in batch.get("parts", []):
            if part["batch"] is not None:
                source = "batch", part["batch"]
                of = plan["batches"][part["batch"]]
                keeps = makes[of["make"]]["keeps_ms"]
                key, since, until = (
                    of["make"],
                    of["ready_at"],
                    None if keeps is None else of["ready_at"] + keeps,
                )
            else:
                source = "there", part["there"] or 0
                there = week["there"][source[1]]
                key, since, until = there["make"], there["since"], there["until"]
            fed[source] = fed.get(source, 0) + part["much"]
            if makes[key].get("part", {}).get("ingredient") != part["ingredient"]:
                found.append(f"part: {key} in batch {number}")
            if begins < since or (until is not None and begins > until):
                found.append(f"unready: {key} in batch {number}")
    return [*found, *_twice(week, plan, fed)]


def _twice(week: Week, plan: WeekPlan, fed: dict[tuple[str, int], int]) -> list[str]:
    makes = {make["id"]: make for make in week["makes"]}
    found = []
    for place, batch in enumerate(plan["batches"]):
        each = makes[batch["make"]].get("part", {}).get("each", 1)
        good = makes[batch["make"]]["sizes"][batch["size"]]["good"]
        if each * sum(batch["gives"].values()) + fed.get(("batch", place), 0) > each * good:
            found.append(f"twice: batch {place}")
    for key in {each["make"] for each in week["there"]}:
        each = makes[key].get("part", {}).get("each", 1)
        there = sum(one["pieces"] for one in week["there"] if one["make"] == key)
        mine = {want["id"] for want in week["wants"] if want["make"] == key}
        given = sum(many for want, many in plan["from_there"].items() if want in mine)
        taken = [
            fed.get(("there", place), 0) for place, one in enumerate(week["there"]) if one["make"] == key
        ]
        if each * given + sum(taken) > each * there:
            found.append(f"twice: {key}")
    return found
