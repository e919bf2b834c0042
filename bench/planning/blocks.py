"""Where hands stay: runs of steps from what opens a state that does not keep to what ends it.

Between the two nothing else is begun, so a run is laid out, and solved for, as one piece. That also makes
a day of several batches a much smaller one. `frontend/bench/blocks.js` repeats this.
"""

from collections.abc import Sequence
from typing import Protocol

from bench.shapes.planning import Gap, Task

STAY_MS = 120 * 60_000  # of a longer gap nobody stands by
AT_ONCE_MS = 5 * 60_000  # so short a window leaves no time for anything else, whatever is at stake


class Steps(Protocol):
    """What must be known of a day: its tasks by number, what each needs and takes, and the gaps with a most."""

    tasks: list[Task]
    open: list[int]
    hands: list[bool]
    takes: list[int]
    end: list[int | None]
    needs: list[list[tuple[int, int]]]
    longest: int

    @property
    def max_gaps(self) -> Sequence[tuple[list[int], int, int, Gap]]: ...


def blocks_of(day: Steps) -> list[list[int]]:
    """Runs of two or more open hands-on steps, each in the order to do them; no step is in two."""
    return _Blocks(day).found()


def holds_hands(gap: Gap) -> bool:
    """Whether hands stay on a part from the opening of this gap to its end. What has no class has no state."""
    kind, most = gap.get("class"), gap["most_ms"]
    return kind is not None and most is not None and (
        most <= AT_ONCE_MS or (kind in ("ruin", "back") and most <= STAY_MS)
    )  # fmt: skip


class _Blocks:
    def __init__(self, day: Steps) -> None:
        self.day = day
        self.after: list[list[int]] = [[] for _ in day.tasks]
        for index in day.open:
            for need, _ in day.needs[index]:
                if day.end[need] is None:
                    self.after[need].append(index)

    def found(self) -> list[list[int]]:
        day = self.day
        blocks: list[set[int]] = []
        for sources, to, _, gap in day.max_gaps:
            if not holds_hands(gap) or day.end[to] is not None or not day.hands[to]:
                continue
            if any(day.end[each] is None and not day.hands[each] for each in sources):
                continue
            run = {to}
            for each in sources:
                run |= self._between(each, to)
            touched = [block for block in blocks if block & run]
            joined = self._closed(run.union(*touched))
            if joined is None:
                continue
            touched = [block for block in blocks if block & joined]
            if any(not block <= joined for block in touched):
                continue
            kept = [block for block in blocks if block not in touched]
            if len(joined) > 1 and self._in_order([*kept, joined]):
                blocks = [*kept, joined]
        return [self._sorted(block) for block in blocks]

    def _between(self, source: int, to: int) -> set[int]:
        """The opener, when it is open, and all that lies between it and the end."""
        if self.day.end[source] is not None:
            return set()
        return {source} | (self._reach(source, self.after) & self._reach(to, self._before()))

    def _before(self) -> list[list[int]]:
        return [[need for need, _ in needs if self.day.end[need] is None] for needs in self.day.needs]

    def _reach(self, start: int, edges: list[list[int]]) -> set[int]:
        seen: set[int] = set()
        stack = [start]
        while stack:
            for each in edges[stack.pop()]:
                if each not in seen:
                    seen.add(each)
                    stack.append(each)
        return seen

    def _closed(self, run: set[int]) -> set[int] | None:
        """The run with all that lies between its own steps; None when that is not for hands alone, is of more
        than one run of the recipe, or is longer than any stretch of bench hours."""
        day = self.day
        before = self._before()
        down = set().union(*(self._reach(each, self.after) for each in run))
        up = set().union(*(self._reach(each, before) for each in run))
        whole = run | (down & up)
        if any(not day.hands[each] or day.tasks[each]["status"] == "begun" for each in whole):
            return None
        if any(least > 0 for each in whole for need, least in day.needs[each] if need in whole):
            return None
        if sum(day.takes[each] for each in whole) > day.longest:
            return None
        return whole

    def _in_order(self, blocks: list[set[int]]) -> bool:
        """Whether the blocks, each in one piece, can follow each other: none waits for another in a circle."""
        place = {index: number for number, block in enumerate(blocks) for index in block}
        edges: dict[int, set[int]] = {number: set() for number in range(len(blocks))}
        for number, block in enumerate(blocks):
            for each in self._onward(block):
                if each in place and place[each] != number:
                    edges[number].add(place[each])
        seen: dict[int, int] = {}  # 1 while on the way, 2 when settled

        def turns(number: int) -> bool:
            if number in seen:
                return seen[number] == 1
            seen[number] = 1
            if any(turns(each) for each in edges[number]):
                return True
            seen[number] = 2
            return False

        return not any(turns(number) for number in edges)

    def _onward(self, block: set[int]) -> set[int]:
        return set().union(*(self._reach(each, self.after) for each in block))

    def _sorted(self, block: set[int]) -> list[int]:
        """In the order of their needs, and as written where those say nothing."""
        left, placed = sorted(block), []
        while left:
            index = next(each for each in left if not any(need in left for need, _ in self.day.needs[each]))
            placed.append(index)
            left.remove(index)
        return placed
