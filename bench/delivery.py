"""A list from a supplier, pasted or from a file, read row by row into lots; nothing is entered by reading it.

    read_delivery({"text": "...", "received_on": "2027-03-01"}, shelf)   what each row was read as, and what is asked

Columns are known by their heads in five languages, or by what stands in them; without columns each line is read by
itself. Amounts are read by `bench.quantities` and by nothing else. What may mean two things is asked, never chosen.
"""

import csv
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import cast, get_args

from bench.book import Book
from bench.delivery_cells import (
    Cells,
    Doubt,
    read_best_before,
    read_much,
    read_price,
)
from bench.delivery_cost import share_delivery
from bench.delivery_rows import cells_of_row, parts_of_line, unlabelled, ways_of
from bench.entries import is_day
from bench.errors import SettingError
from bench.lists import group
from bench.schema_words import say_what_is_wrong
from bench.shapes.delivery import (
    DeliveredCard,
    DeliveredLot,
    Delivery,
    DeliveryField,
    DeliveryQuestion,
    DeliveryRow,
    WrittenDelivery,
)
from bench.shapes.schema import schema_of
from bench.shapes.shelf import Card, Shelf
from bench.shelf import is_cas, name_key, plain
from bench.words import say

_SCHEMA = schema_of(WrittenDelivery)
MOST_ROWS = 500
FIELDS: tuple[DeliveryField, ...] = get_args(DeliveryField)
_SEPARATORS = ("\t", ";", "|", ",")

# What stands above a column, in English, German, French, Spanish and Italian (common practice of delivery notes).
_HEADS: dict[DeliveryField, str] = {
    "best_before": r"best before|bbd?|bbe|exp(?:iry|iration|ires)?(?: date)?|use by|mhd|mindesthaltbar\w*(?: bis)?"
    r"|haltbar(?: bis)?|dluo|ddm|a consommer.*|caducidad|consumo preferente|fecha de caducidad|scadenza|tmc",
    "number": r"(?:lot|batch|charge|chargen|los|lote|lotto)(?:[ -]?(?:no|nr|number|nummer|id|numero))?"
    r"|(?:no|n|numero) (?:de |di )?(?:lot|lote|lotto)|ch ?b",
    "unit_price": r"unit price|price each|each|einzelpreis|stuckpreis|e preis|prix unitaire|pu|precio unitario"
    r"|prezzo unitario",
    "price": r"(?:price|total|amount due|line total|net|gross|cost|preis|gesamtpreis|gesamt|betrag|summe|prix|montant"
    r"|precio|importe|prezzo|importo)(?: (?:total|paid|ht|ttc|totale))?",
    "currency": r"currency|wahrung|devise|moneda|valuta|divisa",
    "packs": r"packs?|qty|quantity|pieces ordered|anzahl|stuckzahl|menge bestellt|quantite|cantidad|quantita",
    "unit": r"units?|einheit|unite|unidad|unita",
    "amount": r"amount|size|pack size|weight|net weight|content|contents|volume|menge|gewicht|inhalt|gebinde"
    r"|packung|grosse|poids|contenance|volumen|peso|contenido|contenuto|formato",
    "inci": r"inci(?: name)?",
    "cas": r"cas(?: (?:no|nr|number|nummer))?",
    "name": r"name|item|product|ingredient|article|description|material|artikel|bezeichnung|produkt|zutat|rohstoff"
    r"|produit|designation|ingredient|libelle|producto|articulo|descripcion|prodotto|articolo|descrizione",
}
_SUMS = re.compile(
    r"(?:sub ?total|total|sum|vat|tax|summe|zwischensumme|gesamt\w*|mwst|ust|tva|iva|totale|importe total)\b.*"
)
_CARRIAGE = re.compile(
    r"(?:shipping|delivery|postage|carriage|freight|versand\w*|porto|fracht|lieferung|frais de port|livraison"
    r"|envio|gastos de envio|spedizione|trasporto)\b.*"
)


def check_delivery(given: object) -> WrittenDelivery:
    """What is asked of `read_delivery`, found well-formed; else SettingError, naming the field."""
    fault = say_what_is_wrong(given, _SCHEMA)
    if fault:
        raise SettingError(*fault)
    asked = cast(WrittenDelivery, given)
    if not is_day(asked["received_on"]):
        raise SettingError("received_on", say("entries-fits-day", field="received_on"))
    return asked


