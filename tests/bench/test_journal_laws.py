"""Laws of the journal: the order of arrival does not matter, nothing breaks it, an undo takes back."""

from __future__ import annotations

import json

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from workshop import (
    DEMO_RECIPES,
    MINUTE,
    MORNING,
    THREE_PART,
    Maker,
    demo_sheet,
    entry,
    make_kit,
    make_recipe,
    sheet_of,
    untouched,
)

from bench import (
    KINDS,
    EntryError,
    canonical,
    check_entry,
    digest,
    fold,
    frozen_seal,
    now,
    of_record,
    record,
    seal,
    use_of,
    words,
)
from bench.entries import FITS
from tests.often import often

SHEET = demo_sheet(THREE_PART)
LINES = [line["id"] for line in SHEET["lines"]]
STEPS = [step["id"] for step in SHEET["steps"]]
PICTURE = "018f0000-0000-7000-8000-000000000001"
VESSELS = [vessel["id"] for vessel in SHEET["vessels"]]

instants = st.integers(MORNING, MORNING + 20 * MINUTE)
devices = st.sampled_from(["phone", "tablet"])
BODIES = {
    "weighed": {"line": st.sampled_from(LINES), "mg": st.integers(0, 2_000_000)},
    "taken_out": {"line": st.sampled_from(LINES), "mg": st.integers(0, 2_000_000)},
    "left": {"line": st.sampled_from(LINES)},
    "left_out": {"line": st.sampled_from(LINES)},
    "carried": {
        "component": st.sampled_from(["base", "embed", "topping", "assembly", "gold"]),
        "round": st.integers(0, 2),
        "num": st.integers(1, 10**6),
        "den": st.integers(1, 10**6),
    },
    "zeroed": {"vessel": st.sampled_from(VESSELS)},
    "placed": {
        "vessel": st.sampled_from(VESSELS),
        "scale": st.sampled_from([each["id"] for each in SHEET["kit"]["scales"]] + ["lent"]),
    },
    "took": {
        "vessel": st.sampled_from(VESSELS),
        "instead": st.sampled_from([each["id"] for each in SHEET["kit"]["vessels"]] + ["lent"]),
    },
    "switched": {"weigh": st.sampled_from(["running", "tare"])},
    "chose": {
        "step": st.sampled_from(STEPS),
        "way": st.sampled_from(["witch_hazel", "alcohol", "film", "none"]),
    },
    "done": {"step": st.sampled_from(STEPS)},
    "skipped": {"step": st.sampled_from(STEPS), "why": st.text(min_size=1, max_size=20)},
    "began": {"step": st.sampled_from(STEPS)},
    "heated": {
        "step": st.sampled_from(STEPS),
        "ms": st.integers(1, 60_000),
        "rest_ms": st.integers(1, 60_000),
    },
    "looked": {"step": st.sampled_from(STEPS), "answer": st.sampled_from(["yes", "not_yet", "too_far"])},
    "portioned": {"vessel": st.sampled_from(VESSELS), "mg": st.integers(0, 10**6)},
    "counted": {
        "step": st.sampled_from(STEPS),
        "good": st.integers(0, 20),
        "partial": st.integers(0, 2),
        "of": st.sampled_from([*VESSELS, "joined"]),
    },
    "extended": {"step": st.sampled_from(STEPS), "ms": st.integers(1, 10**7)},
    "noted": {"text": st.text(min_size=1, max_size=20)},
    "kept": {"pieces": st.integers(0, 20)},
    "met": {"criterion": st.sampled_from(["mass", "look"]), "answer": st.sampled_from(["yes", "no"])},
    "judged": {
        "about": st.just("batch"),
        "verdict": st.sampled_from(["held", "rejected"]),
        "name": st.just("A. Marlwick"),
        "why": st.just("Cracked."),
    },
    "finished": {},
    "numbered": {"number": st.sampled_from(["M-1", "M-2", "K-1"])},
    "gathered": {
        "ingredient": st.sampled_from(["bicarb", "citric", "wrap", "gold"]),
        "lot": st.sampled_from(["lot-1", "lot-2"]),
        "mg": st.integers(0, 10**6),
    },
    "ticked": {"thing": st.sampled_from(["tool.whisk", "vessel.big_bowl"])},
    "measured": {
        "what": st.sampled_from(["piece", "left", "spoiled"]),
        "mg": st.integers(0, 10**6),
        "piece": st.integers(1, 3),
    },
    "aired": {"humidity": st.integers(1, 100), "mk": st.integers(-1000, 40_000)},
    "proved": {
        "scale": st.sampled_from(["bench", "fine"]),
        "weight_mg": st.just(100_000),
        "mg": st.integers(0, 10**6),
    },
    "labelled": {
        "market": st.sampled_from(["us", "eu", "uk"]),
        "printed": st.integers(0, 30),
        "on": st.integers(0, 30),
        "binned": st.integers(0, 30),
    },
    "pictured": {"picture": st.sampled_from([PICTURE, PICTURE[:-1] + "2"]), "sha256": st.just("0" * 64)},
    "worked": {"ms": st.integers(1, 10**7), "step": st.sampled_from(STEPS)},
    "signed": {"name": st.sampled_from(["M. Marlwick", "the helper"])},
}
UNSIGNED = tuple(kind for kind in BODIES if kind != "signed")
UNDOABLE = tuple(kind for kind in BODIES if kind != "judged")


