// Package tstypes writes TypeScript interfaces for Go structs, by their json
// tags, so that what crosses from the Go core to the screens has one
// description. It uses reflection, at build time only.
package tstypes

import (
	"fmt"
	"reflect"
	"strings"
)

// Names gives a struct another name in TypeScript than it has in Go, where two
// packages use the same one.
type Names map[reflect.Type]string

// Generate writes an interface for each root and for every struct that one of
// them mentions, in the order in which they are met.
func Generate(roots []reflect.Type, names Names) (string, error) {
	g := generator{names: names, seen: map[reflect.Type]bool{}, taken: map[string]reflect.Type{}}
	for _, t := range roots {
		if err := g.add(t); err != nil {
			return "", err
		}
	}
	return strings.Join(g.out, "\n"), nil
}

type generator struct {
	names Names
	seen  map[reflect.Type]bool
	taken map[string]reflect.Type
	out   []string
}

func (g *generator) name(t reflect.Type) string {
	if n := g.names[t]; n != "" {
		return n
	}
	return t.Name()
}

func (g *generator) add(t reflect.Type) error {
	if g.seen[t] {
		return nil
	}
	g.seen[t] = true
	name := g.name(t)
	if other := g.taken[name]; other != nil {
		return fmt.Errorf("%s and %s are both called %s", t, other, name)
	}
	g.taken[name] = t
	var b strings.Builder
	fmt.Fprintf(&b, "export interface %s {\n", name)
	var mentioned []reflect.Type
	for f := range t.Fields() {
		if !f.IsExported() {
			continue
		}
		tag, opts, _ := strings.Cut(f.Tag.Get("json"), ",")
		if tag == "-" {
			continue
		}
		if tag == "" {
			return fmt.Errorf("%s.%s has no json tag", t, f.Name)
		}
		ts, structs, err := g.typeOf(f.Type)
		if err != nil {
			return fmt.Errorf("%s.%s: %w", t, f.Name, err)
		}
		mark := ""
		if strings.Contains(opts, "omit") {
			mark, ts = "?", strings.TrimSuffix(ts, " | null")
		}
		fmt.Fprintf(&b, "  %s%s: %s;\n", tag, mark, ts)
		mentioned = append(mentioned, structs...)
	}
	b.WriteString("}\n")
	g.out = append(g.out, b.String())
	for _, m := range mentioned {
		if err := g.add(m); err != nil {
			return err
		}
	}
	return nil
}

// typeOf gives the TypeScript type of t, and the structs that it mentions.
// Bytes are raw JSON (jsontext.Value), which may be anything.
func (g *generator) typeOf(t reflect.Type) (string, []reflect.Type, error) {
	switch t.Kind() {
	case reflect.String:
		return "string", nil, nil
	case reflect.Bool:
		return "boolean", nil, nil
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64,
		reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64,
		reflect.Float32, reflect.Float64:
		return "number", nil, nil
	case reflect.Struct:
		return g.name(t), []reflect.Type{t}, nil
	case reflect.Pointer:
		return g.within(t.Elem(), "%s | null")
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Uint8 {
			return "unknown", nil, nil
		}
		return g.within(t.Elem(), "%s[]")
	case reflect.Map:
		if t.Key().Kind() != reflect.String {
			return "", nil, fmt.Errorf("a map by %s is no object", t.Key())
		}
		return g.within(t.Elem(), "Record<string, %s>")
	}
	return "", nil, fmt.Errorf("no TypeScript for %s", t)
}

func (g *generator) within(t reflect.Type, form string) (string, []reflect.Type, error) {
	ts, structs, err := g.typeOf(t)
	return fmt.Sprintf(form, ts), structs, err
}