def read_delivery(asked: WrittenDelivery, shelf: Shelf) -> Delivery:
    """What each row of a list was read as. Never raises for any text: what cannot be read is a question."""
    book = Book(shelf)
    columns, heads, tables = _table(asked, book)
    answers = asked.get("answers", {})
    reader = _Reader(asked, shelf, book)
    rows = [
        reader.row(place, {**cells, **_answered(answers, place)})
        for place, cells in enumerate(tables[:MOST_ROWS])
    ]
    questions: list[DeliveryQuestion] = []
    if len(tables) > MOST_ROWS:
        questions.append(_question("text", say("delivery-too-long", most=MOST_ROWS)))
    if not any(not row["out"] for row in rows):
        questions.append(_question("text", say("delivery-nothing")))
    carriage = asked.get("delivery") or reader.carriage
    if carriage:
        questions += share_delivery(
            rows, carriage, asked.get("shared_by", "value"), asked.get("currency", "")
        )
    open_ = len(questions) + sum(len(row["questions"]) for row in rows if not row["out"])
    return {
        "columns": columns,
        "heads": heads,
        "rows": rows,
        "delivery": carriage,
        "questions": questions,
        "open": open_,
        "entries": [] if open_ else _entries(rows, asked, shelf, book),
    }


def _question(field: str, says: str, choices: Sequence[str] = ()) -> DeliveryQuestion:
    return {"field": field, "says": says, "choices": list(choices)}


def _answered(answers: dict[str, str], row: int) -> Cells:
    return {key.partition(".")[2]: text for key, text in answers.items() if key.partition(".")[0] == str(row)}


# ---- the table


def _table(asked: WrittenDelivery, book: Book) -> tuple[list[DeliveryField], list[str], list[Cells]]:
    """The columns, what stands above them, and each row's cells by field."""
    lines = [line for line in asked["text"].lstrip("\ufeff").splitlines() if line.strip()]
    split = _split(lines)
    wide = max(map(len, split), default=0)
    even = [[*cells, *[""] * (wide - len(cells))] for cells in split]
    named = [_field_of(head) for head in even[0]] if even else []
    if "name" in named or sum(each != "nothing" for each in named) > 1:
        return _by_columns(asked.get("columns") or _once(named), even[0], even[1:])
    if asked.get("columns") and even:
        return _by_columns(asked["columns"], [""] * wide, even)
    year = int(asked["received_on"][:4])
    read = [
        cells_of_row(parts, year, lambda part: book.card_for(part) is not None)
        for parts in even or map(parts_of_line, lines)
    ]
    columns = [_mostly([taken[place] for _, taken in read]) for place in range(wide)]
    return columns, [""] * wide, [cells for cells, _ in read]


def _by_columns(
    columns: Sequence[DeliveryField], heads: list[str], rows: list[list[str]]
) -> tuple[list[DeliveryField], list[str], list[Cells]]:
    wide = len(heads)
    more: list[DeliveryField] = ["nothing"] * (wide - len(columns))
    fields = [*columns[:wide], *more]
    return fields, heads, [_cells(fields, heads, row) for row in rows]


def _mostly(taken: list[DeliveryField]) -> DeliveryField:
    return max(taken, key=taken.count, default="nothing")


def _split(lines: list[str]) -> list[list[str]]:
    """The lines by the separator that parts them most evenly; none where they are no table."""
    best: tuple[float, list[list[str]]] = (0, [])
    for separator in _SEPARATORS:
        rows = [[cell.strip() for cell in row] for row in _parsed(lines, separator)]
        if separator == "|":
            rows = [
                row for row in map(_framed, rows) if not all(re.fullmatch(r":?-*:?", cell) for cell in row)
            ]
        if separator == "," and (not rows or sum(_field_of(head) != "nothing" for head in rows[0]) < 2):
            # words and numbers have commas of their own
            rows = [cells for row in lines if len(cells := _by_commas(row)) > 1] if rows else []
        widths = [len(row) for row in rows]
        usual = max(set(widths), key=widths.count, default=1)
        alike = widths.count(usual) / len(lines) if rows else 0
        wanted = 0.9 if separator == "," else 0.6  # a comma also stands in numbers and names
        if usual > 1 and alike >= wanted and (usual > 2 or separator != ",") and alike > best[0]:
            best = alike, rows
    return best[1]


def _by_commas(line: str) -> list[str]:
    """A row by its commas; one in quotes, or within a number, parts nothing."""
    if '"' not in line:
        return parts_of_line(line)
    return [cell.strip() for row in _parsed([line], ",") for cell in row]


def _parsed(lines: list[str], separator: str) -> list[list[str]]:
    try:
        return list(csv.reader(lines, delimiter=separator, skipinitialspace=True))
    except csv.Error:
        return []


