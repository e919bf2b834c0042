"""What a batch has in use of the kit: a bowl, jug or pan from its first use to when its content leaves it, a mould
from when it is filled to when it is turned out, a mixer or a heater while hands are on its step.

The sheet's vessel is a proposal: what counts is what the state says of it (`took`). Small cups are wiped and used
again. What a batch needs is counted in pools, "bowls that take 1.2 kg or more", so any that fits will do.
`bench/planning/` plans by this rule, `in_use` says it at the bench, and `frontend/bench/holding.js` is the same.
"""

from bisect import insort
from typing import Literal, TypedDict, final

from bench.brief import joined
from bench.capacity import loads
from bench.shapes.kit import Kit, Mould, Vessel
from bench.shapes.prompts import InUse, OnBench
from bench.shapes.sheet import PiecesStep, Sheet, Step
from bench.shapes.state import State
from bench.sizing import room_mg
from bench.steps import by_hand, counts_pieces, divides, heats, puts_in, runs_by_itself
from bench.whole import ceiling
from bench.words import say

_SETTLED = ("done", "skipped")
_FILLS = ("press", "pour", "pipe")

Held = TypedDict("Held", {"from": str, "until": str})  # from the start of one step to the end of another


@final
class VesselHold(Held):
    places: list[str]  # ids of the sheet's vessels that are one and the same
    vessel: str  # the kit's, as proposed
    kind: str
    mg: int  # the most that is in it


@final
class MouldHold(Held):
    shape: str
    piece_mg: int
    many: int  # cavities


class Pool(TypedDict):
    """What any that fits of the kit is taken from."""

    key: str
    name: str
    many: int


def vessel_holds(sheet: Sheet) -> list[VesselHold]:
    """What the sheet has in use of the kit's vessels.

    What the kit cannot do even with one step after the other is left out: the sheet warns of it.
    """
    return _Sheet(sheet).holds()


def mould_holds(sheet: Sheet) -> list[MouldHold]:
    """One for each round of a part that stays in its mould."""
    found: list[MouldHold] = []
    for component in sheet["components"]:
        mould = component["mould"]
        if not mould or not mould["held"]:
            continue
        matching = _moulds(sheet["kit"], mould["shape"], component["piece_mg"])
        if not matching:
            continue
        many = sum(each["cavities"] * each["sets"] for each in matching)
        least = min(each["cavities"] for each in matching)
        for made in component["rounds"]:
            steps = [
                step
                for step in sheet["steps"]
                if (step["component"], step["round"]) == (component["id"], made["round"])
                and not runs_by_itself(step)
            ]
            fill = next((step for step in steps if counts_pieces(step) or step["does"] in _FILLS), None)
            empty = next((step for step in steps if step["unmoulds"]), steps[-1] if steps else None)
            if fill is None or empty is None:
                continue
            found.append(
                {
                    "shape": mould["shape"],
                    "piece_mg": component["piece_mg"],
                    "many": min(many, ceiling(made["count"], least) * least),
                    "from": fill["id"],
                    "until": empty["id"],
                }
            )
    return found


def vessel_pools(kit: Kit, kind: str, mg: int, vessel: str | None = None) -> list[Pool]:
    """The pools of the kit's vessels that one with this load is taken from. vessel: which
    one it is, where that is known."""
    rooms = sorted((_room(kit, each), each["id"]) for each in kit["vessels"] if each["kind"] == kind)
    own = next((room for room, key in rooms if key == vessel), None)
    takes = own if own is not None else next((room for room, _ in rooms if room >= mg), rooms[-1][0])
    return [
        {"key": f"vessels.{kind}.{least}", "name": kind, "many": sum(room >= least for room, _ in rooms)}
        for least in sorted({room for room, _ in rooms})
        if least <= takes
    ]


