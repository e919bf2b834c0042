"""Every setting, in one table: its name, what it is for, and its value when nobody says otherwise.

Each can be given in the environment as `BOWLSIDE_` and its name in capitals; `database_url` alone as
`DATABASE_URL`, the name that hosts give it. How the studio is opened (`lan`, `pairing`) is not among
them: a machine is opened to others by a command, not by a variable left over from another day.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Mapping
from dataclasses import Field, dataclass, field, fields
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bench import words

MIB = 1024 * 1024
ENVIRONMENT_PREFIX = "BOWLSIDE_"
# The day of this release. A machine that runs it and says an earlier one has a wrong clock.
RELEASED = datetime(2026, 11, 25, tzinfo=UTC)
RELEASED_MS = int(RELEASED.timestamp()) * 1000


def system_clock_ms() -> int:
    """The machine's clock as whole milliseconds since 1970, UTC."""
    return time.time_ns() // 1_000_000


def steady_clock() -> tuple[Callable[[], int] | None, str]:
    """The machine's steady clock, in ms, and the name of this boot; None where it has no such clock.

    It goes on through a sleep (clock_gettime(2), CLOCK_BOOTTIME); the name is of proc(5), random/boot_id.
    """
    boot = Path("/proc/sys/kernel/random/boot_id")
    if not hasattr(time, "CLOCK_BOOTTIME") or not boot.is_file():
        return None, ""
    return lambda: time.clock_gettime_ns(time.CLOCK_BOOTTIME) // 1_000_000, boot.read_text().strip()


class SettingError(ValueError):
    """A setting's value can't be used; the text says which and what it wants."""


def _names(text: str) -> tuple[str, ...]:
    """`studio.example, bench.local` -> ("studio.example", "bench.local")."""
    return tuple(name.strip().lower() for name in text.split(",") if name.strip())


def _one_of(*choices: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in choices:
            raise SettingError(", ".join(choices))
        return text

    return read


def environment_name(setting: Field[Any]) -> str | None:
    """The variable that gives this setting; None for one that no variable gives."""
    name: str | None = setting.metadata.get("environment", ENVIRONMENT_PREFIX + setting.name.upper())
    return name


@dataclass(frozen=True, kw_only=True)
class Settings:
    database: Path = field(
        default=Path("var/bowlside.sqlite3"),
        metadata={
            "description": "the SQLite file that holds everything; its folder is made when missing",
            "read": Path,
        },
    )
    database_url: str | None = field(
        default=None,
        repr=False,  # it may hold a password
        metadata={
            "description": "a postgresql:// address, used in place of the file",
            "read": str,
            "environment": "DATABASE_URL",
        },
    )
    port: int = field(
        default=8420, metadata={"description": "the port `bowlside serve` listens on; 0 takes a free one"}
    )
    landing_port: int = field(
        default=8421,
        metadata={"description": "the port of the landing page of `serve --lan`; 0 takes a free one"},
    )
    listen: str = field(
        default="",
        metadata={
            "description": "the one address that `serve --lan` listens on, else all of this machine's;"
            " with `--behind-proxy`, else 127.0.0.1",
            "read": str,
        },
    )
    hosts: tuple[str, ...] = field(
        default=(),
        metadata={"description": "more host names that lead here, with commas between", "read": _names},
    )
    proxies: int = field(
        default=0, metadata={"description": "how many proxies `serve --behind-proxy` stands behind"}
    )
    workers: int = field(
        default=1, metadata={"description": "how many processes answer; more than one for PostgreSQL"}
    )
    body_limit: int = field(default=4 * MIB, metadata={"description": "the largest request body, in bytes"})
    import_limit: int = field(
        default=32 * MIB,
        metadata={"description": "the largest body that POST /api/v1/import takes, in bytes"},
    )
    picture_limit: int = field(default=2 * MIB, metadata={"description": "the largest photograph, in bytes"})
    paper_limit: int = field(
        default=8 * MIB, metadata={"description": "the largest file of a paper, in bytes"}
    )
    copies: Path | None = field(
        default=None,
        metadata={
            "description": "the folder of the nightly copies; else copies/ beside the database",
            "read": Path,
        },
    )
    copies_kept: int = field(default=7, metadata={"description": "how many nightly copies are kept"})
    log: str = field(
        default="plain",
        metadata={
            "description": "how log lines are written: plain or json",
            "read": _one_of("plain", "json"),
        },
    )
    metrics: int = field(
        default=0,
        metadata={"description": "1: tell metrics at /metrics, to this computer and to makers' devices"},
    )
    copies_key: tuple[str, ...] = field(
        default=(),
        metadata={
            "description": "public keys, with commas between, that every copy is encrypted to",
            "read": _names,
        },
    )
    copies_send: str = field(
        default="",
        metadata={
            "description": "a command that is run after each nightly copy, with the file as its last word",
            "read": str,
        },
    )
    copies_send_seconds: int = field(
        default=600, metadata={"description": "how long that command may take, in seconds"}
    )
    label_font: Path | None = field(
        default=None,
        metadata={
            "description": "a TrueType font for labels as PDF; else the PDF library's own, of western letters",
            "read": Path,
        },
    )
    lan: bool = field(default=False, metadata={"environment": None})
    pairing: bool = field(default=False, metadata={"environment": None})
    clock_ms: Callable[[], int] = field(default=system_clock_ms, metadata={"environment": None})
    # A clock that never leaps, and which boot of the computer it counts from; without one, time is the other clock's.
    steady_ms: Callable[[], int] | None = field(default=None, metadata={"environment": None})
    boot: str = field(default="", metadata={"environment": None})

    @classmethod
    def from_environ(cls, environ: Mapping[str, str] = os.environ, **given: Any) -> Settings:
        """The environment's settings, with those `given` (and not None) on top."""
        values: dict[str, Any] = {}
        for setting in fields(cls):
            name = environment_name(setting)
            if name is None or name not in environ:
                continue
            text = environ[name]
            try:
                values[setting.name] = setting.metadata.get("read", int)(text)
            except SettingError as error:
                told = words.say("api-studio-setting-choice", name=name, value=repr(text), choices=str(error))
                raise SettingError(told) from None
            except ValueError:
                told = words.say("api-studio-setting-whole", name=name, value=repr(text))
                raise SettingError(told) from None
        values.update({name: value for name, value in given.items() if value is not None})
        if "clock_ms" not in values:
            values["steady_ms"], values["boot"] = steady_clock()
        return cls(**values)

    @property
    def mode(self) -> str:
        """How the studio is opened: local, lan or proxy."""
        return "lan" if self.lan else "proxy" if self.pairing else "local"

    @property
    def door(self) -> Path:
        """The folder of the certificate authority, beside the database."""
        return self.database.parent / "door"

    @property
    def copies_folder(self) -> Path:
        return self.copies or self.database.parent / "copies"

    @property
    def database_uri(self) -> str:
        """The database's address in SQLAlchemy's words, which name the driver too."""
        if self.database_url:
            return self.database_url.replace("postgresql://", "postgresql+psycopg://", 1)
        return f"sqlite:///{self.database.absolute()}"

    def as_flask_config(self) -> dict[str, Any]:
        return {
            "BOWLSIDE": self,
            "MAX_CONTENT_LENGTH": self.body_limit,
            "SQLALCHEMY_DATABASE_URI": self.database_uri,
        }
