"""In which language a request is answered."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from api import page, page_words, records
from api.demo import seed
from api.places import FRONTEND
from bench import words

pytestmark = pytest.mark.database("sqlite")  # the database is not its subject
SOURCE = (FRONTEND / page_words.FILE).read_text("utf-8")


@pytest.mark.parametrize(
    ("asked", "cookie", "spoken"),
    [
        (None, None, "en"),
        ("de", None, "en"),  # in part yet
        ("de-AT,de;q=0.9,en;q=0.5", None, "en"),
        ("fr,pl;q=0.5", None, "en"),
        ("*", None, "en"),
        ("en", "de", "de"),
        ("de", "en", "en"),
        ("de", "xx", "en"),
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


def test_a_language_that_all_is_said_in_is_spoken_unasked(
    client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(words, "IN_PART", frozenset[str]())

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
