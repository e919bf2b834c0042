"""The catalogues of words: what they say, that every language says it, and that code says nothing past them."""

from __future__ import annotations

import re
from functools import cache

import pytest
from workshop import DEMO_RECIPES, demo_sheet

from bench import canonical, words
from bench.checks.finding import rule_table
from bench.words.catalogue import CatalogueError, Pattern, arguments_of, made, pattern_of, read
from tests.words import PYTHON, SCRIPTS, Call, calls, named, not_moved, sentences, shown

ENGLISH = words.language("en")


def all_messages() -> list[tuple[str, str]]:
    return [(tag, key) for tag in words.languages() for key in sorted(words.language(tag).keys())]


def made_of(text: str, key: str = "room-a", tag: str = "en"):
    entries = read(text, "room")
    return made(pattern_of(key, entries.__getitem__), words.language(tag).plural)


def texts_of(pattern: Pattern, names: frozenset[str] = frozenset()) -> list[str]:
    """Every way in which a message can be worded, its arguments as a figure, or as a name where they are one."""
    if isinstance(pattern, str):
        return [pattern]
    worded = [""]
    for part in pattern:
        if isinstance(part, str):
            ends = [part]
        elif len(part) == 1:
            ends = [NAME if part[0] in names else "8"]
        else:
            ends = [text for each in part[1].values() for text in texts_of(each, names)]
        worded = [f"{text}{end}" for text in worded for end in ends]
    return worded


# The syntax


@pytest.mark.parametrize(
    ("text", "values", "said"),
    [
        ("room-a = Done", {}, "Done"),
        ("room-a = Add { $mass } now", {"mass": "5 g"}, "Add 5 g now"),
        ("room-a = One line\n    and the next", {}, "One line and the next"),
        ('room-a = { "" }Then{ " " }', {}, "Then "),
        ("room-a = { $n -> [one] a bar *[other] { $n } bars }", {"n": 1}, "a bar"),
        ("room-a = { $n -> [one] a bar *[other] { $n } bars }", {"n": 0}, "0 bars"),
        ("room-a = { $n -> [0] none [one] a bar *[other] { $n } bars }", {"n": 0}, "none"),
        ("room-a = { $n -> [one] a bar *[other] { $n } bars }", {"n": 12345}, "12\u2009345 bars"),
        ("room-a = { $how -> [cup] a cup *[tare] zero }", {"how": "cup"}, "a cup"),
        ("room-a = { $how -> [cup] a cup *[tare] zero }", {"how": "?"}, "zero"),
        ("room-a = { room-b } { -c }\nroom-b = It is { $n }\n-c = on the bench", {"n": "x"}, "It is x on the bench"),
    ],
)  # fmt: skip
def test_a_message_is_said_with_its_arguments(text: str, values: dict, said: str) -> None:
    text = text.replace(" [", "\n [").replace(" *[", "\n *[").replace(" }", "\n }") if "->" in text else text
    assert made_of(text)(values) == said


def test_an_argument_that_is_missing_is_a_fault() -> None:
    with pytest.raises(KeyError):
        made_of("room-a = Add { $mass }")({})


@pytest.mark.parametrize(
    "text", ["room-a = { NUMBER($n) }", "room-a = { $n", "room-a = a\nroom-a = b", "room-a = a\n .b = c"]
)
def test_what_the_page_could_not_say_is_refused(text: str) -> None:
    with pytest.raises(CatalogueError):
        made_of(text)({"n": 1})


def test_a_key_that_is_in_no_catalogue_is_refused() -> None:
    for key in ("prompting-nothing", "nowhere-at-all"):
        with pytest.raises(CatalogueError):
            words.say(key)


def test_the_language_is_a_context() -> None:
    assert words.spoken() == "en"
    with words.speaking("de"):
        assert (words.spoken(), words.point(), words.say("prompting-done")) == ("de", ",", "Erledigt")
        with words.speaking("en"):
            assert words.say("prompting-done") == "Done"
        assert words.spoken() == "de"
    assert (words.spoken(), words.point()) == ("en", ".")


