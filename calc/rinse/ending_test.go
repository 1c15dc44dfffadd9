package rinse

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// sure are rules of a perfect meter and perfectly even rinses, with which only
// the equation speaks.
func sure(above float64) Rules { return Rules{Times: 1, Above: above, MeterLeast: 1e-9} }

func TestFittedDecay(t *testing.T) {
	rows := []struct {
		source string // R-04, all (d): the equation of the reference
		k      []float64
		water  float64
		ratio  float64 // tolerance 0.0005
		start  float64
	}{
		{"R-04-1", []float64{802, 202, 52, 14.5}, 2, 0.2500, 800},
		{"R-04-2", []float64{1200, 410, 150, 52}, 0, 0.3527, 1188.4},
	}
	for _, r := range rows {
		for name, rules := range map[string]Rules{"usual rules": UsualRules(), "sure": sure(5)} {
			e := Readings{K: r.k, Source: r.water, Rules: rules}.End()
			if !e.Fit || math.Abs(e.Ratio-r.ratio) > 0.0005 || math.Abs(e.Start-r.start) > 0.05 {
				t.Errorf("%s, %s: ratio %v, start %v, want %v, %v: %+v", r.source, name, e.Ratio, e.Start, r.ratio, r.start, e)
			}
		}
	}
	// R-04-1: the first whole i with κ ≤ 5 is 5, two rinses after i = 3.
	if e := (Readings{K: []float64{802, 202, 52, 14.5}, Source: 2, Rules: sure(3)}).End(); e.Refusal != Foretold || e.MoreLow != 2 || e.MoreHigh != 2 {
		t.Errorf("R-04-1: %d to %d rinses more (%v), want 2", e.MoreLow, e.MoreHigh, e.Refusal)
	}
	// Its real crossing lies at 4.029: 1.029 rinses after the last.
	e := Readings{K: []float64{802, 202, 52, 14.5}, Source: 2, Rules: sure(3)}.End()
	if mid, _ := e.line.at(4.029); math.Abs(math.Exp(mid)-3) > 0.01 {
		t.Errorf("R-04-1: at 4.029 the excess is %v, want 3", math.Exp(mid))
	}
}

func TestWhatIsForetold(t *testing.T) {
	usual := UsualRules()
	rows := []struct {
		name      string
		k         []float64
		water     float64
		refusal   Refusal
		low, high int
		reached   bool
		settled   bool
	}{
		{"R-04-3 (d): no decay", []float64{500, 500, 500}, 0, Flat, 0, 0, false, false},
		{"R-04-1 with usual rules: one more brings it to 5 µS/cm", []float64{802, 202, 52, 14.5}, 2, Foretold, 1, 1, false, false},
		{"two readings", []float64{802, 202}, 2, Foretold, 3, 4, false, false},
		{"scattered, three readings", []float64{1200, 500, 150}, 0, Foretold, 2, 10, false, false},
		{"one reading", []float64{802}, 2, Few, 0, 0, false, false},
		{"slow", []float64{500, 460, 425}, 0, NoDecay, 0, 0, false, false},
		{"slow, and it takes too long", []float64{5000, 4300, 3700, 3200, 2750}, 0, TooSlow, 0, 0, false, false},
		{"slow, within reach", []float64{1000, 800, 640, 505}, 0, Foretold, 17, 26, false, false},
		{"slower, past what is reckoned with", []float64{9000, 7900, 6950, 6120}, 0, TooSlow, 0, 0, false, false},
		{"rising", []float64{300, 100, 160}, 2, Rose, 0, 0, false, false},
		{"levelled off far above the source", []float64{900, 300, 150, 148}, 20, Flat, 0, 0, false, false},
		{"all over the place", []float64{300, 900, 100, 700, 60}, 2, Scattered, 0, 0, false, false},
		{"near the source for the first time", []float64{300, 80, 30}, 20, Foretold, 0, 1, true, false},
		{"near the source twice", []float64{300, 38, 30}, 20, Foretold, 0, 0, true, true},
		{"at the source and below", []float64{21, 19.5}, 20, Foretold, 0, 0, true, true},
		{"below the source by more than the meter may be off", []float64{21, 18.5}, 20, Under, 0, 0, true, true},
		{"twice a tap water is not near it", []float64{900, 700}, 500, Foretold, 3, 5, false, false},
		{"one reading, at the source", []float64{20}, 20, Foretold, 0, 1, true, false},
		{"one clear of the source, then within the meter's error of it", []float64{300, 20.5}, 20, Foretold, 0, 1, true, false},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			e := Readings{K: r.k, Source: r.water, Rules: usual}.End()
			if e.Refusal != r.refusal || e.MoreLow != r.low || e.MoreHigh != r.high || e.Reached != r.reached || e.Settled != r.settled {
				t.Errorf("refusal %v, %d to %d, reached %v, settled %v; want %v, %d to %d, %v, %v; ratio %v width %v", e.Refusal, e.MoreLow, e.MoreHigh, e.Reached, e.Settled,
					r.refusal, r.low, r.high, r.reached, r.settled, e.Ratio, e.line.width)
			}
		})
	}
}

