"""The label: its ingredient list from what was really weighed, and what the rules of a market ask for.

Two markets, "us" (21 CFR) and "eu" (Regulation (EC) 1223/2009, Article 19; the UK's text has the
same structure). They differ at exactly 1.00 %: in the US what does not exceed 1 % may stand in any
order after the rest, in the EU only what is below 1 %. Colours come last in both.

The list is that of one finished piece: each component gives its piece's mass, shared out as what
really went into its bowl. Shares are exact whole-number ratios, so an edge is an edge.

What this does not know, it says: the shares within a bought base or blend (written "Aqua 40 %,
Glycerin 30 %, ..." they are known), and what was added by hand unweighed. Names of a blend without
shares fall from one to the next; to give them a place, each counts as the mean of all such falls that
there could be (see `shares_of`), which together are never more than the blend. Such a place is called a
guess, and no figure is given for it. It claims no lawfulness: `checked` says what was looked at, and
the law where it is sold rules. `frontend/bench/label.js` gives the same.
"""

import re
from math import lcm

from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.record import (
    CheckedRule,
    Label,
    LabelHeights,
    LabelName,
    LabelNeed,
    LabelOptions,
    LabelSize,
    LeastHeights,
    LetterHeight,
    ListGroup,
    Market,
    Sourced,
)
from bench.shapes.sheet import Sheet, SheetComponent
from bench.shapes.state import State
from bench.whole import PPM, ceiling, half_even
from bench.words import point, say, say_all

COLOUR_KINDS = ("dye", "lake", "mica", "pigment")
# The market's own word for a few names; each read as the other (common practice; 701.3(a) for fragrance).
WORDS: dict[Market, dict[str, str]] = {
    "us": {"aqua": "Water", "parfum": "Fragrance", "water": "Water", "fragrance": "Fragrance"},
    "eu": {"aqua": "Aqua", "parfum": "Parfum", "water": "Aqua", "fragrance": "Parfum"},
}
INCH_UM = 25_400
MOST_RANK = 20  # past its twentieth name without a share a blend counts as nothing
_PARTS = lcm(*range(1, MOST_RANK + 1))
_RANKS = _PARTS * _PARTS
_COLOUR = re.compile(r"CI [0-9]{5}|mica", re.IGNORECASE)
_SHARED = re.compile(r"(.*[^ ]) +([0-9]{1,3})(?:\.([0-9]{1,4}))? *%")
_OUNCE_NG = 28_349_523_125  # one ounce avoirdupois, exactly (UCUM v2.2)

# 21 CFR 701.13 by the scheme of 16 CFR 500.21: up to so many square inches of the principal display
# panel, the least height in sixteenths of an inch. The last step is from memory.
NET_SIXTEENTHS = ((5, 1), (25, 2), (100, 3), (None, 4))


def label(recipe: MeasuredRecipe, sheet: Sheet, state: State, market: Market, options: LabelOptions) -> Label:
    """One batch's label for one market."""
    return _Label(recipe, sheet, state, market, options).build()


def names_in(inci: str) -> list[tuple[str, int | None]]:
    """The names of an INCI text with their shares in ppm: "Aqua 40 %, Glycerin" -> Aqua 400000, Glycerin None."""
    names: list[tuple[str, int | None]] = []
    for written in re.split(r"[;,] +", inci.strip(" ,;")):
        shared = _SHARED.fullmatch(written)
        if shared:
            name, whole, rest = (str(part or "") for part in shared.groups())
            names.append((name, int(whole) * 10_000 + int(rest.ljust(4, "0"))))
        elif written:
            names.append((written, None))
    return names


