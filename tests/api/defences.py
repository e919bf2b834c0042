"""What holds each row of the guide's table of what was hardened, and how to do without it.

As a plugin of pytest, this runs the test that a row names with that row's defence taken out: before the test's
own fixtures, so that an application is made without it too. Such a test must fail, and by what it asserts;
tests/api/test_asvs.py sees to that:

    pytest -p tests.api.defences tests/api/test_gate.py        writes what failed to $DEFENCES_TOLD
"""

from __future__ import annotations

import json
import os
import random
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import IO, Any

import flask
import pytest
from hypothesis import Phase, settings
from marshmallow import EXCLUDE, Schema
from sqlalchemy.exc import IntegrityError
from werkzeug.middleware.proxy_fix import ProxyFix

import api.door
from api import store
from api.door import devices, doorstep, gate, hosts, limits, pairing
from api.door.authority import Certificate
from api.errors import Problem
from api.settings import Settings

Patch = pytest.MonkeyPatch
TOLD = "DEFENCES_TOLD"


@dataclass(frozen=True)
class Defence:
    """The test that shows it, how it is taken out, and, of several cases of the test, a part of the name of one.

    raises: how the test may end then; else by an assertion.
    """

    test: str
    take_out: Callable[[Patch], None]
    case: str = ""
    raises: tuple[type[BaseException], ...] = (AssertionError, pytest.fail.Exception)


def instead(name: str, value: Any) -> Callable[[Patch], None]:
    """Something else under this name."""
    return lambda patch: patch.setattr(name, value)


def nothing(*_: Any, **__: Any) -> None:
    pass


def less(name: str, headers: str = "api.security.DOCUMENTS") -> Callable[[Patch], None]:
    """The headers of documents, less one."""

    def take_out(patch: Patch) -> None:
        from api.security import DOCUMENTS

        patch.setattr(headers, tuple(each for each in DOCUMENTS if each[0] != name))

    return take_out


def cookie_without(attribute: str) -> Callable[[Patch], None]:
    def take_out(patch: Patch) -> None:
        give = flask.Response.set_cookie
        patch.setattr(
            flask.Response,
            "set_cookie",
            lambda self, *name, **how: give(self, *name, **{**how, attribute: None}),
        )

    return take_out


def text_into_sql(patch: Patch) -> None:
    read = gate.read_row
    patch.setattr(gate, "read_row", lambda sql, values: read(sql.replace(":id", f"'{values['id']}'"), {}))


def anything_is_a_body(patch: Patch) -> None:
    patch.setattr(Schema, "_do_load", lambda _self, data, **_: data)


def unknown_fields_pass(patch: Patch) -> None:
    load = Schema._do_load
    patch.setattr(
        Schema, "_do_load", lambda self, data, **how: load(self, data, **{**how, "unknown": EXCLUDE})
    )


def all_codes_at_once(patch: Patch) -> None:
    """Everyone reads which codes are open, and only then does anyone use one up."""
    from api.tables import db

    @contextmanager
    def not_alone(**_: Any) -> Iterator[Any]:
        with db.engine.connect() as connection:
            yield connection

    everyone, fitting = threading.Barrier(4), pairing._fitting

    def together(*asked: Any) -> Any:
        found = fitting(*asked)
        everyone.wait(10)
        return found

    patch.setattr("api.store._begin_sqlite", nothing)
    patch.setattr(pairing, "writing", not_alone)
    patch.setattr(pairing, "_fitting", together)


def proxies_are_believed(patch: Patch) -> None:
    hang = api.door.init_app

    def with_a_proxy(app: flask.Flask) -> None:
        hang(app)
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_host=1)  # type: ignore[method-assign]

    patch.setattr(api.door, "init_app", with_a_proxy)


def no_limit_to_bodies(patch: Patch) -> None:
    made = Settings.as_flask_config
    patch.setattr(
        Settings,
        "as_flask_config",
        lambda self: {key: value for key, value in made(self).items() if key != "MAX_CONTENT_LENGTH"},
    )


def uploads_are_files(patch: Patch) -> None:
    def keep_as_file(file: IO[bytes]) -> Any:
        document = json.load(file)
        folder = flask.current_app.config["BOWLSIDE"].database.parent
        (folder / str(document["title"]).rpartition("/")[2]).write_text("")
        raise Problem(422, "Kept as a file.")

    patch.setattr("api.exchange.import_file", keep_as_file)


