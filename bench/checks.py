"""The recipe check: what a recipe's own numbers say before anything is weighed.

Each rule is one function over a measured recipe; `check_recipe` runs them all. A finding says
what, where, why, by how much, what to do, and where the rule comes from. It never approves: it
says what it looked at, and the supplier's papers and the law where it is sold rule.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

from bench.air import FIZZ_LOOK_RH, FIZZ_STOP_RH, SOAP_SWEAT_RH, dew_point_c
from bench.fizz import react
from bench.sizing import make_mg
from bench.whole import grams, half_even, per_cent

Json = dict[str, Any]

WIDE_PPM = 50_000  # written and needed masses further apart than this are worth a look: common practice
WARM_FIZZ_MK = 50_000  # bicarbonate begins to give off its gas near 50 °C (excipients handbook, second-hand)
RINSE_OFF_PPM = 100  # 0.01 %, Regulation (EC) 1223/2009 Annex III, second-hand
LEAVE_ON_PPM = 10  # 0.001 %, the same

LEVELS = ("will_not_run", "look", "know")


def finding(
    level: str,
    where: str,
    what: str,
    *,
    why: str = "",
    by: str = "",
    do: str = "",
    source: str = "common practice",
) -> Json:
    return {"level": level, "where": where, "what": what, "why": why, "by": by, "do": do, "source": source}


def check_recipe(recipe: Json, air: Json | None = None) -> list[Json]:
    """Findings on a measured recipe, the gravest first.

    air: today's {"temperature_c", "humidity"} in °C and per cent, or None when not measured.
    """
    found = [each for rule in RULES for each in rule(recipe)]
    if air is not None:
        found += list(_air(recipe, air))
    return sorted(found, key=lambda each: LEVELS.index(each["level"]))


def _parts(recipe: Json) -> list[Json]:
    """The components proper, the assembly left out."""
    return [component for component in recipe["components"] if component["id"] != "assembly"]


def _total_ug(component: Json) -> int:
    return sum(line["ug"] or 0 for line in component["lines"])


def _of_kind(recipe: Json, component: Json, *kinds: str) -> list[Json]:
    return [line for line in component["lines"] if recipe["ingredients"][line["ingredient"]]["kind"] in kinds]


def share_of_piece(recipe: Json, ingredient: str) -> Fraction:
    """The ingredient's share of the mass of a whole finished piece, over all components that hold it."""
    whole = Fraction(0)
    held = Fraction(0)
    for component in recipe["components"]:
        total = _total_ug(component)
        mass = Fraction(component["takes"] * component["piece_mg"])
        whole += mass
        if total:
            own = sum(line["ug"] or 0 for line in component["lines"] if line["ingredient"] == ingredient)
            held += mass * Fraction(own, total)
    return held / whole if whole else Fraction(0)


def _percent(share: Fraction, decimals: int = 2) -> str:
    """A share in per cent, cut to so many decimals, never rounded up past a limit it does not pass."""
    scaled = int(share * 100 * 10**decimals)
    return f"{scaled / 10**decimals:.{decimals}f} %"


# Numbers


def _sums(recipe: Json) -> Iterator[Json]:
    for component in _parts(recipe):
        written = half_even(_total_ug(component), 1000)
        count = recipe["written_for"] * component["takes"] + component["spares"]
        needs = make_mg(component, count)
        if written and abs(written - needs) * 1_000_000 > needs * WIDE_PPM:
            yield finding(
                "look",
                component["id"],
                f"The lines add up to {grams(written, 1000)}, but {count} pieces with what stays behind take {grams(needs, 1000)}.",
                why="The batch is sized by the pieces, so every line will be scaled to match.",
                by=f"{per_cent(abs(written - needs), needs)} apart",
                do="Check the mass of a piece, the spares and what stays behind.",
            )


