"""Laying a day out by an order: each step in turn as early as it can be, in whole ms, with no solver.

Hands stay on a state that does not keep: the steps from the one that opens it to the one that ends it are
laid out in one piece (`blocks.py`), where there is room for them with slow hands; what is open already
has no room to wait for.

The order only says who goes first when two could; what an open state waits for goes before all. A step
goes into the first hole of its maker's time that is long enough, within bench hours. Where what follows
would come too late for a gap with a most, the step that opens the gap is put later, and the day is laid
out again. Waits begin by themselves. `frontend/bench/` repeats this, so it keeps to lists, whole numbers
and loops.
"""

from bisect import bisect_right
from typing import NamedTuple, TypeAlias

from bench.planning.blocks import blocks_of, holds_hands
from bench.planning.price import Price, price_of
from bench.shapes.planning import Gap, Problem, Stretch

USUAL = 1000  # paces are in thousandths of the planned time
LEAST_LEFT_MS = 15_000  # a step that takes longer than planned is believed to be nearly done
_MAX_ROUNDS = 400  # of putting openers later; a day that needs more has no answer this way
NEVER = 2**53 - 1
SLOW_HANDS = 1300  # what opens a state is begun where all of it fits with hands so slow

# When each task begins and ends, by whom, and what is broken.
_Times: TypeAlias = tuple[list[int | None], list[int | None], list[int | None], list[tuple[int, Gap]]]


class MaxGap(NamedTuple):
    """A gap with a most, by the numbers of its tasks."""

    sources: list[int]
    to: int
    most: int  # ms
    gap: Gap


class Holding(NamedTuple):
    """A hold by the numbers of its tasks: from the start of `fill` to the end of `empty`."""

    fill: int
    empty: int
    many: int
    key: str


