"""States that do not keep: what a step can leave behind that spoils, for how long it keeps, and the way back.

A state is known by what a recipe says: the kinds of its ingredients, the kinds of its steps, and what they
do. The recipe's own window stands before the usual time of this table; where it has none, the measured
recipe is given one of nature's (`keeps`), marked as such.

A window has a class. `ruin`: past it the state is lost. `back`: it can be brought back, at a price in
minutes of the hands, and only so often. `quality`: the piece is worse for it, and no more.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypedDict

from bench.shapes.recipe import Guard, StateName, Window, WindowClass
from bench.shapes.sheet import Step
from bench.shapes.units import InstantMs, Ms

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
COMMON_PRACTICE = "common practice"
ASSEMBLY = "assembly"


@dataclass(frozen=True, slots=True)
class WayBack:
    do: str
    ms: Ms  # of the hands
    most: int  # how often


@dataclass(frozen=True, slots=True)
class State:
    """A state that does not keep."""

    says: str
    keeps_ms: Ms  # the usual time
    each: bool  # the time is counted anew from each step in which hands work on it; else from its beginning
    kind: WindowClass
    stake: str
    source: str
    back: WayBack | None = None
    otherwise: str = ""  # what is done with it where there is no way back, common practice too
    lost_ms: Ms | None = None  # from then on there is no way back; None: time alone never takes it


STATES: dict[StateName, State] = {
    "melted_base": State(
        says="Melted base off the heat",
        keeps_ms=5 * MINUTE_MS,
        each=True,
        kind="back",
        stake="It sets in about 5 min: a skin first, then a plug.",
        back=WayBack(
            "Heat it briefly, then stir. Water goes each time: twice at the most.", 2 * MINUTE_MS, 2
        ),
        # Found: suppliers' pages say that a skin can be stirred in again and that base heated again and again
        # breaks down. No figure for the minutes was found.
        source=COMMON_PRACTICE,
    ),
    "warm_fat": State(
        says="Melted butter in its jug",
        keeps_ms=15 * MINUTE_MS,
        each=False,
        kind="back",
        stake="It clouds and sets in about 15 min.",
        back=WayBack("Back over the water bath until it is clear.", 5 * MINUTE_MS, 2),
        source=COMMON_PRACTICE,
    ),
    "wetted_fizz": State(
        says="Wetted fizz mix",
        keeps_ms=30 * MINUTE_MS,
        each=False,
        kind="back",
        stake="It dries and crumbles in about 30 min, sooner in dry air.",
        back=WayBack("A light spray over the whole face, worked in.", 2 * MINUTE_MS, 2),
        lost_ms=90 * MINUTE_MS,  # what two sprays can win
        source=COMMON_PRACTICE,
    ),
    "whipped_base": State(
        says="Whipped base that is to be beaten again",
        keeps_ms=30 * MINUTE_MS,
        each=False,
        kind="back",
        stake="It sinks and dries in about 30 min.",
        back=WayBack("Beat it again before what comes next.", 3 * MINUTE_MS, 2),
        source=COMMON_PRACTICE,
    ),
    "beaten_topping": State(
        says="Beaten topping, in the bowl or the bag",
        keeps_ms=20 * MINUTE_MS,
        each=False,
        kind="ruin",
        stake="It stiffens in about 20 min and can no longer be piped.",
        otherwise="Spread it with a knife where it no longer pipes.",
        lost_ms=0,
        source=COMMON_PRACTICE,
    ),
    "piped_top": State(
        says="Piped top",
        keeps_ms=10 * MINUTE_MS,
        each=False,
        kind="quality",
        stake="A skin forms in about 10 min.",
        otherwise="Mist the skin with alcohol, then set it in.",
        source=COMMON_PRACTICE,
    ),
    "first_layer": State(
        says="First layer that waits for the next",
        keeps_ms=25 * MINUTE_MS,
        each=False,
        kind="back",
        stake="It goes cold in about 25 min, and the layers part.",
        back=WayBack("Score it, warm it and mist it with alcohol. The bond is weaker.", 3 * MINUTE_MS, 1),
        # Found: a hobby page waits about 15 minutes, until there is a skin; suppliers' pages say that a layer
        # gone cold does not hold. No figure for the late end was found.
        source=COMMON_PRACTICE,
    ),
    "unwrapped": State(
        says="Dry piece, not wrapped yet",
        keeps_ms=24 * HOUR_MS,
        each=False,
        kind="quality",
        stake="It takes up water: in days at 40 % humidity, in hours at 70 %.",
        otherwise="Dab off the dew, let it dry in moving air, then wrap.",
        source="ASTM D5032 (glycerol and humidity); the hours are common practice",
    ),
}
# What helps a mix that was sprayed too wet, where its recipe does not say: common practice.
TOO_WET = "Stop spraying. Spread it thin, turn it now and then."
TOO_WET_MS = 5 * MINUTE_MS


def guard(state: StateName | Literal[""], latest_ms: Ms) -> Guard:
    """What a window over a state means for a plan: its class, the price of the way back, and from how long
    past the latest there is none."""
    about = STATES[state] if state else None
    if about is None:
        return {"state": state, "class": "quality", "price_ms": 0, "lost_ms": None}
    past = about.lost_ms is not None and about.kind == "back"
    return {
        "state": state,
        "class": about.kind,
        "price_ms": about.back.ms if about.back else 0,
        "lost_ms": max(0, about.lost_ms - latest_ms) if past and about.lost_ms is not None else None,
    }


def full_guard(over: Guard) -> Guard:
    """What a window is over, and what it costs to miss it; a recipe measured long ago does not say."""
    full: Guard = {
        "state": over.get("state", ""),
        "class": over.get("class", "quality"),
        "price_ms": over.get("price_ms", 0),
        "lost_ms": over.get("lost_ms"),
    }
    if "rescue" in over:
        full["rescue"] = over["rescue"]
    return full


def rescue(over: Guard) -> str:
    """What to do when a window or a wait was missed: the recipe's own words, else common practice; "" where nothing helps."""
    state = over.get("state", "")
    about = STATES.get(state) if state else None
    usual = (about.back.do if about.back else about.otherwise) if about else ""
    return over.get("rescue") or usual


def stake_of(over: Window) -> str:
    """What is at stake where a window is missed: the recipe's own words, else common practice for its state."""
    state = over.get("state", "")
    return over["stake"] or (STATES[state].stake if state else "")


class Opened(TypedDict):
    opened_at: InstantMs
    latest_at: InstantMs
    over: Window


def open_window(step: Step, ended: dict[str, InstantMs]) -> Opened | None:
    """The window of a sheet's step that is open, from the instants at which steps ended. Its own stands before
    those by nature; of these, the first to close that does not keep."""
    own = [step["window"]] if step["window"] else []
    natural = [each for each in step.get("keeps", []) if each.get("class") != "quality"]
    return _first_to_close(own, ended) or _first_to_close(natural, ended)


def _first_to_close(overs: Iterable[Window], ended: dict[str, InstantMs]) -> Opened | None:
    first: Opened | None = None
    for over in overs:
        if over["from"] and all(each in ended for each in over["from"]):
            opened_at = max(ended[each] for each in over["from"])
            latest_at = opened_at + over["latest_ms"]
            if first is None or latest_at < first["latest_at"]:
                first = {"opened_at": opened_at, "latest_at": latest_at, "over": over}
    return first
