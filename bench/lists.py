"""What lists and texts need that Python has no word for."""

import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import ParamSpec, TypeVar, cast

P = ParamSpec("P")
T = TypeVar("T")


def kept(make: Callable[P, T]) -> Callable[P, T]:
    """`functools.cache`, with the types of what it is called with, which that leaves open."""
    return cast(Callable[P, T], cache(make))


def once(items: Iterable[T]) -> list[T]:
    """Each of them once, in the order in which they come first."""
    return list(dict.fromkeys(items, True))


def group(found: re.Match[str], name: str | int) -> str:
    """What a group of a match holds; "" where it took no part."""
    return found[name] or ""


def every(pattern: re.Pattern[str], text: str, name: str | int = 0) -> list[str]:
    """What the pattern finds in a text, or one group of each."""
    return [group(found, name) for found in pattern.finditer(text)]
