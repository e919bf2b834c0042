"""What every answer says to the browser about what it may do with it, and how large a question may be."""

from __future__ import annotations

from flask import Flask, Response, request
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

# Answers of these types are never shown as a document.
DATA_TYPES = frozenset({"application/json", "application/problem+json"})
EVERY_ANSWER = (
    ("Vary", "Accept-Encoding"),
    ("X-Content-Type-Options", "nosniff"),
)
# The rest only means something for a document.
DOCUMENTS = (
    *EVERY_ANSWER,
    ("Content-Security-Policy", CONTENT_SECURITY_POLICY),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(), geolocation=(), microphone=()"),
)


def init_app(app: Flask) -> None:
    app.config["COMPRESS_REGISTER"] = False
    compress = Compress(app)

    @app.after_request
    def finish(response: Response) -> Response:
        if "X-Content-Type-Options" not in response.headers:  # an answer of api.wire brings its own
            response.headers.extend(EVERY_ANSWER if response.mimetype in DATA_TYPES else DOCUMENTS)
        return compress.after_request(response) if "Accept-Encoding" in request.headers else response
