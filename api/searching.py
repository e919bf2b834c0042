"""How the database is asked for words: each must be somewhere in a row's folded text, on SQLite and PostgreSQL alike.

Both have an index of every three letters that follow each other (migration 0016). PostgreSQL takes it where that is
quicker. SQLite is told: of words that few rows have the index names the rows; else the rows are walked in the order in
which they are told, and enough are soon found. A word of one or two letters is in no index, and is walked for.
"""

from __future__ import annotations

import re

from sqlalchemy import Connection, text

import bench
from api.store import on_postgresql

LONGEST_SEARCH = 400
MAX_WORDS = 8
# The tables that are searched, and their keys.
INDEXED: dict[str, tuple[str, ...]] = {"run": ("id",), "recipe": ("id",), "run_note": ("run_id", "id")}
LETTERS = 3
FEW = 200
HOW_MANY = (
    "SELECT count(*) FROM (SELECT 1 FROM {table}_letters WHERE {table}_letters MATCH :letters LIMIT {most})"
)
ARE_AMONG = (
    "({keys}) IN (SELECT {keys} FROM {table}_letters CROSS JOIN {table}_place ON n = {table}_letters.rowid"
    " WHERE {table}_letters MATCH :letters)"
)


def kept_to_search(text: str, longest: int = LONGEST_SEARCH) -> str:
    """A row's text as it is searched."""
    return bench.folded(text)[:longest]


def words_of(asked: str) -> list[str]:
    return bench.folded(asked).split()[:MAX_WORDS]


def conditions(
    connection: Connection, table: str, words: list[str]
) -> tuple[list[str], dict[str, str | int]]:
    """The conditions on a table of `INDEXED`, and the values that they name."""
    named: dict[str, str | int] = {
        f"word_{place}": f"%{_literally(word)}%" for place, word in enumerate(words)
    }
    found = [f"search LIKE :{name} ESCAPE '!'" for name in named]
    letters = " ".join(_quoted(word) for word in words if len(word) >= LETTERS)
    if letters and not on_postgresql(connection) and _are_few(connection, table, letters):
        named["letters"] = letters
        found.append(ARE_AMONG.format(table=table, keys=", ".join(INDEXED[table])))
    return found, named


def _are_few(connection: Connection, table: str, letters: str) -> bool:
    asked = text(HOW_MANY.format(table=table, most=FEW + 1))
    return (connection.scalar(asked, {"letters": letters}) or 0) <= FEW


def _quoted(word: str) -> str:
    doubled = word.replace('"', '""')
    return f'"{doubled}"'


def _literally(word: str) -> str:
    return re.sub(r"([!%_])", r"!\1", word)
