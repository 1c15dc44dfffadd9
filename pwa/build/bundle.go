package main

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// bundler holds what all bundles share.
type bundler struct {
	root   string
	dev    bool
	define map[string]string // constants put in for names, as JavaScript text
}

func (b *bundler) set(name, value string) { b.define[name] = strconv.Quote(value) }

// options for one entry point below pwa. esbuild does not check types; tsc does.
// Target: Safari 16 is the oldest engine that the app must run on.
func (b *bundler) options(entry string) (api.BuildOptions, error) {
	exec, err := wasmExec()
	if err != nil {
		return api.BuildOptions{}, err
	}
	return api.BuildOptions{
		AbsWorkingDir:     filepath.Join(b.root, "pwa"),
		EntryPoints:       []string{entry},
		Bundle:            true,
		MinifyWhitespace:  !b.dev,
		MinifyIdentifiers: !b.dev,
		MinifySyntax:      !b.dev,
		Format:            api.FormatESModule,
		Engines: []api.Engine{
			{Name: api.EngineChrome, Version: "108"},
			{Name: api.EngineFirefox, Version: "115"},
			{Name: api.EngineSafari, Version: "16"},
		},
		JSX:             api.JSXAutomatic,
		JSXImportSource: "preact",
		Define:          maps.Clone(b.define),
		Alias:           map[string]string{"wasm_exec": exec},
		Loader: map[string]api.Loader{
			".woff2": api.LoaderFile, ".svg": api.LoaderFile, ".png": api.LoaderFile,
		},
		LegalComments: api.LegalCommentsNone,
		AssetNames:    assets + "[name]-[hash]",
		PublicPath:    "/",
		Outdir:        filepath.Join(b.root, "pwa", "dist"),
		Charset:       api.CharsetUTF8,
		LogLevel:      api.LogLevelSilent,
	}, nil
}

// bundle adds an entry point's script, style and assets to out, named by hash.
func (b *bundler) bundle(entry, name string, out files) (bundled, error) {
	o, err := b.options(entry)
	if err != nil {
		return bundled{}, err
	}
	o.EntryNames = assets + name + "-[hash]"
	written, err := b.build(o, out)
	if err != nil {
		return bundled{}, err
	}
	var got bundled
	for _, p := range written {
		switch {
		case strings.HasPrefix(p, assets+name+"-") && strings.HasSuffix(p, ".js"):
			got.script = p
		case strings.HasPrefix(p, assets+name+"-") && strings.HasSuffix(p, ".css"):
			got.style = p
		}
	}
	return got, nil
}

// bundleAs adds an entry point's script to out under a fixed path.
func (b *bundler) bundleAs(entry, to string, out files) error {
	o, err := b.options(entry)
	if err != nil {
		return err
	}
	o.EntryNames = strings.TrimSuffix(to, ".js")
	_, err = b.build(o, out)
	return err
}

// lookbehind is what esbuild does not make anything older of: it would be met only
// when it runs.
var lookbehind = regexp.MustCompile(`\(\?<[=!]`)

// build runs esbuild and returns the paths it made.
func (b *bundler) build(o api.BuildOptions, out files) ([]string, error) {
	r := api.Build(o)
	if len(r.Errors) > 0 {
		return nil, messages(r.Errors)
	}
	if len(r.Warnings) > 0 {
		return nil, messages(r.Warnings)
	}
	var written []string
	for _, f := range r.OutputFiles {
		rel, err := filepath.Rel(o.Outdir, f.Path)
		if err != nil {
			return nil, err
		}
		rel = filepath.ToSlash(rel)
		if looks := lookbehind.Find(f.Contents); looks != nil && len(o.Engines) > 0 && strings.HasSuffix(rel, ".js") {
			return nil, fmt.Errorf("%s has %s in a pattern, which Safari knows from 16.4 on", rel, looks)
		}
		out[rel] = f.Contents
		written = append(written, rel)
	}
	return written, nil
}

func messages(ms []api.Message) error {
	text := api.FormatMessages(ms, api.FormatMessagesOptions{Kind: api.ErrorMessage})
	return errors.New("bundle:\n" + strings.Join(text, ""))
}

// bundleTests makes one file of each *.test.ts, with the core compiled beside
// them, since some tests run it.
func bundleTests(root string) error {
	dir := filepath.Join(root, "pwa", "dist-test")
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	wasm, err := compileCore(root, theLog)
	if err != nil {
		return err
	}
	library, err := compileCore(root, theLibrary)
	if err != nil {
		return err
	}
	tests, err := findTests(filepath.Join(root, "pwa"))
	if err != nil {
		return err
	}
	b := &bundler{root: root, dev: true, define: map[string]string{"__DEV__": "false"}}
	b.set("__CORE_URL__", filepath.Join(dir, "core.wasm"))
	b.set("__LIBRARY_URL__", filepath.Join(dir, libraryFile))
	b.set("__LIBRARY_BUILD__", hashOf(library))
	b.define["__LOG_RECKONINGS__"] = logReckonings()
	b.set("__ROOT__", root)
	b.set("__CORE_BUILD__", hashOf(wasm))
	b.set("__WORKER_URL__", "")
	b.set("__DESK_WORKER_URL__", "")
	b.define["__PRECACHE__"], b.define["__LATER__"] = "[]", "[]"
	for _, t := range tests {
		o, err := b.options(t)
		if err != nil {
			return err
		}
		o.Platform, o.Engines, o.Target = api.PlatformNode, nil, api.ES2022
		o.EntryNames = "[dir]/[name]"
		o.Outbase = filepath.Join(root, "pwa", "src")
		o.Outdir = dir
		o.OutExtension = map[string]string{".js": ".mjs"}
		o.Sourcemap = api.SourceMapInline
		o.Write = true
		if _, err := b.build(o, files{}); err != nil {
			return err
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "core.wasm"), wasm, 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, libraryFile), library, 0o644); err != nil {
		return err
	}
	fmt.Printf("%d test files in %s\n", len(tests), dir)
	return nil
}

// findTests lists *.test.ts and *.test.tsx below src, relative to pwa.
func findTests(pwa string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(filepath.Join(pwa, "src"), func(p string, d os.DirEntry, err error) error {
		if err == nil && (strings.HasSuffix(p, ".test.ts") || strings.HasSuffix(p, ".test.tsx")) {
			rel, err := filepath.Rel(pwa, p)
			if err != nil {
				return err
			}
			found = append(found, filepath.ToSlash(rel))
		}
		return err
	})
	return found, err
}
