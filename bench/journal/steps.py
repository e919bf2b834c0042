"""Taking in what happened to steps: done, passed over, heated, looked at, counted, given more time."""

from bench.journal.amounts import COUNTED
from bench.journal.tally import Tally
from bench.shapes.entries import Began, Chose, Counted, Done, Extended, Heated, Looked, Skipped
from bench.shapes.state import Heating, Look
from bench.steps import by_hand, counts_pieces, runs_by_itself, traits

OfASteps = Chose | Done | Skipped | Began | Heated | Looked | Counted | Extended
ONE_TOUCH_MS = 400  # nobody presses two pieces in that time; a wet thumb bounces within it


def take(tally: Tally, entry: OfASteps) -> bool:
    """Whether the entry made sense on this sheet."""
    match entry["kind"]:
        case "chose":
            return tally.choose(entry["body"]["step"], entry["body"]["way"])
        case "done":
            return _done(tally, entry)
        case "skipped":
            tally.settle(entry["body"]["step"], "skipped", entry["at"], entry["body"].get("why", ""))
            return True
        case "began":
            tally.began.setdefault(entry["body"]["step"], entry["at"])
            return True
        case "heated":
            return _heated(tally, entry)
        case "looked":
            return _looked(tally, entry)
        case "counted":
            return _counted(tally, entry)
        case "extended":
            return _extended(tally, entry)


def _done(tally: Tally, entry: Done) -> bool:
    body = entry["body"]
    step = tally.steps[body["step"]]
    if "way" in body and not tally.choose(step["id"], body["way"]):
        return False
    was_done = tally.is_done(step["id"])
    tally.settle(step["id"], "done", entry["at"])
    if by_hand(step) and not was_done:
        for jug in step["tips"]:
            tally.vessel_mg[step["into"]] += tally.vessel_mg[jug]
            tally.vessel_mg[jug] = 0
            tally.zero_mg[jug] = 0
    return True


def _heated(tally: Tally, entry: Heated) -> bool:
    bursts = tally.bursts.setdefault(entry["body"]["step"], [])
    if bursts and bursts[-1]["answer"] is None:
        bursts[-1]["answer"] = "not_yet"
    burst: Heating = {"at": entry["at"], "ms": entry["body"]["ms"], "answer": None}
    if "rest_ms" in entry["body"]:
        burst["rest_ms"] = entry["body"]["rest_ms"]
    bursts.append(burst)
    return True


def _looked(tally: Tally, entry: Looked) -> bool:
    at, body = entry["at"], entry["body"]
    step, answer = tally.steps[body["step"]], body["answer"]
    if "way" in body and not tally.choose(step["id"], body["way"]):
        return False
    bursts = tally.bursts.get(step["id"])
    if bursts and bursts[-1]["answer"] is None:
        bursts[-1]["answer"] = answer
    look: Look = {"at": at, "answer": answer, "way": body.get("way")}
    if "text" in body:
        look["text"] = body["text"]
    tally.looks.setdefault(step["id"], []).append(look)
    if answer == "yes" and traits(step).ends_by_look:
        tally.settle(step["id"], "done", at)
    return True


def _counted(tally: Tally, entry: Counted) -> bool:
    body = entry["body"]
    step, part = tally.steps[body["step"]], body.get("of")
    if not counts_pieces(step) or (part is not None and part != "joined" and part not in step["of"]):
        return False
    if "way" in body and not tally.choose(step["id"], body["way"]):
        return False
    if "seen" not in body:
        tally.unseeing.add(step["id"])
    elif _is_one_touch(tally, entry):
        return True
    count = tally.counts.setdefault(step["id"], {"good": 0, "spoiled": 0, "partial": 0, "of": {}})
    made = 0
    for field in COUNTED:
        count[field] += body.get(field, 0)
        made += body.get(field, 0)
    if part is not None:
        count["of"][part] = count["of"].get(part, 0) + made
    tally.counted_at[step["id"]] = entry["at"]
    return True


def _is_one_touch(tally: Tally, entry: Counted) -> bool:
    """Whether a device said the same of the same count a moment ago: a thumb that bounced, not a piece."""
    key = (entry["body"]["step"], entry["device"])
    last = tally.counted_by.get(key)
    tally.counted_by[key] = entry
    return last is not None and last["body"] == entry["body"] and entry["at"] - last["at"] < ONE_TOUCH_MS


def _extended(tally: Tally, entry: Extended) -> bool:
    step = entry["body"]["step"]
    if not runs_by_itself(tally.steps[step]):
        return False
    tally.extended[step] = entry["at"] + entry["body"]["ms"]
    return True
