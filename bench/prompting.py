"""What the bench says now: the prompts, the waits and windows, and what is still owed.

`now` turns a sheet, a state and an instant into words and numbers. Every prompt carries its
possible answers, and an answer is the kind and body of the entry to post, so this alone is
enough to write a client; the phone page draws exactly this. Best next prompt first.
`frontend/bench/prompting.js` says the same words.
"""

from typing import Any

from bench.brief import brief, in_short, joined, sentence
from bench.capacity import carried, coming, loads, shares, too_full, weighed_lines
from bench.heating import heat_word
from bench.journal import COUNTED, carry_up, division_of, in_reach, left_of_mix, portion_targets
from bench.sizing import MOST_PIECES, pieces_from
from bench.states import open_window, rescue
from bench.waits import guide_phase, wait_phase, window_phase
from bench.weighing import allowed_mg, carry_factor
from bench.whole import PPM, apart, ceiling, celsius, grams, half_even, more_by, span, times, to_division

Json = Any  # until its shape is named

LOOK_AGAIN_SHARE = 10  # "not yet" on a wait looks again after a tenth of its usual time
LEAST_AGAIN_MS = 60_000
DILUTED = 100  # one part in so many, to weigh what is too little for a scale


def now(sheet: Json, state: Json, at: int) -> Json:
    """The bench at an instant (ms). Pure: the same inputs give the same words here and on the phone."""
    return _Bench(sheet, state, at).told()


