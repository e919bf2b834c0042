"""The rules of the batches of a week as constraints: each place for a batch is used at one of its sizes, or not at all.

Whole units of `units.py` throughout. `joint.py` says for whom the batches are, and what is aimed at.
"""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bench.week.units import InUnits, Size

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Literals = dict[tuple[int, int, int], cp_model.IntVar]

MOST_BACK = 2  # times that one batch is brought back


@dataclass
class Place:
    """A place for a batch. Literals and starts by size and sitting."""

    make: int
    used: "cp_model.IntVar"
    chosen: "list[cp_model.IntVar]"
    starts: "list[cp_model.IntVar]"
    by: "Literals"  # by sitting, size and maker
    end: "cp_model.IntVar"
    gives: "dict[int, cp_model.IntVar]" = field(default_factory=dict)
    gave: "dict[int, cp_model.IntVar]" = field(default_factory=dict)
    takes: "dict[int, cp_model.IntVar]" = field(default_factory=dict)


class Batches:
    """places: how many batches each make may have."""

    def __init__(self, units: InUnits, places: list[int]) -> None:
        from ortools.sat.python import cp_model

        self.units = units
        self.model = cp_model.CpModel()
        self.back: list[tuple[cp_model.IntVar, int]] = []
        self.missed: list[cp_model.IntVar] = []
        self.hands: list[list[cp_model.IntervalVar]] = [[] for _ in units.hours]
        self.held: dict[str, list[tuple[cp_model.IntervalVar, int]]] = {key: [] for key in units.scarce()}
        self.given: dict[tuple[int, int], cp_model.IntVar] = {}
        self.places = [self._place(make) for make, count in enumerate(places) for _ in range(count)]
        self._one_after_another()
        for intervals in self.hands:
            self.model.add_no_overlap(intervals)
        for key, held in self.held.items():
            for begins, ends, many in units.busy[key]:
                held.append((self.model.new_fixed_size_interval_var(begins, ends - begins, ""), many))
            if held:
                self.model.add_cumulative(
                    [each for each, _ in held], [many for _, many in held], units.many[key]
                )

    def _place(self, make: int) -> Place:
        units, model = self.units, self.model
        sizes = units.sizes[make]
        used = model.new_bool_var("")
        chosen = [model.new_bool_var("") for _ in sizes]
        model.add(sum(chosen) == used)
        longest = max(len(size.lasts) for size in sizes)
        starts = [model.new_int_var(0, units.horizon, "") for _ in range(longest)]
        place = Place(make, used, chosen, starts, {}, model.new_int_var(0, units.horizon, ""))
        for number, size in enumerate(sizes):
            self._sittings(place, number, size)
            for held in size.holds:
                self._hold(place, chosen[number], held.key, held.many, held[2:])
            self._between(place, chosen[number], size)
        for start in starts:
            model.add(start == 0).only_enforce_if(~used)
        model.add(place.end == 0).only_enforce_if(~used)
        return place

    def _sittings(self, place: Place, number: int, size: Size) -> None:
        from ortools.sat.python import cp_model

        units, model, chosen = self.units, self.model, place.chosen[number]
        for sitting, lasts in enumerate(size.lasts):
            start = place.starts[sitting]
            those = []
            for maker, hours in enumerate(units.hours):
                spans = [[opens, closes - lasts] for opens, closes in hours if opens <= closes - lasts]
                if not spans:
                    continue
                literal = chosen if units.alone else model.new_bool_var("")
                model.add_linear_expression_in_domain(
                    start, cp_model.Domain.from_intervals(spans)
                ).only_enforce_if(literal)
                self.hands[maker].append(
                    model.new_optional_fixed_size_interval_var(start, lasts, literal, "")
                )
                place.by[sitting, number, maker] = literal
                those.append(literal)
            if not those:
                model.add(chosen == 0)
            elif not units.alone:
                model.add(sum(those) == chosen)
        for start in place.starts[len(size.lasts) :]:
            model.add(start == 0).only_enforce_if(chosen)
        self._ends(place, chosen, size)

    def _ends(self, place: Place, chosen: "cp_model.IntVar", size: Size) -> None:
        """A batch is ready when the last thing that was begun in any of its sittings has ended: then, and not later."""
        model = self.model
        last = len(size.until) - 1
        least = {(gap.one, gap.two): gap.least for gap in size.between}
        could = [
            sitting
            for sitting, until in enumerate(size.until)
            if sitting == last or until > least.get((sitting, last), 0) + size.until[last]
        ]
        decides = [model.new_bool_var("") for _ in could] if len(could) > 1 else [chosen]
        for sitting, literal in zip(could, decides, strict=True):
            end = place.starts[sitting] + size.until[sitting]
            model.add(place.end >= end).only_enforce_if(chosen)
            model.add(place.end <= end).only_enforce_if(literal)
        if len(could) > 1:
            model.add_bool_or(decides).only_enforce_if(chosen)

    def _hold(
        self, place: Place, chosen: "cp_model.IntVar", key: str, many: int, span: tuple[int, int, int, int]
    ) -> None:
        one, begins, two, ends = span
        model = self.model
        if many > self.units.many[key]:
            model.add(chosen == 0)
        elif key not in self.held:
            return
        elif one == two:
            begin = place.starts[one] + begins
            self.held[key].append(
                (model.new_optional_fixed_size_interval_var(begin, ends - begins, chosen, ""), many)
            )
        else:
            length = model.new_int_var(0, self.units.horizon, "")
            interval = model.new_optional_interval_var(
                place.starts[one] + begins, length, place.starts[two] + ends, chosen, ""
            )
            self.held[key].append((interval, many))

    def _between(self, place: Place, chosen: "cp_model.IntVar", size: Size) -> None:
        """What lies between two sittings. What would be ruined is kept; else it is missed, or brought back."""
        model, brought = self.model, []
        for gap in size.between:
            apart = place.starts[gap.two] - place.starts[gap.one]
            model.add(apart >= gap.least).only_enforce_if(chosen)
            if gap.most is None:
                continue
            if gap.name == "ruin":
                model.add(apart <= gap.most).only_enforce_if(chosen)
                continue
            late = model.new_bool_var("")
            model.add_implication(late, chosen)
            model.add(apart <= gap.most).only_enforce_if(chosen, ~late)
            if gap.name == "back":
                self.back.append((late, gap.price))
                brought.append(late)
            else:
                self.missed.append(late)
        if len(brought) > MOST_BACK:
            model.add(sum(brought) <= MOST_BACK)

    def _one_after_another(self) -> None:
        """Places of one recipe are alike: they are filled in order, and end in order."""
        for one, two in zip(self.places, self.places[1:], strict=False):
            if one.make == two.make:
                self.model.add_implication(two.used, one.used)
                self.model.add(one.end <= two.end).only_enforce_if(two.used)
