"""Amounts, durations and densities as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest
import quantities
from hypothesis import given
from hypothesis import strategies as st
from workshop import make_document

from bench import AmountError, check_recipe, read_amount, read_duration_ms, read_recipe
from bench.quantities import KITCHEN_UNITS, read_density, spoon_drawer, two_ways

UG, NL = "mass", "volume"

# Exact by definition: grain = 64.79891 mg, pound = 7000 grains, US gallon = 231 cubic inches,
# UK gallon = 4.54609 L. UCUM v2.2; NIST Handbook 44 App. C gives the same pound and ounce.
EXACT = [
    ("1 lb", None, UG, Fraction("453.59237"), "UCUM; NIST HB 44 App. C"),
    ("1 oz", None, UG, Fraction("28.349523125"), "UCUM; NIST HB 44 App. C"),
    ("1 fl oz", "us", NL, Fraction("29.5735295625"), "gallon / 128, UCUM"),
    ("1 tbsp", "us", NL, Fraction("14.78676478125"), "fluid ounce / 2, NIST SP 430"),
    ("1 tsp", "us", NL, Fraction("4.92892159375"), "tablespoon / 3, NIST SP 430"),
    ("1 cup", "us", NL, Fraction("236.5882365"), "16 tablespoons, NIST SP 430"),
    ("1 pint", "us", NL, Fraction("473.176473"), "gallon / 8, UCUM"),
    ("1 quart", "us", NL, Fraction("946.352946"), "gallon / 4, UCUM"),
    ("1 fl oz", "imperial", NL, Fraction("28.4130625"), "UK gallon / 160, UCUM"),
    ("1 pint", "imperial", NL, Fraction("568.26125"), "20 UK fluid ounces, UCUM"),
    ("1 gallon", "imperial", NL, Fraction("4546.09"), "UCUM"),
    ("1 tsp", "metric", NL, Fraction(5), "UCUM [tsp_m]; 21 CFR 101.9(b)(5)(viii)"),
    ("1 tbsp", "metric", NL, Fraction(15), "UCUM [tbs_m]"),
    ("1 cup", "metric", NL, Fraction(240), "UCUM [cup_m]"),
    ("1 fl oz", "metric", NL, Fraction(30), "UCUM [foz_m]"),
]


@pytest.mark.parametrize(("text", "measures", "kind", "grams_or_ml", "source"), EXACT)
def test_a_unit_is_exactly_what_its_definition_says(text, measures, kind, grams_or_ml, source):
    amount = read_amount(text, measures)

    assert (amount.kind, amount.value) == (kind, grams_or_ml * 1_000_000), source


# A second library that knows nothing of pint. Its numbers are floats, hence the narrow band.
SECOND_LIBRARY = [
    ("7 oz", None, "ounce", 7),
    ("3 lb", None, "pound", 3),
    ("1½ tsp", "us", "teaspoon", 1.5),
    ("2 tbsp", "us", "tablespoon", 2),
    ("¾ cup", "us", "cup", 0.75),
    ("4 fl oz", "us", "US_fluid_ounce", 4),
    ("1 pint", "us", "US_liquid_pint", 1),
    ("1 quart", "us", "US_liquid_quart", 1),
    ("1 gallon", "us", "US_liquid_gallon", 1),
    ("5 fl oz", "imperial", "UK_liquid_ounce", 5),
    ("½ cup", "imperial", "UK_liquid_cup", 0.5),
    ("1 pint", "imperial", "UK_liquid_pint", 1),
    ("1 quart", "imperial", "UK_liquid_quart", 1),
    ("2 gallons", "imperial", "UK_liquid_gallon", 2),
]


@pytest.mark.parametrize(("text", "measures", "unit", "count"), SECOND_LIBRARY)
def test_a_second_units_library_agrees(text, measures, unit, count):
    amount = read_amount(text, measures)

    base = quantities.gram if amount.kind == "mass" else quantities.milliliter
    theirs = float((count * getattr(quantities, unit)).rescale(base)) * 1_000_000
    assert float(amount.value) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize(
    ("one", "other", "measures"),
    [  # NIST SP 430, the kitchen table
        ("16 oz", "1 lb", None),
        ("8 fl oz", "1 cup", "us"),
        ("1 tbsp", "3 tsp", "us"),
        ("1 cup", "48 tsp", "us"),
        ("1 cup", "16 tbsp", "us"),
        ("768 tsp", "1 gal", "us"),
        ("1 l", "1000 ml", None),
        ("2.5 kg", "2500 g", None),
    ],
)
def test_two_ways_to_write_one_amount_are_one_amount(one, other, measures):
    assert read_amount(one, measures) == read_amount(other, measures)


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("240 g", 240),
        ("240g", 240),
        ("  240  g ", 240),
        ("0.25 kg", Fraction(250)),
        ("250 mg", Fraction(1, 4)),
        ("1/2 g", Fraction(1, 2)),
        ("8 1/2 g", Fraction(17, 2)),
        ("8½ g", Fraction(17, 2)),
        ("8 ½ g", Fraction(17, 2)),
        ("⅔ g", Fraction(2, 3)),
        ("1⅛ grams", Fraction(9, 8)),
        ("1⁄2 g", Fraction(1, 2)),
        ("２４０ g", 240),
        ("240 Grams", 240),
        ("1,5 g", Fraction(3, 2)),
        ("0,125 g", Fraction(1, 8)),
        ("0.250 g", Fraction(1, 4)),
        ("1.255 g", Fraction(1255, 1000)),
        ("1,250 kg", 1250),
        ("1 000 g", 1000),
        ("1\u202f000 g", 1000),
        ("1'000 g", 1000),
        ("1’000 g", 1000),
        ("1,000,000 mg", 1000),
        ("1.000,5 g", Fraction(2001, 2)),
        ("1,000.5 g", Fraction(2001, 2)),
        ("1 000,5 g", Fraction(2001, 2)),
        ("8 100/200 g", Fraction(17, 2)),
    ],
)
def test_numbers_are_read_as_people_write_them(text, grams):
    assert read_amount(text, None).value == grams * 1_000_000


def test_eight_and_a_half_ounces_is_a_mass_and_eight_fluid_ounces_a_volume():
    assert read_amount("8 1/2 oz", None).kind == "mass"
    assert read_amount("8 fl oz", "us").kind == "volume"
    assert read_amount("8 fl. oz.", "us") == read_amount("8 fl oz", "us")


def test_parts_per_cents_drops_pieces_and_texture_have_no_mass_of_their_own():
    assert (read_amount("2 parts", None).kind, read_amount("2 parts", None).value) == ("parts", 2)
    assert (read_amount("3 %", None).kind, read_amount("3 %", None).value) == ("percent", Fraction(3, 100))
    assert read_amount("3%", None) == read_amount("3 %", None)
    drops = read_amount("12 drops", None)
    assert (drops.kind, drops.value, drops.unit) == ("counted", 12, "drops")
    assert read_amount("1 piece", None).unit == "pieces"
    assert read_amount("To texture", None).kind == "texture"


@pytest.mark.parametrize(
    ("text", "way_out"),
    [
        ("a lot", "a number and a unit"),
        ("", "a number and a unit"),
        ("-3 g", "a number and a unit"),
        ("1e3 g", "a number and a unit"),
        ("1½½ g", "a number and a unit"),
        ("5² g", "a number and a unit"),
        ("nan g", "a number and a unit"),
        ("1,5,2 g", "a number and a unit"),
        ("1,000 g", "1 g or 1000 g?"),
        ("1.000 g", "1 g or 1000 g?"),
        ("1,250 ml", "1.25 ml or 1250 ml?"),
        ("12.000 pieces", "12 pieces or 12000 pieces?"),
        ("240", "no unit"),
        ("0 g", "is zero"),
        ("1/0 g", "divides by zero"),
        ("3 stone", "Use g, kg"),
        ("2 T", "tbsp"),  # a capital once told the tablespoon from the teaspoon: too easily misread
        ("2 t", "tsp"),
        ("11000 kg", "ten tonnes"),
    ],
)
def test_an_amount_that_cannot_be_read_says_where_and_what_to_write_instead(text, way_out):
    with pytest.raises(AmountError) as fault:
        read_amount(text, "us", "components.0.lines.2.amount")

    assert fault.value.where == "components.0.lines.2.amount"
    assert way_out in fault.value.says


def test_what_was_kept_before_it_was_asked_of_is_read_as_it_was():
    assert read_amount("1.000 g", None, kept=True).value == 1_000_000
    document = make_document("1.000 g", part_piece="1.000 g")
    with pytest.raises(AmountError, match="1 g or 1000 g"):
        read_recipe(document)
    kept = read_recipe(document, kept=True)
    assert kept["components"][0]["piece_mg"] == 1000


def test_and_the_check_asks_about_it_in_every_field():
    document = make_document("1.000 g", "250 g", part_piece="1,000 g")
    document["components"][0]["lines"][1]["substitutes"] = [{"ingredient": "i0", "amount": "12.000 g"}]
    asked = [
        each for each in check_recipe(read_recipe(document, kept=True)) if each["do"] == "Write one of them."
    ]

    assert [(each["level"], each["where"], each["what"], each["why"]) for each in asked] == [
        ("look", "components.0.piece", "“1,000 g”: 1 g or 1000 g?", "It is read as 1 g."),
        ("look", "components.0.lines.0.amount", "“1.000 g”: 1 g or 1000 g?", "It is read as 1 g."),
        (
            "look",
            "components.0.lines.1.substitutes.0.amount",
            "“12.000 g”: 12 g or 12000 g?",
            "It is read as 12 g.",
        ),
    ]
    assert [each["place"] for each in asked][:2] == ["Mix", "Mix: Ingredient 0"]


@given(st.text(max_size=30) | st.from_regex(r"[1-9][0-9]{0,2}[,.][0-9]{3} ?(g|kg|tsp|ml|%)?", fullmatch=True))
def test_what_is_asked_about_when_it_is_typed_is_asked_about_when_it_is_kept(text):
    try:
        read_amount(text, "us", kept=True)
    except AmountError:
        return
    try:
        read_amount(text, "us")
    except AmountError as fault:
        ways = two_ways(text)
        assert ways and " or ".join(ways) in fault.says
    else:
        assert two_ways(text) is None


def test_a_spoon_with_no_country_is_asked_about():
    with pytest.raises(AmountError) as fault:
        read_amount("1 tsp", None)

    assert "measures" in fault.value.says


def test_there_is_no_metric_pint():
    with pytest.raises(AmountError) as fault:
        read_amount("1 pint", "metric")

    assert "ml" in fault.value.says


@given(st.text(max_size=60), st.sampled_from(["us", "imperial", "metric", None]))
def test_any_text_is_an_amount_or_an_amount_error(text, measures):
    try:
        amount = read_amount(text, measures)
    except AmountError as fault:
        assert fault.where == "amount" and fault.says
    else:
        assert amount.value > 0 or amount.kind == "texture"


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("15 s", 15),
        ("4 min", 240),
        ("90 secs", 90),
        ("6 h 30 min", 23_400),
        ("6h30min", 23_400),
        ("1½ h", 5400),
        ("1/2 h", 1800),
        ("0.5 s", Fraction(1, 2)),
        ("2 days", 172_800),
        ("1 week", 604_800),
    ],
)
def test_a_length_of_time_is_read_in_whole_ms(text, seconds):
    assert read_duration_ms(text, "burst") == seconds * 1000


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "15",
        "6 h 30",
        "about 3 min",
        "4 h or so",
        "3-4 min",
        "0 s",
        "3 fortnights",
        "2 years",
        "400 d",
    ],
)
def test_a_length_of_time_is_never_half_read(text):
    with pytest.raises(AmountError) as fault:
        read_duration_ms(text, "steps.0.burst")

    assert fault.value.where == "steps.0.burst"


@given(st.text("0123456789 ./½hmindays-", max_size=40))
def test_any_text_is_a_length_of_time_or_an_amount_error(text):
    try:
        ms = read_duration_ms(text, "x")
    except AmountError:
        return
    assert 0 < ms <= 366 * 86_400_000


def test_a_density_is_grams_per_millilitre_of_something_one_could_pour():
    assert read_density("1.26", "x") == Fraction("1.26")
    for text in ("0.01", "26", "1.26 g/ml", "heavy"):
        with pytest.raises(AmountError):
            read_density(text, "x")


def test_the_drawer_holds_what_each_country_calls_a_spoon():
    for measures in KITCHEN_UNITS:
        drawer = spoon_drawer(measures)
        assert [spoon["name"] for spoon in drawer] == [
            "cup",
            "½ cup",
            "¼ cup",
            "tbsp",
            "tsp",
            "½ tsp",
            "¼ tsp",
            "⅛ tsp",
        ]
        assert [spoon["nl"] for spoon in drawer] == sorted((spoon["nl"] for spoon in drawer), reverse=True)
    assert spoon_drawer("metric")[4] == {"name": "tsp", "nl": 5_000_000}  # UCUM [tsp_m]
    assert spoon_drawer("us")[4] == {"name": "tsp", "nl": 4_928_922}  # 4.92892159375 mL
