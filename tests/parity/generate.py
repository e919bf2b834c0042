"""Makes batches at random: recipes, kits, sizes and journals, likely ones and hostile ones.

    generate(random.Random("7")) -> {"recipe", "kit", "request", "entries", "instants", "shelf", "uses",
    "settings", "labelled"}

The same seed gives the same batch. Numbers that JSON can write in two ways (12.0 and 12) are left
out: in JavaScript they are one, and the server lets neither into a journal.
"""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

from bench import BenchError, choose_size, fold, make_sheet, now, read_kit, read_recipe, seal
from bench.journal import KINDS
from bench.shelf import SHELF_KINDS

Json = dict[str, Any]

DEMO = Path(__file__).resolve().parents[2] / "demo"
START = 1_800_000_000_000
MINUTE = 60_000
BATCH = "0197a0e2-0000-7000-8000-00000000000a"
HAZARDS = ["hot_soap", "powder", "alcohol", "mixer"]


def generate(rng: Random) -> Json:
    recipe = _demo_recipe(rng) if rng.random() < 0.2 else _recipe(rng)
    kit = _demo_kit() if rng.random() < 0.2 else _kit(rng)
    request = _request(rng, recipe, kit)
    case = {
        "recipe": recipe,
        "kit": kit,
        "request": request,
        "entries": [],
        "instants": [START],
        "frozen": None,
    }
    case |= {"shelf": _shelf(rng, recipe), "uses": {f"lot-{number}": _uses(rng) for number in (1, 2)}}
    case["settings"] = {"currency": rng.choice(["EUR", "JPY"]), "hourly_rate": "18.5", "wrap_cost": "0.075"}
    case["settings"] |= _money(rng)
    case["before"] = rng.choice([[], ["cleared"], ["cleared", "cleaned"]])
    case["labelled"] = _labelled(rng, list(recipe["ingredients"]))
    try:
        size = choose_size(recipe, kit, request)["size"]
        sheet = make_sheet(recipe, {"id": "recipe-1", "version": 1}, size, kit)
    except BenchError:
        return case  # the error itself is what must agree
    entries = _likely_entries(rng, sheet)
    if rng.random() < 0.6:
        entries = _made_hostile(rng, sheet, entries)
    if rng.random() < 0.5:
        entries = _signed_over(rng, sheet, entries)
    case["entries"] = entries
    case["frozen"] = _frozen(rng, entries)
    case["tame"] = tame(entries)
    case["instants"] = _instants(rng, fold(sheet, entries))
    return case


# Recipes and kits


def _money(rng: Random) -> Json:
    said = {
        "packaging_cost": rng.choice(["0.30", "0.333"]),
        "sprays_cost": "0.10",
        "overhead_cost": rng.choice(["2", "0.995"]),
        "cleaning_minutes": rng.randint(0, 40),
        "labelling_seconds": rng.randint(0, 90),
        "fee_percent": rng.choice(["2.9", "30"]),
        "fee_each": "0.35",
        "margin_percent": rng.choice(["", "0", "45.5", "80"]),
        "tax_percent": rng.choice(["0", "8.875", "19"]),
    }
    return {key: value for key, value in said.items() if rng.random() < 0.5}


def _demo_recipe(rng: Random) -> Json:
    paths = sorted(path for path in (DEMO / "recipes").glob("*.json") if path.name != "index.json")
    return read_recipe(json.loads(rng.choice(paths).read_text("utf-8")))


def _demo_kit() -> Json:
    return read_kit(json.loads((DEMO / "kit.json").read_text("utf-8")))


def _recipe(rng: Random) -> Json:
    """A measured recipe; documents that do not hold together are thrown away."""
    while True:
        try:
            return read_recipe(_turned(rng, _document(rng)))
        except BenchError:
            continue


def _turned(rng: Random, document: Json) -> Json:
    """The document, with turns in the half of its parts that have a wait."""
    for part in [*document["components"], document.get("assembly", {"steps": []})]:
        waits = [step["id"] for step in part["steps"] if step["kind"] == "wait"]
        if waits and rng.random() < 0.5:
            every = rng.choice(["10 min", "25 min", "40 min"])
            turn = {"id": "turn", "kind": "turn", "title": "Turn them", "word": "turned", "every": every}
            turn |= {"during": rng.choice(waits), **({"says": "Gently."} if rng.random() < 0.5 else {})}
            turn |= {"hazards": [rng.choice(HAZARDS)]} if rng.random() < 0.2 else {}
            part["steps"].insert(rng.randint(0, len(part["steps"])), turn)
    return document


