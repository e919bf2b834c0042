"""planning: the best order for one pair of hands, or two, over all parts and runs on a bench.

The reading order is the order in which data flows:

    bench_hours, tasks (what there is to do) -> together (a problem) -> layout (blocks, price), grid
        -> plan (by_rule; aims: solver, rules; as_written, slack; result, reasons), several -> a plan
        -> plan_words (a plan in the reader's language); foresight (what next), what_if

All is pure: instants and durations are whole ms, now is given. OR-Tools is imported only where a
model is solved; without it a plan is the best of the plain rule, with a bound, and says so.

The documents are in `bench/shapes/planning.py`: hours as written, a `Problem` (tasks, gaps, holds), a `Plan`, what
is next (`Advice`). A task's kind is "hands" (holds a maker from start to end), "wait" (goes on by itself, from the
moment the last of its needs ends) or "free" (neither). The first begun hands-on steps, one a maker, are what hands
are on.

A gap: `to` starts at least least_ms after every end of `from`, and at most most_ms after the last of
them; either may be None. A window is a gap with a most: it says how soon a step must begin. The latest of
a wait is a gap from its usual end. Waits are planned at their usual length. Bowls, jugs and moulds are held by
`bench/holding.py`; what is in use beyond what the kit has is held by nobody. Not modelled: how tired hands get.
"""

from bench.planning.bench_hours import stretches
from bench.planning.foresight import if_you_stop, next_step
from bench.planning.plan import order_of, plan, replan
from bench.planning.plan_words import plan_in_words
from bench.planning.several import plan_several
from bench.planning.tasks import of_sheet, tasks_of
from bench.planning.together import make_problem
from bench.planning.what_if import options, time_savings, with_extra_time, with_one_more, with_second_maker

__all__ = [
    "if_you_stop",
    "make_problem",
    "next_step",
    "of_sheet",
    "options",
    "order_of",
    "plan",
    "plan_in_words",
    "plan_several",
    "replan",
    "stretches",
    "tasks_of",
    "time_savings",
    "with_extra_time",
    "with_one_more",
    "with_second_maker",
]
