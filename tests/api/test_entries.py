from __future__ import annotations

import pytest

from api.journals import LARGEST_ENTRY
from tests.api.studio import Studio
from tests.make import Clock, make_entry, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

DAY_MS = 86_400_000


def results(answer: object) -> list[str]:
    return [each["result"] for each in answer.json["answers"]]  # type: ignore[attr-defined]


def test_an_entry_sent_twice_is_kept_once(studio: Studio) -> None:
    run = studio.with_run()
    entry = make_entry(run)

    answers = [studio.post(run, entry), studio.post(run, entry, entry)]

    assert [results(answer) for answer in answers] == [["kept"], ["had", "had"]]
    assert studio.get(f"/runs/{run}/entries").json["entries"] == [entry]


def test_the_order_of_the_keys_makes_no_other_entry(studio: Studio) -> None:
    run = studio.with_run()
    entry = make_entry(run)

    studio.post(run, entry)

    assert results(studio.post(run, dict(reversed(entry.items())))) == ["had"]


def test_other_content_under_the_same_id_is_refused(studio: Studio) -> None:
    run = studio.with_run()
    entry = make_entry(run)
    studio.post(run, entry)

    answer = studio.post(run, {**entry, "body": {"text": "something else"}})

    assert results(answer) == ["refused"]
    assert answer.json["answers"][0]["field"] == "id"
    assert studio.get(f"/runs/{run}/entries").json["entries"] == [entry]


def test_each_entry_is_answered_by_itself(studio: Studio, clock: Clock) -> None:
    run, other_run = studio.with_run(), studio.with_run()
    wrong = {
        "": 3,
        "id": make_entry(run, id=uuid4()),
        "device": make_entry(run, device=""),
        "at": make_entry(run, at="noon"),
        "kind": make_entry(run, kind=None),
        "body": make_entry(run, body=[]),
        "body.text": make_entry(run, body={"text": "a\x00b"}),
        "body.mg": make_entry(run, kind="weighed", body={"line": "soak.1.line_0", "mg": 1.5}),
        "run": make_entry(other_run),
    }
    good = [make_entry(run) for _ in wrong]

    answer = studio.post(run, *[entry for pair in zip(good, wrong.values(), strict=True) for entry in pair])

    assert results(answer) == ["kept", "refused"] * len(wrong)
    refused = answer.json["answers"][1::2]
    assert [each["field"] for each in refused] == list(wrong)
    assert all(each["detail"] for each in refused)
    assert len(studio.get(f"/runs/{run}/entries").json["entries"]) == len(good)


@pytest.mark.database("sqlite")
def test_an_entry_from_next_year_is_refused_with_a_way_out(studio: Studio, clock: Clock) -> None:
    run = studio.with_run()

    answer = studio.post(
        run, make_entry(run, at=clock.ms + 365 * DAY_MS), make_entry(run, at=clock.ms + DAY_MS)
    )

    assert results(answer) == ["refused", "kept"]
    assert answer.json["answers"][0]["field"] == "at"
    assert "device's clock" in answer.json["answers"][0]["detail"]


def test_an_entry_of_a_kind_from_the_future_is_kept_and_shown_as_not_understood(studio: Studio) -> None:
    run = studio.with_run()
    entry = make_entry(run, kind="levitated", body={"height": {"mm": [1, 2]}})

    assert results(studio.post(run, entry)) == ["kept"]
    assert studio.get(f"/runs/{run}/entries").json["entries"] == [entry]
    assert studio.get(f"/runs/{run}/now").status_code == 200


@pytest.mark.parametrize("text", ["🧼" * 500, "‮abc", "<img src=x onerror=alert(1)>", '\\"]}, {'])
def test_what_was_said_is_kept_as_it_is(studio: Studio, text: str) -> None:
    run = studio.with_run()

    studio.post(run, make_entry(run, body={"text": text}))

    assert studio.get(f"/runs/{run}/entries").json["entries"][0]["body"]["text"] == text


def test_half_a_character_spoils_only_its_own_entry(studio: Studio) -> None:
    run = studio.with_run()

    answer = studio.post(
        run, make_entry(run, body={"text": "\ud83d"}), make_entry(run, id="\ud83d"), make_entry(run)
    )

    assert results(answer) == ["refused", "refused", "kept"]


