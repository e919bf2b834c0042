"""An answer: the kind and body of an entry to post, and how it is offered."""

from bench.shapes.entries import EntryBody, RunKind
from bench.shapes.prompts import Answer, AnswerInput, Besides, ScaleBody, VesselBody


def answer(
    key: str,
    label: str,
    kind: RunKind,
    body: EntryBody | VesselBody | ScaleBody,
    *,
    says: str = "",
    wants: AnswerInput | None = None,
    most: int | None = None,
    strong: bool = False,
    ask: str = "",
    also: list[Besides] | None = None,
) -> Answer:
    """wants: what the body still lacks, and `most` its upper bound. ask: what to ask before it is posted. also:
    what the same touch tells besides."""
    told: Answer = {
        "id": key,
        "label": label,
        "says": says,
        "kind": kind,
        "body": body,
        "input": wants,
        "most": most,
        "strong": strong,
        "ask": ask,
    }
    if also:
        told["also"] = also
    return told
