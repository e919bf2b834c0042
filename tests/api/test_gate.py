"""Who may come in: nobody who is not paired, and a helper no further than a helper may."""

from __future__ import annotations

import itertools
import logging
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select
from sqlalchemy.exc import OperationalError

from api.door import gate, limits
from api.door.gate import COOKIE, DAY_MS, HELPERS_MAY, KNOWN_MS, SEEN_EVERY_MS, UNSEEN_MS
from api.places import FRONTEND
from api.store import reading
from api.tables import Entry
from tests.api.doorway import code_for, cookie_of, operations, pair, paired
from tests.api.studio import Studio
from tests.make import Clock, make_entry, make_recipe, uuid4

pytestmark = pytest.mark.database("sqlite")

FILES = sorted(str(path.relative_to(FRONTEND)) for path in FRONTEND.rglob("*") if path.is_file())


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


@pytest.fixture
def maker(app: Any) -> Any:
    return paired(app)


@pytest.fixture
def helper(app: Any) -> Any:
    return paired(app, "helper", "Tablet at the press")


def is_pairing_page(answer: Any) -> bool:
    return answer.mimetype == "text/html" and 'action="/pair"' in answer.text and len(answer.text) < 6000


@pytest.mark.database("sqlite", "postgresql")
def test_a_device_that_is_not_paired_gets_nothing_beyond_the_pairing_page(
    app: Any, maker: Any, client: Any
) -> None:
    document = maker.get("/api/v1/openapi.json").json
    asked = [(method, path) for method, path, _ in operations(document)]
    assert len(asked) > 25 and len(FILES) > 50
    got = []
    for method, path in [*asked, ("GET", "/api/v1/openapi.json")]:
        answer = client.open(path, method=method, json={})
        if (method, path) == ("POST", "/api/v1/pair"):
            assert answer.status_code == 422
        elif (answer.status_code, answer.mimetype) != (401, "application/problem+json"):
            got.append((method, path, answer.status_code))
        elif answer.json["type"] != "/problems/unpaired":
            got.append((method, path, answer.json))
    for path in ["/", "/nope", "/%2e%2e/pyproject.toml", *(f"/{file}" for file in FILES)]:
        app.extensions[limits.RATES].forget()  # there are more files than a stranger may ask for in a minute
        for method in ("GET", "HEAD"):
            answer = client.open(path, method=method)
            if answer.status_code != 401 or not (method == "HEAD" or is_pairing_page(answer)):
                got.append((method, path, answer.status_code))

    assert got == []
    assert client.get("/pair").status_code == 200


def test_no_method_is_a_way_round(client: Any) -> None:
    for method in ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "LOOK"):
        assert client.open("/api/v1/runs", method=method).status_code == 401
        assert client.open("/", method=method).status_code == 401


@pytest.mark.database("sqlite", "postgresql")
def test_a_cookie_that_was_not_given_lets_nobody_in(app: Any, maker: Any) -> None:
    device, _, secret = cookie_of(maker).partition(".")
    own = f"'1','n','maker',NULL,'{gate.digest('x')}',{Clock.ms},{Clock.ms},NULL"
    for cookie in (
        "",
        device,
        f"{device}.",
        f"{device}.{secret[:-1]}",
        f"{device}.{secret}.",
        f"{uuid4()}.{secret}",
        f"x{device}.{secret}",
        '"\' OR 1=1 --.x"',  # in quotes, for else a space ends it
        f'"\' UNION SELECT {own} --.x"',
        "\x00.x",
        "\xc3\xa9.\xc3\xa9",
        "." * 4000,
    ):
        # A client that keeps cookies sends its own alone, whatever header it is given.
        client = app.test_client(use_cookies=False)
        answer = client.get("/api/v1/runs", headers={"Cookie": f"{COOKIE}={cookie}"})
        assert answer.status_code == 401, cookie
        assert "WWW-Authenticate" in answer.headers


@pytest.mark.database("sqlite", "postgresql")
def test_a_cookie_of_a_device_that_came_from_a_backup_lets_nobody_in(app: Any, maker: Any) -> None:
    from api.store import writing
    from api.tables import Device

    with app.app_context(), writing() as connection:
        connection.execute(Device.__table__.update().values(secret_sha256=""))

    assert maker.get("/api/v1/runs").status_code == 401
    empty = app.test_client()
    empty.set_cookie(COOKIE, f"{maker.device['id']}.")
    assert empty.get("/api/v1/runs").status_code == 401


def test_with_no_pairing_whoever_sits_here_is_the_maker(new_app: Callable[..., Any]) -> None:
    studio = Studio(new_app().test_client())

    assert studio.put_recipe(uuid4(), make_recipe()).status_code == 201
    assert studio.get("/studio").json["you"] is None
    assert studio.get("/studio").json["mode"] == "local"


