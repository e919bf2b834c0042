"""Every address of the API is in its document; that the document is true, test_schemathesis.py sees to."""

from __future__ import annotations

import re
from typing import Any


def test_every_address_of_the_api_is_in_the_document(app: Any, client: Any) -> None:
    documented = client.get("/api/v1/openapi.json").json["paths"]
    rules = {
        re.sub(r"<(?:[^:>]*:)?(\w+)>", r"{\1}", rule.rule)
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith("/api/v1/")
    }

    assert documented.keys() == rules - {"/api/v1/openapi.json"}
