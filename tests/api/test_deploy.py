"""What is written down for servers must exist: commands, options, settings, files, volumes."""

from __future__ import annotations

import re
import shutil
import subprocess
from configparser import ConfigParser
from dataclasses import fields
from pathlib import Path
from typing import Any

import click
import pytest
import yaml
from sqlalchemy import make_url

from api.cli import main
from api.settings import Settings, environment_name
from tests.constraints import name_of, pinned, wanted
from tests.servers import ROOT

COMPOSE_TEXT, DOCKERFILE, UNIT = (
    (ROOT / name).read_text("utf-8") for name in ("compose.yaml", "Dockerfile", "bowlside.service")
)
COMPOSE: dict[str, Any] = yaml.safe_load(COMPOSE_TEXT)
SETTINGS = {name for each in fields(Settings) if (name := environment_name(each))}
DRIVERS_OWN = {"PGPASSWORD", "PYTHONUNBUFFERED"}


def unit() -> ConfigParser:
    parser = ConfigParser(interpolation=None)
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read_string(UNIT)
    return parser


def parsed(words: list[str]) -> click.Context:
    """A command line as the program reads it, without doing it; a wrong one raises click's UsageError."""
    return main.commands[words[0]].make_context(words[0], words[1:])


def test_the_commands_that_servers_start_are_commands() -> None:
    program, *unit_words = unit()["Service"]["ExecStart"].split()

    assert Path(program).name == "bowlside"
    assert parsed(unit_words).params["lan"]
    assert parsed(COMPOSE["services"]["bowlside"]["command"]).params["behind_proxy"]
    assert parsed(re.findall(r'"([^"]+)"', re.search(r"^CMD (.*)$", DOCKERFILE, re.MULTILINE)[1]))  # type: ignore[index]
    assert 'ENTRYPOINT ["bowlside"]' in DOCKERFILE


@pytest.mark.parametrize("text", [COMPOSE_TEXT, UNIT], ids=["compose.yaml", "bowlside.service"])
def test_the_commands_in_the_remarks_are_commands(text: str) -> None:
    remarks = " ".join(line.lstrip("# ") for line in text.splitlines() if line.startswith("#"))
    named = re.findall(r"(?:bowlside|\\) (pair|backup|restore|verify|move)\b|`(serve) ", remarks)

    assert named
    assert {first or second for first, second in named} <= set(main.commands)


def test_the_variables_that_servers_set_are_settings() -> None:
    service = unit()["Service"]["Environment"].split()
    given = {
        *COMPOSE["services"]["bowlside"]["environment"],
        *(each.partition("=")[0] for each in service),
        *re.findall(r"^ENV (\w+)=", DOCKERFILE, re.MULTILINE),
        *re.findall(r"\b(BOWLSIDE_[A-Z_]+)", COMPOSE_TEXT + UNIT),
    }

    assert given <= SETTINGS | DRIVERS_OWN


def test_the_composed_settings_are_taken_as_they_are() -> None:
    environment = {key: str(value) for key, value in COMPOSE["services"]["bowlside"]["environment"].items()}

    settings = Settings.from_environ(environment)

    assert settings.workers >= 2
    assert settings.proxies == 1
    address = make_url(settings.database_uri)
    postgres = COMPOSE["services"]["database"]["environment"]
    assert (address.host, address.username, address.database, address.password) == (
        "database",
        postgres["POSTGRES_USER"],
        postgres["POSTGRES_DB"],
        None,
    )


def test_the_composition_holds_together() -> None:
    services, bowlside = COMPOSE["services"], COMPOSE["services"]["bowlside"]
    mounts = [each.split(":") for service in services.values() for each in service["volumes"]]

    assert {name for name, _ in mounts} == set(COMPOSE["volumes"])
    assert set(bowlside["depends_on"]) <= set(services)
    assert bowlside["depends_on"]["database"]["condition"] == "service_healthy"
    assert services["database"]["healthcheck"]["test"][1] == "pg_isready"
    # Only this machine reaches the port: TLS is the proxy's.
    assert bowlside["ports"] == [f"127.0.0.1:{Settings().port}:{Settings().port}"]
    # What is lost when a container is, lies on a volume.
    assert dict(mounts)["studio"] == str(Path(re.search(r"DATABASE=(\S+)", DOCKERFILE)[1]).parent)  # type: ignore[index]


def test_the_image_is_made_of_files_that_are_here() -> None:
    for words in re.findall(r"^COPY (.*)$", DOCKERFILE, re.MULTILINE):
        for name in words.split()[:-1]:
            assert (ROOT / name).exists()


def test_images_are_of_one_patch_release_and_installed_as_they_were_tried() -> None:
    images = [*re.findall(r"^FROM (\S+)", DOCKERFILE, re.MULTILINE), COMPOSE["services"]["database"]["image"]]

    assert all(re.fullmatch(r"[a-z]+:\d+\.\d+[\w.]*-\w[\w-]*", each) for each in images), images
    assert "--constraint /source/constraints.txt" in DOCKERFILE


def test_what_a_server_is_installed_with_is_written_down_to_the_version() -> None:
    """A new dependency, or another range: python -m tests.constraints writes them anew."""
    versions = pinned()

    assert len(versions) > 40
    for each in wanted():
        assert each.specifier.contains(versions[name_of(each.name)]), each


@pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="no systemd on this machine")
def test_systemd_finds_no_fault_in_the_unit(tmp_path: Path) -> None:
    # The program is installed elsewhere than here; everything else is judged as written.
    unit_file = tmp_path / "bowlside.service"
    unit_file.write_text(UNIT.replace("/opt/bowlside/bin/bowlside", "/bin/true"))

    said = subprocess.run(["systemd-analyze", "verify", str(unit_file)], capture_output=True, text=True)

    assert "bowlside.service" not in said.stderr, said.stderr
