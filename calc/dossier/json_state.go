package dossier

import "sinkside/sync/jsontext"

// The parts of a state, member by member as their struct tags say.

func (s *Step) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", s.Entry, "what", s.What)
	boolean(w, "wets", s.Wets)
	boolean(w, "immerses", s.Immerses)
	num(w, "ordinal", int64(s.Ordinal))
	strs(w, "liquid", s.Liquid, "litres", s.Litres)
	num(w, "target_s", s.TargetS)
	boolean(w, "uncleared", s.Uncleared)
	strs(w, "reason", s.Reason, "temp_c", s.TempC, "batch", s.Batch)
	texts(w, "unticked", s.Unticked)
	num(w, "planned", s.Planned)
	strs(w, "where", s.Where, "face", s.Face, "held", s.Held, "airflow", s.Airflow, "air_m_s", s.AirMS)
	num(w, "sides", s.Sides)
	moment(w, "begun", &s.Begun)
	str(w, "by", s.By)
	moment(w, "ended", s.Ended)
	strs(w, "end_entry", s.EndEntry, "ended_by", s.EndedBy)
	boolean(w, "aborted", s.Aborted)
	numOrNull(w, "clock_ms", s.ClockMS)
	numOrNull(w, "mono_ms", s.MonoMS)
	numOrNull(w, "limit_ms", s.LimitMS)
	list(w, "readings", len(s.Readings), func(i int) { s.Readings[i].write(w) })
	num(w, "versions", int64(s.Versions))
	boolean(w, "choose", s.Choose)
	w.End('}')
}

func (r *Reading) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", r.Entry, "q", r.Q, "value", r.Value, "unit", r.Unit, "of", r.Of)
	moment(w, "at", &r.At)
	str(w, "by", r.By)
	boolean(w, "late", r.Late)
	strs(w, "how", r.How, "liquor_c", r.LiquorC)
	boolean(w, "compensated", r.Compensated)
	boolean(w, "source", r.Source)
	boolean(w, "at_end", r.AtEnd)
	str(w, "instrument", r.Instrument)
	w.End('}')
}

func (p *Plan) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", p.Entry, "by", p.By)
	num(w, "at_ms", p.AtMS)
	list(w, "baths", len(p.Baths), func(i int) { p.Baths[i].write(w) })
	w.End('}')
}

func (b *PlannedBath) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "what", b.What, "liquid", b.Liquid, "litres", b.Litres)
	num(w, "target_s", b.TargetS)
	strs(w, "temp_c", b.TempC, "batch", b.Batch)
	w.End('}')
}

func (d *Dwell) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", d.Entry, "colour", d.Colour, "liquid", d.Liquid)
	num(w, "s", d.S)
	strs(w, "temp_c", d.TempC, "ph_from", d.PHFrom, "ph_to", d.PHTo, "faces", d.Faces, "name", d.Name, "by", d.By)
	num(w, "at_ms", d.AtMS)
	w.End('}')
}

func (t *Tick) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "item", t.Item, "title", t.Title)
	list(w, "is", len(t.Is), func(i int) { t.Is[i].write(w) })
	w.End('}')
}

func (a *Act) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", a.Entry, "what", a.What, "say", a.Say, "of", a.Of)
	num(w, "s", a.S)
	str(w, "text", a.Text)
	moment(w, "at", &a.At)
	str(w, "by", a.By)
	w.End('}')
}

func (a *Abort) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", a.Entry)
	texts(w, "of", a.Of)
	boolean(w, "generic", a.Generic)
	texts(w, "steps", a.Steps)
	str(w, "reason", a.Reason)
	moment(w, "at", &a.At)
	str(w, "by", a.By)
	w.End('}')
}

func (d *Decision) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", d.Entry, "what", d.What, "why", d.Why, "proposed", d.Proposed, "of", d.Of)
	moment(w, "at", &d.At)
	str(w, "by", d.By)
	w.End('}')
}

func (d *Dry) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", d.Entry, "how", d.How, "text", d.Text)
	moment(w, "at", &d.At)
	str(w, "by", d.By)
	w.End('}')
}

func (t *Takeover) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", t.Entry, "from", t.From, "by", t.By)
	moment(w, "at", &t.At)
	w.End('}')
}

func (o *Overnight) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", o.Entry, "who", o.Who, "until", o.Until)
	numOrNull(w, "until_ms", o.UntilMS)
	str(w, "text", o.Text)
	moment(w, "at", &o.At)
	str(w, "by", o.By)
	w.End('}')
}

func (h *Heard) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "cue", h.Cue, "by", h.By)
	num(w, "at_ms", h.AtMS)
	w.End('}')
}

func (p *Photo) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", p.Entry, "blob", p.Blob, "type", p.Type)
	num(w, "bytes", p.Bytes)
	strs(w, "of", p.Of, "text", p.Text)
	moment(w, "at", &p.At)
	str(w, "by", p.By)
	w.End('}')
}
