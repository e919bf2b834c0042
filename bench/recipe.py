"""The recipe: a document as the maker wrote it, read into whole numbers.

`read_recipe` takes the written document (`RECIPE_SCHEMA` publishes its shape) and returns the
*measured* recipe: the same recipe with every amount, duration and share as a whole number, every
default filled in and every reference checked. What comes after (size, sheet, run) works on the
measured recipe only, so the phone never has to read an amount to make a sheet without a network.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from bench import states
from bench.cautions import HAZARDS, LYE
from bench.errors import RecipeError
from bench.quantities import (
    DROP_NL,
    MOST_UG,
    Amount,
    read_amount,
    read_celsius_mk,
    read_density,
    read_duration_ms,
    read_mass_mg,
    read_ppm,
    spoon_drawer,
)
from bench.recipe_schema import RECIPE_SCHEMA
from bench.schema_words import say_what_is_wrong
from bench.whole import PPM, half_even

Json = Any  # until its shape is named

ASSEMBLY = "assembly"
DEFAULT_TOLERANCE_PPM = 20_000  # 2 % a line: common practice for hand-made batches
MEASURED_FORMAT = "bowlside-measured/1"


def read_recipe(document: Any, kept: bool = False) -> Json:
    """The measured recipe, or a RecipeError / AmountError naming the field and the way out.

    kept: it was taken in by an earlier version; see `read_amount`.
    """
    fault = say_what_is_wrong(document, RECIPE_SCHEMA)
    if fault:
        raise RecipeError(*fault)
    return _Reading(document, kept).measured()


def _nearest(value: Fraction) -> int:
    return half_even(value.numerator, value.denominator)


class _Reading:
    """One pass over one document. Holds what every part of it needs to look up."""

    def __init__(self, document: Json, kept: bool = False) -> None:
        self.document = document
        self.kept = kept
        self.measures: str | None = document.get("measures")
        self.written_for: int = document["written_for"]
        self.ingredients: Json = document["ingredients"]

    def measured(self) -> Json:
        self._refuse_lye()
        document = self.document
        ids = [component["id"] for component in document["components"]]
        for index, component in enumerate(document["components"]):
            if component["id"] == ASSEMBLY:
                raise RecipeError(
                    f"components.{index}.id",
                    "“assembly” is kept for the joining at the end. Name the component otherwise.",
                )
            if ids.index(component["id"]) != index:
                raise RecipeError(
                    f"components.{index}.id",
                    f"“{component['id']}” is used twice. Give each component its own id.",
                )
        takes = self._takes(ids)
        components = [
            self._component(component, f"components.{index}", takes[component["id"]])
            for index, component in enumerate(document["components"])
        ]
        components.append(self._assembly(components))
        _check_needs(components)
        measured_ingredients = {key: self._ingredient(key) for key in self.ingredients}
        states.mark(components, measured_ingredients)
        return {
            "format": MEASURED_FORMAT,
            "title": document["title"],
            "summary": document.get("summary", ""),
            "measures": self.measures or "metric",
            "spoons": spoon_drawer(self.measures or "metric"),
            "written_for": self.written_for,
            "piece": document.get("piece", {"one": "piece", "many": "pieces"}),
            "stays_on": document.get("stays_on"),
            "looks_like_food": document.get("looks_like_food"),
            "ingredients": measured_ingredients,
            "components": components,
        }

    def _refuse_lye(self) -> None:
        for key, ingredient in self.ingredients.items():
            words = re.sub(r"[^a-z]+", " ", f"{key} {ingredient['name']}".lower())
            if any(re.search(rf"\b{lye}\b", words) for lye in LYE):
                raise RecipeError(
                    f"ingredients.{key}",
                    "A recipe that uses lye is outside this tool: making soap from lye needs its own "
                    "training, protection and calculation. Use a ready-made base here.",
                )

    def _takes(self, ids: list[str]) -> dict[str, int]:
        """How many pieces of each component one finished piece takes."""
        assembly = self.document.get("assembly")
        if assembly is None:
            if len(ids) > 1:
                raise RecipeError(
                    "assembly", "A recipe of several components needs an assembly that joins them."
                )
            return {ids[0]: 1}
        takes: dict[str, int] = {}
        for index, take in enumerate(assembly["takes"]):
            where = f"assembly.takes.{index}.component"
            if take["component"] not in ids:
                raise RecipeError(
                    where, f"There is no component “{take['component']}”. It could be {', '.join(ids)}."
                )
            if take["component"] in takes:
                raise RecipeError(
                    where, f"“{take['component']}” is taken twice. Take it once and give its count."
                )
            takes[take["component"]] = take.get("count", 1)
        for key in ids:
            if key not in takes:
                raise RecipeError(
                    "assembly.takes", f"Nothing takes the component “{key}”. Add it, or delete it."
                )
        return takes

    def _ingredient(self, key: str) -> Json:
        ingredient = self.ingredients[key]
        where = f"ingredients.{key}"
        density = ingredient.get("density")
        heat = ingredient.get("heat")
        return {
            "name": ingredient["name"],
            "inci": ingredient.get("inci", ""),
            "note": ingredient.get("note", ""),
            "kind": ingredient.get("kind", ""),
            "form": ingredient.get("form", ""),
            "density": self._density_said(density, f"{where}.density") if density else None,
            "heat": {
                "solid_j_per_kg_k": heat["solid_j_per_kg_k"],
                "liquid_j_per_kg_k": heat["liquid_j_per_kg_k"],
                "latent_j_per_kg": heat["latent_j_per_kg"],
                "melts_mk": read_celsius_mk(heat["melts_c"], f"{where}.heat.melts_c"),
            }
            if heat
            else None,
            "most_mk": read_celsius_mk(ingredient["most_c"], f"{where}.most_c")
            if "most_c" in ingredient
            else None,
            "fragrance": self._fragrance(ingredient["fragrance"], f"{where}.fragrance")
            if "fragrance" in ingredient
            else None,
            "active_ppm": self._active_ppm(key),
            "cautions": [HAZARDS[name]["says"] for name in ingredient.get("hazards", [])],
        }

    def _density_said(self, density: Json, where: str) -> Json:
        tapped = density.get("tapped_g_per_ml")
        if tapped is not None:
            read_density(tapped, f"{where}.tapped_g_per_ml")
        return {"g_per_ml": density["g_per_ml"], "tapped_g_per_ml": tapped, "source": density["source"]}

    def _fragrance(self, written: Json, where: str) -> Json:
        """The limit copied from the certificate, and the allergens it names, in ppm of the fragrance."""
        return {
            "limit_ppm": read_ppm(written["limit"], f"{where}.limit") if "limit" in written else None,
            "category": written.get("category", ""),
            "allergens": [
                {"name": each["name"], "ppm": read_ppm(each["share"], f"{where}.allergens.{index}.share")}
                for index, each in enumerate(written.get("allergens", []))
            ],
        }

    def _active_ppm(self, ingredient: str) -> int | None:
        """The active share of an ingredient by mass, in ppm above nought: 68 % of a surfactant, 100 % of a pure salt."""
        written = self.ingredients[ingredient].get("active")
        if written is None:
            return None
        where = f"ingredients.{ingredient}.active"
        amount = read_amount(written, None, where)
        ppm = _nearest(amount.value * PPM) if amount.kind == "percent" else 0
        if not 1 <= ppm <= PPM:
            raise RecipeError(
                where, f"“{written}” should be a share by mass, above 0 % and up to 100 %, such as 68 %."
            )
        return ppm

    def _mass(self, text: str, where: str) -> int:
        return read_mass_mg(text, where, self.kept)

    def _density(self, ingredient: str) -> Fraction | None:
        density = self.ingredients[ingredient].get("density")
        return (
            read_density(density["g_per_ml"], f"ingredients.{ingredient}.density.g_per_ml")
            if density
            else None
        )

    # Components and their lines

    def _component(self, written: Json, where: str, takes: int) -> Json:
        count = self.written_for * takes + written.get("spares", 0)
        behind_mg = (
            self._mass(written["stays_behind"], f"{where}.stays_behind") if "stays_behind" in written else 0
        )
        loss_ppm = read_ppm(written["loss"], f"{where}.loss") if "loss" in written else 0
        piece_mg = self._mass(written["piece"], f"{where}.piece") if "piece" in written else None
        if piece_mg == 0:
            raise RecipeError(
                f"{where}.piece", "A piece below 1 mg cannot be weighed. Write 0.001 g or more."
            )
        written_mg = None
        if piece_mg is not None:
            written_mg = half_even((count * piece_mg + behind_mg) * PPM, PPM - loss_ppm)
        lines = self._lines(written, where, written_mg)
        total_ug = sum(line["ug"] or 0 for line in lines)
        if piece_mg is None and total_ug:
            piece_mg = half_even(total_ug * (PPM - loss_ppm) - behind_mg * 1000 * PPM, count * 1000 * PPM)
            if piece_mg <= 0:
                raise RecipeError(
                    where,
                    "More stays behind than the lines give. Lower “stays_behind”, or say what a piece weighs.",
                )
        component = {
            "id": written["id"],
            "name": written["name"],
            "takes": takes,
            "spares": written.get("spares", 0),
            "piece_mg": piece_mg or 0,
            "stays_behind_mg": behind_mg,
            "loss_ppm": loss_ppm,
            "vessel": written.get("vessel", "bowl"),
            "mould": written.get("mould"),
            "lines": lines,
        }
        component["steps"] = self._steps(written, where, component)
        return component

    def _assembly(self, components: list[Json]) -> Json:
        """The assembly, as a component whose one round joins the finished pieces: unless its first
        step says otherwise, once every step of every part is done."""
        written = self.document.get("assembly") or {"takes": [], "steps": []}
        lines = self._lines(written, ASSEMBLY, None)
        total_ug = sum(line["ug"] or 0 for line in lines)
        component = {
            "id": ASSEMBLY,
            "name": written.get("name", "Assembly"),
            "takes": 1,
            "spares": 0,
            "piece_mg": half_even(total_ug, self.written_for * 1000),
            "stays_behind_mg": 0,
            "loss_ppm": 0,
            "vessel": "bowl",
            "mould": None,
            "lines": lines,
        }
        ends = [end for part in components for end in _ends(part)]
        component["steps"] = self._steps(written, ASSEMBLY, component, ends)
        return component

    def _lines(self, written: Json, where: str, written_mg: int | None) -> list[Json]:
        """The component's lines; parts and per cent become µg of the component as written."""
        lines = written.get("lines", [])
        _unique(lines, f"{where}.lines", "line")
        part_ug = 1000 * self._mass(written["part"], f"{where}.part") if "part" in written else None
        amounts = [self._amount(line, f"{where}.lines.{index}", part_ug) for index, line in enumerate(lines)]

        percent = sum((amount.value for amount, _ in amounts if amount.kind == "percent"), Fraction(0))
        parts = sum(
            (amount.value for amount, ug in amounts if amount.kind == "parts" and ug is None), Fraction(0)
        )
        fixed_ug = sum((ug for _, ug in amounts if ug is not None), Fraction(0))
        at_lines = f"{where}.lines"
        if percent > 1 or (percent == 1 and (parts or fixed_ug)):
            raise RecipeError(
                at_lines,
                f"The per cents add up to {float(percent * 100):g} %. Together they must leave room for the rest.",
            )
        if parts and fixed_ug:
            raise RecipeError(
                at_lines, "Parts stand beside weights. Say what one part is: add “part”, such as 100 g."
            )
        if parts or (percent and not fixed_ug):
            if not parts and percent != 1:
                raise RecipeError(at_lines, f"The per cents add up to {float(percent * 100):g} %, not 100 %.")
            if written_mg is None:
                raise RecipeError(
                    at_lines,
                    "Parts and per cents alone have no mass. Say what a piece weighs, or what one part is.",
                )
            total_ug = Fraction(written_mg * 1000)
        else:
            total_ug = fixed_ug / (1 - percent)
        if total_ug > MOST_UG:
            raise RecipeError(at_lines, "Together these are more than ten tonnes. Check the units.")

        def ug_of(amount: Amount, ug: Fraction | None) -> int | None:
            if amount.kind == "percent":
                return _nearest(total_ug * amount.value)
            if amount.kind == "parts" and ug is None:
                return _nearest(total_ug * (1 - percent) * amount.value / parts)
            return None if ug is None else _nearest(ug)

        return [
            self._line(line, f"{where}.lines.{index}", amount, ug_of(amount, ug), part_ug)
            for index, (line, (amount, ug)) in enumerate(zip(lines, amounts, strict=True))
        ]

    def _amount(self, line: Json, where: str, part_ug: int | None) -> tuple[Amount, Fraction | None]:
        """A line's amount and, where it has one on its own, its mass in µg."""
        if line["ingredient"] not in self.ingredients:
            known = ", ".join(list(self.ingredients)[:12])
            raise RecipeError(
                f"{where}.ingredient", f"There is no ingredient “{line['ingredient']}”. It could be {known}."
            )
        amount = read_amount(line["amount"], self.measures, f"{where}.amount", self.kept)
        if amount.kind == "mass":
            return amount, amount.value
        if amount.kind == "parts" and part_ug is not None:
            return amount, amount.value * part_ug
        if amount.kind == "volume":
            density = self._density(line["ingredient"])
            return amount, None if density is None else amount.value * density
        return amount, None

    def _line(self, line: Json, where: str, amount: Amount, ug: int | None, part_ug: int | None) -> Json:
        tolerance = (
            read_ppm(line["tolerance"], f"{where}.tolerance")
            if "tolerance" in line
            else DEFAULT_TOLERANCE_PPM
        )
        if tolerance < 100:
            raise RecipeError(
                f"{where}.tolerance",
                "A tolerance below 0.01 % cannot be weighed at a bench. Write 0.01 % or more.",
            )
        return {
            "id": line["id"],
            "ingredient": line["ingredient"],
            "written": line["amount"],
            "by_volume": amount.kind == "volume",
            **self._measure(amount, ug, line["ingredient"]),
            "tolerance_ppm": tolerance,
            "optional": line.get("optional", False),
            "note": line.get("note", ""),
            "substitutes": [
                self._substitute(line, amount, ug, substitute, f"{where}.substitutes.{index}", part_ug)
                for index, substitute in enumerate(line.get("substitutes", []))
            ],
        }

    def _substitute(
        self, line: Json, amount: Amount, ug: int | None, substitute: Json, where: str, part_ug: int | None
    ) -> Json:
        """A stand-in: its own written amount, else equal in active share where both name one, else
        the line's amount, a volume through its own density. `by` says which: amount, active, volume,
        mass, count or texture."""
        by = {"counted": "count", "texture": "texture"}.get(amount.kind, "mass")
        if "amount" in substitute:
            by = "amount"
            amount, own_ug = self._amount(substitute, where, part_ug)
            if amount.kind in ("percent", "parts") and own_ug is None:
                raise RecipeError(
                    f"{where}.amount", "Write a substitute's amount as a mass, a volume or a count."
                )
            ug = None if own_ug is None else _nearest(own_ug)
        elif ug is not None and (actives := self._actives(line, substitute)):
            by = "active"
            ug = half_even(ug * actives[0], actives[1])
            amount = Amount("mass", Fraction(ug))
        elif amount.kind == "volume" or substitute["ingredient"] not in self.ingredients:
            by = "volume"
            amount, own_ug = self._amount({**substitute, "amount": line["amount"]}, where, part_ug)
            ug = None if own_ug is None else _nearest(own_ug)
        return {
            "ingredient": substitute["ingredient"],
            "by": by,
            "written": substitute.get("amount", line["amount"]),
            "by_volume": amount.kind == "volume",
            **self._measure(amount, ug, substitute["ingredient"]),
            "says": substitute.get("says", ""),
            "changes_method": substitute.get("changes_method", False),
        }

    def _actives(self, line: Json, substitute: Json) -> tuple[int, int] | None:
        """The active shares of a line's ingredient and of its stand-in, in ppm; None unless both name one."""
        if substitute["ingredient"] not in self.ingredients:
            return None
        has, wants = (self._active_ppm(each["ingredient"]) for each in (line, substitute))
        return (has, wants) if has and wants else None

    def _measure(self, amount: Amount, ug: int | None, ingredient: str) -> Json:
        """The whole numbers of an amount: exactly one of ug, nl, count or texture says how it is measured."""
        measure: Json = {"ug": ug, "nl": None, "count": None, "unit": "", "about_ug": None, "texture": False}
        if amount.kind == "texture":
            measure["texture"] = True
        elif amount.kind == "volume" and ug is None:
            measure["nl"] = _nearest(amount.value)
        elif amount.kind == "counted":
            # Kept in thousandths so that half a piece written is still half a piece when scaled.
            measure["count"] = _nearest(amount.value * 1000)
            measure["unit"] = amount.unit
            density = self._density(ingredient)
            if amount.unit == "drops" and density is not None:
                measure["about_ug"] = _nearest(amount.value * DROP_NL * density)
        return measure

    # Steps

    def _steps(
        self, written: Json, where: str, component: Json, first: list[str] | None = None
    ) -> list[Json]:
        """first: what its first step comes after when that does not say."""
        steps = written["steps"]
        _unique(steps, f"{where}.steps", "step")
        lines = {line["id"]: line for line in component["lines"]}
        portions: set[str] = set()
        for index, step in enumerate(steps):
            for portion in step["portions"] if step["kind"] == "split" else []:
                if portion["id"] in portions:
                    raise RecipeError(
                        f"{where}.steps.{index}.portions",
                        f"“{portion['id']}” is used twice. Give each portion its own id.",
                    )
                portions.add(portion["id"])
        measured = []
        for index, step in enumerate(steps):
            at = f"{where}.steps.{index}"
            before = [steps[index - 1]["id"]] if index else (first or [])
            measured.append(
                {
                    **self._common(step, at, component["id"], before),
                    **getattr(self, f"_{step['kind']}")(step, at, lines, portions),
                }
            )
        weighed: dict[str, str] = {}
        for index, step in enumerate(measured):
            for key in step.get("lines", []):
                if key in weighed:
                    raise RecipeError(
                        f"{where}.steps.{index}.lines",
                        f"“{key}” is weighed twice, here and in “{weighed[key]}”.",
                    )
                weighed[key] = step["id"]
        for index, line in enumerate(component["lines"]):
            if line["id"] not in weighed and not line["texture"]:
                raise RecipeError(
                    f"{where}.lines.{index}",
                    f"No step weighs “{line['id']}”. Name it in a weigh step's lines.",
                )
        return measured

    def _common(self, step: Json, at: str, component: str, before: list[str]) -> Json:
        window = step.get("window")
        needs = [_full(ref, component) for ref in step.get("after", before)]
        hazards = [HAZARDS[name]["says"] for name in step.get("hazards", [])]
        return {
            "id": step["id"],
            "kind": step["kind"],
            "title": step["title"],
            "says": step.get("says", ""),
            "reason": step.get("reason", ""),
            "after": needs,
            "optional": step.get("optional", False),
            "does": step.get("does", ""),
            "unmoulds": step.get("does") == "unmould",
            "alcohol": "alcohol" in step.get("hazards", [])
            or any("alcohol" in way.get("hazards", []) for way in step.get("ways", [])),
            "cautions": hazards + ([step["caution"]] if "caution" in step else []),
            "ways": [
                {
                    "id": way["id"],
                    "name": way["name"],
                    "says": way.get("says", ""),
                    "cautions": [HAZARDS[name]["says"] for name in way.get("hazards", [])],
                }
                for way in _unique(step.get("ways", []), f"{at}.ways", "way")
            ],
            "window": {
                "from": [_full(window["from"], component)] if "from" in window else needs,
                "latest_ms": read_duration_ms(window["latest"], f"{at}.window.latest"),
                "stake": window["stake"],
                **_rescue(window),
            }
            if window
            else None,
            "hands_ms": read_duration_ms(step["hands"], f"{at}.hands") if "hands" in step else None,
            "tools": step.get("tools", []),
        }

    def _weigh(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        _known(step["lines"], lines, f"{at}.lines", "line")
        return {"lines": step["lines"], "into": step.get("into", "bowl")}

    def _do(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        into = step.get("into", "bowl")
        if into in step.get("tips", []):
            raise RecipeError(
                f"{at}.tips", f"“{into}” cannot be tipped into itself. Say which vessel it goes into."
            )
        return {
            "about_ms": read_duration_ms(step["about"], f"{at}.about") if "about" in step else None,
            "of": _known(step.get("of", []), lines, f"{at}.of", "line"),
            "tips": step.get("tips", []),
            "into": into,
        }

    def _melt(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        _known(step["of"], lines, f"{at}.of", "line")
        burst = read_duration_ms(step["burst"], f"{at}.burst")
        return {
            "of": step["of"],
            "heater": step["heater"],
            "burst_ms": burst,
            "last_burst_ms": read_duration_ms(step["last_burst"], f"{at}.last_burst")
            if "last_burst" in step
            else burst,
            "rest_ms": read_duration_ms(step["rest"], f"{at}.rest") if "rest" in step else 0,
            "from_mk": read_celsius_mk(step["from_c"], f"{at}.from_c") if "from_c" in step else None,
            "to_mk": read_celsius_mk(step["to_c"], f"{at}.to_c") if "to_c" in step else None,
            "look_for": step["look_for"],
        }

    def _split(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        divided = step.get("from", "bowl")
        if any(portion["id"] == divided for portion in step["portions"]):
            raise RecipeError(
                f"{at}.portions", f"“{divided}” is what is divided. Give each portion an id of its own."
            )
        by_mass = ["mass" in portion for portion in step["portions"]]
        if any(by_mass) and not all(by_mass):
            raise RecipeError(f"{at}.portions", "Divide by shares or by masses, not both.")
        return {
            "from": divided,
            "portions": [
                {
                    "id": portion["id"],
                    "name": portion["name"],
                    "share": self._mass(portion["mass"], f"{at}.portions.{index}.mass")
                    if "mass" in portion
                    else portion.get("share", 1),
                }
                for index, portion in enumerate(step["portions"])
            ],
        }

    def _check(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        return {
            "ask": step["ask"],
            "yes": step.get("yes", "Yes, it does"),
            "not_yet": step["not_yet"]["do"],
            "too_far": step["too_far"]["do"] if "too_far" in step else None,
            **_left_alone(step.get("too_far", {}), f"{at}.too_far.wait"),
        }

    def _pieces(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        for key in step.get("of", []):
            if key not in portions:
                raise RecipeError(f"{at}.of", f"There is no portion “{key}”. A split step must make it.")
        return {
            "one_by_one": step.get("one_by_one", False),
            "again": step.get("again"),
            "of": step.get("of", []),
            "partial": step.get("partial", False),
            "verb": step.get("verb", "done"),
        }

    def _wait(self, step: Json, at: str, lines: Json, portions: set[str]) -> Json:
        earliest = read_duration_ms(step["earliest"], f"{at}.earliest")
        usual = read_duration_ms(step["usual"], f"{at}.usual")
        latest = read_duration_ms(step["latest"], f"{at}.latest") if "latest" in step else None
        if usual < earliest or (latest is not None and latest < usual):
            raise RecipeError(at, "A wait's times must not run backwards: earliest, then usual, then latest.")
        return {
            "word": step["word"],
            "earliest_ms": earliest,
            "usual_ms": usual,
            "latest_ms": latest,
            "test": step.get("test", ""),
            "stake": step.get("stake", ""),
            **_rescue(step),
        }


def _left_alone(too_far: Json, where: str) -> Json:
    """For how long what went too far is to be left before it is judged again, where the recipe says so."""
    return {"too_far_ms": read_duration_ms(too_far["wait"], where)} if "wait" in too_far else {}


def _rescue(written: Json) -> Json:
    """What the recipe itself says is to be done when a window or a wait was missed, where it does."""
    return {"rescue": written["rescue"]} if "rescue" in written else {}


def _unique(items: list[Json], where: str, what: str) -> list[Json]:
    seen: set[str] = set()
    for index, item in enumerate(items):
        if item["id"] in seen:
            raise RecipeError(
                f"{where}.{index}.id", f"“{item['id']}” is used twice. Give each {what} its own id."
            )
        seen.add(item["id"])
    return items


def _known(keys: list[str], known: Json, where: str, what: str) -> list[str]:
    """The keys, every one of which is known."""
    for index, key in enumerate(keys):
        if key not in known:
            raise RecipeError(
                f"{where}.{index}",
                f"There is no {what} “{key}”. It could be {', '.join(known) or 'none: the component has no lines'}.",
            )
    return keys


def _ends(component: Json) -> list[str]:
    """The steps of a component, "component.step", that none of its own comes after."""
    needed = {need for step in component["steps"] for need in step["after"]}
    keys = [f"{component['id']}.{step['id']}" for step in component["steps"]]
    return [key for key in keys if key not in needed]


def _full(reference: str, component: str) -> str:
    return reference if "." in reference else f"{component}.{reference}"


def _every_step(components: list[Json]) -> Iterator[tuple[str, Json, str]]:
    for place, component in enumerate(components):
        root = ASSEMBLY if component["id"] == ASSEMBLY else f"components.{place}"
        for index, step in enumerate(component["steps"]):
            yield f"{component['id']}.{step['id']}", step, f"{root}.steps.{index}"


def _check_needs(components: list[Json]) -> None:
    """Every step named exists, and the needs never run in a circle."""
    steps = {key: (step, where) for key, step, where in _every_step(components)}
    for key, (step, where) in steps.items():
        for field, references in (
            ("after", step["after"]),
            ("window.from", (step["window"] or {"from": []})["from"]),
        ):
            for reference in references:
                if reference not in steps:
                    raise RecipeError(
                        f"{where}.{field}",
                        f"There is no step “{reference}”. Write a step's id, or component.step.",
                    )
                if reference == key:
                    raise RecipeError(f"{where}.{field}", f"“{key}” cannot come after itself.")
    done: set[str] = set()
    for start in steps:
        trail: list[str] = []
        stack = [(start, iter(steps[start][0]["after"]))] if start not in done else []
        while stack:
            key, needs = stack[-1]
            if not trail or trail[-1] != key:
                trail.append(key)
            need = next((each for each in needs if each not in done), None)
            if need is None:
                done.add(key)
                stack.pop()
                trail.pop()
            elif need in trail:
                circle = [*trail[trail.index(need) :], need]
                raise RecipeError(
                    f"{steps[key][1]}.after",
                    f"These steps wait for each other in a circle: {' after '.join(circle)}. Take one of the needs away.",
                )
            else:
                stack.append((need, iter(steps[need][0]["after"])))
