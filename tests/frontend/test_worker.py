"""The service worker keeps one whole copy of the page: all of it, of one version, and nothing else.

The files are served from a folder of the test's own, with the real worker in it, so that a file
can be changed, be missing or fail.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from api.join import name_of
from api.language import best_of
from api.page import Sent, files_as_they_are, page_file, pieces_of
from api.pieces import APP, REST, WORKER, Pieces
from api.places import FRONTEND
from bench import words
from tests.frontend.phones import OPEN
from tests.servers import as_sent

ROOT = Path(__file__).resolve().parents[2]

pytestmark = pytest.mark.browser

BLANK = "/keep/ids.js"  # one of our files opened as text: a page of the origin on which nothing runs

REGISTER = """async () => {
    const registration = await navigator.serviceWorker.register("/sw.js");
    const worker = registration.installing ?? registration.waiting ?? registration.active;
    while (!["activated", "redundant"].includes(worker.state)) {
        await new Promise((changed) => worker.addEventListener("statechange", changed, { once: true }));
    }
    return worker.state;
}"""
CACHES = "async () => (await caches.keys()).sort()"
CACHED = """async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith("bowlside-page-"));
    const requests = await (await caches.open(names[0])).keys();
    return requests.map(({ url }) => new URL(url).pathname).sort();
}"""
KEPT = """async (path) => {
    const answer = await caches.match(path);
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await answer.arrayBuffer()));
    const hex = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
    return { type: answer.headers.get("Content-Type"), sha256: hex };
}"""
EXPORTS = """async ([pieces, modules]) => {
    const there = Object.assign({}, ...(await Promise.all(pieces.map((piece) => import(`/${piece}`)))));
    const kind = (module) => Object.keys(module).sort().map((name) => `${name} ${typeof module[name]}`);
    const differ = [];
    for (const [path, name] of modules) {
        const [one, joined] = [kind(await import(`/${path}`)), kind(there[name])];
        if (String(one) !== String(joined)) differ.push([path, one, joined]);
    }
    return differ;
}"""
FOR_THE_DESK = as_sent("""async () => {
    const { $connected } = await import("/rest.js");
    return $connected.labelSheets().then((made) => Object.keys(made).sort().join(), (error) => error.says);
}""")
NO_WORKER = "delete Navigator.prototype.serviceWorker"
TEXT_OF = "async (path) => (await fetch(path)).text()"


class Site:
    """A folder with a copy of the page, served as the studio does; `failing` answers 500, `asked` is what was asked for."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.failing: set[str] = set()
        self.kept: dict[str, Sent | None] = {}
        self.asked: list[str] = []
        shutil.copytree(FRONTEND, folder)
        site = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                site.asked.append(self.path)
                path = self.path.partition("?")[0]
                asked = path.removeprefix("/") or "index.html"
                with words.speaking(best_of(self.headers.get("Accept-Language", ""))):
                    found = (
                        None
                        if path in site.failing
                        else site.kept.get(asked) or page_file(site.folder, asked)
                    )
                if not found:
                    self.send_error(500 if path in site.failing else 404)
                    return
                content = found.encoded("identity")
                self.send_response(200)
                for name, value in (("Content-Type", found.type), ("ETag", f'"{found.tag}-br"')):
                    self.send_header(name, value)
                self.send_header("Cache-Control", "no-cache")
                self.send_header("Content-Length", str(len(content)))
                self.end_headers()
                with suppress(BrokenPipeError):  # a worker that gives up does not wait for the rest
                    self.wfile.write(content)

            def log_message(self, *args: Any) -> None:
                pass

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.url = f"http://127.0.0.1:{self.server.server_port}"
        Thread(target=self.server.serve_forever, daemon=True).start()

    def begin_anew(self) -> None:
        """Every file as it is in the page, and one more that says `first`."""
        self.failing.clear()
        self.kept.clear()
        self.asked.clear()
        for each in sorted(self.folder.rglob("*"), reverse=True):
            original = FRONTEND / each.relative_to(self.folder)
            if not original.exists():
                each.rmdir() if each.is_dir() else each.unlink()
            elif each.is_file() and each.stat().st_mtime_ns != original.stat().st_mtime_ns:
                shutil.copy2(original, each)
        (self.folder / "version.txt").write_text("first", "utf-8")
        os.utime(self.folder / "version.txt", (1, 1))  # the same as in the test before
        page_file(self.folder, WORKER)

    def publish(self, path: str, text: str) -> None:
        """Change a file, as a release does. All that is sent then is worked out before a page waits for it."""
        (self.folder / path).write_text(text, "utf-8")
        page_file(self.folder, WORKER)

    def keep_worker(self) -> None:
        """The worker is sent as it is now, whatever is changed from here on: a release half read."""
        self.kept[WORKER] = page_file(self.folder, WORKER)

    def pieces(self) -> Pieces:
        return pieces_of(self.folder, files_as_they_are(self.folder))