def _document(rng: Random) -> Json:
    ingredients = {f"i{number}": _ingredient(rng, number) for number in range(rng.randint(2, 7))}
    components: list[Json] = []
    for number in range(rng.choice([1, 1, 2, 2, 3])):
        components.append(_component(rng, f"c{number}", list(ingredients), components))
    document: Json = {
        "format": "bowlside-recipe/1",
        "title": "Recipe “№ 1” 🛁",
        "measures": rng.choice(["us", "imperial", "metric"]),
        "written_for": rng.choice([1, 2, 7, 12, 100]),
        "ingredients": ingredients,
        "components": components,
    }
    if rng.random() < 0.6:
        document |= {"stays_on": rng.random() < 0.5, "looks_like_food": rng.random() < 0.5}
    if rng.random() < 0.3:
        document |= {
            "use": rng.choice(["bath", "left_on", "air"]),
            "sold_in": rng.sample(["us", "eu", "uk", "ni"], 2),
        }
    if rng.random() < 0.4:
        document["good_piece"] = rng.choice(
            [
                {"mass": {"least": "95 g", "most": "105.5 g"}, "look": "No cracks."},
                {"ph": {"least": "5", "most": "6.5"}, "set": "It springs back."},
            ]
        )
    if rng.random() < 0.3:
        document["before"] = rng.choice([["cleaned"], ["cleared", "cleaned", "cleared"][:2]])
    if rng.random() < 0.5:
        document["piece"] = {"one": "bar", "many": "bars"}
    if len(components) > 1 or rng.random() < 0.5:
        document["assembly"] = _assembly(rng, list(ingredients), components)
    return document


def _ingredient(rng: Random, number: int) -> Json:
    ingredient: Json = {"name": f"Ingredient {'αβγδεζη'[number]}"}
    if rng.random() < 0.7:
        names = [
            "Aqua",
            "Glycerin",
            "CI 77491",
            "Mica",
            "water",
            "1,2-Hexanediol",
            "Aqua 40 %",
            "Glycerin 0.5 %",
        ]
        ingredient["inci"] = ", ".join(rng.sample(names, rng.choice([1, 1, 2, 3])))
    if rng.random() < 0.6:
        ingredient["kind"] = rng.choice(["mica", "lake", "oil", "soap_base", "whipping_base", "other"])
    if rng.random() < 0.3:
        allergens = [
            {"name": name, "share": share} for name, share in (("Linalool", "0.5 %"), ("Coumarin", "2 %"))
        ]
        ingredient |= {"kind": "fragrance", "fragrance": {"allergens": allergens[: rng.randint(0, 2)]}}
    if rng.random() < 0.5:
        ingredient["density"] = {"g_per_ml": rng.choice(["0.91", "1.26", "2.165"]), "source": "made up"}
    if rng.random() < 0.5:
        ingredient["heat"] = {
            "solid_j_per_kg_k": rng.randint(1000, 3000),
            "liquid_j_per_kg_k": rng.randint(1000, 3000),
            "latent_j_per_kg": rng.randint(0, 200_000),
            "melts_c": rng.choice(["34", "55.5", "70"]),
            "source": "made up",
        }
    if rng.random() < 0.4:
        ingredient["hazards"] = rng.sample(HAZARDS, 2)
    return ingredient


def _lines(rng: Random, ingredients: list[str], most: int) -> list[Json]:
    how = rng.choice(["mass", "mass", "parts", "percent"])
    lines: list[Json] = []
    for number in range(rng.randint(0, most)):
        line: Json = {
            "id": f"l{number}",
            "ingredient": rng.choice(ingredients),
            "amount": _amount(rng, how if number else "mass"),
        }
        if how == "parts" and number == 0:
            line["amount"] = _amount(rng, "parts")
        if rng.random() < 0.3:
            line["tolerance"] = rng.choice(["0.5 %", "1 %", "5 %"])
        if rng.random() < 0.3:
            line["optional"] = True
        if rng.random() < 0.1:
            line["second_look"] = True
        if rng.random() < 0.3:
            line["note"] = "Sieve it first."
        if rng.random() < 0.3:
            other = {"ingredient": rng.choice(ingredients), "says": "Softer."}
            if rng.random() < 0.5:
                other["amount"] = _amount(rng, "mass")
            line["substitutes"] = [other]
        lines.append(line)
    return lines


def _amount(rng: Random, how: str) -> str:
    if how == "parts":
        return f"{rng.randint(1, 9)} parts"
    if how == "percent":
        return f"{rng.randint(1, 20)}.{rng.randint(0, 9)} %"
    kind = rng.random()
    if kind < 0.55:
        return f"{rng.choice([0.03, 0.5, 3, 12.5, 240, 333.333, 1200])} g"
    if kind < 0.65:
        return rng.choice(["8 1/2 oz", "1 lb", "2 kg", "45 mg"])
    if kind < 0.85:
        return rng.choice(["1½ tsp", "2 3/4 tsp", "1 tbsp", "½ cup", "3 ml", "0.1 ml", "2 fl oz"])
    return rng.choice(["12 drops", "1 drop", "2 pieces", "½ piece", "to texture"])


