"""What there is to do: the steps of a sheet as tasks, gaps and holds. No solver, no clock.

Hand times are the recipe's own where it gives them. Elsewhere they are guesses of common practice
and say so, until the maker's own runs are handed in.
"""

from bench.errors import PlanError
from bench.holding import (
    MouldHold,
    Pool,
    VesselHold,
    held_now,
    mould_holds,
    mould_pools,
    tools_of,
    vessel_holds,
    vessel_now,
    vessel_pools,
)
from bench.quantities import LONGEST_MS
from bench.shapes.planning import (
    Equipment,
    Gap,
    GapWhy,
    Hold,
    TakesFrom,
    Task,
    TaskProgress,
    TasksOfRun,
)
from bench.shapes.recipe import Guard
from bench.shapes.sheet import Sheet, Step, WaitStep
from bench.shapes.state import State
from bench.states import keeps_ms, stake_of
from bench.steps import by_hand, counts_pieces, planned_ms, puts_in, runs_by_itself, usual_hands_ms
from bench.whole import PPM, ceiling, half_even, span
from bench.words import say

MINUTE_MS = 60_000
TIGHT_MS = 120 * MINUTE_MS  # a window this short is kept by working straight through
PAD_PPM = 150_000  # the room left in a tight chain, for hands that are slower than they think
GRAIN_MS = 15_000  # hand times are kept to a quarter of a minute: nobody works finer


def tasks_of(
    sheet: Sheet,
    state: State | None = None,
    *,
    run: str = "",
    hands: dict[str, int] | None = None,
    pad_ppm: int = PAD_PPM,
) -> TasksOfRun:
    """What there is to do of a sheet, as far as its run has come.

    hands: step id -> ms, the maker's own times, before all others. PlanError when a wait is past a year or a window
    cannot hold its step (not while a run is live: what is on the bench is planned as it stands).
    """
    return _Tasks(sheet, state, run, hands or {}, pad_ppm).result()


def of_sheet(sheet: Sheet, hands: dict[str, int]) -> dict[str, int]:
    """The hand times of a sheet's own steps. hands: by written step, as "base.press"."""
    own = {step["id"]: hands.get(f"{step['component']}.{step['step']}") for step in sheet["steps"]}
    return {key: ms for key, ms in own.items() if ms is not None}


