"""States that do not keep: what a step can leave behind that spoils, for how long it keeps, and the way back.

A state is known by what a recipe says: the kinds of its ingredients, the kinds of its steps, and what they
do. The recipe's own window stands before the usual time of this table; where it has none, the measured
recipe is given one of nature's (`keeps`), marked as such.

A window has a class. `ruin`: past it the state is lost. `back`: it can be brought back, at a price in
minutes of the hands, and only so often. `quality`: the piece is worse for it, and no more.
"""

from collections.abc import Iterator
from typing import Any

Json = dict[str, Any]

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
COMMON_PRACTICE = "common practice"
CLASSES = ("ruin", "back", "quality")
ASSEMBLY = "assembly"
_UNKNOWN_HANDS_MS = 2 * MINUTE_MS  # of a step between, when the recipe does not say: a guess

# keeps_ms: the usual time; lost_ms: from then on there is no way back (None: time alone never takes it).
# back: the way back, its price and how often; else: what is done with it where there is none, common practice too.
# each: the time is counted anew from each step in which hands work on it; else from its beginning to its end.
STATES: dict[str, Json] = {
    "melted_base": {
        "says": "Melted base off the heat",
        "keeps_ms": 5 * MINUTE_MS,
        "each": True,
        "class": "back",
        "stake": "It sets in about 5 min: a skin first, then a plug.",
        "back": {
            "do": "Heat it briefly, then stir. Water goes each time: twice at the most.",
            "ms": 2 * MINUTE_MS,
            "most": 2,
        },
        "lost_ms": None,
        # Found: suppliers' pages say that a skin can be stirred in again and that base heated again and again
        # breaks down. No figure for the minutes was found.
        "source": COMMON_PRACTICE,
    },
    "warm_fat": {
        "says": "Melted butter in its jug",
        "keeps_ms": 15 * MINUTE_MS,
        "each": False,
        "class": "back",
        "stake": "It clouds and sets in about 15 min.",
        "back": {"do": "Back over the water bath until it is clear.", "ms": 5 * MINUTE_MS, "most": 2},
        "lost_ms": None,
        "source": COMMON_PRACTICE,
    },
    "wetted_fizz": {
        "says": "Wetted fizz mix",
        "keeps_ms": 30 * MINUTE_MS,
        "each": False,
        "class": "back",
        "stake": "It dries and crumbles in about 30 min, sooner in dry air.",
        "back": {"do": "A light spray over the whole face, worked in.", "ms": 2 * MINUTE_MS, "most": 2},
        "lost_ms": 90 * MINUTE_MS,  # what two sprays can win
        "source": COMMON_PRACTICE,
    },
    "whipped_base": {
        "says": "Whipped base that is to be beaten again",
        "keeps_ms": 30 * MINUTE_MS,
        "each": False,
        "class": "back",
        "stake": "It sinks and dries in about 30 min.",
        "back": {"do": "Beat it again before what comes next.", "ms": 3 * MINUTE_MS, "most": 2},
        "lost_ms": None,
        "source": COMMON_PRACTICE,
    },
    "beaten_topping": {
        "says": "Beaten topping, in the bowl or the bag",
        "keeps_ms": 20 * MINUTE_MS,
        "each": False,
        "class": "ruin",
        "stake": "It stiffens in about 20 min and can no longer be piped.",
        "back": None,
        "else": "Spread it with a knife where it no longer pipes.",
        "lost_ms": 0,
        "source": COMMON_PRACTICE,
    },
    "piped_top": {
        "says": "Piped top",
        "keeps_ms": 10 * MINUTE_MS,
        "each": False,
        "class": "quality",
        "stake": "A skin forms in about 10 min.",
        "back": None,
        "else": "Mist the skin with alcohol, then set it in.",
        "lost_ms": None,
        "source": COMMON_PRACTICE,
    },
    "first_layer": {
        "says": "First layer that waits for the next",
        "keeps_ms": 25 * MINUTE_MS,
        "each": False,
        "class": "back",
        "stake": "It goes cold in about 25 min, and the layers part.",
        "back": {
            "do": "Score it, warm it and mist it with alcohol. The bond is weaker.",
            "ms": 3 * MINUTE_MS,
            "most": 1,
        },
        "lost_ms": None,
        # Found: a hobby page waits about 15 minutes, until there is a skin; suppliers' pages say that a layer
        # gone cold does not hold. No figure for the late end was found.
        "source": COMMON_PRACTICE,
    },
    "unwrapped": {
        "says": "Dry piece, not wrapped yet",
        "keeps_ms": 24 * HOUR_MS,
        "each": False,
        "class": "quality",
        "stake": "It takes up water: in days at 40 % humidity, in hours at 70 %.",
        "back": None,
        "else": "Dab off the dew, let it dry in moving air, then wrap.",
        "lost_ms": None,
        "source": "ASTM D5032 (glycerol and humidity); the hours are common practice",
    },
}
# What helps a mix that was sprayed too wet, where its recipe does not say: common practice.
TOO_WET = {"too_far": "Stop spraying. Spread it thin, turn it now and then.", "too_far_ms": 5 * MINUTE_MS}
NO_STATE: Json = {"class": "quality", "back": None, "else": "", "lost_ms": None, "keeps_ms": None}

