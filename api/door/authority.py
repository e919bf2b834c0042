"""A certificate authority of the studio's own, and the server's certificate that it vouches for.

A phone gives a page its full powers (working with no network, the screen kept on) only over TLS that it
trusts, and no public authority vouches for a machine at home. So the first `serve --lan` makes an
authority in <database folder>/door, which the maker's devices are told to trust. It can vouch only for
servers (extended key usage, 4.2.1.12) of this machine's names, of `.local` and of private addresses, and
for no mailbox, no URI and no other holder (name constraints, RFC 5280 4.2.1.10), so that a stolen key is
worth little outside the house; the key never leaves the folder.

The server's own certificate lives for days, is renewed when a third of its life is left or the
machine's names and addresses change, and is taken up by running workers with no restart.
"""

from __future__ import annotations

import os
import ssl
from datetime import UTC, datetime, timedelta
from ipaddress import IPv4Network, IPv6Network, ip_network
from pathlib import Path
from typing import NamedTuple

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from api.door.names import Names
from api.settings import RELEASED_MS
from bench import words

AUTHORITY_DAYS = 3650
CERTIFICATE_DAYS = 30
SERVER = "Bowlside"  # whom the server's certificate is made out to
# A phone's clock may be a little behind; a certificate begins this much before it is made.
EARLIER = timedelta(days=1)
ENDS_SOON = timedelta(days=60)

# Networks that are nobody's on the internet: RFC 1918, 3927, 4193, 4291 and 6598, and this machine itself.
PRIVATE = tuple(
    ip_network(each)
    for each in (
        "10.0.0.0/8",
        "172.16.0.0/12",
        "192.168.0.0/16",
        "100.64.0.0/10",
        "169.254.0.0/16",
        "127.0.0.0/8",
        "fc00::/7",
        "fe80::/10",
        "::1/128",
    )
)


