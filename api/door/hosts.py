"""Which names this server answers to, and whether a request came from its own page.

The first is against DNS rebinding: a stranger's name that is made to lead here would let a stranger's
page read this server as its own. The second is against a stranger's page that sends a request and need
not read the answer. https://www.w3.org/TR/fetch-metadata/ says what browsers tell of where a request
came from; what is not a browser tells nothing, and has no cookie that was not given to it.
"""

from __future__ import annotations

import re
import time
from functools import lru_cache
from ipaddress import ip_address

from flask import current_app, request

from api.door.names import names_of_machine
from api.errors import Problem
from bench import words

HOST = re.compile(r"(?:(?P<name>[a-z0-9._-]+)|\[(?P<address>[0-9a-f:.]+)\])(?::(?P<port>\d{1,5}))?")
ORIGIN = re.compile(r"(?P<scheme>https?)://(?P<place>[^/?#@\s]+)")
LARGEST_PORT = 65535
LOOPBACK = frozenset({"localhost", "127.0.0.1", "::1"})
CHANGES_NOTHING = frozenset({"GET", "HEAD", "OPTIONS"})
# A machine's names and addresses are looked up again after so long.
LOOK_AGAIN_S = 60


def refuse_strangers() -> None:
    """Raises the problem with a request that is not meant for this server, or not sent by its page."""
    environ = request.environ
    host = environ.get("HTTP_HOST", "")
    if not answers_to(host):
        raise Problem(421, words.say("api-door-other-name"))
    site = environ.get("HTTP_SEC_FETCH_SITE", "same-origin")
    from_elsewhere = site not in ("same-origin", "none") and request.path.startswith("/api/")
    if request.method not in CHANGES_NOTHING:
        origin = environ.get("HTTP_ORIGIN")
        from_elsewhere |= site not in ("same-origin", "none")
        from_elsewhere |= origin is not None and not _is_own(origin, host.lower())
        if from_elsewhere:
            current_app.logger.warning("%s %s: sent by another site's page", request.method, request.path)
    if from_elsewhere:
        raise Problem(403, words.say("api-door-other-site"))


def _is_own(origin: str, host: str) -> bool:
    """Whether an Origin header names the place that was asked, and one that came by TLS where that is spoken.

    A page of the same name without TLS may be anybody's who is on the network.
    """
    read = ORIGIN.fullmatch(origin.lower())
    if read is None or read["place"] != host:
        return False
    plain_too = not current_app.config["BOWLSIDE"].pairing or host_name(host) in LOOPBACK
    return plain_too or read["scheme"] == "https"


def answers_to(host: str) -> bool:
    """Whether a Host header names this server: loopback, the setting, and on a network its own names."""
    name = host_name(host)
    settings = current_app.config["BOWLSIDE"]
    if name in LOOPBACK or name in settings.hosts:
        return True
    return settings.lan and name in _own_names(int(time.monotonic()) // LOOK_AGAIN_S)


@lru_cache(maxsize=64)
def host_name(host: str) -> str:
    """The name or the address of a Host header, without its port; empty when it cannot be read."""
    read = HOST.fullmatch(host.lower())
    if read is None or int(read["port"] or 0) > LARGEST_PORT:
        return ""
    name = (read["name"] or read["address"]).rstrip(".")
    try:
        return str(ip_address(name))
    except ValueError:
        return name


@lru_cache(maxsize=1)
def _own_names(_when: int) -> frozenset[str]:
    own = names_of_machine()
    return frozenset(own.hosts).union(map(str, own.addresses))
