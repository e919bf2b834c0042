"""bench: the trade's arithmetic. Not benchmarks: this is the domain.

What may not come in: Flask, marshmallow, a database, a clock, a file, randomness, or anything
from `api`. A test walks the imports. The reading order is the order in which data flows:

    quantities -> recipe, kit -> sizing, weighing, heating -> sheet -> journal -> waits -> prompting -> record
    entries -> shelf, pieces -> lots, gather; record -> cost, label, last_time
    sheet, state -> planning (a package; its door holds the shapes)

`api` imports from here, not from the modules inside.
"""

from bench import words
from bench.batch_number import PATTERN, batch_number, check_pattern
from bench.book import Book, card_for, names_of
from bench.buying import check_buying, joined_unjoined, needs_of, to_buy, ungathered
from bench.checks import check_recipe
from bench.cost import cost
from bench.delivery import check_delivery, read_delivery
from bench.digest import digest
from bench.dryness import dryness, dryness_of
from bench.entries import in_order
from bench.errors import (
    AmountError,
    BenchError,
    EntryError,
    KitError,
    PlanError,
    RecipeError,
    SettingError,
    SizeError,
)
from bench.gather import gather
from bench.holding import in_use, wants_kit
from bench.journal import KINDS, check_entry, fold, frozen_seal, is_readable, of_record, seal
from bench.kinds import JUDGEMENTS, MOVES_STOCK, OF_PIECES, STANDING
from bench.kit import KIT_SCHEMA, read_kit
from bench.label import label
from bench.label_sheets import COMMON as COMMON_SHEETS
from bench.label_sheets import PAPERS, label_places, sheet_fault
from bench.last_time import last_times, learned, planned_hands
from bench.lot_plate import lot_plate
from bench.lots import aside_of, pick, use_of
from bench.money import is_currency, money_text, places_of, read_money
from bench.page_tables import page_tables
from bench.pieces import at_outlet, best_before, fold_pieces, is_of_pieces, nothing_told, stand
from bench.planning import (
    if_you_stop,
    make_problem,
    next_step,
    of_sheet,
    options,
    order_of,
    plan,
    plan_in_words,
    plan_several,
    replan,
    tasks_of,
    time_savings,
    with_one_more,
)
from bench.product import Product, is_due, is_of_studio, product_of
from bench.product import holding as duties_holding
from bench.product import stands as product_stands
from bench.product import stands_of as product_stands_of
from bench.prompting import now
from bench.quantities import read_amount, read_duration_ms
from bench.recipe import read_recipe
from bench.recipe_schema import RECIPE_SCHEMA
from bench.record import pieces_made, record
from bench.release import judgement_of, release_of, release_status
from bench.reorder import Used, reorder_points
from bench.shapes.buying import Buying, BuyingNeed, BuyingUnjoined, WrittenBuying
from bench.shapes.delivery import Delivery, WrittenDelivery
from bench.shapes.entries import Entry, FrozenSeal, Judged, RunEntry, Signed, Undone, Weighed
from bench.shapes.kit import Kit, WrittenKit
from bench.shapes.pieces import (
    Alike,
    AtOutlet,
    BatchPieces,
    Complaint,
    Origin,
    OriginLot,
    Outlet,
    OutletPieces,
    PiecesMade,
    PiecesStand,
    PiecesTold,
    PiecesWhole,
    Recall,
    RecalledBatch,
)
from bench.shapes.planning import (
    KeptPlan,
    MakerWritten,
    Plan,
    PlanAimName,
    PlanFault,
    PlannedPart,
    PlanProgress,
    PlanState,
    Problem,
    Progress,
    RunDue,
    TasksOfRun,
    TimeSaving,
    TimeSavingOption,
    TimeSavingSaid,
)
from bench.shapes.product import DutyMark, DutyState, ProductStands
from bench.shapes.prompts import InUse, OnBench
from bench.shapes.recipe import (
    Change,
    Finding,
    MeasuredRecipe,
    ProductUse,
    RoomAir,
    SoldIn,
    Start,
    SwapEffect,
    WrittenRecipe,
)
from bench.shapes.record import (
    Balance,
    Correction,
    CostSettings,
    KnownLot,
    KnownPerson,
    KnownRemark,
    Label,
    LabelOptions,
    LabelPlace,
    LabelShape,
    LabelSheet,
    LabelSize,
    LastTimes,
    LateEntry,
    Market,
    MeantFor,
    NamedRun,
    Paper,
    PlacedStep,
    PlateLine,
    PlatePart,
    Record,
    RecordLot,
    WholeCost,
    WholeRecord,
)
from bench.shapes.schema import schema_of
from bench.shapes.sheet import FormerSheet, RecipeRef, Sheet, Size, SizeRequest
from bench.shapes.shelf import (
    Card,
    IngredientThere,
    LotMending,
    LotRun,
    LotThere,
    LotUse,
    Proposal,
    Shelf,
    ShelfIngredient,
    ShelfLot,
    Taken,
)
from bench.shapes.state import BatchVerdict, Picture, State
from bench.shapes.units import JsonObject, JsonValue
from bench.shapes.week import Make, Spoilage, There, Want, Week, WeekHelp, WeekLot, WeekPlan
from bench.sheet import choose_size, make_sheet, open_sheet, sheet_text
from bench.sheet_words import reason_words, warning_words
from bench.shelf import SHELF_KINDS, check_shelf_entry, fold_shelf, left_of
from bench.substances.proposing import propose
from bench.swaps import swap_effects, swaps_of
from bench.versions import what_changed
from bench.waits import rings, wait_phase, window_phase
from bench.week import Wanted, check_week, make_of, plan_week, spoilage_of, week_in_a_line, with_helps
from bench.whole import canonical, mass, span

