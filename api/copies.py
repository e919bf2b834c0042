"""Copies of everything: made while the studio runs, read through, and put back.

A copy is gzip of JSON lines. The first says what it is, {"format", "made_at" (ms), "schema" (the last
migration), "reach" (the last number given to an entry)}; then one line a row, {"table", "row"}; the
last says {"counts": {table: rows}, "sha256"}, the hash of all lines before it. It holds no secret: a
device in it has to pair again.

A copy of an older version can be put back: it is first laid out in a database of its own with the
tables of its time, which is then brought up to date.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import re
import zlib
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from alembic.script import ScriptDirectory
from flask import Flask
from flask_migrate import upgrade
from sqlalchemy import Connection, select, text
from sqlalchemy.exc import DBAPIError

import bench
from api import carry, create_app, generation
from api.clock import now_ms
from api.hours import HOURS
from api.kit import KIT
from api.places import MIGRATIONS
from api.settings import Settings
from api.shelf import SHELF
from api.store import close, last_number, number_after, reading, writing
from api.studio_settings import SETTINGS
from api.tables import Entry, RecipeVersion, Run, ShelfEntry
from bench import BenchError

FORMAT = "bowlside-backup/1"
NIGHT_HOUR = 3
# Phones may have read entries that a copy is too old to hold. What is written after it was put back is
# numbered so far beyond, that no phone's cursor is there already and passes it over.
LEAP = 1_000_000

_NIGHTLY = re.compile(r"bowlside-(\d{8}T\d{6})Z\.jsonl\.gz")
_STAMP = "%Y%m%dT%H%M%S"


class CopyError(Exception):
    """A copy cannot be made, read or put back; the text says why and what to do."""


@dataclass(frozen=True)
class Copy:
    """What a copy holds: when it was made, the tables it was made of, rows by table."""

    made_at: int
    schema: str
    reach: int
    counts: dict[str, int]


def write(file: Path) -> dict[str, int]:
    """Copy everything into a new file; gives the rows by table. It is there whole, or not at all."""
    if file.exists():
        raise CopyError(f"{file} is there already. Name another file, or move that one away.")
    part = file.with_name(f".{file.name}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with open(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as raw:
            with gzip.GzipFile(fileobj=raw, mode="wb", filename="", mtime=0) as zipped:
                counts = _write_lines(zipped)
            raw.flush()
            os.fsync(raw.fileno())
        os.replace(part, file)
    except OSError as error:
        raise CopyError(
            f"Cannot write {file}: {error.strerror}. No copy was made; earlier ones are as they were."
        ) from None
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return counts


def read_through(file: Path) -> Copy:
    """Read all of a copy; CopyError when it is not whole, or not what it says of itself."""
    digest, counts = hashlib.sha256(), Counter[str]()
    with _judged(file), gzip.open(file, "rb") as lines:
        line = next(lines, b"null")
        head, last = json.loads(line), None
        if head["format"] != FORMAT:
            raise ValueError
        for following in lines:
            digest.update(line)
            line, last = following, json.loads(following)
            if "row" in last:
                counts[last["table"]] += 1
        if last != {"counts": counts, "sha256": digest.hexdigest()}:
            raise ValueError
        return Copy(head["made_at"], head["schema"], head["reach"], dict(counts))


def verify(file: Path) -> tuple[Copy, list[str]]:
    """Read a copy as if to put it back; gives what it holds, and what in it the bench cannot read."""
    with _laid_out(file) as (copy, stage), stage.app_context(), reading() as connection:
        return copy, list(_unreadable(connection))


def restore(app: Flask, file: Path) -> dict[str, int]:
    """Put a copy back in place of all that is in the database; gives the rows by table."""
    with _laid_out(file) as (copy, stage):
        with stage.app_context(), reading() as source, app.app_context(), writing() as target:
            generation.renew(target, now_ms())
            reach = max(copy.reach, last_number(target))
            carry.empty(target)
            counts = carry.copy_over(source, target)
            number_after(target, reach + LEAP)
    return counts


def move(source_app: Flask, target_app: Flask) -> dict[str, int]:
    """Copy everything into an empty database, devices with their secrets; gives the rows by table."""
    with source_app.app_context(), reading() as source, target_app.app_context(), writing() as target:
        if not carry.is_empty(target):
            raise CopyError("There is a studio already where this one is to go. Name an empty place.")
        return carry.copy_over(source, target, secrets=True)


def nightly(app: Flask) -> Path | None:
    """Make the night's copy when it is due; gives the file."""
    with app.app_context():
        now = now_ms()
    return make(app) if due(app.config["BOWLSIDE"], now) else None


def due(settings: Settings, now: int) -> bool:
    """Whether there is no copy since three in the morning, by this machine's time of day."""
    local = datetime.fromtimestamp(now / 1000)
    night = local.replace(hour=NIGHT_HOUR, minute=0, second=0, microsecond=0)
    if night > local:
        night -= timedelta(days=1)
    # A copy from later than now was made by a wrong clock, and says nothing.
    return not any(night.timestamp() * 1000 <= at <= now for at in _copies(settings))


def make(app: Flask) -> Path:
    """Make a copy among the nightly ones, read it through, and only then let the oldest go."""
    settings: Settings = app.config["BOWLSIDE"]
    with app.app_context():
        file = _place(settings, now_ms(), "bowlside")
        write(file)
    read_through(file)
    kept = _copies(settings)
    for at in sorted(kept)[: -max(settings.copies_kept, 1)]:
        kept[at].unlink()
    return file


