"""Which recipe makes what others take: a part that is made ahead, and goes into a later batch.

A recipe is known as the maker of a card by the lots that came of its batches; before there are any, by its name.
"""

from __future__ import annotations

from sqlalchemy import Connection, select

import bench
from api.tables import Recipe, Run
from bench import Book


class PartMakers:
    """By what an ingredient is called: the card that it means, and the recipe that makes it."""

    def __init__(self, connection: Connection, there: bench.Shelf, book: Book) -> None:
        self.book = book
        self.by_name = {
            bench.name_key(title): key
            for key, title in connection.execute(
                select(Recipe.id, Recipe.title).where(Recipe.archived_at.is_(None)).order_by(Recipe.id.desc())
            )
        }
        lots = [(lot["received_on"], lot["run"], lot["ingredient"]) for lot in there["lots"].values()]
        runs = {run for _, run, _ in lots if run}
        rows = connection.execute(select(Run.id, Run.recipe_id).where(Run.id.in_(runs)))
        of = {run: recipe for run, recipe in rows}
        self.by_card = {card: of[run] for _, run, card in sorted(lots, key=lambda lot: lot[0]) if run in of}

    def key_of(self, name: str) -> str | None:
        """The card that an ingredient of this name is, or else the recipe that makes it; None: nobody counts it."""
        return self.book.card_for(name) or self.recipe_of(name)

    def recipe_of(self, name: str) -> str | None:
        """The recipe that makes what is called so; None: none does."""
        card = self.book.card_for(name)
        return (self.maker_of(card) if card else None) or self.by_name.get(bench.name_key(name))

    def maker_of(self, card: str) -> str | None:
        """The recipe that makes what is on a card."""
        return self.by_card.get(card) or self.by_name.get(bench.name_key(self.book.cards[card]["name"]))
