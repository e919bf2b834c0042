"""Photographs of a batch, JPEG alone with nothing in them but the picture; and the files of papers.

A picture comes after the entry that tells of it, and must be the one whose SHA-256 that names. It is kept
in the database, so that a copy holds it too. One that carries more than a picture (place, time, device, an
Exif or other block, something after its end) is refused: a page draws a photograph anew before it sends it. What a paper's file may be says `papers`.
"""

from __future__ import annotations

from hashlib import sha256
from uuid import UUID

from flask import Response, current_app, request
from sqlalchemy import select

from api import generation, papers
from api.answers import PictureKept, PicturesAwaited
from api.errors import Problem, not_found
from api.openapi import IF_NONE_MATCH
from api.security import DATA
from api.settings import Settings
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import Picture
from api.wire import Blueprint, answer, read_body
from bench import words

blueprint = Blueprint("pictures", __name__, description="Photographs of a batch, and the files of papers")

MAX_AWAITED = 200
SHELF = "shelf"
BINARY = {"type": "string", "format": "binary"}
HEADERS = (*DATA, ("Cache-Control", "private, max-age=31536000, immutable"))


@blueprint.put("/pictures/<uuid:picture_id>")
@blueprint.doc(
    requestBody={"required": True, "content": {mime: {"schema": BINARY} for mime in papers.MIMES.values()}}
)
@blueprint.response(200, shape(PictureKept))
@blueprint.alt_response(201, schema=shape(PictureKept), success=True, description="Kept")
def put_picture(picture_id: UUID) -> Response:
    """Send a photograph, or a paper's file, after the entry that tells of it. The same again changes nothing."""
    media = next((name for name, mime in papers.MIMES.items() if mime == request.mimetype), None)
    if media is None:
        raise Problem(415, words.say("api-pictures-send-jpeg"))
    settings: Settings = current_app.config["BOWLSIDE"]
    request.max_content_length = settings.picture_limit if media == "jpeg" else settings.paper_limit
    content = read_body()
    papers.refuse_faulty(media, content)
    with writing() as connection:
        is_new = papers.keep(connection, str(picture_id), media, content)
    told = {"id": str(picture_id), "sha256": sha256(content).hexdigest(), "bytes": len(content)}
    return answer(told, 201 if is_new else 200)


@blueprint.get("/pictures")
@blueprint.response(200, shape(PicturesAwaited))
def list_awaited() -> Response:
    """Which pictures and files entries tell of and nobody has sent, the newest first: a phone that holds one sends it."""
    with reading() as connection:
        found = connection.execute(
            select(Picture.id, Picture.run_id)
            .where(Picture.content.is_(None))
            .order_by(Picture.id.desc())
            .limit(MAX_AWAITED)
        )
        return answer({"awaited": [{"id": each.id, "run": each.run_id or SHELF} for each in found]})


@blueprint.get("/pictures/<uuid:picture_id>")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, BINARY, content_type=papers.MIMES["jpeg"])
@blueprint.alt_response(304, description="Nothing changed; it never does")
def get_picture(picture_id: UUID) -> Response:
    """A photograph, or a paper's file to be saved. What is under an id never changes."""
    with reading() as connection:
        found = connection.execute(
            select(Picture.content, Picture.sha256, Picture.media).where(Picture.id == str(picture_id))
        ).one_or_none()
    if found is None or found.content is None:
        not_found("picture", "/api/v1/runs/{id}/record")
    response = Response(found.content, 200, HEADERS, content_type=papers.MIMES[found.media or "jpeg"])
    if found.media:
        response.headers["Content-Disposition"] = "attachment"  # whoever asks gives it a name
    response.set_etag(generation.tag(found.sha256))
    response.make_conditional(request)
    return response
