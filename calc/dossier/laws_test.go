package dossier

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// The laws of the log, one test each, as numbered in package journal.

func shuffled(t *rapid.T, es []journal.Entry, label string) []journal.Entry {
	out := slices.Clone(es)
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, label), 2))
	r.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

func TestLaw1Union(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		whole := s.all()
		want := bytesOf(foldOf(whole))
		merge := func(order ...*device) *journal.Log {
			var l journal.Log
			for _, d := range order {
				l.Merge(&d.log)
			}
			return &l
		}
		n := len(s.devs)
		i := rapid.IntRange(0, n-1).Draw(t, "i")
		a, b := s.devs[:i], s.devs[i:]
		one, two := merge(append(slices.Clone(b), a...)...), merge(s.devs...)
		if got := bytesOf(foldOf(one.Job(job))); got != want {
			t.Fatal("merging in another order folds to other bytes")
		}
		one.Merge(merge(a...))
		one.Merge(two)
		if journal.Digest(one.Heads()) != journal.Digest(two.Heads()) {
			t.Fatal("merging again changed the set")
		}
		twice := append(shuffled(t, whole, "order"), shuffled(t, whole, "again")...)
		if got := bytesOf(foldOf(twice)); got != want {
			t.Fatal("duplicates and another order fold to other bytes")
		}
	})
}

// A profile is copied; both copies go on; the second to sync is refused, claims
// a successor id and re-issues.
func TestLaw2Chains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(rapid.Uint64().Draw(t, "seed"), 2, rapid.SampledFrom([]int64{0, yearsMS}).Draw(t, "skew"))
		s.live(rapid.IntRange(1, 20).Draw(t, "before"))
		orig := s.devs[0]
		base := orig.log.Head(journal.Chain{Job: job, Dev: orig.id})
		twin := &device{id: orig.id, skew: orig.skew, clock: orig.clock}
		twin.log.Merge(&orig.log)
		for range rapid.IntRange(1, 6).Draw(t, "original goes on") {
			s.pass(1000)
			s.act(orig)
		}
		var refused []journal.Entry
		for range rapid.IntRange(1, 8).Draw(t, "twin goes on") {
			s.pass(1500)
			refused = append(refused, s.act(twin))
		}
		var hub journal.Log
		hub.Merge(&orig.log)
		hub.Merge(&s.devs[1].log)
		if v := hub.Add(refused[0]); v != journal.Fork {
			t.Fatalf("the twin's first entry is %v, want a fork", v)
		}
		head := hub.Head(journal.Chain{Job: job, Dev: orig.id})
		// Healing: the successor writes each refused entry again, with its old name.
		heir := &device{id: journal.NewID(1_765_000_000_000, [10]byte{99}), skew: twin.skew, clock: twin.clock}
		for _, e := range refused {
			hub.Add(e)
			n, err := journal.Write(journal.Draft{Job: job, At: e.At, By: e.By, Kind: e.Kind, BV: e.BV, Body: e.Body, Was: e.Name},
				heir.id, heir.log.Head(journal.Chain{Job: job, Dev: heir.id}), heir.clock.Tick(s.now))
			if err != nil {
				t.Fatal(err)
			}
			heir.log.Add(n)
			if v := hub.Add(n); v != journal.Stored {
				t.Fatalf("a re-issued entry is %v", v)
			}
		}
		if hub.Head(journal.Chain{Job: job, Dev: orig.id}) != head || head.N <= base.N {
			t.Fatal("the fork changed the chain")
		}
		for _, h := range hub.Heads() {
			for i, e := range hub.Since(h.Chain, 1) {
				if e.N != uint64(i)+1 {
					t.Fatalf("chain %v has %d at place %d", h.Chain, e.N, i+1)
				}
			}
		}
		aside := map[journal.Name]bool{}
		for _, e := range hub.Aside() {
			aside[e.Name] = true
		}
		d := foldOf(hub.Job(job))
		log := d.Log(0, d.Len())
		for _, e := range refused {
			at := slices.IndexFunc(log, func(l LogLine) bool { return l.Was == e.Name.String() })
			if at < 0 || string(log[at].Body) != string(e.Body) {
				t.Fatalf("refused entry %s is not in the log again", e.Kind)
			}
			if e.N == refused[0].N && !aside[e.Name] {
				t.Fatal("the refused branch was not kept aside")
			}
			if strings.Contains(log[at].Doubt, "has not arrived") {
				t.Fatalf("a reference does not resolve: %s (%s)", log[at].Doubt, e.Body)
			}
		}
		// Unsure of what arrived, the heir re-issues once more: nothing is doubled.
		again := s.write(heir, refused[0].Kind, string(refused[0].Body), 0, refused[0].Name)
		before := *d.State()
		d.Add(again)
		after := d.State()
		if after.Readings != before.Readings || after.Notes != before.Notes || len(after.Steps) != len(before.Steps) {
			t.Fatal("a second re-issue was counted")
		}
	})
}

