"""The nightly copies: each is laid out and compared, what came of it is told, and no fault ends them."""

from __future__ import annotations

import gzip
import os
import stat
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from api import copies, copyfile, move_studio, scratch
from api.copies import CopyError
from api.store import reading, writing
from bench import words
from tests.api.stock import described
from tests.api.studio import Studio
from tests.api.test_copies import DAY_MS, at_local, done_to, lines_of, write_lines
from tests.api.test_move_studio import furnish
from tests.make import Clock
from tests.servers import ROOT

MINUTE_MS = 60_000

pytestmark = pytest.mark.database("sqlite")


@pytest.fixture
def here(app: Any) -> Path:
    folder: Path = app.config["BOWLSIDE"].copies_folder
    return folder


def names(folder: Path, kind: str = "bowlside") -> list[str]:
    return sorted(each.name for each in folder.glob(f"{kind}-*"))


def says(app: Any) -> dict[str, Any]:
    told: dict[str, Any] = Studio(app.test_client()).get("/studio").json["copies"]
    return told


@pytest.mark.database("sqlite", "postgresql")
def test_a_nightly_copy_is_read_back_and_the_studio_says_so(app: Any, clock: Clock) -> None:
    furnish(app)
    assert says(app) == {
        "last_at": None,
        "file": None,
        "read_back": None,
        "entries": None,
        "sent_at": None,
        "failed_at": None,
        "failed_why": None,
        "stopped": False,
    }

    made = copies.nightly(app)

    assert made
    assert says(app) == {
        "last_at": clock.ms,
        "file": made.name,
        "read_back": "whole",
        "entries": 7,
        "sent_at": None,
        "failed_at": None,
        "failed_why": None,
        "stopped": False,
    }
    assert copies.said_of(app.config["BOWLSIDE"]).endswith("read back whole, 7 entries")
    assert done_to(app) == ["copied"]
    clock.ms += 37 * 60 * MINUTE_MS
    assert says(app)["stopped"]


def test_what_the_bench_cannot_read_is_copied_and_told(app: Any) -> None:
    furnish(app)
    with app.app_context(), writing() as connection:
        connection.execute(text("UPDATE recipe_version SET document = '{}' WHERE title = 'Zest'"))

    copies.make(app)

    assert says(app)["read_back"] == "partly"


def spoil(monkeypatch: pytest.MonkeyPatch) -> None:
    """From here on a row is left out of what is written, as a fault of ours or of a disk would."""
    whole = move_studio.rows

    def lossy(*given: Any, **more: Any) -> Any:
        return (row for number, row in enumerate(whole(*given, **more)) if number != 3)

    monkeypatch.setattr(copyfile.move_studio, "rows", lossy)


def break_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_given: Any, **_more: Any) -> Any:
        raise CopyError("do-not-fit", file="all.gz", why="run")

    monkeypatch.setattr(copies, "verify", fail)


