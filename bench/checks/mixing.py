"""Mixing: what does not go together in a part, what would not set, and what is put into something hot or shut."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, finding
from bench.checks.heat import SAID_C, lines_of, melts, vessels_of_lines
from bench.checks.product import annexes
from bench.checks.subject import BINDERS, Subject, is_said, share_of
from bench.lists import every
from bench.shapes.recipe import Component, Finding, RecipeLine, RecipeMelt
from bench.shapes.units import RecipeKey
from bench.steps import by_hand, heats, puts_in, runs_by_itself
from bench.whole import span, temperature
from bench.words import say, say_all

MINUTE_MS = 60_000
FATS = ("oil", "butter", "wax")
SOAPS = ("soap_base", "whipping_base")
BINDS = ("solubiliser", "surfactant", *SOAPS)
# All common practice.
OILY = Fraction(1, 10)  # of a part with a base in it: makers of bases allow 3 to 5 %
MOSTLY = Fraction(1, 5)
WARM = re.compile(
    r"\b(?:hot|warm\w*|heat\w*|boil\w*|heiß\w*|erhitz\w*|chaud\w*|calient\w*|cald[oa])\b|°", re.IGNORECASE
)
TWO_PHASES = Fraction(2, 100)  # of fat and of water each
MUCH_PRESERVATIVE = Fraction(2, 100)  # most are used at 0.5 to 1.5 %
SETS_MS = 15 * MINUTE_MS  # a poured bar, before it is turned out
SOUR = Fraction(1, 10)  # of a part with no carbonate to use it up
HOT_MK = 50_000  # alcohol boils near 80 °C and lights far below
OVEN_MK = 45_000
OVEN = re.compile(
    r"\b(?:oven|dehydrator|heat gun|hair ?dryer|radiator|backofen|ofen|föhn|heißluft\w*|heizung|four|sèche-cheveux|horno"
    r"|secador|forno|asciugacapelli)\b",
    re.IGNORECASE,
)
LID_SHUT = re.compile(
    r"lid (?:is |on )?(?:screwed|shut|closed|clamped|tight|sealed)|(?:screw|clamp|close|shut|seal)\w* (?:the |its )?lid|sealed"
    r"|(?:closed|capped|corked) (?:\w+ )?(?:jar|bottle|tin|pot)|geschlossene\w* (?:glas|flasche|dose|gefäß)|zugeschraubt|bocal fermé|tarro cerrado"
    r"|deckel (?:fest|zu|drauf|geschlossen)|verschlossen|couvercle (?:fermé|vissé)|tapa cerrada|coperchio chiuso",
    re.IGNORECASE,
)
LIQUID = re.compile(r"liquid|flüssig|líquid", re.IGNORECASE)


def oily_base(subject: Subject) -> Iterator[Finding]:
    """More oil or butter in a soap base than it holds."""
    for component in subject.parts:
        fats = subject.of_kind(component, "oil", "butter")
        share = share_of(component, fats)
        if subject.of_kind(component, *SOAPS) and share > OILY:
            yield finding(
                "oily-base",
                "look",
                component["id"],
                say("checks-oily-base", share=cut_per_cent(share, 0), names=_names(subject, fats)),
                by=say("checks-oily-base-by"),
            )


def two_phases(subject: Subject) -> Iterator[Finding]:
    """Water and fat in one part, and nothing that binds them."""
    for component in subject.parts:
        wet = [line for line in component["lines"] if subject.is_wet(line)]
        fats = subject.of_kind(component, *FATS)
        bound = subject.of_kind(component, *BINDS) or any(
            subject.known_as(line) in BINDERS for line in component["lines"]
        )
        plain = [line for line in fats if subject.known_as(line) not in BINDERS]
        if not bound and min(share_of(component, wet), share_of(component, plain)) > TWO_PHASES:
            yield finding(
                "two-phases",
                "look",
                component["id"],
                say("checks-two-phases", wet=_names(subject, wet), fats=_names(subject, plain)),
            )


def cold_phase(subject: Subject) -> Iterator[Finding]:
    """An emulsion whose wax is melted while none of its water is warmed: the wax sets where they meet."""
    for component in subject.parts:
        melted = {id_ for _, melt, of in melts(subject) if of is component for id_ in melt["of"]}
        binds = [
            each for each in component["lines"] if each["id"] in melted and subject.known_as(each) in BINDERS
        ]
        wet = [line for line in component["lines"] if subject.is_wet(line)]
        is_cold = not any(line["id"] in melted or _said_warm(component, line) for line in wet)
        if binds and wet and is_cold and share_of(component, wet) > MOSTLY:
            yield finding(
                "cold-phase",
                "look",
                f"{component['id']}.{wet[0]['id']}",
                say("checks-cold-phase", wet=_names(subject, wet), wax=_names(subject, binds)),
            )


def _said_warm(component: Component, line: RecipeLine) -> bool:
    steps = [step for step in component["steps"] if puts_in(step) and line["id"] in step["lines"]]
    return any(WARM.search(text) for step in steps for text in (step["title"], step["says"]))


def much_preservative(subject: Subject) -> Iterator[Finding]:
    """More than its kind is used at; where a law's own limit speaks, that has been said."""
    said = {each["where"] for each in annexes(subject)}
    for component in subject.parts:
        for line in subject.of_kind(component, "preservative"):
            share = share_of(component, [line])
            if share > MUCH_PRESERVATIVE and f"ingredients.{line['ingredient']}" not in said:
                yield finding(
                    "much-preservative",
                    "look",
                    f"{component['id']}.{line['id']}",
                    say(
                        "checks-much-preservative",
                        share=cut_per_cent(share, 1),
                        part=subject.place(component["id"]),
                        name=subject.ingredient(line)["name"],
                    ),
                    by=say("checks-much-preservative-by"),
                )


