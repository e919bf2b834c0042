"""The shapes of requests and answers. Masses are whole mg, instants whole ms since 1970 in UTC.

Recipes and kits are not here: the bench owns their schema, and reads them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import islice
from typing import Any, get_args

from marshmallow import RAISE, Schema, ValidationError, fields, pre_load, validate, validates_schema

import bench
from api import field_words
from api.answers import FoundKind
from api.errors import MAX_FAULTS, flatten
from api.field_words import Said
from api.shapes_openapi import Document
from bench import words

field_words.put_in()

IDENTIFIER = validate.Regexp(r"[a-z][a-z0-9_.]{0,99}\Z", error=Said("identifier"))
SHA256 = validate.Regexp(r"[0-9a-f]{64}\Z", error=Said("sha256"))
LARGEST_PAGE = 1_000_000


class Whole(fields.Integer):
    """A whole number, and no text or truth value that could pass for one."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(strict=True, **kwargs)

    def _deserialize(self, value: Any, *args: Any, **kwargs: Any) -> int:
        if type(value) is not int:
            raise self.make_error("invalid")
        return value


class Flag(fields.Boolean):
    """True or false, and no word or number that could pass for them."""

    def _deserialize(self, value: Any, *args: Any, **kwargs: Any) -> bool:
        if type(value) is not bool:
            raise self.make_error("invalid", input=value)
        return value


class Listed(fields.List[Any]):
    """A list that is read no further than an answer can say what is wrong with it."""

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> list[Any]:
        if not isinstance(value, list):
            raise self.make_error("invalid")
        for validator in self.validators:
            if isinstance(validator, validate.Length):
                validator(value)
        read, wrong, faults = [], {}, 0
        for place, each in enumerate(value):
            try:
                read.append(self.inner.deserialize(each, **kwargs))
            except ValidationError as error:
                wrong[place] = error.messages
                faults += sum(1 for _ in islice(flatten(error.messages), MAX_FAULTS))
            if faults > MAX_FAULTS:
                break
        if wrong:
            raise ValidationError(wrong)
        return read


class Mapped(fields.Dict):
    """Like Listed, for names and what stands under them."""

    MOST = 1000  # the dates of three years

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, dict) and len(value) > self.MOST:
            raise ValidationError(words.say("api-fields-too-many", count=len(value), most=self.MOST))
        return super()._deserialize(value, attr, data, **kwargs)  # type: ignore[no-untyped-call]


class Strict(Schema):
    class Meta:
        unknown = RAISE

    @pre_load
    def drop_what_no_answer_can_say(self, data: Any, **_: Any) -> Any:
        """Of the fields that are not known, as many as an answer names, and one: it says that there are more."""
        if not isinstance(data, dict) or len(data) <= MAX_FAULTS:
            return data
        known = {field.data_key or name for name, field in self.load_fields.items()}
        unknown = islice((name for name in data if name not in known), MAX_FAULTS + 1)
        return {name: data[name] for name in (*(name for name in known if name in data), *unknown)}


class PageQuery(Schema):
    page = fields.Integer(load_default=1, validate=validate.Range(1, LARGEST_PAGE))
    page_size = fields.Integer(load_default=50, validate=validate.Range(1, 100))


class WholePageQuery(Schema):
    """Recipes whole are long: fewer stand on a page."""

    page = fields.Integer(load_default=1, validate=validate.Range(1, LARGEST_PAGE))
    page_size = fields.Integer(load_default=25, validate=validate.Range(1, 200))


INSTANT = validate.Range(0, 2**53 - 1)
ROLES = validate.OneOf(["maker", "helper"])
# A device's name is said in the record and printed in a terminal: one line, no control characters.
DEVICE_NAME = [
    validate.Length(1, 60),
    validate.Regexp(r"(?=.*\S)[^\x00-\x1f\x7f-\x9f\u2028\u2029]*\Z", error=Said("device-name")),
]
CLIENT_ID = [
    validate.Length(1, 100),
    validate.Regexp(r"[^\x00-\x1f]*\Z", error=Said("client-id")),
]


