"""Sheets of labels: their geometry, and where on which page each label comes. All in whole micrometres.

The common ones are named by their size alone; their margins are common practice, so a trial on plain paper tells.
The same as frontend/bench/label-sheets.js.
"""

from bench.shapes.record import LabelPlace, LabelSheet, Paper
from bench.whole import times
from bench.words import say

INCH_UM = 25_400
PAPERS: dict[Paper, tuple[int, int]] = {"a4": (210_000, 297_000), "letter": (215_900, 279_400)}
_SLACK_UM = 500  # a sheet that leaves no margin is cut so exactly, and its figures are rounded


def _sheet(
    paper: Paper,
    grid: tuple[int, int],
    label: tuple[int, int],
    first: tuple[int, int],
    pitch: tuple[int, int],
) -> LabelSheet:
    return {
        "name": f"{paper}-{grid[0]}x{grid[1]}",
        "paper": paper,
        "columns": grid[0],
        "rows": grid[1],
        "width_um": label[0],
        "height_um": label[1],
        "left_um": first[0],
        "top_um": first[1],
        "across_um": pitch[0],
        "down_um": pitch[1],
    }


COMMON: tuple[LabelSheet, ...] = (
    _sheet("a4", (2, 4), (99_100, 67_700), (4_650, 13_100), (101_600, 67_700)),
    _sheet("a4", (2, 7), (99_100, 38_100), (4_650, 15_150), (101_600, 38_100)),
    _sheet("a4", (3, 7), (63_500, 38_100), (7_200, 15_150), (66_040, 38_100)),
    _sheet("a4", (3, 8), (70_000, 37_000), (0, 500), (70_000, 37_000)),
    _sheet("a4", (5, 13), (38_100, 21_200), (4_750, 10_700), (40_640, 21_200)),
    _sheet("letter", (2, 5), (101_600, 50_800), (3_969, 12_700), (106_363, 50_800)),
    _sheet("letter", (3, 10), (66_675, 25_400), (4_763, 12_700), (69_850, 25_400)),
)


def sheet_title(sheet: LabelSheet) -> str:
    """A common sheet by its size; one of the maker's own by its name."""
    if sheet not in COMMON:
        return sheet["name"]
    is_metric = sheet["paper"] == "a4"
    width, height = (
        times(side, 1_000 if is_metric else INCH_UM) for side in (sheet["width_um"], sheet["height_um"])
    )
    return say(
        "label-sheet-title",
        columns=sheet["columns"],
        rows=sheet["rows"],
        width=width,
        height=height,
        paper=sheet["paper"],
    )


def sheet_fault(sheet: LabelSheet) -> str | None:
    """Why labels cannot lie so, as a code; None where they can."""
    width, height = PAPERS[sheet["paper"]]
    columns, rows = sheet["columns"], sheet["rows"]
    if columns > 1 and sheet["across_um"] < sheet["width_um"]:
        return "over_across"
    if rows > 1 and sheet["down_um"] < sheet["height_um"]:
        return "over_down"
    if sheet["left_um"] + (columns - 1) * sheet["across_um"] + sheet["width_um"] > width + _SLACK_UM:
        return "too_wide"
    if sheet["top_um"] + (rows - 1) * sheet["down_um"] + sheet["height_um"] > height + _SLACK_UM:
        return "too_high"
    return None


def label_places(sheet: LabelSheet, start: int, count: int) -> list[list[LabelPlace]]:
    """Where so many labels come, page by page, row by row; on the first page from the start position, from 1."""
    each = sheet["columns"] * sheet["rows"]
    first = min(max(start, 1), each) - 1
    pages: list[list[LabelPlace]] = []
    for place in range(first, first + count):
        page, at = divmod(place, each)
        row, column = divmod(at, sheet["columns"])
        if page == len(pages):
            pages.append([])
        pages[page].append(
            {
                "x_um": sheet["left_um"] + column * sheet["across_um"],
                "y_um": sheet["top_um"] + row * sheet["down_um"],
            }
        )
    return pages
