"""Writes the lists of the page's files, and the hash of them, into frontend/sw.js.

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

from api.pack import PACK, WORKER, hash_of, hash_over, listed, opened_with
from tests.frontend.sample import SAMPLE, sample_text

FRONTEND = Path(__file__).resolve().parents[2] / "frontend"


def parts(folder: Path) -> tuple[list[str], list[str]]:
    """What the page opens with, and the rest."""
    files, first = listed(folder), opened_with(folder)
    return [file for file in files if file in first], [file for file in files if file not in first]


def version_of(folder: Path) -> str:
    """The same hash as hashOf in sw.js: what comes file by file, then what comes in one piece."""
    first, rest = parts(folder)
    hashes = [(file, sha256((folder / file).read_bytes()).hexdigest()) for file in first]
    return hash_over([*hashes, (PACK, hash_of(folder, rest))])[:12]


def stamped(source: str, folder: Path) -> str:
    """The worker's source with the lists and the version in it."""
    for name, files in zip(("OPENED", "REST"), parts(folder), strict=True):
        listing = "".join(f"  {json.dumps(file)},\n" for file in files)
        source = re.sub(rf"const {name} = \[[^\]]*\];", f"const {name} = [\n{listing}];", source)
    return re.sub(r'const VERSION = "\w*";', f'const VERSION = "{version_of(folder)}";', source)


def main(arguments: list[str]) -> int:
    checking = "--check" in arguments
    folder = next((Path(text) for text in arguments if text != "--check"), FRONTEND)
    if not checking and folder == FRONTEND:
        (folder / SAMPLE).write_text(sample_text(), "utf-8")
    source = (folder / WORKER).read_text("utf-8")
    wanted = stamped(source, folder)
    if not checking:
        (folder / WORKER).write_text(wanted, "utf-8")
    elif source != wanted:
        print("The page changed: run python -m tests.frontend.stamp", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
