"""More than forty recipes that are sound by published practice, as makers write them, the bare ones among them.

Each says on what ground it is held to be sound. "Common practice" is what the trade's published tutorials agree
on; figures from a text are named. Formulas are invented: none is copied.
"""

from __future__ import annotations

import copy
from typing import Any, NamedTuple

from faults.making import do, look, melt, part, pieces, recipe, wait, weigh, within
from faults.things import THINGS

Json = dict[str, Any]


class Sound(NamedTuple):
    ground: str
    document: Json


RATIO = "Two parts bicarbonate to one of acid, damped by spray, dried a day, wrapped: common practice"
KEEPS = "No water goes in, so nothing grows: ISO 29621 counts what is without water as low risk (second-hand)"
DRY_WRAP = pieces("wrap", "Wrap the bombs in film", "wrap", window=within("24 h", "They take up damp."))


def _damp(of: str = "witch hazel") -> Json:
    return look(
        "damp",
        f"Damp with {of} until it holds",
        "Squeeze a handful and drop it. Does it hold?",
        "Two sprays more, and work in at once.",
        does="spray",
    )


def _press(**said: Any) -> Json:
    return pieces(
        "press", "Press the bombs", "press", **{"window": within("30 min", "The mix dries out."), **said}
    )


BATH_BOMBS = recipe(
    "Plain bath bombs",
    12,
    part(
        "mix",
        "Bath bomb mix",
        "110 g",
        "bicarb 800 g; citric 400 g; starch 100 g; coconut 26 g; polysorbate 8 g; bath_scent 12 g;"
        "witch_hazel to texture",
        weigh("dry", "Weigh the dry things", "bicarb citric starch"),
        do("sift", "Sift and mix", "sift"),
        weigh(
            "oils", "Weigh the oil and solubiliser into a cup", "coconut polysorbate bath_scent", into="cup"
        ),
        do("rub", "Rub the oils in", "mix", tips=["cup"]),
        weigh("bottle_up", "Fill the spray bottle", "witch_hazel", into="bottle"),
        _damp(),
        _press(),
        wait("drying", "Let them dry", "dry", "12 h", "24 h", "48 h", test="Tap one: it sounds hard."),
        DRY_WRAP,
    ),
    measures="metric",
    piece={"one": "bomb", "many": "bombs"},
    stays_on=False,
    looks_like_food=False,
)
# Grated coconut oil melts in the hands, so nothing is heated.

