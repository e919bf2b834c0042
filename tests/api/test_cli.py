from __future__ import annotations

import json
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

import bench
from api import create_app, store
from api.cli import main
from api.kit import STARTER_KIT
from api.places import DEMO
from api.settings import Settings
from tests.api.studio import Studio
from tests.api.test_release import signed_run
from tests.make import make_recipe


@pytest.fixture
def bowlside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Runs a command in a folder of its own; gives the result."""
    monkeypatch.chdir(tmp_path)
    return lambda *arguments: CliRunner().invoke(main, arguments, catch_exceptions=False)


def write(path: str, document: object) -> str:
    Path(path).write_text(json.dumps(document))
    return path


def test_the_sheet_as_text_and_as_json(bowlside: Any) -> None:
    recipe = write("soak.json", make_recipe())

    text = bowlside("sheet", recipe, "--pieces", "20")
    as_json = bowlside("sheet", recipe, "--pieces", "20", "--json")

    assert (text.exit_code, as_json.exit_code) == (0, 0)
    assert "Salt soak" in text.stdout
    assert json.loads(as_json.stdout)["size"]["pieces"] == 20


def test_a_recipe_is_checked_as_the_page_checks_it(bowlside: Any) -> None:
    """The same findings in words and for a program; one that cannot be made as written ends with 3."""
    document = json.loads((DEMO / "recipes" / "two-layer-soap-bars.json").read_text("utf-8"))
    recipe = write("bars.json", document)
    expected = bench.check_recipe(bench.read_recipe(document), None, bench.read_kit(STARTER_KIT))

    told = bowlside("check", recipe)
    as_json = bowlside("check", recipe, "--json")
    assert (told.exit_code, as_json.exit_code) == (0, 0)
    assert json.loads(as_json.stdout) == expected != []
    for each in expected:
        assert all(said in told.stdout for said in (each["what"], each["why"], each["do"], each["source"]))

    assert bowlside("--language", "de", "check", recipe).stdout.startswith(("Ansehen: ", "Gut zu wissen: "))

    steps = {step["id"]: step for part in document["components"] for step in part["steps"]}
    steps["skin"]["earliest"] = "26 min"  # the second layer must follow the first within 25
    steps["skin"]["usual"] = steps["skin"]["latest"] = "30 min"
    told = bowlside("check", write("bars.json", document))
    assert (told.exit_code, told.stdout[:15]) == (3, "Cannot be made:")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_a_recipe_is_read_in_whichever_way_it_is_encoded(bowlside: Any, encoding: str) -> None:
    """RFC 8259, 8.1 wants UTF-8 with no mark of order, and lets who reads ignore one; editors write the others."""
    Path("recipe.json").write_bytes(
        json.dumps(make_recipe(title="Käsige Öle"), ensure_ascii=False).encode(encoding)
    )
    result = bowlside("sheet", "recipe.json", "--pieces", "4")
    assert result.exit_code == 0 and "Käsige Öle" in result.output


def test_a_wrong_kit_is_named_by_its_file_and_no_devices_are_said(bowlside: Any) -> None:
    write("recipe.json", make_recipe())
    result = bowlside("sheet", "recipe.json", "--pieces", "4", "--kit", write("kit.json", {"format": "none"}))
    assert result.exit_code == 1 and "kit.json: " in result.output
    assert "No device is paired yet" in bowlside("devices", "--database", "studio.sqlite3").output


def test_the_sheet_is_made_for_the_kit_given(bowlside: Any) -> None:
    scale = {"id": "fine", "name": "Fine scale", "capacity": "5 kg", "division": "0.1 g"}
    kit = write("kit.json", {**STARTER_KIT, "scales": [scale]})

    made = bowlside("sheet", write("soak.json", make_recipe()), "--pieces", "10", "--kit", kit, "--json")

    assert {line["scale"] for line in json.loads(made.stdout)["lines"]} == {"fine"}


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (["sheet", "wrong.json", "--pieces", "10"], 3, "written_for"),
        (["sheet", "soak.json", "--pieces", "0"], 1, "pieces"),
        (["sheet", "soak.json", "--pieces", "1000000"], 1, "pieces"),
        (["sheet", "soak.json", "--pieces", "ten"], 2, "ten"),
        (["sheet", "soak.json"], 2, "--pieces"),
        (["sheet", "missing.json", "--pieces", "10"], 1, "missing.json"),
        (["sheet", "not.json", "--pieces", "10"], 1, "not JSON"),
        (["sheet", "soak.json", "--pieces", "10", "--kit", "soak.json"], 1, "scales"),
        (["check", "wrong.json"], 3, "written_for"),
        (["check", "soak.json", "--kit", "soak.json"], 1, "scales"),
        (["import", "wrong.json"], 3, "written_for"),
        (["import", "not.json"], 1, "Not JSON"),
        (["import", "list.json"], 1, "object"),
        (["import", "other.json"], 1, "format"),
        (["import", "half.json"], 1, "runs"),
        (["import", "nul.json"], 1, "title"),
        (["export", "/dev/null/all.json"], 1, "all.json"),
        (["export", "soak.json"], 1, "--replace"),
        (["backup", "soak.json"], 1, "--replace"),
        (["import", "empty.json"], 1, "Added 0, already here 0"),
        (["export", "--database", "soak.json"], 1, "soak.json"),
        (["dance"], 2, "dance"),
    ],
)
def test_what_goes_wrong_is_said_and_has_its_exit_code(
    bowlside: Any, arguments: list[str], code: int, says: str
) -> None:
    write("soak.json", make_recipe())
    write("wrong.json", {**make_recipe(), "written_for": 0})
    write("list.json", [])
    write(
        "empty.json",
        {"format": "bowlside-export/1", "exported_at": 1, "recipes": [], "kit": None, "runs": []},
    )
    write("other.json", {"format": "cookbook/9"})
    write("half.json", {"format": "bowlside-export/1", "recipes": []})
    write("nul.json", make_recipe(title="a\x00b"))
    assert bowlside("import", "--new", "soak.json").exit_code == 0
    Path("not.json").write_text("{")

    result = bowlside(*arguments)

    assert result.exit_code == code
    assert says in result.stderr
    assert "Traceback" not in result.output


def test_a_studio_goes_out_and_comes_in_elsewhere(bowlside: Any) -> None:
    made = bowlside("import", "--new", write("soak.json", make_recipe()), "--database", "one.sqlite3")
    assert made.exit_code == 0
    assert bowlside("export", "all.json", "--database", "one.sqlite3").exit_code == 0

    taken = bowlside("import", "--new", "all.json", "--database", "two.sqlite3")
    exported = bowlside("export", "--database", "two.sqlite3")

    assert taken.stderr == "Added 1, already here 0, refused 0.\n"
    without_time = {"exported_at": 0}
    assert (
        json.loads(exported.stdout) | without_time == json.loads(Path("all.json").read_text()) | without_time
    )


def test_an_import_that_is_partly_refused_says_what_and_fails(bowlside: Any) -> None:
    bowlside("import", "--new", write("soak.json", make_recipe()))
    bowlside("export", "all.json")
    studio = json.loads(Path("all.json").read_text())
    studio["recipes"][0]["versions"][0]["document"]["title"] = "Other"

    result = bowlside("import", write("other.json", studio))

    assert result.exit_code == 1
    assert "recipes.0.versions.0" in result.stderr


@pytest.mark.parametrize("words", [["export", "all.json"], ["backup", "all.json"], ["import", "soak.json"]])
def test_where_there_is_no_studio_none_is_made_and_no_file_is_touched(
    bowlside: Any, words: list[str]
) -> None:
    write("soak.json", make_recipe())
    Path("all.json").write_text("mine")
    Path("empty.sqlite3").touch()

    for database in ("mistyped.sqlite3", "empty.sqlite3"):
        told = bowlside(*words, "--database", database, *(["--replace"] if words[0] != "import" else []))
        assert (told.exit_code, "No studio in" in told.stderr, database in told.stderr) == (
            1,
            True,
            True,
        )

    assert Path("all.json").read_text() == "mine"
    assert not Path("mistyped.sqlite3").exists()
    assert Path("empty.sqlite3").read_bytes() == b""


def test_of_an_empty_studio_nothing_is_written(bowlside: Any, empty_database: Path) -> None:
    shutil.copy(empty_database, "new.sqlite3")
    for command in ("export", "backup"):
        told = bowlside(command, "all", "--database", "new.sqlite3")
        assert (told.exit_code, "Nothing is in this studio yet" in told.stderr) == (1, True)
    assert not Path("all").exists()


def test_a_file_is_written_over_only_when_told_and_then_whole(bowlside: Any) -> None:
    bowlside("import", "--new", write("soak.json", make_recipe()))
    for command in ("export", "backup"):
        Path("all").write_text("mine")
        assert bowlside(command, "all").exit_code == 1
        assert Path("all").read_text() == "mine"
        assert bowlside(command, "all", "--replace").exit_code == 0
        assert Path("all").stat().st_size > 200
    assert {each.name for each in Path().iterdir()} >= {"all"}
    assert not list(Path().glob(".*.part"))


def test_settings_come_from_the_environment(bowlside: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLSIDE_DATABASE", "elsewhere/studio.sqlite3")
    bowlside("import", "--new", write("soak.json", make_recipe()))
    assert Path("elsewhere/studio.sqlite3").exists()

    monkeypatch.setenv("BOWLSIDE_BODY_LIMIT", "much")
    result = bowlside("export")
    assert (result.exit_code, "BOWLSIDE_BODY_LIMIT" in result.stderr) == (2, True)


def test_help_is_quick_because_nothing_heavy_is_imported() -> None:
    heavy = "import sys, api.cli; print(sorted({'flask', 'sqlalchemy', 'pint', 'bench'} & set(sys.modules)))"
    loaded = subprocess.run([sys.executable, "-c", heavy], capture_output=True, text=True, check=True)

    assert loaded.stdout.strip() == "[]"


def test_a_port_that_is_taken_is_said(bowlside: Any, live_server: Any) -> None:
    port = live_server.url.rsplit(":", 1)[1].strip("/")

    result = bowlside("serve", "--port", port)

    assert result.exit_code == 1
    assert "--port" in result.stderr


def test_a_clock_of_years_ago_is_said_at_the_start_and_opens_nothing_to_a_network(
    bowlside: Any, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    told = Settings.from_environ
    in_1970 = staticmethod(lambda **given: replace(told(**given), clock_ms=lambda: 31 * 86_400_000))
    monkeypatch.setattr(Settings, "from_environ", in_1970)
    monkeypatch.setattr("api.serving.serve", lambda *_, ready, **__: ready())

    lan = bowlside("serve", "--lan", "--port", "0", "--landing-port", "0")
    here = bowlside("serve", "--port", "0")

    assert lan.exit_code == 1 and "clock is years behind" in lan.stderr
    assert here.exit_code == 0 and "before this version was made" in caplog.text + here.stderr


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--listen", "127.0.0.1"], "goes with --lan or --behind-proxy"),
        (["--lan", "--listen", "studio.example"], "wants an address of this machine"),
    ],
)
def test_one_address_is_listened_on_where_that_means_something(
    tmp_path: Path, options: list[str], says: str
) -> None:
    result = CliRunner().invoke(main, ["serve", "--database", str(tmp_path / "x.sqlite3"), *options])

    assert result.exit_code == 2 and says in result.output


def test_an_address_that_the_machine_does_not_have_is_said(tmp_path: Path) -> None:
    options = ["--lan", "--port", "0", "--landing-port", "0", "--listen", "192.0.2.7"]
    result = CliRunner().invoke(main, ["serve", "--database", str(tmp_path / "x.sqlite3"), *options])

    assert result.exit_code == 1 and "does not have that address" in result.output


def test_a_batch_is_judged_at_the_terminal_and_listed_so(bowlside: Any, tmp_path: Path) -> None:
    app = create_app(Settings(database=tmp_path / "one.sqlite3"))
    store.migrate(app)
    studio = Studio(app.test_client())
    run, _, seal = signed_run(studio)
    there = ("--database", "one.sqlite3")

    unknown = bowlside("judge", "M-9", "held", "--name", "B. Maker", "--why", "A crack.", *there)
    bare = bowlside("judge", run, "held", "--name", "B. Maker", *there)
    assert (unknown.exit_code, bare.exit_code) == (1, 1)
    assert "No batch" in unknown.stderr and "why" in bare.stderr

    held = bowlside("judge", run, "held", "--name", "B. Maker", "--why", "A crack.", *there)
    assert (held.exit_code, held.stdout) == (0, f"{run} is held.\n")
    assert bowlside("batches", "--release", "released", *there).stdout == ""
    released = bowlside("judge", run, "released", "--name", "B. Maker", *there)
    assert released.exit_code == 0
    (line,) = bowlside("batches", *there).stdout.splitlines()
    assert line.startswith(run) and "released" in line
    told = studio.get(f"/runs/{run}/record").json
    assert [(each["verdict"], each["device"]) for each in told["judgements"]] == [
        ("held", "terminal"),
        ("released", "terminal"),
    ]
    assert told["release"]["signing"] == seal["id"] and told["remarks"] == []
    store.close(app)
