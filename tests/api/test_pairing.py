"""A device is let in by a code: once, for ten minutes, after a few tries at most; with a script and without."""

from __future__ import annotations

import random
import re
import threading
from base64 import b64encode
from collections.abc import Callable, Iterator
from hashlib import sha256
from html.parser import HTMLParser
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from sqlalchemy import select
from werkzeug.serving import make_server

from api.door import gate, limits
from api.door.doorstep import PAGE
from api.door.gate import COOKIE
from api.door.pairing import DIGITS, LASTS_MS, TRIES
from api.store import reading
from api.tables import Device, Pairing
from tests.api.doorway import code_for, cookie_of, pair, paired
from tests.make import Clock

pytestmark = pytest.mark.database("sqlite")

SMALL_PHONE = {"width": 320, "height": 568}


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


def test_a_code_is_eight_digits_that_nobody_misreads(app: Any) -> None:
    codes = {code_for(app) for _ in range(20)}

    assert len(codes) == 20
    assert all(re.fullmatch(f"[{DIGITS}]{{8}}", code) for code in codes)
    assert not set("ILOU") & set(DIGITS) and len(DIGITS) ** 8 == 2**40
    again = []
    for _ in range(2):
        random.seed(7)  # which is not what codes are drawn by
        again.append(code_for(app))
    assert again[0] != again[1]


@pytest.mark.database("sqlite", "postgresql")
def test_a_code_lets_one_device_in_once(app: Any) -> None:
    code = code_for(app)

    first, second = pair(app.test_client(), code), pair(app.test_client(), code)

    assert first.status_code == 201
    assert first.json["device"]["role"] == "maker"
    assert second.status_code == 422
    assert second.json["errors"][0]["field"] == "code"


def test_a_code_is_read_as_people_type(app: Any, client: Any) -> None:
    code = code_for(app)
    typed = f" {code[:4].lower().replace('0', 'o').replace('1', 'l')}-{code[4:].replace('1', 'I')}"

    assert pair(client, typed).status_code == 201


@pytest.mark.parametrize(("after", "status"), [(LASTS_MS - 1, 201), (LASTS_MS, 422), (-1, 422)])
def test_a_code_lasts_ten_minutes(app: Any, client: Any, clock: Clock, after: int, status: int) -> None:
    code = code_for(app)
    clock.ms += after

    answer = pair(client, code)

    assert answer.status_code == status
    assert status == 201 or "bowlside pair" in answer.json["detail"]


@pytest.mark.database("sqlite", "postgresql")
def test_a_wrong_code_says_how_many_tries_are_left_and_the_last_ends_it(app: Any, client: Any) -> None:
    code, other = code_for(app), code_for(app)

    said = [pair(client, "WRONG000").json["detail"] for _ in range(TRIES)]

    assert [re.findall(r"\d+|One", each) for each in said[:-1]] == [["4"], ["3"], ["2"], ["One"]]
    app.extensions[limits.RATES].forget()
    assert pair(client, code).status_code == 422
    assert pair(client, other).status_code == 422  # a wrong code could have been meant for either


def pair_from(client: Any, address: str, code: str = "WRONG000") -> Any:
    body = {"code": code, "name": "Phone"}
    return client.post("/api/v1/pair", json=body, environ_base={"REMOTE_ADDR": address})


def test_after_five_wrong_codes_an_address_waits_and_others_do_not(app: Any) -> None:
    client = app.test_client()
    for _ in range(5):
        assert pair_from(client, "192.168.1.7").status_code == 422
    code = code_for(app)

    waits = [pair_from(client, "192.168.1.7") for _ in range(10)]

    assert {each.status_code for each in waits} == {429}
    assert 0 < int(waits[0].headers["Retry-After"]) <= 600
    assert (
        pair_from(client, "192.168.1.8").json["detail"].startswith("That is not the code. 4 tries are left")
    )
    assert pair_from(client, "192.168.1.8", code).status_code == 201


def test_a_right_code_passes_though_its_address_must_wait_with_wrong_ones(app: Any) -> None:
    client = app.test_client()
    for _ in range(20):
        pair_from(client, "192.168.1.7")
    code = code_for(app)

    assert pair_from(client, "192.168.1.7").status_code == 429
    assert pair_from(client, "192.168.1.7", code).status_code == 201
    assert pair_from(client, "192.168.1.7", code).status_code == 429  # used up, so wrong like any other


