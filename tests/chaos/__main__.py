"""Plays histories and prints one line each; exit code 1 when one shows a fault, shrunk to what it takes."""

from __future__ import annotations

import argparse
import itertools
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import ExitStack

from playwright.sync_api import Browser, sync_playwright

from tests.chaos.history import History, make_history
from tests.chaos.house import House, Postgres
from tests.chaos.play import Outcome, play
from tests.conftest import BROWSER_FLAGS, system_browser
from tests.postgres import find_programs

A_HOUSE_LASTS = 40  # histories; then what others left behind is enough
SHRINK_SECONDS = 180
DATABASES = ("sqlite", "postgresql")


def main() -> int:
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # so that no server is left behind
    asked = _asked()
    began = time.monotonic()
    counts: Counter[str] = Counter()
    shown = rang = 0
    with ExitStack() as stack:
        stage = Stage(stack)
        seeds: Iterator[int] = itertools.count(asked.seed)
        for seed in itertools.islice(seeds, asked.histories) if asked.histories else seeds:
            if asked.minutes and time.monotonic() - began > 60 * asked.minutes:
                break
            number = seed - asked.seed
            history = make_history(
                seed, asked.databases[number % len(asked.databases)], with_pages=number < asked.pages
            )
            at = time.monotonic()
            outcome = stage.play(history)
            kind = f"{history.database}{', with real pages' if history.pages else ''}"
            counts[kind] += 1
            shown, rang = shown + outcome.shown, rang + outcome.rang
            print(
                f"{'BROKEN' if outcome.faults else 'whole'} {seed} ({kind}): {outcome.shown} shown,"
                f" {outcome.rang} rang, {time.monotonic() - at:.1f} s",
                flush=True,
            )
            if outcome.faults:
                _report(history, outcome.faults, stage)
                return 1
    print(f"{counts.total()} histories from seed {asked.seed}, all whole, {time.monotonic() - began:.0f} s.")
    print(f"{shown} entries shown, {rang} rings. " + "; ".join(f"{kind}: {n}" for kind, n in counts.items()))
    return 0


class Stage:
    """Where histories are played: houses that last for several, a PostgreSQL server, a browser when needed.

    browser: one that is open already, since a process can hold only one line to a browser of this kind.
    """

    def __init__(self, stack: ExitStack, browser: Browser | None = None) -> None:
        self._stack = stack
        self._houses: dict[str, tuple[House, Iterator[int]]] = {}
        self._postgres: Postgres | None = None
        self._browser = browser
        stack.callback(self._clear)

    def play(self, history: History, *, afresh: bool = False) -> Outcome:
        """A page takes all that a server has, so it gets a house of its own."""
        if history.pages or afresh:
            house = self._new_house(history.database)
            try:
                return play(history, house, self._chromium() if history.pages else None)
            finally:
                house.remove()
        return play(history, self._shared_house(history.database))

    def _shared_house(self, database: str) -> House:
        if database in self._houses:
            house, turns = self._houses[database]
            if next(turns, None) is not None:
                return house
            house.remove()
        house = self._new_house(database)
        self._houses[database] = house, iter(range(1, A_HOUSE_LASTS))
        return house

    def _clear(self) -> None:
        for house, _ in self._houses.values():
            house.remove()

    def _new_house(self, database: str) -> House:
        if database == "postgresql" and self._postgres is None:
            self._postgres = Postgres()
            self._stack.callback(self._postgres.remove)
        return House(self._postgres if database == "postgresql" else None)

    def _chromium(self) -> Browser:
        if self._browser is None:
            playwright = self._stack.enter_context(sync_playwright())
            self._browser = playwright.chromium.launch(
                args=BROWSER_FLAGS, executable_path=system_browser(playwright)
            )
            self._stack.callback(self._browser.close)
        return self._browser


def shrink(history: History, breaks: Callable[[History], bool], seconds: float = SHRINK_SECONDS) -> History:
    """The history with as many steps left out as may be, so that it still breaks; begins with large parts."""
    until = time.monotonic() + seconds
    size = len(history.steps) // 2
    while size:
        start = 0
        while start < len(history.steps) and time.monotonic() < until:
            shorter = history.without(start, start + size)
            if breaks(shorter):
                history = shorter
            else:
                start += size
        size //= 2
    return history


def _report(history: History, faults: list[str], stage: Stage) -> None:
    print("\n".join(f"  {fault}" for fault in faults[:10]))
    again = (
        f"--seed {history.seed} --histories 1 --database {history.database} --pages {int(history.pages > 0)}"
    )
    print(f"Again: python -m tests.chaos {again}", flush=True)
    least = shrink(history, lambda shorter: bool(stage.play(shorter, afresh=True).faults))
    print(f"What it takes ({len(least.steps)} of {len(history.steps)} steps):")
    print("\n".join(f"  {step}" for step in least.steps))
    print(f"As a case for tests/chaos/kept/:\n{least.to_json()}", flush=True)


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.chaos", description=__doc__)
    parser.add_argument("--seed", type=int, default=time.time_ns() % 1_000_000, help="of the first history")
    parser.add_argument("--histories", type=int, help="how many; else as many as the minutes hold")
    parser.add_argument("--minutes", type=float, help="3 unless told how many histories")
    parser.add_argument("--pages", type=int, default=3, help="how many of the first have real pages")
    parser.add_argument(
        "--database", choices=DATABASES, help="only this one; else in turn, where PostgreSQL is"
    )
    asked = parser.parse_args()
    if not (asked.histories or asked.minutes):
        asked.minutes = 3
    asked.databases = [asked.database] if asked.database else databases_at_hand()
    return asked


def databases_at_hand() -> list[str]:
    try:
        find_programs()
    except AssertionError:
        print("No PostgreSQL here: on SQLite alone.")
        return ["sqlite"]
    return list(DATABASES)


if __name__ == "__main__":
    sys.exit(main())
