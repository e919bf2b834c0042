"""What another device notices while one paired helper sends all that it can (tests/perf/one_helper.py)."""

from __future__ import annotations

import subprocess
import sys
import time
from urllib.parse import urlsplit

from api import create_app, store
from api.settings import Settings
from tests.api.doorway import code_for
from tests.nursery import ROOT
from tests.perf.registry import figure
from tests.perf.stranger_figures import PACE_S, Phone, studio

ATTACK_S = 8.0


@figure("one helper sends 2 MB of FF, 60 plans, faulty bodies: worst answer time to another device", "<= 1 s")
def worst_answer_s() -> float:
    with studio() as (server, phone, _, log):
        port = urlsplit(server.url).port
        assert port
        app = create_app(Settings(database=log.with_suffix(".sqlite3"), lan=True, pairing=True))
        helper = Phone(port)
        helper.pair(code_for(app, "helper"))
        store.close(app)
        phone.ask_for(1.0)
        command = [sys.executable, "-m", "tests.perf.one_helper", str(port), helper.cookie, str(ATTACK_S)]
        attack = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)
        try:
            assert attack.stdout and attack.stdout.readline() == b"begun\n"
            until, worst = time.monotonic() + ATTACK_S, 0.0
            while time.monotonic() < until:
                asked_at = time.monotonic()
                phone.ask()
                worst = max(worst, time.monotonic() - asked_at)
                time.sleep(PACE_S)
        finally:
            attack.kill()
            attack.wait()
            attack.stdout.close() if attack.stdout else None
        return worst
