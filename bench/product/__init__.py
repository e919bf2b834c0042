"""What follows from what a product is for and where it is sold: which laws, which category of scent, which duties.

    use_row("left_on")["categories"]      ["5A", "5B", "5C", "5D"]
    stands(recipe, id, marks)["duties"]   what is due, how it stands, and where that is from

All of it is rows of `table.json` (bench/shapes/product.py), each with its source. It tells what is known here and no
more: the law where it is sold rules.
"""

from collections.abc import Iterable
from typing import NamedTuple, cast

from bench.lists import kept
from bench.shapes.product import (
    AnnexLimit,
    Ban,
    Duty,
    DutyMark,
    DutyStands,
    Law,
    LawStands,
    ProductStands,
    ProductTable,
    UseRow,
)
from bench.shapes.recipe import MeasuredRecipe, ProductUse, SoldIn, WrittenRecipe
from bench.sources import Cited, cited
from bench.table import read_table
from bench.words import say

SOAP = frozenset({"soap_base"})


@kept
def _table() -> ProductTable:
    return cast(ProductTable, read_table("product/table.json"))


def all_duties() -> list[Duty]:
    return _table()["duties"]


def all_laws() -> list[Law]:
    return _table()["laws"]


def limits() -> list[AnnexLimit]:
    return _table()["limits"]


def bans() -> list[Ban]:
    return _table()["bans"]


def use_row(use: ProductUse) -> UseRow:
    return next(row for row in _table()["uses"] if row["use"] == use)


def stays_on(written: WrittenRecipe) -> bool | None:
    """As the recipe says, else as its use tells; None where neither does."""
    said, use = written.get("stays_on"), written.get("use")
    return use_row(use)["stays_on"] if said is None and use else said


def product_of(made: MeasuredRecipe, newest: MeasuredRecipe) -> MeasuredRecipe:
    """The recipe of a batch; one made before its use and its markets were said goes by the newest version's answer."""
    recipe = made.copy()
    if "use" not in made and "use" in newest:
        recipe["use"] = newest["use"]
    if "sold_in" not in made and "sold_in" in newest:
        recipe["sold_in"] = newest["sold_in"]
    return recipe


class Product(NamedTuple):
    """What it is for, where it is sold (None: not said) and whether a soap base is in it."""

    use: ProductUse | None
    sold_in: list[SoldIn] | None
    is_soap: bool = False


def laws_of(product: Product) -> list[Law]:
    """Those that apply, in the order of the table; none of what does not say its use and its markets."""
    return [
        law
        for law in all_laws()
        if product.use in law["uses"]
        and _among(law["markets"], product.sold_in or [])
        and (not law.get("soap") or product.is_soap)
    ]


def duties_of(product: Product) -> list[Duty]:
    laws, sold_in = {law["id"] for law in laws_of(product)}, product.sold_in or []
    return [duty for duty in all_duties() if laws & {*duty["laws"]} and _among(duty["markets"], sold_in)]


def is_due(duty: str) -> bool:
    """Whether there is a duty of that id."""
    return any(each["id"] == duty for each in all_duties())


def is_of_studio(duty: str) -> bool:
    return any(each["id"] == duty and each["of"] == "studio" for each in all_duties())


def _when(mark: DutyMark) -> tuple[int, str]:
    return mark["at"], mark["id"]


def holding(marks: Iterable[DutyMark]) -> list[DutyMark]:
    """Of what was said of each duty, the last by (at, id)."""
    last: dict[tuple[str, str], DutyMark] = {}
    for mark in sorted(marks, key=_when):
        last[mark["about"] or "", mark["duty"]] = mark
    return list(last.values())


def stands(recipe: MeasuredRecipe, recipe_id: str, marks: Iterable[DutyMark]) -> ProductStands:
    """Laws and duties of a recipe, in words, and how each duty stands by what makers said of it."""
    product = Product(recipe.get("use"), recipe.get("sold_in"), _is_soap(recipe))
    return stands_of(product, recipe_id, marks)


def stands_of(product: Product, recipe_id: str, marks: Iterable[DutyMark]) -> ProductStands:
    """The same of a product that may be no recipe's yet; then `recipe_id` is ""."""
    sold_in = product.sold_in
    held = {(mark["about"] or "", mark["duty"]): mark for mark in holding(marks)}
    duties = [
        _duty(duty, held.get(("" if duty["of"] == "studio" else recipe_id, duty["id"])), sold_in or [])
        for duty in duties_of(product)
    ]
    return {
        "use": product.use,
        "sold_in": sold_in,
        "laws": [_law(law, sold_in or []) for law in laws_of(product)],
        "duties": duties,
        "open": sum(duty["state"] == "open" for duty in duties),
    }


def _law(law: Law, sold_in: list[SoldIn]) -> LawStands:
    markets = _among(law["markets"], sold_in)
    return {
        "id": law["id"],
        "markets": markets,
        "says": say(f"product-law-{law['id']}"),
        **_cited(law, markets),
    }


def _cited(row: Law | Duty, markets: list[SoldIn]) -> Cited:
    """Where it is from, and where that it holds in Northern Ireland is from."""
    own = row.get("source_ni") if "ni" in markets else None
    if own is None:
        return cited(row["source"])
    if markets == ["ni"]:
        return cited(own)
    told = cited(row["source"])
    return {**told, "source": f"{told['source']}; {cited(own)['source']}"}


def _duty(duty: Duty, mark: DutyMark | None, sold_in: list[SoldIn]) -> DutyStands:
    markets = _among(duty["markets"], sold_in)
    return {
        "id": duty["id"],
        "of": duty["of"],
        "markets": markets,
        "says": say(f"product-duty-{duty['id']}"),
        "state": mark["state"] if mark else "open",
        "day": mark["day"] if mark else None,
        "note": mark["note"] if mark else "",
        "more": say("product-small-free") if duty.get("small_free") else "",
        "since": duty.get("since", ""),
        **_cited(duty, markets),
    }


def _among(markets: list[SoldIn], sold_in: list[SoldIn]) -> list[SoldIn]:
    return [market for market in markets if market in sold_in]


def _is_soap(recipe: MeasuredRecipe) -> bool:
    """Whether a line of it is a soap base: what is sold only as soap is no cosmetic in the United States."""
    return any(
        recipe["ingredients"][line["ingredient"]]["kind"] in SOAP
        for component in recipe["components"]
        for line in component["lines"]
    )
