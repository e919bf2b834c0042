"""The tables that the page reads too: no second copy is kept, the server writes them in where it sends the page."""

from bench.cautions import HAZARDS
from bench.former_words import CODES
from bench.kinds import RUN_KINDS, SHELF_KINDS, EntryKind, traits_of
from bench.shapes.recipe import Does, IngredientKind
from bench.shapes.schema import form_of
from bench.states import STATES


def page_tables() -> dict[str, dict[str, object]]:
    """By module of the page, and by the name that a table has there."""
    return {
        "bench/cautions.js": {"HAZARDS": HAZARDS},
        "bench/former-words.js": {"CODES": CODES},
        "bench/kinds.js": {
            "RUN_KINDS": {kind: _kind(row) for kind, row in RUN_KINDS.items()},
            "SHELF_KINDS": {kind: _kind(row) for kind, row in SHELF_KINDS.items()},
        },
        "bench/states.js": {
            "STATES": [*STATES],
            "DAMP": {state: about.damp for state, about in STATES.items() if about.damp},
        },
        "parts/recipe-forms.js": {
            "DOES_CODES": form_of(Does).parts,
            "KIND_CODES": form_of(IngredientKind).parts,
            "HAZARD_CODES": sorted(HAZARDS),
        },
    }


def _kind(row: EntryKind) -> object:
    """A field that may be left out has a question mark behind its name."""
    fields = {name if needed else f"{name}?": fits for name, (fits, needed) in row.fields.items()}
    return {"fields": fields, "traits": traits_of(row)}