def _framed(row: list[str]) -> list[str]:
    """A row of a table that is drawn with bars has an empty cell before the first and behind the last."""
    return row[1 if row and not row[0] else 0 : len(row) - 1 if len(row) > 1 and not row[-1] else None]


def _field_of(head: str) -> DeliveryField:
    bare = re.sub(r"[\W_]+", " ", re.sub(r"[([].*?[)\]]", " ", _unaccented(head))).strip()
    for field, pattern in _HEADS.items():
        if re.fullmatch(pattern, bare):
            return field
    return "nothing"


def _unaccented(text: str) -> str:
    return plain(text).translate(str.maketrans("äöüéèêàáâíìîóòôúùûñçß", "aoueeeaaaiiiooouuuncs"))


def _once(named: list[DeliveryField]) -> list[DeliveryField]:
    """Each field is the first column of its name."""
    return [
        field if field == "nothing" or named.index(field) == place else "nothing"
        for place, field in enumerate(named)
    ]


def _cells(columns: list[DeliveryField], heads: list[str], row: list[str]) -> Cells:
    cells: Cells = {}
    for field, cell in zip(columns, row, strict=True):
        if field == "name" and "name" in cells and cell:
            cells["name"] += f", {cell}"
        elif field != "nothing" and cell:
            cells[field] = unlabelled(field, cell)
    within = re.search(r"[([]([^)\]]+)[)\]]", heads[columns.index("amount")]) if "amount" in columns else None
    if within and "amount" in cells and re.fullmatch(r"[\d.,'’ ]+", cells["amount"]):
        cells.setdefault("unit", group(within, 1).strip())  # "Menge (g)"
    if "name" in cells and "amount" not in cells:
        # "Citric acid 1 kg": what the line says beside the name's own column
        read, _ = cells_of_row([cells["name"]], 0, lambda _: False)
        if "amount" in read and read.get("name"):
            cells |= {"amount": read["amount"], "name": read["name"]}
    if "amount" not in cells and re.search(r"\d.*[^\W\d_]", cells.get("packs", "")):
        cells["amount"] = cells.pop("packs")  # "2 x 25 g", "100 pcs": how many, and of what
    return cells


# ---- a row


@contextmanager
def _asking(row: DeliveryRow, field: str) -> Iterator[None]:
    """What cannot be read of a row, or may mean two things, becomes a question."""
    try:
        yield
    except Doubt as doubt:
        row["questions"].append(_question(doubt.where or field, doubt.says, doubt.choices))


class _Reader:
    """Reads rows of one list against one shelf."""

    def __init__(self, asked: WrittenDelivery, shelf: Shelf, book: Book) -> None:
        self.asked = asked
        self.shelf = shelf
        self.book = book
        self.carriage = ""  # what a row of the list says that bringing it cost
        self._lots = {(lot["ingredient"], plain(lot["number"])): lot for lot in shelf["lots"].values()}
        self._rows: set[tuple[str, str, int | None, int | None]] = set()

    def row(self, place: int, cells: Cells) -> DeliveryRow:
        name = cells.get("name", "")
        row: DeliveryRow = {
            "row": place,
            "cells": cells,
            "name": name,
            "card": None,
            "card_name": None,
            "choices": {},
            "mg": None,
            "count": None,
            "number": cells.get("number") or None,
            "best_before": None,
            "price": None,
            "questions": [],
            "out": self._is_out(cells),
        }
        if row["out"]:
            return row
        if not name:
            row["questions"].append(_question("name", say("delivery-no-name")))
        self._loose(row)
        self._card(row)
        self._read(row)
        if not row["number"]:
            row["questions"].append(_question("number", say("delivery-no-number")))
        self._twice(row)
        return row

    def _loose(self, row: DeliveryRow) -> None:
        """A number of which nothing says what it is: what the maker said it is, or a question."""
        cells = row["cells"]
        for key in [key for key in cells if key.startswith("loose.")]:
            asks = f"cell.{key.partition('.')[2]}"
            said = cells.get(asks, "")
            if said in FIELDS:
                cells[said] = cells[key]
                row["number"] = cells.get("number") or None
                continue
            ways = ways_of(cells[key], cells, int(self.asked["received_on"][:4]))
            row["questions"].append(
                _question(
                    asks,
                    say("delivery-which-cell", written=cells[key][:40]),
                    [*ways, "unit_price", "nothing"],
                )
            )

    def _is_out(self, cells: Cells) -> bool:
        if "row" in cells:
            return cells["row"] == "out"
        bare = _unaccented(cells.get("name", ""))
        if _CARRIAGE.fullmatch(bare):
            self.carriage = cells.get("price") or cells.get("unit_price") or ""
            return True
        return bool(_SUMS.fullmatch(bare)) or not bare and not cells.get("amount")

    def _card(self, row: DeliveryRow) -> None:
        """The card that a row's name means; one that is probably the same is asked about."""
        cells = row["cells"]
        chosen = cells.get("card")
        key = chosen if chosen in self.book.cards else self.book.card_for(row["name"])
        if key is None and chosen != "new" and row["name"]:
            cas = cells.get("cas", "")
            alike = self.book.alike(row["name"], cells.get("inci", ""), cas if is_cas(cas) else "")
            if alike:
                row["choices"] = {each: self.book.cards[each]["name"] for each in alike}
                names = ", ".join(row["choices"].values())
                row["questions"].append(
                    _question(
                        "card", say("delivery-which-card", name=row["name"], names=names), [*alike, "new"]
                    )
                )
        row["card"] = key
        row["card_name"] = self.book.cards[key]["name"] if key else None

    def _read(self, row: DeliveryRow) -> None:
        cells, asked = row["cells"], self.asked
        card = self.book.cards.get(row["card"] or "")
        with _asking(row, "amount"):
            much = read_much(cells, asked.get("measures"), card)
            row["mg"], row["count"] = much["mg"], much["count"]
        with _asking(row, "best_before"):
            row["best_before"] = read_best_before(cells)
        with _asking(row, "price"):
            row["price"] = read_price(cells, asked.get("currency", ""))

    def _twice(self, row: DeliveryRow) -> None:
        """A lot that is on the shelf, or in the list, was probably pasted once more."""
        if not row["number"] or row["cells"].get("had") == "again":
            return
        key = row["card"] or name_key(row["name"])
        lot = self._lots.get((key, plain(row["number"])))
        if lot:
            says = say("delivery-had", number=row["number"], day=lot["received_on"])
            row["questions"].append(_question("had", says, ["again"]))
        same = (key, plain(row["number"]), row["mg"], row["count"])
        if same in self._rows:
            row["questions"].append(_question("had", say("delivery-same-row"), ["again"]))
        self._rows.add(same)


