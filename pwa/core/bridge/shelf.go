package bridge

import (
	"slices"

	"sinkside/calc/dossier"
	"sinkside/sync/jsontext"
)

// Shelf is what the studio's own log says: what people here are called, and
// what they wash with. Each in the order in which it was first put there.
type Shelf struct {
	Initials []string `json:"initials"`
	Liquids  []string `json:"liquids"`
}

// readShelf gathers the items that were not struck, each as last corrected.
func readShelf(d *dossier.Dossier) Shelf {
	var s Shelf
	for _, line := range d.Log(0, d.Len()) {
		if line.Kind != "item" || line.Struck != nil {
			continue
		}
		body := line.Body
		for _, a := range line.Amended {
			if a.Stands {
				body = a.Body
			}
		}
		switch name := member(body, "name"); member(body, "what") {
		case "initials":
			s.Initials = put(s.Initials, name)
		case "liquid":
			s.Liquids = put(s.Liquids, name)
		}
	}
	return s
}

func member(v jsontext.Value, key string) string {
	m, ok := jsontext.Get(v, key)
	if !ok {
		return ""
	}
	s, err := m.Text()
	if err != nil {
		return ""
	}
	return s
}

func put(list []string, name string) []string {
	if name == "" || slices.Contains(list, name) {
		return list
	}
	return append(list, name)
}

func appendShelf(dst []byte, d *dossier.Dossier) []byte {
	s := readShelf(d)
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	for _, list := range []struct {
		key   string
		names []string
	}{{"initials", s.Initials}, {"liquids", s.Liquids}} {
		w.Key(list.key)
		w.Begin('[')
		for _, name := range list.names {
			w.Str(name)
		}
		w.End(']')
	}
	w.End('}')
	return w.B
}
