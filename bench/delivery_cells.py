"""What stands in a cell of a supplier's list: an amount, a day, a price. What may mean two things raises `Doubt`."""

import calendar
import re
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple, TypeAlias, TypedDict

from bench.errors import AmountError
from bench.lists import group
from bench.money import is_currency, money_text, places_of
from bench.quantities import (
    read_amount,
    read_density,
    read_number,
    two_ways,
)
from bench.shapes.entries import Price
from bench.shapes.recipe import Measures
from bench.shapes.shelf import Card
from bench.whole import half_even
from bench.words import say

Cells: TypeAlias = dict[str, str]  # by field

_MOST_PIECES = 10_000
_MOST_MG = 10**9
# Words of other languages for units that the reader of amounts knows by English ones.
UNITS = {
    **dict.fromkeys(("stück", "stueck", "stk", "st", "pièce", "pièces", "pcs", "ea", "each"), "pieces"),
    **dict.fromkeys(("pieza", "piezas", "unidad", "unidades", "uds", "pezzo", "pezzi", "pz"), "pieces"),
    **dict.fromkeys(("gr", "grs", "gramm", "gramo", "gramos", "grammo", "grammi"), "g"),
    **dict.fromkeys(("kilogramm", "kilogramo", "kilogramos", "chilo", "chili", "chilogrammi"), "kg"),
    **dict.fromkeys(("milliliter", "mililitros", "millilitri"), "ml"),
    **dict.fromkeys(("ltr", "lt", "litro", "litros", "litri"), "l"),
}
_SYMBOLS = {"€": "EUR", "£": "GBP", "zł": "PLN", "¥": "JPY"}
_SHARED_SYMBOLS = {"$": ("USD", "CAD", "AUD", "NZD"), "kr": ("SEK", "DKK", "NOK")}
# The beginnings of the months' names in English, German, French, Spanish and Italian.
_MONTHS = (
    ("jan", "jän", "ene", "gen"),
    ("feb", "fév", "fev"),
    ("mar", "mär", "mrz", "maer"),
    ("apr", "avr", "abr"),
    ("may", "mai", "mag"),
    ("jun", "juin", "giu"),
    ("jul", "juil", "lug"),
    ("aug", "aoû", "aou", "ago"),
    ("sep", "set"),
    ("oct", "okt", "ott"),
    ("nov",),
    ("dec", "dez", "déc", "dic"),
)
_PACKS = re.compile(r"\s*(\d{1,4})\s*[x×*]\s*(.+)|\s*(.+?)\s*[x×*]\s*(\d{1,4})\s*")


class Doubt(Exception):
    """A cell cannot be read, or may mean each of `choices`. where: the field to answer, if not the cell's own."""

    def __init__(self, says: str, choices: Sequence[str] = (), where: str = "") -> None:
        self.says = says
        self.choices = list(choices)
        self.where = where
        super().__init__(says)


class Much(TypedDict):
    mg: int | None
    count: int | None


class Money(NamedTuple):
    amount: Fraction
    currency: str


# ---- how much


def read_much(cells: Cells, measures: Measures | None, card: Card | None) -> Much:
    """How much came, in mg or in pieces: so many packs of an amount, a volume by the card's density.

    Doubt: it is not there, cannot be read, may be two amounts, or a volume has no density.
    """
    written = cells.get("amount", "")
    if not written:
        raise Doubt(say("delivery-no-amount"))
    packs, each = _packs(written)
    if "packs" in cells:
        packs *= _whole(cells["packs"], "packs")
    each = _with_unit(each, cells.get("unit", ""))
    try:
        amount = read_amount(each, measures)
    except AmountError as fault:
        if measures is None and _is_read_in_us(each):
            raise Doubt(say("delivery-whose-measure", written=written[:40])) from fault
        ways = two_ways(each)
        raise Doubt(fault.says, [_times(packs, way, cells) for way in ways or ()]) from fault
    if amount.kind == "counted" and amount.unit == "pieces":
        pieces = amount.value * packs
        if pieces.denominator != 1 or pieces > _MOST_PIECES:
            raise Doubt(say("delivery-pieces", most=_MOST_PIECES))
        return {"mg": None, "count": int(pieces)}
    if amount.kind == "mass":
        return _mass(amount.value / 1000 * packs)
    if amount.kind == "volume":
        return _mass(amount.value * packs * _density(card, written) / 1000)  # nL at g/ml is µg
    raise Doubt(say("delivery-no-mass", written=written[:40]))


