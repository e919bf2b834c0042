"""Pieces of the page as they were compressed once, kept from one start to the next.

Making them takes some seconds of work, and each process of each start needs them. They lie beside Python's own compiled
modules and hold as those do: for exactly the files that they were made of, which are the page's and all of the code
and its words. Where nothing can be written they are made each time.
"""

from __future__ import annotations

import os
from contextlib import suppress
from functools import cache, lru_cache
from hashlib import sha256
from pathlib import Path
from threading import get_ident

import brotli

import bench
from api.pieces import listed
from api.places import FRONTEND, PACKAGE
from bench import words

FOLDER = PACKAGE / "__pycache__"
BENCH = Path(bench.__file__).parent
NAMED = "page-"


def kept(name: str, changed: object, spoken: str) -> tuple[bytes, bytes] | None:
    """A piece, and the same compressed by Brotli, as it was kept of just these files; None where it was not.

    changed: whatever differs when one of the page's files does.
    """
    with suppress(OSError, brotli.error):
        compressed = _file(name, changed, spoken).read_bytes()
        return brotli.decompress(compressed), compressed
    return None


def keep(name: str, changed: object, spoken: str, compressed: bytes) -> None:
    """Keep it for the next start, and what was made of other files no longer."""
    file = _file(name, changed, spoken)
    part = file.with_name(f"{file.name}.{os.getpid()}-{get_ident()}")
    try:
        FOLDER.mkdir(exist_ok=True)
        part.write_bytes(compressed)
        part.replace(file)  # whole, or not there
        state = file.name.partition(".")[0]
        for former in FOLDER.glob(f"{NAMED}*"):
            if not former.name.startswith(state):
                former.unlink(missing_ok=True)
    except OSError:
        with suppress(OSError):
            part.unlink()


def _file(name: str, changed: object, spoken: str) -> Path:
    tongues = "-".join(words.languages())
    return FOLDER / f"{NAMED}{_state(changed)}.{tongues}.{spoken}.{name.replace('/', '-')}.br"


@lru_cache(maxsize=4)
def _state(_changed: object) -> str:
    """The hash of all that a piece is made of."""
    return sha256((_code() + _hash(FRONTEND)).encode()).hexdigest()[:20]


@cache
def _code() -> str:
    """That of the code, and of its words, as this process began with them: what it makes later is made by those."""
    return _hash(BENCH) + _hash(PACKAGE)


def _hash(folder: Path) -> str:
    told = sha256()
    for path in listed(folder):
        if "__pycache__" not in path:
            content = (folder / path).read_bytes()
            told.update(f"{path}\0{len(content)}\0".encode() + content)
    return told.hexdigest()
