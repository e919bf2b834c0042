"""planning: the best order for one pair of hands, or two, over all parts and runs on a bench.

The reading order is the order in which data flows:

    day (bench hours), tasks (what there is to do) -> together (a problem)
        -> plan (layout, grid, solver, as_written, slack, reasons; several) -> a plan -> foresight (what next), shopping

All is pure: instants and durations are whole ms, now is given. OR-Tools is imported only where a
model is solved; without it a plan is the best of the plain rule, with a bound, and says so.

A problem, what `make_problem` puts together:

    since      the first instant to plan from
    ready_by   all ends by then, or None
    zone       the place whose clock the reasons speak in; may be left out
    names      {run: what its batch is called}, said with each step where there are several; may be left out
    makers     [{"name", "hours": [[opens, closes], ...]}], in order and apart
    equipment  {id: {"name", "many"}}; moulds are counted in cavities
    tasks      [{"id", "run", "component", "letter", "round", "title", "kind", "takes_ms", "takes_from",
               "uses": {equipment id: how many}, "status", "began_at", "ended_at", "left_ms"}]
    gaps       [{"from": [ids], "to": id, "least_ms", "most_ms", "why", "stake", "class", "price_ms", "lost_ms"}]
    holds      [{"equipment", "many", "from", "until"}]: from the start of one step to the end of another

A task's kind is "hands" (holds a maker from start to end), "wait" (goes on by itself, from the moment
the last of its needs ends) or "free" (neither). An id is the step's, after "run/" when a run has a name.
takes_from: "recipe", "planned bursts", "common practice" or "your own runs". status: "open", "begun" or
"done". left_ms is what is still to do of a begun step counted from began_at, or from now when that is
None; for an open one it is takes_ms. The first begun hands-on steps, one a maker, are what hands are on.

A gap: `to` starts at least least_ms after every end of `from`, and at most most_ms after the last of
them; either may be None. A window is a gap with a most: it says how soon a step must begin. The latest of
a wait is a gap from its usual end. Waits are planned at their usual length. Not modelled: bowls and
jugs (the sheet warns where two parts need one), and how tired hands get.

A plan, what `plan` and `replan` give:

    status     "proven" (no better first aim exists), "found" (best so far), "impossible", or "unknown"
               (nothing that keeps every rule was found, and no proof that there is none)
    by         "solver" or "rule"
    aim, since, ready_by, cancelled
    bound_at   nothing finishes before this, whatever the order
    aims       [{"aim", "value", "bound", "proven"}] in their order: finish or start (instants), sessions
               (how many), span (ms), changes (how many); where not all gaps can be kept unkept (states ruined,
               then bringing back, then quality missed, as one number) and share (by how much) come first;
               moved (how many) for a plan made again
    stays      whether hands stay on each state that does not keep until it ends, with room for slow hands
    begins_at, finish_at
    steps      every task in order of start: {"id", "run", "component", "letter", "round", "title", "kind",
               "status", "starts_at", "ends_at", "maker" (its place in makers), "session" (its place in
               sessions), "slack_ms" (how far it can slip, order and sessions kept, with nothing later at
               the end; None when only the rule made the plan), "critical" (slack 0),
               "why": {"kind", "steps", "says"}}
    sessions   [{"maker", "opens_at", "closes_at", "begins_at", "ends_at", "hands_ms", "steps": [ids]}]
    broken     the gaps not kept, each with "over_ms"; only while live, or with status "unknown"
    due        only from `plan_several`: [{"run", "ready_by", "begins_at", "why"}], the latest start, or why not
    reasons    why it is impossible: [{"kind", "steps", "gaps", "says", "change": [{"what", "ms", ...}]}]
"""

from bench.planning.day import stretches
from bench.planning.foresight import if_you_stop, next_step
from bench.planning.plan import order_of, plan, replan
from bench.planning.several import plan_several
from bench.planning.shopping import offers, what_saves, with_extra_time, with_one_more, with_second_maker
from bench.planning.tasks import tasks_of
from bench.planning.together import make_problem

__all__ = [
    "if_you_stop",
    "make_problem",
    "next_step",
    "offers",
    "order_of",
    "plan",
    "plan_several",
    "replan",
    "stretches",
    "tasks_of",
    "what_saves",
    "with_extra_time",
    "with_one_more",
    "with_second_maker",
]
