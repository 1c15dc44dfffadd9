package lighting

import (
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

var verdict = reckoningtest.Verdict

// L-01 and L-02 at the door: marks as in calc/light.
func TestDosesAndFades(t *testing.T) {
	rows := []struct {
		r      *reckoning.Reckoning
		form   form
		figure string
		want   float64
	}{
		{Dose(), form{"lux": 50, "day": 8, "days": 312}, "in_a_year", 124800},
		{Dose(), form{"lux": 50, "day": 8, "days": 312, "years": 78}, "dose", 9.7344},
		{Dose(), form{"lux": 1, "day": 0, "days": 300, "flash": 1000, "flashes": 20}, "by_flashes", 1.6666666667e3},
		{Fade(), form{"wool": "3", "uv": "without", "lux": 50, "day": 10, "days": 300}, "years", 20},
		{Fade(), form{"wool": "1", "uv": "without", "lux": 50, "day": 10, "days": 300}, "hours", 6000},
		{Cap(), form{"lux": 50, "own": 15000}, "own_hours", 300},
		{Cap(), form{"lux": 50}, "least", 240},
		{Rota(), form{"wool": "2", "uv": "without", "lux": 50, "day": 8, "days": 25, "life": 50}, "months", 2},
		{Ultraviolet(), form{"lux": 200, "share": 10}, "irradiance", 2},
	}
	for _, r := range rows {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, r.r, r.form), r.figure); !reckoningtest.Near(v.Value, r.want, 1e-9) {
			t.Errorf("%s %v: %s is %v, want %v", r.r.Name, r.form, r.figure, v.Value, r.want)
		}
	}
	v := reckoningtest.Value(t, reckoningtest.Run(t, Fade(), form{"wool": "3", "lux": 50, "day": 10, "days": 300}), "years")
	if !reckoningtest.Near(*v.Low, 20/1.5, 1e-9) || !reckoningtest.Near(*v.High, 30, 1e-9) {
		t.Errorf("the range is %v to %v", *v.Low, *v.High)
	}
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Dose(), form{"lux": "10 fc", "day": 10, "days": 10}), "in_a_year"); !reckoningtest.Near(v.Value, 10763.910416709722, 1e-9) {
		t.Errorf("footcandles: %+v", v)
	}
}

// Trap Z-07: the conflict is shown and not resolved.
func TestTheConflictOfLimitsIsShown(t *testing.T) {
	r := reckoningtest.Run(t, Cap(), form{"lux": 50, "own": 15000, "hours": 400})
	if say := verdict(t, r, "conflict"); !strings.Contains(say, "15\u00a0000") || !strings.Contains(say, "150\u00a0000") || !strings.Contains(say, "Nothing here chooses") {
		t.Error(say)
	}
	years := map[string]bool{}
	for _, row := range r.Tables[0].Rows {
		years[row[3]] = true
	}
	if !years["15\u00a0000 lx·h"] || !years["150\u00a0000 lx·h"] || !years["12\u00a0000 lx·h"] {
		t.Errorf("%v", years)
	}
	if say := verdict(t, r, "own"); !strings.Contains(say, "beyond your limit, by 5000 lx·h") {
		t.Error(say)
	}
	if say := verdict(t, reckoningtest.Run(t, Cap(), form{"lux": 50, "own": 15000, "hours": 300}), "own"); say != "This use stays within your limit." {
		t.Error(say)
	}
}

func TestARotaUsesWholeMonthsAndKeepsTheDose(t *testing.T) {
	r := reckoningtest.Run(t, Rota(), form{"wool": "2", "lux": 50, "day": 8, "days": 25, "life": 80, "cycle": 8}) // 1.25 months a year
	var shown []string
	for _, row := range r.Tables[0].Rows {
		shown = append(shown, row[1])
	}
	if got := strings.Join(shown, " "); got != "1 1 1 2 1 1 1 2" {
		t.Errorf("months by year: %s", got)
	}
	reckoningtest.Refused(t, Rota(), form{"lux": 50, "day": 0, "life": 80}, "day")
}