def used_codes_are_open(patch: Patch) -> None:
    from api.tables import Pairing

    patch.setattr(pairing, "_is_open", lambda at: (Pairing.tries_left > 0) & (Pairing.expires_at > at))


def sessions_are_held(patch: Patch) -> None:
    """A device is read once for each cookie, and never again."""
    known, held = gate.known_device, {}

    def once() -> Any:
        cookie = flask.request.cookies.get(gate.COOKIE)
        if cookie not in held or held[cookie] is None:
            held[cookie] = known()
        return held[cookie]

    patch.setattr(gate, "known_device", once)


def shutting_out_is_not_kept(patch: Patch) -> None:
    patch.setattr(devices, "shut", lambda _connection, device, at: device._replace(shut_out_at=at))


def any_tls(patch: Patch) -> None:
    """As old as the library itself goes."""
    patch.setattr(Certificate, "context", lambda _self: SimpleNamespace(minimum_version=-2))


def faults_are_told(patch: Patch) -> None:
    patch.setattr("api.errors.from_fault", lambda error: Problem(500, str(error)).response())


def folders_are_listed(patch: Patch) -> None:
    from api.places import FRONTEND

    def serve(path: str) -> flask.Response:
        return flask.Response("\n".join(each.name for each in (FRONTEND / path).iterdir()))

    patch.setattr("api.page.serve", serve)


def trace_passes(patch: Patch) -> None:
    let_in = gate.let_in
    patch.setattr(gate, "let_in", lambda: None if flask.request.method == "TRACE" else let_in())


def faults_let_in(patch: Patch) -> None:
    let_in = gate.let_in

    def leniently() -> Any:
        try:
            return let_in()
        except Problem:
            raise
        except Exception:
            return None

    patch.setattr(gate, "let_in", leniently)


def codes_are_logged(patch: Patch) -> None:
    use = pairing.use_code

    def loudly(connection: Any, typed: str, at: int) -> Any:
        flask.current_app.logger.warning("The code %s was typed", typed)
        return use(connection, typed, at)

    patch.setattr(pairing, "use_code", loudly)


class Silent:
    """The application, but nothing is logged."""

    logger = SimpleNamespace(warning=nothing, error=nothing, info=nothing)

    def __getattr__(self, name: str) -> Any:
        return getattr(flask.current_app, name)


def refusals_are_not_logged(patch: Patch) -> None:
    def refuse(_device: Any) -> None:
        raise Problem(403, gate.WORDS[gate.MAKER_ONLY], type=gate.MAKER_ONLY)

    patch.setattr(gate, "refuse_helper", refuse)


def log_is_as_it_comes(patch: Patch) -> None:
    for module in ("api.logs", "api.plain"):
        patch.setattr(f"{module}.escaped", str)


def log_can_be_changed(patch: Patch) -> None:
    prepare = store._prepare_sqlite

    def without_triggers(connection: Any, record: Any) -> None:
        prepare(connection, record)
        asked = "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'audit'"
        for (name,) in connection.execute(asked).fetchall():
            connection.execute(f"DROP TRIGGER {name}")

    patch.setattr(store, "_prepare_sqlite", without_triggers)


def audit_passes_what_it_did_not_ask(patch: Patch) -> None:
    said = SimpleNamespace(
        stdout='{"dependencies": [{"name": "jinja2", "version": "2.4.1", "vulns": []}]}', stderr=""
    )
    patch.setattr("tests.audit.subprocess", SimpleNamespace(run=lambda *_, **__: said))


def copy_it(name: str) -> Callable[[Patch], None]:
    return instead(name, lambda same: same)


class Everything:
    def __contains__(self, _: Any) -> bool:
        return True


def own_role_too(patch: Patch) -> None:
    refuse = devices._refuse_helper
    patch.setattr(devices, "_refuse_helper", lambda device_id, _own: refuse(device_id, True))


UNSIGNED_STYLE = (
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; form-action 'self'"
)
ELSEWHERE = "https://evil.example/"
COOKIE_TEST = "test_the_cookie_is_the_devices_own_and_the_browsers_alone"
FOR_EVER = 10**12

