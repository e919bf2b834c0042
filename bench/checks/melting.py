"""Melting: bursts and temperatures out of the usual, more heat than a melt can take, and a vessel that does not suit.

What is usual is common practice; what a substance melts at is the table's.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from bench.checks.finding import finding
from bench.checks.heat import lines_of, melts, vessels_of_lines, weighed_before
from bench.checks.subject import SOAP, Subject
from bench.heating import burst_plan, heat_uj, in_bursts
from bench.materials import is_metal
from bench.shapes.kit import Heater
from bench.shapes.recipe import Component, Finding, RecipeLine, RecipeMelt
from bench.shapes.units import MilliK
from bench.sizing import vessels_of
from bench.sources import Cited
from bench.substances import has, source_of
from bench.whole import half_even, span, temperature, warmer
from bench.words import say, say_all

# All of these are common practice.
LONG_BURST_MS = 60_000  # in a microwave bursts are 10 to 30 s
LONG_HEAT_MS = 10 * 60_000
DIRECT = re.compile(
    r"hob|stove|hot ?plate|cooker|burner|herd|kochplatte|gas|cuisini|plaque|fog[oó]n|fornell|piastra",
    re.IGNORECASE,
)
BASE_MARGIN_MK = 30_000  # so far past the end of its melting range a base is scorched
FAT_MARGIN_MK = 50_000
MUCH_BUTTER = Fraction(20, 100)  # of its part: with less, the rest decides how it sets
OVERSHOOT_MK = 20_000  # so far past its end, where no limit was copied from its papers


def long_bursts(subject: Subject) -> Iterator[Finding]:
    for where, melt, _ in melts(subject):
        longest = max(melt["burst_ms"], melt["last_burst_ms"])
        if in_bursts(melt["heater"]) and longest > LONG_BURST_MS:
            yield finding(
                "long-burst",
                "look",
                where,
                say("checks-long-burst", title=melt["title"], span=span(longest)),
                by=say("checks-long-burst-by"),
            )


def long_heat(subject: Subject) -> Iterator[Finding]:
    """Over a flame or a plate, for longer than anybody looks away from fat."""
    for where, melt, _ in melts(subject):
        if DIRECT.search(melt["heater"]) and melt["burst_ms"] > LONG_HEAT_MS:
            yield finding(
                "long-heat",
                "look",
                where,
                say("checks-long-heat", title=melt["title"], span=span(melt["burst_ms"])),
                by=say("checks-long-heat-by", span=span(LONG_HEAT_MS)),
            )


def odd_warmth(subject: Subject) -> Iterator[Finding]:
    """An end below what the table has something melt at, or far past it."""
    for where, melt, component in melts(subject):
        reached, known = melt["to_mk"], list(_melting(subject, melt, component))
        if reached is None or not known:
            continue
        hardest = max(known, key=lambda each: each.low)
        stands = max(known, key=lambda each: each.most)
        if reached < hardest.low:
            yield finding(
                "too-cool-to-melt",
                "look",
                where,
                say("checks-too-cool-to-melt", name=hardest.name, reached=temperature(reached)),
                why=say("checks-melting-range", low=temperature(hardest.low), high=temperature(hardest.high)),
                by=say("checks-too-cool-by", by=warmer(hardest.low - reached)),
                source=hardest.source,
            )
        elif reached > stands.most:
            yield finding(
                "odd-warmth",
                "look",
                where,
                say("checks-odd-warmth", name=stands.name, reached=temperature(reached)),
                why=say("checks-melting-range", low=temperature(stands.low), high=temperature(stands.high)),
                by=say("checks-odd-warmth-by", by=warmer(reached - stands.high)),
                source=stands.source,
            )


def grainy(subject: Subject) -> Iterator[Finding]:
    """Much of a butter that sets in several crystal forms: which of them come, its cooling decides."""
    told: set[str] = set()
    for where, melt, component in melts(subject):
        for line in lines_of(component, melt["of"]):
            key, found = line["ingredient"], subject.substance(line["ingredient"])
            share = subject.shares[key].get(component["id"], Fraction(0))
            if found and has(found, "sets_in_forms") and share >= MUCH_BUTTER and key not in told:
                told.add(key)
                yield finding(
                    "grainy",
                    "know",
                    where,
                    say("checks-grainy", name=subject.ingredient(line)["name"]),
                    source=source_of(found, "sets_in_forms"),
                )


class _Melting(NamedTuple):
    name: str
    low: MilliK
    high: MilliK
    most: MilliK
    source: Cited


def _melting(subject: Subject, melt: RecipeMelt, component: Component) -> Iterator[_Melting]:
    """What of a melt the table has a melting range of."""
    for line in lines_of(component, melt["of"]):
        found = subject.substance(line["ingredient"])
        if found and "melts_c" in found:
            low, high = (int(Fraction(degrees) * 1000) for degrees in found["melts_c"])
            most = high + (BASE_MARGIN_MK if found["kind"] in SOAP else FAT_MARGIN_MK)
            yield _Melting(subject.ingredient(line)["name"], low, high, most, source_of(found, "melts_c"))


def least_heat(subject: Subject) -> Iterator[Finding]:
    """Bursts that take a small melt far past its end, at what the kit's heater gives."""
    for where, melt, component in melts(subject):
        heater = _heater(subject, melt)
        lines = lines_of(component, melt["of"])
        from_mk, to_mk = melt["from_mk"], melt["to_mk"]
        if not heater or not heater["absorbed_w"] or not in_bursts(melt["heater"]):
            continue  # a water bath gets no hotter than its water, and is lifted out of at any look
        if from_mk is None or to_mk is None:
            continue
        needs_uj, uj_per_mk = _heat_of(subject, lines, from_mk, to_mk)
        if not needs_uj:
            continue
        watts = heater["absorbed_w"]
        bursts = burst_plan(needs_uj, watts, melt["burst_ms"], melt["last_burst_ms"], melt["rest_ms"])
        gives_uj = 1000 * watts * sum(burst["ms"] for burst in bursts)
        ends_mk = to_mk + half_even(gives_uj - needs_uj, uj_per_mk)
        most = _allowed(subject, lines, to_mk)
        if bursts and ends_mk > most:
            yield finding(
                "least-heat",
                "look",
                where,
                say(
                    "checks-least-heat",
                    title=melt["title"],
                    gives=f"{half_even(gives_uj, 1_000_000)} J",
                    needs=f"{half_even(needs_uj, 1_000_000)} J",
                ),
                why=say(
                    "checks-least-heat-why",
                    ends=temperature(half_even(ends_mk, 1000) * 1000),
                    most=temperature(most),
                ),
                by=say("checks-least-heat-by", heater=heater["name"], watts=f"{watts} W"),
            )


