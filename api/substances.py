"""What the table of substances knows of a name: asked while an ingredient is written, at the desk and on the shelf."""

from __future__ import annotations

from typing import TypedDict

from flask import Response

import bench
from api.answers import Proposals
from api.schemas import NameQuery
from api.shapes_openapi import shape
from api.wire import Blueprint, answer

blueprint = Blueprint("substances", __name__, description="What is known of an ingredient by its name")


class NameAsked(TypedDict):
    """`api.schemas.NameQuery`, read."""

    name: str


@blueprint.get("/substances")
@blueprint.arguments(NameQuery(), location="query")
@blueprint.response(200, shape(Proposals))
def list_substances(asked: NameAsked) -> Response:
    """What a name is taken for, and what else it may become as it is typed: of five languages, INCI or CAS."""
    return answer({"substances": bench.propose(asked["name"])})
