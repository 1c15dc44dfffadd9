package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"

	"sinkside/calc/watch"
)

// buildApp makes everything that a phone downloads. The order is that of who
// names whom: the core's hash goes into the worker, the worker's into the app,
// the app's into the page, and all of them into the service worker's list.
func buildApp(root string, dev bool) error {
	b := &bundler{root: root, dev: dev, define: map[string]string{"__DEV__": fmt.Sprint(dev), "process.env.NODE_ENV": `"production"`}}
	out := files{}

	wasm, err := compileCore(root, theLog)
	if err != nil {
		return err
	}
	core := out.addHashed("core.wasm", wasm)
	b.set("__CORE_URL__", "/"+core)
	b.set("__CORE_BUILD__", hashOf(wasm))
	library, err := compileCore(root, theLibrary)
	if err != nil {
		return err
	}
	b.set("__LIBRARY_URL__", "/"+out.addHashed(libraryFile, library))
	b.set("__LIBRARY_BUILD__", hashOf(library))
	b.define["__LOG_RECKONINGS__"] = logReckonings()

	worker, err := b.bundle("src/core/worker.ts", "worker", out)
	if err != nil {
		return err
	}
	b.set("__WORKER_URL__", "/"+worker.script)

	desk, err := b.bundle("src/core/desk-worker.ts", "desk", out)
	if err != nil {
		return err
	}
	b.set("__DESK_WORKER_URL__", "/"+desk.script)

	early, err := b.bundle("src/early/early.ts", "early", out)
	if err != nil {
		return err
	}
	app, err := b.bundle("src/ui/main.tsx", "app", out)
	if err != nil {
		return err
	}
	if err := out.addStatic(root); err != nil {
		return err
	}
	page, err := index(root, early, app)
	if err != nil {
		return err
	}
	out["index.html"] = page

	list, err := json.Marshal(precacheList(out))
	if err != nil {
		return err
	}
	b.define["__PRECACHE__"] = string(list)
	later, err := json.Marshal(laterList(out))
	if err != nil {
		return err
	}
	b.define["__LATER__"] = string(later)
	if err := b.bundleAs("src/sw/sw.ts", "sw.js", out); err != nil {
		return err
	}

	copies, err := compressAll(out, filepath.Join(root, ".cache", "compressed"))
	if err != nil {
		return err
	}
	if err := out.write(filepath.Join(root, "pwa", "dist"), copies); err != nil {
		return err
	}
	return printSizes(os.Stdout, out, copies, dev)
}

// libraryFile is the library of reckonings, before its hash goes into the name.
const libraryFile = "library.wasm"

func isLibrary(name string) bool {
	return strings.HasPrefix(path.Base(name), "library-") && path.Ext(name) == ".wasm"
}

// comesLater tells what is no part of the first download: the library, and the letters
// beyond those of western Europe, which most never see. The app fetches them when it is
// up, and keeps them.
func comesLater(name string) bool {
	return isLibrary(name) || strings.Contains(path.Base(name), "-latin-ext-")
}

// laterList is what the service worker keeps when it is told to.
func laterList(out files) []string {
	list := []string{}
	for _, name := range out.names() {
		if comesLater(name) {
			list = append(list, "/"+name)
		}
	}
	return list
}

// logReckonings names, as JSON, those that the core of the log carries.
func logReckonings() string {
	names := []string{}
	for _, r := range watch.Reckonings() {
		names = append(names, r.Name)
	}
	list, _ := json.Marshal(names) // texts alone
	return string(list)
}

// bundled is what one entry point became: paths inside dist.
type bundled struct{ script, style string }

// index puts the links to the app into the page. There is no script or style
// inside the page itself: the Content-Security-Policy forbids both. The early
// script stands at the page's end and before the app's, which waits for the
// whole page, so that a running clock is painted while the app is being read.
func index(root string, early, app bundled) ([]byte, error) {
	b, err := os.ReadFile(filepath.Join(root, "pwa", "src", "index.html"))
	if err != nil {
		return nil, fmt.Errorf("read the page: %w", err)
	}
	head, rest, ok := strings.Cut(string(b), "</head>")
	if !ok {
		return nil, fmt.Errorf("read the page: src/index.html has no </head>")
	}
	var links strings.Builder
	if app.style != "" {
		fmt.Fprintf(&links, "<link rel=\"stylesheet\" href=\"/%s\" />\n", app.style)
	}
	fmt.Fprintf(&links, "<script type=\"module\" src=\"/%s\"></script>\n", app.script)
	page := head + links.String() + "</head>" + rest
	body, end, ok := strings.Cut(page, "</body>")
	if !ok {
		return nil, fmt.Errorf("read the page: src/index.html has no </body>")
	}
	return fmt.Appendf(nil, "%s<script src=\"/%s\"></script>\n</body>%s", body, early.script, end), nil
}

type precached struct {
	URL      string  `json:"url"`
	Revision *string `json:"revision"` // null where the name holds the hash
}

// precacheList names everything that the app needs offline from its first
// minute: all but the library of reckonings, which it keeps later.
func precacheList(out files) []precached {
	var list []precached
	for _, name := range out.names() {
		if comesLater(name) {
			continue
		}
		p := precached{URL: "/" + name}
		if !strings.HasPrefix(name, assets) {
			h := hashOf(out[name])
			p.Revision = &h
		}
		list = append(list, p)
	}
	return list
}
