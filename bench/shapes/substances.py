"""What is known of a substance: a row of bench/substances/table.json. Shares are written as in a recipe, "8.57 %"."""

from typing import Literal, NotRequired, TypedDict

from bench.shapes.recipe import AcidForm, Hazard, IngredientKind

Trait = Literal[
    "lye",
    "frees_chlorine",  # with an acid
    "strong_alkali",
    "draws_water",  # from the air
    "feeds_microbes",
    "allergen_food",
    "foams",
    "scents",
    "borate",
    "airways",  # its vapour can take a small child's breath
    "stains",
    "food_colour",
    "microplastic",
    "candle_colour",
    "acid_frees_sulfide",
    "frees_peroxide",  # in water
    "frees_formaldehyde",  # so it preserves
    "gives_gas",  # by itself, at room temperature
    "strong_acid",
    "sets_in_forms",  # crystals that melt apart: grains and bloom come of slow cooling
    "needs_acid",  # it keeps a piece only below about pH 6
]


class UsColour(TypedDict):
    """How 21 CFR lists it. use "none": for cosmetics it is not listed."""

    section: str
    use: Literal["general", "external", "none"]
    eye: bool
    certified: bool  # each batch of it, by FDA


# What Annex IV keeps a colour from. Of a colour without it nothing is known to be kept back.
EuColour = Literal["no_eyes", "no_mucosa", "rinse_off"]


class Substance(TypedDict):
    id: str
    inci: NotRequired[str]
    us: NotRequired[str]  # the English name of a United States label, where it is not the INCI name
    cas: NotRequired[list[str]]
    names: dict[str, list[str]]  # as the trade calls it, by language
    kind: IngredientKind
    form: NotRequired[AcidForm]
    molar_mass: NotRequired[str]  # g/mol
    acid_protons: NotRequired[int]  # that free the gas of a carbonate
    carbonate_equivalents: NotRequired[int]  # protons that a mole takes up to its last bubble
    carbon_dioxide: NotRequired[int]  # moles that a mole holds
    crystal_water: NotRequired[str]
    loses_water_c: NotRequired[str]
    warms_to_c: NotRequired[str]  # above it gives off its gas
    water: NotRequired[str]  # by mass, as sold
    density: NotRequired[list[str]]  # g/ml, from and to
    melts_c: NotRequired[list[str]]  # from and to
    flash_c: NotRequired[str]
    hazards: NotRequired[list[str]]  # hazard statements of its classification
    cautions: NotRequired[list[Hazard]]  # at the bench, as it is bought
    ci: NotRequired[list[str]]  # Colour Index numbers
    us_colour: NotRequired[UsColour]
    eu_colour: NotRequired[EuColour]
    holds: NotRequired[list[str]]
    not_to_be_taken_for: NotRequired[list[str]]
    traits: NotRequired[list[Trait]]
    by: NotRequired[
        dict[str, str]
    ]  # where each figure and trait is from: field -> key of the catalogue's sources
