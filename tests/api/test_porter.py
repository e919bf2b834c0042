"""The porter's chores: each is done when it is due, and one that fails keeps no other from it."""

from __future__ import annotations

import socket
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import urlsplit

import pytest
from cryptography.x509 import IPAddress, SubjectAlternativeName

from api.door.opening import Studio, addresses, open_studio
from api.porter import do_round
from api.settings import Settings
from tests.make import Clock

DAY = 24 * 3_600_000


@pytest.fixture
def opened(new_app: Callable[..., Any]) -> Iterator[Callable[..., Studio]]:
    """Opens a studio with settings of its own, with nobody who answers."""
    studios: list[Studio] = []

    def open_with(**settings: Any) -> Studio:
        studios.append(open_studio(new_app(port=0, landing_port=0, **settings)))
        return studios[-1]

    yield open_with
    for studio in studios:
        for each in studio.sockets:
            each.close()
        studio.porter.let_go()


def test_a_chore_that_fails_is_said_and_keeps_no_other_from_being_done(capsys: Any) -> None:
    done = []

    def look_after_certificate() -> None:
        raise OSError("No space left on device")

    do_round([look_after_certificate, lambda: done.append("copy")])

    assert done == ["copy"]
    said = capsys.readouterr().err
    assert "ERROR porter: look_after_certificate failed" in said and "No space left" in said
    assert said.count("\n") == 1


def test_on_a_network_it_renews_the_certificate_and_the_phones_need_no_new_trust(
    opened: Callable[..., Studio], clock: Clock, capsys: Any
) -> None:
    studio = opened(lan=True, pairing=True)
    assert studio.certificate
    first = studio.certificate.read()
    do_round(studio.porter.chores)
    assert studio.certificate.read() == first

    clock.ms += 25 * DAY
    do_round(studio.porter.chores)

    renewed = studio.certificate.read()
    assert renewed and first and renewed != first and renewed.issuer == first.issuer
    assert "porter: made the server's certificate anew" in capsys.readouterr().err


def test_a_copy_is_kept_each_night_however_the_studio_is_opened(
    opened: Callable[..., Studio], clock: Clock, capsys: Any
) -> None:
    studio = opened()

    for hours in (0, 1, 23):
        clock.ms += hours * 3_600_000
        do_round(studio.porter.chores)

    assert capsys.readouterr().err.count("porter: kept a copy") == 2


def test_this_machine_alone_is_listened_to_unless_told(opened: Callable[..., Studio]) -> None:
    local = opened()
    network = opened(lan=True, pairing=True)
    proxied = opened(pairing=True, proxies=1, hosts=("studio.example",))

    assert [each.getsockname()[0] for each in local.sockets] == ["127.0.0.1"]
    assert [each.getsockname()[0] for each in network.sockets] == ["0.0.0.0", "::"]
    assert [each.getsockname()[0] for each in proxied.sockets] == ["127.0.0.1"]
    assert local.certificate is None and network.certificate is not None
    assert (local.devices_at, proxied.devices_at) == ("", "https://studio.example/")


def test_a_network_may_be_one_address_and_then_no_other_is_listened_to_vouched_for_or_shown(
    opened: Callable[..., Studio],
) -> None:
    studio = opened(lan=True, pairing=True, listen="127.0.0.2")

    assert [each.getsockname()[0] for each in studio.sockets] == ["127.0.0.2"]
    assert studio.landing.startswith("http://127.0.0.2:")
    assert socket.create_connection(("127.0.0.2", urlsplit(studio.landing).port or 0)).close() is None
    assert studio.certificate
    certificate = studio.certificate.read()
    assert certificate
    names = certificate.extensions.get_extension_for_class(SubjectAlternativeName).value
    assert [str(each) for each in names.get_values_for_type(IPAddress)] == ["127.0.0.2"]
    port = studio.sockets[0].getsockname()[1]
    settings = Settings(lan=True, pairing=True, listen="127.0.0.2")
    shown = [urlsplit(each).hostname or "" for each in addresses(settings, port)]
    assert [each for each in shown if each[0].isdigit()] == ["127.0.0.2"]


def test_an_ipv6_address_is_shown_as_addresses_are_written() -> None:
    shown = addresses(Settings(lan=True, pairing=True, listen="fd00::5"), 8420)

    assert "https://[fd00::5]:8420/" in shown


def test_names_that_the_authority_was_not_made_for_are_told(opened: Callable[..., Studio]) -> None:
    assert opened(lan=True, pairing=True, hosts=("studio.example",)).left_out == ()
    assert opened(lan=True, pairing=True, hosts=("nodots",)).left_out == ("nodots",)
