"""The rules of a day as constraints: hands, hours, what comes after what, gaps, and the few things of the kit.

Whole units of `grid.py` throughout. Every rule is hard but those asked to be soft.
"""

from typing import TYPE_CHECKING, Protocol, TypeAlias

from bench.planning.grid import Grid, Impossible
from bench.planning.layout import SLOW_HANDS, USUAL
from bench.planning.price import LEAST_MOST_MS, WHOLE
from bench.shapes.planning import Gap
from bench.whole import ceiling

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Expr: TypeAlias = cp_model.LinearExpr | int


class Instants(Protocol):
    """The solver's own sets of whole numbers, which its library gives no types."""

    def is_empty(self) -> bool: ...


class Rules:
    def __init__(
        self,
        grid: Grid,
        *,
        soft: bool = False,
        longer_hours: bool = False,
        finish: int | None = None,
        named: list[int] | None = None,
    ) -> None:
        """soft: gaps with a most may be broken, at a price. longer_hours: stretches may close later, at
        a price. finish: all ends by then. named: gaps kept only while their literal is true."""
        from ortools.sat.python import cp_model

        self.grid = grid
        self.model = cp_model.CpModel()
        self.soft = soft
        self.longer_hours = longer_hours
        self.horizon = grid.horizon if finish is None else finish
        self.first, self.last = self._between(finish)
        self.longer: dict[
            tuple[int, int], cp_model.IntVar
        ] = {}  # (maker, stretch) -> how much later it closes
        self.start: dict[int, Expr] = {}
        self.end: dict[int, Expr] = {}
        self.heads: dict[
            int, cp_model.IntVar
        ] = {}  # the starts that are variables: of blocks, of any other task
        self.by: dict[
            tuple[int, int], cp_model.IntVar
        ] = {}  # (task, maker) -> literal, only with several makers
        self.intervals: dict[int, cp_model.IntervalVar] = {}
        # Hands-on steps by the piece: [first step, ..., last step] for a block, [step] for any other.
        self.units = self._by_piece()
        self.lasts = {
            index: grid.lasts[index] for index in grid.open
        }  # of a block's first step: the whole block
        self.pieces: dict[int, cp_model.IntervalVar] = {}
        self.spans: dict[int, list[list[list[int]]]] = {}
        self.kept: dict[int, cp_model.IntVar] = {}  # place in grid.max_gaps -> literal, when named
        self._lay_down(set(named or []))

    def _lay_down(self, named: set[int]) -> None:
        """All the rules. What is broken, when soft: literals of states ruined, of those to be brought back with their price in
        units, of windows of quality missed; and by how much, each by its own size."""
        self.ruined: list[cp_model.IntVar] = []
        self.back: list[tuple[cp_model.IntVar, int]] = []
        self.missed: list[cp_model.IntVar] = []
        self.late: list[cp_model.IntVar] = []
        self.over: list[cp_model.IntVar] = []
        self.share: list[Expr] = []
        self._tasks()
        self._hands()
        self._needs()
        self._max_gaps(named)
        self._equipment()

    def _between(self, finish: int | None) -> tuple[list[int], list[int]]:
        """The first and last start of each task. Soft rules and longer hours leave them wide."""
        count = len(self.grid.kinds)
        if self.soft or self.longer_hours or finish is None:
            return [self.grid.now] * count, [self.horizon - lasts for lasts in self.grid.lasts]
        return self.grid.earliest(), self.grid.latest(finish)

    def _by_piece(self) -> list[list[int]]:
        grid = self.grid
        blocks = [] if self.longer_hours else grid.day.blocks
        inside = {index for block in blocks for index in block}
        return [*blocks, *([index] for index in grid.open if grid.hands[index] and index not in inside)]

    def _block(self, block: list[int]) -> None:
        """One variable for a whole block: each of its steps begins as the one before it ends."""
        grid = self.grid
        after, total = [], 0
        for index in block:
            after.append(total)
            total += grid.lasts[index]
        slow = min(ceiling(total * SLOW_HANDS, USUAL), ceiling(grid.day.longest, grid.unit))
        room = total if grid.day.at_stake & set(block) else max(total, slow)
        low = max(
            max(self.first[index], grid.ready[index]) - off for index, off in zip(block, after, strict=True)
        )
        high = min(self.last[index] - off for index, off in zip(block, after, strict=True))
        self.spans[block[0]] = [self._spans(maker, low, high, room) for maker in range(len(grid.hours))]
        domain = _within(sorted(span for those in self.spans[block[0]] for span in those))
        if domain.is_empty():
            raise Impossible(block[0], [])
        head = self.heads[block[0]] = self.model.new_int_var_from_domain(domain, f"s{block[0]}")
        for index, off in zip(block, after, strict=True):
            self.start[index] = head + off if off else head
            self.end[index] = head + off + grid.lasts[index]
        self.pieces[block[0]] = self.model.new_fixed_size_interval_var(head, total, f"p{block[0]}")
        self.lasts[block[0]] = total

    def _spans(self, maker: int, low: int, high: int, room: int) -> list[list[int]]:
        """The starts, between two instants, of what needs so much room in one stretch of a maker."""
        begins = max(low, self.grid.busy_until[maker])
        spans = [[max(opens, begins), min(closes - room, high)] for opens, closes in self.grid.hours[maker]]
        return [span for span in spans if span[0] <= span[1]]

    def _tasks(self) -> None:
        grid, model = self.grid, self.model
        for unit in self.units:
            if len(unit) > 1:
                self._block(unit)
        for index in grid.open:
            if index in self.start:
                continue
            low, high = max(self.first[index], grid.ready[index]), self.last[index]
            if grid.hands[index] and len(grid.hours) == 1 and not self.longer_hours:
                spans = [
                    [max(low, begins), min(high, ends)]
                    for begins, ends in grid.starts(index, 0)
                    if max(low, begins) <= min(high, ends)
                ]
                domain = _within(spans)
            else:
                domain = _within([[low, high]] if low <= high else [])
            if domain.is_empty():
                raise Impossible(index, [])
            self.start[index] = self.heads[index] = model.new_int_var_from_domain(domain, f"s{index}")
            self.end[index] = self.start[index] + grid.lasts[index]

    def _hands(self) -> None:
        """No pair of hands does two things at once; with several makers, each step has one of them."""
        grid, model = self.grid, self.model
        tasks = [unit[0] for unit in self.units]
        for index in grid.open:
            self.intervals[index] = model.new_fixed_size_interval_var(
                self.start[index], grid.lasts[index], f"i{index}"
            )
        whole = {index: self.pieces.get(index, self.intervals[index]) for index in tasks}
        if len(grid.hours) == 1:
            if self.longer_hours:
                self._stretched(tasks, 0, None)
            model.add_no_overlap([whole[index] for index in tasks])
            return
        for maker in range(len(grid.hours)):
            self._hands_of(maker, tasks)
        for index in tasks:
            model.add_exactly_one(self.by[index, maker] for maker in range(len(grid.hours)))
        if tasks and all(hours == grid.hours[0] for hours in grid.hours) and len(set(grid.busy_until)) == 1:
            model.add(self.by[tasks[0], 0] == 1)  # makers alike: the first step is the first one's

    def _hands_of(self, maker: int, tasks: list[int]) -> None:
        """One of several makers, who may have any of these steps."""
        model = self.model
        theirs = []
        for index in tasks:
            literal = self.by[index, maker] = model.new_bool_var(f"m{index}.{maker}")
            spans = [list(each) for each in self.grid.starts(index, maker)]
            if not self.longer_hours:
                model.add_linear_expression_in_domain(
                    self.start[index], _within(self.spans[index][maker] if index in self.spans else spans)
                ).only_enforce_if(literal)
            theirs.append(
                model.new_optional_fixed_size_interval_var(
                    self.start[index], self.lasts[index], literal, f"i{index}.{maker}"
                )
            )
        model.add_no_overlap(theirs)
        if self.longer_hours:
            self._stretched(tasks, maker, self.by)

    def _stretched(
        self, tasks: list[int], maker: int, by: "dict[tuple[int, int], cp_model.IntVar] | None"
    ) -> None:
        """Each step in one stretch, which may close later, up to where the next one opens."""
        grid, model = self.grid, self.model
        hours = grid.hours[maker]
        for place, (_, closes) in enumerate(hours):
            room = (hours[place + 1][0] if place + 1 < len(hours) else self.horizon) - closes
            self.longer[maker, place] = model.new_int_var(0, max(0, room), f"x{maker}.{place}")
        for index in tasks:
            heres = []
            for place, (opens, closes) in enumerate(hours):
                here = model.new_bool_var(f"h{index}.{maker}.{place}")
                model.add(self.start[index] >= max(opens, grid.busy_until[maker])).only_enforce_if(here)
                model.add(self.end[index] <= closes + self.longer[maker, place]).only_enforce_if(here)
                heres.append(here)
            model.add(sum(heres) == (1 if by is None else by[index, maker]))

    def _needs(self) -> None:
        """What comes after what; a wait begins the moment the last of its needs ends."""
        grid, model = self.grid, self.model
        for index in grid.open:
            ready = [self.end[need] + least for need, least in grid.needs[index]]
            if grid.kinds[index] == "wait":
                if grid.ready[index] > 0 or not ready:
                    ready.append(max(grid.now, grid.ready[index]))
                if len(ready) == 1:
                    model.add(self.start[index] == ready[0])
                else:
                    model.add_max_equality(self.start[index], ready)
            else:
                for each in ready:
                    model.add(self.start[index] >= each)

    def _max_gaps(self, named: set[int]) -> None:
        grid, model = self.grid, self.model
        for place, most in enumerate(grid.max_gaps):
            opened = self.end[most.sources[0]]
            if len(most.sources) > 1:
                opened = model.new_int_var(grid.now, self.horizon, f"o{place}")
                model.add_max_equality(opened, [self.end[each] for each in most.sources])
            constraint = self._most(self.start[most.to], opened + most.most, most.gap)
            if place in named:
                self.kept[place] = model.new_bool_var(f"k{place}")
                constraint.only_enforce_if(self.kept[place])
        for to, latest, gap in grid.due:
            self._most(self.start[to], latest, gap)
        if grid.ready_by is not None:
            for index in grid.open:
                model.add(self.end[index] <= grid.ready_by)

    def _most(self, start: "Expr", latest: "Expr", gap: Gap) -> "cp_model.Constraint":
        """start <= latest, or over it at a price when soft."""
        if not self.soft:
            return self.model.add(start <= latest)
        unit = self.grid.unit
        over = self.model.new_int_var(0, self.horizon, "")
        late = self.model.new_bool_var("")
        self.model.add(over == 0).only_enforce_if(~late)
        self.over.append(over)
        self.late.append(late)
        self.share.append(over * max(1, WHOLE * WHOLE * unit // max(gap["most_ms"] or 0, LEAST_MOST_MS)))
        kind, lost = gap.get("class"), gap.get("lost_ms")
        if kind == "ruin":
            self.ruined.append(late)
        elif kind == "back":
            self.back.append((late, ceiling(gap.get("price_ms", 0), unit)))
            if lost is not None:
                gone = self.model.new_bool_var("")
                self.model.add(over <= lost // unit).only_enforce_if(~gone)
                self.ruined.append(gone)
        else:
            self.missed.append(late)
        return self.model.add(start <= latest + over)

    def unkept(self) -> "Expr":
        """What it costs to break gaps, in one number: any ruin is more than all there is to bring back, any of
        that more than all windows of quality."""
        light = len(self.missed) + 1
        heavy = light * (sum(price for _, price in self.back) + 1)
        return (
            heavy * sum(self.ruined)
            + light * sum(price * late for late, price in self.back)
            + sum(self.missed)
        )

    def _equipment(self) -> None:
        grid, model = self.grid, self.model
        using: dict[str, list[tuple[cp_model.IntervalVar, int, bool]]] = {}
        for index in grid.open:
            for key, many in grid.day.uses[index].items():
                using.setdefault(key, []).append((self.intervals[index], many, grid.hands[index]))
        for index, end in enumerate(grid.ended):
            if end is not None and end > grid.now and grid.kinds[index] != "wait":
                for key, many in grid.day.uses[index].items():
                    fixed = model.new_fixed_size_interval_var(grid.now, end - grid.now, f"u{index}.{key}")
                    using.setdefault(key, []).append((fixed, many, grid.hands[index]))
        for fill, empty, many, key in grid.day.holds_that_count:
            ended = grid.ended[empty]
            if ended is not None:
                filled = grid.day.start[fill]
                begun = grid.now if filled is None else max(grid.now, grid.up(filled))
                if ended > begun:  # of a batch that is planned already
                    held = model.new_fixed_size_interval_var(begun, ended - begun, f"z{fill}")
                    using.setdefault(key, []).append((held, many, False))
                continue
            start = self.start.get(fill, grid.now)
            size = model.new_int_var(0, self.horizon, f"z{fill}")
            held = model.new_interval_var(start, size, self.end[empty], f"z{fill}")
            using.setdefault(key, []).append((held, many, False))
        for key, users in using.items():
            if len(grid.hours) == 1 and all(by_hand for _, _, by_hand in users):
                continue  # one pair of hands already keeps them apart
            capacity = grid.day.many[key]
            if all(2 * many > capacity for _, many, _ in users):
                model.add_no_overlap([interval for interval, _, _ in users])
                if all(many <= capacity for _, many, _ in users):
                    continue
            model.add_cumulative(
                [interval for interval, _, _ in users], [many for _, many, _ in users], capacity
            )


def _within(spans: list[list[int]]) -> "Instants":
    """The instants of these spans, first and last among them."""
    from ortools.sat.python import cp_model

    domain: Instants = cp_model.Domain.from_intervals(spans)
    return domain
