"""A backup, a restore, a move and a migration are killed (-9) at many moments: each is wholly before or wholly after.

    python -m tests.chaos.kills [MOMENTS [RUNS]]

Each act is first done to its end, to learn how long it takes, and then killed at so many moments spread over that
time and a little beyond. After each kill the rows are compared table by table, by count and hash; and the act must be
possible again, and end well. Moves go to PostgreSQL in turn, where its programs are at hand.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from flask_migrate import downgrade, upgrade

from api import copies, copyfile, create_app, generation, move_studio, moved, store, upgrading
from api.settings import Settings
from api.store import reading, writing
from tests.postgres import Cluster, find_programs
from tests.studios import large_studio

MOMENTS, RUNS = 20, 40
LATEST = 1.1  # of the time that the act takes
Sums = dict[str, list[Any]]


@dataclass
class Scene:
    """A folder with a studio in it, and what is to be done there."""

    folder: Path
    files: dict[str, Path]
    cluster: Cluster | None = None

    def app(self, name: str = "here") -> Any:
        return create_app(Settings(database=self.folder / f"{name}.sqlite3"))


def sums(app: Any) -> Sums:
    """Every table's count and hash."""
    try:
        with app.app_context(), reading() as connection:
            return {
                name: [each.rows, each.sha256]
                for name, each in move_studio.sums_of(connection, secrets=True).items()
            }
    finally:
        store.close(app)


def backup(scene: Scene) -> None:
    app = scene.app()
    with app.app_context():
        copies.write(scene.folder / "copy.gz")


def after_backup(scene: Scene, before: Sums) -> Iterator[str]:
    file = scene.folder / "copy.gz"
    if file.exists() and copies.read_through(file).counts.get("entry") != before["entry"][0]:
        yield "the copy is not whole"
    if sums(scene.app()) != before:
        yield "a backup changed the studio"
    file.unlink(missing_ok=True)
    backup(scene)
    if copies.verify(file, beside=scene.folder).copy.counts["entry"] != before["entry"][0]:
        yield "the copy that was made again is not whole"


def restore(scene: Scene) -> None:
    copies.restore(scene.app(), scene.files["other"], keep=True)


def after_restore(scene: Scene, before: Sums) -> Iterator[str]:
    app, other = scene.app(), scene.files["other_sums"]
    after: Sums = json.loads(other.read_text())
    now, mark = sums(app), _mark(scene)
    is_former = mark == scene.files["mark"].read_text()
    if (now, is_former) not in ((before, True), (after, False)):
        yield "what is there is neither what was there nor what was put back"
    restore(scene)
    if sums(scene.app()) != after:
        yield "it could not be put back again"
    if list((scene.folder / "copies").glob(".*.part")) and not list(
        (scene.folder / "copies").glob("before-*")
    ):
        yield "what was there before was not kept"


def move(scene: Scene) -> None:
    copies.move(scene.app(), _there(scene))


def after_move(scene: Scene, before: Sums) -> Iterator[str]:
    there = _there(scene)
    arrived, here = sums(there), scene.app()
    with here.app_context(), reading() as connection:
        is_closed = moved.went_to(connection) is not None
    store.close(here)
    if arrived not in ({}, before):
        yield "a part of it arrived"
    if is_closed and arrived != before:
        yield "the old place is closed and not all had arrived"
    if sums(scene.app()) != before:
        yield "a move changed the old place"
    if not is_closed:
        move(scene)
        if sums(_there(scene)) != before:
            yield "it could not be moved again"


def migration(scene: Scene) -> None:
    upgrading.bring_up_to_date(scene.app("former"))


def after_migration(scene: Scene, _before: Sums) -> Iterator[str]:
    app = scene.app("former")
    with app.app_context(), reading() as connection:
        tables = upgrading.tables_here(connection)
    now, former = sums(app), json.loads(scene.files["former_sums"].read_text())
    latest = json.loads(scene.files["latest_sums"].read_text())
    if (tables, now) not in (("0004", former), (scene.files["latest"].read_text(), latest)):
        yield f"the tables are {tables}, and their rows are neither those of before nor of after"
    migration(scene)
    if sums(scene.app("former")) != latest:
        yield "it could not be migrated again"
    if not list((scene.folder / "copies").glob("before-0004-*")):
        yield "no copy was kept"


ACTS: dict[str, tuple[Callable[[Scene], None], Callable[[Scene, Sums], Iterator[str]]]] = {
    "backup": (backup, after_backup),
    "restore": (restore, after_restore),
    "move": (move, after_move),
    "migration": (migration, after_migration),
}