class DeviceChange(Strict):
    name = fields.String(validate=DEVICE_NAME)
    role = fields.String(validate=ROLES)
    confirm = fields.String(
        validate=ROLES, metadata={"description": "The same role again: whoever gives a role says it twice"}
    )
    bench = fields.String(validate=CLIENT_ID)


class PairingAsked(Strict):
    role = fields.String(required=True, validate=ROLES)
    confirm = fields.String(
        validate=ROLES,
        metadata={"description": "The maker's role again; not needed for a helper's code"},
    )


class PairAsked(Strict):
    code = fields.String(
        required=True,
        validate=validate.Length(1, 20),
        metadata={"description": "In capitals or not, with dashes or spaces or without"},
    )
    name = fields.String(required=True, validate=DEVICE_NAME)
    bench = fields.String(validate=CLIENT_ID)


class Since(Strict):
    since = fields.Integer(
        validate=validate.Range(1, 2**31 - 1),
        metadata={"description": "The version to compare with; without it, the one before"},
    )


class Air(Strict):
    """Today's air at the bench, measured by hand."""

    temperature_c = fields.Float(
        validate=validate.Range(-20, 60), metadata={"description": "Temperature in °C, -20 to 60"}
    )
    humidity = fields.Float(
        validate=validate.Range(1, 100), metadata={"description": "Relative humidity in per cent, 1 to 100"}
    )

    @validates_schema
    def both_or_neither(self, data: Mapping[str, float], **_: Any) -> None:
        if len(data) == 1:
            missing = "humidity" if "temperature_c" in data else "temperature_c"
            raise ValidationError({missing: [words.say("api-fields-air")]})


class NameQuery(Strict):
    name = fields.String(
        required=True,
        validate=validate.Length(1, 200),
        metadata={"description": "an ingredient's name as far as it is typed", "example": "Natr"},
    )


class SwapQuery(Strict):
    line = fields.String(
        required=True,
        validate=validate.Length(1, 81),
        metadata={"description": "component.line", "example": "base.butter"},
    )


class MeasuredKit(Document):
    """A kit as the bench measured it: what a phone with no network made its sheet from."""

    def __init__(self, **more: Any) -> None:
        super().__init__("Kit", **more)

    def _deserialize(self, value: Any, *args: Any, **kwargs: Any) -> bench.Kit:
        try:
            return bench.as_measured(value)
        except bench.KitError as error:
            raise ValidationError(_at(error.where, error.says)) from error


def _at(field: str, said: str) -> Any:
    """What is said of a dotted field, as marshmallow nests it."""
    name, _, rest = field.partition(".")
    return {name: _at(rest, said)} if name else [said]


class Choices(Strict):
    """What a size says beside how much: lines left out, swaps made, and how the bowl is weighed."""

    without = Listed(fields.String(validate=IDENTIFIER), load_default=list, validate=validate.Length(max=500))
    swaps = Mapped(
        keys=fields.String(validate=IDENTIFIER), values=fields.String(validate=IDENTIFIER), load_default=dict
    )
    weigh = fields.String(load_default="running", validate=validate.OneOf(["running", "tare"]))


class Size(Choices):
    pieces = Whole(required=True)


# What each way of saying a size needs beside itself.
SIZED_BY = {
    "pieces": ["pieces"],
    "mass": ["mg"],
    "moulds": ["component", "moulds"],
    "mix": ["component", "mg"],
    "stock": ["stock"],
}


class SizeRequest(Choices):
    """How big? By pieces, by mass, by mould fillings, by a mix that is left, or by all of the stock there is."""

    by = fields.String(required=True, validate=validate.OneOf(list(SIZED_BY)))
    pieces = Whole()
    mg = Whole(metadata={"description": "Mass in mg: of the whole batch, or of the mix that is left"})
    component = fields.String(validate=IDENTIFIER)
    moulds = Whole(metadata={"description": "How many fillings of the component's moulds"})
    stock = Mapped(keys=fields.String(validate=IDENTIFIER), values=Whole())

    @validates_schema
    def say_what_is_needed(self, data: Mapping[str, object], **_: Any) -> None:
        missing = [name for name in SIZED_BY[str(data["by"])] if name not in data]
        if missing:
            raise ValidationError(
                {name: [words.say("api-fields-needed-by", by=str(data["by"]))] for name in missing}
            )


