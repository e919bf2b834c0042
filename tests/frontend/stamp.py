"""Writes the list of the page's files, and the hash of them, into frontend/sw.js.

    python -m tests.frontend.stamp           after any change under frontend/; the practice sheet is made anew with it
    python -m tests.frontend.stamp --check   exit 1 when that was forgotten

A folder named last is stamped instead of frontend/.
"""

from __future__ import annotations

import json
import re
import sys
from hashlib import sha256
from pathlib import Path

from tests.frontend.sample import SAMPLE, sample_text

FRONTEND = Path(__file__).resolve().parents[2] / "frontend"
WORKER = "sw.js"  # the browser itself sees to the newest worker; it is not part of the copy it keeps


def listed_files(folder: Path) -> list[str]:
    """Every file of the page, as its path under frontend/, in the order in which it is hashed."""
    paths = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    seen = (path for path in paths if not any(part.startswith(".") for part in path.parts))
    return sorted(path.as_posix() for path in seen if path.as_posix() != WORKER)


def version_of(files: list[str], folder: Path) -> str:
    """The same hash as hashOf in sw.js."""
    lines = (f"{file}\0{sha256((folder / file).read_bytes()).hexdigest()}\n" for file in files)
    return sha256("".join(lines).encode()).hexdigest()[:12]


def stamped(source: str, files: list[str], version: str) -> str:
    """The worker's source with this list and this version in it."""
    listing = "".join(f"  {json.dumps(file)},\n" for file in files)
    source = re.sub(r'const VERSION = "\w*";', f'const VERSION = "{version}";', source)
    return re.sub(r"const FILES = \[[^\]]*\];", f"const FILES = [\n{listing}];", source)


def main(arguments: list[str]) -> int:
    checking = "--check" in arguments
    folder = next((Path(text) for text in arguments if text != "--check"), FRONTEND)
    if not checking and folder == FRONTEND:
        (folder / SAMPLE).write_text(sample_text(), "utf-8")
    source = (folder / WORKER).read_text("utf-8")
    files = listed_files(folder)
    wanted = stamped(source, files, version_of(files, folder))
    if not checking:
        (folder / WORKER).write_text(wanted, "utf-8")
    elif source != wanted:
        print("The page changed: run python -m tests.frontend.stamp", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
