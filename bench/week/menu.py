"""The sizes at which a recipe could be made for what is wanted of it: whole moulds where it is moulded, and as much as
the wants ask for, one by one and together."""

from typing import NamedTuple

from bench.errors import BenchError, PlanError, SizeError
from bench.planning.tasks import of_sheet, tasks_of
from bench.shapes.kit import Kit
from bench.shapes.planning import Equipment
from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.sheet import RecipeRef, Sheet
from bench.shapes.week import Make, SizeToMake, Spoilage
from bench.sheet import make_sheet
from bench.week.sittings import InSittings
from bench.week.spoilage import good_of
from bench.week.units import COUNTED
from bench.whole import PPM, ceiling
from bench.words import say
from bench.yields import MOST_PIECES

MOST_SIZES = 6
MOST_TASKS = 160  # steps of one batch: the plain rule lays out no more within a second

Sized = tuple[SizeToMake | None, dict[str, Equipment]]
KnownSizes = dict[int, Sized]  # by pieces


class Wanted(NamedTuple):
    """A recipe, and what is wanted of it."""

    id: str
    recipe: MeasuredRecipe
    ref: RecipeRef
    pieces: list[int]  # of each want, by its instant
    keeps_ms: int | None
    spoilage: Spoilage | None
    hands: dict[str, int]  # the maker's own times, by written step


def make_of(
    wanted: Wanted, kit: Kit, longest_ms: int, known: KnownSizes | None = None
) -> tuple[Make, dict[str, Equipment]]:
    """What can be made of a recipe with this kit, and what of the kit that asks for.

    longest_ms: the longest stretch of bench hours; a size with a sitting that is longer is left out, and one that is
    too much to lay out: half of it may do. known: sizes laid out before, of all the same but what is wanted; those
    that are new are put in. PlanError when no size is left, SizeError or KitError when none can be made at all.
    """
    sizes, equipment, refused = _sizes(wanted, kit, longest_ms, {} if known is None else known)
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


def _sizes(
    wanted: Wanted, kit: Kit, longest_ms: int, known: KnownSizes
) -> tuple[list[SizeToMake], dict[str, Equipment], BenchError | None]:
    """Those that can be laid out, the smallest first, what they ask for, and why the last that cannot be made is not."""
    sizes: list[SizeToMake] = []
    equipment: dict[str, Equipment] = {}
    refused: BenchError | None = None
    left = _pieces(wanted, kit)
    tried: set[int] = set()
    while left:
        pieces = left.pop()
        tried.add(pieces)
        try:
            if pieces not in known:
                known[pieces] = _sized(wanted, kit, pieces, longest_ms)
        except SizeError as error:
            refused = error
            continue
        sized, needs = known[pieces]
        if sized is not None:
            sizes.append(sized)
            equipment |= needs
        elif pieces > 1 and not left and not sizes and ceiling(pieces, 2) not in tried:
            left.append(ceiling(pieces, 2))
    return sorted(sizes, key=lambda each: each["pieces"]), equipment, refused


def _sized(wanted: Wanted, kit: Kit, pieces: int, longest_ms: int) -> Sized:
    """One size; None when it is too much to lay out, a sitting is too long, or the kit too small for it even alone."""
    sheet = make_sheet(
        wanted.recipe,
        wanted.ref,
        {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"},
        kit,
    )
    part = tasks_of(sheet, hands=of_sheet(sheet, wanted.hands))
    if len(part["tasks"]) > MOST_TASKS:
        return None, {}
    names = {component["id"]: component["name"] for component in sheet["components"]}
    cut = InSittings(part, names, longest_ms)
    if not cut.fits:
        return None, {}
    sized: SizeToMake = {
        "pieces": pieces,
        "good": good_of(pieces, wanted.spoilage),
        "hands_ms": cut.hands_ms(),
        "sittings": cut.sittings(),
        "apart": cut.apart(),
        "holds": cut.holds(),
        "takes": _takes(sheet),
    }
    return sized, part["equipment"]


def _takes(sheet: Sheet) -> dict[str, int]:
    """Of each ingredient so many mg; of one that is only counted so many pieces, after `COUNTED`."""
    takes = {each["id"]: each["mg"] for each in sheet["ingredients"] if each["mg"]}
    for line in sheet["lines"]:
        if line["unit"] == "pieces" and line["count"] and line["ingredient"] not in takes:
            key = COUNTED + line["ingredient"]
            takes[key] = takes.get(key, 0) + line["count"]
    return takes


def _pieces(wanted: Wanted, kit: Kit) -> list[int]:
    """From the smallest to the largest, at most six, the largest among them."""
    asked = [_made_for(pieces, wanted.spoilage) for pieces in wanted.pieces]
    whole = sum(asked)
    tray, trays = _trays(wanted.recipe, kit)
    found = {_whole_trays(each, tray) for each in [*asked, whole]}
    for share in (2, 3, 4):
        found.add(_whole_trays(ceiling(whole, share), tray))
    full = trays if 1 < trays <= max(found) else 0
    sizes = sorted(each for each in found if 0 < each <= MOST_PIECES and each != full)
    if not sizes:
        sizes = [MOST_PIECES]
    most = MOST_SIZES - bool(full)
    if len(sizes) > most:  # evenly, the ends among them
        places = {round(step * (len(sizes) - 1) / (most - 1)) for step in range(most)}
        sizes = [sizes[place] for place in sorted(places)]
    return sorted([*sizes, *([full] if full else [])])


def _made_for(good: int, spoilage: Spoilage | None) -> int:
    """How many are to be made so that so many are likely to be good."""
    share = PPM if spoilage is None else max(1, PPM - spoilage["share_ppm"])
    return ceiling(good * PPM, share)


def _trays(recipe: MeasuredRecipe, kit: Kit) -> tuple[int, int]:
    """How many pieces of the recipe the smallest mould holds that it is left in, and how many all of them do at once;
    1 where it is left in none."""
    trays, at_once = [1], []
    for component in recipe["components"]:
        mould = component["mould"]
        if mould and mould["held"] and component["takes"] == 1:
            fits = [
                (each["cavities"], each["cavities"] * each["sets"])
                for each in kit["moulds"]
                if each["shape"] == mould["shape"]
                and (each["cavity_mg"] is None or each["cavity_mg"] >= component["piece_mg"])
            ]
            if fits:
                trays.append(min(cavities for cavities, _ in fits))
                at_once.append(sum(many for _, many in fits))
    return max(trays), min(at_once, default=1)


def _whole_trays(pieces: int, tray: int) -> int:
    return ceiling(pieces, tray) * tray
