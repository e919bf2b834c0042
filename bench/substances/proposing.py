"""What the table has to say of a name while it is typed: what it is taken for, and what else it may become.

    propose("Natr")[0]["name"]      "Natron", which is called sodium bicarbonate

A name, an INCI name or a CAS number of any language is met from its beginning, and words within it from theirs.
"""

from fractions import Fraction

from bench.lists import kept
from bench.shapes.recipe import WrittenDensity
from bench.shapes.shelf import Card, Proposal
from bench.shapes.substances import Substance
from bench.sources import cited
from bench.substances import has, plain, recognised, substance
from bench.substances.table import table
from bench.words import point, say, spoken

MOST = 7
LEAST_LETTERS = 2
_BEGINS = 0
_NOT_MET = 2
# By these a range is that of a powder, from loose to tapped: a recipe has a field for each.
_LOOSE_TO_TAPPED = frozenset({"excipients"})


def propose(text: str) -> list[Proposal]:
    """What `text` is taken for stands first, and is `taken`; then what begins so, the shorter name first. What it is
    taken for by a word within it alone gives way to what begins so: "cream of t" is more than its cream."""
    asked = plain(text)
    taken = recognised(text)
    found = [_proposal(taken, text.strip(), True)] if taken else []
    if len(asked) < LEAST_LETTERS:
        return found
    met = [(*_best(each, asked, spoken()), each) for each in table() if each is not taken]
    near = sorted(
        (rank, each["id"], name, each)
        for rank, name, each in met
        if rank[0] < _NOT_MET and not has(each, "lye")  # a recipe with it is refused
    )
    begun = [_proposal(each, name, False) for rank, _, name, each in near if rank[0] == _BEGINS]
    within = [_proposal(each, name, False) for rank, _, name, each in near if rank[0] != _BEGINS]
    is_whole = taken is not None and asked in {known for _, _, known in _names(taken["id"])}
    return [*(found + begun if is_whole else begun + found), *within][:MOST]


def _best(each: Substance, asked: str, tag: str) -> tuple[tuple[int, bool, int], str]:
    """The name of it that is nearest to what was typed, and how near: where it stands, of which language, how long."""
    return min(((_place(known, asked), tag != of, len(name)), name) for of, name, known in _names(each["id"]))


@kept
def _names(id_: str) -> list[tuple[str, str, str]]:
    """Each name of a substance: of which language, as it is written, and plain; an INCI name and a number are of none."""
    each = substance(id_)
    of_languages = [(tag, name) for tag, names in each["names"].items() for name in names]
    of_none = [("", name) for name in (*([each["inci"]] if "inci" in each else []), *each.get("cas", []))]
    return [(tag, name, plain(name)) for tag, name in (*of_languages, *of_none)]


def _place(name: str, asked: str) -> int:
    return _BEGINS if name.startswith(asked) else 1 if f" {asked}" in f" {name}" else _NOT_MET


def _proposal(each: Substance, name: str, taken: bool) -> Proposal:
    called = each["names"].get(spoken()) or each["names"]["en"]
    is_number = name in each.get("cas", [])
    hazards = each.get("hazards", [])
    return {
        "id": each["id"],
        "name": called[0] if is_number else name,
        "called": called[0],
        "taken": taken,
        "about": _about(each, called[0] if is_number else name),
        "hazards": hazards,
        "hazards_by": cited(each.get("by", {}).get("hazards", "memory"))["source"] if hazards else "",
    }


def _about(each: Substance, name: str) -> Card:
    """What is known of it, its fields written as on a card."""
    about: Card = {"name": name, "kind": each["kind"]}
    if "form" in each:
        about["form"] = each["form"]
    if "inci" in each:
        about["inci"] = each["inci"]
    if "cas" in each:
        about["cas"] = each["cas"][0]
    if "cautions" in each:
        about["hazards"] = each["cautions"]
    if "density" in each:
        about["density"] = _density(each)
    return about


def _density(each: Substance) -> WrittenDensity:
    """Of a powder from loose to tapped; of what has a range, its middle, and its source names the range."""
    least, most = each["density"]
    by = each.get("by", {}).get("density", "memory")
    source = cited(by)["source"]
    if by in _LOOSE_TO_TAPPED:
        return {"g_per_ml": least, "tapped_g_per_ml": most, "source": source}
    middle = (Fraction(least) + Fraction(most)) / 2
    ranged = say(
        "substances-density-by",
        source=source,
        least=least.replace(".", point()),
        most=most.replace(".", point()),
    )
    return {"g_per_ml": f"{float(middle):.3f}".rstrip("0"), "source": ranged}
