"""Whose a client's id is: the paired device's that used it first. So nobody writes in another's name.

A client's id is what the journals' entries call the device that made them, and the device chose it itself; it is
"bench" in what the API answers and in the tables. Who pairs again is another device with the same client id, and
follows the former one: when that can never come in
again (it was shut out, or the studio was restored), or when nobody has seen it since, as of a phone that lost
its pairing. A helper follows no maker, and nobody who has an id already follows anyone. What the former one
sent goes on naming it.
"""

from __future__ import annotations

from sqlalchemy import Connection

from api import audit
from api.clock import now_ms
from api.door import gate
from api.door.gate import DeviceRow
from api.errors import Problem
from api.store import execute
from bench import EntryError, words

HAS_ONE = "SELECT 1 FROM bench_owner WHERE device_id = :device LIMIT 1"
OWNER = "SELECT device_id FROM bench_owner WHERE bench = :bench"
CLAIM = (
    "INSERT INTO bench_owner (bench, device_id, since) VALUES (:bench, :device, :at)"
    " ON CONFLICT (bench) DO NOTHING"
)
FOLLOW = (
    "UPDATE bench_owner SET device_id = :device, since = :at WHERE bench = :bench AND device_id = :former"
)


def owner_of(connection: Connection, client_id: str) -> str | None:
    """The paired device whose the client's id is; None while it is nobody's."""
    found = execute(connection, OWNER, {"bench": client_id}).fetchone()
    return found[0] if found else None


def name(connection: Connection, client_id: str, device: DeviceRow) -> None:
    """As `claim`, for a device that says which client it is; Problem when that is another's."""
    try:
        claim(connection, client_id, device)
    except EntryError as error:
        raise Problem(409, error.says, errors=[("bench", error.says)]) from None


def claim(connection: Connection, client_id: str, device: DeviceRow) -> None:
    """Let the device be this client; EntryError when it is another device's."""
    at = now_ms()
    asked = {"bench": client_id, "device": device.id, "at": at}
    owner = execute(connection, OWNER, asked).fetchone()
    if owner is None:
        execute(connection, CLAIM, asked)
        owner = execute(connection, OWNER, asked).fetchone()
    if owner[0] == device.id:
        return
    found = execute(connection, gate.BY_ID, {"id": owner[0]}).fetchone()
    former = DeviceRow(*found) if found else None
    if former and not _may_follow(connection, device, former, at):
        raise EntryError(
            "device",
            words.say("api-door-anothers-id", name=former.name),
        )
    execute(connection, FOLLOW, {**asked, "former": owner[0]})
    audit.note(connection, "bench_followed", by=device, was=former.name if former else "", bench=client_id)


def _may_follow(connection: Connection, device: DeviceRow, former: DeviceRow, at: int) -> bool:
    if device.paired_at < former.paired_at:
        return False
    if gate.is_gone(former, at):
        return True
    has_one = execute(connection, HAS_ONE, {"device": device.id}).fetchone()
    is_unseen = former.seen_at < device.paired_at
    return is_unseen and not has_one and (device.role == "maker" or former.role == "helper")