@st.composite
def facts(draw, kinds=tuple(BODIES)):
    """One well-formed entry about the demo's three-part sheet, likely or not."""
    kind = draw(st.sampled_from(kinds))
    return entry(kind, draw(instants), draw(devices), **draw(st.fixed_dictionaries(BODIES[kind])))


@st.composite
def journals(draw, most=25, kinds=tuple(BODIES)):
    entries = draw(st.lists(facts(kinds), max_size=most))
    for _ in range(draw(st.integers(0, 4))):
        if entries:
            target = draw(st.sampled_from(entries))
            entries.append(entry("undone", draw(instants), draw(devices), entry=target["id"]))
    if draw(st.booleans()):
        entries.append(entry("tasted", draw(instants), draw(devices), sweet=True))  # a kind from the future
    return entries


def test_every_kind_of_entry_is_tried_here():
    assert set(BODIES) | {"undone"} == set(KINDS)


@given(journals(), st.randoms(use_true_random=False))
def test_any_order_any_duplicate_and_any_split_fold_to_the_same_bytes(entries, random):
    whole = canonical(fold(SHEET, entries))

    shuffled = entries + random.choices(entries, k=3) if entries else []
    random.shuffle(shuffled)
    cut = random.randint(0, len(shuffled))

    assert canonical(fold(SHEET, shuffled)) == whole
    assert canonical(fold(SHEET, shuffled[cut:] + entries + shuffled[:cut])) == whole


@given(journals(), st.data())
def test_two_phones_that_have_heard_everything_agree(entries, data):
    heard_by_one = data.draw(st.lists(st.booleans(), min_size=len(entries), max_size=len(entries)))
    one = [each for each, heard in zip(entries, heard_by_one, strict=True) if heard]
    other = [each for each, heard in zip(entries, heard_by_one, strict=True) if not heard]

    assert fold(SHEET, one + other) == fold(SHEET, other + one)


@given(journals(kinds=UNSIGNED), facts(UNDOABLE))
def test_an_entry_and_its_undo_fold_to_the_state_before(entries, fact):
    before = fold(SHEET, entries)

    undo = entry("undone", fact["at"] + 1, fact["device"], entry=fact["id"])

    after = fold(SHEET, [*entries, fact, undo])
    assert len(after.pop("unsigned")) == (fact["kind"] == "signed")
    assert before.pop("unsigned") == [] and after == before


@given(journals(kinds=UNSIGNED), facts(UNDOABLE))
def test_an_undo_can_be_taken_back_too(entries, fact):
    undo = entry("undone", fact["at"] + 1, entry=fact["id"])
    again = entry("undone", fact["at"] + 2, entry=undo["id"])

    assert fold(SHEET, [*entries, fact, undo, again]) == fold(SHEET, [*entries, fact])


# What a signing seals

