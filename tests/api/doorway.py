"""Devices at the door of a studio that pairs: codes, and clients that were let in by one."""

from __future__ import annotations

from typing import Any

from api.door.gate import COOKIE
from api.door.pairing import make_code
from api.store import writing


def code_for(app: Any, role: str = "maker") -> str:
    with app.app_context(), writing() as connection:
        return make_code(connection, role, app.config["BOWLSIDE"].clock_ms()).digits


def pair(client: Any, code: str, name: str = "Phone by the bowl", **more: Any) -> Any:
    return client.post("/api/v1/pair", json={"code": code, "name": name, **more})


def paired(app: Any, role: str = "maker", name: str = "Phone by the bowl", **more: Any) -> Any:
    """A client with a device's cookie; `.device` is what the server said of it."""
    client = app.test_client()
    answer = pair(client, code_for(app, role), name, **more)
    assert answer.status_code == 201, answer.text
    client.device = answer.json["device"]
    return client


def cookie_of(client: Any) -> str:
    value: str = client.get_cookie(COOKIE).value
    return value


def operations(document: dict[str, Any]) -> list[tuple[str, str, str]]:
    """Each operation of an OpenAPI document: its method, its path with something put in, and the path as written."""
    some_id = "11111111-1111-4111-8111-111111111111"
    found = []
    for path, methods in document["paths"].items():
        filled = path
        for name in (
            "recipe_id",
            "run_id",
            "device_id",
            "ingredient_id",
            "lot_id",
            "picture_id",
            "plan_id",
            "mark_id",
            "outlet_id",
            "entry_id",
            "want_id",
        ):
            filled = filled.replace(f"{{{name}}}", some_id)
        filled = filled.replace("{version}", "1")
        assert "{" not in filled, f"say what to put into {path}"
        found += [(method.upper(), filled, path) for method in methods if method in METHODS]
    return found


METHODS = ("get", "put", "post", "patch", "delete")