def _component(rng: Random, key: str, ingredients: list[str], others: list[Json]) -> Json:
    lines = _lines(rng, ingredients, 6)
    component: Json = {"id": key, "name": f"Part {key}", "lines": lines}
    if rng.random() < 0.6:
        component["piece"] = rng.choice(["15 g", "150 g", "3.33 g", "1 kg"])
    if rng.random() < 0.4:
        component["spares"] = rng.randint(1, 5)
    if rng.random() < 0.4:
        component["stays_behind"] = rng.choice(["1 g", "20 g"])
    if rng.random() < 0.4:
        component["loss"] = rng.choice(["0.5 %", "2 %", "33.3333 %"])
    if rng.random() < 0.3:
        component["part"] = "100 g"
    if rng.random() < 0.4:
        component["vessel"] = rng.choice(["bowl", "pan", "jug"])
    if rng.random() < 0.4:
        component["mould"] = {"shape": rng.choice(["dome", "bar", "star"]), "held": rng.random() < 0.6}
    component["steps"] = _steps(rng, lines, others)
    return component


def _steps(rng: Random, lines: list[Json], others: list[Json]) -> list[Json]:
    steps: list[Json] = []
    keys = [line["id"] for line in lines]
    labels: list[str] = []
    while keys:
        taken, keys = keys[: (cut := rng.randint(1, len(keys)))], keys[cut:]
        into = rng.choice(["bowl", "bowl", "jug", "cup"])
        labels.append(into)
        steps.append({"kind": "weigh", "lines": taken, "into": into})
        if rng.random() < 0.3:
            steps.append(_melt(rng, taken))
        if into != "bowl" and rng.random() < 0.7:
            steps.append({"kind": "do", "tips": [into], "does": "mix"})
    if rng.random() < 0.4:
        steps.append(_check(rng))
    portions: list[str] = []
    if rng.random() < 0.4:
        portions = [f"p{number}" for number in range(rng.randint(2, 4))]
        share = rng.choice(["share", "mass"])
        steps.append(
            {
                "kind": "split",
                "portions": [
                    {
                        "id": each,
                        "name": each.upper(),
                        share: rng.randint(1, 5) if share == "share" else f"{rng.randint(1, 400)} g",
                    }
                    for each in portions
                ],
            }
        )
    for _ in range(rng.randint(0, 3)):
        steps.append(
            rng.choice(
                [
                    lambda: {"kind": "do", **({"about": "3 min"} if rng.random() < 0.6 else {})},
                    lambda: _check(rng),
                    lambda: _pieces(rng, portions),
                    lambda: _wait(rng),
                ]
            )()
        )
    if rng.random() < 0.7:
        steps.append(_wait(rng))
        steps.append({**_pieces(rng, portions), "does": "unmould"})
    steps = steps or [{"kind": "do"}]
    elsewhere = [f"{other['id']}.{step['id']}" for other in others for step in other["steps"]]
    return _named(rng, steps, elsewhere)


def _named(rng: Random, steps: list[Json], elsewhere: list[str]) -> list[Json]:
    """The steps with ids and titles, and now and then needs, a window, ways, hazards of their own."""
    for number, step in enumerate(steps):
        step |= {"id": f"s{number}", "title": f"Step {number} {step['kind']}"}
        before = [each["id"] for each in steps[:number]]
        if rng.random() < 0.25:
            pool = before + elsewhere
            step["after"] = rng.sample(pool, min(len(pool), rng.randint(0, 3)))
        if rng.random() < 0.25 and (number or step.get("after")):
            step["window"] = {"latest": rng.choice(["90 s", "15 min", "2 h"]), "stake": "It stiffens."}
            if before + elsewhere and rng.random() < 0.5:
                step["window"]["from"] = rng.choice(before + elsewhere)
        if rng.random() < 0.2 and step["kind"] in ("do", "check", "pieces"):
            step["ways"] = [
                {"id": "water", "name": "Water"},
                {"id": "alcohol", "name": "Alcohol", "says": "Dries quickly.", "hazards": ["alcohol"]},
            ]
        if rng.random() < 0.3:
            step["hazards"] = rng.choices(HAZARDS, k=2)
        if rng.random() < 0.3:
            step["says"] = "Slowly."
        if rng.random() < 0.3:
            step["reason"] = "Or it foams."
        if rng.random() < 0.2:
            step["optional"] = True
        if rng.random() < 0.2:
            step |= {"hands": "5 min", "tools": ["whisk"]}
    return steps


def _melt(rng: Random, keys: list[str]) -> Json:
    heater = rng.choice(["microwave", "microwave", "water_bath"])
    melt: Json = {"kind": "melt", "of": keys, "heater": heater, "burst": "20 s", "look_for": "No lumps."}
    if rng.random() < 0.7:
        melt |= {"from_c": "20", "to_c": rng.choice(["30", "55.5", "70"])}
    if rng.random() < 0.6:
        melt |= {"last_burst": "10 s", "rest": "30 s"}
    return melt


