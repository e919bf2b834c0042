"""What a market asks of a label beside its list: what stands on it, in which words, and what was not looked at."""

import re
from typing import Literal

from bench.label_clp import clp_needs, warn_of_the_mixture
from bench.label_goods import goods_needs, goods_source
from bench.label_list import Listing
from bench.label_net import LEAST_NOMINAL_MG, hundredths_of_an_ounce, least_heights, stands_low
from bench.shapes.entries import Market
from bench.shapes.recipe import ProductUse
from bench.shapes.record import (
    Clp,
    LabelHeights,
    LabelNeed,
    LetterHeight,
    Sourced,
)
from bench.words import say, say_all

FIZZ_KINDS = frozenset({"bicarbonate", "carbonate"})
ACID_KINDS = frozenset({"acid", "citric_acid"})
IN_WATER = ("bath", "wash")
MOST_MONTHS = 30
# What a buyer knows by its name (common practice); a fanciful title needs one of these or a word of its own.
COMMON_NAMES = re.compile(
    r"\b(soap|bath (bomb|fizz|salts?|melt|oil|tablet|truffle|bar)|bubble bath|shower (steamer|gel|bar)|body wash"
    r"|scrub|lotion|balm|cream|(body|hand|foot) butter|hand wash|cleanser|shampoo|powder|body oil|mask|deodorant)s?\b",
    re.ASCII,
)
_ZIP = re.compile(r"\b[A-Z]{2},? [0-9]{5}(-[0-9]{4})?\b", re.ASCII)
_US_PHONE = re.compile(r"(^|[^0-9])(\+?1[ .-])?\(?[2-9][0-9]{2}\)?[ .-][0-9]{3}[ .-][0-9]{4}([^0-9]|$)")
_ELECTRONIC = re.compile(
    r"[^ @]+@[^ @]+\.[a-z]{2,}|(https?://|www\.)[^ ]+|[a-z0-9-]+\.(com|net|org|us)\b", re.ASCII
)
_UK_POSTCODE = re.compile(r"\b[A-Z]{1,2}[0-9][A-Z0-9]? ?[0-9][A-Z]{2}\b", re.ASCII)


def use_of(listing: Listing) -> ProductUse | None:
    """What it is for: as the maker says here, or in the recipe; else what fizzes is for the bath, and what stays on is left on."""
    said = listing.options.get("use")
    if said:
        return said
    if told := listing.recipe.get("use"):
        return told
    if listing.recipe["stays_on"]:
        return "left_on"
    if _fizzes(listing):
        return "bath"
    return None


def is_mixture(listing: Listing) -> bool:
    """What only scents the air is no cosmetic in the EU and the UK, but a mixture under CLP (from memory)."""
    return listing.market != "us" and use_of(listing) == "air"


def is_goods(listing: Listing) -> bool:
    """What nobody puts on the skin and CLP does not rule either: general rules on goods count (from memory)."""
    return use_of(listing) in ("air", "decoration") and not is_mixture(listing)


def is_cosmetic(listing: Listing) -> bool:
    return not is_goods(listing) and not is_mixture(listing)


def on_leaflet(listing: Listing) -> bool:
    """Whether list and cautions stand on a leaflet, a tag or a card: of cosmetics alone, and not in the US."""
    return bool(listing.options.get("leaflet")) and listing.market != "us" and is_cosmetic(listing)


def is_low(listing: Listing) -> bool:
    return bool(stands_low(listing.market, listing.options.get("size")))


def _kinds(listing: Listing) -> set[str]:
    return {listing.recipe["ingredients"][key]["kind"] for key in listing.used}


def _fizzes(listing: Listing) -> bool:
    kinds = _kinds(listing)
    return bool(kinds & FIZZ_KINDS and kinds & ACID_KINDS)


def _spelt(listing: Listing, keys: list[str]) -> str:
    return say_all([listing.spelt[key] for key in keys])


# How long it keeps


def is_opened_idle(listing: Listing) -> bool:
    """Whether a time after opening means nothing: what is used up at once is never open."""
    return bool(listing.options.get("single_use"))


def keeps_longer(listing: Listing) -> bool | None:
    """Whether it keeps for more than 30 months; None: nobody said. No piece outlives its lots."""
    options = listing.options
    months, today = options.get("keeps_months"), options.get("today")
    best, lots = options.get("best_before"), options.get("lots_best_before")
    if months:
        return months > MOST_MONTHS
    if best and today:
        return _is_later(best, today)
    if lots and today and not _is_later(lots, today):
        return False
    return None


def _is_later(day: str, today: str) -> bool:
    """Whether a day is more than 30 months after another."""
    (year, month, of_month), (year_now, month_now, now) = (map(int, each.split("-")) for each in (day, today))
    return (12 * (year - year_now) + month - month_now, of_month) > (MOST_MONTHS, now)


