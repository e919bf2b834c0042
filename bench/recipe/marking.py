"""Which states the steps of a recipe leave behind, and the windows by nature that follow from them."""

from collections.abc import Iterator, Set
from typing import Literal

from bench.lists import once
from bench.shapes.recipe import (
    Component,
    Ingredient,
    IngredientKind,
    RecipeMelt,
    RecipeStep,
    StateName,
    Window,
)
from bench.shapes.units import Id, Ms, RecipeKey
from bench.states import ASSEMBLY, MINUTE_MS, STATES, TOO_WET_MS, guard
from bench.steps import (
    by_hand,
    heats,
    is_judged,
    puts_in,
    runs_by_itself,
    tipped_by,
    traits,
    usual_wait_ms,
    worked_on,
)

_UNKNOWN_HANDS_MS = 2 * MINUTE_MS  # of a step between, when the recipe does not say: a guess
_FATS = frozenset({"butter", "oil"})
_SOAP = frozenset({"soap_base", "whipping_base"})
_CARBONATES = frozenset({"bicarbonate", "carbonate"})
_ACIDS = frozenset({"citric_acid", "acid"})


def mark(components: list[Component], ingredients: dict[Id, Ingredient]) -> None:
    """Give each step of a measured recipe its windows by nature, and each window the state it is over.

    `keeps` is [] for most. A window gains its guard; so does a wait, for its latest.
    """
    _Marking(components, ingredients).mark()


