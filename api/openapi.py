"""The OpenAPI 3.1 document: served at /api/v1/openapi.json, and held true by the tests.

Recipes and kits are described by the bench's own JSON Schemas, and what the bench says by its shapes
(`api/shapes_openapi.py`), so there is one truth about them.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from copy import deepcopy
from functools import partial
from threading import Lock
from typing import Any

from apispec import APISpec
from flask import Flask
from flask_smorest import Api
from werkzeug.exceptions import HTTPException

from api.answers import ProblemDetails
from api.door.gate import COOKIE
from api.errors import PROBLEM_TYPE, from_http
from api.shapes_openapi import add_shapes, described, shape
from bench import KIT_SCHEMA, RECIPE_SCHEMA, JsonObject

RECIPE_REF: JsonObject = {"$ref": "#/components/schemas/RecipeDocument"}
KIT_REF: JsonObject = {"$ref": "#/components/schemas/KitDocument"}

JSON_BODY = "application/json"

IF_MATCH = {
    "name": "If-Match",
    "in": "header",
    "required": False,
    "description": "The ETag of what is edited. Not needed to create, nor to send the same again.",
    "schema": {"type": "string"},
}
IF_NONE_MATCH = {
    "name": "If-None-Match",
    "in": "header",
    "required": False,
    "description": "The ETag of what the asker has; the answer is 304 when nothing changed.",
    "schema": {"type": "string"},
}
ETAG = {"ETag": {"description": "Names this version", "schema": {"type": "string"}}}


def document_body(ref: JsonObject) -> JsonObject:
    """The requestBody of an operation that takes one of the bench's documents."""
    return {"required": True, "content": {JSON_BODY: {"schema": ref}}}


class BowlsideApi(Api):
    """The API, which is described when that is first asked for: describing it takes longer than all else of a start."""

    ERROR_SCHEMA = shape(ProblemDetails)

    def __init__(self, app: Flask) -> None:
        self._undescribed: deque[Callable[[], None]] = deque()
        self._describing = Lock()
        app.config.update(
            API_TITLE="Bowlside",
            API_VERSION="1",
            OPENAPI_VERSION="3.1.0",
            OPENAPI_URL_PREFIX="/api/v1",
            OPENAPI_JSON_PATH="openapi.json",
        )
        super().__init__(app)
        self.ma_plugin.converter.add_attribute_function(described)
        if app.config["BOWLSIDE"].pairing:
            self.spec.components.security_scheme("device", {"type": "apiKey", "in": "cookie", "name": COOKIE})
            self.spec.options["security"] = [{"device": []}]
        for name, schema in (("RecipeDocument", RECIPE_SCHEMA), ("KitDocument", KIT_SCHEMA)):
            self.describe_later(partial(add_document_schema, self.spec, name, schema))

    def describe_later(self, describe: Callable[[], None]) -> None:
        self._undescribed.append(describe)

    def _openapi_json(self) -> Any:
        with self._describing:
            if self._undescribed:
                while self._undescribed:
                    self._undescribed.popleft()()
                add_shapes(self.spec)
        return super()._openapi_json()

    def handle_http_exception(self, error: HTTPException) -> Any:
        return from_http(error)

    def _register_responses(self) -> None:
        """Errors leave as problem details, other answers as JSON."""
        self.DEFAULT_RESPONSE_CONTENT_TYPE = PROBLEM_TYPE
        super()._register_responses()
        del self.DEFAULT_RESPONSE_CONTENT_TYPE


def add_document_schema(spec: APISpec, name: str, schema: JsonObject) -> None:
    """Put a JSON Schema among the components; its `$defs` become components of their own."""
    whole = deepcopy(schema)
    whole.pop("$schema", None)
    whole.pop("$id", None)
    definitions = whole.pop("$defs", {})
    spec.components.schema(name, _relinked(whole, name))
    for inner, definition in definitions.items() if isinstance(definitions, dict) else ():
        spec.components.schema(f"{name}.{inner}", _relinked(definition, name))


def _relinked(node: Any, name: str) -> Any:
    if isinstance(node, dict):
        return {
            key: value.replace("#/$defs/", f"#/components/schemas/{name}.")
            if key == "$ref" and isinstance(value, str)
            else _relinked(value, name)
            for key, value in node.items()
        }
    return [_relinked(item, name) for item in node] if isinstance(node, list) else node
