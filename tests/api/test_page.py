from __future__ import annotations

import gzip
import json
import re
import shutil
from collections.abc import Iterator
from hashlib import sha256
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from api import page, page_tables, pressed
from api.page import files_as_they_are, make_ready, page_file, pieces_of, slim
from api.pieces import APP, INDEX, MADE, REST, STYLES, WORKER
from api.places import FRONTEND
from api.security import CONTENT_SECURITY_POLICY
from bench import words

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
SCRIPTS = [path for path in FILES if path.endswith(".js")]


@pytest.fixture(scope="module")
def pieces() -> Any:
    return pieces_of(FRONTEND, files_as_they_are(FRONTEND))


def test_every_file_of_the_page_is_served_with_its_type_and_an_etag(client: Any, pieces: Any) -> None:
    for path in sorted({*FILES, *pieces.names}):
        answer = client.get(f"/{path}")

        assert answer.status_code == 200, f"give {path} a type in api/page.py"
        assert answer.data == (pieces.content(path) if path in MADE else slim(FRONTEND / path)), path
        assert answer.mimetype == TYPES[path.rpartition(".")[2]], path
        assert sha256(answer.data).hexdigest() in answer.headers["ETag"], path
        assert answer.headers["Cache-Control"] == "no-cache", path
        again = client.get(f"/{path}", headers={"If-None-Match": answer.headers["ETag"]})
        assert again.status_code == 304, path


def test_the_address_itself_is_the_page(client: Any) -> None:
    answer = client.get("/")

    assert answer.mimetype == "text/html"
    assert answer.data == client.get(f"/{INDEX}").data


def test_the_page_travels_compressed(client: Any) -> None:
    answer = client.get("/", headers={"Accept-Encoding": "gzip"})

    assert answer.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(answer.data) == client.get("/").data
    assert "Accept-Encoding" in answer.headers["Vary"]
    unchanged = client.get("/", headers={"Accept-Encoding": "gzip", "If-None-Match": answer.headers["ETag"]})
    assert unchanged.status_code == 304


