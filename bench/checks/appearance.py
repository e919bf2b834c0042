"""Appearance: a piece that could be taken for something to eat."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding

_RULE = "Regulation (EU) 2023/988 Art. 6(1)(f) (second-hand)"


def like_food(subject: Subject) -> Iterator[Finding]:
    looks = subject.recipe["looks_like_food"]
    if looks:
        yield finding(
            "look",
            "looks_like_food",
            "The piece could be taken for something to eat.",
            why="Its look is a risk to weigh before it is sold, above all where there are children.",
            do="Change the look or the wrap, say on the label that it is not food, and write down what you decided.",
            source=_RULE,
        )
    elif looks is None:
        yield finding(
            "know",
            "looks_like_food",
            "Could the piece be taken for something to eat? The recipe does not say.",
            why="A bath piece that looks like a cake or a sweet is a risk to weigh before it is sold.",
            do="Say yes or no in the recipe.",
            source=_RULE,
        )