def _is_dated(listing: Listing) -> bool:
    """Art. 19(1)(c): a date up to 30 months, beyond them a time after opening where that means anything."""
    options = listing.options
    if not keeps_longer(listing):
        return bool(options.get("best_before"))
    return is_opened_idle(listing) or bool(options.get("opened_months"))


# What is printed


def precautions(listing: Listing) -> list[Sourced]:
    kinds, use, market = _kinds(listing), use_of(listing), listing.market
    told: list[Sourced] = [
        {"says": says, "source": say("label-source-maker")} for says in listing.options.get("precautions", [])
    ]
    if is_mixture(listing):
        return told  # its own statements stand on it
    practice = say("label-source-practice")
    if kinds & {"oil", "butter", "solubiliser"} and use in IN_WATER:
        told.append({"says": say("label-slippery", market=market), "source": practice})
    if kinds & {"fragrance", "citric_acid", "surfactant", "soap_base", "whipping_base"}:
        told.append({"says": say("label-eyes", market=market), "source": practice})
    if (
        market == "us"
        and use == "bath"
        and _foaming(listing)
        and listing.options.get("meant_for") != "adults"
    ):
        meant_for = listing.options.get("meant_for") or "all"
        told.append(
            {
                "says": say("label-law-foam", meant=meant_for),
                "source": say("label-source-us", section="740.17"),
            }
        )
    if market != "us" and any(_is(listing, key, "peroxide") for key in listing.weights):
        told.append(
            {"says": say("label-law-peroxide", market=market), "source": say("label-source-peroxide")}
        )
    if market == "eu" and _frees_formaldehyde(listing):
        told.append({"says": say("label-law-formaldehyde"), "source": say("label-source-formaldehyde")})
    return told


def _frees_formaldehyde(listing: Listing) -> bool:
    """Whether so much of a releaser is in it that over 0.001 % could be freed: no more than the releaser's own weight."""
    held = sum(each for key, each in listing.weights.items() if _is(listing, key, "formaldehyde"))
    return held * 100_000 > listing.total


def _foaming(listing: Listing) -> list[str]:
    """The names of detergents that foam."""
    return [key for key in listing.weights if _is(listing, key, "foams")]


def _is(
    listing: Listing, key: str, what: Literal["foams", "formaldehyde", "peroxide", "unlisted", "which"]
) -> bool:
    """Whether the table says so of a name."""
    return key in listing.known and listing.known[key].get(what, False)


# What is to be looked at


def warn_of_the_product(listing: Listing, mixture: Clp | None) -> None:
    if is_goods(listing):
        listing.warn(say("label-goods"), say("label-source-air"))
    elif listing.market == "us":
        _warn_us(listing)
    elif mixture:
        warn_of_the_mixture(listing, mixture)
    else:
        _warn_europe(listing)
    _warn_of_days(listing)
    if listing.recipe["looks_like_food"]:
        listing.warn(say("label-like-food"), say("label-source-food"))


def _warn_us(listing: Listing) -> None:
    kinds, use = _kinds(listing), use_of(listing)
    source = say("label-source-us", section="740.17")
    if _foaming(listing) and use == "bath":
        listing.warn(say("label-foam-directions"), source)
    elif (_foaming(listing) and use is None) or (
        kinds & {"surfactant", "whipping_base"} and not _foaming(listing) and use in (None, "bath")
    ):
        listing.warn(say("label-foam"), source)
    numbers = [key for key in listing.colours if key.startswith("ci ")]
    if numbers:
        listing.warn(
            say("label-colour-index", names=_spelt(listing, sorted(numbers))), say("label-source-colours")
        )
    unlisted = [key for key in listing.weights if _is(listing, key, "unlisted")]
    if unlisted:
        listing.warn(
            say("label-colour-unlisted", names=_spelt(listing, unlisted)), say("label-source-colours")
        )
    unknown = [key for key in listing.weights if key not in listing.known and key not in numbers]
    if unknown:
        listing.warn(say("label-english", names=_spelt(listing, unknown)), say("label-source-english"))
    if "soap_base" in kinds:
        listing.warn(say("label-soap"), say("label-source-us", section="701.20"))
    listing.warn(say("label-unproven"), say("label-source-us", section="740.10"))


def _warn_europe(listing: Listing) -> None:
    market = listing.market
    if listing.recipe["stays_on"] is None and listing.allergens:
        listing.warn(say("label-skin"), say("label-source-allergens"))
    if listing.allergens and market == "eu":
        listing.warn(say("label-more-allergens"), say("label-source-more-allergens"))
    if listing.newer:
        listing.warn(
            say("label-not-asked-allergens", names=say_all(list(listing.newer))),
            say("label-source-former-allergens"),
        )
    if market == "uk" and _frees_formaldehyde(listing):
        listing.warn(say("label-formaldehyde"), say("label-source-formaldehyde-uk"))
    untold = [
        about["name"]
        for about in (listing.recipe["ingredients"][key] for key in listing.used)
        if about["kind"] == "fragrance" and not (about["fragrance"] or {"allergens": []})["allergens"]
    ]
    if untold:
        listing.warn(say("label-allergens-untold", names=say_all(untold)), say("label-source-allergens"))
    which = [key for key in listing.colours if _is(listing, key, "which")]
    if which:
        listing.warn(
            say("label-which-number", names=_spelt(listing, sorted(which))),
            say("label-source-eu-second-hand", point="g"),
        )


