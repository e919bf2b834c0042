"""The shapes of what the bench says: /now, the record and what is drawn from it, and the shelf. Masses are
whole mg, instants and times whole ms, money is decimal text.

What a later bench says besides is let through; what is named here is always there.
"""

from __future__ import annotations

from typing import Any

from marshmallow import INCLUDE, Schema, fields

from api.schemas import Paged, RunNamed


class Said(Schema):
    class Meta:
        unknown = INCLUDE


def _text(says: str = "", *, none: bool = False) -> fields.String:
    return fields.String(required=True, allow_none=none, metadata={"description": says} if says else {})


def _whole(says: str = "", *, none: bool = False) -> fields.Integer:
    return fields.Integer(required=True, allow_none=none, metadata={"description": says} if says else {})


def _flag(*, none: bool = False) -> fields.Boolean:
    return fields.Boolean(required=True, allow_none=none)


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


class Number(Said):
    mg = _whole("The number as a mass, where it is one", none=True)
    text = _text("As it is shown, in the largest type")
    caption = _text()


class Weighing(Said):
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
    tolerance_mg = _whole("How far off is still right")
    vessel = _text(none=True)


class PossibleAnswer(Said):
    """What may be answered. `kind` and `body` are the entry to post, less what `input` still asks for."""

    id = _text()
    label = _text()
    says = _text()
    kind = _text()
    body = fields.Dict(required=True)
    input = _text("reading, count or note", none=True)
    most = _whole("The most that may be put in", none=True)
    strong = _flag()
    ask = _text("What to ask before it is posted; empty where nothing is to be asked")


class Caution(Said):
    short = _text("At most six words")
    full = _text()
    seen = _flag()  # it stood with a step that was begun before


class Prompt(Said):
    step = _text("null for finishing the batch", none=True)
    component = _text(none=True)
    letter = _text()
    round = _whole()
    of_rounds = _whole()
    kind = _text()
    title = _text()
    says = _text()
    why = _text()
    more = _text("What has no room beside the number: the rest of what to do, and why")
    cautions = _many(Caution)
    number = _one(Number, none=True)
    weigh = _one(Weighing, none=True)
    answers = _many(PossibleAnswer)


