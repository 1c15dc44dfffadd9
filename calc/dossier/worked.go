package dossier

import (
	"sinkside/sync/jsontext"
)

// AppendWorked writes each ended step as a row that the reckonings of hours and
// estimates take: its kind, the kind of object, the object's area where width and
// height are agreed, and how long it took. It gives the number of rows. A step
// that is not ended has no hours yet.
func (s *State) AppendWorked(w *jsontext.Writer) int {
	area := wholeMM(s.agreed("width_mm")) * wholeMM(s.agreed("height_mm"))
	n := 0
	for i := range s.Steps {
		step := &s.Steps[i]
		if step.ClockMS == nil || *step.ClockMS < 0 {
			continue
		}
		n++
		w.Begin('{')
		w.KeyStr("step", KindName(step.What))
		if kind := s.agreed("object_kind"); kind != "" {
			w.KeyStr("object", kind)
		}
		if area > 0 {
			w.Key("area")
			quantityOfUnit(w, area, "mm²")
		}
		w.Key("took")
		quantityOfUnit(w, (*step.ClockMS+500)/1000, "s")
		w.End('}')
	}
	return n
}

func quantityOfUnit(w *jsontext.Writer, value int64, unit string) {
	w.Begin('{')
	w.KeyInt("value", value)
	w.KeyStr("unit", unit)
	w.End('}')
}

// agreed returns the value of a field that has one; empty where there is none or
// people must still choose.
func (s *State) agreed(field string) string {
	if values := s.Fields[field]; len(values) == 1 {
		return values[0].Value
	}
	return ""
}

// wholeMM reads a measure to the whole millimetre; 0 where it is none.
func wholeMM(text string) int64 {
	f, err := jsontext.Value(text).Float()
	if err != nil || !(f > 0 && f < 1e6) {
		return 0
	}
	return int64(f + 0.5)
}