def _warn_of_days(listing: Listing) -> None:
    options = listing.options
    best, today, lots = options.get("best_before"), options.get("today"), options.get("lots_best_before")
    source = say("label-source-practice")
    if best and today and best < today:
        listing.warn(say("label-past"), source)
    if best and lots and best > lots:
        listing.warn(say("label-beyond-lots", day=lots), source)
    if options.get("opened_months") and is_opened_idle(listing):
        listing.warn(say("label-opened-idle"), say("label-source-opened"))


def heights(listing: Listing, net_mg: int) -> LabelHeights:
    market = listing.market
    least = least_heights(market, listing.options.get("size"), net_mg)
    letters = listing.options.get("letters") or {}
    of_net = us_source(listing, "701.13", "letters") if market == "us" else say("label-source-digits")
    of_list = say("label-source-us", section="701.3(b)")
    least_list = least["list_um"] if is_cosmetic(listing) else None
    return {
        "list": _height(listing, "list", of_list, letters.get("list_um"), least_list),
        "net": _height(listing, "net", of_net, letters.get("net_um"), least["net_um"]),
    }


def us_source(listing: Listing, section: str, of_goods: str) -> str:
    """Where a rule is from in the US that goods have as cosmetics do."""
    return goods_source(of_goods) if is_goods(listing) else say("label-source-us", section=section)


def _height(listing: Listing, of: str, source: str, has: int | None, needs: int | None) -> LetterHeight:
    fits = None if has is None or needs is None else has >= needs
    if has is not None and needs is not None and not fits:
        listing.warn(say("label-too-small", of=of, has=has, least=needs), source)
    return {"least_um": needs, "has_um": has, "fits": fits}


# What has to stand on it


def needs(listing: Listing, net_mg: int, cautions: list[Sourced], mixture: Clp | None) -> list[LabelNeed]:
    if mixture:
        return clp_needs(listing, mixture, net_mg)
    options, market = listing.options, listing.market
    maker = options.get("maker") or ""
    identity = (options.get("identity") or listing.recipe["title"]).lower()
    is_known = bool(options.get("function") or COMMON_NAMES.search(identity))
    if is_goods(listing):
        return goods_needs(
            listing, net_mg, is_known, bool(_ZIP.search(maker)), bool(_ELECTRONIC.search(maker))
        )
    return (
        _needs_us(listing, net_mg, maker, is_known)
        if market == "us"
        else _needs_europe(listing, net_mg, maker, cautions)
    )


def _needs_us(listing: Listing, net_mg: int, maker: str, is_known: bool) -> list[LabelNeed]:
    has_contact = any(each.search(maker) for each in (_ZIP, _US_PHONE, _ELECTRONIC))
    return [
        _need(say("label-need-what"), is_known, say("label-source-us", section="701.11")),
        _need(
            say("label-need-net-us"),
            hundredths_of_an_ounce(net_mg) > 0,
            say("label-source-us", section="701.13"),
        ),
        _need(say("label-need-place"), bool(_ZIP.search(maker)), say("label-source-us", section="701.12")),
        _need(say("label-need-list"), bool(listing.weights), say("label-source-us", section="701.3")),
        _need(say("label-need-contact"), has_contact, say("label-source-contact")),
    ]


def _needs_europe(listing: Listing, net_mg: int, maker: str, cautions: list[Sourced]) -> list[LabelNeed]:
    options, market = listing.options, listing.market
    is_free_of_net = bool(options.get("single_use")) or 0 < net_mg < LEAST_NOMINAL_MG
    is_responsible = bool(_UK_POSTCODE.search(maker)) if market == "uk" else bool(maker)
    asked = [
        (say("label-need-responsible", market=market), is_responsible),
        (say("label-need-net-eu"), net_mg > 0 or is_free_of_net),
        (say("label-need-date"), _is_dated(listing)),
        (say("label-need-precautions"), bool(cautions)),
        (say("label-need-batch"), bool(options.get("batch") or listing.state["number"])),
        (say("label-need-function"), bool(options.get("function"))),
        (say("label-need-ingredients"), bool(listing.weights)),
    ]
    return [
        _need(what, there, article_source(market, letter))
        for letter, (what, there) in zip("abcdefg", asked, strict=True)
    ]


def _need(what: str, there: bool, source: str) -> LabelNeed:
    return {"what": what, "there": there, "source": source}


def article_source(market: Market, letter: str) -> str:
    if market == "uk":
        return say("label-source-uk", point=letter)
    return say("label-source-eu", point=letter)
