"""Texts that are pasted: most amounts are read, and none is read as another without a word."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.frontend.pasted import TEXTS, Wanted
from tests.frontend.phones import BLANK, studio_server

pytestmark = pytest.mark.browser

SAME = {"cups": "cup", "teaspoons": "tsp", "tsps": "tsp", "tablespoons": "tbsp", "parts": "part", "lbs": "lb"}
LONGER = 25  # what may stand behind a name: "butter (refined)", "flour, sifted"


@pytest.fixture(scope="module")
def readings(browser: Browser, tmp_path_factory: Any) -> list[list[dict[str, Any]]]:
    server = studio_server(tmp_path_factory.mktemp("pasted") / "studio.sqlite3")
    page = browser.new_page()
    page.goto(server.url + BLANK)
    read: list[list[dict[str, Any]]] = page.evaluate(
        """async (texts) => {
             const { readText } = await import("/parts/recipe-text.js");
             return texts.map((text) => readText(text, "us").filter((item) => "text" in item));
           }""",
        [text for text, _ in TEXTS],
    )
    page.close()
    server.stop()
    return read


def plain(amount: str) -> str:
    """An amount in one way of writing: "1½ Tbsp." and "1 1/2 tbsp" are one."""
    spaced = re.sub(r"(\d)([½¼¾⅓])", r"\1 \2", amount)
    folded = unicodedata.normalize("NFKC", spaced).casefold().replace("\u2044", "/").replace(",", ".")
    parts = re.sub(r"(\d)([a-z%])", r"\1 \2", folded).replace(".0 ", " ").split()
    return " ".join(SAME.get(part.strip("."), part.strip(".")) for part in parts)


def words(name: str) -> str:
    return " ".join(re.findall(r"\w+", name.casefold()))


def judge(items: list[dict[str, Any]], wanted: Wanted) -> list[str]:
    """Of each amount "right", "asked" (its maker must say) or "wrong" (it is another's, or another, without a word)."""
    said = []
    for amount, name in wanted:
        of = [each for each in items if words(name) in words(each["name"])]
        given = [each for each in of if each.get("amount")]
        if amount is None or "-" in amount:
            said.append("wrong" if given else "right")
        elif any(
            plain(each["amount"]) == plain(amount) and len(words(each["name"])) <= len(words(name)) + LONGER
            for each in given
        ):
            said.append("right")
        else:
            said.append("wrong" if given else "asked")
    return said


def test_of_more_than_a_hundred_texts_nine_in_ten_amounts_are_right_and_none_is_silently_wrong(
    readings: list[list[dict[str, Any]]],
) -> None:
    assert len(TEXTS) >= 100
    judged = [judge(items, wanted) for items, (_, wanted) in zip(readings, TEXTS, strict=True)]
    silently = [text for each, (text, _) in zip(judged, TEXTS, strict=True) if "wrong" in each]
    assert silently == []
    all_of_them = [each for of_text in judged for each in of_text]
    share = all_of_them.count("right") / len(all_of_them)
    missed = [text for each, (text, _) in zip(judged, TEXTS, strict=True) if "asked" in each]
    assert share >= 0.9, (share, missed)


def test_no_amount_is_made_up(readings: list[list[dict[str, Any]]]) -> None:
    """Each number of each amount that was read stands in the text that it was read from."""
    for items, (text, _) in zip(readings, TEXTS, strict=True):
        there = re.findall(r"[\d½¼¾⅓]+", text)
        for item in items:
            assert all(each in there for each in re.findall(r"[\d½¼¾⅓]+", item.get("amount") or "")), item
