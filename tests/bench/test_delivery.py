"""A list from a supplier: its columns, its amounts, days and prices, what is asked, and what would be entered."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import MORNING, entry

from bench import canonical, check_shelf_entry, fold_shelf
from bench.delivery import read_delivery
from bench.delivery_cost import largest_remainder

SHELF = fold_shelf(
    [
        entry(
            "described", MORNING, ingredient="bicarb", card={"name": "Sodium bicarbonate", "cas": "144-55-8"}
        ),
        entry(
            "described", MORNING, ingredient="citric", card={"name": "Citric acid", "answers_to": ["E 330"]}
        ),
        entry(
            "described",
            MORNING,
            ingredient="oil",
            card={"name": "Almond oil", "density": {"g_per_ml": "0.92", "source": "its sheet"}},
        ),
        entry(
            "received",
            MORNING,
            lot="l1",
            ingredient="citric",
            number="K 41",
            mg=1_000_000,
            received_on="2026-01-31",
        ),
    ]
)
ASKED = {"received_on": "2026-11-30", "currency": "EUR"}


def read(text, **more):
    return read_delivery({**ASKED, "text": text, **more}, SHELF)


def brief(row):
    """A row in a line: what it is, how much, which lot, until when, for how much."""
    much = row["mg"] if row["count"] is None else f"{row['count']} pieces"
    price = row["price"] and f"{row['price']['amount']} {row['price']['currency']}"
    return (row["card"] or row["name"], much, row["number"], row["best_before"], price)


CITRIC = ("citric", 1_000_000, "A-7", "2028-03-31", "12.50 EUR")
TABLES = {
    "semicolons, German": "Artikel;Menge;Charge;MHD;Preis\nE 330;1 kg;A-7;31.03.2028;12,50 €",
    "tabs, French": "Désignation\tPoids\tN° de lot\tDDM\tPrix TTC\ncitric acid\t1000 g\tA-7\t31/03/2028\t12,50 EUR",
    "what is ordered holds the amount": "Item;Qty;Lot;Best before;Price\nE 330;2 x 500 g;A-7;03/2028;12.50",
    "commas, quoted": 'Item,Size,Lot No,Best before,Price\n"Citric acid","1,0 kg",A-7,2028-03-31,12.50',
    "bars": "| Name | Amount | Lot | Expiry date | Total |\n|---|---|---|---|---|\n| Citric acid | 2 x 500 g | A-7 | 03/2028 | €12.50 |",
    "unit in its head, Spanish": "Producto;Peso (kg);Lote;Caducidad;Importe\nE 330;1;A-7;31.3.28;12,50",
    "unit and packs, Italian": "Articolo;Quantità;Formato;Unità;Lotto;Scadenza;Prezzo unitario\nE 330;2;500;g;A-7;31.03.2028;6,25",
    "no head": "Citric acid;1 kg;A-7;2028-03-31;12.50 EUR\nCitric acid;1 kg;A-7;2028-03-31;12.50 EUR",
    "amount in the name": "Item;Lot;BBE;Price\nCitric acid 1 kg;A-7;31 March 2028;12.50",
    "lines": "Citric acid, 1 kg, lot A-7, best before 31.03.2028, 12,50 €",
    "lines, German": "- 2 x 500 g E 330, Charge: A-7, MHD 03/2028, 12,50 EUR",
}


@pytest.mark.parametrize("table", TABLES)
def test_a_list_is_read_whatever_its_shape_and_language(table):
    found = read(TABLES[table])

    assert brief(found["rows"][0]) == CITRIC
    assert not found["rows"][0]["questions"]


SEPARATORS = {"comma": ", ", "comma alone": ",", "semicolon": ";", "semicolon and space": "; ", "tab": "\t"}


@pytest.mark.parametrize("separator", SEPARATORS)
@pytest.mark.parametrize("price", ["6.20", "6,20", "6.20 EUR", "6,20 €", "€6.20"])
def test_a_row_without_a_head_is_read_in_any_order(separator, price):
    """What has no currency is a price by its two decimals; none of it is ever taken for a part of the name."""
    ways = (("lot M900", ""), ("M900", ""), ("lot M900", "best before 2028-03"), ("M900", "31.03.2028"))
    for number, best in ways:
        for order in permutations(filter(None, ["Citric acid", "2 x 500 g", price, number, best])):
            line = SEPARATORS[separator].join(order)
            other = line.replace("Citric acid", "Almond oil").replace("900", "901")
            for text in (line,) if best else (line, f"{line}\n{other}"):
                found = read(text)["rows"][0]
                wanted = ("citric", 1_000_000, "M900", "2028-03-31" if best else None, "6.20 EUR")
                assert (text, brief(found), found["questions"]) == (text, wanted, [])


LOOSE = {
    "Citric acid, 1 kg, 6, lot M900": ("6", ["price", "packs", "unit_price", "nothing"], "price", "6.00 EUR"),
    "Citric acid;1 kg;3.28;lot M900": ("3.28", ["price", "best_before", "unit_price", "nothing"], "price", "3.28 EUR"),
    "Citric acid\t1 kg\tM900\t6.20\t12.28": ("6.20", ["price", "unit_price", "nothing"], "unit_price", "6.20 EUR"),
    "Citric acid 3.28, 1 kg, lot M900": ("3.28", ["price", "best_before", "unit_price", "nothing"], "price", "3.28 EUR"),
}  # fmt: skip


@pytest.mark.parametrize("text", LOOSE)
def test_a_number_that_may_be_several_things_is_asked_about_and_is_not_of_the_name(text):
    written, ways, answer, price = LOOSE[text]

    asked = read(text, received_on="2026-11-30")["rows"][0]
    assert brief(asked)[:3] == ("citric", 1_000_000, "M900")
    assert [(each["says"], each["choices"]) for each in asked["questions"]][0] == (
        f"“{written}” may be several things. Which one?",
        ways,
    )
    answers = {
        f"0.{each['field']}": answer if not place else "nothing"
        for place, each in enumerate(asked["questions"])
    }
    told = read(text, answers=answers)["rows"][0]
    assert (told["questions"], brief(told)[4]) == ([], price)


def test_a_number_that_can_be_one_thing_alone_is_that():
    found = read("Citric acid, 1 kg, 6.20, 03/28, lot M900\nCitric acid, 1 lb 8 oz, 90017, 7,20")["rows"]

    assert [each["questions"] for each in found] == [[], []]
    assert brief(found[0]) == ("citric", 1_000_000, "M900", "2028-03-31", "6.20 EUR")
    assert brief(found[1]) == ("citric", 680_389, "90017", None, "7.20 EUR")  # 24 oz of 28.349523125 g


def test_columns_that_the_maker_named_are_read_without_the_word_that_says_the_same():
    text = "Citric acid;1 kg;6;lot M900;anhydrous\nAlmond oil;2 kg;9;lot M901;refined"

    assert read(text)["columns"] == ["name", "amount", "nothing", "number", "name"]
    found = read(text, columns=["name", "amount", "price", "number", "name"])["rows"][0]
    assert (found["name"], *brief(found)[1:]) == (
        "Citric acid, anhydrous",
        1_000_000,
        "M900",
        None,
        "6.00 EUR",
    )


AMOUNTS = {
    "1.000 g": ("asked", ["1 g", "1000 g"]),
    "3 x 1.000 g": ("asked", ["3 x 1 g", "3 x 1000 g"]),
    "1,5 kg": 1_500_000,
    "1.500,5 g": 1_500_500,
    "8 lb 2 oz": 3_685_438,  # 130 oz of 28.349523125 g (NIST Handbook 44, App. C)
    "50 Stück": "50 pieces",
    "2 x 25 pcs": "50 pieces",
    "12 drops": ("asked", []),
    "some": ("asked", []),
    "5000 kg": ("asked", []),
}


@pytest.mark.parametrize("written", AMOUNTS)
def test_amounts_are_read_by_the_one_reader_and_what_may_be_two_is_asked(written):
    row = read(f"Name;Amount;Lot\nE 330;{written};A-7")["rows"][0]

    wanted = AMOUNTS[written]
    if isinstance(wanted, tuple):
        assert [(each["field"], each["choices"]) for each in row["questions"]] == [("amount", wanted[1])]
        for place, way in enumerate(wanted[1]):
            answered = read(f"Name;Amount;Lot\nE 330;{written};A-7", answers={"0.amount": way})["rows"][0]
            assert (answered["questions"], answered["mg"]) == (
                [],
                (1_000, 10**6)[place] * (3 if "x" in written else 1),
            )
    else:
        assert (row["questions"], brief(row)[1]) == ([], wanted)


def test_a_volume_is_a_mass_by_the_cards_density_and_asked_for_where_it_has_none():
    found = read("Name;Volume;Lot\nAlmond oil;1 L;A\nE 330;1 L;B\nAlmond oil;16 fl oz;C", measures="us")[
        "rows"
    ]

    assert found[0]["mg"] == 920_000
    assert found[1]["questions"][0]["field"] == "amount"
    # A US fluid ounce is 29.573 529 562 5 mL (NIST Handbook 44, App. C).
    assert found[2]["mg"] == round(Fraction("29.5735295625") * 16 * 920)
    (asked,) = read("Name;Volume;Lot\nAlmond oil;16 fl oz;C")["rows"][0]["questions"]
    assert asked["says"] == "“16 fl oz” differs between places. Say above whose it is: US, or Imperial."


DAYS = {
    "2027-03-31": "2027-03-31",
    "2027-02": "2027-02-28",
    "02/2028": "2028-02-29",
    "31.3.27": "2027-03-31",
    "31/03/2027": "2027-03-31",
    "03/31/2027": "2027-03-31",
    "05/05/2027": "2027-05-05",
    "5. Mai 2027": "2027-05-05",
    "März 2027": "2027-03-31",
    "Mar 31, 2027": "2027-03-31",
    "avril 2027": "2027-04-30",
    "-": None,
    "04/05/2027": ["2027-05-04", "2027-04-05"],
    "31.02.2027": [],
    "soon": [],
}


@pytest.mark.parametrize("written", DAYS)
def test_a_day_is_read_where_it_can_only_be_one(written):
    row = read(f'Name;Amount;Lot;Best before\nE 330;1 kg;A-7;"{written}"')["rows"][0]

    wanted = DAYS[written]
    if isinstance(wanted, list):
        assert [(each["field"], each["choices"]) for each in row["questions"]] == [("best_before", wanted)]
    else:
        assert (row["questions"], row["best_before"]) == ([], wanted)


PRICES = {
    "12,50": "12.50 EUR",
    "£ 9": "9.00 GBP",
    "1.234,50 €": "1234.50 EUR",
    "12.505 kr": ["12.5050 SEK", "12505 SEK"],
    "1,250": ["1.25 EUR", "1250 EUR"],
    "$5": ["5 USD", "5 CAD", "5 AUD", "5 NZD"],
    "12,-": "12.00 EUR",
    "500 JPY": "500 JPY",
    "5 QQQ": [],
    "free": [],
}


@pytest.mark.parametrize("written", PRICES)
def test_a_price_is_read_with_its_currency_or_asked_about(written):
    text = f"Name;Amount;Lot;Price\nE 330;1 kg;A-7;{written}"
    row = read(text, currency="SEK" if "kr" in written else "EUR")["rows"][0]

    wanted = PRICES[written]
    if isinstance(wanted, list):
        assert [(each["field"], each["choices"]) for each in row["questions"]] == [("price", wanted)]
        for way in wanted:
            answered = read(text, answers={"0.price": way})["rows"][0]
            assert answered["price"]["currency"] == way.split()[1]
            assert Fraction(answered["price"]["amount"]) == Fraction(way.split()[0])
    else:
        assert (row["questions"], brief(row)[4]) == ([], wanted)


def test_a_card_is_joined_by_its_names_and_offered_by_what_it_is_and_a_yes_is_remembered():
    text = "Name;Amount;Lot\nNatron, fein;1 kg;N-1\nRose clay;200 g;R-1"

    found = read(text)
    assert found["rows"][0]["questions"][0]["choices"] == ["bicarb", "new"]
    assert (found["open"], found["entries"]) == (1, [])

    kept = read(text, answers={"0.card": "bicarb"})["entries"]
    assert [each["kind"] for each in kept] == ["described", "received", "described", "received"]
    assert kept[0]["body"]["card"]["answers_to"] == ["Natron, fein"]
    assert kept[2]["body"] == {"ingredient": "rose_clay", "card": {"name": "Rose clay"}}
    told = [
        entry(
            each["kind"],
            MORNING,
            **{**({"lot": f"n{place}"} if each["kind"] == "received" else {}), **each["body"]},
        )
        for place, each in enumerate(kept)
    ]
    for each in told:
        check_shelf_entry(each)
    assert read_delivery({**ASKED, "text": text}, fold_shelf(told))["rows"][0]["card"] == "bicarb"

    new = read(text, answers={"0.card": "new"})["entries"]
    assert new[0]["body"]["ingredient"] == "natron_fein"


def test_what_was_entered_before_or_stands_twice_is_noticed():
    found = read("Name;Amount;Lot\nCitric acid;1 kg;k 41\nAlmond oil;1 kg;M\nAlmond oil;1 kg;M")

    assert [[each["field"] for each in row["questions"]] for row in found["rows"]] == [["had"], [], ["had"]]
    again = read(
        "Name;Amount;Lot\nCitric acid;1 kg;k 41\nAlmond oil;1 kg;M\nAlmond oil;1 kg;M",
        answers={"0.had": "again", "2.row": "out"},
    )
    assert (again["open"], len(again["entries"])) == (0, 2)


def test_sums_are_left_out_and_the_carriage_is_shared_to_the_coin():
    text = "Artikel;Menge;Charge;Preis\nCitric acid;1 kg;A;10,00\nAlmond oil;1 L;B;20,00\nVersand;;;6,95\nGesamtsumme;;;36,95"

    by_value = read(text)
    assert [row["out"] for row in by_value["rows"]] == [False, False, True, True]
    assert [row["price"]["delivery"] for row in by_value["rows"][:2]] == ["2.32", "4.63"]
    by_mass = read(text, shared_by="mass")
    assert [row["price"]["delivery"] for row in by_mass["rows"][:2]] == ["3.62", "3.33"]
    assert read(text, delivery="6.955")["questions"][0]["field"] == "delivery"
    unpriced = text.replace("20,00", "")
    assert [each["field"] for each in read(unpriced)["questions"]] == ["delivery"]
    assert not read(unpriced, shared_by="mass")["questions"]


def test_the_largest_remainder_gives_the_seats_of_a_printed_example():
    """Ten seats by the Hare quota and largest remainders: 47, 16, 15.9, 12, 6 and 3.1 thousand votes give
    5, 2, 1, 1, 1 and 0 (the usual encyclopaedic example of Hamilton's method, from memory)."""
    assert largest_remainder(10, [47_000, 16_000, 15_900, 12_000, 6_000, 3_100]) == [5, 2, 1, 1, 1, 0]


@given(st.integers(0, 10**7), st.lists(st.integers(0, 10**9), min_size=1, max_size=30))
def test_shares_add_up_and_each_is_within_a_coin_of_its_quota(total, weights):
    parts = largest_remainder(total, weights)

    if not sum(weights):
        assert parts == [0] * len(weights)
        return
    assert sum(parts) == total
    quotas = [Fraction(total * weight, sum(weights)) for weight in weights]
    assert all(abs(part - quota) < 1 for part, quota in zip(parts, quotas, strict=True))
    assert all(
        part >= other for part, one in zip(parts, weights, strict=True) for other, two in zip(parts, weights, strict=True)
        if one > two
    )  # fmt: skip


ANY = st.text(st.sampled_from("abzÄ019 ,;.|\t\n\"'€$-/xkglot:#"), max_size=120)


@given(
    ANY,
    st.dictionaries(st.sampled_from(["0.amount", "1.price", "0.card", "x", "0.row", ".."]), ANY, max_size=3),
)
def test_nothing_makes_the_reading_raise_and_what_it_would_enter_passes_the_check(text, answers):
    found = read_delivery(
        {"text": text, "received_on": "2026-11-30", "answers": answers, "delivery": text[:9]}, SHELF
    )

    json.loads(canonical(found))
    for each in found["entries"]:
        more = {"lot": "x"} if each["kind"] == "received" else {}
        check_shelf_entry(entry(each["kind"], MORNING, **more, **each["body"]))