class _Marking:
    opened: dict[RecipeKey, list[StateName]]  # step -> the states it leaves behind

    def __init__(self, components: list[Component], ingredients: dict[Id, Ingredient]) -> None:
        self.ingredients = ingredients
        self.components = {component["id"]: component for component in components}
        self.steps: dict[RecipeKey, RecipeStep] = {}
        self.part: dict[RecipeKey, Id] = {}
        for component in components:
            for step in component["steps"]:
                key = f"{component['id']}.{step['id']}"
                self.steps[key], self.part[key] = step, component["id"]
        self.followers: dict[RecipeKey, list[RecipeKey]] = {key: [] for key in self.steps}
        for key, step in self.steps.items():
            for need in step["after"]:
                self.followers[need].append(key)
        self.kinds = {
            component["id"]: {ingredients[line["ingredient"]]["kind"] for line in component["lines"]}
            for component in components
        }

    def mark(self) -> None:
        self.opened = {key: list(self._opened(key)) for key in self.steps}
        spans = [_Span(self, key, state) for key, states in self.opened.items() for state in states]
        for key, step in self.steps.items():
            self._say_what_it_is_over(key, step, spans)
        for span in spans:
            for key, sources in span.windows():
                self._keep(key, sources, span.state)
        for key, step in self.steps.items():
            if step["does"] == "wrap" and self._left_open(step):
                self._keep(key, list(step["after"]), "unwrapped")

    def _say_what_it_is_over(self, key: RecipeKey, step: RecipeStep, spans: list["_Span"]) -> None:
        step["keeps"] = []
        window = step["window"]
        if window:
            step["window"] = {
                **window,
                **guard(self._state_over(window["from"], key, spans), window["latest_ms"]),
            }
        if runs_by_itself(step):
            over = guard("first_layer" if self.between_pours(key) else "", step["latest_ms"] or 0)
            step["state"], step["class"] = over["state"], over["class"]
            step["price_ms"], step["lost_ms"] = over["price_ms"], over["lost_ms"]
        if is_judged(step) and step["too_far"] is None and "wetted_fizz" in self.opened[key]:
            step["too_far"], step["too_far_ms"] = "", TOO_WET_MS

    def _keep(self, key: RecipeKey, sources: list[RecipeKey], state: StateName) -> None:
        about = STATES[state]
        keeps: Window = {
            "from": sources,
            "latest_ms": about.keeps_ms,
            "stake": "",
            **guard(state, about.keeps_ms),
        }
        if keeps not in self.steps[key].get("keeps", []):
            self.steps[key].setdefault("keeps", []).append(keeps)

    def _opened(self, key: RecipeKey) -> Iterator[StateName]:
        """The states that a step leaves behind."""
        step, kinds = self.steps[key], self.kinds[self.part[key]]
        if heats(step):
            melted = self._melted(step, self.components[self.part[key]])
            if melted & _SOAP:
                yield "melted_base"
            elif melted & _FATS:
                yield "warm_fat"
        if step["does"] == "spray" and _fizzes(kinds):
            yield "wetted_fizz"
        if step["does"] == "whip" and kinds & _SOAP and (by_hand(step) or is_judged(step)):
            beaten_again = any(self.steps[each]["does"] == "whip" for each in self._down(key))
            yield "whipped_base" if beaten_again else "beaten_topping"
        if step["does"] == "pour" and self._layered(key):
            yield "first_layer"
        if step["does"] == "pipe" and self._set_into(key):
            yield "piped_top"

    def _melted(self, step: RecipeMelt, component: Component) -> set[IngredientKind | Literal[""]]:
        return {
            self.ingredients[line["ingredient"]]["kind"]
            for line in component["lines"]
            if line["id"] in step["of"]
        }

    def _down(self, key: RecipeKey) -> list[RecipeKey]:
        """The hands-on steps that come after one without a wait between, in its part or the assembly."""
        found: list[RecipeKey] = []
        stack = [key]
        while stack:
            for each in self.followers[stack.pop()]:
                if (
                    each not in found
                    and self.part[each] in (self.part[key], ASSEMBLY)
                    and not traits(self.steps[each]).runs_by_itself
                ):
                    found.append(each)
                    stack.append(each)
        return found

    def _layered(self, key: RecipeKey) -> bool:
        """Whether another pour of the same part comes on top of this one: after it, and a wait between."""
        return not tipped_by(self.steps[key]) and any(
            traits(self.steps[wait]).runs_by_itself and self.between_pours(wait)
            for wait in self.followers[key]
        )

    def between_pours(self, wait: RecipeKey) -> bool:
        """Whether a wait stands between two pours of one part, with nothing turned out meanwhile."""
        part = self.part[wait]
        poured = any(self.part[need] == part and self.pours(need) for need in self.steps[wait]["after"])
        stack = list(self.followers[wait]) if poured else []
        seen: set[RecipeKey] = set()
        while stack:
            key = stack.pop()
            step = self.steps[key]
            if key in seen or self.part[key] != part or traits(step).runs_by_itself or step["unmoulds"]:
                continue
            if self.pours(key):
                return True
            seen.add(key)
            stack += self.followers[key]
        return False

    def pours(self, key: RecipeKey) -> bool:
        return self.steps[key]["does"] == "pour" and not tipped_by(self.steps[key])

    def _set_into(self, key: RecipeKey) -> bool:
        """Whether something is still to be put onto a piped top while it is soft."""
        return any(self.steps[each]["does"] in ("join", "sprinkle") for each in self.followers[key])

    def _left_open(self, step: RecipeStep) -> bool:
        """Whether nothing says how soon a wrapping must follow, and the piece is one that takes up water."""
        kinds = {kind for kinds in self.kinds.values() for kind in kinds}
        return (
            not step["window"]
            and bool(step["after"])
            and not any(has_latest(self.steps[need]) for need in step["after"])
            and bool(kinds & _SOAP or _fizzes(kinds))
        )

    def _state_over(
        self, sources: list[RecipeKey], key: RecipeKey, spans: list["_Span"]
    ) -> StateName | Literal[""]:
        """Which state a recipe's own window is over: one that its opener leaves, else one that it carries.

        Only the window up to where the state ends decides over the state; one before it is of quality.
        """
        if self.steps[key]["does"] == "wrap":
            return "unwrapped"
        over = [span for span in spans if key in span.ends and span.holds(sources)]
        over += [span for span in spans if span.each and key in span.carried and span.holds(sources)]
        for ranked in ([span for span in over if span.opener in sources], over):
            for state in STATES:
                if any(span.state == state for span in ranked):
                    return state
        return ""


def has_latest(step: RecipeStep) -> bool:
    """Whether a wait says when it is too late."""
    return runs_by_itself(step) and step["latest_ms"] is not None


