"""A copy of everything as a file: written whole or not at all, and read again line by line.

A copy is gzip of JSON lines. The first says what it is, {"format", "made_at" (ms), "schema" (the last
migration), "reach" (the last number given to an entry), "generation" (of the studio it was made of)}; then
one line a row, {"table", "row"}; the last says {"counts": {table: rows}, "sha256"}, the hash of all lines
before it. It holds no secret: a device in it has to pair again.

A copy may be encrypted as a whole, in the age format (https://age-encryption.org/v1): to public keys, so
that whoever makes copies need not be able to read them.
"""

from __future__ import annotations

import errno
import fcntl
import gzip
import hashlib
import json
import os
import zlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Generic, TypeVar

import pyrage
from sqlalchemy import Connection, inspect, select, text

from api import move_studio, scratch
from api.clock import now_ms
from api.store import last_number
from api.tables import Studio
from bench import words

FORMAT = "bowlside-backup/1"
# A row is a few MB at most; what a damaged or wicked file holds must not fill the memory.
LONGEST_LINE = 64 * 1024 * 1024
ENCRYPTED = b"age-encryption.org/v1"
DISK_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


class CopyError(Exception):
    """A copy cannot be made, read or put back, and what to do, in the language of whoever is told.

    code, values: of the message, "api-copies-…". more: lines that follow it.
    """

    def __init__(self, code: str, /, *more: str, **values: str | int) -> None:
        super().__init__(code, *more, values)
        self.code, self.more, self.values = code, more, values

    def __str__(self) -> str:
        return "\n  ".join([said(self.code, self.values), *self.more])


def said(code: str, values: Mapping[str, str | int]) -> str:
    return words.say(f"api-copies-{code}", **values)


class IdentityNeeded(CopyError):
    """A copy is encrypted, and nothing was given that opens it."""


@dataclass(frozen=True)
class Copy:
    """What a copy holds: when it was made, the tables it was made of, rows by table; of which generation."""

    made_at: int
    schema: str
    reach: int
    counts: dict[str, int]
    generation: str | None = None


Said = TypeVar("Said")


@dataclass(frozen=True)
class Written(Generic[Said]):
    """A copy that was made: rows by table, and what the reading back said of it, if it was asked."""

    counts: dict[str, int]
    said: Said


def not_read_back(_part: Path) -> None:
    """What `write` does with a copy that nobody reads back."""


def write(
    file: Path,
    connection: Connection,
    *,
    read_back: Callable[[Path], Said],
    keys: Sequence[str] = (),
    replace: bool = False,
    failed: Path | None = None,
) -> Written[Said]:
    """Copy everything that the connection sees into a file. It is there whole, or not at all.

    keys: public keys to encrypt it to. read_back: reads the copy before it is encrypted and gets its name; when
    that raises CopyError, what was written is kept as `failed`, or nowhere.
    """
    if not replace:
        refuse_to_overwrite(file)
    recipients = read_keys(keys)
    part = file.with_name(f".{file.name}.part")
    with _owned(part) as raw:
        try:
            with gzip.GzipFile(fileobj=raw, mode="wb", filename="", mtime=0) as zipped:
                counts = _write_lines(zipped, connection)
            raw.flush()
            os.fsync(raw.fileno())
            try:
                said = read_back(part)
            except CopyError:
                if failed is not None:
                    _keep(part, failed, recipients)
                raise
            _keep(part, file, recipients)
        except OSError as error:
            raise not_written(file, error) from None
    return Written(counts, said)


@contextmanager
def whole(file: Path) -> Iterator[IO[bytes]]:
    """A file that is there whole at the end of the block, or as it was before."""
    part = file.with_name(f".{file.name}.part")
    with _owned(part) as out:
        try:
            yield out
            out.flush()
            os.fsync(out.fileno())
            _keep(part, file, [])
        except OSError as error:
            raise not_written(file, error) from None