def test_names_are_put_together() -> None:
    told = [words.say_all(list("abc")[:count]) for count in range(4)]
    assert told == ["", "a", "a and b", "a, b and c"]


# What the catalogues hold


def test_every_language_says_the_same_with_the_same_arguments() -> None:
    for tag in words.languages():
        tongue = words.language(tag)
        assert tongue.keys() == ENGLISH.keys(), tag
        for key in ENGLISH.keys():
            extra = arguments_of(tongue.pattern(key)) - _arguments_given(key)
            assert not extra, f"{tag} {key}: nobody gives {extra}"


def test_each_message_stands_in_the_file_that_its_key_begins_with() -> None:
    for tag in words.languages():
        tongue = words.language(tag)
        for room, source in tongue.sources.items():
            for key in read(source, room):
                assert key.startswith("-") or tongue.room_of(key) == room, f"{tag}/{room}.ftl: {key}"


@cache
def _by_key() -> tuple[dict[str, list[Call]], list[Call]]:
    """The calls that name a key, by it; and those that name a beginning."""
    whole: dict[str, list[Call]] = {}
    for call in calls():
        for key in call.keys:
            whole.setdefault(key, []).append(call)
    return whole, [call for call in calls() if call.beginning]


@cache
def _arguments_given(key: str) -> set[str]:
    """What any call that may say this gives."""
    whole, begun = _by_key()
    mine = [*whole.get(key, []), *(call for call in begun if key.startswith(call.beginning))]
    if not mine or any(each.arguments is None for each in mine):
        return arguments_of(ENGLISH.pattern(key))
    return set().union(*(each.arguments or () for each in mine))


def test_what_code_says_is_in_the_catalogue() -> None:
    for call in calls():
        assert call.keys or call.beginning, f"{call.where}: say a key, or a beginning and a code"
        assert call.keys <= ENGLISH.keys(), f"{call.where}: {call.keys - ENGLISH.keys()}"
        assert not call.beginning or any(key.startswith(call.beginning) for key in ENGLISH.keys()), call.where


def test_every_message_is_said_somewhere() -> None:
    own = {"list-and", "list-more"}  # said within bench/words and frontend/words.js
    own.update(
        found for text in ENGLISH.sources.values() for found in re.findall(r"\{ ([a-z][\w-]*) \}", text)
    )
    own.update(
        f"checks-{rule}-{part}" for rule in rule_table() for part in ("why", "do")
    )  # said by the rule's id
    beginnings = tuple(named().beginnings)
    unused = [key for key in ENGLISH.keys() - named().keys - own if not key.startswith(beginnings)]
    assert not sorted(unused)


@cache
def _arguments_asked(key: str) -> set[str]:
    """What its message asks for in any language."""
    return set().union(*(arguments_of(words.language(tag).pattern(key)) for tag in words.languages()))


def test_a_call_gives_what_its_message_asks_for_and_nothing_else() -> None:
    for call in calls():
        if call.arguments is None:
            continue
        begun = {key for key in ENGLISH.keys() if key.startswith(call.beginning)} if call.beginning else set()
        mine = (call.keys & ENGLISH.keys()) | begun
        wanted = set().union(*map(_arguments_asked, mine))
        assert call.arguments == wanted, f"{call.where}: gives {set(call.arguments)}, wanted {wanted}"


# How it is said (words.md)

