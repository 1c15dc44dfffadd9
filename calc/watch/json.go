package watch

import "sinkside/sync/jsontext"

// The writers below spell out what encoding/json would make of the struct tags;
// a test holds them against it.

// AppendJSON appends the watch. Equal states give equal bytes, but for the last
// digits of what reckonings worked out.
func (x *Watch) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	texts(&w, "job", x.Job)
	x.Dwell.write(&w)
	list(&w, "cues", len(x.Cues), func(i int) {
		c, w := &x.Cues[i], &w
		texts(w, "id", c.ID, "kind", c.Kind, "of", c.Of)
		whole(w, "at_ms", c.AtMS)
		texts(w, "say", c.Say, "speak", c.Speak)
		flag(w, "loud", c.Loud)
		texts(w, "heard_by", c.HeardBy)
	})
	list(&w, "warnings", len(x.Warnings), func(i int) {
		c, w := &x.Warnings[i], &w
		texts(w, "id", c.ID)
		whole(w, "from_ms", c.FromMS)
		texts(w, "tone", c.Tone, "say", c.Say, "of", c.Of)
	})
	list(&w, "due", len(x.Due), func(i int) {
		d, w := &x.Due[i], &w
		texts(w, "q", d.Q, "of", d.Of)
		whole(w, "at_ms", d.AtMS)
	})
	w.Key("next")
	w.Begin('{')
	texts(&w, "say", x.Next.Say)
	wholeOrNull(&w, "at_ms", x.Next.AtMS)
	whole(&w, "place", x.Next.Place)
	w.End('}')
	w.Key("rinse")
	x.Rinse.write(&w)
	w.Key("drying")
	x.Drying.write(&w)
	w.Key("stop_plan")
	w.Begin('{')
	lines(&w, "steps", x.StopPlan.Steps)
	flag(&w, "generic", x.StopPlan.Generic)
	texts(&w, "caution", x.StopPlan.Caution)
	w.End('}')
	w.End('}')
	return w.B
}

func (d *Limit) write(w *jsontext.Writer) {
	w.Key("dwell")
	w.Begin('{')
	whole(w, "s", d.S)
	whole(w, "mark_s", d.MarkS)
	wholeOrNull(w, "mark_ms", d.MarkMS)
	wholeOrNull(w, "end_ms", d.EndMS)
	texts(w, "colour", d.Colour, "name", d.Name, "entry", d.Entry, "liquid", d.Liquid)
	lines(w, "untested", d.Untested)
	texts(w, "say", d.Say)
	w.End('}')
}

func (r *Rinse) write(w *jsontext.Writer) {
	if r == nil {
		w.Null()
		return
	}
	w.Begin('{')
	w.Key("source")
	if r.Source == nil {
		w.Null()
	} else {
		w.Begin('{')
		writePoint(w, r.Source)
		w.End('}')
	}
	list(w, "points", len(r.Points), func(i int) { writePoint(w, &r.Points[i]) })
	floatOrNull(w, "change_pct", r.ChangePct)
	list(w, "curve", len(r.Curve), func(i int) {
		b := &r.Curve[i]
		whole(w, "place", b.Place)
		float(w, "k25", b.K25)
		float(w, "low", b.Low)
		float(w, "high", b.High)
	})
	wholeOrNull(w, "more_low", r.MoreLow)
	wholeOrNull(w, "more_high", r.MoreHigh)
	texts(w, "propose", r.Propose, "say", r.Say)
	lines(w, "reasons", r.Reasons)
	texts(w, "refused", r.Refused)
	r.Working.write(w, "working")
	w.End('}')
}

func writePoint(w *jsontext.Writer, p *Point) {
	texts(w, "entry", p.Entry, "of", p.Of, "label", p.Label)
	whole(w, "place", p.Place)
	whole(w, "at_ms", p.AtMS)
	float(w, "value", p.Value)
	float(w, "k25", p.K25)
	texts(w, "how", p.How)
	flag(w, "fitted", p.Fitted)
	texts(w, "why_not", p.WhyNot, "liquor", p.Liquor)
	flag(w, "at_end", p.AtEnd)
	p.Working.write(w, "working")
}

func (a *Asked) write(w *jsontext.Writer, key string) {
	w.Key(key)
	w.Begin('{')
	texts(w, "name", a.Name)
	w.Key("inputs")
	if a.Inputs == nil {
		w.Null()
	} else {
		w.Raw(a.Inputs)
	}
	w.End('}')
}

func (d *Drying) write(w *jsontext.Writer) {
	if d == nil {
		w.Null()
		return
	}
	w.Begin('{')
	texts(w, "of", d.Of)
	whole(w, "next_ms", d.NextMS)
	whole(w, "checks", d.Checks)
	floatOrNull(w, "water_g", d.WaterG)
	wholeOrNull(w, "early_ms", d.EarlyMS)
	wholeOrNull(w, "late_ms", d.LateMS)
	flag(w, "corrected", d.Corrected)
	floatOrNull(w, "dew_c", d.DewC)
	texts(w, "room_say", d.RoomSay, "say", d.Say)
	lines(w, "missing", d.Missing)
	whole(w, "mould_ms", d.MouldMS)
	d.Working.write(w, "working")
	d.Air.write(w, "air")
	w.End('}')
}

// list writes a member that is an array of n objects, whose insides write writes.
func list(w *jsontext.Writer, key string, n int, write func(i int)) {
	w.Key(key)
	w.Begin('[')
	for i := range n {
		w.Begin('{')
		write(i)
		w.End('}')
	}
	w.End(']')
}

// texts writes members that are texts: names and texts by turns.
func texts(w *jsontext.Writer, pairs ...string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		w.Key(pairs[i])
		w.Str(pairs[i+1])
	}
}

func lines(w *jsontext.Writer, key string, texts []string) {
	w.Key(key)
	w.Begin('[')
	for _, s := range texts {
		w.Str(s)
	}
	w.End(']')
}

func whole(w *jsontext.Writer, key string, i int64)   { w.Key(key); w.Int(i) }
func flag(w *jsontext.Writer, key string, b bool)     { w.Key(key); w.Bool(b) }
func float(w *jsontext.Writer, key string, x float64) { w.Key(key); w.Float(x) }

func wholeOrNull(w *jsontext.Writer, key string, i *int64) {
	w.Key(key)
	if i == nil {
		w.Null()
		return
	}
	w.Int(*i)
}

func floatOrNull(w *jsontext.Writer, key string, x *float64) {
	w.Key(key)
	if x == nil {
		w.Null()
		return
	}
	w.Float(*x)
}