class RecipeRef(Strict):
    id = fields.UUID(required=True)
    version = Whole(required=True, validate=validate.Range(1, 2**31 - 1))


class RunAsked(Strict):
    recipe = fields.Nested(RecipeRef, required=True)
    size = fields.Nested(Size, required=True)
    kit = MeasuredKit(metadata={"description": "Without one, the studio's is used"})
    made_at = Whole(
        validate=validate.Range(0, 2**53 - 1),
        metadata={
            "description": "When it was begun at the bench (ms); now, when nobody says. No entry may be older"
        },
    )
    sheet_sha256 = fields.String(
        validate=SHA256, metadata={"description": "SHA-256 of the canonical JSON of the sheet the asker made"}
    )


class AuditQuery(Schema):
    what = fields.String(
        validate=validate.Length(1, 40), metadata={"description": "Only what was done of this kind"}
    )
    since = fields.Integer(validate=INSTANT, metadata={"description": "Only from this instant on, in ms"})
    until = fields.Integer(validate=INSTANT, metadata={"description": "Only before this instant, in ms"})
    before = fields.String(
        validate=validate.Regexp(r"\A\d{1,15}-[0-9a-f-]{1,36}\Z"),
        metadata={"description": "The `before` of the page that this one follows"},
    )
    limit = fields.Integer(load_default=50, validate=validate.Range(1, 200))


def _searchable(text: str) -> None:
    if not text.replace("\0", "").strip() or "\0" in text:
        raise ValidationError(words.say("api-fields-search"))


SEARCHED: list[Callable[[Any], Any]] = [validate.Length(1, 100), _searchable]


class RunQuery(PageQuery):
    open = fields.Boolean(metadata={"description": "Only unfinished runs, or only finished ones"})
    recipe = fields.UUID(metadata={"description": "Only the runs of this recipe, of whichever version"})
    number = fields.String(
        validate=SEARCHED, metadata={"description": "Only the runs with this batch number, letter for letter"}
    )
    release = fields.String(
        validate=validate.OneOf(["released", "held", "rejected", "none"]),
        metadata={"description": "Only the runs that were judged so; none: that nobody judged"},
    )
    q = fields.String(
        validate=SEARCHED,
        metadata={"description": "Words, each of which is somewhere in the title or the number"},
    )
    finished_from = fields.Integer(
        validate=INSTANT, metadata={"description": "Only runs finished from this instant on, in ms"}
    )
    finished_to = fields.Integer(
        validate=INSTANT, metadata={"description": "Only runs finished before this instant, in ms"}
    )


class VariantChangeAsked(Schema):
    where = fields.String(required=True, validate=validate.Length(1, 200))
    value = fields.Raw(required=True)


class VariantAsked(Schema):
    id = fields.UUID(required=True, metadata={"description": "Of the variant, which becomes a recipe"})
    change = fields.Nested(VariantChangeAsked(), allow_none=True)


class TrialAsked(Schema):
    version = Whole(required=True, validate=validate.Range(1, LARGEST_PAGE))
    judges = fields.List(
        fields.String(validate=validate.Length(1, 60)), load_default=list, validate=validate.Length(0, 8)
    )
    variants = fields.List(fields.Nested(VariantAsked()), required=True, validate=validate.Length(1, 6))


class TrialWon(Schema):
    variant = fields.UUID(required=True)
    version = Whole(required=True, validate=validate.Range(1, LARGEST_PAGE))


class FiguresQuery(Schema):
    recipe = fields.UUID(metadata={"description": "Only batches of this recipe, of whichever version"})
    version = fields.Integer(
        validate=validate.Range(1), metadata={"description": "Only batches of this version"}
    )
    finished_from = fields.Integer(
        validate=INSTANT, metadata={"description": "Only batches finished from this instant on, in ms"}
    )
    finished_to = fields.Integer(
        validate=INSTANT, metadata={"description": "Only batches finished before this instant, in ms"}
    )


class FiguresPageQuery(FiguresQuery, PageQuery):
    pass


