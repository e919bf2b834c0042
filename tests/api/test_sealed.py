"""A signed record stands: what else is sent, by whomever and of whenever, is a remark; who did what is known."""

from __future__ import annotations

import json
from random import Random
from typing import Any

import pytest
from flask_migrate import downgrade, upgrade
from sqlalchemy import text

import bench
from api.store import writing
from tests.api.doorway import paired
from tests.api.later import changed_by
from tests.api.stock import gathered, weighed, with_lot
from tests.api.studio import Studio
from tests.make import BEGUN, Clock, make_entry, uuid4, uuid7

HOUR = 3_600_000
MINUTE = 60_000
SIGNED_AT = BEGUN + HOUR


def signing(
    studio: Studio, run: str, at: int = SIGNED_AT, name: str = "A. Maker", **other: Any
) -> dict[str, Any]:
    """A signing of all that the server has."""
    entries = studio.get(f"/runs/{run}/entries?limit=1000").json["entries"]
    return make_entry(run, at=at, kind="signed", **{"body": {"name": name, **bench.seal(entries)}, **other})


def undoing(run: str, entry: dict[str, Any], **other: Any) -> dict[str, Any]:
    return make_entry(
        run, **{"at": entry["at"] + 1, "kind": "undone", "body": {"entry": entry["id"]}, **other}
    )


def results(answer: Any) -> list[str]:
    assert answer.status_code == 200, answer.text
    return [each["result"] for each in answer.json["answers"]]


def refused(answer: Any) -> tuple[str, str]:
    (told,) = answer.json["answers"]
    assert told["result"] == "refused", told
    return told["field"], told["detail"]


def stands(studio: Studio, run: str) -> str:
    """All of a record, and of the run in lists, that must stand once it is signed."""
    told = studio.get(f"/runs/{run}/record").json
    for beside in ("remarks", "unread", "late", "entries", "judgements", "release"):
        del told[beside]
    (listed,) = (each for each in studio.get("/runs").json["runs"] if each["id"] == run)
    listed = {key: value for key, value in listed.items() if key not in ("entries", "cursor", "release")}
    people = [{**each, "also": None} for each in told.pop("people")]
    return bench.canonical(
        [told, listed, people, studio.get(f"/runs/{run}/record.csv").text.count("\nline,")]
    )


@pytest.fixture
def other_studio(new_app: Any) -> Studio:
    return Studio(new_app().test_client())


@pytest.fixture
def signed(studio: Studio) -> tuple[str, dict[str, Any]]:
    """A run that was weighed and signed, and the signing."""
    lot, run = with_lot(studio), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 5_000), make_entry(run, at=BEGUN + 30))
    seal = signing(studio, run)
    assert results(studio.post(run, seal)) == ["kept"]
    return run, seal


def test_what_is_sent_after_the_signing_is_a_remark_whatever_instant_it_says(
    studio: Studio, signed: tuple[str, dict[str, Any]]
) -> None:
    run, seal = signed
    before = stands(studio, run)
    pour = studio.get(f"/runs/{run}/entries").json["entries"][1]

    late = [
        weighed(run, 9_000, at=15),
        undoing(run, pour),
        make_entry(run, at=BEGUN, kind="finished", body={}),
    ]
    assert results(studio.post(run, *late)) == ["kept"] * 3

    assert stands(studio, run) == before
    told = studio.get(f"/runs/{run}/record").json
    assert [each["kind"] for each in told["remarks"]] == ["finished", "weighed", "undone"]
    assert told["signed"]["id"] == seal["id"] and told["signed"]["entries"] == 3


def test_a_record_is_signed_once_until_a_maker_undoes_that(
    studio: Studio, signed: tuple[str, dict[str, Any]]
) -> None:
    run, seal = signed

    field, says = refused(studio.post(run, signing(studio, run, SIGNED_AT - 1, "Somebody else")))
    assert says == "Signed on 2025-02-19 22:20 UTC: A. Maker. A maker can undo that first. Then sign again."
    assert refused(studio.post(run, undoing(run, seal, at=SIGNED_AT - 1)))[0] == "at"

    undo = undoing(run, seal)
    assert results(studio.post(run, seal, undo, undo)) == ["had", "kept", "had"]
    told = studio.get(f"/runs/{run}/record").json
    assert told["signed"] is None
    assert told["unsigned"] == [
        {
            "at": undo["at"],
            "device": "phone-a",
            "name": "A. Maker",
            "signed_at": SIGNED_AT,
            "signed_by": "phone-a",
        }
    ]
    assert "undo" in refused(studio.post(run, undoing(run, undo)))[1]
    assert results(studio.post(run, signing(studio, run, SIGNED_AT + 9, "Somebody else"))) == ["kept"]
    assert len(studio.get(f"/runs/{run}/record").json["unsigned"]) == 1


