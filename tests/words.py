"""What code says of the catalogues: which keys it names, with which arguments, and what it says past them.

python -m tests.words           the files that sentences of ours still stand in
python -m tests.words --write   takes out of tests/words_not_moved.txt what was moved since
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple, TypeGuard

ROOT = Path(__file__).resolve().parents[1]
NOT_MOVED = ROOT / "tests" / "words_not_moved.txt"
PYTHON = sorted(
    path
    for package in ("bench", "api")
    for path in (ROOT / package).rglob("*.py")
    if not path.is_relative_to(ROOT / "bench" / "words") and "migrations" not in path.parts
)
SCRIPTS = sorted(path for path in (ROOT / "frontend").rglob("*.js") if path.name != "words.js")

KEY = re.compile(r"[a-z]+(?:-[a-z0-9]+)+")
BEGINNING = re.compile(r"[a-z]+(?:-[a-z0-9]+)*-")
# Three words in a row, or two of which the first has a capital or the last a stop.
SENTENCE = re.compile(
    r"(?:[^\W\d_][\w’']+[,:;]? ){2}[^\W\d_]{2,}|\b[A-Z][a-z’']+ [a-z’']{2,}|[a-z]{2,} [a-z’']{2,}[.?!]$"
)
# A pattern by which what is typed is read: nobody is told it.
PATTERN = re.compile(r"\w\|\w|\(\?[:!=]")
# A statement of SQL or a piece of one: its first word, a word that only SQL has, a list of columns, a remark. Or a
# header of HTTP, which is no language of people's either.
STATEMENT = re.compile(
    r"\s*\(?(SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|PRAGMA|WITH|BEGIN|SET|LOCK|NOTIFY|FOR NO KEY)\b"
    r"|.*\b(WHERE|ORDER BY)\b"
    r"|(?=.*_)[a-z0-9_]+(, [a-z0-9_]+)+\Z"
    r"|\s*/[*/]"
    r"|[A-Z]\w+ [a-z]+=\""
)
# Where documentation of the API, the schemas and the metrics stands: in English, whoever asks. It is the value of a
# keyword or a key of one of these names, or what follows the type in `Annotated[…]`. And names within a document,
# which are its maker's to change and the same for all who read it.
DOCUMENTATION = {"description", "documentation", "name"}
SCRIPT = re.compile(r"^(import|export|const) .*;$", re.MULTILINE)  # a script within a module of Python
FAULTS_OF_OURS = {
    "ValueError",
    "TypeError",
    "KeyError",
    "LookupError",
    "RuntimeError",
    "NotImplementedError",
    "AssertionError",
    "CannotJoin",
    "CatalogueError",
    "Unread",
}


class Call(NamedTuple):
    """One call of `say`. keys: by their whole names; beginning: of those that a code ends; "" where there is none.

    arguments: None where they cannot be told from the source.
    """

    where: str
    keys: frozenset[str]
    beginning: str
    arguments: frozenset[str] | None


class Named(NamedTuple):
    """What a file names: whole keys (whatever looks like one), and beginnings."""

    keys: set[str]
    beginnings: set[str]


def shown(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


# Python


@cache
def _nodes(path: Path) -> list[ast.AST]:
    return list(ast.walk(ast.parse(path.read_text("utf-8"))))


def python_calls(path: Path) -> Iterator[Call]:
    for node in _nodes(path):
        if isinstance(node, ast.Call) and _says(node.func, path):
            keys, beginning = _keys(node.args[0])
            names = {each.arg for each in node.keywords}
            arguments = None if None in names else frozenset(name for name in names if name)
            yield Call(f"{shown(path)}:{node.lineno}", frozenset(keys), beginning, arguments)


def _says(func: ast.expr, path: Path) -> bool:
    """`say` in bench; in api, where another `say` prints, `words.say`."""
    if isinstance(func, ast.Name):
        return func.id == "say" and path.is_relative_to(ROOT / "bench")
    return isinstance(func, ast.Attribute) and func.attr == "say" and ast.unparse(func.value) == "words"


def _keys(given: ast.expr) -> tuple[set[str], str]:
    match given:
        case ast.Constant(value=str(key)):
            return {key}, ""
        case ast.JoinedStr(values=[ast.Constant(value=str(beginning)), *_]):
            return set(), beginning
        case ast.IfExp(body=ast.Constant(value=str(one)), orelse=ast.Constant(value=str(other))):
            return {one, other}, ""
    return set(), ""


def python_named(path: Path) -> Named:
    texts = {n.value for n in _nodes(path) if isinstance(n, ast.Constant) and isinstance(n.value, str)}
    joined = (n.values[0] for n in _nodes(path) if isinstance(n, ast.JoinedStr) and n.values)
    starts = {n.value for n in joined if isinstance(n, ast.Constant) and isinstance(n.value, str)}
    return Named(
        {text for text in texts if KEY.fullmatch(text)}, {s for s in starts if BEGINNING.fullmatch(s)}
    )


def python_sentences(path: Path) -> Iterator[str]:
    """Text in code that looks like a sentence of ours: not a note to the reader, documentation, a statement of SQL,
    a fault of the code, or a line for the log."""
    passed_over: set[int] = set()
    for node in _nodes(path):
        for each in _documentation(node):
            passed_over.update(id(within) for within in ast.walk(each))
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            passed_over.add(id(node.value))
        elif isinstance(node, ast.Call) and _is_of_ours(node.func):
            passed_over.update(id(each) for each in ast.walk(node))
        elif isinstance(node, ast.Assert) and node.msg:
            passed_over.update(id(each) for each in ast.walk(node.msg))
        elif isinstance(node, ast.JoinedStr) and id(node) not in passed_over:
            parts = [each.value if isinstance(each, ast.Constant) else "8" for each in node.values]
            passed_over.update(id(each) for each in node.values)
            text = "".join(map(str, parts))
            if _is_sentence(text):
                yield f"{shown(path)}:{node.lineno}: {text}"
    for node in _nodes(path):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in passed_over:
            if _is_sentence(node.value):
                yield f"{shown(path)}:{node.lineno}: {node.value}"


def _documentation(node: ast.AST) -> list[ast.expr]:
    match node:
        case ast.keyword(arg=str(name), value=value) if name in DOCUMENTATION - {"name"}:
            return [value]
        case ast.Dict(keys=keys, values=values):
            named = zip(keys, values, strict=True)
            of_a_schema = {"title"} if any(_is_text(key, "$schema") for key in keys) else set()
            return [each for key, each in named if _is_text(key, *DOCUMENTATION, *of_a_schema)]
        case ast.Subscript(value=ast.Name(id="Annotated"), slice=ast.Tuple(elts=[_, *notes])):
            return notes
    return []


def _is_any_text(node: ast.AST) -> TypeGuard[ast.Constant]:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _is_text(node: ast.expr | None, *texts: str) -> bool:
    return isinstance(node, ast.Constant) and node.value in texts


def _is_of_ours(func: ast.expr) -> bool:
    if isinstance(func, ast.Attribute):
        return func.attr in {
            "debug",
            "info",
            "warning",
            "error",
            "critical",
            "exception",
            "compile",
            "OperationalError",
        }
    return isinstance(func, ast.Name) and func.id in FAULTS_OF_OURS


def _is_sentence(text: str) -> bool:
    if text in _codes():
        return False
    return (
        bool(SENTENCE.search(text))
        and not any(unsaid.search(text) for unsaid in (PATTERN, SCRIPT))
        and not STATEMENT.match(text)
    )


@cache
def _codes() -> frozenset[str]:
    """Codes that the shapes name: each stands for itself in what is kept, whatever is said of it."""
    named: set[str] = set()
    for path in (ROOT / "bench" / "shapes").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Subscript) and ast.unparse(node.value) == "Literal":
                named.update(each.value for each in ast.walk(node.slice) if _is_any_text(each))
    return frozenset(named)


# JavaScript

TOKEN = re.compile(
    r"//[^\n]*|/\*.*?\*/"  # remarks
    r"|\"(?:[^\"\\\n]|\\.)*\"|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`"  # text; no template holds another with text
    r"|/(?![/*\s])(?:[^/\\\n\[]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/[a-z]*(?=[.,;)\s\]])",  # patterns
    re.DOTALL,
)


def _texts(source: str) -> list[tuple[int, str]]:
    """Where each text in quotes stands, with its quotes."""
    found = ((match.start(), match[0]) for match in TOKEN.finditer(source))
    return [(at, text) for at, text in found if text[0] in "\"'`"]


def script_named(path: Path) -> Named:
    texts = [text for _, text in _texts(path.read_text("utf-8"))]
    starts = {text[1:].partition("${")[0] for text in texts if text[0] == "`" and "${" in text}
    return Named(
        {text[1:-1] for text in texts if KEY.fullmatch(text[1:-1])},
        {s for s in starts if BEGINNING.fullmatch(s)},
    )


def script_calls(path: Path) -> Iterator[Call]:
    source = path.read_text("utf-8")
    if not re.search(r"import \{[^}]*\bsay\b[^}]*\} from \"[./]*/words\.js\"", source):
        return
    for match in re.finditer(r"(?<![.\w#])say\(", source):
        given = _arguments(source, match.end())
        texts = [text[1:-1] for _, text in _texts(given[0])]
        beginning = texts[0].partition("${")[0] if given[0].startswith("`") else ""
        line = source.count("\n", 0, match.start()) + 1
        keys = set() if beginning else {text for text in texts if KEY.fullmatch(text)}
        yield Call(f"{shown(path)}:{line}", frozenset(keys), beginning, _names(given[1:]))


def _arguments(source: str, start: int) -> list[str]:
    """What stands between the brackets that open before `start`, parted at its commas."""
    parts, depth, at, begun = [], 0, start, start
    while depth >= 0:
        if text := TOKEN.match(source, at):
            at = text.end()
            continue
        sign = source[at]
        depth += (sign in "([{") - (sign in ")]}")
        if depth < 0 or (sign == "," and depth == 0):
            parts.append(source[begun:at].strip())
            begun = at + 1
        at += 1
    return [part for part in parts if part]


def _names(given: list[str]) -> frozenset[str] | None:
    if not given:
        return frozenset()
    if not given[0].startswith("{"):
        return None
    fields = _arguments(given[0], 1)
    if any(field.startswith("...") for field in fields):
        return None
    return frozenset(re.split(r"\W", field, maxsplit=1)[0] for field in fields)


def script_sentences(path: Path) -> Iterator[str]:
    source = path.read_text("utf-8")
    for at, text in _texts(source):
        before = source[source.rfind("\n", 0, at) + 1 : at]
        if re.search(r"(throw new Error|new Error|console\.\w+|@import [^\n]*|import [^\n]*)\($", before):
            continue
        if re.search(r'\bclass(?:: |", )[^,{}\n]*$', before):  # names of styles
            continue
        if _is_sentence(re.sub(r"\$\{[^}]*\}", "8", text[1:-1])):
            yield f"{shown(path)}:{before.count(chr(10)) + 1}: {text}"


# Both


@cache
def calls() -> list[Call]:
    return [
        *(call for path in PYTHON for call in python_calls(path)),
        *(call for path in SCRIPTS for call in script_calls(path)),
    ]


@cache
def named() -> Named:
    files = [*map(python_named, PYTHON), *map(script_named, SCRIPTS)]
    return Named(
        set().union(*(each.keys for each in files)), set().union(*(each.beginnings for each in files))
    )


def sentences(path: Path) -> list[str]:
    return list(python_sentences(path) if path.suffix == ".py" else script_sentences(path))


def not_moved() -> set[str]:
    return {line for line in NOT_MOVED.read_text("utf-8").splitlines() if line}


def main() -> None:
    found = {shown(path): sentences(path) for path in [*PYTHON, *SCRIPTS]}
    left = sorted(file for file, texts in found.items() if texts)
    if "--write" in sys.argv:
        kept = [file for file in left if not NOT_MOVED.exists() or file in not_moved()]
        NOT_MOVED.write_text("".join(f"{file}\n" for file in kept), "utf-8")
    wanted = [argument for argument in sys.argv[1:] if not argument.startswith("-")]
    for file in left:
        print(f"{len(found[file]):4d}  {file}")
        if file in wanted:
            print(*(f"      {text}" for text in found[file]), sep="\n")
    print(f"{sum(map(len, found.values())):4d}  in {len(left)} files")


if __name__ == "__main__":
    main()
