"""Which generation of the studio this is. A restore makes the next one.

Versions and cursors are numbers that start again after a restore, so each is worth something under its
generation alone: every answer names it in a header, every ETag begins with it, and who says with what it
writes which generation it means is refused by another.

The generation is read before anything that an answer tells. Should the studio be restored between the two,
the answer is newer than it says, and is asked for once more; it is never taken for what it is not.
"""

from __future__ import annotations

from uuid import uuid4

from flask import Flask, Response, current_app, g, has_request_context, request
from sqlalchemy import Connection, select, update

from api.errors import Problem
from api.steady import COLUMNS, Anchor
from api.store import HOLD_SHARED, before_writing, execute, read_row
from api.tables import Studio
from bench import words

HEADER = "Bowlside-Generation"
OTHER = "/problems/other-generation"
SHOWN = 8  # so much of it stands in an ETag
READ = "SELECT generation FROM studio"
# With what the time is reckoned from: both are wanted at nearly every request, and one statement costs less.
READ_BOTH = f"SELECT generation, {COLUMNS} FROM studio LEFT JOIN steady_clock ON boot = :boot"


def init_app(app: Flask) -> None:
    """To be called after the door's: a stranger is answered without a look at the studio."""
    app.before_request(_read)
    app.after_request(_name)
    before_writing(app, refuse_other)


def of(connection: Connection) -> tuple[str, int]:
    """The studio's generation, and when it began (ms)."""
    row = connection.execute(select(Studio.generation, Studio.began_at)).one()
    return row.generation, row.began_at


def renew(connection: Connection, at: int) -> str:
    """Make the studio another generation, from now on; gives its id.

    To be called before anything else is changed: whoever is in the middle of writing is then waited for.
    """
    generation = str(uuid4())
    keep(connection, generation, at)
    return generation


def keep(connection: Connection, generation: str, began_at: int) -> None:
    """Let the studio be of this generation."""
    # Changed in place, so that who waits for the row then finds it.
    connection.execute(update(Studio).values(generation=generation, began_at=began_at))


def now() -> str:
    """The generation, as it was before this request read anything else; outside a request as it is."""
    if not has_request_context():
        found: str = read_row(READ, {})[0]
        return found
    if "generation" not in g:
        g.generation, g.anchor = _read_both()
    kept: str = g.generation
    return kept


def anchor() -> Anchor | None:
    """What the time is reckoned from (api/steady.py), read along with the generation."""
    now()
    kept: Anchor | None = g.anchor
    return kept


def _read_both() -> tuple[str, Anchor | None]:
    found, *said = read_row(READ_BOTH, {"boot": current_app.config["BOWLSIDE"].boot})
    return found, None if said[0] is None else Anchor(*said)


def tag(version: object) -> str:
    """What an ETag says of a version."""
    return f"{now()[:SHOWN]}.{version}"


def meant() -> str | None:
    """The generation that the sender believes it writes to; None when it does not say."""
    changes = has_request_context() and request.method in ("POST", "PUT", "PATCH", "DELETE")
    return request.headers.get(HEADER) if changes else None


def refuse_other(connection: Connection) -> None:
    """At the start of a transaction that writes: refuse what was meant for another generation than it writes to."""
    believed = meant()
    if believed is not None and believed != in_writing(connection):
        raise Problem(
            409,
            words.say("api-errors-other-generation"),
            type=OTHER,
        )


def in_writing(connection: Connection) -> str:
    """The generation that a transaction writes to; no restore comes between this and its end."""
    here: str = execute(connection, f"{READ} {HOLD_SHARED}", {}).fetchone()[0]
    if has_request_context():
        now()
        g.generation = here
    return here


def _read() -> None:
    if request.path.startswith("/api/"):
        now()


def _name(response: Response) -> Response:
    if (found := g.get("generation")) is not None:
        response.headers[HEADER] = found
    return response
