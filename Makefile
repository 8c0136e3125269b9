# On a fresh machine with Python 3.11 or newer, make and git, `make demo` and `make test` set
# everything up: uv into .tools, what the lock file names into .venv, and nothing anywhere else.

SHELL := /bin/sh
.DEFAULT_GOAL := help
.DELETE_ON_ERROR:

UV_VERSION := 0.13.9
UV := $(CURDIR)/.tools/bin/uv
UV_READY := .tools/uv-$(UV_VERSION)
READY := .venv/.ready

# tests that build or install the package need it
export UV
# the Python that is here, and no other one from the network
export UV_PYTHON_DOWNLOADS := never
# what has been read once is kept compiled, whatever is set outside: else every start of the program,
# of the server and of each test's process compiles all of it anew, which is three quarters of a start
unexport PYTHONDONTWRITEBYTECODE

CLIENT := pantry/http/client/index.html
CLIENT_SOURCES := $(shell find web/src web/public -type f) web/index.html pantry/handbook/application_identifiers.json pantry/handbook/currencies.json web/vite.config.ts web/whole_build.ts web/package.json web/package-lock.json

.PHONY: help demo test client browser lint types guide bench soak clean

help: ## What can be made
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-6s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

demo: $(READY) $(CLIENT) ## The demo house: sets everything up, serves it, says where to go and who to be
	@CHOOSEBY_DATA="$(CURDIR)/.chooseby/demo" .venv/bin/chooseby demo --serve

test: $(READY) $(CLIENT) browser ## All the tests: sets everything up first
	.venv/bin/python web/build.py test
	.venv/bin/pytest -n 2

client: $(CLIENT) ## What the browser gets, built from web/ where that is newer

browser: ## Chromium for the browser's tests, from the system's packages where it is missing
	@sh tests/browser/chromium.sh

lint: $(READY) $(CLIENT) ## Style, types, and that imports only go down
	.venv/bin/python web/build.py lint
	.venv/bin/ruff check
	.venv/bin/ruff format --check
	.venv/bin/mypy
	.venv/bin/lint-imports

types: $(READY) ## What goes over the wire, as the client's types, from the code
	.venv/bin/python web/build.py types

guide: $(READY) ## Writes the pages of the guide that are made from the code
	PYTHONPATH=. .venv/bin/python tests/guide/pages.py

bench: $(READY) $(CLIENT) browser ## Measures, and writes the figures of the guide
	"$(UV)" run --locked python tests/bench/run.py
	"$(UV)" run --locked python -m tests.bench.phone.run
	PYTHONPATH=.:tests/bench "$(UV)" run --locked python tests/bench/reader/run.py

soak: $(READY) ## The simulator, for long
	"$(UV)" run --locked python tests/simulation/soak.py

clean: ## Takes away what was made here, the demo house too
	find pantry tests web -name __pycache__ -prune -exec rm -rf {} +
	rm -rf web/node_modules web/types/node_modules pantry/http/client .venv .tools .chooseby .hypothesis .mypy_cache .pytest_cache .ruff_cache .import_linter_cache

$(CLIENT): $(READY) $(CLIENT_SOURCES)
	@.venv/bin/python web/build.py build

$(READY): pyproject.toml uv.lock $(UV_READY)
	@"$(UV)" sync --quiet --locked --python .tools/bin/python
	@touch $@

# A Python that is new enough, tried and not only found: a name may be there and lead nowhere.
$(UV_READY):
	@for python in python3.13 python3.12 python3.11 python3 python3.14; do \
	  if $$python -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then \
	    echo "Setting up, once; this needs the network for about a minute."; \
	    if ! $$python -m venv --clear .tools; then \
	      echo "$$python cannot make a virtual environment. On Debian or Ubuntu: apt install python3-venv" >&2; \
	      exit 1; \
	    fi; \
	    .tools/bin/python -m pip install --quiet --disable-pip-version-check uv==$(UV_VERSION) || exit 1; \
	    touch $@; \
	    exit 0; \
	  fi; \
	done; \
	echo "Chooseby needs Python 3.11 or newer, and found: $$(python3 --version 2>&1). Install one, then try again." >&2; \
	exit 1
