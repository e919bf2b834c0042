"""How the threads are shared: each lane has some, and nobody in it more than a part of them.

In a lane whoever waits comes in turn, one request of each. All of this is called from the event loop;
what is put in runs in a thread.
"""

from __future__ import annotations

import asyncio
from collections import Counter, OrderedDict, deque
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from typing import Any

Work = tuple[Callable[[], Any], Callable[["Future[Any]"], None]]


class Lane:
    def __init__(self, pool: ThreadPoolExecutor, threads: int, of_one: int, most_waiting: int) -> None:
        self._pool, self._free, self._of_one = pool, threads, of_one
        self._most_waiting = most_waiting
        self._waiting: OrderedDict[str, deque[Work]] = OrderedDict()
        self._running: Counter[str] = Counter()
        self._count = 0

    def put(self, who: str, work: Callable[[], Any], done: Callable[[Future[Any]], None]) -> bool:
        """Have the work done in its turn, and `done` called in the loop; False when too many wait."""
        if self._count >= self._most_waiting:
            return False
        self._count += 1
        self._waiting.setdefault(who, deque()).append((work, done))
        self._start()
        return True

    def _start(self) -> None:
        while self._free and (who := self._next()) is not None:
            queue = self._waiting.pop(who)
            work, done = queue.popleft()
            if queue:
                self._waiting[who] = queue  # at the end again
            self._count -= 1
            self._free -= 1
            self._running[who] += 1
            future = self._pool.submit(work)
            future.add_done_callback(partial(self._tell, asyncio.get_running_loop(), who, done))

    def _tell(
        self,
        loop: asyncio.AbstractEventLoop,
        who: str,
        done: Callable[[Future[Any]], None],
        ended: Future[Any],
    ) -> None:
        with suppress(RuntimeError):  # the loop has ended meanwhile
            loop.call_soon_threadsafe(self._end, who, done, ended)

    def _next(self) -> str | None:
        return next((who for who in self._waiting if self._running[who] < self._of_one), None)

    def _end(self, who: str, done: Callable[[Future[Any]], None], ended: Future[Any]) -> None:
        self._free += 1
        self._running[who] -= 1
        if not self._running[who]:
            del self._running[who]
        self._start()
        done(ended)