def read_through(file: Path) -> Copy:
    """Read all of a copy that is not encrypted; CopyError when it is not whole, or not what it says of itself."""
    digest, counts = hashlib.sha256(), Counter[str]()
    with judged(file), gzip.open(file, "rb") as lines:
        line = _line(lines)
        head, last = json.loads(line or b"null"), None
        if head["format"] != FORMAT:
            raise ValueError
        while following := _line(lines):
            digest.update(line)
            if last is not None:
                counts[last["table"]] += 1
                last["row"].items()
            line, last = following, json.loads(following)
        if last != {"counts": counts, "sha256": digest.hexdigest()}:
            raise ValueError
        return Copy(head["made_at"], head["schema"], head["reach"], dict(counts), head.get("generation"))


def rows(file: Path) -> Iterator[move_studio.Row]:
    """The rows of a copy that was read through before."""
    with gzip.open(file, "rb") as lines:
        while line := _line(lines):
            said = json.loads(line)
            if "row" in said:
                yield said["table"], said["row"]


def may_name(file: Path, table: str, key: str, unread: bool) -> bool:
    """Whether a copy has a row of this id that has a name; `unread` of one that cannot be read to its end."""
    try:
        if is_encrypted(file):
            return unread
        with judged(file), gzip.open(file, "rb") as lines:
            while line := _line(lines):
                if key.encode() in line:  # few lines are worth reading
                    said = json.loads(line)
                    row = said.get("row", {}) if said.get("table") == table else {}
                    if row.get("id") == key and row.get("name") is not None:
                        return True
            return False
    except CopyError:
        return unread


@contextmanager
def opened(file: Path, identities: Sequence[object] = (), beside: Path | None = None) -> Iterator[Path]:
    """A copy as one that can be read: itself, or what is in it when it is encrypted."""
    if not is_encrypted(file):
        yield file
        return
    if not identities:
        raise IdentityNeeded("encrypted", file=str(file))
    with scratch.folder(beside) as folder:
        plain = folder / "copy.jsonl.gz"
        try:
            with open(file, "rb") as locked, open(plain, "wb") as out:
                pyrage.decrypt_io(locked, out, list(identities))
        except OSError as error:
            raise (
                no_room(folder, error)
                if error.errno in DISK_FULL
                else CopyError("damaged-or-key", file=str(file))
            ) from None
        except (pyrage.DecryptError, ValueError):
            raise CopyError("wrong-key", file=str(file)) from None
        yield plain


def is_encrypted(file: Path) -> bool:
    with judged(file), open(file, "rb") as content:
        return content.read(len(ENCRYPTED)) == ENCRYPTED


def read_keys(keys: Sequence[str]) -> list[object]:
    """Public keys, as BOWLSIDE_COPIES_KEY gives them."""
    found = []
    for each in keys:
        try:
            found.append(pyrage.x25519.Recipient.from_str(each))
        except (pyrage.RecipientError, ValueError):
            raise CopyError("no-public-key", key=repr(each)) from None
    return found


def new_identity(passphrase: str = "") -> tuple[bytes, str]:
    """A new key: what its file holds, locked by the passphrase if there is one, and its public half."""
    identity = pyrage.x25519.Identity.generate()
    content = f"# public key: {identity.to_public()}\n{identity}\n".encode()
    return pyrage.passphrase.encrypt(content, passphrase) if passphrase else content, str(
        identity.to_public()
    )


def read_identities(content: bytes, ask: Callable[[], str]) -> list[object]:
    """The keys that an identity file holds; `ask` gives its passphrase, when it is locked by one."""
    try:
        if content.startswith(ENCRYPTED):
            content = pyrage.passphrase.decrypt(content, ask())
        lines = content.decode("ascii").splitlines()
        said = [line.strip() for line in lines if line.strip() and not line.startswith("#")]
        found = [pyrage.x25519.Identity.from_str(each) for each in said]
    except (pyrage.DecryptError, pyrage.IdentityError, ValueError):
        raise CopyError("no-key-file") from None
    if not found:
        raise CopyError("no-key")
    return found


