"""What there is to do: the steps of a sheet as tasks, gaps and holds. No solver, no clock.

Hand times are the recipe's own where it gives them. Elsewhere they are guesses of common practice
and say so, until the maker's own runs are handed in.
"""

from typing import Any

from bench.errors import PlanError
from bench.quantities import LONGEST_MS
from bench.whole import PPM, ceiling, half_even, span

Json = Any

MINUTE_MS = 60_000
TIGHT_MS = 120 * MINUTE_MS  # a window this short is kept by working straight through
PAD_PPM = 150_000  # the room left in a tight chain, for hands that are slower than they think
GRAIN_MS = 15_000  # hand times are kept to a quarter of a minute: nobody works finer

# Common practice, all of them: how long hands are busy when the recipe does not say.
_DO_MS = 3 * MINUTE_MS
_WEIGH_MS, _LINE_MS = MINUTE_MS, MINUTE_MS  # to set up, and for each line
_MELT_MS, _LOOK_MS = 5 * MINUTE_MS, 30_000  # a melt with no plan of bursts; a stir and a look after a burst
_SPLIT_MS = 3 * MINUTE_MS
_CHECK_MS = 2 * MINUTE_MS
_ONE_BY_ONE_MS, _TOGETHER_MS = MINUTE_MS, 15_000  # a piece


def tasks_of(
    sheet: Json,
    state: Json | None = None,
    *,
    run: str = "",
    recipe: Json | None = None,
    hands: dict[str, int] | None = None,
    pad_ppm: int = PAD_PPM,
) -> Json:
    """A sheet, and how far its run has come, as {"tasks", "gaps", "holds", "equipment"}.

    recipe: the measured recipe of the sheet; it says which moulds are held, and for how many pieces
    hand times were written. hands: step id -> ms, the maker's own times, before all others. The shapes
    are in `bench/planning/__init__.py`. PlanError when a wait is past a year or a window cannot hold
    its step (not while a run is live: what is on the bench is planned as it stands).
    """
    return _Tasks(sheet, state, run, recipe, hands or {}, pad_ppm).told()


