"""How the studio files its recipes: tags, and an archive of those it does not make now. No version is touched by it."""

from __future__ import annotations

import json
from typing import TypedDict
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, RowMapping, select, update

from api.answers import RecipeItem
from api.clock import now_ms
from api.errors import not_found
from api.schemas import FilingWritten
from api.searching import kept_to_search
from api.shapes_openapi import shape
from api.store import writing
from api.tables import Recipe, RecipeVersion
from api.wire import Blueprint, answer
from bench import JsonObject

blueprint = Blueprint("filing", __name__, description="Tags of recipes, and their archive")

LONGEST = 4000
ITEM = (
    Recipe.id,
    Recipe.version,
    Recipe.title,
    Recipe.summary,
    Recipe.updated_at,
    Recipe.tags,
    Recipe.archived_at,
)


class FilingSaid(TypedDict):
    """`api.schemas.FilingWritten`, read."""

    tags: list[str]
    archived: bool


class FilingGiven(TypedDict):
    """How a recipe of an export is filed (`api.schemas.StudioFiling`), read."""

    tags: list[str]
    archived_at: int | None


@blueprint.put("/recipes/<uuid:recipe_id>/filing")
@blueprint.arguments(FilingWritten())
@blueprint.response(200, shape(RecipeItem))
def put_filing(said: FilingSaid, recipe_id: UUID) -> Response:
    """File a recipe: all of its tags, and whether it is archived. What was said last holds for all devices."""
    with writing() as connection:
        row = _row(connection, str(recipe_id))
        if row is None:
            not_found("recipe", "/api/v1/recipes")
        archived_at = (row["archived_at"] or now_ms()) if said["archived"] else None
        _file(connection, str(recipe_id), {"tags": said["tags"], "archived_at": archived_at})
        row = _row(connection, str(recipe_id))
    assert row is not None
    return answer(item(row))


def item(row: RowMapping) -> RecipeItem:
    """A recipe as it is listed."""
    return {
        "id": row["id"],
        "version": row["version"],
        "title": row["title"],
        "summary": row["summary"],
        "updated_at": row["updated_at"],
        "tags": json.loads(row["tags"]),
        "archived_at": row["archived_at"],
    }


def searched(document: JsonObject, tags: list[str]) -> str:
    """What a recipe is found by: its title, summary, parts, ingredients and tags."""
    parts, ingredients = document.get("components"), document.get("ingredients")
    named = [*(parts if isinstance(parts, list) else [])]
    named += ingredients.values() if isinstance(ingredients, dict) else []
    names = [str(each.get("name", "")) for each in named if isinstance(each, dict)]
    return kept_to_search(
        " ".join([str(document.get("title", "")), str(document.get("summary", "")), *names, *tags]), LONGEST
    )


def refresh(connection: Connection, recipe_id: str) -> None:
    """Note anew what a recipe is found by, once its newest version or its tags are other ones."""
    found = connection.execute(
        select(RecipeVersion.document, Recipe.tags)
        .join(Recipe, (Recipe.id == RecipeVersion.recipe_id) & (Recipe.version == RecipeVersion.version))
        .where(Recipe.id == recipe_id)
    ).one()
    text = searched(json.loads(found.document), json.loads(found.tags))
    connection.execute(update(Recipe).where(Recipe.id == recipe_id).values(search=text))


def take_in(connection: Connection, recipe_id: str, given: FilingGiven) -> None:
    """File a recipe as another studio had it, where it is not filed here."""
    row = _row(connection, recipe_id)
    if row is not None and row["tags"] == "[]" and row["archived_at"] is None:
        _file(connection, recipe_id, given)


def _file(connection: Connection, recipe_id: str, filing: FilingGiven) -> None:
    tags = list({" ".join(tag.split()): None for tag in filing["tags"]})
    connection.execute(
        update(Recipe)
        .where(Recipe.id == recipe_id)
        .values(tags=json.dumps(tags, ensure_ascii=False), archived_at=filing["archived_at"])
    )
    refresh(connection, recipe_id)


def _row(connection: Connection, recipe_id: str) -> RowMapping | None:
    return connection.execute(select(*ITEM).where(Recipe.id == recipe_id)).mappings().one_or_none()
