"""What a rule looks at: a measured recipe, and today's air and the kit where they are known."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from bench.checks.order import Order
from bench.fizz import counted_as, is_acid, is_carbonate
from bench.recipe import ASSEMBLY
from bench.shapes.kit import Kit
from bench.shapes.recipe import (
    Component,
    Finding,
    Ingredient,
    MeasuredRecipe,
    ProductUse,
    RecipeLine,
    RoomAir,
    SoldIn,
)
from bench.shapes.substances import Substance
from bench.shapes.units import Id, RecipeKey
from bench.sheet_words import part_name
from bench.steps import counts_pieces
from bench.substances import kind_of, known
from bench.words import say

SOAP = frozenset({"soap_base", "whipping_base"})
BINDERS = ("emulsifying-wax", "btms-50", "stearic-acid")  # they bind oil and water
# What shuts tight, as makers write it in five languages; and "not", which turns it round.
SHUTS = re.compile(
    r"screw\w* (?:on )?(?:the |its )?(?:lids?|caps?)|\bcorked\b|\bcorks?\b(?! (?:mat|board|tray))|\bstoppers?\b|vacuum|vakuum\w*"
    r"|verkork\w*|sottovuoto|al vacío|sous vide|air-?tight|seal\w{0,3} (?:jar|tin|bag)|lidded jar|jar with lid|screw(?:-| )?(?:top|lid)|mason jar|zip\w{0,4} bag"
    r"|luftdicht|schraubglas|schraubdeckel|einmachglas|glas mit deckel|hermétique|bocal fermé|hermétic\w|tarro cerrado"
    r"|ermetic\w|barattolo chiuso",
    re.IGNORECASE,
)
GLASS = re.compile(r"glas|verre|vidrio|vetro|mason jar|bocal", re.IGNORECASE)
# A step that is called so wraps, though it does not say what it does.
WRAPS = re.compile(
    r"\b(?:wrap|wrapping|wrapped|ein(?:wickeln|packen|schlagen)|verpacken|emballer|emballage|envolver|avvolgere|incartare)\b",
    re.IGNORECASE,
)
# What a piece is filled into and stays in: that wraps it too.
HOLDS = re.compile(
    r"\b(?:jars?|tubs?|tins?|bottles?|tubes?|pouch(?:es)?|bags?|clamshells?|gläse?r?n?|tiegel|dosen?|flaschen?|tuben?|beutel"
    r"|bocaux|sachets?|flacons?|tarros?|botes?|bolsas?|barattol[oi]|vasett[io])\b",
    re.IGNORECASE,
)
FRESH = re.compile(r"\b(?:fresh|frisch\w*|fra[iî]ch?\w*|fresc\w*|fresch\w*)\b", re.IGNORECASE)
LIPS = re.compile(r"\b(?:lips?|lippen\w*|lèvres|labios|labial|labbra)\b", re.IGNORECASE)
NOT = re.compile(r"\b(?:not|never|no|nie|nicht|keine?n?m?|pas|jamais|nunca|non|mai)\b", re.IGNORECASE)
CLAUSE = re.compile(r"[.:;]")


@dataclass(frozen=True)
class Subject:
    recipe: MeasuredRecipe
    air: RoomAir | None = None
    kit: Kit | None = None

    @property
    def use(self) -> ProductUse | None:
        """What it is for: as the recipe says, else as far as its title or "stays on the skin" tells."""
        said = self.recipe.get("use")
        if said or self.recipe["stays_on"] is None:
            return said
        if self.recipe["stays_on"]:
            return "lips" if LIPS.search(self.recipe["title"]) else "left_on"
        return "bath" if self.fizzing else "wash"

    @property
    def is_for_skin(self) -> bool:
        """Unless the recipe says that it only scents the air, or decorates."""
        return self.recipe.get("use") not in ("air", "decoration")

    def may_be_sold_in(self, *markets: SoldIn) -> bool:
        """In one of these, as far as the recipe says where."""
        return "sold_in" not in self.recipe or not {*markets}.isdisjoint(self.recipe["sold_in"])

    @cached_property
    def order(self) -> Order:
        return Order(self.recipe)

    @cached_property
    def kinds(self) -> frozenset[str]:
        """The kinds of ingredient that the recipe's lines use."""
        return frozenset(self.kind(line["ingredient"]) for _, line in self.lines())

    @property
    def parts(self) -> list[Component]:
        """The components proper, the assembly left out."""
        return [each for each in self.recipe["components"] if each["id"] != ASSEMBLY]

    def component(self, key: RecipeKey) -> Component:
        """The component of a step or a line: "component.step"."""
        return self._components[key.split(".", maxsplit=1)[0]]

    @cached_property
    def _components(self) -> dict[Id, Component]:
        return {each["id"]: each for each in self.recipe["components"]}

    def ingredient(self, line: RecipeLine) -> Ingredient:
        return self.recipe["ingredients"][line["ingredient"]]

    def substance(self, key: str) -> Substance | None:
        """What an ingredient is known as, by its id in the recipe."""
        return known(self.recipe["ingredients"][key])

    def kind(self, key: str) -> str:
        """The kind of what an ingredient is known as, by its id in the recipe."""
        return kind_of(self.recipe["ingredients"][key])

    def known_as(self, line: RecipeLine) -> str:
        """The substance that a line is counted as in a reaction, by id; its kind tells where its name does not."""
        return counted_as(self.ingredient(line))

    def acids(self, component: Component) -> list[RecipeLine]:
        return [line for line in component["lines"] if is_acid(self.known_as(line))]

    def carbonates(self, component: Component) -> list[RecipeLine]:
        return [line for line in component["lines"] if is_carbonate(self.known_as(line))]

    @cached_property
    def fizzing(self) -> list[Component]:
        """The parts that hold both: a drop of water, and they fizz."""
        return [part for part in self.parts if self.acids(part) and self.carbonates(part)]

    @cached_property
    def pressed(self) -> list[RecipeKey]:
        """The steps that shape a fizzing part: pressed, or, where the recipe does not say so, made into pieces."""
        return [
            key
            for key, step in self.order.steps.items()
            if (step["does"] == "press" or (counts_pieces(step) and not step["does"]))
            and self.component(key) in self.fizzing
        ]

    @cached_property
    def shut_tight(self) -> list[str]:
        """The steps that put something where no gas gets out, as far as their words tell: "component.step"."""
        found = []
        for component in self.recipe["components"]:
            for step in component["steps"]:
                ways = [text for way in step["ways"] for text in (way["name"], way["says"])]
                texts = [step["title"], step["says"], *step["tools"], *ways]
                if any(is_said(SHUTS, text) for text in texts):
                    found.append(f"{component['id']}.{step['id']}")
        return found

    @cached_property
    def wraps(self) -> list[str]:
        """The steps that wrap, or fill into what wraps: "component.step"."""
        return [
            key
            for key, step in self.order.steps.items()
            if step["does"] == "wrap"
            or (not step["does"] and is_said(WRAPS, step["title"]))
            or (counts_pieces(step) and is_said(HOLDS, step["title"]))
        ]

    def is_wet(self, line: RecipeLine) -> bool:
        """Whether it brings water as it is: what is water, and plants that are not dried. A spray to texture dries off."""
        kind = self.kind(line["ingredient"])
        fresh = kind == "botanical" and is_said(FRESH, self.ingredient(line)["name"])
        return not line["texture"] and (kind == "water" or fresh)

    def lines(self) -> Iterator[tuple[str, RecipeLine]]:
        """Every line with its place, "component.line"."""
        for component in self.recipe["components"]:
            for line in component["lines"]:
                yield f"{component['id']}.{line['id']}", line

    def place(self, where: str) -> str:
        """What a finding's `where` points at, in words: "Fizzing base: Melt the butter"."""
        return self._places.get(where) or self._places.get(self._part_of(where), say("checks-place-piece"))

    def _part_of(self, field: str) -> str:
        """The part or the line that a field of the recipe is of: "components.0.lines.2.amount"."""
        found = re.match(r"(?:components\.(\d+)|assembly)(?:\.lines\.(\d+))?", field)
        if not found:
            return ""
        place = -1 if found[1] is None else int(found[1])
        component = self.recipe["components"][place]
        if found[2] is None:
            return component["id"]
        return f"{component['id']}.{component['lines'][int(found[2])]['id']}"

    def as_written(self, where: str) -> str:
        """The same place in the recipe as written, where a step may be said by several."""
        return self._written.get(where, where)

    @cached_property
    def _written(self) -> dict[str, str]:
        return {
            f"{component['id']}.{step['id']}": f"{component['id']}.{step['written']}"
            for component in self.recipe["components"]
            for step in component["steps"]
            if "written" in step
        }

    @cached_property
    def _places(self) -> dict[str, str]:
        named = {f"ingredients.{key}": each["name"] for key, each in self.recipe["ingredients"].items()}
        for component in self.recipe["components"]:
            part = named[component["id"]] = part_name(component)
            for line in component["lines"]:
                named[f"{component['id']}.{line['id']}"] = f"{part}: {self.ingredient(line)['name']}"
            for step in component["steps"]:
                named[f"{component['id']}.{step['id']}"] = f"{part}: {step['title']}"
        return named

    def of_kind(self, component: Component, *kinds: str) -> list[RecipeLine]:
        return [line for line in component["lines"] if self.kind(line["ingredient"]) in kinds]

    def used(self, *kinds: str) -> list[str]:
        """The ingredients of these kinds that a line uses, by id."""
        return [key for key in self.all_used if self.kind(key) in kinds]

    @cached_property
    def all_used(self) -> list[str]:
        """The ingredients that a line uses, by id."""
        return sorted({line["ingredient"] for _, line in self.lines()})

    @cached_property
    def shares(self) -> dict[str, dict[str, Fraction]]:
        """Each ingredient's share of each component that holds it, by their ids."""
        shares: dict[str, dict[str, Fraction]] = {key: {} for key in self.all_used}
        for component in self.recipe["components"]:
            whole = total_ug(component)
            for line in component["lines"]:
                if whole and mass_ug(line):
                    of_parts = shares[line["ingredient"]]
                    part = Fraction(mass_ug(line), whole)
                    of_parts[component["id"]] = of_parts.get(component["id"], Fraction(0)) + part
        return shares

    def largest_share(self, key: str) -> Fraction:
        """Of the part that holds most of it. Each part meets the skin by itself, so the whole piece thins nothing."""
        return max(self.shares[key].values(), default=Fraction(0))


