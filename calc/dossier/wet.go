package dossier

import "math"

// immersion adds up the union of the intervals in which the object was immersed,
// in whole milliseconds. The steps stand in the order of their begins.
func (f *folded) immersion() {
	s := &f.state
	for i := range s.Steps {
		if st := &s.Steps[i]; st.Immerses && st.Ended == nil && s.RunningSinceMS == nil {
			ms := st.Begun.MS
			s.RunningSinceMS = &ms
		}
	}
	upTo := int64(math.MinInt64)
	for i := range s.Steps {
		st := &s.Steps[i]
		if !st.Immerses || st.Ended == nil {
			continue
		}
		from, to := st.Begun.MS, st.Begun.MS+*st.LimitMS
		if s.RunningSinceMS != nil {
			to = min(to, *s.RunningSinceMS)
		}
		from = max(from, upTo)
		if to > from {
			s.ImmersedMS += to - from
			upTo = to
		}
	}
}

// wetness finds since when the object is wet. A declaration of dry counts unless
// something wetted the object at that time: then it stays wet, and the
// declaration is doubtful until that step is ended before it.
func (f *folded) wetness() {
	s := &f.state
	var dry *fact
	for _, d := range f.dry {
		if w := f.wettedAt(f.moment(d).MS); w != nil {
			f.doubt(d, "declared dry while "+w.Name()+" wetted it")
		} else {
			dry = d
		}
	}
	for i := range s.Steps {
		st := &s.Steps[i]
		if !st.Wets {
			continue
		}
		ms := st.Begun.MS
		if s.FirstWetMS == nil {
			s.FirstWetMS = &ms
		}
		if s.WetSinceMS == nil && (dry == nil || ms >= f.moment(dry).MS) {
			s.WetSinceMS = &ms
		}
	}
	if dry != nil && s.WetSinceMS == nil {
		b := f.says(dry)
		s.Dry = &Dry{Entry: dry.Name.String(), How: b.how, Text: b.text, At: f.moment(dry), By: dry.By}
	}
}

// wettedAt is the first step that began before ms and wetted beyond it.
func (f *folded) wettedAt(ms int64) *Step {
	for i := range f.state.Steps {
		st := &f.state.Steps[i]
		if st.Wets && st.Begun.MS < ms && (st.Ended == nil || st.Ended.MS > ms) {
			return st
		}
	}
	return nil
}
