"""Money: decimals as text, exact fractions in between, and never a float.

Babel knows the currencies of ISO 4217 and how many decimals each is counted in; this module is the
only door to it, and it is imported when first used.
"""

from fractions import Fraction
from functools import lru_cache

from bench.entries import is_decimal
from bench.errors import SettingError
from bench.whole import half_even, ten_to
from bench.words import say


def is_currency(code: str) -> bool:
    """Whether ISO 4217 has, or had, this code."""
    from babel.numbers import list_currencies

    return code in list_currencies()


def places_of(currency: str) -> int:
    """How many decimals a currency is counted in: 2 for EUR, 0 for JPY, 3 for BHD."""
    from babel.numbers import get_currency_precision

    places: int = get_currency_precision(currency)
    return places


@lru_cache(maxsize=512)
def read_money(written: str, where: str) -> Fraction:
    """A decimal as text, "12.50", exactly; SettingError when it is not one."""
    if not is_decimal(written):
        raise SettingError(where, say("money-unread"))
    return Fraction(written)


def money_text(value: Fraction, places: int) -> str:
    """An amount with so many decimals, half to even: 1/8 with two is "0.12"."""
    whole = ten_to(places)
    shown = half_even(value.numerator * whole, value.denominator)
    units, rest = divmod(abs(shown), whole)
    sign = "-" if shown < 0 else ""
    return f"{sign}{units}.{rest:0{places}d}" if places else f"{sign}{units}"


def sharing(values: list[Fraction], places: int) -> list[str]:
    """Amounts, none negative, with so many decimals, which add up to their sum with as many.

    Each is cut off, and what is missing to the sum goes to those that lost most (largest remainders): none is off by a
    whole last digit.
    """
    scaled = [value * ten_to(places) for value in values]
    whole = [value.numerator // value.denominator for value in scaled]
    missing = round(sum(scaled, Fraction(0))) - sum(whole)
    for index in sorted(range(len(whole)), key=lambda i: whole[i] - scaled[i])[:missing]:
        whole[index] += 1
    return [money_text(Fraction(units, ten_to(places)), places) for units in whole]
