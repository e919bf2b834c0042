"""What stands on a label, part by part in its order. The page and the PDF draw exactly this."""

import re

from bench.shapes.record import Label, PlateLine, PlatePart
from bench.words import say

# A Colour Index number and its letters, a number and its unit: no line of a narrow label ends between them.
_TOGETHER = re.compile(r"(?<=\bCI) (?=\d{5}\b)|(?<=\d) (?=(?:k?g|oz|lb)\b)")


def plate(told: Label, purpose: str | None, origin: str | None) -> list[PlateLine]:
    """The words on it; the open jar (`opened`) and the pictograms (`clp`) are drawn beside them."""
    market, batch, best, clp = told["market"], told["batch"], told["best_before"], told["clp"]
    cares = _cares(told)
    lines: list[tuple[PlatePart, str]] = [("name", told["identity"]), ("purpose", purpose or "")]
    if clp:
        lines += [
            ("signal", clp["signal"] or ""),
            ("hazard", " ".join(each["says"] for each in clp["hazards"])),
            ("advice", " ".join(each["says"] for each in clp["precautions"])),
        ]
    lines.append(("net", told["net"]))
    if told["leaflet"]:
        lines.append(("care", say("label-plate-leaflet", market=market)))
    else:
        lines += [("list", "" if clp else _list(told)), ("care", cares)]
    if batch:
        lines.append(("foot", say("label-plate-batch", market=market, number=batch)))
    if best:
        year, month, day = best.split("-")
        lines.append(("foot", say("label-plate-best", market=market, year=year, month=month, day=day)))
    if origin:
        lines.append(("foot", say("label-plate-origin", market=market, country=origin)))
    lines.append(("maker", told["maker"] or ""))
    if told["net_low"]:
        lines.sort(key=lambda line: line[0] == "net")
    return _written(lines)


def leaflet(told: Label) -> list[PlateLine]:
    """What goes with a piece on which it does not fit: the list and the cautions, and to what they belong."""
    return _written([("name", told["identity"]), ("list", _list(told)), ("care", _cares(told))])


def _list(told: Label) -> str:
    return say("label-plate-list", names=told["text"]) if told["text"] else ""


def _cares(told: Label) -> str:
    return " ".join(each["says"] for each in told["precautions"])


def _written(lines: list[tuple[PlatePart, str]]) -> list[PlateLine]:
    return [{"part": part, "text": _TOGETHER.sub("\u00a0", text)} for part, text in lines if text]
