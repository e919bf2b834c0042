"""The day on the phone: the plan leads the bench, says why, and goes on with no network."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, axe_finds_at_another_size, axe_finds_by_day_and_night, carry_on
from tests.frontend.phones import HOUR, call, studio_server
from tests.frontend.shelves import SIZES, go, open_page, overflowing
from tests.make import uuid7
from tests.parity.test_days import lived_until
from tests.planning.demo import WEDNESDAY
from tests.planning.mixed import mixed_day, part_of
from tests.servers import Server, demo_open, warm_bowlside

pytestmark = [pytest.mark.browser, NO_COPY]

SOON_MS = 20_000  # a plan takes under a second; a busy machine takes its time
PRESSED = "Pressed fizzing base with a clear soap pebble"


@pytest.fixture
def home(tmp_path: Path) -> Iterator[Server]:
    """The demo studio, whose bench is always open. One for each test: runs on one bench share a plan."""
    server = demo_open(tmp_path / "bowlside.sqlite3")
    yield server
    server.kill()


@pytest.fixture
def phone(page: Page, home: Server) -> Page:
    page.set_viewport_size(SIZES[1])
    return open_page(page, home)


@pytest.fixture(scope="module")
def one_day(lasting_page: Lasting, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, str]]:
    """Where such a studio is, and its run on the bench, which is planned."""
    server = demo_open(tmp_path_factory.mktemp("day") / "bowlside.sqlite3")
    carry_on(lasting_page.page)
    page = lasting_page.at(server.url)
    expect(page.locator(".recipe")).not_to_have_count(0)
    run = begin(page)
    planned(page, run)
    yield server.url, run
    server.kill()


@pytest.fixture
def day(one_day: tuple[str, str], lasting: Lasting) -> Page:
    """The day of that run, for tests that leave it as it is."""
    url, run = one_day
    page = lasting.at(url, **SIZES[1])
    planned(page, run)
    return page


def begin(page: Page) -> str:
    """A run of the three-part recipe on the bench."""
    page.locator("a.recipe", has_text=PRESSED).first.click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator(".lead")).to_be_visible()
    run: str = page.evaluate("location.hash.split('/')[2]")
    return run


def open_day(page: Page, run: str) -> Any:
    go(page, f"#/day/{run}")
    expect(page.locator("svg.day-picture")).to_be_visible()
    return page.locator("day-screen")


def planned(page: Page, run: str) -> Any:
    """The day, once the server's plan for it is here."""
    day = open_day(page, run)
    expect(day).to_contain_text("No order ends sooner.", timeout=SOON_MS)
    return day


def test_the_bench_leads_to_the_day_and_both_have_the_same_step_next(day: Page) -> None:
    """The day says why this now; the bench says no more than what changes what to do."""
    run = day.url.rsplit("/", 1)[1]
    title = day.locator(".day-next").inner_text()
    assert day.locator(".day-why").inner_text()

    day.get_by_role("link", name="To the bench").click()

    expect(day.locator(".lead")).to_have_text("The whole day")
    assert step_now(day)["title"] == title
    expect(day.locator(".lead")).to_have_attribute("href", f"#/day/{run}")

    day.reload()

    expect(day.locator("bench-screen h1")).to_have_text(title)


AT_TWO_BENCHES = """async (next) => {
    const { nextOf, leadOf, dueWords, brokenWords, isClockHere, stretch } = await import("/parts/day-ahead.js");
    const [at, hour] = [Date.now(), 3_600_000];
    const task = (id, run) => ({ id: `${run}/${id}`, run, title: id, kind: "hands", letter: "A", status: "open" });
    const problem = { tasks: [task("pour", "one"), task("pour", "two"), task("wrap", "two")] };
    const gap = { to: "two/wrap", stake: "" };
    const batches = [{ id: "one", name: "N1", isBegun: true }, { id: "two", name: "N2", isBegun: false }];
    const ahead = { problem, batches, tasks: problem.tasks, next: { broken: [], until: null, ...next }, at, broken: [{ over: hour, gap }] };
    const why = { kind: "window", says: "It must begin within 5 min." };
    const due = [{ run: "one", ready_by: at + 30 * hour, begins_at: null, why: "Too late." }, { run: "two", ready_by: at + 30 * hour, begins_at: at + 20 * hour, why: "" }];
    const plan = { due, plan: { steps: [{ id: "one/pour", why }] } };
    const leads = ["one", "two"].map((run) => leadOf(ahead, run, plan));
    const clocks = ["Etc/UTC", "UTC", "Pacific/Auckland"].map((zone) => isClockHere(zone, at));
    const noon = new Date(2026, 10, 25, 12).getTime();
    const stretches = [stretch(noon, noon + hour, noon), stretch(noon, noon + 24 * hour, noon)];
    return { stretches, next: nextOf(ahead, plan), leads, due: dueWords(ahead, plan), broken: brokenWords(ahead), clocks };
}"""