class RecipeBatchesQuery(PageQuery):
    page_size = fields.Integer(load_default=12, validate=validate.Range(1, 24))


class WholeRunQuery(RunQuery):
    """Runs with their sheets are long: fewer stand on a page."""

    page_size = fields.Integer(load_default=20, validate=validate.Range(1, 20))


class SearchQuery(PageQuery):
    page_size = fields.Integer(load_default=10, validate=validate.Range(1, 100))
    q = fields.String(
        required=True,
        validate=SEARCHED,
        metadata={"description": "Words, each of which is somewhere in what is found; accents do not matter"},
    )
    kind = fields.String(
        validate=validate.OneOf(get_args(FoundKind)),
        metadata={"description": "Only what is of this kind; without it, a page of each"},
    )


class PiecesQuery(PageQuery):
    recipe = fields.UUID()
    gone = fields.Boolean(
        metadata={"description": "true: those of which none is in stock; without it, the others"}
    )


class BeforeQuery(Strict):
    before = fields.Integer(
        required=True,
        validate=validate.Range(1, 100_000),
        metadata={"description": "The version to compare with"},
    )


class AfterQuery(Strict):
    page_size = fields.Integer(load_default=50, validate=validate.Range(1, 100))
    after = fields.UUID(
        metadata={"description": "Only what follows this batch: `next` of the answer before, to go on"}
    )


class RehearsalQuery(Strict):
    rehearsal = fields.Boolean(
        load_default=False, metadata={"description": "Only tried: the list says so, and nothing is noted"}
    )


class RecallQuery(AfterQuery, RehearsalQuery):
    """A part of the list, and whether it is only tried."""


class LotQuery(PageQuery):
    page_size = fields.Integer(load_default=50, validate=validate.Range(1, 500))
    ingredient = fields.String(validate=validate.Length(1, 140))
    open = fields.Boolean(
        metadata={"description": "Only lots with something left, or only those with nothing"}
    )


class Sealed(Strict):
    """What a signing seals that names no entries itself, as those of earlier versions did."""

    signed = fields.String(
        required=True, validate=validate.Length(1, 140), metadata={"description": "Its id"}
    )
    entries = Listed(fields.String(validate=validate.Length(1, 140)), required=True)


class EntryBatch(Strict):
    entries = Listed(
        fields.Raw(allow_none=True),
        required=True,
        validate=validate.Length(max=500, error=Said("too-many-entries")),
        metadata={"description": "Each is judged and answered by itself, in this order"},
    )
    given_back = Flag(
        metadata={
            "description": "A maker's device gives back what the studio lost by a restore, other benches' entries"
            " too; it holds for those made before that"
        }
    )


MARKETS = validate.OneOf(["us", "eu", "uk"])
USES = validate.OneOf(["bath", "wash", "left_on", "lips", "eyes", "air", "decoration"])
MEANT_FOR = validate.OneOf(["all", "adults", "children"])
SHAPES = validate.OneOf(["rectangle", "cylinder", "other"])
SIDE_MM = validate.Range(1, 1000)
SIDE_UM = validate.Range(1_000, 1_000_000)
MAKER = validate.Length(1, 600)
MONTHS = validate.Range(1, 240)
DECIMAL = validate.Length(1, 20)  # a decimal as text


UM = validate.Range(0, 1_000_000)


class LabelSheetWritten(Strict):
    """A sheet of labels: from the paper's edge to the first one, and from each one's edge to the next one's."""

    name = fields.String(required=True, validate=validate.Length(1, 60))
    paper = fields.String(required=True, validate=validate.OneOf(sorted(bench.PAPERS)))
    columns = Whole(required=True, validate=validate.Range(1, 20))
    rows = Whole(required=True, validate=validate.Range(1, 50))
    width_um = Whole(required=True, validate=validate.Range(5_000, 1_000_000))
    height_um = Whole(required=True, validate=validate.Range(5_000, 1_000_000))
    left_um = Whole(required=True, validate=UM)
    top_um = Whole(required=True, validate=UM)
    across_um = Whole(required=True, validate=UM)
    down_um = Whole(required=True, validate=UM)

    @validates_schema
    def lies_on_its_paper(self, data: bench.LabelSheet, **_: object) -> None:
        if fault := bench.sheet_fault(data):
            raise ValidationError(words.say("label-sheet-fault", fault=fault))


