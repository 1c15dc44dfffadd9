package summary

import "sinkside/sync/journal"

const dayMS = 24 * 60 * 60 * 1000

// span is a run of days since 1970 (UTC); the zero span is empty.
type span struct {
	From int64 `json:"from"`
	To   int64 `json:"to"`
}

// take includes when an entry happened and when it was recorded, by its own device's clock.
func (s *span) take(e *journal.Entry) {
	s.include(e.T.WallMS())
	if at, err := journal.ParseAt(e.At); err == nil {
		s.include(at)
	}
}

func (s *span) include(unixMS int64) {
	day := unixMS / dayMS
	if *s == (span{}) {
		*s = span{day, day}
	}
	s.From, s.To = min(s.From, day), max(s.To, day)
}
