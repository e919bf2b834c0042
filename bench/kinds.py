"""The kinds of entry, one row each, of a run's journal and of the shelf's: its fields and its traits.

The fields are those of the kind's body in `bench/shapes/entries.py`. Whoever needs "the kinds that ..." asks for a
trait here. The page has the same table (`bench/page_tables.py`).
"""

from collections.abc import Mapping
from typing import NamedTuple

from bench.shapes import entries as shapes
from bench.shapes.entries import RunKind, ShelfKind
from bench.shapes.schema import fields_of as fields_of_shape
from bench.shapes.schema import form_of

Kinds = dict[str, dict[str, tuple[str, bool]]]  # kind -> field -> (its type, whether it must be there)


class EntryKind(NamedTuple):
    """What is known of a kind of entry."""

    fields: dict[str, tuple[str, bool]]  # field -> (its type in `bench/entries.py`, whether it must be there)
    hand_work: bool = True  # whether hands were at work when it was told
    moves_stock: bool = False  # whether it says how much of a lot was used
    correction: bool = False  # whether the record lists it as a departure from the sheet
    judgement: bool = (
        False  # whether it judges what was done: it stands beside any seal, and is never taken back
    )
    of_pieces: bool = False  # whether it says what became of a batch's finished pieces (bench/pieces.py)
    of_buying: bool = False  # whether it tells of orders and prices (bench/purchases.py)
    standing: bool = (
        False  # whether it moves what is asked over all runs: number, end, lots, seal, release, pieces
    )


def traits_of(row: EntryKind) -> list[str]:
    """The traits that a kind has, by name."""
    told = {
        "hand_work": row.hand_work,
        "moves_stock": row.moves_stock,
        "correction": row.correction,
        "judgement": row.judgement,
        "of_pieces": row.of_pieces,
        "of_buying": row.of_buying,
        "standing": row.standing,
    }
    return [trait for trait, has in told.items() if has]


def _fields(body: type) -> dict[str, tuple[str, bool]]:
    """Each field of a body's shape with the type that it is judged by."""
    return {
        field: (next(each.type for each in form_of(hint).parts if isinstance(each, shapes.Fits)), needed)
        for field, hint, needed in fields_of_shape(body)
    }


def _paper(body: type, standing: bool = False) -> EntryKind:
    """A kind that is written down, with no hand at work."""
    return EntryKind(_fields(body), hand_work=False, standing=standing)


def _of_pieces(body: type) -> EntryKind:
    """A kind of the shelf's journal that says what became of a batch's finished pieces."""
    return EntryKind(_fields(body), hand_work=False, of_pieces=True)


def _of_buying(body: type) -> EntryKind:
    """A kind of the shelf's journal that tells of what is bought."""
    return EntryKind(_fields(body), hand_work=False, of_buying=True)


RUN_KINDS: dict[RunKind, EntryKind] = {
    "numbered": _paper(shapes.NumberedBody, standing=True),
    "gathered": EntryKind(_fields(shapes.GatheredBody), standing=True),
    "ticked": EntryKind(_fields(shapes.TickedBody)),
    "weighed": EntryKind(_fields(shapes.WeighedBody), moves_stock=True),
    "taken_out": EntryKind(_fields(shapes.TakenOutBody), moves_stock=True, correction=True),
    "left": EntryKind(_fields(shapes.LineBody), moves_stock=True, correction=True),
    "left_out": EntryKind(_fields(shapes.LineBody), moves_stock=True, correction=True),
    "carried": EntryKind(_fields(shapes.CarriedBody), moves_stock=True, correction=True),
    "zeroed": EntryKind(_fields(shapes.ZeroedBody)),
    "placed": EntryKind(_fields(shapes.PlacedBody), hand_work=False, correction=True),
    "took": EntryKind(_fields(shapes.TookBody), hand_work=False, correction=True),
    "switched": _paper(shapes.SwitchedBody),
    "chose": EntryKind(_fields(shapes.ChoseBody)),
    "done": EntryKind(_fields(shapes.DoneBody)),
    "skipped": _paper(shapes.SkippedBody),
    "began": EntryKind(_fields(shapes.BeganBody)),
    "heated": EntryKind(_fields(shapes.HeatedBody)),
    "looked": EntryKind(_fields(shapes.LookedBody)),
    "portioned": EntryKind(_fields(shapes.PortionedBody)),
    "counted": EntryKind(_fields(shapes.CountedBody), standing=True),
    "extended": _paper(shapes.ExtendedBody),
    "measured": EntryKind(_fields(shapes.MeasuredBody)),
    "aired": EntryKind(_fields(shapes.AiredBody), hand_work=False),
    "proved": EntryKind(_fields(shapes.ProvedBody), hand_work=False),
    "labelled": _paper(shapes.LabelledBody),
    "pictured": _paper(shapes.PicturedBody),
    "worked": _paper(shapes.WorkedBody),
    "noted": _paper(shapes.NotedBody),
    "kept": _paper(shapes.KeptBody, standing=True),
    "met": _paper(shapes.MetBody),
    "finished": _paper(shapes.FinishedBody, standing=True),
    "signed": _paper(shapes.SignedBody, standing=True),
    "judged": EntryKind(_fields(shapes.JudgedBody), hand_work=False, judgement=True, standing=True),
    "undone": _paper(shapes.UndoneBody, standing=True),
}
SHELF_KINDS: dict[ShelfKind, EntryKind] = {
    "described": _paper(shapes.DescribedBody),
    "received": _paper(shapes.ReceivedBody),
    "corrected": _paper(shapes.CorrectedBody),
    "mended": _paper(shapes.MendedBody),
    "wrote_off": _paper(shapes.WroteOffBody),
    "judged": EntryKind(_fields(shapes.LotJudgedBody), hand_work=False, judgement=True),
    "papered": _paper(shapes.PaperedBody),
    "noted": _paper(shapes.ShelfNotedBody),
    "ordered": _of_buying(shapes.OrderedBody),
    "arrived": _of_buying(shapes.ArrivedBody),
    "quoted": _of_buying(shapes.QuotedBody),
    "undone": _paper(shapes.UndoneBody),
    "sold": _of_pieces(shapes.LeavingBody),
    "given": _of_pieces(shapes.LeavingBody),
    "returned": _of_pieces(shapes.LeavingBody),
    "binned": _of_pieces(shapes.BinnedBody),
    "sampled": _of_pieces(shapes.SampledBody),
    "shelved": _of_pieces(shapes.ShelvedBody),
    "stood": _of_pieces(shapes.StoodBody),
    "complained": _of_pieces(shapes.ComplainedBody),
}


def fields_of(kinds: Mapping[RunKind, EntryKind] | Mapping[ShelfKind, EntryKind]) -> Kinds:
    return {kind: row.fields for kind, row in kinds.items()}


NO_HANDS = frozenset(kind for kind, row in RUN_KINDS.items() if not row.hand_work)
MOVES_STOCK = frozenset(kind for kind, row in RUN_KINDS.items() if row.moves_stock)
CORRECTIONS = frozenset(kind for kind, row in RUN_KINDS.items() if row.correction)
JUDGEMENTS = frozenset(kind for kind, row in RUN_KINDS.items() if row.judgement)
STANDING = frozenset(kind for kind, row in RUN_KINDS.items() if row.standing)
OF_PIECES = frozenset(kind for kind, row in SHELF_KINDS.items() if row.of_pieces)
OF_BUYING = frozenset(kind for kind, row in SHELF_KINDS.items() if row.of_buying)
