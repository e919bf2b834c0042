"""Faults put into sound recipes, by someone who did not write the rules of the recipe check.

Each says what is wrong, how much harm it does ("hurts" people, "spoils" the batch, "misleads" by a wrong number, a
wrong duty or words, or is in the maker's way: "slips"), and which finding counts: one that the sound recipe does
not have, in whose place and words each of `found` occurs. Where the recipe is refused as it is read, the refusal
is the finding. `desk` are the 39 that were planted once before, as far as they were written down.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from faults.making import (
    Edit,
    amounts,
    becomes,
    drop,
    edited,
    insert,
    melt,
    more,
    move,
    named,
    of_line,
    of_part,
    put,
    thing,
    weigh,
    whole,
    within,
    without,
)
from faults.sound import sound
from faults.things import scent

Json = dict[str, Any]


class Fault(NamedTuple):
    id: str
    what: str
    harm: str
    upon: str
    edits: tuple[Edit, ...]
    found: tuple[str, ...]
    air: tuple[float, float] | None = None  # today's temperature and humidity, where they are the fault
    desk: bool = False

    @property
    def document(self) -> Json:
        return edited(sound(self.upon), self.edits)


DESK: list[Fault] = []
OWN: list[Fault] = []


def desk(id: str, what: str, harm: str, upon: str, *edits: Edit, found: tuple[str, ...]) -> None:
    DESK.append(Fault(id, what, harm, upon, edits, found, desk=True))


def own(
    id: str,
    what: str,
    harm: str,
    upon: str,
    *edits: Edit,
    found: tuple[str, ...],
    air: tuple[float, float] | None = None,
) -> None:
    OWN.append(Fault(id, what, harm, upon, edits, found, air))


WATER = "water|wet|damp|moist"
KEEP = "preserv|spoil|grow|mould|keep"
LYE = "lye|caustic|hydroxide"

# The 39 of before: the missed ones by name, then the likely ones of those that were caught

desk(
    "dry_minutes",
    "Dried 6 minutes, not 6 hours",
    "spoils",
    "bath_bombs",
    put("drying", earliest="6 min", usual="10 min", latest=None),
    found=("drying", "min"),
)
desk(
    "long_burst",
    "A burst of 15 minutes, not 15 seconds",
    "hurts",
    "one_pour",
    put("melt", burst="15 min"),
    found=("melt", "burst"),
)
desk(
    "alcohol_in_melt",
    "Alcohol in the jug that is then melted",
    "hurts",
    "lip_balm",
    more("ipa 10 g", "fats"),
    put("melt", of=["beeswax", "cocoa", "castor", "coconut", "ipa"]),
    found=("alcohol", "heat|melt|burn|flame"),
)
desk(
    "thin_oil",
    "A density ten times too small",
    "misleads",
    "bath_oil",
    thing("sunflower", density={"g_per_ml": "0.092", "source": "Sheet"}),
    found=("sunflower", "densit|g/ml"),
)
desk(
    "two_names",
    "One substance under two names",
    "misleads",
    "bath_salts",
    more("bitter 100 g", "dry", name="Magnesium sulphate heptahydrate", kind="salt"),
    found=("bitter|epsom|magnesium", "same|twice|two names|one substance|both"),
)
desk(
    "baking_powder",
    "Baking powder for bicarbonate",
    "spoils",
    "bath_bombs",
    thing("bicarb", name="Baking powder", inci=None),
    found=("bicarb|baking powder", "acid and starch|not pure|fizz"),
)
desk(
    "borax",
    "Borax in a bath powder",
    "hurts",
    "fizz_powder",
    more("borax 20 g", "dry", name="Borax"),
    found=("borax", "restrict|forbid|prohibit|not allowed|EU|reproduct"),
)
desk(
    "plastic_glitter",
    "Plastic glitter",
    "misleads",
    "bath_bombs",
    more("glitter 3 g", "dry", name="Silver glitter", inci="Polyethylene Terephthalate"),
    found=("glitter", "plastic|microplastic|PET|polyethylene"),
)
desk(
    "candle_dye",
    "Candle dye on the skin",
    "hurts",
    "one_pour",
    more("dye 1 g", "colour", name="Candle dye, red", kind="other"),
    found=("dye", "candle|wax|colour"),
)
desk(
    "cinnamon_as_oil",
    "Cinnamon bark oil entered as a plain oil",
    "hurts",
    "whipped_butter",
    more("cinnamon 5 g", "late", name="Cinnamon bark oil", kind="oil"),
    found=("cinnamon", "limit|essential|sensitis|irritat|IFRA|fragrance"),
)
desk(
    "fresh_petals",
    "Fresh petals in a soap bar",
    "spoils",
    "one_pour",
    more("rose 12 g", "colour", name="Fresh rose petals", kind="botanical"),
    found=("rose", f"fresh|dried|{WATER}|{KEEP}|brown"),
)
desk(
    "butter_alone",
    "Much butter and no solubiliser",
    "hurts",
    "bath_bombs",
    amounts(coconut="160 g"),
    without("polysorbate"),
    found=("coconut|oil|butter|fat", "solubilis|slip|slick"),
)
desk(
    "own_substitute",
    "An ingredient as its own substitute",
    "slips",
    "bath_bombs",
    of_line("coconut", substitutes=[{"ingredient": "coconut"}]),
    found=("coconut|substitut", "itself|own|same|instead"),
)
desk(
    "wide_tolerance",
    "A tolerance of 99 %",
    "misleads",
    "bath_bombs",
    of_line("citric", tolerance="99 %"),
    found=("citric|tolerance", "toleran|99"),
)
desk(
    "third_portion",
    "A third portion that nothing uses",
    "spoils",
    "bath_bombs",
    insert(
        "oils",
        {
            "id": "halve",
            "kind": "split",
            "title": "Split in three",
            "portions": [
                {"id": "one", "name": "White", "share": 1},
                {"id": "two", "name": "Rose", "share": 1},
                {"id": "three", "name": "Blue", "share": 1},
            ],
        },
    ),
    put("press", of=["one", "two"]),
    found=("three|blue", "use|portion|left|nothing"),
)
for language, word in (
    ("german", "Natriumhydroxid"),
    ("french", "Soude caustique"),
    ("spanish", "Sosa cáustica"),
):
    desk(
        f"lye_{language}",
        f"Lye by its {language} name",
        "hurts",
        "one_pour",
        more("lauge 60 g", "cut", name=word),
        found=(LYE,),
    )
desk(
    "water_in_fizz",
    "Water weighed into the fizz",
    "spoils",
    "bath_bombs",
    more("water 60 g", "oils"),
    found=("water", "fizz|acid|react"),
)
desk(
    "wrong_way",
    "Twice as much acid as bicarbonate",
    "hurts",
    "bath_bombs",
    amounts(bicarb="400 g", citric="800 g"),
    found=("citric|acid", "acid"),
)
desk(
    "no_solubiliser",
    "Scented oil in bath salts without solubiliser",
    "hurts",
    "bath_salts",
    without("polysorbate"),
    found=("oil|lavender|almond", "solubilis|float|slip|skin"),
)
desk(
    "never_wrapped",
    "Fizz left open",
    "spoils",
    "bath_bombs",
    drop("wrap"),
    found=("wrap|pack|damp",),
)
desk(
    "never_dried",
    "Fizz wrapped wet",
    "spoils",
    "bath_bombs",
    drop("drying"),
    found=("dry|wait|wet", "dry|dries"),
)
desk(
    "unused_thing",
    "An ingredient that no line takes",
    "slips",
    "bath_bombs",
    lambda made: made["ingredients"].update(kaolin={"name": "White kaolin", "kind": "powder"}),
    found=("kaolin", "use|line|no "),
)
desk(
    "never_weighed",
    "A line that no step weighs",
    "spoils",
    "bath_bombs",
    put("dry", lines=["bicarb", "citric"]),
    found=("starch", "weigh|step"),
)
desk(
    "comes_after_itself",
    "A step that comes after itself",
    "slips",
    "bath_bombs",
    put("sift", after=["rub"]),
    found=("sift|rub|oils", "after|circle|wait|each other"),
)
desk(
    "unknown_step",
    "A step after one that does not exist",
    "slips",
    "bath_bombs",
    put("press", after=["dampen"]),
    found=("dampen|press|after",),
)
desk(
    "over_limit",
    "Fragrance over its limit",
    "hurts",
    "bath_bombs",
    amounts(bath_scent="60 g"),
    found=("scent|fragrance", "limit|allow"),
)
desk(
    "no_limit",
    "A fragrance without its limit",
    "hurts",
    "bath_bombs",
    thing("bath_scent", fragrance={"category": "9"}),
    found=("scent|fragrance", "limit|certificate"),
)
desk(
    "hot_scent",
    "Fragrance into a melt far too hot for it",
    "spoils",
    "lotion_bars",
    more("skin_scent 3 g", "e"),
    put("melt", to_c="95"),
    found=("scent|fragrance|melt", "°C|hot|warm"),
)
desk(
    "spray_by_flame",
    "Alcohol sprayed while the water bath runs",
    "hurts",
    "two_layers",
    put("melt_white", heater="gas ring", after=["skin"]),
    put("mist", title="Spray the first layer beside the ring", after=["skin"]),
    put("pour_second", after=["mist", "melt_white", "scent_two"]),
    found=("alcohol", "heat|flame|ring|burn|off"),
)
desk(
    "loose_window",
    "No word of how soon the second layer goes on",
    "spoils",
    "two_layers",
    put("pour_second", window=None),
    put("skin", latest=None, stake=None),
    found=("pour_second|skin|second layer|layer", "soon|window|cold|latest|how long|part"),
)
desk(
    "negative",
    "An amount below nothing",
    "slips",
    "bath_bombs",
    amounts(citric="-400 g"),
    found=("amount|400",),
)
desk("all_lost", "A loss of 100 %", "slips", "bath_bombs", of_part("mix", loss="100 %"), found=("loss|100",))
desk(
    "same_id",
    "Two lines of one id",
    "slips",
    "bath_bombs",
    lambda made: made["components"][0]["lines"].append(
        {"id": "citric", "ingredient": "citric", "amount": "10 g"}
    ),
    found=("citric|twice|id",),
)
desk(
    "unmould_before_set",
    "Turned out before it is set",
    "spoils",
    "one_pour",
    move("unmould", "setting"),
    found=("unmould|turn", "set|wait|before|warm|cool"),
)
desk(
    "back_to_front",
    "A wait whose earliest is after its usual",
    "slips",
    "bath_bombs",
    put("drying", earliest="36 h"),
    found=("earliest|usual|drying",),
)
desk(
    "no_density",
    "Millilitres of something whose density is not known, in a part sized by weight",
    "misleads",
    "bath_oil",
    thing("bath_scent", density=None),
    found=("scent", "densit|spoon|volume|gram|weigh"),
)

desk(
    "per_cent_alone",
    "Everything in per cent, and no piece to take them of",
    "slips",
    "conditioner_bars",
    amounts(btms="54 %", cetyl="26 %", cocoa="13 %", jojoba="6 %"),
    lambda made: made["components"][0].pop("piece"),
    found=("%|per cent|share|piece|amount",),
)

# Fizz

own(
    "rose_water_fizz",
    "Rose water in the fizz",
    "spoils",
    "bath_bombs",
    more("rose_water 45 g", "oils"),
    found=("rose", WATER),
)
own(
    "aloe_fizz",
    "Aloe juice in the fizz",
    "spoils",
    "ipa_bombs",
    more("aloe 40 g", "wet"),
    found=("aloe", WATER),
)
own(
    "honey_fizz",
    "Honey in the fizz",
    "spoils",
    "bath_bombs",
    more("honey 60 g", "oils"),
    found=("honey", WATER),
)
own(
    "glycerin_fizz",
    "Glycerin in the fizz, 9 %",
    "spoils",
    "bath_bombs",
    more("glycerin 120 g", "oils"),
    found=("glycerin", f"draws|{WATER}|soft"),
)
own(
    "milk_fizz",
    "Fresh milk in the fizz",
    "spoils",
    "bath_bombs",
    more("milk 50 g", "oils", name="Fresh whole milk"),
    found=("milk", f"{WATER}|{KEEP}"),
)
own(
    "lemon_fizz",
    "Lemon juice for the acid",
    "spoils",
    "bath_bombs",
    named("citric", name="Lemon juice", inci="Citrus Limon Juice"),
    found=("citric|lemon", f"{WATER}|acid"),
)
own(
    "food_colour_fizz",
    "Liquid food colour in the fizz",
    "spoils",
    "bath_bombs",
    more("red 20 g", "oils", name="Liquid food colour, red", kind="dye"),
    found=("red|food colour", f"{WATER}|food|stain"),
)
own(
    "sealed_jar",
    "Fizz shut in a jar at once",
    "hurts",
    "fizz_powder",
    put("fill", title="Fill the jars and seal them airtight", says="Lids screwed down hard."),
    found=("seal|jar|shut|airtight|tight", "gas|burst|pressure|CO2"),
)
own(
    "clamp_jar",
    "Bombs into a clamp jar straight from the press",
    "hurts",
    "bath_bombs",
    drop("drying"),
    put("wrap", title="Seal in airtight glass jars", says="At once, lid clamped."),
    found=("seal|jar|shut|airtight|tight|wrap", "gas|burst|pressure|CO2"),
)
own(
    "german_glass",
    "The same in German",
    "hurts",
    "badekugeln",
    put("einpacken", title="In Gläser füllen und luftdicht verschließen"),
    found=("seal|jar|shut|airtight|tight|einpacken|luftdicht", "gas|burst|pressure|CO2"),
)
own(
    "pinch_of_acid",
    "Ten grams of bicarbonate to 500 g of acid",
    "hurts",
    "bath_bombs",
    amounts(bicarb="10 g", citric="500 g"),
    found=("citric|acid", "acid"),
)
own(
    "tartar_alone",
    "Cream of tartar as the only acid, gram for gram with citric",
    "spoils",
    "bath_bombs",
    becomes("citric", "tartar"),
    found=("bicarb|tartar|citric", "left|acid|surplus"),
)
own(
    "acid_only",
    "No bicarbonate at all",
    "hurts",
    "bath_bombs",
    named("bicarb", name="Fine sea salt", kind="salt"),
    found=("citric|acid", "bicarbonate|carbonate|acid|fizz"),
)
own(
    "washing_soda",
    "Washing soda for bicarbonate",
    "hurts",
    "bath_bombs",
    named("bicarb", name="Washing soda", inci="Sodium Carbonate"),
    found=("bicarb|soda|carbonate", "alkal|harsh|irrit|carbonate"),
)
own(
    "epsom_fizz",
    "A third Epsom salt in the fizz",
    "spoils",
    "bath_bombs",
    more("epsom 600 g", "dry"),
    found=("epsom", f"{WATER}|swell"),
)
own("damp_day", "Pressed on a damp day", "spoils", "bath_bombs", found=("air|humid",), air=(24.0, 78.0))
own(
    "oven_dried",
    "Fizz dried in an oven at 80 °C",
    "spoils",
    "bath_bombs",
    put("drying", title="Dry in the oven at 80 °C", earliest="1 h", usual="2 h", latest=None),
    found=("drying|oven|mix", "50 °C|gas|heat|oven|warm"),
)
own(
    "ultramarine_fizz",
    "Ultramarine with acid",
    "hurts",
    "bath_bombs",
    more("blue 5 g", "dry", name="Ultramarine blue", kind="pigment", inci="CI 77007"),
    found=("blue|ultramarine", "acid|sulfide|sulphide|fade"),
)
own(
    "overnight_mix",
    "Wetted mix pressed the next day",
    "spoils",
    "bath_bombs",
    put("press", window=within("20 h", "It dries.")),
    found=("press", "20 h|long|soon|hour|dries|react|min"),
)
own(
    "vinegar",
    "Vinegar sprayed on the fizz",
    "spoils",
    "bath_bombs",
    named("witch_hazel", name="Cider vinegar", inci="Acetum"),
    found=("vinegar|witch_hazel", f"{WATER}|acid|fizz"),
)
own(
    "much_spray",
    "Witch hazel weighed in, 8 %",
    "spoils",
    "bath_bombs",
    amounts(witch_hazel="110 g"),
    found=("witch", WATER),
)
own(
    "bleach_tabs",
    "Chlorine bleach powder in a fizz",
    "hurts",
    "fizz_powder",
    more("bleach 30 g", "dry", name="Sodium dichloroisocyanurate"),
    found=("chlor|bleach", "chlorine|gas|acid"),
)
own(
    "javel",
    "Household bleach over citric acid",
    "hurts",
    "bath_salts",
    more("citric 80 g", "dry"),
    more("javel 40 g", "oil", name="Eau de Javel"),
    found=("chlor|javel|bleach", "chlorine|gas|acid"),
)
own(
    "percarbonate",
    "Percarbonate for bicarbonate",
    "hurts",
    "bath_bombs",
    named("bicarb", name="Sodium percarbonate"),
    found=("percarbonate|bicarb", "peroxide|oxidis|eye|bleach|percarbonate"),
)

# Melt and pour, whipped soap

own(
    "scorched",
    "A base to 95 °C",
    "hurts",
    "one_pour",
    put("melt", to_c="95"),
    found=("melt|base", "70|95|°C|hot"),
)
own(
    "fahrenheit",
    "140 typed, in °F meant",
    "hurts",
    "one_pour",
    put("melt", to_c="140"),
    found=("melt|base", "°C|°F|hot|140"),
)
own(
    "three_minute_bursts",
    "Bursts of 3 minutes in the microwave",
    "hurts",
    "one_pour",
    put("melt", burst="3 min", last_burst=None),
    found=("melt", "burst|3 min|min"),
)
own(
    "wax_in_microwave",
    "Candle wax in a microwave in long bursts",
    "hurts",
    "wax_melts",
    put("melt", heater="microwave", burst="5 min"),
    found=("melt|wax", "microwave|burst|min"),
)
own(
    "too_soon",
    "The second layer on a first that had one minute",
    "spoils",
    "two_layers",
    put("skin", earliest="30 s", usual="1 min", latest="2 min"),
    found=("skin|layer|set", "min|s|soon|short|usual"),
)
own(
    "too_late",
    "The second layer a day later",
    "spoils",
    "two_layers",
    put("skin", earliest="12 h", usual="24 h", latest="36 h"),
    put("pour_second", window=within("48 h", "They part.", "pour_first")),
    found=("skin|layer|pour_second", "cold|part|h|late|long"),
)
own(
    "hot_second",
    "The second layer at its hottest over the first",
    "spoils",
    "two_layers",
    put("melt_white", to_c="85"),
    found=("melt_white|white", "°C|hot|through"),
)
own(
    "dry_between",
    "Nothing sprayed between the layers",
    "spoils",
    "two_layers",
    drop("mist"),
    drop("spray_up"),
    without("ipa"),
    found=("layer|pour_second|grip|spray|alcohol", "grip|spray|part|mist|alcohol|hold"),
)
own(
    "no_cooling",
    "Hearts turned out without cooling",
    "spoils",
    "three_parts",
    drop("cool"),
    found=("heart|unmould", "cool|set|wait|warm"),
)
own(
    "never_melted",
    "A solid base poured without melting",
    "spoils",
    "one_pour",
    drop("melt"),
    put("pour", window=None),
    found=("base|pour|melt", "melt|heat|solid"),
)
own(
    "fresh_milk_base",
    "Fresh goat's milk in a base, 12 %",
    "spoils",
    "goat_oat",
    more("milk 100 g", "oat", name="Goat's milk, fresh"),
    found=("milk", f"{KEEP}|{WATER}"),
)
own(
    "oily_base",
    "A quarter of oil in a soap base",
    "spoils",
    "one_pour",
    more("almond 240 g", "colour"),
    found=("almond|oil", "oil|soft|lather|weep|%"),
)
own(
    "set_in_minutes",
    "Bars turned out after 3 minutes",
    "spoils",
    "one_pour",
    put("setting", earliest="2 min", usual="3 min"),
    found=("setting|set", "min|short|usual|soon"),
)
own(
    "sweating",
    "Clear soap never wrapped",
    "spoils",
    "one_pour",
    drop("wrap"),
    found=("wrap|sweat|damp|pack",),
)
own(
    "warm_whip",
    "A whip base heated to 75 °C",
    "spoils",
    "bath_whip",
    insert("beat", melt("melt", "Melt the whip base", "whip", "microwave", "20 s", "75")),
    found=("whip|melt", "40|75|°C|hot|heat"),
)
own(
    "slow_piping",
    "A whipped top piped six hours later",
    "spoils",
    "three_parts",
    lambda made: made["assembly"]["steps"][0].update(window=within("6 h", "It stiffens.", "top.join")),
    found=("pipe|top", "stiff|h|long|soon|min"),
)
own(
    "oily_whip",
    "Oil at 30 % in a whip base",
    "spoils",
    "bath_whip",
    amounts(almond="350 g"),
    found=("almond|oil", "oil|fall|air|%|flat"),
)
own(
    "puree_scrub",
    "Strawberry purée in a sugar scrub",
    "spoils",
    "sugar_scrub",
    more("puree 60 g", "late", name="Strawberry purée"),
    without("preservative"),
    found=("puree|purée|strawberry|fruit", f"{KEEP}|{WATER}"),
)
own(
    "milky_whip",
    "A whip with 23 % fresh cream",
    "spoils",
    "bath_whip",
    more("cream 260 g", "rest", name="Fresh cream"),
    found=("cream", f"{KEEP}|{WATER}"),
)

# Left on the skin, lips, preservation

own(
    "no_preservative",
    "A lotion without preservative",
    "hurts",
    "body_lotion",
    without("preservative"),
    found=(KEEP, WATER),
)
own(
    "vitamin_e_keeps",
    "Vitamin E called the preservative",
    "hurts",
    "body_lotion",
    named("preservative", name="Vitamin E", inci="Tocopherol", kind="preservative"),
    found=("vitamin|tocopherol|preserv", "preserv"),
)
own(
    "boiled_preservative",
    "Preservative in the hot phase at 85 °C",
    "spoils",
    "body_lotion",
    put("late", lines=["skin_scent", "vitamin_e"]),
    put("oil_phase", lines=["e_wax", "almond", "cetyl", "preservative"]),
    put("heat_oil", of=["e_wax", "almond", "cetyl", "preservative"], to_c="85"),
    found=("preservative|euxyl", "°C|hot|heat|warm"),
)
own(
    "much_preservative",
    "Phenoxyethanol at 8 %",
    "hurts",
    "body_lotion",
    amounts(preservative="8 %"),
    found=("preservative|phenoxy|euxyl", "limit|allow|much|most"),
)
own(
    "little_preservative",
    "Preservative at 0.01 %, milligrams for grams",
    "hurts",
    "aloe_gel",
    amounts(preservative="4 mg"),
    found=("preservative|euxyl", "%|little|least|mg|small|weigh"),
)
own(
    "mi_left_on",
    "Methylisothiazolinone left on the skin",
    "hurts",
    "body_lotion",
    named("preservative", name="MI preservative", inci="Methylisothiazolinone", kind="preservative"),
    found=("methyliso|MI preservative", "rinse|left on|leave|forbid|banned|not allowed"),
)
own(
    "no_emulsifier",
    "Oil and water without an emulsifier",
    "spoils",
    "body_lotion",
    without("e_wax"),
    found=("emulsif|separat|binds|part again",),
)
own(
    "aloe_butter",
    "Aloe juice whipped into a butter, not preserved",
    "hurts",
    "whipped_butter",
    more("aloe 80 g", "late"),
    found=("aloe", f"{KEEP}|{WATER}"),
)
own(
    "hydrosol_mist",
    "A rose water mist, nothing else in it",
    "hurts",
    "aloe_gel",
    named("aloe", name="Rosenwasser"),
    without("preservative"),
    drop("keep"),
    found=(KEEP,),
)
own(
    "burnt_butter",
    "Butters heated to 130 °C",
    "hurts",
    "whipped_butter",
    put("melt", to_c="130"),
    found=("melt|shea|butter", "°C|hot"),
)
own(
    "boiling_bath",
    "A water bath asked for 120 °C",
    "slips",
    "lotion_bars",
    put("melt", to_c="120"),
    found=("melt", "100|boil|water bath|120|reach"),
)
own(
    "hot_lips",
    "Peppermint at 6 % on the lips",
    "hurts",
    "lip_balm",
    more("peppermint 8 g", "late"),
    found=("peppermint", "limit|categor|lip|allow"),
)
own(
    "green_lips",
    "Chromium oxide green on the lips",
    "hurts",
    "lip_balm",
    more("green 0.5 g", "late", name="Chromium oxide green", kind="pigment", inci="CI 77288"),
    found=("green|chromium", "lip|external|use"),
)
own(
    "ultramarine_lips",
    "Ultramarine on the lips",
    "hurts",
    "lip_balm",
    more("blue 0.5 g", "late", name="Ultramarine", kind="pigment", inci="CI 77007"),
    found=("blue|ultramarine", "lip|external|use"),
)
own(
    "glitter_lips",
    "Craft glitter on the lips",
    "hurts",
    "lip_balm",
    more("glitter 1 g", "late", name="Craft glitter"),
    found=("glitter", "plastic|cosmetic|lip|craft|microplastic"),
)
own(
    "crayon",
    "A wax crayon for the colour",
    "hurts",
    "lip_balm",
    more("crayon 2 g", "fats", name="Wax crayon, red"),
    put("melt", of=["beeswax", "cocoa", "castor", "coconut", "crayon"]),
    found=("crayon", "colour|cosmetic|skin|lip"),
)
own(
    "wintergreen",
    "Wintergreen oil at 5 %, left on",
    "hurts",
    "whipped_butter",
    more("wintergreen 30 g", "late", name="Wintergreen essential oil", kind="fragrance"),
    found=("wintergreen|salicylate", "limit|certificate|categor|salicylate|restrict|toxic"),
)
own(
    "bergamot",
    "Bergamot oil left on, entered as an oil",
    "hurts",
    "whipped_butter",
    more("bergamot 8 g", "late", name="Bergamot essential oil", kind="oil"),
    found=("bergamot", "limit|sun|light|essential|fragrance"),
)
own(
    "boric_acid",
    "Boric acid in a foot powder",
    "hurts",
    "clay_mask",
    more("boric 10 g", "dry", name="Boric acid"),
    found=("bor", "restrict|forbid|prohibit|not allowed|EU|reproduct"),
)
own(
    "acrylic_paint",
    "Acrylic paint in a soap",
    "hurts",
    "one_pour",
    more("paint 5 g", "colour", name="Acrylic paint, blue"),
    found=("paint", "colour|skin|cosmetic|listed"),
)

# Scents, wax, the air

own(
    "strong_menthol",
    "Menthol at 12 % in a steamer",
    "hurts",
    "steamers",
    amounts(menthol="12 %"),
    found=("menthol", "airway|child|%|irrit|much|eyes"),
)
own(
    "camphor",
    "Camphor at 20 %",
    "hurts",
    "steamers",
    more("camphor 200 g", "scent", name="Camphor crystals"),
    found=("camphor", "child|airway|%|irrit|toxic|seiz"),
)
own(
    "wax_for_skin",
    "A category 12 fragrance in a lotion",
    "hurts",
    "body_lotion",
    thing(
        "skin_scent",
        fragrance={"limit": "12 %", "category": "12", "allergens": [{"name": "Limonene", "share": "1 %"}]},
    ),
    found=("scent|fragrance", "categor|12"),
)
own(
    "rinse_limit",
    "A category 9 limit for what is left on",
    "hurts",
    "body_lotion",
    thing(
        "skin_scent",
        fragrance={"limit": "3 %", "category": "9", "allergens": [{"name": "Limonene", "share": "1 %"}]},
    ),
    found=("scent|fragrance", "categor|9|left on|rinse"),
)
own(
    "one_part_over",
    "Under the limit in the piece, over it in the heart",
    "hurts",
    "three_parts",
    more("soap_scent@heart_scent 6 g", "red"),
    found=("scent|fragrance", "limit|allow|heart"),
)
own(
    "two_scents_over",
    "Two fragrances that are over their limits only together",
    "hurts",
    "bath_bombs",
    amounts(bath_scent="22 g"),
    more("second 22 g", "oils", **scent("Bath fragrance, rose", "2.4 %", "9", geraniol="2 %")),
    found=("scent|fragrance|second", "together|sum|add|both|limit"),
)
own(
    "no_allergens",
    "A fragrance without its allergens",
    "misleads",
    "bath_bombs",
    thing("bath_scent", fragrance={"limit": "2.4 %", "category": "9"}),
    found=("allergen",),
)
own(
    "allergens_over",
    "Allergens that sum to 160 % of the fragrance",
    "misleads",
    "bath_bombs",
    thing(
        "bath_scent",
        fragrance={
            "limit": "2.4 %",
            "category": "9",
            "allergens": [{"name": "Linalool", "share": "90 %"}, {"name": "Coumarin", "share": "70 %"}],
        },
    ),
    found=("allergen|160|bath_scent", "100|more|sum|whole|160|together"),
)
own(
    "no_category",
    "A limit of which no one knows for what use",
    "misleads",
    "body_lotion",
    thing("skin_scent", fragrance={"limit": "1.1 %", "allergens": [{"name": "Limonene", "share": "1.2 %"}]}),
    found=("scent|fragrance", "categor"),
)
own(
    "kilo_of_scent",
    "Fragrance in kg, not g",
    "hurts",
    "bath_bombs",
    amounts(bath_scent="12 kg"),
    found=("scent|fragrance", "limit|allows|much|more"),
)
own(
    "scent_before_heat",
    "Fragrance heated with the fats",
    "spoils",
    "lip_balm",
    put("fats", lines=["beeswax", "cocoa", "castor", "coconut", "lip_flavour"]),
    put("late", lines=["vitamin_e"]),
    thing("lip_flavour", most_c="60"),
    found=("flavour|scent|fragrance", "°C|hot|heat|warm|melt"),
)
own(
    "alcohol_in_wax",
    "Alcohol stirred into hot wax",
    "hurts",
    "wax_melts",
    more("ipa 30 g", "scent"),
    found=("alcohol", "heat|hot|burn|flame|°C"),
)
own(
    "water_in_wax",
    "Water in hot wax",
    "hurts",
    "wax_melts",
    more("water 30 g", "scent"),
    found=("water", "spit|spat|wax|fat|hot|steam"),
)
own(
    "baby_eucalyptus",
    "Eucalyptus in a baby bath",
    "hurts",
    "milk_bath",
    whole(title="Baby milk bath", summary="For babies from three months."),
    more("eucalyptus 6 g", "dry"),
    found=("eucalyptus", "child|baby|babies"),
)
own(
    "spray_then_gun",
    "Alcohol sprayed, then a heat gun at once",
    "hurts",
    "ipa_bombs",
    put("damp", says="Warm the mould with the heat gun while you spray."),
    insert("press", melt("gun", "Warm the mix with the heat gun", "almond", "heat gun", "20 s", "60")),
    found=("alcohol|gun", "heat|burn|flame|off"),
)

# Lye, in whatever words

for language, word, inci in (
    ("english", "Caustic soda pearls", ""),
    ("german_lye", "Ätznatron", ""),
    ("italian", "Soda caustica", ""),
    ("potash", "Potasse caustique", ""),
    ("spanish_potash", "Hidróxido de potasio", ""),
    ("cas", "White flakes, CAS 1310-73-2", ""),
    ("inci_alone", "Hardener", "Sodium Hydroxide"),
):
    own(
        f"lye_{language}",
        f"Lye, named “{word}”",
        "hurts",
        "whipped_butter",
        more("flakes 40 g", "late", name=word, **({"inci": inci} if inci else {})),
        found=(LYE,),
    )

# Amounts, units, shares

own(
    "tenfold",
    "Solubiliser ten times too much",
    "spoils",
    "bath_bombs",
    amounts(polysorbate="800 g"),
    found=("polysorbate|mix", "much|share|%|soft|add up"),
)
own(
    "kilo_of_mica",
    "Mica in kg, not g",
    "spoils",
    "one_pour",
    amounts(rose_mica="2 kg"),
    found=("mica", "much|%|kg|more|share"),
)
own(
    "milligrams",
    "Bicarbonate in mg",
    "spoils",
    "bath_bombs",
    amounts(bicarb="800 mg"),
    found=("bicarb|citric|acid|mg",),
)
own(
    "heavy_piece",
    "A piece of 110 kg",
    "slips",
    "bath_bombs",
    of_part("mix", piece="110 kg"),
    found=("piece|110|mix", "kg|makes|weigh|lines|enough|amount"),
)
own(
    "light_piece",
    "A piece of 11 g, ten times too small for what goes in",
    "misleads",
    "bath_bombs",
    of_part("mix", piece="11 g"),
    found=("piece|11 g|mix", "makes|weigh|lines|more|amount|left|pieces"),
)
own(
    "made_for_one",
    "Written for one piece, the amounts for twelve",
    "misleads",
    "bath_bombs",
    whole(written_for=1),
    found=("piece|written|mix", "makes|weigh|lines|more|amount|left|pieces"),
)
own(
    "shares_over",
    "Shares that come to 130 %",
    "misleads",
    "steamers",
    amounts(menthol="70 %", eucalyptus="60 %"),
    found=("%", "100|130|share|whole"),
)
own(
    "whole_percent",
    "A share of 150 %",
    "misleads",
    "steamers",
    amounts(menthol="150 %"),
    found=("%|150|menthol",),
)
own(
    "nothing",
    "An amount of 0 g",
    "slips",
    "bath_bombs",
    amounts(starch="0 g"),
    found=("starch|amount|0",),
)
own(
    "litres_of_powder",
    "A powder in millilitres, of no density",
    "misleads",
    "bath_bombs",
    amounts(citric="400 ml"),
    found=("citric", "densit|spoon|ml|volume|weigh|gram"),
)
own(
    "odd_unit",
    "A unit that is none",
    "slips",
    "bath_bombs",
    amounts(starch="100 gg"),
    found=("starch|100 gg|amount",),
)
own(
    "decimal_trap",
    "1,000 of which no one knows whether it is one or a thousand",
    "misleads",
    "bath_bombs",
    amounts(bicarb="1,000 g"),
    found=("1,000",),
)
own(
    "heavy_density",
    "Witch hazel at 9.81 g/ml",
    "misleads",
    "bath_bombs",
    thing("witch_hazel", density={"g_per_ml": "9.81", "source": "Sheet"}),
    found=("witch", "densit|g/ml"),
)
own(
    "light_alcohol",
    "Alcohol of 70 % at 0.785 g/ml, which is that of 99 %",
    "misleads",
    "tartar_bombs",
    thing("ipa70", density={"g_per_ml": "0.785", "source": "A web page"}),
    found=("alcohol|ipa", "densit|g/ml"),
)
own(
    "same_line_twice",
    "Citric acid in two lines of one weighing",
    "misleads",
    "bath_bombs",
    more("citric@citric_again 400 g", "dry"),
    found=("citric", "twice|two lines|same|both|again|acid"),
)
own(
    "weighed_twice",
    "One line weighed by two steps",
    "misleads",
    "bath_bombs",
    put("sift", kind="weigh", lines=["starch"]),
    found=("starch|sift|weigh", "twice|two|already|more than|again"),
)

# Order, waits, windows, parts

own(
    "wrap_before_dry",
    "Wrapped before they are dry",
    "spoils",
    "bath_bombs",
    move("wrap", "drying"),
    found=("wrap|dry", "dry|before|after"),
)
own(
    "press_before_damp",
    "Pressed before the mix is damp",
    "spoils",
    "bath_bombs",
    move("press", "damp"),
    found=("press|damp|spray", "press|damp|spray|after|before"),
)
own(
    "colour_after_pour",
    "Colour stirred in after the pour",
    "spoils",
    "one_pour",
    move("colour", "setting"),
    found=("mica|colour|pour", "pour|after|late|before"),
)
own(
    "scent_after_fill",
    "Fragrance weighed after the jars are full",
    "spoils",
    "salt_scrub",
    put("oils", lines=["sunflower", "polysorbate", "vitamin_e"]),
    lambda made: made["components"][0]["steps"].append(weigh("late", "Weigh the scent", "skin_scent")),
    found=("scent|late|fill", "after|late|fill|before|pieces|already"),
)
own(
    "melt_before_weigh",
    "Melted before it is weighed",
    "slips",
    "one_pour",
    move("melt", "cut"),
    found=("melt|base|cut", "weigh|before|after|not in|yet"),
)
own(
    "melt_of_nothing",
    "Melts a line that is not there",
    "slips",
    "one_pour",
    put("melt", of=["yellow_base"]),
    found=("yellow_base|melt|of",),
)
own(
    "into_nowhere",
    "Tips a cup that nothing went into",
    "slips",
    "bath_bombs",
    put("rub", tips=["beaker"]),
    found=("beaker|tip|vessel|rub",),
)
own(
    "never_tipped",
    "The oils stay in their cup",
    "spoils",
    "bath_bombs",
    put("rub", tips=None),
    found=("cup|oils", "tip|empt|left|bowl|joins|stay|into"),
)
own(
    "join_before_done",
    "Tops piped before the bases are dry",
    "spoils",
    "three_parts",
    lambda made: made["assembly"]["steps"][0].update(after=["top.join"]),
    put("beat", after=["whip_in"]),
    found=("base|pipe", "dry|wait|after|before|last step|ready"),
)
own(
    "part_never_taken",
    "A part that nothing takes",
    "spoils",
    "three_parts",
    lambda made: made["assembly"]["takes"].pop(1),
    found=("heart", "take|use|part|assembl|unknown"),
)
own(
    "no_press",
    "Nothing presses, moulds or counts the pieces",
    "slips",
    "bath_bombs",
    drop("press"),
    drop("wrap"),
    found=("press|piece|mould|shape|fill",),
)
own(
    "cooled_sixty_days",
    "Sixty days of setting, minutes meant",
    "slips",
    "one_pour",
    put("setting", earliest="60 d", usual="90 d"),
    found=("setting|set", "d|days|long|h"),
)
own(
    "seconds_for_hours",
    "Dried 12 seconds",
    "spoils",
    "steamers",
    put("drying", earliest="12 s", usual="24 s"),
    found=("drying", "s|short|usual|h"),
)
own(
    "impossible_window",
    "A window that is shut before the wait within it ends",
    "slips",
    "bath_bombs",
    put("wrap", window=within("1 h", "They take up damp.", "press")),
    found=("wrap|window", "wait|never|h|earliest|longer|cannot|already"),
)
own(
    "upside_down_window",
    "A latest before the earliest",
    "slips",
    "bath_bombs",
    put("drying", latest="1 h"),
    found=("latest|drying|earliest",),
)
own(
    "never_mixed",
    "Colour weighed in and never mixed",
    "spoils",
    "fizz_powder",
    more("blue_lake 3 g", "dry"),
    drop("mix"),
    found=("mix|stir|sift|blend",),
)
own(
    "cupcake",
    "A cupcake that is said not to look like food",
    "misleads",
    "three_parts",
    whole(title="Cupcake bath treat", looks_like_food=False),
    found=("food|eat|cake",),
)
own(
    "left_on_unsaid",
    "A body butter said to be washed off",
    "misleads",
    "whipped_butter",
    whole(stays_on=False),
    found=("stays|left on|wash|rinse|skin",),
)
own(
    "soap_left_on",
    "A soap bar said to stay on the skin",
    "misleads",
    "one_pour",
    whole(stays_on=True),
    found=("stays|left on|wash|rinse|soap",),
)
own(
    "unlike_stand_in",
    "Citric acid's substitute is bicarbonate",
    "spoils",
    "bath_bombs",
    of_line("citric", substitutes=[{"ingredient": "bicarb"}]),
    found=("citric|bicarb|substitut", "acid|fizz|instead|substitut|already|same"),
)
own(
    "lidded_melt",
    "A lidded jar in the microwave",
    "hurts",
    "one_pour",
    put("melt", says="Lid screwed on tight, so that nothing dries out."),
    found=("melt|lid", "lid|shut|burst|pressure|steam|open"),
)
own(
    "steel_in_microwave",
    "A steel bowl in the microwave",
    "hurts",
    "one_pour",
    put("cut", title="Weigh the base into the steel bowl"),
    put("melt", says="In the steel bowl."),
    found=("steel|metal", "microwave|spark|arc"),
)
own(
    "hot_into_glass",
    "Hot wax straight into cold glass from the fridge, lid shut at once",
    "hurts",
    "wax_melts",
    put("pour", title="Pour at 80 °C into glasses straight from the freezer"),
    found=("glass", "crack|shatter|cold|hot|break"),
)
own(
    "no_time",
    "A wait of no time",
    "slips",
    "bath_bombs",
    put("drying", usual="0 min", earliest="0 min", latest=None),
    found=("drying|earliest|usual",),
)
own(
    "hands_for_days",
    "A step of 90 hours at the hands, minutes meant",
    "misleads",
    "bath_bombs",
    put("rub", hands="90 h"),
    found=("rub|hands", "h|long|hands|min"),
)
own(
    "tiny_share",
    "A colour of 0.4 mg, which no bench scale shows",
    "misleads",
    "bath_bombs",
    more("red_oxide 0.4 mg", "dry"),
    found=("red_oxide|red iron|oxide", "scale|weigh|small|mg|division"),
)
own(
    "dye_chips",
    "Candle dye chips in a bath melt",
    "hurts",
    "bath_melts",
    more("chips 3 g", "powders", name="Candle dye chips"),
    found=("dye|chips", "candle|wax|colour|skin"),
)
own(
    "copper_sulphate",
    "Copper sulphate for a blue bath",
    "hurts",
    "bath_salts",
    more("copper 5 g", "dry", name="Copper sulfate", inci="Copper Sulfate"),
    found=("copper", "restrict|forbid|not listed|irrit|harm|not a colour|no cosmetic|colour"),
)
own(
    "scent_alone",
    "Essential oil in bath salts, with no carrier and no solubiliser",
    "hurts",
    "bath_salts",
    without("polysorbate"),
    without("almond"),
    found=("lavender|scent|oil", "solubilis|neat"),
)
