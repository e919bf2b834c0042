"""What was looked at on a label, and what was not: that is said before all else."""

from collections.abc import Iterator

from bench.label_clp import clp_open
from bench.label_goods import goods_open, goods_source, safety_source
from bench.label_list import Listing
from bench.label_net import stands_low
from bench.label_rules import (
    article_source,
    is_cosmetic,
    is_goods,
    is_low,
    is_mixture,
    keeps_longer,
    on_leaflet,
    us_source,
    use_of,
)
from bench.shapes.record import CheckedRule, Clp, Sourced
from bench.words import say, say_all


def checked(listing: Listing, mixture: Clp | None) -> list[CheckedRule]:
    market = listing.market
    if mixture:
        told = [
            (say("label-checked-classes"), say("label-source-mixture")),
            (say("label-checked-digits"), say("label-source-digits")),
        ]
    elif is_goods(listing):
        told = (
            [(say("label-checked-net-letters"), goods_source("letters"))]
            if market == "us"
            else [(say("label-checked-digits"), say("label-source-digits"))]
        )
    elif market == "us":
        told = [
            (say("label-checked-order-us"), say("label-source-us", section="701.3(a)")),
            (say("label-checked-free-us"), say("label-source-us", section="701.3(f)(2)")),
            (say("label-checked-colours"), say("label-source-us", section="701.3(f)(3)")),
            (
                say("label-checked-letters"),
                say("label-source-us", section="701.3(b), 701.13; 16 CFR 500.21"),
            ),
        ]
    else:
        told = [
            (say("label-checked-order-eu"), article_source(market, "g")),
            (say("label-checked-free-eu"), say("label-source-eu-second-hand", point="g")),
            (say("label-checked-colours"), say("label-source-eu-second-hand", point="g")),
            (say("label-checked-allergens"), say("label-source-allergens")),
            (say("label-checked-digits"), say("label-source-digits")),
        ]
    if on_leaflet(listing):
        told.append((say("label-checked-leaflet"), say("label-source-leaflet")))
    if is_low(listing):
        told.append((say("label-checked-low"), us_source(listing, "701.13", "net")))
    if listing.options.get("net_mg") is not None:
        told.append((say("label-checked-net"), say("label-source-practice")))
    return [{"what": what, "source": source} for what, source in told]


def not_checked(listing: Listing, mixture: Clp | None) -> list[Sourced]:
    """What is for the maker to look at: it is said before all else."""
    market, options = listing.market, listing.options
    told: list[Sourced] = clp_open(listing, mixture) if mixture else []
    if is_goods(listing):
        told += goods_open(listing)
    asked: list[tuple[str, str]] = []
    if listing.ahead:
        names = say_all(list(listing.ahead))
        asked.append((say("label-open-ahead", names=names), say("label-source-weight")))
    if options.get("net_mg") is None:
        asked.append((say("label-open-net"), say("label-source-practice")))
    if use_of(listing) is None:
        asked.append((say("label-open-use"), say("label-source-practice")))
    asked += _open_us(listing) if market == "us" else _open_europe(listing)
    if options.get("best_before") and not options.get("lots_best_before"):
        asked.append((say("label-open-lots"), say("label-source-practice")))
    return told + [{"says": says, "source": source} for says, source in asked]


def _open_us(listing: Listing) -> Iterator[tuple[str, str]]:
    options = listing.options
    if stands_low(listing.market, options.get("size")) is None:
        yield say("label-open-place"), us_source(listing, "701.13", "net")
    if is_cosmetic(listing):
        yield say("label-open-language"), say("label-source-us", section="701.2(b)")
    yield say("label-open-made-for"), us_source(listing, "701.12", "place")
    if not options.get("origin"):
        yield say("label-open-origin"), say("label-source-origin")


def _open_europe(listing: Listing) -> Iterator[tuple[str, str]]:
    market, options = listing.market, listing.options
    if is_cosmetic(listing):
        if options.get("single_use") is None and options.get("opened_months"):
            yield say("label-open-single"), say("label-source-opened")
        if keeps_longer(listing) is None:
            yield say("label-open-life"), article_source(market, "c")
        if on_leaflet(listing):
            yield say("label-open-leaflet"), say("label-source-leaflet")
        if not options.get("origin"):
            yield say("label-open-origin"), article_source(market, "a")
    if market == "uk":
        yield say("label-open-northern-ireland"), say("label-source-northern-ireland")
    else:
        yield say("label-open-language-eu"), _language_source(listing)


def _language_source(listing: Listing) -> str:
    if is_mixture(listing):
        return say("label-source-clp-language")
    if is_goods(listing):
        return safety_source("eu", "language")
    return say("label-source-language-eu")


def duties_open(listing: Listing) -> list[Sourced]:
    """Said before all else: work goes on, and whoever prints the label has seen it."""
    count = listing.options.get("open_duties")
    return (
        [{"says": say("label-open-duties", count=count), "source": say("label-source-duties")}]
        if count
        else []
    )
