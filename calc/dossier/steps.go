package dossier

import (
	"cmp"
	"slices"
	"strconv"

	"sinkside/sync/journal"
)

// Wetting tells whether a kind of step starts the wet clock, and whether the
// object is immersed in it. What this version does not know counts as a bath.
func Wetting(what string) (wets, immerses bool) {
	switch what {
	case "local", "suction", "gel", "humidify":
		return true, false
	case "drying":
		return false, false
	}
	return true, true
}

// steps pairs each begin with what ended it.
func (f *folded) steps() {
	var order []*fact
	for _, x := range f.ordered {
		if x.Kind == "begin" && f.stands(x) {
			order = append(order, x)
		}
	}
	ends := f.enders()
	f.dry = f.byTime("dry")
	f.sortByTime(order)
	f.reasons()
	count := map[string]int{}
	for _, x := range order {
		s := f.step(x, ends[x])
		count[s.What]++
		s.Ordinal = count[s.What]
		s.Reason = f.why[x]
		f.places[x] = len(f.state.Steps)
		f.state.Steps = append(f.state.Steps, s)
	}
}

// enders finds the ends and aborts of each begin, in recorded order.
func (f *folded) enders() map[*fact][]*fact {
	ends := map[*fact][]*fact{}
	for _, x := range f.ordered {
		if !f.stands(x) {
			continue
		}
		b := f.says(x)
		switch {
		case x.Kind == "end" && !b.of.IsZero():
			if begin := f.ended(x, b.of); begin != nil {
				ends[begin] = append(ends[begin], x)
				f.ends[x] = begin
			}
		case x.Kind == "abort":
			for _, n := range b.ofAll {
				if begin := f.ended(x, n); begin != nil {
					ends[begin] = append(ends[begin], x)
				}
			}
		}
	}
	return ends
}

// ended is the begin that x ends, nil when there is none.
func (f *folded) ended(x *fact, n journal.Name) *fact {
	switch b := f.find(n); {
	case b == nil:
		f.doubt(x, "the begin that it ends has not arrived")
	case b.Kind != "begin":
		f.doubt(x, "what it ends is no bath")
	case !f.stands(b):
		if !b.unknown {
			f.doubt(x, "the bath that it ends was struck")
		}
	default:
		return b
	}
	return nil
}

func (f *folded) step(x *fact, ends []*fact) Step {
	b := f.says(x)
	s := Step{
		Entry: x.Name.String(), What: b.what, Liquid: b.liquid, Litres: b.litres, TargetS: b.targetS, Uncleared: b.uncleared,
		TempC: b.tempC, Batch: b.batch, Unticked: b.unticked, Planned: b.planned, Where: b.where,
		Face: b.face, Held: b.held, Airflow: b.airflow, AirMS: b.airMS, Sides: b.sides,
		Begun: f.moment(x), By: x.By, Readings: []Reading{}, Versions: 1,
	}
	s.Wets, s.Immerses = Wetting(b.what)
	if s.Unticked == nil {
		s.Unticked = []string{}
	}
	if v := f.versions[x]; v != nil {
		s.Versions += len(v.all)
		s.Choose = len(v.stands) > 1
	}
	if s.What == "drying" {
		ends = f.dried(s.Begun.MS, ends)
	}
	if len(ends) > 0 {
		f.end(&s, x, ends)
	}
	return s
}

// dried adds the declaration of dry that ends a drying begun at from, unless it
// was ended before.
func (f *folded) dried(from int64, ends []*fact) []*fact {
	for _, d := range f.dry {
		at := f.moment(d).MS
		if at < from {
			continue
		}
		for _, e := range ends {
			if f.moment(e).MS <= at {
				return ends
			}
		}
		return append(slices.Clone(ends), d)
	}
	return ends
}

// end says when s ended. Of several ends the earliest is shown, and for limits
// the longest time counts.
func (f *folded) end(s *Step, x *fact, ends []*fact) {
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
		s.Aborted = s.Aborted || e.Kind == "abort"
		if e != first && s.Wets {
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

// Name is what a colleague calls the step: "Rinse 2".
func (s *Step) Name() string { return ordinalName(s.What, s.Ordinal) }

// ordinalName is "Rinse 2".
func ordinalName(what string, n int) string {
	return KindName(what) + " " + strconv.Itoa(n)
}