@pytest.mark.database("sqlite")
def test_only_a_maker_undoes_a_signing_and_the_log_says_so(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app)), Studio(paired(app, "helper", "Tablet at the press"))
    run = maker.with_run()
    seal = signing(helper, run, device="tablet")
    assert results(helper.post(run, seal)) == ["kept"]

    field, says = refused(helper.post(run, undoing(run, seal, device="tablet")))
    assert (field, says) == ("body.entry", "Only a maker's device can undo a signing. Ask a maker.")
    assert results(maker.post(run, undoing(run, seal))) == ["kept"]

    noted = maker.get("/audit?what=unsigned").json["audit"]
    assert [(each["who"], each["about"]["name"]) for each in noted] == [("Phone by the bowl", "A. Maker")]


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"digest": "0" * 64}, "body.digest"),
        ({"entries": ["018f0000-0000-7000-8000-000000000001"]}, "body.entries"),
    ],
)
def test_a_signing_names_what_is_here_by_its_digest(
    studio: Studio, change: dict[str, Any], field: str
) -> None:
    run = studio.with_run()
    studio.post(run, weighed(run, 5_000))
    seal = signing(studio, run)
    seal["body"] |= change

    assert refused(studio.post(run, seal))[0] == field
    assert studio.get(f"/runs/{run}/record").json["signed"] is None


def test_an_undo_that_waited_for_the_signing_does_not_take_it_back(studio: Studio) -> None:
    run = studio.with_run()
    seal = signing(studio, run)
    studio.post(run, undoing(run, seal))

    assert refused(studio.post(run, seal))[0] == "id"


def test_a_signing_of_an_earlier_version_is_kept_as_what_then_stood_before_it(
    studio: Studio, other_studio: Studio
) -> None:
    lot, run = with_lot(studio), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 5_000))
    seal = make_entry(run, at=SIGNED_AT, kind="signed", body={"name": "A. Maker"})
    studio.post(run, seal)
    before = stands(studio, run)

    studio.post(run, weighed(run, 9_000, at=15))

    assert stands(studio, run) == before
    told = studio.get(f"/runs/{run}").json
    assert told["sealed_by"] == told["sealed"]["signed"] == seal["id"] and len(told["sealed"]["entries"]) == 2
    other_studio.import_(studio.get("/export").json)
    assert stands(other_studio, run) == before


def test_the_migration_keeps_what_stood_before_a_signing(app: Any, studio: Studio) -> None:
    """As 0007 finds a studio: signed, with nothing kept of it. An older export has nothing of it either."""
    run = studio.with_run()
    studio.post(
        run, weighed(run, 5_000), make_entry(run, at=SIGNED_AT, kind="signed", body={"name": "A. Maker"})
    )
    kept = studio.get(f"/runs/{run}").json["sealed"]
    with app.app_context():
        downgrade(revision="0006")
        upgrade()

    assert kept and studio.get(f"/runs/{run}").json["sealed"] == kept


def test_what_is_signed_or_weighed_in_a_run_that_is_not_here_is_404(studio: Studio) -> None:
    """As of a phone that signs while the studio is put back from a copy without its run."""
    run = uuid4()
    for kind, body in (
        ("signed", {"name": "A. Maker", **bench.seal([])}),
        ("weighed", {"line": "bar.1.butter"}),
        ("undone", {"entry": uuid7(BEGUN)}),
        ("noted", {"text": "late"}),
    ):
        entry = {"id": uuid7(BEGUN), "run": run, "device": "phone-a", "at": BEGUN, "kind": kind, "body": body}
        assert studio.post(run, entry).status_code == 404, kind


