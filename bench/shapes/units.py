"""The units that documents are measured in, and JSON values of which nothing more is known.

An alias says the unit and the range; where `None` is allowed beside one, the field's comment says what it means.
"""

from dataclasses import dataclass
from typing import Annotated, TypeAlias


@dataclass(frozen=True, slots=True)
class Text:
    """Of a text as people send it: how many characters it has at the most, and at the least."""

    most: int
    least: int = 1


@dataclass(frozen=True, slots=True)
class Many:
    """Of a list, or of an object by id, as people send it: how many there are at the most, and at the least."""

    most: int
    least: int = 0


@dataclass(frozen=True, slots=True)
class Within:
    """Of a whole number as people send it: the least and the greatest it may be."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Pattern:
    """Of a text as people send it: what all of it must match."""

    regex: str


Mg = Annotated[int, "whole milligrams"]
Ug = Annotated[int, "whole micrograms"]
Uoz = Annotated[int, "whole millionths of an avoirdupois ounce"]
Nl = Annotated[int, "whole nanolitres"]
Ppm = Annotated[int, "millionths of a whole, 0 to 1 000 000"]
Ms = Annotated[int, "whole milliseconds, 0 or more"]
InstantMs = Annotated[int, "whole milliseconds since 1970-01-01 UTC"]
MilliK = Annotated[int, "whole thousandths of a degree Celsius"]
Thousandths = Annotated[int, "thousandths of a piece or a drop"]

# Python's "$" would let one line break through at the end; "(?!\n)" closes that door.
Id = Annotated[str, "an id of the maker's own", Pattern(r"^[a-z][a-z0-9_]{0,39}$(?!\n)")]
WrittenRef = Annotated[
    str, "a step's id, or component.step", Pattern(r"^[a-z][a-z0-9_]{0,39}(\.[a-z][a-z0-9_]{0,39})?$(?!\n)")
]
WrittenAmount = Annotated[str, "an amount as people write it", Text(60)]
Says = Annotated[str, "words of the maker's own", Text(1000, 0)]
# Ids that say where a thing belongs.
RecipeKey = Annotated[str, "component.step or component.line of a recipe"]
StepKey = Annotated[str, "component.round.step of a sheet"]
LineKey = Annotated[str, "component.round.line of a sheet"]
VesselKey = Annotated[str, "component.round.label of a sheet"]

JsonValue: TypeAlias = "None | bool | int | float | str | list[JsonValue] | dict[str, JsonValue]"
JsonObject: TypeAlias = dict[str, "JsonValue"]