def _check(rng: Random) -> Json:
    check: Json = {"kind": "check", "ask": "Like wet sand?", "not_yet": {"do": "One spray."}}
    if rng.random() < 0.5:
        check |= {"yes": "It holds", "too_far": {"do": "Let it dry.", "wait": "4 min"}}
    return check


def _pieces(rng: Random, portions: list[str]) -> Json:
    pieces: Json = {"kind": "pieces", "one_by_one": rng.random() < 0.5, "partial": rng.random() < 0.5}
    if rng.random() < 0.5:
        pieces |= {"verb": "pressed", "again": "Has it dried?"}
    if portions and rng.random() < 0.6:
        pieces["of"] = portions
    return pieces


def _wait(rng: Random) -> Json:
    wait: Json = {"kind": "wait", "word": rng.choice(["dry", "set"]), "earliest": "20 min", "usual": "1 h"}
    if rng.random() < 0.5:
        wait |= {"latest": rng.choice(["61 min", "2 h", "3 days"]), "stake": "It sweats."}
    if rng.random() < 0.5:
        wait["test"] = "Press it."
    return wait


def _assembly(rng: Random, ingredients: list[str], components: list[Json]) -> Json:
    lines = _lines(rng, ingredients, 2)
    steps: list[Json] = [{"kind": "weigh", "lines": [line["id"]]} for line in lines]
    steps += [{"kind": "do"}, _pieces(rng, [])]
    ends = [f"{component['id']}.{component['steps'][-1]['id']}" for component in components]
    steps = _named(rng, steps, ends)
    steps[0]["after"] = ends
    if rng.random() < 0.6:
        leads = rng.choice(components)
        steps[-1]["window"] = {
            "from": f"{leads['id']}.{rng.choice(leads['steps'])['id']}",
            "latest": "20 min",
            "stake": "It stiffens.",
        }
    takes = [{"component": component["id"], "count": rng.choice([1, 1, 2])} for component in components]
    return {"takes": takes, "lines": lines, "steps": steps}


def _kit(rng: Random) -> Json:
    scales = [
        {"id": "bench", "name": "Bench scale", "capacity": "5 kg", "division": "1 g"},
        {"id": "fine", "name": "Fine scale", "capacity": "500 g", "division": "0.01 g"},
        {"id": "floor", "name": "Floor scale", "capacity": "60 kg", "division": "20 g"},
        {"id": "odd", "name": "Odd scale", "capacity": "2 lb", "division": "0.1 oz"},
    ]
    vessels = [
        {"id": "big", "name": "Big bowl", "kind": "bowl", "empty": "420 g", "holds": "3 kg"},
        {"id": "small", "name": "Small bowl", "kind": "bowl", "empty": "180 g", "holds": "900 g"},
        {"id": "jug", "name": "Jug", "kind": "jug", "empty": "95 g", "holds": "500 g"},
        {"id": "cup", "name": "Cup", "kind": "cup", "empty": "12 g", "holds": "60 g"},
        {"id": "pan", "name": "Pan", "kind": "pan", "empty": "1.2 kg", "holds": "20 kg"},
    ]
    moulds = [
        {"id": "domes", "name": "Domes", "shape": "dome", "cavities": 12, "sets": 2},
        {"id": "bars", "name": "Bars", "shape": "bar", "cavities": 6, "sets": 1, "cavity": "160 g"},
        {"id": "bars2", "name": "Small bars", "shape": "bar", "cavities": 24, "sets": 1, "cavity": "20 g"},
    ]
    heaters: list[Json] = [
        {"id": "wave", "name": "Microwave", "kind": "microwave", "absorbed_w": 500},
        {"id": "bath", "name": "Water bath", "kind": "water_bath", "absorbed_w": 120},
    ]
    if rng.random() < 0.2:
        del heaters[0]["absorbed_w"]
    for scale in scales:
        if rng.random() < 0.3:
            scale["test_weight"] = rng.choice(["100 g", "50 g", "1 kg"])
    for vessel in vessels:
        made_of = rng.choice(["", "", "", "glass", "steel", "named"])
        if made_of == "named":
            vessel["name"] = (
                f"{rng.choice(['Edelstahl', 'Émaillé', 'Tin', 'Tinted', 'Metallic'])} {vessel['name']}"
            )
        elif made_of:
            vessel["material"] = made_of

    def some(items: list[Json], least: int) -> list[Json]:
        return rng.sample(items, rng.randint(least, len(items)))

    return read_kit(
        {
            "format": "bowlside-kit/1",
            "scales": some(scales, 0 if rng.random() < 0.1 else 1),
            "vessels": some(vessels, 0),
            "moulds": some(moulds, 0),
            "heaters": some(heaters, 0),
        }
    )


