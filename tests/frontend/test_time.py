"""Clocks that are wrong or are put right in the middle of a wait, and summer time: no wait rings early."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import BrowserContext, Page, Route

from tests.frontend.hands import NO_COPY
from tests.frontend.phones import HOUR, MINUTE, begin, open_phone
from tests.often import in_chaos
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

NOON = int(datetime(2027, 3, 1, 12, tzinfo=UTC).timestamp() * 1000)
SYNC = "async () => { await studio.sync(); return studio.link; }"
START_WAIT = "async (run) => { await fill(run); return studio.bench(run).waits[0]; }"
SKIP = "async (run) => studio.enter(run, 'skipped', { step: studio.bench(run).waits[0].step })"


class Told:
    """A phone whose time goes as the test says, and what the server's clock tells it."""

    def __init__(self, page: Page, home: Server, *, phone: int = NOON, ahead: int = 0) -> None:
        """The phone's clock begins at `phone`; the server's is `ahead` of it."""
        self.page = page
        self.server_url = home.url
        self.ahead = ahead
        self._started = phone
        page.context.route("**/api/**", self._tell)
        page.context.route("**/live", lambda route: route.abort())
        # It runs until it is paused, so it begins earlier.
        page.clock.install(time=datetime.fromtimestamp((phone - MINUTE) / 1000, UTC))
        page.clock.pause_at(datetime.fromtimestamp((phone + 1) / 1000, UTC))
        self._passed = 1
        self._going = False
        open_phone(page, home.url)

    def _tell(self, route: Route) -> None:
        if self._going:
            route.abort()
            return
        answer = route.fetch()
        now = self._started + self._passed + self.ahead
        text = re.sub(r'("server_ms": ?)\d+', lambda found: found[1] + str(now), answer.text())
        route.fulfill(response=answer, body=text)

    def goes(self, ms: int) -> None:
        """Time goes on, and meanwhile nothing is heard of the server; then it is asked."""
        self._going = True
        self.page.clock.run_for(ms)
        self._passed += ms
        self._settle()
        self._going = False
        self.page.evaluate(SYNC)

    def reaches(self, due: int) -> list[list[str]]:
        """What had rung a second before that instant, and at it."""
        self.goes(due - 1000 - self.page.evaluate("() => studio.at()"))
        before = self.rang
        self.goes(1000)
        return [before, self.rang]

    def _settle(self) -> None:
        """Let what is under way on the phone's disk come to its end; no timer of the page is involved."""
        self.page.evaluate(
            """async () => {
                const { openStore } = await import("/keep/store.js");
                for (let times = 0; times < 3; times += 1) await (await openStore()).revise("settled", () => times);
            }"""
        )

    @property
    def rang(self) -> list[str]:
        return [ring["phase"] for ring in self.page.evaluate("() => rings")]


@pytest.mark.parametrize("ahead", [-3 * HOUR, in_chaos(3 * HOUR), 400 * 24 * HOUR])
def test_a_wait_lasts_as_long_as_it_says_however_wrong_the_servers_clock_is(
    page: Page, home: Server, ahead: int
) -> None:
    told = Told(page, home, ahead=ahead)
    wait = page.evaluate(START_WAIT, begin(page))

    assert told.reaches(wait["earliest_at"]) == [[], ["look"]]


@pytest.mark.parametrize("leap", [-2 * HOUR, in_chaos(2 * HOUR), 30 * 1000])
def test_a_servers_clock_that_is_put_right_during_a_wait_rings_nothing_early_and_nothing_late(
    page: Page, home: Server, leap: int
) -> None:
    told = Told(page, home)
    run = begin(page)
    wait = page.evaluate(START_WAIT, run)
    told.ahead = leap
    told.goes(10 * MINUTE)
    assert page.evaluate(SYNC)["leap"] == pytest.approx(leap, abs=100)

    assert told.reaches(wait["earliest_at"]) == [[], ["look"]]

    page.evaluate(SKIP, run)
    page.evaluate(SYNC)
    assert page.evaluate(SYNC)["leap"] == 0
    assert page.evaluate("() => studio.at() - Date.now()") == pytest.approx(leap, abs=100)


def test_a_leap_of_the_server_is_remembered_by_a_page_that_is_opened_again(page: Page, home: Server) -> None:
    told = Told(page, home)
    wait = page.evaluate(START_WAIT, begin(page))
    told.ahead = 2 * HOUR
    told.goes(10 * MINUTE)

    open_phone(page, home.url)
    assert page.evaluate(SYNC)["leap"] == pytest.approx(2 * HOUR, abs=100)
    assert told.reaches(wait["earliest_at"]) == [[], ["look"]]


@pytest.mark.parametrize("wrong_by", [-5 * HOUR, in_chaos(5 * HOUR)])
def test_a_wait_lasts_as_long_as_it_says_on_a_phone_whose_clock_is_wrong(
    page: Page, home: Server, wrong_by: int
) -> None:
    told = Told(page, home, phone=NOON + wrong_by, ahead=-wrong_by)
    wait = page.evaluate(START_WAIT, begin(page))

    assert abs(wait["earliest_at"] - (NOON + HOUR)) < MINUTE
    assert told.reaches(wait["earliest_at"]) == [[], ["look"]]


@pytest.mark.parametrize(
    ("zone", "before_change", "says_usual"),
    [
        # Clocks go from 02:00 to 03:00 in the night of 28 March 2027, and from 03:00 to 02:00 on 31 October.
        ("Europe/Berlin", datetime(2027, 3, 28, 1, 30), "04:30"),
        in_chaos("Europe/Berlin", datetime(2027, 10, 31, 1, 30), "02:30"),
    ],
)
def test_summer_time_that_begins_or_ends_during_a_wait_changes_the_words_and_not_the_wait(
    new_phone: Callable[..., BrowserContext],
    home: Server,
    zone: str,
    before_change: datetime,
    says_usual: str,
) -> None:
    start = int(before_change.replace(tzinfo=ZoneInfo(zone)).timestamp() * 1000)
    told = Told(new_phone(timezone_id=zone).new_page(), home, phone=start)
    wait: dict[str, Any] = told.page.evaluate(START_WAIT, begin(told.page))
    says = told.page.evaluate("async (at) => (await import('/parts/words.js')).clock(at)", wait["usual_at"])

    assert told.reaches(wait["earliest_at"]) == [[], ["look"]]
    assert told.reaches(wait["usual_at"]) == [["look"], ["look", "ready"]]
    assert says == says_usual
    assert wait["usual_at"] - start == pytest.approx(2 * HOUR, abs=1000)
