"""The command line. Exit codes: 0 done, 1 could not, 2 wrong usage, 3 the recipe is wrong.

What a command needs is imported inside it, so that `--help` is quick.
"""

from __future__ import annotations

import errno
import json
import sys
from ipaddress import ip_address
from pathlib import Path
from typing import Any, NoReturn

import click

from api import cli_copies, cli_door
from api.plain import say, say_data

COULD_NOT = 1
NOTHING_THERE = "There is no studio in {place}. Name the one that is meant by --database, BOWLSIDE_DATABASE or DATABASE_URL."
WRONG_RECIPE = 3

FILE = click.Path(dir_okay=False, path_type=Path)
database_option = click.option(
    "--database", type=FILE, help="The SQLite file to use; else BOWLSIDE_DATABASE, else var/bowlside.sqlite3."
)


class Commands(click.Group):
    """A database that cannot do it is said in words, whichever command asked."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except (click.exceptions.Exit, click.ClickException, click.Abort, SystemExit):
            raise
        except Exception as error:
            if (says := _why_not(error)) is None:
                raise
            _stop(says)


def _why_not(error: Exception) -> str | None:
    """What to say of a database's refusal; None for a fault of ours."""
    import sqlite3

    from sqlalchemy.exc import DBAPIError

    from api.moved import MovedError, refusal_in, says

    if isinstance(error, MovedError):
        return str(error)
    if not isinstance(error, DBAPIError | sqlite3.Error):
        return None
    place = refusal_in(error)
    return f"The database could not do it: {getattr(error, 'orig', error)}" if place is None else says(place)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="bowlside")
def main() -> None:
    """A bench companion: what to do now, how much to pour, and every wait at once."""


@main.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), help="Else BOWLSIDE_PORT, else 8420; 0 takes a free one."
)
@database_option
@click.option("--demo", is_flag=True, help="Fill an empty database with the demo studio.")
@click.option("--lan", is_flag=True, help="Open the studio to paired devices on this network, by TLS.")
@click.option(
    "--landing-port", type=click.IntRange(0, 65535), help="With --lan: the page that says how to trust it."
)
@click.option(
    "--listen", metavar="ADDRESS", help="With --lan or --behind-proxy: listen on this address and no other."
)
@click.option(
    "--behind-proxy", is_flag=True, help="Paired devices come through a proxy (BOWLSIDE_PROXIES of them)."
)
@click.option(
    "--workers", type=click.IntRange(1, 64), help="How many processes answer; else BOWLSIDE_WORKERS, else 1."
)
def serve(
    port: int | None,
    database: Path | None,
    demo: bool,
    lan: bool,
    landing_port: int | None,
    listen: str | None,
    behind_proxy: bool,
    workers: int | None,
) -> None:
    """Serve the page and the API: to this machine, unless told otherwise."""
    from api import health, logs, store
    from api.door.authority import WrongClock
    from api.door.opening import open_studio
    from api.serving import serve

    if lan and behind_proxy:
        raise click.UsageError("--lan and --behind-proxy are two ways of opening the studio: choose one.")
    if listen and not (lan or behind_proxy):
        raise click.UsageError(
            "--listen goes with --lan or --behind-proxy; else only this machine is answered."
        )
    app = _open(
        database,
        port=port,
        landing_port=landing_port,
        workers=workers,
        listen=listen,
        lan=lan,
        pairing=lan or behind_proxy,
    )
    settings = app.config["BOWLSIDE"]
    if lan and settings.listen and not _is_address(settings.listen):
        raise click.UsageError(
            f"--listen wants an address of this machine, as numbers: {settings.listen} is none."
        )
    if behind_proxy and not (settings.proxies > 0 and settings.hosts):
        raise click.UsageError(
            "--behind-proxy needs BOWLSIDE_PROXIES, how many proxies stand in front (most often 1),"
            " and BOWLSIDE_HOSTS, the name by which devices reach the studio."
        )
    if demo:
        from api.demo import seed

        with app.app_context():
            _report(seed())
    try:
        studio = open_studio(app)
    except WrongClock:
        _stop(
            "This computer's clock is years behind, so no device would trust what it vouches for. Set it, then"
            " start again."
        )
    except OSError as error:
        if error.errno == errno.EADDRNOTAVAIL:
            _stop(f"Cannot listen on {settings.listen}: this machine does not have that address.")
        _stop(f"Cannot listen: {error.strerror}. Name another port with --port; 0 takes a free one.")
    store.close(app)
    logs.take_over()
    if settings.metrics:
        health.share_counts()
    serve(
        app,
        studio.sockets,
        porter=studio.porter,
        certificate=studio.certificate,
        ready=lambda: _welcome(app, studio),
    )


