"""Whether a batch may leave: judged by a maker, apart from its signing, shown in lists and recalls, never undone."""

from __future__ import annotations

from typing import Any

import pytest
from flask_migrate import downgrade, upgrade

import bench
from tests.api.doorway import paired
from tests.api.stock import gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.api.test_sealed import SIGNED_AT, refused, results, signing, undoing
from tests.make import BEGUN, make_entry


def judging(
    run: str, verdict: str, at: int = SIGNED_AT + 1, about: str = "batch", **more: Any
) -> dict[str, Any]:
    body = {"about": about, "verdict": verdict, "name": "B. Maker", **more}
    return make_entry(run, at=at, kind="judged", body=body)


def signed_run(studio: Studio) -> tuple[str, str, dict[str, Any]]:
    """A run of a lot, weighed, finished and signed: its id, the lot's, and the signing."""
    lot, run = with_lot(studio), studio.with_run()
    studio.post(
        run, gathered(run, lot), weighed(run, 5_000), make_entry(run, at=BEGUN + 30, kind="finished", body={})
    )
    seal = signing(studio, run)
    assert results(studio.post(run, seal)) == ["kept"]
    return run, lot, seal


def statuses(studio: Studio, query: str = "") -> dict[str, str | None]:
    return {each["id"]: each["release"] for each in studio.get(f"/runs{query}").json["runs"]}


def test_a_release_is_in_the_record_the_lists_and_the_recall_and_changes_no_signed_record(
    studio: Studio,
) -> None:
    run, lot, seal = signed_run(studio)
    before = studio.get(f"/runs/{run}/record").json
    assert statuses(studio, "?release=none") == {run: None}

    release = judging(run, "released", signing=seal["id"])
    hold = judging(run, "held", at=SIGNED_AT + 2, why="A complaint.")
    assert results(studio.post(run, release, release)) == ["kept", "had"]

    told = studio.get(f"/runs/{run}/record").json
    assert told["digest"] == before["digest"] and told["sealed"] == before["sealed"] and told["remarks"] == []
    assert (told["release"]["verdict"], told["release"]["name"], told["release"]["holds"]) == (
        "released",
        "B. Maker",
        True,
    )
    assert statuses(studio) == statuses(studio, "?release=released") == {run: "released"}
    assert studio.get(f"/lots/{lot}/trace").json["runs"][0]["release"] == "released"
    assert ",released," in studio.get(f"/lots/{lot}/recall.csv").text
    assert "\nrelease,,,now," in studio.get(f"/runs/{run}/record.csv").text

    assert results(studio.post(run, hold)) == ["kept"]
    assert statuses(studio, "?release=held") == {run: "held"} and statuses(studio, "?release=released") == {}
    assert "stays" in refused(studio.post(run, undoing(run, hold)))[1]
    assert len(studio.get(f"/runs/{run}/record").json["judgements"]) == 2


def test_what_is_released_is_the_record_as_it_is_signed_now(studio: Studio) -> None:
    run, _, seal = signed_run(studio)

    assert (
        refused(studio.post(run, judging(run, "released", signing=make_entry(run)["id"])))[0]
        == "body.signing"
    )
    assert refused(studio.post(run, judging(run, "released")))[0] == "body.signing"
    assert results(studio.post(run, judging(run, "released", signing=seal["id"]))) == ["kept"]
    assert results(studio.post(run, undoing(run, seal, at=SIGNED_AT + 5))) == ["kept"]

    assert statuses(studio) == {run: None}
    assert studio.get(f"/runs/{run}/record").json["release"]["holds"] is False
    assert results(studio.post(run, signing(studio, run, SIGNED_AT + 9))) == ["kept"]
    assert statuses(studio) == {run: None}


@pytest.mark.database("sqlite")
def test_only_a_maker_judges_a_batch_a_deviation_or_a_lot(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app)), Studio(paired(app, "helper", "Tablet at the press"))
    run, lot, _ = signed_run(maker)
    on_lot = make_entry("shelf", kind="judged", body={"lot": lot, "verdict": "held", "why": "No papers."})

    for entry in (
        judging(run, "held", why="Look at it.", device="tablet"),
        judging(run, "accepted", about="line.soak.1.line_0", device="tablet"),
    ):
        entry["device"] = "tablet"
        entry["body"].pop("device")
        assert refused(helper.post(run, entry))[0] == "kind"
    assert refused(to_shelf(helper, {**on_lot, "device": "tablet"}))[0] == "kind"
    assert results(maker.post(run, judging(run, "held", why="Look at it."))) == ["kept"]
    assert results(to_shelf(maker, on_lot)) == ["kept"]
    assert statuses(helper) == {run: "held"}
    assert helper.get(f"/lots/{lot}").json["judgements"][0]["why"] == "No papers."


def test_judgements_and_papers_go_out_and_come_in_elsewhere(studio: Studio, new_app: Any) -> None:
    run, lot, seal = signed_run(studio)
    studio.post(run, judging(run, "released", signing=seal["id"]), judging(run, "accepted", about="line.x"))
    paper = {"lot": lot, "paper": "ifra_certificate", "reference": "C-17", "amendment": "51", "category": "9"}
    judged = {"lot": lot, "verdict": "accepted", "name": "B. Maker"}
    assert results(
        to_shelf(
            studio,
            make_entry("shelf", kind="papered", body=paper),
            make_entry("shelf", kind="judged", body=judged),
            received("other", price={"amount": "4.00", "delivery": "1.50", "currency": "EUR"}),
        )
    ) == ["kept"] * 3  # fmt: skip
    other = Studio(new_app().test_client())

    assert other.import_(studio.get("/export").json).status_code == 200

    assert statuses(other) == {run: "released"}
    for path in (f"/lots/{lot}", f"/runs/{run}/record", "/lots/other"):
        here, there = studio.get(path).json, other.get(path).json
        assert bench.canonical(
            [here.get("papers"), here.get("judgements"), here.get("price"), here.get("release")]
        ) == (
            bench.canonical(
                [there.get("papers"), there.get("judgements"), there.get("price"), there.get("release")]
            )
        )


def test_tables_that_were_taken_back_and_brought_forward_still_know(app: Any, studio: Studio) -> None:
    run, _, seal = signed_run(studio)
    studio.post(run, judging(run, "released", signing=seal["id"]))

    with app.app_context():
        downgrade(revision="0009")
        upgrade()

    assert statuses(studio) == {run: "released"}