def test_what_is_next_is_one_for_all_benches_and_each_sentence_names_its_batch(day: Page) -> None:
    told = day.evaluate(AT_TWO_BENCHES, {"step": "one/pour", "why": {"kind": "next"}})
    broken = [{"over_ms": 120_000, "gap": {"to": "two/wrap", "stake": ""}}]
    least_bad = day.evaluate(AT_TWO_BENCHES, {"step": "one/pour", "why": {"kind": "next"}, "broken": broken})
    gap = {"to": "two/wrap", "stake": ""}
    waits = {
        "step": None,
        "until": 1_795_600_000_000,
        "why": {"kind": "window", "step": "two/pour", "gap": gap, "over_ms": 60_000},
    }
    resting = day.evaluate(AT_TWO_BENCHES, waits)
    beside = day.evaluate(AT_TWO_BENCHES, {**waits, "why": {"kind": "rest", "step": "two/pour"}})

    assert (told["next"]["run"], told["next"]["step"], told["next"]["advice"]) == ("one", "one/pour", "")
    assert told["leads"][0] == {"step": "pour", "advice": "", "reason": "It must begin within 5 min."}
    assert told["leads"][1] == {"step": None, "advice": "First “pour” of N1.", "reason": ""}
    assert told["broken"] == ["1 h late: “wrap” of N2."]
    assert least_bad["next"]["advice"].startswith("2 min late for “wrap” of N2 in any order.")
    assert resting["leads"][0] == resting["leads"][1]
    assert resting["next"]["advice"].startswith(
        "“pour” of N2 now, and “wrap” of N2 could start 1 min too late"
    )
    assert beside["next"]["advice"].startswith("Start nothing else: “pour” of N2 begins ")
    assert told["stretches"] == ["12:00 to 13:00", "12:00 to Thursday 12:00"]
    late, soon = told["due"]
    assert late.startswith("N1: not ready by") and late.endswith("Too late.")
    assert soon.startswith("N2 ready by ") and ": start " in soon
    zone = day.evaluate("Intl.DateTimeFormat().resolvedOptions().timeZone")
    assert told["clocks"][2] is False and (
        zone not in ("UTC", "Etc/UTC") or told["clocks"][:2] == [True, True]
    )


NEW_BATCH = """async ([sheet, measured, at, daily]) => {
    const { newBatch } = await import("/parts/day-ahead.js");
    const hours = { version: 1, document: { makers: [{ name: "You", hours: { zone: "Etc/UTC", daily } }] } };
    return newBatch({ recipe: { measured }, sheet, others: [], hours, at, measuredOf: () => null });
}"""


def test_a_batch_that_no_hours_keep_the_windows_of_is_told_no_end(day: Page) -> None:
    """The recipe wraps within hours that a bench open in the mornings only does not have."""
    sheet, measured = part_of(0, 6)
    mornings, days = [["9:00", "11:00"]], [["9:00", "12:00"], ["13:00", "22:00"]]

    never, some = (day.evaluate(NEW_BATCH, [sheet, measured, WEDNESDAY, each]) for each in (mornings, days))

    assert never["finish"] is None and some["finish"] > WEDNESDAY
    assert never["hands_ms"] == some["hands_ms"] > 0


# The lines of each day as the page has them: [advice, reason], what is missed, what stopping does.
LINES = """async (days) => {
    const [{ Day, Layout }, { nextStep }, { brokenWords, nextOf, stopLines }] = await Promise.all(
        ["/bench/layout.js", "/bench/foresight.js", "/parts/day-ahead.js"].map((path) => import(path)));
    return days.map(([problem, ids, at, hour]) => {
        const day = new Day(problem, at);
        const layout = new Layout(day, day.byNeed(ids));
        const order = layout.order.filter((index) => day.hands[index]).map((index) => problem.tasks[index].id);
        const batches = [...new Set(problem.tasks.map(({ run }) => run))].map((id) => ({ id, name: id }));
        const next = nextStep(problem, order, at);
        const finish = layout.placed ? layout.finish : null;
        const ahead = { problem, batches, order, tasks: problem.tasks, at, finish, broken: layout.broken, next };
        const { advice, reason } = nextOf(ahead, null);
        return [[advice, reason], brokenWords(ahead), stopLines(ahead, [at + hour, at + 8 * hour])];
    });
}"""


