package dossier

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
)

func itoa(i int64) string { return strconv.FormatInt(i, 10) }

// The wet clock runs from the first wetting since the object was last declared
// dry. Held against a slow reading of the same rule.
func TestLaw7TheWetClock(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(1, 1, 0)
		d := s.devs[0]
		type span struct{ from, to int64 }
		var wets []span
		var dries []int64
		for range rapid.IntRange(1, 8).Draw(t, "things") {
			s.now = morning + rapid.Int64Range(0, 60).Draw(t, "at")*1000
			if rapid.Bool().Draw(t, "dry") {
				s.write(d, "dry", `{"how":"touch"}`, 0, journal.Name{})
				dries = append(dries, s.now)
				continue
			}
			what := rapid.SampledFrom([]string{"wash", "gel", "drying"}).Draw(t, "what")
			b := s.write(d, "begin", `{"what":"`+what+`","liquid":"tap","litres":9,"target_s":300}`, 0, journal.Name{})
			w := span{s.now, morning + yearsMS}
			if rapid.IntRange(0, 4).Draw(t, "ends") > 0 {
				s.now += rapid.Int64Range(0, 20).Draw(t, "long") * 1000
				s.write(d, "end", `{"of":"`+b.Name.String()+`"}`, 0, journal.Name{})
				w.to = s.now
			}
			if what != "drying" {
				wets = append(wets, w)
			}
		}
		dry := int64(-1)
		for _, at := range dries {
			counts := true
			for _, w := range wets {
				counts = counts && !(w.from < at && at < w.to)
			}
			if counts {
				dry = max(dry, at)
			}
		}
		want := int64(-1)
		for _, w := range wets {
			if w.from >= dry && (want < 0 || w.from < want) {
				want = w.from
			}
		}
		st := foldOf(s.all()).State()
		got := int64(-1)
		if st.WetSinceMS != nil {
			got = *st.WetSinceMS
		}
		if got != want || (st.Dry != nil) != (dry >= 0 && want < 0) {
			t.Fatalf("wet since %d, want %d; dry %+v, last dry %d", got, want, st.Dry, dry)
		}
	})
}

func TestDryStruckGivesTheWetClockBack(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`)
	wet := s.now
	s.pass(300_000)
	write("end", `{"of":"`+b+`"}`)
	write("begin", `{"what":"drying","face":"up"}`)
	s.pass(7_200_000)
	n := write("dry", `{"how":"touch"}`)
	st := foldOf(s.all()).State()
	if st.WetSinceMS != nil || st.Dry == nil || st.Dry.Entry != n || st.Steps[1].EndEntry != n || *st.Steps[1].ClockMS != 7_200_000 || *st.FirstWetMS != wet || len(st.Doubts) != 0 {
		t.Fatalf("dry: %s", st.AppendJSON(nil))
	}
	k := write("strike", `{"of":"`+n+`","why":"the seam is damp"}`)
	st = foldOf(s.all()).State()
	if st.WetSinceMS == nil || *st.WetSinceMS != wet || st.Dry != nil || st.Steps[1].Ended != nil {
		t.Fatalf("dry struck: %s", st.AppendJSON(nil))
	}
	write("strike", `{"of":"`+k+`","why":"it is dry"}`)
	s.pass(1000)
	again := s.now
	write("begin", `{"what":"local","liquid":"tap","target_s":60}`)
	st = foldOf(s.all()).State()
	if st.WetSinceMS == nil || *st.WetSinceMS != again || st.Dry != nil || *st.FirstWetMS != wet || st.Steps[1].EndEntry != n {
		t.Fatalf("wetted again: %s", st.AppendJSON(nil))
	}
}

// Whoever forgot to end the rinse is told so, and an end entered late puts it right.
func TestDryCountsOnceTheForgottenBathIsEnded(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"rinse","liquid":"tap","litres":9,"target_s":300}`)
	s.pass(3_600_000)
	n := write("dry", `{"how":"weight"}`)
	st := foldOf(s.all()).State()
	if st.WetSinceMS == nil || st.Dry != nil || len(st.Doubts) != 1 || st.Doubts[0].Why != "declared dry while Rinse 1 wetted it" {
		t.Fatalf("with the rinse running: %s", st.AppendJSON(nil))
	}
	s.write(s.devs[0], "end", `{"of":"`+b+`"}`, 3_000_000, journal.Name{})
	st = foldOf(s.all()).State()
	if st.WetSinceMS != nil || st.Dry == nil || st.Dry.Entry != n || len(st.Doubts) != 0 {
		t.Fatalf("with the rinse ended: %s", st.AppendJSON(nil))
	}
}

