"""A phone that still has the former page, of before there was a door, goes on syncing with this server.

`former_page.json` is what that page asked, in a real browser, of the server of its day, while a run was
begun and worked on: each request as it was sent, its status, and the names in its answer.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from api.demo import seed
from tests.api.doorway import paired
from tests.make import Clock

SAID = json.loads(Path(__file__).with_name("former_page.json").read_text("utf-8"))


@pytest.mark.parametrize("pairing", [False, True], ids=["local", "paired"])
def test_the_former_page_still_syncs(new_app: Callable[..., Any], clock: Clock, pairing: bool) -> None:
    clock.ms = SAID["at"]
    app = new_app(pairing=pairing)
    with app.app_context():
        seed()
    client = paired(app) if pairing else app.test_client()
    sent = []

    for asked in SAID["asked"]:
        answer = client.open(asked["path"], method=asked["method"], json=asked.get("body"))
        assert answer.status_code == asked["status"], (asked["method"], asked["path"], answer.text)
        assert set(asked["answers_with"]) <= answer.json.keys(), asked["path"]
        if asked["method"] == "POST":
            sent += asked["body"]["entries"]
            assert {each["result"] for each in answer.json["answers"]} == {"kept"}

    assert len(sent) >= 5
    journal = client.get(f"/api/v1/runs/{sent[0]['run']}/entries").json["entries"]
    assert journal == sent
