"""What lists need that Python has no word for."""

from collections.abc import Iterable
from typing import TypeVar

T = TypeVar("T")


def once(items: Iterable[T]) -> list[T]:
    """Each of them once, in the order in which they come first."""
    return list(dict.fromkeys(items, True))
