"""Who may come in: asked at every request, before anything else is done with it.

In this order. Which paired device sent it, if any, and does that, or a stranger's address, ask no oftener
than it may (api/door/limits.py)? It is counted before anything can be refused or logged. Is it meant for
this server, and sent by this server's own page (api/door/hosts.py)? Has the device not been shut out, and
may its role do this? With pairing off, whoever sits at this machine is the maker, and nothing is asked but
whether it is meant for this server.

A device is known by its cookie, "<its id>.<its secret>", of whose secret this server keeps the SHA-256
alone. One indexed read finds it, so a device that was shut out is out at the next request, in every worker.
"""

from __future__ import annotations

import hmac
import secrets
from hashlib import sha256
from typing import NamedTuple, NoReturn
from uuid import uuid4

from flask import Flask, Response, current_app, g, has_request_context, request
from sqlalchemy import update
from sqlalchemy.exc import SQLAlchemyError

from api.answers import Role
from api.clock import now_ms
from api.door import budgets, limits
from api.door.doorstep import page
from api.door.hosts import refuse_strangers
from api.errors import Problem
from api.store import read_row, writing
from api.tables import Device
from bench import words

COOKIE = "__Host-bowlside"
DAY_MS = 24 * 3_600_000
# How long a device stays known: after it was paired, and after it was last seen.
KNOWN_MS = 365 * DAY_MS
UNSEEN_MS = 180 * DAY_MS
# Its last sight is written no oftener than this, or every question would be a write.
SEEN_EVERY_MS = 60_000

CHALLENGE = 'Pairing realm="Bowlside"'
UNPAIRED = "/problems/unpaired"
SHUT_OUT = "/problems/shut-out"
MAKER_ONLY = "/problems/maker-only"

# What answers a device that is not known: the way in, and nothing else.
ENTRANCES = frozenset({"/pair", "/api/v1/pair"})
# What they take is short, in bytes.
ENTRANCE_BODY = 4096

# These see for themselves who asks, and say little to a stranger (api/health.py).
ANYONE_MAY_ASK = frozenset({"health", "metrics"})

# All that a helper may do. What is not here is the maker's.
HELPERS_MAY = frozenset(
    {
        "api-docs.openapi_json",
        "clock.read_clock",
        "devices.change_device",
        "devices.get_studio",
        "devices.shut_out",
        "duties.get_due",
        "duties.get_duties",
        "duties.list_duties",
        "entries.get_entries",
        "entries.post_entries",
        "exchange.kit_schema",
        "exchange.recipe_schema",
        "hours.get_hours",
        "kit.get_kit",
        "live.get_live",
        "lots.get_ingredient",
        "lots.get_lot",
        "lots.list_ingredients",
        "lots.list_lots",
        "lots.recall",
        "lots.trace_lot",
        "outlets.list_outlets",
        "page",
        "pictures.get_picture",
        "pictures.list_awaited",
        "pictures.put_picture",
        "plans.ask_plan",
        "plans.cancel_plan",
        "plans.get_calendar",
        "plans.get_plan",
        "plans.get_run_calendar",
        "plans.get_run_plan",
        "recipes.check_document",
        "recipes.check_recipe",
        "recipes.get_changes",
        "recipes.get_qr",
        "recipes.get_recipe",
        "recipes.get_version",
        "recipes.list_recipes",
        "recipes.list_swaps",
        "recipes.list_versions",
        "recipes.list_whole_recipes",
        "entries.list_whole_runs",
        "recipes.size_recipe",
        "records.get_label",
        "records.get_last",
        "records.get_record",
        "records.get_record_csv",
        "runs.get_now",
        "runs.get_run",
        "runs.list_runs",
        "runs.put_run",
        "search.find",
        "settings.get_settings",
        "shelf.get_entries",
        "shelf.post_entries",
        "stock.get_origin",
        "stock.get_pieces",
        "stock.list_pieces",
        "substances.list_substances",
        "wants.get_want",
        "wants.list_wants",
        "week_plans.get_week",
    }
)

ROW = "id, name, role, bench, secret_sha256, paired_at, seen_at, shut_out_at"
BY_ID = f"SELECT {ROW} FROM device WHERE id = :id"


class DeviceRow(NamedTuple):
    """A device as the database has it."""

    id: str
    name: str
    role: Role
    bench: str | None
    secret_sha256: str
    paired_at: int
    seen_at: int
    shut_out_at: int | None


def init_app(app: Flask) -> None:
    limits.init_app(app)
    budgets.init_app(app)
    app.before_request(let_in)


