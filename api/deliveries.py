"""A supplier's list, read into lots before anything of it is entered."""

from __future__ import annotations

from flask import Response

import bench
from api import shelf
from api.openapi import document_body
from api.shapes_openapi import shape
from api.wire import Blueprint, answer, read_document

blueprint = Blueprint("deliveries", __name__, description="Lists from suppliers, read into lots")


@blueprint.post("/deliveries/read")
@blueprint.doc(requestBody=document_body({**shape("WrittenDelivery")}))
@blueprint.response(200, shape("Delivery"))
def read_delivery() -> Response:
    """Read a pasted list row by row: what each is, what is asked about it, and the entries it would make.

    Nothing is kept: whoever looked at it sends `entries` to the shelf, each lot with an id of its own.
    """
    asked = bench.check_delivery(read_document())
    return answer(bench.read_delivery(asked, shelf.current_stock()))
