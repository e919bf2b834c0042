"""Recipes and their versions. An edit adds a version; what was is kept."""

from __future__ import annotations

import codecs
import json
from io import BytesIO
from typing import NamedTuple, TypedDict
from uuid import UUID

import segno
from flask import Response, request
from sqlalchemy import Connection, func, insert, select, update
from werkzeug.http import quote_etag

import bench
from api import filing, generation
from api.answers import (
    Changes,
    Checked,
    Findings,
    RecipePage,
    RecipeWhole,
    SizedRecipe,
    Swaps,
    VersionPage,
    WholePage,
)
from api.clock import now_ms
from api.errors import Problem, not_found
from api.kit import measured_kit
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH, RECIPE_REF, document_body
from api.schemas import Air, PageQuery, Since, SizeRequest, SwapQuery, WholePageQuery
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import Recipe, RecipeVersion
from api.wire import (
    Blueprint,
    PageAsked,
    answer,
    answer_text,
    first_of,
    paged,
    pages_of,
    read_document,
    refuse_unless_read,
)
from bench import ChosenSize, JsonObject, Kit, MeasuredRecipe, RecipeRef, RoomAir, Sheet, canonical, words

SVG = "image/svg+xml"
AS_JSON = "as-json"  # of what an encoding lacks: the escape that JSON has for it

blueprint = Blueprint("recipes", __name__, description="Recipes, their versions, their check and their sheet")


class SinceAsked(TypedDict, total=False):
    """`api.schemas.Since`, read."""

    since: int


class AirAsked(TypedDict, total=False):
    """`api.schemas.Air`, read."""

    temperature_c: float
    humidity: float


class SwapAsked(TypedDict):
    """`api.schemas.SwapQuery`, read."""

    line: str


class VersionRow(NamedTuple):
    """A version of a recipe as the database has it; document and measured are canonical JSON."""

    recipe_id: str
    version: int
    title: str
    document: str
    measured: str
    created_at: int


A_VERSION = select(
    RecipeVersion.recipe_id,
    RecipeVersion.version,
    RecipeVersion.title,
    RecipeVersion.document,
    RecipeVersion.measured,
    RecipeVersion.created_at,
)


@blueprint.get("/recipes")
@blueprint.arguments(PageQuery(), location="query")
@blueprint.response(200, shape(RecipePage))
def list_recipes(asked: PageAsked) -> Response:
    """The recipes, by title."""
    with reading() as connection:
        total = connection.scalar(select(func.count()).select_from(Recipe)) or 0
        rows = connection.execute(
            select(*filing.ITEM)
            .order_by(Recipe.title, Recipe.id)
            .limit(asked["page_size"])
            .offset(first_of(asked))
        )
        items = [filing.item(row) for row in rows.mappings()]
    return paged("recipes", items, total, asked)


@blueprint.get("/recipes/all")
@blueprint.arguments(WholePageQuery(), location="query")
@blueprint.response(200, shape(WholePage))
def list_whole_recipes(asked: PageAsked) -> Response:
    """The recipes as they are now, each as written and measured, in the same order: for a phone that has none yet.

    What each says stands on a line of its own, so that a phone keeps the line and reads it when it is asked for. With
    what is beyond ASCII escaped, a browser holds a byte a character.
    """
    with reading() as connection:
        total = connection.scalar(select(func.count()).select_from(Recipe)) or 0
        rows = connection.execute(
            A_VERSION.add_columns(Recipe.tags, Recipe.archived_at)
            .join(Recipe, (Recipe.id == RecipeVersion.recipe_id) & (Recipe.version == RecipeVersion.version))
            .order_by(Recipe.title, Recipe.id)
            .limit(asked["page_size"])
            .offset(first_of(asked))
        ).all()
    heads = ",".join(_kept_head(VersionRow(*row), tags, archived_at) for *row, tags, archived_at in rows)
    said = ",".join(f"\n{{{_documents_of(VersionRow(*row))}}}" for *row, _, _ in rows)
    of = f'"page":{asked["page"]},"pages":{pages_of(total, asked)},"total":{total}'
    text = f'{{"recipes":[{heads}],{of},"said":[{said}\n]}}'
    return answer_text(text.encode("ascii", AS_JSON))


