"""The audit of what is installed fails on a known fault, and not because an index is out of reach."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from tests.audit import audit, judge, report

FAULT = {
    "id": "TEST-2024-1",
    "modified": "2024-01-01T00:00:00Z",
    "affected": [
        {
            "package": {"name": "jinja2", "ecosystem": "PyPI"},
            "ranges": [{"type": "ECOSYSTEM", "events": [{"introduced": "0"}, {"fixed": "3.1.6"}]}],
            "versions": ["2.4.1"],
        }
    ],
}


@pytest.fixture
def index() -> Iterator[str]:
    """An index of known faults that knows one, in the form of OSV (https://google.github.io/osv.dev/post-v1-query/)."""

    class Index(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            asked = json.loads(self.rfile.read(int(self.headers["Content-Length"])))
            is_bad = (asked["package"]["name"], asked["version"]) == ("jinja2", "2.4.1")
            body = json.dumps({"vulns": [FAULT]} if is_bad else {}).encode()
            self.send_response(200)
            self.send_header("Content-Type", "application/json")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            pass

    server = HTTPServer(("127.0.0.1", 0), Index)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/v1/query"
    server.shutdown()


def pinned(folder: Path, pin: str, index: str) -> list[str]:
    (folder / "pins.txt").write_text(f"{pin}\n")
    return ["-r", str(folder / "pins.txt"), "--no-deps", "--disable-pip", "-s", "osv", "--osv-url", index]


def test_a_pin_with_a_known_fault_fails_the_audit(tmp_path: Path, index: str) -> None:
    verdict = audit(*pinned(tmp_path, "jinja2==2.4.1", index))

    assert not verdict.passes
    assert "jinja2 2.4.1: TEST-2024-1, mended in 3.1.6" in verdict.says


def test_a_pin_with_none_passes(tmp_path: Path, index: str) -> None:
    verdict = audit(*pinned(tmp_path, "jinja2==3.1.6", index))

    assert verdict.passes and "No known fault in 1 packages" in verdict.says


def test_an_index_out_of_reach_is_said_and_passes(tmp_path: Path) -> None:
    verdict = audit(*pinned(tmp_path, "jinja2==2.4.1", "http://127.0.0.1:9/v1/query"))

    assert verdict.passes and verdict.says.startswith("Not audited")


def test_an_index_that_knows_no_package_is_said_and_passes() -> None:
    verdict = judge('{"dependencies": [{"name": "x", "skip_reason": "not found"}]}', "")

    assert verdict.passes and verdict.says.startswith("Not audited")


def test_an_audit_that_breaks_is_not_taken_for_a_good_one() -> None:
    assert not judge("", "Traceback: KeyError").passes


def test_an_audit_that_was_not_made_is_shown_where_changes_are_tried_and_stops_a_release(
    capsys: pytest.CaptureFixture[str],
) -> None:
    not_made, made = judge("", "ConnectionError"), judge('{"dependencies": [{"name": "x", "vulns": []}]}', "")

    codes = [report(not_made, {}), report(not_made, {"CI": "true"}), report(made, {"CI": "true"})]

    assert codes == [0, 0, 0]
    said = capsys.readouterr().out.splitlines()
    assert [line.startswith("::warning") for line in said] == [False, True, False]
    assert report(not_made, {"BOWLSIDE_AUDIT_MUST": "1"}) == 1
    assert report(made, {"BOWLSIDE_AUDIT_MUST": "1"}) == 0
