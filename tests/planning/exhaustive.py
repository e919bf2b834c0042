"""The best finish of a small day by trying every order: slow, plain, and apart from the planner."""

from __future__ import annotations

from itertools import permutations, product
from typing import Any

Json = dict[str, Any]


def best_finish(problem: Json) -> int | None:
    """The earliest finish over all orders and makers, None when no order works. Every gap has one source."""
    tasks = {task["id"]: task for task in problem["tasks"]}
    hands = [key for key, task in tasks.items() if task["kind"] == "hands"]
    needs = {(gap["from"][0], gap["to"]) for gap in problem["gaps"] if gap["least_ms"] is not None}
    best: int | None = None
    for order in permutations(hands):
        place = {key: number for number, key in enumerate(order)}
        if any(one in place and to in place and place[one] > place[to] for one, to in needs):
            continue
        for makers in product(range(len(problem["makers"])), repeat=len(hands)):
            finish = _finish(problem, tasks, order, dict(zip(hands, makers, strict=True)))
            if finish is not None and (best is None or finish < best):
                best = finish
    return best


def _finish(problem: Json, tasks: Json, order: tuple[str, ...], maker: dict[str, int]) -> int | None:
    """Every start pushed later only as far as some rule asks, until no rule asks or the hours run out."""
    rules = []  # (one, other, ms): the other starts at least so long after the one starts
    for gap in problem["gaps"]:
        one, to = gap["from"][0], gap["to"]
        if gap["least_ms"] is not None:
            rules.append((one, to, tasks[one]["left_ms"] + gap["least_ms"]))
            if tasks[to]["kind"] == "wait":
                rules.append((to, one, -tasks[one]["left_ms"] - gap["least_ms"]))
        if gap["most_ms"] is not None:
            rules.append((to, one, -tasks[one]["left_ms"] - gap["most_ms"]))
    for number, one in enumerate(order):
        for other in order[number + 1 :]:
            if maker[one] == maker[other] or set(tasks[one]["uses"]) & set(tasks[other]["uses"]):
                rules.append((one, other, tasks[one]["left_ms"]))
    for one in problem["holds"]:
        for other in problem["holds"]:
            if one["equipment"] != other["equipment"]:
                continue
            if one is not other and order.index(one["from"]) < order.index(other["from"]):
                if order.index(one["until"]) > order.index(other["from"]):
                    return None
                rules.append((one["until"], other["from"], tasks[one["until"]]["left_ms"]))
    start = dict.fromkeys(tasks, problem["since"])
    moved = True
    while moved:
        moved = False
        for one, other, ms in rules:
            if start[one] + ms > start[other]:
                start[other], moved = start[one] + ms, True
        for key in order:
            lasts = tasks[key]["left_ms"]
            fits = [
                max(start[key], opens)
                for opens, closes in problem["makers"][maker[key]]["hours"]
                if max(start[key], opens) + lasts <= closes
            ]
            if not fits:
                return None
            if fits[0] > start[key]:
                start[key], moved = fits[0], True
    return max(start[key] + tasks[key]["left_ms"] for key in tasks)
