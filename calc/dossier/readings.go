package dossier

// readings sorts the readings, by time, to their baths and finds the latest of
// each quantity.
func (f *folded) readings() {
	var order []*fact
	for _, x := range f.ordered {
		if x.Kind == "reading" && f.stands(x) {
			order = append(order, x)
		}
	}
	f.sortByTime(order)
	for _, x := range order {
		b := f.says(x)
		r := f.reading(x, b)
		place := -1
		if !b.of.IsZero() {
			r.Of = b.of.String()
			if begin := f.find(b.of); begin == nil {
				f.doubt(x, "the bath that it was taken in has not arrived")
			} else if i, ok := f.places[begin]; ok {
				r.Of = begin.Name.String()
				place = i
			}
		}
		if place < 0 {
			f.state.Loose = append(f.state.Loose, r)
		} else {
			f.state.Steps[place].Readings = append(f.state.Steps[place].Readings, r)
		}
		if why := implausible(b.q, b.value); why != "" {
			f.doubt(x, why)
		}
		f.state.Readings++
		if !r.Source {
			f.state.Last[b.q] = r
		}
	}
}

func (f *folded) reading(x *fact, b *body) Reading {
	r := Reading{
		Entry: x.Name.String(), Q: b.q, Value: token(b.value), Unit: b.unit, At: f.moment(x), By: x.By, How: b.how,
		LiquorC: b.liquorC, Compensated: b.compensated, Source: b.source, AtEnd: b.atEnd, Instrument: b.instrument,
	}
	r.Late = r.At.RecordedMS-r.At.MS > lateMS
	if r.How == "" && !r.Late {
		r.How = "clock"
	}
	return r
}
