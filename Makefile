# make demo: set up, assess the invented home, say what is next.   make test: set up and run everything that proves it.
PYTHON ?= python3
BIN := .venv/bin
HOME_FILE ?= out/larkfield.toml
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet

.PHONY: help demo test serve bench lint docs truth screens lock clean
help:
	@grep -E '^# make|^[a-z]+:.*##' Makefile | sed -E 's/^([a-z]+):.*## /  make \1: /; s/^# //'

$(BIN)/.made:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "cuttlebone needs Python 3.11 or newer; set PYTHON=/path/to/python3"; exit 1; }
	@$(PYTHON) -m venv .venv || { echo "Python's venv is missing; on Debian: apt install python3-venv"; exit 1; }
	@touch $@

$(BIN)/.run: $(BIN)/.made requirements/run.txt pyproject.toml
	@echo "Setting up (once) ..."
	@$(PIP) install --require-hashes -r requirements/run.txt
	@$(PIP) install --no-deps --no-build-isolation -e .
	@touch $@

$(BIN)/.dev: $(BIN)/.run requirements/dev.txt
	@$(PIP) install --require-hashes -r requirements/dev.txt
	@touch $@

demo: $(BIN)/.run ## set up, write the invented Larkfield home, assess it, write the report
	@$(BIN)/cuttlebone demo out

serve: $(BIN)/.run ## the answer as a web page on this computer (HOME_FILE=my-home.toml for your own)
	@test -f $(HOME_FILE) || $(BIN)/cuttlebone demo out > /dev/null
	@$(BIN)/cuttlebone serve $(HOME_FILE)

test: lint browser ## everything: lint, tests, outside checks, browser
	@$(BIN)/python -X dev -m pytest -q

# Browser tests want Debian's chromium: installed where we may, explained where we may not; never skipped in CI.
.PHONY: browser
browser: $(BIN)/.dev
	@command -v chromium >/dev/null 2>&1 || [ -n "$$CUTTLEBONE_CHROMIUM" ] || \
	  { [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null && apt-get update -qq && \
	    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium >/dev/null; } || \
	  echo "No chromium found: browser tests will be skipped. Install it (Debian: apt install chromium) or set CUTTLEBONE_CHROMIUM."

lint: $(BIN)/.dev ## style, types, layers
	@$(BIN)/ruff check --quiet . && $(BIN)/ruff format --check --quiet . && $(BIN)/mypy --no-error-summary && $(BIN)/lint-imports | tail -n 1

truth: $(BIN)/.dev ## all checks against the outside, by room and kind, with their sources
	@$(BIN)/python -m tests.list_truth

bench: $(BIN)/.run ## speed, as ratios to a named baseline in the same run
	@$(BIN)/python benchmarks/run.py

docs: $(BIN)/.run ## write the generated pages of docs/ anew
	@$(BIN)/python docs/generate.py

screens: browser ## pictures of the pages, for looking at
	@$(BIN)/python docs/screens.py out/screens

lock: $(BIN)/.dev ## resolve the dependencies anew
	cd requirements && for f in run dev; do ../$(BIN)/pip-compile -q --generate-hashes --strip-extras --allow-unsafe --no-emit-index-url \
	  --no-emit-find-links --no-emit-trusted-host -o $$f.txt $$f.in; done

clean: ## remove what was made
	rm -rf .venv out build *.egg-info .pytest_cache .mypy_cache .ruff_cache .hypothesis
