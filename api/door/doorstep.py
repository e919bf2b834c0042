"""What a device that is not known sees, whatever it asks for: the page that pairs it.

One file, with a style and a script of its own that the policy allows by their hashes, because nothing
else is served to a stranger. It does its work with no script too.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from flask import Response
from markupsafe import Markup, escape

from api.security import policy_of
from bench import words

PAGE = Path(__file__).with_name("pairing.html")


PLACE = re.compile(r"\{\{([a-z-]+)\}\}")
COMMAND = re.compile(r"`([^`]+)`")


def page(status: int, says: str = "", name: str = "") -> Response:
    """The pairing page, with a sentence on it, and the name that was typed before."""
    text, policy = _page(words.spoken())
    text = text.replace("{{=says}}", _with_commands(says)).replace("{{=name}}", escape(name))
    headers = {
        "Cache-Control": "no-store",
        "Content-Security-Policy": policy,
        # With none, a browser would not say either where the form was sent from, and the gate asks.
        "Referrer-Policy": "same-origin",
    }
    return Response(text, status, mimetype="text/html", headers=headers)


@cache
def _page(language: str) -> tuple[str, str]:
    """The page in one language, and its policy."""
    with words.speaking(language):
        text = PLACE.sub(_worded, PAGE.read_text("utf-8"))
    return text, policy_of(text)


def _worded(place: re.Match[str]) -> str:
    if place[1] == "language":
        return words.spoken()
    return _with_commands(words.say(f"api-door-page-{place[1]}"))


def _with_commands(says: str) -> Markup:
    """A sentence for the page; what is to be typed in a terminal stands out."""
    return Markup(COMMAND.sub(r"<code>\1</code>", str(escape(says))))