__all__ = [
    "Make",
    "Spoilage",
    "There",
    "Want",
    "Wanted",
    "Week",
    "WeekHelp",
    "WeekLot",
    "WeekPlan",
    "check_week",
    "make_of",
    "plan_week",
    "spoilage_of",
    "week_in_a_line",
    "with_helps",
    "Alike",
    "BatchPieces",
    "Complaint",
    "Outlet",
    "OutletPieces",
    "PiecesMade",
    "PiecesStand",
    "PiecesTold",
    "Recall",
    "AtOutlet",
    "Origin",
    "OriginLot",
    "PiecesWhole",
    "RecalledBatch",
    "OF_PIECES",
    "at_outlet",
    "best_before",
    "fold_pieces",
    "is_of_pieces",
    "nothing_told",
    "pieces_made",
    "stand",
    "product_of",
    "COMMON_SHEETS",
    "Product",
    "ProductStands",
    "DutyState",
    "DutyMark",
    "product_stands",
    "product_stands_of",
    "is_of_studio",
    "is_due",
    "duties_holding",
    "JUDGEMENTS",
    "KINDS",
    "KIT_SCHEMA",
    "MOVES_STOCK",
    "PAPERS",
    "PATTERN",
    "RECIPE_SCHEMA",
    "SHELF_KINDS",
    "STANDING",
    "AmountError",
    "Balance",
    "BatchVerdict",
    "Book",
    "Buying",
    "BuyingNeed",
    "BuyingUnjoined",
    "BenchError",
    "Card",
    "Change",
    "Correction",
    "CostSettings",
    "Delivery",
    "Entry",
    "EntryError",
    "Finding",
    "FormerSheet",
    "FrozenSeal",
    "InUse",
    "IngredientThere",
    "Judged",
    "JsonObject",
    "JsonValue",
    "KeptPlan",
    "Kit",
    "KitError",
    "KnownLot",
    "KnownPerson",
    "KnownRemark",
    "Label",
    "LabelOptions",
    "LabelPlace",
    "LabelShape",
    "LabelSheet",
    "LabelSize",
    "LastTimes",
    "LateEntry",
    "LotMending",
    "LotRun",
    "LotThere",
    "LotUse",
    "MakerWritten",
    "Market",
    "MeantFor",
    "MeasuredRecipe",
    "NamedRun",
    "OnBench",
    "Paper",
    "Picture",
    "PlacedStep",
    "Plan",
    "PlanAimName",
    "PlanError",
    "PlanFault",
    "PlanProgress",
    "PlanState",
    "PlannedPart",
    "PlateLine",
    "PlatePart",
    "Problem",
    "ProductUse",
    "Progress",
    "Proposal",
    "RecipeError",
    "RecipeRef",
    "Record",
    "RecordLot",
    "RoomAir",
    "RunDue",
    "RunEntry",
    "SettingError",
    "Sheet",
    "Shelf",
    "ShelfIngredient",
    "ShelfLot",
    "Signed",
    "Size",
    "SizeError",
    "SizeRequest",
    "Start",
    "State",
    "SoldIn",
    "SwapEffect",
    "Taken",
    "TasksOfRun",
    "TimeSaving",
    "TimeSavingOption",
    "TimeSavingSaid",
    "Undone",
    "Used",
    "Weighed",
    "WholeCost",
    "WholeRecord",
    "WrittenBuying",
    "WrittenDelivery",
    "WrittenKit",
    "WrittenRecipe",
    "aside_of",
    "batch_number",
    "canonical",
    "card_for",
    "check_buying",
    "check_delivery",
    "check_entry",
    "check_pattern",
    "check_recipe",
    "check_shelf_entry",
    "choose_size",
    "cost",
    "digest",
    "dryness",
    "dryness_of",
    "fold",
    "fold_shelf",
    "frozen_seal",
    "gather",
    "if_you_stop",
    "in_order",
    "in_use",
    "is_currency",
    "is_readable",
    "label",
    "label_places",
    "last_times",
    "learned",
    "left_of",
    "lot_plate",
    "make_problem",
    "make_sheet",
    "mass",
    "money_text",
    "next_step",
    "names_of",
    "needs_of",
    "now",
    "of_record",
    "of_sheet",
    "open_sheet",
    "options",
    "order_of",
    "pick",
    "places_of",
    "plan",
    "plan_in_words",
    "plan_several",
    "planned_hands",
    "propose",
    "read_amount",
    "read_delivery",
    "read_duration_ms",
    "read_kit",
    "read_money",
    "page_tables",
    "read_recipe",
    "reason_words",
    "joined_unjoined",
    "judgement_of",
    "record",
    "release_of",
    "release_status",
    "reorder_points",
    "replan",
    "rings",
    "schema_of",
    "seal",
    "sheet_fault",
    "sheet_text",
    "span",
    "swap_effects",
    "swaps_of",
    "tasks_of",
    "time_savings",
    "to_buy",
    "ungathered",
    "use_of",
    "wait_phase",
    "wants_kit",
    "warning_words",
    "what_changed",
    "window_phase",
    "with_one_more",
    "words",
]