class LabelSettings(Strict):
    market = fields.String(validate=MARKETS)
    shape = fields.String(validate=SHAPES)
    width_mm = Whole(validate=SIDE_MM)
    height_mm = Whole(validate=SIDE_MM)
    opened_months = Whole(validate=MONTHS)
    sheets = Listed(
        fields.Nested(LabelSheetWritten),
        validate=validate.Length(max=20),
        metadata={"description": "The maker's own sheets of labels"},
    )


class DutyWritten(Strict):
    """What a maker says of a duty."""

    about = fields.UUID(
        required=True, allow_none=True, metadata={"description": "The recipe; null for the whole studio"}
    )
    duty = fields.String(required=True, validate=validate.Length(1, 40), metadata={"example": "eu-report"})
    state = fields.String(required=True, validate=validate.OneOf(["open", "seen_to", "not_mine"]))
    day = fields.Date(load_default=None, allow_none=True)
    note = fields.String(load_default="", validate=validate.Length(0, 400))


TAG = [validate.Length(1, 40), validate.Regexp(r"(?=.*\S)[^\x00-\x1f]*\Z", error=Said("client-id"))]
TAGS: dict[str, Any] = {"required": True, "validate": validate.Length(max=20)}


class FilingWritten(Strict):
    """How a recipe is filed: all of its tags, and whether it is archived."""

    tags = Listed(fields.String(validate=TAG), **TAGS)
    archived = Flag(required=True)


class StudioFiling(Strict):
    tags = Listed(fields.String(validate=TAG), **TAGS)
    archived_at = Whole(required=True, allow_none=True, validate=validate.Range(0))


class OutletWritten(Strict):
    """Where pieces go, with as much as its maker wants to keep."""

    name = fields.String(required=True, validate=validate.Length(1, 200))
    contact = fields.String(load_default=None, allow_none=True, validate=validate.Length(1, 400))


class StudioOutlet(Strict):
    id = fields.UUID(required=True)
    name = fields.String(required=True, allow_none=True, validate=validate.Length(1, 200))
    contact = fields.String(required=True, allow_none=True, validate=validate.Length(1, 400))
    erased_at = Whole(required=True, allow_none=True, validate=validate.Range(0))


WANT_STATES = validate.OneOf(["open", "met", "dropped"])


class WantWritten(Strict):
    """A line of the order of work."""

    recipe = fields.UUID(required=True)
    pieces = Whole(required=True, validate=validate.Range(1, 10_000), metadata={"description": "Good ones"})
    by = Whole(required=True, validate=INSTANT)
    outlet = fields.UUID(
        load_default=None, allow_none=True, metadata={"description": "For whom: one of /outlets"}
    )
    note = fields.String(load_default="", validate=validate.Length(max=400))
    state = fields.String(load_default="open", validate=WANT_STATES)


class StudioWant(WantWritten):
    id = fields.UUID(required=True)
    version = Whole(required=True, validate=validate.Range(1, 2**31 - 1))


class WantQuery(PageQuery):
    state = fields.String(load_default="open", validate=WANT_STATES)


class DueQuery(Strict):
    """Of what the duties are asked: a product, and the recipe whose duties somebody said something of."""

    use = fields.String(required=True, validate=USES)
    sold_in = Listed(
        fields.String(validate=validate.OneOf(["us", "eu", "uk", "ni"])),
        required=True,
        validate=validate.Length(1, 4),
    )
    soap = fields.Boolean(load_default=False, metadata={"description": "Whether a soap base is in it"})
    recipe = fields.UUID()


class StudioDuty(DutyWritten):
    id = fields.UUID(required=True)
    at = Whole(required=True, validate=validate.Range(0))


