# Two commands matter: `make demo` shows what firstfire does, `make test` shows that it is right.
# On a fresh Debian 12 or Ubuntu 24.04 both need only python3, python3-pip and make.

BIN := .venv/bin

.PHONY: help demo test test-long lint types contract check coverage bench tables clean set-up-run set-up-dev

help:
	@echo 'make demo      install what is needed and check the demonstration engine'
	@echo 'make test      run the test suite: some twenty minutes on two cores'
	@echo 'make test-long the same with the tests that draw hundreds of engines: some forty'
	@echo 'make lint      ruff: rules and layout'
	@echo 'make types     mypy, strict, on src'
	@echo 'make contract  which room may import from which'
	@echo 'make check     lint, types, contract and test'
	@echo 'make coverage  which lines of src the tests reach'
	@echo 'make tables    write the table of every way to fail into docs/parts.md'
	@echo 'make bench     measure speed and memory into docs/performance.md'
	@echo 'make clean     remove .venv and all that the tools leave behind'

demo: set-up-run
	@$(BIN)/firstfire check engines/wren.toml
	@echo 'The pages, to change a number and see it answer: $(BIN)/firstfire open engines/wren.toml'

test: set-up-dev
	$(BIN)/pytest -n 2 -m "not long" --doctest-modules src/firstfire tests

test-long: set-up-dev
	$(BIN)/pytest -n 2 --doctest-modules src/firstfire tests

lint: set-up-dev
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: set-up-dev
	$(BIN)/mypy

contract: set-up-dev
	$(BIN)/lint-imports

check: lint types contract test

coverage: set-up-dev
	$(BIN)/pytest -n 2 -m "not long" --cov=firstfire --cov-report=term:skip-covered --doctest-modules src/firstfire tests

bench: set-up-dev
	$(BIN)/python -m benchmarks.run

tables: set-up-dev
	$(BIN)/python -m tools.ways_table

clean:
	rm -rf .venv .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	rm -rf build dist out .coverage
	find . -name __pycache__ -type d -prune -exec rm -rf {} +

set-up-run:
	@scripts/system_packages demo
	@scripts/set_up run

set-up-dev:
	@scripts/system_packages demo
	@scripts/system_packages test
	@scripts/set_up dev