@pytest.fixture
def unmade(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """As a process begins that has made nothing, and finds nothing kept: the folder in which it keeps the pieces."""
    monkeypatch.setattr(pressed, "FOLDER", tmp_path / "kept")
    forget()
    yield pressed.FOLDER
    forget()


def forget() -> None:
    for held in (page.piece_as_sent, page._pieces, pressed._state):
        held.cache_clear()


def test_what_was_made_once_is_kept_for_the_next_start_and_holds_for_just_these_files(
    unmade: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A kept file that was cut short, or a page or code that is another, is made anew; the former ones go."""
    made = {name: page_file(FRONTEND, name) for name in MADE}
    assert len(list(unmade.iterdir())) == len(MADE)

    forget()
    with monkeypatch.context() as slow:
        slow.setattr("api.page.Pieces", None)
        slow.setattr("api.page.brotli.compress", None)
        for name, was in made.items():
            again = page_file(FRONTEND, name)
            assert was and again and again.tag == was.tag
            assert [again.encoded(each) for each in ("br", "identity")] == [
                was._encoded["br"],
                was._encoded["identity"],
            ]

    next(unmade.glob("*.app.js.br")).write_bytes(b"cut short")
    next(unmade.glob("*.sw.js.br")).unlink()
    forget()
    assert [page_file(FRONTEND, name).tag for name in (APP, WORKER)] == [
        made[name].tag for name in (APP, WORKER)
    ]  # type: ignore[union-attr]

    monkeypatch.setattr(pressed, "_code", lambda: "another")
    forget()
    assert pressed.kept(APP, (), "en") is None
    pressed.keep(APP, (), "en", b"of that code")
    assert [file.read_bytes() for file in unmade.iterdir()] == [b"of that code"]


def test_where_nothing_can_be_kept_the_page_is_made_all_the_same(unmade: Path) -> None:
    unmade.write_text("no folder")

    assert page_file(FRONTEND, STYLES[0])


@pytest.mark.database("sqlite")
def test_a_first_visit_waits_for_nothing_to_be_joined_or_compressed(
    client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_ready()

    for slow in ("api.page.Pieces", "api.page.brotli.compress"):
        monkeypatch.setattr(slow, None)
    for name, language in product(MADE, words.languages()):
        asked = {"Accept-Encoding": "br", "Accept-Language": language}
        assert client.get(f"/{name}", headers=asked).status_code == 200


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


def lines_of_scripts() -> Iterator[tuple[str, str]]:
    for path in SCRIPTS:
        for line in (FRONTEND / path).read_text("utf-8").splitlines():
            yield path, line


def test_no_template_literal_spans_lines() -> None:
    assert [(path, line) for path, line in lines_of_scripts() if line.count("`") % 2] == []


def test_a_browser_asks_for_one_module_and_one_style_sheet(client: Any, pieces: Any) -> None:
    named = re.findall(
        r'<(?:link|script)\b[^>]* (?:href|src)="([^"]+)"', client.get("/").get_data(as_text=True)
    )
    assert [path for path in named if path.endswith(".css")] == [STYLES[0]]
    modules = [path for path in pieces.names if path.endswith(".js")]
    assert modules == [APP, "early.js", "oldest.js", REST]  # every other module is in one of the two


@pytest.mark.parametrize("sheet", STYLES)
def test_a_style_sheet_comes_with_those_that_it_imports(client: Any, sheet: str) -> None:
    lines = slim(FRONTEND / sheet).decode()
    imported = re.findall(r'@import "([^"]+)";', lines)

    assert lines == "".join(f'@import "{file}";' for file in imported)  # and holds nothing else
    assert client.get(f"/{sheet}").data == b"".join(slim(FRONTEND / "style" / file) for file in imported)


def test_every_style_of_the_page_is_in_one_sheet(pieces: Any) -> None:
    files = [f"style/{path.name}" for path in (FRONTEND / "style").iterdir()]

    assert sorted([*STYLES, *(file for sheet in STYLES for file in pieces.styles_of(sheet))]) == sorted(files)


def written(client: Any, name: str) -> Any:
    """What the server has written into the worker under a name."""
    source = client.get(f"/{WORKER}").get_data(as_text=True)
    found = re.search(rf"^const {name} = (.*);$", source, re.MULTILINE)
    assert found
    return json.loads(found[1])


def test_the_worker_is_told_every_piece_of_the_page(client: Any, pieces: Any) -> None:
    assert written(client, "PIECES") == pieces.names
    told = "".join(f"{name}\0{sha256(client.get(f'/{name}').data).hexdigest()}\n" for name in pieces.names)
    assert written(client, "VERSION") == sha256(told.encode()).hexdigest()[:12]


def test_a_worker_is_another_as_soon_as_any_file_is(tmp_path: Path) -> None:
    folder = shutil.copytree(FRONTEND, tmp_path / "page")
    before = page_file(folder, WORKER)
    assert before and before == page_file(folder, WORKER)

    for change in ("new.txt", "app.js", "screens/kit.js", "style/base.css", WORKER):
        with (folder / change).open("a") as file:
            file.write("\nanother\n")
        after = page_file(folder, WORKER)
        assert after and after.tag != before.tag, change
        before = after


def test_a_worker_without_a_place_for_what_it_is_told_is_not_sent(tmp_path: Path) -> None:
    folder = shutil.copytree(FRONTEND, tmp_path / "page")
    (folder / WORKER).write_text("const VERSION = '';")

    with pytest.raises(ValueError, match="no place for VERSION"):
        page_file(folder, WORKER)


def test_a_module_is_sent_with_its_tables_in_their_places_and_none_is_left_out() -> None:
    """What they say is held by the vectors, which the page's side runs with these."""
    kinds = FRONTEND / "bench" / "kinds.js"
    sent = page_tables.put_in(
        kinds, "export const RUN_KINDS = {};\nconst SHELF_KINDS = {};\nconst other = [];\n"
    )

    assert sent.startswith('export const RUN_KINDS = {numbered:{fields:{number:"text"},')
    assert sent.endswith("}};\nconst other = [];\n") and "const SHELF_KINDS = {described:" in sent
    with pytest.raises(ValueError, match="no place for SHELF_KINDS"):
        page_tables.put_in(kinds, "const RUN_KINDS = {};\n")
    elsewhere = "const RUN_KINDS = {};\n"
    assert page_tables.put_in(FRONTEND / "parts" / "kinds.js", elsewhere) == elsewhere
