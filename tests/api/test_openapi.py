"""The OpenAPI document is valid, and true: what it says is what the API does."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from openapi_spec_validator import validate

from api import create_app, store
from api.settings import Settings
from tests.api.studio import Studio
from tests.make import make_entry

# Of the right shape and still not to be had: no such id, no If-Match, a size that cannot be.
ANSWERS_TO_WELL_FORMED = ["2xx", "304", "404", "409", "412", "422", "428"]
EXAMPLES = 15


FOLDER = TemporaryDirectory()
APP = create_app(Settings(database=Path(FOLDER.name) / "bowlside.sqlite3"))
SCHEMA = schemathesis.openapi.from_wsgi(
    "/api/v1/openapi.json",
    APP,
    config=schemathesis.Config.from_dict(
        {"checks": {"positive_data_acceptance": {"expected-statuses": ANSWERS_TO_WELL_FORMED}}}
    ),
)


@pytest.fixture(scope="module")
def furnished() -> None:
    """A recipe and a run with an entry, for all the examples."""
    store.migrate(APP)
    studio = Studio(APP.test_client())
    run = studio.with_run()
    studio.post(run, make_entry(run))


def test_the_document_is_valid_openapi_3_1(client: Any) -> None:
    document = client.get("/api/v1/openapi.json").json

    assert document["openapi"].startswith("3.1")
    validate(document)


def test_every_address_of_the_api_is_in_the_document(app: Any, client: Any) -> None:
    documented = client.get("/api/v1/openapi.json").json["paths"]
    rules = {rule.rule for rule in app.url_map.iter_rules() if rule.rule.startswith("/api/v1/")}

    assert len(documented) == len(rules - {"/api/v1/openapi.json"})


@SCHEMA.parametrize()
@settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=True,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
def test_the_api_does_what_the_document_says(case: Any, furnished: None) -> None:
    case.call_and_validate(headers={"Accept-Encoding": "identity"})
