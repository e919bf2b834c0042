"""Pairing: a code that is made by a maker, good once and for minutes, lets one device in.

A wrong code could have been meant for any that is open, so it costs each of them a try. The count is in
the database and holds over all processes; how often one address may be wrong, and all together, is counted
beside it (api/door/limits.py). So a stranger can spend one code's tries and must then wait, and many can spend
two; past that a right code passes, however many wrong ones come.
"""

from __future__ import annotations

import hmac
import secrets
from io import BytesIO
from typing import NamedTuple, NoReturn, NotRequired, TypedDict
from urllib.parse import urlsplit

import segno
from flask import Flask, Response, current_app, redirect, request
from marshmallow import ValidationError
from sqlalchemy import ColumnElement, Connection, delete, insert, select, update

from api import audit
from api.answers import Paired, PairingMade, Role
from api.clock import now_ms
from api.door import client_ids, gate, limits
from api.door.devices import COLUMNS, shown
from api.door.doorstep import page
from api.door.gate import DeviceRow
from api.door.hosts import LOOPBACK, host_name
from api.errors import Problem, as_problem
from api.schemas import PairAsked, PairingAsked
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import Device, Pairing
from api.wire import Blueprint, answer, unfit_values
from bench import words

blueprint = Blueprint("pairing", __name__, description="Letting a device in")

# Crockford's base 32: no I, L, O or U to be misread. https://www.crockford.com/base32.html
DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
READ_AS = str.maketrans({"O": "0", "I": "1", "L": "1", "-": None, " ": None})
LENGTH = 8
LASTS_MS = 10 * 60_000
TRIES = 5


def init_app(app: Flask) -> None:
    """The page and its form stand beside the API, for people."""
    app.add_url_rule("/pair", "pairing_page", show_page)
    app.add_url_rule("/pair", "pairing_form", pair_by_form, methods=["POST"])


class Code(NamedTuple):
    """Eight digits, and when they stop working, in ms."""

    digits: str
    expires_at: int


class Outcome(NamedTuple):
    """What became of a code: the role it gives, or how many tries are left, and how many codes had their last."""

    role: Role | None
    tries_left: int
    spent: int = 0


class OpenCode(NamedTuple):
    """A code that still lets somebody in."""

    code_sha256: str
    role: Role
    tries_left: int


class PairingWanted(TypedDict):
    """`api.schemas.PairingAsked`, read."""

    role: Role
    confirm: NotRequired[Role]


class PairGiven(TypedDict):
    """`api.schemas.PairAsked`, read."""

    code: str
    name: str
    bench: NotRequired[str]


@blueprint.post("/pairings")
@blueprint.arguments(PairingAsked())
@blueprint.response(201, shape(PairingMade))
def make_pairing(asked: PairingWanted) -> Response:
    """Make a code that lets one device in; a maker's to make."""
    _refuse_without_pairing()
    if asked["role"] == "maker":
        gate.refuse_unconfirmed("maker", asked.get("confirm"))
    limits.count(limits.CODES_MADE, "")
    with writing() as connection:
        code = make_code(connection, asked["role"], now_ms())
    address = address_of(_studio_address(), code)
    made = {"code": code.digits, "expires_at": code.expires_at, "address": address, "qr": qr_svg(address)}
    return _private(answer(made, 201))


@blueprint.post("/pair")
@blueprint.doc(security=[])
@blueprint.arguments(PairAsked())
@blueprint.response(201, shape(Paired))
def pair(asked: PairGiven) -> Response:
    """Pair this device by a code: it gets a cookie of its own. Open to a device that is not paired."""
    device, secret = let_in(asked)
    response = _private(answer({"device": shown(device)}, 201))
    gate.give_cookie(response, device.id, secret)
    return response


def show_page() -> Response:
    """The pairing page, for a person."""
    return page(200) if current_app.config["BOWLSIDE"].pairing else redirect("/", 303)  # type: ignore[return-value]


def pair_by_form() -> Response:
    """The pairing page's form: leads on to the studio, or says on the page what to do."""
    try:
        asked = {name: request.form[name] for name in ("code", "name") if name in request.form}
        if any(unfit_values(asked)):
            raise ValidationError({"name": [words.say("api-fields-plain-name")]})
        device, secret = let_in(_read(asked))
    except (Problem, ValidationError) as error:
        problem = as_problem(error)
        says = " ".join(detail for _, detail in problem.errors) or problem.detail
        response = page(problem.status, says, request.form.get("name", ""))
        response.headers.update(problem.headers)
        return response
    response = _private(redirect("/", 303))  # type: ignore[arg-type]
    gate.give_cookie(response, device.id, secret)
    return response


def _read(form: dict[str, str]) -> PairGiven:
    asked: PairGiven = PairAsked().load(form)
    return asked


def let_in(asked: PairGiven) -> tuple[DeviceRow, str]:
    """Pair the device that asks; gives it and its new secret.

    A device that is paired already stays the same device, and a maker a maker; its old secret ends.
    """
    _refuse_without_pairing()
    address, at = request.remote_addr, now_ms()
    _hold_off_guesses(asked["code"], at)
    known, secret, device = gate.known_device(), gate.new_secret(), None
    with writing() as connection:
        outcome = use_code(connection, asked["code"], at)
        if outcome.role is not None:
            device = _welcome(connection, asked, outcome.role, known, secret, at)
        elif outcome.spent:
            audit.note(connection, "code_spent", who=audit.STRANGER, address=address, codes=outcome.spent)
    if device is None:
        _refuse_code(outcome)
    current_app.logger.warning("Paired device %s as a %s, from %s", device.id, device.role, address)
    return device, secret


