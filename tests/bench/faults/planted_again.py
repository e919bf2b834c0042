"""A second set of faults, written later by someone who had not read the rules either; see `planted.py`."""

from __future__ import annotations

from typing import Any

from faults.making import Edit, do, drop, insert, more, named, put, thing, whole, without
from faults.planted import Fault

AGAIN: list[Fault] = []


def again(id: str, what: str, harm: str, upon: str, *edits: Edit, found: tuple[str, ...]) -> None:
    AGAIN.append(Fault(id, what, harm, upon, edits, found))


def keeps(name: str, inci: str, **other: Any) -> Edit:
    """Something else stands where the preservative stood."""
    return named("preservative", name=name, kind="preservative", inci=inci, **other)


# What keeps, and does not
again(
    "grapefruit_keeps",
    "Grapefruit seed extract called the preservative",
    "hurts",
    "body_lotion",
    keeps("Grapefruit seed extract", "Citrus Grandis Seed Extract"),
    found=("preserv|grapefruit", "preserv|keep|grow|germ"),
)
again(
    "sorbate_in_soap",
    "Potassium sorbate in a soap of pH 9",
    "spoils",
    "hand_wash",
    keeps("Potassium sorbate", "Potassium Sorbate"),
    found=("preserv|sorbate", "pH|acid|alkali"),
)
again(
    "much_benzoate",
    "Sodium benzoate at 3 %, left on",
    "hurts",
    "aloe_gel",
    keeps("Sodium benzoate", "Sodium Benzoate"),
    more("preservative@more_of_it 8 g", "keep"),
    found=("preserv|benzoate", "limit|most|0.5|over|%"),
)
again(
    "avocado_butter",
    "Mashed avocado in a body butter",
    "spoils",
    "whipped_butter",
    more("avocado 60 g", "late", name="Avocado, mashed"),
    found=("avocado|preserv|water", "water|fresh|preserv|grow|keep"),
)
again(
    "coconut_milk_fizz",
    "Coconut milk in the fizz",
    "spoils",
    "bath_bombs",
    more("coconut_milk 25 g", "oils", name="Coconut milk"),
    found=("coconut|milk|mix", "water|fizz|damp"),
)
# Acids and what draws water
again(
    "dry_acid_jar",
    "Vitamin C powder beside soda, in a closed jar",
    "hurts",
    "foot_soak",
    more("vitamin_c 90 g", "salts", name="Ascorbic acid", inci="Ascorbic Acid"),
    put("fill", title="Fill the jars and screw the lids tight"),
    found=("fill|jar|soak|vitamin", "seal|shut|tight|pressure|burst|gas|closed"),
)
again(
    "corked_tubes",
    "Fizzing powder in corked glass tubes",
    "hurts",
    "fizz_powder",
    put("fill", title="Fill the glass tubes and push the corks in", says=None),
    found=("fill|powder|tube", "seal|shut|tight|pressure|burst|gas"),
)
again(
    "lactic_fizz",
    "Lactic acid of 80 % for half the acid",
    "spoils",
    "bath_bombs",
    more("lactic 150 g", "oils", name="Lactic acid, 80 %", inci="Lactic Acid"),
    found=("lactic|mix|oils", "water|liquid|fizz|acid"),
)
again(
    "pool_acid",
    "Sodium bisulfate, sold to make pools acid, for the citric acid",
    "hurts",
    "bath_bombs",
    named("citric", name="Sodium bisulfate", inci="Sodium Bisulfate"),
    found=("citric|bisulfate|mix|ingredients", "acid|irrit|burn|harsh|eye"),
)
again(
    "oxalic",
    "Oxalic acid for the citric acid",
    "hurts",
    "fizz_powder",
    named("citric", name="Oxalic acid", inci="Oxalic Acid"),
    found=("oxalic|citric|ingredients", "harm|poison|restrict|forbid|list|irrit|burn"),
)
again(
    "magnesium_chloride_fizz",
    "Magnesium chloride flakes in the fizz",
    "spoils",
    "bath_bombs",
    more("flakes 180 g", "dry", name="Magnesium chloride flakes", inci="Magnesium Chloride"),
    found=("flakes|magnesium|mix", "water|damp"),
)
again(
    "urea_fizz",
    "Urea in the fizz",
    "spoils",
    "ipa_bombs",
    more("urea 90 g", "dry", name="Urea", inci="Urea"),
    found=("urea|mix", "water|damp"),
)
again(
    "fridge_dried",
    "Fizz dried in the fridge",
    "spoils",
    "bath_bombs",
    put("drying", title="Let them dry in the fridge"),
    found=("drying|fridge", "damp|fridge|water|humid"),
)
again(
    "tap_water",
    "Tap water in the spray bottle, by the gram: 60 g",
    "spoils",
    "bath_bombs",
    without("witch_hazel"),
    more("tap 60 g", "bottle_up", name="Tap water"),
    put("bottle_up", lines=["tap"]),
    found=("tap|water|bottle|mix", "fizz|water"),
)
# On the skin
again(
    "tea_tree",
    "Tea tree oil at 8 %, left on, with no limit",
    "hurts",
    "whipped_butter",
    more("tea_tree 50 g", "late", name="Tea tree oil", inci="Melaleuca Alternifolia Leaf Oil"),
    found=("tea", "limit|sensit|fragrance|allerg|irrit"),
)
again(
    "lilial",
    "A fragrance with butylphenyl methylpropional, sold in the EU",
    "hurts",
    "body_lotion",
    whole(sold_in=["eu"], use="left_on"),
    thing(
        "skin_scent",
        fragrance={
            "limit": "1.1 %",
            "category": "5A",
            "allergens": [{"name": "Butylphenyl Methylpropional", "share": "2 %"}],
        },
    ),
    found=("scent|fragrance|butylphenyl", "forbid|prohibit|Annex II|not allowed|must not"),
)
again(
    "peru_balsam",
    "Peru balsam in a body butter",
    "hurts",
    "whipped_butter",
    more("balsam 6 g", "late", name="Peru balsam", inci="Myroxylon Pereirae Resin"),
    found=("balsam", "forbid|prohibit|limit|sensit|allerg|Annex|restrict"),
)
again(
    "sassafras",
    "Sassafras oil in a soap",
    "hurts",
    "one_pour",
    more("sassafras 9 g", "scent", name="Sassafras oil", kind="fragrance"),
    found=("sassafras", "safrole|forbid|prohibit|limit|Annex"),
)
again(
    "salicylic",
    "Salicylic acid at 6 % in a lotion",
    "hurts",
    "body_lotion",
    more("salicylic 60 g", "late", name="Salicylic acid", inci="Salicylic Acid"),
    found=("salicylic", "limit|restrict|Annex|most|%"),
)
again(
    "menthol_butter",
    "Menthol at 6 %, left on",
    "hurts",
    "whipped_butter",
    more("menthol 38 g", "late"),
    found=("menthol", "irrit|airway|child|skin|limit"),
)
again(
    "cayenne",
    "Cayenne pepper in a scrub",
    "hurts",
    "sugar_scrub",
    more("cayenne 15 g", "sugar_in", name="Cayenne pepper, ground"),
    found=("cayenne|pepper", "irrit|burn|sting|skin|what is"),
)
again(
    "plastic_beads",
    "Polyethylene beads in a scrub, sold in the EU",
    "misleads",
    "salt_scrub",
    whole(sold_in=["eu"], use="wash"),
    more("beads 20 g", "salt", name="Scrub beads, blue", inci="Polyethylene"),
    found=("beads", "plastic|microplastic|2023/2055"),
)
again(
    "peroxide",
    "Hydrogen peroxide of 30 % at a third of a lotion",
    "hurts",
    "body_lotion",
    more("peroxide 300 g", "late", name="Hydrogen peroxide, 30 %", inci="Hydrogen Peroxide"),
    found=("peroxide", "limit|4 %|restrict|Annex|burn|oxid|irrit"),
)
again(
    "soda_caustica",
    "Lye by its Italian name, for the pH",
    "hurts",
    "body_lotion",
    more("soda 2 g", "late", name="Soda caustica"),
    found=("soda|lye", "lye|outside"),
)
# Colours and words
again(
    "red_33_eyes",
    "D&C Red 33 about the eyes, sold in the US",
    "hurts",
    "clay_mask",
    whole(sold_in=["us"], use="eyes"),
    more("red 1 g", "dry", name="Red 33", inci="CI 17200", kind="dye"),
    found=("red", "eye"),
)
again(
    "alkanet",
    "Alkanet root for the colour, sold in the US",
    "misleads",
    "one_pour",
    whole(sold_in=["us"], use="wash"),
    more("alkanet 4 g", "colour", name="Alkanet root powder", inci="Alkanna Tinctoria Root Powder"),
    found=("alkanet", "colou?r|list"),
)
again(
    "neon_lips",
    "Neon pigment on the lips",
    "hurts",
    "lip_balm",
    more("neon 1 g", "late", name="Neon pink pigment", kind="pigment"),
    found=("neon", "colou?r|list|lip"),
)
again(
    "acne_soap",
    "A soap named for what only a drug may claim",
    "misleads",
    "one_pour",
    whole(title="Anti-acne soap, kills germs", sold_in=["us"], use="wash"),
    found=("title|use|acne|claim", "drug|claim|medicin"),
)
# Heat
again(
    "cold_melt",
    "Beeswax melted at 45 °C",
    "spoils",
    "lotion_bars",
    put("melt", to_c="45"),
    found=("melt|beeswax", "melts|62|63|64|60|warm|hot|°C"),
)
again(
    "cold_water_phase",
    "Cold water poured into the hot oil phase",
    "spoils",
    "body_lotion",
    drop("heat_water"),
    found=("water|emulsify|phase|oil", "cold|heat|warm|°C|temperature"),
)
again(
    "left_on_hob",
    "Fats left on the hob for 40 minutes",
    "hurts",
    "lotion_bars",
    put("melt", heater="hob", burst="40 min", to_c=None),
    found=("melt", "hob|long|min|°C|limit|watch|heat"),
)
again(
    "dry_ice",
    "Dry ice shut in with the salts",
    "hurts",
    "bath_salts",
    more("dry_ice 40 g", "dry", name="Dry ice"),
    found=("dry_ice|dry ice|fill", "burn|burst|gas|pressure|cold|seal"),
)
again(
    "lidded_bath",
    "A bottle closed tight in the water bath",
    "hurts",
    "lip_balm",
    put("melt", title="Screw the lid on and stand the jar in hot water"),
    found=("melt", "lid|closed|shut|seal|burst|pressure"),
)
again(
    "oven_by_hand",
    "Pressed pieces dried in the oven, written as a thing to do and not as a wait",
    "spoils",
    "bath_bombs",
    insert("drying", do("oven", "Dry them in the oven at 80 °C for 20 min")),
    found=("oven|fizz", "heat|warm|50"),
)
again(
    "crayon_lips",
    "A crayon for the colour of a lip balm",
    "hurts",
    "lip_balm",
    more("crayon 2 g", "late", name="Crayon, red"),
    found=("crayon", "skin|cosmetic|colou?r"),
)
again(
    "lilial_rinsed",
    "A fragrance with Lilial in what is rinsed off, sold in the EU",
    "hurts",
    "one_pour",
    whole(sold_in=["eu"], use="wash"),
    thing(
        "soap_scent",
        name="Lily oil",
        fragrance={"allergens": [{"name": "Butylphenyl Methylpropional", "share": "5 %"}]},
    ),
    found=("lily|scent", "Annex II forbids"),
)
again(
    "lye_in_flakes",
    "Lye in flakes, by its French name",
    "hurts",
    "one_pour",
    more("soude 20 g", "colour", name="Soude en paillettes"),
    found=("soude|lye", "lye|outside"),
)
again(
    "blend_left_on",
    "A preservative left on, whose INCI list names methylisothiazolinone second",
    "hurts",
    "body_lotion",
    whole(sold_in=["uk"], use="left_on"),
    keeps("Preservative blend", "Methylchloroisothiazolinone, Methylisothiazolinone"),
    found=("preserv|blend", "Annex V|rinsed"),
)
again(
    "closed_jar_bath",
    "A balm melted in a closed jar",
    "hurts",
    "lip_balm",
    put("melt", title="Melt in the closed mason jar, lid on tight"),
    found=("melt", "lid|closed|shut|burst|pressure"),
)
