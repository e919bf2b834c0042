"""A history: what is done, and what goes wrong meanwhile, all of it following from a seed.

A step is a list, its name first; devices and runs go by number, real pages before light devices. Each
makes sense whatever came before it, or else does nothing, so that any may be left out to find out
which it takes:

    begin device           a new run                     touch device run kind number
    sync device faults     one round; the faults are of its first requests, one each (lines.py)
    together devices ms    rounds at the same time, the first request of each by so many ms late
    cut device, mend device                              late: what was to arrive once more arrives
    die device             and its memory with it: a page stays closed until `wake device`
    gasp device            a page dies while it enters something
    crowd device, ease device                            a page's own disk is full, and is not
    kill what, start       server, worker or database    fill, free: the server's disk
    copy, restore          all is copied; the last copy is put back, whatever the server does
    crowding how, calm     strangers who are rude or slow (strangers.py), and none any more
    pause ms               time passes, and what waits goes on
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, replace
from random import Random
from typing import Any

from tests.chaos.lines import KINDS

Step = list[Any]
# `done` begins the wait of the harness's recipe.
TOUCHES = (
    "noted",
    "noted",
    "weighed",
    "weighed",
    "done",
    "done",
    "extended",
    "skipped",
    "undone",
    "finished",
)
# A record is signed now and then; what a device enters afterwards, or sends late, is a remark.
SIGNS = 0.04


@dataclass(frozen=True)
class History:
    seed: int
    database: str
    pages: int
    devices: int
    steps: tuple[Step, ...]

    @classmethod
    def from_json(cls, text: str) -> History:
        told = json.loads(text)
        return cls(**{**told, "steps": tuple(told["steps"])})

    def to_json(self) -> str:
        return json.dumps(asdict(self))

    def without(self, start: int, end: int) -> History:
        return replace(self, steps=self.steps[:start] + self.steps[end:])


def make_history(seed: int, database: str, *, with_pages: bool) -> History:
    """The history of a seed. It is the same wherever and whenever it is made."""
    random = Random(f"{seed} {database} {with_pages}")
    pages = random.randint(1, 2) if with_pages else 0
    devices = pages + random.randint(1, 2) if with_pages else random.randint(2, 4)
    first = random.randrange(devices)
    all_sync: Step = ["together", list(range(devices)), [0] * devices]
    steps: list[Step] = [["begin", first], ["sync", first, [_fault(random), _fault(random)]], all_sync]
    if pages:
        steps.append(["touch", random.randrange(pages), 0, "done", 0])
    for _ in range(random.randint(12, 30)):
        steps.append(_usual(random, devices))
    for disaster in _disasters(random, database, pages):
        place = random.randint(1, len(steps))
        for step in disaster:
            steps.insert(place, step)
            place = random.randint(place + 1, len(steps))
    return History(seed, database, pages, devices, tuple(steps))


def _usual(random: Random, devices: int) -> Step:
    """A step of any day with a bad network."""
    device = random.randrange(devices)
    chance = random.random()
    if chance < 0.45:
        kind = "signed" if random.random() < SIGNS else random.choice(TOUCHES)
        return ["touch", device, random.randrange(3), kind, random.randrange(1000)]
    if chance < 0.72:
        return ["sync", device, [_fault(random) for _ in range(random.choice((0, 1, 2, 4)))]]
    if chance < 0.82:
        return ["together", list(range(devices)), [random.choice((0, 20, 60)) for _ in range(devices)]]
    return random.choice((["begin", device], ["die", device], ["cut", device], ["mend", device], ["late"]))


def _fault(random: Random) -> list[Any]:
    if random.random() < 0.3:
        return ["fine", 0]
    kind = random.choice(KINDS)
    return [kind, random.choice((50, 150)) if kind == "slow" else 0]


def _disasters(random: Random, database: str, pages: int) -> list[list[Step]]:
    """What does not happen every day, each as steps in their order, with others between them."""
    device = random.randrange(pages or 2)

    def in_the_middle(what: str) -> Step:
        """Killed while the third request of a round is answered, which mostly sends entries."""
        return ["sync", device, [["fine", 0], ["fine", 0], [f"kill_{what}", random.randrange(30)]]]

    often: list[tuple[float, list[Step]]] = [
        (0.08, [["kill", "server"], ["start"]]),
        (0.12, [in_the_middle("server")]),
        (0.15, [["kill", "worker"]]),
        (0.2, [in_the_middle("worker")]),
        (0.25, [["fill"], ["free"]]),
        (0.3, [["copy"], ["restore"]]),
        (0.08, [["copy"], ["kill", "server"], ["restore"], ["start"]]),
        (0.08, [["copy"], ["restore"], ["restore"]]),
        # A phone that was away while another signed what it had.
        (
            0.3,
            [
                ["cut", device],
                ["touch", device, 0, "weighed", 3],
                ["touch", 1 - device, 0, "signed", 0],
                ["sync", 1 - device, []],
                ["mend", device],
            ],
        ),
        (0.2, [["crowding", random.choice(("rude", "slow"))], ["calm"]]),
    ]
    if database == "postgresql":
        often += [(0.08, [["kill", "database"], ["start"]]), (0.12, [in_the_middle("database")])]
    if pages:
        page = random.randrange(pages)
        dying, absence = random.choice(("die", "gasp")), random.choice((0, 1500, 4500))
        often += [
            (0.7, [[dying, page], ["pause", absence], ["wake", page]]),
            (0.3, [["crowd", page], ["ease", page]]),
        ]
    return [steps for chance, steps in often if random.random() < chance]