def test_no_line_of_a_day_repeats_another(day: Page) -> None:
    """Days of the demo's recipes at random, some way into them and half a day behind: no sentence twice, no step late
    twice."""
    days = []
    for seed in range(12):
        rng = random.Random(seed)
        problem, _ = mixed_day(seed)
        ids = [task["id"] for task in problem["tasks"]]
        problem, at = lived_until(problem, ids, rng)
        days.append([problem, ids, at + 12 * HOUR, HOUR])

    late = 0
    for advice, broken, stops in day.evaluate(LINES, days):
        above = [
            sentence for line in [*advice, *broken] for sentence in re.split(r"(?<=[.?]) ", line) if sentence
        ]
        steps = [found for sentence in above for found in re.findall("^(“.+) begins ", sentence)]
        assert len(above) == len(set(above)), above
        assert len(steps) == len(set(steps)), above
        late += len(broken) > 1
        does = [line.split(": ", 1)[1] for line in stops]
        assert len(does) == len(set(does)), stops
        for line in does:
            named = re.findall("(“[^”]+”[^;]*?) begins ", line)
            assert len(named) == len(set(named)), line
    assert late > 1  # such days are among them


def test_what_is_late_is_past_and_a_server_that_is_busy_says_so_itself(day: Page) -> None:
    day.route(
        "**/api/v1/plans",
        lambda route: route.fulfill(status=429, json={"detail": "16 plans are in the making already."}),
    )

    told = day.evaluate(
        """async () => {
            const { countdownOf } = await import("/parts/figure.js");
            const { Server } = await import("/keep/server.js");
            const wait = { step: "dry", began_at: 0, earliest_at: 1, usual_at: 2, latest_at: 3, word: "dry" };
            const goal = (phase) => countdownOf({ step: "dry" }, { waits: [{ ...wait, phase }], guides: [] }).until_says;
            const server = new Server({ ask: () => null, hear: () => null });
            const says = await server.ask("POST", "/plans", {}).catch((error) => error.says);
            return [goal("ready"), goal("late"), says];
        }"""
    )

    assert told == ["to the latest", "past the latest", "16 plans are in the making already."]
    day.unroute("**/api/v1/plans")


def test_the_day_stands_whole_on_every_screen_and_axe_finds_nothing(day: Page) -> None:
    day.emulate_media(reduced_motion="reduce")

    for size in SIZES:
        day.set_viewport_size(size)

        assert not overflowing(day), size
        assert (axe_finds_at_another_size if size != SIZES[0] else axe_finds_by_day_and_night)(day) == "", (
            size
        )
        assert day.evaluate("document.getAnimations().length") == 0, size
    day.emulate_media(reduced_motion="null")


def test_the_picture_shows_hands_above_and_waits_below_and_is_read_at_arm_s_length(day: Page) -> None:
    hands = day.locator(".hands-block > rect:first-of-type")
    waits = day.locator(".wait-block .body")
    lowest = max(box["y"] + box["height"] for box in boxes(hands))
    highest = min(box["y"] for box in boxes(waits))
    assert lowest < highest
    # All at one moment, too: what was taken out of the page has no size.
    sizes = day.evaluate(
        "() => [...document.querySelectorAll('.day-picture text')].map(each => parseFloat(getComputedStyle(each).fontSize))"
    )
    assert sizes and min(sizes) >= 16
    assert day.locator(".hands-block[data-next]").count() == 1
    assert day.locator(".open-hours").count() >= 1


def boxes(locator: Any) -> list[dict[str, float]]:
    """Where all of them are at one moment: the picture may be drawn anew between two."""
    found: list[dict[str, float]] = locator.evaluate_all(
        "nodes => nodes.map(node => node.getBoundingClientRect().toJSON())"
    )
    return found