def test_wrong_codes_from_sixty_addresses_keep_no_honest_device_out(app: Any) -> None:
    """They spend two codes between them; whatever a maker makes next is used in peace."""
    client, let_in = app.test_client(), []
    attackers = [f"192.168.1.{number}" for number in range(1, 61)]
    for first in range(0, 60, TRIES):
        code = code_for(app)
        for attacker in attackers[first : first + TRIES]:
            assert pair_from(client, attacker).status_code == 422
        let_in.append(pair_from(client, f"192.168.2.{first + 1}", code).status_code == 201)

    spent = limits.TRIES_OF_ALL.amount // TRIES
    assert let_in == [False] * spent + [True] * (60 // TRIES - spent)
    before = code_for(app)
    assert [pair_from(client, attackers[-1]).status_code for _ in range(6)] == [422] * 4 + [429] * 2
    assert pair_from(client, "192.168.2.200", before).status_code == 201


def test_the_addresses_of_one_household_wait_together(app: Any) -> None:
    client = app.test_client()
    wrong = [pair_from(client, f"2001:db8:1:2::{number}").status_code for number in range(1, 7)]

    assert wrong == [422] * 5 + [429]
    assert pair_from(client, "2001:db8:1:3::1").status_code == 422


@pytest.mark.database("sqlite", "postgresql")
def test_of_two_devices_with_one_code_one_comes_in(app: Any) -> None:
    code, statuses = code_for(app), []
    ready = threading.Barrier(4)

    def ask() -> None:
        client = app.test_client()
        ready.wait()
        statuses.append(pair(client, code).status_code)

    threads = [threading.Thread(target=ask) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert sorted(statuses) == [201, 422, 422, 422]


def test_the_cookie_is_the_devices_own_and_the_browsers_alone(app: Any, client: Any) -> None:
    answer = pair(client, code_for(app))
    [cookie] = answer.headers.getlist("Set-Cookie")
    value, _, attributes = cookie.partition(";")

    assert value.startswith("__Host-bowlside=")
    assert {"Secure", "HttpOnly", "Path=/", "SameSite=Strict"} <= set(attributes.strip().split("; "))
    assert "Domain" not in attributes and "Max-Age=31536000" in attributes
    device, _, secret = cookie_of(client).partition(".")
    assert device == answer.json["device"]["id"]
    assert len(secret) >= 43  # 256 bits in base64
    assert cookie_of(paired(app)).partition(".")[2] != secret
    assert answer.headers["Cache-Control"] == "no-store"
    assert secret not in answer.text


@pytest.mark.database("sqlite", "postgresql")
def test_only_hashes_are_kept(app: Any, client: Any) -> None:
    code = code_for(app)
    pair(client, code)
    secret = cookie_of(client).partition(".")[2]

    with app.app_context(), reading() as connection:
        kept = [*connection.execute(select(Device.__table__)), *connection.execute(select(Pairing.__table__))]
    values = {value for row in kept for value in row}
    assert not values & {code, secret}
    assert {gate.digest(code), sha256(secret.encode()).hexdigest()} <= values


def test_secrets_are_compared_in_constant_time(
    app: Any, client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    compared: list[tuple[str, str]] = []
    monkeypatch.setattr(
        "hmac.compare_digest", lambda one, other: compared.append((one, other)) or one == other
    )
    codes = [code_for(app) for _ in range(3)]

    pair(client, codes[0])
    assert {gate.digest(code) for code in codes} == {one for one, _ in compared}
    compared.clear()
    assert client.get("/api/v1/clock").status_code == 200
    assert len(compared) == 1


@pytest.mark.database("sqlite", "postgresql")
def test_pairing_again_is_the_same_device_with_another_secret(app: Any) -> None:
    client = paired(app)
    old = cookie_of(client)

    again = pair(client, code_for(app, "helper"), "Phone, renamed")

    assert again.json["device"]["id"] == client.device["id"]
    assert (again.json["device"]["name"], again.json["device"]["role"]) == ("Phone, renamed", "maker")
    stolen = app.test_client()
    stolen.set_cookie(COOKIE, old)
    assert stolen.get("/api/v1/runs").status_code == 401
    assert client.get("/api/v1/runs").status_code == 200


def test_a_maker_makes_codes_for_makers_and_helpers(app: Any) -> None:
    maker = paired(app)

    made = maker.post("/api/v1/pairings", json={"role": "helper"})

    assert made.status_code == 201
    assert made.headers["Cache-Control"] == "no-store"
    assert made.json["address"] == f"http://localhost/pair#{made.json['code']}"
    assert made.json["qr"].startswith("<svg")
    assert pair(app.test_client(), made.json["code"]).json["device"]["role"] == "helper"


def test_the_address_in_the_qr_code_is_one_that_a_phone_reaches(new_app: Callable[..., Any]) -> None:
    """At the studio's own computer the page may stand at 127.0.0.1, which a phone would look for in itself."""
    maker = paired(new_app(pairing=True, lan=True, hosts=("studio.example",)))

    for host in ("127.0.0.1", "localhost", "studio.example"):
        maker.set_cookie(COOKIE, cookie_of(maker), domain=host)
        made = maker.post(
            "/api/v1/pairings",
            json={"role": "maker", "confirm": "maker"},
            base_url=f"https://{host}:8420",
        )
        assert made.json["address"].startswith("https://studio.example:8420/pair#"), host


def test_with_no_pairing_there_are_no_codes(new_app: Callable[..., Any]) -> None:
    client = new_app().test_client()

    for answer in (pair(client, "ABCDEFGH"), client.post("/api/v1/pairings", json={"role": "helper"})):
        assert answer.status_code == 409
        assert "--lan" in answer.json["detail"]
    assert client.get("/pair").headers["Location"] == "/"


@pytest.mark.parametrize("name", ["", " ", "x" * 61, "two\nlines", "\x1b[31mred", "\x00", "\u2028"])
def test_a_name_is_one_line_of_plain_letters(app: Any, client: Any, name: str) -> None:
    code = code_for(app)

    assert pair(client, code, name).status_code == 422
    form = client.post("/pair", data={"code": code, "name": name})
    assert (form.status_code, form.mimetype) == (422, "text/html")
    assert pair(client, code).status_code == 201  # nothing of that used the code up


# The page, by hand and with no script


def test_the_form_pairs_and_leads_on_to_the_studio(app: Any, client: Any) -> None:
    answer = client.post("/pair", data={"code": code_for(app), "name": "Phone"})

    assert (answer.status_code, answer.headers["Location"]) == (303, "/")
    assert 'id="page"' in client.get("/").text


def test_the_page_says_what_is_wrong_and_keeps_the_name(app: Any, client: Any) -> None:
    wrong = client.post("/pair", data={"code": "WRONG000", "name": 'The "good" <b>phone</b>'})

    assert wrong.status_code == 422
    assert "No code is open" in wrong.text and "bowlside pair" in wrong.text
    assert 'value="The &#34;good&#34; &lt;b&gt;phone&lt;/b&gt;"' in wrong.text
    assert "<b>" not in wrong.text
    for _ in range(5):
        locked_out = client.post("/pair", data={"code": "WRONG000", "name": "x"})
    assert locked_out.status_code == 429
    assert locked_out.headers["Retry-After"] and "Try again in" in locked_out.text


def test_the_pages_policy_allows_its_own_style_and_script_and_no_others(app: Any, client: Any) -> None:
    answer = client.get("/pair")
    policy = dict(part.split(" ", 1) for part in answer.headers["Content-Security-Policy"].split("; "))

    for tag in ("style", "script"):
        [inline] = re.findall(f"<{tag}>(.*?)</{tag}>", answer.text, re.DOTALL)
        assert policy[f"{tag}-src"] == f"'sha256-{b64encode(sha256(inline.encode()).digest()).decode()}'"
    assert policy["default-src"] == "'none'" and policy["form-action"] == "'self'"
    assert answer.headers["Cache-Control"] == "no-store"
    assert "{{" not in answer.text


def test_every_field_of_the_page_has_a_label() -> None:
    fields, labels = [], []

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            if tag == "input":
                fields.append(dict(attrs)["id"])
            elif tag == "label":
                labels.append(dict(attrs)["for"])

    Reader().feed(PAGE.read_text("utf-8"))

    assert fields == labels == ["code", "name"]


@pytest.fixture
def address(app: Any) -> Iterator[str]:
    """The studio on http at this machine, which browsers trust as they do TLS."""
    server = make_server("localhost", 0, app, threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://localhost:{server.server_port}"
    server.shutdown()


@pytest.mark.browser
@pytest.mark.parametrize("with_script", [True, False])
def test_a_thumb_pairs_a_small_phone(
    app: Any, address: str, browser: Any, clock: Clock, with_script: bool
) -> None:
    code = code_for(app)
    context = browser.new_context(viewport=SMALL_PHONE, java_script_enabled=with_script, has_touch=True)
    page = context.new_page()
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: faults.append(str(error)))

    page.goto(f"{address}/pair#{code}")
    if with_script:
        assert page.input_value("#code") == code
        assert page.evaluate("document.activeElement.id") == "name"
        assert code not in page.url
    else:
        page.get_by_label("Code", exact=True).fill(code.lower())
    for target in page.locator("input, button, a").all():
        box = target.bounding_box()
        assert box["height"] >= 44 and box["x"] >= 0 and box["x"] + box["width"] <= SMALL_PHONE["width"]
    assert faults == []
    if with_script:
        report = Axe().run(page)
        assert report.violations_count == 0, report.generate_report()
    page.get_by_label("Name of this device").fill("Phone by the bowl")
    page.get_by_role("button", name="Pair").tap()

    page.wait_for_url(f"{address}/")
    [cookie] = context.cookies()
    assert cookie["name"] == COOKIE and cookie["httpOnly"] and cookie["secure"]
    assert cookie["sameSite"] == "Strict"
    context.close()


@pytest.mark.browser
def test_a_paired_phone_that_follows_a_link_from_elsewhere_still_comes_in(
    app: Any, address: str, browser: Any
) -> None:
    """From another site's link a browser keeps a strict cookie back, so the pairing page is what it gets first."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{address}/pair#{code_for(app)}")
    page.get_by_label("Name of this device").fill("Phone")
    page.get_by_role("button", name="Pair").click()
    page.wait_for_url(f"{address}/")
    page.route(
        "http://elsewhere.test/",
        lambda route: route.fulfill(body=f'<a href="{address}/app.js">x</a>', content_type="text/html"),
    )
    page.goto("http://elsewhere.test/")
    page.get_by_role("link").click()

    expect(page.locator("body")).to_contain_text("import")
    context.close()