class SettingsWritten(Strict):
    batch_number = fields.String(
        required=True,
        validate=validate.Length(1, 60),
        metadata={"description": "The pattern of batch numbers", "example": bench.PATTERN},
    )
    currency = fields.String(
        validate=validate.Length(equal=3), metadata={"description": "ISO 4217", "example": "EUR"}
    )
    hourly_rate = fields.String(
        validate=validate.Length(1, 20), metadata={"description": "Decimal text", "example": "18.00"}
    )
    wrap_cost = fields.String(
        validate=validate.Length(1, 20), metadata={"description": "For each good piece", "example": "0.12"}
    )
    packaging_cost = fields.String(
        validate=DECIMAL, metadata={"description": "For each good piece: box, label", "example": "0.30"}
    )
    sprays_cost = fields.String(
        validate=DECIMAL,
        metadata={"description": "For each batch: what goes in unweighed", "example": "0.10"},
    )
    overhead_cost = fields.String(
        validate=DECIMAL,
        metadata={"description": "For each batch: rent, power, insurance", "example": "2.00"},
    )
    cleaning_minutes = Whole(
        validate=validate.Range(0, 1440), metadata={"description": "For each batch, at the hourly rate"}
    )
    labelling_seconds = Whole(
        validate=validate.Range(0, 3600), metadata={"description": "For each good piece, at the hourly rate"}
    )
    fee_percent = fields.String(
        validate=DECIMAL, metadata={"description": "Of the price that is paid, tax and all", "example": "2.9"}
    )
    fee_each = fields.String(
        validate=DECIMAL, metadata={"description": "For each piece sold", "example": "0.30"}
    )
    margin_percent = fields.String(
        validate=DECIMAL,
        metadata={
            "description": "Of the price without tax; without it no price is reckoned",
            "example": "40",
        },
    )
    tax_percent = fields.String(
        validate=DECIMAL, metadata={"description": "That is added to the price without tax", "example": "19"}
    )
    before = Listed(
        fields.String(validate=validate.OneOf(["cleaned", "cleared"])),
        validate=validate.Length(max=2),
        metadata={"description": "What is asked before the first weighing of every batch"},
    )
    without_tax = Flag(
        metadata={"description": "Whether tax is reclaimed, so that lots cost what they do without"}
    )
    maker = fields.String(validate=MAKER, metadata={"description": "Name and address, as on labels"})
    label = fields.Nested(LabelSettings)


class LabelQuery(Strict):
    market = fields.String(required=True, validate=MARKETS)
    shape = fields.String(validate=SHAPES)
    width_mm = fields.Integer(validate=SIDE_MM, metadata={"description": "Of a cylinder, its girth"})
    height_mm = fields.Integer(validate=SIDE_MM)
    width_um = fields.Integer(validate=SIDE_UM, metadata={"description": "Where whole mm are too coarse"})
    height_um = fields.Integer(validate=SIDE_UM)
    list_um = fields.Integer(
        validate=validate.Range(1, 100_000), metadata={"description": "How high the list's small o is"}
    )
    net_um = fields.Integer(
        validate=validate.Range(1, 100_000), metadata={"description": "The same of the net content"}
    )
    opened_months = fields.Integer(
        validate=validate.Range(0, 240), metadata={"description": "0: none, whatever the settings say"}
    )
    best_before = fields.Date()
    identity = fields.String(validate=validate.Length(1, 200))
    function = fields.String(validate=validate.Length(1, 200))
    maker = fields.String(
        validate=validate.Length(0, 600),
        metadata={"description": "Name and address; without, as the settings have it"},
    )
    precautions = Listed(fields.String(validate=validate.Length(1, 600)), validate=validate.Length(max=20))
    use = fields.String(
        validate=USES, metadata={"description": "What it is for; without it, what the recipe tells"}
    )
    single_use = fields.Boolean(metadata={"description": "Used up at once"})
    keeps_months = fields.Integer(validate=MONTHS, metadata={"description": "How long it keeps unopened"})
    meant_for = fields.String(validate=MEANT_FOR)
    origin = fields.String(
        validate=validate.Length(1, 60), metadata={"description": "The country that it was imported from"}
    )
    leaflet = fields.Boolean(
        metadata={"description": "List and cautions stand on a leaflet, in the EU and the UK"}
    )
    today = fields.Date(
        metadata={
            "description": "The day against which best before is looked at; the server's, in UTC, where it is not said"
        }
    )


