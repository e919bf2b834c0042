"""The files of papers: kept as they were sent, given out to be saved, and carried by export, copy and move."""

from __future__ import annotations

import io
import json
import zlib
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from api import copies, move_studio
from api.store import reading, writing
from tests.api.doorway import paired
from tests.api.stock import described, to_shelf, with_lot
from tests.api.studio import Studio
from tests.api.test_move_studio import all_rows
from tests.make import make_entry, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

MIMES = {"pdf": "application/pdf", "png": "image/png", "jpeg": "image/jpeg"}


def drawn(media: str) -> bytes:
    """A file of that sort, as libraries that know nothing of ours write it."""
    written = io.BytesIO()
    if media == "pdf":
        canvas = Canvas(written)
        canvas.drawString(100, 700, "Safety sheet")
        canvas.save()
    else:
        Image.new("RGB", (12, 8), "white").save(written, media)
    return written.getvalue()


def papered(content: bytes, media: str, **about: Any) -> dict[str, Any]:
    body = {
        **about,
        "paper": "safety_sheet",
        "reference": "Folder 3",
        "expires": "2027-01-31",
        "picture": uuid4(),
        "sha256": sha256(content).hexdigest(),
        "media": media,
    }
    return make_entry("shelf", kind="papered", body=body)


def put(studio: Studio, entry: dict[str, Any], content: bytes, mime: str) -> Any:
    address = f"/api/v1/pictures/{entry['body']['picture']}"
    return studio.client.put(address, data=content, content_type=mime)


def with_paper(
    studio: Studio, media: str = "pdf", content: bytes | None = None, **about: Any
) -> tuple[str, bytes]:
    """The address of a paper's file, and the file."""
    content = drawn(media) if content is None else content
    entry = papered(content, media, **(about or {"lot": with_lot(studio)}))
    to_shelf(studio, entry)
    assert put(studio, entry, content, MIMES[media]).status_code == 201
    return f"/pictures/{entry['body']['picture']}", content


@pytest.mark.parametrize("media", list(MIMES))
def test_a_papers_file_stands_at_its_lot_and_is_given_out_to_be_saved(studio: Studio, media: str) -> None:
    lot = with_lot(studio)
    address, content = with_paper(studio, media, lot=lot)

    answer = studio.get(address)
    assert (answer.data, answer.mimetype) == (content, MIMES[media])
    assert answer.headers["Content-Disposition"] == "attachment"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
    [paper] = studio.get(f"/lots/{lot}").json["papers"]
    assert (f"/pictures/{paper['picture']}", paper["media"]) == (address, media)
    assert paper["expires"] == "2027-01-31"


def test_an_ingredients_card_has_its_file_too_and_what_is_not_sent_is_awaited(studio: Studio) -> None:
    content = drawn("pdf")
    entry = papered(content, "pdf", ingredient="salt-1")
    to_shelf(studio, described(), entry)
    assert studio.get("/pictures").json == {"awaited": [{"id": entry["body"]["picture"], "run": "shelf"}]}

    assert [put(studio, entry, content, MIMES["pdf"]).status_code for _ in range(2)] == [201, 200]
    assert studio.get("/pictures").json == {"awaited": []}


def test_only_the_file_that_an_entry_tells_of_is_taken(studio: Studio) -> None:
    content = drawn("pdf")
    entry = papered(content, "pdf", lot=with_lot(studio))
    assert put(studio, entry, content, MIMES["pdf"]).status_code == 409  # before the entry
    to_shelf(studio, entry)
    assert put(studio, entry, content + b"\n", MIMES["pdf"]).status_code == 409
    assert put(studio, entry, drawn("png"), MIMES["png"]).status_code == 409
    assert studio.get(f"/pictures/{entry['body']['picture']}").status_code == 404
    assert put(studio, entry, content, MIMES["pdf"]).status_code == 201


def chunk(name: bytes, data: bytes) -> bytes:
    return len(data).to_bytes(4, "big") + name + data + zlib.crc32(name + data).to_bytes(4, "big")


PNG = drawn("png")
HEAD = PNG[:33]  # ISO/IEC 15948: the signature, and IHDR