_FATS = frozenset({"butter", "oil"})
_SOAP = frozenset({"soap_base", "whipping_base"})


def guard(state: str, latest_ms: int) -> Json:
    """What a window over a state means for a plan: its class, the price of the way back, and from how long
    past the latest there is none."""
    about = STATES.get(state, NO_STATE)
    lost = about["lost_ms"]
    return {
        "class": about["class"],
        "price_ms": about["back"]["ms"] if about["back"] else 0,
        "lost_ms": max(0, lost - latest_ms) if lost is not None and about["class"] == "back" else None,
    }


def rescue(over: Any) -> str:
    """What to do when a window or a wait was missed: the recipe's own words, else common practice; "" where nothing helps."""
    about = STATES.get(over.get("state", ""), NO_STATE)
    usual: str = about["back"]["do"] if about["back"] else about["else"]
    return str(over.get("rescue") or usual)


def open_window(step: Any, ended: dict[str, int]) -> Json | None:
    """The window of a sheet's step that is open, from the instants at which steps ended: {"opened_at",
    "latest_at", "over"}. Its own stands before those by nature; of these, the first to close that does not keep."""
    own = [step["window"]] if step["window"] else []
    natural = [each for each in step.get("keeps", []) if each["class"] != "quality"]
    for overs in (own, natural):
        found = []
        for over in overs:
            if over["from"] and all(each in ended for each in over["from"]):
                opened = max(ended[each] for each in over["from"])
                found.append({"opened_at": opened, "latest_at": opened + over["latest_ms"], "over": over})
        if found:
            return min(found, key=lambda each: each["latest_at"])
    return None


def mark(components: list[Json], ingredients: Json) -> None:
    """Give each step of a measured recipe its windows by nature, and each window the state it is over.

    step["keeps"]: [{"from", "latest_ms", "stake", "state", "class", "price_ms", "lost_ms"}], [] for most.
    step["window"] gains "state", "class", "price_ms" and "lost_ms"; so does a wait, for its latest.
    """
    _Marking(components, ingredients).mark()


