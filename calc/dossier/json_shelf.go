package dossier

import "sinkside/sync/jsontext"

// AppendJSON appends the shelf as its struct tags say.
func (s *Shelf) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	texts(&w, "initials", s.Initials)
	texts(&w, "liquids", s.Liquids)
	list(&w, "batches", len(s.Batches), func(i int) { s.Batches[i].write(&w) })
	list(&w, "waters", len(s.Waters), func(i int) { s.Waters[i].write(&w) })
	list(&w, "instruments", len(s.Instruments), func(i int) { s.Instruments[i].write(&w) })
	w.End('}')
	return w.B
}

func (b *Batch) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", b.Entry, "name", b.Name, "product", b.Product, "charge", b.Charge, "lot", b.Lot,
		"active_pct", b.ActivePct, "cmc_g_l", b.CMC, "target", b.Target, "unit", b.Unit,
		"litres", b.Litres, "product_g", b.ProductG, "water", b.Water, "ph", b.PH, "by", b.By)
	num(w, "made_ms", b.MadeMS)
	numOrNull(w, "expires_ms", b.ExpiresMS)
	boolean(w, "gone", b.Gone)
	w.End('}')
}

func (x *Water) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", x.Entry, "name", x.Name, "source", x.Source, "conductivity", x.Conductivity, "liquor_c", x.LiquorC)
	boolean(w, "compensated", x.Compensated)
	strs(w, "ph", x.PH, "hardness", x.Hardness, "hardness_unit", x.HardnessUnit, "stock_l", x.StockL, "make_l_h", x.MakeLH, "by", x.By)
	num(w, "at_ms", x.AtMS)
	w.End('}')
}

func (i *Instrument) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", i.Entry, "name", i.Name)
	texts(w, "measures", i.Measures)
	boolean(w, "compensates", i.Compensates)
	numOrNull(w, "calibrated_ms", i.CalibratedMS)
	str(w, "note", i.Note)
	w.End('}')
}
