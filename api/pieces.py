"""What the page is sent as: its files, but for modules and styles, which are joined.

A browser that opens the page asks for index.html, one module and one style sheet, instead of a hundred
files: `app.js` comes with all that it imports, `rest.js` holds all that is asked for later and takes from
`app.js` what it needs of that, so that each module is there once. What is for the desk with a connection
(frontend/connected.js) comes as `online.js` and style/online.css, of which the worker keeps nothing. All say the version
of all modules, and a piece of another version than the page's refuses to run. A style sheet comes with those that it
imports. The worker (frontend/sw.js) is told the names of all pieces, and a version that is the hash of them. Each has
the words that its own modules name, in one language (api/page_words.py); what is the same whenever it is said stands
where it is said.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Callable, Iterable
from functools import cache, cached_property
from hashlib import sha256
from pathlib import Path

from api import join, page_words
from api.dense import Unread, dense
from bench import words

INDEX, APP, REST, ONLINE = "index.html", "app.js", "rest.js", "online.js"
# What only this module asks for is for the desk with a connection.
CONNECTED = "connected.js"
ONLINE_STYLE = "style/online.css"
STYLES = ("style/first.css", "style/later.css", ONLINE_STYLE)
# The browser itself sees to the newest worker; it is not part of the copy it keeps.
WORKER = "sw.js"
# What is made of several files, or of what is known of all of them.
MADE = (APP, REST, ONLINE, *STYLES, WORKER)

# Icons that a phone's own system asks for when the page is put on its home screen, and never again.
OF_THE_SYSTEM = ".png"
IMPORTED_STYLE = re.compile(r'@import "([^"/]+)";')

# What a piece has before its modules that asks for another one. Once that failed to come it is asked for under another
# address, for some browsers remember a failure for as long as the page stands.
ASKING = """let $asked = null;
let $times = 0;
const NAME = (name) =>
($asked ??= import("./FILE" + ($times++ ? "?" + $times : ""))THEN.catch((error) => {
$asked = null;
throw error;
})).then((all) => all[name]);
"""
TAKING = """import { $version, NAMES } from "./app.js";
if ($version !== VERSION) throw Object.assign(new Error("rest.js is of another version"), { isOtherVersion: true });
"""


def listed(folder: Path) -> list[str]:
    """Every file of the page, as its path under the folder, in order."""
    found: list[str] = []
    for at, folders, files in os.walk(folder):  # asked at every request: some milliseconds less than by paths
        folders[:] = [each for each in folders if not each.startswith(".")]
        below = Path(at).relative_to(folder).as_posix()
        found += [each if below == "." else f"{below}/{each}" for each in files if not each.startswith(".")]
    return sorted(found)


class Pieces:
    """What is sent of the page in a folder as it lies there now: `names`, but for the worker, and `content` of each."""

    def __init__(self, folder: Path, files: Iterable[str], slim: Callable[[Path], bytes]) -> None:
        def read(path: str) -> str:
            text = slim(folder / path).decode("utf-8")
            if not path.endswith(".js") or path in (page_words.FILE, WORKER):
                return text
            try:
                text = dense(text)
            except Unread:  # sent as it is: a browser says what is wrong, and where
                pass
            return page_words.put_in(text)

        self._folder, self._slim, self._read = folder, slim, cache(read)
        self.first = join.in_order(self._read, [APP])
        self.later = join.asked_later(self._read, self.first, CONNECTED)
        self.online = join.asked_later(self._read, [*self.first, *self.later])
        joined = {
            *self.first,
            *self.later,
            *self.online,
            *(file for sheet in STYLES for file in self.styles_of(sheet)),
            ONLINE_STYLE,
            WORKER,
        }
        whole = (file for file in files if file not in joined and not file.endswith(OF_THE_SYSTEM))
        self.names = sorted({APP, REST, *whole})  # what the worker keeps
        self._short = join.short_names(files)
        self.content = cache(self._content)

    def _content(self, name: str) -> bytes:
        made = {
            APP: self._app,
            REST: self._rest,
            ONLINE: self._online,
            WORKER: self._worker,
        }
        if name in STYLES:
            return "".join(map(self._read, self.styles_of(name))).encode("utf-8")
        if name not in made:
            return self._slim(self._folder / name)
        return join.with_short_names(made[name](), self._short).encode("utf-8")

    def styles_of(self, sheet: str) -> list[str]:
        """The sheets that one imports, which holds nothing else."""
        return [f"style/{named}" for named in IMPORTED_STYLE.findall(self._read(sheet))]

    @cached_property
    def version(self) -> str:
        """The same hash as hashOf in sw.js."""
        return _hash(f"{name}\0{sha256(self.content(name)).hexdigest()}\n" for name in self.names)

    @cached_property
    def _modules(self) -> tuple[list[str], str]:
        """What the page opens with, the rest, what is not kept for offline, and the version of them all."""
        known = {*self.first, *self.later}
        first = join.joined(self._worded, self.first, self.first, lambda name: f'$rest("{name}")')
        rest = join.joined(self._read, self.later, known, lambda name: f'$online("{name}")')
        online = join.joined(self._read, self.online, {*known, *self.online}, str)
        pieces = page_words.shortened(
            first,
            self._words_of(self.later, self.first) + rest,
            self._words_of(self.online, [*self.first, *self.later]) + online,
        )
        return pieces, json.dumps(_hash(pieces))

    def _worded(self, path: str) -> str:
        """A module's source; words.js with the words of what the page opens with."""
        source = self._read(path)
        return page_words.worded(source, self._naming(self.first)) if path == page_words.FILE else source

    def _naming(self, modules: Iterable[str]) -> Iterable[str]:
        """The sources that name messages: words.js itself holds those of all."""
        return (self._read(path) for path in modules if path != page_words.FILE)

    def _words_of(self, modules: list[str], before: list[str]) -> str:
        """What gives words.js the words that these modules alone need, before any of them runs."""
        if page_words.FILE not in self.first:
            return ""
        there = page_words.messages(self._naming(before))
        more = page_words.messages(self._naming(modules))
        told = page_words.as_json({key: value for key, value in more.items() if key not in there})
        return f"{join.name_of(page_words.FILE)}.learn({told});\n"

    def _app(self) -> str:
        (first, *_), version = self._modules
        return f"export const $version = {version};\n{_asking('$rest', REST)}{first}"

    def _rest(self) -> str:
        (_, rest, online), version = self._modules
        given = _used(self.later, online)
        then = f".then((all) => all.$online({{ {given} }}))"
        return _taking(version, _used(self.first, rest)) + _asking("$online", ONLINE, then) + rest

    def _online(self) -> str:
        """It is given what it needs of the rest: asked for by itself, that could be here twice."""
        (_, _, online), version = self._modules
        names = ", ".join(map(join.name_of, self.online))
        online = re.sub(r"^export (?=const \$)", "", online, flags=re.MULTILINE)
        given = _used(self.later, online)
        head = _taking(version, _used(self.first, online))
        # In brackets: a function that is called at once is read once, and not looked over first.
        return f"{head}export const $online = (({{ {given} }}) => {{\n{online}return {{ {names} }};\n}});\n"

    def _worker(self) -> str:
        """The worker's source with the version of the page, its language and the names of its pieces in it."""
        source = self._read(WORKER)
        given = (
            ("VERSION", '""', self.version),
            ("LANGUAGE", '""', words.spoken()),
            ("PIECES", "[]", self.names),
        )
        for name, empty, value in given:
            before, place, after = source.partition(f"const {name} = {empty};")
            if not place:
                raise ValueError(f"{WORKER}: no place for {name}")
            source = f"{before}const {name} = {json.dumps(value)};{after}"
        return source


def _asking(name: str, file: str, then: str = "") -> str:
    return ASKING.replace("NAME", name).replace("FILE", file).replace("THEN", then)


def _taking(version: str, names: str) -> str:
    return TAKING.replace("VERSION", version).replace("NAMES", names)


def _used(modules: Iterable[str], text: str) -> str:
    """Which of these modules a piece uses, by their names in it."""
    used = {*join.CALLED.findall(text)}
    return ", ".join(name for name in map(join.name_of, modules) if name in used)


def _hash(texts: Iterable[str]) -> str:
    return sha256("".join(texts).encode()).hexdigest()[:12]
