"""The shapes of what the bench says: /now and /record. Masses are whole mg, instants and times whole ms.

What a later bench says besides is let through; what is named here is always there.
"""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields


def _text(says: str = "", *, none: bool = False) -> fields.String:
    return fields.String(required=True, allow_none=none, metadata={"description": says} if says else {})


def _whole(says: str = "", *, none: bool = False) -> fields.Integer:
    return fields.Integer(required=True, allow_none=none, metadata={"description": says} if says else {})


def _flag() -> fields.Boolean:
    return fields.Boolean(required=True)


def _one(shape: type[Schema], *, none: bool = False) -> fields.Nested:
    return fields.Nested(shape, required=True, allow_none=none)


def _many(shape: type[Schema]) -> fields.List[Any]:
    return fields.List(fields.Nested(shape), required=True)


def _some(**more: fields.Field[Any]) -> dict[str, fields.Field[Any]]:
    """A step and where it stands on the sheet, and what there is to say about it."""
    return {
        "step": _text(),
        "component": _text(),
        "letter": _text("The component's, on the page"),
        "title": _text(),
        **more,
    }


class Number(Schema):
    mg = _whole("The number as a mass, where it is one", none=True)
    text = _text("As it is shown, in the largest type")
    caption = _text()


class Weighing(Schema):
    line = _text("None for a portion", none=True)
    name = _text()
    add_mg = _whole()
    add = _text()
    reads_mg = _whole("What the scale will read", none=True)
    reads = _text()
    before_mg = _whole("What it reads before")
    how = _text("running, tare, cup, spoons, count, texture, over or portion")
    scale = _text()
    division_mg = _whole(none=True)
    vessel = _text(none=True)


class PossibleAnswer(Schema):
    """What may be answered. `kind` and `body` are the entry to post, less what `input` still asks for."""

    id = _text()
    label = _text()
    says = _text()
    kind = _text()
    body = fields.Dict(required=True)
    input = _text("reading, count or note", none=True)
    most = _whole("The most that may be put in", none=True)
    strong = _flag()


class Prompt(Schema):
    step = _text("null for finishing the batch", none=True)
    component = _text(none=True)
    letter = _text()
    round = _whole()
    of_rounds = _whole()
    kind = _text()
    title = _text()
    says = _text()
    why = _text()
    cautions = fields.List(fields.String(), required=True)
    number = _one(Number, none=True)
    weigh = _one(Weighing, none=True)
    answers = _many(PossibleAnswer)


NamedStep = Schema.from_dict({"step": _text(), "title": _text()}, name="NamedStep")
WaitNow = Schema.from_dict(
    _some(
        began_at=_whole(),
        earliest_at=_whole(),
        usual_at=_whole(),
        latest_at=_whole(none=True),
        word=_text("What it will be: set, cool, dry"),
        phase=_text(),
        asks=_text(),
    ),
    name="WaitNow",
)
WindowNow = Schema.from_dict(
    _some(opened_at=_whole(), latest_at=_whole(), phase=_text(), stake=_text()), name="WindowNow"
)
GuideNow = Schema.from_dict(_some(began_at=_whole(), until=_whole(), phase=_text()), name="GuideNow")


class Now(Schema):
    at = _whole("The instant all of this holds for")
    finished = _flag()
    prompts = _many(Prompt)
    waits = _many(WaitNow)
    windows = _many(WindowNow)
    guides = _many(GuideNow)
    skipped = _many(NamedStep)
    owed = _many(NamedStep)


def _done(name: str, **more: fields.Field[Any]) -> type[Schema]:
    return Schema.from_dict(_some(round=_whole(), **more), name=name)


class RecordRecipe(Schema):
    id = _text()
    version = _whole()
    title = _text()


class RecordLine(Schema):
    line = _text()
    component = _text()
    letter = _text()
    round = _whole()
    name = _text()
    planned_mg = _whole(none=True)
    asked_mg = _whole("After carrying up or down", none=True)
    actual_mg = _whole()
    deviation_mg = _whole(none=True)
    deviation_ppm = _whole(none=True)
    tolerance_mg = _whole(none=True)
    scale = _text(none=True)
    division_mg = _whole(none=True)
    status = _text()


Yield = Schema.from_dict(
    {
        "planned": _whole("Pieces"),
        **{count: _whole(none=True) for count in ("good", "spoiled", "partial")},
        "planned_mg": _whole(),
        "actual_mg": _whole(),
    },
    name="Yield",
)
Happened = Schema.from_dict({"at": _whole(), "device": _text(), "kind": _text()}, name="Happened")
Note = Schema.from_dict(
    {"at": _whole(), "device": _text(), "step": _text(none=True), "text": _text()}, name="Note"
)
Look = Schema.from_dict({"at": _whole(), "answer": _text(none=True), "way": _text(none=True)}, name="Look")
Portion = Schema.from_dict({"name": _text(), "mg": _whole()}, name="Portion")


class Person(Schema):
    device = _text("As the entries call it")
    name = _text("Of the paired device that sent them; null where none is known", none=True)
    first_at = _whole()
    last_at = _whole()
    entries = _whole("How many")


class RecordSoFar(Schema):
    recipe = _one(RecordRecipe)
    size = fields.Dict(required=True)
    piece = fields.Dict(required=True)
    started_at = _whole(none=True)
    finished_at = _whole(none=True)
    people = _many(Person)
    lines = _many(RecordLine)
    steps = _many(
        _done(
            "RecordStep",
            kind=_text(),
            status=_text(),
            at=_whole(none=True),
            why=_text("Why it was skipped"),
            way=_text(),
        )
    )
    waits = _many(
        _done(
            "RecordWait",
            word=_text(),
            began_at=_whole(),
            ended_at=_whole(none=True),
            earliest_ms=_whole(),
            usual_ms=_whole(),
            latest_ms=_whole(none=True),
            real_ms=_whole(none=True),
            early=_flag(),
            late=_flag(),
        )
    )
    windows = _many(
        _done(
            "RecordWindow",
            opened_at=_whole(),
            ended_at=_whole(none=True),
            latest_ms=_whole(),
            real_ms=_whole(none=True),
            late=_flag(),
        )
    )
    bursts = _many(_done("RecordBursts", planned=_whole(), used=_whole(), heated_ms=_whole()))
    portions = _many(_done("RecordPortions", portions=_many(Portion)))
    looks = _many(_done("RecordLooks", tries=_whole(), looks=_many(Look)))
    counts = _many(
        _done(
            "RecordCounts",
            planned=_whole(none=True),
            expected=_whole(none=True),
            good=_whole(),
            spoiled=_whole(),
            partial=_whole(),
        )
    )
    corrections = _many(Happened)
    notes = _many(Note)
    unread = fields.List(fields.String(), required=True, metadata={"description": "Entries set aside, by id"})


# `yield` is a word of Python's, and no name for an attribute.
Record = RecordSoFar.from_dict({"yield": _one(Yield)}, name="Record")
