"""The API does what its own document says, with every check of Schemathesis on: with no pairing, and to a
paired maker's device.
"""

from __future__ import annotations

import os
import re
from collections import defaultdict
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from openapi_spec_validator import validate

from api import create_app, store
from api.door import limits
from api.door.gate import COOKIE
from api.settings import Settings
from tests.api.doorway import METHODS, cookie_of, operations, paired
from tests.api.studio import Studio
from tests.make import make_entry
from tests.often import IS_CHAOS, in_chaos, often

# Of the right shape and still not to be had: no such id, no If-Match, a size that cannot be, a wrong code,
# a code for a studio that pairs nobody, one code too many.
ANSWERS_TO_WELL_FORMED = ["2xx", "304", "404", "409", "412", "422", "428", "429"]
# Set where other examples are wanted at each run (tests/perf/document_figures.py); else they are the same ones.
AT_RANDOM = bool(os.environ.get("BOWLSIDE_EXAMPLES_AT_RANDOM"))
EXAMPLES = 3 if AT_RANDOM else often(2, 16)
# Beside those it lists what can be wrong, field by field: of a recipe 4,600 bodies, two thirds of them another kind of value.
OF_EACH_FAULT = often(2, 10_000)
# A recipe can be wrong in thousands of ways, each of which is made up. They are tried as a paired maker (the gate is
# all that differs) and where a recipe is first kept: what else takes one reads it by the same schema, and is tried
# with good bodies alone.
WRONG_RECIPES_AT = "PUT /api/v1/recipes/{recipe_id}"
# To list what can be wrong here takes half a minute each: it is made up in full before any is chosen, and what is no
# name is seldom hit on. In `make test` these get examples that are made up one by one.
LISTED_IN_CHAOS = (
    WRONG_RECIPES_AT,
    "PATCH /api/v1/devices/{device_id}",
    "POST /api/v1/pair",
    "PUT /api/v1/recipes/{recipe_id}/filing",
    "PUT /api/v1/runs/{run_id}",
)
TAKES_A_RECIPE = (
    WRONG_RECIPES_AT,
    "PUT /api/v1/recipes/{recipe_id}/versions/{version}",
    "POST /api/v1/checks",
)

# The live line does not end (tests/api/test_live.py), and the document is not in itself.
PLACED = re.compile(r"<(?:[^:<>]+:)?")
APART = {"GET /api/v1/live", "GET /api/v1/openapi.json"}
FOLDER = TemporaryDirectory()


def addresses() -> list[str]:
    """All that is answered, as the document writes it; taken from the addresses themselves, which is quick."""
    app = create_app(Settings(database=Path(FOLDER.name) / "none.sqlite3"))
    found = {
        f"{method} {PLACED.sub(r'{', rule.rule).replace('>', '}')}"
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith("/api/v1/")
        for method in rule.methods or ()
        if method.lower() in METHODS
    }
    return sorted(found - APART)


TO_A_MAKER = addresses()
TO_ANYONE_HERE = [each for each in TO_A_MAKER if each not in TAKES_A_RECIPE]
HERE_NOW = TO_ANYONE_HERE[::8]  # the gate is all that differs: the others are asked in `make chaos`


def open_studio(name: str, **how: Any) -> Any:
    app = create_app(Settings(database=Path(FOLDER.name) / f"{name}.sqlite3", **how))
    store.migrate(app)
    return app


def furnish(client: Any) -> None:
    studio = Studio(client)
    run = studio.with_run()
    studio.post(run, make_entry(run))


@cache
def local() -> tuple[Any, Any]:
    """A studio with a recipe and a run with an entry, for all the examples, and who asks it."""
    app = open_studio("local")
    furnish(client := app.test_client())
    return app, client


@cache
def of_a_maker() -> tuple[Any, Any]:
    """The same where devices pair, and a maker's device."""
    app = open_studio("paired", pairing=True)
    furnish(maker := paired(app))
    return app, maker


TRIED = settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=not AT_RANDOM,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@cache
def described(paired: bool, *, wrong: bool = True) -> Any:
    """What the studio says of itself, to Schemathesis; without wrong questions where they are not to be made up."""
    import schemathesis

    app, client = of_a_maker() if paired else local()
    auth = {"auth": {"openapi": {"device": {"api_key": cookie_of(client)}}}} if paired else {}
    good = {} if wrong else {"generation": {"mode": "positive"}}
    checks = {"positive_data_acceptance": {"expected-statuses": ANSWERS_TO_WELL_FORMED}}
    schema = schemathesis.openapi.from_dict(
        client.get("/api/v1/openapi.json").json,
        config=schemathesis.Config.from_dict({"checks": checks, **auth, **good}),
    )
    schema.app = app
    return schema


