"""Whatever is sent, a log and a terminal get one printable line for it, of a bounded length."""

from __future__ import annotations

import ast
import io
import json
import logging
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from api import logs, plain
from api.cli import main
from api.door import limits
from api.serving import ServerLog
from api.store import writing
from api.tables import Device
from tests.api.doorway import code_for, pair, paired
from tests.servers import ROOT

QUIETLY = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
FORGED = "\x1b[2J\x1b[H\r\nThe certificate's fingerprint there must be\n  AA:BB\u202e\u2028\x9b\x7f"
ANY_TEXT = st.text(st.characters(), max_size=80) | st.just(FORGED)
# What a header can be on the wire: bytes, which WSGI hands on as Latin-1, without the ends of lines.
ANY_HEADER = st.text(st.characters(max_codepoint=255, exclude_characters="\r\n\0"), max_size=60)


@contextmanager
def written(form: str = "plain") -> Iterator[Callable[[], list[str]]]:
    """What this program logs meanwhile, as it is written; gives the lines."""
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    handler.setFormatter(logs.Lines(form))
    root = logging.getLogger()
    root.addHandler(handler)
    try:
        yield lambda: stream.getvalue().split("\n")[:-1]
    finally:
        root.removeHandler(handler)


def are_plain(lines: list[str]) -> bool:
    return all(line.isprintable() and len(line) <= logs.LONGEST_LINE + 100 for line in lines)


@pytest.fixture
def open_studio(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True, lan=True)


@pytest.mark.database("sqlite")
@QUIETLY
@given(path=ANY_TEXT, header=ANY_HEADER, name=ANY_TEXT, code=ANY_TEXT, form=st.sampled_from(logs.FORMS))
def test_no_path_header_name_or_code_begins_a_line_or_controls_a_terminal(
    open_studio: Any, path: str, header: str, name: str, code: str, form: str
) -> None:
    with open_studio.app_context():
        limits.rates().forget()
    client, helper = open_studio.test_client(), paired(open_studio, "helper", "Tablet")
    here = {"Host": "localhost"}
    fields = ("Origin", "Host", "Sec-Fetch-Site", "Cookie", "If-Match", "If-None-Match", "Accept-Encoding")
    sent = path.encode(errors="backslashreplace").decode()  # half a character is on no wire
    with written(form) as lines:
        helper.put("/api/v1/kit?" + sent, headers=here)
        under_root = re.sub(r"^[/\t\r\n]+", "", sent)  # with two strokes it would be a host, to this client
        for asked in ({"path": f"/api/v1/{sent}"}, {"path": f"/{under_root}"}):
            for method in ("POST", "GET"):
                client.open(**asked, method=method, headers={**here, "Origin": "http://evil.example"})
        bare = open_studio.test_client(use_cookies=False)  # another would not send the Cookie
        statuses = [
            bare.post("/api/v1/pair", json={}, headers={**here, field: header}).status_code
            for field in (*fields, logs.HEADER, "X-Forwarded-Host", "Content-Type")
        ]
        pair(client, code, name)
        pair(client, code_for(open_studio), name)
        logging.getLogger("elsewhere").error("%s said %r, %d", name, path, 7, exc_info=ValueError(code))

    assert 500 not in statuses
    found = lines()
    assert found and are_plain(found)
    if form == "plain":
        assert all(re.match(r"\d{4}-\d\d-\d\dT[\d:.]+Z (WARNING|ERROR) ", line) for line in found)
    else:
        assert all({"time", "level", "by", "what"} <= json.loads(line).keys() for line in found)


@pytest.mark.parametrize(
    "origin", ["http://[", "http://[::1", "http://evil:99999999999", "http://", "[", "null"]
)
@pytest.mark.database("sqlite")
def test_an_origin_that_cannot_be_read_is_another_sites(app: Any, origin: str) -> None:
    with written() as lines:
        answer = app.test_client().put("/api/v1/kit", json={}, headers={"Origin": origin})

    assert answer.status_code == 403
    assert len(lines()) == 1 and "Traceback" not in lines()[0]


@pytest.mark.database("sqlite")
def test_a_port_that_no_machine_has_is_no_name_of_this_server(new_app: Callable[..., Any]) -> None:
    app = new_app(pairing=True, hosts=("studio.example",))

    answer = app.test_client().get("/pair", headers={"Host": "studio.example:99999"})

    assert answer.status_code == 421


@given(text=ANY_TEXT)
def test_what_was_escaped_can_be_read_back(text: str) -> None:
    shown = plain.escaped(text)

    assert shown.isprintable()
    given_back = re.sub(
        r"\\(?:x(..)|u(.{4})|U(.{8})|(.))",
        lambda found: (
            chr(int(found[1] or found[2] or found[3], 16))
            if not found[4]
            else {"n": "\n", "r": "\r", "t": "\t", "\\": "\\"}[found[4]]
        ),
        shown,
    )
    assert given_back == text


