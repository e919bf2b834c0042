"""The digest: one number over the entries of a run, that anyone can reckon again.

SHA-256 (FIPS 180-4) of the canonical JSON of each entry (sorted keys, no spaces, UTF-8), sorted by
id, each followed by a line feed. One entry changed, added or taken away gives another digest.
DEVELOPERS.md has a one-line command that reckons it from a downloaded record.
"""

import hashlib
from typing import Any

from bench.entries import in_order
from bench.whole import canonical

Json = Any  # until its shape is named


def digest_text(entries: list[Json]) -> str:
    """What the digest is taken of."""
    ordered = sorted(in_order(entries), key=lambda entry: entry["id"])
    return "".join(f"{canonical(entry)}\n" for entry in ordered)


def digest(entries: list[Json]) -> str:
    """The digest, 64 small hexadecimal digits."""
    # Half a character, which no server keeps, must not stop a fold.
    return hashlib.sha256(digest_text(entries).encode("utf-8", "surrogatepass")).hexdigest()