# Who, and when


@pytest.mark.database("sqlite")
def test_a_benchs_name_is_the_devices_that_used_it_first(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app)), Studio(paired(app, "helper", "Tablet at the press"))
    run = maker.with_run()
    assert results(maker.post(run, make_entry(run))) == ["kept"]

    field, says = refused(helper.post(run, make_entry(run, at=BEGUN)))

    assert field == "device" and says.startswith("This bench name belongs to: Phone by the bowl.")
    patched = helper.client.patch(f"/api/v1/devices/{helper.client.device['id']}", json={"bench": "phone-a"})
    assert (patched.status_code, patched.json["errors"][0]["field"]) == (409, "bench")
    assert [each["name"] for each in maker.get(f"/runs/{run}/record").json["people"]] == ["Phone by the bowl"]
    assert helper.get("/studio").json["benches"] == {"phone-a": "Phone by the bowl"}


@pytest.mark.database("sqlite")
def test_a_device_that_was_shut_out_is_followed_by_the_one_that_pairs_anew(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, former = Studio(paired(app, name="Desk")), Studio(paired(app, "helper", "Old phone"))
    run = maker.with_run()
    former.post(run, make_entry(run, device="phone-b"))
    maker.client.delete(f"/api/v1/devices/{former.client.device['id']}")

    again = Studio(paired(app, "helper", "New phone"))
    assert results(again.post(run, make_entry(run, device="phone-b", at=BEGUN))) == ["kept"]

    (person,) = maker.get(f"/runs/{run}/record").json["people"]
    assert (person["name"], person["also"]) == ("Old phone", ["New phone"])
    assert maker.get("/audit?what=bench_followed").json["audit"][0]["about"]["was"] == "Old phone"
    assert maker.get("/studio").json["benches"]["phone-b"] == "New phone"


@pytest.mark.database("sqlite")
def test_a_phone_that_lost_its_pairing_goes_on_under_its_name_and_a_helper_under_no_makers(
    new_app: Any, clock: Clock
) -> None:
    app = new_app(pairing=True)
    maker, lost = Studio(paired(app, name="Desk")), Studio(paired(app, "helper", "Phone by the bowl"))
    run = maker.with_run()
    maker.post(run, make_entry(run, device="desk"))
    lost.post(run, make_entry(run, device="phone-b"))
    clock.ms += MINUTE

    again = Studio(paired(app, "helper", "Phone by the bowl, again"))

    assert results(again.post(run, make_entry(run, device="desk", at=BEGUN))) == ["refused"]
    assert results(again.post(run, make_entry(run, device="phone-b", at=BEGUN + 1))) == ["kept"]
    # It is a bench now, and follows nobody else; and whoever is still there is followed by nobody.
    other = Studio(paired(app, "helper", "Tablet"))
    other.post(run, make_entry(run, device="tablet", at=BEGUN + 2))
    clock.ms += MINUTE
    assert results(again.post(run, make_entry(run, device="tablet", at=BEGUN + 3))) == ["refused"]
    newest = Studio(paired(app, "maker", "Newest"))
    clock.ms += MINUTE
    again.get("/studio")
    assert results(newest.post(run, make_entry(run, device="phone-b", at=BEGUN + 4))) == ["refused"]


@pytest.mark.database("sqlite")
def test_after_a_restore_a_maker_gives_back_what_others_had_sent(new_app: Any, clock: Clock) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app, name="Desk")), Studio(paired(app, "helper", "Tablet at the press"))
    run = maker.with_run()
    helper.post(run, make_entry(run, device="tablet"))
    lost = make_entry(run, id=uuid7(clock.ms - HOUR), device="tablet", at=clock.ms - HOUR)
    newer = make_entry(run, id=uuid7(clock.ms + HOUR), device="tablet", at=clock.ms + HOUR)

    def give(studio: Studio, *entries: Any) -> Any:
        asked = {"entries": list(entries), "given_back": True}
        return studio.client.post(f"/api/v1/runs/{run}/entries", json=asked)

    assert results(give(maker, lost)) == ["refused"]  # nothing was ever lost here
    with app.app_context(), writing() as connection:
        connection.execute(text("UPDATE studio SET began_at = :at"), {"at": clock.ms})
        said = (
            "INSERT INTO audit (id, at, who, what, about) VALUES ('a', :at, 'the terminal', 'restored', '{}')"
        )
        connection.execute(text(said), {"at": clock.ms})
    assert give(helper, lost).status_code == 403
    assert results(give(maker, lost, newer)) == ["kept", "refused"]

    told = maker.get(f"/runs/{run}/record").json
    assert [each["name"] for each in told["people"]] == ["Tablet at the press"]
    given = [each for each in told["late"] if each["given_back"]]
    assert [(each["id"], each["sender"]) for each in given] == [(lost["id"], "Desk")]


