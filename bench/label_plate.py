"""What stands on a label, part by part in its order. The page and the PDF draw exactly this."""

from bench.shapes.record import Label, PlateLine, PlatePart
from bench.words import say


def plate(told: Label, purpose: str | None) -> list[PlateLine]:
    """The words on it; the open jar (`opened`) and the pictograms (`clp`) are drawn beside them."""
    market, batch, best, clp = told["market"], told["batch"], told["best_before"], told["clp"]
    cares = " ".join(each["says"] for each in told["precautions"])
    lines: list[tuple[PlatePart, str]] = [("name", told["identity"]), ("purpose", purpose or "")]
    if clp:
        lines += [
            ("signal", clp["signal"] or ""),
            ("hazard", " ".join(each["says"] for each in clp["hazards"])),
            ("advice", " ".join(each["says"] for each in clp["precautions"])),
        ]
    lines.append(("net", told["net"]))
    if not clp:
        lines.append(("list", say("label-plate-list", names=told["text"])))
    lines.append(("care", cares))
    if batch:
        lines.append(("foot", say("label-plate-batch", market=market, number=batch)))
    if best:
        year, month, day = best.split("-")
        lines.append(("foot", say("label-plate-best", market=market, year=year, month=month, day=day)))
    lines.append(("maker", told["maker"] or ""))
    return [{"part": part, "text": text} for part, text in lines if text]
