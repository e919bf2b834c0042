"""The tables. Instants are whole milliseconds since 1970 in UTC; documents are canonical JSON text.

Text is kept as text on purpose: a sheet and an entry are sent as they were kept, byte for byte,
without being parsed and written out again.
"""

from __future__ import annotations

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Text,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from api.answers import Role
from bench import BatchVerdict, DutyState, PlanState, WantState


class Base(DeclarativeBase):
    # Named constraints, so that a migration can drop one on any database.
    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


db = SQLAlchemy(model_class=Base)


class Studio(Base):
    """What this database is. A restore makes it another generation, so that no phone takes a version or a
    cursor of the former one for this one's. After a move, `moved_to` says where the studio went."""

    __tablename__ = "studio"
    __table_args__ = (CheckConstraint("id = 1", name="only_one"),)

    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    generation: Mapped[str] = mapped_column(String(36))
    began_at: Mapped[int] = mapped_column(BigInteger)
    moved_to: Mapped[str | None] = mapped_column(Text)
    moved_at: Mapped[int | None] = mapped_column(BigInteger)


class Audit(Base):
    """What was done to the studio itself, and by whom; the database lets these rows only be added (0005)."""

    __tablename__ = "audit"

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    at: Mapped[int] = mapped_column(BigInteger, index=True)
    # The paired device, by id; null for the terminal and the server itself, which `who` names.
    actor: Mapped[str | None] = mapped_column(String(36))
    who: Mapped[str] = mapped_column(Text)
    what: Mapped[str] = mapped_column(String(40))
    about: Mapped[str] = mapped_column(Text)


class SteadyClock(Base):
    """What the server's time is reckoned from (api/steady.py): one row for each boot of a computer."""

    __tablename__ = "steady_clock"

    boot: Mapped[str] = mapped_column(String(64), primary_key=True)
    offset_ms: Mapped[int] = mapped_column(BigInteger)
    epoch: Mapped[int]
    held_ms: Mapped[int] = mapped_column(BigInteger)
    leapt_at: Mapped[int | None] = mapped_column(BigInteger)
    looked_ms: Mapped[int] = mapped_column(BigInteger)
    floor_ms: Mapped[int | None] = mapped_column(BigInteger)
    since_seq: Mapped[int] = mapped_column(BigInteger)


class Recipe(Base):
    """A recipe's head: which version is the current one."""

    __tablename__ = "recipe"

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    version: Mapped[int]
    title: Mapped[str] = mapped_column(Text)
    summary: Mapped[str] = mapped_column(Text)
    updated_at: Mapped[int] = mapped_column(BigInteger)
    # How the studio files it (api/filing.py): its tags as JSON, and since when it is archived.
    tags: Mapped[str] = mapped_column(Text, server_default="[]")
    archived_at: Mapped[int | None] = mapped_column(BigInteger)
    # Its title, summary, parts, ingredients and tags as they are searched for (api/search.py).
    search: Mapped[str] = mapped_column(Text, server_default="")


