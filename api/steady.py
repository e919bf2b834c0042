"""The server's time goes on steadily, whatever is done to the computer's clock.

It is an anchor and what has passed by the steady clock since (CLOCK_BOOTTIME, which goes on through a sleep),
so that a clock that is put right in the middle of a wait moves no wait. A leap is noted, and followed when
nothing counts on any open run, or at the next boot. Small differences are followed all the time, slowly.

The anchor is one row a boot, and is the same for every process that answers.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, replace

from flask import current_app
from sqlalchemy import Connection, select

import bench
from api.settings import Settings
from api.store import execute, read_row, writing
from api.tables import Run

LEAP_MS = 1_000
# What is less is not worth a write.
FINE_MS = 20
# How fast a small difference is followed, in millionths: a phone takes that for the drift of a clock.
SLEW_PPM = 500

COLUMNS = "offset_ms, epoch, held_ms, leapt_at, looked_ms, floor_ms, since_seq"
READ = f"SELECT {COLUMNS} FROM steady_clock WHERE boot = :boot"
KEEP = f"""
INSERT INTO steady_clock (boot, {COLUMNS})
VALUES (:boot, :offset_ms, :epoch, :held_ms, :leapt_at, :looked_ms, :floor_ms, :since_seq)
ON CONFLICT (boot) DO UPDATE SET offset_ms = excluded.offset_ms, epoch = excluded.epoch,
held_ms = excluded.held_ms, leapt_at = excluded.leapt_at, looked_ms = excluded.looked_ms,
floor_ms = excluded.floor_ms, since_seq = excluded.since_seq
"""
BEFORE = "SELECT coalesce(max(epoch), 0), coalesce(max(since_seq), 0) FROM steady_clock"
LAST = "SELECT seq, received_at FROM entry ORDER BY seq DESC LIMIT 1"


@dataclass(frozen=True)
class Anchor:
    """offset_ms: the time is this and the steady clock. held_ms: by how much the computer's clock leapt, and is not
    followed yet. looked_ms: by the steady clock, when a small difference was last followed. floor_ms: what was
    received before the boot, where the computer's clock stood before that. since_seq: entries up to it were received
    by a time that was left again, and say nothing of the time."""

    offset_ms: int
    epoch: int
    held_ms: int
    leapt_at: int | None
    looked_ms: int
    floor_ms: int | None
    since_seq: int

    def now(self, steady: int) -> int:
        return self.offset_ms + steady


def begun(wall: int, steady: int, received: int | None, epoch: int, since_seq: int) -> Anchor:
    """The anchor of a boot: by the computer's clock, but never before what was received already."""
    floor = received if received is not None and received > wall else None
    held = wall - floor if floor is not None else 0
    at = floor if floor is not None else wall
    return Anchor(
        at - steady, epoch + (floor is not None), held, at if held else None, steady, floor, since_seq
    )


def regulated(
    anchor: Anchor, wall: int, steady: int, counts: Callable[[], bool], last_seq: Callable[[], int]
) -> Anchor:
    """The anchor after a look at the computer's clock; the same one when there is nothing to change."""
    ahead = wall - anchor.now(steady)
    if abs(ahead) < LEAP_MS:
        most = (steady - anchor.looked_ms) * SLEW_PPM // 1_000_000
        step = max(-most, min(most, ahead))
        if anchor.held_ms or (abs(ahead) >= FINE_MS and step):
            return replace(
                anchor, offset_ms=anchor.offset_ms + step, held_ms=0, looked_ms=steady, floor_ms=None
            )
        return anchor
    if abs(ahead - anchor.held_ms) >= LEAP_MS:
        anchor = replace(anchor, epoch=anchor.epoch + 1, held_ms=ahead, leapt_at=anchor.now(steady))
    if (anchor.floor_ms is not None and wall < anchor.floor_ms) or counts():
        return anchor
    since = last_seq() if ahead < 0 else anchor.since_seq
    return replace(
        anchor, offset_ms=wall - steady, held_ms=0, looked_ms=steady, floor_ms=None, since_seq=since
    )


