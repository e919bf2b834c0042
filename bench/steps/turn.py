"""turn: the pieces are turned every so often while a wait goes on. Lowered to waits and do-steps beside that wait.

The time to the next counts from when they were really turned, not from the hour that was planned: pieces turned
late have dried on one side for longer, and the other is owed as long. What has not come due when the wait is over
falls away. Common practice for what dries in the open.
"""

from bench.errors import RecipeError
from bench.quantities import read_duration_ms
from bench.shapes.recipe import Guard, RecipeDo, RecipeHead, RecipeStep, RecipeWait, WrittenTurn
from bench.shapes.units import Ms, RecipeKey
from bench.steps.kind import Beside, named_after
from bench.whole import span
from bench.words import say

MOST_TURNS = 24


def lower(written: WrittenTurn, head: RecipeHead, beside: Beside) -> list[RecipeStep]:
    """The turns that come due before the wait is usually over, each a wait and a thing to do."""
    over = beside.wait(written["during"], "during")
    every = read_duration_ms(written["every"], f"{beside.at}.every")
    many = _many(every, over["usual_ms"], f"{beside.at}.every")
    begins = head["after"] if "after" in written else list(over["after"])
    until = [beside.key(over["id"])]
    steps: list[RecipeStep] = []
    for number in range(1, many + 1):
        own: RecipeHead = {
            **head,
            "id": named_after(head["id"], f"_{number}"),
            "title": head["title"] if many == 1 else f"{head['title']} ({number}/{many})",
            "until": until,
            "written": head["id"],
        }
        due = _due(own, written["word"], every, begins)
        turn = _turn(own, beside.key(due["id"]))
        begins = [beside.key(turn["id"])]
        steps += [due, turn]
    return steps


def _many(every: Ms, usual: Ms, where: str) -> int:
    many = (usual - 1) // every if every else 0
    if not 1 <= many <= MOST_TURNS:
        if many < 1:
            raise RecipeError(where, say("recipe-no-turn", usual=span(usual)))
        raise RecipeError(where, say("recipe-too-many-turns", count=many, most=MOST_TURNS, usual=span(usual)))
    return many


def _due(head: RecipeHead, word: str, every: Ms, begins: list[RecipeKey]) -> RecipeWait:
    unguarded: Guard = {}
    return {
        **head,
        **unguarded,
        "id": named_after(head["id"], "_due"),
        "says": "",
        "reason": "",
        "after": begins,
        "does": "",
        "alcohol": False,
        "hazards": [],
        "cautions": [],
        "ways": [],
        "window": None,
        "hands_ms": None,
        "tools": [],
        "kind": "wait",
        "word": word,
        "earliest_ms": every,
        "usual_ms": every,
        "latest_ms": None,
        "test": "",
        "stake": "",
    }


def _turn(head: RecipeHead, due: RecipeKey) -> RecipeDo:
    window = head["window"]
    return {
        **head,
        "after": [due],
        "window": {**window, "from": [due]} if window else None,
        "kind": "do",
        "about_ms": None,
        "of": [],
        "tips": [],
        "into": "bowl",
    }