Rule = Callable[[Subject], Iterator[Finding]]


def is_said(words: re.Pattern[str], text: str) -> bool:
    """Whether a clause of the text says it before any "not"."""
    return any(words.search(NOT.split(clause, maxsplit=1)[0]) for clause in CLAUSE.split(text))


def mass_ug(line: RecipeLine) -> int:
    """A line's mass in µg as written; drops by their estimate, 0 where nothing tells."""
    return line["ug"] or line["about_ug"] or 0


def total_ug(component: Component) -> int:
    """What is weighed into a component as written, in µg."""
    return ug_in(component["lines"])


def share_of(component: Component, lines: list[RecipeLine]) -> Fraction:
    """What part of a component these lines are; 0 where nothing of it is weighed."""
    whole = total_ug(component)
    return Fraction(sum(map(mass_ug, lines)), whole) if whole else Fraction(0)


def ug_in(lines: list[RecipeLine]) -> int:
    return sum(line["ug"] or 0 for line in lines)


def rounding(recipe: MeasuredRecipe) -> Fraction:
    """How far a share of the piece may be off because masses are kept in whole µg: never over a limit by that alone."""
    return max(
        (
            Fraction(len(component["lines"]), total_ug(component))
            for component in recipe["components"]
            if total_ug(component)
        ),
        default=Fraction(0),
    )
