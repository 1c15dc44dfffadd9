package dossier

import (
	"strings"

	"sinkside/sync/journal"
)

// done gathers what was done, decided and photographed, by time.
func (f *folded) done() {
	s := &f.state
	for _, x := range f.byTime("act") {
		b := f.says(x)
		s.Acts = append(s.Acts, Act{
			Entry: x.Name.String(), What: b.what, Say: sayAct(b), Of: f.about(x, b.of), S: b.s, Text: b.text, At: f.moment(x), By: x.By,
		})
	}
	for _, x := range f.byTime("decide") {
		b := f.says(x)
		s.Decisions = append(s.Decisions, Decision{
			Entry: x.Name.String(), What: b.what, Why: b.why, Proposed: b.proposed, Of: f.about(x, b.of), At: f.moment(x), By: x.By,
		})
	}
	f.reckoned()
	for _, x := range f.byTime("photo") {
		b := f.says(x)
		s.Photos = append(s.Photos, Photo{
			Entry: x.Name.String(), Blob: b.blob.String(), Type: b.mime, Bytes: b.bytes, Of: f.about(x, b.of), Text: b.text, At: f.moment(x), By: x.By,
		})
	}
}

func (f *folded) aborts() {
	for _, x := range f.byTime("abort") {
		b := f.says(x)
		a := Abort{Entry: x.Name.String(), Of: []string{}, Generic: b.generic, Steps: b.steps, Reason: f.why[x], At: f.moment(x), By: x.By}
		for _, n := range b.ofAll {
			a.Of = append(a.Of, f.about(x, n))
		}
		if a.Steps == nil {
			a.Steps = []string{}
		}
		f.state.Aborts = append(f.state.Aborts, a)
	}
}

// reasons finds what was said afterwards of an entry: of several all, in recorded
// order.
func (f *folded) reasons() {
	f.why = map[*fact]string{}
	for _, x := range f.of("reason") {
		b := f.says(x)
		y := f.find(b.of)
		if y == nil {
			f.doubt(x, "the entry that it is about has not arrived")
		} else if text := strings.TrimSpace(b.text); f.why[y] == "" {
			f.why[y] = text
		} else if text != "" {
			f.why[y] += "; " + text
		}
	}
}

// people gathers who was at the sink, who answers for the night, and which cues
// were acknowledged.
func (f *folded) people() {
	s := &f.state
	for _, x := range f.byTime("takeover") {
		s.Takeovers = append(s.Takeovers, Takeover{Entry: x.Name.String(), From: f.says(x).who, By: x.By, At: f.moment(x)})
	}
	for _, x := range f.byTime("overnight") {
		b := f.says(x)
		o := Overnight{Entry: x.Name.String(), Who: b.who, Until: b.until, Text: b.text, At: f.moment(x), By: x.By}
		// It was said by the clock on the wall, so the phone's is not corrected for.
		if ms, err := journal.ParseAt(b.until); err == nil {
			o.UntilMS = &ms
		}
		s.Overnights = append(s.Overnights, o)
	}
	heard := map[string]bool{}
	for _, x := range f.of("heard") {
		if cue := f.cue(f.says(x).cue); !heard[cue] {
			heard[cue] = true
			s.Heard = append(s.Heard, Heard{Cue: cue, By: x.By, AtMS: f.moment(x).MS})
		}
	}
}

// cue is a cue's id by the names that its entries have here: a phone may have
// heard it under the name of a refused branch (law 2).
func (f *folded) cue(id string) string {
	parts := strings.Split(id, ":")
	for i, part := range parts {
		if n, err := journal.ParseName(part); err == nil {
			if x := f.find(n); x != nil {
				parts[i] = x.Name.String()
			}
		}
	}
	return strings.Join(parts, ":")
}
