"""Copies of everything: made while the studio runs, read back by laying them out, and put back.

What a copy is, api/copyfile.py says. A copy of an older version can be put back: it is first laid out in a
database of its own with the tables of its time, which is then brought up to date.

The rule of what is kept in the folder of copies: of the nightly copies the newest, as many as the setting
says (those that a clock ahead made are counted by themselves, so they push out none); of those made before
something took the studio's place the newest five, and all that are younger than ninety days; of those that
failed the newest two.
"""

from __future__ import annotations

import json
import os
import re
import shlex
import subprocess
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple, TypedDict
from uuid import UUID

from alembic.script import ScriptDirectory
from flask import Flask, current_app
from flask_migrate import upgrade
from sqlalchemy import Connection, Row, event, select, update
from sqlalchemy.exc import DBAPIError

import bench
from api import audit, copyfile, generation, move_studio, moved, scratch
from api.answers import CopiesNow, ReadBack
from api.clock import now_ms
from api.copyfile import Copy, CopyError, Written, not_read_back, read_through
from api.hours import HOURS
from api.kit import KIT
from api.places import MIGRATIONS
from api.settings import Settings
from api.shelf import SHELF
from api.store import alone, close, closed_to_writers, forget, last_number, number_after, reading, writing
from api.studio_settings import SETTINGS
from api.tables import Audit, Entry, OutletRow, RecipeVersion, Run, ShelfEntry, db
from bench import BenchError, words
from bench import Entry as JournalEntry

__all__ = ["Copy", "CopyError", "read_through"]

NIGHT_HOUR = 3
# Phones may have read entries that a copy is too old to hold. What is written after it was put back is
# numbered so far beyond, that no phone's cursor is there already and passes it over.
LEAP = 1_000_000
MINUTE_MS = 60_000
DAY_MS = 24 * 60 * MINUTE_MS
# After the first failure, the second and so on.
PAUSES_MS = tuple(minutes * MINUTE_MS for minutes in (1, 5, 15, 60, 180))
STOPPED_MS = 36 * 60 * MINUTE_MS
BEFORES_KEPT = 5
BEFORES_YOUNG_MS = 90 * DAY_MS
FAILED_KEPT = 2
STATUS = "status.json"

_NAMED = re.compile(r"(bowlside|before|failed)(?:-[\w-]+?)?-(\d{8}T\d{6})Z(?:-\d+)?\.jsonl\.gz(?:\.age)?")
_STAMP = "%Y%m%dT%H%M%S"


class Figures(TypedDict):
    rows: int
    runs: int
    entries: int  # of both journals


class CopiesKnown(TypedDict, total=False):
    """What is noted of the copies that were made, beside them."""

    at: int
    file: str
    read_back: ReadBack
    entries: int
    sent_at: int | None
    unsent: str  # the copy that is to be sent
    trying: int  # since when one is made
    failures: int  # in a row
    failed_at: int
    failed_why: str | WhyKept  # in words: of a former version


class WhyKept(TypedDict):
    """`Why`, as it is noted."""

    code: str
    values: dict[str, str | int]


class Why(NamedTuple):
    """Why there is no copy: the message's code and values, or the name of a fault of ours."""

    code: str
    values: dict[str, str | int]

    @classmethod
    def of(cls, error: Exception) -> Why:
        if isinstance(error, CopyError):
            return cls(error.code, error.values)
        return cls("", {"why": type(error).__name__})


def _said_why(kept: str | WhyKept | None) -> str | None:
    if kept is None or isinstance(kept, str):
        return kept
    return copyfile.said(kept["code"], kept["values"]) if kept["code"] else str(kept["values"]["why"])


class Restored(NamedTuple):
    """What was put back, by table, and where what was there before is kept."""

    counts: dict[str, int]
    kept: Path | None


class Verified(NamedTuple):
    """What a copy holds, and what in it the bench cannot read."""

    copy: Copy
    unreadable: list[str]