@main.command()
@click.argument("recipe", type=FILE)
@click.option("--pieces", type=int, required=True, help="How many pieces this batch should give.")
@click.option("--kit", "kit_file", type=FILE, help="A kit file; without one, a kitchen scale of 5 kg by 1 g.")
@click.option("--json", "as_json", is_flag=True, help="For a program: the sheet as canonical JSON.")
def sheet(recipe: Path, pieces: int, kit_file: Path | None, as_json: bool) -> None:
    """The sheet of a recipe at a size, as text for a printer."""
    import bench
    from api.exchange import file_id
    from api.kit import STARTER_KIT

    document = _read_json(recipe)
    try:
        measured = bench.read_recipe(document)
    except bench.BenchError as error:
        _stop(f"{recipe}: {_named(error)}", code=WRONG_RECIPE)
    try:
        kit = bench.read_kit(_read_json(kit_file) if kit_file else STARTER_KIT)
        size = bench.choose_size(measured, kit, {"by": "pieces", "pieces": pieces})["size"]
        made = bench.make_sheet(measured, {"id": file_id(document), "version": 1}, size, kit)
    except bench.BenchError as error:
        _stop(_named(error))
    say_data(bench.canonical(made) if as_json else bench.sheet_text(made))


@main.command("import")
@click.argument("file", type=FILE)
@click.option("--new", is_flag=True, help="Make a studio first, where there is none.")
@database_option
def import_file(file: Path, new: bool, database: Path | None) -> None:
    """Take in a studio's export, a recipe or a kit. Adds, and never overwrites.

    Others can write meanwhile. An import that was cut off is given again: what is here by then is had.
    """
    from marshmallow import ValidationError

    import bench
    from api import exchange
    from api.errors import Problem, as_problem

    try:
        content = file.open("rb")
    except OSError as error:
        _stop(f"Cannot read {file}: {error.strerror}.")
    with content, _open(database, there=not new).app_context():
        try:
            tally = exchange.import_file(content)
        except (Problem, bench.BenchError, ValidationError) as error:
            problem = as_problem(error)
            named = [f"  {where}: {says}" for where, says in problem.errors]
            is_recipe = isinstance(error, bench.RecipeError)
            says = problem.detail.replace("The body", "The file")
            _stop(f"{file}: {says}", *named, code=WRONG_RECIPE if is_recipe else COULD_NOT)
    _report(tally)
    if tally.refused or not (tally.kept or tally.had):
        sys.exit(COULD_NOT)


@main.command()
@click.argument("file", type=FILE, required=False)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@database_option
def export(file: Path | None, replace: bool, database: Path | None) -> None:
    """Write the whole studio as one JSON, to FILE or to standard output."""
    from api import carry, copyfile, exchange, store

    try:
        if file is not None and not replace:
            copyfile.refuse_to_overwrite(file)
        with _open(database, there=True).app_context():
            with store.reading() as connection:
                if carry.is_empty(connection):
                    _stop("Nothing is in this studio yet, so there is nothing to export.")
            if file is None:
                counts = exchange.write_export(sys.stdout.buffer)
                sys.stdout.buffer.flush()
            else:
                with copyfile.whole(file) as out:
                    counts = exchange.write_export(out)
            exchange.note_export(counts)
    except copyfile.CopyError as error:
        _stop(str(error))


