"""The guide's table of what was hardened, and the tests it points to: each fails when its row's defence is out."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from typing import Any

import pytest

from tests.api.defences import DEFENCES, STANDING, TOLD
from tests.servers import ROOT

TABLE = (ROOT / "DEVELOPERS.md").read_text("utf-8").split("## Hardening")[1].split("\n## ")[0]
ROWS = re.findall(r"^\| ((?:\d+\.){2}\d+|none) \|(.*)\| `(\w+)` \|$", TABLE, re.MULTILINE)
FILES = {
    name: file
    for file in (ROOT / "tests").rglob("test_*.py")
    for name in re.findall(r"^def (test_\w+)", file.read_text("utf-8"), re.MULTILINE)
}
WITHIN_SECONDS = 600


def test_every_row_can_be_read_and_no_number_comes_twice() -> None:
    numbers = [number for number, _, _ in ROWS]

    assert len(ROWS) == TABLE.count("\n| ") - 2  # the heading and its rule
    assert len(numbers) == len(set(numbers)) >= 60
    assert numbers[:-1] == sorted(numbers[:-1], key=lambda each: [int(part) for part in each.split(".")])


@pytest.mark.parametrize(("number", "test"), [(number, test) for number, _, test in ROWS])
def test_the_test_that_a_row_names_is_there(number: str, test: str) -> None:
    assert test in FILES
    assert number in STANDING or DEFENCES[number].test == test


def test_what_holds_each_row_is_taken_out_or_it_is_said_why_not() -> None:
    numbers = [number for number, _, _ in ROWS]

    assert sorted([*DEFENCES, *STANDING]) == sorted(numbers)
    assert len(STANDING) <= 5 and all(STANDING.values())


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[dict[str, Any]]]:
    """How the tests of all rows went in a run of their own, each with its row's defence out; by row."""
    file = tmp_path_factory.mktemp("defences") / "told.jsonl"
    asked = {f"{FILES[each.test]}::{each.test}" for each in DEFENCES.values()}
    command = [sys.executable, "-m", "pytest", "-p", "tests.api.defences", "-p", "no:cacheprovider", "-q"]
    command += ["-k", "not postgresql"]  # a defence is in front of any database
    environment = {**os.environ, TOLD: str(file), "PYTHONPATH": os.pathsep.join([str(ROOT), *sys.path])}
    environment.pop("PYTEST_XDIST_WORKER", None)
    ran = subprocess.run(
        [*command, "--tb=no", *sorted(asked)],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        timeout=WITHIN_SECONDS,
    )
    assert file.exists(), ran.stdout[-3000:] + ran.stderr[-3000:]
    found: dict[str, list[dict[str, Any]]] = {}
    for line in file.read_text("utf-8").splitlines():
        outcome = json.loads(line)
        found.setdefault(outcome["row"], []).append(outcome)
    return found


@pytest.mark.thorough
@pytest.mark.parametrize("number", DEFENCES)
def test_without_what_holds_a_row_its_test_fails(number: str, told: dict[str, list[dict[str, Any]]]) -> None:
    outcomes = told.get(number, [])

    assert outcomes, "the test was not run"
    assert all(each["fails"] for each in outcomes), outcomes


def test_the_words_that_are_not_ours_to_say_are_not_said() -> None:
    assert not re.search(r"\b(safe|secure|compliant)\b", TABLE.replace("Secure cookie", ""))
