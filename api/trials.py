"""Trials of a recipe: variants with one change each, what their batches came to, and which became the next version.

A variant is a recipe that says whose it is (`bench/trials.py`); its batches are batches like any other.
"""

from __future__ import annotations

import json
from typing import NotRequired, TypedDict, cast
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, func, select, update

import bench
from api.answers import RecipeWhole, Trials, Variant, VariantBatch
from api.batches import batches_in
from api.clock import now_ms
from api.errors import Problem, not_found
from api.kit import measured_kit
from api.recipes import VersionRow, current_version, keep_version, version_or_404, whole_of
from api.schemas import TrialAsked, TrialWon
from api.shapes_openapi import shape
from api.store import execute, reading, writing
from api.tables import Recipe, Run
from api.wire import Blueprint, answer, unkept
from bench import (
    JsonObject,
    Kit,
    MeasuredRecipe,
    RecipeError,
    VariantChange,
    WrittenOrigin,
    WrittenRecipe,
    words,
)

blueprint = Blueprint("trials", __name__, description="Trials: variants of a recipe, and which won")

OF_RECIPE = (
    " FROM recipe JOIN recipe_version"
    " ON recipe_version.recipe_id = recipe.id AND recipe_version.version = recipe.version"
    " WHERE json_extract(document, '$.trial.recipe') = :recipe"
)
VARIANTS = f"SELECT recipe.id{OF_RECIPE} AND archived_at IS NULL ORDER BY recipe.title, id"
EVERY = f"SELECT count(*){OF_RECIPE}"
LAST = 30
SMALL_MG = 100_000


class VariantAsked(TypedDict):
    id: UUID
    change: NotRequired[VariantChange | None]


class Asked(TypedDict):
    """`api.schemas.TrialAsked`, read."""

    version: int
    judges: list[str]
    variants: list[VariantAsked]


@blueprint.get("/recipes/<uuid:recipe_id>/trials")
@blueprint.response(200, shape(Trials))
def get_trials(recipe_id: UUID) -> Response:
    """The variants that are tried now, each with its change and batches, beside the first of them. For makers alone."""
    with reading() as connection:
        return unkept(answer(_told(connection, _here(connection, recipe_id))))


@blueprint.post("/recipes/<uuid:recipe_id>/trials")
@blueprint.arguments(TrialAsked())
@blueprint.response(200, shape(Trials))
def post_trial(asked: Asked, recipe_id: UUID) -> Response:
    """Try variants of a version, one change each or none; the same ids again change nothing."""
    with writing() as connection:
        _here(connection, recipe_id)
        version = version_or_404(connection, str(recipe_id), asked["version"])
        place = execute(connection, EVERY, {"recipe": str(recipe_id)}).fetchone()[0]
        for number, variant in enumerate(asked["variants"]):
            if current_version(connection, str(variant["id"])) is None:
                _add(connection, version, variant, asked["judges"], place, f"variants.{number}")
                place += 1
        return answer(_told(connection, _here(connection, recipe_id)))


@blueprint.post("/recipes/<uuid:recipe_id>/trials/winner")
@blueprint.arguments(TrialWon())
@blueprint.response(200, shape(RecipeWhole))
@blueprint.alt_response(409, description="The recipe has another version by now, or that is no variant of it")
def post_winner(asked: dict[str, str | int], recipe_id: UUID) -> Response:
    """Make a variant the recipe's next version, which says where it came from; its trial is archived."""
    with writing() as connection:
        now = _here(connection, recipe_id)
        variant = current_version(connection, str(asked["variant"]))
        document: WrittenRecipe | None = json.loads(variant.document) if variant else None
        origin = document.get("trial") if document else None
        if variant is None or document is None or origin is None or origin["recipe"] != now.recipe_id:
            raise Problem(409, words.say("api-studio-no-variant"))
        if now.version != asked["version"]:
            raise Problem(409, words.say("api-errors-changed-since", what="recipe"))
        came: WrittenOrigin = {
            "recipe": variant.recipe_id,
            "version": variant.version,
            "letter": origin["letter"],
        }
        won = bench.trial_winner(json.loads(now.document), document, came)
        at = now_ms()
        kept = keep_version(
            connection, now.recipe_id, now.version + 1, cast(JsonObject, won), bench.read_recipe(won), at
        )
        tried = _variants(connection, now.recipe_id)
        connection.execute(update(Recipe).where(Recipe.id.in_(tried)).values(archived_at=at))
    return whole_of(kept)


def _here(connection: Connection, recipe_id: UUID) -> VersionRow:
    found = current_version(connection, str(recipe_id))
    return found if found is not None else not_found("recipe", "/api/v1/recipes")


def _variants(connection: Connection, recipe: str) -> list[str]:
    return [id_ for (id_,) in execute(connection, VARIANTS, {"recipe": recipe}).fetchall()]


def _add(
    connection: Connection, of: VersionRow, asked: VariantAsked, judges: list[str], place: int, where: str
) -> None:
    origin: WrittenOrigin = {
        "recipe": of.recipe_id,
        "version": of.version,
        "letter": bench.trial_letter(place),
    }
    try:
        made = bench.trial_variant(json.loads(of.document), origin, asked.get("change"), judges)
        measured = bench.read_recipe(made)
    except bench.BenchError as error:
        raise RecipeError(f"{where}.{error.where}", error.says) from None
    keep_version(connection, str(asked["id"]), 1, cast(JsonObject, made), measured, now_ms())


def _told(connection: Connection, recipe: VersionRow) -> Trials:
    kit = measured_kit(connection)
    found = _variants(connection, recipe.recipe_id)
    rows = [row for id_ in found if (row := current_version(connection, id_))]
    variants = [_variant(connection, row, kit) for row in rows]
    for each in variants[1:]:
        each["differences"] = bench.outcomes(
            1,
            [batch["figures"] for batch in variants[0]["batches"]],
            2,
            [batch["figures"] for batch in each["batches"]],
        )["differences"]
    return {
        "recipe": recipe.recipe_id,
        "version": recipe.version,
        "variants": variants,
        "choices": bench.trial_choices(json.loads(recipe.document)),
    }


def _variant(connection: Connection, row: VersionRow, kit: Kit) -> Variant:
    document: WrittenRecipe = json.loads(row.document)
    origin = document["trial"]
    of = version_or_404(connection, origin["recipe"], origin["version"])
    named = {"recipe": row.recipe_id, "limit": LAST}
    last = list(batches_in(connection, "WHERE recipe_id = :recipe", named, "LIMIT :limit"))
    batches: list[VariantBatch] = [
        {"run": each.run, "number": each.number, "figures": each.figures} for each in last[::-1]
    ]
    is_open = select(func.count()).where(Run.recipe_id == row.recipe_id, Run.finished_at.is_(None))
    return {
        "recipe": row.recipe_id,
        "letter": origin["letter"],
        "of_version": origin["version"],
        "title": row.title,
        "changes": bench.trial_changes(json.loads(of.document), document),
        "judges": document.get("good_piece", {}).get("judge", []),
        "small_pieces": _small(json.loads(row.measured), kit),
        "open": connection.scalar(is_open) or 0,
        "batches": batches,
        "differences": [],
    }


def _small(recipe: MeasuredRecipe, kit: Kit) -> int:
    """As many pieces as weigh some 100 g; one where that cannot be said of a recipe."""
    try:
        return bench.choose_size(recipe, kit, {"by": "mass", "mg": SMALL_MG})["size"]["pieces"]
    except bench.BenchError:
        return 1
