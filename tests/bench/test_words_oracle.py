"""The catalogues, said by another: fluent.runtime, of those who made the syntax, words each message as ours does."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest
from fluent.runtime import FluentBundle, FluentResource

from bench import words
from bench.words.catalogue import Pattern

TEXT = "Cocoa butter"
COUNTS = (0, 1, 2, 999)  # from ten thousand on ours has thin spaces, and theirs the commas of its language
PLURALS = {"zero", "one", "two", "few", "many"}


def choices(pattern: Pattern) -> Iterator[tuple[str, list[str | int]]]:
    """Each argument, with what is worth giving: every code that a choice names, and one of which it knows nothing."""
    for part in pattern if isinstance(pattern, list) else []:
        if isinstance(part, str):
            continue
        name, variants = part[0], part[1] if len(part) > 1 else None
        assert isinstance(name, str)
        if not isinstance(variants, dict):
            yield name, []
            continue
        counts = any(key.isdigit() or key in PLURALS for key in variants)
        yield name, [*COUNTS] if counts else [*variants, "of a later version"]
        for each in variants.values():
            yield from choices(each)


def arguments(pattern: Pattern) -> Iterator[dict[str, str | int]]:
    found: dict[str, dict[str | int, None]] = {}
    for name, values in choices(pattern):
        found.setdefault(name, {}).update(dict.fromkeys(values))
    for values in product(*(each or (TEXT, 8) for each in found.values())):
        yield dict(zip(found, values, strict=True))


@pytest.mark.parametrize("tag", words.languages())
def test_another_reader_of_the_syntax_says_each_message_the_same(tag: str) -> None:
    tongue = words.language(tag)
    theirs = FluentBundle([tag], use_isolating=False)
    for source in tongue.sources.values():
        theirs.add_resource(FluentResource(source), allow_overrides=False)

    said = 0
    for key in sorted(tongue.keys()):
        for values in arguments(tongue.pattern(key)):
            wanted, faults = theirs.format_pattern(theirs.get_message(key).value, values)
            assert not faults, key
            assert tongue.messages[key](values) == " ".join(wanted.split("\n")), (key, values)
            said += 1
    assert said > len(tongue.keys())
