"""The units that documents are measured in, and JSON values of which nothing more is known.

An alias says the unit and the range; where `None` is allowed beside one, the field's comment says what it means.
"""

from typing import Annotated, TypeAlias

Mg = Annotated[int, "whole milligrams"]
Ug = Annotated[int, "whole micrograms"]
Nl = Annotated[int, "whole nanolitres"]
Ppm = Annotated[int, "millionths of a whole, 0 to 1 000 000"]
Ms = Annotated[int, "whole milliseconds, 0 or more"]
InstantMs = Annotated[int, "whole milliseconds since 1970-01-01 UTC"]
MilliK = Annotated[int, "whole thousandths of a degree Celsius"]
Thousandths = Annotated[int, "thousandths of a piece or a drop"]

JsonValue: TypeAlias = "None | bool | int | float | str | list[JsonValue] | dict[str, JsonValue]"
