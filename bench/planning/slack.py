"""A plan with its order kept: each step as early as that allows, and how far each could still slip."""

from itertools import pairwise

from bench.planning.grid import Grid


def tidy(grid: Grid, starts: dict[int, int], makers: dict[int, int]) -> tuple[dict[int, int], dict[int, int]]:
    """(earliest starts, latest starts) by task, in units, the order and the sessions of `starts` kept.

    No session begins earlier, and nothing ends later than the whole plan does. The difference is the slack.
    """
    edges = _edges(grid, starts, makers)
    finish = max((starts[index] + grid.lasts[index] for index in starts), default=grid.now)
    boxes = {index: _box(grid, index, starts, makers) for index in starts}
    early = {index: box[0] for index, box in boxes.items()}
    late = {index: min(box[1], finish - grid.lasts[index]) for index, box in boxes.items()}
    changed = True
    while changed:  # `starts` itself keeps every edge, so neither side passes it and both come to rest
        changed = False
        for one, other, least in edges:
            if early[one] + least > early[other]:
                early[other], changed = early[one] + least, True
            if late[other] - least < late[one]:
                late[one], changed = late[other] - least, True
    return early, late


def _box(grid: Grid, index: int, starts: dict[int, int], makers: dict[int, int]) -> tuple[int, int]:
    """Between which instants a step may move: its own session, for hands; what is past, for all."""
    low, high = max(grid.now, grid.ready[index]), grid.horizon
    for to, latest, _ in grid.due:
        if to == index:
            high = min(high, max(latest, starts[index]))
    if not grid.hands[index]:
        return min(low, starts[index]), high
    maker = makers.get(index, 0)
    for opens, closes in grid.hours[maker]:
        if opens <= starts[index] < closes:
            session = [
                at
                for other, at in starts.items()
                if grid.hands[other] and makers.get(other, 0) == maker and opens <= at < closes
            ]
            low = max(low, min(session))
            high = min(high, closes - grid.lasts[index])
    return min(low, starts[index]), max(high, starts[index])


def _edges(grid: Grid, starts: dict[int, int], makers: dict[int, int]) -> list[tuple[int, int, int]]:
    """(one, other, least): the other starts at least so long after the one starts."""
    lasts = grid.lasts
    edges = []
    for index in starts:
        for need, least in grid.needs[index]:
            edges.append((need, index, lasts[need] + least))
            if grid.kinds[index] == "wait" and starts[index] == starts[need] + lasts[need] + least:
                edges.append((index, need, -lasts[need] - least))  # the need that begins the wait
    for most in grid.max_gaps:
        _, last = max((starts[each] + lasts[each], each) for each in most.sources)
        if starts[most.to] <= starts[last] + lasts[last] + most.most:
            edges.append((most.to, last, -most.most - lasts[last]))
    for block in grid.day.blocks:  # in one piece, where it is
        for one, other in pairwise(block):
            if starts[other] == starts[one] + lasts[one]:
                edges.append((other, one, -lasts[one]))
    for maker in range(len(grid.hours)):
        own = [index for index in starts if grid.hands[index] and makers.get(index, 0) == maker]
        theirs = [index for _, index in sorted((starts[index], index) for index in own)]
        edges += [(one, other, lasts[one]) for one, other in pairwise(theirs)]
    return edges + _equipment_edges(grid, starts)


def _equipment_edges(grid: Grid, starts: dict[int, int]) -> list[tuple[int, int, int]]:
    """What uses the same thing and does not overlap now shall not overlap later."""
    users: dict[str, list[tuple[int, int, int, int]]] = {}  # key -> (begins, ends, first task, last task)
    for index in starts:
        for key in grid.day.uses[index]:
            users.setdefault(key, []).append((starts[index], starts[index] + grid.lasts[index], index, index))
    for fill, empty, _, key in grid.day.holds:
        if empty in starts:
            end = starts[empty] + grid.lasts[empty]
            begins = grid.now if fill in grid.day.full else starts.get(fill, grid.now)
            users.setdefault(key, []).append((begins, end, fill, empty))
    return [
        (last, first, grid.lasts[last])
        for those in users.values()
        for _, ends, _, last in those
        for begins, _, first, _ in those
        if ends <= begins and first in starts and last != first
    ]
