package gel

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula.

func check(t *testing.T, source string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v ± %v", source, got, want, tolerance)
	}
}

func TestRecipeArithmetic(t *testing.T) {
	check(t, "J-03 recipe arithmetic (d): 500 mL at 3 % w/v, g", Make(0.5, 3*unit.PercentByVolume, 0).Agent.Grams(), 15.0, 0.075)
	v := Volume(Sheet(400, 300), 6)
	check(t, "J-03 recipe arithmetic (d): 30 × 40 cm, 6 mm thick, mL", v.Millilitres(), 720, 3.6)
	b := Make(v, 2*unit.PercentByVolume, CalciumAcetate)
	check(t, "the same at 2 % w/v (d), g", b.Agent.Grams(), 14.4, 0.072)
	check(t, "the same, calcium acetate at 0.4 g/L (d), g", b.Additive.Grams(), 0.288, 0.00144)
	check(t, "a tenth to spare (d), mL", WithSpare(v, 0.10).Millilitres(), 792, 1e-9)
}

func TestPublishedStrengths(t *testing.T) {
	rows := []struct {
		source string
		agent  string
		c      unit.Concentration
		inside int // how many of the ranges read hold it
	}{
		{"J-01 (a) a laboratory's usual agarose", Agarose, 10, 1},
		{"J-01 (a) cast for a tapestry", Agarose, 34, 2},
		{"J-02 (a) agar 0.5 to 5 %, and J-01 (a) 3 and 5 %", Agar, 30, 2},
		{"J-02 (a) below what was read", Agar, 4, 0},
		{"J-03 (a) gellan 2 to 4 %", LowGellan, 20, 1},
		{"J-03 (a) more than was read", LowGellan, 41, 0},
		{"nothing was read", CelluloseEt, 30, 0},
		{"nothing was read", OtherAgent, 30, 0},
	}
	for _, r := range rows {
		n := 0
		for _, p := range RangesOf(r.agent) {
			if p.Holds(r.c) {
				n++
			}
		}
		if n != r.inside {
			t.Errorf("%s: %v g/L lies in %d ranges, want %d", r.source, r.c, n, r.inside)
		}
	}
	for _, p := range Ranges {
		if p.Low > p.High || p.Low <= 0 || p.Where == "" || p.Purpose == "" {
			t.Errorf("%+v", p)
		}
	}
}

func TestTwiceTheSheetTakesTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := unit.Length(rapid.Float64Range(10, 3000).Draw(t, "length"))
		w := unit.Length(rapid.Float64Range(10, 3000).Draw(t, "width"))
		d := unit.Length(rapid.Float64Range(0.5, 50).Draw(t, "thick"))
		c := unit.Concentration(rapid.Float64Range(1, 200).Draw(t, "g/L"))
		spare := unit.Fraction(rapid.Float64Range(0, 1).Draw(t, "spare"))
		one := Make(WithSpare(Volume(Sheet(l, w), d), spare), c, CalciumAcetate)
		for _, two := range []Batch{
			Make(WithSpare(Volume(Sheet(2*l, w), d), spare), c, CalciumAcetate),
			Make(WithSpare(Volume(Sheet(l, 2*w), d), spare), c, CalciumAcetate),
			Make(WithSpare(Volume(Sheet(l, w), 2*d), spare), c, CalciumAcetate),
		} {
			if math.Abs(float64(two.Agent/one.Agent)-2) > 1e-12 || math.Abs(float64(two.Volume/one.Volume)-2) > 1e-12 || math.Abs(float64(two.Additive/one.Additive)-2) > 1e-12 {
				t.Fatalf("%+v, twice %+v", one, two)
			}
		}
		if one.Volume < Volume(Sheet(l, w), d) {
			t.Fatal("spare takes away")
		}
	})
}
