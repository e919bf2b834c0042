"""Text as it may stand in a log or a terminal: bounded, one line, and printable throughout.

Names, paths and codes come from strangers. What is not plain text in them (control characters, line ends,
marks that turn the direction of writing) is written as an escape. Everything that the commands print goes
out here.
"""

from __future__ import annotations

import sys

import click

LONGEST_FIELD = 300
LONGEST_MESSAGE = 2_000


def shown(text: object, most: int = LONGEST_FIELD) -> str:
    """Text as it may stand in a line of a log or a terminal: bounded, and printable throughout."""
    return escaped(cut(str(text), most))


def cut(text: str, most: int) -> str:
    """The beginning and the end of a text that is too long; a traceback says most at its end."""
    if len(text) <= most:
        return text
    head = most // 3
    return f"{text[:head]}[{len(text) - most} left out]{text[-(most - head) :]}"


def escaped(text: str) -> str:
    r"""`\n`, `\x1b`, `\u202e` for what is not printable, and `\\` for a backslash, so that it can be read back."""
    if text.isprintable() and "\\" not in text:
        return text
    return "".join(each if each.isprintable() and each != "\\" else _escape(each) for each in text)


def _escape(character: str) -> str:
    named = {"\n": r"\n", "\r": r"\r", "\t": r"\t", "\\": r"\\"}.get(character)
    code = ord(character)
    return named or (
        f"\\x{code:02x}" if code < 256 else f"\\u{code:04x}" if code < 65536 else f"\\U{code:08x}"
    )


def say(*lines: object, err: bool = False) -> None:
    """Print lines for whoever sits at the terminal. Each stays one line, whatever is in it."""
    for line in lines:
        click.echo(shown(line, LONGEST_MESSAGE), err=err)


def say_data(text: str) -> None:
    """Print a document as it is. In a terminal, what is not printable in its JSON or text is escaped."""
    if sys.stdout.isatty():
        text = "\n".join(line if line.isprintable() else escaped(line) for line in text.split("\n"))
    click.echo(text)
