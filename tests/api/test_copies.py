"""Copies of everything: made while the studio writes, found out when damaged, put back."""

from __future__ import annotations

import gzip
import hashlib
import json
import random
import threading
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from alembic.script import ScriptDirectory
from click.testing import CliRunner
from sqlalchemy import insert, select, update

import bench
from api import copies, generation
from api.cli import main
from api.copies import CopyError
from api.kit import STARTER_KIT
from api.places import MIGRATIONS
from api.store import reading, writing
from api.tables import Audit, Entry, Hours, Kit, ShelfEntry, StudioSettings
from tests.api.studio import Studio
from tests.api.test_move_studio import all_rows, furnish
from tests.make import Clock, make_entry
from tests.often import BOTH_DATABASES, EITHER_DATABASE

pytestmark = BOTH_DATABASES

DAY_MS = 24 * 3_600_000


def copy_of(app: Any, file: Path) -> Path:
    with app.app_context():
        copies.write(file)
    return file


def generation_of(app: Any) -> str:
    with app.app_context(), reading() as connection:
        return generation.of(connection)[0]


def done_to(app: Any) -> list[str]:
    """What was done to the database, in order."""
    with app.app_context(), reading() as connection:
        return list(connection.scalars(select(Audit.what).order_by(Audit.at, Audit.id)))


def lines_of(file: Path) -> list[Any]:
    return [json.loads(line) for line in gzip.decompress(file.read_bytes()).splitlines()]


def write_lines(file: Path, lines: list[Any], *, signed: bool = True) -> Path:
    """A copy of these lines, as one who knows the format would forge it."""
    texts = [json.dumps(line).encode() + b"\n" for line in lines[:-1]]
    if signed:
        lines[-1]["sha256"] = hashlib.sha256(b"".join(texts)).hexdigest()
    file.write_bytes(gzip.compress(b"".join([*texts, json.dumps(lines[-1]).encode() + b"\n"])))
    return file


def test_a_copy_is_put_back_elsewhere_row_for_row(app: Any, new_app: Any, tmp_path: Path) -> None:
    run = furnish(app)
    other = new_app()

    restored = copies.restore(other, copy_of(app, tmp_path / "all.gz"))

    assert all_rows(other) == all_rows(app)
    assert restored.kept is None
    assert restored.counts == copies.read_through(tmp_path / "all.gz").counts
    assert Studio(other.test_client()).get(f"/runs/{run}/record").status_code == 200


def test_a_copy_says_what_it_is_and_holds_no_secret(app: Any, tmp_path: Path) -> None:
    furnish(app)

    lines = lines_of(copy_of(app, tmp_path / "all.gz"))

    assert lines[0] == {
        "format": "bowlside-backup/1",
        "made_at": 1_800_000_000_000,
        "schema": ScriptDirectory(str(MIGRATIONS)).get_current_head(),
        "reach": 7,
        "generation": generation_of(app),
    }
    assert {line["table"] for line in lines[1:-1]} == set(lines[-1]["counts"])
    assert "5ec7e7" not in str(lines)
    assert (tmp_path / "all.gz").stat().st_mode & 0o077 == 0


def test_a_copy_made_while_phones_write_is_one_moment(app: Any, tmp_path: Path) -> None:
    studio = Studio(app.test_client())
    run = studio.with_run()
    studio.post(run, *[make_entry(run) for _ in range(500)])
    enough, done = threading.Event(), threading.Event()

    def write_pairs() -> None:
        mine, sent = Studio(app.test_client()), 0
        while not done.is_set():
            mine.post(run, make_entry(run), make_entry(run))
            sent += 1
            if sent == 5:
                enough.set()

    phone = threading.Thread(target=write_pairs)
    phone.start()
    try:
        assert enough.wait(timeout=30)
        made = [copy_of(app, tmp_path / f"{each}.gz") for each in range(5)]
    finally:
        done.set()
        phone.join()

    held = [copies.verify(each) for each in made]
    assert [unreadable for _, unreadable in held] == [[]] * 5
    assert [copy.counts["entry"] % 2 for copy, _ in held] == [0] * 5  # two came at once, never one of them
    assert all(copy.reach >= 510 for copy, _ in held)


def test_putting_back_into_a_used_place_replaces_all_of_it(app: Any, tmp_path: Path) -> None:
    run = furnish(app)
    before = all_rows(app)
    file = copy_of(app, tmp_path / "all.gz")
    studio = Studio(app.test_client())
    studio.with_recipe(title="Written since")
    last = studio.post(run, make_entry(run)).json["cursor"]

    copies.restore(app, file)

    assert all_rows(app) == before
    # A phone has read as far as `last`, which the copy does not hold: it passes nothing over.
    new = make_entry(run)
    studio.post(run, new)
    assert studio.get(f"/runs/{run}/entries?after={last}").json["entries"] == [new]