def test_the_record_says_what_came_long_after_it_happened(studio: Studio, clock: Clock) -> None:
    run = studio.with_run()
    pour = weighed(run, 5_000)
    pour["at"] = clock.ms - 11 * 60_000
    studio.post(run, pour, make_entry(run, at=clock.ms - 9 * 60_000))

    (told,) = studio.get(f"/runs/{run}/record").json["late"]

    assert (told["id"], told["at"], told["received_at"]) == (pour["id"], pour["at"], clock.ms)
    assert (told["kind"], told["about"], told["sender"]) == ("weighed", "Sea salt", None)
    assert "received late,,,weighed Sea salt" in studio.get(f"/runs/{run}/record.csv").text


def test_no_entry_is_older_than_the_batch(studio: Studio, clock: Clock) -> None:
    run = studio.with_run(made_at=clock.ms - HOUR)

    field, says = refused(studio.post(run, make_entry(run, at=clock.ms - HOUR - 1)))

    assert field == "at" and "before the batch was begun" in says
    assert results(studio.post(run, make_entry(run, at=clock.ms - HOUR))) == ["kept"]
    assert studio.get(f"/runs/{run}").json["made_at"] == clock.ms - HOUR


@pytest.mark.parametrize(("said", "kept"), [(0, 1_735_689_600_000), (2**53 - 1, None), (None, None)])
def test_a_batch_was_not_begun_before_there_was_this_program_nor_after_now(
    studio: Studio, clock: Clock, said: int | None, kept: int | None
) -> None:
    body = {"recipe": studio.with_recipe(), "size": {"pieces": 12}, "made_at": said}
    body["recipe"] = {"id": body["recipe"]["id"], "version": 1}
    run = uuid4()
    told = studio.put_run(run, {key: value for key, value in body.items() if value is not None}).json

    assert told["made_at"] == (kept or clock.ms)


def test_a_batch_that_does_not_say_when_it_was_begun_was_begun_when_its_id_was_made(
    studio: Studio, clock: Clock
) -> None:
    recipe = studio.with_recipe()
    run = uuid7(clock.ms - HOUR)

    told = studio.put_run(run, {"recipe": {"id": recipe["id"], "version": 1}, "size": {"pieces": 12}}).json

    assert told["made_at"] == clock.ms - HOUR


@pytest.mark.parametrize("body", [{}, {"reading_mg": 738_000}])
def test_a_weighing_without_its_mass_is_refused(studio: Studio, body: dict[str, int]) -> None:
    run = studio.with_run()
    pour = make_entry(run, kind="weighed", body={"line": "soak.1.line_0", **body})

    field, says = refused(studio.post(run, pour))

    assert field == "body.mg" and "missing" in says


# Many of them


@pytest.mark.database("sqlite")
def test_nothing_among_hundreds_of_later_entries_changes_a_signed_record(new_app: Any) -> None:
    """`make perf` sends ten thousand (tests/perf/record_figures.py)."""
    counts = changed_by(new_app(pairing=True), Random("sealed"), 300)

    assert counts["figures"] == 0
    assert counts["kept"] > 60 and counts["refused"] > 60


def test_entries_are_what_they_were_sent_as(studio: Studio, signed: tuple[str, dict[str, Any]]) -> None:
    run, seal = signed
    told = studio.get(f"/runs/{run}/record").json

    assert seal in told["entries"] and json.loads(json.dumps(told))["sealed"] == sorted(
        told["sealed"], key=lambda each: next(e["at"] for e in told["entries"] if e["id"] == each)
    )
