# Sinkside. `make` lists the targets.

GO      ?= go
NPM     ?= npm
WASMRUN := $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
# What also runs in the browser is tested there too.
SHARED  := ./sync/jsontext ./sync/journal ./sync/wire ./sync/link ./calc/... ./pwa/core/bridge/...

.PHONY: help run test bench build web fmt lint clean check-go check-wasm check-ts check-browsers tools

help: ## list the targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

run: build ## build everything, start the studio machine with an invented sample studio, print the links
	./bin/sinkside serve --data data --sample

build: web ## build the web app, the core and the server: bin/sinkside
	$(GO) build -trimpath -o bin/sinkside ./server

web: # installs the npm packages when the lockfile changed
	$(GO) run ./pwa/build

test: tools lint check-go check-wasm check-ts check-browsers ## everything: rules, laws, journeys in real browsers

tools:
	.ci/tools.sh

check-go: web
	$(GO) test -race $$($(GO) list ./... | grep -v /pwa/journey)

check-wasm:
	GOOS=js GOARCH=wasm $(GO) test -exec="$(WASMRUN)" $(SHARED)

check-ts: web
	$(GO) run ./pwa/build -test
	node --test pwa/dist-test

check-browsers: build
	$(GO) test -count=1 ./pwa/journey/...

bench: tools build ## print what the project promises to reach, measured here
	$(GO) run ./server/bench

fmt: web ## put Go and TypeScript in their usual form
	gofmt -w $$(git ls-files -co --exclude-standard '*.go')
	cd pwa && npx --no-install prettier --log-level warn --write .

lint: web ## vet, staticcheck, types and form of both languages
	@out=$$(gofmt -l $$(git ls-files -co --exclude-standard '*.go')); if [ -n "$$out" ]; then echo "not in gofmt's form: $$out"; exit 1; fi
	$(GO) vet ./...
	$(GO) tool staticcheck ./...
	cd pwa && $(NPM) run --silent check && $(NPM) run --silent fmt:check

clean: ## remove what was built
	rm -rf bin .cache pwa/dist-test pwa/node_modules
	find pwa/dist -mindepth 1 ! -name .keep -delete
