# Two commands matter: `make serve` and `make test`. Both install what is missing (tools/setup.sh says what it does).
PORT ?= 8080
ENGINES ?= chromium,firefox,webkit
export ENGINES
export PATH := $(CURDIR)/.tools/bin:$(CURDIR)/.tools/node_modules/.bin:$(or $(CARGO_HOME),$(HOME)/.cargo)/bin:$(PATH)
# Test files that need no browser.
native := $(filter-out browser,$(basename $(notdir $(wildcard tests/*.rs))))
step := tools/step.sh

.PHONY: help serve dist check test native browser bench shots icons doctor setup setup-test

help:
	@echo "make serve    build the app and serve it at http://localhost:$(PORT)"
	@echo "make test     every check and every test, in Chromium, Firefox and WebKitGTK (ENGINES=chromium for one)"
	@echo "make check    format, lints, documentation; no tests"
	@echo "make native   the tests that need no browser"
	@echo "make browser  build the app, then the tests in browsers"
	@echo "make bench    how fast the sums and the fold are, and how big the first load is"
	@echo "make shots    the pictures in README.md, taken from the running app"
	@echo "make icons    the PNG icons from public/icons/icon.svg (needs rsvg-convert)"
	@echo "make doctor   what is installed and what is missing; changes nothing"

setup:
	@$(step) "install what the build needs" tools/setup.sh build

setup-test:
	@$(step) "install what the tests need" tools/setup.sh test

doctor:
	@tools/setup.sh doctor

# The finished app in dist/: built, packed, held against size-budget.json.
dist: setup
	@$(step) "build the app" trunk build
	@$(step) "finish: service worker, packed files, size" node tools/finish.mjs

serve: dist
	@node tools/serve.mjs --port $(PORT)

check: setup
	@$(step) "format" cargo fmt --check
	@$(step) "lints, native" cargo clippy --quiet --all-targets -- -D warnings
	@$(step) "lints, wasm" cargo clippy --quiet --target wasm32-unknown-unknown --lib --bins -- -D warnings
	@RUSTDOCFLAGS="-D warnings" $(step) "documentation" cargo doc --quiet --no-deps --lib

native:
	@$(step) "native tests" cargo test --quiet --lib --bins $(addprefix --test ,$(native))
	@$(step) "examples in the documentation" cargo test --quiet --doc

browser: setup-test dist
	@$(step) "browser tests ($(ENGINES))" cargo test --quiet --test browser -- --test-threads=1 --nocapture

test: setup-test check native browser
	@echo "==> all tests passed"

bench: dist
	@$(step) "speed" cargo bench --quiet
	@node tools/finish.mjs --print-only

shots: setup-test dist
	@$(step) "pictures" cargo test --quiet --test shots

icons:
	@command -v rsvg-convert >/dev/null || { echo "rsvg-convert is missing. It would come with: apt-get install librsvg2-bin"; exit 1; }
	@tools/icons.sh