DEFENCES: dict[str, Defence] = {
    "1.2.1": Defence("test_the_page_says_what_is_wrong_and_keeps_the_name", instead("api.door.doorstep.escape", str)),
    "1.2.4": Defence("test_a_cookie_that_was_not_given_lets_nobody_in", text_into_sql),
    "1.4.2": Defence("test_422_what_cannot_be_kept_exactly", instead("api.wire.LARGEST_WHOLE", 10**30), "740992"),
    "1.5.2": Defence("test_415_what_is_not_sent_as_json", lambda patch: patch.setattr(flask.Request, "is_json", True)),
    "2.2.1": Defence(
        "test_the_api_does_what_the_document_says", anything_is_a_body, "PUT /api/v1/hours", (Exception,)
    ),
    "2.2.2": Defence(
        "test_the_api_does_what_the_document_says_to_a_paired_maker", anything_is_a_body, "POST /api/v1/pairings", (Exception,)
    ),
    "2.3.3": Defence("test_507_a_full_disk_keeps_nothing_and_says_so", instead("api.store._begin_sqlite", nothing)),
    "2.3.4": Defence("test_of_two_devices_with_one_code_one_comes_in", all_codes_at_once),
    "2.4.1": Defence("test_a_device_that_has_run_away_waits_and_others_do_not", instead("api.door.limits.count", nothing)),
    "3.2.1": Defence(
        "test_another_sites_page_is_shown_no_data_and_may_link_here", instead("api.door.gate.refuse_strangers", nothing)
    ),
    "3.3.1": Defence(COOKIE_TEST, cookie_without("secure")),
    "3.3.2": Defence(COOKIE_TEST, cookie_without("samesite")),
    "3.3.3": Defence(COOKIE_TEST, instead("api.door.gate.COOKIE", "bowlside")),
    "3.3.4": Defence(COOKIE_TEST, cookie_without("httponly")),
    "3.4.2": Defence(
        "test_no_other_origin_is_let_in", instead("api.wire.HEADERS", (("Access-Control-Allow-Origin", "*"),))
    ),
    "3.4.3": Defence(
        "test_the_pages_policy_allows_its_own_style_and_script_and_no_others",
        lambda patch: patch.setattr(doorstep, "_page", lambda _: (doorstep.PAGE.read_text("utf-8"), UNSIGNED_STYLE)),
    ),
    "3.4.4": Defence("test_no_answer_is_guessed_at", less("X-Content-Type-Options"), "-/]"),
    "3.4.5": Defence("test_the_page_may_run_only_its_own_files", less("Referrer-Policy"), raises=(AssertionError, KeyError)),
    "3.4.6": Defence("test_every_answer_keeps_its_headers", less("Content-Security-Policy"), raises=(AssertionError, ValueError)),
    "3.5.1": Defence("test_only_its_own_page_may_change_things", instead("api.door.gate.refuse_strangers", nothing), "headers6"),
    "3.5.2": Defence(
        "test_another_sites_page_may_not_make_it_change_anything_with_no_pairing",
        instead("api.door.gate.refuse_strangers", nothing),
    ),
    "3.5.3": Defence("test_last_seen_is_written_once_a_minute", instead("api.door.gate.SEEN_EVERY_MS", 0)),
    "3.7.2": Defence(
        "test_the_form_pairs_and_leads_on_to_the_studio",
        instead("api.door.pairing.redirect", lambda _, code: flask.redirect(ELSEWHERE, code)),
    ),
    "4.1.1": Defence(
        "test_every_file_of_the_page_is_served_with_its_type_and_an_etag",
        lambda patch: patch.setitem(api.page.TYPES, ".js", "text/plain"),
    ),
    "4.1.3": Defence("test_what_a_proxy_says_is_believed_for_as_many_as_there_are", proxies_are_believed, "0-False"),
    "5.2.1": Defence("test_413_a_body_of_50_mb_on_every_address_that_takes_one", no_limit_to_bodies),
    "5.3.2": Defence("test_no_upload_names_a_file", uploads_are_files),
    "6.1.1": Defence(
        "test_after_five_wrong_codes_an_address_waits_and_others_do_not",
        instead("api.door.limits.WRONG_CODE", limits.parse("5000 per minute")),
    ),
    "6.3.1": Defence(
        "test_wrong_codes_from_sixty_addresses_keep_no_honest_device_out",
        lambda patch: patch.setattr(pairing, "_hold_off_guesses", nothing),
    ),
    "6.3.2": Defence(
        "test_the_first_code_is_shown_until_there_is_a_maker", instead("api.door.devices.is_there_a_maker", lambda _: True)
    ),
    "6.4.1": Defence("test_a_code_lasts_ten_minutes", instead("api.door.pairing.LASTS_MS", FOR_EVER), "600000-422"),
    "6.5.1": Defence("test_a_code_lets_one_device_in_once", used_codes_are_open),
    "6.5.2": Defence("test_only_hashes_are_kept", copy_it("api.door.gate.digest")),
    "6.5.3": Defence(
        "test_a_code_is_eight_digits_that_nobody_misreads",
        instead("api.door.pairing.secrets", random),
        raises=(AssertionError, IntegrityError),
    ),
    "6.5.4": Defence("test_a_code_is_eight_digits_that_nobody_misreads", instead("api.door.pairing.LENGTH", 7)),
    "6.5.5": Defence("test_a_code_lasts_ten_minutes", instead("api.door.pairing.LASTS_MS", FOR_EVER), "600000-422"),
    "6.6.3": Defence(
        "test_a_wrong_code_says_how_many_tries_are_left_and_the_last_ends_it", instead("api.door.pairing.TRIES", 5000)
    ),
    "7.2.1": Defence("test_a_request_costs_one_indexed_read", sessions_are_held),
    "7.2.3": Defence(COOKIE_TEST, instead("api.door.gate.new_secret", lambda: random.randbytes(8).hex())),
    "7.2.4": Defence(
        "test_pairing_again_is_the_same_device_with_another_secret", instead("api.door.gate.new_secret", lambda: "x" * 43)
    ),
    "7.3.1": Defence("test_a_device_unseen_for_half_a_year_pairs_again", instead("api.door.gate.UNSEEN_MS", FOR_EVER)),
    "7.3.2": Defence("test_after_a_year_every_device_pairs_again", instead("api.door.gate.KNOWN_MS", FOR_EVER)),
    "7.4.1": Defence("test_a_device_may_leave", shutting_out_is_not_kept),
    "7.4.2": Defence("test_shut_out_means_now_in_every_worker_and_the_work_stays", sessions_are_held, raises=(AssertionError, KeyError)),
    "7.4.5": Defence("test_the_terminal_makes_a_code_lists_and_shuts_out", shutting_out_is_not_kept),
    "8.2.1": Defence(
        "test_a_helper_is_refused_all_that_is_not_named_as_a_helpers", instead("api.door.gate.HELPERS_MAY", Everything())
    ),
    "8.2.2": Defence(
        "test_a_helper_names_itself_and_no_other_and_gives_itself_no_role", instead("api.door.devices._refuse_helper", nothing)
    ),
    "8.2.3": Defence("test_no_answer_to_a_helper_says_a_price", instead("api.lots.is_helper", lambda: False)),
    "8.2.4": Defence(
        "test_a_makers_role_is_given_only_by_saying_it_twice", instead("api.door.gate.refuse_unconfirmed", nothing), raises=(Exception,)
    ),
    "8.3.1": Defence(
        "test_a_device_that_is_not_paired_gets_nothing_beyond_the_pairing_page", instead("api.door.gate.let_in", nothing), raises=(Exception,)
    ),
    "11.2.4": Defence(
        "test_secrets_are_compared_in_constant_time",
        instead("api.door.pairing.hmac", SimpleNamespace(compare_digest=str.__eq__)),
    ),
    "11.5.1": Defence(COOKIE_TEST, instead("api.door.gate.new_secret", lambda: random.randbytes(8).hex())),
    "12.1.1": Defence("test_nothing_older_than_tls_1_2_is_spoken", any_tls),
    "13.4.2": Defence("test_500_tells_the_log_everything_and_the_asker_nothing", faults_are_told),
    "13.4.3": Defence("test_nothing_outside_the_page_is_served", folders_are_listed, "icons"),
    "13.4.4": Defence("test_no_method_is_a_way_round", trace_passes),
    "14.2.1": Defence(
        "test_a_maker_makes_codes_for_makers_and_helpers",
        instead("api.door.pairing.address_of", lambda studio, code: f"{studio}pair?code={code.digits}"),
    ),
    "14.3.2": Defence("test_money_and_the_whole_studio_stay_in_no_cache", copy_it("api.costs.unkept")),
    "15.1.1": Defence("test_a_pin_with_a_known_fault_fails_the_audit", audit_passes_what_it_did_not_ask),
    "15.3.1": Defence(
        "test_the_list_names_each_device_and_when_it_was_seen", instead("api.door.devices.shown", lambda device: device._asdict())
    ),
    "15.3.3": Defence("test_nothing_else_of_a_device_can_be_changed", unknown_fields_pass, "shut_out_at"),
    "16.2.5": Defence("test_no_code_and_no_cookie_is_in_a_log_an_error_or_an_export", codes_are_logged),
    "16.3.1": Defence(
        "test_no_code_and_no_cookie_is_in_a_log_an_error_or_an_export", instead("api.door.pairing.current_app", Silent())
    ),
    "16.3.2": Defence("test_refusals_are_logged_by_who_and_what", refusals_are_not_logged),
    "16.4.1": Defence("test_no_path_header_name_or_code_begins_a_line_or_controls_a_terminal", log_is_as_it_comes),
    "16.4.2": Defence("test_the_database_lets_the_log_only_grow", log_can_be_changed),
    "16.5.1": Defence("test_500_tells_the_log_everything_and_the_asker_nothing", faults_are_told),
    "16.5.3": Defence("test_a_fault_in_the_gate_lets_nobody_in", faults_let_in),
    "none": Defence("test_a_strangers_name_that_leads_here_reads_nothing", instead("api.door.hosts.answers_to", lambda _: True)),
}  # fmt: skip

