"""Fixtures for every kind of test: the application on a database of its own, a clock that stands
still, the real server as a process, and the browser.

What takes `app`, or anything made of it, runs on SQLite, and in `make chaos` on a real PostgreSQL server too. What the
two may do each in its own way says that it runs on both (`pytestmark = BOTH_DATABASES`); a test that is about one of
them, `@pytest.mark.database("sqlite")`.
"""

from __future__ import annotations

import gc
import itertools
import shutil
from collections.abc import Callable, Generator, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from api import create_app, store
from api.settings import Settings
from tests.addresses import compile_once
from tests.make import Clock
from tests.often import EITHER_DATABASE, for_now
from tests.postgres import Cluster
from tests.servers import Server, demo_open

compile_once()
SELDOM = 20_000  # objects more than there were; Python's own 700 is for little programs
MOST_RERUNS = 2
# A busy machine draws late; what is wrong stays wrong. Nothing passes later for a longer patience.
expect.set_options(timeout=15_000)
# The page's own copy of itself is fetched and kept beside it: a third of what opening it costs.
WITHOUT_COPY = "delete Navigator.prototype.serviceWorker"
# The browser's own address bar is a page of its own, drawn anew for each context and never seen here:
# it costs more than our page. Of several such lists the last one counts, so it also says again what
# Playwright leaves out and our tests rely on.
LEFT_OUT = [
    "HttpsFirstBalancedModeAutoEnable",
    "HttpsUpgrades",
    "MediaRouter",
    "OptimizationHints",
    "PaintHolding",
    "ThirdPartyStoragePartitioning",
    "WebUIOmniboxAimPopup",
    "WebUIOmniboxPopup",
]
BROWSER_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--in-process-gpu",  # what draws needs no process of its own
    "--disable-quic",
    "--no-first-run",
    "--accept-lang=en-GB",  # dates and clocks as the tests say them
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    f"--disable-features={','.join(LEFT_OUT)}",
]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, Any, Any]:
    """Of what is collected nothing goes before the end: no search for garbage goes through it, then or later.

    And later it is searched for seldom: a third of what an application takes to be made and asked went there.
    """
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.set_threshold(SELDOM)
        gc.enable()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What drives a browser takes longest, so it begins first: no worker is alone with it at the end.

    It also hangs on how busy the machine is, so one that failed is asked once more, and is listed as rerun:
    what is wrong fails twice, and what passed the second time is late somewhere, and is to be mended.
    """
    items[:], left = for_now(items)
    config.hook.pytest_deselected(items=left)
    items.sort(key=lambda item: item.get_closest_marker("browser") is None)
    for item in items:
        if item.get_closest_marker("browser"):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, Any, Any]:
    """What a test printed reaches the others as UTF-8, half a character in a stranger's path included."""
    report = yield
    report.sections = [
        (name, text.encode(errors="backslashreplace").decode()) for name, text in report.sections
    ]
    return report


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Why they failed the first time, so that they can be mended."""
    for report in terminalreporter.stats.get("rerun", []):
        terminalreporter.section(f"failed at first: {report.nodeid}")
        terminalreporter.write_line(report.longreprtext)


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_sessionfinish(session: pytest.Session) -> Generator[None, Any, Any]:
    """The last line of all says how many were asked once more; more than a few fail the run."""
    told = yield
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter and not hasattr(session.config, "workerinput"):
        reruns = len(reporter.stats.get("rerun", []))
        reporter.write_line(f"{reruns} reruns, at most {MOST_RERUNS}")
        if reruns > MOST_RERUNS:
            session.exitstatus = pytest.ExitCode.TESTS_FAILED
    return told


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "database" in metafunc.fixturenames:
        asked = metafunc.definition.get_closest_marker("database") or EITHER_DATABASE
        metafunc.parametrize("database", asked.args, indirect=True)


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database with its tables and nothing in them, made once and copied by each test."""
    database = tmp_path_factory.mktemp("empty") / "bowlside.sqlite3"
    app = create_app(Settings(database=database))
    store.migrate(app)
    store.close(app)  # the last connection writes all of the WAL into the file
    return database


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    cluster = Cluster()
    yield cluster
    cluster.remove()


@pytest.fixture(scope="session")
def empty_postgresql(cluster: Cluster) -> str:
    """The name of such a database on PostgreSQL."""
    name = cluster.create()
    app = create_app(Settings(database_url=cluster.url(name)))
    store.migrate(app)
    store.close(app)
    return name


@pytest.fixture
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Callable[[], dict[str, Any]]]:
    """Makes another empty database at each call; gives the settings that name it."""
    numbers = itertools.count(1)
    if request.param == "sqlite":
        empty = request.getfixturevalue("empty_database")
        yield lambda: {"database": shutil.copy(empty, tmp_path / f"bowlside-{next(numbers)}.sqlite3")}
        return
    cluster, empty = (request.getfixturevalue(name) for name in ("cluster", "empty_postgresql"))
    made: list[str] = []

    def make() -> dict[str, Any]:
        made.append(cluster.take(empty))
        # The file is never made; the folders of copies and certificates are found beside it.
        return {"database_url": cluster.url(made[-1]), "database": tmp_path / made[-1] / "none"}

    yield make
    for name in made:
        cluster.give_back(name, empty)


@pytest.fixture
def new_app(database: Callable[[], dict[str, Any]], clock: Clock) -> Iterator[Callable[..., Any]]:
    """Makes another application on an empty database of its own at each call."""
    made: list[Any] = []

    def make(**settings: Any) -> Any:
        made.append(create_app(Settings(**database(), clock_ms=clock, **settings)))
        return made[-1]

    yield make
    for app in made:
        store.close(app)


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app()


@pytest.fixture
def client(app: Any) -> Any:
    return app.test_client()


@pytest.fixture
def live_server(tmp_path: Path) -> Iterator[Server]:
    """The real server with the demo studio, always open: `.url`, `.kill()` (-9), `.stop()` and `.start()` again."""
    server = demo_open(tmp_path / "bowlside.sqlite3")
    yield server
    server.kill()


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any], playwright: Any) -> dict[str, Any]:
    return {**browser_type_launch_args, "args": BROWSER_FLAGS, "executable_path": system_browser(playwright)}


@pytest.fixture
def no_copy(request: pytest.FixtureRequest) -> None:
    """The page keeps no copy of itself, as in a browser that has no service worker."""
    if "context" in request.fixturenames and not request.node.get_closest_marker("with_copy"):
        request.getfixturevalue("context").add_init_script(WITHOUT_COPY)


def system_browser(playwright: Any) -> str | None:
    """The system's Chromium, without its window if there is that alone; None where Playwright has its own."""
    if Path(playwright.chromium.executable_path).exists():
        return None
    names = ("chromium-headless-shell", "chromium", "chromium-browser")
    return next(filter(None, map(shutil.which, names)), None)
