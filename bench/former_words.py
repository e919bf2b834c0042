"""What was said in words of ours where today a code stands: in recipes measured, and sheets made, by earlier versions.

They are kept as they are, in English; each text is known by the beginning of its SHA-256, so that it is known
whatever is said in its place today (tests/bench/test_former_words.py has the texts).
"""

from hashlib import sha256

CODES = {
    "6acea178": "hot_soap",
    "926e26d9": "hot_fat",
    "77771e8b": "powder",
    "451477a5": "alcohol",
    "7451e3aa": "wet_sockets",
    "e4f1eac9": "superheated",
    "032fc58d": "mixer",
    "dc8ade70": "slippery",
    "179df008": "melted_base",
    "be24d3d1": "warm_fat",
    "f2aa175f": "wetted_fizz",
    "b3879f90": "whipped_base",
    "0d3d5748": "beaten_topping",
    "c9d1f6df": "piped_top",
    "df769ea2": "first_layer",
    "d768672d": "unwrapped",
    "0eab31ff": "too_wet",
    "781e36b9": "yes",
    "a4c3ed04": "done",
    "dc909f70": "instead_of",
}
_LENGTH = 8


def coded(text: str) -> str:
    """The code that stands today where this text did: a hazard, a state by its stake, "too_wet", "yes", "done",
    "instead_of" before a name; else ""."""
    return CODES.get(sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:_LENGTH], "") if text else ""