def mould_pools(kit: Kit, shape: str, piece_mg: int) -> list[Pool]:
    """The pools of the kit's moulds that a piece is taken from, as `vessel_pools`; counted in cavities."""
    every = [each for each in kit["moulds"] if each["shape"] == shape]
    sizes = sorted({each["cavity_mg"] for each in every if each["cavity_mg"] is not None})
    takes = next((size for size in sizes if size >= piece_mg), None)
    named = [(f"moulds.{shape}", 0)]
    named += [(f"moulds.{shape}.{size}", size) for size in sizes[1:] if takes is None or size <= takes]
    return [
        {
            "key": key,
            "name": shape,
            "many": sum(each["cavities"] * each["sets"] for each in _moulds(kit, shape, least)),
        }
        for key, least in named
    ]


def tools_of(sheet: Sheet, step: Step) -> list[str]:
    """Which of the few things of the kit a step needs while hands are on it: "mixers.hand_mixer"."""
    kit = sheet["kit"]
    if runs_by_itself(step):
        return []
    heater = step["heater"] if heats(step) else None
    used = {f"heaters.{each['id']}" for each in kit["heaters"] if each["name"] == heater}
    named = {tool.lower() for tool in step["tools"]}
    used |= {
        f"mixers.{each['id']}"
        for each in kit["mixers"]
        if each["name"].lower() in named or each["id"].replace("_", " ") in named
    }
    if puts_in(step):
        used |= {
            f"scales.{line['scale']}"
            for line in sheet["lines"]
            if line["id"] in step["lines"] and line["scale"]
        }
    return sorted(used)


def held_now(state: State, hold: VesselHold | MouldHold) -> bool:
    """Whether a batch has it in its hands now: something went in, and has not left it yet."""
    if state["finished_at"] is not None or state["steps"][hold["until"]]["status"] in _SETTLED:
        return False
    filled = "places" in hold and any(state["vessels"][place]["in_mg"] > 0 for place in hold["places"])
    return filled or state["steps"][hold["from"]]["status"] in ("begun", "done")


def vessel_now(state: State, hold: VesselHold) -> str | None:
    """The vessel of the kit that it really is."""
    return state["vessels"][hold["places"][0]]["kit"]


def wants_kit(sheet: Sheet, state: State) -> bool:
    """Whether a step that could be begun now needs something that another batch could have in use."""
    return any(
        step["id"] in _starting(sheet, state) and (not puts_in(step) or step["vessel"])
        for step in sheet["steps"]
    )


def in_use(run: OnBench, others: list[OnBench]) -> list[InUse]:
    """What the steps that can be begun now need, and other batches have: [{"step", "what", "by", "says", "place",
    "instead"}].

    run, others: {"name", "sheet", "state"}. what: "vessel", "mould" or "tool". place and instead: for a vessel, the sheet's, and the next of the kit that fits and is free, or None.
    """
    starting = _starting(run["sheet"], run["state"])
    if not starting or not others:
        return []
    return [
        *_vessels_in_use(run, others, starting),
        *_moulds_in_use(run, others, starting),
        *_tools_in_use(run, others, starting),
    ]


def _vessels_in_use(run: OnBench, others: list[OnBench], starting: list[str]) -> list[InUse]:
    sheet, state = run["sheet"], run["state"]
    kit = sheet["kit"]
    taken = {
        vessel_now(other["state"], hold): other["name"]
        for other in reversed(others)
        for hold in vessel_holds(other["sheet"])
        if held_now(other["state"], hold)
    }
    holds = vessel_holds(sheet)
    own = {vessel_now(state, hold) for hold in holds if held_now(state, hold)}
    found: list[InUse] = []
    for hold in holds:
        vessel = vessel_now(state, hold)
        if hold["from"] not in starting or held_now(state, hold) or vessel not in taken:
            continue
        free = sorted(
            (each["holds_mg"], each["id"], each["name"])
            for each in kit["vessels"]
            if each["kind"] == hold["kind"]
            and each["id"] not in taken
            and each["id"] not in own
            and _room(kit, each) >= hold["mg"]
        )
        instead = free[0] if free else None
        name = next(each["name"] for each in kit["vessels"] if each["id"] == vessel)
        then = say("holding-take", vessel=instead[2]) if instead else say("holding-empty-first")
        found.append(
            {
                "step": hold["from"],
                "what": "vessel",
                "by": taken[vessel],
                "says": joined(say("holding-vessel", by=taken[vessel], vessel=name), then),
                "place": hold["places"][0],
                "instead": instead[1] if instead else None,
            }
        )
    return found


