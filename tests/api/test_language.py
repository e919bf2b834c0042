"""In which language a request is answered."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner

from api import page, page_words, records
from api.cli import main
from api.demo import seed
from api.door import doorstep, landing
from api.places import FRONTEND
from bench import words

pytestmark = pytest.mark.database("sqlite")  # the database is not its subject
SOURCE = (FRONTEND / page_words.FILE).read_text("utf-8")


@pytest.mark.parametrize(
    ("asked", "cookie", "spoken"),
    [
        (None, None, "en"),
        ("de", None, "de"),
        ("de-AT,de;q=0.9,en;q=0.5", None, "de"),
        ("fr,pl;q=0.5", None, "en"),
        ("*", None, "en"),
        ("en", "de", "de"),
        ("de", "en", "en"),
        ("de", "xx", "de"),
        ("\u0000;q=x", None, "en"),
    ],
)
def test_the_makers_choice_stands_before_what_the_browser_asks_for(
    client: Any, asked: str | None, cookie: str | None, spoken: str
) -> None:
    if cookie:
        client.set_cookie("language", cookie)
    answer = client.get("/api/v1/clock", headers={"Accept-Language": asked} if asked else {})

    assert answer.headers["Content-Language"] == spoken
    assert {"Accept-Language", "Cookie"} <= set(answer.vary)
    assert words.spoken() == "en"  # nothing stays behind


def test_a_language_is_spoken_unasked(client: Any) -> None:
    answer = client.get("/api/v1/clock", headers={"Accept-Language": "de-AT,de;q=0.9,en;q=0.5"})
    assert answer.headers["Content-Language"] == "de"


def table(source: str, *modules: str) -> Any:
    line = next(line for line in page_words.worded(source, modules).splitlines() if "TABLE = " in line)
    return json.loads(line.removeprefix("const TABLE = ").removesuffix(";"))


def test_the_page_is_sent_the_words_that_its_modules_name() -> None:
    with words.speaking("de"):
        told = table(SOURCE, 'say("prompting-done")', "say(`prompting-match-${way}`)", '"not-a-key" "run"')

    assert (told["language"], told["point"]) == ("de", ",")
    assert told["messages"]["prompting-done"] == "Erledigt"
    assert set(told["messages"]) == {
        "list-and", "list-more", "prompting-done",
        "prompting-match-down", "prompting-match-rest", "prompting-match-up",
    }  # fmt: skip


def test_what_is_the_same_whenever_it_is_said_stands_where_it_is_said() -> None:
    source = 'say("prompting-done"); say("prompting-reads", { reading }); own.say("prompting-done"); say("not-a-key");'
    with words.speaking("de"):
        assert page_words.put_in(source) == source.replace('say("prompting-done")', '"Erledigt"', 1)
        either = 'say(isLate ? "prompting-done" : "prompting-skip-step")'
        assert page_words.put_in(either) == '(isLate ? "Erledigt" : "Schritt überspringen")'


def test_the_page_opens_without_the_words_of_the_rest() -> None:
    pieces = page.pieces_of(FRONTEND, page.files_as_they_are(FRONTEND))
    opening, rest = (pieces.content(name).decode() for name in ("app.js", "rest.js"))
    reads, no_unit = (words.language("en").pattern(key) for key in ("prompting-reads", "amounts-no-unit"))

    assert page_words.as_json(reads) in opening
    assert page_words.as_json(no_unit) not in opening  # what reads a recipe comes with the rest
    assert page_words.as_json(no_unit) in rest
    assert page_words.as_json(reads) not in rest
    # What needs nothing to be said stands where it is said, and in no table.
    humidity = page_words.as_json(words.language("en").pattern("page-bench-humidity"))
    assert f"title:{humidity}" in opening


def test_a_key_goes_by_one_short_name_in_all_pieces_unless_a_code_may_end_it() -> None:
    one = 'say("prompting-done"); say("prompting-reads", { reading }); say(`prompting-match-${way}`); "not-a-key"'
    first, rest = page_words.shortened(one, 'say("prompting-match-up"); say("prompting-reads", { reading })')

    assert first == one.replace("prompting-done", "0").replace("prompting-reads", "1")
    assert rest == 'say("prompting-match-up"); say("1", { reading })'


def test_nothing_else_of_the_page_goes_by_the_name_of_a_message() -> None:
    """Or it would be sent by another name."""
    styles = " ".join(path.read_text("utf-8") for path in (FRONTEND / "style").glob("*.css"))
    keys = words.language("en").keys()

    assert not keys & {*re.findall(r"[a-z]+(?:-[a-z0-9]+)+", styles)}


@pytest.mark.parametrize("name", sorted(page_words.BEFORE_MODULES))
def test_what_stands_before_any_module_runs_is_in_the_makers_language(client: Any, name: str) -> None:
    client.set_cookie("language", "de")
    german = client.get(f"/{name}").text
    client.set_cookie("language", "en")
    english = client.get(f"/{name}").text

    assert german != english
    assert not page_words.MARKED.search(german + english)


def test_a_page_without_a_place_for_the_words_is_not_sent() -> None:
    with pytest.raises(ValueError):
        page_words.worded("const TABLE = [];", [])


def test_what_is_held_in_one_language_is_no_answer_in_another(app: Any, client: Any) -> None:
    with app.app_context():
        seed()
    run = client.get("/api/v1/runs?open=false").json["runs"][0]["id"]
    path, held = f"/api/v1/runs/{run}/record", records._held_answer.cache_info

    def asked(language: str) -> str:
        client.set_cookie("language", language)
        return str(client.get(path).text)

    german = asked("de")
    before = held().misses
    english = asked("en")

    assert held().misses == before + 1
    assert asked("de") == german
    assert asked("en") == english
    client.set_cookie("units", "oz-f")  # nor is what is held in grams one in ounces
    asked("en")
    assert held().misses == before + 2


@pytest.mark.parametrize(("units", "said"), [(None, "at 21 °C"), ("oz-f", "at 70 °F"), ("oz-k", "at 21 °C")])
def test_masses_and_temperatures_are_worded_in_the_units_that_were_chosen(
    app: Any, client: Any, units: str | None, said: str
) -> None:
    with app.app_context():
        seed()
    if units:
        client.set_cookie("units", units)
    recipe = client.get("/api/v1/recipes").json["recipes"][0]["id"]
    told = client.get(f"/api/v1/recipes/{recipe}/checks?temperature_c=21&humidity=50").json["findings"]
    assert said in next(each["what"] for each in told if each["where"] == "air")


# What is refused


def test_a_refusal_is_in_the_language_of_the_request_down_to_its_fields(client: Any) -> None:
    wrong = {"batch_number": "x" * 61, "without_tax": "yes", "nowhere": 1}
    told = {}
    for tag in words.languages():
        client.set_cookie("language", tag)
        missing, refused = client.get("/api/v1/nowhere"), client.put("/api/v1/settings", json=wrong)
        told[tag] = [missing.json["detail"], *(each["detail"] for each in refused.json["errors"])]

    assert told["en"] == [
        "Nothing is at this address. What there is: /api/v1/openapi.json.",
        "From 1 to 60 fit here. Make it shorter or longer.",
        "Send true or false.",
        "This name is not known here. Take it out.",
    ]
    assert told["de"] == [
        "Unter dieser Adresse ist nichts. Was es gibt: /api/v1/openapi.json.",
        "Hier passen 1 bis 60. Kürzer oder länger schreiben.",
        "true oder false senden.",
        "Dieser Name ist hier unbekannt. Herausnehmen.",
    ]


# The pages at the door


@pytest.mark.parametrize("file", [doorstep.PAGE, landing.PAGE], ids=lambda file: file.name)
def test_no_word_stands_in_a_page_at_the_door(file: Path) -> None:
    bare = re.sub(
        r"<(style|script)>.*?</\1>|\{[{%].*?[%}]\}|<[^>]*>", " ", file.read_text("utf-8"), flags=re.DOTALL
    )
    systems = {"Android", "iPhone", "iPad", "Windows", "macOS", "Linux"}  # by their makers' names for them

    assert set(re.findall(r"[^\W\d_]{2,}", bare)) <= systems


def test_a_stranger_is_shown_the_pairing_page_in_the_language_that_was_chosen(new_app: Any) -> None:
    client = new_app(pairing=True).test_client()
    english = client.get("/pair").text
    client.set_cookie("language", "de")
    german = client.get("/pair").text

    assert '<html lang="en">' in english and "Pair this device" in english
    assert '<html lang="de">' in german and "Dieses Gerät koppeln" in german
    assert "<code>bowlside pair</code>" in english and "<code>bowlside pair</code>" in german


# The commands


def helps(tag: str) -> dict[str, str]:
    names = [[], *([each] for each in main.commands)]
    told = (CliRunner().invoke(main, ["--language", tag, *name, "--help"]) for name in names)
    return {" ".join(name): each.output for name, each in zip(names, told, strict=True)}


def test_every_command_and_option_is_helped_with_in_each_language() -> None:
    english, german = helps("en"), helps("de")
    for name, command in {"": main, **main.commands}.items():
        assert english[name] != german[name]
        for each in [command, *(each for each in command.params if isinstance(each, click.Option))]:
            assert (each.help or "").endswith("."), f"{name}: {each}"


@pytest.mark.parametrize(
    ("arguments", "environ", "usage"),
    [
        ([], {"LANG": "de_DE.UTF-8"}, "Aufruf:"),
        ([], {"LC_ALL": "C", "LANG": "de_DE.UTF-8"}, "Usage:"),
        ([], {"LANG": "fr_FR.UTF-8"}, "Usage:"),
        (["--language=en"], {"LANG": "de_DE.UTF-8"}, "Usage:"),
        (["--language", "de"], {"LC_ALL": "", "LANG": "en_GB"}, "Aufruf:"),
    ],
)
def test_a_command_speaks_as_it_is_told_else_as_the_terminal_does(
    arguments: list[str], environ: dict[str, str], usage: str
) -> None:
    quiet = {"LC_ALL": None, "LC_MESSAGES": None, "LANG": None}
    told = CliRunner().invoke(main, [*arguments, "--help"], env={**quiet, **environ})

    assert told.output.startswith(usage)
    assert words.spoken() == "en"  # nothing stays behind


def test_a_language_that_there_is_not_is_said() -> None:
    told = CliRunner().invoke(main, ["--language", "xx", "devices"])

    assert (told.exit_code, "Choose one of: en, de" in told.stderr) == (2, True)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["turn"], "Den Befehl „turn“ gibt es nicht. Möglich: "),
        (["serve", "--prot", "1"], "Die Option --prot gibt es nicht."),
        (["serve", "--port"], "Hinter --port fehlt ein Wert."),
        (["serve", "--lan=1"], "--lan nimmt keinen Wert."),
        (
            ["serve", "--port", "70000"],
            "--port nimmt „70000“ nicht. Eine ganze Zahl von 0 bis 65535 angeben.",
        ),
        (["batches", "--release", "gone"], "--release nimmt „gone“ nicht. Möglich: "),
        (["batches", "--most", "0"], "--most nimmt „0“ nicht. Eine ganze Zahl ab 1 angeben."),
        (["audit", "--since", "March"], "--since nimmt „March“ nicht. Einen Tag angeben"),
        (["sheet", "recipe.json"], "--pieces fehlt. Bitte angeben."),
        (["sheet", ".", "--pieces", "1"], "RECIPE nimmt „.“ nicht. Eine Datei angeben."),
        (["sheet", "recipe.json", "more"], "--pieces fehlt."),
        (["devices", "more"], "Das ist ein Wort zu viel."),
    ],
)
def test_what_is_wrong_with_a_call_is_said_in_the_language_spoken(arguments: list[str], says: str) -> None:
    """Each kind of fault that the library finds, on German's own words: none of its English is left."""
    told = CliRunner().invoke(main, ["--language", "de", *arguments])

    assert (told.exit_code, says in told.stderr) == (2, True), told.stderr
    assert not {"Error", "Try", "No such", "Invalid", "Missing", "Usage:"} & {*told.stderr.split()}