@pytest.mark.parametrize(
    ("media", "content", "says"),
    [
        ("pdf", b"", "not a PDF"),
        ("pdf", b"<html><script>alert(1)</script></html>", "not a PDF"),
        ("pdf", b"%PDF-1.7\n" + bytes(2000), "not a PDF"),  # cut off
        ("pdf", b"MZ" + drawn("pdf"), "not a PDF"),
        ("png", drawn("pdf"), "not a whole PNG"),
        ("png", PNG[:-1], "not a whole PNG"),
        ("png", PNG[:40] + bytes(1) + PNG[41:], "not a whole PNG"),  # a sum that does not fit
        ("png", HEAD + chunk(b"eXIf", b"MM\0*") + PNG[33:], "Exif"),
        ("png", HEAD + chunk(b"tEXt", b"Author\0Someone") + PNG[33:], "Exif"),
        ("png", PNG + b"PK\3\4", "after the end"),
        (
            "png",
            PNG[:8] + chunk(b"IHDR", (9000).to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0") + PNG[33:],
            "pixels",
        ),
        ("jpeg", PNG, "not a whole JPEG"),
    ],
)
@pytest.mark.database("sqlite")
def test_what_is_no_such_file_is_refused_with_the_way_out(
    studio: Studio, media: str, content: bytes, says: str
) -> None:
    entry = papered(content, media, lot=with_lot(studio))
    to_shelf(studio, entry)
    answer = put(studio, entry, content, MIMES[media])
    assert answer.status_code == 422 and says in answer.json["detail"]


@pytest.mark.database("sqlite")
def test_a_file_is_no_larger_than_the_studio_says(new_app: Any) -> None:
    studio = Studio(new_app(paper_limit=1500).test_client())
    large = drawn("pdf").replace(b"%PDF-1.3", b"%PDF-1.3\n%" + bytes(b"x" * 2000), 1)
    entry = papered(large, "pdf", lot=with_lot(studio))
    to_shelf(studio, entry)
    assert put(studio, entry, large, MIMES["pdf"]).status_code == 413
    assert put(studio, entry, b"%!PS", "application/postscript").status_code == 415


def test_an_export_and_its_import_keep_every_file_byte_for_byte(studio: Studio, new_app: Any) -> None:
    files = dict(with_paper(studio, media) for media in MIMES)
    missing = papered(b"never sent", "pdf", lot=with_lot(studio))
    to_shelf(studio, missing)
    told = studio.get("/export").data
    there = Studio(new_app().test_client())

    answer = there.client.post("/api/v1/import", data=told, content_type="application/json").json
    assert answer["refused"] == []
    assert {address: there.get(address).data for address in files} == files
    again = there.client.post("/api/v1/import", data=told, content_type="application/json").json
    assert (again["kept"], again["refused"]) == (0, [])
    mine, others = (json.loads(each)["papers"] for each in (told, there.get("/export").data))
    assert mine == others and len(mine) == len(files)


@pytest.mark.database("sqlite")
def test_an_import_refuses_a_file_that_is_not_the_one_told_of_by_itself(studio: Studio, new_app: Any) -> None:
    with_paper(studio)
    told = json.loads(studio.get("/export").data)
    good = told["papers"][0]
    told["papers"] = [
        {**good, "content": "JVBERg=="},
        {**good, "content": "?"},
        {**good, "id": uuid4()},
        good,
    ]
    there = Studio(new_app().test_client())

    answer = there.client.post("/api/v1/import", json=told).json
    assert [each["field"] for each in answer["refused"]] == ["papers.0", "papers.1", "papers.2"]
    assert there.get(f"/pictures/{good['id']}").status_code == 200


def test_a_copy_and_a_move_carry_every_file_byte_for_byte(app: Any, new_app: Any, tmp_path: Path) -> None:
    studio = Studio(app.test_client())
    files = dict(with_paper(studio, media) for media in MIMES)
    restored, moved = new_app(), new_app()
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    copies.restore(restored, tmp_path / "all.gz")
    with app.app_context(), reading() as source, moved.app_context(), writing() as target:
        move_studio.copy_over(source, target)

    for other in (restored, moved):
        there = Studio(other.test_client())
        assert {address: there.get(address).data for address in files} == files
        assert all_rows(other) == all_rows(app)


@pytest.mark.database("sqlite")
def test_a_helper_opens_papers_and_a_stranger_none(new_app: Any) -> None:
    app = new_app(pairing=True)
    address, content = with_paper(Studio(paired(app)))

    assert Studio(paired(app, "helper", "Tablet")).get(address).data == content
    assert app.test_client().get(f"/api/v1{address}").status_code == 401
