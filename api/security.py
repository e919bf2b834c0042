"""What every answer says to the browser about what it may do with it, and how large a question may be."""

from __future__ import annotations

from flask import Flask, Response
from flask_compress import Compress

# The page needs nothing from elsewhere and no inline script or style.
CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "media-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
    )
)

HEADERS = (
    ("Content-Security-Policy", CONTENT_SECURITY_POLICY),
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(), geolocation=(), microphone=()"),
)


def init_app(app: Flask) -> None:
    Compress(app)
    app.after_request(_add_headers)


def _add_headers(response: Response) -> Response:
    response.headers.extend(HEADERS)
    return response