# Sizes


def _request(rng: Random, recipe: Json, kit: Json) -> Json:
    lines = [
        (f"{component['id']}.{line['id']}", line)
        for component in recipe["components"]
        for line in component["lines"]
    ]
    request: Json = {"weigh": rng.choice(["running", "tare"])}
    if rng.random() < 0.4:
        request["without"] = [key for key, line in lines if line["optional"] and rng.random() < 0.6]
    if rng.random() < 0.4:
        request["swaps"] = {
            key: rng.choice(line["substitutes"])["ingredient"]
            for key, line in lines
            if line["substitutes"] and rng.random() < 0.6
        }
    if rng.random() < 0.03:
        request["without"] = ["c0.nothing"]
    if rng.random() < 0.03:
        request["swaps"] = {(lines[0][0] if lines else "c0.l0"): "nothing"}
    by = rng.choices(["pieces", "mass", "moulds", "mix", "stock"], [65, 10, 10, 5, 10])[0]
    if by == "pieces":
        pieces = rng.choice([1, 2, 7, 12, rng.randint(1, 60), rng.randint(1, 60), 250])
        return {"by": by, "pieces": pieces if rng.random() < 0.97 else rng.choice([0, 1001]), **request}
    if by == "mass":
        return {"by": by, "mg": rng.choice([1, 999_999, 2_000_000, 75_000_000]), **request}
    if by == "moulds":
        component = rng.choice(recipe["components"])["id"]
        return {"by": by, "component": component, "moulds": rng.randint(1, 4), **request}
    if by == "mix":
        component = rng.choice([*recipe["components"], {"id": "nothing"}])["id"]
        return {
            "by": by,
            "component": component,
            "mg": rng.choice([1, 180_000, 2_000_000, 75_000_000]),
            **request,
        }
    keys = rng.sample(sorted(recipe["ingredients"]), rng.randint(1, len(recipe["ingredients"])))
    if rng.random() < 0.1:
        keys.append("nothing")
    return {"by": by, "stock": {key: rng.choice([0, 40_000, 500_000, 9_000_000]) for key in keys}, **request}


PICTURE = "018f0000-0000-7000-8000-00000000000a"
INCI = [
    "Sorbitol, Glycerin",
    "Aqua 40 %, Glycerin, Sorbitol",
    "Aqua 70 %, Glycerin 20 %",
    "Aqua 70 %, Glycerin 40 %, Sorbitol",
    ", ".join(f"Plant {place} Extract" for place in range(25)),
    "Sodium Laureth Sulfate 60 %, Aqua",
    "Sodium Carbonate Peroxide",
    "Cera Alba, Maris Sal",
    "Iron Oxides (CI 77491), Titanium Dioxide, CI 45410, Blue 1 Lake, Iron Oxides",
    "Beta Vulgaris Root Powder, CI 75840",
]


def _labelled(rng: Random, ingredients: list[str]) -> Json:
    told: Json = {
        "cards": {rng.choice(ingredients): {"name": "Card", "inci": rng.choice(INCI)}},
        "net_mg": rng.randint(0, 10**6),
        "size": {
            "shape": rng.choice(["rectangle", "cylinder", "other"]),
            "width_um": rng.randint(1, 400_000),
            "height_um": rng.randint(1, 300_000),
        },
        "letters": {"list_um": rng.choice([700, 794, 1588, 3175]), "net_um": rng.choice([1588, 3175, 6350])},
        "maker": rng.choice(
            [
                "Marlwick Scullery, Sink Lane",
                "Sink Lane, Marlwick, VT 05001",
                "Sink Lane, MW1 2AB",
                "a@b.example",
            ]
        ),
        "opened_months": rng.choice([0, 12]),
        "precautions": ["Not for eating."],
        "function": "bath piece",
        "use": rng.choice([None, "bath", "wash", "left_on", "air"]),
        "single_use": rng.choice([None, True, False]),
        "keeps_months": rng.choice([None, 12, 30, 31]),
        "today": "2026-11-30",
        "best_before": rng.choice(["2026-11-29", "2029-05-30", "2029-05-31"]),
        "lots_best_before": rng.choice(["2027-03-01", "2029-06-01"]),
        "meant_for": rng.choice(["all", "adults", "children"]),
    }
    return {key: value for key, value in told.items() if rng.random() < 0.6}


# Journals


class Pen:
    """Writes entries: ids in order, times that never run back on one device."""

    def __init__(self, rng: Random) -> None:
        self.rng = rng
        self.count = 0
        self.at = START

    def entry(self, kind: str, body: Json) -> Json:
        self.count += 1
        self.at += self.rng.choice([0, 1, 7_000, 5 * MINUTE, 40 * MINUTE])
        return {
            "id": f"0190-{self.rng.randrange(16):x}{self.count:04d}",
            "run": "run-1",
            "device": self.rng.choice(["phone-a", "phone-a", "phone-b"]),
            "at": self.at,
            "kind": kind,
            "body": body,
        }


