"""The label: its ingredient list from what was really weighed, and what the rules of a market ask for.

Three markets: "us" (21 CFR), "eu" (Regulation (EC) 1223/2009, Article 19) and "uk" (the same article as it stands in
Great Britain, with its own responsible person, notice and list of allergens). The US and Europe differ at exactly
1.00 %: in the US what does not exceed 1 % may stand in any order after the rest, in Europe only what is below 1 %.
Colours come last in all.

`label_list.py` has the list, `label_names.py` the names, `label_net.py` the net content and the heights of letters,
`label_rules.py` what else a market asks, `label_clp.py` what a mixture bears instead, `label_goods.py` what goods do,
`label_plate.py` what stands on it in which order, `label_sheets.py` where labels come on a sheet of them. It claims no
lawfulness: `label_open.py` says what was looked at and what was not, and the law where it is sold rules.
"""

from bench.label_clp import clp
from bench.label_list import Listing, names_in, shares_of
from bench.label_net import least_heights, net_text, shortfall
from bench.label_open import checked, duties_open, not_checked
from bench.label_plate import leaflet, plate
from bench.label_rules import (
    heights,
    is_low,
    is_mixture,
    is_opened_idle,
    needs,
    on_leaflet,
    precautions,
    warn_of_the_product,
)
from bench.release import release_status
from bench.shapes.entries import Market
from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.record import Label, LabelOptions, Sourced
from bench.shapes.sheet import Sheet
from bench.shapes.state import State
from bench.words import say

__all__ = ["label", "least_heights", "names_in", "net_text", "shares_of", "shortfall"]


def _kept_back(state: State) -> list[Sourced]:
    """First of all: that the batch does not go out."""
    status = release_status(state)
    if status is None or status == "released":
        return []
    return [{"says": say("label-kept-back", verdict=status), "source": say("label-kept-back-source")}]


def label(recipe: MeasuredRecipe, sheet: Sheet, state: State, market: Market, options: LabelOptions) -> Label:
    """One batch's label for one market."""
    listing = Listing(recipe, sheet, state, market, options)
    rows = listing.rows()
    net_mg = options.get("net_mg")
    if net_mg is None:
        net_mg = sum(listing.piece_mg(component) for component in sheet["components"])
    letters = heights(listing, net_mg)
    cautions = precautions(listing)
    mixture = clp(listing, is_mixture(listing))
    warn_of_the_product(listing, mixture)
    months = None if is_opened_idle(listing) else options.get("opened_months")
    told: Label = {
        "market": market,
        "identity": options.get("identity") or recipe["title"],
        "ingredients": rows,
        "text": ", ".join(row["name"] for row in rows),
        "net_mg": net_mg,
        "net": net_text(net_mg, market),
        "shortfall_mg": shortfall(net_mg, market),
        "batch": options.get("batch") or state["number"],
        "opened": f"{months}M" if months else None,
        "best_before": options.get("best_before"),
        "maker": options.get("maker"),
        "precautions": cautions,
        "clp": mixture,
        "plate": [],
        "leaflet": [],
        "net_low": is_low(listing),
        "heights": letters,
        "needs": needs(listing, net_mg, cautions, mixture),
        "warnings": [*_kept_back(state), *listing.warnings],
        "not_checked": duties_open(listing) + not_checked(listing, mixture),
        "checked": checked(listing, mixture),
        "law": say("label-law"),
    }
    goes_with = leaflet(told) if on_leaflet(listing) else []
    told["leaflet"] = goes_with
    return {**told, "plate": plate(told, options.get("function"), options.get("origin"))}
