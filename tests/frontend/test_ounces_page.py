"""A maker whose scale shows ounces, who asks for ounces and degrees Fahrenheit: from the kit to the record."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, type_on_pad
from tests.frontend.phones import call
from tests.frontend.shelves import begin_bars, go, open_page
from tests.servers import Server, as_sent

pytestmark = [pytest.mark.browser, NO_COPY]


def test_a_batch_on_a_scale_of_a_twentieth_of_an_ounce(page: Page, server: Server) -> None:
    open_page(page, server)
    go(page, "#/kit")
    kit = page.locator("kit-screen")
    kit.get_by_role("button", name="Add a scale").click()
    scale = kit.get_by_role("region", name="Scales")
    for label, written in (("Name", "Post scale"), ("Up to", "11 lb"), ("In steps of", "0.05 oz")):
        scale.get_by_label(label).last.fill(written)
    while scale.get_by_role("button", name="Remove").count() > 1:
        scale.get_by_role("button", name="Remove").first.click()
    kit.get_by_role("button", name="Save").click()
    expect(kit.get_by_role("status")).to_have_text("Saved.")
    measured = call(server, "GET", "kit")["measured"]["scales"]
    assert [(each["division_mg"], each["division_uoz"]) for each in measured] == [(1417, 50_000)]

    begin_bars(page)
    bench = page.locator("bench-screen")
    title = bench.locator("h1")
    expect(title).to_have_text("Hard butter: add 5.30 oz")
    expect(bench.get_by_role("button", name="It reads 5.30 oz")).to_be_visible()
    bench.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "5.35")
    expect(page.locator(".pad-off")).to_have_text("0.05 oz too much, near enough")
    page.keyboard.press("Enter")
    expect(title).to_have_text("Light oil: add 1.75 oz")
    expect(bench.get_by_role("img", name=re.compile("Hard butter 5.35 oz"))).to_be_visible()
    expect(bench.get_by_role("button", name=re.compile("Undo: Hard butter 5.35 oz"))).to_be_visible()
    bench.get_by_role("button", name="It reads 7.10 oz").click()
    expect(title).not_to_contain_text("Light oil")

    go(page, page.evaluate("location.hash").replace("bench", "record"))
    record = page.locator("record-screen")
    butter = record.get_by_role("row", name=re.compile("^Hard butter")).first
    expect(butter).to_contain_text(re.compile(r"5\.30 oz.*± .* oz.*5\.35 oz"))
    expect(record).to_contain_text("in steps of 0.05 oz")

    go(page, "#/studio")
    page.get_by_label("Ounces and pounds").check()
    expect(page.locator("studio-screen")).to_be_visible()
    page.get_by_label("°F").check()
    page.wait_for_function("() => document.cookie.includes('units=oz-f')")
    expect(page.get_by_label("°F")).to_be_checked()
    go(page, "#/")
    page.locator("a.recipe").click()
    page.get_by_role("radio", name="Total mass").check()
    expect(page.get_by_role("textbox", name="ounces in all")).to_have_value("70")
    expect(page.locator("size-screen")).to_contain_text(re.compile(r"\d lb"))
    shown = as_sent(
        "async () => { const { bench, parts } = { bench: (await import('/app.js')).$bench_whole,"
        " parts: (await import('/app.js')).$parts_words };"
        " return [bench.temperature(60000), parts.exactly(453592), parts.exactly(737087), parts.about(150000)]; }"
    )
    says = page.evaluate(shown)
    assert says == ["140 °F", "1 lb", "1 lb 10 oz", "5.29 oz"]
