package water

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

func unitNamed(t interface{ Fatal(...any) }, symbol string) unit.Unit {
	u, ok := unit.Named(symbol)
	if !ok {
		t.Fatal("no unit " + symbol)
	}
	return u
}

var scales = []string{"mg/L CaCO3", "mmol/L CaCO3", "°dH", "°fH", "°e", "gpg"}

// W-05 (d): the exact factors, tolerance 0.2 %; two printed figures of a scale
// are rounded to 0.01.
func TestHardnessScales(t *testing.T) {
	rows := [][]float64{
		{50, 0.500, 2.80, 5.00, 3.51, 2.92},
		{100, 0.999, 5.60, 10.00, 7.02, 5.84},
		{200, 1.998, 11.21, 20.00, 14.03, 11.68},
		{350, 3.497, 19.61, 35.00, 24.55, 20.45},
	}
	for _, row := range rows {
		for i, want := range row {
			if got := unitNamed(t, scales[i]).Of(row[0]); math.Abs(got-want) > 0.002*want {
				t.Errorf("W-05: %v mg/L = %v %s, want %v", row[0], got, scales[i], want)
			}
		}
	}
	for symbol, want := range map[string]float64{"°dH": 17.848, "°e": 14.28, "gpg": 17.1} { // W-05 (a) printed factors, 1 %
		if got := unitNamed(t, symbol).Base(1); math.Abs(got-want) > 0.01*want {
			t.Errorf("W-05: 1 %s = %v mg/L, want %v", symbol, got, want)
		}
	}
}

// Z-03: a page swaps 1 °dH with 10 mg/L and 1 gpg with 17.848; another multiplies
// by 17.1 to go from mg/L to gpg.
func TestTrapZ03TheSwappedScales(t *testing.T) {
	if got := unitNamed(t, "°dH").Base(1); math.Abs(got-10) < 1 {
		t.Errorf("Z-03: 1 °dH = %v mg/L", got)
	}
	if dh, gpg := unitNamed(t, "°dH").Base(1), unitNamed(t, "gpg").Base(1); math.Abs(dh-17.848) > 0.001 || math.Abs(gpg-17.118) > 0.001 {
		t.Errorf("Z-03: 1 °dH = %v, 1 gpg = %v mg/L, want 17.848 and 17.118", dh, gpg)
	}
	if got := unitNamed(t, "gpg").Of(171.18); math.Abs(got-10) > 0.001 {
		t.Errorf("Z-03: 171.18 mg/L = %v gpg, want 10: it is divided, not multiplied", got)
	}
}

func TestHardnessFromIons(t *testing.T) {
	mg := func(x float64, m unit.MolarMass) unit.Molarity {
		return (unit.Concentration(x) * unit.MilligramPerLitre).Molarity(m)
	}
	rows := []struct {
		source          string
		ca, mg          float64
		want, tolerance float64
	}{
		{"W-05 (d) factor of calcium", 1, 0, 2.4973, 0.0001},
		{"W-05 (d) factor of magnesium", 0, 1, 4.1179, 0.0001},
		{"W-05 (a) printed factor of magnesium 4.115", 0, 100, 411.5, 0.5},
		{"W-05 (a) ukaps.org, a water company: 131.6 mg Ca/L is 329 mg/L", 131.6, 0, 329, 0.5},
	}
	for _, r := range rows {
		if got := float64(FromIons(mg(r.ca, CalciumMass), mg(r.mg, MagnesiumMass))); math.Abs(got-r.want) > r.tolerance {
			t.Errorf("%s: %v, want %v", r.source, got, r.want)
		}
	}
	// The same published water in German degrees: 18.4.
	if got := unitNamed(t, "°dH").Of(float64(FromIons(mg(131.6, CalciumMass), 0))); math.Abs(got-18.4) > 0.1 {
		t.Errorf("W-05 (a): 131.6 mg Ca/L = %v °dH, want 18.4", got)
	}
}

func TestHardnessWords(t *testing.T) {
	rows := []struct {
		h                   Hardness
		survey, association string
	}{ // (a) table at h2odistributors.com
		{0, "soft", "soft"}, {17, "soft", "soft"}, {18, "soft", "slightly hard"}, {59, "soft", "slightly hard"}, {60, "moderately hard", "moderately hard"},
		{119.9, "moderately hard", "moderately hard"}, {150, "hard", "hard"}, {180, "very hard", "very hard"}, {500, "very hard", "very hard"},
	}
	for _, r := range rows {
		if s, a := r.h.Word(Survey), r.h.Word(Association); s != r.survey || a != r.association {
			t.Errorf("%v mg/L is %q and %q, want %q and %q", r.h, s, a, r.survey, r.association)
		}
	}
}

func TestHardnessThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.001, 5000).Draw(t, "hardness")
		at := x
		from := unitNamed(t, "mg/L CaCO3")
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(scales)-1), 1, 8).Draw(t, "ways") {
			to := unitNamed(t, scales[i])
			at, from = to.Of(from.Base(at)), to
		}
		if got := from.Base(at); math.Abs(got-x) > 1e-13*x {
			t.Fatalf("%v mg/L became %v", x, got)
		}
	})
}

