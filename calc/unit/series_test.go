package unit

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func conductivities(t *testing.T) []Unit {
	t.Helper()
	return []Unit{mustNamed(t, "µS/cm"), mustNamed(t, "mS/cm")}
}

func mustNamed(t interface{ Fatal(...any) }, symbol string) Unit {
	u, ok := Named(symbol)
	if !ok {
		t.Fatal("no unit " + symbol)
	}
	return u
}

func TestSeriesAsPeopleTypeThem(t *testing.T) {
	units := conductivities(t)
	rows := []struct {
		text string
		want []float64
		unit string
	}{
		{"802; 202; 52", []float64{802, 202, 52}, "µS/cm"},
		{"802;202;52;", []float64{802, 202, 52}, "µS/cm"},
		{" 802 202  52 ", []float64{802, 202, 52}, "µS/cm"},
		{"802, 202, 14,5", []float64{802, 202, 14.5}, "µS/cm"},
		{"802\n202\r\n14,5\n", []float64{802, 202, 14.5}, "µS/cm"},
		{"14,5; 3.25", []float64{14.5, 3.25}, "µS/cm"},
		{"1 200; 410; 150", []float64{1200, 410, 150}, "µS/cm"},
		{"12\u00a0000 900", []float64{12000, 900}, "µS/cm"},
		{"802 202 52 µS/cm", []float64{802, 202, 52}, "µS/cm"},
		{"0.8; 0,2 mS/cm", []float64{0.8, 0.2}, "mS/cm"},
		{"0.8 mS, 0,2 mS", []float64{0.8, 0.2}, "mS/cm"},
		{"8 mS 200 mS", []float64{8, 200}, "mS/cm"},
		{"7", []float64{7}, "µS/cm"},
		{"−3 4", []float64{-3, 4}, "µS/cm"},
	}
	for _, r := range rows {
		got, u, err := Series(r.text, units, units[0])
		if err != nil || !slices.Equal(got, r.want) || u.Symbol != r.unit {
			t.Errorf("Series(%q) = %v %s, %v, want %v %s", r.text, got, u.Symbol, err, r.want, r.unit)
		}
	}
}

func TestSeriesNamesTheEntryThatIsWrong(t *testing.T) {
	units := conductivities(t)
	rows := []struct{ text, say string }{
		{"", "Nothing is typed"},
		{" ; ", "Nothing is typed"},
		{"802; ; 52", "entry 2: Nothing is typed"},
		{"802; 2o2; 52", "entry 2: “2o2” ends in “o2”"},
		{"802 q 52", "entry 1: “802 q” ends in “q”"},
		{"802; 1,234; 52", "entry 2: “1,234” can be read as 1.234 or as 1234"},
		{"802,202,52 7", "entry 1"},
		{"1 200 410", "“1 200”: put a semicolon"},
		{"0.8 mS/cm; 202", "entry 1: “0.8 mS/cm” is in another unit"},
		{"802; 202; 5 kg", "entry 3: “5 kg” is a mass"},
		{strings.Repeat("1;", 51), "more than 50"},
		{strings.Repeat("1", 4000), "too long"},
	}
	for _, r := range rows {
		got, _, err := Series(r.text, units, units[0])
		if err == nil || !strings.Contains(err.Error(), r.say) {
			t.Errorf("Series(%q) = %v, %v, want %q", r.text, got, err, r.say)
		}
	}
}

// What this program writes, it reads back to the same numbers.
func TestSeriesReadsWhatTextWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := []Unit{mustNamed(t, "µS/cm")}
		want := rapid.SliceOfN(rapid.IntRange(0, 99999), 1, MostInSeries).Draw(t, "tenths")
		var texts []string
		for _, x := range want {
			texts = append(texts, Text(float64(x)/10, 6))
		}
		for _, mark := range []string{"; ", "\n", ";"} {
			got, _, err := Series(strings.Join(texts, mark), units, units[0])
			if err != nil || len(got) != len(want) {
				t.Fatalf("Series(%q) = %v, %v", strings.Join(texts, mark), got, err)
			}
			for i := range got {
				if got[i] != float64(want[i])/10 {
					t.Fatalf("entry %d is %v, want %v", i, got[i], float64(want[i])/10)
				}
			}
		}
	})
}

func FuzzSeries(f *testing.F) {
	for _, s := range []string{"802; 202; 52", "1 200 410", "0.8; 0,2 mS/cm", ";;", "\n\r;\t", "−"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		u := mustNamed(t, "µS/cm")
		got, its, err := Series(text, []Unit{u}, u)
		if err == nil && (len(got) == 0 || len(got) > MostInSeries || its.Symbol != u.Symbol) {
			t.Errorf("Series(%q) = %v %s", text, got, its.Symbol)
		}
		if err != nil && err.Error() == "" {
			t.Errorf("Series(%q) is refused without a word", text)
		}
	})
}
