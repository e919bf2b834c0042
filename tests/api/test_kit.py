from __future__ import annotations

import pytest

import bench
from api.kit import STARTER_KIT
from tests.api.studio import Studio
from tests.make import WHOLE_KIT, make_run, uuid4

FINE_SCALE = {"id": "fine", "name": "Fine scale", "capacity": "200 g", "division": "0.01 g"}
KIT = {**STARTER_KIT, "scales": [*STARTER_KIT["scales"], FINE_SCALE]}


def test_until_the_maker_says_there_is_one_kitchen_scale(studio: Studio) -> None:
    kit = studio.get("/kit")

    assert kit.json["version"] == 0
    assert kit.json["measured"]["scales"][0]["division_mg"] == 1000


def test_the_kit_is_said_once_then_edited_with_if_match(studio: Studio) -> None:
    assert studio.put_kit(KIT).status_code == 201
    assert studio.put_kit(KIT).status_code == 200
    assert studio.put_kit(STARTER_KIT).status_code == 428
    assert studio.put_kit(STARTER_KIT, if_match=studio.tag(3)).status_code == 412

    edited = studio.put_kit(STARTER_KIT, if_match=studio.tag(1))

    assert (edited.status_code, edited.headers["ETag"]) == (200, studio.tag(2))
    assert studio.get("/kit").json["document"] == STARTER_KIT


def test_a_reader_who_has_it_gets_304(studio: Studio) -> None:
    assert studio.get("/kit", **{"If-None-Match": studio.tag(0)}).status_code == 304


def test_a_scale_without_a_division_is_422(studio: Studio) -> None:
    answer = studio.put_kit({**KIT, "scales": [{**FINE_SCALE, "division": "fine"}]})

    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == "scales.0.division"


@pytest.mark.parametrize("group", ["scales", "vessels", "moulds", "heaters", "mixers"])
def test_the_whole_kit_says_all_that_can_be_said(group: str) -> None:
    can_be_said = bench.KIT_SCHEMA["properties"][group]["items"]["properties"]

    assert {name for each in WHOLE_KIT[group] for name in each} == can_be_said.keys()


def test_a_batch_begun_with_the_whole_kit_is_taken_from_a_phone(studio: Studio) -> None:
    asked = make_run(studio.with_recipe()) | {"kit": bench.read_kit(WHOLE_KIT)}

    answer = studio.put_run(uuid4(), asked)

    assert answer.status_code == 201, answer.json
    assert answer.json["sheet"]["kit"] == bench.read_kit(WHOLE_KIT)


def test_a_measured_kit_that_is_none_names_the_field(studio: Studio) -> None:
    kit = bench.read_kit(WHOLE_KIT)
    scales = [{**kit["scales"][0], "division_mg": 0}]

    answer = studio.put_run(uuid4(), make_run(studio.with_recipe()) | {"kit": {**kit, "scales": scales}})

    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == "kit.scales.0.division_mg"


def test_a_tag_that_is_not_one_is_read_past(studio: Studio) -> None:
    """An unquoted and empty tag, as found by Schemathesis."""
    studio.put_kit(STARTER_KIT)

    assert (
        studio.put_kit(
            {**STARTER_KIT, "mixers": [{"id": "hand", "name": "Hand"}]}, '"P", ""x, ,"'
        ).status_code
        == 412
    )
