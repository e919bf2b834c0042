"""The published JSON Schema (draft 2020-12) of a recipe as written, `bowlside-recipe/1`."""

from typing import Any

from bench.cautions import HAZARDS

RECIPE_FORMAT = "bowlside-recipe/1"

Json = Any  # until its shape is named


def closed(required: list[str], properties: Json) -> Json:
    """An object with these properties and no others: a misspelt field is a fault, not silence."""
    return {"type": "object", "required": required, "properties": properties, "additionalProperties": False}


def text(most: int, least: int = 1) -> Json:
    return {"type": "string", "minLength": least, "maxLength": most}


# Python's "$" would let one line break through at the end; "(?!\n)" closes that door.
ID: Json = {"type": "string", "pattern": r"^[a-z][a-z0-9_]{0,39}$(?!\n)"}
STEP_REF: Json = {"type": "string", "pattern": r"^[a-z][a-z0-9_]{0,39}(\.[a-z][a-z0-9_]{0,39})?$(?!\n)"}
AMOUNT: Json = text(60)
SAYS: Json = text(1000, 0)
COUNT: Json = {"type": "integer", "minimum": 1, "maximum": 100}


def listed(items: Json, most: int, least: int = 0) -> Json:
    # How many there are is asked before what they are: one that is too long is not read through.
    return {"type": "array", "maxItems": most, "minItems": least, "items": items}


HAZARD_LIST = listed({"enum": sorted(HAZARDS)}, 8)

# What a step does, in the trade's verbs: for the recipe check, and to know when a mould comes free.
DOES = (
    "grind",
    "sift",
    "mix",
    "wipe",
    "whip",
    "colour",
    "spray",
    "press",
    "pour",
    "pipe",
    "unmould",
    "join",
    "sprinkle",
    "wrap",
    "label",
)

_COMMON: Json = {
    "id": ID,
    "title": text(120),
    "says": SAYS,
    "reason": SAYS,
    "after": listed(STEP_REF, 40),
    "optional": {"type": "boolean"},
    "does": {"enum": list(DOES)},
    "hazards": HAZARD_LIST,
    "caution": text(400),
    "ways": listed(
        closed(["id", "name"], {"id": ID, "name": text(80), "says": SAYS, "hazards": HAZARD_LIST}), 6, 1
    ),
    "window": closed(
        ["latest", "stake"],
        {"from": STEP_REF, "latest": AMOUNT, "stake": text(300), "rescue": text(300)},
    ),
    "hands": AMOUNT,
    "tools": listed(text(60), 20),
}

_DO_THIS = closed(["do"], {"do": text(400)})
_TOO_FAR = closed(["do"], {"do": text(400), "wait": AMOUNT})

# One table a kind: what it must say, and what it may.
STEP_KINDS: dict[str, tuple[list[str], Json]] = {
    "weigh": (["lines"], {"lines": listed(ID, 100, 1), "into": ID}),
    "do": ([], {"about": AMOUNT, "of": listed(ID, 20, 1), "tips": listed(ID, 8, 1), "into": ID}),
    "melt": (
        ["of", "heater", "burst", "look_for"],
        {
            "of": listed(ID, 20, 1),
            "heater": text(60),
            "burst": AMOUNT,
            "last_burst": AMOUNT,
            "rest": AMOUNT,
            "from_c": AMOUNT,
            "to_c": AMOUNT,
            "look_for": text(300),
        },
    ),
    "split": (
        ["portions"],
        {
            "from": ID,
            "portions": listed(
                closed(
                    ["id", "name"],
                    {
                        "id": ID,
                        "name": text(80),
                        "share": {"type": "integer", "minimum": 1, "maximum": 1000},
                        "mass": AMOUNT,
                    },
                ),
                8,
                2,
            ),
        },
    ),
    "check": (
        ["ask", "not_yet"],
        {"ask": text(300), "yes": text(60), "not_yet": _DO_THIS, "too_far": _TOO_FAR},
    ),
    "pieces": (
        [],
        {
            "one_by_one": {"type": "boolean"},
            "again": text(300),
            "of": listed(ID, 8, 1),
            "partial": {"type": "boolean"},
            "verb": text(40),
        },
    ),
    "wait": (
        ["word", "earliest", "usual"],
        {
            "word": text(20),
            "earliest": AMOUNT,
            "usual": AMOUNT,
            "latest": AMOUNT,
            "test": text(300),
            "stake": text(300),
            "rescue": text(300),
        },
    ),
}

