"""What is asked of plans and said of bench hours over HTTP. Instants and times are whole ms.

A plan as it is answered is the bench's own shape, `KeptPlan` in `bench/shapes/planning.py`.
"""

from __future__ import annotations

from marshmallow import fields, validate

from api.schemas import Flag, Listed, Mapped, RecipeRef, Size, Strict, Whole

MOST_WANTS = 40  # of one week
LONGEST_MS = 400 * 86_400_000
MAX_TOGETHER = 8  # runs and recipes in one plan
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


class MakersWritten(Strict):
    makers = Listed(fields.Nested(MakerWritten), required=True)


class RecipeToPlan(RecipeRef):
    size = fields.Nested(Size, required=True)


class PlanAsked(Strict):
    runs = Listed(fields.UUID(), load_default=list, validate=validate.Length(max=MAX_TOGETHER))
    recipes = Listed(
        fields.Nested(RecipeToPlan),
        load_default=list,
        validate=validate.Length(max=MAX_TOGETHER),
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


INSTANT = validate.Range(0, 8_640_000_000_000_000)
MOST_PIECES = validate.Range(1, 1_000)


class WeekWanted(Strict):
    recipe = fields.UUID(required=True)
    pieces = Whole(required=True, validate=MOST_PIECES, metadata={"description": "Good ones"})
    by = Whole(required=True, validate=INSTANT)


class WeekThere(Strict):
    recipe = fields.UUID(required=True)
    pieces = Whole(required=True, validate=MOST_PIECES)
    until = Whole(load_default=None, allow_none=True, validate=INSTANT)


class WeekAsked(Strict):
    wants = Listed(fields.Nested(WeekWanted), required=True, validate=validate.Length(1, MOST_WANTS))
    there = Listed(
        fields.Nested(WeekThere),
        load_default=list,
        validate=validate.Length(max=MOST_WANTS),
        metadata={"description": "Good pieces that are there already, less what is promised"},
    )
    keeps = Mapped(
        keys=fields.UUID(),
        values=Whole(validate=validate.Range(3_600_000, LONGEST_MS)),
        load_default=dict,
        metadata={"description": "Recipe -> ms after which a piece is too old to be handed over"},
    )


class OrderPlanAsked(Strict):
    quick = fields.Boolean(
        load_default=False,
        metadata={
            "description": "By the plain rule, at once. The next full plan of the same things takes its place"
        },
    )


class FollowAsked(Strict):
    plan = fields.UUID(required=True, metadata={"description": "The one that is offered"})
