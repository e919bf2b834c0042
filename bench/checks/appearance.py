"""Appearance: a piece that could be taken for something to eat."""

import re
from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding
from bench.words import say

# What is eaten and gives a piece its shape, in five languages. What it merely smells of is left out.
FOOD = re.compile(
    r"\b(?:(?:cup|short|cheese|pan)?cakes?|muffins?|doughnuts?|donuts?|macarons?|cookies?|biscuits?|ice ?creams?|sundaes?"
    r"|lollip\w+|popsicles?|truffles?|pralines?|chocolates?|candy|candies|sweets|gumm\w+|marshmallows?|jelly beans?"
    r"|\w*(?:törtchen|kuchen|torte|pralinen?|kekse?|bonbons?|lutscher|eiscreme)|gâteaux?|bonbons?|biscuits?|glaces?"
    r"|pasteles?|galletas?|caramelos?|bombones|tort[ae]|dolcett\w|biscott\w|caramell\w|gelat[oi])\b",
    re.IGNORECASE,
)


def like_food(subject: Subject) -> Iterator[Finding]:
    looks = subject.recipe["looks_like_food"]
    if looks:
        yield finding("like-food", "look", "looks_like_food", say("checks-like-food"))
    elif looks is None:
        yield finding("like-food-unknown", "know", "looks_like_food", say("checks-like-food-unknown"))
    elif FOOD.search(f"{subject.recipe['title']} {subject.recipe['piece']['one']}"):
        yield finding("like-food-named", "look", "looks_like_food", say("checks-like-food-named"))
