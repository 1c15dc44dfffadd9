package main

import (
	"fmt"
	"io"
	"path"
	"text/tabwriter"
)

// What a phone may have to download, in bytes with Brotli, 1 KB = 1,000 bytes.
// Of the core some 390 KB are Go's own runtime, and so they are of the library,
// which is fetched when the app is up and nobody waits for it. On the wire, with TLS and
// headers, the first download is some 20 KB more, and 900 KB are promised there.
const (
	maxCore    = 700_000
	maxFirst   = 880_000
	maxLibrary = 900_000
)

// printSizes prints a table and fails when the app has grown past its budget. A
// readable build is held to none.
func printSizes(w io.Writer, out files, copies map[string]packed, dev bool) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "raw\tgzip\tbrotli\t")
	core, first, library := 0, 0, 0
	for _, name := range out.names() {
		raw := len(out[name])
		gz, br := raw, raw
		if c := copies[name]; c.br != nil {
			gz, br = len(c.gz), len(c.br)
		}
		switch {
		case isLibrary(name):
			library = br
		case comesLater(name):
		case path.Ext(name) == ".wasm":
			core = br
			fallthrough
		default:
			first += br
		}
		fmt.Fprintf(t, "%d\t%d\t%d\t  %s\n", raw, gz, br, name)
	}
	fmt.Fprintf(t, "\t\t%d\t  core, at most %d\n", core, maxCore)
	fmt.Fprintf(t, "\t\t%d\t  first download, at most %d\n", first, maxFirst)
	fmt.Fprintf(t, "\t\t%d\t  library of reckonings, fetched later, at most %d\n", library, maxLibrary)
	if err := t.Flush(); err != nil || dev {
		return err
	}
	if core > maxCore || first > maxFirst || library > maxLibrary {
		return fmt.Errorf("the web app is over its budget: core %d of %d bytes, first download %d of %d, library %d of %d", core, maxCore, first, maxFirst, library, maxLibrary)
	}
	return nil
}