class Day:
    """A problem at an instant, its tasks numbered: what has ended, what runs, what is open."""

    def __init__(self, problem: Problem, now: int) -> None:
        self.problem = problem
        self.now = now
        tasks = problem["tasks"]
        self.tasks = tasks
        self.number = {task["id"]: index for index, task in enumerate(tasks)}
        self.takes: list[int] = [task["left_ms"] for task in tasks]
        self.hands = [task["kind"] == "hands" for task in tasks]
        self.needs: list[list[tuple[int, int]]] = [[] for _ in tasks]
        self.max_gaps: list[MaxGap] = []
        for gap in problem["gaps"]:
            to = self.number[gap["to"]]
            sources = [self.number[each] for each in gap["from"]]
            if gap["least_ms"] is not None:
                least = gap["least_ms"]
                self.needs[to] += [(source, least) for source in sources]
            if gap["most_ms"] is not None:
                self.max_gaps.append(MaxGap(sources, to, gap["most_ms"], gap))
        self.holds: list[Holding] = [
            Holding(self.number[hold["from"]], self.number[hold["until"]], hold["many"], hold["equipment"])
            for hold in problem["holds"]
        ]
        self.uses = [task["uses"] for task in tasks]
        # One pair of hands keeps the things it uses apart; only several, or none, must look.
        self.apart = len(problem["makers"]) == 1 and all(
            task["kind"] == "hands" for task in tasks if task["uses"]
        )
        self.many = {key: each["many"] for key, each in problem["equipment"].items()}
        self.hours = [maker["hours"] for maker in problem["makers"]]
        self.longest = max((closes - opens for hours in self.hours for opens, closes in hours), default=0)
        self.start: list[int | None] = [None] * len(tasks)
        self.end: list[int | None] = [None] * len(tasks)
        self.maker: list[int | None] = [None] * len(tasks)
        self._take_history()
        self.open = [index for index, end in enumerate(self.end) if end is None]
        self._take_in_use()
        self.at_stake = self._leads_to_ends()
        self.blocks = blocks_of(self)
        self.block: dict[int, list[int]] = {index: block for block in self.blocks for index in block}
        self.pressing = self.with_needs(self.at_stake)

    def loosened(self) -> None:
        """Let go of the blocks: each step is laid out by itself."""
        self.blocks = []
        self.block = {}

    def _take_history(self) -> None:
        """What is done keeps its end; what hands are on, and a wait that runs, is believed to end soon."""
        in_hand = 0
        for index, task in enumerate(self.tasks):
            if task["status"] == "done":
                self.end[index] = task["ended_at"]
                self.start[index] = task["ended_at"] if task["began_at"] is None else task["began_at"]
            began = self.now if task["began_at"] is None else task["began_at"]
            if task["status"] == "begun" and not self.hands[index]:
                self.start[index] = began
                self.end[index] = max(self.now, began + task["left_ms"])
            elif task["status"] == "begun" and in_hand < len(self.hours):
                self.start[index] = began
                self.end[index] = max(self.now + LEAST_LEFT_MS, began + task["left_ms"])
                self.maker[index] = in_hand
                in_hand += 1

    def _take_in_use(self) -> None:
        """`full`: the steps whose bowl or mould is in use already. What is in use beyond what the kit has is of no
        kit: it is held by nobody."""
        self.full = {
            fill
            for fill, empty, _, _ in self.holds
            if self.tasks[fill]["status"] != "open" and self.end[empty] is None
        }
        left = dict(self.many)
        holds = []
        for fill, empty, many, key in self.holds:
            if fill in self.full:
                many = min(many, left[key])
                left[key] -= many
            if many:
                holds.append(Holding(fill, empty, many, key))
        self.holds = holds

    def _leads_to_ends(self) -> set[int]:
        """The open steps and waits that lead to the end of a state that is open now."""
        chain: set[int] = set()
        for sources, to, _, gap in self.max_gaps:
            ends = [self.end[each] for each in sources]
            is_open = self.end[to] is None and all(end is not None and end <= self.now for end in ends)
            if is_open and holds_hands(gap):
                stack = [to]
                while stack:
                    index = stack.pop()
                    if index not in chain:
                        chain.add(index)
                        stack += [need for need, _ in self.needs[index] if self.end[need] is None]
        return chain

    def with_needs(self, steps: set[int]) -> set[int]:
        """Steps with all they still need, each block whole."""
        chain: set[int] = set()
        stack = list(steps)
        while stack:
            index = stack.pop()
            if index not in chain:
                chain.add(index)
                stack += self.block.get(index, [])
                stack += [need for need, _ in self.needs[index] if self.end[need] is None]
        return chain

    @property
    def holds_that_count(self) -> list[Holding]:
        """The holds without those of a pool that never runs out: it has enough for all of them at once, or each
        of them is taken from another as well that has no more."""
        takers: dict[str, set[tuple[int, int, int]]] = {}
        for fill, empty, many, key in self.holds:
            takers.setdefault(key, set()).add((fill, empty, many))
        idle: set[str] = set()
        for key, own in takers.items():
            enough = sum(many for _, _, many in own) <= self.many[key]
            if enough or any(
                other != key and other not in idle and own <= those and self.many[other] <= self.many[key]
                for other, those in takers.items()
            ):
                idle.add(key)
        return [hold for hold in self.holds if hold.key not in idle]

    def has_free(self, index: int) -> bool:
        """Whether what a step takes up for longer is there now."""
        for fill, _, many, key in self.holds:
            if fill != index or fill in self.full:
                continue
            taken = sum(
                takes
                for other, empty, takes, other_key in self.holds
                if other_key == key and (other in self.full or self._fixed_at(other, empty, self.now))
            )
            if taken + many > self.many[key]:
                return False
        return True

    def _fixed_at(self, fill: int, empty: int, at: int) -> bool:
        """Whether a hold that is past moving goes on at an instant."""
        start, end = self.start[fill], self.end[empty]
        return start is not None and end is not None and start <= at < end

    def by_need(self, order: list[str]) -> list[int]:
        """The open tasks by this order, what is at stake first, each after what it needs; what the order lacks comes
        last."""
        rank = {key: place for place, key in enumerate(order)}
        late = len(order)
        first = sorted(
            (index not in self.at_stake, rank.get(self.tasks[index]["id"], late), index)
            for index in self.open
        )
        placed: list[int] = []
        seen: set[int] = set()
        for _, _, one in first:
            stack = [one] if one not in seen else []
            while stack:
                index = stack[-1]
                whole = self.block.get(index, [index])
                missing = [
                    need
                    for each in whole
                    for need, _ in self.needs[each]
                    if self.end[need] is None and need not in seen and need not in whole and need not in stack
                ]
                if missing:
                    stack.append(missing[0])
                    continue
                stack.pop()
                placed += [each for each in whole if each not in seen]
                seen.update(whole)
        return placed

    def tails(self) -> list[int]:
        """The longest run of times from the start of each task to the end of the day, in ms."""
        followers: list[list[tuple[int, int]]] = [[] for _ in self.tasks]
        for index in self.open:
            for need, least in self.needs[index]:
                followers[need].append((index, least))
        tails = [0] * len(self.tasks)
        for index in reversed(self.by_need([])):
            after = max((least + tails[each] for each, least in followers[index]), default=0)
            tails[index] = self.takes[index] + after
        return tails

    def latest_finish_first(self) -> list[str]:
        """The plain rule's order: what has the longest run of times after it goes first."""
        tails = self.tails()
        ranked = sorted((self.takes[index] - tails[index], index) for index in self.open)
        return [self.tasks[index]["id"] for _, index in ranked]


