"""Finished pieces: what became of those of a batch, and what is there."""

from typing import TypedDict

from bench.shapes.entries import ComplaintSort, DayText
from bench.shapes.state import BatchVerdict
from bench.shapes.units import InstantMs


class OutletPieces(TypedDict):
    """Pieces of a batch at one outlet; None: nobody said where."""

    outlet: str | None
    sold: int
    given: int
    returned: int


class BinnedPieces(TypedDict):
    at: InstantMs
    device: str
    pieces: int
    why: str


class Complaint(TypedDict):
    id: str
    run: str
    at: InstantMs
    device: str
    sort: ComplaintSort
    text: str
    pieces: int | None
    outlet: str | None


class PiecesTold(TypedDict):
    """What the shelf's journal tells of one batch's pieces."""

    sold: int
    given: int
    returned: int
    binned: int
    sampled: int
    shelved: int  # became lots of the shelf
    place: str | None  # where they stand
    outlets: list[OutletPieces]  # by id, the unsaid one first
    bins: list[BinnedPieces]
    complaints: list[Complaint]


class PiecesMade(TypedDict):
    """What the batch's own record says of its pieces once it is finished."""

    good: int  # those that were kept among them
    kept: int


class PiecesStand(TypedDict):
    """Where a batch's pieces are: made = in_stock + left + kept + binned, whatever was told.

    in_stock is below zero when more was told than was made, and left when more came back than had gone.
    """

    made: int
    in_stock: int
    left: int
    kept: int
    binned: int


# ---- as the API gives them


class BatchPieces(PiecesStand):
    """A batch's pieces as a list shows them, those that go off first coming first."""

    run: str
    recipe: str  # its id
    title: str
    number: str | None
    made_on: DayText
    best_before: DayText | None
    place: str | None
    release: BatchVerdict | None  # None: nobody judged the batch as it is signed now
    good: int  # as made, those kept in the batch's record among them
    kept_there: int  # kept in the batch's record


class Outlet(TypedDict):
    """Where pieces go: a shop, a market, a person. As little as its maker wants to keep."""

    id: str
    name: str | None  # None: it was erased
    contact: str | None
    erased_at: InstantMs | None


class AtOutlet(OutletPieces):
    """What of a batch is at one outlet now, and how to reach it; no outlet where nobody said."""

    name: str | None
    contact: str | None
    there: int


class PiecesWhole(TypedDict):
    """Where all of a batch's pieces are, and what was said of them."""

    run: str
    batch: BatchPieces | None  # None: it is not finished, not counted, or not here
    at: list[AtOutlet]
    bins: list[BinnedPieces]
    complaints: list[Complaint]


class RecalledBatch(TypedDict):
    """A batch to be called back, and where its pieces are."""

    run: str
    title: str
    number: str | None
    lot: str | None  # by which lot it has it: None where it is the batch itself
    made: int | None  # None: nobody has counted them
    here: int  # in stock, or kept
    binned: int
    at: list[AtOutlet]
    shelved: int  # became lots of the shelf, whose batches follow


class Recall(TypedDict):
    """Where the pieces are of every batch that has of a lot, straight or through a part made ahead."""

    rehearsal: bool  # only tried
    batches: list[RecalledBatch]  # a part of them
    next: str | None  # the last of these, where more follow
    total: int  # how many batches; what follows is of all of them
    made: int
    found: int  # here, binned, on the shelf, or at an outlet that can be asked
    unknown: int  # left, and nobody can say to whom


class OriginLot(TypedDict):
    """A lot that a batch has of, straight or through a part made ahead."""

    lot: str
    number: str | None  # None: the shelf does not know it
    ingredient: str | None
    into: str  # the batch that it was gathered for
    made_in: str | None  # the batch that it was made in, of a part made ahead


class Origin(TypedDict):
    run: str
    lots: list[OriginLot]


class Alike(TypedDict):
    """What a complaint leads to."""

    complaint: Complaint
    title: str | None  # of the batch; None: it is not here
    number: str | None
    lots: list[OriginLot]
    others: list[RecalledBatch]  # the batches that share a lot with it, and its own
    told_of_others: list[Complaint]
