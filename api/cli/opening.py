"""What every command needs: the studio opened, and what cannot be done said. Its imports are inside, so `--help` is quick."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from api.cli.spoken import WrongUsage, option
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask

    from api.exchange import Tally

COULD_NOT = 1


FILE = click.Path(dir_okay=False, path_type=Path)
database_option = option("--database", type=FILE, help="database")


def open_app(database: Path | None, *, there: bool = False, **given: Any) -> Flask:
    """The application, its tables up to date. A file that is named here goes before DATABASE_URL.

    With `there` a studio that is not there is not made, but said.
    """
    from sqlalchemy.exc import ArgumentError, DatabaseError

    from api import create_app
    from api.copyfile import CopyError
    from api.moved import MovedError, place_of
    from api.settings import SettingError, Settings
    from api.upgrading import NewerStudio, bring_up_to_date, is_there
    from bench import words

    if database is not None:
        given["database_url"] = ""
    try:
        settings = Settings.from_environ(database=database, **given)
        if there and not settings.database_url and not _has_something(settings.database):
            stop(words.say("cli-opening-nothing-there", place=str(settings.database)))
        app = create_app(settings)
        if there and not is_there(app):
            stop(words.say("cli-opening-nothing-there", place=place_of(settings)))
        if done := bring_up_to_date(app):
            say(done, err=True)
    except SettingError as error:
        raise WrongUsage(str(error)) from None
    except (NewerStudio, MovedError, CopyError) as error:
        stop(str(error))
    except (ArgumentError, ImportError):
        stop(words.say("cli-opening-wrong-url"))
    except (OSError, DatabaseError) as error:
        why = str(getattr(error, "orig", error))
        if settings.database_url:
            stop(words.say("cli-opening-url-not-opened", why=why))
        stop(words.say("cli-opening-not-opened", place=str(settings.database), why=why))
    return app


def _has_something(file: Path) -> bool:
    return file.is_file() and file.stat().st_size > 0


def report(tally: Tally | None) -> None:
    """Say on standard error what an import did; None is a database that was in use already."""
    from bench import words

    if tally is None:
        return
    told = words.say("cli-opening-brought-in", kept=tally.kept, had=tally.had, refused=tally.refusals)
    say(told, err=True)
    for where, says in tally.refused:
        say(f"  {where}: {says}", err=True)
    if tally.refusals > len(tally.refused):
        say(f"  {words.say('cli-opening-more-refused', count=tally.refusals - len(tally.refused))}", err=True)


def stop(*says: str, code: int = COULD_NOT) -> NoReturn:
    say(*says, err=True)
    sys.exit(code)
