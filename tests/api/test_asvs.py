"""The guide's table of what was hardened, and the tests it points to."""

from __future__ import annotations

import re

import pytest

from tests.servers import ROOT

TABLE = (ROOT / "DEVELOPERS.md").read_text("utf-8").split("## Hardening")[1].split("\n## ")[0]
ROWS = re.findall(r"^\| ((?:\d+\.){2}\d+|none) \|(.*)\| `(\w+)` \|$", TABLE, re.MULTILINE)
TESTS = {
    name
    for file in (ROOT / "tests").rglob("test_*.py")
    for name in re.findall(r"^def (test_\w+)", file.read_text("utf-8"), re.MULTILINE)
}


def test_every_row_can_be_read_and_no_number_comes_twice() -> None:
    numbers = [number for number, _, _ in ROWS]

    assert len(ROWS) == TABLE.count("\n| ") - 2  # the heading and its rule
    assert len(numbers) == len(set(numbers)) >= 60
    assert numbers[:-1] == sorted(numbers[:-1], key=lambda each: [int(part) for part in each.split(".")])


@pytest.mark.parametrize(("number", "test"), [(number, test) for number, _, test in ROWS])
def test_the_test_that_a_row_names_is_there(number: str, test: str) -> None:
    assert test in TESTS


def test_the_words_that_are_not_ours_to_say_are_not_said() -> None:
    assert not re.search(r"\b(safe|secure|compliant)\b", TABLE.replace("Secure cookie", ""))
