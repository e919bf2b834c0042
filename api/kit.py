"""The studio's equipment. Until the maker has said what there is: one kitchen scale."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from flask import Response
from sqlalchemy import Connection, insert, select, update

import bench
from api.clock import now_ms
from api.errors import Problem
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH, KIT_REF, document_body
from api.schemas import KitWhole
from api.store import reading, writing
from api.tables import Kit
from api.wire import Blueprint, answer, if_match, read_document
from bench import canonical

blueprint = Blueprint("kit", __name__, description="The studio's equipment")

STARTER_KIT: dict[str, Any] = {
    "format": "bowlside-kit/1",
    "scales": [{"id": "kitchen", "name": "Kitchen scale", "capacity": "5 kg", "division": "1 g"}],
    "vessels": [],
    "moulds": [],
    "heaters": [],
    "mixers": [],
}


@dataclass(frozen=True)
class KitNow:
    """The kit that holds now; version 0 is the starter kit, which nobody wrote."""

    version: int
    document: dict[str, Any]
    measured: dict[str, Any]

    def answer(self, status: int = 200) -> Response:
        return answer(self.__dict__, status, etag=str(self.version))


@blueprint.get("/kit")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, KitWhole, headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_kit() -> Response:
    """The kit as written, and measured. Version 0 is a starter kit: one kitchen scale."""
    with reading() as connection:
        return current_kit(connection).answer()


@blueprint.put("/kit")
@blueprint.doc(requestBody=document_body(KIT_REF), parameters=[IF_MATCH])
@blueprint.response(200, KitWhole, headers=ETAG)
@blueprint.alt_response(201, schema=KitWhole, headers=ETAG, success=True, description="Created")
def put_kit() -> Response:
    """Say what equipment there is; once there is a kit, with If-Match."""
    document = read_document()
    measured = bench.read_kit(document)
    with writing() as connection:
        now = current_kit(connection)
        tags = if_match()
        if now.version and canonical(now.document) == canonical(document):
            return now.answer()
        if now.version and tags is None:
            raise Problem(428, "There is a kit already. To edit it, send If-Match with its ETag.")
        if tags is not None and not tags & {"*", str(now.version)}:
            raise Problem(412, "The kit has changed since you read it. Read it again, then edit that.")
        kept = KitNow(now.version + 1, document, measured)
        keep_kit(connection, kept, now_ms())
    return kept.answer(200 if now.version else 201)


def current_kit(connection: Connection) -> KitNow:
    row = connection.execute(select(Kit.version, Kit.document, Kit.measured)).one_or_none()
    if row is None:
        return KitNow(0, STARTER_KIT, bench.read_kit(STARTER_KIT))
    return KitNow(row.version, json.loads(row.document), json.loads(row.measured))


def keep_kit(connection: Connection, kit: KitNow, at: int) -> None:
    values = {
        "version": kit.version,
        "document": canonical(kit.document),
        "measured": canonical(kit.measured),
        "updated_at": at,
    }
    if kit.version == 1:
        connection.execute(insert(Kit).values(id=1, **values))
    else:
        connection.execute(update(Kit).values(**values))