func TestChangeSinceTheRinseBefore(t *testing.T) {
	e := Readings{K: []float64{802, 202}, Source: 2, Rules: UsualRules()}.End()
	if !e.Moved || math.Abs(e.Change+0.75) > 1e-12 { // R-04-1 (d)
		t.Errorf("Change = %v, %v, want -0.75", e.Change, e.Moved)
	}
	if e := (Readings{K: []float64{2.5, 2.4}, Source: 2, Rules: UsualRules()}).End(); e.Moved {
		t.Errorf("a change of %v of what the meter cannot see", e.Change)
	}
}

// A decay that slows down is not drawn out on its early pace alone.
func TestATailMakesTheWorseEndLater(t *testing.T) {
	k := []float64{1000, 200, 100, 70}
	e := Readings{K: k, Source: 0, Rules: UsualRules()}.End()
	// At the last pace, 0.7 a rinse: ln(5/70)/ln(0.7) = 7.40, so 8.
	if !e.Tails || e.Refusal != Foretold || e.MoreHigh < 8 {
		t.Errorf("tails %v, %v, up to %d rinses, want 8 at least", e.Tails, e.Refusal, e.MoreHigh)
	}
}

// R-01 (a formula): with complete mixing each rinse leaves kept ÷ (kept + fresh),
// so readings after unequal rinses lie on the line once volumes are allowed for,
// and off it otherwise.
func TestUnequalVolumesAreAllowedFor(t *testing.T) {
	const kept, source, start = 1.0, 3.0, 900.0
	fresh := []unit.Volume{9, 4, 14, 6, 9}
	var k []float64
	over := start
	for _, v := range fresh {
		over *= float64(Left(kept, v))
		k = append(k, source+over)
	}
	rules := Rules{Times: 1, Above: 0.001, MeterLeast: 1e-9}
	e := Readings{K: k, Source: source, Fresh: fresh, Kept: kept, Rules: rules}.End()
	if math.Abs(e.Ratio-0.1) > 1e-9 || math.Abs(e.Mixing-0.1) > 1e-12 { // 1 ÷ (1 + 9), of the last rinse
		t.Errorf("ratio %v, by mixing alone %v, want 0.1", e.Ratio, e.Mixing)
	}
	without := Readings{K: k, Source: source, Fresh: fresh, Rules: rules}.End()
	if math.Abs(without.Ratio-0.1) < 0.001 || without.Mixing != 0 {
		t.Errorf("without the liquid kept the ratio is %v and mixing %v: it cannot know", without.Ratio, without.Mixing)
	}
}

// The density of Student's t, integrated by Simpson's rule, is what the quantiles
// are held against.
func TestStudentHoldsNineOfTen(t *testing.T) {
	for f := 1; f <= 60; f++ {
		v := float64(f)
		a, _ := math.Lgamma((v + 1) / 2)
		b, _ := math.Lgamma(v / 2)
		density := func(x float64) float64 {
			return math.Exp(a-b-(v+1)/2*math.Log(1+x*x/v)) / math.Sqrt(v*math.Pi)
		}
		const steps = 4000
		h := 2 * student(f) / steps
		sum := density(-student(f)) + density(student(f))
		for i := 1; i < steps; i++ {
			sum += density(-student(f)+float64(i)*h) * float64(2+2*(i%2))
		}
		if got := sum * h / 3; math.Abs(got-0.9) > 0.0002 {
			t.Errorf("with %d degrees of freedom ±%v holds %v, want 0.9", f, student(f), got)
		}
	}
}

func geometric(t *rapid.T) (Readings, float64, float64) {
	source := rapid.Float64Range(0, 600).Draw(t, "source")
	over := rapid.Float64Range(200, 5000).Draw(t, "excess")
	ratio := rapid.Float64Range(0.02, 0.85).Draw(t, "ratio")
	r := Readings{Source: source, Rules: sure(0.5)}
	for x := over; x > 0.6 && len(r.K) < rapid.IntRange(2, 12).Draw(t, "rinses"); x *= ratio {
		r.K = append(r.K, source+x)
	}
	return r, over, ratio
}