def let_in() -> Response | None:
    """Let the request through with `g.device` set, or answer it here."""
    device, pairing = None, current_app.config["BOWLSIDE"].pairing
    if pairing:
        device = known_device()
        if device is None or device.shut_out_at is not None:
            limits.count(limits.STRANGER, limits.sender())
        else:
            g.device_id = device.id  # for the log, whatever comes of it
            limits.count(limits.DEVICE, device.id)
    refuse_strangers()
    if request.path in ENTRANCES:
        request.max_content_length = ENTRANCE_BODY
        return None
    if not pairing:
        return None
    if request.endpoint in ANYONE_MAY_ASK:
        g.device = device if device and device.shut_out_at is None else None
        return None
    if device is None or device.shut_out_at is not None:
        return _turn_away(UNPAIRED if device is None else SHUT_OUT)
    if length := request.content_length or 0:
        for budget in (budgets.BYTES_A_MINUTE, budgets.BYTES_A_DAY):
            budgets.spend(device.id, budget, length)
    if device.role != "maker" and request.endpoint is not None and request.endpoint not in HELPERS_MAY:
        refuse_helper(device)
    g.device = device
    _note_seen(device)
    return None


def sender() -> DeviceRow | None:
    """The paired device that sent this request; None where nobody needs to pair."""
    found: DeviceRow | None = g.get("device") if has_request_context() else None
    return found


def sender_id() -> str | None:
    device = sender()
    return device.id if device else None


def is_helper() -> bool:
    """Whether a helper's device asks: money is no matter of its."""
    device = sender()
    return device is not None and device.role != "maker"


def refuse_unconfirmed(role: Role, confirm: str | None) -> None:
    """A role is given by saying it twice: what was touched by a slip, or copied from elsewhere, gives none."""
    if confirm != role:
        says = words.say("api-door-confirm", role=role)
        raise Problem(422, says, errors=[("confirm", says)])


def says_of(problem: str) -> str:
    """What one of the problems above is, in words."""
    return words.say(f"api-door-problem-{problem.rpartition('/')[2]}")


def turn_away_from_makers_own() -> NoReturn:
    """Refuse whoever is not a maker's device, by what it is instead."""
    device = sender()
    if device is not None:
        refuse_helper(device)
    raise Problem(401, says_of(UNPAIRED), type=UNPAIRED, headers={"WWW-Authenticate": CHALLENGE})


def refuse_helper(device: DeviceRow) -> NoReturn:
    current_app.logger.warning("%s %s: refused to helper %s", request.method, request.path, device.id)
    raise Problem(403, says_of(MAKER_ONLY), type=MAKER_ONLY)


def known_device() -> DeviceRow | None:
    """The device of this request's cookie, shut out or not; None for no cookie, a wrong or an old one."""
    return device_of(request.cookies.get(COOKIE, ""))


def device_of(cookie: str) -> DeviceRow | None:
    """The device that has this cookie, shut out or not."""
    device_id, _, secret = cookie.partition(".")
    row = read_row(BY_ID, {"id": device_id}) if secret and "\0" not in device_id else None
    if row is None:
        return None
    device = DeviceRow(*row)
    if _is_forgotten(device, now_ms()):
        return None
    return device if hmac.compare_digest(digest(secret), device.secret_sha256) else None


def is_gone(device: DeviceRow, at: int) -> bool:
    """Whether the device can never come in again but by being paired anew, which makes another device of it."""
    return device.shut_out_at is not None or not device.secret_sha256 or _is_forgotten(device, at)


def _is_forgotten(device: DeviceRow, at: int) -> bool:
    return at - device.paired_at > KNOWN_MS or at - device.seen_at > UNSEEN_MS


def new_id() -> str:
    return str(uuid4())


def new_secret() -> str:
    """256 random bits, fit for a cookie."""
    return secrets.token_urlsafe(32)


def digest(secret: str) -> str:
    return sha256(secret.encode()).hexdigest()


def give_cookie(response: Response, device_id: str, secret: str) -> None:
    response.set_cookie(
        COOKIE,
        f"{device_id}.{secret}",
        max_age=KNOWN_MS // 1000,
        path="/",
        secure=True,
        httponly=True,
        samesite="Strict",
    )


def _turn_away(why: str) -> Response:
    """A problem for what asks the API, the pairing page for a person."""
    status = 401 if why == UNPAIRED else 403
    challenge = {"WWW-Authenticate": CHALLENGE} if status == 401 else {}
    if request.path.startswith("/api/"):
        raise Problem(status, says_of(why), type=why, headers=challenge)
    response = page(status, "" if why == UNPAIRED else says_of(why))
    response.headers.update(challenge)
    return response


def _note_seen(device: DeviceRow) -> None:
    at = now_ms()
    if abs(at - device.seen_at) < SEEN_EVERY_MS:
        return
    try:
        with writing(alone=False) as connection:
            connection.execute(update(Device).where(Device.id == device.id).values(seen_at=at))
    except SQLAlchemyError:
        # A full disk or a busy database is no reason to refuse what may be a reading.
        current_app.logger.warning("Could not note that device %s was seen", device.id)