def keep_old(app: Flask) -> Path:
    """Copy what is there before something else takes its place; these are never let go."""
    with app.app_context():
        file = _place(app.config["BOWLSIDE"], now_ms(), "before")
        write(file)
    return file


def last_copy_at(settings: Settings) -> int | None:
    """When the last nightly copy was made, in ms; None when there is none."""
    return max(_copies(settings), default=None)


def _place(settings: Settings, at: int, name: str) -> Path:
    stamp = datetime.fromtimestamp(at // 1000, UTC).strftime(_STAMP)
    return settings.copies_folder / f"{name}-{stamp}Z.jsonl.gz"


def _copies(settings: Settings) -> dict[int, Path]:
    """The nightly copies, by when they were made, in ms."""
    named = ((path, _NIGHTLY.fullmatch(path.name)) for path in settings.copies_folder.glob("*"))
    return {
        int(datetime.strptime(found[1], _STAMP).replace(tzinfo=UTC).timestamp()) * 1000: path
        for path, found in named
        if found
    }


def _write_lines(out: gzip.GzipFile) -> dict[str, int]:
    digest, counts = hashlib.sha256(), Counter[str]()

    def put(value: Any) -> None:
        line = json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"
        digest.update(line)
        out.write(line)

    with reading() as connection:
        schema = connection.scalar(text("SELECT version_num FROM alembic_version"))
        put({"format": FORMAT, "made_at": now_ms(), "schema": schema, "reach": last_number(connection)})
        for table, row in carry.rows(connection):
            put({"table": table, "row": row})
            counts[table] += 1
    put({"counts": counts, "sha256": digest.hexdigest()})
    return dict(counts)


@contextmanager
def _judged(file: Path) -> Iterator[None]:
    """Say of a file that cannot be read what is the matter with it."""
    try:
        yield
    except (gzip.BadGzipFile, EOFError, zlib.error, ValueError, LookupError, TypeError):
        raise CopyError(
            f"{file} is not a copy as it was written: it is damaged, cut off, or something else. Use another."
        ) from None
    except OSError as error:
        raise CopyError(f"Cannot read {file}: {error.strerror}.") from None


def _rows(file: Path) -> Iterator[carry.Row]:
    """The rows of a copy that was read through before."""
    with gzip.open(file, "rb") as lines:
        for said in map(json.loads, lines):
            if "row" in said:
                yield said["table"], said["row"]


@contextmanager
def _laid_out(file: Path) -> Iterator[tuple[Copy, Flask]]:
    """A copy as a database of its own, with today's tables: what it holds, and the application on it."""
    copy = read_through(file)
    script = ScriptDirectory(str(MIGRATIONS))
    if copy.schema not in {each.revision for each in script.walk_revisions()}:
        raise CopyError(
            f"{file} was made by another version of Bowlside (its tables: {copy.schema}). Use that version, or"
            " a later one."
        )
    with TemporaryDirectory(prefix="bowlside-") as folder:
        stage = create_app(Settings(database=Path(folder) / "stage.sqlite3"))
        try:
            _lay_out(stage, copy, file)
            yield copy, stage
        finally:
            close(stage)


def _lay_out(stage: Flask, copy: Copy, file: Path) -> None:
    with stage.app_context():
        upgrade(revision=copy.schema)
        try:
            with writing() as connection:
                carry.fill(connection, _rows(file))
                number_after(connection, copy.reach)
        except DBAPIError as error:
            raise CopyError(f"The rows of {file} do not belong together: {error.orig}.") from None
        upgrade()


def _unreadable(connection: Connection) -> Iterator[str]:
    """What the bench cannot read, each in a sentence."""
    for row in connection.execute(select(RecipeVersion.__table__)).all():
        yield from _asked(
            f"recipe {row.recipe_id}, version {row.version}", bench.read_recipe, json.loads(row.document)
        )
    for one in (KIT, HOURS, SETTINGS):
        for document in connection.scalars(select(one.table.document)).all():
            yield from _asked(f"the {one.name}", one.read, json.loads(document))
    stock = connection.execute(select(ShelfEntry.id, ShelfEntry.text)).all()
    yield from _misread("the shelf", SHELF, stock, bench.fold_shelf)
    for run_id, sheet in connection.execute(select(Run.id, Run.sheet)).all():
        kept = connection.execute(select(Entry.id, Entry.text).where(Entry.run_id == run_id)).all()
        yield from _misread(f"run {run_id}", run_id, kept, partial(bench.fold, json.loads(sheet)))


def _misread(
    what: str, run: str, kept: Sequence[Any], fold: Callable[[list[dict[str, Any]]], Any]
) -> Iterator[str]:
    """What a journal's entries, kept as (id, text), say of themselves wrongly, and what its fold cannot read."""
    entries = [json.loads(text) for _, text in kept]
    if [(each["id"], each["run"]) for each in entries] != [(entry_id, run) for entry_id, _ in kept]:
        yield f"{what}: an entry says that it is another."
    yield from _asked(what, fold, entries)


def _asked(what: str, read: Callable[..., Any], *given: Any) -> Iterator[str]:
    try:
        read(*given)
    except BenchError as error:
        yield f"{what}: {error.says}"
