"""The day: bench hours as written on a wall clock, made into stretches of absolute instants.

A stretch is [opens, closes] in ms. Hours are written for a place, so a clock that is put forward
or back moves the stretches and never the waits.
"""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from bench.errors import PlanError
from bench.shapes.planning import HoursWritten, Stretch
from bench.words import say, weekday

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MAX_DAYS = 400  # longer than the longest wait
DAY_MS = 86_400_000


def stretches(hours: HoursWritten, since: int, until: int) -> list[Stretch]:
    """The stretches of bench time between two instants (ms), in order, none touching the next.

    A date's own hours stand before the weekday's, and those before the daily ones. "24:00" ends a day; what
    ends at 24:00 and goes on at 0:00 is one stretch. PlanError names the field at fault.
    """
    if until - since > MAX_DAYS * DAY_MS:
        raise PlanError("until", say("planning-hours-reach", count=MAX_DAYS))
    found: list[Stretch] = []
    for opens, closes in _open_hours(hours, since, until):
        begin, end = max(since, opens), min(until, closes)
        if begin >= end:
            continue  # before or after what is asked, or swallowed by the clock's change
        if found and begin <= found[-1][1]:
            found[-1][1] = max(found[-1][1], end)
        else:
            found.append([begin, end])
    return found


def _open_hours(hours: HoursWritten, since: int, until: int) -> Iterator[tuple[int, int]]:
    """The instants between which the bench is open, each day's by its own clock."""
    zone = _zone(hours)
    daily = _read_hours(hours.get("daily", []), "hours.daily")
    weekly = {}
    for key, written in hours.get("days", {}).items():
        if key not in DAYS:
            raise PlanError(f"hours.days.{key}", say("planning-hours-day", days=", ".join(DAYS)))
        weekly[key] = _read_hours(written, f"hours.days.{key}")
    dates = {}
    for key, written in hours.get("dates", {}).items():
        dates[_read_date(key)] = _read_hours(written, f"hours.dates.{key}")
    day = datetime.fromtimestamp(since / 1000, zone).date() - timedelta(days=1)
    last = datetime.fromtimestamp(until / 1000, zone).date()
    while day <= last:
        for opens, closes in dates.get(day, weekly.get(DAYS[day.weekday()], daily)):
            yield _instant(day, opens, zone), _instant(day, closes, zone)
        day += timedelta(days=1)


def _zone(hours: HoursWritten) -> ZoneInfo:
    try:
        return ZoneInfo(hours["zone"])
    except (KeyError, ValueError, OSError, TypeError):  # ZoneInfoNotFoundError is a KeyError
        raise PlanError("hours.zone", say("planning-hours-zone")) from None


def on_the_clock(ms: int, zone: str) -> tuple[str, str]:
    """An instant as ("Tuesday", "22:00") at a place, the day as the language that is spoken calls it."""
    local = datetime.fromtimestamp(ms / 1000, ZoneInfo(zone))
    return weekday(local.weekday()), f"{local.hour}:{local.minute:02d}"


def _instant(day: date, minutes: int, zone: ZoneInfo) -> int:
    """The instant of so many minutes on that day's clock. An hour that the clock skips is the one after."""
    day += timedelta(days=minutes // 1440)
    local = datetime(day.year, day.month, day.day, minutes % 1440 // 60, minutes % 60, tzinfo=zone)
    return round(local.timestamp() * 1000)


def _read_hours(written: object, where: str) -> list[tuple[int, int]]:
    """[["9:00", "12:30"], ...] in minutes of the day, in order."""
    if not isinstance(written, list):
        raise PlanError(where, say("planning-hours-list"))
    listed: list[object] = [*written]
    pairs = sorted(_read_pair(pair, f"{where}.{index}", index) for index, pair in enumerate(listed))
    for (_, closes, before), (opens, _, after) in pairwise(pairs):
        if opens < closes:
            raise PlanError(
                f"{where}.{after}",
                say("planning-hours-overlap", hours=_to(listed[after]), other=_to(listed[before])),
            )
    return [(opens, closes) for opens, closes, _ in pairs]


def _read_pair(pair: object, where: str, index: int) -> tuple[int, int, int]:
    if not (isinstance(pair, list | tuple) and len(pair) == 2):
        raise PlanError(where, say("planning-hours-two"))
    opens, closes = (_read_clock(each, where) for each in pair)
    if closes <= opens:
        raise PlanError(where, say("planning-hours-backwards", hours=_to(pair)))
    return opens, closes, index


def _to(pair: object) -> str:
    opens, closes = pair if isinstance(pair, list | tuple) else ("", "")
    return say("planning-hours-pair", opens=str(opens), closes=str(closes))


def _read_clock(text: object, where: str) -> int:
    hour, colon, minute = text.partition(":") if isinstance(text, str) else ("", "", "")
    digits = colon and hour.isascii() and hour.isdigit() and minute.isascii() and minute.isdigit()
    if digits and len(hour) <= 2 and len(minute) == 2 and int(minute) < 60:
        minutes = int(hour) * 60 + int(minute)
        if minutes <= 1440:
            return minutes
    raise PlanError(where, say("planning-hours-clock", written=str(text)[:40]))


def _read_date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise PlanError(f"hours.dates.{text}", say("planning-hours-date")) from None
