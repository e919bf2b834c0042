"""The label of what only scents the air: a mixture, no cosmetic, in the EU and the UK (Regulation (EC) 1272/2008, CLP).

Its class is added up from those of the substances that the table knows, for eyes and skin alone: a calculation, which
somebody who may has to confirm. Acids, bases, salts and surfactants may count from less (Tables 3.2.4 and 3.3.4);
that is said, not reckoned. The limits, the elements and the statements were read second-hand.
"""

import re
from math import isqrt

from bench.label_list import Listing, Organ
from bench.shapes.entries import Market
from bench.shapes.record import Clp, ClpStatement, LabelNeed, LabelSize, Sourced
from bench.whole import PPM, half_even, per_cent
from bench.words import say, say_all

# Of the mixture, in ppm: what does worst harm from so much, harms less from so much; all that harms from so much.
WORST = {"eye": 30_000, "skin": 50_000}
LESS = 10_000
IRRITANT = 100_000
LEAST_SIDE_UM = 10_000
_PART_OF_LABEL = 15
LEAST_LABEL_UM = (52_000, 74_000)
EYES, SKIN = ("p305-p351-p338", "p337-p313"), ("p302-p352", "p332-p313")
_PHONE = re.compile(r"[0-9+][0-9 ()/.-]{5,}[0-9]", re.ASCII)
UFI = re.compile(r"\bUFI:? ?([0-9A-Z]{4}-){3}[0-9A-Z]{4}\b", re.ASCII)


def clp(listing: Listing, is_mixture: bool) -> Clp | None:
    """The elements of the label; None where it is no mixture under CLP."""
    if not is_mixture:
        return None
    eye, skin = _category(listing, "eye"), _category(listing, "skin")
    hazards = [
        *(["h314"] if skin == 1 else ["h318"] if eye == 1 else ["h319"] if eye == 2 else []),
        *(["h315"] if skin == 2 else []),
    ]
    is_worst = 1 in (eye, skin)
    cares: list[str] = []
    if hazards:
        # of what corrodes, and what damages eyes, other statements are wanted, which are the maker's to choose
        washes = ["p264"] if not is_worst else []
        cares = ["p102", *washes, *(EYES if eye == 2 else ()), *(SKIN if skin == 2 else ())]
    return {
        "signal": _statement("danger" if is_worst else "warning", listing.market)["says"]
        if hazards
        else None,
        "pictograms": ["GHS05" if is_worst else "GHS07"] if hazards else [],
        "side_um": pictogram_side(listing.options.get("size")),
        "hazards": [_statement(code, listing.market) for code in hazards],
        "precautions": [_statement(code, listing.market) for code in cares],
        "eye_ppm": _sum(listing, "eye"),
        "skin_ppm": _sum(listing, "skin"),
    }


def _statement(code: str, market: Market) -> ClpStatement:
    return {"code": code.upper().replace("-", "+"), "says": say(f"label-statement-{code}", market=market)}


def _ppm(listing: Listing, organ: Organ, category: int) -> int:
    weight = listing.harm.get((organ, category), 0)
    return half_even(weight * PPM, listing.total) if listing.total else 0


def _sum(listing: Listing, organ: Organ) -> int:
    """What irritates it, what does worse ten times."""
    return 10 * _ppm(listing, organ, 1) + _ppm(listing, organ, 2)


def _category(listing: Listing, organ: Organ) -> int | None:
    worst = _ppm(listing, organ, 1)
    if worst >= WORST[organ]:
        return 1
    return 2 if worst >= LESS or _sum(listing, organ) >= IRRITANT else None


def pictogram_side(size: LabelSize | None) -> int:
    """At least 10 mm, and a fifteenth of the label (Annex I, 1.2.1.4)."""
    area = size["width_um"] * size["height_um"] if size else 0
    fifteenth = -(-area // _PART_OF_LABEL)
    return max(LEAST_SIDE_UM, isqrt(fifteenth - 1) + 1 if fifteenth else 0)


def clp_needs(listing: Listing, told: Clp, net_mg: int) -> list[LabelNeed]:
    """Article 17(1) of CLP, and what poison centres are told by."""
    options, maker = listing.options, listing.options.get("maker") or ""
    asked = [
        ("supplier", bool(_PHONE.search(maker)), "a"),
        ("net", net_mg > 0, "b"),
        ("identifier", True, "c"),
    ]
    if told["signal"]:
        asked += [
            ("pictogram", "GHS05" not in told["pictograms"], "d"),
            ("statements", "GHS05" not in told["pictograms"], "g"),
        ]
    needs: list[LabelNeed] = [
        {
            "what": say(f"label-clp-need-{what}", code=", ".join(told["pictograms"])),
            "there": there,
            "source": say("label-source-clp", point=point),
        }
        for what, there, point in asked
    ]
    if told["signal"] and listing.market == "eu":
        is_there = any(UFI.search(text) for text in (maker, *options.get("precautions", [])))
        needs.append(
            {"what": say("label-clp-need-ufi"), "there": is_there, "source": say("label-source-clp-memory")}
        )
    return needs


def clp_open(listing: Listing, told: Clp) -> list[Sourced]:
    """What was reckoned, and what was not: said before all else."""
    known = say("label-source-mixture")
    asked = [(say("label-clp-open-reckoned"), known)]
    if listing.unclassed:
        asked.append((say("label-clp-open-unclassed", names=say_all(list(listing.unclassed))), known))
    asked.append((say("label-clp-open-rest"), say("label-source-clp-memory")))
    if told["signal"]:
        asked.append((say("label-clp-open-choice"), say("label-source-clp-memory")))
    return [{"says": says, "source": source} for says, source in asked]


def warn_of_the_mixture(listing: Listing, told: Clp) -> None:
    listing.warn(say("label-air"), say("label-source-air"))
    source = say("label-source-mixture")
    if told["eye_ppm"] >= IRRITANT:
        listing.warn(say("label-eye-mixture", share=per_cent(told["eye_ppm"], PPM)), source)
    if told["skin_ppm"] >= IRRITANT:
        listing.warn(say("label-skin-mixture", share=per_cent(told["skin_ppm"], PPM)), source)
    if listing.harm and "GHS05" not in told["pictograms"]:
        listing.warn(say("label-clp-less"), source)
    if "GHS05" in told["pictograms"]:
        listing.warn(say("label-clp-worst"), source)
    size = listing.options.get("size")
    sides = sorted((size["width_um"], size["height_um"])) if size else LEAST_LABEL_UM
    if told["signal"] and (sides[0] < LEAST_LABEL_UM[0] or sides[1] < LEAST_LABEL_UM[1]):
        listing.warn(say("label-clp-small"), say("label-source-clp-size"))
