"""The door: TLS that a home can use, pairing, and what stands between a stranger and the studio.

`authority`, `landing` and `names` make a
phone trust the server.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask


def init_app(app: Flask) -> None:
    """Hang the door: before everything else that a request meets."""
    from werkzeug.middleware.proxy_fix import ProxyFix

    settings = app.config["BOWLSIDE"]
    if settings.mode == "proxy" and (hops := settings.proxies):
        # Only as many hops as the maker says there are: anyone may send such headers.
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