def _welcome(
    connection: Connection, asked: PairGiven, role: Role, known: DeviceRow | None, secret: str, at: int
) -> DeviceRow:
    """Keep the device that asks, by the role that its code gives."""
    if known and known.shut_out_at is not None:
        known = None
    values: dict[str, str | int] = {
        "name": asked["name"],
        "role": known.role if known and known.role == "maker" else role,
        "secret_sha256": gate.digest(secret),
        "paired_at": at,
        "seen_at": at,
    }
    if "bench" in asked:
        values["bench"] = asked["bench"]
    device = _keep(connection, known, values)
    if device.bench is not None:
        client_ids.name(connection, device.bench, device)
    audit.note(
        connection,
        "paired",
        by=device,
        role=device.role,
        address=request.remote_addr,
        again=int(known is not None),
    )
    return device


def _refuse_code(outcome: Outcome) -> NoReturn:
    """Counted after the transaction: the code's own tries must be kept whatever is answered."""
    if outcome.tries_left or outcome.spent:
        limits.rates().hit(limits.TRIES_OF_ALL, "")
    limits.count(limits.WRONG_CODE, limits.sender())
    current_app.logger.warning("Pairing: a wrong code from %s", request.remote_addr)
    left = outcome.tries_left
    says = words.say("api-door-wrong-code", count=left) if left else words.say("api-door-no-code")
    raise Problem(422, says, errors=[("code", says)])


def _hold_off_guesses(typed: str, at: int) -> None:
    """A wrong code from where, or from strangers who, have spent enough tries costs no code another.

    A right one passes, so that nobody's wrong ones keep an honest device out. Until they wait no longer, what
    protects a code from them is its length, and how seldom strangers may ask at all.
    """
    rates, who = limits.rates(), limits.sender()
    waits = rates.is_spent(limits.WRONG_CODE, who)
    if not waits and not rates.is_spent(limits.TRIES_OF_ALL, ""):
        return
    with reading() as connection:
        if _fitting(_open_codes(connection, at), typed):
            return
    limits.refuse_if_spent(limits.WRONG_CODE, who)
    limits.count(limits.WRONG_CODE, who)
    current_app.logger.warning("Pairing: a wrong code from %s", request.remote_addr)
    says = words.say("api-door-wrong-code-too-often")
    raise Problem(422, says, errors=[("code", says)])


def make_code(connection: Connection, role: Role, at: int) -> Code:
    """Open a code for one device of that role; those that have run out are cleared away."""
    code = Code("".join(secrets.choice(DIGITS) for _ in range(LENGTH)), at + LASTS_MS)
    connection.execute(delete(Pairing).where(Pairing.expires_at <= at))
    connection.execute(
        insert(Pairing).values(
            code_sha256=gate.digest(code.digits),
            role=role,
            made_at=at,
            expires_at=code.expires_at,
            tries_left=TRIES,
        )
    )
    audit.note(connection, "code_made", role=role)
    return code


def use_code(connection: Connection, typed: str, at: int) -> Outcome:
    """Use up the code that was typed, or a try of each that is open."""
    rows = _open_codes(connection, at)
    if fitting := _fitting(rows, typed):
        used = Pairing.code_sha256 == fitting[0].code_sha256
        connection.execute(update(Pairing).where(used).values(used_at=at))
        return Outcome(fitting[0].role, 0)
    connection.execute(update(Pairing).where(_is_open(at)).values(tries_left=Pairing.tries_left - 1))
    spent = sum(row.tries_left == 1 for row in rows)
    return Outcome(None, max((row.tries_left - 1 for row in rows), default=0), spent)


def _open_codes(connection: Connection, at: int) -> list[OpenCode]:
    asked = select(Pairing.code_sha256, Pairing.role, Pairing.tries_left).where(_is_open(at))
    return [OpenCode(*row) for row in connection.execute(asked)]


def _is_open(at: int) -> ColumnElement[bool]:
    return (
        Pairing.used_at.is_(None)
        & (Pairing.tries_left > 0)
        & (Pairing.made_at <= at)
        & (Pairing.expires_at > at)
    )


def _fitting(rows: list[OpenCode], typed: str) -> list[OpenCode]:
    """Each is compared, found or not, so that the time taken says nothing."""
    wanted = gate.digest(typed.upper().translate(READ_AS))
    return [row for row in rows if hmac.compare_digest(row.code_sha256, wanted)]


def address_of(studio: str, code: Code) -> str:
    """What the code's QR code says. The code is in the fragment, which no browser sends to a server."""
    return f"{studio}pair#{code.digits}"


def _studio_address() -> str:
    """The studio as other devices reach it: as this one does, unless this one is the studio's computer."""
    settings = current_app.config["BOWLSIDE"]
    if not settings.lan or host_name(request.host) not in LOOPBACK:
        return request.host_url
    from api.door.opening import addresses  # brings the web server along, which a command has no need of

    return addresses(settings, urlsplit(request.host_url).port or 443)[0]


def qr_svg(address: str) -> str:
    drawn = BytesIO()
    segno.make(address, error="m", micro=False).save(
        drawn, kind="svg", xmldecl=False, light="#fff", border=4, omitsize=True
    )
    return drawn.getvalue().decode()


def _keep(connection: Connection, known: DeviceRow | None, values: dict[str, str | int]) -> DeviceRow:
    if known:
        device_id = known.id
        connection.execute(update(Device).where(Device.id == device_id).values(**values))
    else:
        device_id = gate.new_id()
        connection.execute(insert(Device).values(id=device_id, **values))
    return DeviceRow(*connection.execute(select(*COLUMNS).where(Device.id == device_id)).one())


def _refuse_without_pairing() -> None:
    if not current_app.config["BOWLSIDE"].pairing:
        raise Problem(409, words.say("api-door-no-pairing"))


def _private(response: Response) -> Response:
    response.headers["Cache-Control"] = "no-store"
    return response
