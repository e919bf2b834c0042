"""One book of ingredients: which card of the shelf a name of a recipe, of a list or of a paper means.

A name means a card when it is the card's own or one of those that it answers to; nothing else joins, since lots are
booked by it and a recall goes by them. What is probably the same, by its CAS number, its INCI name or the substance
that both are names of (`bench/substances`), is offered: a maker's yes writes the name on the card, and from then on it
is joined everywhere. `frontend/bench/shelf.js` has the same rule of names.
"""

from collections.abc import Iterable

from bench import entries as common
from bench.shapes.shelf import Card, Shelf
from bench.shelf import name_key
from bench.substances import recognised

# Bears the name of what it is made for, not of what it is: two of them are two things.
_NOT_ONE_THING = frozenset({"parfum", "fragrance", "aroma", "flavor"})


def names_of(shelf: Shelf) -> dict[str, str]:
    """Each name that a card of the shelf answers to, as `name_key` has it, with the card's id.

    Of several cards one whose own name it is, then the least id.
    """
    own: dict[str, str] = {}
    others: dict[str, str] = {}
    for key in sorted(shelf["ingredients"]):
        card = shelf["ingredients"][key]["card"]
        if card is not None:
            own.setdefault(name_key(card["name"]), key)
            for name in also_called(card):
                others.setdefault(name_key(name), key)
    return others | own


def also_called(card: Card) -> list[str]:
    """The further names of a card. One that was kept before they were checked may hold anything."""
    return [each for each in common.as_list(card.get("answers_to")) or [] if isinstance(each, str)]


def card_for(names: dict[str, str], name: str) -> str | None:
    """The id of the card that a name means, of those of `names_of`; None: none is called so."""
    return names.get(name_key(name))


class Book:
    """The shelf's cards by all that they are known by, looked through once."""

    def __init__(self, shelf: Shelf) -> None:
        self.names = names_of(shelf)
        self.cards: dict[str, Card] = {}
        self._known: dict[tuple[str, str], list[str]] = {}
        for key in sorted(shelf["ingredients"]):
            card = shelf["ingredients"][key]["card"]
            if card is None:
                continue
            self.cards[key] = card
            for name in (card["name"], *also_called(card)):
                for mark in _marks(name, _text(card.get("inci")), _text(card.get("cas"))):
                    self._note(mark, key)

    def _note(self, mark: tuple[str, str], key: str) -> None:
        keys = self._known.setdefault(mark, [])
        if key not in keys:
            keys.append(key)

    def card_for(self, name: str) -> str | None:
        """The id of the card that a name means; None: none is called so."""
        return card_for(self.names, name)

    def alike(self, name: str, inci: str = "", cas: str = "") -> list[str]:
        """The cards of what is probably the same, by the surest mark that any card shares: CAS, INCI, substance."""
        for mark in _marks(name, inci, cas):
            if mark in self._known:
                return self._known[mark]
        return []


def _marks(name: str, inci: str, cas: str) -> Iterable[tuple[str, str]]:
    """By what two things are probably one, the surest first."""
    if cas:
        yield "cas", cas
    if inci and name_key(inci) not in _NOT_ONE_THING and "," not in inci:
        yield "inci", name_key(inci)
    found = recognised(name, inci)
    if found and found["id"] != "parfum":
        yield "substance", found["id"]


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""
