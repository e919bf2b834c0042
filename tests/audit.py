"""Asks the package index for known faults in what is installed: `python -m tests.audit`, part of `make lint`.

Fails when there is one. When the index cannot be reached, or does not know the packages (some mirrors
tell of none), it says so and passes: an audit that could not be made is no fault of the change. Where CI is
set, it says so as a warning that is shown beside the run; with BOWLSIDE_AUDIT_MUST=1, for a release, it fails.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass

PATIENCE_SECONDS = 180
# How pip-audit says that it could not ask: https://github.com/pypa/pip-audit, its service errors.
NOT_REACHED = (
    "ConnectionError",
    "Could not connect",
    "Connection refused",
    "Max retries exceeded",
    "Name or service not known",
    "ServiceError",
    "timed out",
    "HTTPError",
)


@dataclass(frozen=True)
class Verdict:
    passes: bool
    says: str
    is_made: bool = True


def audit(*arguments: str) -> Verdict:
    """Run pip-audit, over this environment unless the arguments name something else."""
    command = [sys.executable, "-m", "pip_audit", "--format", "json", "--progress-spinner", "off", *arguments]
    try:
        ran = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE_SECONDS)
    except subprocess.TimeoutExpired:
        return Verdict(True, f"Not audited: the index gave no answer in {PATIENCE_SECONDS} s.", False)
    return judge(ran.stdout, ran.stderr)


def judge(said: str, complained: str) -> Verdict:
    """What pip-audit's answer comes to; `said` is its JSON, or nothing when it gave up."""
    try:
        packages = json.loads(said)["dependencies"]
    except ValueError:
        if any(words in complained for words in NOT_REACHED):
            return Verdict(True, "Not audited: the index of known faults cannot be reached from here.", False)
        return Verdict(False, f"The audit itself failed:\n{complained[-2000:]}")
    known = [each for each in packages if "vulns" in each]
    bad = [(each, fault) for each in known for fault in each["vulns"]]
    if bad:
        lines = [
            f"  {each['name']} {each['version']}: {fault['id']},"
            f" mended in {', '.join(fault['fix_versions']) or 'no version yet'}"
            for each, fault in bad
        ]
        return Verdict(False, "\n".join(["Known faults in what is installed:", *lines]))
    if packages and not known:
        return Verdict(True, "Not audited: the index that answers here knows none of the packages.", False)
    return Verdict(
        True, f"No known fault in {len(known)} packages; {len(packages) - len(known)} not known there."
    )


def report(verdict: Verdict, environ: Mapping[str, str]) -> int:
    """Say what came of it; gives the exit code."""
    # How a runner is told of a warning: https://docs.github.com/actions, workflow commands, from memory.
    mark = "::warning title=Not audited::" if environ.get("CI") and not verdict.is_made else ""
    print(f"{mark}{verdict.says}")
    return int(not verdict.passes or (not verdict.is_made and environ.get("BOWLSIDE_AUDIT_MUST") == "1"))


if __name__ == "__main__":
    sys.exit(report(audit("--skip-editable", "--timeout", "10"), os.environ))
