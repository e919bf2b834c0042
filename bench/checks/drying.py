"""Drying and setting: times that are out of the usual. The lengths are common practice."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject, is_said
from bench.checks.vessels import COLD
from bench.shapes.recipe import Finding
from bench.shapes.units import RecipeKey
from bench.steps import runs_by_itself
from bench.whole import span
from bench.words import say

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
FIZZ_DRIES_MS = 2 * HOUR_MS  # a pressed piece, at the least
LONGEST_MS = 42 * 24 * HOUR_MS  # milled soap dries for six weeks; nothing else of this trade waits so long
LONGEST_OF_FIZZ_MS = 14 * 24 * HOUR_MS  # by then it has drawn damp from the room


def short_drying(subject: Subject) -> Iterator[Finding]:
    """A fizzing piece that is wrapped soon after it was pressed."""
    for pressed in subject.pressed:
        waited = [subject.order.waited_ms(pressed, each) for each in _wrapped_after(subject, pressed)]
        if waited and 0 < max(waited) < FIZZ_DRIES_MS:
            yield finding(
                "short-drying",
                "look",
                _first_wait(subject, pressed),
                say(
                    "checks-short-drying", title=subject.order.steps[pressed]["title"], span=span(max(waited))
                ),
                by=say("checks-short-drying-by", span=span(FIZZ_DRIES_MS)),
                do=say("checks-odd-wait-do"),
            )


def _wrapped_after(subject: Subject, pressed: RecipeKey) -> list[RecipeKey]:
    return [each for each in subject.wraps if subject.order.precedes(pressed, each)]


def _first_wait(subject: Subject, pressed: RecipeKey) -> RecipeKey:
    order = subject.order
    return next((key for key in order.following(pressed) if runs_by_itself(order.steps[key])), pressed)


def dried_cold(subject: Subject) -> Iterator[Finding]:
    """A pressed fizz that dries in a fridge: its air is damp, and the piece draws damp as it warms again."""
    for pressed in subject.pressed:
        for key in subject.order.following(pressed):
            wait = subject.order.steps[key]
            if runs_by_itself(wait) and is_said(COLD, f"{wait['title']}. {wait['says']}"):
                yield finding("dried-cold", "look", key, say("checks-dried-cold", title=wait["title"]))
                break


def long_waits(subject: Subject) -> Iterator[Finding]:
    for key, step in subject.order.steps.items():
        longest = LONGEST_OF_FIZZ_MS if subject.component(key) in subject.fizzing else LONGEST_MS
        if runs_by_itself(step) and step["usual_ms"] > longest:
            yield finding(
                "long-wait",
                "look",
                key,
                say("checks-long-wait", title=step["title"], span=span(step["usual_ms"])),
                by=say("checks-long-wait-by", span=span(longest)),
                do=say("checks-odd-wait-do"),
            )