// A drying that was ended, or was not begun yet, is not ended by a declaration.
func TestDryEndsTheDryingThatRuns(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	one := write("begin", `{"what":"drying"}`)
	s.pass(1000)
	end := write("end", `{"of":"`+one+`"}`)
	two := write("begin", `{"what":"drying"}`)
	s.pass(1000)
	dry := write("dry", `{"how":"touch"}`)
	s.pass(1000)
	write("end", `{"of":"`+two+`"}`)
	write("begin", `{"what":"drying"}`)
	st := foldOf(s.all()).State()
	if st.Steps[0].EndEntry != end || st.Steps[1].EndEntry != dry || *st.Steps[1].LimitMS != 1000 || st.Steps[2].Ended != nil || len(st.Doubts) != 0 {
		t.Errorf("steps %s", st.AppendJSON(nil))
	}
}

// Declared in the millisecond in which the drying was ended, the end stands.
func TestAnEndGoesBeforeADryAtItsTime(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"drying"}`)
	s.pass(1000)
	end := write("end", `{"of":"`+b+`"}`)
	write("dry", `{"how":"touch"}`)
	if st := foldOf(s.all()).State(); st.Steps[0].EndEntry != end || st.Dry == nil {
		t.Errorf("state %s", st.AppendJSON(nil))
	}
}

// A phone forty years behind that knows it declares the object dry at the right time.
func TestLaw7DryByASkewedClock(t *testing.T) {
	s := newStudio(1, 2, 0)
	s.devs[1].skew = -yearsMS
	b := s.writer(s.devs[0])("begin", `{"what":"rinse","liquid":"tap","litres":9,"target_s":300}`)
	s.pass(1000)
	s.writer(s.devs[0])("end", `{"of":"`+b+`"}`)
	s.pass(1000)
	slow := s.writer(s.devs[1])
	slow("dry", `{"how":"touch"}`)
	if st := foldOf(s.all()).State(); st.WetSinceMS == nil {
		t.Errorf("not corrected yet, and dry forty years before it was wet: %s", st.AppendJSON(nil))
	}
	slow("clock", `{"offset_ms":`+itoa(yearsMS)+`}`)
	if st := foldOf(s.all()).State(); st.WetSinceMS != nil || st.Dry == nil || st.Dry.At.MS != s.now || !st.Dry.At.Corrected {
		t.Errorf("corrected: %s", st.AppendJSON(nil))
	}
}

// In the same millisecond the wetting counts as the later, and the declaration
// for what was before it.
func TestDryInTheMillisecondOfABegin(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`)
	s.pass(1000)
	write("end", `{"of":"`+b+`"}`)
	write("dry", `{"how":"touch"}`)
	s.pass(1)
	write("begin", `{"what":"drying"}`)
	write("dry", `{"how":"touch"}`)
	write("begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`)
	st := foldOf(s.all()).State()
	if *st.WetSinceMS != s.now || st.Dry != nil || len(st.Doubts) != 0 || st.Steps[1].What != "drying" || *st.Steps[1].ClockMS != 0 {
		t.Errorf("state %s", st.AppendJSON(nil))
	}
}
