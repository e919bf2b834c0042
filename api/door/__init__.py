"""The door: TLS that a home can use, pairing, and what stands between a stranger and the studio.

`gate` asks at every request who it is; `pairing` lets a device in by a code, `devices` lists and shuts
out; `hosts` and `limits` are the gate's first questions. `authority`, `landing` and `names` make a
phone trust the server.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask


def init_app(app: Flask) -> None:
    """Hang the door: before everything else that a request meets."""
    from werkzeug.middleware.proxy_fix import ProxyFix

    from api.door import gate, pairing

    settings = app.config["BOWLSIDE"]
    if settings.mode == "proxy" and (hops := settings.proxies):
        # Only as many hops as the maker says there are: anyone may send such headers.
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    gate.init_app(app)
    pairing.init_app(app)