def test_a_copy_that_fails_its_reading_is_set_aside_told_of_and_tried_again(
    app: Any, here: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    furnish(app)
    copies.make(app)
    clock.ms += DAY_MS
    with monkeypatch.context() as patched:
        break_reading(patched)
        tried = []
        for _ in range(240):  # a round a minute
            clock.ms += MINUTE_MS
            try:
                assert copies.nightly(app) is None
            except CopyError:
                tried.append(clock.ms)

    pauses = [(later - earlier) // MINUTE_MS for earlier, later in zip(tried, tried[1:], strict=False)]
    assert pauses == [1, 5, 15, 60]
    assert len(names(here)) == 1 and len(names(here, "failed")) > 0
    told = says(app)
    assert (told["failed_why"], told["failed_at"], told["stopped"]) == (
        "The rows of all.gz do not belong together: run.",
        tried[-1],
        True,
    )

    clock.ms += 3 * 60 * MINUTE_MS
    assert copies.nightly(app)
    told = says(app)
    assert (told["failed_at"], told["failed_why"], told["stopped"], told["read_back"]) == (
        None,
        None,
        False,
        "whole",
    )
    assert len(names(here, "failed")) == copies.FAILED_KEPT


def test_a_process_that_dies_while_it_copies_has_failed_too(
    app: Any, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    def die(*_given: Any, **_more: Any) -> Any:
        raise SystemExit

    with monkeypatch.context() as patched:
        patched.setattr(copies, "verify", die)
        with pytest.raises(SystemExit):
            copies.nightly(app)

    assert copies.nightly(app) is None  # it rests
    assert says(app)["failed_why"] == "It was cut off."
    with words.speaking("de"):  # noted as it was, and said as it is asked for
        assert copies.status(app.config["BOWLSIDE"])["failed_why"] == "Sie wurde abgebrochen."
    clock.ms += MINUTE_MS
    assert copies.nightly(app)


def test_a_copy_of_which_a_row_is_missing_is_found_out(
    app: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    furnish(app)
    spoil(monkeypatch)
    with app.app_context(), pytest.raises(CopyError, match="belong together"):
        copies.write(tmp_path / "all.gz")
        copies.verify(tmp_path / "all.gz")


def test_a_clock_that_was_ahead_ends_no_copies_and_lets_none_go(
    new_app: Callable[..., Any], clock: Clock
) -> None:
    app = new_app(copies_kept=2)
    here = app.config["BOWLSIDE"].copies_folder
    years = at_local(9, 12) + 4 * 365 * DAY_MS
    for day in range(3):
        clock.ms = years + day * DAY_MS
        copies.nightly(app)
    ahead = names(here)

    made = []
    for day in (9, 10, 11, 12):
        clock.ms = at_local(day, 12)
        assert copies.nightly(app)
        assert copies.nightly(app) is None
        made.append(says(app)["file"])
        assert says(app)["last_at"] == clock.ms

    assert len(ahead) == 2
    assert names(here) == sorted([*made[-2:], *ahead])


def test_what_failed_by_a_clock_ahead_is_tried_at_once(
    app: Any, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock.ms += 900 * DAY_MS
    with monkeypatch.context() as patched:
        break_reading(patched)
        with pytest.raises(CopyError):
            copies.nightly(app)
    clock.ms -= 900 * DAY_MS

    assert copies.nightly(app)


def test_of_those_made_before_something_the_newest_and_the_young_are_kept(
    app: Any, here: Path, clock: Clock
) -> None:
    def keep_one() -> str:
        with app.app_context(), reading() as connection:
            return copies.keep_old(connection, "0004-to-0005").name

    old = []
    for _ in range(8):
        old.append(keep_one())
        clock.ms += DAY_MS
    clock.ms += 60 * DAY_MS
    copies.make(app)
    assert names(here, "before") == old
    clock.ms += 40 * DAY_MS
    copies.make(app)
    assert names(here, "before") == old[-copies.BEFORES_KEPT :]


def test_what_killed_processes_left_half_written_is_taken_away(app: Any, here: Path) -> None:
    here.mkdir()
    part, mine = here / ".bowlside-20250101T000000Z.jsonl.gz.part", here / ".held.gz.part"
    for each in (part, mine):
        each.write_bytes(b"half")
        os.utime(each, (1, 1))
    left = here / f"{scratch.PREFIX}999999999-gone"
    left.mkdir()
    (left / "stage.sqlite3").write_text("a studio")

    with copyfile._owned(mine):
        os.utime(mine, (1, 1))
        copies.make(app)
        assert mine.exists()

    assert not part.exists() and not left.exists()


def test_what_is_laid_out_is_private_and_gone_afterwards(
    app: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    furnish(app)
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    seen: list[int] = []
    whole = copies._lay_out

    def look(*given: Any) -> None:
        folder = given[-1]
        seen.append(stat.S_IMODE(folder.stat().st_mode))
        scratch.sweep(folder.parent)  # as another process would: it is ours, and stays
        assert folder.exists()
        whole(*given)

    monkeypatch.setattr(copies, "_lay_out", look)
    copies.verify(tmp_path / "all.gz", beside=tmp_path / "scratch")

    assert seen == [0o700]
    assert list((tmp_path / "scratch").iterdir()) == []


def test_a_restore_that_was_killed_leaves_nothing_for_long(app: Any, here: Path, tmp_path: Path) -> None:
    furnish(app)
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    die = (
        "import os, sys; from pathlib import Path; from api import copies, create_app; from api.settings import"
        " Settings; copies._lay_out = lambda *given: os.kill(os.getpid(), 9);"
        " copies.restore(create_app(Settings(database=Path(sys.argv[1]))), Path(sys.argv[2]))"
    )
    killed = subprocess.run(
        [sys.executable, "-c", die, str(app.config["BOWLSIDE"].database), str(tmp_path / "all.gz")], cwd=ROOT
    )
    assert killed.returncode == -9
    assert list(here.glob(f"{scratch.PREFIX}*"))

    copies.make(app)

    assert not list(here.glob(f"{scratch.PREFIX}*"))


def test_a_full_disk_where_a_copy_is_laid_out_is_not_the_copys_fault(
    app: Any, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    furnish(app)
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    request.getfixturevalue("small_disk")

    with pytest.raises(CopyError, match="No room to lay the copy out") as raised:
        copies.verify(tmp_path / "all.gz", beside=tmp_path)

    assert "damaged" not in str(raised.value)


@pytest.mark.parametrize(
    "line", [b" " * 30_000_000 + b"\n", b"[" * 30_000_000, b'{"format":"' + b"x" * 30_000_000]
)
def test_a_file_that_unpacks_without_end_is_refused_before_the_memory_is_full(
    tmp_path: Path, line: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copyfile, "LONGEST_LINE", 1_000_000)
    longest = 0
    read = copyfile._line

    def measured(lines: Any) -> bytes:
        nonlocal longest
        longest = max(longest, len(found := read(lines)))
        return found

    monkeypatch.setattr(copyfile, "_line", measured)
    (tmp_path / "bomb.gz").write_bytes(gzip.compress(line, 1))

    with pytest.raises(CopyError, match="damaged"):
        copies.verify(tmp_path / "bomb.gz")
    assert longest < 1_000_000


def test_what_is_nested_without_end_is_refused(tmp_path: Path) -> None:
    (tmp_path / "deep.gz").write_bytes(gzip.compress(b"[" * 100_000 + b"\n"))

    with pytest.raises(CopyError, match="damaged"):
        copies.verify(tmp_path / "deep.gz")


@pytest.mark.parametrize(
    ("table", "column", "says"),
    [("entry", "text", "is no JSON"), ("run", "sheet", "batch "), ("shelf_entry", "text", "the shelf")],
)
def test_what_is_no_json_is_not_put_back_unless_told(
    app: Any, new_app: Callable[..., Any], tmp_path: Path, table: str, column: str, says: str
) -> None:
    furnish(app)
    Studio(app.test_client()).client.post("/api/v1/shelf/entries", json={"entries": [described()]})
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    lines = lines_of(tmp_path / "all.gz")
    next(each for each in lines if each.get("table") == table)["row"][column] = "{"
    file = write_lines(tmp_path / "forged.gz", lines)
    other = new_app()

    with pytest.raises(CopyError, match=says):
        copies.restore(other, file)

    assert Studio(other.test_client()).get("/runs").json["total"] == 0
    assert len(copies.verify(file).unreadable) == 1
    assert copies.restore(other, file, anyway=True).counts["run"] == 2