def sha256_of(file: Path) -> str:
    with open(file, "rb") as content:
        return hashlib.file_digest(content, "sha256").hexdigest()


def refuse_to_overwrite(file: Path) -> None:
    if file.exists():
        raise CopyError("there-already", file=str(file))


def not_written(file: Path, error: OSError) -> CopyError:
    return CopyError("not-written", file=str(file), why=str(error.strerror))


def no_room(folder: Path, error: BaseException) -> CopyError:
    return CopyError("no-room", folder=str(folder.parent), why=str(error))


@contextmanager
def judged(file: Path) -> Iterator[None]:
    """Say of a file that cannot be read what is the matter with it."""
    try:
        yield
    except (
        gzip.BadGzipFile,
        EOFError,
        zlib.error,
        ValueError,
        LookupError,
        TypeError,
        AttributeError,
        RecursionError,
    ):
        raise CopyError("not-as-written", file=str(file)) from None
    except OSError as error:
        raise CopyError("unread", file=str(file), why=str(error.strerror)) from None


def sweep_parts(folder: Path) -> None:
    """Take away what killed processes left half written."""
    for each in folder.glob(".*.part"):
        with suppress(OSError):
            if scratch.is_left(each):
                each.unlink()


@contextmanager
def _owned(part: Path) -> Iterator[IO[bytes]]:
    """A file to write, that is ours alone for as long as the block lasts, and gone after it."""
    try:
        part.parent.mkdir(parents=True, exist_ok=True)
        raw = os.fdopen(os.open(part, os.O_RDWR | os.O_CREAT, 0o600), "r+b")
    except OSError as error:
        raise not_written(part, error) from None
    try:
        try:
            fcntl.flock(raw, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            raise CopyError("being-written", file=str(part)) from None
        try:
            raw.truncate(0)
            yield raw
        finally:
            with suppress(OSError):
                part.unlink(missing_ok=True)
    finally:
        with suppress(OSError):  # what a full disk would not take; what is kept was flushed before
            raw.close()


def _keep(part: Path, file: Path, recipients: list[object]) -> None:
    """Let what was written be the file, encrypted if there are keys to do it to."""
    if not recipients:
        os.replace(part, file)
        _sync(file.parent)
        return
    locked = file.with_name(f".{file.name}.age.part")
    with _owned(locked) as raw:
        with open(part, "rb") as plain:
            pyrage.encrypt_io(plain, raw, recipients)
        raw.flush()
        os.fsync(raw.fileno())
        os.replace(locked, file)
    _sync(file.parent)


def _sync(folder: Path) -> None:
    """Let the file's name be on the disk too."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # some file systems cannot
            os.fsync(handle)
    finally:
        os.close(handle)


def _line(lines: IO[bytes] | gzip.GzipFile) -> bytes:
    line: bytes = lines.readline(LONGEST_LINE)
    if len(line) == LONGEST_LINE:
        raise ValueError
    return line


def _write_lines(out: gzip.GzipFile, connection: Connection) -> dict[str, int]:
    digest, counts = hashlib.sha256(), Counter[str]()

    def put(value: object) -> None:
        line = json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"
        digest.update(line)
        out.write(line)

    head = {
        "format": FORMAT,
        "made_at": now_ms(),
        "schema": connection.scalar(text("SELECT version_num FROM alembic_version")),
        "reach": last_number(connection),
    }
    if inspect(connection).has_table(Studio.__tablename__):
        head["generation"] = connection.scalar(select(Studio.generation))
    put(head)
    for table, row in move_studio.rows(connection):
        put({"table": table, "row": row})
        counts[table] += 1
    put({"counts": counts, "sha256": digest.hexdigest()})
    return dict(counts)
