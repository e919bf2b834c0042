"""The studio's own certificate authority, as OpenSSL sees it."""

from __future__ import annotations

import socket
import ssl
import stat
import subprocess
import threading
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
from hypothesis import given, settings
from hypothesis import strategies as st

from api.door.authority import Certificate, WrongClock, doubts, issue, open_authority, renew
from api.door.names import Names, names_of_machine

NOW = 1_800_000_000_000
DAY = 24 * 3_600_000
HOME = Names(
    ("bench.local", "bench", "bench.home.example", "localhost"),
    (ip_address("192.168.1.20"), ip_address("fd00::20"), ip_address("127.0.0.1")),
)


class Door:
    """A door's folder with an authority and the server's certificate, made at NOW."""

    def __init__(self, folder: Path, names: Names = HOME) -> None:
        self.folder = folder
        self.authority = open_authority(folder, names, NOW)
        self.certificate = Certificate(folder)
        self.renew(names, NOW)

    def renew(self, names: Names = HOME, at: int = NOW) -> bool:
        return renew(self.certificate, self.authority, names, at)

    @property
    def served(self) -> x509.Certificate:
        found = self.certificate.read()
        assert found is not None
        return found


@pytest.fixture
def door(tmp_path: Path) -> Door:
    return Door(tmp_path / "door")


