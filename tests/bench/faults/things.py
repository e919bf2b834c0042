"""What makers have on their shelf, as they write it down: some with kind and INCI name, some with the name alone."""

from __future__ import annotations

from typing import Any

SHEET = "The supplier's sheet"


def _thing(name: str, kind: str = "", inci: str = "", density: str = "", **other: Any) -> dict[str, Any]:
    made: dict[str, Any] = {"name": name}
    made.update({"kind": kind} if kind else {})
    made.update({"inci": inci} if inci else {})
    made.update({"density": {"g_per_ml": density, "source": SHEET}} if density else {})
    return {**made, **other}


def scent(name: str, limit: str, category: str, most_c: str = "60", **allergens: str) -> dict[str, Any]:
    named = [{"name": key.capitalize(), "share": share} for key, share in allergens.items()]
    paper = {"limit": limit, "category": category, "allergens": named}
    return _thing(name, "fragrance", "Parfum", "0.95", most_c=most_c, fragrance=paper)


BASE = "Glycerin, Aqua, Sodium Stearate, Sorbitol, Sodium Laurate, Propylene Glycol"
THINGS: dict[str, dict[str, Any]] = {
    # Acids, carbonates, salts
    "bicarb": _thing("Bicarbonate of soda", "bicarbonate", "Sodium Bicarbonate"),
    "citric": _thing("Citric acid, anhydrous", "citric_acid", "Citric Acid", form="anhydrous"),
    "tartar": _thing("Cream of tartar", "acid", "Potassium Bitartrate"),
    "epsom": _thing("Epsom salt", "salt", "Magnesium Sulfate"),
    "sea_salt": _thing("Dead Sea salt, fine", "salt", "Maris Sal"),
    "pink_salt": _thing("Himalayan salt, coarse", "salt", "Sodium Chloride"),
    "sugar": _thing("Cane sugar", "", "Sucrose"),
    # Powders
    "starch": _thing("Maize starch", "powder", "Zea Mays Starch"),
    "arrowroot": _thing("Arrowroot powder", "powder", "Maranta Arundinacea Root Powder"),
    "kaolin": _thing("White kaolin", "powder", "Kaolin"),
    "bentonite": _thing("Bentonite clay", "powder", "Bentonite"),
    "slsa": _thing("SLSA, coarse powder", "surfactant", "Sodium Lauryl Sulfoacetate"),
    "sci": _thing("SCI noodles", "surfactant", "Sodium Cocoyl Isethionate"),
    "milk_powder": _thing("Whole milk powder", "powder", "Lac Powder"),
    "goat_powder": _thing("Goat's milk powder", "powder", "Caprae Lac"),
    "oats": _thing("Oatmeal, finely ground", "botanical", "Avena Sativa Kernel Meal"),
    "coffee": _thing("Ground coffee, dry", "botanical", "Coffea Arabica Seed Powder"),
    # Liquids
    "water": _thing("Distilled water", "water", "Aqua", "0.998"),
    "witch_hazel": _thing(
        "Witch hazel distillate", "water", "Hamamelis Virginiana Leaf Water, Alcohol", "0.981"
    ),
    "ipa": _thing("Isopropyl alcohol, 99 %", "alcohol", "Isopropyl Alcohol", "0.785"),
    "ipa70": _thing("Isopropyl alcohol, 70 %", "alcohol", "Isopropyl Alcohol, Aqua", "0.8775"),
    "glycerin": _thing("Glycerin", "humectant", "Glycerin", "1.26"),
    "aloe": _thing("Aloe vera juice", "water", "Aloe Barbadensis Leaf Juice"),
    "rose_water": _thing("Rose water", "water", "Rosa Damascena Flower Water"),
    "honey": _thing("Honey", "", "Mel"),
    "betaine": _thing("Cocamidopropyl betaine", "surfactant", "Cocamidopropyl Betaine, Aqua"),
    "polysorbate": _thing("Polysorbate 80", "solubiliser", "Polysorbate 80", "1.075"),
    # Fats and waxes
    "cocoa": _thing("Cocoa butter", "butter", "Theobroma Cacao Seed Butter", "0.86"),
    "shea": _thing("Shea butter", "butter", "Butyrospermum Parkii Butter"),
    "mango": _thing("Mango butter", "butter", "Mangifera Indica Seed Butter"),
    "coconut": _thing("Coconut oil", "oil", "Cocos Nucifera Oil", "0.915"),
    "almond": _thing("Sweet almond oil", "oil", "Prunus Amygdalus Dulcis Oil", "0.9125"),
    "sunflower": _thing("Sunflower oil", "oil", "Helianthus Annuus Seed Oil", "0.92"),
    "jojoba": _thing("Jojoba oil", "oil", "Simmondsia Chinensis Seed Oil", "0.868"),
    "castor": _thing("Castor oil", "oil", "Ricinus Communis Seed Oil", "0.96"),
    "vitamin_e": _thing("Vitamin E oil", "oil", "Tocopherol"),
    "beeswax": _thing("Beeswax pellets", "wax", "Cera Alba"),
    "soy_wax": _thing("Soy wax for melts", "wax"),
    "e_wax": _thing("Emulsifying wax NF", "wax", "Cetearyl Alcohol, Polysorbate 60"),
    "cetyl": _thing("Cetyl alcohol", "wax", "Cetyl Alcohol"),
    "stearic": _thing("Stearic acid", "", "Stearic Acid"),
    "btms": _thing("BTMS-50", "surfactant", "Behentrimonium Methosulfate, Cetyl Alcohol, Butylene Glycol"),
    # Soap
    "clear_base": _thing("Clear melt-and-pour soap base", "soap_base", BASE, most_c="70"),
    "white_base": _thing("White melt-and-pour soap base", "soap_base", f"{BASE}, CI 77891", most_c="70"),
    "goat_base": _thing("Goat's milk soap base", "soap_base", f"{BASE}, Caprae Lac, CI 77891", most_c="65"),
    "whip": _thing(
        "Foaming bath whip base",
        "whipping_base",
        "Aqua, Glycerin, Sorbitol, Sodium Cocoyl Isethionate, Disodium Lauryl Sulfosuccinate, Phenoxyethanol",
        most_c="40",
    ),
    "liquid_soap": _thing(
        "Liquid soap base", "surfactant", "Aqua, Potassium Cocoate, Potassium Oleate, Glycerin, Citric Acid"
    ),
    # What keeps, colours and scents
    "preservative": _thing(
        "Euxyl PE 9010", "preservative", "Phenoxyethanol, Ethylhexylglycerin", most_c="60"
    ),
    "rose_mica": _thing("Rose mica", "mica", "Mica, CI 77491, CI 77891"),
    "green_mica": _thing("Moss green mica", "mica", "Mica, CI 77289, CI 77891"),
    "blue_lake": _thing("Blue 1 lake", "lake", "CI 42090"),
    "red_oxide": _thing("Red iron oxide", "pigment", "CI 77491"),
    "titanium": _thing("Titanium dioxide", "pigment", "CI 77891"),
    "petals": _thing("Cornflower petals, dried", "botanical", "Centaurea Cyanus Flower"),
    "lavender_buds": _thing("Lavender buds, dried", "botanical", "Lavandula Angustifolia Flower"),
    "bath_scent": scent(
        "Bath fragrance, fig and cedar", "2.4 %", "9", "55", linalool="1.2 %", coumarin="0.4 %"
    ),
    "soap_scent": scent("Soap fragrance, rain", "3.1 %", "9", "62", linalool="0.9 %", limonene="0.6 %"),
    "skin_scent": scent("Skin fragrance, orange leaf", "1.1 %", "5A", "60", limonene="1.2 %"),
    "lip_flavour": scent("Lip flavour, vanilla", "0.9 %", "1", "75", vanillin="8 %"),
    "air_scent": scent("Wax fragrance, pine", "12 %", "12", "85", limonene="6 %"),
    "lavender": _thing(
        "Lavender essential oil",
        "fragrance",
        "Lavandula Angustifolia Oil",
        "0.885",
        most_c="60",
        fragrance={
            "limit": "3 %",
            "category": "9",
            "allergens": [{"name": "Linalool", "share": "35 %"}, {"name": "Geraniol", "share": "0.5 %"}],
        },
    ),
    "eucalyptus": _thing(
        "Eucalyptus essential oil",
        "fragrance",
        "Eucalyptus Globulus Leaf Oil",
        "0.91",
        fragrance={"limit": "4 %", "category": "9", "allergens": [{"name": "Limonene", "share": "6 %"}]},
    ),
    "peppermint": _thing(
        "Peppermint essential oil",
        "fragrance",
        "Mentha Piperita Oil",
        "0.905",
        most_c="70",
        fragrance={"limit": "1.8 %", "category": "9", "allergens": [{"name": "Limonene", "share": "2 %"}]},
    ),
    "menthol": _thing("Menthol crystals", "", "Menthol"),
    # Packaging and helpers
    "jar": {"name": "Jar with lid, 200 ml"},
    "tin": {"name": "Slide tin"},
    "bottle": {"name": "Bottle with pump, 200 ml"},
    "bag": {"name": "Paper bag, folded"},
    "sachet": {"name": "Cotton sachet"},
}
