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
	str(w, "entry", b.Entry)
	str(w, "name", b.Name)
	str(w, "product", b.Product)
	str(w, "charge", b.Charge)
	str(w, "lot", b.Lot)
	str(w, "active_pct", b.ActivePct)
	str(w, "cmc_g_l", b.CMC)
	str(w, "target", b.Target)
	str(w, "unit", b.Unit)
	str(w, "litres", b.Litres)
	str(w, "product_g", b.ProductG)
	str(w, "water", b.Water)
	str(w, "ph", b.PH)
	str(w, "by", b.By)
	num(w, "made_ms", b.MadeMS)
	numOrNull(w, "expires_ms", b.ExpiresMS)
	boolean(w, "gone", b.Gone)
	w.End('}')
}

func (x *Water) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", x.Entry)
	str(w, "name", x.Name)
	str(w, "source", x.Source)
	str(w, "conductivity", x.Conductivity)
	str(w, "liquor_c", x.LiquorC)
	boolean(w, "compensated", x.Compensated)
	str(w, "ph", x.PH)
	str(w, "hardness", x.Hardness)
	str(w, "hardness_unit", x.HardnessUnit)
	str(w, "stock_l", x.StockL)
	str(w, "make_l_h", x.MakeLH)
	str(w, "by", x.By)
	num(w, "at_ms", x.AtMS)
	w.End('}')
}

func (i *Instrument) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", i.Entry)
	str(w, "name", i.Name)
	texts(w, "measures", i.Measures)
	boolean(w, "compensates", i.Compensates)
	numOrNull(w, "calibrated_ms", i.CalibratedMS)
	str(w, "note", i.Note)
	w.End('}')
}