def _likely_entries(rng: Random, sheet: Json) -> list[Json]:
    """A maker who mostly does what the bench says, and gives its other answers now and then."""
    pen = Pen(rng)
    entries: list[Json] = []
    for _ in range(rng.choice([0, 2, 5, 10, 20])):
        prompts = now(sheet, fold(sheet, entries), pen.at)["prompts"]
        # Several prompts are answered at one look, so that long journals stay quick to make.
        for prompt in prompts[: rng.randint(1, 3)]:
            strong = [answer for answer in prompt["answers"] if answer["strong"]]
            answer = rng.choice(strong if strong and rng.random() < 0.6 else prompt["answers"])
            entries.append(pen.entry(answer["kind"], _filled_in(rng, answer, prompt["weigh"])))
    return entries


def _filled_in(rng: Random, answer: Json, weigh: Json | None) -> Json:
    body = answer["body"]
    if answer["input"] == "reading" and weigh:
        division = weigh["division_mg"] or 1
        reading = max(
            0,
            (weigh["reads_mg"] or weigh["before_mg"]) + division * rng.choice([-40, -3, -1, 1, 2, 35, 4000]),
        )
        return {**body, "mg": min(max(0, reading - weigh["before_mg"]), 10**9), "reading_mg": reading}
    if answer["input"] == "count":
        return {**body, "good": rng.randint(0, 12)}
    if answer["input"] == "air":
        return {**body, "humidity": rng.randint(1, 100)}
    if answer["input"] == "note" and rng.random() < 0.5:
        return {**body, "why": "No time."}
    return body


def _made_hostile(rng: Random, sheet: Json, entries: list[Json]) -> list[Json]:
    """The same journal with strange entries, undos, repeats and malformed things, in any order."""
    pen = Pen(rng)
    pen.count = 5000
    made = list(entries)
    for _ in range(rng.randint(1, 40)):
        made.append(strange(rng, sheet, pen))
    for _ in range(rng.randint(0, 8)):
        target = rng.choice(made)
        key = target["id"] if rng.random() < 0.9 else "constructor"
        made.append(pen.entry("undone", {"entry": key}))
    for _ in range(rng.randint(0, 6)):
        made.append(_repeat(rng, rng.choice(made)))
    made += [_malformed(rng, pen) for _ in range(rng.randint(0, 4))]
    rng.shuffle(made)
    return made


def tame(entries: list[Any]) -> list[Any]:
    """Those whose numbers JavaScript writes as Python does: the server keeps no others, so none is ever signed."""

    def fits(value: Any) -> bool:
        if isinstance(value, dict | list):
            return all(fits(each) for each in (value.values() if isinstance(value, dict) else value))
        return not isinstance(value, float) and (not isinstance(value, int) or abs(value) < 2**53)

    return [each for each in entries if fits(each)]


def _signed_over(rng: Random, sheet: Json, entries: list[Any]) -> list[Any]:
    """The same journal, signed over what some devices had by then, with more before, after and against it."""
    pen = Pen(rng)
    pen.count = 7000
    made = list(entries)
    for _ in range(rng.choice([1, 1, 1, 2, 3])):
        had = [each for each in tame(made) if rng.random() < rng.choice([0.7, 1])]
        sealed = seal(had)
        if rng.random() < 0.2:  # one that is not here, or another's digest
            odd = rng.choice([{"entries": sorted({*sealed["entries"], "gone"})}, {"digest": "0" * 64}])
            sealed |= odd
        pen.at = START + rng.choice([0, 10**6, 10**8])
        signing = pen.entry("signed", {"name": rng.choice(["M.", "A."]), **sealed})
        if rng.random() < 0.1:
            del signing["body"][rng.choice(["entries", "digest", "name"])]
        made.append(signing)
        if rng.random() < 0.3:
            made.append(pen.entry("undone", {"entry": signing["id"]}))
            if rng.random() < 0.3:
                made.append(pen.entry("undone", {"entry": made[-1]["id"]}))
        for _ in range(rng.choice([0, 3, 20])):
            pen.at = START + rng.randrange(10**8)
            made.append(strange(rng, sheet, pen))
        targets = [each["id"] for each in made if isinstance(each, dict) and "id" in each]
        for _ in range(rng.choice([0, 2])):
            made.append(pen.entry("undone", {"entry": rng.choice(targets)}))
    rng.shuffle(made)
    return made


def _frozen(rng: Random, entries: list[Any]) -> Json | None:
    """What the server keeps for a signing that names nothing; now and then for one that is not here."""
    signings = [
        each["id"]
        for each in entries
        if isinstance(each, dict) and each.get("kind") == "signed" and each["body"]
    ]
    if not signings or rng.random() < 0.5:
        return None
    ids = {each for each in seal([each for each in entries if rng.random() < 0.6])["entries"]}
    return {
        "signed": rng.choice([*signings, "gone"]),
        "entries": sorted(ids | {"gone"} if rng.random() < 0.3 else ids),
    }


