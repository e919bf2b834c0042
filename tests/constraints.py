"""Writes constraints.txt, the very versions that the tests of this commit ran with: `python -m tests.constraints`.

What is put on a server is installed with it (Dockerfile), so that two images of one commit are the same. It
says nothing of what a change is made with: pyproject.toml does, in ranges.
"""

from __future__ import annotations

import re
import sys
import tomllib
from importlib.metadata import PackageNotFoundError, distribution

from packaging.requirements import Requirement

from tests.servers import ROOT

FILE = ROOT / "constraints.txt"
EXTRAS = ("shared", "plan")


def wanted() -> list[Requirement]:
    """What a server is installed with, as pyproject.toml has it."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = [each for extra in EXTRAS for each in project["optional-dependencies"][extra]]
    return [Requirement(each) for each in (*project["dependencies"], *extras)]


def name_of(written: str) -> str:
    return re.sub(r"[-_.]+", "-", written).lower()


def pinned() -> dict[str, str]:
    """What constraints.txt says: name -> version."""
    lines = FILE.read_text("utf-8").splitlines()
    return dict(line.split("==") for line in lines if line and not line.startswith("#"))


def closure() -> dict[str, str]:
    """All that comes along, as it is installed here."""
    found: dict[str, str] = {}
    todo = [(each, extra) for each in wanted() for extra in (each.extras or {""})]
    seen: set[tuple[str, str]] = set()
    while todo:
        asked, extra = todo.pop()
        key = (name_of(asked.name), extra)
        if key in seen or (asked.marker and not asked.marker.evaluate({"extra": extra})):
            continue
        seen.add(key)
        try:
            here = distribution(asked.name)
        except PackageNotFoundError:
            continue  # for another machine than this one
        found[key[0]] = here.version
        for each in here.requires or []:
            need = Requirement(each)
            if not need.marker or need.marker.evaluate({"extra": extra}):
                todo += [(Requirement(re.split(";", each)[0]), inner) for inner in (need.extras or {""})]
    return dict(sorted(found.items()))


def text() -> str:
    lines = (f"{name}=={version}" for name, version in closure().items())
    return "\n".join(["# Written by python -m tests.constraints", *lines, ""])


if __name__ == "__main__":
    FILE.write_text(text(), "utf-8")
    print(f"{FILE.name}: {len(closure())} packages", file=sys.stderr)
