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

from bench.air import FIZZ_LOOK_RH, FIZZ_STOP_RH
from bench.shapes.recipe import Guard, StateName, Window, WindowClass
from bench.shapes.sheet import Step
from bench.shapes.units import InstantMs, Ms
from bench.words import say

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
ASSEMBLY = "assembly"


@dataclass(frozen=True, slots=True)
class WayBack:
    ms: Ms  # of the hands
    most: int  # how often


@dataclass(frozen=True, slots=True)
class State:
    """A state that does not keep."""

    keeps_ms: Ms  # the usual time
    each: bool  # the time is counted anew from each step in which hands work on it; else from its beginning
    kind: WindowClass
    back: WayBack | None = None
    lost_ms: Ms | None = None  # from then on there is no way back; None: time alone never takes it
    damp: tuple[
        tuple[int, Ms], ...
    ] = ()  # from so many % humidity on it keeps for so long; the dampest first


STATES: dict[StateName, State] = {
    "melted_base": State(
        keeps_ms=5 * MINUTE_MS,
        each=True,
        kind="back",
        back=WayBack(2 * MINUTE_MS, 2),
        # Found: suppliers' pages say that a skin can be stirred in again and that base heated again and again
        # breaks down. No figure for the minutes was found.
    ),
    "warm_fat": State(
        keeps_ms=15 * MINUTE_MS,
        each=False,
        kind="back",
        back=WayBack(5 * MINUTE_MS, 2),
    ),
    "wetted_fizz": State(
        keeps_ms=30 * MINUTE_MS,
        each=False,
        kind="back",
        back=WayBack(2 * MINUTE_MS, 2),
        lost_ms=90 * MINUTE_MS,  # what two sprays can win
    ),
    "whipped_base": State(
        keeps_ms=30 * MINUTE_MS,
        each=False,
        kind="back",
        back=WayBack(3 * MINUTE_MS, 2),
    ),
    "beaten_topping": State(
        keeps_ms=20 * MINUTE_MS,
        each=False,
        kind="ruin",
        lost_ms=0,
    ),
    "piped_top": State(
        keeps_ms=10 * MINUTE_MS,
        each=False,
        kind="quality",
    ),
    "first_layer": State(
        keeps_ms=25 * MINUTE_MS,
        each=False,
        kind="back",
        back=WayBack(3 * MINUTE_MS, 1),
        # Found: a hobby page waits about 15 minutes, until there is a skin; suppliers' pages say that a layer
        # gone cold does not hold. No figure for the late end was found.
    ),
    "unwrapped": State(
        keeps_ms=24 * HOUR_MS,
        each=False,
        kind="quality",
        # The limits are those of the air over the bench; the hours are common practice.
        damp=((FIZZ_STOP_RH, 2 * HOUR_MS), (FIZZ_LOOK_RH, 8 * HOUR_MS)),
    ),
}
# How long a mix that was sprayed too wet is left alone, where its recipe does not say: common practice.
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
    return over.get("rescue") or (say(f"states-rescue-{state}") if state in STATES else "")


def stake_of(over: Window) -> str:
    """What is at stake where a window is missed: the recipe's own words, else common practice for its state."""
    state = over.get("state", "")
    return over["stake"] or common_stake(state)


def common_stake(state: str) -> str:
    """What is at stake in a state, by common practice; "" where nobody knows it."""
    return say(f"states-stake-{state}") if state in STATES else ""


def keeps_ms(over: Window, humidity: int | None) -> Ms:
    """For how long what a window of nature's is over keeps, in air of this humidity in %; None where nobody read it."""
    state = over.get("state", "")
    damp = STATES[state].damp if state else ()
    return min([over["latest_ms"], *(ms for least, ms in damp if humidity is not None and humidity >= least)])


class Opened(TypedDict):
    opened_at: InstantMs
    latest_at: InstantMs
    over: Window


def open_window(step: Step, ended: dict[str, InstantMs], humidity: int | None) -> Opened | None:
    """The window of a sheet's step that is open, from the instants at which steps ended. Its own stands before
    those by nature; of these, the first to close that does not keep, or keeps less in the air that was read."""
    own = [step["window"]] if step["window"] else []
    natural: list[Window] = [
        {**each, "latest_ms": keeps_ms(each, humidity)}
        for each in step.get("keeps", [])
        if each.get("class") != "quality" or keeps_ms(each, humidity) < each["latest_ms"]
    ]
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