def sour(subject: Subject) -> Iterator[Finding]:
    """Much acid, and nothing that uses it up."""
    known = (subject.substance(key) for key in subject.all_used)
    holds = any("bicarbonate" in found.get("holds", ()) for found in known if found)  # baking powder is one
    if holds or any(subject.carbonates(component) for component in subject.parts):
        return
    for component in subject.parts:
        acids = subject.acids(component)
        share = share_of(component, acids)
        if share > SOUR:
            yield finding(
                "sour",
                "look",
                component["id"],
                say("checks-sour", share=cut_per_cent(share, 0), names=_names(subject, acids)),
            )


def never_melted(subject: Subject) -> Iterator[Finding]:
    """A base or a wax that is poured and never melted."""
    for component in subject.parts:
        melted = {line for step in component["steps"] if heats(step) for line in step["of"]}
        solid = [
            line
            for line in subject.of_kind(component, "soap_base", "wax")
            if line["id"] not in melted and not LIQUID.search(subject.ingredient(line)["name"])
        ]
        pours = next((step for step in component["steps"] if step["does"] == "pour"), None)
        if solid and pours:
            yield finding(
                "never-melted",
                "look",
                f"{component['id']}.{pours['id']}",
                say("checks-never-melted", title=pours["title"], names=_names(subject, solid)),
            )


def short_setting(subject: Subject) -> Iterator[Finding]:
    """A poured soap that is turned out after minutes."""
    order = subject.order
    for key, step in order.of(does="unmould"):
        component = subject.component(key)
        if not subject.of_kind(component, "soap_base"):
            continue
        waits = [each for each in order.preceding(key) if runs_by_itself(order.steps[each])]
        waits = [each for each in waits if subject.component(each) is component]
        poured = [each for each, _ in order.of(does="pour") if order.precedes(each, key)]
        waited = order.waited_ms(poured[-1], key) if poured else 0
        if waits and 0 < waited < SETS_MS:
            yield finding(
                "short-setting",
                "look",
                waits[-1],
                say("checks-short-setting", title=step["title"], span=span(waited)),
                by=say("checks-short-setting-by", span=span(SETS_MS)),
                do=say("checks-odd-wait-do"),
            )


def dried_hot(subject: Subject) -> Iterator[Finding]:
    """A fizz that is dried in an oven, as the words of a wait say, or of what is done once it is pressed."""
    order = subject.order
    pressed = {each for press in subject.pressed for each in order.following(press)}
    for key, step in order.steps.items():
        dries = runs_by_itself(step) or (key in pressed and by_hand(step))
        if not dries or subject.component(key) not in subject.fizzing:
            continue
        text = f"{step['title']}. {step['says']}"
        hot = any(int(each) * 1000 > OVEN_MK for each in every(SAID_C, step["title"], 1))
        if hot or is_said(OVEN, text):
            yield finding(
                "dried-hot",
                "look",
                key,
                say("checks-dried-hot", title=step["title"]),
                why=say("checks-warm-fizz-why"),
            )


def alcohol_into_hot(subject: Subject) -> Iterator[Finding]:
    """Alcohol weighed into what was melted, and no wait between."""
    for melted, melt, where, line in _into_melt(subject):
        reached = melt["to_mk"]
        alcohol = subject.kind(line["ingredient"]) == "alcohol" and not line["texture"]
        if alcohol and (reached is None or reached > HOT_MK) and not subject.order.waited_ms(melted, where):
            yield finding(
                "alcohol-into-hot",
                "look",
                where,
                say(
                    "checks-alcohol-into-hot",
                    name=subject.ingredient(line)["name"],
                    title=subject.order.steps[melted]["title"],
                ),
                by="" if reached is None else say("checks-melt-ends-at", temperature=temperature(reached)),
            )


def _into_melt(subject: Subject) -> Iterator[tuple[RecipeKey, RecipeMelt, RecipeKey, RecipeLine]]:
    """Each line that is weighed into a vessel after what is in it was melted."""
    for melted, melt, component in melts(subject):
        warm = vessels_of_lines(component, melt["of"])
        for step in component["steps"]:
            where = f"{component['id']}.{step['id']}"
            if puts_in(step) and step["into"] in warm and subject.order.precedes(melted, where):
                for line in lines_of(component, step["lines"]):
                    yield melted, melt, where, line


def shut_melt(subject: Subject) -> Iterator[Finding]:
    """Something heated with its lid shut, as the step's own words say."""
    for where, melt, _ in melts(subject):
        if is_said(LID_SHUT, f"{melt['title']}. {melt['says']}"):
            yield finding("shut-melt", "look", where, say("checks-shut-melt", title=melt["title"]))


def _names(subject: Subject, lines: list[RecipeLine]) -> str:
    return say_all([subject.ingredient(line)["name"] for line in lines])
