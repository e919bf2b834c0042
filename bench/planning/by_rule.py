"""A plan without a solver: the best of a few layouts, by the plain rule."""

from bench.planning.layout import Day, Layout
from bench.planning.price import Price

STEADY_MS = 10 * 60_000  # a day is not reshuffled for less than this
_ATTEMPTS = 14  # to find the latest start of a day laid out by the rule, by halving


def keeps_all(layout: Layout) -> bool:
    ready_by = layout.day.problem.get("ready_by")
    return layout.placed and not layout.broken and (ready_by is None or layout.finish <= ready_by)


def best_layout(day: Day, before: list[str] | None, planned: dict[int, int]) -> Layout | None:
    """before: the order of the plan that was followed, planned: when it would begin each open step. It is kept
    where another is not much sooner. None when no order fits the hours."""
    orders: list[list[str]] = [[], day.latest_finish_first()]  # as written, when that is as good
    if before is not None:
        orders.insert(0, before)
    made = [Layout(day, day.by_need(order)) for order in orders]
    if before is not None:
        made.insert(0, Layout(day, made[0].order, not_before=planned))
    placed = [layout for layout in made if layout.placed]
    if not placed:
        return None
    if before is not None and keeps_all(made[0]):
        soonest = min(layout.finish for layout in placed if not layout.broken)
        if made[0].finish <= soonest + STEADY_MS:
            return made[0]
    return min(placed, key=_cost)


def _cost(layout: Layout) -> tuple[Price, int]:
    return layout.price, layout.finish


def as_late(layout: Layout, ready_by: int) -> Layout | None:
    """The layout begun as late as its finish still keeps the ready-by; None when it never does."""
    if layout.finish > ready_by:
        return None
    day = layout.day
    low, high = day.now, ready_by
    for _ in range(_ATTEMPTS):
        middle = (low + high) // 2
        not_before = {index: middle for index in day.open if day.hands[index]}
        later = Layout(day, layout.order, not_before=not_before)
        if later.placed and later.finish <= ready_by and later.price <= layout.price:
            low, layout = middle, later
        else:
            high = middle
    return layout