FIGURES = ("lines", "vessels", "bursts", "looks", "counts", "gathered", "measured", "number", "notes")


def figures_of(state):
    """What a signing leaves as it was."""
    settled = {key: (step["status"], step["at"]) for key, step in state["steps"].items()}
    return {"settled": settled, **{field: state[field] for field in FIGURES}}


def signed_over(entries, at=MORNING + 21 * MINUTE, device="phone", name="M. Marlwick", **other):
    return entry("signed", at, device, name=name, **{**seal(entries), **other})


def record_of(entries, frozen=None):
    """All of a record that must stand, its digest and its lots' use, but for what is told beside it."""
    state = fold(SHEET, entries, frozen)
    told = record(SHEET, state, entries)
    beside = {key: told.pop(key) for key in ("remarks", "unread", "unsigned", "judgements", "release")}
    stands = {**told, "digest": digest(of_record(state, entries)), "uses": use_of(SHEET, state, entries)}
    return canonical(stands), beside


@st.composite
def later_entries(draw, signing, entries):
    """Anything at any instant from any device, signings and undos of the sealed ones too, but none of the signing."""
    anywhen = st.integers(0, MORNING + 500 * MINUTE) | st.just(signing["at"])
    later = [{**each, "at": draw(anywhen)} for each in draw(st.lists(facts(UNSIGNED), max_size=12))]
    for target in draw(st.lists(st.sampled_from([*entries, *later, {"id": "gone"}]), max_size=6)):
        later.append(entry("undone", draw(anywhen), draw(devices), entry=target["id"]))
    later.append(entry("signed", signing["at"] + draw(st.integers(1, 10**9)), name="Too late", **seal(later)))
    return later


@given(journals(kinds=UNSIGNED), st.data())
def test_nothing_that_was_not_signed_changes_a_signed_record(entries, data):
    signing = signed_over(entries)
    stands, beside = record_of([*entries, signing])
    later = data.draw(later_entries(signing, entries))

    after, beside_after = record_of(data.draw(st.permutations([*entries, signing, *later])))

    assert after == stands
    assert beside["remarks"] == [] and beside_after["unsigned"] == []
    told = {each["id"] for name in ("remarks", "judgements") for each in beside_after[name]}
    told |= set(beside_after["unread"])
    undone = {each["body"]["entry"] for each in later if each["kind"] == "undone"}
    assert {each["id"] for each in later} - told <= undone | {
        each["id"] for each in later if each["kind"] == "undone"
    }


@given(journals(), journals(most=8), st.data())
def test_two_that_sign_with_no_network_agree_whoever_hears_what_first(entries, others, data):
    """Each seals what it has; when both have everything, in whatever order it came, they say the same."""
    cut = data.draw(st.integers(0, len(entries)))
    one, other = [*entries], [*entries[:cut], *others]
    one.append(signed_over(one, data.draw(instants), "phone"))
    other.append(signed_over(other, data.draw(instants), "tablet", "The helper"))
    everything = one + other

    said = canonical(fold(SHEET, everything))

    assert canonical(fold(SHEET, data.draw(st.permutations(everything)))) == said


@given(journals(kinds=UNSIGNED), st.data())
def test_who_lacks_some_of_what_was_signed_takes_what_is_here_and_says_so(entries, data):
    signing = signed_over(entries)
    here = data.draw(st.lists(st.sampled_from(entries), unique_by=id)) if entries else []

    state = fold(SHEET, [*here, signing])

    assert state["signed"]["missing"] == len(signing["body"]["entries"]) - len(here)
    assert state["signed"]["entries"] == sorted(each["id"] for each in here)
    before = fold(SHEET, here)
    assert figures_of(state) == figures_of(before)


@given(journals(kinds=UNSIGNED), facts(UNSIGNED))
def test_an_undo_within_what_was_signed_takes_back_within_it(entries, fact):
    undo = entry("undone", fact["at"] + 1, entry=fact["id"])
    all_of_it = [*entries, fact, undo]
    before = fold(SHEET, all_of_it)

    state = fold(SHEET, [*all_of_it, signed_over(all_of_it)])

    assert figures_of(state) == figures_of(before)


