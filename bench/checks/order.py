"""What comes before what in a recipe: its steps and needs as a graph, asked by the rules.

Sets of steps are bits of one whole number each, so that a recipe of two thousand steps is
still asked in a moment.
"""

from collections.abc import Callable, Iterator
from graphlib import TopologicalSorter

from bench.shapes.recipe import MeasuredRecipe, RecipeStep
from bench.steps import runs_by_itself


class Order:
    """steps: every step by "component.step", each after all its needs."""

    def __init__(self, recipe: MeasuredRecipe) -> None:
        steps = {
            f"{component['id']}.{step['id']}": step
            for component in recipe["components"]
            for step in component["steps"]
        }
        keys = list(TopologicalSorter({key: step["after"] for key, step in steps.items()}).static_order())
        self.steps: dict[str, RecipeStep] = {key: steps[key] for key in keys}
        self._keys = keys
        self._bit = {key: 1 << place for place, key in enumerate(keys)}
        self._before: dict[str, int] = {}
        for key, step in self.steps.items():
            self._before[key] = 0
            for need in step["after"]:
                self._before[key] |= self._before[need] | self._bit[need]
        self._after = dict.fromkeys(keys, 0)
        for key in reversed(keys):
            for need in self.steps[key]["after"]:
                self._after[need] |= self._after[key] | self._bit[key]

    def precedes(self, one: str, other: str) -> bool:
        """Whether the needs say that the one is done before the other begins."""
        return bool(self._before[other] & self._bit[one])

    def between(self, one: str, other: str) -> list[str]:
        """What must be done after the one and before the other, in order."""
        return self._named(self._after[one] & self._before[other])

    def preceding(self, key: str) -> list[str]:
        """What must be done before this begins, in order."""
        return self._named(self._before[key])

    def following(self, key: str) -> list[str]:
        """What can only begin once this is done, in order."""
        return self._named(self._after[key])

    def of(self, *, does: str) -> Iterator[tuple[str, RecipeStep]]:
        """The steps that do a thing."""
        for key, step in self.steps.items():
            if step["does"] == does:
                yield key, step

    def waited_ms(self, one: str, other: str) -> int:
        """How long the waits between the one and the other usually last, all of them together."""
        between = (self.steps[key] for key in self.between(one, other))
        return sum(step["usual_ms"] for step in between if runs_by_itself(step))

    def longest_ms(self, one: str, other: str, takes_ms: Callable[[RecipeStep], int]) -> int:
        """The longest run of needs from the end of the one to the end of the other; 0 without one."""
        run = {one: 0}
        for key in [*self.between(one, other), other]:
            reached = [run[need] for need in self.steps[key]["after"] if need in run]
            if reached:
                run[key] = max(reached) + takes_ms(self.steps[key])
        return run.get(other, 0)

    def _named(self, bits: int) -> list[str]:
        named = []
        while bits:
            low = bits & -bits
            named.append(self._keys[low.bit_length() - 1])
            bits ^= low
        return named
