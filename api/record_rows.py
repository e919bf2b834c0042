"""The batch record as rows of one table: every part of it, in the order in which it is read."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from api.spreadsheet import Cell, instant
from bench import Balance, Correction, WholeRecord, canonical

RECORD_COLUMNS = (
    "part",
    "component",
    "round",
    "what",
    "planned",
    "actual",
    "deviation",
    "tolerance",
    "unit",
    "began",
    "ended",
    "who",
    "says",
)
Row = tuple[Cell, ...]


class At(NamedTuple):
    """Where on the sheet a row belongs."""

    component: str | None = None
    round: int | None = None


BATCH = At()


class Rows:
    """Makes rows; `planned` to `tolerance` are numbers in `unit`, and `who` is said by name."""

    def __init__(self, record: WholeRecord) -> None:
        self._names = {each["device"]: each["name"] or each["device"] for each in record["people"]}

    def row(
        self,
        part: str,
        what: str,
        at: At = BATCH,
        *,
        planned: int | None = None,
        actual: int | None = None,
        deviation: int | None = None,
        tolerance: int | None = None,
        unit: str | None = None,
        began: int | None = None,
        ended: int | None = None,
        who: str | list[str] | None = None,
        says: str | None = None,
    ) -> Row:
        devices = [who] if isinstance(who, str) else who or []
        named = ", ".join(self._names.get(each, each) for each in devices) or None
        times = (instant(began), instant(ended))
        return (part, *at, what, planned, actual, deviation, tolerance, unit, *times, named, says)


def record_rows(record: WholeRecord) -> Iterator[Row]:
    """Every part of a record as rows of one table."""
    rows = Rows(record)
    for part in (
        _batch,
        _yield,
        _kit,
        _people_and_lots,
        _lines_and_steps,
        _times,
        _work,
        _corrections,
        _remarks,
    ):
        yield from part(rows, record)


def _batch(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    recipe, signed = record["recipe"], record["signed"]
    yield rows.row("batch", "number", says=record["number"])
    for number in record["also_numbered"]:
        yield rows.row("batch", "also numbered", says=number)
    for run in record["also_used_by"]:
        yield rows.row("batch", "number shared", says=f"{run['title']}, {run['id']}")
    yield rows.row("batch", "product", says=recipe["title"])
    yield rows.row("batch", "recipe version", actual=recipe["version"], says=recipe["id"])
    yield rows.row("batch", "made", began=record["started_at"], ended=record["finished_at"])
    if signed:
        yield rows.row("batch", "signed", ended=signed["at"], who=signed["device"], says=signed["name"])
        yield rows.row("batch", "entries signed", actual=signed["entries"], unit="entries")
    if signed and signed["missing"]:
        yield rows.row("batch", "entries missing", actual=signed["missing"], unit="entries")
    for each in record["unsigned"]:
        yield rows.row(
            "batch",
            "unsigned",
            began=each["signed_at"],
            ended=each["at"],
            who=each["device"],
            says=each["name"],
        )
    yield rows.row("batch", "digest", says=record["digest"])
    yield from _judgements(rows, record)


def _judgements(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    """Whether the batch may leave, every judgement that was made, and what was asked first and last."""
    release = record["release"]
    if release:
        holds = release["verdict"] if release["holds"] else "outdated"
        yield rows.row("release", "now", ended=release["at"], who=release["device"], says=holds)
    for each in record["judgements"]:
        told = (each["verdict"], f"by {each['name']}", each["why"])
        says = ", ".join(filter(None, told))
        yield rows.row("judgement", each["about"], ended=each["at"], who=each["device"], says=says)
    for departs in record["deviations"]:
        yield rows.row("deviation", departs["about"], says=f"{departs['kind']}, {departs['name']}")
    for start in record["starts"]:
        yield rows.row("start", start["what"], ended=start["at"], says=None if start["at"] else "nobody said")
    for wanted in record["criteria"]:
        found = wanted["found"]
        says = ", ".join(filter(None, (found["answer"], found["text"]))) if found else "nobody said"
        yield rows.row(
            "good piece",
            wanted["criterion"],
            ended=found["at"] if found else None,
            who=found["device"] if found else None,
            says=says,
        )


def _yield(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    made, balance = record["yield"], record["balance"]
    yield rows.row("yield", "good", planned=made["planned"], actual=made["good"], unit="pieces")
    yield rows.row("yield", "kept back", actual=made["kept"], unit="pieces")
    yield rows.row("yield", "spoiled", actual=made["spoiled"], unit="pieces")
    yield rows.row("yield", "partial", actual=made["partial"], unit="pieces")
    yield rows.row("yield", "weighed in", planned=made["planned_mg"], actual=made["actual_mg"], unit="mg")
    for what, mg in _masses(balance) if balance else ():
        yield rows.row("balance", what, actual=mg, unit="mg")


def _masses(balance: Balance) -> tuple[tuple[str, int], ...]:
    return (
        ("in", balance["in_mg"]),
        ("good", balance["good_mg"]),
        ("kept back", balance["kept_mg"]),
        ("spoiled", balance["spoiled_mg"]),
        ("spare", balance["spare_mg"]),
        ("left", balance["left_mg"]),
        ("unaccounted", balance["unaccounted_mg"]),
        ("expected loss", balance["expected_loss_mg"]),
        ("division", balance["division_mg"]),
        ("piece", balance["piece_mg"]),
    )


def _kit(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    for scale in record["kit"]["scales"]:
        yield rows.row("scale", scale["name"], tolerance=scale["division_mg"], unit="mg", says="its division")
    for vessel in record["kit"]["vessels"]:
        yield rows.row("vessel", vessel)
    for heater in record["kit"]["heaters"]:
        yield rows.row("heater", heater)


def _people_and_lots(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    for person in record["people"]:
        yield rows.row(
            "person",
            person["device"],
            actual=person["entries"],
            unit="entries",
            began=person["first_at"],
            ended=person["last_at"],
            who=person["device"],
            says=", ".join(person["also"]) or None,
        )
    for lot in record["lots"]:
        is_counted = lot["count"] and not lot["mg"]
        yield rows.row(
            "lot",
            lot["number"] or lot["lot"],
            planned=None if is_counted else lot["booked_mg"],
            actual=lot["count"] if is_counted else lot["mg"],
            unit="pieces" if is_counted else "mg",
            says=", ".join(lot["names"]),
        )


def _lines_and_steps(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    for line in record["lines"]:
        yield rows.row(
            "line",
            line["name"],
            At(line["letter"], line["round"]),
            planned=line["asked_mg"],
            actual=line["actual_mg"],
            deviation=line["deviation_mg"],
            tolerance=line["tolerance_mg"],
            unit="mg",
            says=line["status"],
        )
    for step in record["steps"]:
        says = ", ".join(filter(None, (step["status"], step["way"], step["why"])))
        yield rows.row(
            "step",
            step["title"],
            At(step["letter"], step["round"]),
            ended=step["at"],
            who=step["by"],
            says=says,
        )


def _times(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    for wait in record["waits"]:
        yield rows.row(
            "wait",
            wait["title"],
            At(wait["letter"], wait["round"]),
            planned=wait["usual_ms"],
            actual=wait["real_ms"],
            unit="ms",
            began=wait["began_at"],
            ended=wait["ended_at"],
            says="early" if wait["early"] else "late" if wait["late"] else None,
        )
    for window in record["windows"]:
        yield rows.row(
            "window",
            window["title"],
            At(window["letter"], window["round"]),
            planned=window["latest_ms"],
            actual=window["real_ms"],
            unit="ms",
            began=window["opened_at"],
            ended=window["ended_at"],
            says="late" if window["late"] else None,
        )


def _work(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    for melt in record["bursts"]:
        at = At(melt["letter"], melt["round"])
        yield rows.row(
            "bursts", melt["title"], at, planned=melt["planned"], actual=melt["used"], unit="bursts"
        )
    for split in record["portions"]:
        at = At(split["letter"], split["round"])
        for portion in split["portions"]:
            yield rows.row("portion", portion["name"], at, actual=portion["mg"], unit="mg")
    for check in record["looks"]:
        at = At(check["letter"], check["round"])
        for look in check["looks"]:
            told = [look["answer"], *([look["text"]] if "text" in look else [])]
            yield rows.row("look", check["title"], at, ended=look["at"], says=", ".join(told))
    for count in record["counts"]:
        yield rows.row(
            "count",
            count["title"],
            At(count["letter"], count["round"]),
            planned=count["expected"],
            actual=count["good"],
            unit="pieces",
            says=f"{count['spoiled']} spoiled, {count['partial']} partial",
        )


def _corrections(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    lines = {line["line"]: line for line in record["lines"]}
    for each in record["corrections"]:
        line, mg = lines.get(each["because"] or ""), _taken_out(each)
        yield rows.row(
            "correction",
            each["kind"],
            At(line["letter"], line["round"]) if line else BATCH,
            actual=mg,
            unit=None if mg is None else "mg",
            ended=each["at"],
            who=each["device"],
            says=line["name"] if line else None,
        )


def _taken_out(correction: Correction) -> int | None:
    return correction["mg"] if correction["kind"] == "taken_out" else None


def _remarks(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    steps = {step["step"]: step for step in record["steps"]}
    for added in record["added"]:
        at = At(added["letter"], added["round"])
        yield rows.row("waited longer", added["title"], at, actual=added["ms"], unit="ms", ended=added["at"])
    for note in record["notes"]:
        step = steps.get(note["step"] or "")
        yield rows.row(
            "note",
            step["title"] if step else "the batch",
            At(step["letter"], step["round"]) if step else BATCH,
            ended=note["at"],
            who=note["device"],
            says=note["text"],
        )
    yield from _readings(rows, record)
    for labels in record["labelled"]:
        yield rows.row(
            "labels",
            labels["market"],
            actual=labels["printed"],
            ended=labels["at"],
            who=labels["device"],
            says=f"{labels['on']} on pieces, {labels['binned']} binned",
        )
    for each in record["pictures"]:
        says = each["text"] or None
        yield rows.row("picture", each["picture"], ended=each["at"], who=each["device"], says=says)
    yield rows.row("hands", "at work", actual=record["hands"]["ms"], unit="ms")
    yield from _besides(rows, record)


def _readings(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    """What was read of the room, and what a scale showed of a test weight."""
    for air in record["air"]:
        yield rows.row(
            "humidity", "the room", actual=air["humidity"], unit="%", ended=air["at"], who=air["device"]
        )
        if air["mk"] is not None:
            yield rows.row(
                "warmth", "the room", actual=air["mk"], unit="m°C", ended=air["at"], who=air["device"]
            )
    for proof in record["proved"]:
        yield rows.row(
            "test weight",
            proof["scale"],
            planned=proof["weight_mg"],
            actual=proof["mg"],
            unit="mg",
            ended=proof["at"],
            who=proof["device"],
        )


def _besides(rows: Rows, record: WholeRecord) -> Iterator[Row]:
    """What stands beside the record: remarks, and what came late."""
    for remark in record["remarks"]:
        written = remark["body"].get("text")
        yield rows.row(
            "remark",
            remark["kind"],
            ended=remark["at"],
            who=remark["device"],
            says=written if isinstance(written, str) else canonical(remark["body"]),
        )
    for late in record["late"]:
        sent = f"sent by {late['sender']}" if late["sender"] else ""
        yield rows.row(
            "received late",
            " ".join(filter(None, (late["kind"], late["about"]))),
            began=late["at"],
            ended=late["received_at"],
            who=late["device"],
            says=", ".join(filter(None, (sent, "given back" if late["given_back"] else ""))) or None,
        )