def _measures(recipe: Json) -> Iterator[Json]:
    for component in recipe["components"]:
        for line in component["lines"]:
            where = f"{component['id']}.{line['id']}"
            ingredient = recipe["ingredients"][line["ingredient"]]
            name = ingredient["name"]
            if line["nl"] is not None:
                yield finding(
                    "know",
                    where,
                    f"{name} has no density, so it is measured in spoons.",
                    why="A spoon of the same thing varies more than a weight does.",
                    do="Give a density, with its source, to weigh it.",
                )
            if line["unit"] == "drops":
                yield finding(
                    "know",
                    where,
                    f"{name} is counted in drops.",
                    why="A drop is 0.05 mL by convention only; real droppers differ.",
                    do="Weigh it when the amount matters.",
                    source="UCUM v2.2 [drp]; USP 32 <1101> allows a calibrated dropper 15 %",
                )
            density = ingredient["density"]
            if line["by_volume"] and density and density["tapped_g_per_ml"]:
                loose, tapped = Fraction(density["g_per_ml"]), Fraction(density["tapped_g_per_ml"])
                high = half_even(int(line["ug"] * tapped / loose), 1000)
                low = half_even(line["ug"], 1000)
                yield finding(
                    "look",
                    where,
                    f"{line['written']} of {name} is {grams(low, 100)} loose and {grams(high, 100)} tapped down.",
                    why="A spoon of powder depends on how it is filled.",
                    by=f"{per_cent(high - low, low)} more when tapped" if low else "",
                    do="Write the line as a weight.",
                    source=density["source"],
                )


# Fizz


def _fizz(recipe: Json) -> Iterator[Json]:
    for component in _parts(recipe):
        bicarbonate = sum(line["ug"] or 0 for line in _of_kind(recipe, component, "bicarbonate"))
        acids = [line for line in _of_kind(recipe, component, "citric_acid") if line["ug"]]
        acid = sum(line["ug"] for line in acids)
        if not (bicarbonate and acid):
            continue
        forms = {recipe["ingredients"][line["ingredient"]]["form"] for line in acids}
        form = forms.pop() if len(forms) == 1 else ""
        if not form:
            yield finding(
                "look",
                component["id"],
                "The citric acid may be anhydrous or the monohydrate; the recipe does not say.",
                why="The monohydrate holds 8.6 % water, so the same weight fizzes less. Anhydrous is assumed below.",
                do="Read the bag, and set the ingredient's form.",
                source="molar masses 192.12 and 210.14 g/mol",
            )
        told = react(Fraction(bicarbonate, 1000), Fraction(acid, 1000), form or "anhydrous")
        litres = float(told.gas_l)
        left = (
            f"{grams(half_even(int(told.left_mg), 1), 1000)} of the {told.left_over} is left over, {_percent(told.left_share, 1)} of it"
            if told.left_over
            else "nothing is left over"
        )
        yield finding(
            "know",
            component["id"],
            f"Bicarbonate to citric acid is {float(told.ratio):.2f} : 1 by mass; as written {left}.",
            why=f"The trade mixes about 2 : 1 (common practice); the reaction itself balances at {float(told.balanced):.2f} : 1. "
            f"Bicarbonate left over leaves the water mildly alkaline and the skin feel softer; acid left over leaves it sour.",
            by=f"at most {litres:.1f} L of gas at 25 °C from the batch as written",
            do="Nothing, if that is what you meant.",
            source="3 NaHCO3 to 1 citric acid by moles; pK3 of citric acid is close to carbonic acid's, so the gas is an upper bound",
        )


# Fragrance


