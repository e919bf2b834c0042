"""Fizz: which of carbonate and acid is left over, how much gas there can be, and what does not belong beside them."""

from collections.abc import Iterator
from fractions import Fraction

from bench.brief import joined
from bench.checks.alcohol import strength_of
from bench.checks.finding import cut_per_cent, decimal, finding
from bench.checks.subject import GLASS, Subject
from bench.fizz import FORMS, Fizz, is_acid, react
from bench.recipe import ASSEMBLY
from bench.shapes.recipe import Component, Finding, Level, RecipeLine
from bench.shapes.substances import Substance
from bench.sources import Cited, cited
from bench.substances import has, source_of
from bench.whole import half_even, mass
from bench.words import point, say

SLOW = "cream-of-tartar"  # hardly dissolves in the cold: kneaded with glycerin by common practice
OPEN_FORM = "citric-acid"  # of either form
SOUR = Fraction(1, 10)  # more of the acid than this left over is pointed out: common practice
# A hundredth of the gas is let go by the first damp; a jar for ten pieces has about half a litre of air.
SET_FREE = Fraction(1, 100)

_Mix = tuple[Component, dict[str, int], dict[str, int]]


def form(subject: Subject) -> Iterator[Finding]:
    """Citric acid that may be either form: ask, and say what hangs on it."""
    for component, carbonates, acids in mixes(subject):
        if not acids.get(OPEN_FORM):
            continue
        left = {
            assumed: _left(react(_mg(carbonates), _mg(_as(known, acids)))) for assumed, known in FORMS.items()
        }
        yield finding(
            "citric-form",
            "look",
            component["id"],
            say("checks-citric-form"),
            by=say("checks-citric-form-by", anhydrous=left["anhydrous"], monohydrate=left["monohydrate"]),
        )


def balance(subject: Subject) -> Iterator[Finding]:
    for component, carbonates, acids in mixes(subject):
        told = react(_mg(carbonates), _mg(acids))
        sour = told.left_over == "acid" and told.left_share > SOUR
        yield finding(
            "fizz-balance",
            "look" if sour else "know",
            component["id"],
            joined(
                say("checks-fizz-balance", ratio=decimal(told.ratio, 2), left=_left(told)),
                say("checks-fizz-balance-as-anhydrous") if OPEN_FORM in acids else "",
            ),
            why=say("checks-fizz-balance-why", ratio=decimal(told.balanced, 2)),
            by=say(
                "checks-fizz-balance-by",
                base=mass(half_even(sum(carbonates.values()), 1000), 100),
                takes=decimal(told.base_mmol / 1000, 2),
                acid=mass(half_even(sum(acids.values()), 1000), 100),
                gives=decimal(told.acid_mmol / 1000, 2),
                gas=decimal(told.gas_l, 1),
            ),
            do=say("checks-fizz-balance-sour-do" if sour else "checks-fizz-balance-do"),
        )


def unknown_sides(subject: Subject) -> Iterator[Finding]:
    """An acid or a carbonate that the table does not know: nothing is worked out for it, and that is said."""
    for key in subject.used("acid", "carbonate"):
        if subject.substance(key) is None:
            yield finding(
                "fizz-unknown",
                "look",
                f"ingredients.{key}",
                say("checks-fizz-unknown", name=subject.recipe["ingredients"][key]["name"]),
            )


def sealed(subject: Subject) -> Iterator[Finding]:
    """A fizzing piece in something that shuts tight: its gas has nowhere to go."""
    gas = sum(
        (react(_mg(carbonates), _mg(acids)).gas_l for _, carbonates, acids in mixes(subject)), Fraction(0)
    )
    raising = _raising(subject)
    if not gas and not raising:
        return
    shut = subject.shut_tight
    yield finding(
        "fizz-sealed",
        "look" if shut else "know",
        shut[0] if shut else ASSEMBLY,
        say("checks-sealed", title=subject.place(shut[0])) if shut else say("checks-sealed-open"),
        why=joined(say("checks-sealed-why"), say("checks-sealed-glass") if _in_glass(subject, shut) else ""),
        by=say("checks-sealed-by", gas=decimal(gas, 1), part=decimal(gas * SET_FREE, 2))
        if gas
        else say("checks-sealed-by-itself", name=raising),
        do=say("checks-sealed-do"),
    )


def _raising(subject: Subject) -> str:
    """What gives gas by itself once it is damp, as baking powder does, by its name; "" for none."""
    for component in subject.parts:
        for line in component["lines"]:
            found = subject.substance(line["ingredient"])
            if found and {"bicarbonate", "acid"} <= {*found.get("holds", ())}:
                return subject.ingredient(line)["name"]
    return ""


def _in_glass(subject: Subject, shut: list[str]) -> bool:
    steps = (subject.order.steps[key] for key in shut)
    return any(GLASS.search(text) for step in steps for text in (step["title"], step["says"], *step["tools"]))


