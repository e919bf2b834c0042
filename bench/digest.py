"""The digest: one number over the entries of a run, that anyone can reckon again.

SHA-256 (FIPS 180-4) of the canonical JSON of each entry (sorted keys, no spaces, UTF-8), sorted by
id, each followed by a line feed. One entry changed, added or taken away gives another digest.
DEVELOPERS.md has a one-line command that reckons it from a downloaded record.
"""

import hashlib
from collections.abc import Iterable

from bench.entries import in_order
from bench.whole import canonical


def digest_text(entries: Iterable[object]) -> str:
    """What the digest is taken of."""
    by_id = {entry["id"]: entry for entry in in_order(entries)}
    return "".join(f"{canonical(by_id[key])}\n" for key in sorted(by_id))


def digest(entries: Iterable[object]) -> str:
    """The digest, 64 small hexadecimal digits."""
    # Half a character, which no server keeps, must not stop a fold.
    return hashlib.sha256(digest_text(entries).encode("utf-8", "surrogatepass")).hexdigest()