def write(file: Path, *, replace: bool = False) -> dict[str, int]:
    """Copy everything into a new file; gives the rows by table. It is there whole, or not at all."""
    settings: Settings = current_app.config["BOWLSIDE"]
    with reading() as connection:
        counts = copyfile.write(
            file, connection, keys=settings.copies_key, replace=replace, read_back=not_read_back
        ).counts
    _note("copied", counts, file)
    return counts


def verify(file: Path, identities: Sequence[object] = (), *, beside: Path | None = None) -> Verified:
    """Lay a copy out as if to put it back, and compare."""
    with _laid_out(file, identities, beside) as (copy, stage), stage.app_context(), reading() as connection:
        return Verified(copy, list(_unreadable(connection)))


def restore(
    app: Flask, file: Path, identities: Sequence[object] = (), *, keep: bool = False, anyway: bool = False
) -> Restored:
    """Put a copy back in place of all that is in the database, which is then another generation of the studio.

    keep: copy what is there first; nobody writes between that and its end. anyway: put back too what this
    version cannot read.
    """
    kept = None
    with _laid_out(file, identities, _near(app)) as (copy, stage), stage.app_context(), reading() as source:
        if not anyway and (unreadable := list(_unreadable(source))):
            raise CopyError("unreadable", *unreadable[:10], file=str(file))
        with app.app_context(), closed_to_writers() as target, _carried():
            moved.stay(target)
            if keep and not move_studio.is_empty(target):
                kept = keep_old(target, "restore")
            was, _ = generation.of(target)
            now = generation.renew(target, now_ms())
            reach = max(copy.reach, last_number(target))
            move_studio.empty(target)
            counts = move_studio.copy_over(source, target)
            _erase_again(target)
            number_after(target, reach + LEAP)
            audit.note(
                target,
                "restored",
                file=file.name,
                made_at=copy.made_at,
                was=was,
                generation=now,
                **figures(counts),
            )
    with app.app_context():
        forget(OutletRow.__tablename__)
    return Restored(counts, kept)


def _erase_again(connection: Connection) -> None:
    """Take out of a copy that was put back the outlets that were erased since: the audit log goes on over a restore."""
    erased = select(Audit.at, Audit.about).where(Audit.what == "outlet_erased")
    for at, about in connection.execute(erased).all():
        gone = {"name": None, "contact": None, "erased_at": at}
        connection.execute(
            update(OutletRow).where(OutletRow.id == json.loads(about)["outlet"]).values(**gone)
        )


def move(source_app: Flask, target_app: Flask) -> dict[str, int]:
    """Copy everything into an empty database, devices with their secrets; gives the rows by table.

    Nobody writes at either place meanwhile, and nobody at the old one afterwards. A move that was cut off
    after all had arrived is ended by moving again.
    """
    places = [moved.place_of(each.config["BOWLSIDE"]) for each in (source_app, target_app)]
    if places[0] == places[1]:
        raise CopyError("same-place")
    with source_app.app_context(), closed_to_writers() as source:
        moved.stay(source)
        if move_studio.is_empty(source):
            raise CopyError("nothing-to-move", place=places[0])
        at, (mark, began_at) = now_ms(), generation.of(source)
        with target_app.app_context(), closed_to_writers() as target, _carried():
            moved.stay(target)
            if move_studio.is_empty(target):
                counts = move_studio.copy_over(source, target, secrets=True)
                generation.keep(target, mark, began_at)
                audit.note(target, "moved", out_of=places[0], into=places[1], **figures(counts))
            else:
                counts = _arrived_before(source, target)
        audit.note(source, "moved", out_of=places[0], into=places[1], **figures(counts))
        moved.close_behind(source, places[1], at)
    return counts


def move_back(app: Flask) -> str:
    """Let a place that a studio moved away from be the studio again; gives where it had gone."""
    with app.app_context(), writing() as connection:
        place = moved.went_to(connection)
        if place is None:
            raise CopyError("not-moved")
        moved.open_again(connection)
        audit.note(connection, "moved_back", out_of=place)
    return place


