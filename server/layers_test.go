package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

type layer struct {
	pkg   string   // package or, ending in /, all below
	may   []string // prefixes inside the module
	libs  []string // prefixes outside the standard library
	hosts bool     // may use the file system, the network and processes
}

// The layer rules: which packages a package may import, by the first words of
// their paths. What is not named here may import only the standard library and
// sync/jsontext. Tests are free.
var layers = []layer{
	{pkg: "sync/jsontext"},
	{pkg: "sync/journal", may: []string{"sync/jsontext"}},
	{pkg: "sync/wire", may: []string{"sync/journal", "sync/jsontext"}},
	{pkg: "sync/wire/", may: []string{"sync/wire"}, libs: []string{"github.com/klauspost/compress/"}},
	{pkg: "sync/link/", may: []string{"sync/"}},
	{pkg: "sync/link", may: []string{"sync/wire", "sync/journal", "sync/jsontext"}},
	{pkg: "sync/hub", may: []string{"sync/wire", "sync/journal", "sync/jsontext"}},
	{pkg: "calc/unit", may: []string{"sync/jsontext"}},
	{pkg: "calc/dossier", may: []string{"calc/unit", "sync/journal", "sync/jsontext"}},
	{pkg: "calc/reckoning/library", may: []string{"calc/reckoning"}},
	{pkg: "calc/reckoning/reckoningtest", may: []string{"calc/reckoning", "sync/jsontext"}, libs: []string{""}},
	{pkg: "calc/reckoning/", may: []string{"calc/reckoning", "calc/", "sync/jsontext"}},
	{pkg: "calc/reckoning", may: []string{"calc/unit", "sync/jsontext"}},
	{pkg: "calc/watch", may: []string{"calc/dossier", "calc/reckoning", "calc/unit", "sync/journal", "sync/jsontext"}},
	{pkg: "calc/greyscale", may: []string{"calc/colour", "calc/unit"}},
	{pkg: "calc/drying", may: []string{"calc/air", "calc/unit"}},
	{pkg: "calc/", may: []string{"calc/unit", "sync/jsontext"}},
	{pkg: "store", may: []string{"store/", "sync/journal"}, libs: []string{"github.com/dgraph-io/badger/", "github.com/dgraph-io/ristretto/", "golang.org/x/sys/"}, hosts: true},
	{pkg: "store/storetest", may: []string{"store", "sync/journal", "sync/jsontext"}, libs: []string{"pgregory.net/rapid"}, hosts: true},
	{pkg: "store/", may: []string{"store", "sync/journal", "sync/jsontext"}, hosts: true},
	{pkg: "pwa/core", may: []string{"pwa/core/", "calc/", "sync/journal", "sync/jsontext", "sync/wire", "sync/link"}},
	{pkg: "pwa/core/door", may: []string{"sync/jsontext"}},
	{pkg: "pwa/core/desk", may: []string{"calc/reckoning/library", "pwa/core/door"}},
	{pkg: "pwa/core/", may: []string{"pwa/core/door", "calc/", "sync/journal", "sync/jsontext", "sync/wire", "sync/link"}},
	{pkg: "pwa/", may: []string{"pwa", "calc/", "sync/"}, libs: []string{"github.com/", "rsc.io/"}, hosts: true},
	{pkg: "pwa", hosts: true},
	{pkg: "server", may: []string{""}, libs: []string{""}, hosts: true},
	{pkg: "server/", may: []string{""}, libs: []string{""}, hosts: true},
}

// hosts are what a package that also runs on the phone must not reach for.
var hosts = []string{"net", "os", "io/fs", "syscall", "database/sql", "log"}

// heavy is what the browser's core must not carry, however it comes in. Package time and crypto/sha256 alone cost
// 130 KB of the download; journal has its own reading of times and its own sum.
var heavy = []string{"fmt", "encoding/json", "reflect", "encoding/hex", "crypto", "compress", "net", "log", "os", "time"}

type listed struct {
	ImportPath string
	Standard   bool
	Imports    []string
	Deps       []string
}

func list(t *testing.T, env []string, args ...string) []listed {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list", "-json=ImportPath,Standard,Imports,Deps"}, args...)...)
	cmd.Dir, cmd.Env, cmd.Stderr = "..", append(os.Environ(), env...), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var pkgs []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return pkgs
		}
		if err != nil {
			t.Fatal(err)
		}
		pkgs = append(pkgs, p)
	}
}

const module = "sinkside/"

func TestImportsPointOneWay(t *testing.T) {
	pkgs := list(t, nil, "./...")
	if len(pkgs) < 10 {
		t.Fatalf("only %d packages listed", len(pkgs))
	}
	for _, p := range pkgs {
		name := strings.TrimPrefix(p.ImportPath, module)
		i := slices.IndexFunc(layers, func(l layer) bool {
			return l.pkg == name || strings.HasSuffix(l.pkg, "/") && strings.HasPrefix(name, l.pkg)
		})
		if i < 0 {
			t.Errorf("%s stands in no layer", name)
			continue
		}
		l := layers[i]
		for _, imp := range p.Imports {
			inner, ours := strings.CutPrefix(imp, module)
			std := !strings.Contains(strings.Split(imp, "/")[0], ".")
			switch {
			case ours:
				if !anyPrefix(inner, l.may) {
					t.Errorf("%s imports %s", name, inner)
				}
			case !std:
				if !anyPrefix(imp, l.libs) {
					t.Errorf("%s imports %s", name, imp)
				}
			case !l.hosts && anyPath(imp, hosts) && imp != "syscall/js":
				t.Errorf("%s imports %s, which the phone does not have", name, imp)
			}
			if imp == "syscall/js" && name != "pwa/core" {
				t.Errorf("%s imports syscall/js", name)
			}
		}
	}
}

// A package called sync would hide the standard one.
func TestNoPackageIsCalledSync(t *testing.T) {
	for _, p := range list(t, nil, "./...") {
		if p.ImportPath == module+"sync" {
			t.Error("there are Go files in sync itself")
		}
	}
}

func TestTheCoreIsLean(t *testing.T) {
	// The core of the log carries no reckonings that a watch does not need, and the library no log.
	for tag, not := range map[string][]string{
		"":        {module + "calc/reckoning/library", module + "pwa/core/desk"},
		"library": {module + "sync/journal", module + "sync/link", module + "calc/dossier", module + "calc/watch", module + "pwa/core/bridge"},
	} {
		pkgs := list(t, []string{"GOOS=js", "GOARCH=wasm"}, "-tags", tag, "./pwa/core")
		if len(pkgs) != 1 || len(pkgs[0].Deps) < 30 {
			t.Fatalf("listed %d packages", len(pkgs))
		}
		for _, dep := range pkgs[0].Deps {
			if anyPath(dep, heavy) || slices.Contains(not, dep) {
				t.Errorf("the core with the tag %q carries %s", tag, dep)
			}
		}
	}
}

func anyPrefix(s string, prefixes []string) bool {
	return slices.ContainsFunc(prefixes, func(p string) bool {
		return s == p || strings.HasPrefix(s, p) && (p == "" || strings.HasSuffix(p, "/")) || strings.HasPrefix(s, p+"/") && p != ""
	})
}

// anyPath tells whether s is one of paths or below one.
func anyPath(s string, paths []string) bool {
	return slices.ContainsFunc(paths, func(p string) bool {
		return s == p || strings.HasPrefix(s, strings.TrimSuffix(p, "/")+"/")
	})
}
