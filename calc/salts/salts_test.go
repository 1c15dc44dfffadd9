package salts

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// H-03, the table after Greenspan (a) and the values of the CRC form (a).
func TestPublishedHumidities(t *testing.T) {
	crc := map[string][2]float64{"LiCl·H2O": {11.25, 11.30}, "MgCl2·6H2O": {32.86, 32.79}, "Mg(NO3)2·6H2O": {53.54, 52.87}, "NaBr·2H2O": {58.59, 57.57}, "NaCl": {75.36, 75.25},
		"(NH4)2SO4": {81.25, 80.89}, "KCl": {84.94, 84.17}, "KNO3": {93.11, 91.92}, "K2SO4": {97.42, 97.23}}
	seen := 0
	for _, s := range All {
		for i, at := range []float64{5, 20, 25} {
			if got, err := s.Greenspan(at); err == nil && math.Abs(got-s.At[i]) > 1e-9 {
				t.Errorf("%s at %v °C: %v, want %v", s.Name, at, got, s.At[i])
			}
		}
		for i, at := range []float64{20, 25} {
			want, ok := crc[s.Formula]
			got, err := s.Wexler(at)
			if ok != (err == nil) || ok && math.Abs(got-want[i]) > 0.006 {
				t.Errorf("%s at %v °C: %v (%v), want %v", s.Name, at, got, err, want)
			}
			if ok {
				seen++
			}
			// The two forms agree within what each is good for.
			if g, err := s.Greenspan(at); err == nil && ok && math.Abs(g-got) > 0.5+0.02*g {
				t.Errorf("%s at %v °C: %v and %v", s.Name, at, g, got)
			}
		}
	}
	if seen != 2*len(crc) {
		t.Errorf("%d figures were compared", seen)
	}
	if _, err := All[0].Greenspan(30); err == nil {
		t.Error("a figure above 25 °C")
	}
}

func TestAround(t *testing.T) {
	for want, names := range map[float64][2]string{50: {"potassium carbonate", "magnesium nitrate"}, 65: {"sodium bromide", "sodium chloride"}} {
		below, above := Around(want, 20)
		if All[below].Name != names[0] || All[above].Name != names[1] {
			t.Errorf("%v %%: %s and %s", want, All[below].Name, All[above].Name)
		}
	}
	if below, _ := Around(5, 20); below != -1 {
		t.Errorf("below 5 %%: %v", below)
	}
	if _, above := Around(99, 20); above != -1 {
		t.Errorf("above 99 %%: %v", above)
	}
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want, at := rapid.Float64Range(0, 100).Draw(t, "want"), rapid.Float64Range(Lowest, Highest).Draw(t, "at")
		below, above := Around(want, at)
		if below >= 0 && All[below].Humidity(at) > want || above >= 0 && All[above].Humidity(at) < want {
			t.Fatalf("%v %% lies not between %v and %v", want, below, above)
		}
		start, near := rapid.Float64Range(0, 100).Draw(t, "start"), rapid.Float64Range(0.1, 10).Draw(t, "near")
		exchange := rapid.Float64Range(0.01, 20).Draw(t, "exchange")
		h := Hours(start, want, near, exchange)
		if left := math.Abs(want-start) * math.Exp(-h*exchange); left > near*(1+1e-9) {
			t.Fatalf("after %v h it is off by %v", h, left)
		}
		if Hours(start, want, near/2, exchange) < h {
			t.Fatal("closer takes less time")
		}
	})
}