class RecipeVersion(Base):
    """A recipe as it was once written. Never changed; an edit adds the next."""

    __tablename__ = "recipe_version"

    recipe_id: Mapped[str] = mapped_column(String(36), ForeignKey("recipe.id"), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    title: Mapped[str] = mapped_column(Text)
    document: Mapped[str] = mapped_column(Text)
    measured: Mapped[str] = mapped_column(Text)
    created_at: Mapped[int] = mapped_column(BigInteger)


class Kit(Base):
    """The studio's equipment; one row, or none until the maker has said what there is."""

    __tablename__ = "kit"
    __table_args__ = (CheckConstraint("id = 1", name="only_one"),)

    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    version: Mapped[int]
    document: Mapped[str] = mapped_column(Text)
    measured: Mapped[str] = mapped_column(Text)
    updated_at: Mapped[int] = mapped_column(BigInteger)


class Run(Base):
    """One making of a sheet. The sheet holds the kit it was made for."""

    __tablename__ = "run"
    __table_args__ = (
        ForeignKeyConstraint(
            ["recipe_id", "recipe_version"], ["recipe_version.recipe_id", "recipe_version.version"]
        ),
        # In the order of lists, so that a page is read where it stands.
        Index("ix_run_listed", text("created_at DESC"), "id", "finished_at"),
        Index("ix_run_of_recipe", "recipe_id", text("created_at DESC"), "id", "finished_at"),
        Index("ix_run_finished", "finished_at", text("created_at DESC"), "id"),
        # Holds all that a search looks at, so that no sheet is read to find a title.
        Index("ix_run_found", text("created_at DESC"), "id", "finished_at", "recipe_id", "search"),
    )

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    recipe_id: Mapped[str] = mapped_column(String(36))
    recipe_version: Mapped[int]
    title: Mapped[str] = mapped_column(Text)
    size: Mapped[str] = mapped_column(Text)
    sheet: Mapped[str] = mapped_column(Text)
    created_at: Mapped[int] = mapped_column(BigInteger)
    # When it was begun at the bench, which may be long before it reached this server.
    made_at: Mapped[int | None] = mapped_column(BigInteger)
    finished_at: Mapped[int | None] = mapped_column(BigInteger)
    batch_number: Mapped[str | None] = mapped_column(Text, index=True)
    # Released, held or rejected, as somebody judged it last; null where nobody did.
    release: Mapped[BatchVerdict | None] = mapped_column(Text)
    # What a signing seals that names no entries, as those of before did: its id, and the ids as JSON.
    sealed_by: Mapped[str | None] = mapped_column(String(36))
    sealed: Mapped[str | None] = mapped_column(Text)
    # Title and number as they are searched for (api/runs.py).
    search: Mapped[str] = mapped_column(Text, server_default="")


class Entry(Base):
    """One thing that happened at the bench. `seq` only grows, also over deletions: it is the cursor."""

    __tablename__ = "entry"
    __table_args__ = (Index(None, "run_id", "seq"), {"sqlite_autoincrement": True})

    seq: Mapped[int] = mapped_column(
        BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True
    )
    id: Mapped[str] = mapped_column(String(36), unique=True)
    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"))
    text: Mapped[str] = mapped_column(Text)
    # The paired device that sent it, by id; no foreign key, for what happened outlives who may come in.
    sender: Mapped[str | None] = mapped_column(Text)
    # By this server's clock; null for what came before it was noted.
    received_at: Mapped[int | None] = mapped_column(BigInteger)
    # By the sender, for its bench, whose device had sent it before a restore lost it (api/rules.py).
    given_back: Mapped[bool | None]


class RunNote(Base):
    """A note of a run that stands, to be searched: drawn from its journal (api/run_notes.py)."""

    __tablename__ = "run_note"
    # Holds all that a search looks at.
    __table_args__ = (Index("ix_run_note_found", text("at DESC"), "id", "run_id", "search"),)

    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    at: Mapped[int] = mapped_column(BigInteger)
    # Empty: it was taken back before it came.
    text: Mapped[str] = mapped_column(Text)
    search: Mapped[str] = mapped_column(Text)


class ShelfEntry(Base):
    """One thing that happened on the shelf, kept as a run's entries are."""

    __tablename__ = "shelf_entry"
    __table_args__ = (Index(None, "run_id", "seq"), {"sqlite_autoincrement": True})

    seq: Mapped[int] = mapped_column(
        BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True
    )
    id: Mapped[str] = mapped_column(String(36), unique=True)
    text: Mapped[str] = mapped_column(Text)
    sender: Mapped[str | None] = mapped_column(Text)
    received_at: Mapped[int | None] = mapped_column(BigInteger)
    # The batch of whose finished pieces it tells (api/finished.py), here or still to come; null: it is of the shelf.
    run_id: Mapped[str | None] = mapped_column(String(36))


class BatchPieces(Base):
    """Where a finished batch's pieces are: drawn from its journal and the shelf's (api/finished.py)."""

    __tablename__ = "batch_pieces"
    __table_args__ = (Index(None, "gone", "until", "run_id"),)

    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"), primary_key=True)
    good: Mapped[int]
    kept_there: Mapped[int]  # as the batch's record says, of the good ones
    in_stock: Mapped[int]
    left_count: Mapped[int]
    kept: Mapped[int]  # those of the record among them
    binned: Mapped[int]
    place: Mapped[str | None] = mapped_column(Text)
    made_on: Mapped[str] = mapped_column(Text)
    best_before: Mapped[str | None] = mapped_column(Text)
    # What lists are ordered by: whether none is in stock, and the day, one beyond all where there is none.
    gone: Mapped[bool]
    until: Mapped[str] = mapped_column(Text)


class BatchRow(Base):
    """What a finished batch came to: drawn from its record (api/figures.py), so that a table over all folds none."""

    __tablename__ = "batch_figures"
    # What a page is found by, in the order of the list; the rows themselves are long.
    __table_args__ = (
        Index("ix_batch_figures_listed", text("finished_at DESC"), "run_id"),
        Index("ix_batch_figures_of_recipe", "recipe_id", text("finished_at DESC"), "run_id", "version"),
    )

    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"), primary_key=True)
    recipe_id: Mapped[str] = mapped_column(String(36))
    version: Mapped[int]
    title: Mapped[str] = mapped_column(Text)
    number: Mapped[str | None] = mapped_column(Text)
    release: Mapped[BatchVerdict | None] = mapped_column(Text)
    finished_at: Mapped[int] = mapped_column(BigInteger)
    # How far the batch's journal reached. Where it reaches further by now, the batch is read again.
    reach: Mapped[int] = mapped_column(BigInteger)
    figures: Mapped[str] = mapped_column(Text)
    basis: Mapped[str] = mapped_column(Text)


class OutletRow(Base):
    """Where pieces go. Its name and contact are nowhere else; erased, the row stays and the numbers stand."""

    __tablename__ = "outlet"

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str | None] = mapped_column(Text)
    contact: Mapped[str | None] = mapped_column(Text)
    erased_at: Mapped[int | None] = mapped_column(BigInteger)


