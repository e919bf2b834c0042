"""Everything that can be sent to a signed record by those who did not sign it, and what of it changes a figure.

changed_by(app, random.Random("7"), 10_000) -> {"figures": 0, "kept": …, "refused": …}
"""

from __future__ import annotations

import csv
import json
from collections import Counter
from io import StringIO
from random import Random
from typing import Any

import bench
from api.demo import seed
from tests.api.doorway import paired
from tests.api.studio import Studio
from tests.make import uuid7
from tests.parity.generate import Pen, strange

Json = dict[str, Any]

DAY_MS = 24 * 3_600_000
AT_ONCE = 100
# What may change: what is told beside the record, and how far the journal reaches.
BESIDE = ("remarks", "unread", "late", "entries", "cursor", "judgements", "release")


def changed_by(app: Any, rng: Random, many: int) -> Counter[str]:
    """Sign the demo's runs, one of which was signed by an earlier version, then let two helpers and another maker send so much, and see what the figures are.

    Only the undo of a signing by a maker is not sent: that opens a record, and the record says so.
    """
    with app.app_context():
        seed()
    maker = Studio(paired(app, name="The maker's"))
    others = [
        ("helper-1", Studio(paired(app, "helper", "Tablet"))),
        ("helper-2", Studio(paired(app, "helper", "Old phone"))),
        ("maker-2", Studio(paired(app, name="The other maker's"))),
    ]
    runs = [each["id"] for each in maker.get("/runs").json["runs"]]
    for run in runs:
        _sign(maker, run)
    before = {run: figures(maker, run) for run in runs}
    counts: Counter[str] = Counter(figures=0)
    for _ in range(many // AT_ONCE):
        run, (device, sender) = rng.choice(runs), rng.choice(others)
        sheet, record = maker.get(f"/runs/{run}").json["sheet"], maker.get(f"/runs/{run}/record").json
        batch = [_later(rng, sheet, record, device) for _ in range(AT_ONCE)]
        for entry in batch:
            entry["run"] = run
        answer = sender.post(run, *batch)
        assert answer.status_code == 200, answer.text
        counts.update(each["result"] for each in answer.json["answers"])
    for run in runs:
        after = figures(maker, run)
        for name in sorted({*before[run], *after}):
            if before[run].get(name) != after.get(name):
                print(f"{run}: {name} was {before[run].get(name)} and is {after.get(name)}")
                counts["figures"] += 1
    return counts


def figures(studio: Studio, run: str) -> Json:
    """All that is drawn from a run, by name."""
    told = studio.get(f"/runs/{run}/record").json
    recipe = told["recipe"]["id"]
    (listed,) = (each for each in studio.get("/runs").json["runs"] if each["id"] == run)
    drawn = {
        **{f"record.{name}": value for name, value in told.items() if name not in BESIDE},
        **{f"run.{name}": value for name, value in listed.items() if name not in BESIDE},
        **{
            f"used of {lot['lot']}": studio.get(f"/lots/{lot['lot']}/trace").json
            for lot in told["lots"]
            if studio.get(f"/lots/{lot['lot']}").status_code == 200
        },
        "cost": studio.get(f"/runs/{run}/cost").json,
        "label": studio.get(f"/runs/{run}/label?market=eu").json,
        "last": studio.get(f"/recipes/{recipe}/last").json,
        "csv": [
            row
            for row in csv.reader(StringIO(studio.get(f"/runs/{run}/record.csv").text, newline=""))
            if row[0] not in ("remark", "received late")
        ],
    }
    return {name: bench.canonical(value) for name, value in drawn.items()}


def _sign(maker: Studio, run: str) -> None:
    record = maker.get(f"/runs/{run}/record").json
    if record["signed"] is None:
        last = max(entry["at"] for entry in record["entries"])
        body = {"name": "The maker", **bench.seal(record["entries"])}
        entry = {
            "id": uuid7(last),
            "run": run,
            "device": "desk",
            "at": last + 1,
            "kind": "signed",
            "body": body,
        }
        assert maker.post(run, entry).json["answers"][0]["result"] == "kept"


def _later(rng: Random, sheet: Json, record: Json, device: str) -> Json:
    entry = json.loads(json.dumps(strange(rng, sheet, Pen(rng)), default=str))
    ids = {*record["sealed"]}
    sealed = [each for each in record["entries"] if each["id"] in ids]
    first, last = min(each["at"] for each in sealed), max(each["at"] for each in sealed)
    at = rng.choice([first, last, rng.randint(first, last), rng.randint(first - DAY_MS, last + DAY_MS), 0])
    entry |= {
        "id": uuid7(max(at, 0)),
        "device": rng.choice([device, device, "desk", "demo-phone"]),
    }
    entry["at"] = max(at, 0)
    if entry["kind"] == "signed":
        some = rng.sample(record["entries"], rng.randint(0, len(record["entries"])))
        entry["body"] = {"name": "Somebody else", **(bench.seal(some) if rng.random() < 0.7 else {})}
    if entry["kind"] == "undone" or rng.random() < 0.1:
        target = rng.choice(record["entries"] + [record["signed"]])["id"]
        if device != "maker-2" or target != record["signed"]["id"]:
            entry |= {"kind": "undone", "body": {"entry": target}}
    return dict(entry)