def test_the_rows_of_several_batches_stand_under_their_numbers_and_the_maker_chooses_which_are_planned(
    phone: Page, home: Server
) -> None:
    first = begin(phone)
    planned(phone, first)
    go(phone, "#/")

    second = begin(phone)
    planned(phone, second)

    expect(phone.locator(".row-heads .lane-name").first).to_be_visible()
    # At one moment: the picture may be drawn anew between two questions.
    tops, rows_from, names = phone.evaluate(
        """() => {
            const heads = [...document.querySelectorAll(".row-heads .lane-name")];
            const rows = [...document.querySelectorAll(".row-heads text:not(.lane-name)")];
            const top = (each) => each.getBoundingClientRect().y;
            return [heads.map(top), Math.min(...rows.map(top)), heads.map(({ textContent }) => textContent)];
        }"""
    )
    places, numbers = zip(*(name.split(": ") for name in names), strict=True)
    assert places == tuple(str(place) for place in range(1, len(names) + 1))
    assert len(numbers) == len(set(numbers)) >= 2
    steps = phone.locator(".sessions .figures-list li").all_text_contents()
    assert {step.rsplit(", ", 1)[1] for step in steps} == set(numbers)
    assert tops == sorted(tops) and tops[0] < rows_from < tops[1]
    marks = phone.locator(".hands-block .block-letter").all_text_contents()
    assert {mark[0] for mark in marks} <= set(places) and {"1A", "2A"} <= set(
        phone.locator(".row-heads text:not(.lane-name)").all_text_contents()
    )
    go(phone, f"#/day/{first}")
    expect(phone.locator(".row-heads .lane-name")).to_have_text(names)  # the same on the other's page

    old = begun_two_days_ago(home)
    phone.evaluate("() => dispatchEvent(new Event('online'))")
    day = planned(phone, second)
    ticks = day.get_by_role("region", name="Batches in this plan").get_by_role("checkbox")
    expect(ticks.and_(phone.locator(":checked"))).to_have_count(2)

    ticks.and_(phone.locator(":checked:not(:disabled)")).click()

    expect(day.get_by_text("Planned.", exact=True)).to_be_visible(timeout=SOON_MS)
    expect(ticks.and_(phone.locator(":checked"))).to_have_count(1)
    told = call(home, "GET", f"runs/{second}/plan")
    assert (told["runs"], told["out"]) == ([second], [first])
    assert call(home, "GET", f"runs/{first}/plan")["runs"] == [first]

    # One that nobody touched for a day is asked about, and joins by no other way.
    asked = day.locator(".ask-batch")
    expect(asked).to_have_text(re.compile(r"^D-A40 was last touched .+\. Is it in this plan\?"))
    asked.get_by_role("button", name="Leave it out").click()
    expect(asked).to_have_count(0, timeout=SOON_MS)
    told = call(home, "GET", f"runs/{second}/plan")
    assert (told["runs"], set(told["out"])) == ([second], {first, old})


def begun_two_days_ago(home: Server) -> str:
    """A batch of another phone's, D-A40; its run."""
    recipe = next(each for each in call(home, "GET", "recipes")["recipes"] if PRESSED in each["title"])
    at = round(datetime.now(UTC).timestamp() * 1000) - 48 * HOUR
    begun = {
        "recipe": {"id": recipe["id"], "version": 1},
        "size": {"pieces": 12},
        "kit": call(home, "GET", "kit")["measured"],
        "made_at": at,
    }
    run = uuid7(at)
    call(home, "PUT", f"runs/{run}", begun)
    entry = {"id": uuid7(at), "run": run, "device": "desk", "at": at, "kind": "numbered"}
    call(home, "POST", f"runs/{run}/entries", {"entries": [{**entry, "body": {"number": "D-A40"}}]})
    return run


def test_keys_and_two_fingers_make_it_larger_and_smaller(day: Page) -> None:
    stage = day.get_by_role("region", name="The day as a picture")

    def wide() -> int:
        return int(day.locator("svg.day-picture").get_attribute("width") or 0)

    first = wide()
    stage.focus()
    day.keyboard.press("+")
    assert wide() > first
    day.keyboard.press("-")
    day.keyboard.press("-")
    assert wide() < first
    before = stage.evaluate("stage => stage.scrollLeft")
    day.keyboard.press("ArrowRight")
    assert stage.evaluate("stage => stage.scrollLeft") > before
    small = wide()
    stage.evaluate(
        """stage => {
            const say = (type, pointerId, clientX) => stage.dispatchEvent(new PointerEvent(type, { pointerId, clientX, pointerType: "touch", bubbles: true }));
            say("pointerdown", 1, 100);
            say("pointerdown", 2, 200);
            say("pointermove", 2, 300);
        }"""
    )
    assert wide() > small


