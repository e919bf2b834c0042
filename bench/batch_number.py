"""Batch numbers of the maker's own pattern, unique over devices that cannot hear each other.

A pattern is text with {yyyy}, {yy}, {mm}, {dd} (the day), {recipe} (a short code of its title),
{mark} (one to four capitals that stand for one device) and {n} (that device's own count, 1, 2, 3...).
A device never has one n twice, so a number is unique wherever mark and n can be read back from it: both
must stand in the pattern, and {recipe}, whose length varies, must be parted from what it stands beside.

Devices that cannot hear each other cannot agree on marks, so a mark is drawn from the chance in a device's
id: two devices have one in 456 976 (26 to the fourth) to share it, ten have one in 10 155 that any two do,
and only batches of the same day and count would then have one number. Should it happen, nothing is lost or
renamed: a run is known by its id, the record of each such batch names the others, and the maker may give one
another number beside its own (`numbered`).
"""

import re

from bench.errors import SettingError
from bench.lists import every, group
from bench.words import say

PATTERN = "{yy}{mm}{dd}-{mark}{n}"
TOKENS = ("yyyy", "yy", "mm", "dd", "mark", "n", "recipe")

_TOKEN = re.compile(r"\{([^{}]*)\}")
_BETWEEN = re.compile(r"[A-Za-z0-9 ./#_\-]*")
_PARTED = re.compile(r"[ ./#_\-]")
_BESIDE = re.compile(r"(.?)\{recipe\}(.?)")
_WORD = re.compile(r"[A-Za-z0-9]+")
_MARK = re.compile(r"[A-Z]{1,4}")
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")


def check_pattern(pattern: str) -> None:
    """Raise SettingError, with the way out, when numbers by this pattern could be given twice."""
    if not 1 <= len(pattern) <= 60:
        raise SettingError("batch_number", say("batch-number-length"))
    named = every(_TOKEN, pattern, 1)
    for name in named:
        if name not in TOKENS:
            could = ", ".join(f"{{{token}}}" for token in TOKENS)
            raise SettingError(
                "batch_number", say("batch-number-unknown", written=f"{{{name[:20]}}}", could=could)
            )
    if not _BETWEEN.fullmatch(_TOKEN.sub("", pattern)):
        raise SettingError("batch_number", say("batch-number-characters"))
    for needed in ("mark", "n"):
        if needed not in named:
            raise SettingError("batch_number", say("batch-number-needed", token=f"{{{needed}}}"))
    for beside in _BESIDE.finditer(pattern):
        if not all(_PARTED.fullmatch(group(beside, side) or " ") for side in (1, 2)):
            raise SettingError("batch_number", say("batch-number-beside", token="{recipe}"))


def recipe_code(title: str) -> str:
    """The first letters of a title's words, eight at most: "Two-layer soap bars" is "TLSB"."""
    words = every(_WORD, title)
    return "".join(word[0] for word in words).upper()[:8] or "R"


def batch_number(pattern: str, on: str, mark: str, n: int, title: str) -> str:
    """The number of one batch. on: the maker's day, "2026-11-25"; mark and n: see above.

    SettingError when the pattern, the mark, the day or the count will not do.
    """
    check_pattern(pattern)
    day = _DAY.fullmatch(on)
    if not day:
        raise SettingError("on", say("batch-number-day", written=on[:20]))
    if not _MARK.fullmatch(mark):
        raise SettingError("mark", say("batch-number-mark"))
    if n < 1:
        raise SettingError("n", say("batch-number-count"))
    year, month, date = (group(day, part) for part in (1, 2, 3))
    values = {
        "yyyy": year,
        "yy": year[2:],
        "mm": month,
        "dd": date,
        "mark": mark,
        "n": str(n),
        "recipe": recipe_code(title),
    }
    return _TOKEN.sub(lambda found: values[group(found, 1)], pattern)
