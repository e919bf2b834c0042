"""Writes what the page needs of the table of laws and duties.

python -m tests.frontend.product_table
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from bench.product import all_duties, all_laws
from bench.sources import sources

PAGE = Path(__file__).parents[2] / "frontend" / "bench" / "product-table.js"
_HEAD = """/** Laws and duties, with the date of each source's text. Written by `python -m tests.frontend.product_table`. */

/** @import { Duty, Law } from "../../bench/shapes/page" */

"""


def page_text() -> str:
    """The module as the page is sent it, in the way the page is formatted."""
    duties, laws = _rows(all_duties()), _rows(all_laws())
    return (
        f"{_HEAD}/** @type {{readonly (Law & {{dated: string}})[]}} */\nexport const LAWS = [\n{laws}];\n\n"
        f"/** @type {{readonly (Duty & {{dated: string}})[]}} */\nexport const DUTIES = [\n{duties}];\n"
    )


def _rows(rows: Any) -> str:
    return "".join(_row({**row, "dated": sources()[row["source"]]["dated"]}) for row in rows)


def _row(row: dict[str, Any]) -> str:
    parts = [f"{field}: {json.dumps(value)}" for field, value in row.items()]
    line = f"  {{ {', '.join(parts)} }},\n"
    return line if len(line) <= 111 else f"  {{\n{''.join(f'    {part},{chr(10)}' for part in parts)}  }},\n"


if __name__ == "__main__":
    PAGE.write_text(page_text(), "utf-8")
