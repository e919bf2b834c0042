"""Texts as makers paste them, with the amounts that stand in them; all of our own invention.

FRESH were written before their author had seen the reader: at their first reading 79 of 114 amounts were right, one
was silently wrong. LATER were written after it was mended for those: 36 of 41 at their first reading. None: an amount
that no one can weigh, or that may mean two things, and must be asked. FORMS are seven ways to write any list.
"""

from __future__ import annotations

from collections.abc import Callable

Wanted = list[tuple[str | None, str]]
Form = Callable[[list[tuple[str, str]]], str]

FRESH: list[tuple[str, Wanted]] = [
    (
        "Lemon fizzies\n\nIngredients\n- 200 g bicarbonate of soda\n- 100 g citric acid\n- 1½ tsp sweet almond oil\n- 20 drops lemon oil\n\nMethod\n1. Sieve the powders.\n2. Press into moulds.",
        [
            ("200 g", "bicarbonate of soda"),
            ("100 g", "citric acid"),
            ("1 1/2 tsp", "sweet almond oil"),
            ("20 drops", "lemon oil"),
        ],
    ),
    (
        "Oat milk bath\n2 cups powdered milk\n1 cup colloidal oats\n1/2 c. cornstarch\n1 T baking soda\n1/4 t vanilla powder",
        [
            ("2 cups", "powdered milk"),
            ("1 cup", "colloidal oats"),
            ("1/2 cup", "cornstarch"),
            ("1 tbsp", "baking soda"),
            ("1/4 tsp", "vanilla powder"),
        ],
    ),
    (
        "Body butter\nPhase A\nShea butter 45 %\nCocoa butter 20 %\nPhase B\nJojoba oil 33.5 %\nVitamin E 1.0 %\nFragrance 0.5 %",
        [
            ("45 %", "Shea butter"),
            ("20 %", "Cocoa butter"),
            ("33.5 %", "Jojoba oil"),
            ("1 %", "Vitamin E"),
            ("0.5 %", "Fragrance"),
        ],
    ),
    (
        "| Ingredient | Amount |\n|---|---|\n| Epsom salt | 500 g |\n| Pink salt | 150 g |\n| Lavender oil | 3 ml |",
        [("500 g", "Epsom salt"), ("150 g", "Pink salt"), ("3 ml", "Lavender oil")],
    ),
    (
        "**Sugar scrub**\n* **300 g** white sugar\n* **120 g** coconut oil\n* **1 tsp** vitamin E",
        [("300 g", "white sugar"), ("120 g", "coconut oil"), ("1 tsp", "vitamin E")],
    ),
    (
        "Badesalz Rose\n\nZutaten:\n500 g Meersalz\n2 EL Natron\n1 TL Mandelöl\n15 Tropfen Rosenöl\n\nZubereitung:\nAlles mischen.",
        [("500 g", "Meersalz"), ("2 tbsp", "Natron"), ("1 tsp", "Mandelöl"), ("15 drops", "Rosenöl")],
    ),
    (
        "Bombes de bain\n200 g de bicarbonate de soude\n100 g d'acide citrique\n1 c. à soupe d'huile d'amande\n1 c. à café de mica",
        [
            ("200 g", "bicarbonate de soude"),
            ("100 g", "acide citrique"),
            ("1 tbsp", "huile d'amande"),
            ("1 tsp", "mica"),
        ],
    ),
    (
        "Sales de baño\n400 g de sal marina\n2 cucharadas de bicarbonato\n1 cucharadita de aceite de oliva\n10 gotas de aceite de naranja",
        [
            ("400 g", "sal marina"),
            ("2 tbsp", "bicarbonato"),
            ("1 tsp", "aceite de oliva"),
            ("10 drops", "aceite de naranja"),
        ],
    ),
    (
        "Mix 250 g of baking soda with 125 g of citric acid, then stir in 2 tablespoons of apricot oil and 5 g of mica.",
        [("250 g", "baking soda"), ("125 g", "citric acid"), ("2 tbsp", "apricot oil"), ("5 g", "mica")],
    ),
    (
        "1 cup (240 g) epsom salt\n1/2 cup (110 g) sea salt\n2 tbsp (30 ml) olive oil",
        [("240 g", "epsom salt"), ("110 g", "sea salt"), ("2 tbsp", "olive oil")],
    ),
    (
        "8 oz citric acid\n1 lb baking soda\n1 lb 4 oz Dead Sea salt\n2 fl oz sunflower oil",
        [
            ("8 oz", "citric acid"),
            ("1 lb", "baking soda"),
            ("1 lb 4 oz", "Dead Sea salt"),
            ("2 fl oz", "sunflower oil"),
        ],
    ),
    (
        "Soap base: 1.5 kg\nGoat milk powder: 30g\nFragrance oil: 45ml\nMica: 1 tsp",
        [
            ("1.5 kg", "Soap base"),
            ("30 g", "Goat milk powder"),
            ("45 ml", "Fragrance oil"),
            ("1 tsp", "Mica"),
        ],
    ),
    (
        "• 3 parts bicarbonate\n• 1 part citric acid\n• 1 part starch",
        [("3 parts", "bicarbonate"), ("1 part", "citric acid"), ("1 part", "starch")],
    ),
    (
        "Kakaobutter\t80 g\nSheabutter\t40 g\nBienenwachs\t15 g\nVitamin E\t5 Tr.",
        [("80 g", "Kakaobutter"), ("40 g", "Sheabutter"), ("15 g", "Bienenwachs"), ("5 drops", "Vitamin E")],
    ),
    (
        "name;amount;unit\nKaolin;50;g\nBentonite;20;g\nGlycerin;10;ml",
        [("50 g", "Kaolin"), ("20 g", "Bentonite"), ("10 ml", "Glycerin")],
    ),
    (
        "[ ] 1 kg melt and pour base\n[ ] 10 g titanium dioxide\n[x] 25 g fragrance",
        [("1 kg", "melt and pour base"), ("10 g", "titanium dioxide"), ("25 g", "fragrance")],
    ),
    (
        "1) 60 g beeswax\n2) 60 g coconut oil\n3) 30 g shea butter\n4) 12 drops peppermint oil",
        [
            ("60 g", "beeswax"),
            ("60 g", "coconut oil"),
            ("30 g", "shea butter"),
            ("12 drops", "peppermint oil"),
        ],
    ),
    (
        "Shower steamers (makes 8)\n1 c baking soda\n1/2 c citric acid\n1/2 c cornstarch\n2-3 tsp water\n1 tsp menthol crystals",
        [
            ("1 cup", "baking soda"),
            ("1/2 cup", "citric acid"),
            ("1/2 cup", "cornstarch"),
            ("2-3 tsp", "water"),
            ("1 tsp", "menthol crystals"),
        ],
    ),
    (
        "Natron 0,5 kg\nZitronensäure 250 g\nMaisstärke 62,5 g\nMandelöl 20 ml\nDuft 7,5 ml",
        [
            ("0.5 kg", "Natron"),
            ("250 g", "Zitronensäure"),
            ("62.5 g", "Maisstärke"),
            ("20 ml", "Mandelöl"),
            ("7.5 ml", "Duft"),
        ],
    ),
    (
        "Whipped soap\nFoaming bath whip (500g)\nGlycerin (50 g)\nFragrance (15 g)\nMica (as needed)",
        [("500 g", "Foaming bath whip"), ("50 g", "Glycerin"), ("15 g", "Fragrance"), ("as needed", "Mica")],
    ),
    (
        "Water q.s. to 100 g\nGlycerin 5 g\nXanthan 0.3 g",
        [(None, "Water"), ("5 g", "Glycerin"), ("0.3 g", "Xanthan")],
    ),
    (
        "1 1/4 cups Epsom salts\n¾ cup baking soda\n⅓ cup citric acid\n2½ teaspoons jojoba oil",
        [
            ("1 1/4 cups", "Epsom salts"),
            ("3/4 cup", "baking soda"),
            ("1/3 cup", "citric acid"),
            ("2 1/2 tsp", "jojoba oil"),
        ],
    ),
    (
        "Bath milk melts\n100g cocoa butter, melted\n50g shea butter (refined)\n2 Tbsp. oat flour, sifted\n1 tsp. honey powder",
        [
            ("100 g", "cocoa butter"),
            ("50 g", "shea butter"),
            ("2 tbsp", "oat flour"),
            ("1 tsp", "honey powder"),
        ],
    ),
    (
        "Ingredients: 300 g salt, 100 g soda, 50 g starch, 10 ml oil.",
        [("300 g", "salt"), ("100 g", "soda"), ("50 g", "starch"), ("10 ml", "oil")],
    ),
    (
        "<ul><li>150 g sugar</li><li>60 ml oil</li><li>5 g vanilla</li></ul>",
        [("150 g", "sugar"), ("60 ml", "oil"), ("5 g", "vanilla")],
    ),
    (
        "Heat 90 g coconut oil to 70 °C for 10 minutes.\nAdd 30 g beeswax.\nCool to 45 °C, add 2 g vitamin E.\nPour into 6 tins of 20 ml.",
        [("90 g", "coconut oil"), ("30 g", "beeswax"), ("2 g", "vitamin E")],
    ),
    (
        "Citric acid ........ 120 g\nBaking soda ........ 240 g\nCream of tartar .... 15 g",
        [("120 g", "Citric acid"), ("240 g", "Baking soda"), ("15 g", "Cream of tartar")],
    ),
    (
        "Sale da bagno\n300 g di sale grosso\n2 cucchiai di bicarbonato\n1 cucchiaino di olio di mandorle\n20 gocce di olio essenziale",
        [
            ("300 g", "sale grosso"),
            ("2 tbsp", "bicarbonato"),
            ("1 tsp", "olio di mandorle"),
            ("20 drops", "olio essenziale"),
        ],
    ),
    (
        "A pinch of ultramarine blue\n1 heaped tsp rose petals\n2 handfuls oats\n250 g salt",
        [(None, "ultramarine blue"), (None, "rose petals"), (None, "oats"), ("250 g", "salt")],
    ),
    (
        "1,000 g baking soda\n500 g citric acid\n1.000 g Salz\n25 g SLSA powder",
        [(None, "baking soda"), ("500 g", "citric acid"), (None, "Salz"), ("25 g", "SLSA powder")],
    ),
]
LATER: list[tuple[str, Wanted]] = [
    (
        "Moon milk\n½ cup oat milk powder\n1 Tbsp arrowroot\n2 tsps. honey powder\n3 drops rose absolute",
        [
            ("1/2 cup", "oat milk powder"),
            ("1 tbsp", "arrowroot"),
            ("2 tsp", "honey powder"),
            ("3 drops", "rose absolute"),
        ],
    ),
    (
        "Foot soak\nYou need:\n– 250 g Epsom salt\n– 50 g baking soda\n– 1 tbsp dried mint",
        [("250 g", "Epsom salt"), ("50 g", "baking soda"), ("1 tbsp", "dried mint")],
    ),
    (
        "Phase A (75 °C)\nEmulsifying wax 6.0%\nAlmond oil 12.5%\nPhase B\nDistilled water 80.5%\nPhase C\nPreservative 1.0%",
        [
            ("6 %", "Emulsifying wax"),
            ("12.5 %", "Almond oil"),
            ("80.5 %", "Distilled water"),
            ("1 %", "Preservative"),
        ],
    ),
    (
        "Zutat | Menge\nNatron | 300 g\nStärke | 75 g\nMilchpulver | 2 EL",
        [("300 g", "Natron"), ("75 g", "Stärke"), ("2 tbsp", "Milchpulver")],
    ),
    (
        "Take 120 g cocoa butter and melt it with 60 g of mango butter. Stir in 1 tsp vitamin E.",
        [("120 g", "cocoa butter"), ("60 g", "mango butter"), ("1 tsp", "vitamin E")],
    ),
    (
        "Man nehme 200 g Salz, 3 EL Öl und 10 Tropfen Zitrone.",
        [("200 g", "Salz"), ("3 tbsp", "Öl"), ("10 drops", "Zitrone")],
    ),
    (
        "2 lbs baking soda\n1 lb citric acid\n12 oz. cornstarch\n3 T. almond oil\n1 t. colorant",
        [
            ("2 lb", "baking soda"),
            ("1 lb", "citric acid"),
            ("12 oz", "cornstarch"),
            ("3 tbsp", "almond oil"),
            ("1 tsp", "colorant"),
        ],
    ),
    (
        "2 x 50 g soap embeds\n10-12 drops lemon\napprox. 30 g witch hazel\n5g (1 tsp) mica",
        [(None, "soap embeds"), ("10-12 drops", "lemon"), (None, "witch hazel"), ("5 g", "mica")],
    ),
    (
        "Base: 500 g soap, 20 g oil\nTop: 60 g whip, 5 g sugar",
        [("500 g", "soap"), ("20 g", "oil"), ("60 g", "whip"), ("5 g", "sugar")],
    ),
    (
        "1. Citric acid - 150g\n2. Soda - 300g\n3. Kaolin - 25g\n4. Oil - 15ml",
        [("150 g", "Citric acid"), ("300 g", "Soda"), ("25 g", "Kaolin"), ("15 ml", "Oil")],
    ),
    ("Makes 12\n400 g salt\nServing: 60 g per bath", [("400 g", "salt")]),
    (
        "Sel de bain\n500 g de gros sel\n3 cuillères à soupe de bicarbonate\nquelques gouttes de lavande",
        [("500 g", "gros sel"), ("3 tbsp", "bicarbonate"), (None, "lavande")],
    ),
]

