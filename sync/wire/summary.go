package wire

import "sinkside/sync/journal"

// MaxSummary is the largest text of a summary in bytes.
const MaxSummary = 4 << 10

// Summaries brings one line about each treatment that changed, oldest change
// first: what every device carries of treatments whose log it does not hold.
type Summaries struct {
	// Generation is the state that the device is in once it has kept the items.
	Generation Generation
	// Reset: forget all summaries kept before, then keep these.
	Reset bool
	Items []Summary
}

// Summary is one line about a treatment.
type Summary struct {
	Job     journal.ID
	Open    bool   // its whole log goes to every device
	Removed bool   // it was a sample and is gone
	Text    []byte // JSON, made by the studio machine; empty when Removed
}

const (
	summariesReset = 1
	summaryOpen    = 1
	summaryRemoved = 2
)

// Type returns TypeSummaries.
func (f *Summaries) Type() Type { return TypeSummaries }

func (f *Summaries) append(b []byte) []byte {
	b = appendGeneration(b, f.Generation)
	b = appendFlags(b, f.Reset)
	b = appendUint(b, uint64(len(f.Items)))
	for i := range f.Items {
		s := &f.Items[i]
		b = append(b, s.Job[:]...)
		b = appendFlags(b, s.Open, s.Removed)
		b = append(appendUint(b, uint64(len(s.Text))), s.Text...)
	}
	return b
}

func (f *Summaries) read(r *reader) {
	f.Generation = r.generation()
	f.Reset = r.flags(summariesReset) != 0
	for range r.count(0, maxItems, 18) {
		s := Summary{Job: r.id()}
		flags := r.flags(summaryOpen | summaryRemoved)
		s.Open, s.Removed = flags&summaryOpen != 0, flags&summaryRemoved != 0
		s.Text = r.text(0, MaxSummary)
		if s.Removed && (s.Open || len(s.Text) > 0) {
			r.fail(ErrValue, "a removed treatment is neither open nor described")
		}
		f.Items = append(f.Items, s)
	}
}
