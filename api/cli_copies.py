"""The commands for copies of everything, and for moving a studio to another database.

They can be used while the studio is open.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

FILE = click.Path(dir_okay=False, path_type=Path)
database_option = click.option(
    "--database", type=FILE, help="The SQLite file to use; else DATABASE_URL, else BOWLSIDE_DATABASE."
)


@click.command()
@click.argument("file", type=FILE)
@database_option
def backup(file: Path, database: Path | None) -> None:
    """Copy everything into a new FILE, whether or not the studio is open."""
    from api import copies

    with _said(), _opened(database).app_context():
        _tell("Copied", copies.write(file))


@click.command()
@click.argument("file", type=FILE)
def verify(file: Path) -> None:
    """Read a copy as if to put it back, and say whether all of it can be used."""
    from api import copies

    with _said():
        copy, unreadable = copies.verify(file)
    made = datetime.fromtimestamp(copy.made_at / 1000, UTC)
    _tell(f"Whole, made {made:%Y-%m-%d %H:%M} UTC:", copy.counts)
    if unreadable:
        click.echo("\n".join(["This version cannot read:", *(f"  {each}" for each in unreadable)]), err=True)
        sys.exit(1)


@click.command()
@click.argument("file", type=FILE)
@click.option("--yes", is_flag=True, help="Do not ask whether to replace what is there.")
@database_option
def restore(file: Path, yes: bool, database: Path | None) -> None:
    """Put a copy back; what is there is replaced, and copied first."""
    from api import carry, copies, store

    with _said():
        copies.read_through(file)
        app = _opened(database)
        with app.app_context(), store.reading() as connection:
            used = not carry.is_empty(connection)
        if used:
            if not yes:
                click.confirm("There is a studio here. Replace all of it?", abort=True)
            click.echo(f"What was here is kept in {copies.keep_old(app)}.")
        _tell("Put back", copies.restore(app, file))
    click.echo("Devices have to be paired again: a copy holds no secrets.")


@click.command()
@click.argument("to", required=False)
@click.option("--from", "source", help="A SQLite file or a postgresql:// address; else the settings' own.")
@click.option("--to", "target", help="The same as TO.")
def move(to: str | None, source: str | None, target: str | None) -> None:
    """Copy the studio to an empty database: TO is a SQLite file or a postgresql:// address.

    The old one stays as it is. Close the studio first: what is written there afterwards does not follow.
    """
    from api import copies

    place = to or target
    if place is None or (to and target):
        raise click.UsageError("Say once where it is to go: a SQLite file, or a postgresql:// address.")
    with _said():
        _tell("Moved", copies.move(_opened_at(source, there=True), _opened_at(place)))


COMMANDS = (backup, verify, restore, move)


def _opened(database: Path | None) -> Any:
    from api.cli import _open

    return _open(database)


def _opened_at(place: str | None, *, there: bool = False) -> Any:
    """The application on a file or an address, else on what the settings name; a file that must be `there`."""
    from api.cli import _open

    if place is None:
        return _open(None)
    if place.startswith("postgresql://"):
        return _open(None, database_url=place)
    if "://" in place or (there and not Path(place).is_file()):
        raise click.UsageError(f"{place} is neither a SQLite file that is there nor a postgresql:// address.")
    return _open(Path(place))


@contextmanager
def _said() -> Iterator[None]:
    """What cannot be done is said, and is not a crash."""
    from sqlalchemy.exc import DatabaseError

    from api.copies import CopyError

    try:
        yield
    except CopyError as error:
        click.echo(str(error), err=True)
        sys.exit(1)
    except DatabaseError as error:
        click.echo(f"The database could not do it: {error.orig}", err=True)
        sys.exit(1)


def _tell(what: str, counts: dict[str, int]) -> None:
    """`Copied 1 kit, 3 recipes, 4 recipe versions.`: how many rows of each table."""
    rows = ", ".join(_rows(count, table) for table, count in counts.items())
    click.echo(f"{what} {rows or 'nothing, for nothing is there'}.")


def _rows(count: int, table: str) -> str:
    word = table.replace("_", " ")
    if count != 1 and not word.endswith("s"):
        word = f"{word[:-1]}ies" if word.endswith("y") else f"{word}s"
    return f"{count} {word}"
