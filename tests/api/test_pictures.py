"""Photographs: the one that an entry tells of, a JPEG and nothing besides, kept and copied like the rest."""

from __future__ import annotations

import time
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from api import copies
from api.jpeg import fault_in
from api.store import last_number, reading
from tests.api.doorway import paired
from tests.api.stock import gathered, weighed, with_lot
from tests.api.studio import Studio
from tests.api.test_move_studio import all_rows
from tests.make import BEGUN, make_entry, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES


def segment(marker: int, content: bytes) -> bytes:
    return bytes((0xFF, marker)) + (len(content) + 2).to_bytes(2, "big") + content


JFIF = segment(0xE0, b"JFIF\0\1\1\0\0\1\0\1\0\0")


def frame(high: int = 1, wide: int = 1, marker: int = 0xC0) -> bytes:
    return segment(marker, b"\x08" + high.to_bytes(2, "big") + wide.to_bytes(2, "big") + b"\1\1\x11\0")


FRAME = frame()
SCAN = segment(0xDA, b"\1\1\0\0\x3f\0") + b"\x12\xff\0\x34\xff\xd0\x56"
END = b"\xff\xd9"
EXIF = segment(0xE1, b"Exif\0\0MM\0*")


def jpeg(*more: bytes) -> bytes:
    """The outline of a JPEG, with segments of one's own after its first."""
    return b"\xff\xd8" + JFIF + b"".join(more) + FRAME + SCAN + END


def told(run: str, content: bytes, **body: Any) -> dict[str, Any]:
    said = {"picture": uuid4(), "sha256": sha256(content).hexdigest(), **body}
    return make_entry(run, kind="pictured", body=said)


def put(studio: Studio, picture: str, content: bytes, content_type: str = "image/jpeg") -> Any:
    return studio.client.put(f"/api/v1/pictures/{picture}", data=content, content_type=content_type)


@pytest.fixture
def run(studio: Studio) -> str:
    return studio.with_run()


