package dossier

import (
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// fact is an entry with its body read.
type fact struct {
	journal.Entry
	body    body
	doubt   string // first thing wrong with it, empty for nothing
	unknown bool   // of a kind, body version or envelope version that this code does not know

	atMS       int64 // At as Unix ms, not corrected; the clock's when At is unreadable
	recordedMS int64 // when it was entered, by this device, not corrected
	order      journal.Time
	offset     int64 // ms to add to this device's times here
	again      bool  // a re-issue of an entry that is here already
}

// knownBV is the newest body version of each kind that this code reads, 0 for
// none.
func knownBV(kind string) int {
	switch kind {
	case "begin":
		return beginBV
	case "open", "set", "end", "reading", "note", "amend", "strike", "clock", "close", "reopen", "imported", "item",
		"plan", "dwell", "act", "abort", "reason", "decide", "dry", "takeover", "overnight", "heard", "photo", "reckoned":
		return 1
	}
	return 0
}

// beginBV is that of a begin; tests set it back to read as older code does.
var beginBV = 2

// BodyVersion is the body version that an entry of this kind and body must carry.
// A begin of anything but a pre-soak, wash or rinse has 2, so that code which
// only knows those three shows it as unknown instead of counting it as a bath.
func BodyVersion(kind string, body jsontext.Value) int {
	if kind != "begin" {
		return 1
	}
	v, _ := jsontext.Get(body, "what")
	switch what, _ := v.Text(); what {
	case "presoak", "wash", "rinse":
		return 1
	}
	return 2
}

func newFact(e journal.Entry) *fact {
	f := &fact{Entry: e}
	if ms, err := journal.ParseAt(e.At); err == nil {
		f.atMS = ms
	} else {
		f.atMS = e.T.WallMS()
		f.doubt = "its time cannot be read, so the time of recording stands in"
	}
	if bv := knownBV(e.Kind); bv == 0 || e.BV > bv || e.V > journal.Version {
		f.unknown = true
		f.recordedMS = f.recorded()
		return f
	}
	b, err := readBody(e.Kind, e.Body)
	if err != nil && f.doubt == "" {
		f.doubt = err.Error()
	}
	f.body = b
	f.recordedMS = f.recorded()
	return f
}

// recorded is when the entry was entered. A late one says itself how late
// (ago_s). The hybrid clock cannot tell by less than it may be pulled ahead by
// other devices; beyond that it can.
func (f *fact) recorded() int64 {
	if f.body.agoS > 0 && f.body.agoS < maxAgoMS/1000 {
		return f.atMS + f.body.agoS*1000
	}
	if t := f.T.WallMS(); t-f.atMS > journal.MaxLead+lateMS || f.atMS-t > leadMS {
		return t
	}
	return f.atMS
}
