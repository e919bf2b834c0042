"""What the batches on the bench keep from a week: of the hands and of the kit, as their own plan has it."""

from bench.shapes.planning import Plan, Problem, Stretch
from bench.shapes.units import InstantMs
from bench.shapes.week import WeekBusy


def hands_of(plan: Plan) -> dict[int, list[Stretch]]:
    """By maker, when hands are on a batch."""
    busy: dict[int, list[Stretch]] = {}
    for step in plan["steps"]:
        if step["maker"] is not None and step["starts_at"] < step["ends_at"]:
            busy.setdefault(step["maker"], []).append([step["starts_at"], step["ends_at"]])
    return busy


def kit_of(problem: Problem, plan: Plan, until: InstantMs) -> list[WeekBusy]:
    """What of the kit they have, and from when to when. until: for what is held and has no end in the plan."""
    begins = {step["id"]: step["starts_at"] for step in plan["steps"]}
    ends = {step["id"]: step["ends_at"] for step in plan["steps"]}
    is_begun = {task["id"] for task in problem["tasks"] if task["status"] != "open"}
    found: list[WeekBusy] = []
    for hold in problem["holds"]:
        since = problem["since"] if hold["from"] in is_begun else begins.get(hold["from"])
        if since is not None:
            last = ends.get(hold["until"], until)
            found.append(
                {"equipment": hold["equipment"], "many": hold["many"], "since": since, "until": last}
            )
    for task in problem["tasks"]:
        if task["status"] != "done" and task["id"] in begins:
            since, last = begins[task["id"]], ends[task["id"]]
            found += [
                {"equipment": key, "many": many, "since": since, "until": last}
                for key, many in task["uses"].items()
            ]
    return [each for each in found if problem["since"] < each["until"] and each["since"] < each["until"]]