class WantRow(Base):
    """A line of the order of work: pieces of a recipe, wanted by an instant.

    No foreign key to an outlet or a recipe: what is wanted stays told when either goes.
    """

    __tablename__ = "want"
    __table_args__ = (
        CheckConstraint("state IN ('open', 'met', 'dropped')", name="state"),
        Index(None, "state", "due", "id"),
    )

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    version: Mapped[int]
    recipe_id: Mapped[str] = mapped_column(String(36))
    pieces: Mapped[int]
    due: Mapped[int] = mapped_column(BigInteger)
    outlet_id: Mapped[str | None] = mapped_column(String(36))
    note: Mapped[str] = mapped_column(Text)
    state: Mapped[WantState] = mapped_column(String(7))


class WeekPlanRow(Base):
    """A plan of the order of work: "followed", and the newest, "offered" (api/week_plans.py)."""

    __tablename__ = "week_plan"

    place: Mapped[str] = mapped_column(String(36), primary_key=True)
    id: Mapped[str] = mapped_column(String(36))
    made: Mapped[str] = mapped_column(Text)


class LotUse(Base):
    """What a run really used of a lot, in mg and in pieces: drawn from its journal (api/projections.py).

    No foreign key to a lot: a run may name one before the shelf tells of it.
    """

    __tablename__ = "lot_use"
    # Where a lot went, in the order in which it is told.
    __table_args__ = (Index("ix_lot_use_told", "lot_id", text("used_at DESC"), "run_id"),)

    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"), primary_key=True)
    lot_id: Mapped[str] = mapped_column(String(140), primary_key=True)
    mg: Mapped[int] = mapped_column(BigInteger)
    count: Mapped[int] = mapped_column(BigInteger)
    used_at: Mapped[int] = mapped_column(BigInteger)


class Picture(Base):
    """A photograph of a batch, or a paper's file, that an entry tells of; it comes after that, or never."""

    __tablename__ = "picture"

    id: Mapped[str] = mapped_column(String(140), primary_key=True)
    # None: it is a paper's, of the shelf.
    run_id: Mapped[str | None] = mapped_column(String(36), ForeignKey("run.id"))
    sha256: Mapped[str] = mapped_column(String(64))
    # What a paper's file is; a photograph is a JPEG, and says nothing.
    media: Mapped[str | None] = mapped_column(Text)
    content: Mapped[bytes | None] = mapped_column(LargeBinary)


