"""What next, by a rule with foresight: no solver, whole numbers, so that a phone without a network can say it.

A plan gives the order; the day never goes by it. So each time hands are free, the ready steps are
tried in plan order: the rest of the day is laid out behind each, with hands slower than planned and
with hands quicker, in this step and in what follows. A step is taken when none of these breaks a gap,
and when waiting would not end the day earlier. If none passes, waiting is judged the same way, then
all of it with hands less far off, as long as slow hands would ruin nothing by it that they need not; and
if nothing keeps every gap, the least bad is taken and said (`price.py`). From what opens a state that does
not keep to what ends it, hands stay on that part while that breaks nothing: they rest beside it where the
next of its steps comes in a few minutes.
"""

from typing import TypeAlias

from bench.planning.blocks import AT_ONCE_MS, holds_hands
from bench.planning.emptying import can_empty
from bench.planning.layout import NEVER, USUAL, Day, Layout
from bench.planning.price import NOTHING, WHOLE, price_of
from bench.shapes.planning import Advice, Gap, GapOver, IfStopped, MakerHours, Problem, Stretch, WhyNext

SLOW = (1300, 1150, USUAL)  # paces in thousandths, the most careful first; hands may be as much too quick
PATIENCE_MS = 2 * 3_600_000  # being careful may not put the end off by more than this
STAY_MS = 15 * 60_000  # how long past the bench hours is asked of a maker, to save pieces
STAYED_MS = STAY_MS * SLOW[0] // USUAL  # of who stayed already, and was slower than planned
# What it costs to do so, how far past the bench hours, the layout, and the step, or until when to wait.
Tried: TypeAlias = tuple[tuple[int, ...], int, Layout, int | None, int | None]
_AHEAD = 6  # instants to wait for that are looked at


def next_step(problem: Problem, order: list[str], now: int, maker: int = 0) -> Advice:
    """The step to begin now, or until when to wait, and why.

    problem: as for `plan`, statuses as they are now. order: ids of the hands-on steps, as the last plan
    had them. why.kind: next (in plan order), sooner (something else would end later), finished, wait (nothing is
    ready), window (begun now, why.gap would break by why.over_ms), closed (no bench hours now),
    hours (it would run past why.closes_at), stay (past why.closes_at by why.by_ms, because all else is
    worse), rest (why.step of a state that is open comes in a few minutes), ends_sooner (waiting ends the day
    earlier), no_hours.
    """
    return _Choice(Day(problem, now), order, maker).advice()


def with_who_stayed(day: Day, order: list[str]) -> Day:
    """The day with longer hours for who is beside an open state outside them, as `next_step` bids them go on; the same
    day where nobody is."""
    if not day.at_stake:
        return day
    for place in range(len(day.hours)):
        day = _Choice(day, order, place).who_stayed()
    return day


def if_you_stop(problem: Problem, order: list[str], now: int, until: int) -> IfStopped:
    """What happens if nothing is begun before `until`."""
    day = Day(problem, now)
    numbers = day.by_need(order)
    going_on = Layout(day, numbers)
    stopped = Layout(day, numbers, not_before={index: until for index in day.open if day.hands[index]})
    before = {id(gap) for _, gap in going_on.broken}
    return {
        "finish_at": stopped.finish if stopped.placed else None,
        "later_ms": stopped.finish - going_on.finish if stopped.placed and going_on.placed else None,
        "broken": [{"gap": gap, "over_ms": over} for over, gap in stopped.broken if id(gap) not in before],
    }


