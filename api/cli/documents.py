"""The commands for documents: a sheet on paper, what the check finds, and a studio's export in and out."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from api.cli.opening import COULD_NOT, FILE, database_option, open_app, report, stop
from api.cli.spoken import command, option
from api.plain import say_data

if TYPE_CHECKING:
    from bench import BenchError, Kit, MeasuredRecipe

WRONG_RECIPE = 3


@command("sheet")
@click.argument("recipe", type=FILE)
@option("--pieces", type=int, required=True, help="pieces")
@option("--kit", "kit_file", type=FILE, help="kit")
@option("--json", "as_json", is_flag=True, help="json")
def sheet(recipe: Path, pieces: int, kit_file: Path | None, as_json: bool) -> None:
    """The sheet of a recipe at a size, as text for a printer."""
    import bench
    from api.exchange import file_id

    document = _read_json(recipe)
    measured, kit = _measured(recipe, document), _kit(kit_file)
    try:
        size = bench.choose_size(measured, kit, {"by": "pieces", "pieces": pieces})["size"]
        made = bench.make_sheet(measured, {"id": file_id(document), "version": 1}, size, kit)
    except bench.BenchError as error:
        stop(_named(error))
    say_data(bench.canonical(made) if as_json else bench.sheet_text(made))


@command("check")
@click.argument("recipe", type=FILE)
@option("--kit", "kit_file", type=FILE, help="kit")
@option("--json", "as_json", is_flag=True, help="findings-json")
def check(recipe: Path, kit_file: Path | None, as_json: bool) -> None:
    """What the check finds in a recipe, the gravest first; ends with 3 where it cannot be made as written."""
    import bench
    from bench import words

    findings = bench.check_recipe(_measured(recipe, _read_json(recipe)), None, _kit(kit_file))
    if as_json:
        say_data(bench.canonical(findings))
    elif not findings:
        say_data(words.say("cli-documents-nothing-found", file=str(recipe)))
    for each in () if as_json else findings:
        say_data(
            f"{words.say('cli-documents-level', level=each['level'])}: {each.get('place', each['where'])}"
        )
        rest = (each["what"], each["why"], each["by"], each["do"], each["source"])
        say_data("\n".join(f"  {line}" for line in rest if line))
    if any(each["level"] == "will_not_run" for each in findings):
        sys.exit(WRONG_RECIPE)


@command("import")
@click.argument("file", type=FILE)
@option("--new", is_flag=True, help="new")
@database_option
def import_file(file: Path, new: bool, database: Path | None) -> None:
    """Take in a studio's export, a recipe or a kit. Adds, and never overwrites.

    Others can write meanwhile. An import that was cut off is given again: what is here by then is had.
    """
    from marshmallow import ValidationError

    import bench
    from api import exchange
    from api.errors import Problem, as_problem
    from bench import words

    try:
        content = file.open("rb")
    except OSError as error:
        stop(words.say("api-copies-unread", file=str(file), why=str(error.strerror)))
    with content, open_app(database, there=not new).app_context():
        try:
            tally = exchange.import_file(content)
        except (Problem, bench.BenchError, ValidationError) as error:
            problem = as_problem(error)
            named = [f"  {where}: {says}" for where, says in problem.errors]
            is_recipe = isinstance(error, bench.RecipeError)
            stop(f"{file}: {problem.detail}", *named, code=WRONG_RECIPE if is_recipe else COULD_NOT)
    report(tally)
    if tally.refused or not (tally.kept or tally.had):
        sys.exit(COULD_NOT)


@command("export")
@click.argument("file", type=FILE, required=False)
@option("--replace", is_flag=True, help="replace")
@database_option
def export(file: Path | None, replace: bool, database: Path | None) -> None:
    """Write the whole studio as one JSON, to FILE or to standard output."""
    from api import copyfile, exchange, move_studio, store
    from bench import words

    try:
        if file is not None and not replace:
            copyfile.refuse_to_overwrite(file)
        with open_app(database, there=True).app_context():
            with store.reading() as connection:
                if move_studio.is_empty(connection):
                    stop(words.say("cli-documents-nothing"))
            if file is None:
                counts = exchange.write_export(sys.stdout.buffer)
                sys.stdout.buffer.flush()
            else:
                with copyfile.whole(file) as out:
                    counts = exchange.write_export(out)
            exchange.note_export(counts)
    except copyfile.CopyError as error:
        stop(str(error))


COMMANDS = (sheet, check, import_file, export)


def _measured(file: Path, document: Any) -> MeasuredRecipe:
    import bench

    try:
        return bench.read_recipe(document)
    except bench.BenchError as error:
        stop(f"{file}: {_named(error)}", code=WRONG_RECIPE)


def _kit(file: Path | None) -> Kit:
    """The kit of a file, else the one that a studio begins with."""
    import bench
    from api.kit import STARTER_KIT

    try:
        return bench.read_kit(_read_json(file) if file else STARTER_KIT)
    except bench.BenchError as error:
        stop(f"{file}: {_named(error)}")


def _read_json(file: Path) -> Any:
    """A document in UTF-8, UTF-16 or UTF-32, with or without a mark of its order, as the page reads one."""
    from bench import words

    try:
        return json.loads(file.read_bytes())
    except OSError as error:
        stop(words.say("api-copies-unread", file=str(file), why=str(error.strerror)))
    except (ValueError, RecursionError) as error:
        stop(words.say("cli-documents-not-json", file=str(file), why=str(error)))


def _named(error: BenchError) -> str:
    return f"{error.where}: {error.says}" if error.where else str(error.says)
