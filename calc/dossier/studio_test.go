package dossier

import (
	"math/rand/v2"
	"strconv"
	"time"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// A studio of invented devices that write and sync at random. The chances come
// from one seeded source, so that rapid can shrink the seed and the golden files
// can be made again.

var job = journal.NewID(1_770_000_000_000, [10]byte{7})

// morning is when the invented days begin: 4 March 2026, 08:00 UTC.
var morning = time.Date(2026, 3, 4, 8, 0, 0, 0, time.UTC).UnixMilli()

type device struct {
	id    journal.ID
	skew  int64 // ms that its clock is ahead
	clock journal.Clock
	log   journal.Log
}

type studio struct {
	rng  *rand.Rand
	now  int64
	devs []*device
}

func newStudio(seed uint64, devices int, maxSkewMS int64) *studio {
	s := &studio{rng: rand.New(rand.NewPCG(seed, 1)), now: morning}
	for i := range devices {
		d := &device{id: journal.NewID(1_760_000_000_000, [10]byte{byte(i + 1)})}
		if maxSkewMS > 0 {
			d.skew = s.rng.Int64N(2*maxSkewMS) - maxSkewMS
		}
		s.devs = append(s.devs, d)
	}
	return s
}

func (s *studio) pass(ms int64) { s.now += ms }

func stamp(ms int64) string {
	return time.UnixMilli(ms).UTC().Format("2006-01-02T15:04:05.000Z07:00")
}

// write makes an entry on d, at an offset of agoMS before now.
func (s *studio) write(d *device, kind, body string, agoMS int64, was journal.Name) journal.Entry {
	at := s.now + d.skew
	if agoMS > 0 {
		body = body[:len(body)-1] + `,"ago_s":` + strconv.FormatInt(agoMS/1000+1, 10) + `}`
	}
	return d.take(journal.Draft{Job: job, At: stamp(at - agoMS), By: "RV", Kind: kind, BV: BodyVersion(kind, jsontext.Value(body)), Body: jsontext.Value(body), Was: was}, d.clock.Tick(at))
}

// writeAt makes an entry that happens now on d, whose clock reads t.
func (s *studio) writeAt(d *device, t journal.Time, kind, body string) journal.Entry {
	return d.take(journal.Draft{Job: job, At: stamp(s.now + d.skew), By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)}, t)
}

// take puts what was drafted at the end of d's chain.
func (d *device) take(draft journal.Draft, t journal.Time) journal.Entry {
	e, err := journal.Write(draft, d.id, d.log.Head(journal.Chain{Job: job, Dev: d.id}), t)
	if err != nil {
		panic(err)
	}
	if v := d.log.Add(e); v != journal.Stored {
		panic("own entry " + v.String())
	}
	return e
}

// sync gives d what o has and the other way round.
func (s *studio) sync(d, o *device) {
	d.log.Merge(&o.log)
	o.log.Merge(&d.log)
	for _, x := range []*device{d, o} {
		for _, e := range x.log.Job(job) {
			x.clock.Receive(e.T, s.now+x.skew)
		}
	}
}

// act writes one random entry on d, about what d has seen.
func (s *studio) act(d *device) journal.Entry {
	seen := d.log.Job(job)
	pick := func(kinds ...string) (journal.Entry, bool) {
		var fit []journal.Entry
		for _, e := range seen {
			for _, k := range kinds {
				if e.Kind == k || k == "" {
					fit = append(fit, e)
				}
			}
		}
		if len(fit) == 0 {
			return journal.Entry{}, false
		}
		return fit[s.rng.IntN(len(fit))], true
	}
	ago := int64(0)
	if s.rng.IntN(5) == 0 {
		ago = s.rng.Int64N(600_000)
	}
	num := strconv.Itoa(1 + s.rng.IntN(12))
	kind, body := "note", `{"text":"water clear, `+num+`"}`
	switch s.rng.IntN(15) {
	case 10, 11, 12, 13, 14:
		kind, body = s.day(num, pick)
	case 0:
		kind, body = "open", `{"name":"Harbour-office signal flag","number":"MH-`+num+`"}`
	case 1, 2:
		what := []string{"presoak", "wash", "rinse", "flowing", "gel", "local", "drying", "drying"}[s.rng.IntN(8)]
		kind, body = "begin", `{"what":"`+what+`","liquid":"deionised water","litres":`+num+`.5,"target_s":480,"mono":{"s":"a","ms":`+strconv.FormatInt(s.now-morning, 10)+`}}`
	case 3:
		if e, ok := pick("begin"); ok {
			kind, body = "end", `{"of":"`+e.Name.String()+`","mono":{"s":"a","ms":`+strconv.FormatInt(s.now-morning, 10)+`}}`
		}
	case 4, 5:
		kind, body = "reading", `{"q":"conductivity","value":`+num+`0.5,"unit":"uS/cm"}`
		if e, ok := pick("begin"); ok {
			body = body[:len(body)-1] + `,"of":"` + e.Name.String() + `"}`
		}
	case 6:
		over := ""
		if e, ok := pick("set", "open"); ok {
			over = `"` + e.Name.String() + `"`
		}
		kind, body = "set", `{"field":"name","value":"Flag `+num+`","over":[`+over+`]}`
	case 7:
		if e, ok := pick("begin", "note", "reading", "plan", "dwell", "act", "abort", "dry"); ok {
			over := e.Name.String()
			if a, ok := pick("amend"); ok {
				over = a.Name.String()
			}
			kind, body = "amend", `{"of":"`+e.Name.String()+`","over":["`+over+`"],"why":"misread","body":`+string(e.Body)+`}`
		}
	case 8:
		if e, ok := pick(""); ok {
			kind, body = "strike", `{"of":"`+e.Name.String()+`","why":"wrong tray"}`
		}
	case 9:
		kind, body = "clock", `{"offset_ms":`+strconv.FormatInt(-d.skew, 10)+`}`
	}
	return s.write(d, kind, body, ago, journal.Name{})
}

// live lets random things happen.
func (s *studio) live(acts int) {
	for range acts {
		s.pass(s.rng.Int64N(120_000))
		d := s.devs[s.rng.IntN(len(s.devs))]
		s.act(d)
		if s.rng.IntN(3) == 0 {
			s.sync(d, s.devs[s.rng.IntN(len(s.devs))])
		}
	}
}

// all merges every device's log.
func (s *studio) all() []journal.Entry {
	var l journal.Log
	for _, d := range s.devs {
		l.Merge(&d.log)
	}
	return l.Job(job)
}

const yearsMS = 40 * 365 * dayMS

func drawStudio(t *rapid.T) *studio {
	s := newStudio(rapid.Uint64().Draw(t, "seed"), rapid.IntRange(1, 4).Draw(t, "devices"), rapid.SampledFrom([]int64{0, 3000, 600_000, yearsMS}).Draw(t, "skew"))
	s.live(rapid.IntRange(1, 60).Draw(t, "acts"))
	return s
}

func foldOf(entries []journal.Entry) *Dossier {
	d := New(job)
	for _, e := range entries {
		d.Add(e)
	}
	return d
}

// bytesOf is the whole folded result: state and log.
func bytesOf(d *Dossier) string {
	return string(AppendLog(d.State().AppendJSON(nil), d.Log(0, d.Len())))
}