def nightly(app: Flask) -> Path | None:
    """Make the night's copy when it is due, and send what is not sent yet; gives the file.

    CopyError when that fails. It is tried again after a pause, that grows from a minute to three hours.
    """
    settings: Settings = app.config["BOWLSIDE"]
    now, standing = settings.clock_ms(), _standing(settings)
    if begun := standing.get("trying"):
        _failed(settings, min(begun, now), Why("cut-off", {}))
        standing = _standing(settings)
    if due(settings, now):
        return None if _rests(standing, now) else make(app)
    if standing.get("unsent") and not _rests(standing, now):
        _send(settings, settings.copies_folder / standing["unsent"])
    return None


def due(settings: Settings, now: int) -> bool:
    """Whether there is no copy since three in the morning, by this machine's time of day."""
    local = datetime.fromtimestamp(now / 1000)
    night = local.replace(hour=NIGHT_HOUR, minute=0, second=0, microsecond=0)
    if night > local:
        night -= timedelta(days=1)
    # A copy from later than now was made by a wrong clock, and says nothing.
    return not any(night.timestamp() * 1000 <= at <= now for at, _ in _named(settings, "bowlside"))


def make(app: Flask) -> Path:
    """Make a copy among the nightly ones, lay it out and compare, and only then let the oldest go."""
    settings: Settings = app.config["BOWLSIDE"]
    now = settings.clock_ms()
    _try(settings, trying=now)  # a process that is killed in the middle has failed too
    file = _place(settings, now, "bowlside")
    try:
        with app.app_context():
            written = _make(settings, file, _place(settings, now, "failed"))
    except Exception as error:
        _failed(settings, now, Why.of(error))
        raise
    verified = written.said
    _keep_standing(
        settings,
        {
            "at": now,
            "file": file.name,
            "read_back": "partly" if verified.unreadable else "whole",
            "unreadable": verified.unreadable[:10],
            **figures(written.counts),
            "sha256": copyfile.sha256_of(file),
            "encrypted": bool(settings.copies_key),
            "sent_at": _standing(settings).get("sent_at"),
            **({"unsent": file.name} if settings.copies_send else {}),
        },
    )
    tidy(settings, now, made=file)
    if settings.copies_send:
        _send(settings, file)
    return file


def keep_old(connection: Connection, why: str) -> Path:
    """Copy what the connection sees before something else takes its place; `why` stands in the name."""
    settings: Settings = current_app.config["BOWLSIDE"]
    file = _place(settings, now_ms(), f"before-{why}")
    copyfile.write(file, connection, keys=settings.copies_key, read_back=not_read_back)
    return file


def tidy(settings: Settings, now: int, made: Path | None = None) -> None:
    """Let go of what the rule at the top does not keep, and of what killed processes left."""
    keep = max(settings.copies_kept, 1)
    nights = _named(settings, "bowlside")
    true = [path for at, path in nights if at <= now]
    ahead = [path for at, path in nights if at > now]
    befores = [(at, path) for at, path in _named(settings, "before") if at <= now]
    old = [path for at, path in befores[:-BEFORES_KEPT] if at < now - BEFORES_YOUNG_MS]
    failed = [path for _, path in _named(settings, "failed")]
    for path in (*true[:-keep], *ahead[:-keep], *old, *failed[:-FAILED_KEPT]):
        if path != made:
            path.unlink(missing_ok=True)
    copyfile.sweep_parts(settings.copies_folder)
    scratch.sweep(settings.copies_folder)


def last_copy_at(settings: Settings) -> int | None:
    """When the last nightly copy was made, in ms; None when there is none."""
    last = _last(settings, settings.clock_ms())
    return last[0] if last else None


def that_name(settings: Settings, table: str, key: UUID) -> list[str]:
    """The copies in the folder that still have the name of a row, by what they hold, whatever a clock said.

    What cannot be read here (encrypted, damaged) may have it, unless the row's id is of a later instant.
    """
    since = (key.int >> 80) // 1000 * 1000 if key.version == 7 else 0
    return [
        path.name
        for kind in ("bowlside", "before", "failed")
        for made_at, path in _named(settings, kind)
        if copyfile.may_name(path, table, str(key), unread=made_at >= since)
    ]


