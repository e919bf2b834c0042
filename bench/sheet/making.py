"""Making a sheet: part by part, round by round; then what comes after what."""

from bench import steps
from bench.cautions import by_code
from bench.errors import SizeError
from bench.shapes.kit import Kit
from bench.shapes.recipe import Component, MeasuredRecipe, RecipeStep, RecipeWeigh
from bench.shapes.sheet import (
    RecipeRef,
    RoundsReason,
    Sheet,
    SheetComponent,
    SheetIngredient,
    SheetLine,
    SheetVessel,
    Size,
    Step,
    StepHead,
)
from bench.shapes.units import Id
from bench.sheet.chosen import ChosenLine, check_choices, chosen_lines
from bench.sheet.follow import add_follows, add_holds, add_tails, drop_empty
from bench.sheet.lines import Lines
from bench.sheet.links import leader_of, link
from bench.sheet.parts import Part, Warnings
from bench.sheet.places import Places
from bench.sizing import rounds
from bench.states import ASSEMBLY
from bench.steps import puts_in
from bench.steps.kind import Batch
from bench.whole import share_out
from bench.words import say
from bench.yields import MOST_PIECES

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def make_sheet(recipe: MeasuredRecipe, ref: RecipeRef, size: Size, kit: Kit) -> Sheet:
    """The sheet of a measured recipe at a size for a measured kit.

    SizeError or KitError names the field at fault and the way out.
    """
    pieces = size["pieces"]
    if not 1 <= pieces <= MOST_PIECES:
        raise SizeError("pieces", say("sizes-out-of-range", most=MOST_PIECES, count=pieces))
    made = _Making(recipe, size, kit)
    sheet: Sheet = {
        "format": "bowlside-sheet/2",
        "recipe": {"id": ref["id"], "version": ref["version"], "title": recipe["title"]},
        "size": {
            "pieces": pieces,
            "without": sorted(size["without"]),
            "swaps": size["swaps"],
            "weigh": size["weigh"],
        },
        "written_for": recipe["written_for"],
        "piece": recipe["piece"],
        "kit": kit,
        "components": made.about,
        "ingredients": _totals(recipe, made.lines),
        "lines": made.lines,
        "vessels": made.vessels,
        "steps": made.steps,
        "warnings": made.warnings.said,
    }
    if "good_piece" in recipe:
        sheet["good_piece"] = recipe["good_piece"]
    if "before" in recipe:
        sheet["before"] = recipe["before"]
    if "asks_air" in recipe:
        sheet["asks_air"] = recipe["asks_air"]
    return sheet


