package dossier

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

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

// The steady counter is a lower bound where it can be one, and otherwise none.
func TestLaw7TheSteadyCounter(t *testing.T) {
	const bath = 300_000
	cases := []struct {
		name, begin, end string
		other            bool // another device ends it
		agoMS            int64
		want             int64 // -1: the counter says nothing
	}{
		{"longer than the clock", `{"s":"p","ms":1000}`, `{"s":"p","ms":401000}`, false, 0, 400_000},
		{"it stopped for a while", `{"s":"p","ms":1000}`, `{"s":"p","ms":2000}`, false, 0, 1000},
		{"the phone was started anew", `{"s":"p","ms":1000}`, `{"s":"q","ms":401000}`, false, 0, -1},
		{"two phones", `{"s":"p","ms":1000}`, `{"s":"p","ms":401000}`, true, 0, -1},
		{"it ran backwards", `{"s":"p","ms":401000}`, `{"s":"p","ms":1000}`, false, 0, -1},
		{"the end was entered late", `{"s":"p","ms":1000}`, `{"s":"p","ms":401000}`, false, 60_000, -1},
	}
	for _, c := range cases {
		s := newStudio(1, 2, 0)
		by := s.devs[0]
		b := s.write(by, "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300,"mono":`+c.begin+`}`, 0, journal.Name{})
		if c.other {
			by = s.devs[1]
		}
		s.pass(bath + c.agoMS)
		s.write(by, "end", `{"of":"`+b.Name.String()+`","mono":`+c.end+`}`, c.agoMS, journal.Name{})
		st := foldOf(s.all()).State()
		step := st.Steps[0]
		if c.want < 0 && step.MonoMS != nil || c.want >= 0 && (step.MonoMS == nil || *step.MonoMS != c.want) {
			t.Errorf("%s: counter %v, want %d", c.name, step.MonoMS, c.want)
		}
		if limit := max(bath, c.want); *step.ClockMS != bath || *step.LimitMS != limit || st.ImmersedMS != limit {
			t.Errorf("%s: clock %d limit %d immersed %d, want %d %d %d", c.name, *step.ClockMS, *step.LimitMS, st.ImmersedMS, bath, limit, limit)
		}
	}
}

// A clock entry that was struck or cannot be read corrects nothing, and leaves the
// one before it standing.
func TestLaw7OnlyStandingClockEntriesCorrect(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	write := func(kind, body string) journal.Entry { return s.write(d, kind, body, 0, journal.Name{}) }
	write("clock", `{"offset_ms":-192000}`)
	wrong := write("clock", `{"offset_ms":5000}`)
	write("strike", `{"of":"`+wrong.Name.String()+`","why":"read off the wrong machine"}`)
	write("clock", `{"offset_ms":"late"}`)
	write("open", `{"name":"Child's quilted bonnet"}`)
	st := foldOf(s.all()).State()
	if st.Opened.MS != s.now-192_000 || !st.Opened.Corrected || len(st.Clocks) != 1 || st.Clocks[0].OffsetMS != -192_000 {
		t.Errorf("opened %+v, clocks %+v, want the first offset alone to count", st.Opened, st.Clocks)
	}
}

// An entry that does not say itself how late it was made shows it by its clock,
// when that is later than other devices could have pulled it.
func TestLaw7AnOldTimeIsRecordedByTheClock(t *testing.T) {
	for _, c := range []struct {
		agoMS int64
		late  bool
	}{{0, false}, {journal.MaxLead, false}, {journal.MaxLead + lateMS + 1, true}, {dayMS, true}} {
		s := newStudio(1, 1, 0)
		d := s.devs[0]
		d.take(journal.Draft{Job: job, At: stamp(s.now - c.agoMS), By: "RV", Kind: "note", BV: 1, Body: jsontext.Value(`{"text":"x"}`)}, journal.At(s.now))
		if l := foldOf(s.all()).Log(0, 1)[0]; l.Late != c.late {
			t.Errorf("%d ms old: late = %v, recorded %d, want %v", c.agoMS, l.Late, l.At.RecordedMS, c.late)
		}
	}
}
