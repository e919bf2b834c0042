"""The register of figures: what each is called, how to take it, and what it must reach."""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import dataclass

COMPARE = {">=": operator.ge, "<=": operator.le}


@dataclass(frozen=True)
class Figure:
    name: str
    must: str
    take: Callable[[], float]

    def holds(self, value: float) -> bool:
        sign, limit = self.must.split()[:2]
        return bool(COMPARE[sign](value, float(limit)))


FIGURES: list[Figure] = []


def figure(name: str, must: str) -> Callable[[Callable[[], float]], Callable[[], float]]:
    """Register a function that takes a figure. `must` is a sign, a number and perhaps a unit: "<= 100 ms"."""

    def register(take: Callable[[], float]) -> Callable[[], float]:
        FIGURES.append(Figure(name, must, take))
        return take

    return register
