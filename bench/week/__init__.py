"""week: from what is wanted by when to batches of a size, each with its time and its maker.

The reading order is the order in which data flows:

    order (what is promised, and what is left to make), menu (a recipe at each size; sittings, spoilage), ahead, shelf -> a week (shapes/week.py) -> units
        -> in_turn (bench_time, lots) -> bound (lot_sizing), joint -> aim_by_aim (measure, keeping) -> loosen, week_words

All is pure: instants and durations are whole ms, now is given. OR-Tools is imported where something is solved; without
it the plan is that of the plain rule, and says so. A proof holds for the sizes on the menu, for sittings that are
worked whole, and for as many batches as `within` says.
"""

from bench.week.ahead import part_asked, parts_of, piece_mg, users_first
from bench.week.aim_by_aim import check_week, plan_week
from bench.week.bench_time import without
from bench.week.keeping import faults
from bench.week.loosen import with_helps
from bench.week.menu import KnownSizes, Wanted, make_of
from bench.week.on_bench import hands_of, kit_of
from bench.week.order import ToMake, begun_for, order_lines, promised, to_make
from bench.week.shelf import OnCard, with_lots
from bench.week.spoilage import good_of, spoilage_of
from bench.week.units import COUNTED
from bench.week.week_words import week_in_a_line

__all__ = [
    "COUNTED",
    "KnownSizes",
    "OnCard",
    "ToMake",
    "begun_for",
    "good_of",
    "hands_of",
    "kit_of",
    "order_lines",
    "promised",
    "to_make",
    "without",
    "Wanted",
    "check_week",
    "faults",
    "make_of",
    "part_asked",
    "parts_of",
    "piece_mg",
    "plan_week",
    "spoilage_of",
    "users_first",
    "week_in_a_line",
    "with_helps",
    "with_lots",
]
