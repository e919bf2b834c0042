"""A batch in sittings: stretches that one maker works without a break, and what lies between them.

The steps are laid out by the plain rule as if the bench never closed; where nothing asks for hands for half an hour,
or a sitting has become long and nothing that does not keep is open, a new one begins. A plan of whole sittings can
be followed step by step: it is never better than hands that come and go within one, and always true.
"""

from itertools import pairwise

from bench.planning.layout import Day, Layout
from bench.shapes.planning import GapClass, Problem, TasksOfRun
from bench.shapes.week import Apart, Sitting, WeekHold

MINUTE_MS = 60_000
LET_GO_MS = 30 * MINUTE_MS  # hands that have nothing to do for so long are let go
LONG_MS = 90 * MINUTE_MS  # a sitting that is longer ends where it can
OVERNIGHT_MS = 10 * 60 * MINUTE_MS  # what must follow sooner than this is not cut apart
ROUNDS = 60  # of the plain rule for one batch; many sizes are laid out for one week
_ENDLESS_MS = 400 * 24 * 60 * MINUTE_MS
_CLOSE_MS = 5 * MINUTE_MS  # two uses of one thing with less between them are one


class InSittings:
    """What there is to do of one sheet, cut into sittings. longest_ms: what any stretch of bench hours holds."""

    def __init__(self, part: TasksOfRun, names: dict[str, str], longest_ms: int) -> None:
        """names: by part of the recipe."""
        problem: Problem = {
            "since": 0,
            "makers": [{"name": "", "hours": [[0, _ENDLESS_MS]]}],
            "equipment": part["equipment"],
            "tasks": part["tasks"],
            "gaps": part["gaps"],
            "holds": part["holds"],
        }
        self.day = Day(problem, 0)
        layouts = [
            Layout(self.day, self.day.by_need(order), rounds=ROUNDS)
            for order in ([], self.day.latest_finish_first())
        ]
        layout = min(
            (each for each in layouts if each.placed),
            key=lambda each: (each.price, each.finish),
            default=None,
        )
        self.names = names
        self.longest = longest_ms
        self.fits = layout is not None
        self.groups: list[list[int]] = []
        if layout is not None:
            self._lay(layout)

    def _lay(self, layout: Layout) -> None:
        tasks = range(len(self.day.tasks))
        self.at = {index: layout.start[index] or 0 for index in tasks}
        self.ends = {index: self.at[index] + self.day.takes[index] for index in tasks}
        turn = sorted((index for index in tasks if self.day.hands[index]), key=lambda index: self.at[index])
        self.groups = self._cut(turn)
        self.of = {index: place for place, group in enumerate(self.groups) for index in group}
        self.opens = [min(self.at[index] for index in group) for group in self.groups]
        for index in sorted(tasks, key=lambda each: self.ends[each]):
            if index not in self.of:  # it begins when the last of what it needs has ended
                needs = [self.of[need] for need, _ in self.day.needs[index] if need in self.of]
                self.of[index] = max(needs, default=0)
        self.fits = all(each["lasts_ms"] <= self.longest for each in self.sittings())

    def _cut(self, turn: list[int]) -> list[list[int]]:
        """The hands-on steps in their turn, in sittings."""
        ends: list[int] = []
        begun = 0
        for place, (one, two) in enumerate(pairwise(turn), 1):
            idle = self.at[two] - self.ends[one] >= LET_GO_MS
            long = self.ends[two] - self.at[turn[begun]] > min(LONG_MS, self.longest)
            if idle or (long and self._may_cut(set(turn[:place]))):
                ends.append(place)
                begun = place
        return [turn[first:last] for first, last in pairwise([0, *ends, len(turn)]) if first < last]

    def _may_cut(self, before: set[int]) -> bool:
        """Whether nothing is open there that must go on the same day."""
        for sources, to, most, _ in self.day.max_gaps:
            opened = any(index in before for index in self._hands_before(sources))
            if opened and to not in before and self.day.hands[to] and most < OVERNIGHT_MS:
                return False
        return True

    def _hands_before(self, sources: list[int]) -> list[int]:
        """The hands-on steps that these come from: a wait's own needs stand for it."""
        found: list[int] = []
        stack = list(sources)
        while stack:
            index = stack.pop()
            if self.day.hands[index]:
                found.append(index)
            else:
                stack += [need for need, _ in self.day.needs[index]]
        return found

    def sittings(self) -> list[Sitting]:
        found: list[Sitting] = []
        for place, group in enumerate(self.groups):
            opens = self.opens[place]
            parts = list(dict.fromkeys(self.day.tasks[index]["component"] for index in group))
            own = [index for index, of in self.of.items() if of == place]
            found.append(
                {
                    "name": ", ".join(self.names[part] for part in parts),
                    "lasts_ms": max(self.ends[index] for index in group) - opens,
                    "until_ms": max(self.ends[index] for index in own) - opens,
                }
            )
        return found

    def apart(self) -> list[Apart]:
        """What must lie between two sittings, from start to start: the least of all gaps, and each gap with a most."""
        least: dict[tuple[int, int], int] = {}
        for index, needs in enumerate(self.day.needs):
            for need, ms in needs:
                pair = (self.of[need], self.of[index])
                if pair[0] < pair[1]:
                    off = self._off(need, self.ends) + ms - self._off(index, self.at)
                    least[pair] = max(least.get(pair, 0), off)
        for place in range(len(self.groups) - 1):  # in turn, whoever works
            lasts = self.ends[self.groups[place][-1]] - self.opens[place]
            least[place, place + 1] = max(least.get((place, place + 1), 0), lasts)
        found = [self._apart(pair, ms, None, "quality", 0) for pair, ms in sorted(least.items())]
        for sources, to, most, gap in self.day.max_gaps:
            last = max(sources, key=lambda index: (self.of[index], self.ends[index]))
            pair = (self.of[last], self.of[to])
            if pair[0] < pair[1]:
                off = self._off(last, self.ends) + most - self._off(to, self.at)
                floor = least.get(pair, 0)
                found.append(
                    self._apart(
                        pair, floor, max(off, floor), gap.get("class", "quality"), gap.get("price_ms", 0)
                    )
                )
        return found

    def _apart(
        self, pair: tuple[int, int], least: int, most: int | None, name: GapClass, price: int
    ) -> Apart:
        return {
            "from": pair[0],
            "to": pair[1],
            "least_ms": least,
            "most_ms": most,
            "class": name,
            "price_ms": price,
        }

    def holds(self) -> list[WeekHold]:
        """What of the kit is in use: from one step to another, and while hands are on a step."""
        found: list[WeekHold] = [
            {
                "equipment": hold.key,
                "many": hold.many,
                "from": self.of[hold.fill],
                "from_ms": self._off(hold.fill, self.at),
                "until": self.of[hold.empty],
                "until_ms": self._off(hold.empty, self.ends),
            }
            for hold in self.day.holds
        ]
        for place, group in enumerate(self.groups):
            spans: dict[str, list[list[int]]] = {}
            for index in group:
                for key in self.day.uses[index]:
                    span = [self._off(index, self.at), self._off(index, self.ends)]
                    mine = spans.setdefault(key, [])
                    if mine and span[0] - mine[-1][1] < _CLOSE_MS:
                        mine[-1][1] = span[1]
                    else:
                        mine.append(span)
            for key, those in spans.items():
                for begins, ends in those:
                    found.append(
                        {
                            "equipment": key,
                            "many": 1,
                            "from": place,
                            "from_ms": begins,
                            "until": place,
                            "until_ms": ends,
                        }
                    )
        return found

    def hands_ms(self) -> int:
        return sum(self.day.takes[index] for group in self.groups for index in group)

    def _off(self, index: int, at: dict[int, int]) -> int:
        """An instant of a step, counted from the start of its sitting."""
        return at[index] - self.opens[self.of[index]]
