"""What a JPEG of a picture and nothing else is made of."""

from __future__ import annotations

import re

from bench import words

# Markers of ITU-T T.81, Table B.1. Those that stand alone, without a length and content:
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})
_FRAMES = frozenset({*range(0xC0, 0xD0)}) - {0xC4, 0xC8, 0xCC}
_START, _END, _SCAN = 0xD8, 0xD9, 0xDA
# What a picture needs to be shown: APP0 (JFIF), a colour profile, Adobe's word on its colours.
_KNOWN = {0xE0: (b"JFIF\0",), 0xE2: (b"ICC_PROFILE\0",), 0xEE: (b"Adobe",)}
_BESIDE = frozenset({*range(0xE0, 0xF0), 0xFE})
_MARKER = re.compile(rb"\xff++[^\x00\xff\xd0-\xd7]")
# In the picture's own bytes. It has no repetition to try again: each byte is looked at twice at the most.
_MARKER_AHEAD = re.compile(rb"\xff[^\x00\xff\xd0-\xd7]")
MAX_PIXELS = 50_000_000  # a phone that shows it holds four bytes a pixel


def fault_in(content: bytes) -> str | None:
    """Why this is no JPEG of a picture and nothing else; None when it is."""
    broken = words.say("api-pictures-broken")
    if not content.startswith(bytes((0xFF, _START, 0xFF))):
        return broken
    at, has_frame, has_scan = 2, False, False
    while at < len(content):
        found = _MARKER_AHEAD.search(content, at) if has_scan else _MARKER.match(content, at)
        if found is None:
            return broken
        marker, at = content[found.end() - 1], found.end()
        if marker == _END:
            if at != len(content):
                return words.say("api-pictures-more-after")
            return None if has_frame and has_scan else broken
        if marker in _ALONE or marker == _START:
            return broken
        length = int.from_bytes(content[at : at + 2], "big")
        segment = content[at + 2 : at + length]
        if length < 2 or len(segment) != length - 2:
            return broken
        if marker in _BESIDE and not segment.startswith(_KNOWN.get(marker, ())):
            return words.say("api-pictures-more-beside")
        if marker in _FRAMES:
            # B.2.2: its precision in one byte, then its lines and the samples of a line in two each.
            high, wide = int.from_bytes(segment[1:3], "big"), int.from_bytes(segment[3:5], "big")
            if not high or not wide:
                return broken
            if high * wide > MAX_PIXELS:
                return words.say("api-pictures-too-many-pixels", wide=f"{wide}", high=f"{high}")
            has_frame = True
        has_scan = has_scan or marker == _SCAN
        at += length
    return broken
