"""Structure: what the steps leave out, and what no order of them can keep."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import HOLDS, SOAP, Subject, is_said
from bench.recipe import ASSEMBLY
from bench.shapes.recipe import Component, Finding, RecipeStep
from bench.shelf import name_key
from bench.sources import cited
from bench.states import stake_of
from bench.steps import (
    by_hand,
    counts_pieces,
    divides,
    heats,
    is_judged,
    lines_in,
    runs_by_itself,
    tipped_by,
    vessels_named,
    worked_on,
)
from bench.whole import mass, span
from bench.words import say, say_all

# What is lost once the usual time is over, by what is done with it then. Of the rest the usual time is told and kept.
CANNOT_COME_BACK = {("beaten_topping", "pipe"), ("first_layer", "pour")}


def windows(subject: Subject) -> Iterator[Finding]:
    """A step that must follow another within so long, when what lies between takes longer.

    Waits count at their earliest. Hand times are the maker's own guess, so they only raise a question.
    """
    order = subject.order
    for key, opener, latest, stake in _windows(subject):
        waiting = order.longest_ms(opener, key, _waits_ms)
        between = [*order.between(opener, key), key]
        one_pair_of_hands = sum(_works_ms(order.steps[each]) for each in between)
        working = max(one_pair_of_hands, order.longest_ms(opener, key, _takes_ms))
        title, opened = order.steps[key]["title"], order.steps[opener]["title"]
        if waiting > latest:
            yield finding(
                "window-wait",
                "will_not_run",
                key,
                say("checks-window-wait", title=title, opened=opened, latest=span(latest)),
                why=stake,
                by=say("checks-window-wait-by", span=span(waiting - latest)),
            )
        elif working > latest:
            yield finding(
                "window-hands",
                "look",
                key,
                say(
                    "checks-window-hands",
                    title=title,
                    opened=opened,
                    latest=span(latest),
                    working=span(working),
                ),
                why=stake,
                by=say("checks-window-hands-by", span=span(working - latest)),
            )


def unkept(subject: Subject) -> Iterator[Finding]:
    """A state that does not keep, with no word on how soon the next step must follow."""
    order = subject.order
    told: set[tuple[str, str]] = set()
    for key, step in order.steps.items():
        for keeps in step["keeps"]:
            state = keeps["state"]
            for opener in keeps["from"]:
                carried = any(each["state"] == state for each in order.steps[opener]["keeps"])
                if carried or (opener, state) in told:
                    continue
                told.add((opener, state))
                usual = span(keeps["latest_ms"])
                yield finding(
                    "unkept",
                    "look" if (state, step["does"]) in CANNOT_COME_BACK else "know",
                    key,
                    say("checks-unkept", title=step["title"], opened=order.steps[opener]["title"]),
                    why=stake_of(keeps),
                    by=say("checks-unkept-by", span=usual),
                    do=say("checks-unkept-do", span=usual),
                    source=cited("common-practice", say("states-source", state=state)) if state else None,
                )


def waits(subject: Subject) -> Iterator[Finding]:
    """A pour or a press that nothing waits for."""
    order = subject.order
    for does, then in (("pour", ("unmould", "wrap")), ("press", ("wrap",))):
        for key, step in order.of(does=does):
            if not (counts_pieces(step) or by_hand(step)) or tipped_by(step):
                continue
            following = order.following(key)
            stays = does == "pour" and is_said(HOLDS, step["title"])
            if stays and not any(order.steps[each]["does"] == "unmould" for each in following):
                continue  # it is filled into what it is sold in
            rushed = [
                each
                for each in following
                if order.steps[each]["does"] in then and not order.waited_ms(key, each)
            ]
            if not any(runs_by_itself(order.steps[each]) for each in following):
                what = say("checks-no-wait", title=step["title"])
            elif rushed:
                what = say(
                    "checks-no-wait-between", next=order.steps[rushed[0]]["title"], title=step["title"]
                )
            else:
                continue
            yield finding(
                "no-wait",
                "look",
                rushed[0] if rushed else key,
                what,
                why=say("checks-no-wait-pour-why") if does == "pour" else say("checks-no-wait-press-why"),
            )


def wrapping(subject: Subject) -> Iterator[Finding]:
    """Soap and fizz left open to the air, and a whipped base that never hardens."""
    wraps = bool(subject.wraps)
    add = say("checks-unwrapped-do")
    if not wraps and subject.kinds & SOAP:
        yield finding("unwrapped-soap", "look", ASSEMBLY, say("checks-unwrapped-soap"), do=add)
    if not wraps and subject.fizzing:
        yield finding("unwrapped-fizz", "look", ASSEMBLY, say("checks-unwrapped-fizz"), do=add)
    for component in subject.parts:
        if subject.of_kind(component, "whipping_base") and not subject.of_kind(component, "soap_base"):
            yield finding(
                "whipped-alone",
                "know" if wraps else "look",
                component["id"],
                say("checks-whipped-alone", name=component["name"]),
                do=say("checks-whipped-alone-do") if wraps else add,
            )


def embeds(subject: Subject) -> Iterator[Finding]:
    """Something set into a whipped top that weighs more than the top: a question, not a rule."""
    for top in subject.parts:
        if not subject.of_kind(top, "whipping_base"):
            continue
        for part in subject.parts:
            heavy, light = (each["takes"] * each["piece_mg"] for each in (part, top))
            if part is not top and heavy > light and _set_into(subject, part, top):
                yield finding(
                    "heavy-embed",
                    "know",
                    part["id"],
                    say("checks-heavy-embed", part=part["name"], top=top["name"]),
                    by=say("checks-heavy-embed-by", heavy=mass(heavy, 1000), light=mass(light, 1000)),
                )


def _set_into(subject: Subject, part: Component, top: Component) -> bool:
    """Whether the part only joins the piece once the top is on it."""

    def arrivals(component: Component) -> list[str]:
        return [
            key
            for key, step in subject.order.steps.items()
            if key.startswith(f"{ASSEMBLY}.")
            and any(need.startswith(f"{component['id']}.") for need in step["after"])
        ]

    tops, joins = arrivals(top), arrivals(part)
    return bool(joins) and all(any(subject.order.precedes(landed, join) for landed in tops) for join in joins)


def _windows(subject: Subject) -> Iterator[tuple[str, str, int, str]]:
    """What must follow what, within how many ms, and what is at stake. A wait's latest end is one too."""
    order = subject.order
    for key, step in order.steps.items():
        if step["window"]:
            for opener in step["window"]["from"]:
                yield key, opener, step["window"]["latest_ms"], step["window"]["stake"]
        for need in step["after"]:
            wait = order.steps[need]
            if runs_by_itself(wait) and wait["latest_ms"] is not None and not runs_by_itself(step):
                for opener in wait["after"]:
                    yield key, opener, wait["latest_ms"] + _works_ms(step), wait["stake"]


