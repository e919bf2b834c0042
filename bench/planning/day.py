"""The day: bench hours as written on a wall clock, made into stretches of absolute instants.

A stretch is [opens, closes] in ms. Hours are written for a place, so a clock that is put forward
or back moves the stretches and never the waits.
"""

from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from bench.errors import PlanError

Json = Any  # until its shape is named
Stretch = list[int]

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MOST_DAYS = 400  # longer than the longest wait
DAY_MS = 86_400_000


def stretches(hours: Json, since: int, until: int) -> list[Stretch]:
    """The stretches of bench time between two instants (ms), in order, none touching the next.

    hours: {"zone": "Europe/London", "daily": [["9:00", "12:30"], ["19:00", "22:00"]],
    "days": {"sat": [...]}, "dates": {"2026-11-28": []}}. A date's own hours stand before the
    weekday's, and those before the daily ones. "24:00" ends a day; what ends at 24:00 and goes on
    at 0:00 is one stretch. PlanError names the field at fault.
    """
    if until - since > MOST_DAYS * DAY_MS:
        raise PlanError("until", f"A plan reaches {MOST_DAYS} days ahead at most.")
    zone = _zone(hours)
    daily = _read_hours(hours.get("daily", []), "hours.daily")
    weekly = {}
    for key, written in hours.get("days", {}).items():
        if key not in DAYS:
            raise PlanError(f"hours.days.{key}", f"A day is one of {', '.join(DAYS)}.")
        weekly[key] = _read_hours(written, f"hours.days.{key}")
    dates = {}
    for key, written in hours.get("dates", {}).items():
        dates[_read_date(key)] = _read_hours(written, f"hours.dates.{key}")
    day = datetime.fromtimestamp(since / 1000, zone).date() - timedelta(days=1)
    last = datetime.fromtimestamp(until / 1000, zone).date()
    found: list[Stretch] = []
    while day <= last:
        for opens, closes in dates.get(day, weekly.get(DAYS[day.weekday()], daily)):
            begin = max(since, _instant(day, opens, zone))
            end = min(until, _instant(day, closes, zone))
            if begin >= end:
                continue  # before or after what is asked, or swallowed by the clock's change
            if found and begin <= found[-1][1]:
                found[-1][1] = max(found[-1][1], end)
            else:
                found.append([begin, end])
        day += timedelta(days=1)
    return found


def _zone(hours: Json) -> ZoneInfo:
    try:
        return ZoneInfo(hours["zone"])
    except (KeyError, ValueError, OSError, TypeError):  # ZoneInfoNotFoundError is a KeyError
        raise PlanError(
            "hours.zone", "The bench hours need a time zone by its name, such as “Europe/London”."
        ) from None


def on_the_clock(ms: int, zone: str) -> tuple[str, str]:
    """An instant as ("Tuesday", "22:00") at a place."""
    local = datetime.fromtimestamp(ms / 1000, ZoneInfo(zone))
    return DAY_NAMES[local.weekday()], f"{local.hour}:{local.minute:02d}"


def _instant(day: date, minutes: int, zone: ZoneInfo) -> int:
    """The instant of so many minutes on that day's clock. An hour that the clock skips is the one after."""
    day += timedelta(days=minutes // 1440)
    local = datetime(day.year, day.month, day.day, minutes % 1440 // 60, minutes % 60, tzinfo=zone)
    return round(local.timestamp() * 1000)


def _read_hours(written: Any, where: str) -> list[tuple[int, int]]:
    """[["9:00", "12:30"], ...] in minutes of the day, in order."""
    if not isinstance(written, list):
        raise PlanError(where, "Bench hours are a list of pairs, such as [[“9:00”, “12:30”]].")
    pairs = []
    for index, pair in enumerate(written):
        if not (isinstance(pair, list | tuple) and len(pair) == 2):
            raise PlanError(f"{where}.{index}", "A stretch of bench hours has a beginning and an end.")
        opens, closes = (_read_clock(each, f"{where}.{index}") for each in pair)
        if closes <= opens:
            raise PlanError(
                f"{where}.{index}",
                f"{pair[0]} to {pair[1]} ends before it begins. Past midnight, write it as two: to 24:00, "
                "and from 0:00 on the next day.",
            )
        pairs.append((opens, closes, index))
    pairs.sort()
    for before, after in zip(pairs, pairs[1:], strict=False):
        if after[0] < before[1]:
            raise PlanError(
                f"{where}.{after[2]}",
                f"{written[after[2]][0]} to {written[after[2]][1]} overlaps "
                f"{written[before[2]][0]} to {written[before[2]][1]}. Make them one.",
            )
    return [(opens, closes) for opens, closes, _ in pairs]


def _read_clock(text: Any, where: str) -> int:
    hour, colon, minute = text.partition(":") if isinstance(text, str) else ("", "", "")
    digits = colon and hour.isascii() and hour.isdigit() and minute.isascii() and minute.isdigit()
    if digits and len(hour) <= 2 and len(minute) == 2 and int(minute) < 60:
        minutes = int(hour) * 60 + int(minute)
        if minutes <= 1440:
            return minutes
    raise PlanError(where, f"“{text}” is not a time of day from 0:00 to 24:00.")


def _read_date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise PlanError(f"hours.dates.{text}", "A date is written as 2026-11-28.") from None
