"""A plan as a calendar (RFC 5545), so that a wait that ends at three in the morning needs no open page.

One event for each session at the bench, with an alarm before it, and one for the end of each wait,
with an alarm at that instant. The names of events stay when the day is planned anew, so a calendar
that is read again moves them.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from icalendar import Alarm, Calendar, Event

from bench import Plan, words

MIME = "text/calendar"
BEFORE_SESSION = timedelta(minutes=15)
WAIT_SHOWN = timedelta(minutes=5)  # an event needs a length to be seen


def calendar(plan_id: str, made_at: int, plan: Plan, titles: dict[str, str]) -> bytes:
    """titles: run -> what is made. Steps that are done already are left out."""
    written = Calendar()
    written.add("prodid", "-//Bowlside//Plan//EN")
    written.add("version", "2.0")
    steps = {step["id"]: step for step in plan["steps"]}
    many = len(titles) > 1
    for number, session in enumerate(plan["sessions"], 1):
        does = [steps[key] for key in session["steps"]]
        made = dict.fromkeys(titles[step["run"]] for step in does)
        written.add_component(
            _event(
                f"session-{number}-{plan_id}",
                made_at,
                _instant(session["begins_at"]),
                _instant(session["ends_at"]),
                words.say("api-plans-session", names=", ".join(made)),
                "\n".join(f"{step['letter']} {step['title']}" for step in does),
                -BEFORE_SESSION,
            )
        )
    for task in plan["steps"]:
        if task["kind"] != "wait" or task["status"] == "done":
            continue
        ends = _instant(task["ends_at"])
        title = f"{task['letter']} {task['title']}"
        written.add_component(
            _event(
                f"{task['id'].replace('/', '-')}-{plan_id}",
                made_at,
                ends,
                ends + WAIT_SHOWN,
                words.say("api-plans-ready-of", title=title, name=titles[task["run"]])
                if many
                else words.say("api-plans-ready", title=title),
                "",
                timedelta(0),
            )
        )
    return bytes(written.to_ical())


def _event(
    name: str, made_at: int, begins: datetime, ends: datetime, says: str, more: str, rings: timedelta
) -> Event:
    event = Event()
    event.add("uid", f"{name}@bowlside")
    event.add("dtstamp", _instant(made_at))
    event.add("dtstart", begins)
    event.add("dtend", ends)
    event.add("summary", says)
    if more:
        event.add("description", more)
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", says)
    alarm.add("trigger", rings)
    event.add_component(alarm)
    return event


def _instant(ms: int) -> datetime:
    """Calendars count in seconds."""
    return datetime.fromtimestamp(ms // 1000, UTC)
