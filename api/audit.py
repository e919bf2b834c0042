"""The audit log: what was done to the studio itself, by whom and when. It only grows (migration 0005)."""

from __future__ import annotations

from typing import Any

from flask import has_request_context
from sqlalchemy import Connection, insert

from api.clock import now_ms
from api.door import gate
from api.tables import Audit
from bench import canonical

TERMINAL = "the terminal"
THIS_COMPUTER = "this computer"


def note(connection: Connection, what: str, *, who: str | None = None, **about: Any) -> None:
    """Note in the connection's transaction that `what` was done, by the device that asks or from the terminal.

    what: a short word such as "restored". about: whole numbers and text, never a secret.
    """
    device = gate.sender()
    by = device.name if device else THIS_COMPUTER if has_request_context() else TERMINAL
    connection.execute(
        insert(Audit).values(
            id=gate.new_id(),
            at=now_ms(),
            actor=device.id if device else None,
            who=who or by,
            what=what,
            about=canonical(about),
        )
    )