func TestLaw3Replacement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(rapid.Uint64().Draw(t, "seed"), 3, rapid.SampledFrom([]int64{0, yearsMS}).Draw(t, "skew"))
		first := s.write(s.devs[0], "set", `{"field":"fibre","value":"wool"}`, 0, journal.Name{})
		s.sync(s.devs[0], s.devs[1])
		s.sync(s.devs[1], s.devs[2])
		over := `,"over":["` + first.Name.String() + `"]}`
		k := rapid.IntRange(2, 3).Draw(t, "how many at once")
		var names []string
		for i := range k {
			s.pass(500)
			e := s.write(s.devs[i], "set", `{"field":"fibre","value":"wool, `+strconv.Itoa(i)+`"`+over, 0, journal.Name{})
			names = append(names, `"`+e.Name.String()+`"`)
		}
		es := shuffled(t, s.all(), "order")
		if got := foldOf(es).State().Fields["fibre"]; len(got) != k {
			t.Fatalf("%d values to choose from, want %d: %v", len(got), k, got)
		}
		for i := range s.devs {
			s.sync(s.devs[0], s.devs[i])
		}
		s.write(s.devs[0], "set", `{"field":"fibre","value":"wool bunting","over":[`+strings.Join(names, ",")+`]}`, 0, journal.Name{})
		got := foldOf(shuffled(t, s.all(), "order after")).State().Fields["fibre"]
		if len(got) != 1 || got[0].Value != "wool bunting" {
			t.Fatalf("after choosing: %v", got)
		}
	})
}

func TestLaw4TheUnknown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		d := s.devs[0]
		before := foldOf(s.all()).State()
		e, err := journal.Write(journal.Draft{Job: job, At: stamp(s.now + d.skew), By: "OT", Kind: rapid.SampledFrom([]string{"infrared", "begin", "set"}).Draw(t, "kind"), BV: 9,
			Body: jsontext.Value(`{"of":{"deep":[1,2,{"x":null}]},"field":"name","value":"other"}`)}, d.id, d.log.Head(journal.Chain{Job: job, Dev: d.id}), d.clock.Tick(s.now+d.skew))
		if err != nil {
			t.Fatal(err)
		}
		d.log.Add(e)
		x := foldOf(s.all())
		after := x.State()
		if after.Unknown != before.Unknown+1 || after.Entries != before.Entries+1 {
			t.Fatalf("unknown %d, entries %d", after.Unknown, after.Entries)
		}
		i := slices.IndexFunc(x.Log(0, x.Len()), func(l LogLine) bool { return l.Entry == e.Name.String() })
		if i < 0 || string(x.Log(i, 1)[0].Body) != string(e.Body) {
			t.Fatal("the log does not show the unknown entry as it is")
		}
		same := *after
		same.Unknown, same.Entries, same.LastMS = before.Unknown, before.Entries, before.LastMS
		if string(same.AppendJSON(nil)) != string(before.AppendJSON(nil)) {
			t.Fatal("an unknown entry changed what is known")
		}
	})
}