@pytest.mark.database("sqlite", "postgresql")
def test_a_helper_may_run_and_may_not_edit(app: Any, maker: Any, helper: Any) -> None:
    run = Studio(maker).with_run()
    bench = Studio(helper)

    assert bench.post(run, make_entry(run)).json["answers"][0]["result"] == "kept"
    assert bench.get(f"/runs/{run}/now").status_code == 200
    refused = bench.put_recipe(uuid4(), make_recipe())
    assert (refused.status_code, refused.json["type"]) == (403, "/problems/maker-only")
    assert "maker" in refused.json["detail"]


def test_a_helper_is_refused_all_that_is_not_named_as_a_helpers(app: Any, maker: Any, helper: Any) -> None:
    adapter = app.url_map.bind("localhost")
    for method, path, _ in operations(maker.get("/api/v1/openapi.json").json):
        endpoint = adapter.match(path, method=method)[0]
        if path == "/api/v1/live" or endpoint == "pairing.pair":
            continue  # a line that stays open; and everybody's
        answer = helper.open(path, method=method, json={})
        is_refused = answer.status_code == 403 and answer.json["type"] == "/problems/maker-only"
        # These two look further: a helper may do them to its own device.
        own = endpoint in ("devices.change_device", "devices.shut_out")
        assert is_refused == (endpoint not in HELPERS_MAY or own), (method, path)


def test_what_helpers_may_do_is_there_to_be_done(app: Any) -> None:
    assert HELPERS_MAY <= app.view_functions.keys()


def test_only_what_a_maker_must_do_is_kept_from_helpers(app: Any) -> None:
    makers = app.view_functions.keys() - HELPERS_MAY

    assert {"recipes.put_recipe", "kit.put_kit", "exchange.post_import", "exchange.get_export"} <= makers
    assert {"pairing.make_pairing", "devices.list_devices"} <= makers