def test_a_new_server_numbers_on_beyond_what_phones_may_have_read(
    app: Any, new_app: Any, tmp_path: Path
) -> None:
    run = furnish(app)
    file = copy_of(app, tmp_path / "all.gz")
    lost = Studio(app.test_client()).post(run, *[make_entry(run) for _ in range(50)]).json["cursor"]
    other = new_app()

    copies.restore(other, file)

    assert Studio(other.test_client()).post(run, make_entry(run)).json["cursor"] > lost


def flip(file: Path, where: float) -> None:
    content = bytearray(file.read_bytes())
    content[int(len(content) * where)] ^= 0x10
    file.write_bytes(content)


def cut(file: Path, where: float) -> None:
    content = file.read_bytes()
    file.write_bytes(content[: int(len(content) * where)])


DAMAGES: list[Callable[[Path], Any]] = [
    *(lambda file, at=at: flip(file, at) for at in (0.0, 0.2, 0.5, 0.9)),
    *(lambda file, at=at: cut(file, at) for at in (0.0, 0.3, 0.999)),
    lambda file: write_lines(file, lines_of(file)[:-1], signed=False),
    lambda file: write_lines(file, lines_of(file)[:3] + lines_of(file)[4:]),
    lambda file: write_lines(file, [*lines_of(file)[:3], *lines_of(file)[2:]]),
    lambda file: write_lines(file, [{"format": "other/1"}, *lines_of(file)[1:]]),
    lambda file: file.write_bytes(gzip.compress(b"[]\n3\n")),
    lambda file: file.write_text("not a copy"),
    lambda file: file.unlink(),
]


@pytest.mark.database("sqlite")
def test_a_damaged_copy_is_found_out_and_changes_nothing(app: Any, tmp_path: Path) -> None:
    furnish(app)
    file = copy_of(app, tmp_path / "all.gz")
    whole, before = file.read_bytes(), all_rows(app)

    for number, damage in enumerate(DAMAGES):
        file.write_bytes(whole)
        damage(file)
        for act in (copies.verify, lambda file: copies.restore(app, file)):
            with pytest.raises(CopyError, match=r"all\.gz"):
                act(file)
                pytest.fail(f"damage {number} was not found out")
        assert all_rows(app) == before, number


@pytest.mark.database("sqlite")
def test_a_flipped_byte_anywhere_is_found_out(app: Any, tmp_path: Path) -> None:
    furnish(app)
    whole = copy_of(app, tmp_path / "all.gz").read_bytes()
    chosen = random.Random(4)
    found, found_out = copies.read_through(tmp_path / "all.gz"), 0

    for _ in range(200):
        content = bytearray(whole)
        content[chosen.randrange(len(content))] ^= 1 << chosen.randrange(8)
        (tmp_path / "all.gz").write_bytes(content)
        # A few bits of gzip's say nothing of what is inside; what is read is then still as written.
        try:
            assert copies.read_through(tmp_path / "all.gz") == found
        except CopyError:
            found_out += 1

    assert found_out >= 190


@pytest.mark.database("sqlite")
def test_tables_of_another_version_are_said(app: Any, tmp_path: Path) -> None:
    lines = lines_of(copy_of(app, tmp_path / "all.gz"))
    lines[0]["schema"] = "9999"

    with pytest.raises(CopyError, match="9999"):
        copies.verify(write_lines(tmp_path / "all.gz", lines))


@pytest.mark.database("sqlite")
def test_rows_that_do_not_belong_together_are_said(app: Any, tmp_path: Path) -> None:
    furnish(app)
    lines = lines_of(copy_of(app, tmp_path / "all.gz"))
    lines = [line for line in lines if line.get("table") != "recipe"]
    del lines[-1]["counts"]["recipe"]

    with pytest.raises(CopyError, match="belong together"):
        copies.verify(write_lines(tmp_path / "all.gz", lines))