def _fragrance(recipe: Json) -> Iterator[Json]:
    used = {
        line["ingredient"] for component in recipe["components"] for line in component["lines"] if line["ug"]
    }
    allergens: dict[str, Fraction] = {}
    for key in sorted(used):
        ingredient = recipe["ingredients"][key]
        if ingredient["kind"] != "fragrance":
            continue
        where = f"ingredients.{key}"
        share = share_of_piece(recipe, key)
        fragrance = ingredient["fragrance"] or {"limit_ppm": None, "category": "", "allergens": []}
        limit = fragrance["limit_ppm"]
        if limit is None:
            yield finding(
                "look",
                where,
                f"{ingredient['name']} is {_percent(share)} of the finished piece, and its limit is not given.",
                why="No limit given does not mean unlimited.",
                do="Copy the limit for this kind of product from the fragrance's own IFRA certificate.",
                source="IFRA Standards, 51st Amendment; fizzing bath pieces and soap are in category 9 (second-hand)",
            )
        elif share > Fraction(limit, 1_000_000):
            over = share - Fraction(limit, 1_000_000)
            yield finding(
                "look",
                where,
                f"{ingredient['name']} is {_percent(share)} of the finished piece; its certificate allows {_percent(Fraction(limit, 1_000_000))}.",
                why="The share is counted over every part of the piece that holds it.",
                by=f"{_percent(over, 3)} of the piece too much",
                do="Use less of it, in one part or in all.",
                source=f"the limit you copied from its IFRA certificate, category {fragrance['category'] or 'not named'}",
            )
        else:
            yield finding(
                "know",
                where,
                f"{ingredient['name']} is {_percent(share)} of the finished piece; its certificate allows {_percent(Fraction(limit, 1_000_000))}.",
                why="The share is counted over every part of the piece that holds it. This is not an assessment of the product.",
                source=f"the limit you copied from its IFRA certificate, category {fragrance['category'] or 'not named'}",
            )
        for allergen in fragrance["allergens"]:
            name = allergen["name"]
            allergens[name] = allergens.get(name, Fraction(0)) + share * Fraction(allergen["ppm"], 1_000_000)
    if allergens and recipe["stays_on"] is None:
        yield finding(
            "look",
            "stays_on",
            "Fragrance allergens are named, but not whether the product is rinsed off or stays on.",
            why="The share from which an allergen is named on the label differs tenfold.",
            do="Say in the recipe whether it stays on.",
            source="Regulation (EC) 1223/2009 Annex III (second-hand)",
        )
    threshold = LEAVE_ON_PPM if recipe["stays_on"] else RINSE_OFF_PPM
    for name, share in sorted(allergens.items()):
        if share > Fraction(threshold, 1_000_000):
            yield finding(
                "know",
                "label",
                f"{name} comes to {_percent(share, 4)} of the piece: it is named on an EU or UK label.",
                why=f"Above {_percent(Fraction(threshold, 1_000_000), 3)} in a product that {'stays on' if recipe['stays_on'] else 'is rinsed off'}.",
                do="Name it among the ingredients.",
                source="Regulation (EC) 1223/2009 Annex III, strictly greater (second-hand)",
            )


# Colours

_COLOURS = {
    "lake": (
        "A lake colours by its particles and does not bleed, but each batch must be certified where US rules apply.",
        "Keep the lot's certificate, and the lot number in the record.",
        "21 CFR 82.51, 82.2051; not for the eye area, 81.1",
    ),
    "dye": (
        "A dye colours the water, and may stain the tub and the skin; each batch must be certified where US rules apply.",
        "Try it in a white tub, and keep the lot's certificate.",
        "21 CFR Part 74",
    ),
    "mica": (
        "Mica shimmers and settles: without a solubiliser it can leave a ring in the tub.",
        "Nothing, if there is a solubiliser; mica is exempt from certification where US rules apply.",
        "21 CFR 73.2496; the ring is common practice",
    ),
    "pigment": (
        "A pigment does not dissolve: it can leave a ring in the tub.",
        "Check with the supplier that this grade is meant for cosmetics.",
        "common practice",
    ),
}


def _colours(recipe: Json) -> Iterator[Json]:
    used = {line["ingredient"] for component in recipe["components"] for line in component["lines"]}
    for key in sorted(used):
        ingredient = recipe["ingredients"][key]
        if ingredient["kind"] in _COLOURS:
            why, do, source = _COLOURS[ingredient["kind"]]
            yield finding(
                "know",
                f"ingredients.{key}",
                f"{ingredient['name']} is a {ingredient['kind']}.",
                why=why,
                do=do,
                source=source,
            )


