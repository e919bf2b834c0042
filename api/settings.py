"""Every setting, in one table: its name, what it is for, and its value when nobody says otherwise.

Each can be given in the environment as `BOWLSIDE_` and its name in capitals.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from time import time_ns
from typing import Any

MIB = 1024 * 1024
ENVIRONMENT_PREFIX = "BOWLSIDE_"


def system_clock_ms() -> int:
    """The machine's clock as whole milliseconds since 1970, UTC."""
    return time_ns() // 1_000_000


class SettingError(ValueError):
    """A setting's value can't be used; the text says which and what it wants."""


@dataclass(frozen=True, kw_only=True)
class Settings:
    database: Path = field(
        default=Path("var/bowlside.sqlite3"),
        metadata={"says": "the SQLite file that holds everything; its folder is made when missing"},
    )
    port: int = field(
        default=8420, metadata={"says": "the port `bowlside serve` listens on; 0 takes a free one"}
    )
    body_limit: int = field(default=4 * MIB, metadata={"says": "the largest request body, in bytes"})
    import_limit: int = field(
        default=32 * MIB, metadata={"says": "the largest body that POST /api/v1/import takes, in bytes"}
    )
    clock_ms: Callable[[], int] = field(default=system_clock_ms, metadata={"environment": False})

    @classmethod
    def from_environ(cls, environ: Mapping[str, str] = os.environ, **given: Any) -> Settings:
        """The environment's settings, with those `given` (and not None) on top."""
        values: dict[str, Any] = {}
        for setting in fields(cls):
            text = environ.get(ENVIRONMENT_PREFIX + setting.name.upper())
            if text is None or not setting.metadata.get("environment", True):
                continue
            try:
                values[setting.name] = Path(text) if setting.name == "database" else int(text)
            except ValueError:
                raise SettingError(
                    f"{ENVIRONMENT_PREFIX}{setting.name.upper()} is {text!r}; it must be a whole number."
                ) from None
        values.update({name: value for name, value in given.items() if value is not None})
        return cls(**values)

    def as_flask_config(self) -> dict[str, Any]:
        return {
            "BOWLSIDE": self,
            "MAX_CONTENT_LENGTH": self.body_limit,
            "SQLALCHEMY_DATABASE_URI": f"sqlite:///{self.database.absolute()}",
        }
