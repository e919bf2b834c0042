"""Melt and heat: what should not be warm, wet or near a heater, by the order of the steps."""

import re
from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.lists import every, once
from bench.shapes.recipe import Component, Finding, Ingredient, RecipeLine, RecipeMelt, RecipeStep
from bench.shapes.units import MilliK
from bench.steps import by_hand, heats, puts_in
from bench.whole import temperature, warmer
from bench.words import say, say_all

SAID_C = re.compile(r"\b(\d{2,3})\s*°\s*C")
WARM_FIZZ_MK = 50_000  # bicarbonate begins to give off its gas near 50 °C (excipients handbook, second-hand)
COOLING_MS = 5 * 60_000  # a shorter wait is not taken for cooling: common practice
WATER_BATHS = ("water_bath", "bain_marie", "double_boiler")


def heated_fragrance(subject: Subject) -> Iterator[Finding]:
    """Fragrance among what is melted, or in the vessel already when the heat comes on."""
    for where, step, component in melts(subject):
        already = weighed_before(subject, where, step, component)
        for line in lines_of(component, [*step["of"], *already]):
            if subject.kind(line["ingredient"]) == "fragrance":
                yield finding(
                    "fragrance-heated",
                    "look",
                    where,
                    say("checks-fragrance-heated", name=subject.ingredient(line)["name"]),
                )


def warm_fragrance(subject: Subject) -> Iterator[Finding]:
    """Fragrance weighed into what has just been melted, with no wait between."""
    for melted, melt, component in melts(subject):
        warm = vessels_of_lines(component, melt["of"])
        for step in component["steps"]:
            where = f"{component['id']}.{step['id']}"
            if not puts_in(step) or step["into"] not in warm:
                continue
            if not subject.order.precedes(melted, where) or _cools(subject, melted, where):
                continue
            for line in lines_of(component, step["lines"]):
                ingredient = subject.ingredient(line)
                if subject.kind(line["ingredient"]) == "fragrance":
                    yield from _too_warm_for(ingredient, where, _cooled_to(step, melt["to_mk"]))


def _cooled_to(step: RecipeStep, reached: MilliK | None) -> MilliK | None:
    """How warm it is by then: as the step's own words have it, "below 55 °C", else as the melt left it."""
    said = [int(each) * 1000 for each in every(SAID_C, f"{step['title']} {step['says']}", 1)]
    return min(said, default=reached) if reached is None else min([reached, *said])


def _too_warm_for(fragrance: Ingredient, where: str, reached: MilliK | None) -> Iterator[Finding]:
    """A fragrance in what was heated so far, unless its own papers allow that."""
    most = fragrance["most_mk"]
    if most is None or reached is None:
        yield finding(
            "fragrance-warm-unknown",
            "know",
            where,
            say(
                "checks-fragrance-own-limit-unknown" if most is None else "checks-fragrance-melt-unknown",
                name=fragrance["name"],
            ),
            why=say("checks-fragrance-warm-why"),
            by="" if reached is None else say("checks-melt-ends-at", temperature=temperature(reached)),
        )
    elif reached > most:
        told = {"name": fragrance["name"], "reached": temperature(reached), "most": temperature(most)}
        yield finding(
            "fragrance-warm",
            "look",
            where,
            say("checks-fragrance-warm", **told),
            by=say("checks-too-warm", by=warmer(reached - most)),
        )


def past_the_limit(subject: Subject) -> Iterator[Finding]:
    """A melt that goes past what the ingredient's own sheet allows, or a base whose limit is not given."""
    for where, step, component in melts(subject):
        for line in lines_of(component, step["of"]):
            ingredient = subject.ingredient(line)
            most, reached = ingredient["most_mk"], step["to_mk"]
            if subject.kind(line["ingredient"]) == "fragrance":
                continue
            if most is None or reached is None:
                if subject.kind(line["ingredient"]) in ("soap_base", "whipping_base"):
                    yield finding(
                        "base-limit-unknown",
                        "know",
                        where,
                        say("checks-base-limit-unknown", name=ingredient["name"])
                        if most is None
                        else say("checks-base-end-unknown", name=ingredient["name"]),
                        do=say("checks-base-limit-unknown-do")
                        if most is None
                        else say("checks-base-end-unknown-do"),
                    )
            elif reached > most:
                yield finding(
                    "base-too-warm",
                    "look",
                    where,
                    say(
                        "checks-base-too-warm",
                        name=ingredient["name"],
                        reached=temperature(reached),
                        most=temperature(most),
                    ),
                    why=say("checks-base-too-warm-why", kind=subject.kind(line["ingredient"]) or "other"),
                    by=say("checks-too-warm", by=warmer(reached - most)),
                )