def test_a_picture_is_kept_once_and_given_back_byte_for_byte(studio: Studio, run: str) -> None:
    content = jpeg(segment(0xDB, b"\xff" * 40))
    entry = told(run, content)
    studio.post(run, entry)
    picture = entry["body"]["picture"]

    assert [put(studio, picture, content).status_code for _ in range(2)] == [201, 200]

    answer = studio.get(f"/pictures/{picture}")
    assert (answer.data, answer.mimetype) == (content, "image/jpeg")
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
    again = studio.get(f"/pictures/{picture}", **{"If-None-Match": answer.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_only_the_picture_that_an_entry_tells_of_is_taken(studio: Studio, run: str) -> None:
    entry = told(run, jpeg())
    picture = entry["body"]["picture"]

    assert put(studio, picture, jpeg()).status_code == 409  # before the entry
    studio.post(run, entry)
    assert put(studio, picture, jpeg(segment(0xDB, b"other"))).status_code == 409
    assert studio.get(f"/pictures/{picture}").status_code == 404
    assert put(studio, picture, jpeg()).status_code == 201
    assert studio.get(f"/runs/{run}/record").json["pictures"][0]["picture"] == picture


def test_what_nobody_has_sent_yet_is_awaited_until_it_comes(studio: Studio, run: str) -> None:
    entry = told(run, jpeg())
    studio.post(run, entry)
    picture = entry["body"]["picture"]
    assert studio.get("/pictures").json == {"awaited": [{"id": picture, "run": run}]}

    put(studio, picture, jpeg())

    assert studio.get("/pictures").json == {"awaited": []}


def test_a_picture_told_of_by_no_uuid_is_refused_by_its_entry(studio: Studio, run: str) -> None:
    """No address could ever take it."""
    for name in ("front", uuid4().upper()):
        (refused,) = studio.post(run, told(run, jpeg(), picture=name)).json["answers"]

        assert (refused["result"], refused["field"]) == ("refused", "body.picture")


def test_a_picture_told_of_after_the_signing_is_taken_too(studio: Studio, run: str) -> None:
    entry = told(run, jpeg())
    studio.post(run, make_entry(run, at=BEGUN, kind="signed", body={"name": "A. Maker"}), entry)

    assert put(studio, entry["body"]["picture"], jpeg()).status_code == 201


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (jpeg(EXIF), "Exif"),
        (jpeg(segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x/>")), "Exif"),
        (jpeg(segment(0xED, b"Photoshop 3.0\0")), "Exif"),
        (jpeg(segment(0xFE, b"taken at home")), "Exif"),
        (jpeg(segment(0xE2, b"MPF\0")), "Exif"),
        (jpeg()[: -len(END)] + EXIF + END, "Exif"),  # hidden after the scan
        (jpeg() + b"PK\3\4", "after the end"),
        (jpeg()[:-2], "not a whole"),
        (b"\xff\xd8" + JFIF + END, "not a whole"),
        (b"\xff\xd8" + JFIF + frame(0, 1) + SCAN + END, "not a whole"),
        (b"\xff\xd8" + JFIF + segment(0xC0, b"\x08") + SCAN + END, "not a whole"),
        (b"\xff\xd8" + JFIF + frame(65_500, 65_500) + SCAN + END, "65500 × 65500 pixels"),
        (jpeg(frame(7_072, 7_072, 0xC2)), "7072 × 7072 pixels"),
        (b"\x89PNG\r\n\x1a\n", "not a whole"),
        (b"", "not a whole"),
        (b"\xff\xd8\xff\xe0\xff\xff", "not a whole"),
    ],
)
@pytest.mark.database("sqlite")
def test_what_is_no_plain_picture_is_refused_with_the_way_out(
    studio: Studio, run: str, content: bytes, says: str
) -> None:
    entry = told(run, content)
    studio.post(run, entry)

    answer = put(studio, entry["body"]["picture"], content)

    assert answer.status_code == 422
    assert says in answer.json["detail"]


@pytest.mark.parametrize(
    "content",
    [
        jpeg(),
        jpeg(segment(0xE2, b"ICC_PROFILE\0\1\1"), segment(0xEE, b"Adobe\0d")),
        b"\xff\xd8" + FRAME + SCAN + SCAN + END,  # progressive, and no JFIF
        b"\xff\xd8" + JFIF + b"\xff\xff" + FRAME[1:] + SCAN + END,  # fill bytes
    ],
)
def test_a_plain_picture_has_no_fault(content: bytes) -> None:
    assert fault_in(content) is None


def test_every_cut_of_a_picture_is_found_out() -> None:
    content = jpeg(segment(0xDB, bytes(range(64))))

    assert [at for at in range(len(content)) if fault_in(content[:at]) is None] == []


@pytest.mark.database("sqlite")
def test_what_is_too_large_or_of_another_type_is_refused(new_app: Any) -> None:
    studio = Studio(new_app(picture_limit=1000).test_client())
    run = studio.with_run()
    large = jpeg(segment(0xDB, bytes(2000)))
    entry = told(run, large)
    studio.post(run, entry)

    assert put(studio, entry["body"]["picture"], large).status_code == 413
    assert put(studio, entry["body"]["picture"], jpeg(), "image/gif").status_code == 415
    assert put(studio, "..%2f..%2fetc", jpeg()).status_code == 404


def test_a_copy_carries_shelf_settings_lots_and_pictures(app: Any, new_app: Any, tmp_path: Path) -> None:
    studio = Studio(app.test_client())
    lot, run = with_lot(studio), studio.with_run()
    entry, missing = told(run, jpeg()), told(run, jpeg(segment(0xDB, b"not sent yet")))
    studio.post(run, gathered(run, lot), weighed(run, 3_000), entry, missing)
    put(studio, entry["body"]["picture"], jpeg())
    studio.client.put("/api/v1/settings", json={"batch_number": "{mark}{n}"})
    other = new_app()

    with app.app_context():
        counts = copies.write(tmp_path / "all.gz")
    copies.restore(other, tmp_path / "all.gz")

    assert counts["picture"] == counts["shelf_entry"] == 2
    assert all_rows(other) == all_rows(app)
    there = Studio(other.test_client())
    for path in (f"/pictures/{entry['body']['picture']}", f"/lots/{lot}/trace", "/settings"):
        assert there.get(path).data == studio.get(path).data
    # A phone that has read further than the copy goes misses nothing of what comes after.
    with other.app_context(), reading() as connection:
        last = last_number(connection)
    assert with_lot(there) and there.get(f"/shelf/entries?after={last}").json["entries"]


@pytest.mark.database("sqlite")
def test_a_helper_sends_and_sees_pictures_and_a_stranger_none(new_app: Any) -> None:
    app = new_app(pairing=True)
    helper = Studio(paired(app, "helper", "Tablet at the press"))
    run = Studio(paired(app)).with_run()
    entry = told(run, jpeg())
    helper.post(run, entry)

    assert put(helper, entry["body"]["picture"], jpeg()).status_code == 201
    assert helper.get(f"/pictures/{entry['body']['picture']}").status_code == 200
    assert app.test_client().get(f"/api/v1/pictures/{entry['body']['picture']}").status_code == 401


def fault_by_bytes(content: bytes) -> str | None:
    """The same verdict, byte by byte and slowly: "whole", "more", "large", or None where nothing is wrong."""
    if content[:3] != b"\xff\xd8\xff":
        return "whole"
    at, frames, scans = 2, 0, 0
    while at + 1 < len(content):
        one, two = content[at : at + 2]
        is_marker = one == 0xFF and two not in (0x00, 0xFF, *range(0xD0, 0xD8))
        if not is_marker:
            if not scans and (one, two) != (0xFF, 0xFF):
                return "whole"
            at += 1
            continue
        at += 2
        if two == 0xD9:
            if at != len(content):
                return "more"
            return None if frames and scans else "whole"
        if two in (0x01, 0xD8):
            return "whole"
        length = int.from_bytes(content[at : at + 2], "big")
        inside = content[at + 2 : at + length]
        if length < 2 or len(inside) != length - 2:
            return "whole"
        allowed = {0xE0: b"JFIF\0", 0xE2: b"ICC_PROFILE\0", 0xEE: b"Adobe"}.get(two)
        if (two == 0xFE or 0xE0 <= two <= 0xEF) and (allowed is None or not inside.startswith(allowed)):
            return "more"
        if 0xC0 <= two <= 0xCF and two not in (0xC4, 0xC8, 0xCC):
            high, wide = int.from_bytes(inside[1:3], "big"), int.from_bytes(inside[3:5], "big")
            if not high * wide:
                return "whole"
            if high * wide > 50_000_000:
                return "large"
            frames += 1
        scans += two == 0xDA
        at += length
    return "whole"


SAID = {"not a whole": "whole", "after the end": "more", "holds more": "more", "pixels": "large"}
parts = st.sampled_from(
    [
        JFIF,
        FRAME,
        frame(60_000, 60_000),
        frame(0, 3),
        SCAN,
        END,
        EXIF,
        b"\xff",
        b"\0",
        b"\xff\xd0",
        b"\xff\1",
        b"\x07",
    ]
) | st.binary(max_size=3)


@given(
    st.lists(parts, max_size=12).map(lambda some: b"\xff\xd8\xff" + b"".join(some)[1:])
    | st.binary(max_size=12)
)
@settings(max_examples=400)
def test_any_bytes_are_judged_as_a_slow_and_simple_reader_judges_them(content: bytes) -> None:
    said = fault_in(content)

    assert next((kind for words, kind in SAID.items() if words in (said or "")), None) == fault_by_bytes(
        content
    )
    assert fault_in(jpeg()) is None


@pytest.mark.parametrize(
    "unit", [b"\xff", b"\xff\0", b"\xff\xd0", b"\0", b"\xff\xff\0", segment(0xDB, b""), SCAN]
)
@pytest.mark.parametrize("start", [b"\xff\xd8" + JFIF + FRAME + SCAN, b"\xff\xd8" + JFIF, b"\xff\xd8\xff"])
def test_what_is_no_picture_is_found_out_in_one_pass(start: bytes, unit: bytes) -> None:
    """Processor time of this thread; what looked at each byte anew from each byte took minutes for this."""
    content = start + unit * (300_000 // len(unit))
    began = time.thread_time()

    fault_in(content)

    assert time.thread_time() - began < 2
