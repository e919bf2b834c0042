"""The label of what is neither a cosmetic nor a mixture under CLP: in the US what scents the air, anywhere what decorates.

General rules on goods count there: in the US those under the Fair Packaging and Labeling Act, in the EU and the UK those
on general product safety. How far each was read stands with its source.
"""

from bench.label_list import Listing
from bench.label_net import hundredths_of_an_ounce
from bench.shapes.record import LabelNeed, Sourced
from bench.words import say


def goods_needs(
    listing: Listing, net_mg: int, names_itself: bool, has_place: bool, has_contact: bool
) -> list[LabelNeed]:
    """What has to stand on it. Whether the title says what it is, and what is said of the maker, the caller knows."""
    market, options = listing.market, listing.options
    if market == "us":
        asked = [
            (say("label-need-what"), names_itself, goods_source("500.4")),
            (say("label-need-net-us"), hundredths_of_an_ounce(net_mg) > 0, goods_source("500.6")),
            (say("label-need-place"), has_place, goods_source("500.5")),
        ]
    else:
        has_batch = bool(options.get("batch") or listing.state["number"])
        is_named = bool(options.get("maker")) and (market == "uk" or has_contact)
        asked = [
            (
                say("label-need-maker", market=market),
                is_named,
                say("label-source-safety", market=market, paragraph="6"),
            ),
            (say("label-need-batch"), has_batch, say("label-source-safety", market=market, paragraph="5")),
        ]
    return [{"what": what, "there": there, "source": source} for what, there, source in asked]


def goods_source(section: str) -> str:
    return say("label-source-goods", section=section)


def goods_open(listing: Listing) -> list[Sourced]:
    return [{"says": say("label-open-goods"), "source": say("label-source-hazards", market=listing.market)}]