def faults_after(moments: int, runs: int) -> Iterator[tuple[str, float, bool, list[str]]]:
    """(act, after so many seconds, whether it was over by then, what is wrong) of each kill."""
    with ExitStack() as stack:
        template = Path(stack.enter_context(TemporaryDirectory()))
        files, before = _prepare(template, runs)
        cluster = _cluster(stack)
        for name, (act, look) in ACTS.items():
            lasted = 0.0
            for moment in range(-1, moments):
                with TemporaryDirectory() as folder:
                    shutil.copytree(template, folder, dirs_exist_ok=True)
                    is_there = name == "move" and moment % 2 == 1
                    scene = Scene(Path(folder), files, cluster if is_there else None)
                    if scene.cluster:
                        _name(scene)  # made here: a child that is killed would take its name along
                    at = time.monotonic()
                    after = None if moment < 0 else lasted * LATEST * (moment + 0.5) / moments
                    is_over = _die(lambda act=act, scene=scene: act(scene), after)
                    if moment < 0:
                        lasted = time.monotonic() - at
                    yield name, after or lasted, is_over, list(look(scene, before))
                    if scene.cluster:
                        scene.cluster.drop(_name(scene))


def _die(act: Callable[[], None], after: float | None) -> bool:
    """Do it in a process of its own, that is killed after so many seconds; whether it was done by then."""
    sys.stdout.flush()
    child = os.fork()
    if child == 0:
        try:
            act()
            os._exit(0)
        finally:
            os._exit(1)
    if after is not None:
        time.sleep(after)
        os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) == 0


def _prepare(folder: Path, runs: int) -> tuple[dict[str, Path], Sums]:
    """A studio, a copy of another to put back over it, and a studio with the tables of the version before."""
    files = {
        each: folder / each
        for each in ("other", "other_sums", "mark", "former_sums", "latest_sums", "latest")
    }
    here = large_studio(folder / "here.sqlite3", runs, pictures=20)
    other = large_studio(folder / "away.sqlite3", runs // 2, pictures=3)
    with other.app_context():
        copies.write(files["other"])
    stage = create_app(Settings(database=folder / "stage" / "stage.sqlite3"))
    store.migrate(stage)
    copies.restore(stage, files["other"])
    files["other_sums"].write_text(json.dumps(sums(stage)))
    with here.app_context(), reading() as connection:
        files["mark"].write_text(generation.of(connection)[0])
    before = sums(here)

    former = create_app(Settings(database=folder / "former.sqlite3"))
    with former.app_context():
        upgrade(revision="0004")
        with writing() as connection:
            move_studio.fill(
                connection, copyfile.rows(Path(__file__).parents[1] / "api" / "former" / "copy.jsonl.gz")
            )
    files["former_sums"].write_text(json.dumps(sums(former)))
    store.migrate(former)
    with former.app_context(), reading() as connection:
        files["latest"].write_text(upgrading.tables_here(connection) or "")
    files["latest_sums"].write_text(json.dumps(sums(former)))
    with former.app_context():
        downgrade(revision="0004")
    store.close(former)
    shutil.rmtree(folder / "stage")
    return files, before


def _mark(scene: Scene) -> str:
    app = scene.app()
    with app.app_context(), reading() as connection:
        mark = generation.of(connection)[0]
    store.close(app)
    return mark


def _there(scene: Scene) -> Any:
    """The empty place to move to, with its tables."""
    if scene.cluster is None:
        app = scene.app("there")
    else:
        app = create_app(
            Settings(database_url=scene.cluster.url(_name(scene)), database=scene.folder / "none")
        )
    store.migrate(app)
    return app


def _name(scene: Scene) -> str:
    """The scene's database on PostgreSQL, made when first asked for."""
    noted = scene.folder / "postgresql"
    if not noted.exists():
        assert scene.cluster is not None
        noted.write_text(scene.cluster.create())
    return noted.read_text()


def _cluster(stack: ExitStack) -> Cluster | None:
    try:
        find_programs()
    except AssertionError:
        return None
    cluster = Cluster()
    stack.callback(cluster.remove)
    return cluster


def main() -> int:
    given = [int(each) for each in sys.argv[1:]]
    moments, runs = (*given, *(MOMENTS, RUNS)[len(given) :])
    broken = 0
    done: dict[str, int] = {}
    for name, after, is_over, faults in faults_after(moments, runs):
        done[name] = done.get(name, 0) + (not is_over)
        broken += bool(faults)
        for each in faults:
            print(f"BROKEN: {name}, killed after {after:.3f} s: {each}", flush=True)
    print(
        "; ".join(f"{name}: {count} killed on the way" for name, count in done.items())
        + f"; {broken} broken."
    )
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
