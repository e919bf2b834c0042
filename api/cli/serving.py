"""The command that serves, and what it says when it does."""

from __future__ import annotations

import errno
import sys
from collections.abc import Callable
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING

import click

from api.cli.door import show_first_code
from api.cli.opening import database_option, open_app, report, stop
from api.cli.spoken import WrongUsage, command, option
from api.plain import say

if TYPE_CHECKING:
    from flask import Flask

    from api.door.opening import Studio
    from api.settings import Settings


@command("serve")
@option("--port", type=click.IntRange(0, 65535), help="port")
@database_option
@option("--demo", is_flag=True, help="demo")
@option("--lan", is_flag=True, help="lan")
@option("--landing-port", type=click.IntRange(0, 65535), help="landing-port")
@option("--listen", metavar="ADDRESS", help="listen")
@option("--behind-proxy", is_flag=True, help="behind-proxy")
@option("--workers", type=click.IntRange(1, 64), help="workers")
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
    from bench import words

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
    welcome = _welcoming(app, studio)
    with words.speaking(words.DEFAULT):  # the log is English, and each request is asked
        serve(app, studio.sockets, porter=studio.porter, certificate=studio.certificate, ready=welcome)


COMMANDS = (serve,)


def _seed(app: Flask) -> None:
    from api.demo import seed

    with app.app_context():
        report(seed())


def _check_usage(lan: bool, behind_proxy: bool, listen: str | None) -> None:
    from bench import words

    if lan and behind_proxy:
        raise WrongUsage(words.say("cli-serving-two-ways"))
    if listen and not (lan or behind_proxy):
        raise WrongUsage(words.say("cli-serving-listen-alone"))


def _check_settings(settings: Settings, behind_proxy: bool) -> None:
    """What the options and the environment must say together."""
    from bench import words

    if settings.lan and settings.listen and not _is_address(settings.listen):
        raise WrongUsage(words.say("cli-serving-listen-address", address=settings.listen))
    if behind_proxy and not (settings.proxies > 0 and settings.hosts):
        raise WrongUsage(words.say("cli-serving-proxy-needs"))


def _take_ports(app: Flask) -> Studio:
    from api.door.authority import WrongClock
    from api.door.opening import open_studio
    from bench import words

    try:
        return open_studio(app)
    except WrongClock:
        stop(words.say("cli-serving-clock"))
    except OSError as error:
        if error.errno == errno.EADDRNOTAVAIL:
            stop(words.say("cli-serving-no-such-address", address=app.config["BOWLSIDE"].listen))
        stop(words.say("cli-serving-cannot-listen", why=str(error.strerror)))


def _welcoming(app: Flask, studio: Studio) -> Callable[[], None]:
    """Says welcome in the language that is spoken now, whatever is spoken then."""
    from bench import words

    language = words.spoken()

    def welcome() -> None:
        with words.speaking(language):
            _welcome(app, studio)

    return welcome


def _welcome(app: Flask, studio: Studio) -> None:
    """Say where the studio is, with QR codes for phones, and what is wrong with the clock or the authority."""
    from bench import words

    for wrong in (_wrong_clock(app), studio.doubts):
        if wrong:
            app.logger.warning("%s", wrong)
    to = words.say(f"cli-serving-to-{studio.open_to}")
    say(words.say("cli-serving-at", address=studio.address, to=to))
    _show_qr(studio.address)
    if studio.landing:
        say(words.say("cli-serving-trust-at", address=studio.landing))
        _show_qr(studio.landing)
        say(words.say("cli-serving-fingerprint"), f"  {studio.fingerprint}")
    for host in studio.left_out:
        say(words.say("cli-serving-left-out", host=host, folder=studio.folder))
    if studio.devices_at and sys.stdout.isatty():  # a code has no place in a service's log
        show_first_code(app, studio.devices_at)
    elif studio.devices_at:
        say(words.say("cli-serving-pair"))
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
