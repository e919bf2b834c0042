"""Devices are listed, named, given a role and shut out: over the API, and from the terminal."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from api import create_app
from api.cli import main
from api.settings import Settings
from tests.api.doorway import code_for, cookie_of, pair, paired
from tests.api.studio import Studio
from tests.make import Clock, make_entry, uuid4

pytestmark = pytest.mark.database("sqlite")


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


@pytest.fixture
def maker(app: Any) -> Any:
    return paired(app)


@pytest.fixture
def helper(app: Any) -> Any:
    return paired(app, "helper", "Tablet at the press")


def change(client: Any, device: Any, **what: Any) -> Any:
    return client.patch(f"/api/v1/devices/{device['id']}", json=what)


def shut_out(client: Any, device: Any) -> Any:
    return client.delete(f"/api/v1/devices/{device['id']}")


@pytest.mark.database("sqlite", "postgresql")
def test_the_list_names_each_device_and_when_it_was_seen(app: Any, maker: Any, clock: Clock) -> None:
    clock.ms += 1000
    helper = paired(app, "helper", "Tablet at the press", bench="tablet-b")

    listed = maker.get("/api/v1/devices").json

    assert listed["devices"] == [helper.device, maker.device]
    assert listed["total"] == 2
    assert helper.device == {
        "id": helper.device["id"],
        "name": "Tablet at the press",
        "role": "helper",
        "bench": "tablet-b",
        "paired_at": clock.ms,
        "seen_at": clock.ms,
        "shut_out_at": None,
    }


@pytest.mark.database("sqlite", "postgresql")
def test_a_device_is_renamed_and_given_another_role_at_once(maker: Any, helper: Any) -> None:
    answer = change(maker, helper.device, name="Desk", role="maker", confirm="maker")

    assert answer.json == {**helper.device, "name": "Desk", "role": "maker"}
    assert helper.get("/api/v1/devices").status_code == 200
    change(maker, helper.device, role="helper", confirm="helper")
    assert helper.get("/api/v1/devices").status_code == 403


def test_a_helper_names_itself_and_no_other_and_gives_itself_no_role(maker: Any, helper: Any) -> None:
    assert change(helper, helper.device, name="Tablet", bench="tablet-b").json["name"] == "Tablet"
    assert change(helper, maker.device, name="Mine").status_code == 403
    assert change(helper, helper.device, role="maker").status_code == 403
    assert shut_out(helper, maker.device).status_code == 403
    assert shut_out(helper, {"id": uuid4()}).status_code == 403  # nor learns which ids there are


@pytest.mark.parametrize("field", ["id", "secret_sha256", "paired_at", "shut_out_at"])
def test_nothing_else_of_a_device_can_be_changed(maker: Any, field: str) -> None:
    assert change(maker, maker.device, **{field: "x"}).status_code == 422


@pytest.mark.database("sqlite", "postgresql")
def test_shut_out_means_now_in_every_worker_and_the_work_stays(app: Any, maker: Any, helper: Any) -> None:
    """A second application over the same database is what another worker process is."""
    settings = app.config["BOWLSIDE"]
    worker = create_app(settings).test_client()
    worker.set_cookie("__Host-bowlside", cookie_of(helper))
    run = Studio(maker).with_run()
    Studio(helper).post(run, make_entry(run))
    assert worker.get("/api/v1/runs").status_code == 200

    answer = shut_out(maker, helper.device)

    assert answer.json["shut_out_at"] is not None
    for client in (helper, worker):
        refused = Studio(client).post(run, make_entry(run))
        assert (refused.status_code, refused.json["type"]) == (403, "/problems/shut-out")
        page = client.get("/")
        assert page.status_code == 403 and "was shut out" in page.text and 'action="/pair"' in page.text
    assert len(Studio(maker).get(f"/runs/{run}/entries").json["entries"]) == 1
    assert [each["shut_out_at"] for each in maker.get("/api/v1/devices").json["devices"]].count(None) == 1


def test_shutting_out_twice_is_once(maker: Any, helper: Any, clock: Clock) -> None:
    first = shut_out(maker, helper.device).json
    clock.ms += 1000

    assert shut_out(maker, helper.device).json == first


@pytest.mark.database("sqlite", "postgresql")
def test_a_device_that_was_shut_out_comes_back_as_another_with_a_new_code(
    app: Any, maker: Any, helper: Any
) -> None:
    shut_out(maker, helper.device)

    again = pair(helper, code_for(app, "helper"))

    assert again.status_code == 201
    assert again.json["device"]["id"] != helper.device["id"]
    assert helper.get("/api/v1/runs").status_code == 200


def test_a_device_may_leave(helper: Any) -> None:
    assert shut_out(helper, helper.device).status_code == 200
    assert helper.get("/api/v1/runs").status_code == 403


@pytest.mark.database("sqlite", "postgresql")
def test_the_only_maker_stays_one(app: Any, maker: Any, helper: Any) -> None:
    for answer in (
        shut_out(maker, maker.device),
        change(maker, maker.device, role="helper", confirm="helper"),
    ):
        assert answer.status_code == 409
        assert "bowlside shut-out" in answer.json["detail"]
    other = paired(app)
    assert shut_out(maker, maker.device).status_code == 200
    assert other.get("/api/v1/devices").status_code == 200


def test_there_is_no_such_device(maker: Any) -> None:
    assert shut_out(maker, {"id": uuid4()}).status_code == 404
    assert change(maker, {"id": uuid4()}, name="x").status_code == 404


@pytest.mark.parametrize(
    ("settings", "mode"),
    [({}, "local"), ({"pairing": True, "lan": True}, "lan"), ({"pairing": True, "proxies": 1}, "proxy")],
)
def test_the_studio_says_how_it_is_opened_and_who_asks(
    new_app: Callable[..., Any], settings: dict[str, Any], mode: str
) -> None:
    app = new_app(**settings)
    client = paired(app) if mode != "local" else app.test_client()

    studio = client.get("/api/v1/studio").json

    assert studio["mode"] == mode
    assert studio["you"] == (
        {key: client.device[key] for key in ("id", "name", "role")} if mode != "local" else None
    )
    assert studio["last_copy_at"] is None and studio["certificate_ends_at"] is None


def test_the_studio_tells_a_page_whose_entries_are_whose(maker: Any, helper: Any) -> None:
    """Also after a device was shut out: its entries stay, and so does who made them."""
    change(helper, helper.device, bench="tablet-7")
    shut_out(maker, helper.device)

    assert maker.get("/api/v1/studio").json["benches"] == {"tablet-7": helper.device["name"]}


# From the terminal


@pytest.fixture
def terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Any]:
    monkeypatch.setenv("BOWLSIDE_DATABASE", str(tmp_path / "studio.sqlite3"))
    monkeypatch.setenv("BOWLSIDE_HOSTS", "studio.example")
    return lambda *arguments: CliRunner().invoke(main, list(arguments))


@pytest.fixture
def served(tmp_path: Path, terminal: Any) -> Any:
    """The studio that the terminal's commands are for, as its server has it."""
    assert terminal("devices").exit_code == 0  # makes the tables
    return create_app(Settings(database=tmp_path / "studio.sqlite3", pairing=True))


