"""How the database is asked for words: each must be somewhere in a row's folded text, on SQLite and PostgreSQL alike."""

from __future__ import annotations

import re

import bench

LONGEST_SEARCH = 400
MAX_WORDS = 8


def kept_to_search(text: str, longest: int = LONGEST_SEARCH) -> str:
    """A row's text as it is searched."""
    return bench.folded(text)[:longest]


def words_of(asked: str) -> list[str]:
    return bench.folded(asked).split()[:MAX_WORDS]


def conditions(words: list[str]) -> tuple[list[str], dict[str, str | int]]:
    """The conditions on a table's column `search`, and the values that they name."""
    named: dict[str, str | int] = {
        f"word_{place}": f"%{_literally(word)}%" for place, word in enumerate(words)
    }
    return [f"search LIKE :{name} ESCAPE '!'" for name in named], named


def _literally(word: str) -> str:
    return re.sub(r"([!%_])", r"!\1", word)