# Why nothing is taken out.
STANDING = {
    "3.4.1": "not held, on purpose",
    "6.3.3": "not held",
    "12.2.1": "the server of that test is a process of its own",
    "14.3.1": "held otherwise",
    "15.3.4": "the server of that test is a process of its own",
}


def rows_of(test: str) -> list[str]:
    return [number for number, defence in DEFENCES.items() if defence.test == test]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if rows := rows_of(metafunc.function.__name__):
        metafunc.fixturenames.insert(0, "row")
        metafunc.parametrize("row", rows, indirect=True)


def row_of(item: Any) -> str | None:
    """The row that an item is run for; tests that are made otherwise than by pytest have one row."""
    if hasattr(item, "callspec") and "row" in item.callspec.params:
        number: str = item.callspec.params["row"]
        return number
    return next(iter(rows_of(getattr(item, "originalname", ""))), None)


@pytest.fixture(autouse=True)
def row(request: pytest.FixtureRequest) -> Iterator[None]:
    """Before what the test asks for: its row's defence is out for as long as it runs."""
    number = row_of(request.node)
    assert number is not None
    with pytest.MonkeyPatch.context() as patch:
        DEFENCES[number].take_out(patch)
        yield
    hosts._own_names.cache_clear()


def pytest_collection_modifyitems(items: list[Any]) -> None:
    """The cases that the table names, on one database, and no search for a shorter way to fail."""
    kept = []
    for item in items:
        number = row_of(item)
        if number is None or "postgresql" in item.name or DEFENCES[number].case not in item.name:
            continue
        kept.append(item)
        function = getattr(item, "function", None)
        if used := getattr(function, "_hypothesis_internal_use_settings", None):
            function._hypothesis_internal_use_settings = settings(used, phases=[Phase.generate])
    items[:] = kept


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: Any, call: pytest.CallInfo[None]) -> Iterator[None]:
    report = yield
    number = row_of(item)
    if number is not None and (call.when == "call" or call.excinfo):
        as_it_must = bool(
            call.excinfo and call.when == "call" and call.excinfo.errisinstance(DEFENCES[number].raises)
        )
        told = {"row": number, "test": item.name, "when": call.when, "fails": as_it_must}
        told["says"] = call.excinfo.exconly()[:300] if call.excinfo else "passed"
        with Path(os.environ[TOLD]).open("a", encoding="utf-8") as out:
            out.write(json.dumps(told) + "\n")
    return report  # type: ignore[return-value]