func TestLaw5Arrival(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		es := s.all()
		want := bytesOf(foldOf(es))
		d := New(job)
		for i, e := range shuffled(t, es, "order") {
			d.Add(e)
			if i == rapid.IntRange(0, len(es)).Draw(t, "looked at in between") {
				d.State() // a fold in mid-arrival must not stick
			}
		}
		if bytesOf(d) != want {
			t.Fatal("another order of arrival folds to other bytes")
		}
		// The reference decides, not the clock: a strike from a device whose clock
		// is years behind still strikes.
		slow := &device{id: journal.NewID(1_766_000_000_000, [10]byte{5}), skew: -yearsMS}
		target := es[rapid.IntRange(0, len(es)-1).Draw(t, "target")]
		strike := s.write(slow, "strike", `{"of":"`+target.Name.String()+`","why":"wrong object"}`, 0, journal.Name{})
		x := foldOf(append(es, strike))
		for _, l := range x.Log(0, x.Len()) {
			if l.Entry == target.Name.String() && l.Struck == nil {
				t.Fatal("a strike with an older clock than its target does not strike")
			}
		}
	})
}

func TestLaw6Validity(t *testing.T) {
	odd := rapid.SampledFrom([]string{`{}`, `{"of":7}`, `{"of":"x"}`, `{"over":[1]}`, `{"q":"ph","value":15}`, `{"q":"ph","value":"acid"}`, `{"what":3,"litres":"many"}`,
		`{"litres":-1e300,"target_s":1.5,"what":"rinse"}`, `{"mono":[],"what":"wash"}`, `{"body":[],"of":""}`, `{"offset_ms":9223372036854775807}`, `{"field":"name","value":null}`, `{"offset_ms":"late"}`})
	kinds := rapid.SampledFrom([]string{"open", "set", "begin", "end", "reading", "note", "amend", "strike", "clock", "close", "reopen", "imported", "item"})
	dates := rapid.SampledFrom([]string{"", "yesterday", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "2026-02-30T10:00:00Z", stamp(morning)})
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		d := s.devs[0]
		for range rapid.IntRange(1, 8).Draw(t, "odd ones") {
			e, err := journal.Write(journal.Draft{Job: job, At: dates.Draw(t, "at"), By: rapid.String().Draw(t, "by"), Kind: kinds.Draw(t, "kind"), BV: 1, Body: jsontext.Value(odd.Draw(t, "body"))},
				d.id, d.log.Head(journal.Chain{Job: job, Dev: d.id}), journal.Time(rapid.Uint64().Draw(t, "t")))
			if err != nil {
				t.Fatal(err)
			}
			if v := d.log.Add(e); v != journal.Stored {
				t.Fatalf("a well-framed entry is %v", v)
			}
			s.act(d)
		}
		es := s.all()
		x := foldOf(es)
		if err := jsontext.Valid([]byte("[" + strings.Replace(bytesOf(x), "}[", "},[", 1) + "]")); err != nil {
			t.Fatalf("folded to broken JSON: %v", err)
		}
		if got := len(x.Log(0, x.Len())); got != len(es) {
			t.Fatalf("the log shows %d of %d entries", got, len(es))
		}
		if bytesOf(foldOf(shuffled(t, es, "order"))) != bytesOf(x) {
			t.Fatal("odd entries fold by order of arrival")
		}
	})
}

