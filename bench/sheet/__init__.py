"""The sheet: a recipe at one size for one kit. Every weight on a scale, every wait and burst.

A pure function of (measured recipe, size, kit): the same inputs give the same bytes here and in
`frontend/bench/sheet/`, so a run can start with no network. A sheet is never edited.

Ids say where a thing belongs: "base.1.dry" is the step `dry` of round 1 of the component `base`.
"""

from bench.sheet.former import open_sheet
from bench.sheet.making import make_sheet
from bench.sheet.sizes import choose_size
from bench.sheet.text import sheet_text

__all__ = ["choose_size", "make_sheet", "open_sheet", "sheet_text"]