# Melt and heat


def _heat(recipe: Json) -> Iterator[Json]:
    for component in _parts(recipe):
        lines = {line["id"]: recipe["ingredients"][line["ingredient"]] for line in component["lines"]}
        wet = [key for key, each in lines.items() if each["kind"] == "water"]
        fizzes = any(each["kind"] == "bicarbonate" for each in lines.values())
        weighed = {key for step in component["steps"] if step["kind"] == "weigh" for key in step["lines"]}
        if fizzes:
            for key in wet:
                if key in weighed:
                    yield finding(
                        "look",
                        f"{component['id']}.{key}",
                        f"{lines[key]['name']} goes into a dry fizzing mix by weight.",
                        why="Water poured in starts the fizz at once; a fine spray, a little at a time, does not.",
                        do="Spray it to texture instead, or leave it out.",
                    )
        for step in component["steps"]:
            if step["kind"] != "melt":
                continue
            where = f"{component['id']}.{step['id']}"
            for key in step["of"]:
                ingredient = lines[key]
                if ingredient["kind"] == "fragrance":
                    yield finding(
                        "look",
                        where,
                        f"{ingredient['name']} is heated with the melt.",
                        why="Fragrance flashes off in the heat: the scent is lost, and its vapour can light.",
                        do="Add it after the melt, once it has cooled to what the supplier's sheet says.",
                        source="supplier's safety sheet (flash point); common practice",
                    )
                if (
                    ingredient["kind"] in ("bicarbonate", "citric_acid")
                    and (step["to_mk"] or 0) > WARM_FIZZ_MK
                ):
                    yield finding(
                        "look",
                        where,
                        f"{ingredient['name']} is warmed past 50 °C.",
                        why="Bicarbonate begins to give off its gas near 50 °C, and the fizz is lost before the bath.",
                        by=f"{step['to_mk'] // 1000 - 50} °C too warm",
                        do="Melt the butter apart, and let it cool before it meets the dry mix.",
                        source="pharmaceutical-excipients handbook (second-hand)",
                    )
                most = ingredient["most_mk"]
                if most is not None and step["to_mk"] is not None and step["to_mk"] > most:
                    yield finding(
                        "look",
                        where,
                        f"{ingredient['name']} is taken to {step['to_mk'] // 1000} °C; its own sheet allows {most // 1000} °C.",
                        why="Past its limit a base dries out, yellows and will not set clear.",
                        by=f"{(step['to_mk'] - most) // 1000} °C too warm",
                        do="Lower the melt's end temperature.",
                        source="the base's own sheet, as entered",
                    )


def _alcohol(recipe: Json) -> Iterator[Json]:
    """Alcohol sprayed in one part while a heater may be on for another."""
    steps = {
        f"{component['id']}.{step['id']}": step
        for component in recipe["components"]
        for step in component["steps"]
    }
    before = {key: _before(steps, key) for key in steps}
    melts = [key for key, step in steps.items() if step["kind"] == "melt"]
    for component in recipe["components"]:
        for step in component["steps"]:
            key = f"{component['id']}.{step['id']}"
            if not step["alcohol"]:
                continue
            beside = [
                each for each in melts if each not in before[key] and key not in before[each] and each != key
            ]
            if beside:
                titles = " and ".join(f"“{steps[each]['title']}”" for each in beside[:2])
                yield finding(
                    "look",
                    key,
                    f"Alcohol is used in “{step['title']}”, and nothing keeps it apart from {titles}.",
                    why="Alcohol vapour lights easily: 2-propanol's flash point is near 12 °C.",
                    do="Have every heater off and the window open before you spray, or add the order to the recipe.",
                    source="IEC 60079-20-1:2010; local fire codes apply",
                )


