"""What this machine is called and where it is on the networks that it is on."""

from __future__ import annotations

import socket
from ipaddress import IPv4Address, IPv6Address, ip_address
from typing import NamedTuple

import ifaddr

Address = IPv4Address | IPv6Address


class Names(NamedTuple):
    """Lower-case host names, the one to offer first in front, and addresses, this machine's own among them."""

    hosts: tuple[str, ...]
    addresses: tuple[Address, ...]


def names_of_machine(given: tuple[str, ...] = ()) -> Names:
    """The names `given` by the maker, then the machine's own; and its addresses on every network."""
    host = _host_name()
    hosts = dict.fromkeys((*given, local_name(), host.partition(".")[0], host, "localhost"))
    found = {
        ip_address(each.ip if isinstance(each.ip, str) else each.ip[0])
        for adapter in ifaddr.get_adapters()
        for each in adapter.ips
    }
    found |= {ip_address("127.0.0.1"), ip_address("::1")}
    addresses = sorted(found, key=lambda each: (each.is_loopback, each.version, each))
    return Names(tuple(hosts), tuple(addresses))


def local_name() -> str:
    """The name that machines on one network find each other by with no name server (mDNS, RFC 6762)."""
    return f"{_host_name().partition('.')[0]}.local"


def _host_name() -> str:
    return socket.gethostname().lower().strip(".") or "localhost"


def outward_address() -> str | None:
    """The IPv4 address by which the machine's own network knows it; None with no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:
        try:
            outward.connect(("192.0.2.1", 9))  # an address for documentation (RFC 5737); sends nothing
        except OSError:
            return None
        address: str = outward.getsockname()[0]
        return address


def is_known(host: str) -> bool:
    """Whether this machine can find the host by name: if it can't, phones hardly will."""
    try:
        socket.getaddrinfo(host, None)
    except OSError:
        return False
    return True
