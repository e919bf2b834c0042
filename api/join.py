"""Joins modules of the page into one, so that a browser asks for one file instead of seventy.

Each module is wrapped once, in the order in which a browser would run them, and stands under a name made of its
path; what it exports is an object, and an import takes that apart:

    import { newId } from "./ids.js";            const $keep_store = (() => {
    export class Store {}                        const { newId } = $keep_ids;
                                                 class Store {}
                                                 return { Store };
                                                 })();

The page's source stays plain modules, and this reads them line by line: an import or export begins a line, as the
formatter leaves it. What would not mean the same when joined is refused, and `tests/api/test_join.py` asks all of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Mapping
from itertools import chain
from posixpath import dirname, join, normpath

Read = Callable[[str], str]  # a module's source, by its path

FROM = r'from "(\.[^"]+)";\n'
NAMED = re.compile(rf"^import \{{([^}}]*)\}} {FROM}", re.MULTILINE)
WHOLE = re.compile(rf"^import \* as (\w+) {FROM}", re.MULTILINE)
RUN = re.compile(r'^import "(?:\.[^"]+)";\n', re.MULTILINE)
PASSED = re.compile(rf"^export \{{([^}}]*)\}} {FROM}", re.MULTILINE)
PASSED_ALL = re.compile(rf"^export \* {FROM}", re.MULTILINE)
GIVEN = re.compile(r"^export \{([^}]*)\};\n", re.MULTILINE)
# All of these: what a browser runs before the module itself.
BEFORE = re.compile(r'^(?:import|export) (?:(?:\{[^}]*\}|\*|\* as \w+) from )?"(\.[^"]+)";$', re.MULTILINE)
# A star has no space behind it in fewer bytes.
DEFINING = r"(?:const |class |(?:async )?function(?: |\* ?))"
DEFINED = re.compile(rf"^export (?={DEFINING}(\w+))", re.MULTILINE)
LATER = re.compile(r'\bimport\("(\.[^"]+)"\)')
CALLED = re.compile(r"\$\w+")
ITSELF = "import.meta.url"
# What is left when all of that is joined: a default, a name that may be given to more later, a module without a path.
REFUSED = re.compile(r"^(?:import|export)\b.*|\bimport(?:\.|\().*", re.MULTILINE)


class CannotJoin(ValueError):
    """A module that would not mean the same when it is joined with others."""


def name_of(path: str) -> str:
    return "$" + re.sub(r"\W", "_", path.removesuffix(".js"))


def short_names(files: Iterable[str]) -> dict[str, str]:
    """Of the modules among all files of the page: what each is called as it is sent, by the name of its path.

    A number, which nothing within a module is called.
    """
    modules = sorted(each for each in files if each.endswith(".js"))
    return {name_of(path): f"${number}" for number, path in enumerate(modules)}


def with_short_names(text: str, short: Mapping[str, str]) -> str:
    """A piece, or a script, that says each module by its short name."""
    return CALLED.sub(lambda found: short.get(found[0], found[0]), text)


def path_from(path: str, named: str) -> str:
    """The path of a module that another one names."""
    return normpath(join(dirname(path), named))


def imports_of(read: Read, path: str) -> list[str]:
    """What must run before a module does."""
    return [path_from(path, named) for named in BEFORE.findall(read(path))]


def later_of(read: Read, path: str) -> list[str]:
    """What a module asks for when it is first used."""
    return [path_from(path, named) for named in LATER.findall(read(path))]


def in_order(read: Read, first: Iterable[str], without: Collection[str] = ()) -> list[str]:
    """These modules and all that they import, each after what it imports: the order in which a browser runs them."""
    order: list[str] = []

    def add(path: str, on_the_way: tuple[str, ...]) -> None:
        if path in on_the_way:
            raise CannotJoin(f"modules import each other in a circle: {' > '.join([*on_the_way, path])}")
        if path in order or path in without:
            return
        for other in imports_of(read, path):
            add(other, (*on_the_way, path))
        order.append(path)

    for path in first:
        add(path, ())
    return order


def asked_later(read: Read, modules: Iterable[str], but: str = "") -> list[str]:
    """All else that is ever asked for: by these modules, and by what they ask for; but for what one asks for."""
    before = list(modules)
    found: list[str] = []
    waiting = [*before]
    while waiting:
        roots = [path for module in waiting if module != but for path in later_of(read, module)]
        waiting = in_order(read, sorted(set(roots)), {*before, *found})
        found += waiting
    return found


def joined(read: Read, modules: Iterable[str], here: Collection[str], ask: Callable[[str], str]) -> str:
    """The modules in one text.

    @param here what is here when one of them asks for it later; of the rest, `ask` says how it is had
    """

    def later(name: str, path: str) -> str:
        return f"Promise.resolve({name})" if path in here else ask(name)

    return "".join(
        f"export const {name_of(path)}=(()=>{{{_body(read(path), path, later)}}})();\n" for path in modules
    )


def _body(text: str, path: str, later: Callable[[str, str], str]) -> str:
    def other(named: str) -> str:
        return name_of(path_from(path, named))

    def ask(found: re.Match[str]) -> str:
        return later(other(found[1]), path_from(path, found[1]))

    given = [f"...{other(named)}" for named in PASSED_ALL.findall(text)]
    for names, named in PASSED.findall(text):
        given += [f"{new}:{other(named)}.{old}" for old, new in _renamed(names)]
    for old, new in chain.from_iterable(map(_renamed, GIVEN.findall(text))):
        if not re.search(rf"^{DEFINING}{re.escape(old)}\b", text, re.MULTILINE):
            raise CannotJoin(f"{path} cannot be joined with others: export {{ {old} }}")
        given.append(_under(old, new))
    given += DEFINED.findall(text)
    text = NAMED.sub(lambda found: f"const{{{_taken(found[1])}}}={other(found[2])};\n", text)
    text = WHOLE.sub(lambda found: f"const {found[1]}={other(found[2])};\n", text)
    for gone in (RUN, PASSED, PASSED_ALL, GIVEN, DEFINED):
        text = gone.sub("", text)
    text = LATER.sub(ask, text)
    if left := REFUSED.search(text.replace(ITSELF, "")):
        raise CannotJoin(f"{path} cannot be joined with others: {left[0]}")
    text = text.replace(ITSELF, f'new URL("{path}", {ITSELF}).href')  # the piece lies at the root
    return f"{text}return{{{','.join(given)}}};\n"


def _renamed(names: str) -> list[tuple[str, str]]:
    """Names between braces, each as (name there, name here)."""
    pairs = [each.split(" as ") for each in re.split(r"\s*,\s*", names.strip().rstrip(",")) if each]
    return [(pair[0].strip(), pair[-1].strip()) for pair in pairs]


def _taken(names: str) -> str:
    return ",".join(_under(new, old) for old, new in _renamed(names))


def _under(name: str, key: str) -> str:
    return name if name == key else f"{key}:{name}"
