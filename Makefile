# Newcomers need two of these: `make serve` and `make test`.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready

.PHONY: setup serve test lint bench lock clean

setup: $(STAMP)

$(STAMP): requirements.lock pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	touch $(STAMP)

serve: setup
	$(BIN)/loadstead site serve

test: setup
	$(BIN)/python -m site_build.test_browser
	$(BIN)/python -m pytest -n auto --dist loadfile --no-loadscope-reorder

lint: setup
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: setup
	$(BIN)/python -m site_build.test_browser
	$(BIN)/python -m tests.bench

# Renews the pins with hashes; run after changing dependencies in pyproject.toml.
lock: setup
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-header --no-emit-index-url \
		--extra author --extra test --extra reference --extra lint pyproject.toml -o requirements.lock

clean:
	rm -rf $(VENV) .cache site