class _Bench:
    def __init__(self, sheet: Json, state: Json, at: int) -> None:
        self.sheet = sheet
        self.state = state
        self.at = at
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.lines = {line["id"]: line for line in sheet["lines"]}
        self.vessels = {vessel["id"]: vessel for vessel in sheet["vessels"]}
        self.components = {component["id"]: component for component in sheet["components"]}
        self.scales = {scale["id"]: scale for scale in sheet["kit"]["scales"]}
        self.waits = {wait["step"]: wait for wait in state["waits"]}
        self.windows = {window["step"]: window for window in state["windows"]}
        self.guides = {guide["step"]: guide for guide in state["guides"]}

    def told(self) -> Json:
        finished = self.state["finished_at"] is not None
        return {
            "at": self.at,
            "finished": finished,
            "prompts": [] if finished else self._prompts(),
            "waits": [self._wait_said(wait) for wait in self._by_urgency(self.state["waits"], "earliest_at")],
            "windows": [
                self._window_said(window) for window in self._by_urgency(self.state["windows"], "latest_at")
            ],
            "guides": [self._guide_said(guide) for guide in self._by_urgency(self.state["guides"], "until")],
            "skipped": [
                {"step": step["id"], "title": step["title"]}
                for step in self.sheet["steps"]
                if self._status(step["id"]) == "skipped"
            ],
            "owed": self._owed(),
        }

    def _by_urgency(self, items: list[Json], field: str) -> list[Json]:
        return sorted(items, key=lambda item: (item[field], item["step"]))

    def _status(self, step: str) -> str:
        status: str = self.state["steps"][step]["status"]
        return status

    def _settled(self, step: str) -> bool:
        return self._status(step) in ("done", "skipped")

    def _owed(self) -> list[Json]:
        """Steps passed over: not settled, though something that needs them is."""
        passed = {need for step in self.sheet["steps"] if self._settled(step["id"]) for need in step["after"]}
        return [
            {"step": step["id"], "title": step["title"]}
            for step in self.sheet["steps"]
            if step["id"] in passed and not self._settled(step["id"])
        ]

    # Which prompts, in which order

    def _prompts(self) -> list[Json]:
        ready = [step for step in self.sheet["steps"] if self._status(step["id"]) in ("ready", "begun")]
        if not ready:
            unsettled = [step for step in self.sheet["steps"] if not self._settled(step["id"])]
            return [] if unsettled else [self._finish()]
        latest = self._last_component()
        order = sorted(range(len(ready)), key=lambda index: (*self._rank(ready[index], latest), index))
        return [self._prompt(ready[index]) for index in order]

    def _last_component(self) -> str | None:
        """The component and round worked on last, so that one goes on with what is in hand."""
        best: tuple[int, str] | None = None
        for step in self.sheet["steps"]:
            told = self.state["steps"][step["id"]]
            at = told["at"] if self._settled(step["id"]) and step["kind"] != "wait" else None
            if at is not None and (best is None or at >= best[0]):
                best = (at, f"{step['component']}.{step['round']}")
        return best[1] if best else None

    def _rank(self, step: Json, latest: str | None) -> tuple[int, int]:
        """Small is sooner: what is running, then windows, then the part in hand, then long tails."""
        key = step["id"]
        if key in self.guides and step["kind"] == "melt":
            return (0, self.guides[key]["until"])
        if key in self.windows:
            return (1, self.windows[key]["latest_at"])
        if step["kind"] == "wait":
            phase = wait_phase(self.waits[key], self.at) if key in self.waits else "counting"
            place = {"late": 2, "soon_late": 3, "ready": 6, "look": 7, "counting": 9}[phase]
            return (place, self.waits[key]["earliest_at"] if key in self.waits else 0)
        if any(not self._settled(need) for need in step["hold_for"]):
            return (8, -step["tail_ms"])
        if key in self.guides or self._status(key) == "begun":
            return (4, -step["tail_ms"])
        if latest == f"{step['component']}.{step['round']}":
            return (4, -step["tail_ms"])
        return (5, -step["tail_ms"])

    # One prompt

    def _prompt(self, step: Json) -> Json:
        component = self.components[step["component"]]
        prompt: Json = {
            "step": step["id"],
            "component": step["component"],
            "letter": component["letter"],
            "round": step["round"],
            "of_rounds": len(component["rounds"]),
            "kind": step["kind"],
            "title": step["title"],
            "says": step["says"],
            "why": "",
            "more": "",
            "cautions": self._cautions(step),
            "number": None,
            "weigh": None,
            "answers": [],
        }
        prompt.update(getattr(self, f"_{step['kind']}")(step))
        self._explain(prompt, step)
        line = self.lines.get((prompt["weigh"] or {}).get("line") or "")
        many = len(step.get("lines", [])) > 1
        prompt["answers"].append(
            _answer(
                "skip",
                "Skip the whole step" if many else "Skip this step",
                "skipped",
                {"step": step["id"]},
                says=f"The record will show “{step['title']}” as skipped.",
                wants="note",
            )
        )
        prompt["answers"] += self._another(line) if line else []
        return prompt

    def _explain(self, prompt: Json, step: Json) -> None:
        """Put the reason in, and keep the words few where a number or a countdown stands."""
        urgent = self._urgent(step)
        reason = step["reason"] if self._first_asked(step) else ""
        if urgent:
            prompt["says"] = joined(prompt["says"], reason)
        prompt["why"] = urgent or reason
        first = prompt.pop("first", "")  # a reading means nothing until this was done
        if prompt["number"] or step["kind"] == "wait":
            prompt.update(brief(prompt, bool(urgent), first))
        prompt["says"] = joined(first, prompt["says"])

    def _urgent(self, step: Json) -> str:
        """Why this should be begun soon, or not yet; "" where neither is so."""
        pending = [self.steps[need] for need in step["hold_for"] if not self._settled(need)]
        if pending:
            names = " and ".join(f"“{each['title']}”" for each in pending[:2])
            return f"Finish {names} first. After this, the next part can't wait."
        if step["id"] in self.windows:
            return self._stake(step)
        return self._overdue(step) if step["kind"] == "wait" else ""

    def _overdue(self, step: Json) -> str:
        """What is at stake where a wait is nearly or already past its latest, or what helps then."""
        wait = self.waits.get(step["id"])
        phase = wait_phase(wait, self.at) if wait else "counting"
        if phase == "late" and rescue(step):
            return rescue(step)
        return str(step["stake"]) if phase in ("soon_late", "late") else ""

    def _first_asked(self, step: Json) -> bool:
        """Whether nothing of the step was answered yet: what holds for all of it is said now, once."""
        return self._status(step["id"]) != "begun"

    def _cautions(self, step: Json) -> list[Json]:
        """In full and in short; `seen` when it stood with a step that was begun before."""
        every = dict.fromkeys(_cautions_of(step))
        before = {
            caution
            for each in self.sheet["steps"]
            if self._status(each["id"]) in ("begun", "done")
            for caution in _cautions_of(each)
        }
        return [{"short": in_short(each), "full": each, "seen": each in before} for each in every]

    def _before_next(self, step: Json) -> str:
        """What must be known before a step is done: what "right" is where it is judged as soon as it is done,
        and how to leave it where a wait begins by itself."""
        leave = [
            joined("Then:", sentence(each["title"]), each["says"])
            for each in self.sheet["steps"]
            if each["kind"] == "wait" and each["says"] and step["id"] in each["after"]
        ]
        return joined(self._judged_next(step), *leave)

    def _judged_next(self, step: Json) -> str:
        judged = (
            each for each in self.sheet["steps"] if each["kind"] == "check" and step["id"] in each["after"]
        )
        check = next(judged, None)
        return f"You judge it next. Right: {sentence(check['yes'])}" if check else ""

    def _stake(self, step: Json) -> str:
        """What hangs on beginning soon; once that is past, what can still be done."""
        over = self._guarding(step)
        if window_phase(self.windows[step["id"]], self.at) == "late":
            return f"Past its time. {rescue(over) or over['stake']}"
        return str(over["stake"]) if over is step["window"] else f"Stay with this. {over['stake']}"

    def _guarding(self, step: Json) -> Json:
        """What the open window of a step is over: the recipe's own, or one by nature."""
        ended = {key: told["at"] for key, told in self.state["steps"].items() if self._settled(key)}
        window = open_window(step, ended)
        assert window is not None  # it runs in the state
        over: Json = window["over"]
        return over

    def _do(self, step: Json) -> Json:
        key = step["id"]
        if step["ways"]:
            answers = [
                _answer(
                    f"way_{way['id']}",
                    way["name"],
                    "done",
                    {"step": key, "way": way["id"]},
                    says=way["says"],
                    strong=not index,
                )
                for index, way in enumerate(step["ways"])
            ]
        else:
            answers = [_answer("done", "Done", "done", {"step": key}, strong=True)]
        number: Json | None = None
        if step["mg"] is not None:
            number = {"mg": step["mg"], "text": grams(step["mg"], 1000), "caption": "at the least"}
        if step["about_ms"] is not None:
            number = number or {"mg": None, "text": span(step["about_ms"]), "caption": "about"}
            if key not in self.guides:
                length = span(step["about_ms"])
                answers.append(_answer("begin", f"Time it: {length}", "began", {"step": key}))
        return {"says": joined(step["says"], self._before_next(step)), "answers": answers, "number": number}

    def _weigh(self, step: Json) -> Json:
        statuses = [(self.lines[key], self.state["lines"][key]) for key in step["lines"]]
        off = next(((line, told) for line, told in statuses if told["status"] == "over"), None)
        if off:
            return self._over(*off)
        # A line that fell short is asked about, unless its round was carried up: then it is topped up.
        short = next(((line, told) for line, told in statuses if told["status"] == "short"), None)
        if short:
            return self._add(*short, top_up=True) if self._carried(short[0]) > 0 else self._short(*short)
        line, told = next(((line, told) for line, told in statuses if told["status"] == "open"), statuses[-1])
        adding = self._add(line, told, top_up=False)
        if self._first_asked(step):  # what is said of the whole step is said once, before the first pour
            said = (sentence(step["title"]), step["says"])
            if self._names_vessel(joined(*said), line):
                adding["says"] = line["note"]  # where it goes is said
            adding["says"] = joined(*said, adding["says"], self._before_next(step))
        return {**adding, "says": joined(self._filling(line), adding["says"])}

    def _names_vessel(self, words: str, line: Json) -> bool:
        return str(self.state["vessels"][line["vessel"]]["name"]).lower() in words.lower()

    def _carried(self, line: Json) -> int:
        """Above nought when the line's round was carried up, below when it was carried down."""
        num, den = self._factor(line)
        return num - den

    def _factor(self, line: Json) -> tuple[int, int]:
        num, den = self.state["factors"].get(f"{line['component']}.{line['round']}", (1, 1))
        return int(num), int(den)

    def _add(self, line: Json, told: Json, top_up: bool) -> Json:
        """Add this much; the scale will read that."""
        name = line["name"]
        body = {"line": line["id"]}
        leave_out = _answer("left_out", "Leave it out", "left_out", body)
        if told["target_mg"] is None:
            if line["spoons"]:
                how, amount = "spoons", line["spoons"]
            elif line["count"] is not None:
                how, amount = "count", _counted(line)
            else:
                how, amount = "texture", "to texture"
            return {
                "title": f"{name}: add {amount}",
                "says": line["note"],
                "number": {"mg": None, "text": amount, "caption": "levelled off" if how == "spoons" else ""},
                "weigh": self._weighing(line, how, 0, amount, None, 0),
                "answers": [
                    _answer("in", "Added", "weighed", {**body, "mg": line["about_mg"] or 0}, strong=True),
                    leave_out,
                ],
            }
        add = told["target_mg"] - told["in_mg"]
        division = self._division(line)
        vessel = self.state["vessels"][line["vessel"]]
        if line["cup"] or self.state["weigh"] == "tare":
            how, before = ("cup" if line["cup"] else "tare"), 0
        else:
            how, before = "running", vessel["in_mg"] - vessel["zero_mg"]
        if told["scale"] and told["in_mg"] == 0 < add and to_division(add, division) == 0:
            return self._too_little(line, add, before, leave_out)
        rounded = self._rounded_away(line) if how == "running" else 0
        reads = to_division(before + rounded + add, division)
        text = grams(reads, division)
        amount = grams(reads - to_division(before, division), division)  # by what the scale shows now
        seen = _seen(reads - before, add, division)
        captions = {
            "running": "stop here",
            "tare": "zero the scale, then add",
            "cup": "zero a small cup, then weigh",
        }
        answers = [
            _answer(
                "reads", f"It reads {text}", "weighed", {**body, "mg": seen, "reading_mg": reads}, strong=True
            ),
            _answer("other", "It reads something else", "weighed", body, wants="reading"),
        ]
        if top_up:
            answers += self._let_be(line, told)
        elif line["optional"]:
            answers.append(leave_out)
        if how == "running" and before > 0:
            says = f"Starts again from 0. {grams(vessel['in_mg'], division)} is already in."
            answers.append(
                _answer("zeroed", "Scale reset to 0", "zeroed", {"vessel": line["vessel"]}, says=says)
            )
        if not (top_up or line["optional"]):
            answers.append(leave_out)
        scale = self.scales.get(told["scale"] or "")
        place = vessel["name"]
        stands = {"running": before > 0, "tare": vessel["in_mg"] > 0, "cup": True}[how]
        return {
            "title": f"{name}: {'top up' if top_up else 'add'} {amount}",
            "first": _zeroing(scale["name"], f"{place} on") if scale and not stands else "",
            "says": joined(f"Then into {place}." if how == "cup" else "", line["note"]),
            "number": {"mg": reads, "text": text, "caption": captions[how]},
            "weigh": self._weighing(line, how, add, amount, reads, before),
            "answers": answers,
        }

    def _rounded_away(self, line: Json) -> int:
        """What readings before this line rounded away in its vessel, in mg: the next reading takes it up, so
        that roundings never add up. What is off by more was poured so, and is nothing to make good."""
        off = 0
        for other in self.sheet["lines"]:
            told = self.state["lines"][other["id"]]
            if other["vessel"] != line["vessel"] or other["id"] == line["id"] or other["cup"]:
                continue
            if told["target_mg"] is None or told["in_mg"] == 0:
                continue
            away = told["target_mg"] - told["in_mg"]
            off += away if abs(away) <= ceiling(other["division_mg"] or 1, 2) else 0
        return off

    def _weighing(self, line: Json, how: str, add: int, amount: str, reads: int | None, before: int) -> Json:
        told = self.state["lines"][line["id"]]
        scale = self.scales.get(told["scale"] or "")
        return {
            "line": line["id"],
            "name": line["name"],
            "add_mg": add,
            "add": amount,
            "reads_mg": reads,
            "reads": grams(reads, self._division(line)) if reads is not None else "",
            "before_mg": before,
            "how": how,
            "scale": scale["name"] if scale else "",
            "division_mg": scale["division_mg"] if scale else None,
            "tolerance_mg": allowed_mg(line, self._division(line), *self._factor(line)),
            "vessel": line["vessel"],
        }

    def _division(self, line: Json) -> int:
        """The division of the scale that a line goes onto now."""
        return division_of(self.sheet, self.state["lines"][line["id"]]["scale"]) or 1

    def _filling(self, line: Json) -> str:
        """That what is still to come is more than the vessel or its scale takes, before it is passed."""
        component, number = line["component"], line["round"]
        held = loads(self.sheet, component, number, coming(self.sheet, self.state, component, number))
        found = too_full(self.sheet, self.state, held)
        return found[1] if found else ""

    def _too_little(self, line: Json, add: int, before: int, leave_out: Json) -> Json:
        """Less than the scale can show: by spoon, stirred into more of another line, or in a larger batch."""
        scale = self.scales[self.state["lines"][line["id"]]["scale"]]
        division = scale["division_mg"]
        shown = grams(add, next(each for each in (100, 10, 1) if add >= each))
        pieces = ceiling(self.sheet["size"]["pieces"] * division, add)
        spoon = line.get("by_spoon", "")
        ways = [
            f"{shown} is too little for {scale['name']}.",
            self._diluted(line, add, division, shown),
            f"From {pieces} {self.sheet['piece']['many']} on it shows." if pieces <= MOST_PIECES else "",
            line["note"],
        ]
        return {
            "title": f"{line['name']}: add {spoon or shown}",
            "says": joined(*ways),
            "number": {
                "mg": None,
                "text": spoon or shown,
                "caption": "by spoon" if spoon else "judged by eye",
            },
            "weigh": self._weighing(line, "spoons", add, spoon or shown, None, before),
            "answers": [
                _answer("in", "It is in", "weighed", {"line": line["id"], "mg": add}, strong=True),
                _answer("other", "It reads something else", "weighed", {"line": line["id"]}, wants="reading"),
                leave_out,
            ],
        }

    def _diluted(self, line: Json, add: int, division: int, shown: str) -> str:
        """How to weigh a hundredth: a little of it stirred into much of another line that is still to come."""
        take = DILUTED * add
        for other in weighed_lines(self.sheet, line["component"], line["round"]):
            told = self.state["lines"][other["id"]]
            if (
                told["status"] == "open"
                and other["id"] != line["id"]
                and told["target_mg"] >= take >= 5 * division
            ):
                stock = -(-5 * division // 1000) * 1000
                return (
                    f"Or stir {grams(stock, 1000)} into {grams((DILUTED - 1) * stock, 1000)} of {other['name']}: "
                    f"{grams(take, division)} of that holds {shown}."
                )
        return ""

    def _another(self, line: Json) -> list[Json]:
        """Quiet answers: another scale than the sheet's, another vessel of the kit."""
        told = self.state["lines"][line["id"]]
        key = line["vessel"]
        if key is None or told["scale"] is None:
            return []
        vessel = self.state["vessels"][key]
        alone = {"line": line["id"]} if line["cup"] else {}
        heavy = 0 if line["cup"] else vessel["empty_mg"] + vessel["in_mg"]
        scales = [
            _answer(
                f"scale_{scale['id']}",
                f"Weigh on {scale['name']} from now on",
                "placed",
                {"vessel": key, "scale": scale["id"], **alone},
            )
            for scale in self.sheet["kit"]["scales"]
            if scale["id"] != told["scale"] and scale["capacity_mg"] >= heavy
        ]
        kit = self.sheet["kit"]["vessels"]
        kind = next((each["kind"] for each in kit if each["id"] == vessel["kit"]), None)
        vessels = [
            _answer(
                f"took_{each['id']}", f"I took {each['name']}", "took", {"vessel": key, "instead": each["id"]}
            )
            for each in kit
            if each["id"] != vessel["kit"]
            and (each["kind"] == kind or (kind is None and each["kind"] != "cup"))
            and each["holds_mg"] >= vessel["in_mg"]
        ]
        return scales + vessels

    def _over(self, line: Json, told: Json) -> Json:
        """Past tolerance: take some out, leave it, or carry the rest up to match."""
        over = told["in_mg"] - told["target_mg"]
        division = self._division(line)
        to_take = max(to_division(over, division), division)
        shown = grams(to_take, division)
        num, den = carry_up(self.sheet, self.state, line["component"], line["round"])
        body = {"line": line["id"]}
        # After a choice to make less, what was in already is over by that choice: it stays.
        made_less = self._carried(line) < 0
        twice = told["twice"] is not None
        told_twice = _answer(
            "told_twice",
            "Entered on two phones",
            "undone",
            {"entry": told["twice"]},
            says="Counts it once. The second entry is undone.",
            strong=True,
        )
        answers = [
            *([told_twice] if twice else []),
            _answer(
                "take_out",
                f"Take {shown} out",
                "taken_out",
                {**body, "mg": to_take},
                strong=not (made_less or twice),
            ),
            _answer(
                "leave",
                "Leave it",
                "left",
                body,
                says=self._new_share(line, told),
                strong=made_less and not twice,
            ),
        ]
        answers += self._carry(line, "Scale up the rest", num, den)
        went_in = f"{grams(told['in_mg'], division)} in. Target {grams(told['target_mg'], division)}."
        return {
            "kind": "over",
            "title": f"{line['name']}: {shown} too much",
            "says": joined(self._limit_says(line, told), self._filling(line), went_in),
            "number": {"mg": over, "text": f"+{shown}", "caption": "too much"},
            "weigh": self._weighing(line, "over", -over, shown, None, 0),
            "answers": answers,
        }

    def _short(self, line: Json, told: Json) -> Json:
        """Short of the target: add the rest, leave it, or make less to match."""
        adding = self._add(line, told, top_up=True)
        division = self._division(line)
        missing = grams(told["target_mg"] - told["in_mg"], division)
        return {
            **adding,
            "kind": "short",
            "first": "",
            "title": f"{line['name']}: {missing} too little",
            "says": f"{grams(told['in_mg'], division)} in. Target {grams(told['target_mg'], division)}.",
            "answers": [answer for answer in adding["answers"] if answer["id"] != "zeroed"],
        }

    def _let_be(self, line: Json, told: Json) -> list[Json]:
        """What else there is to do about too little: leave it, or make less to match.

        Where more of the others is in already than that would ask for, only what is still to come can be less.
        """
        says = self._new_share(line, told)
        answers = [_answer("leave", "Leave it", "left", {"line": line["id"]}, says=says)]
        less = self._carry(line, "None left: scale down", *carry_factor([(told["in_mg"], line["mg"])]))
        return answers + (less or self._carry_rest(line))

    def _carry_rest(self, line: Json) -> list[Json]:
        """Make less of what is still to come, so that it keeps its share of what is in."""
        lines = weighed_lines(self.sheet, line["component"], line["round"])
        kept = sorted(each["id"] for each in lines if self.state["lines"][each["id"]]["in_mg"])
        num = sum(self.state["lines"][key]["in_mg"] for key in kept)
        den = sum(self.lines[key]["mg"] for key in kept)
        to_come = any(self.state["lines"][each["id"]]["status"] == "open" for each in lines)
        return self._carry(line, "Make less of the rest", num, den, kept) if to_come and num < den else []

    def _carry(self, line: Json, label: str, num: int, den: int, kept: list[str] | None = None) -> list[Json]:
        """The answer that makes every target of this line's round num / den of the sheet's, worked out to its
        end; none where that cannot work. kept: lines that stay as they are."""
        component, number = line["component"], line["round"]
        if not in_reach(num, den):
            return []
        ends, over = carried(self.sheet, self.state, component, number, num, den, kept or [])
        full = too_full(self.sheet, self.state, loads(self.sheet, component, number, ends))
        if over or (full and not full[2]):
            return []
        body = {"component": component, "round": number, "num": num, "den": den}
        body |= {"left": kept} if kept else {}
        says = self._carried_says(line, num, den, ends, full[1] if full else "")
        key = "carry_rest" if kept else "carry"
        return [_answer(key, f"{label}, × {times(num, den)}", "carried", body, says=says)]

    def _new_share(self, line: Json, told: Json) -> str:
        """What leaving it does: the line's share of its component, as it becomes and as it was meant."""
        fellows = [
            each
            for each in self.sheet["lines"]
            if each["component"] == line["component"]
            and each["round"] == line["round"]
            and each["mg"] is not None
        ]
        meant = sum(self.state["lines"][each["id"]]["target_mg"] for each in fellows)
        becomes = meant - told["target_mg"] + told["in_mg"]
        part = self.components[line["component"]]["name"]
        now, was = apart((told["in_mg"], becomes), (told["target_mg"], meant))
        said = f"{line['name']} becomes {now} of {part} instead of {was}."
        if now == was:
            said = f"{line['name']} stays {now} of {part}."
        return joined(said, self._limit_says(line, told))

    def _limit_says(self, line: Json, told: Json) -> str:
        """That what went in passes the limit of the ingredient's own papers, in the part and in the piece."""
        limit = next(
            (each.get("limit_ppm") for each in self.sheet["ingredients"] if each["id"] == line["ingredient"]),
            None,
        )
        if limit is None:
            return ""
        part = line["component"]
        ends = {line["id"]: told["in_mg"]}
        of_part, of_piece = shares(self.sheet, self.state, ends, line["ingredient"], part)
        asked = shares(self.sheet, self.state, {line["id"]: told["target_mg"]}, line["ingredient"], part)
        if max(of_part, of_piece) <= limit or (of_part, of_piece) <= asked:
            return ""
        name = self.components[part]["name"]
        part_says, limit_says = apart((of_part, PPM), (limit, PPM))
        piece_says, _ = apart((of_piece, PPM), (limit, PPM))
        return f"{part_says} of {name}, {piece_says} of the piece: its papers allow {limit_says}."

    def _carried_says(self, line: Json, num: int, den: int, ends: dict[str, int], full: str) -> str:
        """What carrying to match does: the yield, the top-ups, what it makes of the shares, and where it fits."""
        component = self.components[line["component"]]
        total = sum(ends.values())
        said = [f"{component['name']} becomes {grams(total, 1000)}"]
        pieces = pieces_from(component, total)
        if component["piece_mg"] and pieces:
            said[0] += f", enough for {pieces}"
        tops = []
        for each in weighed_lines(self.sheet, line["component"], line["round"]):
            told = self.state["lines"][each["id"]]
            division = self._division(each)
            more = ends[each["id"]] - told["in_mg"]
            if told["in_mg"] and more > allowed_mg(each, division, num, den):
                tops.append(f"{grams(more, division)} {each['name']}")
        if tops:
            said.append(f"top up {', '.join(tops)}")
        said += self._shifted(line, ends)
        if num > den:
            said.append(f"you need {more_by(num, den)} more of the rest")
        return joined("; ".join(said) + ".", full)

    def _shifted(self, line: Json, ends: dict[str, int]) -> list[str]:
        """The two lines whose share of the part differs most from the sheet's, once all is in."""
        lines = weighed_lines(self.sheet, line["component"], line["round"])
        whole, meant = sum(ends.values()), sum(each["mg"] for each in lines)
        if not whole or not meant:
            return []
        off = [(abs(ends[each["id"]] * meant - each["mg"] * whole), each) for each in lines]
        found = sorted(off, key=lambda each: -each[0])[:2]
        said = []
        for size, each in found:
            if 1000 * size > meant * whole:
                now, was = apart((ends[each["id"]], whole), (each["mg"], meant))
                said.append(f"{each['name']} {now} of it instead of {was}")
        return said

    def _melt(self, step: Json) -> Json:
        key = step["id"]
        bursts = self.state["bursts"].get(key, [])
        planned = step["bursts"]
        following = planned[len(bursts)] if len(bursts) < len(planned) else step["more"]
        yes = _answer("yes", "It's melted", "looked", {"step": key, "answer": "yes"}, says=step["look_for"])
        if bursts and bursts[-1]["answer"] is None:
            return self._heating(step, bursts, following, yes)
        length = span(following["ms"])
        resting = self.guides.get(key)
        word = heat_word(self.sheet, step)
        usual = _usual(planned, word)
        expected = f"Usually {usual}." if planned else ""
        if planned and len(bursts) >= len(planned):
            expected = f"Past the usual {usual}: heat gently."
        says = (
            "Stir while it rests." if resting else "",
            step["says"] if not bursts else "",
            f"Right: {sentence(step['look_for'])}",
            _no_further(step),
            expected,
        )
        number = {"mg": None, "text": length, "caption": f"{word} {len(bursts) + 1}, {step['heater']}"}
        if resting:
            number = {"mg": None, "text": span(following["rest_ms"]), "caption": f"rest, then {length} more"}
        ended = not resting or guide_phase(resting, self.at) == "ready"
        body = self._next_heat(step, len(bursts))
        return {
            "says": joined(*says),
            "number": number,
            "answers": [_answer("heat", f"Begin {length}", "heated", body, strong=ended), yes],
        }

    def _next_heat(self, step: Json, given: int) -> Json:
        """The body of an entry that the next burst began; with the rest that is expected between it and its look."""
        planned = step["bursts"]
        following = planned[given] if given < len(planned) else step["more"]
        rest_ms = planned[given + 1]["rest_ms"] if given + 1 < len(planned) else 0
        return {"step": step["id"], "ms": following["ms"]} | ({"rest_ms": rest_ms} if rest_ms else {})

    def _heating(self, step: Json, bursts: list[Json], following: Json, yes: Json) -> Json:
        """A burst counts, or is over: look. Nothing is lit while it counts, so no pedal ends it. The likelier
        answer stands first from the beginning, so that none changes places when the burst is over."""
        over = guide_phase(self.guides[step["id"]], self.at) == "ready"
        enough = len(bursts) >= len(step["bursts"])
        last = bursts[-1]
        if following["rest_ms"] and "rest_ms" not in last:
            label, kind = f"Not yet: rest {span(following['rest_ms'])}", "looked"
            body = {"step": step["id"], "answer": "not_yet"}
        else:
            label, kind = f"Not yet: {span(following['ms'])} more", "heated"
            body = self._next_heat(step, len(bursts))
        again = _answer("again", label, kind, body)
        rests = span(last["rest_ms"]) if "rest_ms" in last else ""
        stir = f"Stir well, rest {rests}, then look" if rests else "Stir well and look"
        likelier, other = (yes, again) if enough else (again, yes)
        return {
            "kind": "heating",
            "says": joined(f"{stir}: {sentence(step['look_for'])}", _no_further(step)),
            "number": {
                "mg": None,
                "text": span(last["ms"]),
                "caption": f"{heat_word(self.sheet, step)} {len(bursts)}, then stir and look",
            },
            "answers": [{**likelier, "strong": over}, other],
        }

    def _split(self, step: Json) -> Json:
        targets = portion_targets(step, self.state)
        index = next(
            (
                place
                for place, portion in enumerate(step["portions"][:-1])
                if portion["vessel"] not in self.state["portions"]
            ),
            0,
        )
        portion, target = step["portions"][index], targets[index]
        scale = self.scales.get(self.state["vessels"][portion["vessel"]]["scale"] or "")
        division = scale["division_mg"] if scale else 1000
        reads = to_division(target, division)
        text = grams(reads, division)
        rest = step["portions"][-1]
        there = self.state["vessels"][step["vessel"]]["in_mg"]
        body = {"vessel": portion["vessel"]}
        seen = min(reads, there) if reads > 0 else target
        return {
            "first": _zeroing(scale["name"], "Empty bowl on") if scale else "",
            "says": joined(
                step["says"] if self._first_asked(step) else "",
                f"The rest, {grams(targets[-1], division)}, stays as {rest['name']}.",
            ),
            "number": {"mg": reads, "text": text, "caption": f"weigh out for {portion['name']}"},
            "weigh": {
                "line": None,
                "name": portion["name"],
                "add_mg": target,
                "add": text,
                "reads_mg": reads,
                "reads": text,
                "before_mg": 0,
                "how": "portion",
                "scale": scale["name"] if scale else "",
                "division_mg": division,
                "tolerance_mg": ceiling(division, 2),
                "vessel": portion["vessel"],
            },
            "answers": [
                _answer("reads", f"It reads {text}", "portioned", {**body, "mg": seen}, strong=True),
                _answer("other", "It reads something else", "portioned", body, wants="reading", most=there),
            ],
        }

    def _check(self, step: Json) -> Json:
        key = step["id"]
        looks = self.state["looks"].get(key, [])
        answers = [_answer("yes", step["yes"], "looked", {"step": key, "answer": "yes"}, strong=True)]
        if step["ways"]:
            answers += [
                _answer(
                    f"not_yet_{way['id']}",
                    f"Not yet: {way['name']}",
                    "looked",
                    {"step": key, "answer": "not_yet", "way": way["id"]},
                    says=" ".join(each for each in (step["not_yet"], way["says"]) if each),
                )
                for way in step["ways"]
            ]
        else:
            answers.append(
                _answer(
                    "not_yet", "Not yet", "looked", {"step": key, "answer": "not_yet"}, says=step["not_yet"]
                )
            )
        if step["too_far"] is not None:
            answers.append(
                _answer(
                    "too_far", "Too far", "looked", {"step": key, "answer": "too_far"}, says=step["too_far"]
                )
            )
        left = self.guides.get(key)
        number = None
        if left and guide_phase(left, self.at) == "counting":
            length = span(left["until"] - left["began_at"])
            number = {"mg": None, "text": length, "caption": "then judge again"}
        return {"says": self._check_says(step, looks), "number": number, "answers": answers}

    def _check_says(self, step: Json, looks: list[Json]) -> str:
        """What the last answer asks to be done, then the question; what "right" is stands before the first."""
        tries = [look for look in looks if look["answer"] != "yes"]
        if not tries:
            return joined(step["ask"], step["says"] or f"Right: {sentence(step['yes'])}")
        way = next((way for way in step["ways"] if way["id"] == tries[-1]["way"]), None)
        do = step["too_far"] if tries[-1]["answer"] == "too_far" else step["not_yet"]
        tried = "Tried once." if len(tries) == 1 else f"Tried {len(tries)} times."
        return joined(f"{way['name']}:" if way else "", do or "", step["ask"], tried)

    def _pieces(self, step: Json) -> Json:
        key = step["id"]
        count = self.state["counts"].get(key, {"good": 0, "spoiled": 0, "partial": 0, "of": {}})
        seen = count["good"] + count["spoiled"] + count["partial"]
        made = seen - count["spoiled"]
        wanted = self.state["expected"][key]
        left = max(0, wanted - made)
        part, part_says, whole = self._part_in_hand(step, count)
        sprayed = len(self.state["looks"].get(key, []))
        sprayed_says = f"Sprayed again {'once' if sprayed == 1 else f'{sprayed} times'}." if sprayed else ""
        part_says = part_says or self._again_says(step, count, wanted)
        body: Json = {"step": key, "seen": seen} | ({} if part is None else {"of": part})
        verb = step["verb"]
        answers = []
        asked, good, name = (
            ("one", 1, "One") if step["one_by_one"] else ("all", left, "One" if left == 1 else f"All {left}")
        )
        for index, way in enumerate(step["ways"]):
            answers.append(
                _answer(
                    f"{asked}_{way['id']}",
                    f"{name} {verb}: {way['name']}",
                    "counted",
                    {**body, "good": good, "way": way["id"]},
                    says=way["says"],
                    strong=whole and not index,
                )
            )
        if not step["ways"]:
            answers.append(_answer(asked, f"{name} {verb}", "counted", {**body, "good": good}, strong=whole))
        in_a_row = self._in_hand(step, part, count, left)
        if step["one_by_one"] and not step["ways"] and whole and in_a_row > 1:
            answers.append(_answer("all", f"All {in_a_row} {verb}", "counted", {**body, "good": in_a_row}))
        several = f"Several {verb}" if step["one_by_one"] else "Some other number"
        answers.append(_answer("some", several, "counted", body, wants="count", most=left))
        if step["again"] is not None:
            answers.append(
                _answer(
                    "respray",
                    "It has dried: spray and work in",
                    "looked",
                    {"step": key, "answer": "not_yet"},
                    says=step["again"],
                )
            )
        if step["partial"]:
            answers.append(
                _answer("partial", "A small one", "counted", {**body, "partial": 1}, strong=not whole)
            )
        answers.append(_answer("spoiled", "One spoiled", "counted", {**body, "spoiled": 1}))
        answers.append(_answer("enough", "None left: stop here", "done", {"step": key}))
        return {
            "says": joined(
                step["again"] if step["again"] and made else step["says"],
                sprayed_says,
                part_says,
                self._before_next(step),
            ),
            "number": {
                "mg": None,
                "text": str(made),
                "caption": f"of {wanted} {verb}",
            },
            "answers": answers,
        }

    def _again_says(self, step: Json, count: Json, wanted: int) -> str:
        """That what is left of the mix makes good for what was spoiled."""
        if step["follows"] or step["piece_mg"] <= 0 or sum(count[each] for each in COUNTED) < wanted:
            return ""
        held = {key: vessel["in_mg"] for key, vessel in self.state["vessels"].items()}
        left = left_of_mix(step, held, count, self.sheet)
        more = left // step["piece_mg"]
        return f"{grams(left, 1000)} left: {more} more {'piece' if more == 1 else 'pieces'}." if more else ""

    def _in_hand(self, step: Json, part: str | None, count: Json, left: int) -> int:
        """How many whole pieces are still to be made of what is in hand: one touch tells them all."""
        if part is None or step["piece_mg"] <= 0:
            return left
        if part == "joined":
            return 1
        used = count["of"].get(part, 0) * step["piece_mg"]
        return min(left, int(self.state["vessels"][part]["in_mg"] - used) // int(step["piece_mg"]))

    def _part_in_hand(self, step: Json, count: Json) -> tuple[str | None, str, bool]:
        """Which portion the next piece comes from, what its leftover still makes, and whether a whole one.

        Portions are used in turn, each as far as it gives whole pieces; what is left of them is
        then joined into a last, perhaps partial, piece.
        """
        if not step["of"] or step["piece_mg"] <= 0:
            return None, "", True
        leftovers = []
        for vessel in step["of"]:
            held = self.state["vessels"][vessel]["in_mg"]
            used = count["of"].get(vessel, 0) * step["piece_mg"]
            name = self.vessels[vessel]["name"]
            if held - used >= step["piece_mg"]:
                whole = (held - used) // step["piece_mg"]
                return vessel, f"From {name}: {whole} more {'piece' if whole == 1 else 'pieces'} in it.", True
            leftovers.append((name, max(0, held - used)))
        left = max(0, sum(mg for _, mg in leftovers) - count["of"].get("joined", 0) * step["piece_mg"])
        parts = " and ".join(f"{grams(mg, 1000)} of {name}" for name, mg in leftovers if mg)
        if left >= step["piece_mg"]:
            return "joined", f"Join what is left: {parts} make {left // step['piece_mg']} more.", True
        return (
            "joined",
            f"{grams(left, 1000)} left: too little for a {grams(step['piece_mg'], 1000)} piece.",
            not step["partial"],
        )

    def _wait(self, step: Json) -> Json:
        key = step["id"]
        wait = self.waits.get(key)
        phase = wait_phase(wait, self.at) if wait else "counting"
        again = max(LEAST_AGAIN_MS, half_even(step["usual_ms"], LOOK_AGAIN_SHARE * 60_000) * 60_000)
        word = step["word"]
        answers = [
            _answer(
                "done",
                f"It's {word}" if phase != "counting" else f"It's {word} already",
                "done",
                {"step": key},
                strong=phase != "counting",
                ask=self._too_early(wait, word) if phase == "counting" else "",
            )
        ]
        if phase != "counting":
            answers.append(
                _answer(
                    "again", f"Not yet: look again in {span(again)}", "extended", {"step": key, "ms": again}
                )
            )
        if phase == "counting":
            return {"says": step["says"], "answers": answers}
        return {"says": joined(f"{word[:1].upper()}{word[1:]} yet?", step["test"]), "answers": answers}

    def _too_early(self, wait: Json | None, word: str) -> str:
        """What is asked before a wait is ended that still counts: there is no going back from what follows."""
        left = f"{span(wait['earliest_at'] - self.at)} before the earliest. " if wait else ""
        return f"{left}Is it really {word}?"

    def _finish(self) -> Json:
        skipped = [step["title"] for step in self.sheet["steps"] if self._status(step["id"]) == "skipped"]
        says = (
            f"Skipped: {', '.join(skipped)}. Was that meant?"
            if skipped
            else "Everything on the sheet is done."
        )
        return {
            "step": None,
            "component": None,
            "letter": "",
            "round": 1,
            "of_rounds": 1,
            "kind": "finish",
            "title": "Finish the batch",
            "says": says,
            "why": "",
            "more": "",
            "cautions": [],
            "number": None,
            "weigh": None,
            "answers": [_answer("finish", "Finish", "finished", {}, strong=True)],
        }

    # The strip of waits

    def _placed(self, key: str) -> Json:
        step = self.steps[key]
        return {
            "step": key,
            "component": step["component"],
            "letter": self.components[step["component"]]["letter"],
            "title": step["title"],
        }

    def _wait_said(self, wait: Json) -> Json:
        step = self.steps[wait["step"]]
        phase = wait_phase(wait, self.at)
        asks = {
            "counting": "",
            "look": f"may be {step['word']}: look",
            "ready": f"should be {step['word']}",
            "soon_late": step["stake"] or "do not leave it much longer",
            "late": step["stake"] or "past its latest time",
        }
        return {
            **self._placed(wait["step"]),
            **wait,
            "word": step["word"],
            "phase": phase,
            "asks": asks[phase],
        }

    def _window_said(self, window: Json) -> Json:
        return {
            **self._placed(window["step"]),
            **window,
            "phase": window_phase(window, self.at),
            "stake": self._guarding(self.steps[window["step"]])["stake"],
        }

    def _guide_said(self, guide: Json) -> Json:
        return {**self._placed(guide["step"]), **guide, "phase": guide_phase(guide, self.at)}


def _answer(
    key: str,
    label: str,
    kind: str,
    body: Json,
    *,
    says: str = "",
    wants: str | None = None,
    most: int | None = None,
    strong: bool = False,
    ask: str = "",
) -> Json:
    """One answer. `input` is what it still wants (reading, count, note) and `most` its upper bound; `ask` is
    what to ask the maker before it is posted."""
    return {
        "id": key,
        "label": label,
        "says": says,
        "kind": kind,
        "body": body,
        "input": wants,
        "most": most,
        "strong": strong,
        "ask": ask,
    }


def _seen(shown: int, asked: int, division: int) -> int:
    """The mass in mg that a reading as it was asked for stands for: what the scale shows, but within half its
    division of what was asked, which is as much as one reading can say of a pour between two."""
    if shown <= 0:  # too small for the scale to show
        return asked
    half = division // 2
    return min(max(shown, asked - half), asked + half)


def _zeroing(scale: str, stands: str) -> str:
    """Which scale, what stands on it, and that it is zeroed then."""
    return f"{scale}. {stands}, then zero."


def _counted(line: Json) -> str:
    count, unit = line["count"], line["unit"]
    return f"{count} {unit[:-1] if count == 1 else unit}"


def _cautions_of(step: Json) -> list[str]:
    return [*step["cautions"], *(each for way in step["ways"] for each in way["cautions"])]


def _usual(planned: list[Json], word: str) -> str:
    """How much heat a melt is expected to take: so many bursts, or so long."""
    if word == "burst":
        return f"{len(planned)} {'burst' if len(planned) == 1 else 'bursts'}"
    return span(sum(each["ms"] for each in planned))


def _no_further(step: Json) -> str:
    """How warm a melt may end, where the recipe says so. Sheets of earlier versions do not hold it."""
    most = step.get("to_mk")
    return f"No further than {celsius(most)}." if most is not None else ""
