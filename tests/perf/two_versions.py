"""The bench's arithmetic in two versions, timed in turn in one run: this checkout and another beside it.

    git worktree add ../former ec4e669
    python -m tests.perf.two_versions ../former

A figure is the median of this version's time over the other's, each the processor's time of a process of its own
(`one_version.py`) that imports `bench` from its checkout. One above 1 fails.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tests.make import make_entry, make_recipe, uuid4

HERE = Path(__file__).resolve()
ROUNDS = 21
FIGURES = {"sheet": "sheet of 400 lines", "fold": "fold of 10,000 entries", "record": "record of 500 entries"}


def given() -> dict[str, Any]:
    """What both versions are given: documents as written, and a journal for a sheet of 40 lines."""
    run = uuid4()

    def entries(count: int) -> list[dict[str, Any]]:
        return [
            make_entry(run, at=at, kind="weighed", body={"line": f"soak.1.line_{at % 40}", "mg": 1000})
            for at in range(count)
        ]

    return {
        "long": make_recipe(lines=400),
        "short": make_recipe(lines=40),
        "kit": {
            "format": "bowlside-kit/1",
            "scales": [{"id": "kitchen", "name": "Kitchen scale", "capacity": "50 kg", "division": "1 g"}],
        },
        "many": entries(10_000),
        "some": entries(500),
    }


@contextmanager
def version(checkout: Path, file: Path) -> Iterator[subprocess.Popen[str]]:
    process = subprocess.Popen(
        [sys.executable, HERE.with_name("one_version.py"), file],
        cwd=checkout,
        env={**os.environ, "PYTHONPATH": str(checkout)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with process:
        yield process
        assert process.stdin
        process.stdin.close()


def seconds(process: subprocess.Popen[str], name: str) -> float:
    assert process.stdin and process.stdout
    print(name, file=process.stdin, flush=True)
    return float(process.stdout.readline())


def main(other: Path) -> int:
    most = 0.0
    with TemporaryDirectory() as directory:
        file = Path(directory) / "given.json"
        file.write_text(json.dumps(given()), encoding="utf-8")
        with version(HERE.parents[2], file) as ours, version(other.resolve(), file) as theirs:
            for name, title in FIGURES.items():
                value = statistics.median(seconds(ours, name) / seconds(theirs, name) for _ in range(ROUNDS))
                most = max(most, value)
                figure = f"{title}, time against the other version"
                print(json.dumps({"figure": figure, "value": round(value, 3), "must": "<= 1"}), flush=True)
    return 0 if most <= 1 else 1


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