class _Placing:
    """Each open task given its place in turn, in an order: the first hole of hands, hours and things that holds it."""

    def __init__(
        self,
        day: Day,
        order: list[int],
        pace: int,
        first: int | None,
        first_pace: int | None,
        not_before: dict[int, int] | None,
    ) -> None:
        self.day = day
        self.pace = pace
        self.first = first
        self.first_pace = pace if first_pace is None else first_pace
        # Begun now, it is followed by the rest of its block: nothing else is to come between.
        block = [] if first is None else day.block.get(first, [])
        self.ahead = [] if first is None else [first, *(each for each in block if each != first)]
        self.order = [*self.ahead, *(each for each in order if each not in self.ahead)]
        self.least = dict(not_before or {})

    def _lasts(self, index: int) -> int:
        """How long a task takes at this pace, in ms; never past the longest stretch if it fits at all."""
        takes: int = self.day.takes[index]
        if not self.day.hands[index]:
            return takes
        if index == self.first:
            return takes * self.first_pace // USUAL
        return max(min(takes, takes * self.pace // USUAL), min(takes * self.pace // USUAL, self.day.longest))

    def _place_all(self) -> bool:
        """Place every open task once; False when the bench hours run out."""
        day = self.day
        self.start = list(day.start)
        self.end = list(day.end)
        self.maker = list(day.maker)
        self.busy: list[list[tuple[int, int]]] = [[] for _ in day.hours]
        for index, maker in enumerate(day.maker):
            end = day.end[index]
            if maker is not None and end is not None:
                self.busy[maker].append((day.now, end))
        frees = {hold.empty for hold in self.day.holds}
        left = self.order
        while left:  # what waits for a bowl or mould that a later step empties goes as soon as that is placed
            waiting: list[int] = []
            for place, index in enumerate(left):
                if not self._placed(index):
                    waiting.append(index)
                elif waiting and index in frees:
                    waiting += left[place + 1 :]
                    break
            if len(waiting) == len(left):
                return False
            left = waiting
        return True

    def _placed(self, index: int) -> bool:
        """Whether a task has its place, or can be given one now."""
        day = self.day
        if self.end[index] is not None or (index in day.block and self._place_block(day.block[index])):
            return True
        ready = self._ready(index)
        if ready is None:
            return False
        if not day.hands[index]:
            if day.needs[index] and day.tasks[index]["kind"] == "wait":  # it begins by itself
                ready = max((self.end[need] or 0) + least for need, least in day.needs[index])
            at = self._first_free(index, ready, day.takes[index])
            if at == NEVER:
                return False
            self.start[index], self.end[index] = at, at + day.takes[index]
            return True
        lasts = self._lasts(index)
        chosen = self._earliest(index, ready, lasts)
        if chosen is None:
            return False
        at, maker = chosen
        self.start[index], self.end[index], self.maker[index] = at, at + lasts, maker
        _put(self.busy[maker], (at, at + lasts))
        return True

    def _ready(self, index: int, within: list[int] | None = None) -> int | None:
        """From when on a task may begin, those of `within` aside; None while a need has no place yet."""
        ready = max(self.day.now, self.least.get(index, self.day.now))
        for need, least in self.day.needs[index]:
            end = self.end[need]
            if end is None:
                if within is not None and need in within:
                    continue
                return None
            ready = max(ready, end + least)
        return ready

    def _place_block(self, block: list[int]) -> bool:
        """Place what is left of a block in one piece; False when that cannot be, and nothing is placed."""
        day = self.day
        left = [each for each in block if self.end[each] is None]
        if len(left) < 2 or self.first in left:
            return False
        after, total = [], 0
        for each in left:
            after.append(total)
            total += self._lasts(each)
        readies = [self._ready(each, left) for each in left]
        if None in readies:
            return False
        ready = max(at - off for at, off in zip(readies, after, strict=True) if at is not None)
        usual = sum(day.takes[each] for each in left)
        slow = 0 if day.at_stake & set(left) else min(usual * SLOW_HANDS // USUAL, day.longest)
        chosen = self._earliest_block(left, after, max(ready, day.now), total, max(total, slow))
        if chosen is None:
            return False
        at, maker = chosen
        for each, off in zip(left, after, strict=True):
            start = at + off
            self.start[each], self.end[each], self.maker[each] = start, start + self._lasts(each), maker
        _put(self.busy[maker], (at, at + total))
        return True

    def _earliest_block(
        self, block: list[int], after: list[int], ready: int, total: int, room: int
    ) -> tuple[int, int] | None:
        best: tuple[int, int] | None = None
        for maker, hours in enumerate(self.day.hours):
            at = _hole(hours, self.busy[maker], ready, total, room)
            while at is not None:
                later = at
                for each, off in zip(block, after, strict=True):
                    free = self._equipment_free(each, at + off, self._lasts(each))
                    if free == NEVER:
                        return best
                    later = max(later, free - off)
                if later == at:
                    if best is None or at < best[0]:
                        best = (at, maker)
                    break
                at = _hole(hours, self.busy[maker], later, total, room)
        return best

    def _first_free(self, index: int, ready: int, lasts: int) -> int:
        """The first instant from `ready` on when all that a task uses is free; NEVER when it never is."""
        at = ready
        while True:
            later = self._equipment_free(index, at, lasts)
            if later in (at, NEVER):
                return later
            at = later

    def _earliest(self, index: int, ready: int, lasts: int) -> tuple[int, int] | None:
        """The first instant, and the maker, at which a step can begin; a first step begins now."""
        best: tuple[int, int] | None = None
        for maker, hours in enumerate(self.day.hours):
            at = ready
            while True:
                if index == self.first:
                    found = at if not _clash(self.busy[maker], at, lasts) and _opened(hours, at) else None
                else:
                    found = _hole(hours, self.busy[maker], at, lasts, lasts)
                if found is None:
                    break
                later = self._equipment_free(index, found, lasts)
                if later == found:
                    if best is None or found < best[0]:
                        best = (found, maker)
                    break
                if later == NEVER:
                    return None
                at = later
        return best

    def _equipment_free(self, index: int, at: int, lasts: int) -> int:
        """`at` when all that the step uses is free then, else a later instant to try; NEVER without one."""
        later = at
        if not self.day.apart:
            for key, many in self.day.uses[index].items():
                later = max(later, self._use_free(key, many, at, lasts))
        for fill, _, many, key in self.day.holds:
            if fill == index and fill not in self.day.full:
                later = max(later, self._hold_free(index, key, many, at))
        return later

    def _use_free(self, key: str, many: int, at: int, lasts: int) -> int:
        using = []
        for other, uses in enumerate(self.day.uses):
            start, end = self.start[other], self.end[other]
            if key in uses and start is not None and end is not None and start < at + lasts and at < end:
                using.append((end, uses[key]))
        taken = sum(each for _, each in using)
        if taken + many <= self.day.many[key]:
            return at
        return min((end for end, _ in using), default=NEVER)

    def _hold_free(self, index: int, key: str, many: int, at: int) -> int:
        """When enough is empty: what is not emptied yet in this order is held for ever."""
        held = []
        for fill, empty, takes, other in self.day.holds:
            start = self.day.now if fill in self.day.full else self.start[fill]
            if other != key or fill == index or start is None:
                continue
            end = self.end[empty]
            if self.day.end[empty] is not None and start > at:
                continue  # promised to a batch that is planned already: `_leave_free` sees to it
            if end is None or end > at:
                held.append((NEVER if end is None else end, takes))
        taken = sum(takes for _, takes in held)
        if taken + many <= self.day.many[key]:
            return at
        return min((end for end, _ in held), default=NEVER)

    def _began(self, fill: int) -> int:
        start = self.start[fill]
        return self.day.now if start is None else start


class Layout(_Placing):
    """One laying out of a day. `broken` is [(over_ms, gap)], `finish` the end of the last task."""

    def __init__(
        self,
        day: Day,
        order: list[int],
        *,
        pace: int = USUAL,
        first: int | None = None,
        first_pace: int | None = None,
        not_before: dict[int, int] | None = None,
        rounds: int = _MAX_ROUNDS,
    ) -> None:
        """order: task numbers as `by_need` gives them. first: a ready step that begins now, whatever
        the order says. pace, first_pace: hand times in thousandths of the planned ones.
        not_before: task number -> earliest start. rounds: of putting openers later, at most."""
        super().__init__(day, order, pace, first, first_pace, not_before)
        self.prioritised: list[Gap] = []  # gaps whose steps go first, because what opens them is past moving
        self.freed: set[int] = set()  # steps that go first, because what they free is waited for
        self.placed = True
        self.broken: list[tuple[int, Gap]] = []
        self._lay(rounds)
        self.finish = max((end for end in self.end if end is not None), default=day.now)

    @property
    def price(self) -> Price:
        """What the broken gaps cost: the first that differs decides."""
        return price_of(self.broken)

    def _lay(self, rounds: int) -> None:
        """Lay the day out until no opener is to be put later; where that leaves no room, as it cost least before."""
        best: tuple[Price, _Times] | None = None
        for _ in range(rounds):
            if not self._place_all():
                if self._free_first():
                    continue
                break
            if self._leave_free():
                continue
            if not self._put_openers_later():
                return
            if best is None or self.price < best[0]:
                best = self.price, (self.start, self.end, self.maker, self.broken)
        self.placed = best is not None
        if best:
            self.start, self.end, self.maker, self.broken = best[1]

    def _free_first(self) -> bool:
        """Nothing more can be placed. Let what empties a bowl or mould that is waited for go first, with all it
        needs; False when nothing is waited for, or all of it went first already."""
        day = self.day
        waiting = {
            key
            for fill, _, _, key in day.holds
            if self.end[fill] is None and fill not in day.full and self._ready(fill) is not None
        }
        for fill, empty, _, key in day.holds:
            held = fill in day.full or self.start[fill] is not None
            if key in waiting and held and self.end[empty] is None and empty not in self.freed:
                self.freed.add(empty)
                self._go_first(empty)
                return True
        return False

    def _leave_free(self) -> bool:
        """Put later what fills a bowl or mould that is promised to a batch planned already, and would not be empty
        by then; True when something was."""
        day = self.day
        promised = [
            (fill, empty, key) for fill, empty, _, key in day.holds if (day.end[empty] or 0) > day.now
        ]
        for fixed, freed, key in promised:
            at = self._began(fixed)
            there = [
                (self._began(fill), fill, many)
                for fill, empty, many, other in day.holds
                if other == key and self._began(fill) <= at < (self.end[empty] or at)
            ]
            own = [
                (start, fill) for start, fill, _ in there if day.end[fill] is None and fill not in day.full
            ]
            if own and sum(many for _, _, many in there) > day.many[key]:
                self.least[max(own)[1]] = day.end[freed] or day.now
                return True
        return False

    def _put_openers_later(self) -> bool:
        """Say what is broken, and put its openers later; True when something was."""
        moved = False
        self.broken = []
        for sources, to, most, gap in self.day.max_gaps:
            start = self.start[to]
            if start is None or self.day.end[to] is not None:
                continue
            opened = max(end for each in sources if (end := self.end[each]) is not None)
            over = start - opened - most
            if over <= 0:
                continue
            last = [each for each in sources if self.end[each] == opened]
            self.broken.append((over, gap))
            if any(self._delay(each, over) for each in last) or self._prioritise(to, gap):
                moved = True
        return moved

    def _prioritise(self, to: int, gap: Gap) -> bool:
        """Let the step that closes a gap, and all it still needs, go before the rest; False if it does already."""
        if gap in self.prioritised:
            return False
        self.prioritised.append(gap)
        self._go_first(to)
        return True

    def _go_first(self, to: int) -> None:
        """Let a step, and all it still needs, go before the rest."""
        chain, pressing = self.day.with_needs({to}), self.day.pressing
        others = [index for index in self.order if index not in self.ahead]
        others.sort(key=lambda index: 0 if index in pressing else 1 if index in chain else 2)
        self.order = [*self.ahead, *others]

    def _delay(self, index: int, by: int) -> bool:
        """Make a task end later by so much, a wait through the last of its needs; False if it is history,
        is to begin now or follows at once."""
        if self.day.end[index] is not None or index in self.ahead:
            return False
        if self._is_due(index, (self.start[index] or 0) + by):
            return False
        if self.day.tasks[index]["kind"] != "wait":
            self.least[index] = (self.start[index] or 0) + by
            return True
        # A wait goes on from the last of its needs, so one of those that end last is enough.
        start = self.start[index]
        last = [need for need, least in self.day.needs[index] if (self.end[need] or 0) + least == start]
        return any(self._delay(need, by) for need in last)

    def _is_due(self, index: int, at: int) -> bool:
        """Whether a task at that instant would be too late after what is past moving itself."""
        for sources, to, most, _ in self.day.max_gaps:
            fixed = to == index and all(
                self.day.end[each] is not None or each == self.first for each in sources
            )
            if fixed and at - max(self.end[each] or 0 for each in sources) > most:
                return True
        return False


def _opened(hours: list[Stretch], at: int) -> bool:
    place = bisect_right(hours, [at, NEVER]) - 1
    return place >= 0 and at < hours[place][1]


def _clash(busy: list[tuple[int, int]], at: int, lasts: int) -> bool:
    return any(begin < at + lasts and at < end for begin, end in busy)


def _hole(hours: list[Stretch], busy: list[tuple[int, int]], ready: int, lasts: int, room: int) -> int | None:
    """The first instant from `ready` on with room for a step: open all through, and not busy.

    room: what must be left of the bench hours, no less than the step lasts.
    """
    place = max(0, bisect_right(hours, [ready, NEVER]) - 1)
    for opens, closes in hours[place:]:
        at = max(ready, opens)
        for begin, end in busy:
            if begin >= at + lasts:
                break
            if end > at:
                at = end
        if at + room <= closes:
            return at
    return None


def _put(busy: list[tuple[int, int]], stretch: tuple[int, int]) -> None:
    busy.insert(bisect_right(busy, stretch), stretch)
