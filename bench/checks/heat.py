"""Melt and heat: what should not be warm, wet or near a heater, by the order of the steps."""

from collections.abc import Iterator

from bench.checks.finding import COMMON_PRACTICE, finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Component, Finding, RecipeLine, RecipeMelt
from bench.whole import celsius

WARM_FIZZ_MK = 50_000  # bicarbonate begins to give off its gas near 50 °C (excipients handbook, second-hand)
COOLING_MS = 5 * 60_000  # a shorter wait is not taken for cooling: common practice
WATER_BATHS = ("water_bath", "bain_marie", "double_boiler")


def heated_fragrance(subject: Subject) -> Iterator[Finding]:
    """Fragrance among what is melted, or in the vessel already when the heat comes on."""
    for where, step, component in _melts(subject):
        already = _weighed_before(subject, where, step, component)
        for line in _lines(component, [*step["of"], *already]):
            if subject.ingredient(line)["kind"] == "fragrance":
                yield finding(
                    "look",
                    where,
                    f"{subject.ingredient(line)['name']} is heated with the melt.",
                    why="Fragrance flashes off in the heat. The scent is lost, and its vapour can light.",
                    do="Add it after the melt, once that has cooled to what the supplier's sheet allows.",
                    source="the supplier's sheet (flash point); common practice",
                )


def warm_fragrance(subject: Subject) -> Iterator[Finding]:
    """Fragrance weighed into what has just been melted, with no wait between."""
    for melted, melt, component in _melts(subject):
        warm = _vessels(component, melt["of"])
        for step in component["steps"]:
            where = f"{component['id']}.{step['id']}"
            if step["kind"] != "weigh" or step["into"] not in warm:
                continue
            if not subject.order.precedes(melted, where) or _cools(subject, melted, where):
                continue
            for line in _lines(component, step["lines"]):
                ingredient = subject.ingredient(line)
                most, reached = ingredient["most_mk"], melt["to_mk"]
                if ingredient["kind"] != "fragrance" or (
                    most is not None and reached is not None and reached <= most
                ):
                    continue
                if most is None or reached is None:
                    yield finding(
                        "know",
                        where,
                        f"{ingredient['name']} goes into a fresh melt. "
                        + (
                            "Its own limit is not given."
                            if most is None
                            else "The recipe does not say how warm that is."
                        ),
                        why="Fragrance flashes off in too warm a melt. The scent is lost, and its vapour can light.",
                        by=f"the melt ends at {celsius(reached)}" if reached is not None else "",
                        do="Copy the warmest it may go into from the supplier's sheet, and let the melt cool to that.",
                        source="the supplier's sheet (flash point); common practice",
                    )
                else:
                    yield finding(
                        "look",
                        where,
                        f"{ingredient['name']} goes into a melt of {celsius(reached)}. Its own sheet allows {celsius(most)}.",
                        why="Fragrance flashes off in too warm a melt. The scent is lost, and its vapour can light.",
                        by=f"{celsius(reached - most)} too warm",
                        do="Add a wait for the melt to cool, or end the melt sooner.",
                        source="the supplier's sheet, as entered",
                    )


def past_the_limit(subject: Subject) -> Iterator[Finding]:
    """A melt that goes past what the ingredient's own sheet allows, or a base whose limit is not given."""
    for where, step, component in _melts(subject):
        for line in _lines(component, step["of"]):
            ingredient = subject.ingredient(line)
            most, reached = ingredient["most_mk"], step["to_mk"]
            if ingredient["kind"] == "fragrance":
                continue
            if most is None or reached is None:
                if ingredient["kind"] in ("soap_base", "whipping_base"):
                    yield finding(
                        "know",
                        where,
                        f"What is the warmest that {ingredient['name']} may get? The recipe does not say."
                        if most is None
                        else f"The recipe does not say how warm {ingredient['name']} gets.",
                        why="Past its limit a base dries out, yellows and turns rubbery. The limit differs from base to base.",
                        do="Copy the limit from the base's own sheet."
                        if most is None
                        else "Give the melt its end temperature.",
                        source="no published standard value was found; the base's own sheet rules",
                    )
            elif reached > most:
                yield finding(
                    "look",
                    where,
                    f"{ingredient['name']} is taken to {celsius(reached)}. Its own sheet allows {celsius(most)}.",
                    why="Past its limit a base dries out, yellows and turns rubbery.",
                    by=f"{celsius(reached - most)} too warm",
                    do="Lower the end temperature of the melt.",
                    source="its own sheet, as entered",
                )


def warm_fizz(subject: Subject) -> Iterator[Finding]:
    """Bicarbonate heated, or met by a melt, past the warmth at which it begins to give off its gas."""
    for melted, melt, component in _melts(subject):
        reached = melt["to_mk"]
        if (reached is not None and reached <= WARM_FIZZ_MK) or not subject.of_kind(component, "bicarbonate"):
            continue
        for where in _meets_fizz(subject, melted, melt, component):
            if _cools(subject, melted, where):
                continue
            yield finding(
                "look" if reached is not None else "know",
                where,
                f"What is melted in “{melt['title']}” reaches the bicarbonate at up to {celsius(reached)}."
                if reached is not None
                else f"How warm is what is melted in “{melt['title']}” when it meets the bicarbonate? The recipe does not say.",
                why="Bicarbonate begins to give off its gas near 50 °C, and that fizz is lost before the bath.",
                by=f"{celsius(reached - WARM_FIZZ_MK)} over 50 °C" if reached is not None else "",
                do="Melt it no further than it needs, and let it cool before it meets the dry mix."
                if reached is not None
                else "Give the melt its end temperature, and keep that below 50 °C.",
                source="excipients handbook (second-hand)",
            )


