"""What the maker says once for all batches: how they are numbered, money, and what stands on labels.

What an hour costs is between makers: a helper's device is told the rest.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from flask import Response
from sqlalchemy import Connection, insert, select, update

import bench
from api.clock import now_ms
from api.door.gate import sender
from api.errors import Problem
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH
from api.schemas import SettingsWhole, SettingsWritten
from api.store import reading, writing
from api.tables import StudioSettings
from api.wire import Blueprint, answer, if_match
from bench import SettingError, canonical

blueprint = Blueprint("settings", __name__, description="How the studio numbers, reckons and labels")


# What a helper is not told, as it is not told what a batch cost.
MAKERS_OWN = ("hourly_rate", "wrap_cost")


@dataclass(frozen=True)
class SettingsNow:
    """The settings that hold now; version 0 is what holds until the maker has said something."""

    version: int
    document: dict[str, Any]

    def answer(self, status: int = 200) -> Response:
        return answer(self.__dict__, status, etag=str(self.version))


@blueprint.get("/settings")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, SettingsWhole, headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_settings() -> Response:
    """The settings. Version 0 has a pattern for batch numbers and nothing else. A helper is not told the rates."""
    with reading() as connection:
        now = current_settings(connection)
    device = sender()
    if device is None or device.role == "maker":
        return now.answer()
    told = {key: value for key, value in now.document.items() if key not in MAKERS_OWN}
    return answer({"version": now.version, "document": told}, etag=f"{now.version}-{device.role}")


@blueprint.put("/settings")
@blueprint.doc(parameters=[IF_MATCH])
@blueprint.arguments(SettingsWritten())
@blueprint.response(200, SettingsWhole, headers=ETAG)
@blueprint.alt_response(201, schema=SettingsWhole, headers=ETAG, success=True, description="Created")
def put_settings(document: dict[str, Any]) -> Response:
    """Say all settings anew; once there are some, with If-Match."""
    check_settings(document)
    with writing() as connection:
        now = current_settings(connection)
        tags = if_match()
        if now.version and canonical(now.document) == canonical(document):
            return now.answer()
        if now.version and tags is None:
            raise Problem(428, "There are settings already. To edit them, send If-Match with their ETag.")
        if tags is not None and not tags & {"*", str(now.version)}:
            raise Problem(
                412, "The settings have changed since you read them. Read them again, then edit those."
            )
        kept = SettingsNow(now.version + 1, document)
        keep_settings(connection, kept)
    return kept.answer(200 if now.version else 201)


def check_settings(document: dict[str, Any]) -> None:
    """Raise SettingError, naming the field, for what the bench could not work with."""
    bench.check_pattern(document["batch_number"])
    if "currency" in document and not bench.is_currency(document["currency"]):
        raise SettingError("currency", "This is no currency of ISO 4217, such as EUR, GBP or USD.")
    for amount in ("hourly_rate", "wrap_cost"):
        if amount in document:
            bench.read_money(document[amount], amount)


def current_settings(connection: Connection) -> SettingsNow:
    row = connection.execute(select(StudioSettings.version, StudioSettings.document)).one_or_none()
    if row is None:
        return SettingsNow(0, {"batch_number": bench.PATTERN})
    return SettingsNow(row.version, json.loads(row.document))


def keep_settings(connection: Connection, settings: SettingsNow) -> None:
    values = {
        "version": settings.version,
        "document": canonical(settings.document),
        "updated_at": now_ms(),
    }
    if settings.version == 1:
        connection.execute(insert(StudioSettings).values(id=1, **values))
    else:
        connection.execute(update(StudioSettings).values(**values))
