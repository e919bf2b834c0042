"""The sizes at which a recipe could be made for what is wanted of it: whole moulds where it is moulded, and as much as
the wants ask for, one by one and together."""

from typing import NamedTuple

from bench.errors import BenchError, PlanError, SizeError
from bench.planning.tasks import of_sheet, tasks_of
from bench.shapes.kit import Kit
from bench.shapes.planning import Equipment
from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.sheet import RecipeRef
from bench.shapes.week import Make, SizeToMake, Spoilage
from bench.sheet import make_sheet
from bench.week.sittings import InSittings
from bench.week.spoilage import good_of
from bench.whole import PPM, ceiling
from bench.words import say
from bench.yields import MOST_PIECES

MOST_SIZES = 6


class Wanted(NamedTuple):
    """A recipe, and what is wanted of it."""

    id: str
    recipe: MeasuredRecipe
    ref: RecipeRef
    pieces: list[int]  # of each want, by its instant
    keeps_ms: int | None
    spoilage: Spoilage | None
    hands: dict[str, int]  # the maker's own times, by written step


def make_of(wanted: Wanted, kit: Kit, longest_ms: int) -> tuple[Make, dict[str, Equipment]]:
    """What can be made of a recipe with this kit, and what of the kit that asks for.

    longest_ms: the longest stretch of bench hours; a size with a sitting that is longer is left out. PlanError when
    no size is left, SizeError or KitError when none can be made at all.
    """
    sizes: list[SizeToMake] = []
    equipment: dict[str, Equipment] = {}
    refused: BenchError | None = None
    for pieces in _pieces(wanted, kit):
        try:
            sized = _sized(wanted, kit, pieces, longest_ms, equipment)
        except SizeError as error:
            refused = error
            continue
        if sized is not None:
            sizes.append(sized)
    if not sizes:
        if refused is not None:
            raise refused
        raise PlanError("wants", say("week-no-size", title=wanted.recipe["title"]))
    make: Make = {
        "id": wanted.id,
        "title": wanted.recipe["title"],
        "keeps_ms": wanted.keeps_ms,
        "sizes": sizes,
    }
    return make, equipment


def _sized(
    wanted: Wanted, kit: Kit, pieces: int, longest_ms: int, equipment: dict[str, Equipment]
) -> SizeToMake | None:
    """One size; None when a sitting is too long, or the kit is too small for it even alone."""
    sheet = make_sheet(
        wanted.recipe,
        wanted.ref,
        {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"},
        kit,
    )
    part = tasks_of(sheet, hands=of_sheet(sheet, wanted.hands))
    names = {component["id"]: component["name"] for component in sheet["components"]}
    cut = InSittings(part, names, longest_ms)
    if not cut.fits:
        return None
    equipment |= part["equipment"]
    return {
        "pieces": pieces,
        "good": good_of(pieces, wanted.spoilage),
        "hands_ms": cut.hands_ms(),
        "sittings": cut.sittings(),
        "apart": cut.apart(),
        "holds": cut.holds(),
        "takes": {each["id"]: each["mg"] for each in sheet["ingredients"] if each["mg"]},
    }


def _pieces(wanted: Wanted, kit: Kit) -> list[int]:
    """From the smallest to the largest, at most six, the largest among them."""
    asked = [_made_for(pieces, wanted.spoilage) for pieces in wanted.pieces]
    whole = sum(asked)
    tray = _tray(wanted.recipe, kit)
    found = {_whole_trays(each, tray) for each in [*asked, whole]}
    for share in (2, 3, 4):
        found.add(_whole_trays(ceiling(whole, share), tray))
    sizes = sorted(each for each in found if 0 < each <= MOST_PIECES)
    if not sizes:
        sizes = [MOST_PIECES]
    if len(sizes) > MOST_SIZES:  # evenly, the ends among them
        places = {round(step * (len(sizes) - 1) / (MOST_SIZES - 1)) for step in range(MOST_SIZES)}
        sizes = [sizes[place] for place in sorted(places)]
    return sizes


def _made_for(good: int, spoilage: Spoilage | None) -> int:
    """How many are to be made so that so many are likely to be good."""
    share = PPM if spoilage is None else max(1, PPM - spoilage["share_ppm"])
    return ceiling(good * PPM, share)


def _tray(recipe: MeasuredRecipe, kit: Kit) -> int:
    """How many pieces of the recipe the smallest mould holds that it is left in; 1 where it is left in none."""
    trays = [1]
    for component in recipe["components"]:
        mould = component["mould"]
        if mould and mould["held"] and component["takes"] == 1:
            fits = [
                each["cavities"]
                for each in kit["moulds"]
                if each["shape"] == mould["shape"]
                and (each["cavity_mg"] is None or each["cavity_mg"] >= component["piece_mg"])
            ]
            trays += [min(fits)] if fits else []
    return max(trays)


def _whole_trays(pieces: int, tray: int) -> int:
    return ceiling(pieces, tray) * tray
