package unit

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func some(symbols ...string) []Unit {
	var out []Unit
	for _, s := range symbols {
		u, ok := Named(s)
		if !ok {
			panic(s)
		}
		out = append(out, u)
	}
	return out
}

func TestReadsWhatATapeShows(t *testing.T) {
	lengths, masses := some("cm", "mm", "m", "in", "ft"), some("g", "kg", "oz", "lb")
	rows := []struct {
		text    string
		allowed []Unit
		chosen  string
		want    float64
		in      string
	}{
		{"12 3/8 in", lengths, "cm", 12.375, "in"},
		{"12-3/8\"", lengths, "cm", 12.375, "in"},
		{"12 3⁄8", lengths, "in", 12.375, "in"},
		{"12⅜ in", lengths, "cm", 12.375, "in"},
		{"12 ½", lengths, "in", 12.5, "in"},
		{"5/8 in", lengths, "cm", 0.625, "in"},
		{"¾″", lengths, "cm", 0.75, "in"},
		{"0 1/64 in", lengths, "cm", 1. / 64, "in"},
		{"12' 3\"", lengths, "cm", 147, "in"},
		{"12'3\"", lengths, "cm", 147, "in"},
		{"12′ 3½″", lengths, "cm", 147.5, "in"},
		{"5 ft 6 1/4 in", lengths, "cm", 66.25, "in"},
		{"5ft 6,5 in", lengths, "cm", 66.5, "in"},
		{"2 1/2 ft", lengths, "cm", 2.5, "ft"},
		{"3 lb 4 oz", masses, "g", 52, "oz"},
		{"1 1/2 lb", masses, "g", 1.5, "lb"},
		{"1/2 US gal", some("L", "US gal", "imp gal"), "L", 0.5, "US gal"},
	}
	for _, r := range rows {
		t.Run(r.text, func(t *testing.T) {
			chosen, _ := Named(r.chosen)
			if x, u, err := Read(r.text, r.allowed, chosen); err != nil || x != r.want || u.Symbol != r.in {
				t.Errorf("= %v %s, %v, want %v %s", x, u.Symbol, err, r.want, r.in)
			}
		})
	}
}

func TestRefusesFractionsThatNobodyMeasuresIn(t *testing.T) {
	lengths := some("cm", "mm", "m", "in", "ft")
	for text, say := range map[string]string{
		"12 1/2":        "is a fraction, and those are read in inches, pounds and gallons only. Write 12.5.",
		"1/2 cm":        "Write 0.5.",
		"3 1/2 furlong": "ends in “furlong”",
		"3/2 in":        "no unit known here",
		"1/100 in":      "no unit known here",
		"5' 14\"":       "no unit known here",
		"5 m 3 cm":      "no unit known here",
		"5 ft 3 cm":     "no unit known here",
		"5 ft 3":        "no unit known here",
		"5 in 1 ft":     "no unit known here",
		"-1/2 in":       "no unit known here",
		"1/ in":         "no unit known here",
		"123456 1/2 in": "groups",
	} {
		if x, u, err := Read(text, lengths, lengths[0]); err == nil || !strings.Contains(err.Error(), say) {
			t.Errorf("Read(%q) = %v %s, %v, want %q", text, x, u.Symbol, err, say)
		}
	}
}

// Feet and inches, whole and in sixteenths, are as many inches as they are.
func TestATapeReadsAsManyInches(t *testing.T) {
	lengths := some("mm", "in", "ft")
	rapid.Check(t, func(t *rapid.T) {
		feet, inches, sixteenths := rapid.IntRange(1, 300).Draw(t, "feet"), rapid.IntRange(0, 11).Draw(t, "inches"), rapid.IntRange(1, 15).Draw(t, "sixteenths")
		whole := func(n int) string { return Text(float64(n), 9) }
		text := whole(feet) + rapid.SampledFrom([]string{"'", " ft ", "′ ", " feet "}).Draw(t, "foot") +
			whole(inches) + rapid.SampledFrom([]string{" ", "-"}).Draw(t, "gap") + whole(sixteenths) + "/16" +
			rapid.SampledFrom([]string{"\"", " in", "″"}).Draw(t, "inch")
		want := float64(feet*12+inches) + float64(sixteenths)/16
		if x, u, err := Read(text, lengths, lengths[0]); err != nil || x != want || u.Symbol != "in" {
			t.Fatalf("Read(%q) = %v %s, %v, want %v in", text, x, u.Symbol, err, want)
		}
	})
}
