"""Whether all that is in use can still be emptied: no batch waits for a bowl of another that waits for its jug.

A batch that can go on, with what is free now, until it holds less of something and more of nothing leaves the
others better off: so they are taken one after another, as each can give something back, and all together where none
can by itself. Every order of taking up what is still needed is tried, up to a limit. `frontend/bench/emptying.js`
repeats this.
"""

from typing import TypeAlias

from bench.planning.layout import Day, Holding

_MOST_TRIED = 200  # ways on; what needs more counts as stuck

Done: TypeAlias = frozenset[int]  # by the numbers of the tasks
Free: TypeAlias = dict[str, int]


def can_empty(day: Day, first: int | None = None) -> bool:
    """Whether every bowl, jug and mould in use can be emptied in some order, once `first` too has been done.

    Counts things, not time: it says nothing of windows and bench hours.
    """
    done: Done | None = frozenset(
        index for index, end in enumerate(day.end) if end is not None or index == first
    )
    while done is not None and (held := _held(day, done)):
        runs = sorted({day.tasks[hold.fill]["run"] for hold in held})
        own = [[index for index in day.open if day.tasks[index]["run"] == run] for run in runs]
        done = next((better for each in [*own, day.open] if (better := _Going(day, each).on(done))), None)
    return done is not None


def _held(day: Day, done: Done) -> list[Holding]:
    return [
        hold for hold in day.holds if hold.empty not in done and (hold.fill in done or hold.fill in day.full)
    ]


def _free(day: Day, done: Done) -> Free:
    free = dict(day.many)
    for hold in _held(day, done):
        free[hold.key] -= hold.many
    return free


class _Going:
    """One batch going on by itself, or all of them."""

    def __init__(self, day: Day, own: list[int]) -> None:
        self.day = day
        self.own = own
        self.fills = {hold.fill for hold in day.holds}
        self.tried: set[Done] = set()

    def on(self, done: Done) -> Done | None:
        """What is done once less of something is held, and more of nothing; None when it cannot come so far."""
        return self._goes_on(done, _free(self.day, done))

    def _goes_on(self, done: Done, before: Free) -> Done | None:
        """Do all that takes nothing up; then try each step that what is in use waits for."""
        done = self._with_the_rest(done)
        free = _free(self.day, done)
        if free != before and all(free[key] >= many for key, many in before.items()):
            return done
        if done in self.tried or len(self.tried) >= _MOST_TRIED:
            return None
        self.tried.add(done)
        awaited = self._awaited(done)
        for index in self.own:
            if index in awaited and self._is_ready(index, done) and self._fits(index, done):
                further = self._goes_on(done | {index}, before)
                if further:
                    return further
        return None

    def _with_the_rest(self, done: Done) -> Done:
        while ready := [
            index for index in self.own if index not in self.fills and self._is_ready(index, done)
        ]:
            done = done.union(ready)
        return done

    def _is_ready(self, index: int, done: Done) -> bool:
        return index not in done and all(need in done for need, _ in self.day.needs[index])

    def _fits(self, index: int, done: Done) -> bool:
        left = _free(self.day, done | {index})
        return all(left[hold.key] >= 0 for hold in self.day.holds if hold.fill == index)

    def _awaited(self, done: Done) -> set[int]:
        """All that must come before what is in use is empty."""
        awaited: set[int] = set()
        stack = [hold.empty for hold in _held(self.day, done)]
        while stack:
            index = stack.pop()
            if index not in awaited and index not in done:
                awaited.add(index)
                stack += [need for need, _ in self.day.needs[index]]
        return awaited
