"""What every kind of step says of itself, and what it is read and laid out by."""

from collections.abc import Callable
from dataclasses import dataclass

from bench.errors import RecipeError
from bench.shapes.kit import Heater
from bench.shapes.recipe import Component, Ingredient, RecipeStep, RecipeWait
from bench.shapes.units import Id, Mg, RecipeKey
from bench.words import say

MOST_ID = 40


def named_after(key: Id, ending: str) -> Id:
    """An id for a step that says a part of another."""
    return key[: MOST_ID - len(ending)] + ending


@dataclass(frozen=True, slots=True)
class Traits:
    """What the core asks of a kind, so that it need not know its name."""

    runs_by_itself: bool = False  # time does it: no hands, and nothing that is hot stays hot through it
    counts_pieces: bool = False  # it ends with so many pieces, and its bowl is empty then
    puts_in: bool = False  # lines go into a vessel
    by_hand: bool = False  # a hand does something; it may be timed, and tip one vessel into another
    heats: bool = False  # lines are melted, a burst at a time
    divides: bool = False  # what is in a vessel becomes portions
    is_judged: bool = False  # a hand or an eye says whether it is right
    ends_by_look: bool = False  # a look that says yes ends it


@dataclass(frozen=True, slots=True)
class Around:
    """What a written step stands among: its place in the document, its part's lines and portions by id, and how
    a mass is read."""

    at: str
    lines: list[Id]
    portions: set[Id]
    mass_mg: Callable[[str, str], Mg]

    def known_lines(self, keys: list[Id], field: str) -> list[Id]:
        """The keys, every one of which is a line of the part."""
        for index, key in enumerate(keys):
            if key not in self.lines:
                could = ", ".join(self.lines)
                why = (
                    say("recipe-no-line", line=key, could=could)
                    if could
                    else say("recipe-no-lines", line=key)
                )
                raise RecipeError(f"{self.at}.{field}.{index}", why)
        return keys


@dataclass(frozen=True, slots=True)
class Beside:
    """What a step that is lowered stands among: its place in the document, and its part's other steps, measured."""

    at: str
    component: Id
    steps: list[RecipeStep]

    def key(self, step: Id) -> RecipeKey:
        return f"{self.component}.{step}"

    def wait(self, key: Id, field: str) -> RecipeWait:
        """The part's wait of that id."""
        waits = {step["id"]: step for step in self.steps if step["kind"] == "wait"}
        if key not in waits:
            could = ", ".join(waits)
            why = say("recipe-no-wait", step=key, could=could) if could else say("recipe-no-waits", step=key)
            raise RecipeError(f"{self.at}.{field}", why)
        return waits[key]


@dataclass(frozen=True, slots=True)
class Batch:
    """One round of one part, for the steps that are laid out in it."""

    component: Component
    prefix: str  # component.round
    count: int  # pieces
    masses: dict[Id, Mg]  # of each chosen line
    ingredients: dict[Id, Ingredient]  # of each chosen line
    heaters: list[Heater]

    def chosen(self, lines: list[Id]) -> list[Id]:
        return [key for key in lines if key in self.ingredients]