class Authority(NamedTuple):
    key: ec.EllipticCurvePrivateKey
    certificate: x509.Certificate

    @property
    def der(self) -> bytes:
        """The certificate as devices take it."""
        return self.certificate.public_bytes(Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the certificate, as devices show it: pairs of hex digits."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(":").upper()

    def covers(self, names: Names) -> Names:
        """Those of the names and addresses that this authority may vouch for."""
        constraints = self.certificate.extensions.get_extension_for_class(x509.NameConstraints).value
        permitted = constraints.permitted_subtrees or ()
        hosts = [each.value for each in permitted if isinstance(each, x509.DNSName)]
        values = [each.value for each in permitted if isinstance(each, x509.IPAddress)]
        networks = [each for each in values if isinstance(each, IPv4Network | IPv6Network)]
        return Names(
            tuple(
                name
                for name in names.hosts
                if any(name == each or name.endswith(f".{each}") for each in hosts)
            ),
            tuple(address for address in names.addresses if any(address in each for each in networks)),
        )


class Certificate:
    """The server's certificate and key in one file, as the workers use it."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / "server.pem"
        self._held: tuple[tuple[int, int], ssl.SSLContext] | None = None

    def context(self) -> ssl.SSLContext:
        """The TLS context for a new connection: another one when the file has become another."""
        status = self.file.stat()
        version = (status.st_ino, status.st_mtime_ns)
        if self._held is None or self._held[0] != version:
            context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            context.minimum_version = ssl.TLSVersion.TLSv1_2
            context.load_cert_chain(self.file)
            context.set_alpn_protocols(["http/1.1"])
            self._held = (version, context)
        return self._held[1]

    def read(self) -> x509.Certificate | None:
        """The certificate; None when there is none that can be read."""
        try:
            return x509.load_pem_x509_certificate(self.file.read_bytes())
        except (OSError, ValueError):
            return None

    @property
    def ends_at(self) -> int | None:
        """When it ends, in ms since 1970."""
        certificate = self.read()
        return int(certificate.not_valid_after_utc.timestamp() * 1000) if certificate else None


class WrongClock(Exception):
    """The clock is earlier than this program: what is made by it, no device would trust."""


def open_authority(folder: Path, names: Names, now_ms: int) -> Authority:
    """The authority kept in this folder, made when there is none yet; WrongClock when that cannot be."""
    key_file, certificate_file = folder / "authority.key", folder / "authority.crt"
    if not certificate_file.exists():
        if now_ms < RELEASED_MS:
            raise WrongClock
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        made = _make_authority(names, _instant(now_ms))
        _write(key_file, _key_pem(made.key))
        _write(certificate_file, made.certificate.public_bytes(Encoding.PEM))
    key = load_pem_private_key(key_file.read_bytes(), password=None)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    return Authority(key, x509.load_pem_x509_certificate(certificate_file.read_bytes()))


def renew(certificate: Certificate, authority: Authority, names: Names, now_ms: int) -> bool:
    """Make the server's certificate anew if it is time or its names have changed; says whether it did."""
    covered, now = authority.covers(names), _instant(now_ms)
    current = certificate.read()
    # By a clock that is years behind a good certificate would be taken for one of the future.
    if current and (now_ms < RELEASED_MS or _is_good(current, authority, covered, now)):
        return False
    key = ec.generate_private_key(ec.SECP256R1())
    made = issue(key, authority, covered, now)
    _write(certificate.file, _key_pem(key) + made.public_bytes(Encoding.PEM))
    return True


def doubts(authority: Authority, now_ms: int) -> str | None:
    """Why devices may not trust this authority any more, or will soon not; None when all is well."""
    begins, ends = authority.certificate.not_valid_before_utc, authority.certificate.not_valid_after_utc
    now = _instant(now_ms)
    if now < begins:
        return words.say("api-door-authority-begins", at=_day(begins))
    if now >= ends:
        fault = words.say("api-door-authority-ended", at=_day(ends))
    elif ends - now < ENDS_SOON:
        fault = words.say("api-door-authority-ends", at=_day(ends))
    else:
        return None
    return f"{fault} {words.say('api-door-authority-new')}"


def _day(at: datetime) -> str:
    return at.date().isoformat()


def _is_good(current: x509.Certificate, authority: Authority, names: Names, now: datetime) -> bool:
    third = (current.not_valid_after_utc - current.not_valid_before_utc) / 3
    alternatives = current.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return (
        current.issuer == authority.certificate.subject
        and current.not_valid_before_utc <= now < current.not_valid_after_utc - third
        and set(alternatives.get_values_for_type(x509.DNSName)) == set(names.hosts)
        and set(alternatives.get_values_for_type(x509.IPAddress)) == set(names.addresses)
    )


def _make_authority(names: Names, now: datetime) -> Authority:
    key = ec.generate_private_key(ec.SECP256R1())
    # Each authority has a name of its own, so that a device that trusts two of them tells them apart.
    mark = x509.SubjectKeyIdentifier.from_public_key(key.public_key())
    subject = _called(f"Bowlside, {names.hosts[0]} {mark.digest[:3].hex()}")
    own = [ip_network(each) for each in names.addresses if not any(each in network for network in PRIVATE)]
    # A permitted name permits all names under it, and a machine called "studio" must not get an authority
    # for the internet's .studio: a name with no dot is left out.
    hosts = [each for each in names.hosts if "." in each and not each.endswith(".local")]
    permitted = [
        *(x509.DNSName(each) for each in (*hosts, "local", "localhost")),
        *(x509.IPAddress(each) for each in (*PRIVATE, *own)),
        # What is permitted of a kind leaves out all else of it. RFC 2606: nothing is called `.invalid`.
        x509.RFC822Name("nobody.invalid"),
        x509.UniformResourceIdentifier("nobody.invalid"),
        x509.DirectoryName(_called(SERVER)),
    ]
    certificate = (
        _begin(subject, subject, key, now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return Authority(key, certificate)


def issue(
    key: ec.EllipticCurvePrivateKey, authority: Authority, names: Names, now: datetime
) -> x509.Certificate:
    """A server's certificate for these names. Whether they are covered is for who takes it to judge."""
    alternatives = [
        *(x509.DNSName(each) for each in names.hosts),
        *(x509.IPAddress(each) for each in names.addresses),
    ]
    issuer = authority.certificate
    return (
        _begin(_called(SERVER), issuer.subject, key, now, CERTIFICATE_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(alternatives), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(
                issuer.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
            ),
            critical=False,
        )
        .sign(authority.key, hashes.SHA256())
    )


def _begin(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePrivateKey, now: datetime, days: int
) -> x509.CertificateBuilder:
    public, begins = key.public_key(), now - EARLIER
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + timedelta(days=days))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public), critical=False)
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        encipher_only=False,
        decipher_only=False,
    )


def _called(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])


def _instant(ms: int) -> datetime:
    return datetime.fromtimestamp(ms // 1000, UTC)


def _key_pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())


def _write(file: Path, content: bytes) -> None:
    """Whole or not at all, and for this user's eyes only."""
    new = file.with_suffix(".new")
    new.unlink(missing_ok=True)
    with open(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as opened:
        opened.write(content)
        opened.flush()
        os.fsync(opened.fileno())
    new.replace(file)
