"""A thousand applications of a run are alike: what is worked out for the first of them alone, the others are given.

They have the same addresses, and ask their databases the same questions in the same words.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any

from sqlalchemy import Engine
from sqlalchemy.util import LRUCache
from werkzeug.routing import Rule
from werkzeug.routing.rules import RulePart

STATEMENTS = 5000


def compile_once() -> None:
    """From now on, in this process: half of what an application takes to be made, and to be asked at first."""
    _built_once()
    _read_once()
    _worded_once()


def _built_once() -> None:
    """What writes an address out."""
    compiled, known = Rule._compile_builder, dict[tuple[str, str, bool], Callable[..., Any]]()

    def once(rule: Rule, append_unknown: bool = True) -> Callable[..., Any]:
        # It is bound to its rule after this, and asks that for its converters.
        key = (rule.rule, repr(rule.defaults), append_unknown)
        if key not in known:
            known[key] = compiled(rule, append_unknown)
        return known[key]

    Rule._compile_builder = once  # type: ignore[method-assign]


def _read_once() -> None:
    """What an address is read by. Its converters know the application, so those that have some are read each time."""
    parsed, known = Rule._parse_rule, dict[str, tuple[list[RulePart], list[tuple[bool, str]]]]()

    def once(rule: Rule, text: str) -> list[RulePart]:
        if text not in known:
            before = len(rule._trace)
            parts = list(parsed(rule, text))
            if rule._converters:
                return parts
            known[text] = parts, rule._trace[before:]
            return parts
        parts, trace = known[text]
        rule._trace += trace
        return parts

    Rule._parse_rule = once  # type: ignore[method-assign]


class OfAll(LRUCache[Any, Any]):
    """Statements as they are compiled, for all databases of a kind."""

    @staticmethod
    def _alike(key: tuple[Any, ...]) -> Hashable:
        dialect, *more = key
        return (type(dialect), *more)

    def get(self, key: Any, default: Any = None) -> Any:
        return super().get(self._alike(key), default)

    def __getitem__(self, key: Any) -> Any:
        return super().__getitem__(self._alike(key))

    def __setitem__(self, key: Any, value: Any) -> None:
        super().__setitem__(self._alike(key), value)


def _worded_once() -> None:
    """How a statement is said to a database. An engine that makes a store of its own for it is given this one."""
    all_of_them = OfAll(STATEMENTS)
    Engine._compiled_cache = property(lambda _: all_of_them, lambda _, its_own: None)  # type: ignore[assignment]
