"""What it costs when gaps are not kept. Ruin is not lateness: minutes over unlike things are never added up.

The first that differs decides: states ruined; the price of bringing back, in ms of the hands; how many
windows of quality are missed; by how much in all, each by its own size.
"""

from bench.shapes.planning import Gap

Price = tuple[int, int, int, int]

NOTHING: Price = (0, 0, 0, 0)
WHOLE = 1000  # a gap overrun by its own size
LEAST_MOST_MS = 60_000  # a gap of less is as easily overrun as one of this


def is_ruin(gap: Gap, over: int) -> bool:
    """Whether a gap overrun by so much is past all ways back."""
    lost = gap.get("lost_ms")
    return bool(gap.get("class") == "ruin" or (lost is not None and over > lost))


def price_of(broken: list[tuple[int, Gap]]) -> Price:
    """The price of [(over_ms, gap)]."""
    ruined = back = missed = share = 0
    for over, gap in broken:
        share += over * WHOLE // max(gap["most_ms"] or 0, LEAST_MOST_MS)
        if is_ruin(gap, over):
            ruined += 1
        elif gap.get("class") == "back":
            back += gap.get("price_ms", 0)
        else:
            missed += 1
    return ruined, back, missed, share
