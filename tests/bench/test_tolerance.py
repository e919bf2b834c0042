"""One rule of tolerance: the fold, the prompt and the record draw the line at the same milligram."""

from __future__ import annotations

import pytest

from bench import record
from bench.journal import division_of
from bench.weighing import allowed_mg
from tests.bench.workshop import Maker, demo_sheet

SHEET = demo_sheet()
LINES = [line for line in SHEET["lines"] if line["mg"] and line["scale"]]


@pytest.mark.parametrize("carried", [None, (6, 5), (3, 4)], ids=["as it is", "scaled up", "scaled down"])
@pytest.mark.parametrize("line", LINES, ids=lambda line: line["id"])
def test_state_prompt_and_record_agree_on_what_is_off(line: dict, carried: tuple[int, int] | None) -> None:  # type: ignore[type-arg]
    """A milligram more or less than is allowed, and just so much, of each weighed line of the demo."""
    for side in (-1, 1):
        for beyond in (0, 1):
            maker = Maker(SHEET)
            num, den = carried or (1, 1)
            if carried:
                where = {"component": line["component"], "round": line["round"]}
                maker.tell("carried", **where, num=num, den=den)
            told = maker.state["lines"][line["id"]]
            allowed = allowed_mg(line, division_of(SHEET, told["scale"]), num, den)
            maker.tell("weighed", line=line["id"], mg=told["target_mg"] + side * (allowed + beyond))

            status = maker.state["lines"][line["id"]]["status"]
            kept = next(
                each
                for each in record(SHEET, maker.state, maker.entries)["lines"]
                if each["line"] == line["id"]
            )
            asked = any(
                each["weigh"] and each["weigh"]["line"] == line["id"] for each in maker.sees["prompts"]
            )

            assert (status in ("over", "short")) == bool(beyond), (status, side)
            assert kept["within"] == (not beyond)
            ready = maker.state["steps"][line["step"]]["status"] in ("ready", "begun")
            assert asked == (bool(beyond) and ready)
