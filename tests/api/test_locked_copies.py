"""Copies that are encrypted, and sent elsewhere by a command of the maker's own."""

from __future__ import annotations

import hmac
import os
import subprocess
import sys
from base64 import b64encode
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pyrage
import pytest
from click.testing import CliRunner
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

from api import copies, copyfile
from api.cli import main
from api.copies import CopyError
from tests.api.test_move_studio import all_rows, furnish
from tests.api.test_nights import MINUTE_MS, says
from tests.make import Clock

pytestmark = pytest.mark.database("sqlite")


def identity() -> tuple[list[Any], str]:
    content, public = copyfile.new_identity()
    return copyfile.read_identities(content, lambda: ""), public


def test_a_copy_is_encrypted_to_a_public_key_and_put_back_with_the_other_half(
    new_app: Callable[..., Any], clock: Clock
) -> None:
    mine, public = identity()
    app = new_app(copies_key=(public,))
    furnish(app)

    file = copies.make(app)

    here = app.config["BOWLSIDE"].copies_folder
    assert file.name.endswith(".jsonl.gz.age") and copyfile.is_encrypted(file)
    assert {each.name for each in here.iterdir()} == {
        file.name,
        copies.STATUS,
    }  # nothing in the clear is left
    assert (says(app)["file"], says(app)["read_back"]) == (file.name, "whole")
    assert copies._standing(app.config["BOWLSIDE"])["sha256"] == copyfile.sha256_of(file)
    with pytest.raises(CopyError, match="--identity"):
        copies.verify(file)
    with pytest.raises(CopyError, match="not opened by that key"):
        copies.verify(file, identity()[0])
    assert copies.verify(file, mine).unreadable == []
    other = new_app()
    copies.restore(other, file, mine)
    assert all_rows(other) == all_rows(app)


def locked(content: bytes, passphrase: str) -> bytes:
    """A key file under a passphrase, as the format's text has it (https://age-encryption.org/v1, from memory),
    with so little work in it that a test need not wait."""
    salt, file_key, nonce, work = os.urandom(16), os.urandom(16), os.urandom(16), 6

    def text(raw: bytes) -> bytes:
        return b64encode(raw).rstrip(b"=")

    def derived(key: bytes, salt: bytes, info: bytes) -> bytes:
        return HKDF(hashes.SHA256(), 32, salt, info).derive(key)

    wrapping = Scrypt(b"age-encryption.org/v1/scrypt" + salt, 32, 2**work, 8, 1).derive(passphrase.encode())
    body = ChaCha20Poly1305(wrapping).encrypt(bytes(12), file_key, None)
    head = b"age-encryption.org/v1\n-> scrypt %s %d\n%s\n---" % (text(salt), work, text(body))
    mac = hmac.digest(derived(file_key, b"", b"header"), head, "sha256")
    payload = ChaCha20Poly1305(derived(file_key, nonce, b"payload")).encrypt(
        bytes(11) + b"\x01", content, None
    )
    return head + b" " + text(mac) + b"\n" + nonce + payload


@pytest.mark.parametrize(
    "damage",
    [lambda all: all[:-20], lambda all: all[:90], lambda all: all[:-9] + bytes([all[-9] ^ 1]) + all[-8:]],
)
def test_an_encrypted_copy_that_is_damaged_is_found_out(
    new_app: Callable[..., Any], tmp_path: Path, damage: Callable[[bytes], bytes]
) -> None:
    mine, public = identity()
    app = new_app(copies_key=(public,))
    furnish(app)
    with app.app_context():
        copies.write(tmp_path / "all.gz")
    (tmp_path / "all.gz").write_bytes(damage((tmp_path / "all.gz").read_bytes()))

    with pytest.raises(CopyError, match="damaged"):
        copies.verify(tmp_path / "all.gz", mine)


def test_it_is_the_format_that_others_read(new_app: Callable[..., Any], tmp_path: Path) -> None:
    key = pyrage.x25519.Identity.generate()
    app = new_app(copies_key=(str(key.to_public()),))
    furnish(app)
    with app.app_context():
        copies.write(tmp_path / "all.gz")

    pyrage.decrypt_file(str(tmp_path / "all.gz"), str(tmp_path / "plain.gz"), [key])

    assert copies.verify(tmp_path / "plain.gz").copy.counts["entry"] == 7


