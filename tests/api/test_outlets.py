"""Outlets: named and erased. What was erased stands nowhere any more, and the numbers stay."""

from __future__ import annotations

import gzip
import json
from pathlib import Path
from typing import Any
from uuid import UUID

import pyrage
import pytest
from sqlalchemy import text

from api import audit, copies
from api.store import on_postgresql, reading
from api.tables import db
from tests.api.doorway import paired
from tests.api.stock import to_shelf
from tests.api.studio import Studio
from tests.api.test_finished_pieces import SHOP, begun, finish, name_outlet, stock, told
from tests.make import uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

NAME, CONTACT = "Zebulon's corner shop", "zebulon.quist@example.test"


def outlets(studio: Studio) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = studio.get("/outlets").json["outlets"]
    return found


def erase(studio: Studio, outlet: str) -> Any:
    return studio.client.delete(f"/api/v1/outlets/{outlet}")


def test_an_outlet_is_named_named_anew_and_listed_by_name(studio: Studio) -> None:
    other = uuid4()
    assert name_outlet(studio, SHOP, "Market").status_code == 201
    assert name_outlet(studio, other, "a shop", "Main street 3").status_code == 201
    assert name_outlet(studio, SHOP, "Saturday market").status_code == 200

    assert [(each["name"], each["contact"]) for each in outlets(studio)] == [
        ("a shop", "Main street 3"),
        ("Saturday market", None),
    ]
    answer = studio.get("/outlets")
    assert answer.headers["Cache-Control"] == "no-store"
    assert studio.get("/outlets", **{"If-None-Match": answer.headers["ETag"]}).status_code == 304


def files_of(app: Any) -> bytes:
    """All that the database has on the disk."""
    folder: Path = app.config["BOWLSIDE"].database.parent
    return b"".join(path.read_bytes() for path in folder.rglob("*") if path.is_file())


def database_says(app: Any) -> str:
    """Every cell of every table, of whichever database."""
    with app.app_context(), reading() as connection:
        rows = [
            tuple(row)
            for table in db.metadata.sorted_tables
            for row in connection.execute(text(f"SELECT * FROM {table.name}"))
        ]
    return repr(rows)