SHEET_NAME = validate.Length(1, 60)


class LabelPdfQuery(LabelQuery):
    of = fields.String(
        load_default="label",
        validate=validate.OneOf(["label", "leaflet"]),
        metadata={"description": "The label itself, or the leaflets that go with it, four a sheet of paper"},
    )
    sheet = fields.String(
        validate=SHEET_NAME,
        metadata={
            "description": "One of the studio's own by its name, or a common one, as a4-3x8; without, one label"
        },
    )
    start = fields.Integer(
        load_default=1, validate=validate.Range(1, 1000), metadata={"description": "The first position taken"}
    )
    count = fields.Integer(
        validate=validate.Range(1, 1000),
        metadata={"description": "How many; without it, as many as there are good pieces"},
    )


class LotLabelsQuery(Strict):
    lot = Listed(
        fields.String(validate=validate.Length(1, 140)), required=True, validate=validate.Length(1, 100)
    )
    sheet = fields.String(validate=SHEET_NAME, metadata={"description": "As of a label; without, one a page"})
    start = fields.Integer(load_default=1, validate=validate.Range(1, 1000))
    count = fields.Integer(
        load_default=1, validate=validate.Range(1, 20), metadata={"description": "How many of each lot"}
    )


class SheetTrialQuery(Strict):
    sheet = fields.String(required=True, validate=SHEET_NAME)


class EntryQuery(Schema):
    after = fields.Integer(load_default=0, validate=validate.Range(0, 2**53 - 1))
    limit = fields.Integer(load_default=500, validate=validate.Range(1, 1000))


class StudioVersion(Strict):
    version = Whole(required=True, validate=validate.Range(1, 2**31 - 1))
    created_at = Whole(required=True)
    document = fields.Dict(required=True)


class StudioRecipe(Strict):
    id = fields.UUID(required=True)
    filing = fields.Nested(StudioFiling, load_default=None, allow_none=True)
    versions = Listed(fields.Nested(StudioVersion), required=True)


class StudioRun(Strict):
    id = fields.UUID(required=True)
    recipe = fields.Nested(RecipeRef, required=True)
    size = fields.Nested(Size, required=True)
    kit = MeasuredKit(required=True)
    created_at = Whole(required=True)
    made_at = Whole(
        validate=validate.Range(0),
        metadata={
            "description": "When it was made, on whichever device; without it, no later than its first entry"
        },
    )
    sealed = fields.Nested(Sealed, load_default=None, allow_none=True)
    entries = Listed(fields.Raw(), required=True)


class StudioPaper(Strict):
    id = fields.UUID(required=True)
    media = fields.String(required=True, validate=validate.OneOf(["pdf", "jpeg", "png"]))
    content = fields.String(required=True, metadata={"description": "Its bytes as Base64"})


class StudioExport(Strict):
    """A whole studio, less its photographs. A run is given as it was begun: its sheet is made of that again."""

    format = fields.String(required=True, validate=validate.Equal("bowlside-export/1"))
    exported_at = Whole(required=True)
    recipes = Listed(fields.Nested(StudioRecipe), required=True)
    kit = fields.Dict(required=True, allow_none=True)
    runs = Listed(fields.Nested(StudioRun), required=True)
    shelf = Listed(
        fields.Raw(), load_default=list, metadata={"description": "The entries of the shelf's journal"}
    )
    papers = Listed(
        fields.Nested(StudioPaper),
        load_default=list,
        metadata={"description": "The files of papers that the shelf tells of"},
    )
    duties = Listed(
        fields.Nested(StudioDuty),
        load_default=list,
        metadata={"description": "All that was said of the duties of selling"},
    )
    outlets = Listed(
        fields.Nested(StudioOutlet),
        load_default=list,
        metadata={"description": "Where pieces went; an erased one has no name"},
    )
    wants = Listed(
        fields.Nested(StudioWant), load_default=list, metadata={"description": "The order of work"}
    )
    settings = fields.Dict(load_default=None, allow_none=True)
    hours = fields.Dict(
        load_default=None, allow_none=True, metadata={"description": "The makers and their bench hours"}
    )