MOST_WORDS = 14
# The glossary of words.md: one word for one thing. What is said, what is not said for it, and the keys that may all
# the same, each with its reason.
AN_AMOUNT = "the amount as recipes and files write it"
NOT_SAID: dict[str, tuple[str, dict[str, str]]] = {
    "batch": (
        r"runs?",
        {
            "api-plans-name-one": "a field of the API",
            "api-plans-not-in-plan": "a field of the API",
            "api-entries-shape": "a field of the API",
        },
    ),
    "part": (r"components?", {}),
    "small piece": (r"partials?|part pieces?", {}),
    "target": (
        r"marks?|asked",
        {
            "batch-number-mark": "a device's mark in a batch number",
            "checks-colour-": "stains",
            "sources-colour-": "stains",
            "checks-unwrapped-do": "the mark of a step that wraps",
            "checks-water-bath-do": "the mark of a step that wipes",
            "page-recipe-asked-here": "a question",
            "page-recipe-field-asked-after": "a question",
            "versions-name-again": "a question",
        },
    ),
    "too much, too little": (
        r"8 (?:over|under|short)|stays over|runs? short",
        {"checks-": "over a limit, of no scale's"},
    ),
    "scale up, scale down": (r"carr(?:y|ied|ies)", {"cautions-slippery": "with the hands"}),
    "zero": (r"noughts?|climbs?", {}),
    "check": (
        r"(?:then|and|or) looks?(?! at| further)|looks? (?:again|after)|[:,] looks?$",
        {"page-keep-changed": "at what was changed"},
    ),
    "earliest, usual, latest": (r"past its (?:latest )?time", {}),
    "timer; within": (
        r"guides?|windows?",
        {
            "cautions-alcohol": "of the room",
            "checks-alcohol-do": "of the room",
            "gather-protection": "of the room",
        },
    ),
    "as needed": (
        r"to texture|q\.s\.",
        {
            "amounts-unknown-unit": AN_AMOUNT,
            "checks-water-in-fizz-do": AN_AMOUNT,
            "page-recipe-text-": AN_AMOUNT,
        },
    ),
    "record": (r"journals?", {}),
    "save": (
        r"(?:is|are|was|were|not|be) kept(?! apart)|keeps? (?:it|this|them) (?:here|on)",
        {"recipe-assembly-name": "a name that is not free"},
    ),
    "sent, not sent": (r"told", {}),
    "no connection": (r"(?:does|did) not answer|no answer|unreachable", {}),
    "undo; remove": (
        r"(?:take|takes|taken|took) (?:back|away)|drop (?:it|this|yours)|dropped",
        {},
    ),
    "device": (
        r"(?<!this )(?<!This )phones?(?!'s own)",
        {
            "language-as-phone": "its own setting",
            "page-day-calendar": "its calendar",
            "page-studio-": "its camera, calendar or storage",
            "prompting-entered-twice": "two that are at one bowl",
        },
    ),
    "expected": (r"reckon(?:s|ed|ing)?", {}),
    "caution": (r"hazards?", {"page-shelf-hazard-note": "the word of safety sheets"}),
    "again, not done yet, skipped": (r"anew|owed|passed over", {}),
    "(nothing)": (r"safe(?:ly)?|complian(?:t|ce)", {}),
}


def test_sentences_are_short() -> None:
    for tag, key in all_messages():
        for text in texts_of(words.language(tag).pattern(key)):
            for sentence in re.split(r"(?<=[.!?:;]) ", text):
                spoken = [word for word in sentence.split(" ") if re.search(r"\w", word)]
                assert len(spoken) <= MOST_WORDS, f"{tag} {key}: {sentence}"


TEXTS = {key: texts_of(ENGLISH.pattern(key)) for key in sorted(ENGLISH.keys())}


@pytest.mark.parametrize("said", NOT_SAID)
def test_one_word_for_one_thing(said: str) -> None:
    not_said, reasons = NOT_SAID[said]
    for key, texts in TEXTS.items():
        for text in texts:
            if re.search(rf"\b(?:{not_said})\b", text, re.IGNORECASE):
                assert key.startswith(tuple(reasons)), f"{key}: {text}"
    assert all(any(key.startswith(each) for key in TEXTS) for each in reasons)


NOT_SAID_IN_GERMAN = {"Charge": r"Ans[aä]tz\w*"}


@pytest.mark.parametrize("said", NOT_SAID_IN_GERMAN)
def test_one_word_for_one_thing_in_german(said: str) -> None:
    german = words.language("de")
    texts = {key: texts_of(german.pattern(key)) for key in german.keys()}
    others = re.compile(rf"\b(?:{NOT_SAID_IN_GERMAN[said]})\b")
    assert {key for key, told in texts.items() if others.search(" ".join(told))} == set()