// A whole day on a phone whose clock is wrong, connected only in the evening.
func TestLaw7ClocksLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(1, 2, 0)
		phone, studio := s.devs[0], s.devs[1]
		phone.skew = rapid.Int64Range(-yearsMS, yearsMS).Draw(t, "skew")
		sleeps := rapid.Int64Range(0, 600_000).Draw(t, "counter stops for")
		soak := rapid.Int64Range(600_000, 3_600_000).Draw(t, "soak")
		mono := func() string { return `,"mono":{"s":"p","ms":` + strconv.FormatInt(s.now-morning, 10) + `}` }
		began := s.now
		b := s.write(phone, "begin", `{"what":"presoak","liquid":"deionised water","litres":9,"target_s":600`+mono()+`}`, 0, journal.Name{})
		s.pass(soak)
		s.write(phone, "end", `{"of":"`+b.Name.String()+`","mono":{"s":"p","ms":`+strconv.FormatInt(max(s.now-morning-sleeps, 0), 10)+`}}`, 0, journal.Name{})
		s.write(phone, "clock", `{"offset_ms":`+strconv.FormatInt(-phone.skew, 10)+`}`, 0, journal.Name{})
		s.sync(phone, studio)
		next := s.write(studio, "note", `{"text":"water clear"}`, 0, journal.Name{})
		if lead := next.T.WallMS() - s.now; lead > journal.MaxLead {
			t.Fatalf("the phone moved the studio machine's clock %d ms ahead", lead)
		}
		x := foldOf(s.all())
		st := x.State().Steps[0]
		if st.Begun.MS != began || st.Ended.MS != began+soak {
			t.Fatalf("begun %d ended %d, want %d and %d", st.Begun.MS, st.Ended.MS, began, began+soak)
		}
		if (phone.skew != 0) != st.Begun.Corrected {
			t.Fatalf("corrected = %v with a clock %d ms off", st.Begun.Corrected, phone.skew)
		}
		if *st.ClockMS != soak || *st.MonoMS > soak || *st.LimitMS != soak {
			t.Fatalf("clock %d counter %d limit %d, want %d by clock", *st.ClockMS, *st.MonoMS, *st.LimitMS, soak)
		}
		// The clock was set back while the bath ran: the counter is longer and counts.
		set := rapid.Int64Range(1, soak).Draw(t, "clock set back by")
		phone.skew -= set
		b2 := s.write(phone, "begin", `{"what":"rinse","liquid":"deionised water","litres":9,"target_s":600`+mono()+`}`, 0, journal.Name{})
		s.pass(soak)
		phone.skew -= set
		e2 := s.write(phone, "end", `{"of":"`+b2.Name.String()+`"`+mono()+`}`, 0, journal.Name{})
		st = foldOf(append(x.entries(), b2, e2)).State().Steps[1]
		if *st.ClockMS != soak-set || *st.MonoMS != soak || *st.LimitMS != soak {
			t.Fatalf("clock %d counter %d limit %d, want %d %d %d", *st.ClockMS, *st.MonoMS, *st.LimitMS, soak-set, soak, soak)
		}
	})
}

func (d *Dossier) entries() []journal.Entry {
	var out []journal.Entry
	for _, f := range d.facts {
		out = append(out, f.Entry)
	}
	return out
}

// Immersion is the union of the bath intervals: held against counting seconds.
func TestLaw7ImmersionIsAUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(1, 1, 0)
		d := s.devs[0]
		var wet [200]bool
		running := -1
		for range rapid.IntRange(1, 8).Draw(t, "baths") {
			from := rapid.IntRange(0, 150).Draw(t, "from")
			long := rapid.IntRange(0, 40).Draw(t, "seconds")
			s.now = morning + int64(from)*1000
			b := s.write(d, "begin", `{"what":"rinse","liquid":"deionised water","litres":9,"target_s":60}`, 0, journal.Name{})
			if rapid.IntRange(0, 5).Draw(t, "goes on") == 0 {
				if running < 0 || from < running {
					running = from
				}
				continue
			}
			s.now += int64(long) * 1000
			s.write(d, "end", `{"of":"`+b.Name.String()+`"}`, 0, journal.Name{})
			for i := from; i < from+long; i++ {
				wet[i] = true
			}
		}
		want := int64(0)
		for i, w := range wet {
			if w && (running < 0 || i < running) {
				want += 1000
			}
		}
		st := foldOf(s.all()).State()
		if st.ImmersedMS != want {
			t.Fatalf("immersed %d ms, want %d", st.ImmersedMS, want)
		}
		if (running >= 0) != (st.RunningSinceMS != nil) || running >= 0 && *st.RunningSinceMS != morning+int64(running)*1000 {
			t.Fatalf("running since %v, want second %d", st.RunningSinceMS, running)
		}
	})
}
