"""A large JSON object read piece by piece, so that the memory it takes is that of its largest piece.

The pieces are the values of its names; of a list among `lists`, each thing in it by itself.
"""

from __future__ import annotations

import codecs
import json
from collections.abc import Iterator, Set
from typing import IO, NamedTuple

from bench import JsonValue, words

AT_ONCE = 1024 * 1024
LARGEST = 64 * 1024 * 1024  # characters of one piece

_SPACE = " \t\n\r"
_AFTER = frozenset(f"{_SPACE},]}}")


class NotJson(ValueError):
    """The file is not JSON in UTF-8; the text says where."""


class NotAnObject(ValueError):
    """The file is JSON, and not an object."""


class Piece(NamedTuple):
    """A value; its name, and its place in the list of that name. `place` -1: the list itself begins."""

    name: str
    place: int | None
    value: JsonValue


def pieces(file: IO[bytes], lists: Set[str] = frozenset()) -> Iterator[Piece]:
    """The pieces of an object, in their order. A name that comes twice is refused."""
    text = _Text(file)
    if text.next() != "{":
        text.value()
        text.end()
        raise NotAnObject
    text.take()
    names: set[str] = set()
    while (mark := text.next()) != "}":
        if names:
            text.expect(",", mark)
            mark = text.next()
        text.expect('"', mark, take=False)
        name = str(text.value())
        if name in names:
            raise NotJson(words.say("api-exchange-not-json-twice", name=repr(name[:40])))
        names.add(name)
        text.expect(":", text.next())
        if name in lists and text.next() == "[":
            yield Piece(name, -1, [])
            text.take()
            place = 0
            while (mark := text.next()) != "]":
                if place:
                    text.expect(",", mark)
                yield Piece(name, place, text.value())
                place += 1
            text.take()
        else:
            yield Piece(name, None, text.value())
    text.take()
    text.end()


class _Text:
    """The file's text, as far as it is needed now."""

    def __init__(self, file: IO[bytes]) -> None:
        self._file = file
        self._utf8 = codecs.getincrementaldecoder("utf-8")()
        self._json = json.JSONDecoder(parse_constant=float)
        self._held, self._at, self._before = "", 0, 0
        self._is_over = False

    def next(self) -> str:
        """The next character that is no space, which stays; "" at the end."""
        while True:
            while self._at < len(self._held):
                if (mark := self._held[self._at]) not in _SPACE:
                    return mark
                self._at += 1
            if not self._more():
                return ""

    def take(self) -> None:
        self._at += 1

    def expect(self, wanted: str, found: str, *, take: bool = True) -> None:
        if found != wanted:
            raise self._wrong()
        if take:
            self.take()

    def value(self) -> JsonValue:
        """The value that begins here."""
        self.next()
        while True:
            try:
                decoded: tuple[JsonValue, int] = self._json.raw_decode(self._held, self._at)
            except json.JSONDecodeError as error:
                if self._more():
                    continue
                raise self._wrong(error.pos) from None
            except ValueError:  # a number of thousands of digits
                raise self._wrong() from None
            value, end = decoded
            long = end - self._at  # reading on lets go of what stands before the value
            # A number may go on in what was not read yet.
            if (end < len(self._held) and self._held[end] in _AFTER | {":"}) or not self._more():
                self._at += long
                return value

    def end(self) -> None:
        if self.next():
            raise self._wrong()

    def _more(self) -> bool:
        """Read on, as much again as there is; whether there was anything."""
        if self._is_over:
            return False
        left = self._held[self._at :]
        if len(left) > LARGEST:
            raise NotJson(words.say("api-exchange-not-json-too-long", most=LARGEST))
        raw = self._file.read(max(AT_ONCE, len(left)))
        self._is_over = not raw
        try:
            text = self._utf8.decode(raw, final=not raw)
        except UnicodeDecodeError:
            raise NotJson(words.say("api-exchange-not-json-utf8")) from None
        self._before += self._at
        self._held, self._at = left + text, 0
        return bool(text) or not self._is_over

    def _wrong(self, at: int | None = None) -> NotJson:
        at = self._before + (self._at if at is None else at) + 1
        return NotJson(words.say("api-exchange-not-json-at", at=at))
