"""The ingredient list of one finished piece, from what was really weighed.

Each component gives its piece's mass, shared out as what really went into its bowl. Shares are exact whole-number
ratios, so an edge is an edge.

What this does not know, it says: the shares within a bought base or blend (written "Aqua 40 %, Glycerin 30 %, ..."
they are known), and what was added by hand unweighed. Names of a blend without shares fall from one to the next; to
give them a place, each counts as the mean of all such falls that there could be (see `shares_of`), which together are
never more than the blend. Such a place is called a guess, and no figure is given for it.
"""

import re
from math import lcm
from typing import Literal

from bench.label_names import allergen_name, is_number, on_market
from bench.shapes.entries import Market
from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.record import LabelName, LabelOptions, ListGroup, Sourced
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine
from bench.shapes.state import LineState, State
from bench.substances.on_label import OnLabel
from bench.substances.table import former_allergens
from bench.whole import PPM, ceiling, half_even
from bench.words import say, say_all

Organ = Literal["eye", "skin"]
COLOUR_KINDS = ("dye", "lake", "mica", "pigment")
MOST_RANK = 20  # past its twentieth name without a share a blend counts as nothing
_PARTS = lcm(*range(1, MOST_RANK + 1))
_RANKS = _PARTS * _PARTS
_SHARED = re.compile(r"(.*[^ ]) +([0-9]{1,3})(?:\.([0-9]{1,4}))? *%")


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


class Listing:
    """What a piece holds by the names of its market, and what is to be looked at on the way."""

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
        self.ahead: dict[
            str, None
        ] = {}  # ingredients that are still to be weighed: they stand as the recipe has them
        self.allergens: dict[str, int] = {}
        self.newer: dict[str, None] = {}  # allergens over their share that this market does not ask for
        self.total = 0
        self.used: dict[str, None] = {}
        self.known: dict[str, OnLabel] = {}  # what the table says of a name
        self.harm: dict[tuple[Organ, int], int] = {}  # what harms it, by category: its share of `total`
        self.unclassed: dict[str, None] = {}  # of which no class is known here
        self._weigh_up()

    def warn(self, says: str, source: str) -> None:
        if all(each["says"] != says for each in self.warnings):
            self.warnings.append({"says": says, "source": source})

    # What is in a piece

    def piece_mg(self, component: SheetComponent) -> int:
        """What a component gives to one finished piece."""
        return component["takes"] * component["piece_mg"]

    def _weigh_up(self) -> None:
        masses: dict[str, dict[str, int]] = {}  # component -> ingredient -> mg
        for line in self.sheet["lines"]:
            stands = self.state["lines"][line["id"]]
            settled = stands["status"] in ("in", "left", "over", "short")
            is_ahead = self._is_ahead(line, stands)
            mg = stands["in_mg"] or (line["about_mg"] or 0 if settled else 0)
            if is_ahead:
                self.ahead[line["name"]] = None
                mg = stands["target_mg"] or line["about_mg"] or 0
            if mg:
                mix = masses.setdefault(line["component"], {})
                mix[line["ingredient"]] = mix.get(line["ingredient"], 0) + mg
            elif stands["status"] == "by_hand" or (line["mg"] is None and (settled or is_ahead)):
                self._unweighed(line["ingredient"])
        pieces = self.sheet["size"]["pieces"]
        parts = [
            # a part of drops alone has no mass on the sheet: what went in, for each piece
            (self.piece_mg(component) or ceiling(sum(mix.values()), pieces), mix)
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
            self.warn(say("label-blends", names=say_all(list(self.blends))), say("label-source-shares"))

    def _is_ahead(self, line: SheetLine, stands: LineState) -> bool:
        """Whether a line is still to be weighed: a label can be wanted while the batch is being made."""
        if self.state["finished_at"] is not None or stands["status"] != "open" or stands["in_mg"]:
            return False
        step = line["step"]
        return step is None or self.state["steps"][step]["status"] != "skipped"

    def _inci(self, ingredient: str) -> list[tuple[str, int | None]]:
        about = self.recipe["ingredients"][ingredient]
        card = self.options.get("cards", {}).get(ingredient)
        inci = (card and card.get("inci")) or about["inci"]
        if not inci:
            self.warn(say("label-no-inci", name=about["name"]), say("label-source-inci"))
        self.used[ingredient] = None
        return names_in(inci) or [(about["name"], None)]

    def _unweighed(self, ingredient: str) -> None:
        name = self.recipe["ingredients"][ingredient]["name"]
        self.warn(say("label-unweighed", name=name), say("label-source-weight"))
        for written, _ in self._inci(ingredient):
            self.by_hand[self._key(written)] = None

    def _key(self, written: str) -> str:
        """A name's key, its spelling for this market kept."""
        name, about = on_market(written, self.market)
        self.spelt.setdefault(name.lower(), name)
        if about:
            self.known.setdefault(name.lower(), about)
        if _is_colour(written, about):
            self.colours.add(name.lower())
        return name.lower()

    def _name(self, ingredient: str, weight: int) -> None:
        """Share an ingredient's weight out over its names. weight: in units of total / (PPM x ranks)."""
        about = self.recipe["ingredients"][ingredient]
        names = self._inci(ingredient)
        self._class(names, weight)
        if about["kind"] == "fragrance":
            names = [("Parfum", None)]
        shares = shares_of(names)
        if not all(known for _, known in shares) or sum(share for share, _ in shares) < PPM * _RANKS:
            self.blends[about["name"]] = None
        coloured = [_is_colour(written, on_market(written, self.market)[1]) for written, _ in names]
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
            key = self._key(allergen_name(allergen["name"]))
            self.allergens[key] = self.allergens.get(key, 0) + weight * _RANKS * allergen["ppm"]

    def _class(self, names: list[tuple[str, int | None]], weight: int) -> None:
        """Add up what harms eyes and skin, of a scent too: by the classes of the names that the table knows."""
        for (written, _), (share, _) in zip(names, shares_of(names), strict=True):
            about = on_market(written, self.market)[1]
            if not about:
                self.unclassed[written] = None
                continue
            for organ, category in (("eye", about.get("eye")), ("skin", about.get("skin"))):
                if category:
                    key: tuple[Organ, int] = ("eye" if organ == "eye" else "skin", category)
                    self.harm[key] = self.harm.get(key, 0) + weight * share

    def rows(self) -> list[LabelName]:
        weights = dict(self.weights)
        if self.market != "us":
            stays_on = self.recipe["stays_on"] is not False
            for key, weight in self.allergens.items():
                if weight * (100_000 if stays_on else 10_000) > self.total:
                    if self.market == "uk" and key not in former_allergens():
                        self.newer[self.spelt[key]] = None
                    else:
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
                groups["colour" if key in self.colours else "by_hand"].append(key)
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


def _is_colour(written: str, about: OnLabel | None) -> bool:
    return is_number(written) or bool(about and about.get("colour"))
