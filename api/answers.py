"""The answers that are the API's own: pages, versions, devices, what became of what was sent.

What the bench says is in `bench/shapes`. The types below are what the views make, and the OpenAPI document is
derived from them (`api/shapes_openapi.py`). Masses are whole mg, instants whole ms since 1970 in UTC.
"""

from __future__ import annotations

from typing import Annotated, Literal, NotRequired, TypeAlias, TypedDict

from bench import (
    BatchBegun,
    BatchFigures,
    BatchPieces,
    BatchVerdict,
    BuyingWant,
    Change,
    Complaint,
    Difference,
    DutyMark,
    Entry,
    Finding,
    FormerSheet,
    FrozenSeal,
    IngredientThere,
    JsonObject,
    Kit,
    LabelShape,
    LabelSheet,
    LotThere,
    MakerWritten,
    Market,
    MeasuredRecipe,
    NamedRun,
    OrderLine,
    OrderWant,
    Outlet,
    Proposal,
    Sheet,
    Size,
    Spoilage,
    Start,
    SwapEffect,
    VariantChoice,
    Want,
    WeekPlan,
    WrittenKit,
    WrittenRecipe,
)

Role = Literal["maker", "helper"]


class Paged(TypedDict):
    page: int
    pages: int
    total: int


class Generation(TypedDict):
    generation: Annotated[
        str,
        "Which studio this is: another one after each restore. Cursors and versions of the former one mean nothing"
        " here. Every answer also names it in the header Bowlside-Generation",
    ]


class Standing(Generation):
    epoch: Annotated[int, "How often the clock of the server's computer was seen to leap"]
    held_back_ms: Annotated[
        int | None,
        "By how much it leapt and is not followed yet, because something counts on an open run",
    ]


class Clock(Standing):
    server_ms: int


# Problems, RFC 9457


class FieldProblem(TypedDict):
    field: Annotated[str, "Dotted path of the field; empty for the whole"]
    detail: Annotated[str, "What is wrong and the way out"]


class ProblemDetails(TypedDict):
    """Problem details, RFC 9457."""

    type: str
    title: str
    status: int
    detail: str
    instance: Annotated[str, "Names this one answer; the server's log has the same id"]
    errors: list[FieldProblem]


# The studio and its devices


class You(TypedDict):
    id: str
    name: str
    role: Role


ReadBack = Literal["whole", "partly", "unread"]


class CopiesNow(TypedDict):
    """How the nightly copies stand."""

    last_at: Annotated[int | None, "When the newest copy was made"]
    file: Annotated[str | None, "Its name"]
    read_back: Annotated[
        ReadBack | None,
        "What laying it out and comparing said; `partly` when the bench cannot read some of it, `unread` when"
        " nothing is known",
    ]
    entries: Annotated[int | None, "Entries of both journals in it"]
    sent_at: Annotated[int | None, "When a copy was last sent elsewhere"]
    failed_at: Annotated[int | None, "When the last try failed; null when it went well"]
    failed_why: str | None
    stopped: Annotated[bool, "No copy for 36 hours, or more than one failure in a row: a maker should look"]


class StudioNow(Standing):
    mode: Literal["local", "lan", "proxy"]
    you: Annotated[You | None, "The paired device that asks; null where nobody needs to pair"]
    benches: Annotated[dict[str, str], "Names of paired devices, by what the journals' entries call them"]
    last_copy_at: Annotated[int | None, "When the newest nightly copy was made"]
    copies: CopiesNow
    certificate_ends_at: Annotated[int | None, "When the server's own certificate ends"]
    clock_wrong: Annotated[str | None, "What shows that the server's clock is wrong; null when nothing does"]
    version: str


class DeviceItem(TypedDict):
    id: str
    name: str
    role: Role
    bench: Annotated[str | None, "What the journal's entries call it"]
    paired_at: int
    seen_at: Annotated[int, "Written about once a minute"]
    shut_out_at: int | None


class DevicePage(Paged):
    devices: list[DeviceItem]


class PairingMade(TypedDict):
    code: str
    expires_at: int
    address: Annotated[str, "What the new device opens"]
    qr: Annotated[str, "The address as a QR code, in SVG"]