def test_a_request_costs_one_indexed_read(app: Any, maker: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    read_row = gate.read_row
    monkeypatch.setattr(gate, "read_row", lambda sql, values: asked.append(sql) or read_row(sql, values))

    maker.get("/api/v1/clock")
    maker.get("/api/v1/clock")

    assert asked == [gate.BY_ID] * 2
    assert gate.BY_ID.endswith("WHERE id = :id")  # the primary key


@pytest.mark.database("sqlite", "postgresql")
def test_last_seen_is_written_once_a_minute(app: Any, maker: Any, clock: Clock) -> None:
    def seen_at() -> int:
        return maker.get("/api/v1/devices").json["devices"][0]["seen_at"]

    began = seen_at()
    clock.ms += SEEN_EVERY_MS - 1
    assert seen_at() == began
    clock.ms += 1
    assert seen_at() == clock.ms
    clock.ms -= 10 * DAY_MS  # the server's clock was wrong, and was set right
    assert seen_at() == clock.ms


def test_a_database_that_cannot_write_keeps_nobody_from_reading(
    app: Any, maker: Any, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(**_: Any) -> Any:
        raise OperationalError("UPDATE device", {}, Exception("database or disk is full"))

    monkeypatch.setattr(gate, "writing", full)
    clock.ms += 2 * SEEN_EVERY_MS

    assert maker.get("/api/v1/runs").status_code == 200


def test_a_device_unseen_for_half_a_year_pairs_again(app: Any, maker: Any, clock: Clock) -> None:
    clock.ms += UNSEEN_MS
    assert maker.get("/api/v1/runs").status_code == 200
    clock.ms += UNSEEN_MS + 1
    assert maker.get("/api/v1/runs").status_code == 401


def test_after_a_year_every_device_pairs_again(app: Any, maker: Any, clock: Clock) -> None:
    for _ in range(4):
        clock.ms += KNOWN_MS // 4
        assert maker.get("/api/v1/runs").status_code == 200
    clock.ms += SEEN_EVERY_MS

    assert maker.get("/api/v1/runs").status_code == 401


@pytest.mark.database("sqlite", "postgresql")
def test_an_entry_is_kept_with_the_device_that_sent_it(app: Any, maker: Any, helper: Any) -> None:
    run = Studio(maker).with_run()
    Studio(maker).post(run, make_entry(run, device="phone-a"))
    Studio(helper).post(run, make_entry(run, device="tablet-b"))

    with app.app_context(), reading() as connection:
        senders = list(connection.scalars(select(Entry.sender).order_by(Entry.seq)))
    assert senders == [maker.device["id"], helper.device["id"]]


def names_in_record(client: Any, run: str) -> dict[str, str | None]:
    people = Studio(client).get(f"/runs/{run}/record").json["people"]
    return {each["device"]: each["name"] for each in people}


@pytest.mark.database("sqlite", "postgresql")
def test_the_record_says_who(app: Any, maker: Any, helper: Any) -> None:
    run = Studio(maker).with_run()
    for client, device in ((maker, "phone-a"), (helper, "tablet-b")):
        Studio(client).post(run, make_entry(run, device=device))
    answer = helper.patch(f"/api/v1/devices/{helper.device['id']}", json={"bench": "phone-a"})

    assert answer.status_code == 409
    assert names_in_record(helper, run) == {
        "phone-a": "Phone by the bowl",
        "tablet-b": "Tablet at the press",
    }


@pytest.mark.database("sqlite", "postgresql")
def test_who_takes_up_a_bench_did_not_do_what_was_done_there_before_there_was_pairing(
    app: Any, maker: Any, helper: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    run = Studio(maker).with_run()
    monkeypatch.setattr("api.entries.sender", lambda: None)
    Studio(maker).post(run, make_entry(run, device="tablet-b"), make_entry(run, device="unknown"))
    helper.patch(f"/api/v1/devices/{helper.device['id']}", json={"bench": "tablet-b"})

    assert names_in_record(maker, run) == {"tablet-b": None, "unknown": None}


@pytest.mark.database("sqlite", "postgresql")
def test_no_code_and_no_cookie_is_in_a_log_an_error_or_an_export(
    app: Any, clock: Clock, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    caplog.set_level(logging.DEBUG)
    code, client = code_for(app), app.test_client()
    said = [pair(client, "WRONG000").text, pair(client, code).text]
    secret = cookie_of(client).partition(".")[2]
    spent = app.test_client()
    spent.set_cookie(COOKIE, cookie_of(client)[:-1])
    said += [spent.get("/api/v1/runs").text, spent.get("/").text]
    said += [
        client.get(path).text for path in ("/api/v1/export", "/api/v1/devices", "/api/v1/studio", "/nope")
    ]
    with monkeypatch.context() as fault:
        fault.setattr("api.clock.now_ms", lambda: 1 // 0)
        said.append(client.get("/api/v1/clock").text)
    said.append(caplog.text)
    assert "Paired device" in caplog.text and "a wrong code" in caplog.text

    for secret_thing in (code, secret, gate.digest(secret), gate.digest(code), secret[:-1]):
        assert [text for text in said if secret_thing in text] == []


def test_refusals_are_logged_by_who_and_what(app: Any, helper: Any, caplog: pytest.LogCaptureFixture) -> None:
    helper.put("/api/v1/kit", json={})

    assert f"PUT /api/v1/kit: refused to helper {helper.device['id']}" in caplog.text


@pytest.mark.parametrize(("proxies", "believed"), [(0, False), (1, True)])
def test_what_a_proxy_says_is_believed_for_as_many_as_there_are(
    new_app: Callable[..., Any], proxies: int, believed: bool
) -> None:
    client = new_app(pairing=True, proxies=proxies, hosts=("studio.example",)).test_client()
    said = {"X-Forwarded-Host": "evil.example, studio.example", "X-Forwarded-For": "203.0.113.9"}

    # With no proxy the header is anyone's word: the Host that came is the one that counts.
    assert client.get("/pair", headers=said).status_code == 200
    wrong = client.get("/pair", headers={**said, "X-Forwarded-Host": "evil.example"})
    assert wrong.status_code == (421 if believed else 200)


def test_a_fault_in_the_gate_lets_nobody_in(app: Any, maker: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def fault(*_: Any) -> Any:
        raise RuntimeError("a fault of ours")

    monkeypatch.setattr(gate, "read_row", fault)

    assert maker.get("/api/v1/runs").status_code == 500
    assert maker.get("/app.js").status_code == 500


def test_every_answer_keeps_its_headers(app: Any, maker: Any, client: Any) -> None:
    for asking, path in itertools.product(
        (maker, client), ("/", "/app.js", "/api/v1/clock", "/pair", "/nope")
    ):
        headers = asking.get(path).headers
        assert headers.getlist("X-Content-Type-Options") == ["nosniff"], path
        [policy] = headers.getlist("Content-Security-Policy")
        assert "default-src 'none'" in policy and "frame-ancestors 'none'" in policy, path
    for path in ("/", "/pair"):
        headers = maker.get(path).headers
        assert headers["Permissions-Policy"] == "camera=(self), geolocation=(), microphone=()"
        assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    line = maker.get("/api/v1/live", buffered=False)
    assert (
        line.headers["Content-Security-Policy"]
        == maker.get("/api/v1/clock").headers["Content-Security-Policy"]
    )
    line.close()


def test_no_upload_names_a_file(app: Any, maker: Any, tmp_path: Path) -> None:
    """Whatever an import, a recipe or a kit calls itself, no file comes of it."""
    beside = sorted(path.name for path in tmp_path.iterdir())
    name = "../../" + "x" * 20 + ".py"
    recipe = {**make_recipe(title=name), "file": name, "path": name}
    for body in (make_recipe(title=name), recipe):
        maker.post("/api/v1/import", json=body)
        maker.put(f"/api/v1/recipes/{uuid4()}", json=body)

    here = {path.name.removesuffix("-wal").removesuffix("-shm") for path in tmp_path.iterdir()}
    assert here == {name.removesuffix("-wal").removesuffix("-shm") for name in beside}
