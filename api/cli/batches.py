"""The commands for batches: list them with how each was judged, and release, hold or reject one."""

from __future__ import annotations

import secrets
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from uuid import UUID

import click

from api.cli.opening import database_option, open_app, stop
from api.cli.spoken import command, option
from api.plain import say

if TYPE_CHECKING:
    from sqlalchemy import Connection

TERMINAL = "terminal"  # as the journal's entries call it
VERDICTS = ("released", "held", "rejected")
LISTED = (
    "SELECT id, batch_number, title, finished_at, release FROM run"
    " WHERE :release = '' OR coalesce(release, 'none') = :release ORDER BY created_at DESC, id LIMIT :most"
)
FOUND = "SELECT id, title FROM run WHERE batch_number = :batch OR id = :batch ORDER BY created_at DESC, id"


@command("batches")
@option("--release", type=click.Choice([*VERDICTS, "none"]), default=None, help="release")
@option("--most", type=click.IntRange(1), default=100, help="most")
@database_option
def batches(release: str | None, most: int, database: Path | None) -> None:
    """List the batches, the newest first, and whether each is released, held or rejected."""
    from api.store import execute, reading
    from bench import words

    with open_app(database, there=True).app_context(), reading() as connection:
        rows = execute(connection, LISTED, {"release": release or "", "most": most}).fetchall()
    for run, number, title, finished_at, judged in rows:
        day = f"{datetime.fromtimestamp(finished_at / 1000, UTC):%Y-%m-%d}" if finished_at else ""
        say(
            "  ".join(
                [run, day, words.say("cli-batches-release", verdict=judged or "none"), number or "", title]
            )
        )


@command("judge")
@click.argument("batch")
@click.argument("verdict", type=click.Choice(VERDICTS))
@option("--name", required=True, help="name")
@option("--why", default=None, help="why")
@database_option
def judge(batch: str, verdict: str, name: str, why: str | None, database: Path | None) -> None:
    """Release, hold or reject a batch, by its number or id. A further judgement corrects it, and all are kept."""
    from api.clock import now_ms
    from api.entries import keep_entries
    from api.rules import OfARun
    from api.runs import load_run_in
    from api.store import writing
    from bench import words

    with open_app(database, there=True).app_context(), writing() as connection:
        run = _only(connection, batch)
        view = load_run_in(connection, run)
        at = max([now_ms(), *(entry["at"] + 1 for entry in view.entries if entry["device"] == TERMINAL)])
        body: dict[str, Any] = {"about": "batch", "verdict": verdict, "name": name}
        if why:
            body["why"] = why
        if verdict == "released" and view.state["signed"]:
            body["signing"] = view.state["signed"]["id"]
        entry = {"id": _uuid7(at), "run": run, "device": TERMINAL, "at": at, "kind": "judged", "body": body}
        (answer,), _ = keep_entries(connection, run, [entry], at, rules=OfARun(connection, run, None))
    if answer["result"] == "refused":
        stop(answer.get("detail", ""))
    say(words.say("cli-batches-judged", batch=batch, verdict=verdict))


def _only(connection: Connection, batch: str) -> str:
    """The id of the one batch that is meant."""
    from api.store import execute
    from bench import words

    found = execute(connection, FOUND, {"batch": batch}).fetchall()
    if len(found) != 1:
        ids = ", ".join(str(run) for run, _ in found)
        stop(" ".join(filter(None, (words.say("cli-batches-which", name=batch, count=len(found)), ids))))
    run: str = found[0][0]
    return run


def _uuid7(at: int) -> str:
    """A UUID of version 7 (RFC 9562): the instant in ms, and chance."""
    chance = secrets.randbits(74)
    value = at << 80 | 7 << 76 | (chance >> 62) << 64 | 2 << 62 | chance & ((1 << 62) - 1)
    return str(UUID(int=value))


COMMANDS = (batches, judge)
