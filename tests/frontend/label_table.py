"""Writes what a label needs of the table of substances for the page.

python -m tests.frontend.label_table
"""

from __future__ import annotations

import json
from pathlib import Path

from bench.substances.on_label import on_label
from bench.substances.table import former_allergens

PAGE = Path(__file__).parents[2] / "frontend" / "bench" / "label-table.js"
_HEAD = (
    "/** What the table of substances says of a name on a label. Written by `python -m tests.frontend.label_table`. */\n\n"
    "/**\n * @typedef {{us: string, eu: string, colour?: boolean, unlisted?: boolean, which?: boolean,\n"
    " *   foams?: boolean, peroxide?: boolean, eye?: number, skin?: number}} OnLabel\n */\n\n"
    "/** @type {{[name: string]: OnLabel}} */\nexport const ON_LABEL = {\n"
)


def page_text() -> str:
    """The module as the page is sent it, in the way the page is formatted."""
    return (
        f"{_HEAD}{''.join(_line(name, dict(row)) for name, row in on_label().items())}}};\n\n{_allergens()}"
    )


def _allergens() -> str:
    names = "".join(f"  {json.dumps(name)},\n" for name in sorted(former_allergens()))
    return f"/** Before Regulation (EU) 2023/1545, from memory. */\nexport const FORMER_ALLERGENS = [\n{names}];\n"


def _line(name: str, row: dict[str, object]) -> str:
    key = name if name.isidentifier() else f'"{name}"'
    parts = [f"{field}: {json.dumps(value)}" for field, value in row.items()]
    line = f"  {key}: {{ {', '.join(parts)} }},\n"
    if len(line) <= 111:
        return line
    return f"  {key}: {{\n{''.join(f'    {part},{chr(10)}' for part in parts)}  }},\n"


if __name__ == "__main__":
    PAGE.write_text(page_text(), "utf-8")
