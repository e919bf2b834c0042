"""What becomes of ten thousand touches in a real browser, while saves hang, answers are slow and the maker goes back."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.frontend.touching import touch_at_random
from tests.perf.browser_figures import page_at
from tests.perf.registry import figure
from tests.servers import bowlside

TOUCHES = int(os.environ.get("TOUCHES", "10000"))
A_PAGE = 1_000


@figure("touches lost in 10,000 random touches, saves, slow answers, Backs and rounds", "<= 0")
def touches_lost() -> float:
    """Each page has four batches, and the touches of one seed; what a seed lost is told with it."""
    lost = 0
    for seed in range(1, 1 + TOUCHES // A_PAGE):
        with TemporaryDirectory() as folder:
            server = bowlside(Path(folder) / "studio.sqlite3").start()
            try:
                with page_at(server.url) as page:
                    told = touch_at_random(page, server, A_PAGE, seed)
            finally:
                server.stop()
        gone = told["lost"] + told["missing"] + told["added"]
        lost += len(gone)
        if gone:
            print(json.dumps({"seed": seed, **told}), file=sys.stderr)
    return lost
