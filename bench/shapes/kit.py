"""The kit: what stands on one maker's bench, as written and measured."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.units import Id, Many, Mg, Text, Uoz, Within

# What a vessel is made of.
Material = Literal[
    "aluminium",
    "copper",
    "enamel",
    "glass",
    "other",
    "polypropylene",
    "porcelain",
    "silicone",
    "steel",
    "wood",
]

_Amount = Annotated[str, Text(40)]
_Name = Annotated[str, Text(80)]
_Mass = Annotated[Mg, Within(0, 2**53 - 1)]
_More = Annotated[Mg, Within(1, 2**53 - 1)]
_Cavities = Annotated[int, Within(1, 1000)]
_Sets = Annotated[int, Within(1, 100)]
_Watts = Annotated[int, Within(1, 20_000)]


class WrittenScale(TypedDict):
    id: Id
    name: _Name
    capacity: _Amount
    division: _Amount
    test_weight: NotRequired[_Amount]


class WrittenVessel(TypedDict):
    id: Id
    name: _Name
    kind: Id
    empty: _Amount
    holds: _Amount
    material: NotRequired[Material]


class WrittenMould(TypedDict):
    id: Id
    name: _Name
    shape: Annotated[str, Text(60)]
    cavities: _Cavities
    sets: NotRequired[_Sets]
    cavity: NotRequired[_Amount]


class WrittenHeater(TypedDict):
    id: Id
    name: _Name
    kind: Annotated[str, Text(60)]
    absorbed_w: NotRequired[_Watts]


class WrittenMixer(TypedDict):
    id: Id
    name: _Name


class WrittenKit(TypedDict):
    """What stands on one maker's bench."""

    format: Literal["bowlside-kit/1"]
    scales: Annotated[list[WrittenScale], Many(20)]
    vessels: NotRequired[Annotated[list[WrittenVessel], Many(100)]]
    moulds: NotRequired[Annotated[list[WrittenMould], Many(100)]]
    heaters: NotRequired[Annotated[list[WrittenHeater], Many(20)]]
    mixers: NotRequired[Annotated[list[WrittenMixer], Many(20)]]


class Scale(TypedDict):
    id: Id
    name: str
    capacity_mg: _More  # vessel and contents together
    division_mg: _More
    # of a scale that reads in ounces: exactly; division_mg is the nearest to it
    division_uoz: NotRequired[Annotated[Uoz, Within(1000, 10**9)]]
    test_mg: NotRequired[_More]  # what its test weight weighs; absent: there is none


class Vessel(TypedDict):
    id: Id
    name: str
    kind: str  # bowl, jug, cup …
    empty_mg: _Mass
    holds_mg: _Mass
    material: NotRequired[Material]  # absent: not said


class Mould(TypedDict):
    id: Id
    name: str
    shape: str
    cavities: _Cavities  # in one set
    sets: _Sets
    cavity_mg: _More | None  # what one cavity holds; None: not said, so any piece fits


class Heater(TypedDict):
    id: Id
    name: str
    kind: str
    absorbed_w: _Watts | None  # what reaches the melt; None: not measured, so no bursts are planned


class Mixer(TypedDict):
    id: Id
    name: str


class Kit(TypedDict):
    """The measured kit."""

    format: Literal["bowlside-kit/1"]
    scales: Annotated[list[Scale], Many(20)]
    vessels: Annotated[list[Vessel], Many(100)]
    moulds: Annotated[list[Mould], Many(100)]
    heaters: Annotated[list[Heater], Many(20)]
    mixers: Annotated[list[Mixer], Many(20)]
