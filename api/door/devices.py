"""The studio's devices: who is paired, renamed, given another role, shut out. And how the studio stands."""

from __future__ import annotations

from importlib.metadata import version
from typing import TypedDict
from uuid import UUID

from flask import Response, current_app
from sqlalchemy import Connection, func, select, update

from api import audit, generation
from api.answers import DeviceItem, DevicePage, Role, StudioNow
from api.clock import behind, now_ms, standing
from api.copies import status
from api.door import client_ids, gate, limits
from api.door.authority import Certificate
from api.door.gate import DeviceRow
from api.errors import Problem, not_found
from api.schemas import DeviceChange, PageQuery
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import ClientOwner, Device
from api.wire import Blueprint, PageAsked, answer, first_of, paged
from bench import words

blueprint = Blueprint("devices", __name__, description="Who is paired, and how the studio stands")

IN = Device.shut_out_at.is_(None)
COLUMNS = [getattr(Device, name) for name in DeviceRow._fields]


class DeviceChanged(TypedDict, total=False):
    """`api.schemas.DeviceChange`, read."""

    name: str
    role: Role
    confirm: Role
    bench: str


@blueprint.get("/studio")
@blueprint.response(200, shape(StudioNow))
def get_studio() -> Response:
    """How the studio is opened, who is asking, and what a page should warn of."""
    settings = current_app.config["BOWLSIDE"]
    you, copied = gate.sender(), status(settings)
    return answer(
        {
            "mode": settings.mode,
            "you": you and {"id": you.id, "name": you.name, "role": you.role},
            "benches": _names_of_clients(),
            "last_copy_at": copied["last_at"],
            "copies": copied,
            "certificate_ends_at": Certificate(settings.door).ends_at if settings.lan else None,
            "clock_wrong": _wrong_clock(),
            "generation": generation.now(),
            **standing(),
            "version": version("bowlside"),
        }
    )


def _wrong_clock() -> str | None:
    with reading() as connection:
        return behind(connection)


def _names_of_clients() -> dict[str, str]:
    """The names of the devices by what the journals call them: each bench is one device's."""
    with reading() as connection:
        rows = connection.execute(
            select(ClientOwner.bench, Device.name).join(Device, Device.id == ClientOwner.device_id)
        )
        return {bench: name for bench, name in rows}


@blueprint.get("/devices")
@blueprint.arguments(PageQuery(), location="query")
@blueprint.response(200, shape(DevicePage))
def list_devices(asked: PageAsked) -> Response:
    """The devices that were ever paired, those seen last first; a maker's question."""
    with reading() as connection:
        total = connection.scalar(select(func.count()).select_from(Device)) or 0
        rows = connection.execute(
            select(*COLUMNS)
            .order_by(Device.seen_at.desc(), Device.id)
            .limit(asked["page_size"])
            .offset(first_of(asked))
        )
        return paged("devices", [shown(DeviceRow(*row)) for row in rows], total, asked)


@blueprint.patch("/devices/<uuid:device_id>")
@blueprint.arguments(DeviceChange())
@blueprint.response(200, shape(DeviceItem))
def change_device(asked: DeviceChanged, device_id: UUID) -> Response:
    """Rename a device, give it a role, or say which bench it is in the journal.

    A maker may do so for any device, a helper for its own name and bench. Another role is said twice.
    """
    _refuse_helper(device_id, "role" not in asked)
    with writing() as connection:
        device = _device_or_404(connection, device_id)
        if asked.get("role", device.role) != "maker":
            _keep_a_maker(connection, device)
        changed = device._replace(
            name=asked.get("name", device.name),
            role=asked.get("role", device.role),
            bench=asked.get("bench", device.bench),
        )
        if changed.role != device.role:
            gate.refuse_unconfirmed(changed.role, asked.get("confirm"))
            audit.note(connection, "role_changed", device=device.id, name=changed.name, role=changed.role)
        if changed.name != device.name:
            limits.count(limits.NAMES_GIVEN, device.id)
            audit.note(connection, "renamed", device=device.id, was=device.name, name=changed.name)
        if changed.bench is not None and changed.bench != device.bench:
            client_ids.name(connection, changed.bench, device)
        if changed != device:
            connection.execute(
                update(Device)
                .where(Device.id == device.id)
                .values(name=changed.name, role=changed.role, bench=changed.bench)
            )
        return answer(shown(changed))


@blueprint.delete("/devices/<uuid:device_id>")
@blueprint.response(200, shape(DeviceItem))
def shut_out(device_id: UUID) -> Response:
    """Shut a device out, from its next request on; its row stays, because the journal names it.

    A maker may shut out any device, a helper its own.
    """
    _refuse_helper(device_id, True)
    with writing() as connection:
        device = _device_or_404(connection, device_id)
        _keep_a_maker(connection, device)
        return answer(shown(shut(connection, device, now_ms())))


def shut(connection: Connection, device: DeviceRow, at: int) -> DeviceRow:
    """Shut the device out, unless it is; gives it as it is then."""
    if device.shut_out_at is None:
        device = device._replace(shut_out_at=at)
        connection.execute(update(Device).where(Device.id == device.id).values(shut_out_at=at))
        audit.note(connection, "shut_out", device=device.id, name=device.name)
        current_app.logger.warning("Device %s is shut out", device.id)
    return device


def shown(device: DeviceRow) -> DeviceItem:
    """A device as it may be told: all but its secret's hash."""
    return {
        "id": device.id,
        "name": device.name,
        "role": device.role,
        "bench": device.bench,
        "paired_at": device.paired_at,
        "seen_at": device.seen_at,
        "shut_out_at": device.shut_out_at,
    }


def all_devices(connection: Connection) -> list[DeviceRow]:
    return [DeviceRow(*row) for row in connection.execute(select(*COLUMNS).order_by(Device.paired_at))]


def is_there_a_maker(connection: Connection) -> bool:
    """Whether any device may let others in."""
    return bool(connection.scalar(select(func.count()).where(Device.role == "maker", IN)))


def _device_or_404(connection: Connection, device_id: UUID) -> DeviceRow:
    row = connection.execute(select(*COLUMNS).where(Device.id == str(device_id))).one_or_none()
    return DeviceRow(*row) if row else not_found("device", "/api/v1/devices")


def _refuse_helper(device_id: UUID, own_to_change: bool) -> None:
    asking = gate.sender()
    if asking is not None and asking.role != "maker" and not (own_to_change and asking.id == str(device_id)):
        gate.refuse_helper(asking)


def _keep_a_maker(connection: Connection, device: DeviceRow) -> None:
    """Refuse what would leave no maker. From the terminal it can be done, and undone."""
    others = select(func.count()).where(Device.role == "maker", IN, Device.id != device.id)
    if device.role == "maker" and device.shut_out_at is None and not connection.scalar(others):
        raise Problem(409, words.say("api-door-last-maker"))
