"""What batches of one version came to beside those of another, over HTTP."""

from __future__ import annotations

from tests.api.studio import Studio
from tests.make import BEGUN, make_entry, make_recipe, make_run, uuid4


def test_two_versions_are_compared_once_there_are_four_batches_of_each(studio: Studio) -> None:
    recipe = studio.with_recipe()
    address = f"/recipes/{recipe['id']}/versions"

    def make(batches: int, version: dict, minutes: int) -> None:
        for place in range(batches):
            run = uuid4()
            assert studio.put_run(run, make_run(version)).status_code == 201
            body = {"ms": (minutes + place) * 60_000}
            studio.post(
                run,
                make_entry(run, at=BEGUN + 1, kind="worked", body=body),
                make_entry(run, at=BEGUN + 2, kind="skipped", body={"step": "soak.1.stir"}),
                make_entry(run, at=BEGUN + 3, kind="finished", body={}),
            )

    make(4, recipe, 60)
    changed = {**make_recipe(), "summary": "Another."}
    studio.client.put(
        f"/api/v1/recipes/{recipe['id']}", json=changed, headers={"If-Match": studio.tag(recipe["version"])}
    )
    newest = studio.get(f"/recipes/{recipe['id']}").json
    assert newest["version"] == 2
    make(3, newest, 30)
    few = studio.get(f"{address}/2/outcomes?before=1").json["differences"]
    make(1, newest, 90)
    enough = studio.get(f"{address}/2/outcomes?before=1").json["differences"]

    assert [each["batches"] for each in few if each["measure"] == "deviations"] == [[4, 3]]
    assert {each["says"] for each in few} == {"too_few"}
    told = next(each for each in enough if each["measure"] == "deviations")
    assert (told["batches"], told["before"], told["now"]) == ([4, 4], 1000, 1000)
    assert told["says"] == "cannot_tell"  # no batch differs from another
    assert studio.get(f"{address}/3/outcomes?before=1").status_code == 404
    assert studio.get(f"{address}/2/outcomes").status_code == 422