def test_the_now_line_moves_and_without_the_server_the_last_plan_leads_and_says_how_old_it_is(
    page: Page, home: Server
) -> None:
    page.set_viewport_size(SIZES[1])
    page.clock.install(time=datetime.now(UTC))
    open_page(page, home)
    run = begin(page)
    planned(page, run)  # which draws it anew, at a scale of its own

    def line() -> float:
        return float(re.findall(r"[\d.]+", page.locator(".now-line").get_attribute("transform") or "")[0])

    before = line()
    page.clock.run_for(30_000)

    assert line() > before

    first = page.locator(".day-next").inner_text()
    page.get_by_role("link", name="To the bench").click()
    step = step_now(page)["id"]
    page.context.set_offline(True)
    page.clock.run_for(20 * 60_000)
    page.locator("bench-screen").evaluate(
        "(screen, step) => screen.dispatchEvent(new CustomEvent('answer', { bubbles: true, detail: { kind: 'skipped', body: { step } } }))",
        step,
    )

    day = open_day(page, run)

    expect(day).to_contain_text(re.compile(r"No connection\. The plan is 2\d min old"))
    expect(page.locator(".day-next")).not_to_have_text(first)


def step_now(page: Page) -> dict[str, Any]:
    """The sheet's step that the bench asks about."""
    step: dict[str, Any] = page.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const { now, fold } = await import("/bench/index.js");
            const store = await openStore();
            const { runs, entries } = await store.read("runs", "entries");
            store.close();
            const id = location.hash.split("/")[2];
            const run = runs.find((each) => each.id === id);
            const title = document.querySelector("bench-screen h1").textContent;
            const state = fold(run.sheet, entries.filter((each) => each.run === id));
            const asks = now(run.sheet, state, Date.now()).prompts.find((prompt) => prompt.title === title);
            return run.sheet.steps.find((each) => each.id === asks.step);
        }"""
    )
    return step


def test_with_no_plan_at_all_the_plain_rule_orders_the_day(phone: Page) -> None:
    phone.route("**/api/v1/hours", lambda route: route.abort())
    run = begin(phone)

    day = open_day(phone, run)

    expect(day).to_contain_text("Quick order from this phone")
    expect(phone.locator(".day-next")).not_to_be_empty()


def test_what_stopping_costs_and_what_would_save_time_are_said(day: Page) -> None:
    expect(day.get_by_role("region", name="If you stop")).to_contain_text("Stop until")
    day.get_by_role("button", name="Work it out").click()

    expect(
        day.get_by_role("region", name="What would save time").get_by_role("listitem").first
    ).to_contain_text(re.compile("A second maker|One more set|One hour more"), timeout=SOON_MS)


def test_what_stopping_costs_is_told_against_the_end_that_stands_on_the_screen(day: Page) -> None:
    """A plan may end later than could be: an hour of work that it ends at ten, put off until eleven."""
    says = day.evaluate(
        """async () => {
            const { stopLines } = await import("/parts/day-ahead.js");
            const [at, hour] = [Date.UTC(2026, 10, 25, 9), 3_600_000];
            const task = { id: "a", title: "a", kind: "hands", left_ms: hour, uses: {}, status: "open" };
            const makers = [{ name: "x", hours: [[at, at + 48 * hour]] }];
            const problem = { since: at, makers, equipment: {}, tasks: [task], gaps: [], holds: [] };
            return stopLines({ problem, order: ["a"], at, finish: at + 10 * hour }, [at + 11 * hour]);
        }"""
    )

    assert len(says) == 1 and ": 2 h later, done " in says[0]


def test_hours_and_ready_by_are_kept_to_go_into_a_calendar_and_are_told_to_a_server_that_lost_them(
    phone: Page, home: Server, tmp_path: Path
) -> None:
    run = begin(phone)
    day = planned(phone, run)

    # Ready by begins as late as that allows, and goes into a calendar.
    ready_by = day.get_by_role("textbox", name="Day and time")
    ready_by.fill("2030-01-05T08:00")
    day.get_by_role("button", name="Start as late").click()
    expect(phone.get_by_role("alert").first).to_be_visible()  # further ahead than a plan reaches
    in_a_week = phone.evaluate(
        "new Date(Date.now() + 7 * 864e5 - new Date().getTimezoneOffset() * 6e4).toISOString().slice(0, 16)"
    )
    ready_by.fill(in_a_week)
    day.get_by_role("button", name="Start as late").click()

    expect(day).to_contain_text("No order begins later and is ready in time.", timeout=SOON_MS)
    expect(day.get_by_role("region", name="Next")).to_contain_text(re.compile("Ready by .+: start "))
    with phone.expect_download() as download:
        day.get_by_role("link", name="calendar").click()
    text = Path(download.value.path()).read_text("utf-8")
    assert "BEGIN:VALARM" in text
    assert call(home, "GET", f"runs/{run}/plan")["aim"] == "ready_by"

    # Hours are said on the phone, and the day keeps to them.
    day.get_by_role("button", name="Finish as soon").click()
    expect(day.get_by_text("Planned.", exact=True)).to_be_visible(timeout=SOON_MS)
    day.get_by_label("Each day").fill("9:00 to 8:00")
    day.get_by_role("button", name="Save hours").click()
    wrong = day.get_by_role("region", name="Bench hours").get_by_role("alert")
    expect(wrong).to_contain_text("ends before it begins")
    expect(wrong).to_be_in_viewport()
    expect(day.get_by_text("Planned.", exact=True)).to_have_count(0)
    for said, read in (
        ("9-17", "9:00 to 17:00"),
        ("9 Uhr bis 17.30 Uhr", "9:00 to 17:30"),
        ("7-10 pm, 9 am – 5 pm", "19:00 to 22:00, 9:00 to 17:00"),
        ("0:00 to 12:00, 12:30 to 24:00", "0:00 to 12:00, 12:30 to 24:00"),
    ):
        day.get_by_label("Each day").fill(said)
        with phone.expect_response(
            lambda heard: heard.url.endswith("/hours") and heard.request.method == "PUT"
        ):
            day.get_by_role("button", name="Save hours").click()
        expect(day.get_by_label("Each day")).to_have_value(read)

    expect(day).to_contain_text("Hours saved.")
    kept = call(home, "GET", "hours")["document"]["makers"][0]["hours"]
    assert kept["daily"] == [["0:00", "12:00"], ["12:30", "24:00"]]
    day.get_by_role("button", name="Add a second pair of hands").click()
    expect(day.get_by_label("Whose hands")).to_have_count(2)
    day.get_by_role("button", name="One pair of hands again").click()
    expect(day.get_by_label("Whose hands")).to_have_count(1)

    # Where the phone goes by another place's clock, it says whose the hours are.
    go(phone, "#/")
    devtools = phone.context.new_cdp_session(phone)
    devtools.send("Emulation.setTimezoneOverride", {"timezoneId": "Pacific/Auckland"})
    expect(open_day(phone, run)).to_contain_text(f"By the clock of {kept['zone']}")

    # A server that lost everything is told both.
    ready_by.fill(in_a_week)
    day.get_by_role("button", name="Start as late").click()
    expect(day.get_by_role("region", name="Next")).to_contain_text(
        re.compile("Ready by .+: start "), timeout=SOON_MS
    )
    home.stop()
    bare = warm_bowlside(tmp_path / "bare.sqlite3")
    bare.url = home.url
    bare.start()
    try:
        with phone.expect_response(
            lambda told: told.request.method == "POST" and told.url.endswith("/plans")
        ):
            phone.reload()

        assert call(bare, "GET", f"runs/{run}/plan")["aim"] == "ready_by"
        assert call(bare, "GET", "hours")["document"]["makers"][0]["hours"]["daily"] == kept["daily"]
    finally:
        bare.stop()


def test_a_studio_s_first_hours_are_by_the_clock_of_the_phone_that_says_them(
    page: Page, tmp_path: Path
) -> None:
    fresh = studio_server(tmp_path / "fresh.sqlite3")
    devtools = page.context.new_cdp_session(page)
    devtools.send("Emulation.setTimezoneOverride", {"timezoneId": "Pacific/Auckland"})
    open_page(page, fresh)
    page.locator("a.recipe").first.click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator(".lead")).to_be_visible()
    day = planned(page, page.evaluate("location.hash.split('/')[2]"))

    day.get_by_label("Each day").fill("6:00 to 23:00")
    day.get_by_role("button", name="Save hours").click()

    expect(day).to_contain_text("Hours saved.")
    assert call(fresh, "GET", "hours")["document"]["makers"][0]["hours"]["zone"] == "Pacific/Auckland"
    expect(day).not_to_contain_text("By the clock of")
    fresh.kill()
