"""Where a rule or a figure is from: in words, of what date its text is, and how that was read.

    cited("ifra-51")     {"source": "IFRA Standards, 51st Amendment …", "dated": "2023-06-30"}

`sources.json` has a row for each. `dated` is the day, month or year of the text that was read, "unknown" where it says
none, "" where there is no text. `read` says how: "text" in the text itself, "copy" in somebody's copy of it, "second-hand" as another quotes it,
"memory", "practice" (common in the trade), "maker" (the maker's own papers) or "own" (how this program works).
"""

from typing import Literal, TypedDict, cast

from bench.lists import kept
from bench.table import read_table
from bench.words import say


class Source(TypedDict):
    dated: str
    read: Literal["text", "copy", "second-hand", "memory", "practice", "maker", "own"]


class Cited(TypedDict):
    source: str
    dated: str


@kept
def sources() -> dict[str, Source]:
    return cast(dict[str, Source], read_table("sources.json"))


def cited(id_: str, worded: str = "") -> Cited:
    """worded: its words where they say more than the table can, as which category or which section.

    KeyError: there is none of that id.
    """
    dated = sources()[id_]["dated"]
    return {"source": worded or say(f"sources-{id_}"), "dated": dated}
