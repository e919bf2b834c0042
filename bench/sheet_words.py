"""What a sheet's codes and values are in words: reasons, warnings, spoons, cautions, and what a recipe left unsaid."""

from collections.abc import Sequence
from itertools import chain

from bench.brief import joined
from bench.cautions import ByCode, in_full
from bench.shapes.kit import Scale
from bench.shapes.recipe import Component, GoodPiece, Hazard, PieceWords
from bench.shapes.sheet import (
    CheckStep,
    InSpoons,
    PiecesStep,
    RoundsReason,
    Sheet,
    SheetComponent,
    SheetLine,
    SheetWay,
    Spoonful,
    Step,
    Warn,
)
from bench.shapes.units import Mg
from bench.states import ASSEMBLY
from bench.weighing import reads_in
from bench.whole import PPM, mass, per_cent, reading
from bench.words import point, say

UNNAMED: PieceWords = {"one": "piece", "many": "pieces"}  # as a measured recipe has them that names none
UNNAMED_ASSEMBLY = "Assembly"  # the same of an assembly that has no name
_SHARES_OF = "½¼⅛"  # a spoon whose name begins so is a share of another


def part_name(part: Component | SheetComponent) -> str:
    """What a part is called; the usual word where an assembly has no name of its own."""
    unnamed = part["id"] == ASSEMBLY and part["name"] == UNNAMED_ASSEMBLY
    return say("sheet-assembly") if unnamed else part["name"]


def reason_words(reason: RoundsReason) -> str:
    """Why a part is made in several rounds."""
    match reason["kind"]:
        case "moulds":
            return say("sheet-moulds-hold", shape=reason["shape"], held=reason["holds"])
        case "vessel":
            return say("sheet-vessel-takes", vessel=reason["name"], mass=mass(reason["mg"], 1000))
        case "scale":
            return say("sheet-scale-takes", scale=reason["name"], mass=mass(reason["mg"], 1000))
        case "at_once":
            return say("sheet-used-at-once", part=reason["name"], rounds=reason["rounds"])
        case "said":
            return reason["text"]


def warning_words(warning: Warn) -> str:
    match warning["kind"]:
        case "no_mould":
            return say("sheet-no-mould", shape=warning["shape"])
        case "no_scale":
            return say("sheet-no-scale", mass=mass(warning["mg"], 1000))
        case "too_full":
            return say(
                "sheet-too-full",
                vessel=warning["vessel"],
                room=mass(warning["holds_mg"], 1000),
                mass=mass(warning["mg"], 1000),
            )
        case "for_two_parts":
            vessel, part, other = warning["vessel"], warning["part"], warning["other"]
            return say("sheet-for-two-parts", vessel=vessel, part=part, other=other)
        case "needed_twice":
            vessel, part, kind = warning["vessel"], warning["part"], warning["vessel_kind"]
            return say("sheet-needed-twice", vessel=vessel, part=part, kind=kind)
        case "metal":
            return say("sheet-metal", vessel=warning["vessel"])
        case "less_than_one":
            return say("sheet-less-than-one", name=warning["name"])
        case "less_than_a_spoon":
            return say("sheet-less-than-a-spoon", name=warning["name"])
        case "drops":
            return say("sheet-drops-differ")
        case "too_little":
            return say(
                "sheet-too-little",
                name=warning["name"],
                mass=mass(warning["mg"], 10),
                scale=warning["scale"],
                share=per_cent(warning["off_ppm"], PPM),
            )
        case "said":
            return warning["text"]


def spoons_words(measure: InSpoons | None) -> str:
    """2¾ tsp is "2 tsp + ½ tsp + ¼ tsp", and what that is off by from 1 % is said: "⅛ tsp (4 % less)"; "" for None."""
    if measure is None:
        return ""
    if measure["part_percent"] is not None:
        return say(
            "sheet-part-of-spoon",
            percent=measure["part_percent"],
            spoon=_spoon(measure["spoons"][0]["spoon"]),
        )
    spoons = " + ".join(_spoonful(each) for each in measure["spoons"])
    off = measure["off_percent"]
    if not off:
        return spoons
    return say(f"sheet-off-{'more' if off > 0 else 'less'}", spoons=spoons, percent=abs(off))