class _Marking:
    opened: dict[str, list[str]]  # step -> the states it leaves behind

    def __init__(self, components: list[Json], ingredients: Json) -> None:
        self.ingredients = ingredients
        self.components = {component["id"]: component for component in components}
        self.steps: dict[str, Json] = {}
        self.part: dict[str, str] = {}
        for component in components:
            for step in component["steps"]:
                key = f"{component['id']}.{step['id']}"
                self.steps[key], self.part[key] = step, component["id"]
        self.followers: dict[str, list[str]] = {key: [] for key in self.steps}
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
            step["keeps"] = []
            if step["window"]:
                state = self._state_over(step["window"]["from"], key, spans)
                step["window"] |= {"state": state, **guard(state, step["window"]["latest_ms"])}
            if step["kind"] == "wait":
                state = "first_layer" if self._between_pours(key) else ""
                step |= {"state": state, **guard(state, step["latest_ms"] or 0)}
            if step["kind"] == "check" and step["too_far"] is None and "wetted_fizz" in self.opened[key]:
                step |= TOO_WET
        for span in spans:
            for key, sources in span.windows():
                self._keep(key, sources, span.state)
        for key, step in self.steps.items():
            if step["does"] == "wrap" and self._left_open(step):
                self._keep(key, list(step["after"]), "unwrapped")

    def _keep(self, key: str, sources: list[str], state: str) -> None:
        keeps = {"from": sources, "latest_ms": STATES[state]["keeps_ms"], "stake": STATES[state]["stake"]}
        keeps |= {"state": state, **guard(state, STATES[state]["keeps_ms"])}
        if keeps not in self.steps[key]["keeps"]:
            self.steps[key]["keeps"].append(keeps)

    def _opened(self, key: str) -> Iterator[str]:
        """The states that a step leaves behind."""
        step, kinds = self.steps[key], self.kinds[self.part[key]]
        if step["kind"] == "melt":
            melted = {self._kind(self.part[key], line) for line in step["of"]}
            if melted & _SOAP:
                yield "melted_base"
            elif melted & _FATS:
                yield "warm_fat"
        if step["does"] == "spray" and {"bicarbonate", "citric_acid"} <= kinds:
            yield "wetted_fizz"
        if step["does"] == "whip" and kinds & _SOAP and step["kind"] in ("do", "check"):
            beaten_again = any(self.steps[each]["does"] == "whip" for each in self._down(key))
            yield "whipped_base" if beaten_again else "beaten_topping"
        if step["does"] == "pour" and self._layered(key):
            yield "first_layer"
        if step["does"] == "pipe" and self._set_into(key):
            yield "piped_top"

    def _kind(self, part: str, line: str) -> str:
        found = next(each for each in self.components[part]["lines"] if each["id"] == line)
        kind: str = self.ingredients[found["ingredient"]]["kind"]
        return kind

    def _down(self, key: str) -> list[str]:
        """The hands-on steps that come after one without a wait between, in its part or the assembly."""
        found: list[str] = []
        stack = [key]
        while stack:
            for each in self.followers[stack.pop()]:
                if (
                    each not in found
                    and self.part[each] in (self.part[key], ASSEMBLY)
                    and self.steps[each]["kind"] != "wait"
                ):
                    found.append(each)
                    stack.append(each)
        return found

    def _layered(self, key: str) -> bool:
        """Whether another pour of the same part comes on top of this one: after it, and a wait between."""
        return not self.steps[key].get("tips") and any(
            self.steps[wait]["kind"] == "wait" and self._between_pours(wait) for wait in self.followers[key]
        )

    def _between_pours(self, wait: str) -> bool:
        """Whether a wait stands between two pours of one part, with nothing turned out meanwhile."""
        part = self.part[wait]
        poured = any(self.part[need] == part and self._pours(need) for need in self.steps[wait]["after"])
        stack, seen = list(self.followers[wait]) if poured else [], set()
        while stack:
            key = stack.pop()
            step = self.steps[key]
            if key in seen or self.part[key] != part or step["kind"] == "wait" or step["unmoulds"]:
                continue
            if self._pours(key):
                return True
            seen.add(key)
            stack += self.followers[key]
        return False

    def _pours(self, key: str) -> bool:
        return self.steps[key]["does"] == "pour" and not self.steps[key].get("tips")

    def _set_into(self, key: str) -> bool:
        """Whether something is still to be put onto a piped top while it is soft."""
        return any(self.steps[each]["does"] in ("join", "sprinkle") for each in self.followers[key])

    def _left_open(self, step: Json) -> bool:
        """Whether nothing says how soon a wrapping must follow, and the piece is one that takes up water."""
        kinds = set().union(*self.kinds.values())
        waits = [self.steps[need] for need in step["after"] if self.steps[need]["kind"] == "wait"]
        return (
            not step["window"]
            and bool(step["after"])
            and not any(wait["latest_ms"] is not None for wait in waits)
            and bool(kinds & _SOAP or {"bicarbonate", "citric_acid"} <= kinds)
        )

    def _state_over(self, sources: list[str], key: str, spans: list["_Span"]) -> str:
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


