"""The commands of the door: make a code, list the devices, shut one out. For whoever sits at the computer.

They change the database alone, so they hold at once for a server that is running.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from api.cli.opening import database_option, open_app
from api.cli.spoken import command, option
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask
    from sqlalchemy import Connection

    from api.answers import Role
    from api.door.gate import DeviceRow
    from api.settings import Settings


@command("pair")
@option("--helper", is_flag=True, help="helper")
@option("--port", type=click.IntRange(1, 65535), help="port-of-server")
@database_option
def pair(helper: bool, port: int | None, database: Path | None) -> None:
    """Make a code that lets one device in, good for ten minutes."""
    app = open_app(database, port=port)
    show_code(app, "helper" if helper else "maker", _address(app.config["BOWLSIDE"]))


@command("devices")
@database_option
def devices(database: Path | None) -> None:
    """List the devices that were paired, and when each was last seen."""
    from bench import words

    with _transaction(database) as connection:
        from api.door.devices import all_devices

        known = all_devices(connection)
        if not known:
            say(words.say("cli-door-no-devices"))
        for device in known:
            if device.shut_out_at:
                seen = words.say("cli-door-shut-out-at", at=_day(device.shut_out_at))
            else:
                seen = words.say("cli-door-seen", at=_day(device.seen_at))
            say(f"{device.id}  {words.say('cli-door-role', role=device.role)}  {seen}  {device.name}")


@command("shut-out")
@click.argument("device")
@database_option
def shut_out(device: str, database: Path | None) -> None:
    """Shut a device out, by its name or its id, the only maker's too."""
    from bench import words

    with _transaction(database) as connection:
        from api.clock import now_ms
        from api.door.devices import all_devices, shut

        found = [each for each in all_devices(connection) if device in (each.id, each.name)]
        inside = [each for each in found if each.shut_out_at is None]
        if len(inside) != 1:
            say(_which(device, found, inside), err=True)
            sys.exit(1)
        shut(connection, inside[0], now_ms())
    say(words.say("cli-door-is-shut-out", name=inside[0].name))


@command("audit")
@option("--what", help="what")
@option("--since", type=click.DateTime(["%Y-%m-%d"]), help="since")
@option("--most", type=click.IntRange(1), default=100, help="most")
@database_option
def audit(what: str | None, since: datetime | None, most: int, database: Path | None) -> None:
    """Say what was done to the studio, by whom and when: the newest first."""
    from api.audit import read
    from api.store import reading

    from_ms = int(since.replace(tzinfo=UTC).timestamp() * 1000) if since else None
    with open_app(database).app_context(), reading() as connection:
        for row in read(connection, most, what=what, since=from_ms):
            say(f"{_day(row['at'])}  {row['who']} {row['says']}")


COMMANDS = (pair, devices, shut_out, audit)


def show_first_code(app: Flask, studio: str) -> None:
    """When a studio that pairs has no maker's device yet: the code for the first one."""
    with app.app_context():
        from api.door.devices import is_there_a_maker
        from api.store import reading

        with reading() as connection:
            if is_there_a_maker(connection):
                return
    show_code(app, "maker", studio)


def show_code(app: Flask, role: Role, studio: str) -> None:
    """Make a code and show it in the terminal, as text and as a QR code of its address."""
    import segno

    from api.clock import now_ms
    from api.door.pairing import address_of, make_code
    from api.store import writing
    from bench import words

    with app.app_context(), writing() as connection:
        code = make_code(connection, role, now_ms())
    address = address_of(studio, code)
    grouped = f"{code.digits[:4]}-{code.digits[4:]}"
    say(words.say("cli-door-pair", role=role, address=f"{studio}pair", code=grouped))
    segno.make(address, micro=False).terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()


def _address(settings: Settings) -> str:
    """Where devices reach the studio: by its own names, or by the proxy's."""
    from api.door.opening import addresses

    if settings.proxies and settings.hosts:
        return f"https://{settings.hosts[0]}/"
    return addresses(settings, settings.port)[0]


def _day(ms: int) -> str:
    return f"{datetime.fromtimestamp(ms / 1000, UTC):%Y-%m-%d %H:%M} UTC"


def _which(device: str, found: list[DeviceRow], inside: list[DeviceRow]) -> str:
    from bench import words

    if inside:
        ids = ", ".join(each.id for each in inside)
        return f"{words.say('cli-door-several', count=len(inside), name=device)} {ids}"
    if found:
        return words.say("cli-door-shut-out-already", name=device)
    return words.say("cli-door-none", name=device)


@contextmanager
def _transaction(database: Path | None) -> Iterator[Connection]:
    from api.store import writing

    with open_app(database).app_context(), writing() as connection:
        yield connection
