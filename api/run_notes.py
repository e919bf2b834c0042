"""The notes of runs, so that they can be searched over all runs at once: those that were not taken back."""

from __future__ import annotations

from sqlalchemy import Connection, delete, insert

from api.runs import RunView
from api.searching import kept_to_search
from api.store import execute
from api.tables import RunNote
from bench import Entry

LENGTH_OF_ID = 36
KEEP = (
    "INSERT INTO run_note (run_id, id, at, text, search) VALUES (:run_id, :id, :at, :text, :search)"
    " ON CONFLICT (run_id, id) DO NOTHING"
)


def add(connection: Connection, run_id: str, new: list[Entry]) -> None:
    """Note the notes among new entries, none of which takes another back."""
    for entry in new:
        if entry["kind"] == "noted":
            execute(connection, KEEP, _row(run_id, entry))


def refresh(connection: Connection, run_id: str, run: RunView) -> None:
    """Note anew which notes stand, as the fold says: in the record, or beside it as remarks."""
    told: set[tuple[int, str, object]] = {
        (note["at"], note["device"], note["text"]) for note in run.state["notes"]
    }
    told |= {
        (each["at"], each["device"], each["body"].get("text"))
        for each in run.state["remarks"]
        if each["kind"] == "noted"
    }
    notes = [entry for entry in run.entries if entry["kind"] == "noted"]
    rows = [
        _row(run_id, each) for each in notes if (each["at"], each["device"], each["body"].get("text")) in told
    ]
    connection.execute(delete(RunNote).where(RunNote.run_id == run_id))
    if rows := rows + _taken_back(run_id, run.entries):
        connection.execute(insert(RunNote), rows)


def _taken_back(run_id: str, entries: list[Entry]) -> list[dict[str, str | int]]:
    """Empty rows for what was taken back and is not here yet: a note that comes after its undo finds one."""
    here = {entry["id"] for entry in entries}
    undos = {str(each["body"].get("entry")): each for each in entries if each["kind"] == "undone"}
    return [
        {"run_id": run_id, "id": target, "at": undo["at"], "text": "", "search": ""}
        for target, undo in undos.items()
        if target not in here and undo["id"] not in undos and len(target) == LENGTH_OF_ID
    ]


def _row(run_id: str, entry: Entry) -> dict[str, str | int]:
    text = str(entry["body"].get("text", ""))
    return {
        "id": entry["id"],
        "run_id": run_id,
        "at": entry["at"],
        "text": text,
        "search": kept_to_search(text),
    }