class _Span:
    """One state from the step that opens it: the steps it is carried through, and those that end it."""

    def __init__(self, marking: _Marking, opener: str, state: str) -> None:
        self.marking = marking
        self.opener = opener
        self.state = state
        self.each = STATES[state]["each"]
        self.vessels = self._vessels(opener)
        self.carried: list[str] = []
        self.ends: list[str] = []
        self._walk()
        self._afters: dict[str, set[str]] = {}  # asked for again and again, once the walk is over

    def holds(self, sources: list[str]) -> bool:
        return any(each == self.opener or each in self.carried for each in sources)

    def windows(self) -> Iterator[tuple[str, list[str]]]:
        """(step, from): the windows by nature that the recipe's own do not cover."""
        if self.state == "first_layer" and not self._waits_allow():
            return
        steps = self.marking.steps
        if self.state == "piped_top":
            return  # a light matter: the recipe's own word or none
        whole = not self.each and all(
            self._works_ms(end) <= STATES[self.state]["keeps_ms"] for end in self.ends
        )
        if whole:
            for end in self.ends:
                window = steps[end]["window"]
                if not (window and self.holds(window["from"])) and not self._covered_by_wait(end):
                    yield end, [self.opener]
            return
        for key in [*self.carried, *self.ends]:
            needs = [need for need in steps[key]["after"] if need == self.opener or need in self.carried]
            if needs and not any(self._covers(other, key) for other in [*self.carried, *self.ends]):
                yield key, needs

    def _covers(self, closer: str, key: str) -> bool:
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

    def _follows(self, key: str) -> set[str]:
        if key not in self._afters:
            self._afters[key] = self._after(key)
        return self._afters[key]

    def _after(self, key: str) -> set[str]:
        inside = {self.opener, *self.carried, *self.ends}
        found: set[str] = set()
        stack = [key]
        while stack:
            for each in self.marking.followers[stack.pop()]:
                if each in inside and each not in found:
                    found.add(each)
                    stack.append(each)
        return found

    def _works_ms(self, end: str) -> int:
        """How long hands work between the opener and an end."""
        between = [self.marking.steps[key] for key in self.carried if end in self._after(key)]
        return sum(
            _UNKNOWN_HANDS_MS if step["hands_ms"] is None else int(step["hands_ms"]) for step in between
        )

    def _walk(self) -> None:
        marking = self.marking
        part = marking.part[self.opener]
        stack, last = [self.opener], []
        while stack:
            key = stack.pop()
            onward = [
                each
                for each in marking.followers[key]
                if marking.part[each] in (part, ASSEMBLY)
                and (marking.steps[each]["kind"] != "wait" or self.state == "first_layer")
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
        # What leads to no end has no part in it; where nothing ends it, the last step on its way does.
        if self.ends:
            self.carried = [key for key in self.carried if self._after(key) & set(self.ends)]
        else:
            self.ends = list(dict.fromkeys(last))
            self.carried = [key for key in self.carried if key not in self.ends]

    def _ends_with(self, key: str) -> bool:
        step = self.marking.steps[key]
        if self.state in self.marking.opened[key] and self.vessels == self._vessels(key):
            return True  # begun anew
        if self.state in ("melted_base", "warm_fat") and self.vessels & set(step.get("tips", [])):
            return True
        if self.state == "whipped_base":
            return bool(step["does"] == "whip" or step["kind"] == "pieces")
        if self.state == "first_layer":
            return self.marking._pours(key) or step["unmoulds"]
        return bool(step["kind"] == "pieces" or step["does"] in ("pour", "press", "pipe"))

    def _vessels(self, key: str) -> set[str]:
        step = self.marking.steps[key]
        component = self.marking.components[self.marking.part[key]]
        return {
            other["into"]
            for other in component["steps"]
            if other["kind"] == "weigh" and set(other["lines"]) & set(step.get("of", []))
        }

    def _waits_allow(self) -> bool:
        waits = [self.marking.steps[key] for key in self.carried if self.marking.steps[key]["kind"] == "wait"]
        usual: int = sum(wait["usual_ms"] for wait in waits)
        keeps: int = STATES[self.state]["keeps_ms"]
        return usual < keeps

    def _covered_by_wait(self, end: str) -> bool:
        """Whether the latest of a wait on the way says it already."""
        return self.state == "first_layer" and any(
            self.marking.steps[key]["kind"] == "wait" and self.marking.steps[key]["latest_ms"] is not None
            for key in self.carried
        )