@pytest.fixture(scope="module")
def one_site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(tmp_path_factory.mktemp("site") / "page")
    yield site
    site.server.shutdown()
    site.server.server_close()


@pytest.fixture
def site(one_site: Site) -> Site:
    """The site as it is first published. What it sends of files that stay is worked out once."""
    one_site.begin_anew()
    return one_site


def test_the_whole_page_is_kept_and_nothing_else_and_opens_with_no_network(
    site: Site, page: Page, context: BrowserContext
) -> None:
    """Of the copies that were there before, our own are dropped. What is for the desk is not kept, and says so."""
    page.goto(site.url + BLANK)
    page.evaluate(
        "async () => { await caches.open('someone-else'); await caches.open('bowlside-page-old'); }"
    )
    site.asked.clear()

    assert page.evaluate(REGISTER) == "activated"
    pieces = {
        f"/{name}".replace("/index.html", "/"): page_file(site.folder, name) for name in site.pieces().names
    }
    assert sorted(site.asked) == sorted(["/sw.js", *pieces])
    names = page.evaluate(CACHES)
    assert "someone-else" in names
    assert len(names) == 2 and "bowlside-page-old" not in names
    assert page.evaluate(CACHED) == sorted(pieces)
    for path, sent in pieces.items():
        assert sent and page.evaluate(KEPT, path) == {"type": sent.type, "sha256": sent.tag}

    page.reload()
    context.set_offline(True)
    assert page.evaluate(FOR_THE_DESK) == "This needs a connection. All that a batch needs works without."
    context.set_offline(False)
    assert page.evaluate(FOR_THE_DESK) == page.evaluate(
        "async () => Object.keys(await import('/parts/label-sheet.js')).sort().join()"
    )
    made = site.pieces()
    assert "screens/audit.js" in made.online and not {*made.online} & {*made.first, *made.later}

    context.set_offline(True)
    opened = page.goto(f"{site.url}/?from=home-screen")  # whatever the query
    assert opened is not None and opened.from_service_worker
    assert page.evaluate(TEXT_OF, "/version.txt?now=1") == "first"
    assert page.evaluate(as_sent("async () => (await import('/app.js')).$keep_ids.newId(0).length")) == 36
    assert (
        page.evaluate(as_sent("async () => typeof (await import('/rest.js')).$screens_kit.registerKitScreen"))
        == "function"
    )


def test_one_file_that_fails_or_is_of_another_version_means_no_copy_at_all(site: Site, page: Page) -> None:
    page.goto(site.url + BLANK)
    for path in ("/", "/app.js", f"/{REST}"):
        site.failing = {path}
        assert page.evaluate(REGISTER) == "redundant", path
        assert page.evaluate(CACHES) == [], path
    for path in ("version.txt", "touches.js"):  # one of the rest, one that the page opens with
        site.begin_anew()
        site.keep_worker()
        site.publish(path, "second, but the worker is still the first")
        assert page.evaluate(REGISTER) == "redundant", path
        assert page.evaluate(CACHES) == [], path


def test_a_worker_asked_for_in_another_language_than_what_it_asks_for_keeps_a_copy_of_its_own(
    site: Site, page: Page
) -> None:
    with words.speaking("de"):
        site.keep_worker()
        tags = {name: sent.tag for name in site.pieces().names if (sent := page_file(site.folder, name))}
    page.goto(site.url + BLANK)

    assert page.evaluate(REGISTER) == "activated"
    assert [page.evaluate(KEPT, f"/{name}")["sha256"] for name in (APP, REST)] == [tags[APP], tags[REST]]


def test_joined_modules_give_what_they_give_one_by_one(site: Site, page: Page) -> None:
    page.goto(site.url + BLANK)
    pieces = site.pieces()
    modules = [[path, as_sent(name_of(path))] for path in [*pieces.first, *pieces.later] if path != APP]

    assert page.evaluate(EXPORTS, [[APP, REST], modules]) == []


def open_without_the_rest(site: Site, page: Page) -> None:
    """A screen of the rest is asked for, the rest does not come, and from then on it would."""
    page.add_init_script(NO_WORKER)
    site.failing.add(f"/{REST}")
    page.goto(f"{site.url}#/kit")
    expect(page.locator("h1")).to_have_text("Not on this phone")
    site.failing.clear()


def test_the_rest_is_asked_for_again_when_it_did_not_come(site: Site, page: Page) -> None:
    """Some browsers remember a module that failed for as long as the page stands."""
    open_without_the_rest(site, page)

    page.evaluate("location.hash = '#/studio'")

    expect(page.locator("studio-screen")).to_be_visible()
    assert [path for path in site.asked if REST in path] == [f"/{REST}", f"/{REST}?2"]