def test_a_signing_whose_digest_does_not_fit_seals_nothing():
    pour = entry("weighed", MORNING, line=LINES[0], mg=500)
    signing = signed_over([pour], digest="0" * 64)

    state = fold(SHEET, [pour, signing])

    assert state["signed"] is None and state["unread"] == [signing["id"]]


def test_of_two_signings_the_first_that_was_not_taken_back_holds():
    pour = entry("weighed", MORNING, line=LINES[0], mg=500)
    first, second = signed_over([pour], MORNING + 1), signed_over([pour], MORNING + 2, name="The helper")
    back = entry("undone", MORNING + 3, "tablet", entry=first["id"])

    assert fold(SHEET, [pour, second, first])["signed"]["name"] == "M. Marlwick"
    opened = fold(SHEET, [pour, second, first, back])
    assert opened["signed"]["name"] == "The helper"
    assert opened["unsigned"] == [
        {
            "at": MORNING + 3,
            "device": "tablet",
            "name": "M. Marlwick",
            "signed_at": MORNING + 1,
            "signed_by": "phone",
        }
    ]


@given(journals(kinds=UNSIGNED), st.data())
def test_a_signing_that_names_nothing_goes_by_the_set_that_was_kept_for_it(entries, data):
    """As an earlier version signed: what stood before it, whatever comes to stand before it later."""
    signing = entry("signed", MORNING + 21 * MINUTE, name="M. Marlwick")
    kept = frozen_seal([*entries, signing])
    assert kept == {"signed": signing["id"], "entries": seal(entries)["entries"]}
    stands, _ = record_of([*entries, signing])
    assert json.loads(stands)["digest"] == digest([*entries, signing])
    assert figures_of(fold(SHEET, [*entries, signing])) == figures_of(fold(SHEET, entries))

    later = data.draw(later_entries(signing, entries))

    assert record_of([*entries, signing, *later], kept)[0] == stands


def test_a_signing_can_be_taken_back_and_nothing_it_signed():
    pour = entry("weighed", MORNING, line=LINES[0], mg=500)
    signing = signed_over([pour], MORNING + 1)
    late = entry("undone", MORNING + 2, entry=pour["id"])
    unsigned = entry("undone", MORNING + 3, entry=signing["id"])

    signed = fold(SHEET, [pour, signing, late])
    assert signed["lines"][LINES[0]]["in_mg"] == 500
    assert [remark["kind"] for remark in signed["remarks"]] == ["undone"]

    opened = fold(SHEET, [pour, signing, late, unsigned])
    assert opened["signed"] is None
    assert opened["lines"][LINES[0]]["in_mg"] == 0


@pytest.mark.parametrize(
    ("kind", "body", "where"),
    [
        ("signed", {"name": "M.", "entries": []}, "body.digest"),
        ("signed", {"name": "M.", "digest": "0" * 64}, "body.entries"),
        ("signed", {"name": "M.", "entries": ["b", "a"], "digest": "0" * 64}, "body.entries"),
        ("signed", {"name": "M.", "entries": ["a", "a"], "digest": "0" * 64}, "body.entries"),
        ("weighed", {"line": LINES[0], "reading_mg": 738_000}, "body.mg"),
    ],
)
def test_what_lacks_its_other_half_is_refused_and_never_read(kind, body, where):
    half = entry(kind, **body)

    with pytest.raises(EntryError) as fault:
        check_entry(half)

    assert fault.value.where == where
    assert fold(SHEET, [half])["unread"] == [half["id"]]


def test_a_weighing_without_its_mass_is_unread_and_does_nothing():
    """A line of no mass, in spoons or to texture, is in without one."""
    pour = entry("weighed", line=LINES[0])

    state = fold(SHEET, [pour])

    assert state["unread"] == [pour["id"]]
    assert canonical({**state, "unread": []}) == canonical(fold(SHEET, []))
    sheet = sheet_of(make_recipe("100 g", "to texture"), make_kit())
    loose = next(line["id"] for line in sheet["lines"] if line["mg"] is None)
    assert fold(sheet, [entry("weighed", line=loose)])["lines"][loose]["status"] == "in"


