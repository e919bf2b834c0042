"""Appearance: a piece that could be taken for something to eat."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding
from bench.words import say


def like_food(subject: Subject) -> Iterator[Finding]:
    looks = subject.recipe["looks_like_food"]
    if looks:
        yield finding(
            "like-food",
            "look",
            "looks_like_food",
            say("checks-like-food"),
            why=say("checks-like-food-why"),
            do=say("checks-like-food-do"),
        )
    elif looks is None:
        yield finding(
            "like-food-unknown",
            "know",
            "looks_like_food",
            say("checks-like-food-unknown"),
            why=say("checks-like-food-unknown-why"),
            do=say("checks-like-food-unknown-do"),
        )
