"""In which units masses and temperatures are worded: a choice of the reader's, as the language is, and ambient like it.

It holds for what is no reading: a scale is read as it shows (bench/whole.py, `reading`). What is stored stays in mg
and thousandths of a degree Celsius. A choice is written "g-c", "oz-c", "g-f" or "oz-f".
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar, Token
from typing import Literal, NamedTuple


class Units(NamedTuple):
    mass: Literal["g", "oz"] = "g"
    warmth: Literal["c", "f"] = "c"


METRIC = Units()
_ASKED: ContextVar[Units] = ContextVar("units", default=METRIC)
_CHOICES = (METRIC, Units("oz", "c"), Units("g", "f"), Units("oz", "f"))


def units() -> Units:
    """The units that are asked for now."""
    return _ASKED.get()


def units_of(text: str) -> Units:
    """A choice as it is written; grams and degrees Celsius where it is none of ours."""
    mass, _, warmth = text.partition("-")
    return next((each for each in _CHOICES if each == (mass, warmth)), METRIC)


def begin_measuring(asked: Units) -> Token[Units]:
    """For those who cannot use a `with`: from now on, until `end_measuring` is given what this gave."""
    return _ASKED.set(asked)


def end_measuring(token: Token[Units]) -> None:
    _ASKED.reset(token)


@contextmanager
def measuring(asked: Units) -> Iterator[None]:
    token = begin_measuring(asked)
    try:
        yield
    finally:
        end_measuring(token)
