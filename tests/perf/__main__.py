"""Takes the figures and prints one JSON object a line; exit code 1 when one does not hold."""

from __future__ import annotations

import importlib
import json
import sys

from tests.perf.registry import FIGURES

MODULES = (
    "http_figures",
    "crowd_figures",
    "growth_figures",
    "stranger_figures",
    "helper_figures",
    "record_figures",
    "copies_figures",
    "bench_figures",
    "check_figures",
    "document_figures",
    "planning_figures",
    "week_figures",
    "browser_figures",
    "paint_figures",
    "touch_figures",
    "key_figures",
    "soak_figures",
)


def main(wanted: list[str]) -> int:
    """Take all figures, or those whose name contains one of the words given."""
    for module in MODULES:
        importlib.import_module(f"tests.perf.{module}")
    all_hold = True
    for figure in FIGURES:
        if wanted and not any(word in figure.name for word in wanted):
            continue
        value = figure.take()
        holds = figure.holds(value)
        all_hold = all_hold and holds
        line = {"figure": figure.name, "value": round(value, 3), "must": figure.must, "holds": holds}
        print(json.dumps(line), flush=True)
    return 0 if all_hold else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
