package dossier

import (
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// Shelf reads the items of the studio's own log. A later item of the same kind
// and name takes the place of the earlier; one that was struck gives it back.
func (d *Dossier) Shelf() *Shelf {
	f := d.fold()
	s := &Shelf{Initials: []string{}, Liquids: []string{}, Batches: []Batch{}, Waters: []Water{}, Instruments: []Instrument{}}
	for _, x := range f.ordered {
		if x.Kind == "item" && f.stands(x) {
			f.item(s, x)
		}
	}
	return s
}

func (f *folded) item(s *Shelf, x *fact) {
	v := x.Body
	if ver := f.versions[x]; ver != nil && ver.now.bad == "" && ver.now.inner != nil {
		v = ver.now.inner
	}
	entry, at, name := x.Name.String(), f.moment(x), member(v, "name")
	if name == "" {
		return
	}
	switch member(v, "what") {
	case "initials":
		s.Initials = put(s.Initials, name, func(o *string) bool { return *o == name })
	case "liquid":
		s.Liquids = put(s.Liquids, name, func(o *string) bool { return *o == name })
	case "batch":
		made := dated(v, "made")
		if made == nil {
			made = &at.MS
		}
		s.Batches = put(s.Batches, Batch{
			Entry: entry, Name: name, Product: member(v, "product"), Charge: member(v, "charge"), Lot: member(v, "lot"),
			ActivePct: member(v, "active_pct"), CMC: member(v, "cmc_g_l"), Target: member(v, "target"), Unit: member(v, "unit"),
			Litres: member(v, "litres"), ProductG: member(v, "product_g"), Water: member(v, "water"), PH: member(v, "ph"),
			By: x.By, MadeMS: *made, ExpiresMS: dated(v, "expires"), Gone: truth(v, "gone"),
		}, func(o *Batch) bool { return o.Name == name })
	case "water":
		s.Waters = put(s.Waters, Water{
			Entry: entry, Name: name, Source: member(v, "source"), Conductivity: member(v, "conductivity"), LiquorC: member(v, "liquor_c"),
			Compensated: truth(v, "compensated"), PH: member(v, "ph"), Hardness: member(v, "hardness"), HardnessUnit: member(v, "hardness_unit"),
			StockL: member(v, "stock_l"), MakeLH: member(v, "make_l_h"), By: x.By, AtMS: at.MS,
		}, func(o *Water) bool { return o.Name == name })
	case "instrument":
		measures := []string{}
		if m, ok := jsontext.Get(v, "measures"); ok {
			_ = textsOf(m, &measures) // what can be read of it
		}
		s.Instruments = put(s.Instruments, Instrument{
			Entry: entry, Name: name, Measures: measures, Compensates: truth(v, "compensates"), CalibratedMS: dated(v, "calibrated"), Note: member(v, "note"),
		}, func(o *Instrument) bool { return o.Name == name })
	}
}

// put replaces what is the same, or adds.
func put[T any](list []T, it T, same func(*T) bool) []T {
	for i := range list {
		if same(&list[i]) {
			list[i] = it
			return list
		}
	}
	return append(list, it)
}

// member is a text or a number as written, empty when there is neither.
func member(v jsontext.Value, key string) string {
	m, ok := jsontext.Get(v, key)
	if k := m.Kind(); !ok || k != jsontext.String && k != jsontext.Number {
		return ""
	}
	return token(m)
}

func truth(v jsontext.Value, key string) bool {
	m, _ := jsontext.Get(v, key)
	b, err := m.Bool()
	return err == nil && b
}

// dated is a time that a person gave, nil when there is none.
func dated(v jsontext.Value, key string) *int64 {
	ms, err := journal.ParseAt(member(v, key))
	if err != nil {
		return nil
	}
	return &ms
}