def test_verify_says_what_this_version_cannot_read(app: Any, tmp_path: Path) -> None:
    run = furnish(app)
    with app.app_context(), writing() as connection:
        wrong = json.dumps(make_entry(run))
        connection.execute(insert(Entry).values(id="another", run_id=run, text=wrong))
        connection.execute(insert(ShelfEntry).values(id="a lot", text=wrong))

    _, unreadable = copies.verify(copy_of(app, tmp_path / "all.gz"))

    assert len(unreadable) == 2
    assert "the shelf" in unreadable[0]
    assert run in unreadable[1]


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("table", "was", "is_now", "name"),
    [
        (Hours, "22:00", "18:00", "the bench hours"),
        (Kit, "5 kg", "much", "the kit"),
        (StudioSettings, "EUR", "shells", "the settings"),
    ],
)
def test_verify_says_of_what_there_is_one_of_that_the_bench_cannot_work_with_it(
    app: Any, tmp_path: Path, table: Any, was: str, is_now: str, name: str
) -> None:
    furnish(app)
    studio = Studio(app.test_client())
    studio.put_kit(STARTER_KIT)
    studio.client.put("/api/v1/settings", json={"batch_number": bench.PATTERN, "currency": "EUR"})
    with app.app_context(), writing() as connection:
        document = connection.scalar(select(table.document))
        assert was in document
        connection.execute(update(table).values(document=document.replace(was, is_now)))

    _, unreadable = copies.verify(copy_of(app, tmp_path / "all.gz"))

    assert len(unreadable) == 1
    assert name in unreadable[0]


@pytest.mark.database("sqlite")
def test_a_copy_of_an_older_version_is_brought_up_to_date(app: Any, new_app: Any, tmp_path: Path) -> None:
    studio = Studio(app.test_client())
    run = studio.with_run()
    studio.post(run, make_entry(run))
    lines = lines_of(copy_of(app, tmp_path / "all.gz"))
    lines[0]["schema"] = "0001"
    lines = [line for line in lines if line.get("table") not in LATER_TABLES]
    for table in LATER_TABLES:
        lines[-1]["counts"].pop(table, None)
    for line in lines[1:-1]:
        for later in LATER:
            line["row"].pop(later, None)

    other = new_app()
    copies.restore(other, write_lines(tmp_path / "old.gz", lines))

    assert as_of_old(all_rows(other)) == as_of_old(all_rows(app))


LATER_TABLES = ("audit", "run_note")
# Columns that the first tables did not have.
LATER = (
    "sender",
    "batch_number",
    "received_at",
    "made_at",
    "search",
    "sealed_by",
    "sealed",
    "given_back",
    "release",
    "tags",
    "archived_at",
    "media",
)


def as_of_old(rows: Any) -> Any:
    return [(table, {name: row[name] for name in row if name not in LATER}) for table, row in rows]