def _waits_ms(step: RecipeStep) -> int:
    return step["earliest_ms"] if runs_by_itself(step) and not step["optional"] else 0


def _works_ms(step: RecipeStep) -> int:
    return 0 if step["optional"] else int(step["hands_ms"] or 0)


def _takes_ms(step: RecipeStep) -> int:
    return _waits_ms(step) + _works_ms(step)


def unasked(subject: Subject) -> Iterator[Finding]:
    """A line to texture in a part with nothing to judge: the bench would never ask for it."""
    for component in subject.recipe["components"]:
        weighed = {key for step in component["steps"] for key in lines_in(step)}
        if any(is_judged(step) for step in component["steps"]):
            continue
        for line in component["lines"]:
            if line["texture"] and line["id"] not in weighed:
                name = subject.ingredient(line)["name"]
                yield finding(
                    "unasked",
                    "look",
                    f"{component['id']}.{line['id']}",
                    say("checks-unasked", part=subject.place(component["id"]), name=name),
                )


def melted_early(subject: Subject) -> Iterator[Finding]:
    """A melt of something that nothing says is weighed before."""
    for component in subject.recipe["components"]:
        where = {
            line: f"{component['id']}.{step['id']}" for step in component["steps"] for line in lines_in(step)
        }
        for step in component["steps"]:
            key = f"{component['id']}.{step['id']}"
            for line in step["of"] if heats(step) else []:
                if line in where and not subject.order.precedes(where[line], key):
                    yield finding(
                        "melted-early",
                        "look",
                        key,
                        say(
                            "checks-melted-early",
                            title=step["title"],
                            weighing=subject.order.steps[where[line]]["title"],
                        ),
                    )


def in_its_own_place(subject: Subject) -> Iterator[Finding]:
    """An ingredient that is named to stand in for itself."""
    for where, line in subject.lines():
        for stand_in in line["substitutes"]:
            if _is_same(subject, line["ingredient"], stand_in["ingredient"]):
                yield finding(
                    "own-substitute",
                    "look",
                    where,
                    say("checks-own-substitute", name=subject.ingredient(line)["name"]),
                )


def _is_same(subject: Subject, one: str, other: str) -> bool:
    if one == other:
        return True
    names = [name_key(subject.recipe["ingredients"][key]["name"]) for key in (one, other)]
    return names[0] == names[1]


def unused_portions(subject: Subject) -> Iterator[Finding]:
    """A portion that was weighed out, and that no later step names."""
    for component in subject.parts:
        for place, step in enumerate(component["steps"]):
            if not divides(step):
                continue
            named = {key for later in component["steps"][place + 1 :] for key in _vessels_of(later)}
            *apart, stays = step["portions"]  # the last stays where all of it was
            picked = {key for later in component["steps"] if counts_pieces(later) for key in later["of"]}
            stayed = step["from"] in named and not picked & {each["id"] for each in apart}
            left = [*apart, *([] if stayed else [stays])]
            unused = [each for each in left if each["id"] not in named]
            if unused and len(unused) < len(step["portions"]):
                yield finding(
                    "unused-portion",
                    "look",
                    f"{component['id']}.{step['id']}",
                    say("checks-unused-portion", names=say_all([each["name"] for each in unused])),
                )


def _vessels_of(step: RecipeStep) -> list[str]:
    """The vessels and portions that a step says it works with."""
    at_hand = [step["into"]] if by_hand(step) else []
    return [*worked_on(step), *vessels_named(step), *at_hand]