# ---- what is entered


def _entries(
    rows: list[DeliveryRow], asked: WrittenDelivery, shelf: Shelf, book: Book
) -> list[DeliveredCard | DeliveredLot]:
    """The cards that are new or have a further name, and the lots, in the order of the list."""
    entries: list[DeliveredCard | DeliveredLot] = []
    taken, keys = set(shelf["ingredients"]), dict[str, str]()
    cards = dict(book.cards)
    for row in rows:
        if row["out"]:
            continue
        key = row["card"] or keys.get(name_key(row["name"]))
        if key is None:
            key = keys[name_key(row["name"])] = id_for(row["name"], taken)
            cards[key] = _new_card(row)
            entries.append({"kind": "described", "body": {"ingredient": key, "card": cards[key]}})
        elif row["cells"].get("card") == key and book.card_for(row["name"]) is None:
            card = cards[key]
            called = card.get("answers_to", [])
            if row["name"] not in called:
                cards[key] = {**card, "answers_to": [*called, row["name"]]}
                entries.append({"kind": "described", "body": {"ingredient": key, "card": cards[key]}})
        entries.append(_lot(row, key, asked))
    return entries


def _new_card(row: DeliveryRow) -> Card:
    card: Card = {"name": row["name"]}
    if row["cells"].get("inci"):
        card["inci"] = row["cells"]["inci"]
    if is_cas(row["cells"].get("cas", "")):
        card["cas"] = row["cells"]["cas"]
    return card


def _lot(row: DeliveryRow, key: str, asked: WrittenDelivery) -> DeliveredLot:
    entry: DeliveredLot = {
        "kind": "received",
        "body": {"ingredient": key, "number": row["number"] or "", "received_on": asked["received_on"]},
    }
    body = entry["body"]
    if row["mg"] is not None:
        body["mg"] = row["mg"]
    if row["count"] is not None:
        body["count"] = row["count"]
    if asked.get("supplier"):
        body["supplier"] = asked["supplier"]
    if row["best_before"]:
        body["best_before"] = row["best_before"]
    if row["price"]:
        body["price"] = row["price"]
    return entry


def id_for(name: str, taken: set[str]) -> str:
    """An id of a name's own letters that none of these has; it is then one of them."""
    stem = re.sub(r"^[^a-z]+|_+$", "", re.sub(r"[^a-z0-9]+", "_", _unaccented(name)))[:36] or "thing"
    made, number = stem, 2
    while made in taken:
        made, number = f"{stem}_{number}", number + 1
    taken.add(made)
    return made