def test_the_first_number_stands_and_the_others_are_told():
    entries = [entry("numbered", MORNING + at, number=number) for at, number in enumerate("BAAB")]

    state = fold(SHEET, entries)

    assert (state["number"], state["also_numbered"]) == ("B", ["A"])


def test_an_undo_from_before_what_it_takes_back_is_set_aside():
    fact = entry("done", MORNING, step=STEPS[0])
    undo = entry("undone", MORNING - 1, entry=fact["id"])

    state = fold(SHEET, [fact, undo])
    assert state["steps"][STEPS[0]]["status"] == "done"
    assert state["unread"] == [undo["id"]]


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@st.composite
def oddities(draw):
    """An entry with a field or two written wrong, or anything at all."""
    if draw(st.integers(0, 4)) == 0:
        return draw(JSON)
    (fact,) = untouched(draw(facts()))
    place = fact["body"] if draw(st.booleans()) else fact
    if place:
        key = draw(st.sampled_from(sorted(place)))
        place[key] = draw(JSON | st.sampled_from([-1, 2**60, 12.0, "", "x" * 3000, "base.1.gold", True]))
    return fact


@given(st.lists(oddities() | facts(), max_size=12), st.integers(0, 2**53))
def test_no_set_of_entries_makes_the_fold_or_the_bench_raise(entries, at):
    state = fold(SHEET, entries)

    said = now(SHEET, state, at)
    kept = [each for each in entries if isinstance(each, dict)]
    record(SHEET, state, kept)

    assert canonical(said) and canonical(state)


@given(oddities())
def test_what_the_check_passes_the_fold_reads_or_lists_as_unread(odd):
    """A malformed entry is refused by itself; one that is well-formed is never lost."""
    try:
        check_entry(odd)
    except EntryError as fault:
        assert fault.says
        return
    told = fold(SHEET, [odd])
    beside = [each["id"] for each in told["judgements"]]  # which is no work at the bench
    assert odd["id"] in (*told["unread"], *beside) or told["last_at"] == odd["at"] or odd["kind"] == "undone"


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"id": "not-a-uuid"}, "id"),
        ({"id": "1d3584bc-0598-40a6-9e48-87a20a490215"}, "id"),  # version 4
        ({"device": ""}, "device"),
        ({"at": -1}, "at"),
        ({"at": 1.5}, "at"),
        ({"at": True}, "at"),
        ({"kind": "Weighed"}, "kind"),
        ({"body": []}, "body"),
        ({"body": {}}, "body.line"),
        ({"body": {"line": LINES[0], "mg": 1.5}}, "body.mg"),
        ({"body": {"line": LINES[0], "mg": -1}}, "body.mg"),
        ({"body": {"line": LINES[0], "mg": 10**10}}, "body.mg"),
        ({"kind": "noted", "body": {"text": "x" * 2001}}, "body.text"),
        ({"kind": "looked", "body": {"step": STEPS[0], "answer": "perhaps"}}, "body.answer"),
    ],
)
def test_a_malformed_entry_is_refused_by_its_field(change, where):
    with pytest.raises(EntryError) as fault:
        check_entry({**entry("weighed", line=LINES[0], mg=1), **change})

    assert fault.value.where == where


@given(st.sampled_from(sorted(BODIES)), st.text(max_size=100), st.data())
def test_a_field_that_nobody_reads_is_refused_by_its_name_and_the_fold_passes_over_it(kind, name, data):
    whole = entry(kind, **{field: data.draw(values) for field, values in BODIES[kind].items()})
    assume(name not in KINDS[kind])
    odd = {**whole, "body": {**whole["body"], name: "x"}}

    check_entry(whole)
    with pytest.raises(EntryError) as fault:
        check_entry(odd)
    check_entry(odd, closed=False)

    assert fault.value.where == f"body.{name[:80]}"
    assert canonical(fold(SHEET, [odd])) == canonical(fold(SHEET, [whole]))


def test_an_envelope_holds_nothing_beside_what_is_read():
    with pytest.raises(EntryError) as fault:
        check_entry({**entry("finished"), "padding": "x"})

    assert fault.value.where == "padding"


