"""Words as data: what people read stands in one catalogue a language, and code gives a key and its arguments.

    say("prompting-reads", reading="55 g")            "It reads 55 g"
    with speaking("de"):
        say("prompting-reads", reading="55 g")        "Die Waage zeigt 55 g"

The language is a context, as the precision of the standard library's `decimal` is: whoever answers a request or runs
a command says it once, and what is worded within is worded in it. So nothing worded may be held for another language:
hold the codes and numbers, or name the language and the units in what it is held by (`manner`).

Catalogues are `en/*.ftl` and so on, in Fluent's syntax, a file a room; ids begin with the name of their file. A mass, a
span or a share comes in as text, from the one helper that knows the language's decimal sign (bench/whole.py); a count
comes in as a whole number, which a message may choose its words by.

    language   one language: its catalogue, decimal sign and plurals
    units      grams or ounces, degrees Celsius or Fahrenheit: ambient in the same way
    catalogue  reads the files, and makes of each message what says it
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar, Token

from bench.words.catalogue import Pattern
from bench.words.language import DEFAULT, Language, language, languages
from bench.words.units import METRIC, Units, begin_measuring, end_measuring, measuring, units, units_of

__all__ = [
    "DEFAULT",
    "METRIC",
    "Language",
    "Pattern",
    "Units",
    "begin_measuring",
    "begin_speaking",
    "end_measuring",
    "end_speaking",
    "language",
    "languages",
    "manner",
    "measuring",
    "point",
    "say",
    "say_all",
    "say_if_there",
    "speaking",
    "spoken",
    "units",
    "units_of",
    "weekday",
]

_SPOKEN: ContextVar[Language] = ContextVar("spoken")


def say(key: str, /, **values: str | int) -> str:
    """A message of the catalogue in the language that is spoken now, with its arguments in their places."""
    return _spoken().messages[key](values)


def say_if_there(key: str) -> str:
    """A message without arguments; "" where the catalogue has none of that key."""
    return _spoken().messages[key]({}) if _spoken().has(key) else ""


def say_all(names: list[str]) -> str:
    """Names put together in one sentence: "a, b and c"."""
    if not names:
        return ""
    text = names[0]
    for name in names[1:-1]:
        text = say("list-more", names=text, next=name)
    return say("list-and", names=text, last=names[-1]) if len(names) > 1 else text


def spoken() -> str:
    """The tag of the language that is spoken now: "en", "de"."""
    return _spoken().tag


def manner() -> str:
    """All that what is worded now depends on: the language and the units."""
    return "-".join((spoken(), *units()))


def point() -> str:
    """The decimal sign of the language that is spoken now."""
    return _spoken().point


def weekday(place: int) -> str:
    """A day of the week in the language that is spoken now, 0 the first: "Monday"."""
    return _spoken().weekday(place)


@contextmanager
def speaking(tongue: str | Language) -> Iterator[None]:
    token = begin_speaking(tongue)
    try:
        yield
    finally:
        end_speaking(token)


def begin_speaking(tongue: str | Language) -> Token[Language]:
    """For those who cannot use a `with`: from now on, until `end_speaking` is given what this gave."""
    return _SPOKEN.set(tongue if isinstance(tongue, Language) else language(tongue))


def end_speaking(token: Token[Language]) -> None:
    _SPOKEN.reset(token)


def _spoken() -> Language:
    return _SPOKEN.get(None) or language(DEFAULT)
