"""What every address really answers in a furnished studio is what the document says, to the last field."""

from __future__ import annotations

import re
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from api.demo import seed
from tests.api.doorway import paired
from tests.api.stock import gathered, weighed
from tests.api.studio import Studio
from tests.make import EVENINGS, make_entry, uuid4

JSON = "application/json"
PLACE = re.compile(r"\[\d+\]")
UNENDING = "/api/v1/live"


def furnish(app: Any, studio: Studio) -> dict[str, list[str]]:
    """The demo, and all that it has none of: what each name in an address can be."""
    with app.app_context():
        seed()
    run = studio.with_run()
    lots = [lot["id"] for lot in studio.get("/lots?page_size=100").json["lots"]]
    entries = [
        gathered(run, lots[0]),
        weighed(run, 4_000),
        make_entry(run, kind="weighed", body={"line": "soak.1.line_1", "mg": 90_000_000}),
        make_entry(run, kind="pictured", body={"picture": uuid4(), "sha256": "0" * 64}),
        make_entry(run, kind="levitated", body={"mm": 3}),
        make_entry(run, kind="numbered", body={"number": "D-A41"}),
        make_entry(run, kind="finished", body={}),
        make_entry(run, kind="signed", body={"name": "A. Maker"}),
        make_entry(run),
    ]
    assert {each["result"] for each in studio.post(run, *entries).json["answers"]} == {"kept"}
    studio.put_hours(EVENINGS)
    studio.client.put("/api/v1/settings", json={"batch_number": "{yy}-{n}", "currency": "EUR"})
    runs = [each["id"] for each in studio.get("/runs?page_size=100").json["runs"]]
    plan = studio.client.post("/api/v1/plans", json={"runs": runs[-1:]}).json["id"]
    studio.client.post(f"/api/v1/plans/{plan}/cancel")
    return {
        "run_id": runs,
        "recipe_id": [each["id"] for each in studio.get("/recipes").json["recipes"]],
        "lot_id": lots,
        "ingredient_id": [
            each["id"] for each in studio.get("/ingredients?page_size=100").json["ingredients"]
        ],
        "plan_id": [plan],
        "picture_id": [entries[3]["body"]["picture"]],
        "device_id": [],
        "version": ["1"],
    }


def addresses(path: str, known: dict[str, list[str]]) -> list[str]:
    filled = [path]
    for name, values in known.items():
        if f"{{{name}}}" in path:
            filled = [each.replace(f"{{{name}}}", value) for each in filled for value in values]
    return filled


def closed(node: Any) -> Any:
    """A schema that takes no field which it does not name: a later bench may say more, this one says it all."""
    if isinstance(node, dict):
        shut = {"additionalProperties": False} if node.get("properties") else {}
        return {**{key: closed(value) for key, value in node.items()}, **shut}
    return [closed(each) for each in node] if isinstance(node, list) else node


@pytest.mark.database("sqlite")
def test_every_real_answer_is_as_the_document_says(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker = Studio(paired(app))
    known = furnish(app, maker)
    document = maker.get("/openapi.json").json
    components = {"schemas": closed(document["components"]["schemas"])}
    wrong, seen = [], set()
    for path, methods in document["paths"].items():
        if path == UNENDING or "get" not in methods:
            continue
        for address in addresses(path, known):
            answer = maker.client.get(f"{address}?market=eu" if path.endswith("/label") else address)
            responses = methods["get"]["responses"]
            told = responses.get(str(answer.status_code), responses["default"])
            if "$ref" in told:
                told = document["components"]["responses"][told["$ref"].rpartition("/")[2]]
            assert answer.mimetype in told["content"], (path, answer.status, answer.mimetype)
            if answer.status_code == 200:
                seen.add(path)
            if answer.is_json:
                schema = {**told["content"][answer.mimetype]["schema"], "components": components}
                faults = Draft202012Validator(schema).iter_errors(answer.json)
                wrong += [
                    f"{path} {PLACE.sub('[]', each.json_path)}: {each.message[:200]}" for each in faults
                ]

    assert not wrong, "\n".join(sorted(set(wrong)))
    assert len(seen) > 25
