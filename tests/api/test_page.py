from __future__ import annotations

import gzip
import json
import re
import shutil
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from api.pack import IMPORTED, PACK, WORKER, listed, opened_with, parts_of, worker_of
from api.page import page_file, slim
from api.places import FRONTEND
from api.security import CONTENT_SECURITY_POLICY

pytestmark = pytest.mark.database("sqlite")  # the database is not its subject

# https://www.iana.org/assignments/media-types/, from memory
TYPES = {
    "css": "text/css",
    "html": "text/html",
    "ico": "image/x-icon",
    "js": "text/javascript",
    "json": "application/json",
    "png": "image/png",
    "svg": "image/svg+xml",
    "txt": "text/plain",
    "webmanifest": "application/manifest+json",
}
FILES = sorted(str(path.relative_to(FRONTEND)) for path in FRONTEND.rglob("*") if path.is_file())


@pytest.mark.parametrize("path", [path for path in FILES if path != WORKER])
def test_every_file_of_the_page_is_served_with_its_type_and_an_etag(client: Any, path: str) -> None:
    answer = client.get(f"/{path}")

    assert answer.status_code == 200, f"give {path} a type in api/page.py"
    assert answer.data == slim(FRONTEND / path)
    assert answer.mimetype == TYPES[path.rpartition(".")[2]]
    assert sha256((FRONTEND / path).read_bytes()).hexdigest() in answer.headers["ETag"]
    assert answer.headers["Cache-Control"] == "no-cache"
    assert client.get(f"/{path}", headers={"If-None-Match": answer.headers["ETag"]}).status_code == 304


def test_the_address_itself_is_the_page(client: Any) -> None:
    answer = client.get("/")

    assert answer.mimetype == "text/html"
    assert answer.data == (FRONTEND / "index.html").read_bytes()


def test_the_page_travels_compressed(client: Any) -> None:
    answer = client.get("/", headers={"Accept-Encoding": "gzip"})

    assert answer.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(answer.data) == (FRONTEND / "index.html").read_bytes()
    assert "Accept-Encoding" in answer.headers["Vary"]
    unchanged = client.get("/", headers={"Accept-Encoding": "gzip", "If-None-Match": answer.headers["ETag"]})
    assert unchanged.status_code == 304


@pytest.mark.parametrize("path", ["/", "/api/v1/clock", "/nope"])
def test_no_answer_is_guessed_at(client: Any, path: str) -> None:
    assert client.get(path).headers.getlist("X-Content-Type-Options") == ["nosniff"]


def test_the_page_may_run_only_its_own_files(client: Any) -> None:
    headers = client.get("/").headers

    assert headers["Content-Security-Policy"] == CONTENT_SECURITY_POLICY
    assert not re.search(r"unsafe|https?:|\*", CONTENT_SECURITY_POLICY)
    assert headers["Referrer-Policy"] == "no-referrer"


@pytest.mark.parametrize("path", ["/..%2fapi%2fcli.py", "/%2e%2e/pyproject.toml", "//etc/passwd", "/icons"])
def test_nothing_outside_the_page_is_served(client: Any, path: str) -> None:
    assert client.get(path).status_code in (308, 404, 421)


def test_slimming_takes_remarks_and_indents_and_nothing_else(tmp_path: Path) -> None:
    module = tmp_path / "words.js"
    module.write_text(
        """/** What it is.
 *  More of it. */
export function say(n) {
  /** @type {{n: number}[]} */
  const all = /** @type {{n: number}[]} */ (
    /** @type {unknown} */ (read(/** @type {string} */ n))
  );
  // why
  const link = "https://studio.test//*"; // beside
  const says = ["a, // no remark", 'b; // nor "this"', `c: // ${n}`]; // it's one

  return `looked ${n === 1 ? "once" : `${n} times`}, ${n} g`;
}
"""
    )

    assert slim(module).decode().splitlines() == [
        "export function say(n) {",
        "const all = (",
        "(read(n))",
        ");",
        'const link = "https://studio.test//*";',
        """const says = ["a, // no remark", 'b; // nor "this"', `c: // ${n}`];""",
        'return `looked ${n === 1 ? "once" : `${n} times`}, ${n} g`;',
        "}",
    ]


@pytest.mark.parametrize("path", [path for path in FILES if path.endswith(".js")])
def test_no_template_literal_spans_lines(path: str) -> None:
    lines = (FRONTEND / path).read_text("utf-8").splitlines()

    assert [line for line in lines if line.count("`") % 2] == []


def test_what_the_page_does_not_open_with_is_sent_in_one_piece(client: Any) -> None:
    answer = client.get(f"/{PACK}", headers={"Accept-Encoding": "gzip"})
    again = {"Accept-Encoding": "gzip", "If-None-Match": answer.headers["ETag"]}
    assert client.get(f"/{PACK}", headers=again).status_code == 304

    head, _, content = gzip.decompress(answer.data).partition(b"\n")
    told = {path: (mimetype, length) for path, mimetype, length in json.loads(head)}

    assert set(told) | opened_with(FRONTEND) == set(listed(FRONTEND))
    assert set(told) & opened_with(FRONTEND) == set()
    for path, (mimetype, length) in told.items():
        assert mimetype == TYPES[path.rpartition(".")[2]]
        assert content[:length] == slim(FRONTEND / path)
        content = content[length:]
    assert content == b""


def written(client: Any, name: str) -> Any:
    """What the server has written into the worker under a name."""
    source = client.get(f"/{WORKER}").get_data(as_text=True)
    found = re.search(rf"^const {name} = (.*);$", source, re.MULTILINE)
    assert found
    return json.loads(found[1])


def test_the_worker_is_told_every_file_of_the_page(client: Any) -> None:
    assert (written(client, "OPENED"), written(client, "REST")) == parts_of(FRONTEND)
    assert sorted([*written(client, "OPENED"), *written(client, "REST"), WORKER]) == FILES
    assert re.fullmatch("[0-9a-f]{12}", written(client, "VERSION"))


@pytest.mark.parametrize("change", ["new.js", "app.js", WORKER])
def test_a_worker_is_another_as_soon_as_any_file_is(tmp_path: Path, change: str) -> None:
    folder = shutil.copytree(FRONTEND, tmp_path / "page")
    before = page_file(folder, WORKER)
    assert before and before == page_file(folder, WORKER)

    with (folder / change).open("a") as file:
        file.write('export const another = "more";\n')

    after = page_file(folder, WORKER)
    assert after and after.tag != before.tag


def test_a_worker_without_a_place_for_what_it_is_told_is_not_sent(tmp_path: Path) -> None:
    (tmp_path / WORKER).write_text("const VERSION = '';")

    with pytest.raises(ValueError, match="no place for VERSION"):
        worker_of(tmp_path)


@pytest.mark.parametrize("path", [path for path in FILES if path.endswith(".js")])
def test_every_import_that_runs_before_its_module_is_seen(path: str) -> None:
    text = (FRONTEND / path).read_text("utf-8")
    named = re.findall(r'(?:\bfrom|^import) "(\./[^"]*|\.\./[^"]*)";', text, re.MULTILINE)

    assert IMPORTED.findall(text) == named
    assert all(((FRONTEND / path).parent / name).is_file() for name in named)


@pytest.mark.parametrize("path", [path for path in FILES if path.endswith(".js")])
def test_no_line_of_a_module_is_longer_than_a_screen_is_wide(path: str) -> None:
    """A regular expression alone on its line cannot be cut."""
    lines = (FRONTEND / path).read_text("utf-8").splitlines()

    assert [line for line in lines if len(line) > 120 and not line.strip().startswith("/^")] == []
