"""The page's files in two parts: what it opens with, and the rest, which a browser keeps for later.

The rest goes to the service worker in one piece (frontend/sw.js). The files are small and like each
other, so that compressed together they are a quarter less than one by one, and one answer is asked for
instead of eighty. The piece is a line of JSON, `[[path, type, bytes], …]`, and then those bytes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable
from hashlib import sha256
from pathlib import Path

# The browser itself sees to the newest worker; it is not part of the copy it keeps.
WORKER = "sw.js"
PACK = "rest.pack"

LINKED = re.compile(r'<(?:link|script)\b[^>]* (?:href|src)="([^":]+)"')
# A static import or export; what is imported when it is first used stands in brackets.
IMPORTED = re.compile(r'^(?:import|export)\b[^"\'();]*"(\.[^"]+)";', re.MULTILINE)


def listed(folder: Path) -> list[str]:
    """Every file of the page, as its path under the folder, in order."""
    paths = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    seen = (path for path in paths if not any(part.startswith(".") for part in path.parts))
    return sorted(path.as_posix() for path in seen if path.as_posix() != WORKER)


def opened_with(folder: Path) -> set[str]:
    """index.html, what it links, and all that those modules import before they run."""
    root = folder.resolve()
    waiting, found = [root / "index.html"], set[Path]()
    while waiting:
        file = waiting.pop()
        if file in found or not file.is_file():
            continue
        found.add(file)
        pattern = {".html": LINKED, ".js": IMPORTED}.get(file.suffix)
        if pattern:
            named = pattern.findall(file.read_text("utf-8"))
            waiting += [(file.parent / name).resolve() for name in named]
    return {file.relative_to(root).as_posix() for file in found}


def hash_over(hashes: Iterable[tuple[str, str]]) -> str:
    """Of files by the hashes of them: one of each "path NUL hash LF", in the order given."""
    return sha256("".join(f"{path}\0{told}\n" for path, told in hashes).encode()).hexdigest()


def hash_of(folder: Path, files: Iterable[str]) -> str:
    return hash_over((file, sha256((folder / file).read_bytes()).hexdigest()) for file in files)


def parts_of(folder: Path) -> tuple[list[str], list[str]]:
    """What the page opens with, and the rest."""
    files, first = listed(folder), opened_with(folder)
    return [file for file in files if file in first], [file for file in files if file not in first]


def worker_of(folder: Path) -> str:
    """The worker's source with the version of the page's files and the lists of them in it.

    The version is the same hash as hashOf in sw.js: over what comes file by file, then what comes in one piece.
    """
    first, rest = parts_of(folder)
    hashes = [(file, sha256((folder / file).read_bytes()).hexdigest()) for file in first]
    version = hash_over([*hashes, (PACK, hash_of(folder, rest))])[:12]
    source = (folder / WORKER).read_text("utf-8")
    for name, empty, value in (("VERSION", '""', version), ("OPENED", "[]", first), ("REST", "[]", rest)):
        before, place, after = source.partition(f"const {name} = {empty};")
        if not place:
            raise ValueError(f"{WORKER}: no place for {name}")
        source = f"{before}const {name} = {json.dumps(value)};{after}"
    return source


def packed(
    folder: Path, files: Iterable[str], type_of: Callable[[str], str], sent: Callable[[Path], bytes]
) -> bytes:
    """These files in one piece, each with its type and its bytes as they are sent."""
    contents = {file: sent(folder / file) for file in files}
    head = [[file, type_of(file), len(content)] for file, content in contents.items()]
    return json.dumps(head, separators=(",", ":")).encode() + b"\n" + b"".join(contents.values())
