"""The studio's equipment. Until the maker has said what there is: one kitchen scale."""

from __future__ import annotations

from flask import Response
from sqlalchemy import Connection

import bench
from api.answers import KitWhole
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH, KIT_REF, document_body
from api.shapes_openapi import shape
from api.singletons import SingletonDocument
from api.store import reading
from api.tables import Kit
from api.wire import Blueprint, read_document
from bench import JsonObject

blueprint = Blueprint("kit", __name__, description="The studio's equipment")

STARTER_KIT: JsonObject = {
    "format": "bowlside-kit/1",
    "scales": [{"id": "kitchen", "name": "Kitchen scale", "capacity": "5 kg", "division": "1 g"}],
    "vessels": [],
    "moulds": [],
    "heaters": [],
    "mixers": [],
}


KIT: SingletonDocument[JsonObject, bench.Kit] = SingletonDocument(
    Kit, "kit", "/kit", STARTER_KIT, bench.read_kit
)


@blueprint.get("/kit")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(KitWhole), headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_kit() -> Response:
    """The kit as written, and measured. Version 0 is a starter kit: one kitchen scale."""
    with reading() as connection:
        return KIT.now(connection).answer()


@blueprint.put("/kit")
@blueprint.doc(requestBody=document_body(KIT_REF), parameters=[IF_MATCH])
@blueprint.response(200, shape(KitWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(KitWhole), headers=ETAG, success=True, description="Created")
def put_kit() -> Response:
    """Say what equipment there is; once there is a kit, with If-Match."""
    return KIT.put(read_document())


def measured_kit(connection: Connection) -> bench.Kit:
    """The kit that holds now, measured, as a run is sized by it."""
    return KIT.now(connection).measured
