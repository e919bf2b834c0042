"""The shapes of plans and bench hours over HTTP. Instants and times are whole ms.

A plan itself, its reasons and what is asked in its words are the bench's (`bench/planning`): what is
named here is always there, and more is let through.
"""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from api.schemas import Flag, Listed, Mapped, RecipeRef, Size, Strict, Whole

MOST_TOGETHER = 8  # runs and recipes in one plan
NAME = validate.Length(1, 60)
STRETCHES = Listed(Listed(fields.String(), validate=validate.Length(equal=2)))


class HoursWritten(Strict):
    """Bench hours by a place's clock. A date's own stand before a weekday's, those before the daily ones."""

    zone = fields.String(required=True, metadata={"description": "Such as Europe/London"})
    daily = Listed(Listed(fields.String()), metadata={"description": 'Pairs, such as ["9:00", "12:30"]'})
    days = Mapped(
        keys=fields.String(), values=STRETCHES, metadata={"description": "By mon, tue, wed and so on"}
    )
    dates = Mapped(keys=fields.String(), values=STRETCHES, metadata={"description": "By 2026-11-28"})


class MakerWritten(Strict):
    name = fields.String(required=True, validate=NAME)
    hours = fields.Nested(HoursWritten, required=True)


class BenchWritten(Strict):
    makers = Listed(fields.Nested(MakerWritten), required=True)


class BenchWhole(Schema):
    version = fields.Integer(
        required=True, metadata={"description": "0: nobody said yet, and the bench is open day and night"}
    )
    document = fields.Nested(BenchWritten, required=True)


class RecipeToPlan(RecipeRef):
    size = fields.Nested(Size, required=True)


class PlanAsked(Strict):
    runs = Listed(fields.UUID(), load_default=list, validate=validate.Length(max=MOST_TOGETHER))
    recipes = Listed(
        fields.Nested(RecipeToPlan),
        load_default=list,
        validate=validate.Length(max=MOST_TOGETHER),
        metadata={"description": "Not begun yet; their steps are named new-1/…, new-2/…"},
    )
    aim = fields.String(load_default="finish", validate=validate.OneOf(["finish", "ready_by"]))
    ready_by = Whole(load_default=None, allow_none=True, validate=validate.Range(0, 8_640_000_000_000_000))
    due = Mapped(
        keys=fields.UUID(),
        values=Whole(validate=validate.Range(0, 8_640_000_000_000_000)),
        load_default=dict,
        metadata={
            "description": "Run -> when it is to be ready. It begins as late as that allows, whatever the others do"
        },
    )
    out = Listed(
        fields.UUID(),
        load_default=list,
        validate=validate.Length(max=100),
        metadata={
            "description": "Runs that the maker left out: they are planned without these, and these without them"
        },
    )
    savings = Flag(
        load_default=False, metadata={"description": "Say also what one more of something would save"}
    )


class PlanPart(Schema):
    run = fields.String(required=True, metadata={"description": "What stands before the / in its steps"})
    title = fields.String(required=True)
    name = fields.String(metadata={"description": "Its batch number, else what it is"})


class PlanDue(Schema):
    run = fields.String(required=True)
    ready_by = fields.Integer(required=True)
    begins_at = fields.Integer(
        required=True, allow_none=True, metadata={"description": "The latest start; null where there is none"}
    )
    why = fields.String(required=True, metadata={"description": "Why it cannot be ready by then"})


class PlanProgress(Schema):
    aim = fields.String(required=True)
    share = fields.Float(required=True, metadata={"description": "Of the work that is left, 1 to 0"})


class PlanSaving(Schema):
    what = fields.String(required=True)
    saves_ms = fields.Integer(required=True, allow_none=True)
    saves_sessions = fields.Integer(required=True, allow_none=True)
    proven = fields.Boolean(required=True)
    says = fields.String(required=True)


class PlanFault(Schema):
    field = fields.String(required=True)
    detail = fields.String(required=True)


class PlanWhole(Schema):
    """A plan as it was kept. It is never derived again, only planned anew when the day has moved."""

    id = fields.UUID(required=True)
    at = fields.Integer(required=True, metadata={"description": "Now, by the server's clock"})
    state = fields.String(
        required=True,
        validate=validate.OneOf(["working", "made", "refused"]),
        metadata={"description": "working: a better one is being looked for"},
    )
    asked_at = fields.Integer(required=True)
    aim = fields.String(required=True)
    ready_by = fields.Integer(required=True, allow_none=True)
    runs = fields.List(fields.String(), required=True, metadata={"description": "The runs it is of"})
    due = fields.List(fields.Nested(PlanDue), required=True)
    out = fields.List(fields.String(), required=True, metadata={"description": "Runs that were left out"})
    limit = fields.Float(
        required=True, metadata={"description": "Seconds after which the search ends in any case"}
    )
    parts = fields.List(fields.Nested(PlanPart), required=True)
    progress = fields.Nested(PlanProgress, required=True, allow_none=True)
    fault = fields.Nested(PlanFault, required=True, allow_none=True)
    made_at = fields.Integer(required=True, allow_none=True)
    age_ms = fields.Integer(required=True, allow_none=True)
    behind = fields.Integer(
        required=True, metadata={"description": "Entries that came since; 0 means it is up to date"}
    )
    plan = fields.Dict(required=True, allow_none=True, metadata={"description": "As bench/planning says"})
    hands_ms = fields.Dict(
        required=True,
        keys=fields.String(),
        values=fields.Integer(),
        metadata={"description": "Step -> the maker's own time, where runs have taught it"},
    )
    savings = fields.List(fields.Nested(PlanSaving), required=True)
    says = fields.String(required=True, metadata={"description": "How good it is known to be, in one line"})
