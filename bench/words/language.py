"""One language: its catalogue, its decimal sign, its plurals.

A room's file is read when the first of its messages is said, so that a command that says little starts at once.
"""

from collections.abc import Callable, Mapping
from functools import cached_property
from importlib.resources import files

from bench.lists import kept
from bench.words.catalogue import CatalogueError, Entry, Pattern, Said, made, pattern_of, read

DEFAULT = "en"
TERMS = "terms"  # the file of what every room may refer to
ENDING = ".ftl"


class Language:
    """tag: as in BCP 47. sources: the text of each room's file."""

    def __init__(self, tag: str, sources: Mapping[str, str]) -> None:
        self.tag = tag
        self.sources = sources
        self.messages = _Messages(self)
        self._entries: dict[str, Entry] = {}
        self._read: set[str] = set()

    @cached_property
    def point(self) -> str:
        from babel.numbers import get_decimal_symbol

        return get_decimal_symbol(self.tag)

    @cached_property
    def plural(self) -> Callable[[int], str]:
        """The plural of a count, by CLDR: "one", "other"."""
        from babel import Locale

        return Locale.parse(self.tag).plural_form

    def weekday(self, place: int) -> str:
        """A day of the week in full, 0 the first: "Monday"."""
        from babel.dates import get_day_names

        name: str = get_day_names("wide", context="stand-alone", locale=self.tag)[place]
        return name

    def room_of(self, key: str) -> str:
        """The file that a message stands in: the longest name of one that the key begins with."""
        words = key.split("-")
        names = ("-".join(words[:length]) for length in range(len(words) - 1, 0, -1))
        found = next((name for name in names if name in self.sources), None)
        if found is None:
            raise CatalogueError(f"{self.tag}: there is no room for {key}")
        return found

    def keys(self) -> set[str]:
        """Every message there is."""
        for room in self.sources:
            self._open(room)
        return {key for key in self._entries if not key.startswith("-")}

    def has(self, key: str) -> bool:
        self._open(self.room_of(key))
        return key in self._entries

    def pattern(self, key: str) -> Pattern:
        """A message as parts (see catalogue)."""
        return pattern_of(key, self._entry)

    def _entry(self, key: str) -> Entry:
        self._open(TERMS if key.startswith("-") else self.room_of(key))
        if key not in self._entries:
            raise CatalogueError(f"{self.tag}: there is no message {key}")
        return self._entries[key]

    def _open(self, room: str) -> None:
        if room not in self._read:
            self._entries.update(read(self.sources.get(room, ""), f"{self.tag}/{room}{ENDING}"))
            self._read.add(room)


class _Messages(dict[str, Said]):
    """What says each message, made when it is first said."""

    def __init__(self, language: Language) -> None:
        self._language = language

    def __missing__(self, key: str) -> Said:
        self[key] = said = made(self._language.pattern(key), self._language.plural)
        return said


@kept
def languages() -> tuple[str, ...]:
    """The languages that there are catalogues of, the default first."""
    found = (each.name for each in files(__package__).iterdir() if each.joinpath(TERMS + ENDING).is_file())
    return (DEFAULT, *sorted({*found} - {DEFAULT}))


@kept
def language(tag: str) -> Language:
    if tag not in languages():
        raise CatalogueError(f"there are no words in {tag!r}")
    rooms = (each for each in files(__package__).joinpath(tag).iterdir() if each.name.endswith(ENDING))
    return Language(tag, {each.name.removesuffix(ENDING): each.read_text("utf-8") for each in rooms})