class _Tasks:
    def __init__(
        self,
        sheet: Sheet,
        state: State | None,
        run: str,
        hands: dict[str, int],
        pad_ppm: int,
    ) -> None:
        self.sheet = sheet
        self.state = state
        self.humidity = state["air"][-1]["humidity"] if state and state["air"] else None
        self.run = run
        self.hands = hands
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.about = {component["id"]: component for component in sheet["components"]}
        self.running = {wait["step"]: wait for wait in state["waits"]} if state else {}
        self._upstream: dict[str, set[str]] = {}
        self.tasks = {key: self._task(step) for key, step in self.steps.items()}
        self.gaps = [gap for step in sheet["steps"] for gap in self._gaps(step)]
        self._pad(pad_ppm)

    def result(self) -> TasksOfRun:
        kit = self.sheet["kit"]
        things = [
            *((f"scales.{each['id']}", each["name"]) for each in kit["scales"]),
            *((f"heaters.{each['id']}", each["name"]) for each in kit["heaters"]),
            *((f"mixers.{each['id']}", each["name"]) for each in kit["mixers"]),
        ]
        equipment: dict[str, Equipment] = {key: {"name": name, "many": 1} for key, name in things}
        holds = self._holds(equipment)
        return {"tasks": list(self.tasks.values()), "gaps": self.gaps, "holds": holds, "equipment": equipment}

    def _id(self, step: str) -> str:
        return f"{self.run}/{step}" if self.run else step

    # Tasks

    def _task(self, step: Step) -> Task:
        takes, source = self._takes(step)
        longest = max(takes, step["latest_ms"] or 0) if runs_by_itself(step) else takes
        if longest > LONGEST_MS:
            raise PlanError(f"steps.{step['id']}", say("planning-over-a-year", title=step["title"]))
        return {
            "id": self._id(step["id"]),
            "run": self.run,
            "component": step["component"],
            "letter": self.about[step["component"]]["letter"],
            "round": step["round"],
            "title": step["title"],
            "kind": "wait" if runs_by_itself(step) else "hands",
            "takes_ms": takes,
            "takes_from": source,
            "uses": dict.fromkeys(tools_of(self.sheet, step), 1),
            **self._progress(step, takes),
        }

    def _takes(self, step: Step) -> tuple[int, TakesFrom]:
        """How long a step takes, or holds the hands, in ms, and where that comes from."""
        if runs_by_itself(step):
            return step["usual_ms"], "recipe"
        if step["id"] in self.hands:
            return _to_grain(self.hands[step["id"]]), "own runs"
        if step["hands_ms"] is not None:
            written = self._written_count(step) if counts_pieces(step) else None
            if counts_pieces(step) and written:
                return _to_grain(ceiling(step["hands_ms"] * (step["count"] or 1), written)), "recipe"
            return _to_grain(step["hands_ms"]), "recipe"
        if by_hand(step) and step["about_ms"]:
            return _to_grain(step["about_ms"]), "recipe"
        planned = planned_ms(step)
        if planned is not None:
            return _to_grain(planned), "planned bursts"
        return _to_grain(usual_hands_ms(step)), "common practice"

    def _written_count(self, step: Step) -> int | None:
        """For how many pieces the recipe's hand times were written; None when nobody can say."""
        written_for, part = self.sheet["written_for"], self.about[step["component"]]
        return None if written_for is None else written_for * part["takes"] + part["spares"]

    def _progress(self, step: Step, takes: int) -> TaskProgress:
        if self.state is None:
            return {"status": "open", "began_at": None, "ended_at": None, "left_ms": takes}
        key = step["id"]
        known = self.state["steps"][key]
        if known["status"] in ("done", "skipped"):
            return {"status": "done", "began_at": None, "ended_at": known["at"], "left_ms": 0}
        if key in self.running:
            wait = self.running[key]
            return {
                "status": "begun",
                "began_at": wait["began_at"],
                "ended_at": None,
                "left_ms": wait["usual_at"] - wait["began_at"],
            }
        if known["status"] != "begun" or runs_by_itself(step):
            return {"status": "open", "began_at": None, "ended_at": None, "left_ms": takes}
        began = [each["at"] for each in self.state["bursts"].get(key, [])]
        began += [each["at"] for each in self.state["looks"].get(key, [])]
        began += [guide["began_at"] for guide in self.state["guides"] if guide["step"] == key]
        used = self._used(step, takes)
        return {
            "status": "begun",
            "began_at": min(began, default=None)
            if not used
            else None,  # counted pieces say more than a clock
            "ended_at": None,
            "left_ms": max(GRAIN_MS, takes - used),
        }

    def _used(self, step: Step, takes: int) -> int:
        """The part of a begun step's time that its counted pieces or weighed lines have used, in ms."""
        assert self.state is not None
        count = self.state["counts"].get(step["id"])
        if count:
            made = count["good"] + count["spoiled"] + count["partial"]
            return half_even(takes * made, max(made, self.state["expected"][step["id"]], 1))
        if puts_in(step) and step["lines"]:
            settled = [self.state["lines"][key]["status"] != "open" for key in step["lines"]]
            return half_even(takes * sum(settled), len(settled))
        return 0

    # Gaps

    def _gaps(self, step: Step) -> list[Gap]:
        if self.tasks[step["id"]]["status"] == "done":
            return []
        gaps: list[Gap] = []
        for need in step["after"]:
            before = self.steps[need]
            gap = self._gap([need], step, 0, None, "after", {}, "")
            if runs_by_itself(before) and before["latest_ms"] is not None:
                most = self._most_after(before, before["latest_ms"])
                if most is not None:
                    gap = self._gap([need], step, 0, most, "wait", before, before["stake"])
            gaps.append(gap)
        window = step["window"]
        if window and window["from"]:  # one that nothing opens says nothing
            takes = step["hands_ms"] or 0  # as written: what a larger batch takes is only a reckoning
            if takes > window["latest_ms"] and self.state is None:
                within = span(window["latest_ms"])
                raise PlanError(
                    f"steps.{step['id']}.window",
                    say("planning-not-within", title=step["title"], length=span(takes), most=within),
                )
            gaps.append(
                self._gap(window["from"], step, None, window["latest_ms"], "window", window, window["stake"])
            )
        for keeps in step.get("keeps", []):
            if keeps["from"]:
                most = keeps_ms(keeps, self.humidity)
                gaps.append(self._gap(keeps["from"], step, None, most, "keeps", keeps, stake_of(keeps)))
        return gaps

    def _most_after(self, wait: WaitStep, latest: int) -> int | None:
        """How long after the planned end of a wait what follows may begin; None once it is settled."""
        task = self.tasks[wait["id"]]
        return None if task["status"] == "done" else max(0, latest - task["left_ms"])

    def _gap(
        self,
        sources: list[str],
        step: Step,
        least: int | None,
        most: int | None,
        why: GapWhy,
        over: Guard,
        stake: str,
    ) -> Gap:
        """over: what the gap is over, and what missing it costs."""
        state = over.get("state") if why == "keeps" and not over.get("stake") else None
        gap: Gap = {
            "from": [self._id(each) for each in sources],
            "to": self._id(step["id"]),
            "least_ms": least,
            "most_ms": most,
            "why": why,
            "stake": stake,
            "class": over.get("class", "quality"),
            "price_ms": over.get("price_ms", 0),
            "lost_ms": over.get("lost_ms"),
        }
        return {**gap, "state": state} if state else gap

    def _pad(self, pad_ppm: int) -> None:
        """Leave room in the tight chains: steps between the two ends of a short window take longer.

        A chain that would no longer fit its window is left as it is.
        """
        if not pad_ppm:
            return
        inside: set[str] = set()
        for step in self.sheet["steps"]:
            for window in [step["window"], *step.get("keeps", [])]:
                if not window or window["latest_ms"] > TIGHT_MS:
                    continue
                upstream = self._before(step["id"])
                chain = {
                    key
                    for key in upstream
                    if not runs_by_itself(self.steps[key])
                    and any(opener in self._before(key) for opener in window["from"])
                }
                padded = sum(_padded(self.tasks[key]["takes_ms"], pad_ppm) for key in chain)
                if padded <= window["latest_ms"]:
                    inside |= chain
        for key in inside:
            task = self.tasks[key]
            if task["status"] == "open":
                task["takes_ms"] = task["left_ms"] = _padded(task["takes_ms"], pad_ppm)

    def _before(self, key: str) -> set[str]:
        """All that comes before a step, each step walked back from only once."""
        if key in self._upstream:
            return self._upstream[key]
        seen = self._upstream[key] = set()
        stack = list(self.steps[key]["after"])
        while stack:
            need = stack.pop()
            if need not in seen:
                seen.add(need)
                stack += self.steps[need]["after"]
        return seen

    # What of the kit is held from one step to another

    def _holds(self, equipment: dict[str, Equipment]) -> list[Hold]:
        """One hold for each bowl, jug or mould and each pool of the kit it is taken from; the pools into `equipment`."""
        kit = self.sheet["kit"]
        found: list[tuple[VesselHold | MouldHold, int, list[Pool]]] = []
        for vessel in vessel_holds(self.sheet):
            really = vessel_now(self.state, vessel) if self.state and held_now(self.state, vessel) else None
            found.append((vessel, 1, vessel_pools(kit, vessel["kind"], vessel["mg"], really)))
        for mould in mould_holds(self.sheet):
            found.append((mould, mould["many"], mould_pools(kit, mould["shape"], mould["piece_mg"])))
        holds: list[Hold] = []
        for hold, many, pools in found:
            for pool in pools:
                equipment[pool["key"]] = {"name": pool["name"], "many": pool["many"]}
            begun = self.tasks[hold["from"]]["status"] != "open"
            if self.tasks[hold["until"]]["status"] == "done" or (begun and not self._is_held(hold)):
                continue
            for pool in pools:
                held: Hold = {
                    "equipment": pool["key"],
                    "many": many,
                    "from": self._id(hold["from"]),
                    "until": self._id(hold["until"]),
                }
                if "places" in hold:
                    held["vessel"] = self._named(hold)
                holds.append(held)
        return holds

    def _named(self, hold: VesselHold) -> str:
        """The vessel of the kit as which the bench has it."""
        vessel = (vessel_now(self.state, hold) if self.state else None) or hold["vessel"]
        return next(each["name"] for each in self.sheet["kit"]["vessels"] if each["id"] == vessel)

    def _is_held(self, hold: VesselHold | MouldHold) -> bool:
        return self.state is not None and held_now(self.state, hold)


def _padded(ms: int, pad_ppm: int) -> int:
    return _to_grain(ceiling(ms * (PPM + pad_ppm), PPM))


def _to_grain(ms: int) -> int:
    return max(GRAIN_MS, ceiling(ms, GRAIN_MS) * GRAIN_MS)
