"""Whether the API does what its document says, tried with other examples for minutes."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time

from tests.perf.registry import figure
from tests.servers import ROOT

MINUTES = 3
SAID = re.compile(r"(\d+) (passed|failed|error)")


@figure("Schemathesis, all checks, 3 minutes of examples that nobody chose: failures", "<= 0")
def failures_of_the_document() -> float:
    """Rounds over all operations, as nobody who needs to pair and as a paired maker, each round by another seed."""
    ends, failures, seed = time.monotonic() + MINUTES * 60, 0, int(time.time())
    while time.monotonic() < ends:
        seed += 1
        ran = subprocess.run(
            [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", f"--hypothesis-seed={seed}",
             "--tb=short", "tests/api/test_schemathesis.py"],
            cwd=ROOT,
            env={**os.environ, "BOWLSIDE_EXAMPLES_AT_RANDOM": "1", "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
        )  # fmt: skip
        counts = {word: int(number) for number, word in SAID.findall(ran.stdout)}
        wrong = counts.get("failed", 0) + counts.get("error", 0)
        if wrong or not counts.get("passed"):
            print(f"seed {seed}:\n{ran.stdout[-6000:]}{ran.stderr[-2000:]}", file=sys.stderr)
        failures += wrong or int(not counts.get("passed"))
    return failures
