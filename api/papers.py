"""The files of papers: a PDF, or a picture of one, kept beside the photographs and as they were sent.

A paper's file comes after the entry of the shelf that tells of it, and is the one whose SHA-256 that names. It is not
opened here: what it is for is to be had again, and it is given out to be saved, never to be shown.
"""

from __future__ import annotations

import re
import zlib
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator
from hashlib import sha256
from typing import TypedDict
from uuid import UUID

from sqlalchemy import Connection, select, update

from api.errors import Problem
from api.jpeg import MAX_PIXELS, fault_in
from api.store import execute
from api.tables import Picture
from bench import Entry, canonical, words

MIMES = {"pdf": "application/pdf", "jpeg": "image/jpeg", "png": "image/png"}
EXPECT = (
    "INSERT INTO picture (id, run_id, sha256, media) VALUES (:id, NULL, :sha256, :media)"
    " ON CONFLICT (id) DO NOTHING"
)
# ISO 32000-1, 7.5.2 and 7.5.5: the version at its head, the mark at its end. Readers look for it in the last 1024 bytes.
_PDF_HEAD = re.compile(rb"%PDF-[12]\.[0-9]")
_PDF_END, _PDF_TAIL = b"%%EOF", 1024
# ISO/IEC 15948, 5.2, 11.2 and 11.3: what a picture needs to be shown. Text, time and Exif are not among it.
_PNG_HEAD = b"\x89PNG\r\n\x1a\n"
_PNG_KNOWN = frozenset(
    {
        b"IHDR",
        b"PLTE",
        b"IDAT",
        b"IEND",
        b"tRNS",
        b"cHRM",
        b"gAMA",
        b"iCCP",
        b"sBIT",
        b"sRGB",
        b"bKGD",
        b"pHYs",
    }
)


class PaperFile(TypedDict):
    """`api.schemas.StudioPaper`, read."""

    id: UUID
    media: str
    content: str


def expect(connection: Connection, new: Iterable[Entry]) -> None:
    """Note the files that these entries of the shelf tell of."""
    for entry in new:
        if entry["kind"] == "papered":
            body = entry["body"]
            if "picture" in body and "sha256" in body and "media" in body:
                told = {"id": body["picture"], "sha256": body["sha256"], "media": body["media"]}
                execute(connection, EXPECT, told)


def fault_of(media: str, content: bytes) -> str | None:
    """Why this is no file of that sort; None when it is."""
    if media == "jpeg":
        return fault_in(content)
    return _fault_of_png(content) if media == "png" else _fault_of_pdf(content)


def _fault_of_pdf(content: bytes) -> str | None:
    is_pdf = _PDF_HEAD.match(content) and _PDF_END in content[-_PDF_TAIL:]
    return None if is_pdf else words.say("api-papers-no-pdf")


def _fault_of_png(content: bytes) -> str | None:
    broken = words.say("api-papers-no-png")
    if not content.startswith(_PNG_HEAD):
        return broken
    at = len(_PNG_HEAD)
    names: list[bytes] = []
    while at < len(content):
        length, name = int.from_bytes(content[at : at + 4], "big"), content[at + 4 : at + 8]
        data, end = content[at + 8 : at + 8 + length], at + 12 + length
        if end > len(content) or int.from_bytes(content[end - 4 : end], "big") != zlib.crc32(name + data):
            return broken
        if name not in _PNG_KNOWN:
            return words.say("api-pictures-more-beside")
        if not names and (name != b"IHDR" or length != 13):
            return broken
        if name == b"IHDR":
            wide, high = int.from_bytes(data[:4], "big"), int.from_bytes(data[4:8], "big")
            if wide * high > MAX_PIXELS:
                return words.say("api-pictures-too-many-pixels", wide=f"{wide}", high=f"{high}")
        names.append(name)
        at = end
        if name == b"IEND":
            break
    if at != len(content):
        return words.say("api-pictures-more-after")
    return None if names[-1:] == [b"IEND"] and b"IDAT" in names else broken


def as_text(connection: Connection) -> Iterator[str]:
    """Each file that is here, as an export holds it: its bytes as Base64."""
    held = select(Picture.id).where(Picture.media.is_not(None), Picture.content.is_not(None))
    for file_id in connection.scalars(held.order_by(Picture.id)).all():
        found = connection.execute(select(Picture.media, Picture.content).where(Picture.id == file_id)).one()
        content = b64encode(found.content or b"").decode()
        yield canonical({"id": file_id, "media": found.media, "content": content})


def take_in(connection: Connection, asked: PaperFile) -> bool:
    """Keep a file of an export, after the shelf that tells of it; gives whether it was not here.

    Problem when no paper tells of it, or it is another than that says.
    """
    try:
        content = b64decode(asked["content"], validate=True)
    except ValueError:
        raise Problem(422, words.say("api-papers-no-base64")) from None
    refuse_faulty(asked["media"], content)
    return keep(connection, str(asked["id"]), asked["media"], content)


def refuse_faulty(media: str, content: bytes) -> None:
    if fault := fault_of(media, content):
        raise Problem(422, fault, title=words.say("api-pictures-title"))


def keep(connection: Connection, file_id: str, media: str, content: bytes) -> bool:
    """Keep what an entry tells of; gives whether it was not here. Problem when none does, or it is another."""
    found = connection.execute(
        select(Picture.sha256, Picture.media, Picture.content.is_not(None)).where(Picture.id == file_id)
    ).one_or_none()
    if found is None:
        raise Problem(409, words.say("api-pictures-no-entry"))
    said, of, is_here = found
    if said != sha256(content).hexdigest() or (of or "jpeg") != media:
        raise Problem(409, words.say("api-pictures-another"))
    if not is_here:
        connection.execute(update(Picture).where(Picture.id == file_id).values(content=content))
    return not is_here
