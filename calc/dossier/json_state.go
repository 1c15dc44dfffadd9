package dossier

import "sinkside/sync/jsontext"

// The parts of a state, member by member as their struct tags say.

func (s *Step) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", s.Entry)
	str(w, "what", s.What)
	boolean(w, "wets", s.Wets)
	boolean(w, "immerses", s.Immerses)
	num(w, "ordinal", int64(s.Ordinal))
	str(w, "liquid", s.Liquid)
	str(w, "litres", s.Litres)
	num(w, "target_s", s.TargetS)
	boolean(w, "uncleared", s.Uncleared)
	str(w, "reason", s.Reason)
	str(w, "temp_c", s.TempC)
	str(w, "batch", s.Batch)
	texts(w, "unticked", s.Unticked)
	num(w, "planned", s.Planned)
	str(w, "where", s.Where)
	str(w, "face", s.Face)
	str(w, "held", s.Held)
	str(w, "airflow", s.Airflow)
	str(w, "air_m_s", s.AirMS)
	num(w, "sides", s.Sides)
	moment(w, "begun", &s.Begun)
	str(w, "by", s.By)
	moment(w, "ended", s.Ended)
	str(w, "end_entry", s.EndEntry)
	str(w, "ended_by", s.EndedBy)
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
	str(w, "entry", r.Entry)
	str(w, "q", r.Q)
	str(w, "value", r.Value)
	str(w, "unit", r.Unit)
	str(w, "of", r.Of)
	moment(w, "at", &r.At)
	str(w, "by", r.By)
	boolean(w, "late", r.Late)
	str(w, "how", r.How)
	str(w, "liquor_c", r.LiquorC)
	boolean(w, "compensated", r.Compensated)
	boolean(w, "source", r.Source)
	boolean(w, "at_end", r.AtEnd)
	str(w, "instrument", r.Instrument)
	w.End('}')
}

func (p *Plan) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", p.Entry)
	str(w, "by", p.By)
	num(w, "at_ms", p.AtMS)
	list(w, "baths", len(p.Baths), func(i int) { p.Baths[i].write(w) })
	w.End('}')
}

func (b *PlannedBath) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "what", b.What)
	str(w, "liquid", b.Liquid)
	str(w, "litres", b.Litres)
	num(w, "target_s", b.TargetS)
	str(w, "temp_c", b.TempC)
	str(w, "batch", b.Batch)
	w.End('}')
}

func (d *Dwell) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", d.Entry)
	str(w, "colour", d.Colour)
	str(w, "liquid", d.Liquid)
	num(w, "s", d.S)
	str(w, "temp_c", d.TempC)
	str(w, "ph_from", d.PHFrom)
	str(w, "ph_to", d.PHTo)
	str(w, "faces", d.Faces)
	str(w, "name", d.Name)
	str(w, "by", d.By)
	num(w, "at_ms", d.AtMS)
	w.End('}')
}

func (t *Tick) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "item", t.Item)
	str(w, "title", t.Title)
	list(w, "is", len(t.Is), func(i int) { t.Is[i].write(w) })
	w.End('}')
}

func (a *Act) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", a.Entry)
	str(w, "what", a.What)
	str(w, "say", a.Say)
	str(w, "of", a.Of)
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
	str(w, "entry", d.Entry)
	str(w, "what", d.What)
	str(w, "why", d.Why)
	str(w, "proposed", d.Proposed)
	str(w, "of", d.Of)
	moment(w, "at", &d.At)
	str(w, "by", d.By)
	w.End('}')
}

func (d *Dry) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", d.Entry)
	str(w, "how", d.How)
	str(w, "text", d.Text)
	moment(w, "at", &d.At)
	str(w, "by", d.By)
	w.End('}')
}

func (t *Takeover) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", t.Entry)
	str(w, "from", t.From)
	str(w, "by", t.By)
	moment(w, "at", &t.At)
	w.End('}')
}

func (o *Overnight) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", o.Entry)
	str(w, "who", o.Who)
	str(w, "until", o.Until)
	numOrNull(w, "until_ms", o.UntilMS)
	str(w, "text", o.Text)
	moment(w, "at", &o.At)
	str(w, "by", o.By)
	w.End('}')
}

func (h *Heard) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "cue", h.Cue)
	str(w, "by", h.By)
	num(w, "at_ms", h.AtMS)
	w.End('}')
}

func (p *Photo) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "entry", p.Entry)
	str(w, "blob", p.Blob)
	str(w, "type", p.Type)
	num(w, "bytes", p.Bytes)
	str(w, "of", p.Of)
	str(w, "text", p.Text)
	moment(w, "at", &p.At)
	str(w, "by", p.By)
	w.End('}')
}