def test_what_came_and_what_is_made_have_two_words_in_german_too() -> None:
    """A lot is a Lieferung, and its number a Losnummer; a batch alone is a Charge."""
    german = words.language("de")
    of_lots = {
        key
        for key in ENGLISH.keys()
        if re.search(r"\blots?\b", told := " ".join(texts_of(ENGLISH.pattern(key))), re.IGNORECASE)
        and not re.search(r"\bbatch", told, re.IGNORECASE)
    }
    assert len(of_lots) > 50
    assert {key for key in of_lots if "Charge" in " ".join(texts_of(german.pattern(key)))} == set()


NAME = "Maize starch"
NAMES = frozenset({"name", "vessel", "scale", "heater", "part"})  # as their makers wrote them, with a capital


def test_a_name_stands_at_an_end_of_its_clause_and_never_in_mid_sentence() -> None:
    """words.md, rule 6. German writes every noun with its capital."""
    for key in ENGLISH.keys():
        if not key.startswith("prompting-"):
            continue
        for text in texts_of(ENGLISH.pattern(key), NAMES):
            for found in re.finditer(NAME, text):
                before, after = text[: found.start()].rstrip(), text[found.end() :]
                begins = not before or before[-1] in ".:;,!?“("
                assert begins or not after or after[0] in ".:;,!?”)", f"{key}: {text}"


def test_nobody_is_promised_that_anything_is_safe() -> None:
    for tag, key in all_messages():
        for text in texts_of(words.language(tag).pattern(key)):
            assert not re.search(
                r"\b(unbedenklich|konform|gesetzeskonform|harmlos|sicher)\b", text, re.IGNORECASE
            ), key


# What stands in a field cannot wrap: so much of it is seen at 390 px with text at 200 %.
SEEN_IN_A_FIELD = 20


@pytest.mark.parametrize("tag", words.languages())
def test_what_stands_in_an_empty_field_is_short_enough_to_be_read(tag) -> None:
    spoken = words.language(tag)
    for path in SCRIPTS:
        script = path.read_text("utf-8")
        for found in re.finditer(r'placeholder: say\("([a-z-]+)"', script):
            if '"textarea"' in script[found.start() - 120 : found.start()]:
                continue
            texts = texts_of(spoken.pattern(found[1]))
            assert max(map(len, texts)) <= SEEN_IN_A_FIELD, (shown(path), found[1], texts)


# What code says past the catalogues


def test_no_sentence_stands_in_code() -> None:
    """Files that are not moved yet stand in tests/words_not_moved.txt: `python -m tests.words --write`."""
    found = {shown(path): said for path in (*PYTHON, *SCRIPTS) if (said := sentences(path))}
    waiting = not_moved()

    assert {path: said for path, said in found.items() if path not in waiting} == {}
    assert set(waiting) & {shown(path) for path in (*PYTHON, *SCRIPTS)} <= found.keys(), "take them out of it"


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ('field(description="The mass of a piece")', 0),
        ('{"description": f"The mass of {each}", "title": "The mass of a piece"}', 1),
        ('Gauge("pieces", documentation="The mass of a piece", says="The mass of a piece")', 1),
        ('Annotated[int, "The mass of a piece"]', 0),
        ('log.critical("The mass of a piece")', 0),
        ('execute("(SELECT count(*) FROM entry WHERE id = :id)", "id, made_at, seen_at")', 0),
        ('Problem(422, f"The mass of {each}")', 1),
    ],
)
def test_documentation_and_the_log_stay_in_english_by_where_they_stand(
    said: str, found: int, tmp_path, monkeypatch
) -> None:
    monkeypatch.setattr("tests.words.ROOT", tmp_path)
    (tmp_path / "room.py").write_text(f'"""What it is of."""\n\n{said}\n', "utf-8")
    assert len(sentences(tmp_path / "room.py")) == found


def test_a_sheet_is_the_same_in_every_language() -> None:
    """Phone and server compare it by its hash, each in a language of its own."""
    told = {}
    for tag in words.languages():
        with words.speaking(tag):
            told[tag] = [canonical(demo_sheet(name)) for name in DEMO_RECIPES]

    assert all(sheets == told[words.DEFAULT] for sheets in told.values())