def _heater(subject: Subject, melt: RecipeMelt) -> Heater | None:
    heaters = subject.kit["heaters"] if subject.kit else []
    return next((each for each in heaters if each["kind"] == melt["heater"]), None)


def _heat_of(subject: Subject, lines: list[RecipeLine], from_mk: MilliK, to_mk: MilliK) -> tuple[int, int]:
    """The heat that lines take as written, and what warms them by a thousandth of a degree once melted, in µJ; 0 where
    one does not say."""
    needs = per_mk = 0
    for line in lines:
        heat, mg = subject.ingredient(line)["heat"], half_even(line["ug"] or 0, 1000)
        if heat is None or not mg:
            return 0, 0
        needs += heat_uj(mg, heat, from_mk, to_mk)
        per_mk += mg * heat["liquid_j_per_kg_k"]
    return needs, half_even(per_mk, 1000)


def _allowed(subject: Subject, lines: list[RecipeLine], to_mk: MilliK) -> MilliK:
    """How warm it may get: the least that its papers allow, else a little past its end."""
    limits = [subject.ingredient(line)["most_mk"] for line in lines]
    return min((limit for limit in limits if limit is not None), default=to_mk + OVERSHOOT_MK)


def heated_alcohol(subject: Subject) -> Iterator[Finding]:
    """Alcohol among what is melted, or in the vessel already when the heat comes on."""
    for where, melt, component in melts(subject):
        already = weighed_before(subject, where, melt, component)
        for line in lines_of(component, [*melt["of"], *already]):
            if subject.kind(line["ingredient"]) == "alcohol":
                yield finding(
                    "alcohol-heated",
                    "look",
                    where,
                    say("checks-alcohol-heated", name=subject.ingredient(line)["name"]),
                    why=say("checks-alcohol-why"),
                )


def metal(subject: Subject) -> Iterator[Finding]:
    """A melt in the microwave for which the kit has metal alone."""
    if subject.kit is None:
        return
    for where, melt, component in melts(subject):
        if not in_bursts(melt["heater"]):
            continue
        for label in sorted(vessels_of_lines(component, melt["of"])):
            having = vessels_of(subject.kit, component["vessel"] if label == "bowl" else label)
            if having and all(map(is_metal, having)):
                yield finding(
                    "metal",
                    "look",
                    where,
                    say("checks-metal", names=say_all([each["name"] for each in having])),
                )