def strange(rng: Random, sheet: Json, pen: Pen) -> Json:
    if rng.random() < 0.1:  # a whole round made a thousand times more, or next to nothing
        num, den = rng.choice([(1000, 1), (1, 10**12), (7, 3), (10**12, 10**9)])
        body = {"component": _id(rng, sheet, "component"), "round": 1, "num": num, "den": den}
        return pen.entry("carried", body)
    kind = rng.choice(sorted(KINDS))
    body = {
        field: _value(rng, sheet, field, wanted)
        for field, (wanted, required) in KINDS[kind].items()
        if rng.random() < (0.97 if required else 0.5)
    }
    if rng.random() < 0.1:
        body["colour"] = rng.choice(["red", None, {"z": 1, "a": [True, "\u2028"]}])
    if rng.random() < 0.05:
        kind = rng.choice(["sang", "__proto__", "toString", ""])
    return pen.entry(kind, body)


def _value(rng: Random, sheet: Json, field: str, wanted: str) -> Any:
    if rng.random() < 0.06:
        return rng.choice(
            [None, True, -1, 2**53, 10**30, 1.5, "", "x" * 2001, [], {}, "toString", "__proto__"]
        )
    if wanted == "id":
        return _id(rng, sheet, field)
    if field == "about":
        return rng.choice(["batch", "batch", "line.c0.1.l0", "skipped.c0.1.s0"])
    if field == "criterion":
        return rng.choice(["mass", "look", "ph", "taste"])
    if field == "piece":
        return rng.choice([1, 1, 2, 10_001])
    if wanted == "text":
        return rng.choice(["Like wet sand.", "🫧" * 2000, "🫧" * 2001, "\ue000", 'line\nbreak "quoted" \x7f'])
    return {
        "mass": lambda: rng.choice([0, 1, 150, rng.randint(0, 10**6), 10**9, 10**9 + 1]),
        "whole": lambda: rng.choice([0, -5, 2**53 - 1]),
        "count": lambda: rng.choice([0, 1, 1, 2, 5, 10_000, 10_001]),
        "factor": lambda: rng.choice([1, 3, 1000, 1001, rng.randint(1, 10**7), 10**12, 10**12 + 1]),
        "weigh": lambda: rng.choice(["running", "tare", "guess"]),
        "answer": lambda: rng.choice(["yes", "not_yet", "too_far", "maybe"]),
        "humidity": lambda: rng.choice([0, 1, 45, 64, 65, 70, 100, 101]),
        "warmth": lambda: rng.choice([-40_001, -40_000, 21_500, 60_000, 60_001]),
        "measured": lambda: rng.choice(["piece", "piece", "left", "spoiled", "guess"]),
        "judgement": lambda: rng.choice(
            ["released", "held", "rejected", "accepted", "not_accepted", "guess"]
        ),
        "lot_verdict": lambda: rng.choice(["held", "held", "accepted", "rejected", "guess"]),
        "met": lambda: rng.choice(["yes", "no", "no", "guess"]),
        "market": lambda: rng.choice(["us", "eu", "uk", "mars"]),
        "paper": lambda: rng.choice(["safety_sheet", "ifra_certificate", "analysis", "other", "guess"]),
        "key": lambda: rng.choice(
            ["start.cleaned", "lot-1", "lot-2", "tool.whisk", "__proto__", "bench", "two words"]
        ),
        "uuid": lambda: rng.choice([PICTURE, PICTURE, PICTURE.upper(), "p1"]),
        "media": lambda: rng.choice(["pdf", "jpeg", "png", "guess"]),
        "sha256": lambda: rng.choice(["ab" * 32, "AB" * 32, "ab"]),
        "ids": lambda: rng.choice([[], ["0190-a5001"], ["a", "b"], ["b", "a"], ["a", "a"], ["", "b"], [1]]),
        "span": lambda: rng.choice([1, 15_000, 10 * MINUTE, 366 * 86_400_000, 366 * 86_400_001]),
    }[wanted]()


def _id(rng: Random, sheet: Json, field: str) -> str:
    pool = {
        "step": [step["id"] for step in sheet["steps"]],
        "line": [line["id"] for line in sheet["lines"]],
        "vessel": [vessel["id"] for vessel in sheet["vessels"]],
        "component": [component["id"] for component in sheet["components"]],
        "way": ["water", "alcohol", "soda"],
        "ingredient": ["wrap", *(ingredient["id"] for ingredient in sheet["ingredients"])],
        "of": ["joined", *(vessel["id"] for vessel in sheet["vessels"])],
    }.get(field)
    return rng.choice(pool or ["nothing"])