LISTS = [
    [("240 g", "citric acid"), ("480 g", "baking soda"), ("120 g", "corn starch"), ("18 g", "mica")],
    [("1.5 kg", "sea salt"), ("75 g", "kaolin"), ("12.5 g", "lavender")],
    [("0.4 g", "green mica"), ("36 g", "beeswax"), ("180 g", "shea butter"), ("20 drops", "orange")],
    [("8 oz", "sugar"), ("4 oz", "coconut oil"), ("1/2 oz", "vitamin E")],
    [("2 cups", "oats"), ("1 1/2 tsp", "honey powder"), ("3 tbsp", "almond oil")],
    [("500 ml", "rose water"), ("30 ml", "glycerin"), ("5 ml", "preservative")],
    [("3 parts", "soda"), ("1 part", "cream of tartar"), ("1 part", "starch")],
    [("70 %", "sugar"), ("25 %", "jojoba oil"), ("5 %", "cocoa butter")],
]
FORMS: dict[str, Form] = {
    "a list": lambda rows: (
        "Ingredients\n" + "\n".join(f"- {much} {name}" for much, name in rows) + "\nMethod\n1. Mix."
    ),
    "names first": lambda rows: "\n".join(f"{name}: {much}" for much, name in rows),
    "a table": lambda rows: (
        "| Ingredient | Amount |\n|---|---|\n" + "\n".join(f"| {n} | {m} |" for m, n in rows)
    ),
    "bold": lambda rows: "\n".join(f"* **{much}** {name}" for much, name in rows),
    "prose": lambda rows: "Mix " + ", then stir in ".join(f"{much} of {name}" for much, name in rows) + ".",
    "a row": lambda rows: "Ingredients: " + ", ".join(f"{much} {name}" for much, name in rows) + ".",
    "of a page": lambda rows: "<ul>" + "".join(f"<li>{much} {name}</li>" for much, name in rows) + "</ul>",
    "numbered": lambda rows: "\n".join(f"{place}) {m} {n}" for place, (m, n) in enumerate(rows, 1)),
}
TEXTS = [*FRESH, *LATER, *((form(rows), list(rows)) for form in FORMS.values() for rows in LISTS)]
