"""The sheet: a recipe at one size for one kit. Every weight on a scale, every wait and burst.

A pure function of (measured recipe, size, kit): the same inputs give the same bytes here and in
`frontend/bench/sheet.js`, so a run can start with no network. A sheet is never edited.

Ids say where a thing belongs: "base.1.dry" is the step `dry` of round 1 of the component `base`.
"""

from functools import cache
from typing import Any

from bench.errors import BenchError, SizeError
from bench.heating import burst_plan, heat_uj, in_bursts
from bench.quantities import read_density
from bench.recipe import ASSEMBLY
from bench.sizing import MOST_PIECES, cavities, make_mg, pieces_from, room_mg, rounds, vessel_for
from bench.weighing import bowl_scale, cup_scale, tolerance_mg, uncertainty_ppm
from bench.whole import ceiling, grams, half_even, per_cent, share_out, to_division

Json = Any  # until its shape is named

SHEET_FORMAT = "bowlside-sheet/1"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def choose_size(recipe: Json, kit: Json, request: Json) -> Json:
    """Turn "how big?" into a size: {"size", "says", "runs_out"}.

    request: {"by": "pieces", "pieces"} | {"by": "mass", "mg"} | {"by": "moulds", "component",
    "moulds"} | {"by": "mix", "component", "mg"} (that much of its mix is left to use up) |
    {"by": "stock", "stock": {ingredient: mg}}, and optionally "without", "swaps" and "weigh".
    runs_out names the ingredient that stops a larger batch (by stock only).
    """
    chosen = {
        "without": sorted(request.get("without", [])),
        "swaps": request.get("swaps", {}),
        "weigh": request.get("weigh", "running"),
    }
    many = recipe["piece"]["many"]
    by = request["by"]
    if by == "pieces":
        return {"size": {"pieces": request["pieces"], **chosen}, "says": "", "runs_out": None}
    if by == "mass":
        each = _finished_mg(recipe)
        pieces = min(request["mg"] // each, MOST_PIECES) if each else 0
        if pieces < 1:
            raise SizeError("mg", f"One of these weighs {grams(each, 1000)}. Ask for at least that much.")
        most = ", the most in one batch" if pieces == MOST_PIECES else ""
        says = f"{pieces} {many} of {grams(each, 1000)} make {grams(pieces * each, 1000)}{most}"
        return {"size": {"pieces": pieces, **chosen}, "says": says, "runs_out": None}
    if by == "moulds":
        component = next((each for each in recipe["components"] if each["id"] == request["component"]), None)
        held = _mould_cavities(kit, component) if component else None
        if component is None or held is None:
            raise SizeError(
                "component", f"No mould in the kit fits “{request['component']}”. Add one, or size by pieces."
            )
        pieces = min((request["moulds"] * held - component["spares"]) // component["takes"], MOST_PIECES)
        if pieces < 1:
            raise SizeError("moulds", "That many moulds do not give one whole piece. Fill more of them.")
        says = f"{request['moulds']} × {held} cavities give {pieces} {many}"
        return {"size": {"pieces": pieces, **chosen}, "says": says, "runs_out": None}
    if by == "mix":
        return _size_by_mix(recipe, request["component"], request["mg"], chosen)
    return _size_by_stock(recipe, kit, request["stock"], chosen)


def _mould_cavities(kit: Json, component: Json) -> int | None:
    """Cavities in one set of the moulds that fit, whether or not they are held through a wait."""
    held = (
        cavities(kit, {**component, "mould": {**component["mould"], "held": True}})
        if component["mould"]
        else None
    )
    return held


def _size_by_mix(recipe: Json, component_id: str, mg: int, chosen: Json) -> Json:
    """How many whole pieces a mix that is left gives, spares and what stays behind taken off first."""
    weighed = [each for each in recipe["components"] if each["id"] != ASSEMBLY and each["piece_mg"]]
    component = next((each for each in weighed if each["id"] == component_id), None)
    if component is None:
        could = ", ".join(each["id"] for each in weighed)
        raise SizeError(
            "component",
            f"“{component_id}” is not a part that is weighed. "
            + (f"It could be {could}." if could else "Size by pieces."),
        )
    pieces = min((pieces_from(component, mg) - component["spares"]) // component["takes"], MOST_PIECES)
    if pieces < 1:
        least = make_mg(component, component["takes"] + component["spares"])
        raise SizeError(
            "mg",
            f"One piece takes {grams(ceiling(least, 1000) * 1000, 1000)} of {component['name']}. Ask with at least that much.",
        )
    says = f"{grams(mg, 1000)} of {component['name']} gives {pieces} {recipe['piece']['many' if pieces > 1 else 'one']}"
    return {"size": {"pieces": pieces, **chosen}, "says": says, "runs_out": None}


def _size_by_stock(recipe: Json, kit: Json, stock: Json, chosen: Json) -> Json:
    """The largest batch the stock allows, by halving: every need grows with the pieces."""
    for key in stock:
        if key not in recipe["ingredients"]:
            raise SizeError(f"stock.{key}", f"The recipe has no ingredient “{key}”.")
        if not _is_weighed(recipe, key):
            name = recipe["ingredients"][key]["name"]
            raise SizeError(f"stock.{key}", f"{name} is not weighed in this recipe, so it sets no size.")

    def short(pieces: int) -> str | None:
        """What is short for this many: None when nothing is, "" when the kit cannot make so many."""
        try:
            sheet = make_sheet(recipe, {"id": "", "version": 0}, {"pieces": pieces, **chosen}, kit)
        except BenchError:
            if pieces == 1:
                raise
            return ""
        needs = {each["id"]: each["mg"] for each in sheet["ingredients"]}
        lacking = [key for key in stock if needs.get(key, 0) > stock[key]]
        # The one that runs out first is the one furthest from enough.
        return min(lacking, key=lambda key: (stock[key] * 10**9 // needs[key], key)) if lacking else None

    first = short(1)
    if first:
        raise SizeError(
            f"stock.{first}", f"There is not enough {recipe['ingredients'][first]['name']} for one piece."
        )
    low, high = 1, MOST_PIECES
    if short(high) is None:
        says = f"{high} {recipe['piece']['many']}, the most in one batch"
        return {"size": {"pieces": high, **chosen}, "says": says, "runs_out": None}
    while high - low > 1:
        middle = (low + high) // 2
        if short(middle) is None:
            low = middle
        else:
            high = middle
    out = short(low + 1)
    stops = f"{recipe['ingredients'][out]['name']} runs out first" if out else "the kit takes no more"
    return {
        "size": {"pieces": low, **chosen},
        "says": f"{low} {recipe['piece']['many' if low > 1 else 'one']}; {stops}",
        "runs_out": out or None,
    }


def _is_weighed(recipe: Json, ingredient: str) -> bool:
    """Whether any line, or a stand-in for one, takes this ingredient by weight."""
    lines = [line for component in recipe["components"] for line in component["lines"]]
    measures = [*lines, *(substitute for line in lines for substitute in line["substitutes"])]
    return any(each["ingredient"] == ingredient and each["ug"] for each in measures)


def _finished_mg(recipe: Json) -> int:
    return sum(each["takes"] * each["piece_mg"] for each in recipe["components"])


def make_sheet(recipe: Json, ref: Json, size: Json, kit: Json) -> Json:
    """The sheet of a measured recipe at a size for a measured kit.

    ref: {"id", "version"} of the recipe. size: {"pieces", "without", "swaps", "weigh"}.
    SizeError or KitError names the field at fault and the way out.
    """
    pieces = size["pieces"]
    if not 1 <= pieces <= MOST_PIECES:
        raise SizeError(
            "pieces",
            f"A batch has from 1 to {MOST_PIECES} pieces; {pieces} is not. Make a smaller batch, or several.",
        )
    return _Sheet(recipe, ref, size, kit).made()


class _Sheet:
    def __init__(self, recipe: Json, ref: Json, size: Json, kit: Json) -> None:
        self.recipe = recipe
        self.ref = ref
        self.size = size
        self.kit = kit
        self.components = [
            component for component in recipe["components"] if component["steps"] or component["lines"]
        ]
        self.lines: list[Json] = []
        self.vessels: list[Json] = []
        self.steps: list[Json] = []
        self.warnings: list[Json] = []
        self.in_use: dict[str, tuple[str, str]] = {}  # kit vessel -> the component and label it serves
        self._check_choices()

    def made(self) -> Json:
        chosen = {component["id"]: self._chosen_lines(component) for component in self.components}
        counts = self._rounds()
        about = []
        for place, component in enumerate(self.components):
            per_round, why = counts[component["id"]]
            masses = [self._mass(component, count, chosen[component["id"]]) for count in per_round]
            about.append(
                {
                    "id": component["id"],
                    "letter": LETTERS[place],
                    "name": component["name"],
                    "count": sum(per_round),
                    "spares": component["spares"],
                    "piece_mg": component["piece_mg"],
                    "stays_behind_mg": component["stays_behind_mg"],
                    "loss_ppm": component["loss_ppm"],
                    "make_mg": sum(masses),
                    "rounds": [
                        {"round": number, "count": count, "make_mg": mass}
                        for number, (count, mass) in enumerate(zip(per_round, masses, strict=True), 1)
                    ],
                    "why": why,
                }
            )
            for number, (count, mass) in enumerate(zip(per_round, masses, strict=True), 1):
                self._round(component, number, count, mass, chosen[component["id"]])
        self._link(counts)
        return {
            "format": SHEET_FORMAT,
            "recipe": {"id": self.ref["id"], "version": self.ref["version"], "title": self.recipe["title"]},
            "size": {
                "pieces": self.size["pieces"],
                "without": sorted(self.size["without"]),
                "swaps": self.size["swaps"],
                "weigh": self.size["weigh"],
            },
            "piece": self.recipe["piece"],
            "kit": self.kit,
            "components": about,
            "ingredients": self._totals(),
            "lines": self.lines,
            "vessels": self.vessels,
            "steps": self.steps,
            "warnings": self.warnings,
        }

    # What the maker chose

    def _check_choices(self) -> None:
        lines = {
            f"{component['id']}.{line['id']}": line
            for component in self.components
            for line in component["lines"]
        }
        for key in self.size["without"]:
            if key not in lines or not lines[key]["optional"]:
                raise SizeError(
                    "without", f"“{key}” is not an optional line of this recipe, so it cannot be left out."
                )
        for key, ingredient in self.size["swaps"].items():
            stand_ins = [each["ingredient"] for each in lines[key]["substitutes"]] if key in lines else []
            if ingredient not in stand_ins:
                could = f"It could be {', '.join(stand_ins)}." if stand_ins else "It has no substitutes."
                raise SizeError(f"swaps.{key}", f"“{ingredient}” does not stand in for “{key}”. {could}")

    def _chosen_lines(self, component: Json) -> list[Json]:
        """The component's lines less those left out, stand-ins in their places."""
        chosen = []
        for line in component["lines"]:
            key = f"{component['id']}.{line['id']}"
            if key in self.size["without"]:
                continue
            swap = self.size["swaps"].get(key)
            if swap:
                substitute = next(each for each in line["substitutes"] if each["ingredient"] == swap)
                meant = self.recipe["ingredients"][line["ingredient"]]["name"]
                said = (f"Instead of: {meant}.", line["note"], substitute["says"])
                line = {
                    **line,
                    **{name: substitute[name] for name in _MEASURES},
                    "note": " ".join(each for each in said if each),
                    "instead_of": meant,
                }
            chosen.append(line)
        return chosen

    # Rounds

    def _rounds(self) -> dict[str, tuple[list[int], list[str]]]:
        """Pieces per round and the reasons, for every component; the assembly follows its windows."""
        counts: dict[str, tuple[list[int], list[str]]] = {}
        for component in self.components:
            if component["id"] == ASSEMBLY:
                leader = self._leader(component)
                per_round = [self.size["pieces"]]
                why: list[str] = []
                if leader and len(counts[leader[0]][0]) > 1:
                    per_round = share_out(self.size["pieces"], counts[leader[0]][0])
                    name = next(each["name"] for each in self.components if each["id"] == leader[0])
                    why = [f"{name} is made in {len(per_round)} rounds and must be used at once"]
                counts[ASSEMBLY] = (per_round, why)
                continue
            if component["mould"] and not any(
                mould["shape"] == component["mould"]["shape"] for mould in self.kit["moulds"]
            ):
                self._warn(
                    component["id"],
                    f"The kit has no {component['mould']['shape']} mould; sized as if there were enough.",
                )
            count = self.size["pieces"] * component["takes"] + component["spares"]
            counts[component["id"]] = rounds(component, self.kit, count)
        return counts

    def _leader(self, assembly: Json) -> tuple[str, str] | None:
        """The component whose window the assembly must keep, so whose rounds it follows, and the
        assembly's step that closes that window."""
        for step in assembly["steps"]:
            for reference in (step["window"] or {"from": []})["from"]:
                source = reference.split(".")[0]
                if source != ASSEMBLY:
                    return source, step["id"]
        return None

    def _mass(self, component: Json, count: int, chosen: list[Json]) -> int:
        """The mass of one round, in mg. The assembly's lines are written for so many pieces."""
        if component["id"] == ASSEMBLY:
            return half_even(
                sum(line["ug"] or 0 for line in chosen) * count, 1000 * self.recipe["written_for"]
            )
        return make_mg(component, count)

    # One round of one component

    def _round(self, component: Json, number: int, count: int, mass: int, chosen: list[Json]) -> None:
        weights = [line["ug"] or 0 for line in chosen]
        masses = dict(zip((line["id"] for line in chosen), share_out(mass, weights), strict=True))
        # Volumes, drops and counts grow with the mass of the component, or with the pieces where
        # it has no weighed line at all.
        factor = (mass * 1000, sum(weights)) if sum(weights) else (count, self._written_count(component))
        weighed_in = {
            key: step for step in component["steps"] if step["kind"] == "weigh" for key in step["lines"]
        }
        places = self._places(component, number, chosen, masses, weighed_in)
        for line in chosen:
            self._line(
                component, number, line, masses[line["id"]], factor, weighed_in.get(line["id"]), places
            )
        ingredients = {line["id"]: line["ingredient"] for line in chosen}
        for step in component["steps"]:
            self._step(component, number, count, step, ingredients, masses)

    def _places(
        self,
        component: Json,
        number: int,
        chosen: list[Json],
        masses: dict[str, int],
        weighed_in: dict[str, Json],
    ) -> dict[str, Json]:
        """The vessels of a round by label, each with the scale it stands on while lines go in."""
        prefix = f"{component['id']}.{number}"
        portions = _portions(component)
        going_in: dict[str, list[tuple[int, int]]] = {label: [] for label in self._labels(component)}
        for line in chosen:
            if line["id"] in weighed_in and masses[line["id"]]:
                label = weighed_in[line["id"]]["into"]
                going_in[label].append((masses[line["id"]], line["tolerance_ppm"]))
        # All of a component ends up in its bowl, and is divided from there; the assembly's lines go
        # onto the pieces.
        whole_mg = sum(mg for lines in going_in.values() for mg, _ in lines)
        places = {}
        vessels: dict[str, Json | None] = {}
        for label, lines in going_in.items():
            load = sum(mg for mg, _ in lines)
            if label == "bowl" and component["id"] != ASSEMBLY:
                load = whole_mg
            elif label in portions:
                load = ceiling(whole_mg * portions[label]["share"], portions[label]["of"])
            mixed = label == "bowl" or label in portions
            if label in portions and portions[label]["stays_in"] in vessels:
                vessel = vessels[portions[label]["stays_in"]]
            else:
                vessel = self._vessel(component, label, component["vessel"] if mixed else label, load)
            vessels[label] = vessel
            empty = vessel["empty_mg"] if vessel else 0
            scale = None
            if lines or (label in portions and self.kit["scales"]):
                scale = bowl_scale(self.kit, empty + load, lines)
                if scale is None:
                    self._warn(
                        f"{prefix}.{label}",
                        f"No scale carries {grams(empty + load, 1000)}: weigh this in parts.",
                    )
            if vessel and load > vessel["holds_mg"]:
                self._warn(
                    f"{prefix}.{label}",
                    f"{vessel['name']} holds {grams(vessel['holds_mg'], 1000)}; {grams(load, 1000)} goes in.",
                )
            places[label] = {
                "id": f"{prefix}.{label}",
                "component": component["id"],
                "round": number,
                "label": label,
                "name": portions[label]["name"]
                if label in portions
                else (vessel["name"] if vessel else label.replace("_", " ").capitalize()),
                "scale": scale["id"] if scale else None,
                "empty_mg": empty,
                "holds_mg": vessel["holds_mg"] if vessel else None,
                "kit": vessel["id"] if vessel else None,
            }
        self.vessels += places.values()
        return places

    def _vessel(self, component: Json, label: str, kind: str, load: int) -> Json | None:
        """The smallest vessel that takes the load and is not in use for another part of the batch.

        Parts are made side by side, so two of them in one bowl is a clash, and is said. Small cups
        are wiped and used again, and the rounds of one part follow each other.
        """
        free = [
            vessel
            for vessel in self.kit["vessels"]
            if kind == "cup"
            or self.in_use.get(vessel["id"], (component["id"], label)) == (component["id"], label)
        ]
        vessel = vessel_for({**self.kit, "vessels": free}, kind, load)
        room = room_mg(self.kit, vessel)
        if vessel is None or (room is not None and room < load):
            shared = vessel_for(self.kit, kind, load)
            if shared and (vessel is None or (room_mg(self.kit, shared) or 0) >= load):
                vessel = shared
        if vessel is None or kind == "cup":
            return vessel
        other, its_label = self.in_use.setdefault(vessel["id"], (component["id"], label))
        if other != component["id"]:
            name = next(each["name"] for each in self.components if each["id"] == other)
            self._warn(
                f"{component['id']}.{label}",
                f"{vessel['name']} is needed for {component['name']} and for {name}: empty it in between.",
            )
        elif its_label != label:
            self._warn(
                f"{component['id']}.{label}",
                f"{vessel['name']} is needed twice for {component['name']}: have another {kind} ready.",
            )
        return vessel

    def _written_count(self, component: Json) -> int:
        written: int = self.recipe["written_for"] * component["takes"] + component["spares"]
        return written

    def _labels(self, component: Json) -> list[str]:
        """The vessels a component's steps name, in the order of their first use."""
        labels: list[str] = []
        for step in component["steps"]:
            named = []
            if step["kind"] == "weigh":
                named = [step["into"]]
            elif step["kind"] == "do" and step["tips"]:
                named = [*step["tips"], step["into"]]
            elif step["kind"] == "split":
                named = [step["from"], *(portion["id"] for portion in step["portions"])]
            labels += [label for label in named if label not in labels]
        return labels

    def _line(
        self,
        component: Json,
        number: int,
        line: Json,
        mg: int,
        factor: tuple[int, int],
        step: Json | None,
        places: dict[str, Json],
    ) -> None:
        prefix = f"{component['id']}.{number}"
        vessel = places[step["into"]] if step else None
        top, bottom = factor
        where = f"{prefix}.{line['id']}"
        written = f"{component['id']}.{line['id']}"  # said once, however many rounds there are
        scale = self._scale(vessel["scale"]) if vessel and vessel["scale"] else None
        cup = False
        weighed = bool(line["ug"])
        if weighed and vessel:
            scale, cup = self._scale_for(line, mg, scale, where)
        nl = half_even(line["nl"] * top, bottom) if line["nl"] is not None else None
        count = half_even(line["count"] * top, bottom * 1000) if line["count"] is not None else None
        if count == 0:
            name = self.recipe["ingredients"][line["ingredient"]]["name"]
            self._warn(written, f"{name} comes to less than one a round; one is used.")
            count = 1
        spoons = spoons_of(self.recipe["spoons"], nl) if nl is not None else ""
        if nl is not None and 2 * nl < self.recipe["spoons"][-1]["nl"]:
            name = self.recipe["ingredients"][line["ingredient"]]["name"]
            self._warn(written, f"{name} comes to less than the smallest spoon.")
        if line["unit"] == "drops":
            self._warn(written, "Drops differ from dropper to dropper. Weigh them when the amount matters.")
        self.lines.append(
            {
                "id": where,
                "component": component["id"],
                "round": number,
                "line": line["id"],
                "ingredient": line["ingredient"],
                "name": self.recipe["ingredients"][line["ingredient"]]["name"],
                "vessel": vessel["id"] if vessel else None,
                "step": f"{prefix}.{step['id']}" if step else None,
                "mg": mg if weighed else None,
                "nl": nl,
                "count": count,
                "unit": line["unit"],
                "about_mg": half_even(line["about_ug"] * top, bottom * 1000)
                if line["about_ug"] is not None
                else None,
                "tolerance_mg": tolerance_mg(mg, line["tolerance_ppm"], scale["division_mg"])
                if weighed and scale
                else 0,
                "scale": scale["id"] if weighed and scale else None,
                "division_mg": scale["division_mg"] if weighed and scale else None,
                "cup": cup,
                "spoons": spoons,
                "by_spoon": self._by_spoon(line["ingredient"], mg, scale) if weighed and scale else "",
                "optional": line["optional"],
                "note": line["note"],
                "instead_of": line.get("instead_of", ""),
            }
        )

    def _by_spoon(self, ingredient: str, mg: int, scale: Json) -> str:
        """What is too little for its scale to show, in spoons, where its density is known; else ""."""
        density = self.recipe["ingredients"][ingredient].get("density")
        if not mg or to_division(mg, scale["division_mg"]) or not density:
            return ""
        per_nl = read_density(density["g_per_ml"], "density")  # g/mL is µg/nL
        nl = half_even(mg * 1000 * per_nl.denominator, per_nl.numerator)
        return spoons_of(self.recipe["spoons"], nl) if nl else ""

    def _scale_for(self, line: Json, mg: int, scale: Json | None, where: str) -> tuple[Json | None, bool]:
        """The scale this line is weighed on, and whether in a small cup first."""
        if scale and (mg == 0 or uncertainty_ppm(mg, scale["division_mg"]) <= line["tolerance_ppm"]):
            return scale, False
        cup = vessel_for(self.kit, "cup", mg)
        found = cup_scale(self.kit, cup["empty_mg"] if cup else 0, mg, line["tolerance_ppm"]) if mg else None
        if found is None:
            return scale, False
        finer, meets = found
        if not meets:
            share = uncertainty_ppm(mg, finer["division_mg"])
            name = self.recipe["ingredients"][line["ingredient"]]["name"]
            self._warn(
                where,
                f"{grams(mg, 10)} of {name} is too little for any scale here: {finer['name']} may be off by "
                f"{per_cent(share, 1_000_000)}. Make more, or use a finer scale.",
            )
        if scale and finer["id"] == scale["id"]:
            return scale, False
        return finer, True

    def _scale(self, key: str) -> Json:
        found: Json = next(scale for scale in self.kit["scales"] if scale["id"] == key)
        return found

    # Steps

    def _step(
        self,
        component: Json,
        number: int,
        count: int,
        step: Json,
        ingredients: dict[str, str],
        masses: dict[str, int],
    ) -> None:
        prefix = f"{component['id']}.{number}"
        made: Json = {
            "id": f"{prefix}.{step['id']}",
            "component": component["id"],
            "round": number,
            "step": step["id"],
            "kind": step["kind"],
            "title": step["title"],
            "says": step["says"],
            "reason": step["reason"],
            "after": [],
            "optional": step["optional"],
            "cautions": list(step["cautions"]),
            "ways": step["ways"],
            "window": None,
            "keeps": [],
            "hands_ms": step["hands_ms"],
            "tools": step["tools"],
        }
        match step["kind"]:
            case "weigh":
                keys = [key for key in step["lines"] if key in ingredients]
                made["lines"] = [f"{prefix}.{key}" for key in keys]
                made["vessel"] = f"{prefix}.{step['into']}"
                for key in keys:
                    for caution in self.recipe["ingredients"][ingredients[key]]["cautions"]:
                        if caution not in made["cautions"]:
                            made["cautions"].append(caution)
            case "do":
                made["about_ms"] = step["about_ms"]
                made["mg"] = sum(masses[key] for key in step["of"] if key in ingredients) or None
                made["tips"] = [f"{prefix}.{label}" for label in step["tips"]]
                made["into"] = f"{prefix}.{step['into']}"
            case "melt":
                made.update(self._melt(step, ingredients, masses))
            case "split":
                made["vessel"] = f"{prefix}.{step['from']}"
                made["portions"] = [
                    {
                        "vessel": f"{prefix}.{portion['id']}",
                        "name": portion["name"],
                        "share": portion["share"],
                    }
                    for portion in step["portions"]
                ]
            case "check":
                told = ("ask", "yes", "not_yet", "too_far", "too_far_ms")
                made.update({key: step[key] for key in told if key in step})
            case "pieces":
                made.update({key: step[key] for key in ("one_by_one", "again", "partial", "verb")})
                made["count"] = count
                made["of"] = [f"{prefix}.{portion}" for portion in step["of"]]
                made["piece_mg"] = component["piece_mg"]
            case "wait":
                made.update(
                    {
                        key: step[key]
                        for key in ("word", "earliest_ms", "usual_ms", "latest_ms", "test", "stake")
                    }
                )
                made.update(_guarded(step))
        self.steps.append(made)

    def _melt(self, step: Json, ingredients: dict[str, str], masses: dict[str, int]) -> Json:
        """The planned bursts, [] when the recipe does not give what an estimate needs."""
        keys = [key for key in step["of"] if key in ingredients]
        mg = sum(masses[key] for key in keys)
        heater = next((each for each in self.kit["heaters"] if each["kind"] == step["heater"]), None)
        heats = [(masses[key], self.recipe["ingredients"][ingredients[key]]["heat"]) for key in keys]
        known = step["from_mk"] is not None and step["to_mk"] is not None and heater and heater["absorbed_w"]
        bursts: list[Json] = []
        rest_ms = step["rest_ms"] if in_bursts(step["heater"]) else 0
        if known and heater and mg and all(heat for _, heat in heats):
            total = sum(heat_uj(part, heat, step["from_mk"], step["to_mk"]) for part, heat in heats)
            bursts = burst_plan(total, heater["absorbed_w"], step["burst_ms"], step["last_burst_ms"], rest_ms)
        more = (
            {"ms": step["last_burst_ms"], "rest_ms": rest_ms}
            if bursts
            else {"ms": step["burst_ms"], "rest_ms": 0}
        )
        return {
            "mg": mg,
            "heater": heater["name"] if heater else step["heater"],
            "bursts": bursts,
            "more": more,
            "to_mk": step["to_mk"],
            "look_for": step["look_for"],
        }

    # Needs between steps, once every round is laid out

    def _link(self, counts: dict[str, tuple[list[int], list[str]]]) -> None:
        """Fill in `after`, `window`, `keeps`, `tail_ms` and `hold_for`, now that every round has its steps."""
        number_of = {component_id: len(per_round) for component_id, (per_round, _) in counts.items()}
        assembly = next((component for component in self.components if component["id"] == ASSEMBLY), None)
        leader = self._leader(assembly) if assembly else None
        paired = {ASSEMBLY, leader[0]} if leader else set()
        written = {
            f"{component['id']}.{step['id']}": step
            for component in self.components
            for step in component["steps"]
        }

        def instances(reference: str, component: str, number: int) -> list[str]:
            source, step = reference.split(".")
            if source == component or {source, component} <= paired:
                return [f"{source}.{number}.{step}"]
            return [f"{source}.{each}.{step}" for each in range(1, number_of[source] + 1)]

        by_id = {step["id"]: step for step in self.steps}
        for step in self.steps:
            source = written[f"{step['component']}.{step['step']}"]
            for reference in source["after"]:
                step["after"] += instances(reference, step["component"], step["round"])

            def opened(window: Json, step: Json = step) -> Json:
                begins = [
                    each
                    for reference in window["from"]
                    for each in instances(reference, step["component"], step["round"])
                ]
                return {
                    "from": begins,
                    "latest_ms": window["latest_ms"],
                    "stake": window["stake"],
                    **_guarded(window),
                }

            if source["window"]:
                step["window"] = opened(source["window"])
            step["keeps"] = [opened(window) for window in source.get("keeps", [])]
        for component in self.components:
            for number in range(2, number_of[component["id"]] + 1):
                frees = self._frees(component, number - 1, leader)
                for step in component["steps"]:
                    first = by_id[f"{component['id']}.{number}.{step['id']}"]
                    inside = any(need.startswith(f"{component['id']}.{number}.") for need in first["after"])
                    if not inside and frees not in first["after"]:
                        first["after"].append(frees)
        _add_follows(self.steps, {component["id"]: component["takes"] for component in self.components})
        _drop_empty(self.steps)
        _add_tails(self.steps)
        _add_holds(self.steps)

    def _frees(self, component: Json, number: int, leader: tuple[str, str] | None) -> str:
        """The step of a round that gives back what the next round needs: mould, bowl or hands."""
        if leader and component["id"] == leader[0]:
            return f"{ASSEMBLY}.{number}.{leader[1]}"
        steps = component["steps"]
        if component["mould"] and component["mould"]["held"]:
            freeing = next((step for step in steps if step["unmoulds"]), steps[-1])
        else:  # a bowl comes free at the first piece-by-piece step: the pressing, pouring or piping
            freeing = next((step for step in steps if step["kind"] == "pieces"), steps[-1])
        return f"{component['id']}.{number}.{freeing['id']}"

    def _totals(self) -> list[Json]:
        totals: dict[str, Json] = {}
        for line in self.lines:
            total = totals.setdefault(
                line["ingredient"],
                {"id": line["ingredient"], "name": line["name"], "mg": 0, "nl": 0, "count": 0}
                | self._limit(line["ingredient"]),
            )
            total["mg"] += line["mg"] or line["about_mg"] or 0
            total["nl"] += line["nl"] or 0
            total["count"] += line["count"] or 0
        return list(totals.values())

    def _limit(self, ingredient: str) -> Json:
        """The most of the finished piece that an ingredient's own papers allow, in ppm; nothing where they do not say."""
        about = self.recipe["ingredients"][ingredient].get("fragrance") or {}
        return {} if about.get("limit_ppm") is None else {"limit_ppm": about["limit_ppm"]}

    def _warn(self, where: str, text: str) -> None:
        warning = {"where": where, "text": text}
        if warning not in self.warnings:
            self.warnings.append(warning)


_SPOON_GRAIN = 8  # nL: what the drawer's own rounding comes to over several spoons


def spoons_of(drawer: list[Json], nl: int) -> str:
    """A volume in spoons a drawer really holds: 2¾ tsp is "2 tsp + ½ tsp + ¼ tsp".

    To the nearest smallest spoon, and what that is off by from 1 % is said: "⅛ tsp (4 % less)". Less than
    half the smallest is a share of it.
    """
    smallest = drawer[-1]
    if 2 * nl < smallest["nl"]:
        return f"{max(1, half_even(100 * nl, smallest['nl']))} % of {smallest['name']}"
    left = nl + smallest["nl"] // 2
    said, told = [], 0
    for spoon in drawer:
        count = (left + _SPOON_GRAIN) // spoon["nl"]
        left = max(0, left - count * spoon["nl"])
        told += count * spoon["nl"]
        if count and spoon["name"][0] in "½¼⅛":
            said.append(spoon["name"] if count == 1 else f"{count} × {spoon['name']}")
        elif count:
            said.append(f"{count} {'cups' if spoon['name'] == 'cup' and count > 1 else spoon['name']}")
    off = half_even(100 * abs(told - nl), nl)
    return " + ".join(said) + (f" ({off} % {'more' if told > nl else 'less'})" if off else "")


_GUARD: Json = {"state": "", "class": "quality", "price_ms": 0, "lost_ms": None}
_MEASURES = ("ingredient", "ug", "nl", "count", "unit", "about_ug", "texture")


def _portions(component: Json) -> dict[str, Json]:
    """What a component is divided into: {label: {"name", "share", "of", "stays_in"}}, a share of the whole.

    The last portion of a split stays in the bowl it was divided from, so it counts as the whole.
    """
    portions: dict[str, Json] = {}
    for step in component["steps"]:
        if step["kind"] == "split":
            of = sum(portion["share"] for portion in step["portions"])
            for portion in step["portions"]:
                last = portion is step["portions"][-1]
                portions[portion["id"]] = {
                    "name": portion["name"],
                    "share": of if last else portion["share"],
                    "of": of,
                    "stays_in": step["from"] if last else None,
                }
    return portions


def _guarded(window: Json) -> Json:
    """What a window is over, and what it costs to miss it; a recipe measured long ago does not say."""
    own = {"rescue": window["rescue"]} if "rescue" in window else {}
    return {key: window.get(key, other) for key, other in _GUARD.items()} | own


def _windows(step: Json) -> list[Json]:
    """The recipe's own window of a step, and those by nature."""
    return [*([step["window"]] if step["window"] else []), *step["keeps"]]


def _drop_empty(steps: list[Json]) -> None:
    """Take out weighings with nothing left to weigh; what came after one comes after its needs."""
    for empty in [step for step in steps if step["kind"] == "weigh" and not step["lines"]]:
        steps.remove(empty)
        for step in steps:
            for needs in (step["after"], *(window["from"] for window in _windows(step))):
                if empty["id"] in needs:
                    place = needs.index(empty["id"])
                    needs[place : place + 1] = [need for need in empty["after"] if need not in needs]


def _add_follows(steps: list[Json], takes: dict[str, int]) -> None:
    """follows: for each count of pieces, the counts that its pieces come from.

    [{"steps": [ids], "takes": n}]: one for each such count with all its rounds, and how many of its
    pieces one of these takes.
    """
    by_id = {step["id"]: step for step in steps}
    for step in steps:
        if step["kind"] != "pieces":
            continue
        sources: dict[tuple[str, str], list[str]] = {}
        seen: set[str] = set()
        stack = list(step["after"])
        while stack:
            key = stack.pop()
            if key in seen:
                continue
            seen.add(key)
            before = by_id[key]
            inside = before["component"] == step["component"]
            if before["kind"] == "pieces" and (inside or step["component"] == ASSEMBLY):
                sources.setdefault((before["component"], before["step"]), []).append(key)
            else:
                stack += before["after"]
        step["follows"] = [
            {"steps": sorted(keys), "takes": 1 if component == step["component"] else takes[component]}
            for (component, _), keys in sorted(sources.items())
        ]


def _add_tails(steps: list[Json]) -> None:
    """tail_ms: the longest run of usual waits from the start of a step to the end of the batch."""
    followers: dict[str, list[Json]] = {step["id"]: [] for step in steps}
    for step in steps:
        for need in step["after"]:
            followers[need].append(step)
    tails: dict[str, int] = {}
    opened: set[str] = set()
    for start in steps:
        stack = [start]
        while stack:
            step = stack[-1]
            open_followers = [each for each in followers[step["id"]] if each["id"] not in tails]
            if open_followers:
                if step["id"] in opened:  # met again before what follows it was settled
                    raise SizeError(
                        "pieces",
                        f"This many takes several rounds, and “{step['title']}” would wait for a later round of "
                        "itself. Make fewer pieces, or use larger moulds and vessels.",
                    )
                opened.add(step["id"])
                stack.extend(open_followers)
                continue
            stack.pop()
            own = step["usual_ms"] if step["kind"] == "wait" else 0
            tails[step["id"]] = own + max((tails[each["id"]] for each in followers[step["id"]]), default=0)
    for step in steps:
        step["tail_ms"] = tails[step["id"]]


def _add_holds(steps: list[Json]) -> None:
    """hold_for: what else must be ready before a step is worth beginning, because a window follows.

    For a window opened by F and closed by C, what C needs of other parts should be done before F,
    and before the hands-on steps of F's own round that lead straight to it.
    """
    by_id = {step["id"]: step for step in steps}

    @cache  # many closings ask about the same steps
    def before(key: str) -> set[str]:
        return _all_before(by_id, key)

    for step in steps:
        step["hold_for"] = []
    for closing in steps:
        for opener in dict.fromkeys(each for window in _windows(closing) for each in window["from"]):
            chain = _hands_before(by_id, opener)
            upstream = before(opener)
            others = [
                need
                for need in closing["after"]
                if _round_of(by_id[need]) != _round_of(by_id[opener])
                and need not in upstream
                and opener not in before(need)
            ]
            for key in chain:
                held = by_id[key]
                held["hold_for"] += [need for need in others if need not in held["hold_for"]]


def _round_of(step: Json) -> tuple[str, int]:
    return step["component"], step["round"]


def _all_before(by_id: dict[str, Json], key: str) -> set[str]:
    seen: set[str] = set()
    stack = list(by_id[key]["after"])
    while stack:
        need = stack.pop()
        if need not in seen:
            seen.add(need)
            stack += by_id[need]["after"]
    return seen


def _hands_before(by_id: dict[str, Json], opener: str) -> list[str]:
    """The opener and the steps of its round that lead to it with no wait between."""
    chain: list[str] = []
    stack = [opener]
    while stack:
        key = stack.pop()
        step = by_id[key]
        if key in chain or step["kind"] == "wait":
            continue
        if _round_of(step) != _round_of(by_id[opener]):
            continue
        chain.append(key)
        stack += step["after"]
    return chain
