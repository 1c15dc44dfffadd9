package lift

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// B-02: the first row is the published example, printed 15.7 kg and 0.76 (a); the
// others (d), 0.5 %.
func TestTheEquation(t *testing.T) {
	rows := []struct {
		l              Lift
		m              Multipliers
		rwl, load, idx float64
	}{
		{Lift{25, 55, 95, 0, 0.88, 0.95}, Multipliers{1, 0.940, 0.867, 1}, 15.68, 12, 0.77},
		{Lift{40, 80, 30, 30, 0.94, 1}, Multipliers{0.625, 0.985, 0.970, 0.904}, 11.67, 9, 0.77},
		{Lift{50, 40, 60, 0, 0.85, 0.9}, Multipliers{0.5, 0.895, 0.895, 1}, 7.05, 15, 2.13},
	}
	for _, r := range rows {
		m := r.l.Multipliers()
		if math.Abs(m.H-r.m.H) > 0.001 || math.Abs(m.V-r.m.V) > 0.001 || math.Abs(m.D-r.m.D) > 0.001 || math.Abs(m.A-r.m.A) > 0.001 {
			t.Errorf("%+v: %+v, want %+v", r.l, m, r.m)
		}
		if got := r.l.Limit(); math.Abs(got-r.rwl) > 0.005*r.rwl {
			t.Errorf("%+v: %v kg, want %v", r.l, got, r.rwl)
		}
		if got := r.l.Index(r.load); math.Abs(got-r.idx) > 0.006 {
			t.Errorf("%+v: index %v, want %v", r.l, got, r.idx)
		}
	}
	// NIOSH 94-110, example 1, at the origin (b): 23, 15 and 48 inches, 44 lb: printed 16.3
	// lb and 2.7, in inches and with multipliers rounded to two places. The metric form,
	// whose constants are rounded too, comes 4 % lower.
	l := Lift{23 * 2.54, 15 * 2.54, 48 * 2.54, 0, 1, 0.95}
	if lb := l.Limit() / 0.45359237; math.Abs(lb-16.3) > 0.04*16.3 || math.Abs(l.Index(44*0.45359237)-2.7) > 0.04*2.7 {
		t.Errorf("%v lb, index %v", lb, l.Index(44*0.45359237))
	}
}

// The multipliers of the rows of B-02 are those of a lift a minute for up to two
// hours and for up to one, and of one in five minutes for up to eight; more often
// or for longer never allows more.
func TestFrequencies(t *testing.T) {
	if once, minute := Frequencies[0], Frequencies[2]; once.PerMinute != 0.2 || minute.PerMinute != 1 || minute.Multipliers[TwoHours] != 0.88 || minute.Multipliers[AnHour] != 0.94 || once.Multipliers[EightHours] != 0.85 {
		t.Errorf("%+v, %+v", once, minute)
	}
	for i, f := range Frequencies {
		for d, m := range f.Multipliers {
			if m < 0 || m > 1 || d > 0 && m > f.Multipliers[d-1] || i > 0 && m >= Frequencies[i-1].Multipliers[d] && m > 0 {
				t.Errorf("%v a minute: %v", f.PerMinute, f.Multipliers)
			}
		}
	}
}

// B-03: figures (b), reductions (a), cases (d).
func TestTheFilter(t *testing.T) {
	if got := Reduced(25, 6, 0); got != 12.5 {
		t.Errorf("25 kg six times a minute: %v", got)
	}
	if got := Reduced(20, 0.2, 60); math.Abs(got-18) > 1e-12 {
		t.Errorf("20 kg turned by 60°: %v", got)
	}
	if got := Filter(2, 4, false, false); got != 10 {
		t.Errorf("from elbow to floor, men: %v", got)
	}
	if got := Filter(4, 1, true, true); got != 3 {
		t.Errorf("from floor to shoulder, women, far: %v", got)
	}
	for i, z := range Zones {
		if z.Least >= z.Most || i > 0 && (z.Least >= Zones[i-1].Least || z.Most >= Zones[i-1].Most || z.Most <= Zones[i-1].Least) {
			t.Errorf("%+v does not lie below and beside the zone above it", z)
		}
		if z.MenFar >= z.MenClose || z.WomenFar >= z.WomenClose || z.WomenClose >= z.MenClose {
			t.Errorf("%+v", z)
		}
	}
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Lift{rapid.Float64Range(25, 63).Draw(t, "H"), rapid.Float64Range(0, 175).Draw(t, "V"), rapid.Float64Range(25, 175).Draw(t, "D"), rapid.Float64Range(0, 135).Draw(t, "A"), 0.8, 0.95}
		further, turned, longer := l, l, l
		further.H += 1
		turned.A += 1
		longer.D += 1
		if l.Limit() <= 0 || l.Limit() > Constant || further.Limit() >= l.Limit() || turned.Limit() >= l.Limit() || longer.Limit() >= l.Limit() {
			t.Fatalf("%+v: %v, further %v, turned %v, longer %v", l, l.Limit(), further.Limit(), turned.Limit(), longer.Limit())
		}
		a, b := rapid.IntRange(0, 4).Draw(t, "from"), rapid.IntRange(0, 4).Draw(t, "to")
		if Filter(a, b, false, false) > Filter(a, a, false, false) || Filter(a, b, true, true) > Filter(a, b, false, true) {
			t.Fatal("a longer way allows more, or women more than men")
		}
		rate := rapid.Float64Range(0, 20).Draw(t, "rate")
		if Reduced(20, rate+1, 0) > Reduced(20, rate, 0) {
			t.Fatal("more often allows more")
		}
	})
}