def shares_of(names: list[tuple[str, int | None]]) -> list[tuple[int, bool]]:
    """What each name of an INCI text has of the whole, in parts of PPM x ranks, and whether that is known.

    Together never more than the whole. What no share is written for falls from name to name: the k-th of n
    has the mean of the k-th longest of n pieces of a stick broken at random, (1/k + ... + 1/n) / n of what
    is left (from memory). Shares that are more than 100 % together are not believed.
    """
    written = [ppm for _, ppm in names]
    if len(names) == 1 and written[0] is None:
        return [(PPM * _RANKS, True)]
    left = PPM - sum(ppm or 0 for ppm in written)
    if left < 0:
        written, left = [None] * len(names), PPM
    falls = min(written.count(None), MOST_RANK)
    shares: list[tuple[int, bool]] = []
    rank = 0
    for ppm in written:
        if ppm is not None:
            shares.append((ppm * _RANKS, True))
            continue
        rank += 1
        fall = sum(_PARTS // each for each in range(rank, falls + 1))
        shares.append((left * (_PARTS // falls) * fall, False))
    return shares


def net_text(mg: int, market: Market) -> str:
    """Net content of one piece, never more than is there: whole grams (tenths below 10 g), and in the US
    avoirdupois ounces to a tenth first, in English."""
    tenths = mg // 100
    sign = "." if market == "us" else point()
    grams = f"{mg // 1000} g" if mg >= 10_000 else f"{tenths // 10}{sign}{tenths % 10} g"
    if market == "eu":
        return grams
    ounces = mg * 10 * 1_000_000 // _OUNCE_NG
    return f"Net Wt {ounces // 10}.{ounces % 10} oz ({grams})"


def least_heights(market: Market, size: LabelSize | None) -> LeastHeights:
    """The least letter heights, rounded up.

    US: the list 1/16 in, or 1/32 in on a label of less than 12 square inches (21 CFR 701.3(b)); the
    net content by the principal display panel (701.13): all of a rectangle, 40 % of a cylinder's
    girth by height, 40 % of any other surface (16 CFR 500.21).
    """
    if market != "us" or size is None:
        return {"list_um": None, "net_um": None}
    surface = size["width_um"] * size["height_um"]
    panel = surface * (100 if size["shape"] == "rectangle" else 40)
    square_inch = INCH_UM * INCH_UM
    parts = 32 if surface < 12 * square_inch else 16
    sixteenths = next(
        height for most, height in NET_SIXTEENTHS if most is None or panel <= 100 * most * square_inch
    )
    return {"list_um": -(-INCH_UM // parts), "net_um": -(-INCH_UM * sixteenths // 16)}


class _Label:
    def __init__(
        self, recipe: MeasuredRecipe, sheet: Sheet, state: State, market: Market, options: LabelOptions
    ) -> None:
        self.recipe, self.sheet, self.state = recipe, sheet, state
        self.market, self.options = market, options
        self.warnings: list[Sourced] = []
        self.weights: dict[str, int] = {}  # name -> its share of `total`
        self.spelt: dict[str, str] = {}  # name in small letters -> as it is written
        self.unsure: set[str] = set()
        self.blends: dict[str, None] = {}  # whose shares nobody has told
        self.colours: set[str] = set()
        self.by_hand: dict[str, None] = {}
        self.allergens: dict[str, int] = {}
        self.total = 0
        self.used: dict[str, None] = {}

    def build(self) -> Label:
        self._weigh_up()
        rows = self._rows()
        heights = self._heights()
        options = self.options
        net_mg = options.get("net_mg")
        if net_mg is None:
            net_mg = sum(self._piece_mg(component) for component in self.sheet["components"])
        precautions = self._precautions()
        self._warn_of_the_product()
        return {
            "market": self.market,
            "identity": options.get("identity") or self.recipe["title"],
            "ingredients": rows,
            "text": ", ".join(row["name"] for row in rows),
            "net_mg": net_mg,
            "net": net_text(net_mg, self.market),
            "batch": options.get("batch") or self.state["number"],
            "opened": f"{months}M" if (months := options.get("opened_months")) else None,
            "best_before": options.get("best_before"),
            "maker": options.get("maker"),
            "precautions": precautions,
            "heights": heights,
            "needs": self._needs(net_mg, precautions),
            "warnings": self.warnings,
            "checked": _checked(self.market),
            "law": say("label-law"),
        }

    def _warn(self, says: str, source: str) -> None:
        if all(each["says"] != says for each in self.warnings):
            self.warnings.append({"says": says, "source": source})

    # What is in a piece

    def _piece_mg(self, component: SheetComponent) -> int:
        """What a component gives to one finished piece."""
        return component["takes"] * component["piece_mg"]

    def _weigh_up(self) -> None:
        masses: dict[str, dict[str, int]] = {}  # component -> ingredient -> mg
        for line in self.sheet["lines"]:
            stands = self.state["lines"][line["id"]]
            settled = stands["status"] in ("in", "left", "over", "short")
            mg = stands["in_mg"] or (line["about_mg"] or 0 if settled else 0)
            if mg:
                mix = masses.setdefault(line["component"], {})
                mix[line["ingredient"]] = mix.get(line["ingredient"], 0) + mg
            elif stands["status"] == "by_hand" or (line["mg"] is None and settled):
                self._unweighed(line["ingredient"])
        pieces = self.sheet["size"]["pieces"]
        parts = [
            # a part of drops alone has no mass on the sheet: what went in, for each piece
            (self._piece_mg(component) or ceiling(sum(mix.values()), pieces), mix)
            for component in self.sheet["components"]
            for mix in [masses.get(component["id"])]
            if mix
        ]
        whole = lcm(*(sum(mix.values()) for _, mix in parts))
        for piece_mg, mix in parts:
            scale = piece_mg * (whole // sum(mix.values()))
            self.total += piece_mg * whole * PPM * _RANKS
            for ingredient, mg in mix.items():
                self._name(ingredient, mg * scale)
        if self.blends:
            self._warn(say("label-blends", names=say_all(list(self.blends))), say("label-source-shares"))

    def _inci(self, ingredient: str) -> list[tuple[str, int | None]]:
        about = self.recipe["ingredients"][ingredient]
        card = self.options.get("cards", {}).get(ingredient)
        inci = (card and card.get("inci")) or about["inci"]
        if not inci:
            self._warn(say("label-no-inci", name=about["name"]), say("label-source-inci"))
        self.used[ingredient] = None
        return names_in(inci) or [(about["name"], None)]

    def _unweighed(self, ingredient: str) -> None:
        name = self.recipe["ingredients"][ingredient]["name"]
        self._warn(say("label-unweighed", name=name), say("label-source-weight"))
        for written, _ in self._inci(ingredient):
            self.by_hand[self._key(written)] = None

    def _key(self, written: str) -> str:
        """A name's key, its spelling for this market kept."""
        name = WORDS[self.market].get(written.lower(), written)
        self.spelt.setdefault(name.lower(), name)
        return name.lower()

    def _name(self, ingredient: str, weight: int) -> None:
        """Share an ingredient's weight out over its names. weight: in units of total / (PPM x ranks)."""
        about = self.recipe["ingredients"][ingredient]
        names = self._inci(ingredient)
        if about["kind"] == "fragrance":
            names = [("Parfum", None)]
        shares = shares_of(names)
        if not all(known for _, known in shares) or sum(share for share, _ in shares) < PPM * _RANKS:
            self.blends[about["name"]] = None
        coloured = [bool(_COLOUR.fullmatch(written)) for written, _ in names]
        if about["kind"] in COLOUR_KINDS and not any(coloured):
            coloured = [True] * len(names)
        for (written, _), (share, known), is_colour in zip(names, shares, coloured, strict=True):
            key = self._key(written)
            if not known:
                self.unsure.add(key)
            self.weights[key] = self.weights.get(key, 0) + weight * share
            if is_colour:
                self.colours.add(key)
        for allergen in about["fragrance"]["allergens"] if about["fragrance"] else ():
            key = self._key(allergen["name"])
            self.allergens[key] = self.allergens.get(key, 0) + weight * _RANKS * allergen["ppm"]

    def _rows(self) -> list[LabelName]:
        weights = dict(self.weights)
        if self.market == "eu":
            stays_on = self.recipe["stays_on"] is not False
            if self.recipe["stays_on"] is None and self.allergens:
                self._warn(say("label-skin"), say("label-source-allergens"))
            for key, weight in self.allergens.items():
                if weight * (100_000 if stays_on else 10_000) > self.total:
                    weights.setdefault(key, weight)

        def group(key: str) -> ListGroup:
            if key in self.colours:
                return "colour"
            hundredfold = 100 * weights[key]
            free = hundredfold <= self.total if self.market == "us" else hundredfold < self.total
            return "free" if free else "over"

        groups: dict[ListGroup, list[str]] = {"over": [], "free": [], "by_hand": [], "colour": []}
        for _, key in sorted((-weight, key) for key, weight in weights.items()):
            groups[group(key)].append(key)
        for key in self.by_hand:
            if key not in weights:
                groups["colour" if _COLOUR.fullmatch(key) else "by_hand"].append(key)
        return [
            {
                "name": self.spelt[key],
                "ppm": half_even(weights[key] * PPM, self.total) if sure else None,
                "group": name,
                "sure": sure,
            }
            for name, keys in groups.items()
            for key in keys
            for sure in [key in weights and key not in self.unsure and key not in self.by_hand]
        ]

    # What the rules ask

    def _precautions(self) -> list[Sourced]:
        kinds = {self.recipe["ingredients"][key]["kind"] for key in self.used}
        precautions: list[Sourced] = [
            {"says": says, "source": say("label-source-maker")}
            for says in self.options.get("precautions", [])
        ]
        practice = say("label-source-practice")
        if kinds & {"oil", "butter", "solubiliser"}:
            precautions.append({"says": say("label-slippery", market=self.market), "source": practice})
        if kinds & {"fragrance", "citric_acid", "surfactant", "soap_base", "whipping_base"}:
            precautions.append({"says": say("label-eyes", market=self.market), "source": practice})
        return precautions

    def _warn_of_the_product(self) -> None:
        kinds = {self.recipe["ingredients"][key]["kind"] for key in self.used}
        if self.market == "us":
            if kinds & {"surfactant", "whipping_base"}:
                self._warn(say("label-foam"), say("label-source-us-second-hand", section="740.17"))
            if any(key.startswith("ci ") for key in self.colours):
                self._warn(say("label-colour-index"), say("label-source-colours"))
            if "soap_base" in kinds:
                self._warn(say("label-soap"), say("label-source-us", section="701.20"))
            self._warn(say("label-unproven"), say("label-source-us-second-hand", section="740.10"))
        elif self.allergens:
            self._warn(say("label-more-allergens"), say("label-source-more-allergens"))
        if self.recipe["looks_like_food"]:
            self._warn(say("label-like-food"), say("label-source-food"))

    def _heights(self) -> LabelHeights:
        least = least_heights(self.market, self.options.get("size"))
        letters = self.options.get("letters") or {}
        return {
            "list": self._height("list", "701.3(b)", letters.get("list_um"), least["list_um"]),
            "net": self._height("net", "701.13", letters.get("net_um"), least["net_um"]),
        }

    def _height(self, of: str, rule: str, has: int | None, needs: int | None) -> LetterHeight:
        fits = None if has is None or needs is None else has >= needs
        if has is not None and needs is not None and not fits:
            self._warn(
                say("label-too-small", of=of, has=has, least=needs), say("label-source-us", section=rule)
            )
        return {"least_um": needs, "has_um": has, "fits": fits}

    def _needs(self, net_mg: int, precautions: list[Sourced]) -> list[LabelNeed]:
        options = self.options
        batch = bool(options.get("batch") or self.state["number"])
        maker = bool(options.get("maker"))
        if self.market == "us":
            return [
                _need(say("label-need-what"), True, say("label-source-us-memory", section="701")),
                _need(say("label-need-net-us"), net_mg > 0, say("label-source-us", section="701.13")),
                _need(say("label-need-place"), maker, say("label-source-us-memory", section="701")),
                _need(say("label-need-list"), bool(self.weights), say("label-source-us", section="701.3")),
                _need(say("label-need-contact"), maker, say("label-source-contact")),
            ]
        dated = bool(options.get("opened_months") or options.get("best_before"))
        needs = [
            (say("label-need-responsible"), maker),
            (say("label-need-net-eu"), net_mg > 0),
            (say("label-need-date"), dated),
            (say("label-need-precautions"), bool(precautions)),
            (say("label-need-batch"), batch),
            (say("label-need-function"), bool(options.get("function"))),
            (say("label-need-ingredients"), bool(self.weights)),
        ]
        return [
            _need(what, there, say("label-source-eu", point=letter))
            for letter, (what, there) in zip("abcdefg", needs, strict=True)
        ]


def _need(what: str, there: bool, source: str) -> LabelNeed:
    return {"what": what, "there": there, "source": source}


def _checked(market: Market) -> list[CheckedRule]:
    """What is looked at on every label of a market."""
    if market == "us":
        checked = [
            (say("label-checked-order-us"), say("label-source-us", section="701.3(a)")),
            (say("label-checked-free-us"), say("label-source-us-second-hand", section="701.3(f)(2)")),
            (say("label-checked-colours"), say("label-source-us-second-hand", section="701.3(f)(3)")),
            (
                say("label-checked-letters"),
                say("label-source-us", section="701.3(b), 701.13; 16 CFR 500.21"),
            ),
        ]
    else:
        checked = [
            (say("label-checked-order-eu"), say("label-source-eu", point="g")),
            (say("label-checked-free-eu"), say("label-source-eu-second-hand", point="g")),
            (say("label-checked-colours"), say("label-source-eu-second-hand", point="g")),
            (say("label-checked-allergens"), say("label-source-allergens")),
        ]
    checked.append((say("label-checked-net"), say("label-source-practice")))
    return [{"what": what, "source": source} for what, source in checked]