class Paired(TypedDict):
    device: DeviceItem


class AuditItem(TypedDict):
    id: str
    at: int
    actor: Annotated[str | None, "The paired device's id"]
    who: Annotated[str, "Its name then, or who else it was"]
    what: str
    about: JsonObject
    says: Annotated[str, "What was done, in words that follow `who`"]


class AuditPage(TypedDict):
    audit: list[AuditItem]
    before: Annotated[str | None, "For the next page; null on the last"]


# Recipes and the kit


class RecipeItem(TypedDict):
    id: str
    version: int
    title: str
    summary: str
    updated_at: int
    tags: list[str]
    archived_at: Annotated[int | None, "Since when it is archived"]


class RecipePage(Paged):
    recipes: list[RecipeItem]


class VersionHead(TypedDict):
    id: str
    version: int
    title: str
    updated_at: int


class RecipeSaid(TypedDict):
    document: Annotated[WrittenRecipe, "The recipe as written"]
    measured: MeasuredRecipe


class RecipeWhole(VersionHead, RecipeSaid):
    pass


class RecipeKept(VersionHead):
    tags: list[str]
    archived_at: int | None
    etag: Annotated[str, "As its own address answers it"]


class WholePage(Paged):
    recipes: list[RecipeKept]
    said: Annotated[list[RecipeSaid], "What each of them says, in the same order; one a line"]


class VersionItem(TypedDict):
    version: int
    title: str
    created_at: int


class VersionPage(Paged):
    versions: list[VersionItem]


class Changes(TypedDict):
    version: int
    since: Annotated[int | None, "null: the first version, with none before it"]
    changes: list[Change]


class Findings(TypedDict):
    findings: list[Finding]


class Checked(Findings):
    measured: MeasuredRecipe


class Proposals(TypedDict):
    substances: list[Proposal]


class Swaps(TypedDict):
    swaps: list[SwapEffect]


class KitWhole(TypedDict):
    version: int
    document: WrittenKit
    measured: Kit


class SizedRecipe(TypedDict):
    size: Size
    says: str
    runs_out: str | None
    sheet: Sheet
    why: Annotated[dict[str, list[str]], "By component: why it is made in several rounds, in words"]
    warnings: Annotated[list[str], "The warnings of the sheet, in words"]


# What the studio has one of


class StudioHours(TypedDict):
    """`api.plan_shapes.MakersWritten`, read: whose hands there are, and when."""

    makers: list[MakerWritten]


class HoursWhole(TypedDict):
    version: Annotated[int, "0: nobody said yet, and the bench is open day and night"]
    document: StudioHours


class LabelSaid(TypedDict, total=False):
    """`api.schemas.LabelSettings`, read."""

    market: Market
    shape: LabelShape
    width_mm: int
    height_mm: int
    opened_months: int
    sheets: list[LabelSheet]


MoneySaid: TypeAlias = Literal[
    "hourly_rate",
    "wrap_cost",
    "packaging_cost",
    "sprays_cost",
    "overhead_cost",
    "fee_percent",
    "fee_each",
    "margin_percent",
    "tax_percent",
]


class SettingsSaid(TypedDict):
    """`api.schemas.SettingsWritten`, read."""

    batch_number: str
    currency: NotRequired[str]
    hourly_rate: NotRequired[str]
    wrap_cost: NotRequired[str]
    packaging_cost: NotRequired[str]
    sprays_cost: NotRequired[str]
    overhead_cost: NotRequired[str]
    cleaning_minutes: NotRequired[int]
    labelling_seconds: NotRequired[int]
    fee_percent: NotRequired[str]
    fee_each: NotRequired[str]
    margin_percent: NotRequired[str]
    tax_percent: NotRequired[str]
    without_tax: NotRequired[bool]
    before: NotRequired[list[Start]]
    maker: NotRequired[str]
    label: NotRequired[LabelSaid]


class WeekAnswer(TypedDict):
    """A week, planned from what is wanted."""

    at: Annotated[int, "Now, by the server's clock"]
    wants: Annotated[list[Want], "As they were asked, each with the id that the plan calls it by"]
    titles: dict[str, str]
    makers: list[str]
    spoilage: Annotated[dict[str, Spoilage | None], "By recipe, from own runs; null: fewer than three say it"]
    plan: WeekPlan
    says: Annotated[str, "How good the plan is known to be"]


