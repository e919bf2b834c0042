"""The pages that explain must not fall behind: commands, settings, kinds of entry and of step."""

from __future__ import annotations

import re
from dataclasses import fields
from typing import get_args

import pytest

import bench
from api.cli import main
from api.settings import Settings, environment_name
from bench.shapes.recipe import StepKind
from tests.servers import ROOT

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")


@pytest.mark.parametrize("command", sorted(main.commands))
def test_the_readme_names_every_command(command: str) -> None:
    assert re.search(rf"^bowlside {command}\b", README, re.MULTILINE)


@pytest.mark.parametrize("setting", [name for each in fields(Settings) if (name := environment_name(each))])
def test_the_guide_names_every_setting(setting: str) -> None:
    assert f"`{setting}`" in DEVELOPERS


def test_the_guide_lists_the_kinds_of_entry_and_no_others() -> None:
    table = DEVELOPERS.split("| kind | what happened |")[1].split("\n\n")[0]

    assert re.findall(r"^\| `(\w+)` \|", table, re.MULTILINE) == list(bench.KINDS)


@pytest.mark.parametrize("kind", get_args(StepKind))
def test_the_guide_names_every_kind_of_step(kind: str) -> None:
    assert f"`{kind}`" in DEVELOPERS.split("Kinds of step:")[1].split("\n\n")[0]


def test_what_the_pages_point_to_is_there() -> None:
    links = re.findall(r"\]\(([^)#]+)\)", README + DEVELOPERS)

    assert [link for link in links if "://" not in link and not (ROOT / link).exists()] == []
