"""The recipe check: what a recipe's own numbers say before anything is weighed.

Each rule looks at one matter and says what, where, why, by how much, what to do, and where the
rule comes from. The check never approves: it says what it looked at. The supplier's papers, and
the law where the piece is sold, rule.
"""

from bench.checks import air as todays_air
from bench.checks import (
    appearance,
    bath,
    colours,
    drying,
    fizz,
    flow,
    fragrance,
    heat,
    melting,
    mixing,
    numbers,
    preservation,
    product,
    restricted,
    structure,
    vessels,
)
from bench.checks.finding import LEVELS
from bench.checks.subject import Rule, Subject
from bench.shapes.kit import Kit
from bench.shapes.recipe import Finding, MeasuredRecipe, RoomAir

RULES: tuple[Rule, ...] = (
    product.unsaid,
    product.against_itself,
    product.named_otherwise,
    product.category,
    product.annexes,
    product.claims,
    structure.windows,
    structure.unkept,
    structure.waits,
    structure.wrapping,
    structure.embeds,
    drying.short_drying,
    drying.long_waits,
    drying.dried_cold,
    structure.unasked,
    flow.late_weighing,
    flow.damp_after_press,
    flow.nothing_follows,
    flow.uncounted,
    flow.unmixed,
    flow.left_standing,
    flow.tips_nothing,
    flow.twice_in_one,
    flow.unused,
    flow.other_side,
    flow.long_hands,
    flow.long_window,
    flow.layers,
    structure.in_its_own_place,
    structure.unused_portions,
    structure.melted_early,
    numbers.two_ways,
    numbers.one_twice,
    numbers.odd_density,
    numbers.wide_tolerance,
    numbers.sums,
    numbers.too_small,
    numbers.no_density,
    numbers.drops,
    numbers.spoons_of_powder,
    fizz.form,
    fizz.balance,
    fizz.unknown_sides,
    fizz.beside,
    fizz.sealed,
    fizz.sour_spray,
    bath.unmixed_fat,
    bath.scent_floats,
    preservation.unpreserved,
    preservation.too_alkaline,
    mixing.oily_base,
    mixing.two_phases,
    mixing.cold_phase,
    mixing.much_preservative,
    mixing.sour,
    mixing.never_melted,
    mixing.short_setting,
    mixing.dried_hot,
    mixing.alcohol_into_hot,
    mixing.shut_melt,
    restricted.by_trait,
    restricted.by_law,
    restricted.strong,
    fragrance.limits,
    fragrance.together,
    fragrance.over_the_whole,
    fragrance.allergens,
    fragrance.unlisted,
    colours.each,
    colours.much,
    colours.by_use,
    colours.by_annex,
    colours.unnamed,
    heat.heated_fragrance,
    heat.warm_fragrance,
    heat.past_the_limit,
    melting.metal,
    vessels.metal_said,
    vessels.cold_glass,
    melting.heated_alcohol,
    melting.long_bursts,
    melting.long_heat,
    melting.odd_warmth,
    melting.grainy,
    melting.least_heat,
    heat.warm_fizz,
    fizz.wet,
    heat.water_bath,
    heat.alcohol,
    appearance.like_food,
    todays_air.dew_point,
    todays_air.damp_for_fizz,
    todays_air.damp_for_soap,
    numbers.unknown,
)


def check_recipe(recipe: MeasuredRecipe, air: RoomAir | None = None, kit: Kit | None = None) -> list[Finding]:
    """Findings on a measured recipe, the gravest first: {"rule", "level", "where", "place", "what",
    "why", "by", "do", "source", "dated"}; `place` says in words what `where` points at.

    air: today's {"temperature_c", "humidity"} in °C and per cent, or None when not measured.
    kit: the measured kit, or None; only with one can a line be too small for its scales.
    """
    subject = Subject(recipe, air, kit)
    found: list[Finding] = [
        {**each, "where": subject.as_written(each["where"]), "place": subject.place(each["where"])}
        for rule in RULES
        for each in rule(subject)
    ]
    return sorted(found, key=lambda each: LEVELS.index(each["level"]))