// Where the illuminance may be off, so may what follows from it: beside the factor
// of 1.5 of the blue wools. L-02: 3 Mlx·h for blue wool 3 (b).
func TestLuxMayBeOff(t *testing.T) {
	off := func(v reckoning.Value, value, low, high float64) {
		t.Helper()
		if v.Low == nil || v.High == nil || !reckoningtest.Near(v.Value, value, 1e-9) || !reckoningtest.Near(*v.Low, low, 1e-9) || !reckoningtest.Near(*v.High, high, 1e-9) {
			t.Errorf("%+v, want %v (%v to %v)", v, value, low, high)
		}
	}
	r := reckoningtest.Run(t, Fade(), form{"wool": "3", "lux": 50, "lux_pm": 10, "day": 10, "days": 300})
	off(reckoningtest.Value(t, r, "hours"), 60000, 3e6/1.5/60, 3e6*1.5/40)
	off(reckoningtest.Value(t, r, "years"), 20, 2e6/60/3000, 4.5e6/40/3000)
	r = reckoningtest.Run(t, Cap(), form{"lux": 50, "lux_pm": 10, "own": 15000})
	off(reckoningtest.Value(t, r, "own_hours"), 300, 250, 375)
	r = reckoningtest.Run(t, Rota(), form{"wool": "2", "lux": 50, "lux_pm": 10, "day": 8, "days": 26, "life": 100})
	off(reckoningtest.Value(t, r, "months"), 10000.0/10400, 10000/1.5/(60*208), 15000.0/(40*208))
}

// Hours and days may be off as well, and a limit is held against the end of the range.
func TestHoursMayBeOff(t *testing.T) {
	v := reckoningtest.Value(t, reckoningtest.Run(t, Dose(), form{"lux": 50, "day": 8, "day_pm": "30 min", "days": 300, "days_pm": 10}), "in_a_year")
	if v.Low == nil || !reckoningtest.Near(*v.Low, 50*7.5*290, 1e-12) || !reckoningtest.Near(*v.High, 50*8.5*310, 1e-12) {
		t.Errorf("%+v", v)
	}
	r := reckoningtest.Run(t, Cap(), form{"lux": 50, "lux_pm": 5, "own": 15000, "hours": 300})
	if say := verdict(t, r, "own"); !strings.Contains(say, "within their ± it may go beyond, to 16\u00a0500 lx·h") {
		t.Error(say)
	}
}

// L-03 (b): 50 lx for high and medium responsivity, 200 lx for low. 50 lx in
// footcandles is not above 50 lx.
func TestLevelsThatAreExceeded(t *testing.T) {
	for lux, want := range map[any]string{215: "50 lx for high responsivity, 50 lx for medium responsivity, 200 lx for low responsivity.", 150: "50 lx for high responsivity, 50 lx for medium responsivity.", 50: "", "4.64515 fc": ""} {
		said := ""
		for _, c := range reckoningtest.Run(t, Cap(), form{"lux": lux}).Cautions {
			if strings.Contains(c.Say, "CIE 157") {
				said = c.Say
			}
		}
		if !strings.HasSuffix(said, want) || want == "" && said != "" || want != "" && !strings.Contains(said, "from memory") {
			t.Errorf("%v: %q, want %q", lux, said, want)
		}
	}
}

// L-04 (a): at most 75 µW/lm by the older rule, 10 by the newer.
func TestUltravioletBesideTheRules(t *testing.T) {
	for _, r := range []struct {
		form form
		say  []string
	}{
		{form{"lux": 50, "share": 75}, []string{"Not above 75 µW/lm"}},
		{form{"lux": 50, "share": 72, "share_pm": 5}, []string{"Not above 75 µW/lm", "At the upper end of its ±: Above 75"}},
		{form{"lux": 50, "share": 12, "share_pm": 5}, []string{"Not above 75 µW/lm", "At the lower end of its ±: Within 0 to 10"}},
		{form{"lux": 50, "share": 5, "share_pm": 2}, []string{"Within 0 to 10"}},
	} {
		say := verdict(t, reckoningtest.Run(t, Ultraviolet(), r.form), "level")
		for _, want := range r.say {
			if !strings.Contains(say, want) || len(r.say) == 1 && strings.Contains(say, "end of its ±") {
				t.Errorf("%v: %q, want %q", r.form, say, want)
			}
		}
	}
}

func TestBlueWoolsSayThatTheyAreFromMemory(t *testing.T) {
	eight := ""
	for _, w := range reckoningtest.Run(t, Fade(), form{"wool": "8", "lux": 50, "day": 10, "days": 300}).Working {
		eight += w.Say
	}
	if !strings.Contains(eight, "1100 Mlx·h") { // L-02 (b)
		t.Error(eight)
	}
	for _, w := range reckoningtest.Run(t, Fade(), form{"wool": "3", "lux": 50, "day": 10, "days": 300}).Working {
		if w.Source == bluewool.Name && !strings.Contains(w.Say, "from memory") {
			t.Error(w.Say)
		}
	}
	if bluewool.Mark != reckoning.Memory || cie157.Mark != reckoning.Memory {
		t.Error("blue wools and CIE 157 are from memory")
	}
}