def test_entries_are_read_on_from_a_cursor(studio: Studio, clock: Clock) -> None:
    run, other_run = studio.with_run(), studio.with_run()
    entries = [make_entry(run) for _ in range(5)]
    for entry in entries:
        studio.post(run, entry)
        studio.post(other_run, make_entry(other_run))

    first = studio.get(f"/runs/{run}/entries?limit=3").json
    rest = studio.get(f"/runs/{run}/entries?after={first['cursor']}").json
    nothing = studio.get(f"/runs/{run}/entries?after={rest['cursor']}").json

    assert first["entries"] + rest["entries"] == entries
    assert (first["more"], rest["more"], nothing["more"]) == (True, False, False)
    assert (nothing["entries"], nothing["cursor"]) == ([], rest["cursor"])
    assert nothing["server_ms"] == clock.ms


def test_what_is_held_for_readers_follows_the_journal(studio: Studio) -> None:
    run = studio.with_run()
    entries = [make_entry(run) for _ in range(3)]

    seen = []
    for entry in entries:
        studio.post(run, entry)
        seen.append(studio.get(f"/runs/{run}/entries").json["entries"])

    assert seen == [entries[:1], entries[:2], entries]


def test_a_run_that_is_not_here_is_404(studio: Studio) -> None:
    run = uuid4()

    assert studio.post(run, make_entry(run)).status_code == 404
    assert studio.get(f"/runs/{run}/entries").status_code == 404


@pytest.mark.database("sqlite")
@pytest.mark.parametrize("query", ["after=-1", "after=x", "limit=0", "limit=1001", "after=%ff"])
def test_a_wrong_cursor_is_422(studio: Studio, query: str) -> None:
    assert studio.get(f"/runs/{studio.with_run()}/entries?{query}").status_code == 422


@pytest.mark.database("sqlite")
def test_501_entries_at_once_are_too_many(studio: Studio) -> None:
    run = studio.with_run()

    answer = studio.post(run, *[make_entry(run) for _ in range(501)])

    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == "entries"


MEGABYTES = "x" * 3_900_000


@pytest.mark.database("sqlite")
def test_a_field_that_nobody_reads_is_refused_however_small_and_no_entry_is_large(studio: Studio) -> None:
    run = studio.with_run()
    wrong = {
        "body.padding": make_entry(run, body={"text": "like wet sand", "padding": "x"}),
        "padding": make_entry(run, padding="x"),
        "body": make_entry(run, kind="levitated", body={"padding": "x" * LARGEST_ENTRY}),
    }

    answers = [studio.post(run, entry, make_entry(run)) for entry in wrong.values()]

    assert [results(answer) for answer in answers] == [["refused", "kept"]] * len(wrong)
    assert [answer.json["answers"][0]["field"] for answer in answers] == list(wrong)


@pytest.mark.database("sqlite")
def test_a_megabyte_that_nobody_reads_is_refused_in_few_words(studio: Studio) -> None:
    run = studio.with_run()

    answers = [
        studio.post(run, make_entry(run, body={"text": "a", "b": MEGABYTES})),
        studio.post(run, make_entry(run, kind="levitated", body={"b": MEGABYTES})),
        studio.post(run, make_entry(run, body={"text": "a", MEGABYTES: 1})),
        studio.post(run, make_entry(run, body={"text": "a", MEGABYTES: 1.5})),
        studio.post(run, make_entry(run, id=MEGABYTES)),
    ]

    assert [results(answer) for answer in answers] == [["refused"]] * len(answers)
    assert all(len(answer.data) < 2000 for answer in answers)


@pytest.mark.database("sqlite")
@pytest.mark.parametrize("ms", [31 * DAY_MS, Clock.ms - 2 * DAY_MS])
def test_a_clock_of_the_servers_that_is_behind_refuses_nothing_and_blames_no_phone(
    studio: Studio, clock: Clock, caplog: pytest.LogCaptureFixture, ms: int
) -> None:
    """In 1970, and two days before what it has received already."""
    run = studio.with_run()
    studio.post(run, make_entry(run, at=clock.ms))
    right = clock.ms + 3_600_000

    clock.ms = ms
    answer = studio.post(run, make_entry(run, at=right), make_entry(run, at=right + 1))

    assert results(answer) == ["kept", "kept"]
    assert "The server's clock says" in caplog.text
    clock.ms = right
    assert results(studio.post(run, make_entry(run, at=right + 2 * DAY_MS))) == ["refused"]