def openssl(door: Door, leaf: x509.Certificate, *options: str, at: int = NOW) -> str:
    """What `openssl verify` says of a certificate, when the authority is trusted."""
    file = door.folder / "asked.pem"
    file.write_bytes(leaf.public_bytes(Encoding.PEM))
    trusted = ["-CAfile", str(door.folder / "authority.crt"), "-attime", str(at // 1000)]
    command = ["openssl", "verify", "-x509_strict", "-purpose", "sslserver", *trusted, *options, str(file)]
    done = subprocess.run(command, capture_output=True, text=True)
    return done.stdout + done.stderr


@pytest.mark.parametrize(
    "asked",
    [
        ("-verify_hostname", "bench.local"),
        ("-verify_hostname", "bench.home.example"),
        ("-verify_hostname", "localhost"),
        ("-verify_ip", "192.168.1.20"),
        ("-verify_ip", "fd00::20"),
        ("-verify_ip", "127.0.0.1"),
    ],
)
def test_the_certificate_holds_for_every_name_and_address(door: Door, asked: tuple[str, str]) -> None:
    assert openssl(door, door.served, *asked).endswith(": OK\n")


def test_it_holds_for_no_other_name(door: Door) -> None:
    assert "hostname mismatch" in openssl(door, door.served, "-verify_hostname", "other.local")


@pytest.mark.parametrize(
    ("host", "address"),
    [
        ("shop.example", "127.0.0.1"),
        ("local.example", "127.0.0.1"),
        ("sold.bench", "127.0.0.1"),
        ("bench.local", "203.0.113.5"),
        ("bench.local", "2001:db8::5"),
    ],
)
def test_a_stolen_key_is_worth_nothing_outside_the_house(door: Door, host: str, address: str) -> None:
    """`sold.bench`: a machine called "bench" must not get an authority for a whole top-level domain."""
    stolen = ec.generate_private_key(ec.SECP256R1())
    forged = issue(
        stolen,
        door.authority,
        Names((host,), (ip_address(address),)),
        datetime.fromtimestamp(NOW / 1000, UTC),
    )

    assert "permitted subtree violation" in openssl(door, forged)


def test_an_authority_made_with_an_address_of_its_own_outside_the_private_networks_covers_that_one(
    tmp_path: Path,
) -> None:
    rented = Names(("bench.local", "localhost"), (ip_address("203.0.113.7"),))
    door = Door(tmp_path / "door", rented)

    assert openssl(door, door.served, "-verify_ip", "203.0.113.7").endswith(": OK\n")
    assert door.authority.covers(Names((), (ip_address("203.0.113.8"),))) == Names((), ())


def test_what_the_authority_cannot_vouch_for_is_left_out(door: Door) -> None:
    moved = Names((*HOME.hosts, "studio.example"), (*HOME.addresses, ip_address("203.0.113.7")))

    door.renew(moved)

    assert openssl(door, door.served).endswith(": OK\n")
    assert "studio.example" not in door.authority.covers(moved).hosts


def test_only_its_owner_may_read_the_folder_and_the_keys(door: Door) -> None:
    assert stat.S_IMODE(door.folder.stat().st_mode) == 0o700
    for file in ("authority.key", "server.pem"):
        assert stat.S_IMODE((door.folder / file).stat().st_mode) == 0o600


def test_the_authority_is_made_once(door: Door) -> None:
    again = open_authority(door.folder, HOME, NOW + 400 * DAY)

    assert again.fingerprint == door.authority.fingerprint


def test_two_authorities_of_one_machine_have_two_names(tmp_path: Path, door: Door) -> None:
    other = open_authority(tmp_path / "other", HOME, NOW)

    assert other.certificate.subject != door.authority.certificate.subject


def test_the_certificate_lives_for_a_month_at_most(door: Door) -> None:
    life = door.served.not_valid_after_utc - door.served.not_valid_before_utc

    assert life.days <= 30
    assert door.certificate.ends_at == int(door.served.not_valid_after_utc.timestamp() * 1000)


@given(days=st.lists(st.integers(0, 90), min_size=1, max_size=4))
@settings(max_examples=15, deadline=None)
def test_on_any_day_the_served_certificate_is_good_and_has_days_to_go(
    tmp_path_factory: pytest.TempPathFactory, days: list[int]
) -> None:
    door = Door(tmp_path_factory.mktemp("door"))
    for day in days:  # in any order: a clock may be set back
        at = NOW + day * DAY
        door.renew(at=at)
        left = (door.certificate.ends_at or 0) - at
        assert 10 * DAY <= left <= 30 * DAY
        assert openssl(door, door.served, at=at).endswith(": OK\n")


@pytest.mark.parametrize(
    ("after_days", "renewed"), [(0, False), (18, False), (20, True), (40, True), (-3, True)]
)
def test_it_is_renewed_when_a_third_of_its_life_is_left(door: Door, after_days: int, renewed: bool) -> None:
    assert door.renew(at=NOW + after_days * DAY) is renewed


def test_it_is_renewed_when_the_machine_is_called_or_found_otherwise(door: Door) -> None:
    moved = HOME._replace(addresses=(ip_address("192.168.1.77"), ip_address("127.0.0.1")))

    assert door.renew(moved)
    assert not door.renew(moved)
    assert openssl(door, door.served, "-verify_ip", "192.168.1.77").endswith(": OK\n")


def test_another_authority_means_another_certificate(door: Door) -> None:
    for file in door.folder.glob("authority.*"):
        file.unlink()
    door.authority = open_authority(door.folder, HOME, NOW)

    assert door.renew()
    assert openssl(door, door.served).endswith(": OK\n")


def test_a_file_cut_short_is_made_anew(door: Door) -> None:
    door.certificate.file.write_bytes(door.certificate.file.read_bytes()[:300])

    assert door.renew()


def test_a_new_certificate_is_taken_up_by_the_next_connection(door: Door) -> None:
    first = serial_over_tls(door)
    held = door.certificate.context()
    assert door.certificate.context() is held

    door.renew(at=NOW + 25 * DAY)

    assert serial_over_tls(door) != first
    assert serial_over_tls(door) == door.served.serial_number


def test_nothing_older_than_tls_1_2_is_spoken(door: Door) -> None:
    assert door.certificate.context().minimum_version == ssl.TLSVersion.TLSv1_2


def serial_over_tls(door: Door) -> int:
    """The serial number of the certificate that a client sees."""
    ours, theirs = socket.socketpair()
    client = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    client.check_hostname, client.verify_mode = False, ssl.CERT_NONE
    answering = threading.Thread(
        target=lambda: door.certificate.context().wrap_socket(ours, server_side=True).close()
    )
    answering.start()
    with client.wrap_socket(theirs) as connection:
        der = connection.getpeercert(binary_form=True)
    answering.join()
    assert der is not None
    return x509.load_der_x509_certificate(der).serial_number


def test_the_fingerprint_is_what_openssl_shows(door: Door) -> None:
    shown = subprocess.run(
        ["openssl", "x509", "-in", door.folder / "authority.crt", "-noout", "-fingerprint", "-sha256"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout

    assert shown.strip().endswith(f"={door.authority.fingerprint}")


def test_the_machine_knows_its_own_names() -> None:
    names = names_of_machine(("studio.example",))

    assert names.hosts[0] == "studio.example"
    assert {"localhost", f"{socket.gethostname().split('.')[0].lower()}.local"} <= set(names.hosts)
    assert ip_address("127.0.0.1") in names.addresses


NOBODY = {
    "a mailbox": x509.RFC822Name("ada@bench.local"),
    "a mailbox anywhere": x509.RFC822Name("ada@example.com"),
    "a URI": x509.UniformResourceIdentifier("https://bench.local/"),
    "a URI anywhere": x509.UniformResourceIdentifier("ldap://directory.example/cn=ada"),
    "another holder": x509.DirectoryName(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Ada")])),
}


@pytest.mark.parametrize("name", NOBODY.values(), ids=NOBODY)
def test_the_authority_vouches_for_no_name_of_another_kind(door: Door, name: x509.GeneralName) -> None:
    forged = forge(door, x509.SubjectAlternativeName([x509.DNSName("bench.local"), name]))

    assert "permitted subtree violation" in openssl(door, forged)


def test_nor_for_another_holder(door: Door) -> None:
    forged = forge(door, x509.SubjectAlternativeName([x509.DNSName("bench.local")]), "Ada")

    assert "permitted subtree violation" in openssl(door, forged)


def test_nor_for_anything_but_servers(door: Door) -> None:
    file = door.folder / "server.crt"
    file.write_bytes(door.served.public_bytes(Encoding.PEM))
    for purpose in ("sslclient", "smimesign"):
        command = ["openssl", "verify", "-purpose", purpose, "-attime", str(NOW // 1000)]
        trusted = ["-CAfile", str(door.folder / "authority.crt")]
        said = subprocess.run([*command, *trusted, str(file)], capture_output=True, text=True)
        assert said.returncode, purpose
    usage = door.authority.certificate.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]


def forge(door: Door, names: x509.SubjectAlternativeName, holder: str = "Bowlside") -> x509.Certificate:
    """A certificate that the authority's own key signed, for whatever names."""
    key, begins = ec.generate_private_key(ec.SECP256R1()), datetime.fromtimestamp(NOW / 1000 - 60, UTC)
    mark = door.authority.certificate.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, holder)]))
        .issuer_name(door.authority.certificate.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + timedelta(days=1))
        .add_extension(names, critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(mark), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(door.authority.key, hashes.SHA256())
    )


def test_by_a_clock_of_years_ago_nothing_is_made(door: Door, tmp_path: Path) -> None:
    with pytest.raises(WrongClock):
        open_authority(tmp_path / "new", HOME, 31 * DAY)

    assert not door.renew(at=31 * DAY)  # what is good stays
    assert openssl(door, door.served).endswith(": OK\n")


@pytest.mark.parametrize(
    ("days", "says"),
    [
        (0, None),
        (3580, None),
        (3600, "ends on"),
        (3651, "ended on"),
        (-3, "before that"),
        (-20_000, "before that"),
    ],
)
def test_an_authority_out_of_date_is_told_of(door: Door, days: int, says: str | None) -> None:
    said = doubts(door.authority, NOW + days * DAY)

    assert said is None if says is None else says in (said or "")
