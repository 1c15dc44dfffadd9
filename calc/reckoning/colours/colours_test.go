package colours

import (
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

var verdict = reckoningtest.Verdict

func pair(prefix1 string, x [3]float64, prefix2 string, y [3]float64) form {
	f := form{}
	for i, axis := range []string{"_l", "_a", "_b"} {
		f[prefix1+axis], f[prefix2+axis] = x[i], y[i]
	}
	return f
}

// Pair 1 of Sharma, Wu and Dalal, table 1 (a), and the case G-03-3 (d).
func TestADifferenceAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Difference(), pair("before", [3]float64{50, 2.6772, -79.7751}, "after", [3]float64{50, 0, -82.7485}))
	if v := reckoningtest.Value(t, r, "de00"); v.Value < 2.0424 || v.Value > 2.0426 || v.Shown != "2.04" {
		t.Errorf("%+v", v)
	}
	f := pair("before", [3]float64{40, -5, -40}, "after", [3]float64{44, -4, -34})
	r = reckoningtest.Run(t, Difference(), f.With(form{"error": 0.5}))
	if say := verdict(t, r, "means"); say != "After it is lighter, duller, by more than the instrument's error." {
		t.Error(say)
	}
	if say := verdict(t, reckoningtest.Run(t, Difference(), f.With(form{"error": 8})), "means"); !strings.HasPrefix(say, "Within the instrument's error of 8") {
		t.Error(say)
	}
	if say := verdict(t, reckoningtest.Run(t, Difference(), f), "means"); !strings.Contains(say, "give the error") {
		t.Error(say)
	}
	if x := reckoningtest.Value(t, reckoningtest.Run(t, Difference(), f.With(form{"weights": "textiles"})), "de00").Value; x >= 4.3445 {
		t.Errorf("lightness by half: %v, of 4.3445", x)
	}
}

func TestGradesAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Change(), pair("before", [3]float64{55, 45, 10}, "after", [3]float64{58, 38, 9}))
	if say := verdict(t, r, "grade"); !strings.HasPrefix(say, "2-3 ") {
		t.Error(say)
	}
	if say := verdict(t, r, "step"); !strings.HasPrefix(say, "2, ") { // ΔE*ab 7.68 lies nearer to 6.8 than to 9.6
		t.Error(say)
	}
	f := pair("before", [3]float64{55, 45, 10}, "after", [3]float64{58, 38, 9}).With(form{"error": 1})
	if say := verdict(t, reckoningtest.Run(t, Change(), f), "grade"); say != "2-3, within the instrument's error 2 to 3 (ISO 105-A05; its half-steps from memory)" { // ΔEF 5.09: 4.09 is 3, 6.09 is 2
		t.Error(say)
	}
	r = reckoningtest.Run(t, Stain(), pair("clean", [3]float64{94, -1, 2}, "stained", [3]float64{91, 0, 4}))
	if say := verdict(t, r, "grade"); !strings.HasPrefix(say, "4-5 ") {
		t.Error(say)
	}
	same := reckoningtest.Run(t, Stain(), pair("clean", [3]float64{94, -1, 2}, "stained", [3]float64{94, -1, 2}))
	if say := verdict(t, same, "grade"); !strings.HasPrefix(say, "5 ") {
		t.Error(say)
	}
}

// #336699 of C-02 (d).
func TestConvertingAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Convert(), form{"hex": "#336699"})
	if v := reckoningtest.Value(t, r, "b_d50"); v.Value < -33.52 || v.Value > -33.47 {
		t.Errorf("%+v", v)
	}
	if say := verdict(t, r, "screen"); say != "#336699" {
		t.Error(say)
	}
	back := reckoningtest.Run(t, Convert(), form{"known": "lab", "white": "d50", "is_l": 41.521, "is_a": -4.573, "is_b": -33.494})
	if say := verdict(t, back, "screen"); say != "#336699" {
		t.Error(say)
	}
	out := reckoningtest.Run(t, Convert(), form{"known": "lab", "is_l": 60, "is_a": 120, "is_b": -120})
	if say := verdict(t, out, "screen"); !strings.HasPrefix(say, "sRGB cannot show this colour") {
		t.Error(say)
	}
	if p := reckoningtest.Refused(t, Convert(), form{"hex": "blue"}, "hex"); !strings.Contains(p.Say, "six hexadecimal digits") {
		t.Errorf("%+v", p)
	}
}

func TestRepeatedReadings(t *testing.T) {
	row := func(l, a, b float64) form { return form{"l": l, "a": a, "b": b} }
	before := []form{row(50, 10, 5), row(50.2, 10.1, 5), row(49.8, 9.9, 5)}
	near := []form{row(50.1, 10, 5), row(50.3, 10.1, 5.1), row(49.9, 9.9, 4.9)}
	far := []form{row(55, 10, 5), row(55.2, 10.1, 5), row(54.8, 9.9, 5)}
	if say := verdict(t, reckoningtest.Run(t, Repeated(), form{"before": before, "after": near}), "means"); !strings.HasPrefix(say, "Within the instrument's error") {
		t.Error(say)
	}
	if say := verdict(t, reckoningtest.Run(t, Repeated(), form{"before": before, "after": far}), "means"); !strings.HasPrefix(say, "The change is more") {
		t.Error(say)
	}
	if say := verdict(t, reckoningtest.Run(t, Repeated(), form{"before": before[:1], "after": far}), "means"); !strings.Contains(say, "cannot be told") {
		t.Error(say)
	}
	one := reckoningtest.Run(t, Repeated(), form{"before": before[:1]})
	if len(one.Unknown) != 1 || one.Unknown[0].Name != "reach" {
		t.Errorf("of one reading: %+v", one.Unknown)
	}
}

