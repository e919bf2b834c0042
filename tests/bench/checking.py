"""Recipes for the check: what a rule looks at, made in a line or two."""

from __future__ import annotations

from workshop import make_document

from bench import check_recipe, read_recipe

DRY_DAY = {"temperature_c": 20, "humidity": 40}
BICARBONATE = {"kind": "bicarbonate"}
ACID = {"kind": "citric_acid", "form": "anhydrous"}
FRAGRANCE = {"kind": "fragrance", "fragrance": {"limit": "2 %"}}
SOAP = {"kind": "soap_base", "most_c": "70"}
WRAP = {"id": "wrap", "kind": "pieces", "title": "Wrap", "does": "wrap"}


def make(*lines, facts=(), **other):
    """A recipe whose i0, i1, ... carry these facts."""
    document = make_document(*lines, **other)
    for key, each in zip(document["ingredients"], facts, strict=False):
        document["ingredients"][key] |= {"name": key, **each}
    return document


def check(document, air=None, kit=None):
    return check_recipe(read_recipe(document), air, kit)


def says(found, *words):
    """The findings whose `what` holds all of these words."""
    return [each for each in found if all(word in each["what"] for word in words)]


def weigh(key, *lines, into="bowl", **other):
    return {"id": key, "kind": "weigh", "title": key, "lines": list(lines), "into": into, **other}


def do(key, **other):
    return {"id": key, "kind": "do", "title": key, **other}


def melt(*of, to="60", heater="microwave", **other):
    return {
        "id": "melt",
        "kind": "melt",
        "title": "melt",
        "of": list(of),
        "heater": heater,
        "burst": "10 s",
        "to_c": to,
        "look_for": "Liquid.",
        **other,
    }


def wait(key="rest", earliest="1 h", **other):
    return {
        "id": key,
        "kind": "wait",
        "title": key,
        "word": "dry",
        "earliest": earliest,
        "usual": earliest,
        **other,
    }


def fizz_with_butter(to="45", heater="microwave", between=(), tips=True):
    """Butter melted in a jug and tipped into the dry mix."""
    steps = [
        weigh("dry", "l0", "l1"),
        weigh("cut", "l2", into="jug"),
        melt("l2", to=to, heater=heater),
        *between,
        do(
            "join",
            after=[between[-1]["id"] if between else "melt", "dry"],
            **({"tips": ["jug"]} if tips else {}),
        ),
        WRAP,
    ]
    return make("200 g", "100 g", "10 g", facts=[BICARBONATE, ACID, {"kind": "butter"}], steps=steps)


def pieces(key, does):
    return {"id": key, "kind": "pieces", "title": key, "does": does}


def topped(embed, base="40 g"):
    """A soap base, a whipped top on it and a soap embed set into the top."""
    document = make("100 g", facts=[SOAP], part_id="base", part_piece=base)
    document["ingredients"]["whip"] = {"name": "Whip", "kind": "whipping_base"}
    line = {"id": "l0", "ingredient": "i0", "amount": "100 g"}
    steps = [weigh("in", "l0"), {"id": "made", "kind": "pieces", "title": "made"}]
    document["components"] += [
        {
            "id": "top",
            "name": "Top",
            "piece": "20 g",
            "lines": [{**line, "ingredient": "whip"}],
            "steps": steps,
        },
        {"id": "embed", "name": "Embed", "piece": embed, "lines": [line], "steps": steps},
    ]
    document["assembly"] = {
        "takes": [{"component": key} for key in ("base", "top", "embed")],
        "steps": [
            {"id": "pipe", "kind": "pieces", "title": "pipe", "after": ["base.press", "top.made"]},
            {"id": "set", "kind": "pieces", "title": "set", "after": ["pipe", "embed.made"]},
        ],
    }
    return document