class _Tasks:
    def __init__(
        self,
        sheet: Json,
        state: Json | None,
        run: str,
        recipe: Json | None,
        hands: dict[str, int],
        pad_ppm: int,
    ) -> None:
        self.sheet = sheet
        self.state = state
        self.run = run
        self.recipe = recipe
        self.hands = hands
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.about = {component["id"]: component for component in sheet["components"]}
        self.running = {wait["step"]: wait for wait in state["waits"]} if state else {}
        self._upstream: dict[str, set[str]] = {}
        self.tasks = {key: self._task(step) for key, step in self.steps.items()}
        self.gaps = [gap for step in sheet["steps"] for gap in self._gaps(step)]
        self._pad(pad_ppm)

    def told(self) -> Json:
        kit = self.sheet["kit"]
        equipment = {
            f"{group}.{each['id']}": {"name": each["name"], "many": 1}
            for group in ("scales", "heaters", "mixers")
            for each in kit[group]
        }
        holds = self._holds(equipment)
        return {"tasks": list(self.tasks.values()), "gaps": self.gaps, "holds": holds, "equipment": equipment}

    def _id(self, step: str) -> str:
        return f"{self.run}/{step}" if self.run else step

    # Tasks

    def _task(self, step: Json) -> Json:
        waits = step["kind"] == "wait"
        takes, source = (step["usual_ms"], "recipe") if waits else self._takes(step)
        if max(takes, step["latest_ms"] or 0 if waits else 0) > LONGEST_MS:
            raise PlanError(
                f"steps.{step['id']}", f"“{step['title']}” takes more than a year. Plan what comes before it."
            )
        return {
            "id": self._id(step["id"]),
            "run": self.run,
            "component": step["component"],
            "letter": self.about[step["component"]]["letter"],
            "round": step["round"],
            "title": step["title"],
            "kind": "wait" if waits else "hands",
            "takes_ms": takes,
            "takes_from": source,
            "uses": {} if waits else self._uses(step),
            **self._progress(step, takes),
        }

    def _takes(self, step: Json) -> tuple[int, str]:
        """How long a step holds the hands, in ms, and where that comes from."""
        if step["id"] in self.hands:
            return _to_grain(self.hands[step["id"]]), "your own runs"
        kind, count = step["kind"], step.get("count") or 1
        if step["hands_ms"] is not None:
            written = self._written_count(step)
            if kind == "pieces" and written:
                return _to_grain(ceiling(step["hands_ms"] * count, written)), "recipe"
            return _to_grain(step["hands_ms"]), "recipe"
        if kind == "do":
            return _to_grain(step["about_ms"] or _DO_MS), "recipe" if step["about_ms"] else "common practice"
        if kind == "melt" and step["bursts"]:
            return _to_grain(
                sum(burst["ms"] + burst["rest_ms"] + _LOOK_MS for burst in step["bursts"])
            ), "planned bursts"
        guess = {
            "weigh": _WEIGH_MS + _LINE_MS * len(step.get("lines", [])),
            "melt": _MELT_MS,
            "split": _SPLIT_MS,
            "check": _CHECK_MS,
            "pieces": count * (_ONE_BY_ONE_MS if step.get("one_by_one") else _TOGETHER_MS),
        }[kind]
        return _to_grain(guess), "common practice"

    def _written_count(self, step: Json) -> int | None:
        """For how many pieces the recipe's hand times were written; None when nobody can say."""
        if self.recipe is None:
            return None
        component = next(each for each in self.recipe["components"] if each["id"] == step["component"])
        written: int = self.recipe["written_for"] * component["takes"] + component["spares"]
        return written

    def _uses(self, step: Json) -> Json:
        """Which of the few things of the kit a step needs while hands are on it."""
        kit = self.sheet["kit"]
        used = {f"heaters.{each['id']}" for each in kit["heaters"] if each["name"] == step.get("heater")}
        named = {tool.lower() for tool in step["tools"]}
        used |= {
            f"mixers.{each['id']}"
            for each in kit["mixers"]
            if each["name"].lower() in named or each["id"].replace("_", " ") in named
        }
        if step["kind"] == "weigh":
            used |= {
                f"scales.{line['scale']}"
                for line in self.sheet["lines"]
                if line["id"] in step["lines"] and line["scale"]
            }
        return dict.fromkeys(sorted(used), 1)

    def _progress(self, step: Json, takes: int) -> Json:
        """How far a step has come: {"status", "began_at", "ended_at", "left_ms"}, see the shapes."""
        if self.state is None:
            return {"status": "open", "began_at": None, "ended_at": None, "left_ms": takes}
        key = step["id"]
        told = self.state["steps"][key]
        if told["status"] in ("done", "skipped"):
            return {"status": "done", "began_at": None, "ended_at": told["at"], "left_ms": 0}
        if key in self.running:
            wait = self.running[key]
            return {
                "status": "begun",
                "began_at": wait["began_at"],
                "ended_at": None,
                "left_ms": wait["usual_at"] - wait["began_at"],
            }
        if told["status"] != "begun" or step["kind"] == "wait":
            return {"status": "open", "began_at": None, "ended_at": None, "left_ms": takes}
        began = [each["at"] for each in self.state["bursts"].get(key, []) + self.state["looks"].get(key, [])]
        began += [guide["began_at"] for guide in self.state["guides"] if guide["step"] == key]
        made = self._made(step, takes)
        return {
            "status": "begun",
            "began_at": min(began, default=None)
            if not made
            else None,  # counted pieces say more than a clock
            "ended_at": None,
            "left_ms": max(GRAIN_MS, takes - made),
        }

    def _made(self, step: Json, takes: int) -> int:
        """The part of a begun step's time that its counted pieces or weighed lines have used, in ms."""
        assert self.state is not None
        count = self.state["counts"].get(step["id"])
        if count:
            made = count["good"] + count["spoiled"] + count["partial"]
            return half_even(takes * made, max(made, self.state["expected"][step["id"]], 1))
        if step["kind"] == "weigh" and step["lines"]:
            settled = [self.state["lines"][key]["status"] != "open" for key in step["lines"]]
            return half_even(takes * sum(settled), len(settled))
        return 0

    # Gaps

    def _gaps(self, step: Json) -> list[Json]:
        if self.tasks[step["id"]]["status"] == "done":
            return []
        gaps = []
        for need in step["after"]:
            before = self.steps[need]
            gap = self._gap([need], step, 0, None, "after", {})
            if before["kind"] == "wait" and before["latest_ms"] is not None:
                most = self._most_after(before)
                if most is not None:
                    gap = self._gap([need], step, 0, most, "wait", before)
            gaps.append(gap)
        window = step["window"]
        if window and window["from"]:  # one that nothing opens says nothing
            takes = step["hands_ms"] or 0  # as written: what a larger batch takes is only a reckoning
            if takes > window["latest_ms"] and self.state is None:
                raise PlanError(
                    f"steps.{step['id']}.window",
                    f"“{step['title']}” takes {span(takes)}, but its window is only {span(window['latest_ms'])}. "
                    "Make fewer pieces at a time, or give it more time.",
                )
            gaps.append(self._gap(window["from"], step, None, window["latest_ms"], "window", window))
        for keeps in step.get("keeps", []):
            if keeps["from"]:
                gaps.append(self._gap(keeps["from"], step, None, keeps["latest_ms"], "keeps", keeps))
        return gaps

    def _most_after(self, wait: Json) -> int | None:
        """How long after the planned end of a wait what follows may begin; None once it is settled."""
        told = self.tasks[wait["id"]]
        if told["status"] == "done":
            return None
        latest: int = wait["latest_ms"]
        return max(0, latest - int(told["left_ms"]))

    def _gap(
        self, sources: list[str], step: Json, least: int | None, most: int | None, why: str, over: Json
    ) -> Json:
        """over: the window, with what it is over and what missing it costs."""
        return {
            "from": [self._id(each) for each in sources],
            "to": self._id(step["id"]),
            "least_ms": least,
            "most_ms": most,
            "why": why,
            "stake": over.get("stake", ""),
            "class": over.get("class", "quality"),
            "price_ms": over.get("price_ms", 0),
            "lost_ms": over.get("lost_ms"),
        }

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
                    if self.steps[key]["kind"] != "wait"
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

    # Moulds that are held

    def _holds(self, equipment: Json) -> list[Json]:
        """One hold for each round of a part whose mould it stays in, and the moulds into `equipment`."""
        holds = []
        for component in self.recipe["components"] if self.recipe else []:
            mould = component["mould"]
            if not mould or not mould["held"] or component["id"] not in self.about:
                continue
            matching = [
                each
                for each in self.sheet["kit"]["moulds"]
                if each["shape"] == mould["shape"]
                and (each["cavity_mg"] is None or each["cavity_mg"] >= component["piece_mg"])
            ]
            if not matching:
                continue
            many = sum(each["cavities"] * each["sets"] for each in matching)
            least = min(each["cavities"] for each in matching)
            key = f"moulds.{mould['shape']}"
            equipment[key] = {"name": f"{mould['shape']} moulds", "many": many}
            empties = {step["id"] for step in component["steps"] if step["unmoulds"]}
            for made in self.about[component["id"]]["rounds"]:
                steps = [
                    step
                    for step in self.sheet["steps"]
                    if (step["component"], step["round"]) == (component["id"], made["round"])
                    and step["kind"] != "wait"
                ]
                fill = next((step for step in steps if step["kind"] == "pieces"), None)
                empty = next(
                    (step for step in steps if step["step"] in empties), steps[-1] if steps else None
                )
                if fill is None or empty is None or self.tasks[empty["id"]]["status"] == "done":
                    continue
                holds.append(
                    {
                        "equipment": key,
                        "many": min(many, ceiling(made["count"], least) * least),
                        "from": self._id(fill["id"]),
                        "until": self._id(empty["id"]),
                    }
                )
        return holds


def _padded(ms: int, pad_ppm: int) -> int:
    return _to_grain(ceiling(ms * (PPM + pad_ppm), PPM))


def _to_grain(ms: int) -> int:
    return max(GRAIN_MS, ceiling(ms, GRAIN_MS) * GRAIN_MS)
