"""A thousand applications of a run have the same addresses: what writes one out is compiled for the first alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from werkzeug.routing import Rule


def compile_once() -> None:
    """From now on, in this process: half of what an application takes to be made."""
    compiled, known = Rule._compile_builder, dict[tuple[str, str, bool], Callable[..., Any]]()

    def once(rule: Rule, append_unknown: bool = True) -> Callable[..., Any]:
        # It is bound to its rule after this, and asks that for its converters.
        key = (rule.rule, repr(rule.defaults), append_unknown)
        if key not in known:
            known[key] = compiled(rule, append_unknown)
        return known[key]

    Rule._compile_builder = once  # type: ignore[method-assign]
