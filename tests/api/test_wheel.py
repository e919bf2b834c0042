"""A wheel built from the tree and installed into an environment of its own serves the page and the demo.

That environment is clean in `make chaos`. In `make test` it is lent what our own has, which saves to install it all;
nothing of the tree, for what is lent so is no place where an editable install is looked up.
"""

from __future__ import annotations

import re
import subprocess
import sys
import sysconfig
import urllib.request
import venv
from pathlib import Path

import pytest

from api import page_words
from tests.often import IS_CHAOS
from tests.servers import ROOT

pytestmark = pytest.mark.slow


def test_an_installed_wheel_serves_the_page_and_the_demo(tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", tmp_path, ROOT],
        check=True,
        capture_output=True,
    )
    wheel = next(tmp_path.glob("bowlside-*.whl"))
    venv.create(tmp_path / "clean")
    binaries = tmp_path / "clean" / "bin"
    into_it = [sys.executable, "-m", "pip", "--python", binaries / "python", "install", "--quiet"]
    if not IS_CHAOS:
        into_it.append("--no-deps")
        (lent_to,) = (tmp_path / "clean").glob("lib/python*/site-packages")
        (lent_to / "lent.pth").write_text(sysconfig.get_path("purelib"), "utf-8")
    subprocess.run([*into_it, "--no-compile", wheel], check=True)
    asked = [binaries / "python", "-c", "import api; print(api.__file__)"]
    where = subprocess.run(asked, cwd=tmp_path, check=True, capture_output=True, text=True).stdout
    assert Path(where).is_relative_to(tmp_path / "clean")

    server = subprocess.Popen(
        [binaries / "bowlside", "serve", "--demo", "--port", "0"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert server.stdout is not None
        url = next(
            found.group() for line in server.stdout if (found := re.search(r"http://[\d.]+:\d+/", line))
        )
        page = urllib.request.urlopen(url).read()
        recipes = urllib.request.urlopen(f"{url}api/v1/recipes").read()
    finally:
        server.terminate()
        server.wait(timeout=30)

    assert page.decode() == page_words.as_it_is(ROOT / "frontend" / "index.html")
    assert b'"total":5' in recipes
