"""Who comes, as the edge asks it before a body is read: by the device's cookie, and by an address."""

from __future__ import annotations

from flask import Flask
from werkzeug.http import parse_cookie

from api.door.gate import COOKIE, ENTRANCE_BODY, device_of
from api.edge.keeper import Keeper
from api.edge.wsgi import Environ
from api.settings import Settings


class DoorKeeper(Keeper):
    def __init__(self, app: Flask) -> None:
        self._app = app
        settings: Settings = app.config["BOWLSIDE"]
        self._hops = settings.proxies if settings.mode == "proxy" else 0
        self._most = max(
            settings.body_limit, settings.import_limit, settings.picture_limit, settings.paper_limit
        )
        self.is_alone = not settings.pairing
        self.knows_addresses = settings.mode == "lan"

    def address(self, environ: Environ) -> str:
        """As the gate will see it: the last that the proxies say, for as many as there are."""
        said = [each.strip() for each in environ.get("HTTP_X_FORWARDED_FOR", "").split(",")]
        if self._hops and len(said) >= self._hops:
            return said[-self._hops] or super().address(environ)
        return super().address(environ)

    def shows(self, environ: Environ) -> str | None:
        sent = environ.get("HTTP_COOKIE", "")
        if COOKIE not in sent:
            return None
        return parse_cookie(sent).get(COOKIE)  # read as the gate reads it

    def device(self, shown: str) -> str | None:
        with self._app.app_context():
            device = device_of(shown)
        return device.id if device and device.shut_out_at is None else None

    def most(self, environ: Environ, is_known: bool) -> int:
        return self._most if is_known or self.is_alone else ENTRANCE_BODY