@pytest.mark.database("postgresql")
def test_a_disk_that_fills_leaves_no_half_copy_and_the_older_ones(
    app: Any, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    studio, chosen = Studio(app.test_client()), random.Random(1)
    run = studio.with_run()
    older = copies.make(app)
    for _ in range(10):
        words = [f"{chosen.getrandbits(8000):x}" for _ in range(3)]
        studio.post(run, *[make_entry(run, body={"text": each}) for each in words])
    app.config["BOWLSIDE"].clock_ms.ms += DAY_MS
    request.getfixturevalue("small_disk")

    with pytest.raises(CopyError, match="Nothing was written"):
        copies.make(app)

    assert set(older.parent.iterdir()) == {older, older.parent / copies.STATUS}
    assert copies.read_through(older).counts["run"] == 1


@pytest.mark.database("sqlite")
def test_a_copy_never_takes_the_place_of_another_file(app: Any, tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")

    with app.app_context(), pytest.raises(CopyError, match="there already"):
        copies.write(tmp_path / "mine.txt")

    assert (tmp_path / "mine.txt").read_text() == "mine"


def at_local(day: int, hour: int, minute: int = 0) -> int:
    return int(datetime(2025, 10, day, hour, minute).timestamp() * 1000)


@pytest.mark.database("sqlite")
def test_a_copy_is_due_once_a_night_and_at_once_where_there_is_none(app: Any, clock: Clock) -> None:
    settings = app.config["BOWLSIDE"]
    assert copies.last_copy_at(settings) is None
    made = []
    for clock.ms in [
        at_local(9, 14),
        at_local(9, 15),
        at_local(10, 2, 59),
        at_local(10, 3),
        at_local(10, 3, 1),
        at_local(11, 2),
        at_local(13, 22),
        at_local(13, 23),
    ]:
        if copies.nightly(app):
            made.append(clock.ms)

    assert made == [at_local(9, 14), at_local(10, 3), at_local(13, 22)]
    assert copies.last_copy_at(settings) == at_local(13, 22)


@pytest.mark.database("sqlite")
def test_a_copy_from_a_clock_that_was_ahead_puts_off_none(app: Any, clock: Clock) -> None:
    clock.ms = at_local(20, 12)
    copies.nightly(app)
    clock.ms = at_local(9, 12)

    assert [bool(copies.nightly(app)) for _ in range(2)] == [True, False]


@pytest.mark.database("sqlite")
def test_a_few_nightly_copies_are_kept_and_the_others_files_left_alone(new_app: Any, clock: Clock) -> None:
    app = new_app(copies_kept=3)
    with app.app_context(), reading() as connection:
        old = copies.keep_old(connection, "restore")
    (old.parent / "bowlside-notes.txt").write_text("mine")
    made = []
    for _ in range(5):
        clock.ms += DAY_MS
        made.append(copies.make(app))

    assert set(old.parent.iterdir()) == {
        old,
        old.parent / copies.STATUS,
        old.parent / "bowlside-notes.txt",
        *made[-3:],
    }


@pytest.fixture
def bowlside(app: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Any]:
    """Runs a command on the application's database; gives the result."""
    settings = app.config["BOWLSIDE"]
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BOWLSIDE_DATABASE", str(settings.database))
    if settings.database_url:
        monkeypatch.setenv("DATABASE_URL", settings.database_url)
    return lambda *arguments, **more: CliRunner().invoke(main, arguments, catch_exceptions=False, **more)


@EITHER_DATABASE
def test_backup_verify_and_restore_at_the_command_line(
    app: Any, bowlside: Callable[..., Any], tmp_path: Path
) -> None:
    furnish(app)
    before = all_rows(app)

    assert "7 entries" in bowlside("backup", "all.gz").stdout
    assert "7 entries" in bowlside("verify", "all.gz").stdout
    Studio(app.test_client()).with_recipe()
    refused = bowlside("restore", "all.gz", input="n\n")
    assert (refused.exit_code, len(all_rows(app))) == (1, len(before) + 2)
    restored = bowlside("restore", "all.gz", input="y\n")

    assert (restored.exit_code, all_rows(app)) == (0, before)
    (kept,) = app.config["BOWLSIDE"].copies_folder.glob("before-restore-*")
    assert str(kept) in restored.stdout.replace("\n", "")
    assert copies.read_through(kept).counts["recipe"] == 4


@pytest.mark.database("sqlite")
def test_what_goes_wrong_with_copies_is_said(app: Any, bowlside: Callable[..., Any], tmp_path: Path) -> None:
    furnish(app)
    bowlside("backup", "all.gz")
    flip(tmp_path / "all.gz", 0.5)

    for arguments, code, says in (
        (["backup", "all.gz"], 1, "there already"),
        (["verify", "all.gz"], 1, "damaged"),
        (["restore", "all.gz", "--yes"], 1, "damaged"),
        (["restore", "missing.gz"], 1, "No such file"),
        (["move"], 2, "where it is to go"),
        (["move", "postgresql://nobody@/none?host=/nowhere"], 1, "DATABASE_URL"),
        (["move", "--from", "mysql://x", "--to", "b.sqlite3"], 2, "mysql"),
        (["move", "--from", "missing.sqlite3", "--to", "b.sqlite3"], 2, "missing"),
    ):
        result = bowlside(*arguments)
        assert (result.exit_code, says in result.stderr) == (code, True), (arguments, result.output)


@EITHER_DATABASE
def test_a_studio_moves_to_the_other_kind_and_back_with_counts(
    app: Any, bowlside: Callable[..., Any], cluster: Any, tmp_path: Path
) -> None:
    furnish(app)
    before = all_rows(app, secrets=True)
    name = cluster.create()
    postgresql, home = cluster.url(name), str(tmp_path / "home.sqlite3")

    there = bowlside("move", postgresql)
    again = bowlside("move", postgresql)
    copied = bowlside("backup", "old.gz")
    back = bowlside("move", "--from", postgresql, "--to", home)
    onward = bowlside("move", "--from", home, "--to", str(tmp_path / "copy.sqlite3"))

    for moved in (there, back, onward):
        counts = moved.stdout.removeprefix("Moved ").rstrip(".\n").split(", ")
        assert set(counts) == {
            "3 recipes",
            "4 recipe versions",
            "2 batches",
            "7 entries",
            "6 notes",
            "1 device",
            "1 batch in figures",
            "1 bench hours",
            "1 plan",
            "1 planned batch",
        }
    assert (again.exit_code, "has moved to postgresql://bowlside@/" in again.stderr) == (1, True)
    assert copied.exit_code == 0  # it can be read still
    others = bowlside(
        "move", "--from", str(tmp_path / "copy.sqlite3"), "--to", str(tmp_path / "home.sqlite3")
    )
    assert (others.exit_code, "has moved" in others.stderr) == (1, True)
    assert all_rows(app, secrets=True) == before
    cluster.drop(name)
