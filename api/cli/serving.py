"""The command that serves, and what it says when it does."""

from __future__ import annotations

import errno
import sys
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING

import click

from api.cli.door import show_first_code
from api.cli.opening import database_option, open_app, report, stop
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask

    from api.door.opening import Studio
    from api.settings import Settings


@click.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), help="Else BOWLSIDE_PORT, else 8420; 0 takes a free one."
)
@database_option
@click.option("--demo", is_flag=True, help="Fill an empty database with the demo studio.")
@click.option("--lan", is_flag=True, help="Open the studio to paired devices on this network, by TLS.")
@click.option(
    "--landing-port", type=click.IntRange(0, 65535), help="With --lan: the page that says how to trust it."
)
@click.option(
    "--listen", metavar="ADDRESS", help="With --lan or --behind-proxy: listen on this address and no other."
)
@click.option(
    "--behind-proxy", is_flag=True, help="Paired devices come through a proxy (BOWLSIDE_PROXIES of them)."
)
@click.option(
    "--workers", type=click.IntRange(1, 64), help="How many processes answer; else BOWLSIDE_WORKERS, else 1."
)
def serve(
    port: int | None,
    database: Path | None,
    demo: bool,
    lan: bool,
    landing_port: int | None,
    listen: str | None,
    behind_proxy: bool,
    workers: int | None,
) -> None:
    """Serve the page and the API: to this machine, unless told otherwise."""
    from api import health, logs, store
    from api.serving import serve

    _check_usage(lan, behind_proxy, listen)
    app = open_app(
        database,
        port=port,
        landing_port=landing_port,
        workers=workers,
        listen=listen,
        lan=lan,
        pairing=lan or behind_proxy,
    )
    settings: Settings = app.config["BOWLSIDE"]
    _check_settings(settings, behind_proxy)
    if demo:
        _seed(app)
    studio = _take_ports(app)
    store.close(app)
    logs.take_over()
    if settings.metrics:
        health.share_counts()
    serve(
        app,
        studio.sockets,
        porter=studio.porter,
        certificate=studio.certificate,
        ready=lambda: _welcome(app, studio),
    )


COMMANDS = (serve,)


def _seed(app: Flask) -> None:
    from api.demo import seed

    with app.app_context():
        report(seed())


def _check_usage(lan: bool, behind_proxy: bool, listen: str | None) -> None:
    if lan and behind_proxy:
        raise click.UsageError("--lan and --behind-proxy are two ways of opening the studio: choose one.")
    if listen and not (lan or behind_proxy):
        raise click.UsageError(
            "--listen goes with --lan or --behind-proxy; else only this machine is answered."
        )


def _check_settings(settings: Settings, behind_proxy: bool) -> None:
    """What the options and the environment must say together."""
    if settings.lan and settings.listen and not _is_address(settings.listen):
        raise click.UsageError(
            f"--listen wants an address of this machine, as numbers: {settings.listen} is none."
        )
    if behind_proxy and not (settings.proxies > 0 and settings.hosts):
        raise click.UsageError(
            "--behind-proxy needs BOWLSIDE_PROXIES, how many proxies stand in front (most often 1),"
            " and BOWLSIDE_HOSTS, the name by which devices reach the studio."
        )


def _take_ports(app: Flask) -> Studio:
    from api.door.authority import WrongClock
    from api.door.opening import open_studio

    try:
        return open_studio(app)
    except WrongClock:
        stop(
            "This computer's clock is years behind, so no device would trust what it vouches for. Set it, then"
            " start again."
        )
    except OSError as error:
        if error.errno == errno.EADDRNOTAVAIL:
            stop(
                f"Cannot listen on {app.config['BOWLSIDE'].listen}: this machine does not have that address."
            )
        stop(f"Cannot listen: {error.strerror}. Name another port with --port; 0 takes a free one.")


def _welcome(app: Flask, studio: Studio) -> None:
    """Say where the studio is, with QR codes for phones, and what is wrong with the clock or the authority."""
    for wrong in (_wrong_clock(app), studio.doubts):
        if wrong:
            app.logger.warning("%s", wrong)
    say(f"Bowlside is at {studio.address} ({studio.open_to}). Ctrl+C stops it.")
    _show_qr(studio.address)
    if studio.landing:
        say(f"A device learns to trust it at {studio.landing}")
        _show_qr(studio.landing)
        say("The certificate's fingerprint there must be", f"  {studio.fingerprint}")
    for host in studio.left_out:
        say(
            f"{host} is left out: the authority was not made for it. Move the folder {studio.folder} away"
            " to get a new one, which devices must then trust anew."
        )
    if studio.devices_at and sys.stdout.isatty():  # a code has no place in a service's log
        show_first_code(app, studio.devices_at)
    elif studio.devices_at:
        say("`bowlside pair` makes a code that lets a device in.")
    sys.stdout.flush()


def _wrong_clock(app: Flask) -> str | None:
    from api import clock, store

    with app.app_context(), store.reading() as connection:
        return clock.behind(connection)


def _show_qr(address: str) -> None:
    import segno

    segno.make(address, micro=False).terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()


def _is_address(text: str) -> bool:
    try:
        ip_address(text)
    except ValueError:
        return False
    return True