def warm_fizz(subject: Subject) -> Iterator[Finding]:
    """Bicarbonate heated, or met by a melt, past the warmth at which it begins to give off its gas."""
    for melted, melt, component in melts(subject):
        reached = melt["to_mk"]
        if (reached is not None and reached <= WARM_FIZZ_MK) or component not in subject.fizzing:
            continue
        for where in _meets_fizz(subject, melted, melt, component):
            if _cools(subject, melted, where):
                continue
            yield finding(
                "warm-fizz",
                "look" if reached is not None else "know",
                where,
                say("checks-warm-fizz", title=melt["title"], reached=temperature(reached))
                if reached is not None
                else say("checks-warm-fizz-unknown", title=melt["title"]),
                by=say("checks-warm-fizz-by", by=warmer(reached - WARM_FIZZ_MK))
                if reached is not None
                else "",
                do=say("checks-warm-fizz-do") if reached is not None else say("checks-warm-fizz-unknown-do"),
            )


def water_bath(subject: Subject) -> Iterator[Finding]:
    """A vessel out of a water bath that comes to a fizzing mix without being wiped dry."""
    for melted, melt, component in melts(subject):
        bath = melt["heater"].lower().replace(" ", "_").replace("-", "_") in WATER_BATHS
        if not bath or component not in subject.fizzing:
            continue
        for where in _meets_fizz(subject, melted, melt, component):
            steps = subject.order.between(melted, where)
            if not any(subject.order.steps[key]["does"] == "wipe" for key in steps):
                yield finding("water-bath", "look", where, say("checks-water-bath", title=melt["title"]))


def alcohol(subject: Subject) -> Iterator[Finding]:
    """Alcohol in hand while a heater may be on: no need says which of the two comes first."""
    order = subject.order
    melts = [key for key, step in order.steps.items() if heats(step)]
    has_alcohol = "alcohol" in subject.kinds
    for component in subject.recipe["components"]:
        sprays: list[str] = []
        beside: list[str] = []
        for step in component["steps"]:
            key = f"{component['id']}.{step['id']}"
            weighed = lines_of(component, step["lines"]) if puts_in(step) else []
            sprays_some = step["does"] == "spray" and has_alcohol  # what is sprayed, no step says
            if (
                not step["alcohol"]
                and not sprays_some
                and not any(subject.kind(line["ingredient"]) == "alcohol" for line in weighed)
            ):
                continue
            loose = [
                melt
                for melt in melts
                if melt != key and not order.precedes(melt, key) and not order.precedes(key, melt)
            ]
            if loose:
                sprays.append(key)
                beside += [melt for melt in loose if melt not in beside]
        if sprays:
            yield finding(
                "alcohol-heater",
                "look",
                sprays[0],
                say("checks-alcohol", sprays=_titles(subject, sprays), melts=_titles(subject, beside)),
                why=say("checks-alcohol-why"),
                do=say("checks-alcohol-do"),
            )


def melts(subject: Subject) -> Iterator[tuple[str, RecipeMelt, Component]]:
    """Every melt: "component.step", the step and its component."""
    for component in subject.recipe["components"]:
        for step in component["steps"]:
            if heats(step):
                yield f"{component['id']}.{step['id']}", step, component


def lines_of(component: Component, ids: list[str]) -> list[RecipeLine]:
    return [line for line in component["lines"] if line["id"] in ids]


def vessels_of_lines(component: Component, ids: list[str]) -> set[str]:
    """The vessels, by label, that these lines are weighed into."""
    return {
        step["into"]
        for step in component["steps"]
        if puts_in(step) and any(key in ids for key in step["lines"])
    }


def weighed_before(subject: Subject, melted: str, melt: RecipeMelt, component: Component) -> list[str]:
    """The lines that are in the vessel of a melt when it begins."""
    warm = vessels_of_lines(component, melt["of"])
    return [
        line
        for step in component["steps"]
        if puts_in(step)
        and step["into"] in warm
        and subject.order.precedes(f"{component['id']}.{step['id']}", melted)
        for line in step["lines"]
        if line not in melt["of"]
    ]


def _cools(subject: Subject, melted: str, where: str) -> bool:
    return subject.order.waited_ms(melted, where) >= COOLING_MS


def _meets_fizz(subject: Subject, melted: str, melt: RecipeMelt, component: Component) -> list[str]:
    """Where what is melted meets the bicarbonate: the melt itself, when they share a vessel; else the
    steps that tip the one vessel into the other; else, as no step says so, the next thing done."""
    dry = vessels_of_lines(component, [line["id"] for line in subject.carbonates(component)])
    warm = vessels_of_lines(component, melt["of"])
    if warm & dry:
        return [melted]
    later = [
        (key, step)
        for step in component["steps"]
        if by_hand(step) and subject.order.precedes(melted, key := f"{component['id']}.{step['id']}")
    ]
    tipped = [
        key
        for key, step in later
        if (step["into"] in dry and set(step["tips"]) & warm)
        or (step["into"] in warm and set(step["tips"]) & dry)
    ]
    return tipped or [key for key, step in later if step["does"] != "wipe"][:1]


def _titles(subject: Subject, keys: list[str]) -> str:
    """Step titles in quotes: at most three, and how many more."""
    titles = once(say("checks-quoted", title=subject.order.steps[key]["title"]) for key in keys)
    more = [say("checks-more-steps", count=len(titles) - 2)] if len(titles) > 3 else []
    return say_all([*titles[:2], *more] if more else titles)