def test_the_terminal_makes_a_code_lists_and_shuts_out(terminal: Any, served: Any) -> None:
    said = terminal("pair", "--helper").stdout
    assert "https://studio.example:8420/pair" in said
    code = said.split("code ")[1].split()[0]
    client = served.test_client()
    assert pair(client, code, "Tablet").json["device"]["role"] == "helper"

    listed = terminal("devices").stdout
    assert "helper" in listed and "Tablet" in listed and "seen" in listed
    out = terminal("shut-out", "Tablet")

    assert (out.exit_code, out.stdout) == (0, "Tablet is shut out.\n")
    assert client.get("/api/v1/runs").status_code == 403
    assert "shut out" in terminal("devices").stdout


def test_the_terminal_can_shut_out_the_only_maker_and_let_another_in(terminal: Any, served: Any) -> None:
    lost = paired(served)

    assert terminal("shut-out", lost.device["id"]).exit_code == 0
    code = terminal("pair").stdout.split("code ")[1].split()[0]

    assert pair(served.test_client(), code).json["device"]["role"] == "maker"


def test_the_terminal_says_which_device_it_cannot_tell(terminal: Any, served: Any) -> None:
    assert terminal("shut-out", "Phone").exit_code == 1
    one, other = paired(served, name="Phone"), paired(served, name="Phone")

    refused = terminal("shut-out", "Phone")

    assert refused.exit_code == 1
    assert one.device["id"] in refused.stderr and other.device["id"] in refused.stderr
    terminal("shut-out", one.device["id"])
    assert terminal("shut-out", one.device["id"]).exit_code == 1


def test_the_first_code_is_shown_until_there_is_a_maker(
    served: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    from api.cli.door import show_first_code

    show_first_code(served, "https://studio.example:8420/")
    assert "https://studio.example:8420/pair, code " in capsys.readouterr().out
    paired(served)
    show_first_code(served, "https://studio.example:8420/")

    assert capsys.readouterr().out == ""
