"""Write the demo's shelf: a card for every ingredient of its recipes, and the lots that are in the house.

    python -m demo.make_shelf       (from the root of the project)

Suppliers, lot numbers and prices are invented. An entry's time is kept as milliseconds before now
and its days as days from today (`days`), so that the demo is always fresh; `entries_at` makes
instants and days of them.
"""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from bench import check_shelf_entry
from bench.quantities import read_mass_mg

Json = dict[str, Any]

HERE = Path(__file__).parent
SHELF = HERE / "shelf.json"
DEVICE = "demo-phone"
DAY_MS = 86_400_000

# CAS numbers of the plain materials, from memory; each passes its check digit.
CAS = {
    "Bicarbonate of soda": "144-55-8",
    "Citric acid, anhydrous": "77-92-9",
    "Maize starch": "9005-25-8",
    "White kaolin clay": "1332-58-7",
    "Polysorbate 80": "9005-65-6",
    "Glycerin": "56-81-5",
    "Fine sea salt": "7647-14-5",
    "Epsom salt, fine": "10034-99-8",
    "Isopropyl alcohol, 70 % by volume": "67-63-0",
}

# Name -> its lots: (how much, price paid, received so many days ago, best before in so many days).
DRY, FAT, SCENT, COLOUR, BASE = (
    "Millrace Dry Goods",
    "Tollgate Oils",
    "Fennhill Scents",
    "Ochre Row",
    "Sallow Base",
)
LOTS: dict[str, tuple[str, list[tuple[str, str, int, int | None]]]] = {
    "Bicarbonate of soda": (DRY, [("1 kg", "3.90", 210, 160), ("5 kg", "14.50", 35, 700)]),
    "Citric acid, anhydrous": (DRY, [("2.5 kg", "13.80", 35, 690)]),
    "Maize starch": (DRY, [("1 kg", "2.80", 90, 420)]),
    "White kaolin clay": (DRY, [("500 g", "5.20", 150, None)]),
    "Fine sea salt": (DRY, [("2 kg", "4.40", 90, None)]),
    "Epsom salt, fine": (DRY, [("2 kg", "7.90", 90, None)]),
    "Arrowroot powder": (DRY, [("500 g", "6.10", 120, 300)]),
    "Cocoa butter": (FAT, [("500 g", "11.90", 60, 360)]),
    "Shea butter": (FAT, [("500 g", "9.80", 60, 330)]),
    "Sweet almond oil": (FAT, [("250 g", "6.40", 400, -12), ("500 g", "10.90", 20, 340)]),
    "Sunflower oil": (FAT, [("1 kg", "4.20", 20, 250)]),
    "Coconut oil": (FAT, [("500 g", "5.90", 60, 400)]),
    "Vitamin E oil": (FAT, [("50 g", "7.50", 60, 500)]),
    "Glycerin": (FAT, [("500 g", "4.90", 80, 800)]),
    "Polysorbate 80": (FAT, [("250 g", "8.20", 80, 500)]),
    "Beeswax pellets": (FAT, [("250 g", "8.90", 100, None)]),
    "Witch hazel distillate": (FAT, [("500 g", "6.70", 45, 220)]),
    "Isopropyl alcohol, 70 % by volume": (FAT, [("870 g", "8.40", 45, None)]),
    "Bath fragrance, fig and cedar": (SCENT, [("100 g", "14.00", 50, 480)]),
    "Soap fragrance, fig and cedar": (SCENT, [("100 g", "14.00", 50, 480)]),
    "Soap fragrance, rosemary and sea": (SCENT, [("50 g", "8.50", 50, 480)]),
    "Skin fragrance, orange leaf": (SCENT, [("50 g", "9.20", 50, 430)]),
    "Shower blend, eucalyptus and mint": (SCENT, [("100 g", "16.50", 50, 300)]),
    "Rose mica": (COLOUR, [("50 g", "6.80", 130, None)]),
    "Teal mica": (COLOUR, [("50 g", "6.80", 130, None)]),
    "Moss green mica": (COLOUR, [("25 g", "4.10", 130, None)]),
    "Blue lake": (COLOUR, [("25 g", "7.30", 130, 900)]),
    "Clear melt-and-pour soap base": (BASE, [("2 kg", "16.90", 30, 500)]),
    "White melt-and-pour soap base": (BASE, [("2 kg", "16.90", 30, 500)]),
    "Goat's milk melt-and-pour soap base": (BASE, [("1 kg", "9.90", 30, 450)]),
    "Whipping soap base, solid": (BASE, [("1 kg", "12.60", 30, 300)]),
}
WRAP = "Kraft paper bands"
KEPT = ("inci", "kind", "form", "density", "fragrance", "most_c", "active", "hazards", "note")


