package watch

import "sinkside/sync/jsontext"

// The writers below spell out what encoding/json would make of the struct tags;
// a test holds them against it.

// AppendJSON appends the watch. Equal states give equal bytes, but for the last
// digits of what reckonings worked out.
func (x *Watch) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	w.Texts("job", x.Job)
	x.Dwell.write(&w)
	list(&w, "cues", len(x.Cues), func(i int) {
		c, w := &x.Cues[i], &w
		w.Texts("id", c.ID, "kind", c.Kind, "of", c.Of)
		w.KeyInt("at_ms", c.AtMS)
		w.Texts("say", c.Say, "speak", c.Speak)
		w.KeyBool("loud", c.Loud)
		w.Texts("heard_by", c.HeardBy)
	})
	list(&w, "warnings", len(x.Warnings), func(i int) {
		c, w := &x.Warnings[i], &w
		w.Texts("id", c.ID)
		w.KeyInt("from_ms", c.FromMS)
		w.Texts("tone", c.Tone, "say", c.Say, "of", c.Of)
	})
	list(&w, "due", len(x.Due), func(i int) {
		d, w := &x.Due[i], &w
		w.Texts("q", d.Q, "of", d.Of)
		w.KeyInt("at_ms", d.AtMS)
	})
	w.Key("next")
	w.Begin('{')
	w.Texts("say", x.Next.Say)
	w.KeyIntOrNull("at_ms", x.Next.AtMS)
	w.KeyInt("place", x.Next.Place)
	w.End('}')
	w.Key("rinse")
	x.Rinse.write(&w)
	w.Key("drying")
	x.Drying.write(&w)
	w.Key("stop_plan")
	w.Begin('{')
	w.KeyStrs("steps", x.StopPlan.Steps)
	w.KeyBool("generic", x.StopPlan.Generic)
	w.Texts("caution", x.StopPlan.Caution)
	w.End('}')
	w.End('}')
	return w.B
}

func (d *Limit) write(w *jsontext.Writer) {
	w.Key("dwell")
	w.Begin('{')
	w.KeyInt("s", d.S)
	w.KeyInt("mark_s", d.MarkS)
	w.KeyIntOrNull("mark_ms", d.MarkMS)
	w.KeyIntOrNull("end_ms", d.EndMS)
	w.Texts("colour", d.Colour, "name", d.Name, "entry", d.Entry, "liquid", d.Liquid)
	w.KeyStrs("untested", d.Untested)
	w.Texts("say", d.Say)
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
	w.KeyFloatOrNull("change_pct", r.ChangePct)
	list(w, "curve", len(r.Curve), func(i int) {
		b := &r.Curve[i]
		w.KeyInt("place", b.Place)
		w.KeyFloat("k25", b.K25)
		w.KeyFloat("low", b.Low)
		w.KeyFloat("high", b.High)
	})
	w.KeyIntOrNull("more_low", r.MoreLow)
	w.KeyIntOrNull("more_high", r.MoreHigh)
	w.Texts("propose", r.Propose, "say", r.Say)
	w.KeyStrs("reasons", r.Reasons)
	w.Texts("refused", r.Refused)
	r.Working.write(w, "working")
	w.End('}')
}

func writePoint(w *jsontext.Writer, p *Point) {
	w.Texts("entry", p.Entry, "of", p.Of, "label", p.Label)
	w.KeyInt("place", p.Place)
	w.KeyInt("at_ms", p.AtMS)
	w.KeyFloat("value", p.Value)
	w.KeyFloat("k25", p.K25)
	w.Texts("how", p.How)
	w.KeyBool("fitted", p.Fitted)
	w.Texts("why_not", p.WhyNot, "liquor", p.Liquor)
	w.KeyBool("at_end", p.AtEnd)
	p.Working.write(w, "working")
}

func (a *Asked) write(w *jsontext.Writer, key string) {
	w.Key(key)
	w.Begin('{')
	w.Texts("name", a.Name)
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
	w.Texts("of", d.Of)
	w.KeyInt("next_ms", d.NextMS)
	w.KeyInt("checks", d.Checks)
	w.KeyFloatOrNull("water_g", d.WaterG)
	w.KeyIntOrNull("early_ms", d.EarlyMS)
	w.KeyIntOrNull("late_ms", d.LateMS)
	w.KeyBool("corrected", d.Corrected)
	w.KeyFloatOrNull("dew_c", d.DewC)
	w.Texts("room_say", d.RoomSay, "say", d.Say)
	w.KeyStrs("missing", d.Missing)
	w.KeyInt("mould_ms", d.MouldMS)
	d.Working.write(w, "working")
	d.Air.write(w, "air")
	w.End('}')
}

// list writes a member that is an array of n objects, whose insides write writes.
func list(w *jsontext.Writer, key string, n int, write func(i int)) {
	w.KeyList(key, n, func(i int) {
		w.Begin('{')
		write(i)
		w.End('}')
	})
}