func TestTheFitRecoversAnExactDecay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, over, ratio := geometric(t)
		e := r.End()
		if len(r.K) < 2 {
			return
		}
		if !e.Fit || math.Abs(e.Ratio/ratio-1) > 1e-6 || math.Abs(e.Start/over-1) > 1e-6 {
			t.Fatalf("fit %v, ratio %v of %v, start %v of %v", e.Refusal, e.Ratio, ratio, e.Start, over)
		}
		// The true number of rinses more lies in the range.
		left, more := e.Excess, 0
		for ; left > 0.5*(1+1e-9); more++ {
			left *= e.Ratio
		}
		if e.Refusal == Foretold && !e.Reached && (e.MoreLow > more || e.MoreHigh < more) {
			t.Fatalf("%d to %d rinses more, and it takes %d", e.MoreLow, e.MoreHigh, more)
		}
	})
}

func anyReadings(t *rapid.T) Readings {
	r := Readings{
		K:      rapid.SliceOfN(rapid.Float64Range(0, 200000), 1, 50).Draw(t, "readings"),
		Source: rapid.Float64Range(0, 200000).Draw(t, "source"),
		Rules: Rules{Times: rapid.Float64Range(1, 20).Draw(t, "times"), Above: rapid.Float64Range(0.5, 1000).Draw(t, "above"),
			Flat: unit.Fraction(rapid.Float64Range(0, 0.5).Draw(t, "flat")), Scatter: unit.Fraction(rapid.Float64Range(0.01, 1).Draw(t, "scatter")),
			Meter: unit.Fraction(rapid.Float64Range(0, 0.2).Draw(t, "meter")), MeterLeast: rapid.Float64Range(0.01, 100).Draw(t, "least")},
	}
	if rapid.Bool().Draw(t, "volumes") {
		r.Kept = draw(t, "kept", 0.001, 500)
		for range r.K {
			r.Fresh = append(r.Fresh, draw(t, "fresh", 0.01, 5000))
		}
	}
	return r
}

func TestNoReadingsMakeItUnsound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyReadings(t)
		e := r.End()
		for _, x := range []float64{e.Near, e.Excess, e.Ratio, e.Start, e.Mixing, e.Change} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%+v", e)
			}
		}
		if e.MoreLow > e.MoreHigh || e.MoreHigh > Most || e.Refusal != Foretold && e.MoreHigh != 0 {
			t.Fatalf("%d to %d rinses more, refusal %v", e.MoreLow, e.MoreHigh, e.Refusal)
		}
		if e.Refusal == Foretold && !e.Reached && (e.MoreLow < 1 || !e.Fit || e.Ratio > SlowestRatio) {
			t.Fatalf("foretold from %+v", e)
		}
		for _, b := range e.Curve(8) {
			if !(b.Low <= b.K25 && b.K25 <= b.High) || math.IsInf(b.High, 0) || math.IsNaN(b.Low) || b.Low < r.Source {
				t.Fatalf("%+v", b)
			}
		}
	})
}

// Whatever stands still, rises or hardly falls never has an end foretold.
func TestWhatDoesNotDecayIsNeverForetold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source := rapid.Float64Range(0, 100).Draw(t, "source")
		x := rapid.Float64Range(300, 5000).Draw(t, "excess")
		ratio := rapid.Float64Range(0.93, 1.5).Draw(t, "ratio")
		r := Readings{Source: source, Rules: UsualRules()}
		for range rapid.IntRange(1, 6).Draw(t, "rinses") {
			r.K = append(r.K, source+x)
			x *= ratio
		}
		if e := r.End(); e.Refusal == Foretold || e.Reached {
			t.Fatalf("%d to %d rinses more", e.MoreLow, e.MoreHigh)
		}
	})
}

// More water in the next rinses, here as a purer fit, never takes more rinses:
// a steeper decay to the same reading needs no more of them.
func TestASteeperDecayNeverTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		last := rapid.Float64Range(20, 200).Draw(t, "last excess")
		slow := rapid.Float64Range(0.3, 0.8).Draw(t, "ratio")
		fast := rapid.Float64Range(0.05, slow).Draw(t, "steeper ratio")
		at := func(ratio float64) Ending {
			return Readings{K: []float64{2 + last/ratio/ratio, 2 + last/ratio, 2 + last}, Source: 2, Rules: sure(5)}.End()
		}
		if s, f := at(slow), at(fast); s.Refusal == Foretold && (f.Refusal != Foretold || f.MoreHigh > s.MoreHigh) {
			t.Fatalf("ratio %v: %d, ratio %v: %d (%v)", slow, s.MoreHigh, fast, f.MoreHigh, f.Refusal)
		}
	})
}
