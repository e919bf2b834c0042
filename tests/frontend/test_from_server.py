"""What only the server has: asked for as its screen opens, as the connection comes back, and by hand, and else never."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY
from tests.frontend.phones import eventually
from tests.frontend.shelves import open_page
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

SOAK = "0197a0e2-0000-4000-8000-0000000000d1"
SCREENS = {
    "audit": {},
    "recall/lots.l1": {"id": "lots.l1", "entries": []},
    f"trials/{SOAK}": {"id": SOAK, "recipe": {"title": "Soak"}},
    "figures": {"id": "", "recipes": []},
}
ALONE = """([tag, data]) => {
  const screen = document.createElement(tag);
  window.asked = [];
  const hear = (event) => window.asked.push(event.detail.done ?? ((told) => screen.told(told)));
  for (const name of ["online-asked", "audit-wanted", "recall-wanted"]) screen.addEventListener(name, hear);
  window.drawn = (isOnline) => { screen.data = { ...data, isOnline, newId: () => "x" }; };
  window.end = () => { for (const done of window.asked.slice(window.ended ?? 0)) done({ says: "Away." }); };
  document.body.replaceChildren(screen);
}"""


@pytest.mark.parametrize("address", SCREENS)
def test_what_did_not_come_is_asked_for_once_then_with_the_connection_and_by_hand(
    page: Page, home: Server, address: str
) -> None:
    open_page(page, home)
    tag = f"{address.partition('/')[0]}-screen"
    page.evaluate(
        """async (tag) => { await (await import("/connected.js"))[tag.replace("-screen", "")](); }""", tag
    )
    page.evaluate(ALONE, [tag, SCREENS[address]])
    again = page.locator(tag).get_by_role("button", name="Try again")

    def asks() -> int:
        """How many times it asked since; a table and its panels, asked for together, are one."""
        many: int = page.evaluate("() => window.asked.length")
        return many // (2 if address == "figures" else 1)

    def draw(*states: bool) -> None:
        for state in states:
            page.evaluate("state => window.drawn(state)", state)

    draw(False, False)
    assert asks() == 1, "it opens: what is believed of the connection may be old"
    page.evaluate("() => window.end()")
    expect(again).to_be_visible()
    draw(False, False)
    assert asks() == 1, "drawn again, it waits for its button or the connection"
    draw(True, True, True)
    assert asks() == 2, "the connection is back"
    draw(False, True)
    assert asks() == 2, "it is on its way"
    page.evaluate("() => window.end()")
    eventually(page, lambda: asks() == 3)  # it came back meanwhile
    page.evaluate("() => window.end()")
    again.click()
    assert asks() == 4, "asked for by hand"


def test_a_recall_tells_no_share_of_what_was_never_counted(page: Page, home: Server) -> None:
    open_page(page, home)
    page.evaluate("""async () => { await (await import("/connected.js")).recall(); }""")
    page.evaluate(ALONE, ["recall-screen", {"id": "lots.l1", "entries": []}])
    batch = {"run": "r", "title": "Bars", "number": "B-1", "here": 0, "binned": 0, "at": [], "shelved": 0}
    recall = page.locator("recall-screen")
    for made, shares in ((None, 0), (12, 1)):
        told = {
            "rehearsal": False,
            "next": None,
            "total": 1,
            "made": made or 0,
            "found": made or 0,
            "unknown": 0,
        }
        page.evaluate(
            """([told, batch]) => {
                 window.drawn(true);
                 document.querySelector("recall-screen").told({ recall: { ...told, batches: [batch] } });
               }""",
            [told, {**batch, "made": made}],
        )
        expect(recall.locator("section h2")).to_have_text("B-1, Bars")
        expect(recall.get_by_text("100 %")).to_have_count(shares)
    expect(recall).to_contain_text("12 of 12 pieces found: 100 %")
