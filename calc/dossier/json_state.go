package dossier

import "sinkside/sync/jsontext"

// The parts of a state, member by member as their struct tags say.

func (s *Step) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", s.Entry, "what", s.What)
	w.KeyBool("wets", s.Wets)
	w.KeyBool("immerses", s.Immerses)
	w.KeyInt("ordinal", int64(s.Ordinal))
	w.Texts("liquid", s.Liquid, "litres", s.Litres)
	w.KeyInt("target_s", s.TargetS)
	w.KeyBool("uncleared", s.Uncleared)
	w.Texts("reason", s.Reason, "temp_c", s.TempC, "batch", s.Batch)
	w.KeyStrs("unticked", s.Unticked)
	w.KeyInt("planned", s.Planned)
	w.Texts("where", s.Where, "face", s.Face, "held", s.Held, "airflow", s.Airflow, "air_m_s", s.AirMS)
	w.KeyInt("sides", s.Sides)
	moment(w, "begun", &s.Begun)
	w.KeyStr("by", s.By)
	moment(w, "ended", s.Ended)
	w.Texts("end_entry", s.EndEntry, "ended_by", s.EndedBy)
	w.KeyBool("aborted", s.Aborted)
	w.KeyIntOrNull("clock_ms", s.ClockMS)
	w.KeyIntOrNull("mono_ms", s.MonoMS)
	w.KeyIntOrNull("limit_ms", s.LimitMS)
	w.KeyList("readings", len(s.Readings), func(i int) { s.Readings[i].write(w) })
	w.KeyInt("versions", int64(s.Versions))
	w.KeyBool("choose", s.Choose)
	w.End('}')
}

func (r *Reading) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", r.Entry, "q", r.Q, "value", r.Value, "unit", r.Unit, "of", r.Of)
	moment(w, "at", &r.At)
	w.KeyStr("by", r.By)
	w.KeyBool("late", r.Late)
	w.Texts("how", r.How, "liquor_c", r.LiquorC)
	w.KeyBool("compensated", r.Compensated)
	w.KeyBool("source", r.Source)
	w.KeyBool("at_end", r.AtEnd)
	w.KeyStr("instrument", r.Instrument)
	w.End('}')
}

func (p *Plan) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", p.Entry, "by", p.By)
	w.KeyInt("at_ms", p.AtMS)
	w.KeyList("baths", len(p.Baths), func(i int) { p.Baths[i].write(w) })
	w.End('}')
}

func (b *PlannedBath) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("what", b.What, "liquid", b.Liquid, "litres", b.Litres)
	w.KeyInt("target_s", b.TargetS)
	w.Texts("temp_c", b.TempC, "batch", b.Batch)
	w.End('}')
}

func (d *Dwell) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", d.Entry, "colour", d.Colour, "liquid", d.Liquid)
	w.KeyInt("s", d.S)
	w.Texts("temp_c", d.TempC, "ph_from", d.PHFrom, "ph_to", d.PHTo, "faces", d.Faces, "name", d.Name, "by", d.By)
	w.KeyInt("at_ms", d.AtMS)
	w.End('}')
}

func (t *Tick) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("item", t.Item, "title", t.Title)
	w.KeyList("is", len(t.Is), func(i int) { t.Is[i].write(w) })
	w.End('}')
}

func (a *Act) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", a.Entry, "what", a.What, "say", a.Say, "of", a.Of)
	w.KeyInt("s", a.S)
	w.KeyStr("text", a.Text)
	moment(w, "at", &a.At)
	w.KeyStr("by", a.By)
	w.End('}')
}

func (a *Abort) write(w *jsontext.Writer) {
	w.Begin('{')
	w.KeyStr("entry", a.Entry)
	w.KeyStrs("of", a.Of)
	w.KeyBool("generic", a.Generic)
	w.KeyStrs("steps", a.Steps)
	w.KeyStr("reason", a.Reason)
	moment(w, "at", &a.At)
	w.KeyStr("by", a.By)
	w.End('}')
}

func (d *Decision) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", d.Entry, "what", d.What, "why", d.Why, "proposed", d.Proposed, "of", d.Of)
	moment(w, "at", &d.At)
	w.KeyStr("by", d.By)
	w.End('}')
}

func (d *Dry) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", d.Entry, "how", d.How, "text", d.Text)
	moment(w, "at", &d.At)
	w.KeyStr("by", d.By)
	w.End('}')
}

func (t *Takeover) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", t.Entry, "from", t.From, "by", t.By)
	moment(w, "at", &t.At)
	w.End('}')
}

func (o *Overnight) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", o.Entry, "who", o.Who, "until", o.Until)
	w.KeyIntOrNull("until_ms", o.UntilMS)
	w.KeyStr("text", o.Text)
	moment(w, "at", &o.At)
	w.KeyStr("by", o.By)
	w.End('}')
}

func (h *Heard) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("cue", h.Cue, "by", h.By)
	w.KeyInt("at_ms", h.AtMS)
	w.End('}')
}

func (p *Photo) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", p.Entry, "blob", p.Blob, "type", p.Type)
	w.KeyInt("bytes", p.Bytes)
	w.Texts("of", p.Of, "text", p.Text)
	moment(w, "at", &p.At)
	w.KeyStr("by", p.By)
	w.End('}')
}
