"""Flow: what the steps forget, do too late, or leave standing, read from what goes where and when."""

import re
from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject, is_said
from bench.fizz import is_acid, is_carbonate
from bench.recipe import ASSEMBLY
from bench.shapes.recipe import Component, Finding, RecipeLine, RecipeStep
from bench.shapes.units import Id
from bench.states import STATES, common_stake
from bench.steps import (
    by_hand,
    counts_pieces,
    divides,
    heats,
    is_judged,
    lines_in,
    portions_of,
    puts_in,
    runs_by_itself,
    tipped_by,
)
from bench.whole import span
from bench.words import say

MINUTE_MS = 60_000
# Common practice, all three.
LONGEST_HANDS_MS = 4 * 60 * MINUTE_MS
SKIN_MS = 3 * MINUTE_MS  # a first layer that another can be poured on
KEEPS_TIMES = 4  # a window of the recipe's own this many times the usual is not meant
FINISHES = ("pour", "press", "pipe", "wrap")
PUTS_ON = ("pour", "press", "pipe", "join", "sprinkle", "spray")
# Put on by the very step that weighs it.
LAID_ON = re.compile(
    r"\b(?:lay|sprinkle|scatter|strew|press in|top with|dust)\b|streu|auflegen|legen|parsem|espolvor|cosparg",
    re.IGNORECASE,
)
MIXES = re.compile(
    r"stir|mix|fold|rub|knead|whisk|whip|beat|blend|sift|shake|toss|work"
    r"|rühr|misch|knet|sieb|schüttel|hebe|heben|reiben|schlagen"
    r"|mélang|remu|pétri|fouet|tamis|mezcl|remov|amas|bat[ei]|tamiz|mescol|impast|setacc",
    re.IGNORECASE,
)


def late_weighing(subject: Subject) -> Iterator[Finding]:
    """A weighing after the pieces were poured, pressed or filled, and nothing puts it on them."""
    order = subject.order
    for key, step in order.steps.items():
        component = subject.component(key)
        weighed = [line for line in component["lines"] if line["id"] in lines_in(step)]
        if component["id"] == ASSEMBLY or not any(line["ug"] for line in weighed):
            continue
        made = [
            each
            for each in order.preceding(key)
            if subject.component(each) is component
            and order.steps[each]["does"] in FINISHES
            and not tipped_by(order.steps[each])
        ]
        used = {order.steps[each]["does"] for each in order.following(key)} & set(PUTS_ON)
        is_laid_on = is_said(LAID_ON, step["title"])
        if made and not used and not is_laid_on and not order.steps[made[-1]]["optional"]:
            yield finding(
                "late-weighing",
                "look",
                key,
                say("checks-late-weighing", title=step["title"], made=order.steps[made[-1]]["title"]),
            )


def damp_after_press(subject: Subject) -> Iterator[Finding]:
    """A fizz that is pressed dry and sprayed afterwards."""
    order = subject.order
    for part in subject.fizzing:
        sprays = [key for key, _ in order.of(does="spray") if subject.component(key) is part]
        for key in subject.pressed:
            if subject.component(key) is not part or any(order.precedes(each, key) for each in sprays):
                continue
            late = [each for each in sprays if order.precedes(key, each)]
            if late:
                yield finding(
                    "damp-after-press",
                    "look",
                    late[0],
                    say(
                        "checks-damp-after-press",
                        title=order.steps[late[0]]["title"],
                        pressed=order.steps[key]["title"],
                    ),
                    do=say("checks-order-do"),
                )


def nothing_follows(subject: Subject) -> Iterator[Finding]:
    """A part's last step that nothing of the joining comes after: the joining may begin before it is done."""
    order = subject.order
    joining = [key for key in order.steps if subject.component(key)["id"] == ASSEMBLY]
    for key, step in order.steps.items():
        if not joining or key in joining or step["optional"] or "written" in step or step.get("until"):
            continue
        if not order.following(key):
            yield finding("nothing-follows", "look", key, say("checks-nothing-follows", title=step["title"]))


def uncounted(subject: Subject) -> Iterator[Finding]:
    """A recipe in which no step makes the pieces that it is written for."""
    steps = subject.order.steps
    if not any(counts_pieces(step) or step["does"] in FINISHES for step in steps.values()):
        last = list(steps)[-1]
        yield finding("uncounted", "look", last, say("checks-uncounted"))


def unmixed(subject: Subject) -> Iterator[Finding]:
    """A part of several things of which no step makes one mix."""
    for component in subject.parts:
        put_in = [step for step in component["steps"] if puts_in(step)]
        weighed = {id_ for step in put_in for id_ in step["lines"]}
        several = [line for line in component["lines"] if line["id"] in weighed and not line["count"]]
        if len(several) < 2 or any(_mixes(step) for step in component["steps"]):
            continue
        yield finding("unmixed", "look", component["id"], say("checks-unmixed", name=component["name"]))


def _mixes(step: RecipeStep) -> bool:
    """Whether hands, heat or its own words bring what is in the bowl together."""
    if counts_pieces(step):
        return False
    if by_hand(step) or heats(step) or is_judged(step) or divides(step):
        return True
    return step["does"] in ("mix", "colour", "sift", "whip") or is_said(
        MIXES, f"{step['title']}. {step['says']}"
    )


