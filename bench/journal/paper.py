"""Taking in what belongs to the record alone: numbers, lots, ticks, weighed pieces, pictures, hours, remarks."""

from bench.journal.tally import Tally
from bench.shapes.entries import (
    Aired,
    Finished,
    Gathered,
    Judged,
    Kept,
    Labelled,
    Measured,
    Noted,
    Numbered,
    Pictured,
    Proved,
    Signed,
    Ticked,
    Undone,
    WasMet,
    Worked,
)

OnPaper = (
    Numbered
    | Gathered
    | Ticked
    | Measured
    | Aired
    | Proved
    | Labelled
    | Pictured
    | Worked
    | Noted
    | Kept
    | WasMet
    | Finished
    | Signed
    | Judged
    | Undone
)


def take(tally: Tally, entry: OnPaper) -> bool:
    """Whether the entry made sense on this sheet."""
    match entry["kind"]:
        case "numbered":
            _numbered(tally, entry["body"]["number"])
        case "gathered":
            return _gathered(tally, entry)
        case "ticked":
            tally.ticked.setdefault(entry["body"]["thing"], entry["at"])
        case "measured":
            _measured(tally, entry)
        case "aired":
            _aired(tally, entry)
        case "proved":
            _proved(tally, entry)
        case "labelled":
            _labelled(tally, entry)
        case "pictured":
            _pictured(tally, entry)
        case "worked":
            tally.worked[entry["body"].get("step", "")] = entry["body"]["ms"]
        case "noted":
            _noted(tally, entry)
        case "kept":
            tally.kept = entry["body"]["pieces"]
        case "met":
            _met(tally, entry)
        case "finished":
            tally.finished_at = entry["at"] if tally.finished_at is None else tally.finished_at
        case "signed":
            pass  # it was taken back, or seals nothing here
        case "judged":
            judged(tally, entry)
        case "undone":
            return False  # what it takes back is not here, or came after it
    return True


def _numbered(tally: Tally, number: str) -> None:
    if tally.number is None:
        tally.number = number
    elif number not in (tally.number, *tally.also_numbered):
        tally.also_numbered.append(number)


def _gathered(tally: Tally, entry: Gathered) -> bool:
    body = entry["body"]
    if body["ingredient"] not in tally.gatherable:
        return False
    tally.gathered.append(
        {
            "at": entry["at"],
            "ingredient": body["ingredient"],
            "lot": body["lot"],
            "mg": body.get("mg"),
            "count": body.get("count"),
        }
    )
    return True


def _measured(tally: Tally, entry: Measured) -> None:
    body = entry["body"]
    tally.measured.append(
        {
            "at": entry["at"],
            "what": body["what"],
            "mg": body["mg"],
            "step": body.get("step"),
            "piece": body.get("piece"),
            "scale": body.get("scale"),
        }
    )


def _aired(tally: Tally, entry: Aired) -> None:
    body = entry["body"]
    tally.air.append(
        {"at": entry["at"], "device": entry["device"], "humidity": body["humidity"], "mk": body.get("mk")}
    )


def _proved(tally: Tally, entry: Proved) -> None:
    body = entry["body"]
    tally.proved.append(
        {
            "at": entry["at"],
            "device": entry["device"],
            "scale": body["scale"],
            "weight_mg": body["weight_mg"],
            "mg": body["mg"],
        }
    )


def _labelled(tally: Tally, entry: Labelled) -> None:
    body = entry["body"]
    tally.labelled.append(
        {
            "at": entry["at"],
            "device": entry["device"],
            "market": body["market"],
            "printed": body["printed"],
            "on": body["on"],
            "binned": body["binned"],
            "text": body.get("text", ""),
        }
    )


def _pictured(tally: Tally, entry: Pictured) -> None:
    body = entry["body"]
    tally.pictures.append(
        {
            "at": entry["at"],
            "device": entry["device"],
            "picture": body["picture"],
            "sha256": body["sha256"],
            "text": body.get("text", ""),
            "step": body.get("step"),
        }
    )


def _met(tally: Tally, entry: WasMet) -> None:
    body = entry["body"]
    tally.met[body["criterion"]] = {
        "at": entry["at"],
        "device": entry["device"],
        "answer": body["answer"],
        "text": body.get("text", ""),
    }


def judged(tally: Tally, entry: Judged) -> None:
    """Put a judgement beside the record, whether it is signed or not."""
    body = entry["body"]
    tally.judgements.append(
        {
            "id": entry["id"],
            "at": entry["at"],
            "device": entry["device"],
            "about": body["about"],
            "verdict": body["verdict"],
            "name": body["name"],
            "why": body.get("why", ""),
            "signing": body.get("signing"),
        }
    )


def _noted(tally: Tally, entry: Noted) -> None:
    body = entry["body"]
    tally.notes.append(
        {"at": entry["at"], "device": entry["device"], "step": body.get("step"), "text": body["text"]}
    )
