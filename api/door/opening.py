"""Opens the studio in the way that the settings say: takes the ports, and gathers what serving needs.

On a network nothing listens before the certificate is there.
"""

from __future__ import annotations

from dataclasses import dataclass
from ipaddress import ip_address
from socket import socket as Socket
from typing import Literal

from flask import Flask

from api import audit, copies, steady
from api.door import names
from api.door.authority import Certificate, doubts, open_authority, renew
from api.door.landing import LandingPage, landing_answers
from api.porter import Chore, Porter, log
from api.serving import port_of, take_sockets
from api.settings import Settings

THIS_MACHINE = "127.0.0.1"
OpenTo = Literal["machine", "proxy", "network"]
ANYWHERE = ("0.0.0.0", "::")


@dataclass(frozen=True)
class Studio:
    """Where it is, what `api.serving.serve` needs, and on a network what devices need to trust it.

    `devices_at` is the address at which devices pair; `landing` the landing page's; `left_out` are names
    that the authority in `folder` cannot vouch for; `doubts` is why devices may not trust that one.
    """

    address: str
    open_to: OpenTo
    sockets: list[Socket]
    porter: Porter
    certificate: Certificate | None = None
    devices_at: str = ""
    landing: str = ""
    fingerprint: str = ""
    left_out: tuple[str, ...] = ()
    folder: str = ""
    doubts: str | None = None


def open_studio(app: Flask) -> Studio:
    """OSError when a port is taken or the door's folder cannot be written; WrongClock as `open_authority`."""
    settings: Settings = app.config["BOWLSIDE"]

    def keep_the_nights_copy() -> None:
        try:
            with audit.by_itself():
                made = copies.nightly(app)
            if made:
                log().info("%s", copies.said_of(settings))
        except copies.CopyError as error:
            log().info("no copy: %s", error)

    def keep_time() -> None:
        with app.app_context():
            steady.look(follow=True)

    with app.app_context():
        steady.look()  # before anybody asks
    if settings.lan:
        return _to_the_network(settings, [keep_the_nights_copy, keep_time])
    host = (settings.pairing and settings.listen) or THIS_MACHINE
    sockets, porter = take_sockets((host,), settings.port), Porter([keep_the_nights_copy, keep_time])
    address = f"http://{host}:{port_of(sockets)}/"
    if settings.pairing:
        by_proxy = f"https://{settings.hosts[0]}/"
        return Studio(address, "proxy", sockets, porter, devices_at=by_proxy)
    return Studio(address, "machine", sockets, porter)


def _to_the_network(settings: Settings, chores: list[Chore]) -> Studio:
    found = names_of(settings)
    authority = open_authority(settings.door, found, settings.clock_ms())
    certificate = Certificate(settings.door)
    renew(certificate, authority, found, settings.clock_ms())
    hosts = (settings.listen,) if settings.listen else ANYWHERE
    sockets = take_sockets(hosts, settings.port)
    port = port_of(sockets)
    landing = LandingPage(
        take_sockets(hosts[:1], settings.landing_port)[0],
        lambda: landing_answers(authority, addresses(settings, port)),
    )

    def look_after_certificate() -> None:
        if renew(certificate, authority, names_of(settings), settings.clock_ms()):
            log().info("made the server's certificate anew")

    covered = authority.covers(found)
    best = addresses(settings, port)[0]
    return Studio(
        address=best,
        devices_at=best,
        open_to="network",
        folder=str(settings.door),
        doubts=doubts(authority, settings.clock_ms()),
        sockets=sockets,
        porter=Porter([look_after_certificate, *chores], landing),
        certificate=certificate,
        landing=f"http://{_for_url(_number(settings) or THIS_MACHINE)}:{landing.port}/",
        fingerprint=authority.fingerprint,
        left_out=tuple(sorted(set(settings.hosts) - set(covered.hosts))),
    )


def addresses(settings: Settings, port: int) -> list[str]:
    """Where devices reach the studio, the one to use first in front.

    A name comes before a number, because a router gives numbers out anew, and to a browser another
    address is another studio: paired anew, with nothing kept. A name that this machine itself does not
    find comes last.
    """
    local = names.local_name()
    known = [*settings.hosts, *([local] if names.is_known(local) else [])]
    number = _number(settings)
    hosts = dict.fromkeys([*known, *([number] if number else []), local])
    return [f"https://{_for_url(host)}:{port}/" for host in hosts]


def names_of(settings: Settings) -> names.Names:
    """What the certificate speaks for: the machine's names, and its addresses or the one that is listened on."""
    found = names.names_of_machine(settings.hosts)
    one = _one_address(settings)
    return names.Names(found.hosts, (ip_address(one),)) if one else found


def _one_address(settings: Settings) -> str:
    """The address that is listened on; empty when it is each."""
    return "" if settings.listen in ("", *ANYWHERE) else settings.listen


def _number(settings: Settings) -> str | None:
    return _one_address(settings) or names.outward_address()


def _for_url(host: str) -> str:
    return f"[{host}]" if ":" in host else host