class OrderPlan(TypedDict):
    """A plan of the order of work, as it is kept."""

    id: str
    quick: Annotated[bool, "A first plan: the next full one of the same things takes its place"]
    at: Annotated[int, "Made then, by the server's clock"]
    mark: Annotated[str, "Another once wants, pieces, batches, hours, kit, shelf or a recipe are"]
    wants: Annotated[list[Want], "What was planned: lines of one recipe by one instant are one"]
    lines: Annotated[list[OrderLine], "By line of the order, where its pieces come from"]
    past: Annotated[list[str], "Lines whose instant was past"]
    later: Annotated[list[str], "Lines beyond what is planned at once"]
    cannot: Annotated[list[str], "Recipes that are not here, or cannot be made with this kit in these hours"]
    titles: dict[str, str]
    names: Annotated[dict[str, str], "Of what the plan says that would help: equipment, by its key"]
    makers: list[str]
    spoilage: dict[str, Spoilage | None]
    plan: WeekPlan
    needs: Annotated[list[BuyingWant], "What is made on which day: the wants of POST /buying"]


class OrderPlanSaid(OrderPlan):
    says: Annotated[str, "How good the plan is known to be"]


class WeekNow(TypedDict):
    """How the order of work stands."""

    at: Annotated[int, "Now, by the server's clock"]
    mark: str
    there: Annotated[dict[str, int], "Line -> finished pieces that are promised to it"]
    followed: OrderPlanSaid | None
    offered: Annotated[OrderPlanSaid | None, "A newer plan, of things as they are, that is not followed yet"]
    begun: Annotated[list[BatchBegun], "Planned batches that were begun"]


class WantPage(Paged):
    wants: list[OrderWant]


class PiecesPage(Paged):
    pieces: list[BatchPieces]


class BatchCost(TypedDict):
    """What a finished batch cost, by the shelf's prices as they are now."""

    currency: str
    decimals: Annotated[int, "How many the currency is counted in"]
    total: str
    per_piece: Annotated[str | None, "A good one, less what was kept back; null: nobody counted"]
    unpriced: Annotated[
        int, "How many materials have no price in this currency: above 0, it cost at least so much"
    ]


class BatchItem(BatchFigures):
    """A finished batch in figures. null: it does not tell, which is not zero."""

    run: str
    number: str | None
    recipe: str
    version: int
    title: str
    finished_at: int
    release: BatchVerdict | None
    cost: BatchCost | None


class BatchPage(Paged):
    batches: Annotated[list[BatchItem], "The newest first"]
    parquet: Annotated[bool, "Whether this server writes Parquet"]


class RecipeBatches(TypedDict):
    recipe: str
    title: str
    batches: Annotated[list[BatchItem], "The last of them, the oldest first"]


class RecipeBatchesPage(Paged):
    recipes: Annotated[list[RecipeBatches], "By title; those of which a batch is finished"]


class VariantBatch(TypedDict):
    run: str
    number: str | None
    figures: BatchFigures


class Variant(TypedDict):
    """A variant of a recipe, which is a recipe of its own."""

    recipe: str
    letter: str
    of_version: Annotated[int, "The version that it was taken from"]
    title: str
    changes: Annotated[list[Change], "What it tries out; none: it is as the recipe was"]
    judges: Annotated[list[str], "What is judged of its pieces at the end"]
    small_pieces: Annotated[int, "As many as weigh some 100 g"]
    open: Annotated[int, "Batches of it on the bench"]
    batches: Annotated[list[VariantBatch], "The last thirty that are finished, the oldest first"]
    differences: Annotated[list[Difference], "From the first variant, with Welch's interval"]


class Trials(TypedDict):
    recipe: str
    version: int
    variants: list[Variant]
    choices: Annotated[list[VariantChoice], "What one change may be of"]


class OutletList(TypedDict):
    outlets: list[Outlet]


class OutletErased(Outlet):
    copies: Annotated[
        list[str], "Copies in the studio's folder that still name it, or may and cannot be read here"
    ]