def test_a_rest_of_another_version_never_meets_the_page_that_stands(site: Site, page: Page) -> None:
    open_without_the_rest(site, page)
    site.publish("seek.js", (site.folder / "seek.js").read_text("utf-8") + "export const isNew = true;\n")

    page.evaluate("location.hash = '#/studio'")

    expect(page.locator("h1")).to_have_text("There is a newer page")
    assert page.locator("studio-screen").count() == 0
    page.get_by_role("button", name="Load it").click()
    expect(page.locator("studio-screen")).to_be_visible()


def test_the_api_other_methods_and_unlisted_files_go_to_the_server_and_a_failed_answer_is_never_kept(
    site: Site, page: Page
) -> None:
    page.goto(site.url + BLANK)
    page.evaluate(REGISTER)
    page.reload()
    site.keep_worker()  # a browser looks for a newer one when it likes
    (site.folder / "api").mkdir()
    (site.folder / "api" / "runs").write_text("[]", "utf-8")
    site.asked.clear()

    site.failing.add("/sw.js")
    told = page.evaluate(
        "async () => { for (const path of ['/api/runs', '/api/runs']) await fetch(path); return (await fetch('/sw.js')).status; }"
    )
    posted = page.evaluate("async () => (await fetch('/app.js', { method: 'POST' })).status")

    # The browser itself looks for a newer worker after a load, at a moment of its own.
    assert [path for path in site.asked if path != "/sw.js"] == ["/api/runs", "/api/runs"]
    assert told == 500  # a copy would have said 200
    assert posted == 501  # what this test's server says to a POST; a copy would have said 200
    assert "/api/runs" not in page.evaluate(CACHED)

    (site.folder / "late.txt").write_text("unlisted", "utf-8")
    site.failing.add("/late.txt")
    assert page.evaluate("async () => (await fetch('/late.txt')).status") == 500
    site.failing.clear()
    assert page.evaluate(TEXT_OF, "/late.txt") == "unlisted"


def test_a_newer_page_waits_until_the_maker_says_so(site: Site, page: Page) -> None:
    page.goto(site.url + BLANK)
    page.evaluate(REGISTER)
    page.reload()
    site.publish("version.txt", "second")

    updating = """async () => {
        const registration = await navigator.serviceWorker.getRegistration();
        await registration.update();
        const worker = registration.installing ?? registration.waiting;
        while (worker.state === "installing") {
            await new Promise((changed) => worker.addEventListener("statechange", changed, { once: true }));
        }
        return worker.state;
    }"""
    assert page.evaluate(updating) == "installed"
    page.reload()
    assert page.evaluate(TEXT_OF, "/version.txt") == "first"

    taking_over = """async () => {
        const { waiting } = await navigator.serviceWorker.getRegistration();
        const over = new Promise((done) => navigator.serviceWorker.addEventListener("controllerchange", done));
        waiting.postMessage("take over");
        await over;
    }"""
    page.evaluate(taking_over)
    page.reload()
    assert page.evaluate(TEXT_OF, "/version.txt") == "second"


def test_the_studio_tells_of_a_newer_page_and_loads_it_when_the_maker_says_so(site: Site, page: Page) -> None:
    page.goto(site.url + BLANK)
    page.evaluate(REGISTER)
    page.reload()  # from here on the worker stands behind this page
    page.evaluate(OPEN)
    assert page.evaluate("() => [studio.link.kept, studio.link.update]") == [True, False]
    told = """() => { window.told = new Promise((done) =>
        studio.addEventListener("link", () => studio.link.update && done(true))); }"""
    page.evaluate(told)
    site.publish("version.txt", "second")
    page.evaluate("async () => { await (await navigator.serviceWorker.getRegistration()).update(); }")
    assert page.evaluate("() => told")
    assert page.evaluate("() => Boolean(window.studio)")  # nothing was loaded anew so far

    with page.expect_navigation():
        page.evaluate("() => studio.applyUpdate()")

    assert page.evaluate(TEXT_OF, "/version.txt") == "second"


# The browser asks by itself when a page opens, and whoever asks meanwhile is told what it finds.
ASKED_MEANWHILE = """async () => {
    const { Updates } = await import("/keep/updates.js");
    const told = [];
    const waiting = Object.assign(new EventTarget(), { state: "installed", postMessage: (text) => told.push(text) });
    const registration = Object.assign(new EventTarget(), {
        active: {},
        async update() {
            told.push("asked");
            if (told.length === 2) registration.waiting = waiting;
        },
    });
    Object.defineProperty(navigator.serviceWorker, "register", { value: async () => registration });
    await new Updates().renew();
    return told;
}"""


def test_a_renewal_counts_the_answer_to_its_own_question_and_needs_no_start_before(
    site: Site, page: Page
) -> None:
    page.goto(site.url + BLANK)

    assert page.evaluate(ASKED_MEANWHILE) == ["asked", "asked", "take over"]
