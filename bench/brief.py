"""Few words beside the number: what a prompt says is cut between sentences, never within one.

What has no room beside the number stands beneath it, in the same order. A caution has a short form
for when it was read before. `frontend/bench/brief.js` cuts at the same places.
"""

import re
from typing import TypedDict

MOST_WORDS = 25  # title, what to do and why, beside the number
MOST_SHORT = 6  # of a caution that was read in full before


class Words(TypedDict):
    """What is said with a prompt's title, before it is cut."""

    title: str
    says: str
    why: str


class Brief(TypedDict):
    says: str
    why: str
    more: str  # what has no room beside the number


def brief(prompt: Words, urgent: bool, first: str = "") -> Brief:
    """The says, why and more of a prompt. Urgent: of why as much is kept as fits beside one sentence.

    first: what stands before what it says, whole, whatever else has room.
    """
    room = MOST_WORDS - _words(prompt["title"]) - _words(first)
    at_least = 0 if first else 1
    least, _ = _up_to(prompt["says"], 0, at_least)
    if urgent:
        why, beneath = _up_to(prompt["why"], room - _words(least), 0)
        says, more = _up_to(prompt["says"], room - _words(why), at_least)
        return {"says": says, "why": why, "more": joined(more, beneath)}
    says, more = _up_to(prompt["says"], room, at_least)
    if more or _words(says) + _words(prompt["why"]) > room:
        return {"says": says, "why": "", "more": joined(more, prompt["why"])}
    return {"says": says, "why": prompt["why"], "more": ""}


def in_short(caution: str) -> str:
    """A caution in at most six words: as many of its first clauses as fit, else its first words."""
    ends = [match.end() for match in re.finditer(r"[.:;,](?= |$)", caution)] or [len(caution)]
    fitting = [caution[:end] for end in ends if _words(caution[:end]) <= MOST_SHORT]
    if fitting:
        return fitting[-1].rstrip(".:;,")
    return " ".join(caution.split(" ")[: MOST_SHORT - 1]) + "…"


def sentence(words: str) -> str:
    """A title or a part of one as a sentence of its own: with a stop at its end."""
    return words if not words or words[-1] in ".!?" else f"{words}."


def joined(*sentences: str) -> str:
    return " ".join(each for each in sentences if each)


def _words(text: str) -> int:
    return len([word for word in text.split(" ") if word])


def _up_to(text: str, room: int, at_least: int) -> tuple[str, str]:
    """The first sentences that fit, at least so many, and the rest."""
    first: list[str] = []
    rest: list[str] = []
    for each in re.split(r"(?<=[.!?]) ", text):
        fits = not rest and _words(joined(*first, each)) <= room
        (first if fits or len(first) < at_least else rest).append(each)
    return " ".join(first), " ".join(rest)