def status(settings: Settings) -> CopiesNow:
    """How the nightly copies stand."""
    now, standing = settings.clock_ms(), _standing(settings)
    last = _last(settings, now)
    known: CopiesKnown = standing if last and standing.get("file") == last[1].name else {}
    too_old = last is not None and now - last[0] > STOPPED_MS
    return {
        "last_at": last[0] if last else None,
        "file": last[1].name if last else None,
        "read_back": known.get("read_back", "unread") if last else None,
        "entries": known.get("entries"),
        "sent_at": standing.get("sent_at"),
        "failed_at": standing.get("failed_at"),
        "failed_why": _said_why(standing.get("failed_why")),
        "stopped": too_old or standing.get("failures", 0) > 1,
    }


def figures(counts: dict[str, int]) -> Figures:
    """How much there is of what a maker knows."""
    entries = counts.get("entry", 0) + counts.get("shelf_entry", 0)
    return {"rows": sum(counts.values()), "runs": counts.get("run", 0), "entries": entries}


def said_of(settings: Settings) -> str:
    """The newest copy in a line for the log."""
    now = status(settings)
    return f"kept a copy, {now['file']}, read back {now['read_back']}, {now['entries'] or 0:,} entries"


def _make(settings: Settings, file: Path, failed: Path) -> Written[Verified]:
    with reading() as connection:
        written = copyfile.write(
            file,
            connection,
            keys=settings.copies_key,
            read_back=lambda part: verify(part, beside=settings.copies_folder),
            failed=failed,
        )
    _note("copied", written.counts, file)
    return written


def _note(what: str, counts: dict[str, int], file: Path) -> None:
    """Note in the log that only grows what was done. On a full disk the copy counts, not the note."""
    with suppress(DBAPIError), writing() as connection:
        audit.note(connection, what, file=file.name, **figures(counts))


def _send(settings: Settings, file: Path) -> None:
    """Run the maker's own command on a copy, with no shell; CopyError when it fails."""
    if not settings.copies_send or not file.is_file():
        _update(settings, unsent=None)
        return
    now = settings.clock_ms()
    try:
        command = [*shlex.split(settings.copies_send), str(file.absolute())]
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            timeout=settings.copies_send_seconds,
        )
        if done.returncode == 0:
            _update(settings, unsent=None, sent_at=now, failures=None, failed_at=None, failed_why=None)
            return
        code, tail = done.returncode, _tail(done.stdout)
        wrong = CopyError("send-failed", file=file.name, code=f"{code}", why=tail)
    except subprocess.TimeoutExpired:
        wrong = CopyError("send-too-long", file=file.name, length=f"{settings.copies_send_seconds} s")
    except (OSError, ValueError) as error:
        wrong = CopyError("not-sent", file=file.name, why=str(error))
    _failed(settings, now, Why.of(wrong))
    raise wrong


def _tail(said: bytes) -> str:
    return "".join(
        each if each.isprintable() else " " for each in said[-400:].decode("utf-8", "replace")
    ).strip()


def _failed(settings: Settings, now: int, why: Why) -> None:
    failures = _standing(settings).get("failures", 0) + 1
    _try(settings, trying=None, failures=failures, failed_at=now, failed_why=why._asdict())


def _try(settings: Settings, **changes: object) -> None:
    """Keep how it stands, if the disk lets us: when it does not, the copy itself says so."""
    with suppress(OSError):
        _update(settings, **changes)


def _rests(standing: CopiesKnown, now: int) -> bool:
    """Whether it failed too lately to be tried again. What failed later than now, by a wrong clock, is over."""
    failures = standing.get("failures", 0)
    if not failures:
        return False
    since = now - standing.get("failed_at", 0)
    return 0 <= since < PAUSES_MS[min(failures, len(PAUSES_MS)) - 1]


