"""What the edge asks of the house about whoever comes. The one here is for a machine by itself."""

from __future__ import annotations

from api.edge.wsgi import Environ

ANY_SIZE = 1 << 62


class Keeper:
    """Nobody is a stranger, and nothing is counted."""

    is_alone = True
    # Whether a connection's address says who it is: it does not where all come through a proxy.
    knows_addresses = False

    def address(self, environ: Environ) -> str:
        """Where a request came from."""
        address: str = environ["REMOTE_ADDR"]
        return address

    def shows(self, environ: Environ) -> str | None:
        """What a request shows to be let in; None when it shows nothing."""
        return ""

    def device(self, shown: str) -> str | None:
        """The device that was given what is shown; None for a stranger. Asked in a thread."""
        return ""

    def most(self, environ: Environ, is_known: bool) -> int:
        """How large a body is read, in bytes."""
        return ANY_SIZE


class StrangersOnly(Keeper):
    """Whoever comes is a stranger, and sends nothing."""

    is_alone = False
    knows_addresses = True

    def shows(self, environ: Environ) -> str | None:
        return None

    def most(self, environ: Environ, is_known: bool) -> int:
        return 0