def _spoonful(each: Spoonful) -> str:
    if each["spoon"][0] in _SHARES_OF:
        spoon = _spoon(each["spoon"])
        return spoon if each["count"] == 1 else say("sheet-shares-of-spoon", count=each["count"], spoon=spoon)
    return say("sheet-spoons", count=each["count"], spoon=each["spoon"])


def _spoon(name: str) -> str:
    """The name of a spoon: "½ tsp"."""
    share, _, whole = name.rpartition(" ")
    named = say("sheet-spoon", spoon=whole)
    return f"{share} {named}" if share else named


def note_of(line: SheetLine) -> str:
    """What is said of a line: what it stands in for, then the recipe's own words."""
    meant = line["instead_of"]
    return joined(say("sheet-instead-of", name=meant) if meant else "", line["note"])


def cautions_of(step: Step) -> list[str]:
    """The cautions of a step and of its ways, in full."""
    return list(chain.from_iterable(in_full(_warned(each)) for each in _with_ways(step)))


def hazards_of(steps: Sequence[Step]) -> list[Hazard]:
    return [hazard for step in steps for each in _with_ways(step) for hazard in each["hazards"]]


def _with_ways(step: Step) -> list[Step | SheetWay]:
    return [step, *step["ways"]]


def _warned(each: Step | SheetWay) -> ByCode:
    return {"hazards": each["hazards"], "cautions": each["cautions"]}


def ask_of(step: CheckStep) -> str:
    """What is asked."""
    return say("sheet-second-look") if "looks_at" in step else step["ask"]


def not_yet_of(step: CheckStep) -> str:
    """What is to be done when it is not right yet."""
    return say("sheet-second-look-not") if "looks_at" in step else step["not_yet"]


def yes_of(step: CheckStep) -> str:
    """What is answered when it is right."""
    return say("sheet-second-look-yes") if "looks_at" in step else step["yes"] or say("sheet-yes")


def too_far_of(step: CheckStep) -> str:
    """What helps when it went too far."""
    return step["too_far"] or say("states-too-wet")


def piece_word(piece: PieceWords, count: int) -> str:
    """What so many pieces are called: "bars"."""
    if piece == UNNAMED:
        return say("sheet-piece", count=count)
    return piece["one"] if count == 1 else piece["many"]


def verb_of(step: PiecesStep) -> str:
    """What each piece is then."""
    return step["verb"] or say("sheet-done")


def good_piece_words(wanted: GoodPiece) -> str:
    """What a good piece is known by, and how it should be: "pH: 4.5 to 5.5". The maker's own words stand alone."""
    criterion = wanted["criterion"]
    if criterion.startswith("judge-"):
        return wanted["says"]
    return f"{say('sheet-criterion', criterion=criterion)}: {_wanted_words(wanted)}"


def ph_words(thousandths: int) -> str:
    return f"{thousandths / 1000:g}".replace(".", point())


def _wanted_words(wanted: GoodPiece) -> str:
    def shown(bound: int) -> str:
        if wanted["criterion"] == "mass":
            return mass(bound, 10 if bound % 1000 else 1000)
        return ph_words(bound)

    least, most = wanted["least"], wanted["most"]
    if least is not None and most is not None:
        return say("sheet-between", least=shown(least), most=shown(most))
    if most is not None:
        return say("sheet-at-most", bound=shown(most))
    return wanted["says"] if least is None else say("sheet-at-least", bound=shown(least))


def starts_of(sheet: Sheet) -> list[str]:
    """What must be so before the first weighing."""
    return [say(f"gather-start-{each}") for each in sheet.get("before", [])]


def proof_words(scale: Scale, weight: Mg) -> str:
    """The weighing of a scale's test weight."""
    return say("prompting-prove", scale=scale["name"], weight=reading(weight, reads_in(scale)))


def proofs_of(sheet: Sheet) -> list[str]:
    """The test weights of the scales that are weighed on."""
    used = {line["scale"] for line in sheet["lines"]}
    return [
        proof_words(scale, scale["test_mg"])
        for scale in sheet["kit"]["scales"]
        if "test_mg" in scale and scale["id"] in used
    ]
