"""The command line. Exit codes: 0 done, 1 could not, 2 wrong usage, 3 the recipe is wrong.

What a command needs is imported inside it, so that `--help` is quick.
"""

from __future__ import annotations

import json
import signal
import sys
from pathlib import Path
from typing import Any, NoReturn

import click

COULD_NOT = 1
WRONG_RECIPE = 3

FILE = click.Path(dir_okay=False, path_type=Path)
database_option = click.option(
    "--database", type=FILE, help="The SQLite file to use; else BOWLSIDE_DATABASE, else var/bowlside.sqlite3."
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="bowlside")
def main() -> None:
    """A bench companion: what to do now, how much to pour, and every wait at once."""


@main.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), help="Else BOWLSIDE_PORT, else 8420; 0 takes a free one."
)
@database_option
@click.option("--demo", is_flag=True, help="Fill an empty database with the demo studio.")
def serve(port: int | None, database: Path | None, demo: bool) -> None:
    """Serve the page and the API to this machine."""
    from api.serving import listen

    app = _open(database, port=port)
    if demo:
        from api.demo import seed

        with app.app_context():
            _report(seed())
    try:
        server, address = listen(app)
    except OSError as error:
        _stop(f"Cannot listen: {error.strerror}. Name another port with --port; 0 takes a free one.")
    import segno

    click.echo(f"Bowlside is at {address} (this machine only). Ctrl+C stops it.")
    segno.make(address, micro=False).terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    server.run()


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
        _stop(f"{recipe}: {_named(error)}", WRONG_RECIPE)
    try:
        kit = bench.read_kit(_read_json(kit_file) if kit_file else STARTER_KIT)
        size = bench.choose_size(measured, kit, {"by": "pieces", "pieces": pieces})["size"]
        made = bench.make_sheet(measured, {"id": file_id(document), "version": 1}, size, kit)
    except bench.BenchError as error:
        _stop(_named(error))
    click.echo(bench.canonical(made) if as_json else bench.sheet_text(made))


@main.command("import")
@click.argument("file", type=FILE)
@database_option
def import_file(file: Path, database: Path | None) -> None:
    """Take in a studio's export, a recipe or a kit. Adds, and never overwrites."""
    from marshmallow import ValidationError

    import bench
    from api.errors import Problem, as_problem
    from api.exchange import import_any
    from api.wire import unfit_values

    document = _read_json(file)
    if not isinstance(document, dict):
        _stop(f"{file} is not a JSON object.")
    for where, says in unfit_values(document):
        _stop(f"{file}: {where}: {says}")
    with _open(database).app_context():
        try:
            tally = import_any(document)
        except (Problem, bench.BenchError, ValidationError) as error:
            problem = as_problem(error)
            named = [f"  {where}: {says}" for where, says in problem.errors]
            is_recipe = document.get("format") == "bowlside-recipe/1"
            _stop("\n".join([f"{file}: {problem.detail}", *named]), WRONG_RECIPE if is_recipe else COULD_NOT)
    _report(tally)
    if tally.refused:
        sys.exit(COULD_NOT)


@main.command()
@click.argument("file", type=FILE, required=False)
@database_option
def export(file: Path | None, database: Path | None) -> None:
    """Write the whole studio as one JSON, to FILE or to standard output."""
    from api.exchange import export_all

    with _open(database).app_context():
        text = json.dumps(export_all(), ensure_ascii=False, indent=1)
    if file is None:
        click.echo(text)
        return
    try:
        file.write_text(text + "\n", encoding="utf-8")
    except OSError as error:
        _stop(f"Cannot write {file}: {error.strerror}.")


def _open(database: Path | None, **given: Any) -> Any:
    """The application, its tables up to date."""
    from sqlalchemy.exc import DatabaseError

    from api import create_app, store
    from api.settings import SettingError, Settings

    try:
        settings = Settings.from_environ(database=database, **given)
        app = create_app(settings)
        store.migrate(app)
    except SettingError as error:
        raise click.UsageError(str(error)) from None
    except (OSError, DatabaseError) as error:
        _stop(f"Cannot open the database {settings.database}: {getattr(error, 'orig', error)}.")
    return app


def _read_json(file: Path) -> Any:
    try:
        return json.loads(file.read_text(encoding="utf-8"))
    except OSError as error:
        _stop(f"Cannot read {file}: {error.strerror}.")
    except (ValueError, RecursionError) as error:
        _stop(f"{file} is not JSON in UTF-8: {error}.")


def _named(error: Any) -> str:
    return f"{error.where}: {error.says}" if error.where else str(error.says)


def _report(tally: Any) -> None:
    """Say on standard error what an import did; None is a database that was in use already."""
    if tally is None:
        return
    click.echo(f"Kept {tally.kept}, had {tally.had}, refused {len(tally.refused)}.", err=True)
    for where, says in tally.refused:
        click.echo(f"  {where}: {says}", err=True)


def _stop(says: str, code: int = COULD_NOT) -> NoReturn:
    click.echo(says, err=True)
    sys.exit(code)


if __name__ == "__main__":
    main()
