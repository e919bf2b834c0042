"""Any kit, any choice: a sheet that can be made to its end, or a fault in words."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import DEMO_RECIPES, Maker, make_kit, sheet_of, written

from bench import BenchError, as_measured, read_kit, read_recipe, sheet_text
from tests.often import often

RECIPES = {name: read_recipe(written(name)) for name in DEMO_RECIPES}

scales = st.lists(
    st.sampled_from(
        [
            ("5 kg", "1 g"),
            ("2 kg", "5 g"),
            ("500 g", "0.1 g"),
            ("200 g", "0.01 g"),
            ("30 kg", "10 g"),
            ("11 lb", "0.05 oz"),
        ]
    ),
    min_size=1,
    max_size=3,
    unique=True,
)
vessels = st.lists(
    st.builds(
        lambda kind, empty, holds: {"name": kind, "kind": kind, "empty": f"{empty} g", "holds": f"{holds} g"},
        st.sampled_from(["bowl", "jug", "cup", "pan"]),
        st.integers(1, 6000),
        st.integers(1, 6000),
    ),
    max_size=5,
)
moulds = st.lists(
    st.builds(
        lambda shape, cavities: {"name": shape, "shape": shape, "cavities": cavities},
        st.sampled_from(["puck", "pebble", "bar", "tablet", "oval"]),
        st.integers(1, 30),
    ),
    max_size=4,
)


def numbered(things):
    return [{"id": f"n{index}", **thing} for index, thing in enumerate(things)]


def choices(recipe):
    """Every optional line, and every stand-in, by its key."""
    optional, stand_ins = [], []
    for component in recipe["components"]:
        for line in component["lines"]:
            key = f"{component['id']}.{line['id']}"
            optional += [key] if line["optional"] else []
            stand_ins += [(key, each["ingredient"]) for each in line["substitutes"]]
    return optional, stand_ins


@settings(max_examples=often(10, 60))
@given(st.data(), st.sampled_from(DEMO_RECIPES), st.integers(1, 60), scales, vessels, moulds)
def test_any_kit_and_any_choice_give_a_batch_that_can_be_made_or_a_fault_in_words(
    data, name, pieces, scales, vessels, moulds
):
    recipe = RECIPES[name]
    optional, stand_ins = choices(recipe)
    without = data.draw(st.lists(st.sampled_from(optional), unique=True)) if optional else []
    swaps = dict(data.draw(st.lists(st.sampled_from(stand_ins), max_size=2))) if stand_ins else {}
    kit = make_kit(*scales, vessels=numbered(vessels), moulds=numbered(moulds))

    try:
        sheet = sheet_of(
            recipe,
            kit,
            pieces=pieces,
            without=without,
            swaps=swaps,
            weigh=data.draw(st.sampled_from(["running", "tare"])),
        )
    except BenchError as fault:
        assert fault.where and fault.says and "-" not in fault.says.replace("one-", "")
        return

    assert sheet_text(sheet)
    assert {f"{line['component']}.{line['line']}" for line in sheet["lines"]}.isdisjoint(without)
    if len(sheet["steps"]) > 200:
        return  # many rounds of the same: test_rounds goes through one of those
    maker = Maker(sheet)
    for _ in range(2000):
        if maker.state["finished_at"]:
            break
        maker.strong()
    assert maker.state["finished_at"] and maker.state["unread"] == []
    in_ounces = {scale["id"] for scale in sheet["kit"]["scales"] if "division_uoz" in scale}
    for line in sheet["lines"]:
        if line["mg"] is not None and line["step"]:
            told = maker.state["lines"][line["id"]]
            assert told["status"] == "in"
            rounded = line["scale"] in in_ounces  # what an ounce scale reads is no whole number of mg
            assert 2 * abs(told["in_mg"] - told["target_mg"]) <= (line["division_mg"] or 1) + rounded


AMOUNTS = st.sampled_from(["0 g", "0.001 g", "1 g", "2.5 kg", "11 lb", "0.05 oz", "900 kg"])
some_kit = st.fixed_dictionaries(
    {
        "format": st.just("bowlside-kit/1"),
        "scales": st.lists(
            st.fixed_dictionaries(
                {
                    "name": st.just("S"),
                    "capacity": AMOUNTS,
                    "division": st.sampled_from(["0.01 g", "0.05 oz"]),
                },
                optional={"test_weight": AMOUNTS},
            ),
            max_size=2,
        ).map(numbered),
    },
    optional={
        "vessels": st.lists(
            st.fixed_dictionaries(
                {"name": st.just("V"), "kind": st.just("bowl"), "empty": AMOUNTS, "holds": AMOUNTS},
                optional={"material": st.sampled_from(["glass", "steel"])},
            ),
            max_size=2,
        ).map(numbered),
        "moulds": st.lists(
            st.fixed_dictionaries(
                {"name": st.just("M"), "shape": st.just("bar"), "cavities": st.sampled_from([1, 1000])},
                optional={"sets": st.sampled_from([1, 100]), "cavity": AMOUNTS},
            ),
            max_size=2,
        ).map(numbered),
        "heaters": st.lists(
            st.fixed_dictionaries(
                {"name": st.just("H"), "kind": st.just("microwave")},
                optional={"absorbed_w": st.sampled_from([1, 20_000])},
            ),
            max_size=2,
        ).map(numbered),
    },
)


@settings(max_examples=often(200, 5000))
@given(some_kit)
def test_whatever_kit_can_be_read_is_a_measured_kit(kit):
    """What the studio keeps, a phone's batch can be begun with: else each of its batches is refused."""
    try:
        measured = read_kit(kit)
    except BenchError as fault:
        assert fault.where and fault.says
        return

    assert as_measured(measured) == measured