def _is_read_in_us(written: str) -> bool:
    """Whether all that is not known of an amount is whose fluid ounces or spoons they are."""
    try:
        read_amount(written, "us")
    except AmountError:
        return False
    return True


def _mass(mg: Fraction) -> Much:
    if mg > _MOST_MG:
        raise Doubt(say("delivery-too-much"))
    return {"mg": half_even(mg.numerator, mg.denominator), "count": None}


def _density(card: Card | None, written: str) -> Fraction:
    dense = card.get("density") if card else None
    if not dense or not dense.get("g_per_ml"):
        raise Doubt(say("delivery-no-density", written=written[:40]))
    return read_density(dense["g_per_ml"], "density")


def _packs(written: str) -> tuple[int, str]:
    """ "2 x 500 g" and "500 g x 2" are two packs of 500 g."""
    found = _PACKS.fullmatch(written)
    if not found:
        return 1, written
    before, after, first, behind = found.groups()
    return (int(before), after) if before else (int(behind), first)


def _times(packs: int, way: str, cells: Cells) -> str:
    return way if packs == 1 or "packs" in cells else f"{packs} x {way}"


def _whole(written: str, where: str) -> int:
    found = re.match(r"\s*(\d{1,4})(?:[.,]0+)?\s*(?:[x×]|[A-Za-zäöüßé.]*)\s*", written)
    if not found or found.end() != len(written) or not int(found[1]):
        raise Doubt(say("delivery-packs", written=written[:40]), where=where)
    return int(found[1])


def _with_unit(written: str, unit: str) -> str:
    """An amount with its unit, in the words that the one reader of amounts knows."""
    text = written.strip()
    if unit and not re.search(r"[A-Za-zäöüé]", text):
        text = f"{text} {unit}"
    found = re.fullmatch(r"([\d.,'’/\s¼-¾⅐-⅞]+)(.+?)\.?", text)
    if not found:
        return text
    named = group(found, 2).strip()
    return f"{group(found, 1).strip()} {UNITS.get(named.lower(), named)}"


# ---- until when


def read_best_before(cells: Cells) -> str | None:
    """A day as "2027-03-31"; of a month alone its last day. None: there is none. Doubt: it may be two days."""
    written = cells.get("best_before", "").strip()
    if not written or re.fullmatch(r"[-–—/]|n/?a|none|keine?s?", written, re.IGNORECASE):
        return None
    found = re.fullmatch(r"(\d{4})[-./](\d{1,2})(?:[-./](\d{1,2}))?", written)
    if found:
        return _day(int(found[1]), int(found[2]), int(found[3]) if found[3] else None, written)
    found = re.fullmatch(r"(\d{1,2})[-./ ](\d{4}|\d{2})", written)
    if found:
        return _day(_year(found[2]), int(found[1]), None, written)
    found = re.fullmatch(r"(\d{1,2})([-./ ])\s?(\d{1,2})\2\s?(\d{4}|\d{2})", written)
    if found:
        return _of_three(int(found[1]), int(found[3]), _year(found[4]), group(found, 2) == "/", written)
    found = re.fullmatch(
        r"(?:(\d{1,2})\.?(?:st|nd|rd|th)?[ -])?([^\W\d]{3,12})\.?,?[ -](?:(\d{1,2}),? )?(\d{4}|\d{2})",
        written,
    )
    if found:
        month = _month(found[2])
        if month:
            day = found[1] or found[3]
            return _day(_year(found[4]), month, int(day) if day else None, written)
    raise Doubt(say("delivery-no-day", written=written[:40]))


