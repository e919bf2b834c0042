"""What a device that is not known sees, whatever it asks for: the page that pairs it.

One file, with a style and a script of its own that the policy allows by their hashes, because nothing
else is served to a stranger. It does its work with no script too.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from flask import Response
from markupsafe import escape

from api.security import policy_of

PAGE = Path(__file__).with_name("pairing.html")


def page(status: int, says: str = "", name: str = "") -> Response:
    """The pairing page, with a sentence on it, and the name that was typed before."""
    text, policy = _page()
    text = text.replace("{{says}}", escape(says)).replace("{{name}}", escape(name))
    headers = {
        "Cache-Control": "no-store",
        "Content-Security-Policy": policy,
        # With none, a browser would not say either where the form was sent from, and the gate asks.
        "Referrer-Policy": "same-origin",
    }
    return Response(text, status, mimetype="text/html", headers=headers)


@cache
def _page() -> tuple[str, str]:
    text = PAGE.read_text("utf-8")
    return text, policy_of(text)