def _moulds_in_use(run: OnBench, others: list[OnBench], starting: list[str]) -> list[InUse]:
    sheet = run["sheet"]
    found: list[InUse] = []
    for hold in mould_holds(sheet):
        if hold["from"] not in starting:
            continue
        for pool in mould_pools(sheet["kit"], hold["shape"], hold["piece_mg"]):
            by = [
                (other["name"], each["many"])
                for other in others
                for each in mould_holds(other["sheet"])
                if held_now(other["state"], each)
                and pool["key"]
                in [key["key"] for key in mould_pools(other["sheet"]["kit"], each["shape"], each["piece_mg"])]
            ]
            taken = sum(many for _, many in by)
            if taken and taken + hold["many"] > pool["many"]:
                free = max(0, pool["many"] - taken)
                then = say("holding-free", count=free) if free else say("holding-turn-out")
                found.append(
                    _told(
                        hold["from"],
                        "mould",
                        by[0][0],
                        joined(_cavities(by[0][0], taken, pool["many"], hold["shape"]), then),
                    )
                )
                break
    return found


def _tools_in_use(run: OnBench, others: list[OnBench], starting: list[str]) -> list[InUse]:
    kit = run["sheet"]["kit"]
    names = {f"heaters.{each['id']}": each["name"] for each in kit["heaters"]}
    names |= {f"mixers.{each['id']}": each["name"] for each in kit["mixers"]}
    busy: dict[str, str] = {}
    for other in others:
        for step in other["sheet"]["steps"]:
            if other["state"]["steps"][step["id"]]["status"] == "begun":
                for tool in tools_of(other["sheet"], step):
                    busy.setdefault(tool, other["name"])
    return [
        _told(step["id"], "tool", busy[tool], say("holding-vessel", by=busy[tool], vessel=names[tool]))
        for step in run["sheet"]["steps"]
        if step["id"] in starting
        for tool in tools_of(run["sheet"], step)
        if tool in busy and tool in names
    ]


def _cavities(by: str, taken: int, many: int, shape: str) -> str:
    return say("holding-cavities", by=by, taken=taken, many=many, shape=shape)


def _told(step: str, what: Literal["vessel", "mould", "tool"], by: str, says: str) -> InUse:
    return {
        "step": step,
        "what": what,
        "by": by,
        "says": says,
        "place": None,
        "instead": None,
    }


def _starting(sheet: Sheet, state: State) -> list[str]:
    """The steps that could be begun now."""
    if state["finished_at"] is not None:
        return []
    return [step["id"] for step in sheet["steps"] if state["steps"][step["id"]]["status"] == "ready"]


def _room(kit: Kit, vessel: Vessel) -> int:
    room = room_mg(kit, vessel)
    return vessel["holds_mg"] if room is None else room


def _moulds(kit: Kit, shape: str, piece_mg: int) -> list[Mould]:
    return [
        each
        for each in kit["moulds"]
        if each["shape"] == shape and (each["cavity_mg"] is None or each["cavity_mg"] >= piece_mg)
    ]