def sour_spray(subject: Subject) -> Iterator[Finding]:
    """A watery acid, sprayed or poured: it brings water and the other side of the reaction at once."""
    for component in subject.parts:
        for line in component["lines"] if subject.carbonates(component) else []:
            found = subject.substance(line["ingredient"])
            if found and is_acid(found["id"]) and "water" in found:
                yield finding(
                    "sour-spray",
                    "look",
                    f"{component['id']}.{line['id']}",
                    say("checks-sour-spray", name=subject.ingredient(line)["name"]),
                    by=line["written"],
                    source=source_of(found, "water"),
                )


def beside(subject: Subject) -> Iterator[Finding]:
    """What does not go with a fizz, or is not what it is taken for: each by the one rule that fits."""
    soon = [
        part
        for part in subject.fizzing
        if any(subject.known_as(acid) != SLOW for acid in subject.acids(part))
    ]
    for component in subject.parts:
        acids = subject.acids(component)
        if not (acids or subject.carbonates(component)):
            continue
        for line in component["lines"]:
            found = subject.substance(line["ingredient"])
            code, by = _amiss(found, bool(acids), component in soon) if found else ("", "")
            if found and code:
                yield finding(
                    f"in-fizz-{code}",
                    "look",
                    f"{component['id']}.{line['id']}",
                    say(f"checks-in-fizz-{code}", name=subject.ingredient(line)["name"]),
                    why=say(f"checks-why-in-fizz-{code}"),
                    by=line["written"],
                    do=say(f"checks-do-in-fizz-{code}"),
                    source=source_of(found, by),
                )


def _amiss(found: Substance, acid: bool, soon: bool) -> tuple[str, str]:
    """What is amiss, and by which field or trait of the table; "" for nothing.

    soon: it fizzes at the first damp, as no mix of bicarbonate and cream of tartar alone does.
    """
    if "holds" in found:
        return "baking-powder", "holds"
    if has(found, "strong_alkali"):
        return "alkali", "strong_alkali"
    if acid and has(found, "acid_frees_sulfide"):
        return "sulfide", "acid_frees_sulfide"
    if soon and has(found, "draws_water") and found["kind"] != "soap_base":
        return "draws-water", "draws_water"
    return "", ""


def wet(subject: Subject) -> Iterator[Finding]:
    """Water poured into a dry fizzing mix, that in alcohol or a salt's crystals too. A spray to texture is judged as
    it goes, and is not meant."""
    for component in subject.parts:
        if not subject.carbonates(component):
            continue
        for line in component["lines"]:
            where, name = f"{component['id']}.{line['id']}", subject.ingredient(line)["name"]
            kind, found = subject.kind(line["ingredient"]), subject.substance(line["ingredient"])
            if line["texture"]:
                continue
            if found and "crystal_water" in found and kind == "salt":
                if component not in subject.fizzing:  # a soak of salt and soda waits for no damp
                    continue
                yield finding(
                    "crystal-water",
                    "know",
                    where,
                    say(
                        "checks-crystal-water", name=name, share=found["crystal_water"].replace(".", point())
                    ),
                    by=line["written"],
                    source=source_of(found, "crystal_water"),
                )
            elif kind == "alcohol":
                yield _poured("alcohol-in-fizz", "know", where, line, name, *_of_alcohol(name))
            elif subject.is_wet(line):
                yield _poured("water-in-fizz", "look", where, line, name, say("checks-water-in-fizz-why"))


def _poured(
    rule: str, level: Level, where: str, line: RecipeLine, name: str, why: str, source: Cited | None = None
) -> Finding:
    return finding(
        rule,
        level,
        where,
        say("checks-water-in-fizz", name=name),
        why=why,
        by=line["written"],
        do=say("checks-water-in-fizz-do"),
        source=source,
    )


def _of_alcohol(name: str) -> tuple[str, Cited | None]:
    """How much water an alcohol brings, by the strength in its name; and where that is from."""
    strength = strength_of(name)
    if not strength:
        return say("checks-alcohol-strength-why"), None
    return say("checks-alcohol-water-why", strength=strength.percent, water=strength.water), cited(
        "alcohol-water"
    )


def mixes(subject: Subject) -> Iterator[_Mix]:
    """Each part that fizzes: its carbonates and its acids in µg, by id of the substance."""
    for component in subject.fizzing:
        carbonates: dict[str, int] = {}
        acids: dict[str, int] = {}
        for line in [*subject.carbonates(component), *subject.acids(component)]:
            id_ = subject.known_as(line)
            side = acids if is_acid(id_) else carbonates
            if line["ug"]:
                side[id_] = side.get(id_, 0) + line["ug"]
        if carbonates and acids:
            yield component, carbonates, acids


def _as(assumed: str, acids: dict[str, int]) -> dict[str, int]:
    """Acids in µg, citric acid of unknown form counted as `assumed`."""
    counted: dict[str, int] = {}
    for id_, ug in acids.items():
        known = assumed if id_ == OPEN_FORM else id_
        counted[known] = counted.get(known, 0) + ug
    return counted


def _mg(by_id: dict[str, int]) -> dict[str, Fraction]:
    return {id_: Fraction(ug, 1000) for id_, ug in by_id.items()}


def _left(told: Fizz) -> str:
    if not told.left_over:
        return say("checks-fizz-left-nothing")
    share = cut_per_cent(told.left_share, 1)
    return say("checks-fizz-left", of=told.left_over, mass=mass(int(told.left_mg), 100), share=share)
