"""pieces: pieces are made, one by one or together, and counted."""

from bench.errors import RecipeError
from bench.former_words import coded
from bench.shapes.recipe import RecipeHead, RecipePieces, WrittenPieces
from bench.shapes.sheet import PiecesStep, StepHead
from bench.shapes.units import Ms
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits
from bench.words import say

ONE_BY_ONE_MS, TOGETHER_MS = MINUTE_MS, 15_000  # a piece; common practice
TRAITS = Traits(counts_pieces=True)


def read(written: WrittenPieces, head: RecipeHead, around: Around) -> RecipePieces:
    of = written.get("of", [])
    for key in of:
        if key not in around.portions:
            raise RecipeError(f"{around.at}.of", say("recipe-no-portion", portion=key))
    return {
        **head,
        "kind": "pieces",
        "one_by_one": written.get("one_by_one", False),
        "again": written.get("again"),
        "of": of,
        "partial": written.get("partial", False),
        "verb": written.get("verb", ""),
    }


def lay_out(step: RecipePieces, head: StepHead, batch: Batch) -> PiecesStep:
    return {
        **head,
        "kind": "pieces",
        "one_by_one": step["one_by_one"],
        "again": step["again"],
        "partial": step["partial"],
        "verb": "" if coded(step["verb"]) == "done" else step["verb"],
        "count": batch.count,
        "of": [f"{batch.prefix}.{portion}" for portion in step["of"]],
        "piece_mg": batch.component["piece_mg"],
        "follows": [],
    }


def usual_hands_ms(step: PiecesStep) -> Ms:
    return (step["count"] or 1) * (ONE_BY_ONE_MS if step["one_by_one"] else TOGETHER_MS)
