"""A small client: the addresses of the API, in the words of a maker. Each call gives the response."""

from __future__ import annotations

from typing import Any

from tests.make import make_recipe, make_run, uuid4


class Studio:
    def __init__(self, client: Any) -> None:
        self.client = client

    def get(self, path: str, **headers: str) -> Any:
        return self.client.get(f"/api/v1{path}", headers=headers)

    @property
    def generation(self) -> str:
        found: str = self.get("/clock").json["generation"]
        return found

    def tag(self, version: object) -> str:
        """The ETag of a version, as the API writes it."""
        return f'"{self.generation[:8]}.{version}"'

    def put_recipe(self, recipe: str, document: Any, if_match: str | None = None) -> Any:
        headers = {"If-Match": if_match} if if_match else {}
        return self.client.put(f"/api/v1/recipes/{recipe}", json=document, headers=headers)

    def put_version(self, recipe: str, version: int, document: Any) -> Any:
        return self.client.put(f"/api/v1/recipes/{recipe}/versions/{version}", json=document)

    def put_kit(self, document: Any, if_match: str | None = None) -> Any:
        headers = {"If-Match": if_match} if if_match else {}
        return self.client.put("/api/v1/kit", json=document, headers=headers)

    def put_hours(self, document: Any, if_match: str | None = None) -> Any:
        headers = {"If-Match": if_match} if if_match else {}
        return self.client.put("/api/v1/hours", json=document, headers=headers)

    def put_run(self, run: str, body: Any) -> Any:
        return self.client.put(f"/api/v1/runs/{run}", json=body)

    def post(self, run: str, *entries: Any) -> Any:
        return self.client.post(f"/api/v1/runs/{run}/entries", json={"entries": list(entries)})

    def import_(self, document: Any) -> Any:
        return self.client.post("/api/v1/import", json=document)

    def with_recipe(self, **other: Any) -> dict[str, Any]:
        """A recipe that is there, as GET gives it."""
        recipe: dict[str, Any] = self.put_recipe(uuid4(), make_recipe(**other)).json
        return recipe

    def with_run(self, **other: Any) -> str:
        """The id of a run that was begun."""
        run = uuid4()
        assert self.put_run(run, make_run(self.with_recipe(), **other)).status_code == 201
        return run

    def with_run_of(self, title: str) -> str:
        """The id of a run that was begun, of a recipe with this title."""
        run = uuid4()
        assert self.put_run(run, make_run(self.with_recipe(title=title))).status_code == 201
        return run
