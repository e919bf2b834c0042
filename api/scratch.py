"""Private folders for what is only passing through: a copy laid out to be read, a file half written.

A folder is its owner's for as long as the owner holds its lock. What a killed process left behind is
held by nobody, and is taken away by whoever comes next.
"""

from __future__ import annotations

import fcntl
import os
import re
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

PREFIX = ".bowlside-scratch-"
YOUNG_SECONDS = 60

_OF_PROCESS = re.compile(rf"{re.escape(PREFIX)}(\d+)-")


@contextmanager
def folder(beside: Path | None = None) -> Iterator[Path]:
    """A folder that is there for the block alone, and for this user alone; in `beside`, else where TMPDIR says."""
    where = beside or Path(tempfile.gettempdir())
    where.mkdir(parents=True, exist_ok=True)
    sweep(where)
    made = Path(tempfile.mkdtemp(prefix=f"{PREFIX}{os.getpid()}-", dir=where))
    lock = os.open(made, os.O_RDONLY | os.O_DIRECTORY)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield made
    finally:
        os.close(lock)
        shutil.rmtree(made, ignore_errors=True)


def sweep(where: Path) -> None:
    """Take away the folders of processes that are gone."""
    for each in where.glob(f"{PREFIX}*"):
        with suppress(OSError):
            if each.is_dir() and each.stat().st_uid == os.getuid() and is_left(each):
                shutil.rmtree(each)


def is_left(path: Path) -> bool:
    """Whether nobody holds the lock of what is there. One that was just made has not been locked yet, perhaps."""
    try:
        lock = os.open(path, os.O_RDONLY)
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        finally:
            os.close(lock)
    except OSError:
        return False
    maker = _OF_PROCESS.match(path.name)
    gone = maker is not None and not os.path.exists(f"/proc/{maker[1]}") and os.path.exists("/proc/self")
    return gone or time.time() - path.stat().st_mtime > YOUNG_SECONDS
