"""What the maker says once for all batches: how they are numbered, money, and what stands on labels.

What an hour costs is between makers: a helper's device is told the rest.
"""

from __future__ import annotations

from typing import get_args

from flask import Response

import bench
from api.answers import MoneySaid, SettingsSaid, SettingsWhole
from api.door.gate import is_helper
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH
from api.schemas import SettingsWritten
from api.shapes_openapi import shape
from api.singletons import SingletonDocument
from api.store import reading
from api.tables import StudioSettings
from api.wire import Blueprint, answer
from bench import SettingError, words

blueprint = Blueprint("settings", __name__, description="How the studio numbers, reckons and labels")

# What a helper is not told, as it is not told what a batch cost.
DECIMALS: tuple[MoneySaid, ...] = get_args(MoneySaid)
MAKERS_OWN = (*DECIMALS, "cleaning_minutes", "labelling_seconds")


@blueprint.get("/settings")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(SettingsWhole), headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_settings() -> Response:
    """The settings. Version 0 has a pattern for batch numbers and nothing else. A helper is not told the rates."""
    with reading() as connection:
        now = SETTINGS.now(connection)
    if not is_helper():
        return now.answer()
    shared = {key: value for key, value in now.document.items() if key not in MAKERS_OWN}
    return answer({"version": now.version, "document": shared}, etag=f"{now.version}-helper")


@blueprint.put("/settings")
@blueprint.doc(parameters=[IF_MATCH])
@blueprint.arguments(SettingsWritten())
@blueprint.response(200, shape(SettingsWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(SettingsWhole), headers=ETAG, success=True, description="Created")
def put_settings(document: SettingsSaid) -> Response:
    """Say all settings anew; once there are some, with If-Match."""
    return SETTINGS.put(document)


def check_settings(document: SettingsSaid) -> None:
    """Raise SettingError, naming the field, for what the bench could not work with."""
    bench.check_pattern(document["batch_number"])
    if "currency" in document and not bench.is_currency(document["currency"]):
        raise SettingError("currency", words.say("api-studio-no-currency"))
    for field in DECIMALS:
        if (written := document.get(field)) is not None:
            bench.read_money(written, field)


SETTINGS: SingletonDocument[SettingsSaid, None] = SingletonDocument(
    StudioSettings,
    "settings",
    "/settings",
    {"batch_number": bench.PATTERN},
    check_settings,
    "settings_changed",
)