class _Span:
    """One state from the step that opens it: the steps it is carried through, and those that end it."""

    def __init__(self, marking: _Marking, opener: RecipeKey, state: StateName) -> None:
        self.marking = marking
        self.opener = opener
        self.state = state
        self.about = STATES[state]
        self.each = self.about.each
        self.vessels = self._vessels(opener)
        self.carried: list[RecipeKey] = []
        self.ends: list[RecipeKey] = []
        self._walk()
        self._afters: dict[RecipeKey, set[RecipeKey]] = {}  # asked for again and again, once the walk is over

    def holds(self, sources: list[RecipeKey]) -> bool:
        return any(each == self.opener or each in self.carried for each in sources)

    def windows(self) -> Iterator[tuple[RecipeKey, list[RecipeKey]]]:
        """(step, from): the windows by nature that the recipe's own do not cover."""
        if self.state == "first_layer" and not self._waits_allow():
            return
        steps = self.marking.steps
        if self.state == "piped_top":
            return  # a light matter: the recipe's own word or none
        whole = not self.each and all(self._works_ms(end) <= self.about.keeps_ms for end in self.ends)
        if whole:
            for end in self.ends:
                window = steps[end]["window"]
                if not (window and self.holds(window["from"])) and not self._covered_by_wait():
                    yield end, [self.opener]
            return
        for key in [*self.carried, *self.ends]:
            needs = [need for need in steps[key]["after"] if need == self.opener or need in self.carried]
            if needs and not any(self._covers(other, key) for other in [*self.carried, *self.ends]):
                yield key, needs

    def _covers(self, closer: RecipeKey, key: RecipeKey) -> bool:
        """Whether the closer's own window spans the step: opened at or before its needs, closed at or after it."""
        window = self.marking.steps[closer]["window"]
        if not window or not self.holds(window["from"]):
            return False
        closes = closer == key or closer in self._follows(key)
        opens = any(
            key in self._follows(each)
            for each in window["from"]
            if each == self.opener or each in self.carried
        )
        return closes and opens

    def _follows(self, key: RecipeKey) -> set[RecipeKey]:
        if key not in self._afters:
            self._afters[key] = self._after(key)
        return self._afters[key]

    def _after(self, key: RecipeKey) -> set[RecipeKey]:
        inside = {self.opener, *self.carried, *self.ends}
        found: set[RecipeKey] = set()
        stack = [key]
        while stack:
            for each in self.marking.followers[stack.pop()]:
                if each in inside and each not in found:
                    found.add(each)
                    stack.append(each)
        return found

    def _works_ms(self, end: RecipeKey) -> Ms:
        """How long hands work between the opener and an end."""
        between = [self.marking.steps[key] for key in self.carried if end in self._after(key)]
        return sum(_UNKNOWN_HANDS_MS if step["hands_ms"] is None else step["hands_ms"] for step in between)

    def _walk(self) -> None:
        last = self._reach()
        # What leads to no end has no part in it; where nothing ends it, the last step on its way does.
        if self.ends:
            self.carried = [key for key in self.carried if self._after(key) & set(self.ends)]
        else:
            self.ends = once(last)
            self.carried = [key for key in self.carried if key not in self.ends]

    def _reach(self) -> list[RecipeKey]:
        """Fill in what carries the state and what ends it; the steps that nothing comes after."""
        marking = self.marking
        part = marking.part[self.opener]
        stack, last = [self.opener], []
        while stack:
            key = stack.pop()
            onward = [
                each
                for each in marking.followers[key]
                if marking.part[each] in (part, ASSEMBLY)
                and (not traits(marking.steps[each]).runs_by_itself or self.state == "first_layer")
            ]
            if not onward and key != self.opener:
                last.append(key)
            for each in onward:
                if each in self.carried or each in self.ends or each == self.opener:
                    continue
                if self._ends_with(each):
                    self.ends.append(each)
                else:
                    self.carried.append(each)
                    stack.append(each)
        return last

    def _ends_with(self, key: RecipeKey) -> bool:
        step = self.marking.steps[key]
        if self.state in self.marking.opened[key] and self.vessels == self._vessels(key):
            return True  # begun anew
        if self.state in ("melted_base", "warm_fat") and self.vessels & set(tipped_by(step)):
            return True
        if self.state == "whipped_base":
            return step["does"] == "whip" or traits(step).counts_pieces
        if self.state == "first_layer":
            return self.marking.pours(key) or step["unmoulds"]
        return traits(step).counts_pieces or step["does"] in ("pour", "press", "pipe")

    def _vessels(self, key: RecipeKey) -> set[Id]:
        """The vessels by label that what a step works on was weighed into."""
        step = self.marking.steps[key]
        works_on = set(worked_on(step))
        return {
            other["into"]
            for other in self.marking.components[self.marking.part[key]]["steps"]
            if puts_in(other) and set(other["lines"]) & works_on
        }

    def _waits_allow(self) -> bool:
        usual = sum(usual_wait_ms(self.marking.steps[key]) for key in self.carried)
        return usual < self.about.keeps_ms

    def _covered_by_wait(self) -> bool:
        """Whether the latest of a wait on the way says it already."""
        return self.state == "first_layer" and any(
            has_latest(self.marking.steps[key]) for key in self.carried
        )


def _fizzes(kinds: Set[str]) -> bool:
    """Whether both sides of the reaction are there."""
    return bool(kinds & _CARBONATES and kinds & _ACIDS)
