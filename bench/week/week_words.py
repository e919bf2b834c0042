"""How good a plan of a week is known to be, in words."""

from bench.shapes.week import WeekPlan
from bench.words import say


def week_in_a_line(plan: WeekPlan) -> str:
    """Whether all is met, in how many batches, and what is proven of it."""
    aims = {aim["aim"]: aim for aim in plan["aims"]}
    if not aims:
        return say("week-says-nothing")
    short = aims["short"]
    if not short["value"]:
        said = [say("week-says-met", batches=len(plan["batches"]))]
        said += [say("week-says-fewest")] if aims["batches"]["proven"] else []
        return " ".join(said)
    said = [say("week-says-short", short=short["value"])]
    if short["proven"]:
        said.append(say("week-says-no-better"))
    elif short["bound"]:
        said.append(say("week-says-at-least", least=short["bound"]))
    if plan["status"] == "rule":
        said.append(say("week-says-by-rule"))
    return " ".join(said)
