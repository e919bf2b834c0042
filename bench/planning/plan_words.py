"""A plan in words: what `reasons.py` found, said in the language that is spoken now.

A plan is kept without words, for whoever reads it next may speak another language. What an earlier version kept in
words stays as it is.
"""

from bench.brief import joined
from bench.planning.bench_hours import on_the_clock
from bench.shapes.planning import Gap, Plan, PlanReason, PlanStep, RunDue, StepNamed, WhyStep
from bench.states import common_stake
from bench.whole import span
from bench.words import say, say_all

RULES_SAID = 3


def plan_in_words(plan: Plan) -> Plan:
    """A plan with what it has to say."""
    worded: Plan = {
        **plan,
        "steps": [_step(each) for each in plan["steps"]],
        "reasons": [_said(each) for each in plan["reasons"]],
    }
    if "due" in plan:
        worded["due"] = [_due(each) for each in plan["due"]]
    return worded


def _step(step: PlanStep) -> PlanStep:
    why = step["why"]
    return {**step, "why": {**why, "says": why_words(why)}} if why else step


def _said(reason: PlanReason) -> PlanReason:
    return {**reason, "says": reason_words(reason)}


def _due(due: RunDue) -> RunDue:
    if "reason" in due:
        return {**due, "why": reason_words(due["reason"])}
    if "late" in due:
        return {**due, "why": say("planning-due-past" if due["late"] == "past" else "planning-due-unfound")}
    return due


def _called(step: StepNamed) -> str:
    if "batch" in step:
        return say("planning-step-of", title=step["title"], name=step["batch"])
    return say("planning-step", title=step["title"])


def why_words(why: WhyStep) -> str:
    """Why a step is now, in a sentence or two."""
    if "named" not in why:
        return why.get("says", "")
    step = _called(why["named"][-1]) if why["named"] else ""
    length = span(why.get("ms", 0))
    match why["kind"]:
        case "window":
            return joined(say("planning-why-window", length=length, step=step), _stake(why))
        case "starts_wait":
            key = why.get("last", False)
            return say(
                "planning-why-starts-last-wait" if key else "planning-why-starts-wait",
                step=step,
                length=length,
            )
        case "frees":
            if "vessel" in why:
                return say("planning-why-frees", vessel=why["vessel"], step=step)
            return say("planning-why-frees-moulds", shape=why.get("shape", ""), step=step)
        case "opens":
            return say("planning-why-opens", step=step, length=length)
        case "late_last":
            return say("planning-why-late-last")
        case "meanwhile":
            return say("planning-why-meanwhile", step=step)
        case "next":
            return say("planning-why-next")


def _stake(why: WhyStep) -> str:
    return common_stake(why["state"]) if "state" in why else why.get("stake", "")


def reason_words(reason: PlanReason) -> str:
    """Why a day cannot be done, and what would do, a sentence each."""
    if "named" not in reason:
        return reason.get("says", "")
    called = {key: _called(each) for key, each in reason["named"].items()}
    steps = [called[key] for key in reason["steps"]]
    if reason["kind"] == "circle":
        return say("planning-circle", steps=_one_after_the_other([steps[-1], *steps]))
    if reason["kind"] == "too_long":
        takes = reason.get("takes_ms", 0)
        longest = takes - reason["change"][0]["ms"]
        return say("planning-too-long", step=steps[0], length=span(takes), longest=span(longest))
    if reason["kind"] == "ready_by":
        return _only_later(reason)
    if not reason["gaps"] and not reason["change"]:
        return say("planning-no-hours", step=steps[0]) if steps else say("planning-no-hours-last")
    return _clash(reason, called)


def _one_after_the_other(steps: list[str]) -> str:
    text = steps[0]
    for step in steps[1:]:
        text = say("planning-circle-after", steps=text, step=step)
    return text


def _only_later(reason: PlanReason) -> str:
    zone = reason.get("zone")
    for change in reason["change"]:
        if change["what"] == "ready_by" and zone:
            day, at = on_the_clock(change["at"], zone)
            return say("planning-only-later-at", day=day, at=at, length=span(change["ms"]))
    return say("planning-only-later", length=span(reason["change"][0]["ms"]))


def _clash(reason: PlanReason, called: dict[str, str]) -> str:
    """What cannot all be kept, what is in the way, and what would do."""
    rules = [_rule(gap, called) for gap in reason["gaps"][:RULES_SAID]]
    return joined(*(rules or [say("planning-not-fitting")]), _in_the_way(reason), _would_do(reason, called))


def _rule(gap: Gap, called: dict[str, str]) -> str:
    return say(
        "planning-rule",
        step=called[gap["to"]],
        length=span(gap["most_ms"] or 0),
        before=called[gap["from"][-1]],
    )


def _in_the_way(reason: PlanReason) -> str:
    closes = [each.get("closes_at") for each in reason["change"] if each["what"] == "hours"]
    zone = reason.get("zone")
    if len(closes) == 1 and closes[0] is not None and zone:
        day, at = on_the_clock(closes[0], zone)
        return say("planning-hours-end", day=day, at=at)
    return say("planning-not-possible")


def _would_do(reason: PlanReason, called: dict[str, str]) -> str:
    """Each way out, any one of which is enough; gaps are given more time together."""
    late: list[str] = []
    ways: list[str] = []
    hours = 0
    zone = reason.get("zone")
    for change in reason["change"]:
        if change["what"] == "gap":
            step = called[change["gap"]["to"]]
            late.append(say("planning-change-late-by", step=step, length=span(change["ms"])))
        elif change["what"] == "start_by":
            ways.append(
                say("planning-change-start-by", at=on_the_clock(change["at"], zone)[1])
                if zone
                else say("planning-change-start-earlier", length=span(change["ms"]))
            )
        elif change["what"] == "hours":
            hours += change["ms"]
    if late:
        ways.insert(0, say("planning-change-late", steps=say_all(late)))
    if hours:
        ways.append(say("planning-change-hours", length=span(hours)))
    if not ways:
        return ""
    return joined(say("planning-change", count=len(ways)), *ways)
