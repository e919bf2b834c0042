"""What every answer says to the browser about what it may do with it, and how large a question may be."""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256

from flask import Flask, Response, request
from flask_compress import Compress

# The page needs nothing from elsewhere and no inline script or style.
_ALLOWED = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": " ".join(("'self'", "data:", "blob:")),
    "font-src": "'self'",
    "media-src": "'self'",
    "connect-src": "'self'",
    "manifest-src": "'self'",
    "worker-src": "'self'",
    "base-uri": "'none'",
    "form-action": "'none'",
    "frame-ancestors": "'none'",
}


def _policy(allowed: dict[str, str]) -> str:
    return "; ".join(f"{what} {where}" for what, where in allowed.items())


CONTENT_SECURITY_POLICY = _policy(_ALLOWED)


def policy_of(document: str) -> str:
    """The policy of a page that carries its own style and script and sends a form: these, and no others."""
    hashes = {
        f"{tag}-src": f"'sha256-{b64encode(sha256(inline.encode()).digest()).decode()}'"
        for tag in ("style", "script")
        for inline in re.findall(f"<{tag}>(.*?)</{tag}>", document, re.DOTALL)
    }
    return _policy({**_ALLOWED, **hashes, "form-action": "'self'"})


# Answers of these types are never shown as a document.
DATA_TYPES = frozenset({"application/json", "application/problem+json", "text/event-stream"})
EVERY_ANSWER = (
    ("Vary", "Accept-Encoding"),
    ("X-Content-Type-Options", "nosniff"),
)
# Data that a browser is made to show as a document after all may do nothing.
DATA_POLICY = "default-src 'none'; base-uri 'none'; frame-ancestors 'none'"
DATA = (*EVERY_ANSWER, ("Content-Security-Policy", DATA_POLICY))
# The rest only means something for a document.
DOCUMENTS = (
    *EVERY_ANSWER,
    ("Content-Security-Policy", CONTENT_SECURITY_POLICY),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(self), geolocation=(), microphone=()"),
)


def init_app(app: Flask) -> None:
    app.config["COMPRESS_REGISTER"] = False
    compress = Compress(app)

    @app.after_request
    def finish(response: Response) -> Response:
        if "X-Content-Type-Options" not in response.headers:  # an answer of api.wire brings its own
            for name, value in DATA if response.mimetype in DATA_TYPES else DOCUMENTS:
                response.headers.setdefault(name, value)
        return compress.after_request(response) if "Accept-Encoding" in request.headers else response
