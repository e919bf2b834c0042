"""The label of what is neither a cosmetic nor a mixture under CLP: in the US what scents the air, anywhere what decorates.

General rules on goods count there: in the US those under the Fair Packaging and Labeling Act, in the EU and the UK those
on general product safety. How far each was read stands with its source.
"""

from bench.label_list import Listing
from bench.label_net import hundredths_of_an_ounce
from bench.shapes.entries import Market
from bench.shapes.record import LabelNeed, Sourced
from bench.words import say


def goods_needs(
    listing: Listing, net_mg: int, names_itself: bool, has_place: bool, has_contact: bool
) -> list[LabelNeed]:
    """What has to stand on it. Whether the title says what it is, and what is said of the maker, the caller knows."""
    market, options = listing.market, listing.options
    if market == "us":
        asked = [
            (say("label-need-what"), names_itself, goods_source("identity")),
            (say("label-need-net-us"), hundredths_of_an_ounce(net_mg) > 0, goods_source("net")),
            (say("label-need-place"), has_place, goods_source("place")),
        ]
    else:
        has_batch = bool(options.get("batch") or listing.state["number"])
        is_named = bool(options.get("maker")) and (market == "uk" or has_contact)
        asked = [
            (
                say("label-need-maker", market=market),
                is_named,
                safety_source(market, "maker"),
            ),
            (say("label-need-batch"), has_batch, safety_source(market, "batch")),
        ]
    return [{"what": what, "there": there, "source": source} for what, there, source in asked]


def goods_source(of: str) -> str:
    """Where the US asks so of goods: identity, place, net or letters."""
    return say("label-source-goods", of=of)


def safety_source(market: Market, of: str) -> str:
    """Where general product safety asks so: batch, maker or language."""
    return say("label-source-safety", of="uk" if market == "uk" else of)


def goods_open(listing: Listing) -> list[Sourced]:
    return [{"says": say("label-open-goods"), "source": say("label-source-hazards", market=listing.market)}]