NamedStep = Said.from_dict({"step": _text(), "title": _text()}, name="NamedStep")
WaitNow = Said.from_dict(
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
WindowNow = Said.from_dict(
    _some(opened_at=_whole(), latest_at=_whole(), phase=_text(), stake=_text()), name="WindowNow"
)
GuideNow = Said.from_dict(_some(began_at=_whole(), until=_whole(), phase=_text()), name="GuideNow")


class Now(Said):
    at = _whole("The instant all of this holds for")
    finished = _flag()
    prompts = _many(Prompt)
    waits = _many(WaitNow)
    windows = _many(WindowNow)
    guides = _many(GuideNow)
    skipped = _many(NamedStep)
    owed = _many(NamedStep)


def _done(name: str, **more: fields.Field[Any]) -> type[Schema]:
    return Said.from_dict(_some(round=_whole(), **more), name=name)


class RecordRecipe(Said):
    id = _text()
    version = _whole()
    title = _text()


class RecordLine(Said):
    line = _text()
    component = _text()
    letter = _text()
    round = _whole()
    step = _text("Null for what goes in at no step", none=True)
    name = _text()
    instead_of = _text("What the recipe asked for; empty where that was taken")
    planned_mg = _whole(none=True)
    asked_mg = _whole("After carrying up or down", none=True)
    actual_mg = _whole()
    deviation_mg = _whole(none=True)
    deviation_ppm = _whole(none=True)
    tolerance_mg = _whole(none=True)
    within = _flag(none=True)
    spoons = _text("The amount, where it is spooned", none=True)
    count = _whole("The amount, where it is counted", none=True)
    unit = _text("Of the count")
    scale = _text(none=True)
    division_mg = _whole(none=True)
    status = _text()


Yield = Said.from_dict(
    {
        "planned": _whole("Pieces"),
        **{count: _whole(none=True) for count in ("good", "spoiled", "partial")},
        "planned_mg": _whole(),
        "actual_mg": _whole(),
    },
    name="Yield",
)
Happened = Said.from_dict(
    {
        "at": _whole(),
        "device": _text(),
        "kind": _text(),
        "because": _text("The line that it answers", none=True),
        **{
            name: fields.String(
                metadata={"description": "Of the entry's own fields, those that its kind has"}
            )
            for name in ("line", "component", "vessel", "scale", "instead")
        },
        **{name: fields.Integer() for name in ("mg", "round", "num", "den")},
        "left": fields.List(
            fields.String(), metadata={"description": "Lines that a scaling left as they are"}
        ),
    },
    name="Happened",
)
Note = Said.from_dict(
    {"at": _whole(), "device": _text(), "step": _text(none=True), "text": _text()}, name="Note"
)
Look = Said.from_dict({"at": _whole(), "answer": _text(none=True), "way": _text(none=True)}, name="Look")
Portion = Said.from_dict({"name": _text(), "mg": _whole()}, name="Portion")


class Person(Said):
    device = _text("As the entries call it")
    name = _text("Of the paired device that sent the first of them; null where none is known", none=True)
    also = fields.List(
        fields.String(),
        required=True,
        metadata={"description": "Of the other devices that sent some, one that took this one's place"},
    )
    first_at = _whole()
    last_at = _whole()
    entries = _whole("How many")


class RecordKit(Said):
    scales = fields.List(fields.Dict(), required=True)
    vessels = fields.List(fields.String(), required=True)
    heaters = fields.List(fields.String(), required=True)


class RecordLot(Said):
    lot = _text()
    names = fields.List(fields.String(), required=True, metadata={"description": "The ingredients'"})
    number = _text("The supplier's; null where the shelf does not know the lot", none=True)
    supplier = _text(none=True)
    best_before = _text(none=True)
    mg = _whole("What was really used")
    count = _whole("The same, of what is counted")
    booked_mg = _whole()
    over_mg = _whole()


Signed = Said.from_dict(
    {
        "id": _text("Of the entry; who unsigns names it"),
        "at": _whole(),
        "device": _text(),
        "name": _text(),
        "entries": _whole("How many it seals"),
        "missing": _whole("How many of what it names are not here"),
    },
    name="Signed",
)
Unsigned = Said.from_dict(
    {
        "at": _whole(),
        "device": _text("That took the signing back"),
        "name": _text("Who had signed"),
        "signed_at": _whole(),
        "signed_by": _text("The device that had signed"),
    },
    name="Unsigned",
)
Taken = Said.from_dict(
    {
        "at": _whole(),
        "device": _text(),
        "picture": _text("Its bytes: /pictures/{id}"),
        "sha256": _text(),
        "text": _text(),
        "step": _text(none=True),
    },
    name="Taken",
)
Remark = Said.from_dict(
    {
        "id": _text(),
        "at": _whole(),
        "device": _text(),
        "kind": _text(),
        "body": fields.Dict(required=True),
        "received_at": _whole("By the server's clock; null where it was not noted", none=True),
    },
    name="Remark",
)
Late = Said.from_dict(
    {
        "id": _text(),
        "at": _whole("When it happened, by the device that made it"),
        "received_at": _whole("When this server had it"),
        "device": _text(),
        "sender": _text("The paired device that sent it; null with no pairing", none=True),
        "given_back": _flag(),
        "kind": _text(),
        "about": _text("The line, step, ingredient or vessel that it tells of"),
    },
    name="Late",
)
Hands = Said.from_dict(
    {
        "ms": _whole(),
        "steps": fields.Dict(keys=fields.String(), values=fields.Integer(), required=True),
        "told": _flag(),
    },
    name="Hands",
)


# Where the mass that went in has gone; it closes to `division_mg`.
Balance = Said.from_dict(
    {
        **{
            f"{part}_mg": _whole()
            for part in (
                "in",
                "good",
                "spoiled",
                "spare",
                "left",
                "unaccounted",
                "expected_loss",
                "division",
                "piece",
            )
        },
        **{count: _whole() for count in ("good", "partial", "spoiled")},
        "weighed": _whole("How many pieces were weighed"),
    },
    name="Balance",
)


class RecordSoFar(Said):
    recipe = _one(RecordRecipe)
    number = _text("The batch number", none=True)
    also_numbered = fields.List(fields.String(), required=True)
    also_used_by = fields.List(
        fields.Nested(RunNamed), required=True, metadata={"description": "Other runs with this number"}
    )
    signed = _one(Signed, none=True)
    unsigned = _many(Unsigned)
    late = _many(Late)
    digest = _text("SHA-256 over the entries that it is of; see the contributor's guide")
    sealed = fields.List(
        fields.String(),
        required=True,
        allow_none=True,
        metadata={"description": "Of a signed run: the ids of the entries that the digest is over"},
    )
    entries = fields.List(
        fields.Dict(), required=True, metadata={"description": "The run's whole journal, as it was sent"}
    )
    kit = _one(RecordKit)
    lots = _many(RecordLot)
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
    bursts = _many(
        _done(
            "RecordBursts",
            planned=_whole(),
            used=_whole(),
            mg=_whole("Of what is melted"),
            heated_ms=_whole(),
        )
    )
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
    skipped = _many(_done("RecordSkipped", at=_whole(none=True), why=_text()))
    added = _many(_done("RecordAdded", at=_whole(), ms=_whole("How much longer a wait was given")))
    notes = _many(Note)
    pictures = _many(Taken)
    remarks = _many(Remark)
    balance = _one(Balance, none=True)
    hands = _one(Hands)
    unread = fields.List(fields.String(), required=True, metadata={"description": "Entries set aside, by id"})


# `yield` is a word of Python's, and no name for an attribute.
Record = RecordSoFar.from_dict({"yield": _one(Yield)}, name="Record")


class CostRow(Said):
    lot = _text()
    number = _text()
    names = fields.List(fields.String(), required=True)
    mg = _whole()
    count = _whole()
    currency = _text("ISO 4217")
    cost = _text("With two decimals more than the currency has")


class Unpriced(Said):
    lot = _text(none=True)
    names = fields.List(fields.String(), required=True)
    mg = _whole()


class CostTotal(Said):
    """Of one currency; several are never added."""

    materials = _text()
    hands = _text()
    wrap = _text()
    total = _text()
    lost = _text("Of the materials: dried off, scraped out, unaccounted", none=True)
    spoiled = _text(none=True)
    per_piece = _text("For each good piece", none=True)


class Cost(Said):
    currency = _text("The maker's own")
    materials = _many(CostRow)
    unpriced = _many(Unpriced)
    hands_ms = _whole()
    good = _whole(none=True)
    totals = fields.Dict(
        keys=fields.String(),
        values=fields.Nested(CostTotal),
        required=True,
        metadata={"description": "By currency"},
    )


Listed = Said.from_dict(
    {
        "name": _text(),
        "ppm": _whole(none=True),
        "group": _text("over, free, by_hand or colour"),
        "sure": _flag(),
    },
    name="Listed",
)
Sourced = Said.from_dict({"says": _text(), "source": _text()}, name="Sourced")
Needed = Said.from_dict({"what": _text(), "there": _flag(), "source": _text()}, name="Needed")
CheckedRule = Said.from_dict({"what": _text(), "source": _text()}, name="CheckedRule")


class Label(Said):
    market = _text()
    identity = _text()
    ingredients = _many(Listed)
    text = _text("The ingredient list as one line")
    net_mg = _whole()
    net = _text()
    batch = _text(none=True)
    opened = _text("The period after opening, as in 12M", none=True)
    best_before = _text(none=True)
    maker = _text(none=True)
    precautions = _many(Sourced)
    heights = fields.Dict(required=True, metadata={"description": "Least letter heights in µm"})
    needs = _many(Needed)
    warnings = _many(Sourced)
    checked = _many(CheckedRule)
    law = _text()


class Last(Said):
    """What former runs say of a recipe's steps, by written step ("base.press")."""

    runs = _whole("How many finished runs were read, the newest ones")
    last = fields.Dict(
        keys=fields.String(),
        values=fields.List(fields.String()),
        required=True,
        metadata={
            "description": "What happened, in words, the newest first, by step; of what was weighed by step/line"
        },
    )
    learned = fields.Dict(
        keys=fields.String(),
        values=fields.Dict(),
        required=True,
        metadata={"description": "Median and quartiles of three runs or more; null where fewer tell"},
    )
    hands_ms = fields.Dict(
        keys=fields.String(),
        values=fields.Integer(),
        required=True,
        metadata={"description": "Hands-on time for planning"},
    )


class ShelfNote(Said):
    at = _whole()
    device = _text()
    text = _text()


class Ingredient(Said):
    id = _text()
    card = fields.Dict(required=True, allow_none=True)
    notes = _many(ShelfNote)
    left_mg = _whole("What its lots have left together")
    left_count = _whole()


class IngredientPage(Paged):
    ingredients = _many(Ingredient)


WroteOff = Said.from_dict({"at": _whole(), "much": _whole(), "why": _text()}, name="WroteOff")


class Lot(Said):
    """A lot, in mg or in pieces: one of the two is null."""

    id = _text()
    ingredient = _text()
    number = _text("The supplier's")
    supplier = _text(none=True)
    code = _text("What its bar or QR code says", none=True)
    received_on = _text()
    best_before = _text(none=True)
    price = fields.Dict(required=True, allow_none=True)
    mg = _whole("As received", none=True)
    count = _whole("As received", none=True)
    held = _whole("What was there when it was last corrected, less what was written off")
    held_at = _whole()
    left_mg = _whole("Below nought when more was used than booked", none=True)
    left_count = _whole(none=True)
    wrote_off = _many(WroteOff)
    notes = _many(ShelfNote)


class LotPage(Paged):
    lots = _many(Lot)


class IngredientWhole(Ingredient):
    lots = _many(Lot)


class LotRun(Said):
    id = _text()
    title = _text()
    recipe_version = _whole()
    number = _text("The batch number", none=True)
    pieces = _whole("Planned")
    at = _whole("When it was begun")
    finished_at = _whole(none=True)
    mg = _whole("What was really used of the lot")
    count = _whole()


class Trace(Said):
    lot = _text()
    runs = _many(LotRun)
