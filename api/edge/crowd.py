"""Who is connected, how much each address may hold, and who gives way when there is no more room.

An address from which a paired device came is known for hours; all others are strangers, who together hold a
small share and whose oldest idle connection goes first. So a paired phone always gets in.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from dataclasses import dataclass, field
from functools import lru_cache
from ipaddress import IPv6Address, ip_address
from time import monotonic
from typing import Protocol

IPV6_NETWORK = 64  # what one household or one hired machine has as a rule (RFC 6177)


@dataclass(frozen=True)
class Bounds:
    """How much may be held and asked for in one process."""

    connections: int = 1024
    strangers: int = 256
    of_one_stranger: int = 16
    of_one_known: int = 96
    known_hours: float = 12
    # Bytes of bodies and answers; a studio's whole file is 32 MiB at most.
    bytes_of_one: int = 48 * 1024 * 1024
    bytes_of_all: int = 192 * 1024 * 1024
    # (a second, at once)
    connects_of_one: tuple[float, float] = (4, 32)
    connects_of_one_known: tuple[float, float] = (50, 200)
    handshakes_of_strangers: tuple[float, float] = (40, 40)
    requests_of_one: tuple[float, float] = (5, 100)
    requests_of_strangers: tuple[float, float] = (60, 120)


class Bucket:
    """So many at once, and so many more each second."""

    def __init__(self, rate: tuple[float, float]) -> None:
        self._each_second, self._most = rate
        self._left, self._at = self._most, monotonic()

    def take(self) -> bool:
        self._fill()
        if self._left < 1:
            return False
        self._left -= 1
        return True

    def is_full(self) -> bool:
        self._fill()
        return self._left >= self._most

    def _fill(self) -> None:
        now = monotonic()
        self._left = min(self._most, self._left + (now - self._at) * self._each_second)
        self._at = now


class Memory:
    """How many bytes of bodies and of answers not yet taken are held: of one device, and of all together.

    Whoever holds nothing yet may hold one thing of whatever size: that is bounded elsewhere.
    """

    def __init__(self, of_one: int, of_all: int) -> None:
        self._of_one, self._of_all = of_one, of_all
        self._held: Counter[str] = Counter()
        self._all = 0

    def take(self, who: str, size: int) -> bool:
        own = self._held[who]
        if (own and own + size > self._of_one) or (self._all and self._all + size > self._of_all):
            return False
        self._held[who] += size
        self._all += size
        return True

    def give_back(self, who: str, size: int) -> None:
        self._all -= size
        self._held[who] -= size
        if self._held[who] <= 0:
            del self._held[who]


class Seated(Protocol):
    """A connection, as the crowd sees it."""

    party: Party

    @property
    def is_idle(self) -> bool:
        """Whether nothing of it is being worked on, so that it may be asked to go."""

    def drop(self) -> None: ...


@dataclass(eq=False)
class Party:
    """All that comes from one address."""

    name: str
    connects: Bucket
    requests: Bucket
    known_until: float = 0.0
    seats: OrderedDict[Seated, None] = field(default_factory=OrderedDict)

    @property
    def is_known(self) -> bool:
        return monotonic() < self.known_until


class Crowd:
    """Everybody who is connected. With `by_address` off only the total is bounded: all come from one proxy."""

    def __init__(self, bounds: Bounds, by_address: bool) -> None:
        self._bounds, self._by_address = bounds, by_address
        self._parties: dict[str, Party] = {}
        self._known: OrderedDict[Seated, None] = OrderedDict()
        self._strangers: OrderedDict[Seated, None] = OrderedDict()
        self.requests = Bucket(bounds.requests_of_strangers)
        self.handshakes = Bucket(bounds.handshakes_of_strangers)

    def __len__(self) -> int:
        return len(self._known) + len(self._strangers)

    def everybody(self) -> list[Seated]:
        return [*self._known, *self._strangers]

    def party(self, address: str) -> Party:
        name = counted_as(address)
        if name not in self._parties:
            bounds = self._bounds
            self._parties[name] = Party(name, Bucket(bounds.connects_of_one), Bucket(bounds.requests_of_one))
        return self._parties[name]

    def lets_sit(self, party: Party) -> bool:
        """Whether there is room for one more of them, made where it can be made."""
        bounds, strange = self._bounds, self._by_address and not party.is_known
        if self._by_address:
            if not party.connects.take():
                return False
            most = bounds.of_one_stranger if strange else bounds.of_one_known
            if len(party.seats) >= most and not _shed(party.seats):
                return False
        if strange and len(self._strangers) >= bounds.strangers and not _shed(self._strangers):
            return False
        return len(self) < bounds.connections or self.make_room()

    def make_room(self) -> bool:
        return _shed(self._strangers) or _shed(self._known)

    def sit(self, seated: Seated) -> None:
        seated.party.seats[seated] = None
        (self._strangers if self._by_address and not seated.party.is_known else self._known)[seated] = None

    def leave(self, seated: Seated) -> None:
        for seats in (seated.party.seats, self._known, self._strangers):
            seats.pop(seated, None)

    def know(self, party: Party) -> None:
        """A paired device came from there."""
        if not party.is_known:
            for each in party.seats:
                self._strangers.pop(each, None)
                self._known[each] = None
            party.connects = Bucket(self._bounds.connects_of_one_known)
        party.known_until = monotonic() + self._bounds.known_hours * 3600

    def forget(self) -> None:
        """Let go of those of whom nothing need be remembered."""
        gone = [
            name
            for name, party in self._parties.items()
            if not (party.seats or party.is_known) and party.connects.is_full() and party.requests.is_full()
        ]
        for name in gone:
            del self._parties[name]


@lru_cache(maxsize=4096)
def counted_as(address: str) -> str:
    """The address as limits count it: of IPv6 the network that one household has, and all else as it is."""
    try:
        read = ip_address(address.partition("%")[0])
    except ValueError:
        return address
    if not isinstance(read, IPv6Address):
        return str(read)
    if read.ipv4_mapped:
        return str(read.ipv4_mapped)
    return f"{IPv6Address(int(read) >> (128 - IPV6_NETWORK) << (128 - IPV6_NETWORK))}/{IPV6_NETWORK}"


def _shed(seats: OrderedDict[Seated, None]) -> bool:
    """Drop the oldest that is idle; False when none is."""
    oldest = next((each for each in seats if each.is_idle), None)
    if oldest is None:
        return False
    oldest.drop()
    return True