def test_a_field_a_message_and_a_line_are_cut() -> None:
    with written() as lines:
        logging.getLogger("api").error("%s and %s", "a" * 100_000, "\x1b" * 100_000)
        logging.getLogger("api").error("b" * 100_000, exc_info=ValueError("\u202e" * 100_000))
    with written("json") as as_json:
        logging.getLogger("api").error("b" * 100_000, exc_info=ValueError("\u202e" * 100_000))

    assert [len(line) < limit for line, limit in zip(lines(), (2_000, 16_100), strict=True)] == [True, True]
    assert "left out]" in lines()[0]
    assert len(as_json()[0]) < 16_100 and json.loads(as_json()[0])["level"] == "ERROR"


def test_a_traceback_is_folded_into_its_line() -> None:
    with written() as lines, written("json") as as_json:
        try:
            raise RuntimeError("first\nsecond")
        except RuntimeError:
            logging.getLogger("api").exception("It failed")

    assert len(lines()) == len(as_json()) == 1
    assert r"first\nsecond" in lines()[0]
    assert json.loads(as_json()[0])["traceback"].endswith("RuntimeError: first\nsecond")


def test_a_flood_of_one_message_is_cut_and_counted() -> None:
    clock = [0.0]
    sparing = logs.Sparing(lambda: clock[0])

    def let(what: str) -> Any:
        return sparing.let(logging.makeLogRecord({"name": "api", "msg": "%s: refused", "args": (what,)}))

    first = [let(str(number)) for number in range(5_000)]
    clock[0] = 61.0
    after = let("later")

    assert sum(each is not None for each in first) == logs.SAME_A_MINUTE
    assert after.getMessage() == f"later: refused ({5_000 - logs.SAME_A_MINUTE} omitted)"
    assert let("still").getMessage() == "still: refused"


@pytest.mark.database("sqlite")
def test_an_answer_and_its_log_lines_have_one_id(app: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("api.clock.now_ms", lambda: 1 // 0)

    with written("json") as lines:
        answer = app.test_client().get("/api/v1/clock", headers={logs.HEADER: "chosen-by-a-stranger"})

    called = answer.headers[logs.HEADER]
    assert re.fullmatch("[0-9a-f]{32}", called)
    assert answer.json["instance"] == f"/requests/{called}" and called in answer.json["detail"]
    assert [json.loads(line)["request"] for line in lines()] == [called]
    assert app.test_client().get("/api/v1/clock").headers[logs.HEADER] != called


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("given_id", "taken"),
    [("4f1c-proxy.77_a", True), ("short", False), ("a" * 65, False), ("a b c d e f g", False)],
)
def test_a_proxys_id_is_taken_over_when_it_is_well_formed(
    new_app: Callable[..., Any], given_id: str, taken: bool
) -> None:
    client = new_app(pairing=True, proxies=1, hosts=("localhost",)).test_client()

    answer = client.get("/pair", headers={logs.HEADER: given_id, "X-Forwarded-Host": "localhost"})

    assert (answer.headers[logs.HEADER] == given_id) is taken


@pytest.mark.database("sqlite")
def test_a_refusal_is_logged_with_the_device(app: Any, new_app: Callable[..., Any]) -> None:
    helper = paired(new_app(pairing=True, lan=True), "helper")

    with written("json") as lines:
        helper.put("/api/v1/kit", json={})

    assert json.loads(lines()[0])["device"] == helper.device["id"]


def test_the_web_servers_log_and_what_nobody_caught_are_written_by_the_same_rules() -> None:
    from gunicorn.config import Config

    server = ServerLog(Config())
    server.error_log.setLevel("ERROR")
    with written() as lines:
        server.error("Invalid request from %s: %s", "192.0.2.7", FORGED)

    assert server.error_log.handlers == [] and len(lines()) == 1 and are_plain(lines())


@pytest.mark.database("sqlite")
def test_names_of_devices_are_one_line_each_in_the_terminal(open_studio: Any) -> None:
    device = paired(open_studio).device
    database = open_studio.config["BOWLSIDE"].database
    with open_studio.app_context(), writing() as connection:
        connection.execute(Device.__table__.update().values(name=FORGED))  # type: ignore[attr-defined]

    listed = CliRunner().invoke(main, ["devices", "--database", str(database)])
    shut = CliRunner().invoke(main, ["shut-out", device["id"], "--database", str(database)])

    for result in (listed, shut):
        assert result.exit_code == 0 and result.stdout.count("\n") == 1
        assert are_plain(result.stdout.splitlines()) and r"\x1b[2J" in result.stdout


PRINTS = {"api/plain.py"}


def test_nothing_is_printed_past_the_one_place_that_escapes() -> None:
    modules = [path for path in (ROOT / "api").rglob("*.py") if str(path.relative_to(ROOT)) not in PRINTS]
    prints = {"print", "click.echo", "click.secho", "sys.stderr.write", "sys.stdout.write"}
    called = [
        (path.name, name)
        for path in modules
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and (name := ast.unparse(node.func)) in prints
    ]

    assert len(modules) > 80 and called == []