@blueprint.put("/recipes/<uuid:recipe_id>")
@blueprint.doc(requestBody=document_body(RECIPE_REF), parameters=[IF_MATCH])
@blueprint.response(200, shape(RecipeWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(RecipeWhole), headers=ETAG, success=True, description="Created")
def put_recipe(recipe_id: UUID) -> Response:
    """Create a recipe, or edit it with If-Match; an edit becomes a new version.

    Sending what is there already changes nothing, so a PUT whose answer was lost can be sent again.
    """
    document = read_document()
    measured = bench.read_recipe(document)
    with writing() as connection:
        now = current_version(connection, str(recipe_id))
        if now and now.document == canonical(document) and not request.if_none_match.star_tag:
            return whole_of(now)
        refuse_unless_read(connection, now.version if now is not None else None, "recipe")
        number = now.version + 1 if now is not None else 1
        kept = keep_version(connection, str(recipe_id), number, document, measured, now_ms())
    return whole_of(kept, 200 if now is not None else 201)


@blueprint.get("/recipes/<uuid:recipe_id>")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(RecipeWhole), headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_recipe(recipe_id: UUID) -> Response:
    """A recipe as it is now: as written, and measured."""
    return whole_of(_current_or_404(recipe_id))


@blueprint.get("/recipes/<uuid:recipe_id>/versions")
@blueprint.arguments(PageQuery(), location="query")
@blueprint.response(200, shape(VersionPage))
def list_versions(asked: PageAsked, recipe_id: UUID) -> Response:
    """A recipe's versions, the newest first."""
    now = _current_or_404(recipe_id)
    with reading() as connection:
        total = connection.scalar(
            select(func.count()).select_from(RecipeVersion).where(RecipeVersion.recipe_id == now.recipe_id)
        )
        rows = connection.execute(
            select(RecipeVersion.version, RecipeVersion.title, RecipeVersion.created_at)
            .where(RecipeVersion.recipe_id == now.recipe_id)
            .order_by(RecipeVersion.version.desc())
            .limit(asked["page_size"])
            .offset(first_of(asked))
        )
        return paged("versions", [dict(row) for row in rows.mappings()], total or 0, asked)


@blueprint.get("/recipes/<uuid:recipe_id>/versions/<int(min=1, max=2147483647):version>")
@blueprint.response(200, shape(RecipeWhole), headers=ETAG)
def get_version(recipe_id: UUID, version: int) -> Response:
    """One version of a recipe. It never changes."""
    with reading() as connection:
        return whole_of(version_or_404(connection, str(recipe_id), version))


@blueprint.put("/recipes/<uuid:recipe_id>/versions/<int(min=1, max=1000000):version>")
@blueprint.doc(requestBody=document_body(RECIPE_REF))
@blueprint.response(200, shape(RecipeWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(RecipeWhole), headers=ETAG, success=True, description="Created")
def put_version(recipe_id: UUID, version: int) -> Response:
    """Put back a version that this server lacks, from whoever still has it. One that is here never changes."""
    document = read_document()
    measured = bench.read_recipe(document)
    with writing() as connection:
        here = find_version(connection, str(recipe_id), version)
        if here is None:
            kept = keep_version(connection, str(recipe_id), version, document, measured, now_ms())
            return whole_of(kept, 201)
    if here.document != canonical(document):
        raise Problem(409, words.say("api-studio-other-text"))
    return whole_of(here)


@blueprint.get("/recipes/<uuid:recipe_id>/versions/<int(min=1, max=2147483647):version>/changes")
@blueprint.arguments(Since(), location="query")
@blueprint.response(200, shape(Changes))
def get_changes(asked: SinceAsked, recipe_id: UUID, version: int) -> Response:
    """What a version changed, in words: against the one before, or against `since`."""
    since = asked.get("since", version - 1)
    with reading() as connection:
        new = version_or_404(connection, str(recipe_id), version)
        old = version_or_404(connection, str(recipe_id), since) if since else None
    said = bench.what_changed(json.loads(old.document), json.loads(new.document)) if old is not None else []
    return answer({"version": version, "since": since or None, "changes": said})


@blueprint.get("/recipes/<uuid:recipe_id>/qr.svg")
@blueprint.response(200, {"type": "string"}, content_type=SVG)
def get_qr(recipe_id: UUID) -> Response:
    """The recipe's card as a QR code: its address, as this server was asked for just now."""
    _current_or_404(recipe_id)
    drawn = BytesIO()
    # Black on white with its own quiet zone, so that it can be read from a dark screen too.
    segno.make(f"{request.host_url}#/card/{recipe_id}", error="m").save(
        drawn, kind="svg", xmldecl=False, light="#fff", border=4, omitsize=True
    )
    return Response(drawn.getvalue(), mimetype=SVG, headers={"Cache-Control": "no-cache"})


@blueprint.get("/recipes/<uuid:recipe_id>/checks")
@blueprint.arguments(Air(), location="query")
@blueprint.response(200, shape(Findings))
def check_recipe(air: AirAsked, recipe_id: UUID) -> Response:
    """What the recipe check says, with the studio's kit, and with today's air where it is given."""
    measured = _measured_again(_current_or_404(recipe_id))
    return answer({"findings": bench.check_recipe(measured, _room(air), _kit())})


@blueprint.get("/recipes/<uuid:recipe_id>/swaps")
@blueprint.arguments(SwapQuery(), location="query")
@blueprint.response(200, shape(Swaps))
def list_swaps(asked: SwapAsked, recipe_id: UUID) -> Response:
    """What each substitute of a line would change: the weight, the method, the check and the label."""
    measured, kit = _measured_again(_current_or_404(recipe_id)), _kit()
    stand_ins = bench.swaps_of(measured, asked["line"])
    return answer({"swaps": [bench.swap_effects(measured, asked["line"], each, kit) for each in stand_ins]})


@blueprint.post("/checks")
@blueprint.doc(requestBody=document_body(RECIPE_REF))
@blueprint.arguments(Air(), location="query")
@blueprint.response(200, shape(Checked))
def check_document(air: AirAsked) -> Response:
    """Read and check a recipe without keeping it: for a recipe being written, or one from a file."""
    measured = bench.read_recipe(read_document())
    return answer({"measured": measured, "findings": bench.check_recipe(measured, _room(air), _kit())})


@blueprint.post("/recipes/<uuid:recipe_id>/sheet")
@blueprint.arguments(SizeRequest())
@blueprint.response(200, shape(SizedRecipe))
def size_recipe(asked: bench.SizeRequest, recipe_id: UUID) -> Response:
    """The sheet for a size: every weight on a scale, every wait and burst. Nothing is kept."""
    kit = _kit()
    chosen, sheet = sized(_current_or_404(recipe_id), kit, asked)
    return answer(
        {
            **chosen,
            "sheet": sheet,
            "why": {
                part["id"]: [bench.reason_words(each) for each in part["why"]] for part in sheet["components"]
            },
            "warnings": [bench.warning_words(each) for each in sheet["warnings"]],
        }
    )


def _room(air: AirAsked) -> RoomAir | None:
    """Both were given, or neither (`api.schemas.Air`)."""
    if "temperature_c" not in air:
        return None
    return {"temperature_c": air["temperature_c"], "humidity": air["humidity"]}


def sized(version: VersionRow, kit: Kit, asked: bench.SizeRequest) -> tuple[ChosenSize, Sheet]:
    """A size of a version, and its sheet."""
    measured = _measured(version)
    chosen = bench.choose_size(measured, kit, asked)
    ref: RecipeRef = {"id": version.recipe_id, "version": version.version}
    return chosen, bench.make_sheet(measured, ref, chosen["size"], kit)


def current_version(connection: Connection, recipe_id: str) -> VersionRow | None:
    """The version that holds now."""
    found = connection.execute(
        A_VERSION.join(Recipe, Recipe.id == RecipeVersion.recipe_id).where(
            Recipe.id == recipe_id, Recipe.version == RecipeVersion.version
        )
    ).one_or_none()
    return VersionRow(*found) if found is not None else None


def find_version(connection: Connection, recipe_id: str, version: int) -> VersionRow | None:
    found = connection.execute(
        A_VERSION.where(RecipeVersion.recipe_id == recipe_id, RecipeVersion.version == version)
    ).one_or_none()
    return VersionRow(*found) if found is not None else None


def version_or_404(connection: Connection, recipe_id: str, version: int) -> VersionRow:
    found = find_version(connection, recipe_id, version)
    return found if found is not None else not_found("version", f"/api/v1/recipes/{recipe_id}/versions")


def keep_version(
    connection: Connection,
    recipe_id: str,
    version: int,
    document: JsonObject,
    measured: MeasuredRecipe,
    at: int,
) -> VersionRow:
    """Add a version, to a recipe that is here or a new one; the latest is the current one."""
    kept = VersionRow(
        recipe_id, version, str(document["title"]), canonical(document), canonical(measured), at
    )
    head = {
        "version": version,
        "title": kept.title,
        "summary": document.get("summary", ""),
        "updated_at": at,
    }
    current = connection.scalar(select(Recipe.version).where(Recipe.id == recipe_id))
    if current is None:
        connection.execute(insert(Recipe).values(id=recipe_id, **head))
    elif version > current:
        connection.execute(update(Recipe).where(Recipe.id == recipe_id).values(**head))
    connection.execute(insert(RecipeVersion).values(**kept._asdict()))
    filing.refresh(connection, recipe_id)
    return kept


def _current_or_404(recipe_id: UUID) -> VersionRow:
    with reading() as connection:
        found = current_version(connection, str(recipe_id))
    return found if found is not None else not_found("recipe", "/api/v1/recipes")


def _kit() -> Kit:
    with reading() as connection:
        return measured_kit(connection)


def _measured_again(row: VersionRow) -> MeasuredRecipe:
    """Read from the document: the check may look at what an earlier version of this program did not measure."""
    measured: MeasuredRecipe = bench.read_recipe(json.loads(row.document), kept=True)
    return measured


def _measured(row: VersionRow) -> MeasuredRecipe:
    measured: MeasuredRecipe = json.loads(row.measured)
    return measured


def whole_of(row: VersionRow, status: int = 200) -> Response:
    return answer_text(_whole_text(row), status, etag=str(row.version))


def _kept_head(row: VersionRow, tags: str, archived_at: int | None) -> str:
    """Of a recipe as a phone keeps it all but what it says, with how it is filed."""
    etag = json.dumps(quote_etag(generation.tag(row.version)))
    return f'{{{_head_of(row)},"etag":{etag},"tags":{tags},"archived_at":{json.dumps(archived_at)}}}'


def _whole_text(row: VersionRow) -> str:
    """Its documents are JSON text already, and stay as they are."""
    return f"{{{_head_of(row)},{_documents_of(row)}}}"


def _escaped(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return json.dumps(error.object[error.start : error.end])[1:-1], error.end


codecs.register_error(AS_JSON, _escaped)


def _head_of(row: VersionRow) -> str:
    title = json.dumps(row.title)
    return f'"id":"{row.recipe_id}","version":{row.version},"title":{title},"updated_at":{row.created_at}'


def _documents_of(row: VersionRow) -> str:
    return f'"document":{row.document},"measured":{row.measured}'