def water_in_fizz(subject: Subject) -> Iterator[Finding]:
    """Water, or rubbing alcohol and the water in it, poured into a dry fizzing mix. A spray to texture
    is judged as it goes, and is not meant."""
    for component in subject.parts:
        if not subject.of_kind(component, "bicarbonate"):
            continue
        for line in subject.of_kind(component, "water", "alcohol"):
            if not line["texture"]:
                name, holds = subject.ingredient(line)["name"], subject.ingredient(line)["kind"] == "alcohol"
                yield finding(
                    "know" if holds else "look",
                    f"{component['id']}.{line['id']}",
                    f"{name} goes into a dry fizzing mix as a set amount.",
                    why="Rubbing alcohol of 70 % by volume is more than a third water by weight, and water starts the fizz."
                    if holds
                    else "Water poured in starts the fizz at once. A fine spray, a little at a time, hardly does.",
                    by=line["written"],
                    do="Write it as “to texture” and spray it, or leave it out.",
                    source="70 % by volume is 62.8 % by mass (second-hand)" if holds else COMMON_PRACTICE,
                )


def water_bath(subject: Subject) -> Iterator[Finding]:
    """A vessel out of a water bath that comes to a fizzing mix without being wiped dry."""
    for melted, melt, component in _melts(subject):
        bath = melt["heater"].lower().replace(" ", "_").replace("-", "_") in WATER_BATHS
        if not bath or not subject.of_kind(component, "bicarbonate"):
            continue
        for where in _meets_fizz(subject, melted, melt, component):
            steps = subject.order.between(melted, where)
            if not any(subject.order.steps[key]["does"] == "wipe" for key in steps):
                yield finding(
                    "look",
                    where,
                    f"Nothing is wiped dry between “{melt['title']}” and the dry mix.",
                    why="A vessel out of a water bath drips, and one drop starts the fizz.",
                    do="Add a step that wipes the outside and the foot dry, or mark the step that does.",
                )


def alcohol(subject: Subject) -> Iterator[Finding]:
    """Alcohol in hand while a heater may be on: no need says which of the two comes first."""
    order = subject.order
    melts = [key for key, _ in order.of(kind="melt")]
    for component in subject.recipe["components"]:
        sprays: list[str] = []
        beside: list[str] = []
        for step in component["steps"]:
            key = f"{component['id']}.{step['id']}"
            weighed = _lines(component, step["lines"]) if step["kind"] == "weigh" else []
            if not step["alcohol"] and not any(
                subject.ingredient(line)["kind"] == "alcohol" for line in weighed
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
                "look",
                sprays[0],
                f"Alcohol is out in {_titles(subject, sprays)}. Nothing keeps that apart from {_titles(subject, beside)}.",
                why="Alcohol vapour lights easily: the flash point of 2-propanol is near 12 °C.",
                do="Have every heater off and a window open before you spray, or put one after the other in the recipe.",
                source="IEC 60079-20-1:2010; local fire codes apply",
            )


def _melts(subject: Subject) -> Iterator[tuple[str, RecipeMelt, Component]]:
    """Every melt: "component.step", the step and its component."""
    for component in subject.recipe["components"]:
        for step in component["steps"]:
            if step["kind"] == "melt":
                yield f"{component['id']}.{step['id']}", step, component


def _lines(component: Component, ids: list[str]) -> list[RecipeLine]:
    return [line for line in component["lines"] if line["id"] in ids]


def _vessels(component: Component, ids: list[str]) -> set[str]:
    """The vessels, by label, that these lines are weighed into."""
    return {
        step["into"]
        for step in component["steps"]
        if step["kind"] == "weigh" and any(key in ids for key in step["lines"])
    }


def _weighed_before(subject: Subject, melted: str, melt: RecipeMelt, component: Component) -> list[str]:
    """The lines that are in the vessel of a melt when it begins."""
    warm = _vessels(component, melt["of"])
    return [
        line
        for step in component["steps"]
        if step["kind"] == "weigh"
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
    dry = _vessels(component, [line["id"] for line in subject.of_kind(component, "bicarbonate")])
    warm = _vessels(component, melt["of"])
    if warm & dry:
        return [melted]
    later = [
        (key, step)
        for step in component["steps"]
        if step["kind"] == "do" and subject.order.precedes(melted, key := f"{component['id']}.{step['id']}")
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
    titles = list(dict.fromkeys(f"“{subject.order.steps[key]['title']}”" for key in keys))
    named = titles if len(titles) <= 3 else [*titles[:2], f"{len(titles) - 2} more steps"]
    return named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