def _of_three(one: int, other: int, year: int, may_be_us: bool, written: str) -> str:
    """Day and month, or month and day where a slash parts them: both only where they are one."""
    ways = [(one, other)] if one > 12 or not may_be_us or one == other else [(one, other), (other, one)]
    if other > 12 and may_be_us:
        ways = [(other, one)]
    days = [_day(year, month, day, written) for day, month in ways]
    if len(days) > 1:
        raise Doubt(say("delivery-two-days", written=written[:40]), days)
    return days[0]


def _year(written: str) -> int:
    return int(written) if len(written) == 4 else 2000 + int(written)


def _month(name: str) -> int | None:
    small = name.lower()
    return next((place for place, names in enumerate(_MONTHS, 1) if small.startswith(names)), None)


def _day(year: int, month: int, day: int | None, written: str) -> str:
    if not (1 <= month <= 12 and 1900 <= year <= 2099):
        raise Doubt(say("delivery-no-day", written=written[:40]))
    last = calendar.monthrange(year, month)[1]
    if day is not None and not 1 <= day <= last:
        raise Doubt(say("delivery-no-day", written=written[:40]))
    return f"{year:04d}-{month:02d}-{day or last:02d}"


# ---- for how much


def read_price(cells: Cells, usual: str) -> Price | None:
    """What a row cost as a whole, or a pack of it times the packs. None: no price stands there. usual: the currency
    where none is named. Doubt: it may be two sums, or nobody knows of what currency."""
    currency = cells.get("currency") or usual
    if cells.get("price"):
        money = read_money_cell(cells["price"], currency, "price")
    elif cells.get("unit_price"):
        money = read_money_cell(cells["unit_price"], currency, "unit_price")
        packs = _whole(cells["packs"], "packs") if "packs" in cells else _packs(cells.get("amount", ""))[0]
        money = Money(money.amount * packs, money.currency)
    else:
        return None
    places = places_of(money.currency)
    finer = next((many for many in range(places, 7) if (money.amount * 10**many).denominator == 1), 6)
    return {"amount": money_text(money.amount, finer), "currency": money.currency}


def read_money_cell(written: str, usual: str, where: str) -> Money:
    """A sum as it is written, with its currency: by its sign or its letters, else the usual one."""
    text = written.strip()
    currency = usual.strip().upper()
    letters = re.search(r"\b[A-Za-z]{3}\b", text)
    if letters:
        currency, text = letters[0].upper(), text.replace(letters[0], "")
    for sign, of in _SYMBOLS.items():
        if sign in text:
            currency, text = of, text.replace(sign, "")
    for sign, several in _SHARED_SYMBOLS.items():
        if sign in text:
            text = text.replace(sign, "")
            if currency not in several:
                choices = [f"{text.strip()} {each}" for each in several]
                raise Doubt(say("delivery-which-currency", written=written[:40]), choices, where)
    if not currency:
        raise Doubt(say("delivery-no-currency", written=written[:40]), where=where)
    if not is_currency(currency):
        raise Doubt(say("shelf-no-currency"), where=where)
    text = re.sub(r"[,.]?[-–—]+\s*$", "", text).strip()  # "12,-"
    try:
        amount = read_number(text, where)
    except AmountError as fault:
        found = re.fullmatch(r"(\d{1,3})[.,](\d{3})", text)
        choices = _both(found[1], found[2], currency) if found else []
        raise Doubt(fault.says, choices, where) from fault
    if amount > 10**9:
        raise Doubt(say("delivery-no-money", written=written[:40]), where=where)
    return Money(amount, currency)


def _both(whole: str, part: str, currency: str) -> list[str]:
    """1,250 as decimals, in a spelling that is asked about no more, and as thousands."""
    bare = part.rstrip("0")
    decimals = f".{bare}0" if len(bare) == len(part) else f".{bare}" if bare else ""
    return [f"{whole}{decimals} {currency}", f"{whole}{part} {currency}"]