def find() -> Anchor | None:
    """This boot's anchor; None where the time follows the computer's clock, or nobody has looked at it yet."""
    settings: Settings = current_app.config["BOWLSIDE"]
    if settings.steady_ms is None:
        return None
    row = read_row(READ, {"boot": settings.boot})
    return Anchor(*row) if row else None


def look(*, follow: bool = False) -> Anchor | None:
    """See whether the computer's clock goes as the server's does, and note what it did.

    follow: go by what it says, if nothing counts. That is the porter's to do: it means to read all open runs.
    """
    settings: Settings = current_app.config["BOWLSIDE"]
    if settings.steady_ms is None:
        return None
    before = find()
    if before is not None and not (follow and before.held_ms) and _next(before, settings) == before:
        return before
    with writing() as connection:
        row = execute(connection, READ, {"boot": settings.boot}).fetchone()
        if row is None:
            last, (epoch, since) = (
                execute(connection, LAST, {}).fetchone(),
                execute(connection, BEFORE, {}).fetchone(),
            )
            received = last[1] if last and last[0] > since else None
            there = None
            after = begun(settings.clock_ms(), settings.steady_ms(), received, epoch, since)
        else:
            there = Anchor(*row)
            at = there.now(settings.steady_ms())
            after = _next(
                there,
                settings,
                lambda: not follow or is_counting(connection, at),
                lambda: _last_seq(connection),
            )
        if after != there:
            execute(connection, KEEP, {"boot": settings.boot, **vars(after)})
    _say(there, after)
    return after


def is_counting(connection: Connection, at: int) -> bool:
    """Whether any open run has a wait, a window or a guide with something of it still to come."""
    return any(_counts(connection, run, at) for run in _open_runs(connection))


def _open_runs(connection: Connection) -> list[str]:
    return list(connection.scalars(select(Run.id).where(Run.finished_at.is_(None))))


def _counts(connection: Connection, run: str, at: int) -> bool:
    sheet = connection.scalar(select(Run.sheet).where(Run.id == run))
    sql = "SELECT text FROM entry WHERE run_id = :run"
    entries = [json.loads(text) for (text,) in execute(connection, sql, {"run": run}).fetchall()]
    laid = bench.open_sheet(json.loads(sheet or "{}"))
    says = bench.now(laid, bench.fold(laid, entries), at)
    ends = [max(wait["earliest_at"], wait["usual_at"], wait["latest_at"] or 0) for wait in says["waits"]]
    ends += [window["latest_at"] for window in says["windows"]]
    ends += [guide["until"] for guide in says["guides"]]
    return any(end > at for end in ends)


def _next(
    anchor: Anchor,
    settings: Settings,
    counts: Callable[[], bool] = lambda: True,
    last_seq: Callable[[], int] = lambda: 0,
) -> Anchor:
    assert settings.steady_ms is not None
    return regulated(anchor, settings.clock_ms(), settings.steady_ms(), counts, last_seq)


def _last_seq(connection: Connection) -> int:
    last = execute(connection, LAST, {}).fetchone()
    return last[0] if last else 0


def _say(before: Anchor | None, after: Anchor) -> None:
    if after.held_ms and (before is None or after.epoch != before.epoch):
        way = "ahead" if after.held_ms > 0 else "back"
        current_app.logger.warning(
            "The computer's clock was set %s by %s. The studio's time goes on as before, and follows it when"
            " nothing counts.",
            way,
            span(after.held_ms),
        )
    elif before is not None and before.held_ms and not after.held_ms:
        current_app.logger.warning("The studio's time follows the computer's clock again.")


def span(ms: int) -> str:
    """How long in words: 3 days, 2 h 5 min, or 12 s."""
    minutes, seconds = divmod(round(abs(ms) / 1000), 60)
    if minutes >= 48 * 60:
        return f"{minutes // (24 * 60):,} days"
    return f"{minutes // 60} h {minutes % 60} min" if minutes else f"{seconds} s"