class _Making:
    """The one pass over the parts of a recipe."""

    def __init__(self, recipe: MeasuredRecipe, size: Size, kit: Kit) -> None:
        self.recipe, self.size, self.kit = recipe, size, kit
        self.about: list[SheetComponent] = []
        self.lines: list[SheetLine] = []
        self.vessels: list[SheetVessel] = []
        self.steps: list[Step] = []
        self.warnings = Warnings()
        components = [each for each in recipe["components"] if each["steps"] or each["lines"]]
        check_choices(components, size)
        chosen = {each["id"]: chosen_lines(recipe, each, size) for each in components}
        self.leader = leader_of(components)
        self.counts: dict[Id, tuple[list[int], list[RoundsReason]]] = {}
        for component in components:
            self.counts[component["id"]] = self._counts(component, components)
        self.places = Places(kit, components, self.warnings)
        self.laid = Lines(recipe, kit, self.warnings)
        for letter, component in zip(LETTERS, components, strict=False):
            self._part(letter, component, chosen[component["id"]])
        number_of = {key: len(per_round) for key, (per_round, _) in self.counts.items()}
        link(self.steps, components, number_of, self.leader)
        add_follows(self.steps, {component["id"]: component["takes"] for component in components})
        drop_empty(self.steps)
        add_tails(self.steps)
        add_holds(self.steps)

    def _counts(
        self, component: Component, components: list[Component]
    ) -> tuple[list[int], list[RoundsReason]]:
        """Pieces per round and the reasons; the assembly follows the rounds of the part whose window it keeps."""
        pieces = self.size["pieces"]
        if component["id"] == ASSEMBLY:
            led = self.counts[self.leader.component][0] if self.leader else []
            if not self.leader or len(led) < 2:
                return [pieces], []
            per_round = share_out(pieces, led)
            name = next(each["name"] for each in components if each["id"] == self.leader.component)
            return per_round, [{"kind": "at_once", "name": name, "rounds": len(per_round)}]
        mould = component["mould"]
        if mould and not any(each["shape"] == mould["shape"] for each in self.kit["moulds"]):
            self.warnings.add({"where": component["id"], "kind": "no_mould", "shape": mould["shape"]})
        return rounds(component, self.kit, pieces * component["takes"] + component["spares"])

    def _part(self, letter: str, component: Component, chosen: list[ChosenLine]) -> None:
        per_round, why = self.counts[component["id"]]
        parts = [
            Part(self.recipe, component, number, count, chosen) for number, count in enumerate(per_round, 1)
        ]
        self.about.append(
            {
                "id": component["id"],
                "letter": letter,
                "name": component["name"],
                "takes": component["takes"],
                "mould": component["mould"],
                "count": sum(per_round),
                "spares": component["spares"],
                "piece_mg": component["piece_mg"],
                "stays_behind_mg": component["stays_behind_mg"],
                "loss_ppm": component["loss_ppm"],
                "make_mg": sum(part.mg for part in parts),
                "rounds": [{"round": part.number, "count": part.count, "make_mg": part.mg} for part in parts],
                "why": why,
            }
        )
        weighed_in = {key: step for step in component["steps"] if puts_in(step) for key in step["lines"]}
        for part in parts:
            self._round(part, weighed_in)

    def _round(self, part: Part, weighed_in: dict[Id, RecipeWeigh]) -> None:
        places = self.places.of_round(part, weighed_in)
        self.vessels += places.values()
        self.lines += self.laid.of_round(part, weighed_in, places)
        known = self.recipe["ingredients"]
        batch = Batch(
            component=part.component,
            prefix=part.prefix,
            count=part.count,
            masses=part.masses,
            ingredients={each.line["id"]: known[each.line["ingredient"]] for each in part.lines},
            heaters=self.kit["heaters"],
        )
        self.steps += [steps.lay_out(step, _head(step, part), batch) for step in part.component["steps"]]


def _head(step: RecipeStep, part: Part) -> StepHead:
    """What all kinds share. `after` and what follows from it is filled in once every round is laid out."""
    told = by_code(step)
    return {
        "id": f"{part.prefix}.{step['id']}",
        "component": part.component["id"],
        "round": part.number,
        "step": step["id"],
        "title": step["title"],
        "says": step["says"],
        "reason": step["reason"],
        "after": [],
        "optional": step["optional"],
        "does": step.get("does", ""),
        "unmoulds": step["unmoulds"],
        "hazards": told["hazards"],
        "cautions": told["cautions"],
        "ways": [
            {"id": way["id"], "name": way["name"], "says": way["says"], **by_code(way)}
            for way in step["ways"]
        ],
        "window": None,
        "keeps": [],
        "hands_ms": step["hands_ms"],
        "tools": step["tools"],
        "tail_ms": 0,
        "hold_for": [],
    }


def _totals(recipe: MeasuredRecipe, lines: list[SheetLine]) -> list[SheetIngredient]:
    totals: dict[Id, SheetIngredient] = {}
    for line in lines:
        key = line["ingredient"]
        if key not in totals:
            totals[key] = _none_yet(recipe, key)
        total = totals[key]
        total["mg"] += line["mg"] or line["about_mg"] or 0
        total["nl"] += line["nl"] or 0
        total["count"] += line["count"] or 0
    return list(totals.values())


def _none_yet(recipe: MeasuredRecipe, key: Id) -> SheetIngredient:
    ingredient = recipe["ingredients"][key]
    none: SheetIngredient = {"id": key, "name": ingredient["name"], "mg": 0, "nl": 0, "count": 0}
    fragrance = ingredient.get("fragrance")  # a recipe measured long ago does not say
    if fragrance and fragrance["limit_ppm"] is not None:
        none["limit_ppm"] = fragrance["limit_ppm"]
    return none