class ComplaintList(TypedDict):
    complaints: Annotated[list[Complaint], "The newest first"]


class DutyMarks(TypedDict):
    marks: Annotated[list[DutyMark], "What holds of each duty that somebody said something of"]


class SettingsWhole(TypedDict):
    version: int
    document: SettingsSaid


# Runs and journals


class RunRecipe(TypedDict):
    id: str
    version: int
    title: str


class RunItem(TypedDict):
    id: str
    recipe: RunRecipe
    size: Size
    created_at: int
    finished_at: int | None
    number: Annotated[str | None, "The batch number"]
    entries: Annotated[int, "How many there are"]
    cursor: Annotated[int, "How far the journal reaches"]
    made_at: Annotated[int | None, "When it was begun at the bench"]
    release: Annotated[BatchVerdict | None, "As it was judged last, of the record as it is signed now"]
    sealed_by: Annotated[str | None, "The signing of an earlier version for which the run says what it seals"]


class RunPage(Paged):
    runs: list[RunItem]


class RunWhole(RunItem):
    sheet: Annotated[Sheet | FormerSheet, "As it was kept when the run was begun"]
    sealed: FrozenSeal | None


class RunRead(RunWhole):
    journal: list[Entry]
    read_to: Annotated[
        int, "The cursor of the last of these entries; the run's own is greater where more follow"
    ]


class WholeRunPage(Paged):
    runs: list[RunRead]


class EntryAnswer(TypedDict):
    id: str | None
    result: Literal["kept", "had", "refused"]
    field: NotRequired[Annotated[str, "When refused: the field at fault"]]
    detail: NotRequired[Annotated[str, "When refused: why, and the way out"]]
    also_used_by: NotRequired[
        Annotated[list[NamedRun], "When it gave the batch a number that other runs have too: those runs"]
    ]


class EntryAnswers(Generation):
    answers: list[EntryAnswer]
    cursor: Annotated[int, "How far the journal reaches. Read on from the cursor you have, not from this one"]
    server_ms: int


class EntryPage(Generation):
    entries: list[Entry]
    cursor: Annotated[int, "What to send as `after` next time"]
    more: bool
    server_ms: int


class PictureKept(TypedDict):
    id: str
    sha256: str
    bytes: int


class PictureAwaited(TypedDict):
    id: str
    run: Annotated[str, "The run whose entry tells of it"]


class PicturesAwaited(TypedDict):
    awaited: list[PictureAwaited]


# The shelf


class IngredientPage(Paged):
    ingredients: list[IngredientThere]


class LotPage(Paged):
    lots: list[LotThere]


# What was searched

FoundKind = Literal["recipe", "batch", "ingredient", "lot", "note"]


class FoundRecipe(TypedDict):
    kind: Literal["recipe"]
    id: str
    title: str
    version: int
    tags: list[str]
    archived_at: int | None


class FoundBatch(TypedDict):
    kind: Literal["batch"]
    id: str
    title: str
    number: Annotated[str | None, "The batch number"]
    pieces: int
    finished_at: int | None
    release: BatchVerdict | None


class FoundIngredient(TypedDict):
    kind: Literal["ingredient"]
    id: str
    title: str
    note: Annotated[str | None, "A note of its, where that has the words and its name has not"]


class FoundLot(TypedDict):
    kind: Literal["lot"]
    id: str
    title: Annotated[str, "The ingredient's name"]
    number: Annotated[str, "The supplier's"]
    ingredient: str
    supplier: str | None
    note: str | None


class FoundNote(TypedDict):
    kind: Literal["note"]
    id: Annotated[str, "The entry's"]
    run: str
    title: Annotated[str, "The batch's"]
    number: str | None
    at: int
    text: str


Found = FoundRecipe | FoundBatch | FoundIngredient | FoundLot | FoundNote


class FoundGroup(TypedDict):
    kind: FoundKind
    found: list[Found]
    more: Annotated[bool, "Whether the next page has any"]


class FoundPage(TypedDict):
    page: int
    groups: Annotated[list[FoundGroup], "Those that have something on this page"]


# What was imported


class Imported(TypedDict):
    kept: int
    had: int
    refused: list[FieldProblem]
    more_refused: Annotated[int, "How many more than those that are named"]
