"""Writes types/answers.d.ts for the type check of the page: the API's own answers, from api/answers.py.

    python -m tests.frontend.answers           after any change of api/answers.py
    python -m tests.frontend.answers --check   exit 1 when that was forgotten

What the bench says is in bench/shapes/page.d.ts already, and is imported from there.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Annotated, Literal, get_args, get_origin, is_typeddict

from api import answers
from bench.shapes.schema import fields_of
from bench.shapes.write import Shapes

FILE = Path(__file__).resolve().parents[2] / "types" / "answers.d.ts"
JOINT = ",\n  "
HEAD = (
    "// Written by `python -m tests.frontend.answers` from api/answers.py: change that, and write it again.\n"
    "// No page loads this.\n"
)


class Answers(Shapes):
    """The shapes of the bench, by which the API's own are said."""

    def __init__(self) -> None:
        super().__init__()
        self.of_bench = {*self.home, "JsonValue"}
        self.own = {
            key: value
            for key, value in vars(answers).items()
            if (is_typeddict(value) and value.__module__ == answers.__name__)
            or (get_origin(value) is Literal and value not in self.named)
        }
        self.named |= {value: key for key, value in self.own.items()}

    def text(self) -> str:
        told = "\n".join(self._declared(key, value) for key, value in self.own.items())
        for document, field, note in self._notes():
            told = re.sub(
                rf"(export interface {document}\b[^{{]*\{{\n(?:  .*\n)*?)(  readonly {field}\??: )",
                rf"\1  /** {note} */\n\2",
                told,
            )
        code = re.sub(r"/\*\*.*?\*/", "", told)
        used = sorted(name for name in self.of_bench if re.search(rf"(?<![\w.]){name}\b", code))
        return f'{HEAD}\nimport type {{\n  {JOINT.join(used)},\n}} from "../bench/shapes/page";\n\n{told}'

    def _notes(self) -> list[tuple[str, str, str]]:
        """What is said of a field, where it is said beside its type."""
        return [
            (name, field, note)
            for name, document in self.own.items()
            if is_typeddict(document)
            for field, hint, _ in fields_of(document)
            if get_origin(hint) is Annotated and hint not in self.named
            for note in get_args(hint)[1:]
            if isinstance(note, str)
        ]


if __name__ == "__main__":
    text = Answers().text()
    if sys.argv[1:] == ["--check"]:
        sys.exit(FILE.read_text(encoding="utf-8") != text)
    FILE.write_text(text, encoding="utf-8")
