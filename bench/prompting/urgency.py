"""Why a step should be begun soon, or not yet; and what must be known before it is done."""

from bench.brief import joined, sentence
from bench.prompting.view import View
from bench.shapes.recipe import Window
from bench.shapes.sheet import SheetLine, Step, WaitStep
from bench.sheet_words import yes_of
from bench.states import open_window, rescue, stake_of
from bench.steps import is_judged, runs_by_itself
from bench.waits import wait_phase, window_phase
from bench.words import say


def urgent(view: View, step: Step) -> str:
    """Why this should be begun soon, or not yet; "" where neither is so."""
    pending = [view.steps[need] for need in step["hold_for"] if not view.is_settled(need)]
    if pending:
        first, *more = [each["title"] for each in pending]
        if more:
            return say("prompting-finish-two-first", title=first, other=more[0])
        return say("prompting-finish-first", title=first)
    if step["id"] in view.windows:
        return _stake(view, step)
    return _overdue(view, step) if runs_by_itself(step) else ""


def _overdue(view: View, step: WaitStep) -> str:
    """What is at stake where a wait is nearly or already past its latest, or what helps then."""
    wait = view.waits.get(step["id"])
    phase = wait_phase(wait, view.at) if wait else "counting"
    helps = rescue(step) if phase == "late" else ""
    return helps or (step["stake"] if phase in ("soon_late", "late") else "")


def _stake(view: View, step: Step) -> str:
    """What hangs on beginning soon; once that is past, what can still be done."""
    over = guarding(view, step)
    if window_phase(view.windows[step["id"]], view.at) == "late":
        return say("prompting-past-its-time", rescue=rescue(over) or stake_of(over))
    stake = stake_of(over)
    return (
        stake
        if over is step["window"] or over.get("class") == "quality"
        else say("prompting-stay-with-this", stake=stake)
    )


def guarding(view: View, step: Step) -> Window:
    """What the open window of a step is over: the recipe's own, or one by nature."""
    ended = {key: told["at"] for key, told in view.state["steps"].items() if told["at"] is not None}
    air = view.state["air"]
    window = open_window(step, ended, air[-1]["humidity"] if air else None)
    assert window is not None  # it runs in the state
    over: Window = window["over"]
    return over


def before_look(view: View, line: SheetLine) -> str:
    """That another person looks as soon as this line is in; "" where nobody has to."""
    checks = [each for each in view.sheet["steps"] if is_judged(each)]
    if not any(line["id"] in each.get("looks_at", []) for each in checks):
        return ""
    return say("prompting-second-next") if view.shows(line) else say("prompting-second-unweighed")


def before_next(view: View, step: Step) -> str:
    """What must be known before a step is done: what "right" is where it is judged as soon as it is done,
    and how to leave it where a wait begins by itself."""
    following = [each for each in view.sheet["steps"] if step["id"] in each["after"]]
    judged = [
        say("prompting-judge-next", right=sentence(yes_of(each)))
        for each in following
        if is_judged(each) and "looks_at" not in each
    ]
    leave = [
        joined(say("prompting-then"), sentence(each["title"]), each["says"])
        for each in following
        if runs_by_itself(each) and each["says"]
    ]
    return joined(*judged[:1], *leave)