func TestChelator(t *testing.T) {
	// (d): 100.086 mg/L is 1 mmol/L; 10 L of it hold 10 mmol.
	if got := Chelator(100.086, 10, 1).Mass(DisodiumEDTA).Grams(); math.Abs(got-3.72238) > 1e-9 {
		t.Errorf("10 L at 1 mmol/L take %v g of disodium EDTA, want 3.722", got)
	}
	if got := Chelator(200.172, 5, 1.5).Mass(TrisodiumCitrate).Grams(); math.Abs(got-4.41147) > 1e-9 {
		t.Errorf("5 L at 2 mmol/L, half more, take %v g of citrate, want 4.411", got)
	}
}

func TestMixing(t *testing.T) {
	rows := []struct {
		source    string
		got, want float64
		tolerance float64
	}{
		{"W-07-1 (a) univerkov.com", Mixed(50, 20, 100, 80).Celsius(), 60.0, 1e-9},
		{"W-07-2 (a) sarthaks.com 1800992", HotNeeded(8, 20, 4, 40).Celsius(), 80.0, 1e-9},
		{"W-07-3 (d)", 60 * HotShare(9, 58, 30), 25.71, 0.005},
		{"W-07-4 (d)", Mixed(12, 45, 18, 14).Celsius(), 26.40, 1e-9},
	}
	for _, r := range rows {
		if math.Abs(r.got-r.want) > r.tolerance {
			t.Errorf("%s: %v, want %v", r.source, r.got, r.want)
		}
	}
}

func TestMixedWaterLiesBetweenTheTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := unit.Temperature(rapid.Float64Range(0, 60).Draw(t, "cold"))
		hot := cold + unit.Temperature(rapid.Float64Range(0.01, 40).Draw(t, "warmer by"))
		v1, v2 := unit.Volume(rapid.Float64Range(0.01, 500).Draw(t, "litres")), unit.Volume(rapid.Float64Range(0.01, 500).Draw(t, "hot litres"))
		got := Mixed(v1, cold, v2, hot)
		if got < cold-1e-9 || got > hot+1e-9 {
			t.Fatalf("%v at %v and %v at %v come to %v", v1, cold, v2, hot, got)
		}
		if share := HotShare(cold, hot, got); math.Abs(share-float64(v2/(v1+v2))) > 1e-9 {
			t.Fatalf("share %v of %v and %v", share, v1, v2)
		}
		if needed := HotNeeded(v1, cold, v2, got); math.Abs(float64(needed-hot)) > 1e-6*(1+float64(v1/v2)) {
			t.Fatalf("needed %v, was %v", needed, hot)
		}
	})
}

func TestGrades(t *testing.T) {
	rows := []struct {
		source    string
		k         Conductivity
		iso, astm string // the purest that is reached
		others    int    // ASTM types reached
	}{
		{"W-04 (a) ASTM type I", 0.056, "grade 1", "type I", 4},
		{"W-04 (a) ISO grade 1", 0.1, "grade 1", "type III", 3},
		{"W-04 (a) ASTM type III", 0.25, "grade 2", "type III", 3},
		{"W-04 (a) ASTM type II and ISO grade 2", 1.0, "grade 2", "type II", 2},
		{"W-04 (a) ISO grade 3, ASTM type IV", 5.0, "grade 3", "type IV", 1},
		{"above all", 5.01, "", "", 0},
	}
	for _, r := range rows {
		iso, astm := Reached(ISO, r.k), Reached(ASTM, r.k)
		first := func(g []Grade) string {
			if len(g) == 0 {
				return ""
			}
			return g[0].Name
		}
		if first(iso) != r.iso || first(astm) != r.astm || len(astm) != r.others {
			t.Errorf("%s: %v is %v and %v", r.source, r.k, iso, astm)
		}
	}
	for k, want := range map[Conductivity]float64{0.056: 17.86, 0.25: 4.00, 5.0: 0.200, 1.0: 1.0} { // W-04 (d)
		if got := float64(k.Resistivity()); math.Abs(got-want) > 0.005 {
			t.Errorf("W-04: %v µS/cm = %v MΩ·cm, want %v", k, got, want)
		}
		if back := k.Resistivity().Conductivity(); math.Abs(float64(back/k)-1) > 1e-14 {
			t.Errorf("%v came back as %v", k, back)
		}
	}
	// W-01 (a) CRC p. 5-73: water with the carbon dioxide of the air at 25 °C is no
	// longer grade 2.
	if InAir != 1.10 || ISO[1].Meets(InAir) || !ISO[2].Meets(InAir) {
		t.Error("W-01: water in air is reckoned otherwise")
	}
	// W-04: pH of grade 3 is 5.0 to 7.0 in one reprint (a), 5.0 to 7.5 in another (a); type IV 5.0 to 8.0 (a).
	if g := ISO[2]; !g.MeetsPH(5) || !g.MeetsPH(7.5) || g.MeetsPH(7.6) || g.MeetsPH(4.9) || !ISO[0].MeetsPH(2) || !ASTM[3].MeetsPH(8) || ASTM[3].MeetsPH(8.1) {
		t.Error("W-04: the ranges of pH are others")
	}
}