# Where nobody needs to pair the same code answers behind an open gate: a few examples say that it does, and what is
# made up field by field is tried as a paired maker alone. So it is with a good recipe at its second and third address.
TRIED_LESS = settings(TRIED, max_examples=EXAMPLES // 2 + 1, phases=[Phase.generate])


def try_all(operation: str, test: Callable[[Any], None], *, paired: bool) -> None:
    """Try an operation with examples of every kind, made up here: what collects the tests would make all of them."""
    from schemathesis.core.failures import FailureGroup
    from schemathesis.pytest.lazy import get_all_tests

    wrong = AT_RANDOM or operation not in TAKES_A_RECIPE or operation == WRONG_RECIPES_AT
    asked = described(paired, wrong=wrong).include(name=operation)
    is_listed = wrong and (IS_CHAOS or operation not in LISTED_IN_CHAOS)
    how = TRIED if paired and is_listed else TRIED_LESS
    (made,) = get_all_tests(schema=asked, test_func=test, settings=how, given_kwargs=None)
    _, run = made.ok()
    if listed := getattr(run, "hypothesis_explicit_examples", None):
        run.hypothesis_explicit_examples = of_each_fault(listed)
    try:
        run()
    except FailureGroup as found:
        raise AssertionError(
            "\n".join([f"{operation}:", str(found), *getattr(found, "__notes__", [])])
        ) from None


def of_each_fault(examples: list[Any]) -> list[Any]:
    """Some of each kind that Schemathesis names, from first to last."""
    kinds = defaultdict[Any, list[Any]](list)
    for each in examples:
        meta = each.kwargs["case"].meta
        kinds[meta.generation.mode, getattr(meta.phase.data, "scenario", None)].append(each)
    return [each for kind in kinds.values() for each in kind[:: -(-len(kind) // OF_EACH_FAULT)]]


def as_described(case: Any) -> None:
    case.call_and_validate(headers={"Accept-Encoding": "identity"})


@pytest.mark.parametrize(
    "operation",
    [each if each in HERE_NOW else in_chaos(each) for each in TO_ANYONE_HERE],
)
def test_the_api_does_what_the_document_says(operation: str) -> None:
    try_all(operation, as_described, paired=False)


@pytest.mark.parametrize("operation", TO_A_MAKER)
def test_the_api_does_what_the_document_says_to_a_paired_maker(operation: str) -> None:
    def as_described_at_any_rate(case: Any) -> None:
        of_a_maker()[0].extensions[limits.RATES].forget()
        as_described(case)

    try_all(operation, as_described_at_any_rate, paired=True)


def test_every_address_is_tried() -> None:
    document = of_a_maker()[1].get("/api/v1/openapi.json").json

    assert sorted(f"{method} {path}" for method, _, path in operations(document)) == sorted(
        {*TO_A_MAKER, "GET /api/v1/live"}
    )


@pytest.mark.parametrize("studio", [in_chaos(local), of_a_maker])
def test_the_document_is_valid_openapi_3_1(studio: Callable[[], tuple[Any, Any]]) -> None:
    document = studio()[1].get("/api/v1/openapi.json").json

    assert document["openapi"].startswith("3.1")
    validate(document)


def test_the_document_says_which_cookie_lets_in_and_where_none_is_needed() -> None:
    document = of_a_maker()[1].get("/api/v1/openapi.json").json

    assert document["components"]["securitySchemes"]["device"] == {
        "type": "apiKey",
        "in": "cookie",
        "name": COOKIE,
    }
    assert document["security"] == [{"device": []}]
    open_to_all = [
        path
        for path, methods in document["paths"].items()
        for method, each in methods.items()
        if method in METHODS and each.get("security") == []
    ]
    assert open_to_all == ["/api/v1/pair"]
    assert "security" not in local()[1].get("/api/v1/openapi.json").json


@pytest.mark.parametrize("what", ["now", "record"])
def test_what_the_bench_says_is_described_to_the_inside(what: str) -> None:
    document = of_a_maker()[1].get("/api/v1/openapi.json").json
    answer = document["paths"][f"/api/v1/runs/{{run_id}}/{what}"]["get"]["responses"]["200"]
    name = answer["content"]["application/json"]["schema"]["$ref"].rpartition("/")[2]
    described = document["components"]["schemas"][name]["properties"]

    maker = of_a_maker()[1]
    run = maker.get("/api/v1/runs").json["runs"][0]["id"]
    assert maker.get(f"/api/v1/runs/{run}/{what}").json.keys() >= described.keys()
    items = [each["items"] for each in described.values() if each.get("type") == "array"]
    assert len(items) >= 5 and all(each for each in items)