class _Pen:
    def __init__(self) -> None:
        self.entries: list[Json] = []

    def entry(self, days_ago: int, kind: str, body: Json, **days: int | None) -> None:
        number = len(self.entries)
        told = {key: value for key, value in days.items() if value is not None}
        entry = {"id": f"01900000-0000-7000-a000-{number:012x}", "device": DEVICE, "kind": kind, "body": body}
        when = {"before_ms": days_ago * DAY_MS - number * 1000}
        self.entries.append({**entry, **({"days": told} if told else {}), **when})


def shelf() -> list[Json]:
    """The shelf's entries as they stand in the file."""
    pen = _Pen()
    lots: dict[str, list[str]] = {}
    count = 0
    for place, (name, ingredient) in enumerate(_ingredients().items()):
        key = f"shelf-{place:02d}"
        card = {"name": name, **{field: ingredient[field] for field in KEPT if field in ingredient}}
        if name in CAS:
            card["cas"] = CAS[name]
        pen.entry(420, "described", {"ingredient": key, "card": card})
        supplier, stock = LOTS.get(name, ("", []))
        for much, price, ago, best_before in stock:
            count += 1
            lot = f"01900000-0000-7000-b000-{count:012x}"
            lots.setdefault(name, []).append(lot)
            body = {
                "lot": lot,
                "ingredient": key,
                "supplier": supplier,
                "number": f"{supplier[0]}{2600 + 7 * count}",
                "mg": read_mass_mg(much, "much"),
                "price": {"amount": price, "currency": "EUR", "tax": {"percent": "19", "included": True}},
            }
            pen.entry(ago, "received", body, received_on=-ago, best_before=best_before)
    wrap = {"name": WRAP, "answers_to": ["wrap"], "note": "What the bars and pieces are wrapped in."}
    pen.entry(300, "described", {"ingredient": "shelf-wrap", "card": wrap})
    bands = {"lot": "01900000-0000-7000-b000-0000000000ff", "ingredient": "shelf-wrap", "number": "KB-200"}
    price = {"amount": "9.00", "currency": "EUR", "tax": {"percent": "19", "included": True}}
    pen.entry(70, "received", {**bands, "count": 200, "price": price}, received_on=-70)
    old_soda = lots["Bicarbonate of soda"][0]
    pen.entry(40, "corrected", {"lot": old_soda, "mg": 310_000})
    pen.entry(28, "noted", {"lot": old_soda, "text": "Opened bag, clipped shut. Use it up first."})
    pen.entry(
        25, "wrote_off", {"lot": lots["White kaolin clay"][0], "mg": 40_000, "why": "Fell into the sink."}
    )
    return pen.entries


def _ingredients() -> Json:
    """Every ingredient of the demo's recipes by name, as first written."""
    found: Json = {}
    for recipe in json.loads((HERE / "recipes" / "index.json").read_text(encoding="utf-8")):
        document = json.loads((HERE / "recipes" / recipe["file"]).read_text(encoding="utf-8"))
        for ingredient in document["ingredients"].values():
            found.setdefault(ingredient["name"], ingredient)
    return found


def entries_at(written: list[Json], at: int) -> list[Json]:
    """The entries of the file as a shelf's journal has them, at an instant in ms."""
    today = datetime.fromtimestamp(at / 1000, UTC).date()
    return [
        {
            "id": entry["id"],
            "run": "shelf",
            "device": entry["device"],
            "at": at - entry["before_ms"],
            "kind": entry["kind"],
            "body": {
                **entry["body"],
                **{key: str(today + timedelta(days=days)) for key, days in entry.get("days", {}).items()},
            },
        }
        for entry in written
    ]


def main() -> None:
    entries = shelf()
    for entry in entries_at(entries, 1_800_000_000_000):
        check_shelf_entry(entry)
    lines = ",\n".join(f"  {json.dumps(entry, ensure_ascii=False)}" for entry in entries)
    SHELF.write_text(f"[\n{lines}\n]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
