package instruments

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning/reckoningtest"
)

// A meter that reads off by up to so much gives a slope, an offset and corrected
// readings within the ranges that are shown.
func TestReadingsThatAreOffStayWithinTheRanges(t *testing.T) {
	type form = reckoningtest.Form
	buffers := []string{"t4", "t7", "t10"}
	rapid.Check(t, func(t *rapid.T) {
		off := rapid.Float64Range(0.1, 5).Draw(t, "off, mV")
		n := rapid.IntRange(2, 3).Draw(t, "buffers")
		shift := func(what string) float64 { return off * rapid.Float64Range(-1, 1).Draw(t, what) }
		var read, truly []form
		for i, mv := range []float64{171, -3, -174}[:n] {
			read = append(read, form{"buffer": buffers[i], "reading": mv})
			truly = append(truly, form{"buffer": buffers[i], "reading": mv + shift(buffers[i])})
		}
		sample := rapid.Float64Range(-170, 170).Draw(t, "sample")
		shown, problems := reckoningtest.Ask(t, PHCalibration(), form{"points": read, "samples": strconv.FormatFloat(sample, 'f', 9, 64), "reading_off": off})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		real, problems := reckoningtest.Ask(t, PHCalibration(), form{"points": truly, "samples": strconv.FormatFloat(sample+shift("sample"), 'f', 9, 64)})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		for _, v := range shown.Values {
			x, ok := real.Value(v.Name)
			if v.Low != nil && ok && (x < *v.Low-1e-6 || x > *v.High+1e-6) {
				t.Fatalf("%s is %v and said to lie in %v to %v", v.Name, x, *v.Low, *v.High)
			}
		}
		low, high, _ := strings.Cut(shown.Tables[1].Rows[0][2], " and ")
		x, least, most := number(t, real.Tables[1].Rows[0][1]), number(t, low), number(t, high)
		if x < least-0.011 || x > most+0.011 { // each is rounded to 0.01
			t.Fatalf("corrected to %v and said to lie between %v and %v", x, least, most)
		}
	})
}

func number(t *rapid.T, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// By hand: buffers 4 and 7 read as 171 and -6 mV, 59 mV for each pH. With readings
// right, a reading of -6 mV is pH 7 give or take the buffer's 0.02; off by 3 mV, twice
// as many, once in the buffer and once in the sample, are added: 6 ÷ 59 = 0.10 below,
// and 6 ÷ 57 = 0.105 above, where the buffers read nearer to one another.
func TestHowSureACorrectedReadingIs(t *testing.T) {
	const points = `{"points":[{"buffer":"t4","reading":171},{"buffer":"t7","reading":-6}],"samples":"-6"`
	for form, want := range map[string]string{points + `}`: "6.98 and 7.02", points + `,"reading_off":3}`: "6.88 and 7.13"} {
		if got := run(t, "ph_calibration", form).Tables[1].Rows[0][2]; got != want {
			t.Errorf("%s: between %s, want %s", form, got, want)
		}
	}
}
