package dossier

import "sinkside/sync/jsontext"

// AppendJSON appends the shelf as its struct tags say.
func (s *Shelf) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	w.KeyStrs("initials", s.Initials)
	w.KeyStrs("liquids", s.Liquids)
	w.KeyList("batches", len(s.Batches), func(i int) { s.Batches[i].write(&w) })
	w.KeyList("waters", len(s.Waters), func(i int) { s.Waters[i].write(&w) })
	w.KeyList("instruments", len(s.Instruments), func(i int) { s.Instruments[i].write(&w) })
	w.End('}')
	return w.B
}

func (b *Batch) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", b.Entry, "name", b.Name, "product", b.Product, "charge", b.Charge, "lot", b.Lot,
		"active_pct", b.ActivePct, "cmc_g_l", b.CMC, "target", b.Target, "unit", b.Unit,
		"litres", b.Litres, "product_g", b.ProductG, "water", b.Water, "ph", b.PH, "by", b.By)
	w.KeyInt("made_ms", b.MadeMS)
	w.KeyIntOrNull("expires_ms", b.ExpiresMS)
	w.KeyBool("gone", b.Gone)
	w.End('}')
}

func (x *Water) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", x.Entry, "name", x.Name, "source", x.Source, "conductivity", x.Conductivity, "liquor_c", x.LiquorC)
	w.KeyBool("compensated", x.Compensated)
	w.Texts("ph", x.PH, "hardness", x.Hardness, "hardness_unit", x.HardnessUnit, "stock_l", x.StockL, "make_l_h", x.MakeLH, "by", x.By)
	w.KeyInt("at_ms", x.AtMS)
	w.End('}')
}

func (i *Instrument) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", i.Entry, "name", i.Name)
	w.KeyStrs("measures", i.Measures)
	w.KeyBool("compensates", i.Compensates)
	w.KeyIntOrNull("calibrated_ms", i.CalibratedMS)
	w.KeyStr("note", i.Note)
	w.End('}')
}