def left_standing(subject: Subject) -> Iterator[Finding]:
    """A cup or jug that something is weighed into and nothing tips out, melts or pours."""
    for component in subject.parts:
        tipped = {each for step in component["steps"] for each in tipped_by(step)}
        melted = {id_ for step in component["steps"] if heats(step) for id_ in step["of"]}
        portions = {id_ for step in component["steps"] for id_ in portions_of(step)}
        held = _held(component)
        most = max(held, key=lambda label: sum(line["ug"] or 0 for line in held[label]), default="")
        for label, lines in held.items():
            dry = [line for line in lines if subject.kind(line["ingredient"]) not in ("alcohol", "water")]
            stays = label not in tipped | portions and label not in (most, component["vessel"])
            if dry and stays and not melted & {line["id"] for line in lines}:
                step = next(each for each in component["steps"] if puts_in(each) and each["into"] == label)
                yield finding(
                    "left-standing",
                    "look",
                    f"{component['id']}.{step['id']}",
                    say("checks-left-standing", title=step["title"]),
                )


def _held(component: Component) -> dict[Id, list[RecipeLine]]:
    """What is weighed into each vessel of a part, by the vessel's label; what goes in as needed left out."""
    held: dict[Id, list[RecipeLine]] = {}
    for step in component["steps"]:
        if puts_in(step):
            lines = [line for line in component["lines"] if line["id"] in step["lines"]]
            if any(not line["texture"] for line in lines):
                held.setdefault(step["into"], []).extend(line for line in lines if not line["texture"])
    return held


def tips_nothing(subject: Subject) -> Iterator[Finding]:
    """A step that tips out a vessel which nothing went into."""
    for component in subject.recipe["components"]:
        filled = {step["into"] for step in component["steps"] if puts_in(step) or by_hand(step)}
        filled |= {id_ for step in component["steps"] for id_ in portions_of(step)}
        for step in component["steps"]:
            if any(label not in filled for label in tipped_by(step)):
                yield finding(
                    "tips-nothing",
                    "look",
                    f"{component['id']}.{step['id']}",
                    say("checks-tips-nothing", title=step["title"]),
                )


def twice_in_one(subject: Subject) -> Iterator[Finding]:
    """One ingredient in two lines of one weighing: likely typed twice."""
    for key, step in subject.order.steps.items():
        lines = [
            line
            for line in subject.component(key)["lines"]
            if line["id"] in lines_in(step) and not line["optional"]
        ]
        named = [line["ingredient"] for line in lines]
        twice = next((each for each in named if named.count(each) > 1), None)
        if twice:
            yield finding(
                "twice-in-one",
                "look",
                key,
                say(
                    "checks-twice-in-one",
                    name=subject.recipe["ingredients"][twice]["name"],
                    title=step["title"],
                ),
            )


def unused(subject: Subject) -> Iterator[Finding]:
    """An ingredient that no line takes, nor stands in for another."""
    stand_ins = {each["ingredient"] for _, line in subject.lines() for each in line["substitutes"]}
    for key, ingredient in subject.recipe["ingredients"].items():
        if key not in subject.all_used and key not in stand_ins:
            yield finding(
                "unused", "know", f"ingredients.{key}", say("checks-unused", name=ingredient["name"])
            )


def other_side(subject: Subject) -> Iterator[Finding]:
    """A stand-in for an acid that is none, or for a carbonate."""
    for where, line in subject.lines():
        for each in line["substitutes"]:
            stand_in: RecipeLine = {**line, "ingredient": each["ingredient"]}
            this, that = subject.known_as(line), subject.known_as(stand_in)
            if (is_acid(this), is_carbonate(this)) != (is_acid(that), is_carbonate(that)):
                yield finding(
                    "other-side",
                    "look",
                    where,
                    say(
                        "checks-other-side",
                        stand_in=subject.ingredient(stand_in)["name"],
                        name=subject.ingredient(line)["name"],
                    ),
                )


def long_hands(subject: Subject) -> Iterator[Finding]:
    for key, step in subject.order.steps.items():
        if (step["hands_ms"] or 0) > LONGEST_HANDS_MS:
            yield finding(
                "long-hands",
                "look",
                key,
                say("checks-long-hands", title=step["title"], span=span(step["hands_ms"] or 0)),
                do=say("checks-odd-wait-do"),
            )


def long_window(subject: Subject) -> Iterator[Finding]:
    """A window of the recipe's own over a state that does not keep nearly so long."""
    for key, step in subject.order.steps.items():
        window = step["window"]
        state = window.get("state", "") if window else ""
        if window and state and window["latest_ms"] > KEEPS_TIMES * STATES[state].keeps_ms:
            yield finding(
                "long-window",
                "look",
                key,
                say("checks-long-window", title=step["title"], span=span(window["latest_ms"])),
                why=common_stake(state),
                by=say("checks-long-window-by", span=span(STATES[state].keeps_ms)),
                do=say("checks-odd-wait-do"),
            )


def layers(subject: Subject) -> Iterator[Finding]:
    """A second pour on a first that had no time for a skin, or with nothing sprayed between them."""
    order = subject.order
    for key, step in order.steps.items():
        if not runs_by_itself(step) or step.get("state") != "first_layer":
            continue
        pours = [
            each
            for each in order.following(key)
            if order.steps[each]["does"] == "pour" and subject.component(each) is subject.component(key)
        ]
        if not pours:
            continue
        between = [order.steps[each] for each in [*order.between(key, pours[0]), pours[0]]]
        if step["usual_ms"] < SKIN_MS:
            yield finding(
                "soon-layer",
                "look",
                key,
                say("checks-soon-layer", title=step["title"], span=span(step["usual_ms"])),
                by=say("checks-soon-layer-by", span=span(SKIN_MS)),
                do=say("checks-odd-wait-do"),
            )
        if not any(each["does"] == "spray" or each["alcohol"] for each in between):
            yield finding(
                "dry-layer", "look", pours[0], say("checks-dry-layer", title=order.steps[pours[0]]["title"])
            )