class _Sheet:
    """The vessels of a sheet, each from its first use to when its content leaves it."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.kit = {each["id"]: each for each in sheet["kit"]["vessels"]}
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.vessels = {each["id"]: each for each in sheet["vessels"]}
        self.order = {key: place for place, key in enumerate(self._in_turn())}
        self.stays: dict[str, str] = {}  # what is divided -> the portion that stays where it is
        for step in sheet["steps"]:
            if divides(step):
                for portion in step["portions"]:
                    if self._of_kit(portion["vessel"]) == self._of_kit(step["vessel"]):
                        self.stays[step["vessel"]] = portion["vessel"]

    def holds(self) -> list[VesselHold]:
        found = [self._hold(key) for key in self.vessels if key not in self.stays.values()]
        told = sorted((each for each in found if each is not None), key=lambda each: self.order[each["from"]])
        kept: list[VesselHold] = []
        for hold in told:
            if all(
                1 + sum(self._beside(hold, other, pool["key"]) for other in kept) <= pool["many"]
                for pool in self._pools(hold)
            ):
                kept.append(hold)
        return kept

    def _pools(self, hold: VesselHold) -> list[Pool]:
        return vessel_pools(self.sheet["kit"], hold["kind"], hold["mg"])

    def _beside(self, hold: VesselHold, earlier: VesselHold, pool: str) -> bool:
        """Whether an earlier one is still in use when this one is taken, one step after the other."""
        later = self.order[earlier["until"]] >= self.order[hold["from"]]
        return later and pool in [each["key"] for each in self._pools(earlier)]

    def _of_kit(self, key: str) -> str | None:
        vessel = self.vessels[key].get("kit")
        return vessel if vessel in self.kit else None

    def _hold(self, key: str) -> VesselHold | None:
        vessel = self._of_kit(key)
        if vessel is None or self.kit[vessel]["kind"] == "cup":
            return None
        places = [key]
        while places[-1] in self.stays:
            places.append(self.stays[places[-1]])
        begins = next((step["id"] for step in self.sheet["steps"] if self._fills(step, key)), None)
        ends = self._until(places[-1])
        if begins is None or ends is None or self.order[ends] < self.order[begins]:
            return None
        return {
            "places": places,
            "vessel": vessel,
            "kind": self.kit[vessel]["kind"],
            "mg": self._load(key),
            "from": begins,
            "until": ends,
        }

    def _fills(self, step: Step, key: str) -> bool:
        if divides(step):
            return any(portion["vessel"] == key for portion in step["portions"])
        if by_hand(step):
            return bool(step["tips"]) and step["into"] == key
        return bool(puts_in(step) and step["vessel"] == key)

    def _until(self, key: str) -> str | None:
        """The step with which the content leaves it: tipped out, divided, made into pieces, else the part's last."""
        vessel = self.vessels[key]
        part = [
            step
            for step in self.sheet["steps"]
            if (step["component"], step["round"]) == (vessel["component"], vessel["round"])
            and not runs_by_itself(step)
        ]
        for step in self.sheet["steps"]:
            if by_hand(step) and key in step["tips"]:
                return step["id"]
            if divides(step) and step["vessel"] == key:
                return step["id"]
        pieces = [step for step in part if counts_pieces(step)]
        made: Step | None = next((step for step in pieces if not step["of"] or key in step["of"]), None)
        if made is None and part:
            made = self._made_after(part[-1]["id"]) or part[-1]
        return made["id"] if made else None

    def _made_after(self, last: str) -> PiecesStep | None:
        """The first step that makes pieces of a part that makes none itself."""
        after = {last}
        for key in sorted(self.steps, key=lambda each: self.order[each]):
            if after & set(self.steps[key]["after"]):
                after.add(key)
                step = self.steps[key]
                if counts_pieces(step):
                    return step
        return None

    def _load(self, key: str) -> int:
        vessel = self.vessels[key]
        part, number = vessel["component"], vessel["round"]
        ends = {
            line["id"]: line["mg"]
            for line in self.sheet["lines"]
            if (line["component"], line["round"]) == (part, number) and line["mg"] is not None
        }
        held = loads(self.sheet, part, number, ends)
        for step in self.sheet["steps"]:
            if divides(step) and step["vessel"] in held:
                for portion in step["portions"]:
                    if portion["vessel"] == key:
                        of = sum(each["share"] for each in step["portions"])
                        return ceiling(held[step["vessel"]] * portion["share"], of)
        return held.get(key, 0)

    def _in_turn(self) -> list[str]:
        """The steps one after the other, in the order of the sheet as far as what they need allows."""
        place = {key: number for number, key in enumerate(self.steps)}
        missing = {key: sum(need in place for need in step["after"]) for key, step in self.steps.items()}
        followers: dict[str, list[str]] = {}
        for key, step in self.steps.items():
            for need in step["after"]:
                followers.setdefault(need, []).append(key)
        ready = [(place[key], key) for key, count in missing.items() if not count]
        ready.sort()
        turn = []
        while ready:
            _, key = ready.pop(0)
            turn.append(key)
            for other in followers.get(key, []):
                missing[other] -= 1
                if not missing[other]:
                    insort(ready, (place[other], other))
        return turn