def _standing(settings: Settings) -> CopiesKnown:
    """What is known of the copies that were made; nothing where it cannot be read."""
    try:
        said: CopiesKnown = json.loads((settings.copies_folder / STATUS).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return said if isinstance(said, dict) else {}


def _update(settings: Settings, **changes: object) -> None:
    now = {**_standing(settings), **changes}
    _keep_standing(settings, {key: value for key, value in now.items() if value is not None})


def _keep_standing(settings: Settings, standing: Mapping[str, object]) -> None:
    settings.copies_folder.mkdir(parents=True, exist_ok=True)
    part = settings.copies_folder / f".{STATUS}.part"
    with open(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="utf-8") as out:
        json.dump(standing, out, ensure_ascii=False)
    os.replace(part, settings.copies_folder / STATUS)


def _place(settings: Settings, at: int, name: str) -> Path:
    """A name of an instant's, that nothing has yet."""
    stamp = datetime.fromtimestamp(at // 1000, UTC).strftime(_STAMP)
    end = "jsonl.gz.age" if settings.copies_key else "jsonl.gz"
    file, more = settings.copies_folder / f"{name}-{stamp}Z.{end}", 1
    while file.exists():
        more += 1
        file = settings.copies_folder / f"{name}-{stamp}Z-{more}.{end}"
    return file


def _last(settings: Settings, now: int) -> tuple[int, Path] | None:
    """The newest nightly copy that no clock ahead made."""
    return max((each for each in _named(settings, "bowlside") if each[0] <= now), default=None)


def _named(settings: Settings, kind: str) -> list[tuple[int, Path]]:
    """The copies of a kind with when they were made, in ms, the oldest first."""
    named = ((path, _NAMED.fullmatch(path.name)) for path in settings.copies_folder.glob(f"{kind}-*"))
    return sorted(
        (int(datetime.strptime(found[2], _STAMP).replace(tzinfo=UTC).timestamp()) * 1000, path)
        for path, found in named
        if found and found[1] == kind
    )


def _near(app: Flask) -> Path:
    settings: Settings = app.config["BOWLSIDE"]
    return settings.copies_folder


def _arrived_before(source: Connection, target: Connection) -> dict[str, int]:
    """What a move that was cut off had carried; CopyError when it is not just what is at the source."""
    here = move_studio.sums_of(source, secrets=True)
    if generation.of(source) == generation.of(target):
        there = move_studio.sums_of(target, secrets=True)
        if {name: (each.rows, each.sha256) for name, each in here.items()} == {
            name: (each.rows, each.sha256) for name, each in there.items()
        }:
            return {name: each.rows for name, each in here.items()}
    raise CopyError("place-taken")


@contextmanager
def _carried() -> Iterator[None]:
    """Say of rows that did not arrive as they were sent that nothing was changed."""
    try:
        yield
    except move_studio.CarryError as error:
        raise _not_carried(error) from None


def _not_carried(error: move_studio.CarryError) -> CopyError:
    if error.how == "unfit":
        return CopyError("not-carried-unfit", table=error.table)
    if error.how == "changed":
        return CopyError("not-carried-changed", table=error.table, count=error.count)
    return CopyError("not-carried-count", table=error.table, sent=error.sent, count=error.count)


@contextmanager
def _laid_out(
    file: Path, identities: Sequence[object] = (), beside: Path | None = None
) -> Iterator[tuple[Copy, Flask]]:
    """A copy as a database of its own, with today's tables: what it holds, and the application on it."""
    with copyfile.opened(file, identities, beside) as plain:
        with copyfile.judged(file):
            copy = read_through(plain)
        script = ScriptDirectory(str(MIGRATIONS))
        if copy.schema not in {each.revision for each in script.walk_revisions()}:
            raise CopyError("other-version", file=str(file), tables=copy.schema)
        with scratch.folder(beside) as folder:
            stage = alone(Settings(database=folder / "stage.sqlite3"))
            try:
                _lay_out(stage, copy, plain, file, folder)
                yield copy, stage
            finally:
                close(stage)


def _lay_out(stage: Flask, copy: Copy, plain: Path, file: Path, folder: Path) -> None:
    with stage.app_context():
        event.listen(db.engine, "connect", _for_once)
        try:
            upgrade(revision=copy.schema)
            with writing() as connection:
                move_studio.fill(connection, copyfile.rows(plain))
                number_after(connection, copy.reach)
            upgrade()
        except move_studio.CarryError as error:
            raise CopyError("do-not-fit", file=str(file), why=error.table) from None
        except DBAPIError as error:
            if "disk" in str(error.orig):
                raise copyfile.no_room(folder, error.orig or error) from None
            raise CopyError("do-not-fit", file=str(file), why=str(error.orig)) from None


def _for_once(connection: Any, _record: Any) -> None:
    """What is laid out is thrown away after it was read: no power cut matters."""
    connection.execute("PRAGMA synchronous=OFF")


Of = Callable[[str], str]  # a sentence -> the same, with what it is of before it


def _unreadable(connection: Connection) -> Iterator[str]:
    """What the bench cannot read, each in a sentence."""
    versions = select(
        RecipeVersion.recipe_id, RecipeVersion.version, RecipeVersion.document, RecipeVersion.measured
    )
    for row in connection.execute(versions).all():
        of: Of = partial(_of_version, row.recipe_id, f"{row.version}")
        yield from _asked(of, lambda text: bench.read_recipe(json.loads(text), kept=True), row.document)
        yield from _asked(of, json.loads, row.measured)
    for one in (KIT, HOURS, SETTINGS):
        of = partial(_of_document, one.name)
        for document in connection.scalars(select(one.table.document)).all():
            yield from _asked(of, lambda text, one=one: one.read(json.loads(text)), document)
    stock = connection.execute(select(ShelfEntry.id, ShelfEntry.text)).all()
    yield from _misread(partial(_of_document, "shelf"), SHELF, stock, bench.fold_shelf)
    for run_id in connection.scalars(select(Run.id)).all():
        size, sheet = connection.execute(select(Run.size, Run.sheet).where(Run.id == run_id)).one()
        of = partial(_of_run, run_id)
        if faults := [*_asked(of, json.loads, size), *_asked(of, _opened, sheet)]:
            yield from faults
            continue
        kept = connection.execute(select(Entry.id, Entry.text).where(Entry.run_id == run_id)).all()
        yield from _misread(of, run_id, kept, partial(bench.fold, _opened(sheet)))


def _of_version(recipe: str, version: str, says: str) -> str:
    return words.say("api-copies-version-says", id=recipe, version=version, says=says)


def _of_document(name: str, says: str) -> str:
    return words.say(f"api-copies-within-{name}", says=says)


def _of_run(run: str, says: str) -> str:
    return words.say("api-copies-batch-says", id=run, says=says)


def _opened(sheet: str) -> bench.Sheet:
    return bench.open_sheet(json.loads(sheet))


def _misread(
    of: Of, run: str, kept: Sequence[Row[str, str]], fold: Callable[[list[JournalEntry]], object]
) -> Iterator[str]:
    """What a journal's entries, kept as (id, text), say of themselves wrongly, and what its fold cannot read."""
    entries = []
    for entry_id, text in kept:
        try:
            entries.append(json.loads(text))
        except ValueError:
            yield of(words.say("api-copies-entry-no-json", entry=entry_id))
            return
    try:
        is_another = [(each["id"], each["run"]) for each in entries] != [(each, run) for each, _ in kept]
    except (LookupError, TypeError):
        is_another = True
    if is_another:
        yield of(words.say("api-copies-entry-another"))
        return
    yield from _asked(of, fold, entries)


def _asked(of: Of, read: Callable[..., Any], *given: Any) -> Iterator[str]:
    try:
        read(*given)
    except BenchError as error:
        yield of(error.says)
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError):
        yield of(words.say("api-copies-otherwise"))
