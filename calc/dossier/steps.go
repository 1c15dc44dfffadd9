package dossier

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// steps pairs each begin with its end.
func (f *folded) steps() {
	ends := map[*fact][]*fact{} // of each begin those that stand, in recorded order
	var order []*fact
	for _, x := range f.ordered {
		if x.Kind == "begin" && f.stands(x) {
			order = append(order, x)
		}
	}
	for _, x := range f.ordered {
		if x.Kind != "end" || !f.stands(x) || x.body.of.IsZero() {
			continue
		}
		switch b := f.find(f.says(x).of); {
		case b == nil:
			f.doubt(x, "the begin that it ends has not arrived")
		case b.Kind != "begin":
			f.doubt(x, "what it ends is no bath")
		case !f.stands(b):
			f.doubt(x, "the bath that it ends was struck")
		default:
			ends[b] = append(ends[b], x)
			f.ends[x] = b
		}
	}
	slices.SortStableFunc(order, func(a, b *fact) int { return cmp.Compare(f.moment(a).MS, f.moment(b).MS) })
	count := map[string]int{}
	for _, x := range order {
		s := f.step(x, ends[x])
		count[s.What]++
		s.Ordinal = count[s.What]
		f.places[x] = len(f.state.Steps)
		f.state.Steps = append(f.state.Steps, s)
	}
}

func (f *folded) step(x *fact, ends []*fact) Step {
	b := f.says(x)
	s := Step{
		Entry: x.Name.String(), What: b.what, Liquid: b.liquid, Litres: b.litres, TargetS: b.targetS, Uncleared: b.uncleared,
		Begun: f.moment(x), By: x.By, Readings: []Reading{}, Versions: 1,
	}
	if v := f.versions[x]; v != nil {
		s.Versions += len(v.all)
		s.Choose = len(v.stands) > 1
	}
	if len(ends) == 0 {
		return s
	}
	first := slices.MinFunc(ends, func(a, b *fact) int { return cmp.Compare(f.moment(a).MS, f.moment(b).MS) })
	end := f.moment(first)
	s.Ended, s.EndEntry, s.EndedBy = &end, first.Name.String(), first.By
	clock := end.MS - s.Begun.MS
	limit := clock
	if clock < 0 {
		f.doubt(first, "it ends before it began")
		limit = 0
	}
	s.ClockMS = &clock
	for _, e := range ends {
		if e != first {
			f.doubt(e, "the bath was ended twice; the earlier end is shown, the longer time counts for limits")
			limit = max(limit, f.moment(e).MS-s.Begun.MS)
		}
		if m, ok := monoBetween(x, e); ok {
			if e == first {
				s.MonoMS = &m
			}
			limit = max(limit, m)
		}
	}
	s.LimitMS = &limit
	return s
}

// monoBetween is the time between begin and end by the steady counter of the
// device that wrote both. The counter is read when an entry is written: a begin
// that was entered late leaves a lower bound, but an end entered late would claim
// more than there was, so that has none.
func monoBetween(begin, end *fact) (int64, bool) {
	a, b := begin.body.mono, end.body.mono
	if a == nil || b == nil || begin.Dev != end.Dev || a.session != b.session || b.ms < a.ms || end.body.agoS > 0 {
		return 0, false
	}
	return b.ms - a.ms, true
}

// readings sorts the readings to their baths and finds the latest of each
// quantity.
func (f *folded) readings() {
	for _, x := range f.ordered {
		if x.Kind != "reading" || !f.stands(x) {
			continue
		}
		b := f.says(x)
		r := Reading{Entry: x.Name.String(), Q: b.q, Value: token(b.value), Unit: b.unit, At: f.moment(x), By: x.By}
		if !b.of.IsZero() {
			r.Of = b.of.String()
			if begin := f.find(b.of); begin == nil {
				f.doubt(x, "the bath that it was taken in has not arrived")
			} else if i, ok := f.places[begin]; ok {
				r.Of = begin.Name.String()
				f.state.Steps[i].Readings = append(f.state.Steps[i].Readings, r)
			}
		}
		if why := implausible(b.q, b.value); why != "" {
			f.doubt(x, why)
		}
		f.state.Readings++
		if last, ok := f.state.Last[b.q]; !ok || r.At.MS >= last.At.MS {
			f.state.Last[b.q] = r
		}
	}
	for i := range f.state.Steps {
		rs := f.state.Steps[i].Readings
		slices.SortStableFunc(rs, func(a, b Reading) int { return cmp.Compare(a.At.MS, b.At.MS) })
	}
}

// immersion adds up the union of the bath intervals, in whole milliseconds. The
// steps stand in the order of their begins.
func (f *folded) immersion() {
	s := &f.state
	type span struct{ from, to int64 }
	var spans []span
	for i := range s.Steps {
		st := &s.Steps[i]
		if s.FirstWetMS == nil || st.Begun.MS < *s.FirstWetMS {
			ms := st.Begun.MS
			s.FirstWetMS = &ms
		}
		if st.Ended == nil {
			if s.RunningSinceMS == nil || st.Begun.MS < *s.RunningSinceMS {
				ms := st.Begun.MS
				s.RunningSinceMS = &ms
			}
			continue
		}
		spans = append(spans, span{st.Begun.MS, st.Begun.MS + *st.LimitMS})
	}
	upTo := int64(math.MinInt64)
	for _, sp := range spans {
		if s.RunningSinceMS != nil {
			sp.to = min(sp.to, *s.RunningSinceMS)
		}
		sp.from = max(sp.from, upTo)
		if sp.to > sp.from {
			s.ImmersedMS += sp.to - sp.from
			upTo = sp.to
		}
	}
}

// ordinalName is "Rinse 2".
func ordinalName(what string, n int) string {
	return bathName(what) + " " + strconv.Itoa(n)
}
