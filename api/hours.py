"""Whose hands there are and when the bench is theirs."""

from __future__ import annotations

from flask import Response

import bench
from api.answers import HoursWhole, StudioHours
from api.clock import now_ms
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH
from api.plan_shapes import MakersWritten
from api.shapes_openapi import shape
from api.singletons import SingletonDocument
from api.store import reading
from api.tables import Hours
from api.wire import Blueprint

blueprint = Blueprint("hours", __name__, description="Makers and their bench hours")


ALWAYS: StudioHours = {"makers": [{"name": "Maker", "hours": {"zone": "UTC", "daily": [["0:00", "24:00"]]}}]}
DAY_MS = 86_400_000


@blueprint.get("/hours")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(HoursWhole), headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_hours() -> Response:
    """The makers and their bench hours. In version 0 one maker may always work."""
    with reading() as connection:
        return HOURS.now(connection).answer()


@blueprint.put("/hours")
@blueprint.doc(parameters=[IF_MATCH])
@blueprint.arguments(MakersWritten())
@blueprint.response(200, shape(HoursWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(HoursWhole), headers=ETAG, success=True, description="Created")
def put_hours(document: StudioHours) -> Response:
    """Say whose hands there are and when; once that was said, with If-Match."""
    return HOURS.put(document)


def check_hours(document: StudioHours) -> None:
    """Raise PlanError, naming the field, for hours that no day can have."""
    at = now_ms()
    bench.make_problem([], document["makers"], at, at + DAY_MS)


HOURS: SingletonDocument[StudioHours, None] = SingletonDocument(Hours, "hours", "/hours", ALWAYS, check_hours)
