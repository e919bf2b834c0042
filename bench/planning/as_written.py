"""Where another order gains nothing, the recipe's own stands.

Of many orders that are equally good the solver gives any one. A maker reads the recipe from the top,
so neighbours of one part that stand the other way round than there change places again. The two take
the same stretch between them, so no aim loses by it.
"""

from bench.planning.grid import Grid, MaxGap


def as_written(grid: Grid, starts: dict[int, int], makers: dict[int, int]) -> dict[int, int]:
    """Starts by task, in units, with every exchange made that brings the written order and breaks nothing."""
    exchange = _Exchange(grid, starts)
    for maker in range(len(grid.hours)):
        exchange.sort(
            [index for index in starts if grid.hands[index] and makers.get(index, 0) == maker], maker
        )
    return exchange.starts


class _Exchange:
    def __init__(self, grid: Grid, starts: dict[int, int]) -> None:
        self.grid = grid
        self.starts = dict(starts)
        self.followers: dict[int, list[tuple[int, int]]] = {}
        for index in starts:
            for need, least in grid.needs[index]:
                self.followers.setdefault(need, []).append((index, least))
        self.max_gaps: dict[int, list[MaxGap]] = {}
        for most in grid.max_gaps:
            for index in {most.to, *most.sources}:
                self.max_gaps.setdefault(index, []).append(most)
        self.latest = {to: latest for to, latest, _ in grid.due}
        shared = set() if grid.day.apart else {index for index in starts if grid.day.uses[index]}
        begins_wait = {
            need
            for need, after in self.followers.items()
            if any(grid.kinds[each] == "wait" for each, _ in after)
        }
        self.stays = shared | begins_wait | set(grid.day.block)

    def sort(self, order: list[int], maker: int) -> None:
        """order: one maker's steps."""
        order.sort(key=lambda index: (self.starts[index], index))
        place = 1
        while place < len(order):
            one, other = order[place - 1 : place + 1]
            if other < one and self._exchanged(one, other, maker):
                order[place - 1 : place + 1] = [other, one]
                place = max(1, place - 1)
            else:
                place += 1

    def _exchanged(self, one: int, other: int, maker: int) -> bool:
        """Let `other`, which comes next, come before `one`; False, and nothing moved, where that breaks a rule."""
        if not self._are_neighbours(one, other, maker) or {one, other} & self.stays:
            return False
        touched = {id(most): most for index in (one, other) for most in self.max_gaps.get(index, [])}.values()
        over = [self._over(most) for most in touched]
        before = self.starts[one], self.starts[other]
        self.starts[other] = before[0]
        self.starts[one] = before[1] + self.grid.lasts[other] - self.grid.lasts[one]
        if (
            self.starts[one] <= self.latest.get(one, self.starts[one])
            and all(self._keeps_needs(index) for index in (one, other))
            and all(self._over(most) <= was for most, was in zip(touched, over, strict=True))
            and self._keeps_holds({one, other})
        ):
            return True
        self.starts[one], self.starts[other] = before
        return False

    def _are_neighbours(self, one: int, other: int, maker: int) -> bool:
        """Whether they are of one part, in one stretch of bench hours."""
        tasks = self.grid.day.tasks
        part, next_part = ((tasks[each]["run"], tasks[each]["component"]) for each in (one, other))
        return part == next_part and any(
            opens <= self.starts[one] and self.starts[other] < closes
            for opens, closes in self.grid.hours[maker]
        )

    def _keeps_needs(self, index: int) -> bool:
        at, lasts = self.starts[index], self.grid.lasts
        return (
            at >= self.grid.ready[index]
            and all(self.starts[need] + lasts[need] + least <= at for need, least in self.grid.needs[index])
            and all(
                at + lasts[index] + least <= self.starts[each]
                for each, least in self.followers.get(index, [])
            )
        )

    def _keeps_holds(self, moved: set[int]) -> bool:
        """Whether there is enough of all that these steps take up for longer, or free."""
        day = self.grid.day
        for key in {key for fill, empty, _, key in day.holds if {fill, empty} & moved}:
            spans = [
                (self._begins(fill), self._ends(empty), many)
                for fill, empty, many, other in day.holds
                if other == key
            ]
            for at, _, _ in spans:
                if sum(many for begins, ends, many in spans if begins <= at < ends) > day.many[key]:
                    return False
        return True

    def _begins(self, fill: int) -> int:
        past = self.grid.day.start[fill]
        known = self.starts.get(
            fill, self.grid.now if past is None else max(self.grid.now, self.grid.up(past))
        )
        return self.grid.now if fill in self.grid.day.full else known

    def _ends(self, empty: int) -> int:
        ended = self.grid.ended[empty]
        return self.starts[empty] + self.grid.lasts[empty] if ended is None else ended

    def _over(self, most: MaxGap) -> int:
        """How far past its most a gap is, in units; nought when it is kept."""
        opened = max(self.starts[each] + self.grid.lasts[each] for each in most.sources)
        return max(0, self.starts[most.to] - opened - most.most)
