"""What follows from the needs of a sheet's steps: counts of counts, the longest way to the end, what to wait for."""

from bench.errors import SizeError
from bench.lists import once
from bench.shapes.recipe import Window
from bench.shapes.sheet import Step
from bench.shapes.units import Id, Ms, StepKey
from bench.states import ASSEMBLY
from bench.steps import counts_pieces, is_empty, traits, usual_wait_ms
from bench.words import say


def windows_of(step: Step) -> list[Window]:
    """The recipe's own window of a step, and those by nature."""
    return [*([step["window"]] if step["window"] else []), *step.get("keeps", [])]


def drop_empty(steps: list[Step]) -> None:
    """Take out weighings with nothing left to weigh; what came after one comes after its needs."""
    for empty in [step for step in steps if is_empty(step)]:
        steps.remove(empty)
        for step in steps:
            for needs in (step["after"], *(window["from"] for window in windows_of(step))):
                if empty["id"] in needs:
                    place = needs.index(empty["id"])
                    needs[place : place + 1] = [need for need in empty["after"] if need not in needs]


def add_follows(steps: list[Step], takes: dict[Id, int]) -> None:
    """follows: for each count of pieces, the counts that its pieces come from, one for each with all its rounds."""
    by_id = {step["id"]: step for step in steps}
    for step in steps:
        if not counts_pieces(step):
            continue
        sources: dict[tuple[Id, Id], list[StepKey]] = {}
        seen: set[StepKey] = set()
        stack = list(step["after"])
        while stack:
            key = stack.pop()
            if key in seen:
                continue
            seen.add(key)
            before = by_id[key]
            inside = before["component"] == step["component"]
            if traits(before).counts_pieces and (inside or step["component"] == ASSEMBLY):
                sources.setdefault((before["component"], before["step"]), []).append(key)
            else:
                stack += before["after"]
        step["follows"] = [
            {"steps": sorted(keys), "takes": 1 if component == step["component"] else takes[component]}
            for (component, _), keys in sorted(sources.items())
        ]


def add_tails(steps: list[Step]) -> None:
    """tail_ms: the longest run of usual waits from the start of a step to the end of the batch."""
    followers: dict[StepKey, list[Step]] = {step["id"]: [] for step in steps}
    for step in steps:
        for need in step["after"]:
            followers[need].append(step)
    tails: dict[StepKey, Ms] = {}
    opened: set[StepKey] = set()
    for start in steps:
        stack = [start]
        while stack:
            step = stack[-1]
            key = step["id"]
            unsettled = [each for each in followers[key] if each["id"] not in tails]
            if not unsettled:
                stack.pop()
                tails[key] = usual_wait_ms(step) + max(
                    (tails[each["id"]] for each in followers[key]), default=0
                )
                continue
            if key in opened:  # met again before what follows it was settled
                raise SizeError("pieces", say("sizes-waits-for-itself", title=step["title"]))
            opened.add(key)
            stack.extend(unsettled)
    for step in steps:
        step["tail_ms"] = tails[step["id"]]


def add_holds(steps: list[Step]) -> None:
    """hold_for: what else must be ready before a step is worth beginning, because a window follows.

    For a window opened by F and closed by C, what C needs of other parts should be done before F,
    and before the hands-on steps of F's own round that lead straight to it.
    """
    by_id = {step["id"]: step for step in steps}
    known: dict[StepKey, set[StepKey]] = {}  # many closings ask about the same steps

    def before(key: StepKey) -> set[StepKey]:
        if key not in known:
            known[key] = _all_before(by_id, key)
        return known[key]

    for closing in steps:
        for opener in once(each for window in windows_of(closing) for each in window["from"]):
            upstream = before(opener)
            others = [
                need
                for need in closing["after"]
                if _round_of(by_id[need]) != _round_of(by_id[opener])
                and need not in upstream
                and opener not in before(need)
            ]
            for key in _hands_before(by_id, opener):
                held = by_id[key]["hold_for"]
                held += [need for need in others if need not in held]


def _round_of(step: Step) -> tuple[Id, int]:
    return step["component"], step["round"]


def _all_before(by_id: dict[StepKey, Step], key: StepKey) -> set[StepKey]:
    seen: set[StepKey] = set()
    stack = list(by_id[key]["after"])
    while stack:
        need = stack.pop()
        if need not in seen:
            seen.add(need)
            stack += by_id[need]["after"]
    return seen


def _hands_before(by_id: dict[StepKey, Step], opener: StepKey) -> list[StepKey]:
    """The opener and the steps of its round that lead to it with no wait between."""
    chain: list[StepKey] = []
    stack = [opener]
    while stack:
        key = stack.pop()
        step = by_id[key]
        if key in chain or traits(step).runs_by_itself or _round_of(step) != _round_of(by_id[opener]):
            continue
        chain.append(key)
        stack += step["after"]
    return chain