IPA_BOMBS = recipe(
    "Clay bath bombs, with alcohol",
    10,
    part(
        "mix",
        "Mix",
        "120 g",
        "bicarb 700 g; citric 350 g; kaolin 80 g; starch 60 g; rose_mica 3 g; almond 20 g; lavender 0.6 %;"
        "polysorbate 8 g; ipa to texture",
        weigh("dry", "Dry things into the big bowl", "bicarb citric kaolin starch rose_mica"),
        do("sift", "Twice through the sieve", "sift"),
        weigh("wet", "Oil, scent and solubiliser into a cup", "almond polysorbate lavender", into="cup"),
        do("mix_in", "Whisk in", "mix", tips=["cup"]),
        weigh("fill_spray", "Alcohol into the spray bottle", "ipa", into="bottle"),
        _damp("alcohol"),
        _press(),
        wait("drying", "Dry on a tray", "dry", "8 h", "24 h"),
        pieces("wrap", "Shrink wrap", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

TARTAR_BOMBS = recipe(
    "Hard bath bombs with cream of tartar",
    8,
    part(
        "mix",
        "Mix",
        "125 g",
        "bicarb 600 g; citric 240 g; tartar 80 g; starch 70 g; sunflower 18 g; polysorbate 6 g; ipa70 to texture",
        weigh("dry", "Weigh and sift the dry things", "bicarb citric tartar starch"),
        do("mixing", "Mix well", "mix"),
        weigh("oil", "Drizzle in the oil", "sunflower polysorbate"),
        do("rub", "Rub it in", "mix"),
        weigh("ipa_in", "Alcohol into the spray bottle", "ipa70", into="bottle"),
        _damp("alcohol"),
        _press(),
        wait("drying", "Leave to dry", "dry", "24 h", "36 h"),
        pieces("wrap", "Wrap", "wrap"),
    ),
    stays_on=False,
)

FOAM_BOMBS = recipe(
    "Foaming bath bombs",
    10,
    part(
        "mix",
        "Mix",
        "110 g",
        "bicarb 600 g; citric 300 g; slsa 90 g; tartar 40 g; starch 40 g; shea 15 g; polysorbate 6 g;"
        "soap_scent 8 g; blue_lake 2 g; ipa to texture",
        weigh("dry", "Weigh all but the surfactant", "bicarb citric tartar starch blue_lake"),
        do("sift", "Sift", "sift"),
        weigh(
            "slsa_in",
            "Add the SLSA, mask on",
            "slsa",
            caution="The dust stings nose and eyes: a mask, no draught.",
        ),
        do("fold", "Fold it in slowly", "mix"),
        weigh("butter", "Weigh the butter into a jug", "shea", into="jug", after=[]),
        melt("melt_butter", "Melt the butter", "shea", "water_bath", "2 min", "50"),
        weigh("wet", "Add scent and solubiliser", "polysorbate soap_scent", into="jug"),
        do("pour_in", "Pour into the dry and rub in", "mix", tips=["jug"], after=["fold", "wet"]),
        weigh("spray_up", "Fill the spray bottle", "ipa", into="bottle", after=[]),
        {**_damp("alcohol"), "after": ["pour_in", "spray_up"]},
        _press(),
        wait("drying", "Dry", "dry", "12 h", "24 h"),
        pieces("wrap", "Wrap in film", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

BADEKUGELN = recipe(
    "Badekugeln mit Kakaobutter",
    8,
    part(
        "masse",
        "Sprudelmasse",
        "90 g",
        "natron 400 g; zitrone 200 g; staerke 60 g; milch 30 g; kakao 40 g; lavendel 4 g",
        weigh("trocken", "Trockenes abwiegen", "natron zitrone staerke milch"),
        do("mischen", "Sieben und mischen", "sift"),
        weigh("fett", "Kakaobutter in den Becher wiegen", "kakao", into="becher", after=[]),
        melt(
            "schmelzen",
            "Im Wasserbad schmelzen",
            "kakao",
            "water_bath",
            "3 min",
            "45",
            look_for="Klar, ohne Stücke.",
        ),
        weigh("duft", "Öl dazu", "lavendel", into="becher"),
        do("kneten", "Alles verkneten", "mix", tips=["becher"], after=["mischen", "duft"]),
        pieces("formen", "Kugeln formen", "press"),
        wait("trocknen", "Trocknen lassen", "trocken", "12 h", "24 h", test="Die Kugel klingt hart."),
        pieces("einpacken", "Einpacken", verb="eingepackt"),
    ),
    things={
        "natron": {"name": "Natron"},
        "zitrone": {"name": "Zitronensäure"},
        "staerke": {"name": "Maisstärke"},
        "milch": {"name": "Milchpulver"},
        "kakao": {"name": "Kakaobutter"},
        "lavendel": {**THINGS["lavender"], "name": "Lavendelöl, ätherisch"},
    },
    measures="metric",
    piece={"one": "Kugel", "many": "Kugeln"},
    stays_on=False,
)

STEAMERS = recipe(
    "Shower steamers with menthol",
    16,
    part(
        "mix",
        "Steamer mix",
        "60 g",
        "bicarb 560 g; citric 280 g; kaolin 60 g; starch 40 g; menthol 1 %; eucalyptus 1.5 %; ipa to texture",
        weigh("dry", "Weigh the dry things", "bicarb citric kaolin starch"),
        do("sift", "Sift", "sift"),
        weigh("scent", "Crush the menthol into the oil, gloves on", "menthol eucalyptus", into="cup"),
        do("rub", "Rub the scent in, window open", "mix", tips=["cup"]),
        weigh("spray", "Fill the spray bottle", "ipa", into="bottle"),
        _damp("alcohol"),
        pieces("press", "Press the tablets", "press", window=within("30 min", "It dries in the bowl.")),
        wait("drying", "Dry on a rack", "dry", "12 h", "24 h"),
        pieces(
            "wrap", "Wrap each", "wrap", says="On the label: for the shower floor. Not for small children."
        ),
    ),
    summary="For the shower floor, not for the bath. Not for children under six.",
    stays_on=False,
    looks_like_food=False,
)

FIZZ_POWDER = recipe(
    "Fizzing bath powder",
    6,
    part(
        "powder",
        "Powder",
        "150 g",
        "bicarb 500 g; citric 250 g; milk_powder 100 g; starch 50 g; lavender_buds 8 g",
        weigh("dry", "Weigh everything dry", "bicarb citric milk_powder starch lavender_buds"),
        do("mix", "Sift twice and mix", "mix"),
        pieces("fill", "Fill the paper bags and fold them over", "wrap", says="Folded, never sealed tight."),
    ),
    stays_on=False,
)

BUBBLE_BARS = recipe(
    "Bubble bars, kneaded",
    9,
    part(
        "dough",
        "Dough",
        "90 g",
        "bicarb 300 g; tartar 180 g; slsa 180 g; starch 60 g; glycerin 60 g; betaine 25 g; soap_scent 8 g; green_mica 2 g",
        weigh("dry", "Dry things first, mask on", "bicarb tartar slsa starch green_mica"),
        do("sift", "Sift slowly", "sift"),
        weigh("wet", "Wet things into a cup", "glycerin betaine soap_scent", into="cup"),
        do("knead", "Knead to a dough", "mix", tips=["cup"]),
        pieces("shape", "Roll and cut the bars", "press", window=within("20 min", "It stiffens and cracks.")),
        wait("drying", "Let them dry", "dry", "24 h", "48 h"),
        pieces("wrap", "Wrap in film", "wrap"),
    ),
    stays_on=False,
    looks_like_food=True,
)

BATH_MELTS = recipe(
    "Fizzing bath melts",
    20,
    part(
        "melts",
        "Melt mix",
        "25 g",
        "cocoa 180 g; shea 90 g; bicarb 120 g; citric 60 g; starch 25 g; polysorbate 25 g; bath_scent 5 g",
        weigh("fats", "Weigh the butters into the jug", "cocoa shea", into="jug"),
        melt("melt", "Melt over the water bath", "cocoa shea", "water_bath", "3 min", "50"),
        weigh("powders", "Weigh the powders", "bicarb citric starch", after=[]),
        do("whisk", "Whisk the powders in", "mix", tips=["jug"], after=["melt", "powders"]),
        weigh("scent", "Add solubiliser and scent below 45 °C", "polysorbate bath_scent"),
        pieces(
            "pour", "Pour into the moulds", "pour", window=within("10 min", "It sets in the jug.", "melt")
        ),
        wait("cooling", "Let them set in the fridge", "set", "1 h", "2 h"),
        pieces("unmould", "Turn them out", "unmould"),
        pieces("wrap", "Wrap them in foil cups", "wrap", says="They make the tub slippery."),
    ),
    stays_on=False,
    looks_like_food=True,
)

BATH_SALTS = recipe(
    "Lavender bath salts",
    5,
    part(
        "salts",
        "Salts",
        "250 g",
        "epsom 800 g; sea_salt 400 g; almond 15 g; polysorbate 15 g; lavender 8 g; lavender_buds 12 g",
        weigh("dry", "Weigh the salts", "epsom sea_salt"),
        weigh(
            "oil", "Weigh oil, solubiliser and lavender into a cup", "almond polysorbate lavender", into="cup"
        ),
        do("stir", "Stir the oil through", "mix", tips=["cup"]),
        weigh("buds", "Fold in the buds", "lavender_buds"),
        pieces("fill", "Fill the jars", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

BARE_SALTS = recipe(
    "Bath salt",
    4,
    part(
        "salts",
        "Salt",
        None,
        "salt 2 cups; pink 1 cup; flowers 2 tbsp",
        weigh("all", "Everything into a bowl", "salt pink flowers"),
        do("mix", "Mix", "mix"),
        pieces("fill", "Into jars"),
    ),
    things={
        "salt": {"name": "Epsom salt"},
        "pink": {"name": "Pink salt"},
        "flowers": {"name": "Dried petals"},
    },
    measures="us",
)

FOOT_SOAK = recipe(
    "Peppermint foot soak",
    6,
    part(
        "soak",
        "Soak",
        "200 g",
        "epsom 900 g; bicarb 200 g; sea_salt 100 g; peppermint 6 g; kaolin 20 g",
        weigh("salts", "Weigh salts, soda and clay", "epsom bicarb sea_salt kaolin"),
        weigh("mint", "Drip in the peppermint", "peppermint"),
        do("stir", "Stir well", "mix"),
        pieces("fill", "Fill the jars and close them", "wrap"),
    ),
    stays_on=False,
)

MILK_BATH = recipe(
    "Milk and oat bath, in bags",
    8,
    part(
        "milk",
        "Milk bath",
        "60 g",
        "milk_powder 280 g; oats 140 g; starch 60 g; lavender_buds 6 g; sachet@bags 8 pieces",
        weigh("dry", "Weigh the powders", "milk_powder oats starch lavender_buds"),
        do("sift", "Sift and mix", "sift"),
        weigh("set_out", "Set out the bags", "bags"),
        pieces("fill", "Fill and tie the bags", "wrap"),
    ),
    summary="Use at once after wetting: throw the bag away after the bath.",
    stays_on=False,
)

ONE_POUR = recipe(
    "Clear soap, one pour",
    10,
    part(
        "bar",
        "Bar",
        "95 g",
        "clear_base 960 g; rose_mica 2 g; soap_scent 10 g; ipa to texture",
        weigh("cut", "Cut and weigh the base", "clear_base"),
        melt("melt", "Melt in short bursts", "clear_base", "microwave", "20 s", "60", last_burst="10 s"),
        weigh("colour", "Stir in the mica", "rose_mica", does="colour"),
        weigh("scent", "Add the scent", "soap_scent"),
        weigh("spray_up", "Fill the spray bottle, away from the heat", "ipa", into="bottle"),
        pieces(
            "pour", "Pour, and spray the bubbles", "pour", window=within("8 min", "A skin forms.", "melt")
        ),
        wait("setting", "Let it set", "set", "2 h", "4 h"),
        pieces("unmould", "Turn out", "unmould"),
        pieces("wrap", "Wrap in film", "wrap", window=within("2 h", "Clear soap sweats.")),
    ),
    stays_on=False,
    looks_like_food=False,
)

TWO_LAYERS = recipe(
    "Two-layer soap",
    8,
    part(
        "bar",
        "Bar",
        "100 g",
        "clear_base 490 g; green_mica 1.3 g; soap_scent@scent_clear? 0.6 %; white_base 330 g;"
        "soap_scent@scent_white? 0.4 %; ipa to texture",
        weigh("spray_up", "Fill the spray bottle", "ipa", into="bottle"),
        weigh("cut_white", "Weigh the white base into a jug", "white_base", into="jug"),
        weigh("cut_clear", "Cut and weigh the clear base", "clear_base", after=[]),
        melt("melt_clear", "Melt the clear base", "clear_base", "microwave", "15 s", "60", last_burst="10 s"),
        weigh("green", "Stir in the mica", "green_mica", does="colour"),
        weigh("scent_one", "Scent it", "scent_clear", optional=True),
        do(
            "pour_first",
            "Pour the first layer",
            "pour",
            after=["green", "scent_one", "spray_up", "cut_white"],
            window=within("5 min", "A skin forms in the bowl.", "green"),
        ),
        wait(
            "skin",
            "Let the first layer set, still warm",
            "set",
            "8 min",
            "12 min",
            "20 min",
            test="A finger leaves no dent, and the mould is still warm.",
            stake="Cold, the two part in the hand.",
        ),
        melt(
            "melt_white", "Melt the white base", "white_base", "microwave", "15 s", "55", after=["pour_first"]
        ),
        weigh("scent_two", "Scent it", "scent_white", into="jug", optional=True),
        do(
            "mist", "Spray the first layer, microwave off", "spray", after=["skin", "melt_white", "scent_two"]
        ),
        pieces(
            "pour_second",
            "Pour the second layer",
            "pour",
            window=within("25 min", "The first goes cold and they part.", "pour_first"),
        ),
        wait("setting", "Let the bars set through", "set", "2 h", "4 h", "24 h"),
        pieces("unmould", "Turn the bars out", "unmould"),
        pieces("wrap", "Wrap the bars", "wrap", window=within("2 h", "They sweat.")),
    ),
    stays_on=False,
    looks_like_food=False,
)

EMBEDS = recipe(
    "Clear bars with white hearts",
    6,
    part(
        "heart",
        "White heart",
        "12 g",
        "white_base 80 g; red_oxide 0.2 g",
        weigh("cut", "Weigh the white base", "white_base", after=[]),
        melt("melt", "Melt it", "white_base", "microwave", "10 s", "60"),
        weigh("red", "Colour it", "red_oxide", does="colour"),
        pieces("pour", "Pour the hearts", "pour"),
        wait("cool", "Let them cool through", "cool", "40 min", "60 min"),
        pieces("unmould", "Turn them out", "unmould"),
        mould={"shape": "heart", "held": True},
        spares=1,
    ),
    part(
        "bar",
        "Clear bar",
        "90 g",
        "clear_base 560 g; soap_scent 5 g; ipa to texture",
        weigh("spray_up", "Fill the spray bottle", "ipa", into="bottle", after=[]),
        weigh("cut", "Weigh the clear base", "clear_base", after=[]),
        melt("melt", "Melt it", "clear_base", "microwave", "15 s", "58"),
        weigh("scent", "Scent it", "soap_scent"),
        do("mist", "Spray the hearts with alcohol", "spray", after=["scent", "spray_up", "heart.unmould"]),
        pieces("pour", "Lay a heart in each mould and pour at 52 °C or less", "pour"),
        wait("setting", "Let them set", "set", "2 h", "4 h"),
        pieces("unmould", "Turn out", "unmould"),
        mould={"shape": "bar", "held": True},
    ),
    stays_on=False,
    looks_like_food=False,
    assembly={
        "name": "Wrapping",
        "takes": [{"component": "bar"}, {"component": "heart"}],
        "steps": [pieces("wrap", "Wrap the bars", "wrap", after=["bar.unmould", "heart.unmould"])],
    },
)

GOAT_OAT = recipe(
    "Goat's milk and oat soap",
    8,
    part(
        "bar",
        "Bar",
        "100 g",
        "goat_base 790 g; oats 15 g; honey 4 g; soap_scent 8 g",
        weigh("cut", "Weigh the base", "goat_base"),
        melt("melt", "Melt gently", "goat_base", "water_bath", "5 min", "58"),
        weigh("oat", "Stir in oats and honey", "oats honey"),
        weigh("scent", "Scent", "soap_scent"),
        do("thick", "Stir until it thickens, so the oats do not sink", "mix"),
        pieces("pour", "Pour", "pour"),
        wait("set", "Set", "set", "3 h", "6 h"),
        pieces("unmould", "Unmould", "unmould"),
        pieces("wrap", "Wrap", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

US_BASE = recipe(
    "Glycerin soap from a block, lye-free work",
    6,
    part(
        "bar",
        "Bar",
        "4 oz",
        "block 1 lb 8 oz; lavender 1/4 oz",
        weigh("cut", "Cut the block into a bowl", "block"),
        melt("melt", "Melt", "block", "microwave", "30 s", None, last_burst="10 s"),
        weigh("scent", "Add the lavender, off the heat", "lavender"),
        pieces("pour", "Pour", "pour"),
        wait("set", "Leave until hard", "set", "2 h", "4 h"),
        pieces("out", "Pop out of the moulds", "unmould"),
        pieces("wrap", "Wrap", "wrap"),
    ),
    things={
        "block": {
            "name": "Glycerin soap base, lye-free",
            "kind": "soap_base",
            "inci": "Coconut Oil, Palm Oil, Glycerin, Purified Water, Sodium Hydroxide (saponifying agent), Sorbitol",
            "most_c": "72",
        }
    },
    measures="us",
    stays_on=False,
)

LOOFAH = recipe(
    "Salt soap bars from a base",
    6,
    part(
        "bar",
        "Bar",
        "120 g",
        "white_base 480 g; pink_salt 240 g; soap_scent 6 g",
        weigh("cut", "Weigh the base", "white_base"),
        melt("melt", "Melt", "white_base", "microwave", "15 s", "60"),
        weigh("rest", "Stir in salt and scent", "pink_salt soap_scent"),
        pieces("pour", "Pour at once", "pour", window=within("3 min", "The salt sinks.")),
        wait("set", "Set", "set", "1 h", "2 h"),
        pieces("unmould", "Unmould", "unmould"),
        pieces("wrap", "Wrap", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

BATH_WHIP = recipe(
    "Whipped soap in a jar",
    5,
    part(
        "whip",
        "Whip",
        "180 g",
        "whip 880 g; almond 25 g; soap_scent 8 g; rose_mica 2 g",
        weigh("base", "Break the base into the bowl", "whip"),
        do("beat", "Beat until fluffy, slow first", "whip", about="8 min"),
        weigh("rest", "Add oil, scent and mica", "almond soap_scent rose_mica"),
        do("beat_more", "Beat once more", "whip", about="2 min"),
        pieces("fill", "Pipe into the jars and close", "pipe", window=within("1 h", "It stiffens.")),
    ),
    stays_on=False,
    looks_like_food=True,
)

WHIPPED_SCRUB = recipe(
    "Whipped sugar scrub",
    6,
    part(
        "scrub",
        "Scrub",
        "200 g",
        "whip 520 g; sugar 620 g; almond 35 g; soap_scent 10 g; preservative 11 g",
        weigh("base", "Weigh the base", "whip"),
        do("beat", "Beat until white", "whip"),
        weigh("wet", "Add oil, scent and preservative", "almond soap_scent preservative"),
        do("beat_in", "Beat them in", "whip"),
        weigh("sugar_in", "Fold in the sugar", "sugar"),
        pieces("fill", "Fill the jars", "wrap"),
    ),
    stays_on=False,
    looks_like_food=True,
)

SUGAR_SCRUB = recipe(
    "Emulsified sugar scrub",
    4,
    part(
        "scrub",
        "Scrub",
        "200 g",
        "sugar 420 g; e_wax 65 g; shea 60 g; sunflower 240 g; preservative 9 g; skin_scent 6 g",
        weigh("fats", "Weigh wax, butter and oil", "e_wax shea sunflower", into="jug"),
        melt("melt", "Melt over the water bath", "e_wax shea sunflower", "water_bath", "5 min", "70"),
        wait("cool", "Let it cool to 45 °C", "cool", "15 min", "25 min"),
        weigh("late", "Add preservative and scent", "preservative skin_scent", into="jug"),
        do("whip_it", "Whip until it turns pale", "whip"),
        weigh("sugar_in", "Stir in the sugar", "sugar"),
        do("stir", "Stir", "mix", tips=["jug"]),
        pieces("fill", "Fill the jars", "wrap"),
    ),
    stays_on=False,
    looks_like_food=True,
)

SALT_SCRUB = recipe(
    "Salt scrub",
    3,
    part(
        "scrub",
        "Scrub",
        "280 g",
        "sea_salt 580 g; sunflower 240 g; polysorbate 12 g; vitamin_e 4 g; skin_scent 5 g",
        weigh("salt", "Salt into a dry bowl", "sea_salt"),
        weigh("oils", "Oils into a jug", "sunflower polysorbate vitamin_e skin_scent", into="jug"),
        do("stir", "Stir together", "mix", tips=["jug"]),
        pieces("fill", "Fill the jars", "wrap", says="Keep water out: dry hands, a spoon."),
    ),
    stays_on=False,
    looks_like_food=False,
)

COFFEE_SCRUB = recipe(
    "Coffee scrub, dry",
    4,
    part(
        "scrub",
        "Scrub",
        "150 g",
        "coffee 300 g; sugar 180 g; coconut 115 g; vitamin_e 5 g",
        weigh("dry", "Coffee and sugar", "coffee sugar"),
        weigh("oil", "Soft coconut oil and vitamin E", "coconut vitamin_e"),
        do("work", "Work in with a fork", "mix"),
        pieces("fill", "Fill pouches", "wrap"),
    ),
    stays_on=False,
    looks_like_food=True,
)

WHIPPED_BUTTER = recipe(
    "Whipped body butter",
    5,
    part(
        "butter",
        "Butter",
        "120 g",
        "shea 360 g; mango 120 g; jojoba 100 g; arrowroot 15 g; vitamin_e 4 g; skin_scent 4 g",
        weigh("fats", "Weigh butters and oil", "shea mango jojoba"),
        melt("melt", "Melt over the water bath", "shea mango jojoba", "water_bath", "5 min", "60"),
        wait("chill", "Chill until it clouds", "cloudy", "30 min", "45 min", "90 min"),
        weigh("late", "Add the rest", "arrowroot vitamin_e skin_scent"),
        do("whip_it", "Whip to soft peaks", "whip"),
        pieces("fill", "Spoon into jars", "wrap"),
    ),
    stays_on=True,
    looks_like_food=True,
)

LOTION_BARS = recipe(
    "Lotion bars, in tins",
    12,
    part(
        "bar",
        "Bar",
        "45 g",
        "beeswax 180 g; cocoa 190 g; almond 175 g; vitamin_e 3 g",
        weigh("fats", "Weigh wax, butter and oil", "beeswax cocoa almond"),
        melt("melt", "Melt over the water bath", "beeswax cocoa almond", "water_bath", "5 min", "72"),
        weigh("e", "Stir in the vitamin E", "vitamin_e"),
        pieces("pour", "Pour", "pour"),
        wait("set", "Let them set", "set", "1 h", "3 h"),
        pieces("unmould", "Turn out", "unmould"),
        pieces("pack", "Into tins", "wrap"),
    ),
    stays_on=True,
    looks_like_food=False,
)

LIP_BALM = recipe(
    "Lip balm, vanilla",
    24,
    part(
        "balm",
        "Balm",
        "5 g",
        "beeswax 28 g; cocoa 24 g; castor 36 g; coconut 34 g; lip_flavour 0.5 %; vitamin_e 1 g",
        weigh("fats", "Weigh wax, butter and oils", "beeswax cocoa castor coconut", into="jug"),
        melt("melt", "Melt in hot water", "beeswax cocoa castor coconut", "water_bath", "4 min", "70"),
        weigh("late", "Off the heat, flavour and vitamin E", "lip_flavour vitamin_e", into="jug"),
        pieces("pour", "Pour into the tubes", "pour", window=within("8 min", "It sets in the jug.", "melt")),
        wait("set", "Let them set", "set", "30 min", "1 h"),
        pieces("cap", "Cap and label", "label"),
    ),
    stays_on=True,
    looks_like_food=False,
)

BODY_LOTION = recipe(
    "Body lotion",
    5,
    part(
        "lotion",
        "Lotion",
        "200 g",
        "water 720 g; glycerin 30 g; e_wax 60 g; almond 140 g; cetyl 30 g; preservative 1 %; skin_scent 0.5 %;"
        "vitamin_e 5 g",
        weigh("water_phase", "Water phase into a beaker", "water glycerin", into="beaker", after=[]),
        melt(
            "heat_water",
            "Heat the water phase",
            "water glycerin",
            "water_bath",
            "5 min",
            "72",
            look_for="72 °C on the thermometer.",
        ),
        weigh("oil_phase", "Oil phase into a jug", "e_wax almond cetyl", into="jug", after=[]),
        melt(
            "heat_oil",
            "Melt the oil phase",
            "e_wax almond cetyl",
            "water_bath",
            "5 min",
            "72",
            look_for="All clear, 72 °C.",
        ),
        do("emulsify", "Pour together and blend", "mix", tips=["jug"], after=["heat_water", "heat_oil"]),
        wait("cool", "Cool to below 40 °C, stirring", "cool", "30 min", "45 min"),
        weigh("late", "Preservative, scent, vitamin E", "preservative skin_scent vitamin_e", into="beaker"),
        do("stir", "Stir in well", "mix"),
        look("ph", "Read the pH", "Is it between 4.5 and 6?", "A drop of citric solution, and read again."),
        pieces("fill", "Fill the bottles", "wrap"),
    ),
    stays_on=True,
    looks_like_food=False,
)

AFTER_SHAVE_GEL = recipe(
    "Aloe gel",
    4,
    part(
        "gel",
        "Gel",
        "100 g",
        "aloe 370 g; glycerin 12 g; xanthan 4 g; preservative 4 g",
        weigh("gum", "Wet the gum with the glycerin", "glycerin xanthan"),
        weigh("aloe_in", "Whisk in the aloe", "aloe"),
        weigh("keep", "Add the preservative", "preservative"),
        do("stir", "Stir until smooth", "mix"),
        pieces("fill", "Fill the tubes", "wrap"),
    ),
    things={"xanthan": {"name": "Xanthan gum", "inci": "Xanthan Gum"}},
    stays_on=True,
    looks_like_food=False,
)

BATH_OIL = recipe(
    "Dispersing bath oil",
    4,
    part(
        "oil",
        "Oil",
        "92 g",
        "sunflower 320 ml; polysorbate 70 ml; bath_scent 6 ml",
        weigh("oils", "Measure into the jug", "sunflower polysorbate bath_scent"),
        do("stir", "Stir until clear", "mix"),
        pieces("fill", "Fill the bottles", "wrap"),
    ),
    measures="metric",
    stays_on=False,
    looks_like_food=False,
)

WAX_MELTS = recipe(
    "Soy wax melts",
    8,
    part(
        "melt",
        "Wax melt",
        "70 g",
        "soy_wax 525 g; air_scent 42 g",
        weigh("wax", "Weigh the wax into the pot", "soy_wax"),
        melt("melt", "Melt the wax", "soy_wax", "water_bath", "5 min", "80"),
        weigh("scent", "At 70 °C stir in the scent for two minutes", "air_scent"),
        pieces("pour", "Pour into the clamshells", "pour"),
        wait("set", "Let them set", "set", "2 h", "4 h"),
        wait("cure", "Let them cure", "cured", "3 d", "7 d"),
        pieces("label", "Close and label", "label"),
    ),
    summary="For a wax warmer. Not for skin.",
    looks_like_food=False,
)

CLAY_MASK = recipe(
    "Clay mask, dry",
    6,
    part(
        "mask",
        "Mask",
        "50 g",
        "kaolin 200 g; bentonite 60 g; oats 50 g",
        weigh("dry", "Weigh the powders, mask on", "kaolin bentonite oats"),
        do("sift", "Sift together", "sift"),
        pieces("fill", "Fill the jars", "wrap", says="On the label: mix with water when you use it."),
    ),
    stays_on=False,
)

SHAMPOO_BARS = recipe(
    "Pressed shampoo bars",
    8,
    part(
        "bar",
        "Bar",
        "60 g",
        "sci 280 g; betaine 70 g; cetyl 35 g; btms 30 g; cocoa 25 g; starch 30 g; preservative 4 g; soap_scent 4 g",
        weigh("sci_in", "SCI into the pan, mask on", "sci betaine"),
        weigh("fats", "Add the fats", "cetyl btms cocoa"),
        melt("warm", "Warm to a paste", "sci betaine cetyl btms cocoa", "water_bath", "10 min", "78"),
        weigh("starch_in", "Work in the starch", "starch"),
        weigh("late", "When it can be touched: preservative and scent", "preservative soap_scent"),
        do("knead", "Knead", "mix"),
        pieces("press", "Press the bars", "press"),
        wait("dry", "Let them harden", "hard", "24 h", "48 h"),
        pieces("wrap", "Wrap in paper", "wrap"),
    ),
    stays_on=False,
    looks_like_food=False,
)

CONDITIONER_BARS = recipe(
    "Conditioner bars",
    6,
    part(
        "bar",
        "Bar",
        "50 g",
        "btms 170 g; cetyl 80 g; cocoa 40 g; jojoba 20 g; preservative 1 %",
        weigh("all", "Weigh all but the preservative", "btms cetyl cocoa jojoba"),
        melt("melt", "Melt", "btms cetyl cocoa jojoba", "water_bath", "5 min", "75"),
        weigh("keep", "Below 60 °C the preservative", "preservative"),
        pieces("pour", "Pour", "pour"),
        wait("set", "Set", "set", "1 h", "3 h"),
        pieces("unmould", "Unmould", "unmould"),
        pieces("wrap", "Wrap", "wrap"),
    ),
    stays_on=False,
)

SHOWER_JELLY = recipe(
    "Shower jelly",
    6,
    part(
        "jelly",
        "Jelly",
        "120 g",
        "water 430 g; carrageenan 14 g; glycerin 40 g; liquid_soap 230 g; preservative 7 g; soap_scent 5 g; green_mica 1 g",
        weigh("gum", "Wet the carrageenan with the glycerin", "glycerin carrageenan"),
        weigh("water_in", "Add the water", "water"),
        melt("heat", "Heat until it thickens", "water glycerin carrageenan", "water_bath", "5 min", "78"),
        weigh("soap_in", "Stir in soap and mica", "liquid_soap green_mica"),
        weigh("late", "Preservative and scent below 55 °C", "preservative soap_scent"),
        pieces("pour", "Pour into the tubs", "pour"),
        wait("set", "Set in the fridge", "set", "3 h", "6 h"),
        pieces("close", "Close and label", "label"),
    ),
    things={"carrageenan": {"name": "Carrageenan, kappa", "inci": "Chondrus Crispus Powder"}},
    stays_on=False,
    looks_like_food=True,
)

HAND_WASH = recipe(
    "Foaming hand wash",
    5,
    part(
        "wash",
        "Wash",
        "200 g",
        "liquid_soap 350 g; water 630 g; preservative 10 g; lavender 4 g; polysorbate 8 g",
        weigh("soap", "Soap and water", "liquid_soap water"),
        weigh("scent", "Lavender into the solubiliser", "polysorbate lavender", into="cup"),
        do("stir", "Stir in gently, no froth", "mix", tips=["cup"]),
        weigh("keep", "Add the preservative", "preservative"),
        do("stir_again", "Stir", "mix"),
        pieces("fill", "Fill the bottles", "wrap"),
    ),
    stays_on=False,
)

DEODORANT = recipe(
    "Deodorant, solid",
    6,
    part(
        "stick",
        "Stick",
        "60 g",
        "coconut 110 g; beeswax 60 g; shea 60 g; bicarb 40 g; arrowroot 90 g; lavender 2 g",
        weigh("fats", "Weigh the fats", "coconut beeswax shea"),
        melt("melt", "Melt", "coconut beeswax shea", "water_bath", "5 min", "68"),
        weigh("powders", "Stir in the powders", "bicarb arrowroot"),
        weigh("scent", "At 50 °C the lavender", "lavender"),
        pieces("pour", "Pour into the tubes", "pour"),
        wait("set", "Set", "set", "2 h", "4 h"),
        pieces("cap", "Cap and label", "label"),
    ),
    things={
        "lavender": {
            **THINGS["lavender"],
            "fragrance": {
                "limit": "0.9 %",
                "category": "2",
                "allergens": [{"name": "Linalool", "share": "35 %"}],
            },
        }
    },
    stays_on=True,
)

SOLID_PERFUME = recipe(
    "Solid perfume",
    10,
    part(
        "perfume",
        "Perfume",
        "10 g",
        "beeswax 32 g; jojoba 60 g; perfume 9 g",
        weigh("wax", "Weigh wax and jojoba", "beeswax jojoba"),
        melt("melt", "Melt", "beeswax jojoba", "water_bath", "3 min", "68"),
        weigh("scent", "Below 60 °C the perfume", "perfume"),
        pieces("pour", "Pour into tins", "pour"),
        wait("set", "Set", "set", "30 min", "1 h"),
        pieces("close", "Close and label", "label"),
    ),
    things={
        "perfume": {
            "name": "Perfume oil, amber",
            "kind": "fragrance",
            "inci": "Parfum",
            "most_c": "70",
            "fragrance": {
                "limit": "14 %",
                "category": "4",
                "allergens": [{"name": "Coumarin", "share": "2 %"}, {"name": "Linalool", "share": "3 %"}],
            },
        }
    },
    stays_on=True,
    looks_like_food=False,
)

LINEN_SACHETS = recipe(
    "Lavender sachets for the drawer",
    10,
    part(
        "fill",
        "Filling",
        "25 g",
        "lavender_buds 150 g; rice 100 g; lavender 2 g",
        weigh("dry", "Buds and rice", "lavender_buds rice"),
        weigh("scent", "Drip in the oil", "lavender"),
        do("toss", "Toss", "mix"),
        pieces("fill", "Fill and tie", "wrap"),
    ),
    things={"rice": {"name": "Rice, dry"}},
    looks_like_food=False,
)

REBATCH = recipe(
    "Milled soap, from finished bars",
    6,
    part(
        "bar",
        "Bar",
        "97 g",
        "shreds 520 g; water 50 g; oats 10 g; soap_scent 5 g",
        weigh("grate", "Grate the finished soap", "shreds"),
        weigh("wet", "Sprinkle the water over", "water"),
        melt(
            "melt",
            "Warm until it slumps",
            "shreds water",
            "water_bath",
            "15 min",
            "75",
            look_for="Like mashed potato.",
        ),
        weigh("late", "Stir in oats and scent", "oats soap_scent"),
        pieces("press", "Press into the mould", "press"),
        wait("set", "Set", "set", "24 h", "48 h"),
        pieces("unmould", "Turn out", "unmould"),
        wait("cure", "Dry in the air", "dry", "14 d", "28 d"),
        pieces("wrap", "Wrap in paper", "wrap"),
    ),
    things={
        "shreds": {
            "name": "Finished soap, cured, grated",
            "inci": "Sodium Olivate, Sodium Cocoate, Aqua, Glycerin",
        },
        "soap_scent": {"most_c": "80"},
    },
    stays_on=False,
)

JABON = recipe(
    "Sales de baño efervescentes",
    5,
    part(
        "sales",
        "Sales",
        "100 g",
        "bicarbonato 260 g; citrico 130 g; sal 110 g",
        weigh("todo", "Pesar todo en seco", "bicarbonato citrico sal"),
        do("mezclar", "Tamizar y mezclar", "mix"),
        pieces("bolsas", "Llenar las bolsas de papel", "wrap"),
    ),
    things={
        "bicarbonato": {"name": "Bicarbonato de sodio"},
        "citrico": {"name": "Ácido cítrico"},
        "sal": {"name": "Sal marina fina"},
    },
    stays_on=False,
)

THREE_PARTS = recipe(
    "Fizzing base, soap heart, whipped top",
    10,
    part(
        "base",
        "Fizzing base",
        "100 g",
        "bicarb 630 g; citric 315 g; starch 60 g; cocoa 25 g; polysorbate 10 g; rose_mica 3 g; ipa to texture",
        weigh("dry", "Weigh the dry things", "bicarb citric starch rose_mica", after=[]),
        do("sift", "Sift", "sift"),
        weigh("butter", "Weigh the butter into a jug", "cocoa", into="jug", after=[]),
        melt("melt_butter", "Melt the butter", "cocoa", "water_bath", "2 min", "45"),
        weigh("solubiliser", "Add the solubiliser", "polysorbate", into="jug"),
        do("rub", "Pour in and rub", "mix", tips=["jug"], after=["sift", "solubiliser"]),
        weigh("spray_up", "Fill the spray bottle", "ipa", into="bottle", after=[]),
        {**_damp("alcohol"), "after": ["rub", "spray_up"]},
        _press(),
        wait("drying", "Let the bases dry", "dry", "8 h", "12 h", "24 h"),
    ),
    part(
        "heart",
        "Soap heart",
        "8 g",
        "clear_base 92 g; red_oxide 0.2 g",
        weigh("cut", "Weigh the clear base", "clear_base", after=[]),
        melt("melt", "Melt it", "clear_base", "microwave", "10 s", "60"),
        weigh("red", "Colour it", "red_oxide", does="colour"),
        pieces("pour", "Pour the hearts", "pour", window=within("5 min", "A skin forms.")),
        wait("cool", "Let them cool", "cool", "45 min", "90 min"),
        pieces("unmould", "Turn them out", "unmould"),
        spares=1,
        mould={"shape": "heart", "held": True},
    ),
    part(
        "top",
        "Whipped top",
        "30 g",
        "whip 172 g; white_base 144 g; soap_scent? 4 g",
        weigh("whip_in", "Weigh the whip base", "whip", after=[]),
        do("beat", "Beat it", "whip", after=["whip_in", "base.drying", "heart.unmould"]),
        weigh("white_in", "Weigh the white base", "white_base", into="jug", after=[]),
        melt("melt_white", "Melt it", "white_base", "microwave", "15 s", "55", after=["beat", "white_in"]),
        do("fold", "Fold it in", "mix", tips=["jug"], window=within("4 min", "It sets in threads.")),
        weigh("scent", "Scent it", "soap_scent", optional=True),
        do("join", "Beat until it is one", "whip"),
        stays_behind="20 g",
    ),
    stays_on=False,
    looks_like_food=True,
    assembly={
        "name": "Joining",
        "takes": [{"component": "base"}, {"component": "heart"}, {"component": "top"}],
        "steps": [
            pieces(
                "pipe",
                "Pipe a top on each base",
                "pipe",
                after=["base.drying", "top.join"],
                window=within("20 min", "The top stiffens.", "top.join"),
            ),
            pieces(
                "set_heart",
                "Set a heart in each",
                "join",
                after=["pipe", "heart.unmould"],
                window=within("10 min", "A skin forms.", "pipe"),
            ),
            wait("setting", "Let the tops set", "set", "2 h", "4 h", "12 h"),
            pieces("wrap", "Wrap each piece", "wrap", window=within("12 h", "They bead.")),
        ],
    },
)

PRACTICE = "common practice"
SOUND: dict[str, Sound] = {
    "bath_bombs": Sound(RATIO, BATH_BOMBS),
    "ipa_bombs": Sound(RATIO, IPA_BOMBS),
    "tartar_bombs": Sound(
        "Part of the acid as cream of tartar, which hardens: common practice", TARTAR_BOMBS
    ),
    "foam_bombs": Sound("SLSA powder below a tenth, folded in with a mask: common practice", FOAM_BOMBS),
    "badekugeln": Sound("Two to one, cocoa butter in place of a spray: common practice", BADEKUGELN),
    "steamers": Sound("Menthol at 1 %, eucalyptus at 1.5 %, not for the bath: common practice", STEAMERS),
    "fizz_powder": Sound("All dry, in folded paper: common practice", FIZZ_POWDER),
    "bubble_bars": Sound(
        "Cream of tartar is slow enough for glycerin and betaine: common practice", BUBBLE_BARS
    ),
    "bath_melts": Sound(
        "Powders in melted butter without water, poured, solubiliser: common practice", BATH_MELTS
    ),
    "bath_salts": Sound("Essential oil in a carrier with solubiliser: common practice", BATH_SALTS),
    "bare_salts": Sound("Salts and dried petals in spoons, little more said: common practice", BARE_SALTS),
    "foot_soak": Sound("Soda without an acid does not fizz; a shut jar is right: chemistry", FOOT_SOAK),
    "milk_bath": Sound(KEEPS, MILK_BATH),
    "one_pour": Sound("Short bursts to 60 °C, sprayed, set, wrapped at once: common practice", ONE_POUR),
    "two_layers": Sound(
        "Skin at 8 to 20 minutes, alcohol between, second at 55 °C: common practice", TWO_LAYERS
    ),
    "embeds": Sound("Cold embeds, sprayed, base at 52 °C: common practice", EMBEDS),
    "goat_oat": Sound("A spoon of honey and oats in a base, stirred until thick: common practice", GOAT_OAT),
    "us_base": Sound("A US base names the lye it was made with; none is left: common practice", US_BASE),
    "salt_bars": Sound("Up to half salt in a base, poured at once: common practice", LOOFAH),
    "bath_whip": Sound("Up to 5 % oil in a preserved whip base (maker's sheet, second-hand)", BATH_WHIP),
    "whipped_scrub": Sound("A whip base preserved again for the sugar: common practice", WHIPPED_SCRUB),
    "sugar_scrub": Sound(f"{KEEPS}; preserved for wet hands", SUGAR_SCRUB),
    "salt_scrub": Sound(KEEPS, SALT_SCRUB),
    "coffee_scrub": Sound(KEEPS, COFFEE_SCRUB),
    "whipped_butter": Sound(KEEPS, WHIPPED_BUTTER),
    "lotion_bars": Sound(KEEPS, LOTION_BARS),
    "lip_balm": Sound(f"{KEEPS}; flavour within its category 1 limit", LIP_BALM),
    "body_lotion": Sound(
        "Both phases to 72 °C, preservative at 1 % below 40 °C: common practice", BODY_LOTION
    ),
    "aloe_gel": Sound("Phenoxyethanol blend at 1 %: common practice", AFTER_SHAVE_GEL),
    "bath_oil": Sound("A sixth of solubiliser, no water: common practice", BATH_OIL),
    "wax_melts": Sound("8 % scent in soy wax at 70 °C, cured: common practice", WAX_MELTS),
    "clay_mask": Sound(KEEPS, CLAY_MASK),
    "shampoo_bars": Sound(
        "Surfactants and fatty alcohols warmed to a paste, pressed: common practice", SHAMPOO_BARS
    ),
    "conditioner_bars": Sound("BTMS and fatty alcohols melted and poured: common practice", CONDITIONER_BARS),
    "shower_jelly": Sound("Preserved at 1 %, heated for the gum: common practice", SHOWER_JELLY),
    "hand_wash": Sound("A soap base let down with water and preserved: common practice", HAND_WASH),
    "deodorant": Sound("Soda in fat without acid or water: common practice", DEODORANT),
    "solid_perfume": Sound("9 % below its category 4 limit: the certificate", SOLID_PERFUME),
    "sachets": Sound("Scents the air alone: common practice", LINEN_SACHETS),
    "rebatch": Sound("Cured soap with a tenth of water, pressed and dried: common practice", REBATCH),
    "sales": Sound("All dry, two to one, in paper: common practice", JABON),
    "three_parts": Sound("Three parts made apart, joined when dry and cool: common practice", THREE_PARTS),
}


def sound(id: str) -> Json:
    return copy.deepcopy(SOUND[id].document)