def _welcome(app: Any, studio: Any) -> None:
    """Say where the studio is, with QR codes for phones, and what is wrong with the clock or the authority."""
    for wrong in (_wrong_clock(app), studio.doubts):
        if wrong:
            app.logger.warning("%s", wrong)
    say(f"Bowlside is at {studio.address} ({studio.open_to}). Ctrl+C stops it.")
    _show_qr(studio.address)
    if studio.landing:
        say(f"A device learns to trust it at {studio.landing}")
        _show_qr(studio.landing)
        say("The certificate's fingerprint there must be", f"  {studio.fingerprint}")
    for host in studio.left_out:
        say(
            f"{host} is left out: the authority was not made for it. Move the folder {studio.folder} away"
            " to get a new one, which devices must then trust anew."
        )
    if studio.devices_at and sys.stdout.isatty():  # a code has no place in a service's log
        cli_door.show_first_code(app, studio.devices_at)
    elif studio.devices_at:
        say("`bowlside pair` makes a code that lets a device in.")
    sys.stdout.flush()


def _wrong_clock(app: Any) -> str | None:
    from api import clock, store

    with app.app_context(), store.reading() as connection:
        return clock.behind(connection)


def _show_qr(address: str) -> None:
    import segno

    segno.make(address, micro=False).terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()


def _open(database: Path | None, *, there: bool = False, **given: Any) -> Any:
    """The application, its tables up to date. A file that is named here goes before DATABASE_URL.

    With `there` a studio that is not there is not made, but said.
    """
    from sqlalchemy.exc import ArgumentError, DatabaseError

    from api import create_app
    from api.copyfile import CopyError
    from api.moved import MovedError, place_of
    from api.settings import SettingError, Settings
    from api.upgrading import NewerStudio, bring_up_to_date, is_there

    if database is not None:
        given["database_url"] = ""
    try:
        settings = Settings.from_environ(database=database, **given)
        if there and not settings.database_url and not _has_something(settings.database):
            _stop(NOTHING_THERE.format(place=settings.database))
        app = create_app(settings)
        if there and not is_there(app):
            _stop(NOTHING_THERE.format(place=place_of(settings)))
        if done := bring_up_to_date(app):
            say(done, err=True)
    except SettingError as error:
        raise click.UsageError(str(error)) from None
    except (NewerStudio, MovedError, CopyError) as error:
        _stop(str(error))
    except (ArgumentError, ImportError):
        _stop(
            "Cannot use that DATABASE_URL. It begins with postgresql://, and needs the driver:"
            " pip install 'bowlside[shared]'."
        )
    except (OSError, DatabaseError) as error:
        named = "of DATABASE_URL" if settings.database_url else settings.database
        _stop(f"Cannot open the database {named}: {getattr(error, 'orig', error)}.")
    return app


def _has_something(file: Path) -> bool:
    return file.is_file() and file.stat().st_size > 0


def _read_json(file: Path) -> Any:
    try:
        return json.loads(file.read_text(encoding="utf-8"))
    except OSError as error:
        _stop(f"Cannot read {file}: {error.strerror}.")
    except (ValueError, RecursionError) as error:
        _stop(f"{file} is not JSON in UTF-8: {error}.")


def _is_address(text: str) -> bool:
    try:
        ip_address(text)
    except ValueError:
        return False
    return True


def _named(error: Any) -> str:
    return f"{error.where}: {error.says}" if error.where else str(error.says)


def _report(tally: Any) -> None:
    """Say on standard error what an import did; None is a database that was in use already."""
    if tally is None:
        return
    say(f"Kept {tally.kept}, had {tally.had}, refused {tally.refusals}.", err=True)
    for where, says in tally.refused:
        say(f"  {where}: {says}", err=True)
    if tally.refusals > len(tally.refused):
        say(f"  and {tally.refusals - len(tally.refused)} more", err=True)


def _stop(*says: str, code: int = COULD_NOT) -> NoReturn:
    say(*says, err=True)
    sys.exit(code)


for command in (*cli_door.COMMANDS, *cli_copies.COMMANDS):
    main.add_command(command)

if __name__ == "__main__":
    main()