def _before(steps: dict[str, Json], key: str) -> set[str]:
    seen: set[str] = set()
    stack = list(steps[key]["after"])
    while stack:
        need = stack.pop()
        if need not in seen:
            seen.add(need)
            stack += steps[need]["after"]
    return seen


# Structure


def _structure(recipe: Json) -> Iterator[Json]:
    steps = [(component, step) for component in recipe["components"] for step in component["steps"]]
    wraps = any(step["does"] == "wrap" for _, step in steps)
    kinds = {
        recipe["ingredients"][line["ingredient"]]["kind"]
        for component in recipe["components"]
        for line in component["lines"]
    }
    if not wraps and kinds & {"soap_base", "whipping_base"}:
        yield finding(
            "look",
            "assembly",
            "There is a soap part and no step wraps it.",
            why="Glycerol in soap base takes up water at any ordinary humidity, and the piece sweats."
            + (" A whipped base never hardens, so it must be wrapped." if "whipping_base" in kinds else ""),
            do="Add a wrap step, with a latest time.",
            source="glycerol never deliquesces, it equilibrates (ASTM D5032); the advice is a design inference",
        )
    if not wraps and {"bicarbonate", "citric_acid"} <= kinds:
        yield finding(
            "look",
            "assembly",
            "There is a fizzing part and no step wraps it.",
            why="It draws water from the air and reacts: it swells, cracks and loses its fizz.",
            do="Add a wrap step, with a latest time.",
            source="Int. J. Pharm. 166 (1998) 167-175 for bicarbonate alone; a mix takes up water sooner",
        )
    waits_after = {need for _, step in steps if step["kind"] == "wait" for need in step["after"]}
    all_steps = {f"{component['id']}.{step['id']}": step for component, step in steps}
    for component, step in steps:
        key = f"{component['id']}.{step['id']}"
        if step["does"] not in ("pour", "press") or step["kind"] != "pieces":
            continue
        reached = any(key in _before(all_steps, each) or key == each for each in waits_after)
        if not reached:
            yield finding(
                "look",
                key,
                f"No wait follows “{step['title']}”.",
                why="A poured part must set before it is turned out, and a pressed one must dry before it is handled.",
                do="Add a wait with its earliest and usual time.",
            )
    for component, step in steps:
        window = step["window"]
        if not window or not step["hands_ms"]:
            continue
        if step["hands_ms"] > window["latest_ms"]:
            yield finding(
                "will_not_run",
                f"{component['id']}.{step['id']}",
                f"“{step['title']}” takes longer by hand than its window is open.",
                why=window["stake"],
                do="Make a smaller batch at a time, or lengthen the window.",
            )
    for component, step in steps:
        if step["window"]:
            yield from _window_kept(all_steps, f"{component['id']}.{step['id']}", step)


def _window_kept(steps: dict[str, Json], key: str, step: Json) -> Iterator[Json]:
    """A window that no order can keep: a wait longer than the window lies between its ends."""
    for opener in step["window"]["from"]:
        least = _least_between(steps, opener, key)
        if least > step["window"]["latest_ms"]:
            yield finding(
                "will_not_run",
                key,
                f"“{step['title']}” must follow “{steps[opener]['title']}” within its window, but a longer wait lies between.",
                why=step["window"]["stake"],
                by=f"{(least - step['window']['latest_ms']) // 60_000} min too long at the least",
                do="Let the window begin later, or take the wait out of the way.",
            )


def _least_between(steps: dict[str, Json], opener: str, key: str) -> int:
    """The least waiting, in ms, on any path of needs from one step to another; 0 without a path."""
    best: dict[str, int] = {opener: 0}

    def reach(each: str) -> int | None:
        if each in best:
            return best[each]
        if opener not in _before(steps, each):
            return None
        found = [value for value in (reach(need) for need in steps[each]["after"]) if value is not None]
        own = steps[each]["earliest_ms"] if steps[each]["kind"] == "wait" else 0
        best[each] = max(found) + own
        return best[each]

    return reach(key) or 0


