"""The day on a grid of whole units, for the solver: what is fixed, what may move, and between which instants.

The unit is the largest that divides every time given, a second at the least; what does not divide is
rounded to the side that keeps every promise. `earliest` and `latest` only follow gaps and hours, so
they are quick, and what they refuse is impossible for a reason that can be named.
"""

from bisect import bisect_left, bisect_right
from functools import cached_property
from math import gcd
from typing import NamedTuple

from bench.planning.layout import Day
from bench.shapes.planning import Gap
from bench.whole import ceiling

LEAST_UNIT_MS = 1000
_ROUNDS = 300  # of following gaps; stopped early, the instants are still true, only not the best known


class Impossible(Exception):
    """No instant is left for a step. `gaps` are the rules met on the way, the last one first."""

    def __init__(self, index: int, gaps: list[Gap]) -> None:
        self.index = index
        self.gaps = gaps
        super().__init__(f"task {index}")


class MaxGap(NamedTuple):
    """A gap with a most: task `to` begins within `most` units of the last end of `sources`."""

    sources: list[int]
    to: int
    most: int
    gap: Gap


class Due(NamedTuple):
    """A task that must begin by an instant because of what is past, and the gap that asks for it."""

    to: int
    latest: int
    gap: Gap


class Grid:
    def __init__(self, day: Day) -> None:
        self.day = day
        self.unit = _unit(day)
        self.base = day.now // self.unit * self.unit
        self.now = self.up(day.now)
        self.open = day.open
        self.hands = day.hands
        self.kinds = [task["kind"] for task in day.tasks]
        self.lasts = [ceiling(each, self.unit) for each in day.takes]
        # When what is fixed ends: never earlier than it does for what must follow it.
        self.ended = [None if end is None else self.up(end) for end in day.end]
        self.needs = [
            [(need, ceiling(least, self.unit)) for need, least in needs if day.end[need] is None]
            for needs in day.needs
        ]
        self.ready = [
            max([self.up(end + least) for need, least in needs if (end := day.end[need]) is not None] or [0])
            for needs in day.needs
        ]
        self.max_gaps: list[MaxGap] = []
        self.due: list[Due] = []
        self._take_gaps()
        self.hours = [
            [
                (max(self.now, self.up(opens)), self.down(closes))
                for opens, closes in hours
                if self.down(closes) > max(self.now, self.up(opens))
            ]
            for hours in day.hours
        ]
        self.busy_until = [self.now] * len(self.hours)
        for index, maker in enumerate(day.maker):
            if maker is not None:
                self.busy_until[maker] = max(self.busy_until[maker], self.ended[index] or 0)
        ready_by = day.problem.get("ready_by")
        self.ready_by = None if ready_by is None else self.down(ready_by)

    def _take_gaps(self) -> None:
        """The gaps with a most that can still be kept, or missed."""
        day = self.day
        for sources, to, most, gap in day.max_gaps:
            if day.end[to] is not None:
                continue
            open_sources = [each for each in sources if day.end[each] is None]
            if open_sources:  # what ends last decides, and what is open ends after what has ended
                self.max_gaps.append(MaxGap(open_sources, to, most // self.unit, gap))
            else:
                last = max(end for each in sources if (end := day.end[each]) is not None)
                self.due.append(Due(to, (last + most - self.base) // self.unit, gap))

    def up(self, ms: int) -> int:
        return ceiling(ms - self.base, self.unit)

    def down(self, ms: int) -> int:
        return (ms - self.base) // self.unit

    def ms(self, unit: int) -> int:
        return self.base + unit * self.unit

    @cached_property
    def horizon(self) -> int:
        """Nothing that could be wanted ends after this."""
        after = sum(self.lasts[index] for index in self.open if not self.hands[index])
        after += sum(least for index in self.open for _, least in self.needs[index] if least > 0)
        closes = [hours[-1][1] for hours in self.hours if hours]
        free = sum(self.lasts[index] for index in self.open)
        ready = max((self.ready[index] for index in self.open), default=0)
        return max([*closes, self.now + free, ready]) + after

    def starts(self, index: int, maker: int) -> list[tuple[int, int]]:
        """The first and last start of a hands-on task in each stretch of a maker that can hold it."""
        begins = max(self.ready[index], self.busy_until[maker])
        found = []
        for opens, closes in self.hours[maker]:
            first, last = max(opens, begins), closes - self.lasts[index]
            if first <= last:
                found.append((first, last))
        return found

    @cached_property
    def _starts(self) -> list[list[tuple[int, int]]]:
        """For each task, all its starts over all makers, in order, none touching the next."""
        merged: list[list[tuple[int, int]]] = []
        for index in range(len(self.kinds)):
            spans: list[tuple[int, int]] = []
            if self.hands[index]:
                for span in sorted(
                    span for maker in range(len(self.hours)) for span in self.starts(index, maker)
                ):
                    if spans and span[0] <= spans[-1][1] + 1:
                        spans[-1] = (spans[-1][0], max(spans[-1][1], span[1]))
                    else:
                        spans.append(span)
            merged.append(spans)
        return merged

    def next_start(self, index: int, at: int) -> int | None:
        """The first instant from `at` on when a task could begin."""
        if not self.hands[index]:
            return max(at, self.ready[index])
        spans = self._starts[index]
        place = bisect_right(spans, (at, self.horizon))
        if place and at <= spans[place - 1][1]:
            return at
        return spans[place][0] if place < len(spans) else None

    def last_start(self, index: int, at: int) -> int | None:
        """The last instant up to `at` when a task could begin."""
        if not self.hands[index]:
            return at
        spans = self._starts[index]
        place = bisect_left(spans, (at + 1, -1))
        return min(at, spans[place - 1][1]) if place else None

    def earliest(self) -> list[int]:
        """The earliest start of each open task by gaps and hours alone. Impossible when there is none."""
        first = [self.now] * len(self.kinds)
        met: list[list[Gap]] = [[] for _ in self.kinds]
        for index in self.open:
            if not self.hands[index] and self.kinds[index] == "wait" and self.needs[index]:
                first[index] = self.ready[index]
        order = self.day.by_need([])
        limit = self.horizon
        changed = True
        for _ in range(_ROUNDS):
            if not changed:
                break
            changed = False
            for index in order:
                at = max(
                    [first[index], *(first[n] + self.lasts[n] + least for n, least in self.needs[index])]
                )
                start = self.next_start(index, at)
                if start is None or start > limit:
                    raise Impossible(index, met[index])
                if start > first[index]:
                    first[index], changed = start, True
            changed |= self._put_openers_later(order, first, met)
        for to, latest, gap in self.due:
            if first[to] > latest:
                raise Impossible(to, [gap, *met[to]])
        return first

    def _put_openers_later(self, order: list[int], first: list[int], met: list[list[Gap]]) -> bool:
        """Where what closes a gap, or follows a wait, cannot begin in time, what it counts from ends later."""
        changed = False
        for sources, to, most, gap in self.max_gaps:
            if len(sources) == 1:
                changed |= self._put_later(sources[0], first[to] - most, first, met, gap)
        for index in order:
            if self.kinds[index] == "wait" and len(self.needs[index]) == 1:
                need, least = self.needs[index][0]
                if self.ready[index] <= first[need] + self.lasts[need] + least:
                    last = met[index][-1] if met[index] else None
                    changed |= self._put_later(need, first[index] - least, first, met, last)
        return changed

    def _put_later(
        self, index: int, end: int, first: list[int], met: list[list[Gap]], gap: Gap | None
    ) -> bool:
        if end - self.lasts[index] <= first[index]:
            return False
        first[index] = end - self.lasts[index]
        if gap is not None and gap not in met[index]:
            met[index].append(gap)
        return True

    def latest(self, finish: int) -> list[int]:
        """The latest start of each open task so that all ends by `finish`. Impossible when there is none."""
        last = [finish - lasts for lasts in self.lasts]
        for to, latest, _ in self.due:
            last[to] = min(last[to], latest)
        order = self.day.by_need([])[::-1]
        changed = True
        for _ in range(_ROUNDS):
            if not changed:
                break
            changed = False
            for index in order:
                start = self.last_start(index, last[index])
                if start is None or start < 0:
                    raise Impossible(index, [])
                if start < last[index]:
                    last[index], changed = start, True
                for need, least in self.needs[index]:
                    if start - least - self.lasts[need] < last[need]:
                        last[need], changed = start - least - self.lasts[need], True
            for most in self.max_gaps:
                at = max(last[each] + self.lasts[each] for each in most.sources) + most.most
                if at < last[most.to]:
                    last[most.to], changed = at, True
            for index in order:
                if self.kinds[index] == "wait" and self.needs[index]:
                    at = max(
                        [
                            self.ready[index],
                            *(last[n] + self.lasts[n] + least for n, least in self.needs[index]),
                        ]
                    )
                    if at < last[index]:
                        last[index], changed = at, True
        return last

    def bound(self, most: int) -> int:
        """A finish that nothing beats: hands may pause and go on, nothing else is given up.

        most: a finish that is known, to search below. For two makers, only gaps and hours count.
        """
        first = self.earliest()
        low = max((first[index] + self.lasts[index] for index in self.open), default=self.now)
        high = max(low, most)
        while low < high:
            middle = (low + high) // 2
            if self._could_end(middle, first):
                high = middle
            else:
                low = middle + 1
        return low

    def _could_end(self, finish: int, first: list[int]) -> bool:
        try:
            last = self.latest(finish)
        except Impossible:
            return False
        if any(first[index] > last[index] for index in self.open):
            return False
        return len(self.hours) != 1 or self._keeps_deadlines(first, last)

    def _keeps_deadlines(self, first: list[int], last: list[int]) -> bool:
        """Earliest deadline first with pauses, over the bench hours: fails only if no order can do it."""
        jobs = sorted((first[i], last[i] + self.lasts[i], self.lasts[i]) for i in self.open if self.hands[i])
        waiting: list[list[int]] = []  # [deadline, left]
        place = 0
        for opens, closes in self.hours[0]:
            at = max(opens, self.busy_until[0])
            while at < closes:
                while place < len(jobs) and jobs[place][0] <= at:
                    waiting.append([jobs[place][1], jobs[place][2]])
                    place += 1
                until = min(closes, jobs[place][0]) if place < len(jobs) else closes
                if not waiting:
                    if until == closes:
                        break
                    at = until
                    continue
                soonest = min(waiting)
                works = min(soonest[1], until - at)
                at += works
                soonest[1] -= works
                if not soonest[1]:
                    if at > soonest[0]:
                        return False
                    waiting.remove(soonest)
            if not waiting and place == len(jobs):
                return True
        return not waiting and place == len(jobs)


def _unit(day: Day) -> int:
    """The largest time that divides all that is still to be planned, a second at the least."""
    times = [day.takes[index] for index in day.open]
    for gap in day.problem["gaps"]:
        open_ends = [each for each in gap["from"] if day.end[day.number[each]] is None]
        if open_ends and day.end[day.number[gap["to"]]] is None:
            times += [each for each in (gap["least_ms"], gap["most_ms"]) if each is not None]
    return max(LEAST_UNIT_MS, gcd(*times) if times else LEAST_UNIT_MS)