def test_at_the_command_line_a_key_is_made_and_used(
    app: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    furnish(app)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BOWLSIDE_DATABASE", str(app.config["BOWLSIDE"].database))
    run = lambda *words, **more: CliRunner().invoke(main, words, catch_exceptions=False, **more)  # noqa: E731

    made = run("copies-key", "mine.key", input="\n\n")
    assert made.exit_code == 0
    (said,) = [line for line in made.stdout.splitlines() if line.startswith("BOWLSIDE_COPIES_KEY=")]
    key = tmp_path / "mine.key"
    assert key.stat().st_mode & 0o077 == 0
    assert run("copies-key", "mine.key").exit_code == 1
    monkeypatch.setenv("BOWLSIDE_COPIES_KEY", said.partition("=")[2])
    assert run("backup", "all.gz").exit_code == 0

    without = run("verify", "all.gz")
    assert (without.exit_code, "--identity" in without.stderr) == (1, True)
    assert "7 entries" in run("verify", "all.gz", "--identity", "mine.key").stdout
    key.write_bytes(locked(key.read_bytes(), "rinse well"))
    wrong = run("verify", "all.gz", "--identity", "mine.key", input="rinse\n")
    assert (wrong.exit_code, "passphrase" in wrong.stderr) == (1, True)
    back = run(
        "restore", "all.gz", "--identity", "mine.key", "--database", "new.sqlite3", input="rinse well\n"
    )
    assert (back.exit_code, "7 entries" in back.stdout) == (0, True)
    monkeypatch.setenv("BOWLSIDE_COPIES_KEY", "age1nonsense")
    assert "no public key" in run("backup", "b.gz").stderr
    assert not (tmp_path / "b.gz").exists()


def sender(tmp_path: Path, body: str) -> str:
    script = tmp_path / "send copy.py"
    script.write_text(body)
    return f"{sys.executable} '{script}' --to 'a place; rm -rf /'"


def test_a_passphrase_locks_a_key_file(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copyfile.pyrage.passphrase, "encrypt", locked)  # the library's own takes a second
    content, public = copyfile.new_identity("rinse well")

    assert b"AGE-SECRET-KEY" not in content
    (key,) = copyfile.read_identities(content, lambda: "rinse well")
    assert str(key.to_public()) == public
    with pytest.raises(CopyError, match="passphrase"):
        copyfile.read_identities(content, lambda: "rinse")
    with pytest.raises(CopyError, match="no key"):
        copyfile.read_identities(b"# nothing\n", lambda: "")


def test_a_copy_is_sent_by_the_makers_own_command_with_no_shell(
    new_app: Callable[..., Any], tmp_path: Path, clock: Clock
) -> None:
    away = tmp_path / "away"
    command = sender(
        tmp_path,
        f"import shutil, sys; assert sys.argv[2] == 'a place; rm -rf /'; shutil.copy(sys.argv[3], {str(away)!r})",
    )
    app = new_app(copies_send=command)

    file = copies.make(app)

    assert away.read_bytes() == file.read_bytes()
    assert says(app)["sent_at"] == clock.ms


def test_a_command_that_fails_is_told_of_and_tried_again_with_the_copy_kept(
    new_app: Callable[..., Any], tmp_path: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    command = sender(
        tmp_path,
        "import pathlib, sys\nif not pathlib.Path('open').exists(): sys.exit('no line \\x1b[2J there')",
    )
    monkeypatch.chdir(tmp_path)
    app = new_app(copies_send=command)

    with pytest.raises(CopyError, match="ended with 1: no line  .2J there"):
        copies.nightly(app)

    told = says(app)
    assert (told["read_back"], told["sent_at"]) == ("whole", None)
    assert "no line" in told["failed_why"] and "\x1b" not in told["failed_why"]
    (tmp_path / "open").touch()
    assert copies.nightly(app) is None  # it rests for a minute
    assert says(app)["sent_at"] is None
    clock.ms += MINUTE_MS
    assert copies.nightly(app) is None  # no copy is due; the one there is is sent
    assert (says(app)["sent_at"], says(app)["failed_why"]) == (clock.ms, None)


@pytest.mark.parametrize("command", ["/no/such/command", "un'closed"])
def test_a_command_that_cannot_be_run_is_told_of(new_app: Callable[..., Any], command: str) -> None:
    app = new_app(copies_send=command)

    with pytest.raises(CopyError, match="did not send"):
        copies.make(app)


def test_a_command_has_its_time(new_app: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    app = new_app(copies_send="send", copies_send_seconds=5)

    def takes_too_long(*_given: Any, timeout: float, **_more: Any) -> Any:
        raise subprocess.TimeoutExpired("send", timeout)

    monkeypatch.setattr(copies.subprocess, "run", takes_too_long)
    with pytest.raises(CopyError, match="longer than 5 s"):
        copies.make(app)