class _Choice:
    def __init__(self, day: Day, order: list[str], maker: int, *, may_stay: bool = True) -> None:
        self.day = day
        self.given = order
        self.maker = maker
        self.may_stay = may_stay  # past the bench hours, to end what is open
        self.slow: dict[tuple[int | None, int | None], Layout] = {}
        self.order = day.by_need(order)
        ready = [index for index in self.order if self._is_ready(index)]
        self.staying = [index for index in ready if index in day.at_stake]
        self.ready = [*self.staying, *(index for index in ready if index not in day.at_stake)]

    def advice(self) -> Advice:
        day = self.day
        if not any(day.hands[index] for index in day.open):
            return _advice(None, None, {"kind": "finished"}, USUAL, [])
        closes = self._closes()
        if closes is None:
            return self._stayed() or self._closed()
        fitting = [index for index in self.staying or self.ready if day.now + day.takes[index] <= closes]
        events = self._events()
        going = self._laid(USUAL, None)
        soon = None if self.staying else self._comes_by(going, day.now + AT_ONCE_MS)
        patient: Advice | None = None  # the most careful wait, and when the day would end with it
        ends = NEVER
        for pace in SLOW:
            refused: tuple[int, Layout] | None = None
            until = next((at for at in events if self._breaks(pace, at) is None), None)
            if until is not None and soon is not None and patient is None:
                return self._rest(until, pace, soon)
            waiting = None if until is None else self._laid(USUAL, until)
            for index in fitting:
                bad = self._breaks(pace, None, index)
                if bad is not None:
                    refused = refused or (index, bad)
                    continue
                if pace < SLOW[0] and self._risks(index) > self._least_risk(fitting, events):
                    continue
                doing = Layout(day, self.order, first=index)
                if patient and doing.finish > ends - PATIENCE_MS:
                    continue
                if waiting and not patient and _sooner(waiting, going, doing):
                    continue
                return self._begin(index, {"kind": "next" if index == self.ready[0] else "sooner"}, pace, [])
            if until is not None and waiting and patient is None:
                patient, ends = self._wait(until, pace, refused, closes), waiting.finish
        return patient or self._least_bad(events, closes)

    def who_stayed(self) -> Day:
        """The day with the hours in which they end what is open; as it is inside the bench hours, or where none is
        asked."""
        if self._closes() is not None or self._stayed() is None:
            return self.day
        last, goes = self._stretch_to_stay_after()
        return self.day if last is None else self._going_at(last, goes).day

    def _closed(self) -> Advice:
        opens = min((opens for opens, _ in self.day.hours[self.maker] if opens > self.day.now), default=None)
        return _advice(None, opens, {"kind": "no_hours" if opens is None else "closed"}, USUAL, [])

    def _begin(self, index: int, why: WhyNext, pace: int, broken: list[GapOver]) -> Advice:
        said = _advice(self.day.tasks[index]["id"], None, why, pace, broken)
        laid = self._slowly(index, None) if 0 < pace < SLOW[0] else None
        if laid and laid.broken:
            over, gap = _worst(laid)
            said["risk"] = {"gap": gap, "over_ms": over}
        return said

    def _slowly(self, first: int | None, until: int | None) -> Layout:
        """The rest of the day with slow hands throughout; the same is asked for more than once."""
        if (first, until) not in self.slow:
            self.slow[first, until] = self._laid(SLOW[0], until, first)
        return self.slow[first, until]

    def _risks(self, first: int | None, until: int | None = None) -> tuple[bool, int, int]:
        """What slow hands would ruin, and pay for bringing back."""
        laid = self._slowly(first, until)
        return not laid.placed, *laid.price[:2]

    def _least_risk(self, fitting: list[int], events: list[int]) -> tuple[bool, int, int]:
        return min([*(self._risks(each) for each in fitting), *(self._risks(None, at) for at in events)])

    def _breaks(self, pace: int, until: int | None, first: int | None = None) -> Layout | None:
        """The first layout that breaks a gap, if this step is begun now, or none before `until`: with hands
        this slow or as much too quick, in this step and in all that follow. None when every gap is kept."""
        quick = 2 * USUAL - pace
        paces = [pace] if pace == USUAL else [pace, quick]
        tried = [(others, own) for others in paces for own in paces if first is not None or own == others]
        for others, own in tried:
            laid = self._laid(others, until, first, own)
            if not laid.placed or laid.broken:
                return laid
        return None

    def _laid(self, pace: int, until: int | None, first: int | None = None, own: int | None = None) -> Layout:
        """The rest of the day from now, or with nothing begun before `until`."""
        least = {} if until is None else {index: until for index in self.day.open if self.day.hands[index]}
        return Layout(self.day, self.order, pace=pace, first=first, first_pace=own, not_before=least)

    def _least_bad(self, events: list[int], closes: int) -> Advice:
        """Something breaks whatever is done: what costs least, slow hands first where a state would be ruined."""
        if stayed := self._stayed():
            return stayed
        day = self.day
        made: list[Tried] = []
        for index in self.ready:
            stays = max(0, day.now + day.takes[index] - closes)
            if stays <= STAY_MS:
                layout = Layout(day, self.order, first=index)
                blind = self._blind(layout, index)
                strays = bool(self.staying) and index not in self.staying
                bad = _badness(self._risks(index), layout, blind, strays, stays, rests=False)
                made.append((bad, stays, layout, index, None))
        for at in events:
            layout = self._laid(USUAL, at)
            blind = self._blind(layout, None)
            bad = _badness(self._risks(None, at), layout, blind, False, 0, rests=bool(self.staying))
            made.append((bad, 0, layout, None, at))
        if not made:
            return _advice(None, None, {"kind": "no_hours"}, 0, [])
        _, stays, layout, chosen, until = min(made, key=_badness_of)
        broken: list[GapOver] = [{"gap": gap, "over_ms": over} for over, gap in layout.broken]
        if chosen is None:
            return {**self._wait(until, 0, None, closes), "broken": broken}
        why: WhyNext = {"kind": "next"}
        if stays:
            why = {"kind": "stay", "by_ms": stays, "closes_at": closes}
        return self._begin(chosen, why, 0, broken)

    def _blind(self, layout: Layout, index: int | None) -> tuple[bool, bool]:
        """Where nothing can be foreseen: whether what is in use could not all be emptied after this step, and whether
        it leaves a state that is open."""
        if layout.placed:
            return False, False
        return not can_empty(self.day, index), bool(self.staying) and index not in self.staying

    def _wait(self, until: int | None, pace: int, refused: tuple[int, Layout] | None, closes: int) -> Advice:
        why: WhyNext = {"kind": "wait"}
        if refused:
            index, layout = refused
            why = {"kind": "window", "step": self.day.tasks[index]["id"]}
            if layout.broken:
                over, gap = _worst(layout)
                why = {**why, "gap": gap, "over_ms": over, "closes_at": closes}
        elif self.ready:
            index = self.ready[0]
            fits = self.day.now + self.day.takes[index] <= closes
            why = {
                "kind": "ends_sooner" if fits else "hours",
                "step": self.day.tasks[index]["id"],
                "closes_at": closes,
            }
        return _advice(None, until, why, pace, [])

    def _rest(self, until: int, pace: int, beside: int) -> Advice:
        return _advice(None, until, {"kind": "rest", "step": self.day.tasks[beside]["id"]}, pace, [])

    def _comes_by(self, laid: Layout, at: int) -> int | None:
        """The next step of a state that is open, where one begins by then."""
        starts = [
            (start, index)
            for index in self.day.at_stake
            if self.day.hands[index] and (start := laid.start[index]) is not None and start <= at
        ]
        return min(starts)[1] if starts and laid.placed else None

    def _stayed(self) -> Advice | None:
        """What to begin, or to rest for, where a few minutes past the bench hours end a state that is open: all it
        asks is kept, or less is lost than if it were left."""
        day = self.day
        last, goes = self._stretch_to_stay_after()
        if last is None:
            return None
        closes = last[1]
        later = self._going_at(last, goes)
        said = later.advice()
        leaving = self._laid(USUAL, None)
        if not _saves(said["broken"], leaving):
            return None
        if said["step"] is None:
            return self._rested(later, said, leaving, goes)
        index = day.number[said["step"]]
        by = day.now + day.takes[index] - closes
        if by > 0 and index not in day.at_stake:
            return None
        stays = by > 0 and last[0] < closes
        return {**said, "why": {"kind": "stay", "by_ms": by, "closes_at": closes}} if stays else said

    def _stretch_to_stay_after(self) -> tuple[Stretch | None, int]:
        """The hours that would be made longer, and until when; None where nothing open asks for it, or it is too late."""
        day = self.day
        last = self._last_stretch() if self.may_stay and day.at_stake else None
        if last is None:
            return None, 0
        goes = last[1] + (STAY_MS if day.now < last[1] else STAYED_MS)
        return (last, goes) if day.now < goes else (None, 0)

    def _last_stretch(self) -> Stretch | None:
        """The stretch of the bench hours that began last; for hands that worked where there are none, the moment
        when they last did: who opened a state there is at the bench."""
        day = self.day
        last = next((each for each in reversed(day.hours[self.maker]) if each[0] <= day.now), None)
        worked = [
            end
            for index, end in enumerate(day.end)
            if day.hands[index] and end is not None and end <= day.now
        ]
        if worked and (last is None or max(worked) >= last[1] + STAYED_MS):
            return [max(worked), max(worked)]
        return last

    def _going_at(self, last: Stretch, goes: int) -> "_Choice":
        """The same with one stretch of the bench hours made longer, into the next where the break is as short."""
        day = self.day
        own = day.hours[self.maker]
        closes = max([goes, *(each[1] for each in own if last[0] < each[0] < goes)])
        others = [each for each in own if each is not last and (each[0] >= goes or each[1] <= last[0])]
        hours = sorted([[last[0], closes], *others])
        makers: list[MakerHours] = [
            {**maker, "hours": hours} if place == self.maker else maker
            for place, maker in enumerate(day.problem["makers"])
        ]
        return _Choice(
            Day({**day.problem, "makers": makers}, day.now), self.given, self.maker, may_stay=False
        )

    def _rested(self, later: "_Choice", said: Advice, leaving: Layout, goes: int) -> Advice | None:
        """So that they go later, hands rest only for a step that would else be late."""
        until = said["until"]
        if until is None or (leaving.placed and not any(holds_hands(gap) for _, gap in leaving.broken)):
            return None
        beside = self._comes_by(later._laid(USUAL, until), goes)
        return None if beside is None else self._rest(until, said["pace"], beside)

    def _is_ready(self, index: int) -> bool:
        day = self.day
        if not day.hands[index]:
            return False
        for need, least in day.needs[index]:
            end = day.end[need]
            if end is None or end + least > day.now:
                return False
        return day.has_free(index)

    def _closes(self) -> int | None:
        """When the stretch that is open now closes; None outside bench hours."""
        hours: list[Stretch] = self.day.hours[self.maker]
        for opens, closes in hours:
            if opens <= self.day.now < closes:
                return closes
        return None

    def _events(self) -> list[int]:
        """The next instants at which the answer could be another, the soonest first: something ends, the
        bench opens, or, with hands slower or quicker, the day goes on where hands stay."""
        day = self.day
        events = {end for end in day.end if end is not None and end > day.now}
        events |= {opens for opens, _ in day.hours[self.maker] if opens > day.now}
        for index in day.open:
            for need, least in day.needs[index]:
                end = day.end[need]
                if end is not None and end + least > day.now:
                    events.add(end + least)
        for pace in {each for slow in SLOW for each in (slow, 2 * USUAL - slow)}:
            laid = self._laid(pace, None)
            waited_for = self.staying or [index for index in day.open if day.hands[index]]
            starts = [laid.start[index] or 0 for index in waited_for] if laid.placed else []
            if starts and min(starts) > day.now:
                events.add(min(starts))
        return sorted(events)[:_AHEAD]