def _embed(recipe: Json) -> Iterator[Json]:
    """A heavy embed on a soft top is a question, not a rule."""
    soft = [part for part in _parts(recipe) if _of_kind(recipe, part, "whipping_base") and part["piece_mg"]]
    for top in soft:
        for part in _parts(recipe):
            if (
                part is not top
                and _of_kind(recipe, part, "soap_base")
                and part["takes"] * part["piece_mg"] > top["takes"] * top["piece_mg"]
            ):
                yield finding(
                    "know",
                    part["id"],
                    f"What is set into {top['name']} weighs more than it does. Will it carry it?",
                    by=f"{grams(part['takes'] * part['piece_mg'], 1000)} on {grams(top['takes'] * top['piece_mg'], 1000)}",
                    do="Try one piece first.",
                )


def _looks(recipe: Json) -> Iterator[Json]:
    if recipe["looks_like_food"]:
        yield finding(
            "look",
            "looks_like_food",
            "The piece could be taken for something to eat.",
            why="Its appearance is a risk to weigh before it is sold, above all with children about.",
            do="Change the look or the wrap, say plainly on the label that it is not food, and write down what you decided.",
            source="Regulation (EU) 2023/988 Art. 6(1)(f) (second-hand)",
        )
    elif recipe["looks_like_food"] is None:
        yield finding(
            "know",
            "looks_like_food",
            "The recipe does not say whether the piece could be taken for something to eat.",
            do="Set “looks_like_food” to true or false.",
            source="Regulation (EU) 2023/988 Art. 6(1)(f) (second-hand)",
        )


# Today's air


def _air(recipe: Json, air: Json) -> Iterator[Json]:
    temperature, humidity = air["temperature_c"], air["humidity"]
    dew = dew_point_c(temperature, humidity)
    kinds = {
        recipe["ingredients"][line["ingredient"]]["kind"]
        for component in recipe["components"]
        for line in component["lines"]
    }
    yield finding(
        "know",
        "air",
        f"At {temperature:g} °C and {humidity:g} % the dew point is {dew:.1f} °C.",
        why="Anything colder than that, a part out of the fridge for one, gathers water.",
        source="Magnus form, J. Appl. Meteorol. 35 (1996) 601",
    )
    if "bicarbonate" in kinds and humidity >= FIZZ_LOOK_RH:
        yield finding(
            "look",
            "air",
            "The air is damp for a fizzing part: it dries slowly and may start to react."
            if humidity < FIZZ_STOP_RH
            else "The air is too damp to dry a fizzing part well.",
            why=f"Citric acid alone turned to its hydrate at 69.9 % and bicarbonate alone takes up water from 76 to 88 %; a mixture does so "
            f"sooner, so the warning here begins at {FIZZ_LOOK_RH} %, below any published figure.",
            by=f"{humidity - FIZZ_LOOK_RH:g} points over",
            do="Dry the air or wait for a drier day; wrap as soon as the piece is dry. Never dry it in a warm oven.",
            source="J. Pharm. Sci. 98 (2009) 1744; Int. J. Pharm. 166 (1998) 167; J. Phys. Chem. B 110 (2006) 10190",
        )
    if kinds & {"soap_base", "whipping_base"} and humidity >= SOAP_SWEAT_RH:
        yield finding(
            "look",
            "air",
            "Soap parts will sweat in this air.",
            why="Glycerol takes up water at any ordinary humidity; the warning level is a design inference.",
            do="Wrap each piece as soon as it is cool.",
            source="ASTM D5032 (glycerol and humidity); design inference",
        )


RULES: tuple[Callable[[Json], Iterator[Json]], ...] = (
    _structure,
    _sums,
    _measures,
    _fizz,
    _fragrance,
    _colours,
    _heat,
    _alcohol,
    _embed,
    _looks,
)
