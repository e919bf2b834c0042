"""The commands for copies of everything, and for moving a studio to another database.

They can be used while the studio is open.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from api.cli.opening import FILE, database_option, open_app
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask

identity_option = click.option(
    "--identity", type=FILE, help="The key file that opens an encrypted copy (bowlside copies-key)."
)


@click.command()
@click.argument("file", type=FILE)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@database_option
def backup(file: Path, replace: bool, database: Path | None) -> None:
    """Copy everything into a new FILE, whether or not the studio is open."""
    from api import copies, move_studio, store

    with _said():
        with open_app(database, there=True).app_context():
            with store.reading() as connection:
                if move_studio.is_empty(connection):
                    raise copies.CopyError("Nothing is in this studio yet. No copy was made.")
            _tell("Copied", copies.write(file, replace=replace))


@click.command()
@click.argument("file", type=FILE)
@identity_option
def verify(file: Path, identity: Path | None) -> None:
    """Lay a copy out as if to put it back, and say whether all of it can be used."""
    from api import copies

    with _said():
        copy, unreadable = copies.verify(file, _identities(file, identity))
    made = datetime.fromtimestamp(copy.made_at / 1000, UTC)
    _tell(f"Whole, made {made:%Y-%m-%d %H:%M} UTC:", copy.counts)
    if unreadable:
        say("This version cannot read:", *(f"  {each}" for each in unreadable), err=True)
        sys.exit(1)


@click.command()
@click.argument("file", type=FILE)
@click.option("--yes", is_flag=True, help="Do not ask whether to replace what is there.")
@click.option("--anyway", is_flag=True, help="Put back too what this version cannot read.")
@identity_option
@database_option
def restore(file: Path, yes: bool, anyway: bool, identity: Path | None, database: Path | None) -> None:
    """Put a copy back; what is there is replaced, and copied first."""
    from api import copies, move_studio, store

    with _said():
        identities = _identities(file, identity)
        if not identities:
            copies.read_through(file)
        app = open_app(database)
        with app.app_context(), store.reading() as connection:
            used = not move_studio.is_empty(connection)
        if used and not yes:
            click.confirm("There is a studio here. Replace all of it?", abort=True)
        counts, kept = copies.restore(app, file, identities, keep=True, anyway=anyway)
        if kept:
            say(f"What was here is kept in {kept}.")
        _tell("Put back", counts)
    say("Devices have to be paired again: a copy holds no secrets.")


@click.command()
@click.argument("to", required=False)
@click.option("--from", "source", help="A SQLite file or a postgresql:// address; else the settings' own.")
@click.option("--to", "target", help="The same as TO.")
@click.option("--back", is_flag=True, help="Let the place that a studio moved away from be the studio again.")
def move(to: str | None, source: str | None, target: str | None, back: bool) -> None:
    """Move the studio to an empty database: TO is a SQLite file or a postgresql:// address.

    What is at the old place stays and can be read; nothing more is kept there.
    """
    from api import copies

    place = to or target
    if back and place is None:
        with _said():
            went = copies.move_back(_opened_at(source, there=True))
        say(f"The studio is here again. What was written at {went} since is not here.")
        return
    if place is None or (to and target) or back:
        raise click.UsageError("Say once where it is to go: a SQLite file, or a postgresql:// address.")
    with _said():
        _tell("Moved", copies.move(_opened_at(source, there=True), _opened_at(place)))
    say("Serve the new place from now on; the old one keeps nothing more.", err=True)


@click.command("copies-key")
@click.argument("file", type=FILE)
def copies_key(file: Path) -> None:
    """Make a key for encrypted copies: FILE opens them, and its public half encrypts them."""
    from api import copyfile

    with _said():
        copyfile.refuse_to_overwrite(file)
        passphrase = click.prompt(
            "A passphrase for the file (empty: none)",
            default="",
            hide_input=True,
            confirmation_prompt=True,
            show_default=False,
        )
        content, public = copyfile.new_identity(passphrase)
        try:
            with open(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
                out.write(content)
        except OSError as error:
            raise copyfile.CopyError(f"Cannot write {file}: {error.strerror}.") from None
    say(f"BOWLSIDE_COPIES_KEY={public}")
    say(f"Keep {file} away from this computer: no copy can be opened without it.", err=True)


COMMANDS = (backup, verify, restore, move, copies_key)


def _identities(file: Path, identity: Path | None) -> list[object]:
    """What opens a copy: nothing for one that is not encrypted."""
    from api import copyfile

    if not copyfile.is_encrypted(file):
        return []
    if identity is None:
        raise copyfile.IdentityNeeded(f"{file} is encrypted. Name the key file that opens it, by --identity.")
    try:
        content = identity.read_bytes()
    except OSError as error:
        raise copyfile.CopyError(f"Cannot read {identity}: {error.strerror}.") from None
    return copyfile.read_identities(
        content, lambda: str(click.prompt(f"The passphrase of {identity}", hide_input=True))
    )


def _opened_at(place: str | None, *, there: bool = False) -> Flask:
    """The application on a file or an address, else on what the settings name; a file that must be `there`."""
    if place is None:
        return open_app(None, there=there)
    if place.startswith("postgresql://"):
        return open_app(None, there=there, database_url=place)
    if "://" in place or (there and not Path(place).is_file()):
        raise click.UsageError(f"{place} is neither a SQLite file that is there nor a postgresql:// address.")
    return open_app(Path(place))


@contextmanager
def _said() -> Iterator[None]:
    """What cannot be done is said, and is not a crash."""
    from api.copyfile import CopyError

    try:
        yield
    except CopyError as error:
        say(str(error), err=True)
        sys.exit(1)


def _tell(what: str, counts: dict[str, int]) -> None:
    """`Copied 1 kit, 3 recipes, 4 recipe versions.`: how many rows of each table."""
    rows = ", ".join(_rows(count, table) for table, count in counts.items() if table != "audit")
    say(f"{what} {rows or 'nothing, for nothing is there'}.")


def _rows(count: int, table: str) -> str:
    word = table.replace("_", " ")
    if count != 1 and not word.endswith("s"):
        word = f"{word[:-1]}ies" if word.endswith("y") else f"{word}s"
    return f"{count} {word}"