def _badness(
    risks: tuple[bool, int, int],
    layout: Layout,
    blind: tuple[bool, bool],
    strays: bool,
    stays: int,
    *,
    rests: bool,
) -> tuple[int, ...]:
    """What counts when something must give: where nothing can be foreseen, bowls that wait for each other for ever,
    and leaving a state that is open; what is ruined, at the usual pace and by slow hands; beginning something else
    while a state is open; what is brought back; then windows of quality, and how many times their own size they are
    overrun; then staying on; resting beside a state that is open, though hands could go on with it; and the end."""
    ruined, back, missed, share = layout.price if layout.placed else NOTHING
    return (
        not layout.placed,
        *blind,
        ruined,
        *risks[:2],
        strays,
        back,
        risks[2],
        missed,
        share // WHOLE,
        stays,
        rests,
        share,
        layout.finish,
    )


def _badness_of(tried: Tried) -> tuple[int, ...]:
    return tried[0]


def _saves(broken: list[GapOver], leaving: Layout) -> bool:
    """Whether staying on keeps what is open, or else loses less of it; nobody stays for what is lost already."""
    if not any(holds_hands(each["gap"]) for each in broken):
        return True
    if not leaving.placed:
        return False
    staying = price_of([(each["over_ms"], each["gap"]) for each in broken])
    return staying[:2] < leaving.price[:2] or (staying < leaving.price and not staying[0])


def _worst(layout: Layout) -> tuple[int, Gap]:
    """The gap that is overrun by most, after how much."""
    worst = layout.broken[0]
    for each in layout.broken:
        worst = each if each[0] > worst[0] else worst
    return worst


def _sooner(waiting: Layout, going: Layout, doing: Layout) -> bool:
    """Whether waiting ends the day before doing this now does, when both keep every gap."""
    if not waiting.placed or waiting.broken:
        return False
    return not doing.placed or bool(doing.broken) or min(waiting.finish, going.finish) < doing.finish


def _advice(step: str | None, until: int | None, why: WhyNext, pace: int, broken: list[GapOver]) -> Advice:
    return {"step": step, "until": until, "why": why, "pace": pace, "broken": broken, "risk": None}
