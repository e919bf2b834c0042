"""Lot-sizing problems with answers that others have printed.

Single items: numbers, set-up price, price of keeping one for a period, and the least price, as printed. The first is
that of H. M. Wagner and T. M. Whitin, "Dynamic version of the economic lot size model", Management Science 5 (1958);
the others stand in textbooks of operations research, as worked examples and problems. Each was recomputed by the
recursion of the paper, as the test does too.

Several items with set-up times and one capacity: the sets of W. W. Trigeiro, L. J. Thomas and J. O. McClain, "Capacitated
lot sizing with setup times", Management Science 35 (1989), state no licence and are read where they are at hand:
BOWLSIDE_LOTSIZING names a folder with `clsp/` and `optima.json`.
"""

from __future__ import annotations

import json
import os
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple

Json = dict[str, Any]

MILLI = 1000  # prices are whole: in thousandths


class Single(NamedTuple):
    name: str
    wanted: list[int]
    setup: list[int] | int
    hold: str
    least: str
    piece: int = 0
    most: int | None = None
    room: int | None = None


SINGLES = (
    Single(
        "Wagner and Whitin 1958",
        [69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56],
        [85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114],
        "1",
        "864",
    ),
    Single("twelve months", [10, 62, 12, 130, 154, 129, 88, 52, 124, 160, 238, 41], 54, "0.4", "501.2"),
    Single("ten weeks", [20, 50, 10, 50, 50, 10, 20, 40, 20, 30], 100, "1", "580"),
    Single("four periods", [90, 120, 80, 70], 500, "2", "1380"),
    Single("a large one among small", [8, 6, 200, 7, 9, 5], 60, "3", "234"),
    Single("five periods, both rules of thumb miss", [17, 25, 73, 113, 89], 116, "1", "462"),
    Single("five months", [730, 580, 445, 650, 880], 100, "0.1", "423"),
    Single("a room for four, five at most", [1, 3, 2, 4], 3, "0.5", "20", piece=1, most=5, room=4),
)


def problem_of(single: Single) -> Json:
    periods = len(single.wanted)
    setup = single.setup if isinstance(single.setup, list) else [single.setup] * periods
    item = {
        "wanted": single.wanted,
        "short": None,
        "ways": [
            {"gives": single.most, "price": [MILLI * each for each in setup], "uses": {}, "first": 0},
        ],
        "each": {},
        "piece_price": MILLI * single.piece,
        "hold_price": int(MILLI * Decimal(single.hold)),
        "keeps": None,
        "room": single.room,
    }
    return {"periods": periods, "items": [item], "limits": []}


def recursion(single: Single) -> Decimal:
    """The paper's recursion: the last batch covers some of the last periods, all before it is a smaller problem."""
    setup = single.setup if isinstance(single.setup, list) else [single.setup] * len(single.wanted)
    best = [Decimal(0)]
    for end in range(1, len(single.wanted) + 1):
        ways = []
        for begin in range(end):
            kept = sum(Decimal(single.hold) * (at - begin) * single.wanted[at] for at in range(begin, end))
            ways.append(best[begin] + setup[begin] + kept)
        best.append(min(ways))
    return best[-1]


def folder() -> Path | None:
    where = os.environ.get("BOWLSIDE_LOTSIZING")
    return Path(where) if where else None


def several() -> list[tuple[str, Json, int]]:
    """(name, problem, ten times the least price) of each set at hand, the smallest first."""
    where = folder()
    if where is None:
        return []
    optima = json.loads((where / "optima.json").read_text(encoding="utf-8"))["clsp"]
    found = [(name, _read(where / "clsp" / name), round(10 * least)) for name, least in optima.items()]
    return sorted(found, key=lambda each: (each[1]["periods"] * len(each[1]["items"]), each[0]))


def _read(path: Path) -> Json:
    """Rows: items and periods; a line of head; capacity; per item use a piece, keeping, set-up time, set-up price;
    then what is wanted, a row a period, of more than twelve items in two blocks."""
    rows = [line.split() for line in path.read_text(encoding="latin-1").splitlines() if line.split()]
    items, periods = int(rows[0][0]), int(rows[0][1])
    capacity = int(Decimal(rows[2][0]))
    heads = [[Decimal(each) for each in row] for row in rows[3 : 3 + items]]
    wanted = [[int(Decimal(each)) for each in row] for row in rows[3 + items : 3 + items + periods]]
    if len(wanted[0]) < items:
        more = rows[3 + items + periods : 3 + items + 2 * periods]
        wanted = [
            [*row, *(int(Decimal(each)) for each in rest)] for row, rest in zip(wanted, more, strict=True)
        ]
    found = []
    for place, (use, hold, time, price) in enumerate(heads):
        found.append(
            {
                "wanted": [row[place] for row in wanted],
                "short": None,
                "ways": [
                    {
                        "gives": None,
                        "price": [int(10 * price)] * periods,
                        "uses": {"time": int(10 * time)},
                        "first": 0,
                    }
                ],
                "each": {"time": int(10 * use)},
                "piece_price": 0,
                "hold_price": int(10 * hold),
                "keeps": None,
                "room": None,
            }
        )
    limits = [
        {"of": "time", "first": period, "last": period, "most": 10 * capacity} for period in range(periods)
    ]
    return {"periods": periods, "items": found, "limits": limits}