def _repeat(rng: Random, entry: Json) -> Json:
    """The same entry again: word for word, or under its old id with something else in it."""
    copy: Json = json.loads(json.dumps(entry))
    how = rng.random()
    if how < 0.4:
        copy["at"] += rng.choice([-1, 1, 10**7])
    elif how < 0.6:
        copy["device"] = "phone-c"
    elif how < 0.8:
        copy |= {"kind": "noted", "body": {"text": rng.choice(["🫧", "\ufb01", "z"])}}
    return copy


def _malformed(rng: Random, pen: Pen) -> Any:
    sound = pen.entry("finished", {})
    return rng.choice(
        [
            None,
            7,
            "entry",
            [],
            {},
            {**sound, "at": -1},
            {**sound, "at": 8_640_000_000_000_001},
            {**sound, "at": "now"},
            {**sound, "id": "no spaces"},
            {**sound, "id": "line\n"},
            {**sound, "device": "d" * 65},
            {**sound, "device": None},
            {**sound, "kind": None},
            {**sound, "body": []},
            {**sound, "body": None},
        ]
    )


# The shelf


def _shelf(rng: Random, recipe: Json) -> list[Any]:
    """Entries of a shelf that holds some of the recipe's ingredients, some of them strange, in any order."""
    pen = Pen(rng)
    pen.count = 9000
    names = [ingredient["name"] for ingredient in recipe["ingredients"].values()]
    made = [_stock(rng, pen, names) for _ in range(rng.choice([0, 6, 20]))]
    for _ in range(rng.randint(0, 3) if made else 0):
        made.append(pen.entry("undone", {"entry": rng.choice(made)["id"]}))
    if made and rng.random() < 0.5:
        made += [_malformed(rng, pen), _repeat(rng, rng.choice(made))]
        rng.shuffle(made)
    return made


def _stock(rng: Random, pen: Pen, names: list[str]) -> Json:
    kind = rng.choice(["described", "described", "received", "received", *SHELF_KINDS])
    body = {
        field: _stocked(rng, field, wanted, names)
        for field, (wanted, required) in SHELF_KINDS[kind].items()
        if rng.random() < (0.98 if required else 0.5)
    }
    if kind in ("received", "mended") and rng.random() < 0.9:
        body.pop(rng.choice(["mg", "count"]), None)
    return pen.entry(kind, body)


def _stocked(rng: Random, field: str, wanted: str, names: list[str]) -> Any:
    if wanted == "card":
        odd = [{}, [], {"name": "x" * 201}, {"name": "Scent", "answers_to": rng.choice(["x", [3, names[0]]])}]
        card = {"name": f"  {rng.choice(names).upper()} ", "answers_to": rng.sample(names, 1)}
        return card if rng.random() < 0.9 else rng.choice(odd)
    if field == "ingredient":
        return f"stock{rng.randint(1, 4)}"
    if wanted == "id":
        return "nothing"
    if wanted == "complaint":
        return rng.choice(["complaint", "reaction", "praise"])
    if field == "run":
        return rng.choice([BATCH, BATCH, BATCH.upper()])
    if field == "lot":
        return f"lot-{rng.randint(1, 5)}"
    if field == "without":
        return rng.choice([[], ["price"], ["best_before", "code"], ["number"], ["supplier", "code"]])
    if wanted == "day":
        return rng.choice(
            ["2026-11-24", "2026-11-25", "2027-03-31", "2028-02-29", "2027-02-29", "2027-3-1", None]
        )
    if wanted == "price":
        tax = rng.choice([{"percent": "19", "included": True}, {"percent": 19, "included": True}, None])
        price = {
            "amount": rng.choice(["12.50", "0", "1,5", 12]),
            "currency": rng.choice(["EUR", "JPY", "eur"]),
        }
        if rng.random() < 0.3:
            price["delivery"] = rng.choice(["4.90", "0", "4,90"])
        return {**price, "tax": tax} if rng.random() < 0.4 else price
    return _value(rng, {}, field, wanted)


def _uses(rng: Random) -> list[Json]:
    return [
        {"mg": rng.randint(0, 10**5), "count": rng.randint(0, 3), "at": START + rng.randint(-1, 1) * 10**7}
        for _ in range(rng.randint(0, 3))
    ]


def _instants(rng: Random, state: Json) -> list[int]:
    """Instants at which the bench is asked: the edges of what runs, and some other ones."""
    edges = [START, (state["last_at"] or START) + rng.randint(0, 10**7)]
    for wait in state["waits"]:
        edges += [wait["earliest_at"], wait["usual_at"], wait["latest_at"] or wait["usual_at"] - 1]
    edges += [window["latest_at"] - rng.choice([0, 1, 60_000]) for window in state["windows"]]
    edges += [guide["until"] for guide in state["guides"]]
    return rng.sample(edges, min(len(edges), 3))