class StudioSettings(Base):
    """What the maker has said about numbers, money and labels; one row, or none."""

    __tablename__ = "studio_settings"
    __table_args__ = (CheckConstraint("id = 1", name="only_one"),)

    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    version: Mapped[int]
    document: Mapped[str] = mapped_column(Text)
    updated_at: Mapped[int] = mapped_column(BigInteger)


class Hours(Base):
    """Whose hands there are and when the bench is theirs; one row, or none until the maker has said."""

    __tablename__ = "bench_hours"
    __table_args__ = (CheckConstraint("id = 1", name="only_one"),)

    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    version: Mapped[int]
    document: Mapped[str] = mapped_column(Text)
    updated_at: Mapped[int] = mapped_column(BigInteger)


class DutyMarkRow(Base):
    """What a maker said of a duty of selling. Rows are only added; the last word of each duty holds."""

    __tablename__ = "duty_mark"

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    # None: it is of the whole studio.
    recipe_id: Mapped[str | None] = mapped_column(String(36), ForeignKey("recipe.id"), index=True)
    duty: Mapped[str] = mapped_column(Text)
    state: Mapped[DutyState] = mapped_column(Text)
    day: Mapped[str | None] = mapped_column(Text)
    note: Mapped[str] = mapped_column(Text)
    at: Mapped[int] = mapped_column(BigInteger)


class Plan(Base):
    """A plan: what was asked, how far the work on it is, and what came out. Kept, never derived again.

    Who works on it says so again and again at `beat_at`; one that falls silent may be taken over.
    """

    __tablename__ = "plan"
    __table_args__ = (CheckConstraint("state IN ('working', 'made', 'refused')", name="state"),)

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    asked: Mapped[str] = mapped_column(Text)
    asked_at: Mapped[int] = mapped_column(BigInteger)
    state: Mapped[PlanState] = mapped_column(String(7))
    beat_at: Mapped[int] = mapped_column(BigInteger)
    cancelled: Mapped[bool]
    progress: Mapped[str | None] = mapped_column(Text)
    fault: Mapped[str | None] = mapped_column(Text)
    made: Mapped[str | None] = mapped_column(Text)


class PlannedRun(Base):
    """The plan that a run follows now."""

    __tablename__ = "planned_run"

    run_id: Mapped[str] = mapped_column(String(36), ForeignKey("run.id"), primary_key=True)
    plan_id: Mapped[str] = mapped_column(String(36), ForeignKey("plan.id"), index=True)


class Device(Base):
    """A phone or desk that was paired. Its row stays when it is shut out: the journal names it."""

    __tablename__ = "device"
    __table_args__ = (CheckConstraint("role IN ('maker', 'helper')", name="role"),)

    id: Mapped[str] = mapped_column(String(36), primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    role: Mapped[Role] = mapped_column(String(6))
    # The id by which the journal's entries name it, once it has said so.
    bench: Mapped[str | None] = mapped_column(Text)
    # Of its secret, in hex; empty when it came from a backup, so that it has to pair again.
    secret_sha256: Mapped[str] = mapped_column(String(64))
    paired_at: Mapped[int] = mapped_column(BigInteger)
    seen_at: Mapped[int] = mapped_column(BigInteger)
    shut_out_at: Mapped[int | None] = mapped_column(BigInteger)


class ClientOwner(Base):
    """Whose a bench's name is: the paired device's that first used it."""

    __tablename__ = "bench_owner"

    bench: Mapped[str] = mapped_column(String(64), primary_key=True)
    device_id: Mapped[str] = mapped_column(String(36), index=True)
    since: Mapped[int] = mapped_column(BigInteger)


class Pairing(Base):
    """A code that lets one device in, once, until it expires or its tries are used up."""

    __tablename__ = "pairing"
    __table_args__ = (CheckConstraint("role IN ('maker', 'helper')", name="role"),)

    code_sha256: Mapped[str] = mapped_column(String(64), primary_key=True)
    role: Mapped[Role] = mapped_column(String(6))
    made_at: Mapped[int] = mapped_column(BigInteger)
    expires_at: Mapped[int] = mapped_column(BigInteger)
    tries_left: Mapped[int]
    used_at: Mapped[int | None] = mapped_column(BigInteger)
