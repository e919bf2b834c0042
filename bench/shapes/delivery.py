"""A list from a supplier: what of it became readable, row by row, before anything is entered."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.entries import DayText, Price
from bench.shapes.shelf import Card
from bench.shapes.units import Many, Mg, Text

DeliveryField = Literal[
    "name",
    "amount",
    "unit",
    "packs",
    "number",
    "best_before",
    "price",
    "unit_price",
    "currency",
    "inci",
    "cas",
    "nothing",
]
SharedBy = Literal["value", "mass"]


class WrittenDelivery(TypedDict):
    """A list as it was pasted, and what its maker answered."""

    text: Annotated[str, Text(200_000)]
    received_on: DayText
    supplier: NotRequired[Annotated[str, Text(200, 0)]]
    currency: NotRequired[Annotated[str, Text(3, 0)]]  # where the list names none
    measures: NotRequired[Literal["us", "imperial", "metric"]]  # whose fluid ounces
    columns: NotRequired[Annotated[list[DeliveryField], Many(40)]]  # what each is, where the maker says so
    # By row and field, "3.amount": what the maker wrote in its place. "3.card" is a card's id, or "new"; "3.had" is
    # "again" where the same lot came once more; "3.row" is "out" where the row is left out, or "in".
    answers: NotRequired[dict[str, str]]
    delivery: NotRequired[Annotated[str, Text(40, 0)]]  # what bringing it cost
    shared_by: NotRequired[SharedBy]


class DeliveryQuestion(TypedDict):
    """What could not be read of a row, or may mean two things."""

    field: str
    says: str
    choices: list[str]  # each can be the answer as it stands


class DeliveryRow(TypedDict):
    row: int  # its line in the list, the heading not counted
    cells: dict[str, str]  # by field: as it is written, or as it was answered
    name: str
    card: str | None  # the shelf's card; None: a new one
    card_name: str | None
    choices: dict[str, str]  # cards that it may be, by id: their names
    mg: Mg | None
    count: int | None
    number: str | None
    best_before: DayText | None
    price: Price | None
    questions: list[DeliveryQuestion]
    out: bool  # left out: a sum, an empty row, or the maker's wish


class DeliveredCardBody(TypedDict):
    ingredient: str
    card: Card


class DeliveredCard(TypedDict):
    kind: Literal["described"]
    body: DeliveredCardBody


class DeliveredLotBody(TypedDict):
    """A `received` without the lot's own id, which who enters it gives."""

    ingredient: str
    number: str
    received_on: DayText
    mg: NotRequired[Mg]
    count: NotRequired[int]
    supplier: NotRequired[str]
    best_before: NotRequired[DayText]
    price: NotRequired[Price]


class DeliveredLot(TypedDict):
    kind: Literal["received"]
    body: DeliveredLotBody


class Delivery(TypedDict):
    columns: list[DeliveryField]  # empty where each line is read by itself
    heads: list[str]  # what stands above each column
    rows: list[DeliveryRow]
    delivery: str  # what bringing it cost, as it is written; empty: nothing
    questions: list[DeliveryQuestion]  # about the list as a whole
    open: int  # how many questions are left
    entries: list[DeliveredCard | DeliveredLot]  # to be entered as they stand, once nothing is open