def test_the_published_uuid_of_version_7_is_taken():
    """RFC 9562's own example: 2022-02-22T19:22:22Z. Lower case is written, either is read."""
    for spelling in ("017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F"):
        check_entry({**entry("finished", 1_645_557_742_000), "id": spelling})


def test_an_entry_of_a_kind_from_the_future_is_kept_and_listed():
    future = entry("tasted", step=STEPS[0])

    check_entry(future)
    state = fold(SHEET, [future])
    assert state["unread"] == [future["id"]]
    assert record(SHEET, state, [future])["unread"] == [future["id"]]


def test_an_entry_about_another_sheet_is_kept_and_listed():
    stray = entry("done", step="scrub.1.stir")

    assert fold(SHEET, [stray])["unread"] == [stray["id"]]


def test_an_entry_from_next_year_is_a_fact_like_any_other():
    late = entry("done", MORNING + 366 * 24 * 60 * MINUTE, step=STEPS[0])

    check_entry(late)
    assert fold(SHEET, [late])["steps"][STEPS[0]]["status"] == "done"


def test_a_step_told_before_its_needs_is_done_and_the_needs_are_owed():
    maker = Maker(SHEET)

    maker.tell("done", step="base.1.sift")

    assert maker.state["steps"]["base.1.sift"]["status"] == "done"
    assert {each["step"] for each in maker.sees["owed"]} == {"base.1.dry"}


def test_of_two_entries_with_one_id_every_replica_keeps_the_same():
    one = entry("weighed", line=LINES[0], mg=10)
    (other,) = untouched(one)
    other["body"]["mg"] = 20

    assert fold(SHEET, [one, other]) == fold(SHEET, [other, one])


@settings(max_examples=20)
@given(journals(most=10), st.integers(1, 25 * 60))
def test_the_same_journal_says_the_same_bytes_after_a_restart(entries, minutes):
    at = MORNING + minutes * MINUTE
    again = json.loads(json.dumps([SHEET, entries]))

    assert canonical(now(SHEET, fold(SHEET, entries), at)) == canonical(now(again[0], fold(*again), at))


# Whatever the bench offers, it takes


SHEETS = {
    (name, weigh): demo_sheet(name, weigh=weigh) for name in DEMO_RECIPES for weigh in ("running", "tare")
}


@settings(max_examples=often(25, 120))
@given(st.data())
def test_any_walk_through_the_answers_offered_is_understood_and_can_be_finished(data):
    """A client that posts nothing but answers never has one set aside, and is never left with none."""
    sheet = SHEETS[data.draw(st.sampled_from(sorted(SHEETS)))]
    maker = Maker(sheet)
    for _ in range(data.draw(st.integers(1, 25))):
        prompts = maker.sees["prompts"]
        assert prompts or maker.state["finished_at"]
        if not prompts:
            break
        prompt = data.draw(st.sampled_from(prompts))
        answer = data.draw(st.sampled_from(prompt["answers"]))
        before = prompt["weigh"]["before_mg"] if prompt["weigh"] else 0
        asked = (prompt["number"] or {}).get("mg") or 0
        reading = before + data.draw(st.integers(0, max(10, 3 * (asked - before))))
        maker.answer(answer, reading=reading, before=before, count=data.draw(st.integers(0, 3)))
        check_entry(maker.entries[-1])
        maker.wait(data.draw(st.sampled_from([0, MINUTE, 300 * MINUTE])))
        assert maker.state["unread"] == []

    for _ in range(200):
        if maker.state["finished_at"]:
            break
        if not maker.sees["prompts"]:
            raise AssertionError("nothing more is offered and the batch is not finished")
        maker.strong()
    assert maker.state["finished_at"] and maker.state["unread"] == []


@pytest.mark.parametrize("tag", ["en", "de"])
def test_whatever_a_field_should_be_can_be_said(tag):
    """The key is made of the type's name: no reading of the source would miss one."""
    with words.speaking(tag):
        assert all(words.say(f"entries-fits-{kind}", field="that", most=9) for kind in FITS)
