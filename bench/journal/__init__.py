"""The journal: what happened at the bench, and the fold that says where things stand.

A run is a grow-only set of entries. Merge is set union; the fold sorts by (at, device, id), so
order of arrival does not matter, a duplicate is harmless and two phones converge. An undo is an
entry that takes back an earlier one. Nothing that is well-formed is refused because another entry
came first: a step reported done before its needs were done is done. An entry this version does not
understand, or one that speaks of another sheet, is kept and listed as unread.

A `signed` names what it seals: the ids of the entries that its signer had, and their digest. While
it holds, the state is what those and the signing say. Every other entry, whatever its instant, is a
remark with its own time: it takes nothing sealed back, and only undoes among remarks. Of several
signings that were not taken back the first holds. `signed` of earlier versions names nothing; what
it seals is then what stood before it, and the server keeps that set for it (`frozen`), so that
nothing that comes later can stand before it. One whose digest is not that of the entries it names
seals nothing, and is listed as unread.

The fold never raises and never reads a clock. `frontend/bench/journal/` is the same fold.
"""

from bench.journal.amounts import (
    COUNTED,
    carry_up,
    division_of,
    division_on,
    in_reach,
    left_of_mix,
    portion_targets,
)
from bench.journal.folding import fold
from bench.journal.reading import KINDS, check_entry, is_readable
from bench.journal.signing import frozen_seal, of_record, read_of, seal, told_of
from bench.journal.tally import WRAP

__all__ = [
    "COUNTED",
    "KINDS",
    "WRAP",
    "carry_up",
    "check_entry",
    "division_of",
    "division_on",
    "fold",
    "frozen_seal",
    "in_reach",
    "is_readable",
    "left_of_mix",
    "of_record",
    "portion_targets",
    "read_of",
    "seal",
    "told_of",
]
