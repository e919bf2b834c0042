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
from api.cli.spoken import WrongUsage, command, option
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask

identity_option = option("--identity", type=FILE, help="identity")


@command("backup")
@click.argument("file", type=FILE)
@option("--replace", is_flag=True, help="replace")
@database_option
def backup(file: Path, replace: bool, database: Path | None) -> None:
    """Copy everything into a new FILE, whether or not the studio is open."""
    from api import copies, move_studio, store
    from bench import words

    with _said():
        with open_app(database, there=True).app_context():
            with store.reading() as connection:
                if move_studio.is_empty(connection):
                    raise copies.CopyError("nothing-to-copy")
            say(words.say("cli-copies-copied", rows=_rows_of(copies.write(file, replace=replace))))


@command("verify")
@click.argument("file", type=FILE)
@identity_option
def verify(file: Path, identity: Path | None) -> None:
    """Lay a copy out as if to put it back, and say whether all of it can be used."""
    from api import copies
    from bench import words

    with _said():
        copy, unreadable = copies.verify(file, _identities(file, identity))
    made = datetime.fromtimestamp(copy.made_at / 1000, UTC)
    say(words.say("cli-copies-whole", at=f"{made:%Y-%m-%d %H:%M} UTC", rows=_rows_of(copy.counts)))
    if unreadable:
        say(words.say("cli-copies-unreadable"), *(f"  {each}" for each in unreadable), err=True)
        sys.exit(1)


@command("restore")
@click.argument("file", type=FILE)
@option("--yes", is_flag=True, help="yes")
@option("--anyway", is_flag=True, help="anyway")
@identity_option
@database_option
def restore(file: Path, yes: bool, anyway: bool, identity: Path | None, database: Path | None) -> None:
    """Put a copy back; what is there is replaced, and copied first."""
    from api import copies, move_studio, store
    from bench import words

    with _said():
        identities = _identities(file, identity)
        if not identities:
            copies.read_through(file)
        app = open_app(database)
        with app.app_context(), store.reading() as connection:
            used = not move_studio.is_empty(connection)
        if used and not yes:
            click.confirm(words.say("cli-copies-replace"), abort=True)
        counts, kept = copies.restore(app, file, identities, keep=True, anyway=anyway)
        if kept:
            say(words.say("cli-copies-kept", file=str(kept)))
        say(words.say("cli-copies-restored", rows=_rows_of(counts)))
    say(words.say("cli-copies-pair-again"))


@command("move")
@click.argument("to", required=False)
@option("--from", "source", help="from")
@option("--to", "target", help="to")
@option("--back", is_flag=True, help="back")
def move(to: str | None, source: str | None, target: str | None, back: bool) -> None:
    """Move the studio to an empty database: TO is a SQLite file or a postgresql:// address.

    What is at the old place stays and can be read; nothing more is kept there.
    """
    from api import copies
    from bench import words

    place = to or target
    if back and place is None:
        with _said():
            went = copies.move_back(_opened_at(source, there=True))
        say(words.say("cli-copies-back", place=went))
        return
    if place is None or (to and target) or back:
        raise WrongUsage(words.say("cli-copies-say-where"))
    with _said():
        counts = copies.move(_opened_at(source, there=True), _opened_at(place))
        say(words.say("cli-copies-moved", rows=_rows_of(counts)))
    say(words.say("cli-copies-serve-new"), err=True)


@command("copies-key")
@click.argument("file", type=FILE)
def copies_key(file: Path) -> None:
    """Make a key for encrypted copies: FILE opens them, and its public half encrypts them."""
    from api import copyfile
    from bench import words

    with _said():
        copyfile.refuse_to_overwrite(file)
        passphrase = click.prompt(
            words.say("cli-copies-passphrase"),
            default="",
            hide_input=True,
            confirmation_prompt=words.say("cli-copies-again"),
            show_default=False,
        )
        content, public = copyfile.new_identity(passphrase)
        try:
            with open(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
                out.write(content)
        except OSError as error:
            raise copyfile.CopyError("not-written", file=str(file), why=str(error.strerror)) from None
    say(f"BOWLSIDE_COPIES_KEY={public}")
    say(words.say("cli-copies-keep-away", file=str(file)), err=True)


COMMANDS = (backup, verify, restore, move, copies_key)


def _identities(file: Path, identity: Path | None) -> list[object]:
    """What opens a copy: nothing for one that is not encrypted."""
    from api import copyfile
    from bench import words

    if not copyfile.is_encrypted(file):
        return []
    if identity is None:
        raise copyfile.IdentityNeeded("encrypted", file=str(file))
    try:
        content = identity.read_bytes()
    except OSError as error:
        raise copyfile.CopyError("unread", file=str(identity), why=str(error.strerror)) from None
    return copyfile.read_identities(
        content,
        lambda: str(click.prompt(words.say("cli-copies-passphrase-of", file=str(identity)), hide_input=True)),
    )


def _opened_at(place: str | None, *, there: bool = False) -> Flask:
    """The application on a file or an address, else on what the settings name; a file that must be `there`."""
    from bench import words

    if place is None:
        return open_app(None, there=there)
    if place.startswith("postgresql://"):
        return open_app(None, there=there, database_url=place)
    if "://" in place or (there and not Path(place).is_file()):
        raise WrongUsage(words.say("cli-copies-no-place", place=place))
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


def _rows_of(counts: dict[str, int]) -> str:
    """`1 kit, 3 recipes, 4 recipe versions`: how many rows of each table."""
    from bench import words

    told = [
        words.say(f"cli-copies-table-{table.replace('_', '-')}", count=count)
        for table, count in counts.items()
        if table != "audit"
    ]
    return ", ".join(told) or words.say("cli-copies-no-rows")
