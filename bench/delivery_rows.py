"""Rows of a supplier's list that has no heads: each cell is known by its look, in whatever order they stand.

    cells_of_row(["Citric acid", "1 kg", "6.20", "lot M900"], 2027)

A number without a unit may be a price, a month, a lot or a number of packs. Where the row leaves it more than one of
them it stays as it is, a cell "loose.2" by its place, to be asked about and answered as "cell.2": never is it of the name.
"""

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from bench.delivery_cells import UNITS, Cells
from bench.lists import group
from bench.quantities import COUNTED_UNITS, KITCHEN_SPELLINGS, MASS_UNITS, METRIC_VOLUME_UNITS
from bench.shapes.delivery import DeliveryField

_NUMBER = r"\d[\d.,'’\u00a0\u202f ]*(?:\s?\d/\d)?"


_UNIT_WORDS = sorted(
    {*MASS_UNITS, *METRIC_VOLUME_UNITS, *COUNTED_UNITS, *KITCHEN_SPELLINGS, *UNITS},
    key=lambda unit: -len(unit),
)
_MUCH = re.compile(
    rf"(?<![\w.,])(?:\d{{1,4}}\s*[x×]\s*)?{_NUMBER}\s*(?:{'|'.join(map(re.escape, _UNIT_WORDS))})(?![\w])"
    rf"(?:\s*{_NUMBER}\s*oz(?![\w]))?(?:\s*[x×]\s*\d{{1,4}}(?![\w]))?",
    re.IGNORECASE,
)
_LOT = re.compile(
    r"\b(?:lot|batch|charge|chargen|ch\.-?b|lote|lotto|los)(?:[ -]?(?:no|nr|number|nummer|n°|id))?\.?\s*[:#]?\s*"
    r"((?=[\w./-]*\d)[\w./-]*\w)",
    re.IGNORECASE,
)
_DATE = r"(\d{4}[-./]\d{1,2}(?:[-./]\d{1,2})?|\d{1,2}[-./]\d{1,2}[-./]\d{2,4}|\d{1,2}[-./]\d{4}|(?:\d{1,2}\.? )?[^\W\d]{3,9}\.? \d{4})"
_UNTIL = re.compile(
    r"(?:best before(?: end)?|bbe?|bbd|exp(?:iry|ires)?|use by|mhd|(?:mindestens )?haltbar(?: bis)?|dluo|ddm|caducidad"
    rf"|scadenza)\.?\s*[:#]?\s*{_DATE}",
    re.IGNORECASE,
)
_PRICE = re.compile(
    r"(?:[€$£]\s?\d[\d.,]*\d|\d[\d.,]*\s?(?:[€$£]|zł)|\d[\d.,]*\s(?:EUR|USD|GBP|CHF|CAD|AUD|SEK|DKK|NOK|PLN)\b)"
)
_CAS = re.compile(r"[1-9]\d{1,6}-\d\d-\d")
_CODE = re.compile(r"(?=\S*\d)\S{2,}|[A-Z]{1,3} \d\S*")  # "M900", "K 41"
_DECIMAL = re.compile(
    r"(?:\d{1,3}(?:[.'’ ]\d{3})+|\d{1,6}),(?:\d\d|-)|(?:\d{1,3}(?:[,'’ ]\d{3})+|\d{1,6})\.(?:\d\d|-)"
)
_MONTH = re.compile(r"(0?[1-9]|1[0-2])[.-](\d\d)")
_BARE = re.compile(r"[\d.,'’]+")
_RUN = re.compile(r"\d[\d.,]*\d")
_PLAIN = re.compile(r"\d+,\d+|\d{1,3}(?:\.\d{3})+,\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_NEXT = re.compile(r"\d{1,3}(?:\.\d{3})*,\d\d(?!\d)|[\d.]+")
_NOTHING = re.compile(r"(?!)")
_BEYOND = 100  # the place of what stands within a name, behind all parts
_KEEPS = 15  # years; no best before is further off
_SURE: tuple[tuple[DeliveryField, re.Pattern[str]], ...] = (
    ("best_before", _UNTIL),
    ("number", _LOT),
    ("cas", _CAS),
    ("price", _PRICE),
    ("amount", _MUCH),
    ("best_before", re.compile(_DATE)),
    ("best_before", re.compile(r"(?:0?[1-9]|1[0-2])/\d\d")),
)


def parts_of_line(line: str) -> list[str]:
    """What commas, semicolons or dashes part; a comma within a number parts nothing."""
    bare = line.strip().lstrip("-*•· ").strip()
    parts: list[str] = []
    for part in re.split(r"\s+,|,(?=\s)|(?<!\d),|,(?!\d)|;|\t| - ", bare):
        ends = [end for run in _RUN.finditer(part) if "," in run[0] for end in _ends(run)]
        cuts = [0, *ends, len(part) + 1]
        parts += [part[one:other].strip(",") for one, other in pairwise(cuts)]
    return parts


def _ends(run: re.Match[str]) -> list[int]:
    """Where the numbers of a run such as "900,6,20" end, each before a comma: "900" and "6,20" are two."""
    text, at = run[0], run.start()
    of_code = re.search(r"[\w/-]$", run.string[:at])  # the end of "M900" or of a date is no number by itself
    if not of_code and _PLAIN.fullmatch(text):
        return []
    ends: list[int] = []
    place = len(text.partition(",")[0]) if of_code else 0
    if of_code:
        ends.append(at + place)
        place += 1
    while (found := _NEXT.match(text, place)) and found.end() < len(text):
        ends.append(at + found.end())
        place = found.end() + 1
    return ends


def cells_of_row(
    parts: Sequence[str], year: int, is_card: Callable[[str], bool]
) -> tuple[Cells, list[DeliveryField]]:
    """The cells of a row by field, and what each part was taken for. year: in which the list came."""
    cells: Cells = {}
    taken: list[DeliveryField] = ["nothing"] * len(parts)
    tidy = [part.strip(" .:;–—@()") if part.strip() != "-" else "" for part in parts]
    names = {place: part for place, part in enumerate(tidy) if part and is_card(part)}
    for field, pattern in _SURE:
        for place, part in enumerate(tidy):
            if place in names or taken[place] != "nothing" or field in cells:
                continue
            if part and (found := pattern.fullmatch(part)):
                cells[field], taken[place] = _found(found), field
    for place, part in enumerate(tidy):
        if place in names or not part or taken[place] != "nothing" or _is_number(part):
            continue
        if _CODE.fullmatch(part) and "number" not in cells and (names or _has_words(tidy[place + 1 :])):
            cells["number"], taken[place] = part, "number"
        else:
            names[place] = part
    for place in names:
        taken[place] = "name"
    left = {place: part for place, part in enumerate(tidy) if part and taken[place] == "nothing"}
    cells["name"] = ", ".join(filter(None, [_within(cells, names[place], left) for place in sorted(names)]))
    _tell_apart(cells, taken, left, year)
    return cells, taken


def ways_of(written: str, cells: Cells, year: int) -> list[DeliveryField]:
    """What a number without a unit may be, in a row that has these cells already."""
    ways: list[DeliveryField] = ["price", "number", "packs", "amount"]
    month = _MONTH.fullmatch(written)
    if _DECIMAL.fullmatch(written):
        may_be_month = month and 0 <= 2000 + int(month[2]) - year <= _KEEPS
        ways = ["price", "best_before"] if may_be_month else ["price"]
    elif re.fullmatch(r"0\d+|\d{5,}", written):
        ways = ["number"]
    return [way for way in ways if way not in cells]


def unlabelled(field: DeliveryField, cell: str) -> str:
    """A cell of a column that the maker named, without the word that says the same: "lot M900"."""
    found = {"number": _LOT, "best_before": _UNTIL}.get(field, _NOTHING).fullmatch(cell)
    return _found(found) if found else cell


def _is_number(part: str) -> bool:
    return bool(_BARE.fullmatch(part) or _DECIMAL.fullmatch(part))


def _found(found: re.Match[str]) -> str:
    return group(found, 1 if found.re.groups else 0).strip()


def _has_words(parts: Sequence[str]) -> bool:
    return any(re.search(r"[^\W\d_]{3}", part) and not _MUCH.fullmatch(part) for part in parts)


def _within(cells: Cells, part: str, left: dict[int, str]) -> str:
    """A name, without what is written into it: "Citric acid 1 kg 6.20 lot A-7". A loose number of it is left over."""
    rest = part
    for field, pattern in _SURE:
        if field not in cells and field != "cas" and (found := pattern.search(rest)):
            cells[field] = _found(found)
            rest = f"{rest[: found.start()]} , {rest[found.end() :]}"
    pieces = [piece.strip(" .:;-–—@()") for piece in re.split(r"\s+,|,\s+", rest)]
    names: list[str] = []
    for piece in filter(None, pieces):
        words = piece.split(" ")
        while words and (_DECIMAL.fullmatch(words[-1]) or _is_number(words[-1]) and len(words) == 1):
            left[_BEYOND + len(left)] = words.pop()
        if len(words) == 1 and _CODE.fullmatch(words[0]) and names and "number" not in cells:
            cells["number"] = words.pop()
        names += [" ".join(words)] if words else []
    return ", ".join(names)


def _tell_apart(cells: Cells, taken: list[DeliveryField], left: dict[int, str], year: int) -> None:
    """Numbers without a unit: what can be one thing, which no other can, is that, the rest is kept to be asked about."""
    ways = {place: ways_of(part, cells, year) for place, part in left.items()}
    every = [way for found in ways.values() for way in found]
    for place, found in ways.items():
        if len(found) == 1 and every.count(found[0]) == 1 and found[0] != "packs":
            cells[found[0]] = left.pop(place)
            if place < len(taken):
                taken[place] = found[0]
    cells |= {f"loose.{place}": part for place, part in left.items()}
