"""Photographs of a batch: JPEG alone, with nothing in them but the picture.

A picture comes after the entry that tells of it, and must be the one whose SHA-256 that names. It is kept
in the database, so that a copy holds it too. One that carries more than a picture (place, time, device, an
Exif or other block, something after its end) is refused: a page draws a photograph anew before it sends it.
"""

from __future__ import annotations

import re
from hashlib import sha256
from uuid import UUID

from flask import Response, current_app, request
from sqlalchemy import select, update

from api import generation
from api.answers import PictureKept, PicturesAwaited
from api.errors import Problem, not_found
from api.openapi import IF_NONE_MATCH
from api.security import DATA
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import Picture
from api.wire import Blueprint, answer, read_body
from bench import words

blueprint = Blueprint("pictures", __name__, description="Photographs of a batch")

JPEG = "image/jpeg"
MAX_AWAITED = 200
BINARY = {"type": "string", "format": "binary"}
HEADERS = (*DATA, ("Cache-Control", "private, max-age=31536000, immutable"))

# Markers of ITU-T T.81, Table B.1. Those that stand alone, without a length and content:
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})
_FRAMES = frozenset({*range(0xC0, 0xD0)}) - {0xC4, 0xC8, 0xCC}
_START, _END, _SCAN = 0xD8, 0xD9, 0xDA
# What a picture needs to be shown: APP0 (JFIF), a colour profile, Adobe's word on its colours.
_KNOWN = {0xE0: (b"JFIF\0",), 0xE2: (b"ICC_PROFILE\0",), 0xEE: (b"Adobe",)}
_BESIDE = frozenset({*range(0xE0, 0xF0), 0xFE})
_MARKER = re.compile(rb"\xff++[^\x00\xff\xd0-\xd7]")
# In the picture's own bytes. It has no repetition to try again: each byte is looked at twice at the most.
_MARKER_AHEAD = re.compile(rb"\xff[^\x00\xff\xd0-\xd7]")
MAX_PIXELS = 50_000_000  # a phone that shows it holds four bytes a pixel


@blueprint.put("/pictures/<uuid:picture_id>")
@blueprint.doc(requestBody={"required": True, "content": {JPEG: {"schema": BINARY}}})
@blueprint.response(200, shape(PictureKept))
@blueprint.alt_response(201, schema=shape(PictureKept), success=True, description="Kept")
def put_picture(picture_id: UUID) -> Response:
    """Send a photograph, after the entry that tells of it. The same again changes nothing."""
    if request.mimetype != JPEG:
        raise Problem(415, words.say("api-pictures-send-jpeg"))
    request.max_content_length = current_app.config["BOWLSIDE"].picture_limit
    content = read_body()
    if fault := fault_in(content):
        raise Problem(422, fault, title=words.say("api-pictures-title"))
    digest = sha256(content).hexdigest()
    with writing() as connection:
        expected = connection.execute(
            select(Picture.sha256, Picture.content.is_not(None)).where(Picture.id == str(picture_id))
        ).one_or_none()
        if expected is None:
            raise Problem(409, words.say("api-pictures-no-entry"))
        said, is_here = expected
        if said != digest:
            raise Problem(409, words.say("api-pictures-another"))
        if not is_here:
            connection.execute(update(Picture).where(Picture.id == str(picture_id)).values(content=content))
    return answer({"id": str(picture_id), "sha256": digest, "bytes": len(content)}, 200 if is_here else 201)


@blueprint.get("/pictures")
@blueprint.response(200, shape(PicturesAwaited))
def list_awaited() -> Response:
    """Which photographs entries tell of and nobody has sent, the newest first: a phone that holds one sends it."""
    with reading() as connection:
        found = connection.execute(
            select(Picture.id, Picture.run_id)
            .where(Picture.content.is_(None))
            .order_by(Picture.id.desc())
            .limit(MAX_AWAITED)
        )
        return answer({"awaited": [{"id": each.id, "run": each.run_id} for each in found]})


@blueprint.get("/pictures/<uuid:picture_id>")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, BINARY, content_type=JPEG)
@blueprint.alt_response(304, description="Nothing changed; it never does")
def get_picture(picture_id: UUID) -> Response:
    """A photograph. What is under an id never changes."""
    with reading() as connection:
        found = connection.execute(
            select(Picture.content, Picture.sha256).where(Picture.id == str(picture_id))
        ).one_or_none()
    if found is None or found.content is None:
        not_found("picture", "/api/v1/runs/{id}/record")
    response = Response(found.content, 200, HEADERS, content_type=JPEG)
    response.set_etag(generation.tag(found.sha256))
    response.make_conditional(request)
    return response


def fault_in(content: bytes) -> str | None:
    """Why this is no JPEG of a picture and nothing else; None when it is."""
    broken = words.say("api-pictures-broken")
    if not content.startswith(bytes((0xFF, _START, 0xFF))):
        return broken
    at, has_frame, has_scan = 2, False, False
    while at < len(content):
        found = _MARKER_AHEAD.search(content, at) if has_scan else _MARKER.match(content, at)
        if found is None:
            return broken
        marker, at = content[found.end() - 1], found.end()
        if marker == _END:
            if at != len(content):
                return words.say("api-pictures-more-after")
            return None if has_frame and has_scan else broken
        if marker in _ALONE or marker == _START:
            return broken
        length = int.from_bytes(content[at : at + 2], "big")
        segment = content[at + 2 : at + length]
        if length < 2 or len(segment) != length - 2:
            return broken
        if marker in _BESIDE and not segment.startswith(_KNOWN.get(marker, ())):
            return words.say("api-pictures-more-beside")
        if marker in _FRAMES:
            # B.2.2: its precision in one byte, then its lines and the samples of a line in two each.
            high, wide = int.from_bytes(segment[1:3], "big"), int.from_bytes(segment[3:5], "big")
            if not high or not wide:
                return broken
            if high * wide > MAX_PIXELS:
                return words.say("api-pictures-too-many-pixels", wide=f"{wide}", high=f"{high}")
            has_frame = True
        has_scan = has_scan or marker == _SCAN
        at += length
    return broken