// Coordinates that another white would make darker than black name the lightness
// from which they are a colour, and it is one from there.
func TestCoordinatesOfNoColour(t *testing.T) {
	for _, r := range []struct {
		form  form
		field string
	}{
		{form{"known": "xyz", "X": 0, "Y": 0, "Z": 1.2}, "Y"},
		{form{"known": "xyz", "white": "d50", "X": 1.2, "Y": 0, "Z": 0}, "Y"},
		{form{"known": "lab", "is_l": 0, "is_a": 150, "is_b": -150}, "is_l"},
		{form{"known": "lab", "white": "d50", "is_l": 0, "is_a": 150, "is_b": 150}, "is_l"},
	} {
		p := reckoningtest.Refused(t, Convert(), r.form, r.field)
		least, _, _ := strings.Cut(p.Allowed, " to ")
		if !strings.Contains(p.Say, "darker than black") || least == "0" {
			t.Errorf("%+v", p)
		}
		reckoningtest.Run(t, Convert(), r.form.With(form{r.field: least}))
	}
}

// What is from memory says so in the verdict or the step that it is taken in, and in
// its source.
func TestWhatIsFromMemorySaysSo(t *testing.T) {
	change := reckoningtest.Run(t, Change(), pair("before", [3]float64{55, 45, 10}, "after", [3]float64{58, 38, 9}))
	stain := reckoningtest.Run(t, Stain(), pair("clean", [3]float64{94, -1, 2}, "stained", [3]float64{91, 0, 4}))
	for _, say := range []string{verdict(t, change, "grade"), verdict(t, stain, "grade"), verdict(t, stain, "step")} {
		if !strings.Contains(say, "from memory") {
			t.Error(say)
		}
	}
	steps := 0
	for _, w := range append(change.Working, stain.Working...) {
		for _, s := range append(change.Sources, stain.Sources...) {
			if s.Name == w.Source && (s.Name == halfSteps.Name || s.Name == a04.Name && strings.HasPrefix(w.Say, "The grade")) {
				if steps++; s.Mark != reckoning.Memory || !strings.Contains(w.Say, "from memory") {
					t.Errorf("%q rests on %+v", w.Say, s)
				}
			}
		}
	}
	if steps != 2 || a03.Mark != reckoning.Memory {
		t.Errorf("%d steps from memory, want 2", steps)
	}
}

// An error of the instrument gives the distance its range.
func TestADifferenceHasTheInstrumentsError(t *testing.T) {
	f := pair("before", [3]float64{50, 10, 5}, "after", [3]float64{53, 10, 9})
	f["error"] = 0.5
	for _, r := range []struct {
		of   *reckoning.Reckoning
		form form
	}{{Difference(), f}, {Change(), f}} {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, r.of, r.form), "de76"); v.Low == nil || *v.Low != 4.5 || v.Value != 5 || *v.High != 5.5 {
			t.Errorf("%s: %+v", r.of.Name, v)
		}
	}
	f["after_l"], f["after_b"] = 50.3, 5
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Difference(), f), "de76"); v.Low == nil || *v.Low != 0 {
		t.Errorf("%+v", v)
	}
}

// A single reading shows no error of its own, and readings all alike none at all.
func TestSetsThatShowNoSpread(t *testing.T) {
	row := func(l, a, b float64) form { return form{"l": l, "a": a, "b": b} }
	two := []form{row(50, 10, 5), row(50.2, 10, 5)}
	alike := []form{row(50, 10, 5), row(50, 10, 5)}
	r := reckoningtest.Run(t, Repeated(), form{"before": two, "after": []form{row(55, 10, 5)}})
	if v := reckoningtest.Value(t, r, "de76"); v.Low != nil {
		t.Errorf("a single reading gives a range: %+v", v)
	}
	r = reckoningtest.Run(t, Repeated(), form{"before": alike, "after": []form{row(50.1, 10, 5), row(50.1, 10, 5)}})
	if say := verdict(t, r, "means"); !strings.Contains(say, "show no spread to hold the change against") {
		t.Error(say)
	}
	r = reckoningtest.Run(t, Repeated(), form{"before": alike, "after": alike})
	if say := verdict(t, r, "means"); say != "The same to the figures given." {
		t.Error(say)
	}
}

// The working of both weighted differences can be followed with the numbers in it.
// (d): ΔL* 3, ΔC* 0 between greys: ΔE94 3 ÷ 1, and 3 ÷ 2 for textiles.
func TestTheWorkingOfDifferences(t *testing.T) {
	f := pair("before", [3]float64{50, 0, 0}, "after", [3]float64{53, 0, 0})
	put := func(f form) string {
		said := ""
		for _, w := range reckoningtest.Run(t, Difference(), f).Working {
			said += w.Put + "\n"
		}
		return said
	}
	if said := put(f); !strings.Contains(said, "√((3 ÷ 1)² + (0 ÷ (1 + 0.045 × 0))² + (0 ÷ (1 + 0.015 × 0))²) = 3") {
		t.Error(said)
	}
	if said := put(f.With(form{"weights": "textiles"})); !strings.Contains(said, "√((3 ÷ 2)² + (0 ÷ (1 + 0.048 × 0))² + (0 ÷ (1 + 0.014 × 0))²) = 1.5") || !strings.Contains(said, "√((3 ÷ (2 × ") {
		t.Error(said)
	}
}