def test_an_erased_outlet_is_found_nowhere_and_the_numbers_stand(
    studio: Studio, app: Any, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level("DEBUG")
    run = finish(studio, begun(studio))
    name_outlet(studio, SHOP, "Zebulon's stall", CONTACT)  # a name that it had before
    name_outlet(studio, SHOP, NAME, CONTACT)
    to_shelf(studio, told("sold", run, pieces=4, outlet=SHOP))
    with app.app_context():
        was = stock(studio, run)
        copies.write(tmp_path / "before.jsonl.gz")
    assert NAME in json.dumps(studio.get("/export").json)

    answer = erase(studio, SHOP)

    assert answer.status_code == 200 and answer.json["name"] is None and answer.json["copies"] == []
    with app.app_context():
        copies.write(tmp_path / "after.jsonl.gz")
        if not on_postgresql(db.engine):
            assert b"Zebulon" not in files_of(app) and b"zebulon" not in files_of(app)
    said = {
        "the database": database_says(app),
        "an export": studio.get("/export").text,
        "a copy": gzip.decompress((tmp_path / "after.jsonl.gz").read_bytes()).decode(),
        "the audit log": studio.get("/audit").text,
        "the log": caplog.text,
        "where pieces are": studio.get(f"/pieces/{run}").text,
        "a recall": studio.get(f"/runs/{run}/recall-outlets.csv").text,
    }
    assert [where for where, text in said.items() if "zebulon" in text.lower()] == []
    assert "erased the name of an outlet" in said["the audit log"]
    assert stock(studio, run) == was == (10, 6, 4, 0, 0)
    (at,) = studio.get(f"/pieces/{run}").json["at"]
    assert (at["outlet"], at["name"], at["there"]) == (SHOP, None, 4)
    # A copy of before still holds it, and says so nowhere but here.
    assert NAME in gzip.decompress((tmp_path / "before.jsonl.gz").read_bytes()).decode()


def test_an_erased_outlet_stays_erased_whatever_is_put_or_brought_in(studio: Studio) -> None:
    name_outlet(studio, SHOP, NAME, CONTACT)
    export = studio.get("/export").json
    first = erase(studio, SHOP).json["erased_at"]

    assert name_outlet(studio, SHOP, NAME).status_code == 409
    assert studio.import_(export).json["refused"] == []
    assert erase(studio, SHOP).json["erased_at"] == first
    assert [each["name"] for each in outlets(studio)] == [None]
    assert erase(studio, uuid4()).status_code == 404


def test_the_copies_that_still_name_it_are_named(studio: Studio, app: Any, clock: Any) -> None:
    name_outlet(studio, SHOP, NAME)
    with app.app_context():
        nightly = copies.nightly(app)
    assert nightly is not None
    clock.ms += 60_000

    assert erase(studio, SHOP).json["copies"] == [nightly.name]


def test_a_copy_of_before_the_outlet_or_after_its_erasing_is_not_named(
    studio: Studio, app: Any, clock: Any
) -> None:
    name_outlet(studio, uuid4(), NAME)
    nights = []
    for outlet in (None, SHOP):
        if outlet:
            name_outlet(studio, outlet, NAME)
        clock.ms += 86_400_000
        with app.app_context():
            nights.append(copies.nightly(app))
    clock.ms -= 172_000_000  # and whatever a clock that was set back says

    assert erase(studio, SHOP).json["copies"] == [nights[1].name]
    clock.ms += 272_000_000
    with app.app_context():
        assert copies.nightly(app)
    assert erase(studio, SHOP).json["copies"] == [nights[1].name]
    nights[1].write_bytes(nights[1].read_bytes()[:-20])
    assert erase(studio, SHOP).json["copies"] == [nights[1].name]


@pytest.mark.database("sqlite")
def test_an_encrypted_copy_is_named_unless_the_outlet_is_of_a_later_instant(new_app: Any, clock: Any) -> None:
    app = new_app(copies_key=(str(pyrage.x25519.Identity.generate().to_public()),))
    studio = Studio(app.test_client())
    with app.app_context():
        night = copies.nightly(app)
    later = str(UUID(int=(clock.ms + 60_000) << 80 | 7 << 76 | 2 << 62))
    for outlet, named in ((uuid4(), [night.name]), (later, [])):
        name_outlet(studio, outlet, NAME)
        assert erase(studio, outlet).json["copies"] == named


def test_a_restore_erases_again_what_was_erased_since_the_copy(
    studio: Studio, app: Any, tmp_path: Path
) -> None:
    name_outlet(studio, SHOP, NAME, CONTACT)
    with app.app_context():
        copies.write(tmp_path / "before.jsonl.gz")
    erase(studio, SHOP)

    with app.app_context():
        copies.restore(app, tmp_path / "before.jsonl.gz")

    assert [each["name"] for each in outlets(studio)] == [None]
    assert audit.KINDS >= {"outlet_erased"}


@pytest.mark.database("sqlite")
def test_a_helper_sells_and_is_told_no_contact_and_no_reaction(new_app: Any) -> None:
    locked = new_app(pairing=True)
    maker, helper = (Studio(paired(locked, role, role)) for role in ("maker", "helper"))
    run = finish(maker, begun(maker))
    name_outlet(maker, SHOP, NAME, CONTACT)
    reaction = told("complained", run, sort="reaction", text="Itching on both arms.", outlet=SHOP)
    to_shelf(maker, reaction)

    sold = {**told("sold", run, pieces=4, outlet=SHOP), "device": "the-helpers"}
    assert to_shelf(helper, sold).json["answers"] == [{"id": sold["id"], "result": "kept"}]
    assert stock(helper, run) == (10, 6, 4, 0, 0)
    assert [(each["name"], each["contact"]) for each in outlets(helper)] == [(NAME, None)]
    for path in ("/shelf/entries", f"/pieces/{run}", "/outlets", f"/lots/{uuid4()}/recall"):
        answer = helper.get(path).text
        assert CONTACT not in answer and "Itching" not in answer, path
    assert "Itching" in maker.get("/shelf/entries").text
    for path in (f"/runs/{run}/recall", "/complaints"):
        assert helper.get(path).status_code == 403, path
    assert erase(helper, SHOP).status_code == 403
