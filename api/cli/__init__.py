"""The command line. Exit codes: 0 done, 1 could not, 2 wrong usage, 3 the recipe is wrong.

What a command needs is imported inside it, so that `--help` is quick.
"""

from __future__ import annotations

from typing import Any

import click

from api.cli import batches, copies, documents, door, serving
from api.cli.opening import stop
from api.cli.spoken import OPTION, Group, Option, WrongUsage, option, tags


class Commands(Group):
    """A database that cannot do it is said in words, whichever command asked."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except (click.exceptions.Exit, click.ClickException, click.Abort, SystemExit):
            raise
        except Exception as error:
            if (says := _why_not(error)) is None:
                raise
            stop(says)


def _why_not(error: Exception) -> str | None:
    """What to say of a database's refusal; None for a fault of ours."""
    import sqlite3

    from sqlalchemy.exc import DBAPIError

    from api.moved import MovedError, refusal_in, says
    from bench import words

    if isinstance(error, MovedError):
        return str(error)
    if not isinstance(error, DBAPIError | sqlite3.Error):
        return None
    if (place := refusal_in(error)) is not None:
        return says(place)
    return words.say("cli-opening-database-could-not", why=str(getattr(error, "orig", error)))


def _known(_context: click.Context, _option: click.Parameter, value: str | None) -> None:
    """It is spoken already (`Group.main`); one that there is not is said."""
    from bench import words

    if value is not None and value not in words.languages():
        raise WrongUsage(words.say("cli-spoken-unknown", value=value, tags=tags()))


@click.group(cls=Commands, help="main", context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="bowlside", cls=Option, help="version")
@option(OPTION, metavar="TAG", callback=_known, expose_value=False, is_eager=True, help="language")
def main() -> None:
    """A bench companion: what to do now, how much to pour, and every wait at once."""


for command in (*serving.COMMANDS, *documents.COMMANDS, *batches.COMMANDS, *door.COMMANDS, *copies.COMMANDS):
    main.add_command(command)
