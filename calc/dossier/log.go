package dossier

// lateMS is how long after it happened an entry must have been recorded to count
// as late: two minutes (common practice for a record kept at the sink).
const lateMS = 120_000

// Log returns the lines from place from on, in recorded order, at most count.
func (d *Dossier) Log(from, count int) []LogLine {
	f := d.fold()
	from = min(max(from, 0), len(f.ordered))
	to := min(from+max(count, 0), len(f.ordered))
	out := make([]LogLine, 0, to-from)
	for _, x := range f.ordered[from:to] {
		out = append(out, f.line(x))
	}
	return out
}

func (f *folded) line(x *fact) LogLine {
	at := Moment{MS: x.atMS + x.offset, At: x.At, Corrected: x.offset != 0, RecordedMS: x.recordedMS + x.offset}
	l := LogLine{
		Entry: x.Name.String(), Dev: x.Dev.String(), N: x.N, Kind: x.Kind, Say: f.say(x, &x.body), At: at, By: x.By,
		Amended: []Amended{}, Doubt: f.whyDoubt(x), Late: x.recordedMS-x.atMS > lateMS, Body: x.Body,
	}
	if !x.Was.IsZero() {
		l.Was = x.Was.String()
	}
	if s := f.strikes[x]; s != nil {
		l.Struck = &Struck{Entry: s.Name.String(), By: s.By, Why: s.body.why, MS: f.moment(s).MS}
	}
	if v := f.versions[x]; v != nil {
		for _, a := range v.all {
			l.Amended = append(l.Amended, f.amended(x, a, v))
		}
	}
	return l
}

func (f *folded) amended(x, a *fact, v *versions) Amended {
	ver := readVersion(x.Kind, a)
	out := Amended{
		Entry: a.Name.String(), Say: f.say(x, &ver.body), Why: a.body.why, By: a.By, MS: a.atMS + a.offset,
		Struck: f.strikes[a] != nil, At: ver.at, Body: a.body.inner,
	}
	for _, s := range v.stands {
		out.Stands = out.Stands || s == a
	}
	return out
}
