package reckoning

import "sinkside/sync/jsontext"

// The JSON here is written by hand, member by member, so that no reflection
// comes into the browser's core. A test holds it against encoding/json, byte for
// byte, so that a member that is forgotten here fails.

// Append appends the list as JSON, from which forms are drawn.
func (l List) Append(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	list(&w, l, func(w *jsontext.Writer, r *Reckoning) { r.write(w) })
	return w.B
}

// AppendResult appends a result.
func AppendResult(dst []byte, r Result) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	w.Key("values")
	list(&w, r.Values, writeValue)
	w.Key("verdicts")
	list(&w, r.Verdicts, func(w *jsontext.Writer, v Verdict) { texts(w, "name", v.Name, "title", v.Title, "say", v.Say) })
	w.Key("tables")
	list(&w, r.Tables, writeTable)
	w.Key("pictures")
	list(&w, r.Pictures, writePicture)
	w.Key("unknown")
	list(&w, r.Unknown, func(w *jsontext.Writer, u Unknown) {
		texts(w, "name", u.Name, "title", u.Title, "say", u.Say)
	})
	w.Key("working")
	list(&w, r.Working, func(w *jsontext.Writer, s Working) {
		texts(w, "say", s.Say, "formula", s.Formula, "put", s.Put, "source", s.Source)
	})
	w.Key("cautions")
	list(&w, r.Cautions, func(w *jsontext.Writer, c Caution) { texts(w, "about", c.About, "say", c.Say, "source", c.Source) })
	w.Key("sources")
	list(&w, r.Sources, writeSource)
	w.End('}')
	return w.B
}

// AppendProblems appends {"problems":[...]}.
func AppendProblems(dst []byte, problems []Problem) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	w.Key("problems")
	list(&w, problems, func(w *jsontext.Writer, p Problem) {
		texts(w, "field", p.Field, "value", p.Value, "unit", p.Unit, "allowed", p.Allowed, "say", p.Say)
	})
	w.End('}')
	return w.B
}

func (r *Reckoning) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("name", r.Name, "title", r.Title, "asks", r.Asks, "family", r.Family, "example", r.Example)
	w.Key("inputs")
	list(w, r.Inputs, writeInput)
	w.Key("sources")
	list(w, r.Sources, writeSource)
	w.Key("results")
	list(w, r.Results, func(w *jsontext.Writer, s ResultSpec) { texts(w, "name", s.Name, "title", s.Title, "unit", s.Unit) })
	w.End('}')
}

func writeInput(w *jsontext.Writer, in Input) {
	w.Begin('{')
	w.Texts("name", in.Name, "title", in.Title, "kind", in.Kind, "unit", in.Unit)
	w.Key("units")
	list(w, in.Units, (*jsontext.Writer).Str)
	w.Key("min")
	w.Float(in.Min)
	w.Key("max")
	w.Float(in.Max)
	w.Key("ranges")
	list(w, in.Ranges, func(w *jsontext.Writer, r Range) {
		w.Begin('{')
		w.Texts("unit", r.Unit)
		w.Key("min")
		w.Float(r.Min)
		w.Key("max")
		w.Float(r.Max)
		w.End('}')
	})
	w.Key("whole")
	w.Bool(in.Whole)
	w.Texts("of", in.Of, "when", in.When)
	w.Key("is")
	list(w, in.Is, (*jsontext.Writer).Str)
	w.Texts("default", in.Default)
	w.Key("optional")
	w.Bool(in.Optional)
	w.Key("choices")
	list(w, in.Choices, func(w *jsontext.Writer, c Choice) { texts(w, "value", c.Value, "title", c.Title) })
	w.Key("columns")
	list(w, in.Columns, writeInput)
	w.KeyInt("max_rows", int64(in.MaxRows))
	w.Texts("help", in.Help)
	w.End('}')
}

func writeTable(w *jsontext.Writer, t Table) {
	w.Begin('{')
	w.Texts("title", t.Title)
	w.Key("columns")
	list(w, t.Columns, (*jsontext.Writer).Str)
	w.Key("rows")
	list(w, t.Rows, func(w *jsontext.Writer, row []string) { list(w, row, (*jsontext.Writer).Str) })
	w.End('}')
}

func writePicture(w *jsontext.Writer, p Picture) {
	w.Begin('{')
	w.Texts("title", p.Title)
	w.Key("width")
	w.Float(p.Width)
	w.Key("height")
	w.Float(p.Height)
	w.Texts("size", p.Size)
	w.Key("shapes")
	list(w, p.Shapes, func(w *jsontext.Writer, s Shape) {
		w.Begin('{')
		w.Texts("label", s.Label)
		w.Key("closed")
		w.Bool(s.Closed)
		w.Key("points")
		list(w, s.Points, (*jsontext.Writer).Float)
		w.End('}')
	})
	w.End('}')
}

func writeSource(w *jsontext.Writer, s Source) {
	texts(w, "name", s.Name, "where", s.Where, "mark", s.Mark)
}

func writeValue(w *jsontext.Writer, v Value) {
	w.Begin('{')
	w.Texts("name", v.Name, "title", v.Title)
	w.Key("value")
	w.Float(v.Value)
	w.Texts("unit", v.Unit)
	w.KeyFloatOrNull("low", v.Low)
	w.KeyFloatOrNull("high", v.High)
	w.Texts("shown", v.Shown)
	w.End('}')
}

// list writes an array.
func list[T any](w *jsontext.Writer, items []T, write func(*jsontext.Writer, T)) {
	w.Begin('[')
	for _, item := range items {
		write(w, item)
	}
	w.End(']')
}

// texts writes an object of texts: names and texts by turns.
func texts(w *jsontext.Writer, pairs ...string) {
	w.Begin('{')
	w.Texts(pairs...)
	w.End('}')
}