STEP: Json = {
    "type": "object",
    "required": ["id", "kind", "title"],
    "properties": {"kind": {"enum": list(STEP_KINDS)}},
    "allOf": [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": closed(["id", "kind", "title", *required], {"kind": {"const": kind}, **_COMMON, **own}),
        }
        for kind, (required, own) in STEP_KINDS.items()
    ],
}

LINE: Json = closed(
    ["id", "ingredient", "amount"],
    {
        "id": ID,
        "ingredient": ID,
        "amount": AMOUNT,
        "tolerance": AMOUNT,
        "optional": {"type": "boolean"},
        "note": SAYS,
        "substitutes": listed(
            closed(
                ["ingredient"],
                {"ingredient": ID, "amount": AMOUNT, "says": SAYS, "changes_method": {"type": "boolean"}},
            ),
            8,
        ),
    },
)

# What an ingredient is, in the trade's words: what the recipe check goes by.
INGREDIENT_KINDS = (
    "alcohol",
    "bicarbonate",
    "botanical",
    "butter",
    "citric_acid",
    "dye",
    "fragrance",
    "lake",
    "mica",
    "oil",
    "other",
    "pigment",
    "powder",
    "salt",
    "soap_base",
    "solubiliser",
    "surfactant",
    "water",
    "whipping_base",
)

INGREDIENT: Json = closed(
    ["name"],
    {
        "name": text(200),
        "note": SAYS,
        "inci": text(200),
        "kind": {"enum": list(INGREDIENT_KINDS)},
        "form": {"enum": ["anhydrous", "monohydrate"]},
        "density": closed(
            ["g_per_ml", "source"],
            {"g_per_ml": text(20), "tapped_g_per_ml": text(20), "source": text(200)},
        ),
        "fragrance": closed(
            [],
            {
                "limit": text(20),
                "category": text(20),
                "allergens": listed(closed(["name", "share"], {"name": text(120), "share": text(20)}), 100),
            },
        ),
        "most_c": text(20),
        "active": text(20),
        "heat": closed(
            ["solid_j_per_kg_k", "liquid_j_per_kg_k", "latent_j_per_kg", "melts_c", "source"],
            {
                "solid_j_per_kg_k": {"type": "integer", "minimum": 100, "maximum": 10_000},
                "liquid_j_per_kg_k": {"type": "integer", "minimum": 100, "maximum": 10_000},
                "latent_j_per_kg": {"type": "integer", "minimum": 0, "maximum": 1_000_000},
                "melts_c": text(20),
                "source": text(200),
            },
        ),
        "hazards": HAZARD_LIST,
    },
)

RECIPE_SCHEMA: Json = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Bowlside recipe",
    "description": "A recipe as its maker wrote it: components made apart, and the assembly that joins them.",
    **closed(
        ["format", "title", "written_for", "ingredients", "components"],
        {
            "format": {"const": RECIPE_FORMAT},
            "title": text(200),
            "summary": text(2000, 0),
            "measures": {"enum": ["us", "imperial", "metric"]},
            "written_for": {"type": "integer", "minimum": 1, "maximum": 1000},
            "piece": closed(["one", "many"], {"one": text(40), "many": text(40)}),
            "stays_on": {"type": "boolean"},
            "looks_like_food": {"type": "boolean"},
            "ingredients": {
                "type": "object",
                "maxProperties": 400,
                "minProperties": 1,
                "propertyNames": ID,
                "additionalProperties": INGREDIENT,
            },
            "components": listed(
                closed(
                    ["id", "name", "steps"],
                    {
                        "id": ID,
                        "name": text(120),
                        "piece": AMOUNT,
                        "spares": {"type": "integer", "minimum": 0, "maximum": 100},
                        "stays_behind": AMOUNT,
                        "loss": AMOUNT,
                        "part": AMOUNT,
                        "vessel": ID,
                        "mould": closed(["shape", "held"], {"shape": text(60), "held": {"type": "boolean"}}),
                        "lines": listed(LINE, 400),
                        "steps": listed(STEP, 200, 1),
                    },
                ),
                12,
                1,
            ),
            "assembly": closed(
                ["takes", "steps"],
                {
                    "name": text(120),
                    "takes": listed(closed(["component"], {"component": ID, "count": COUNT}), 12, 1),
                    "lines": listed(LINE, 100),
                    "steps": listed(STEP, 200),
                },
            ),
        },
    ),
}
