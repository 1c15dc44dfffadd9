package outlines

import (
	"slices"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

var verdict = reckoningtest.Verdict

// The general outline of D-02 (d), and a misreading put into it.
func TestAnOutlineAtTheDoor(t *testing.T) {
	f := form{"AB": 1180.1, "BC": 778.1, "CD": 1203.1, "DA": 805, "AC": 1432.5, "BD": 1428.4}
	r := reckoningtest.Run(t, Outline(), f)
	if v := reckoningtest.Value(t, r, "area"); v.Value < 9430.3 || v.Value > 9431.3 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "B"); v.Value < 91.64 || v.Value > 91.74 {
		t.Errorf("%+v", v)
	}
	if say := verdict(t, r, "agree"); !strings.HasPrefix(say, "They agree") {
		t.Error(say)
	}
	if len(r.Pictures) != 1 || len(r.Pictures[0].Shapes) != 7 {
		t.Errorf("pictures %+v", r.Pictures)
	}
	wrong := reckoningtest.Run(t, Outline(), f.With(form{"CD": 1303.1}))
	say := verdict(t, wrong, "agree")
	if !strings.HasPrefix(say, "They do not agree") || !strings.Contains(say, "CD 1303.1 mm, for 1203.1 mm (10 cm too much)") {
		t.Error(say)
	}
	table := wrong.Tables[0]
	if len(table.Rows) != 6 {
		t.Errorf("%d could be misread, want all six: %q", len(table.Rows), table.Rows)
	}
	if p := reckoningtest.Refused(t, Outline(), f.With(form{"AC": 9000}), "AC"); !strings.Contains(p.Say, "make no outline") || p.Allowed != "up to 1958.2 mm" || p.Value != "9000" {
		t.Errorf("%+v", p)
	}
	inches := reckoningtest.Run(t, Outline(), form{"AB": "46 in", "BC": "31 in", "CD": "50 in", "DA": "31 in", "AC": "55.5 in", "BD": "55.4 in"})
	if cell := inches.Tables[len(inches.Tables)-1].Rows[1][1]; !strings.HasSuffix(cell, " in") || len(inches.Tables) != 2 || !strings.HasSuffix(inches.Tables[0].Rows[0][1], " in") {
		t.Errorf("%s, %+v", cell, inches.Tables)
	}
}

// D-01 (d).
func TestChangesAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Change(), form{"warp_before": "350", "warp_after": "343", "weft_before": "500; 500", "weft_after": "500,2; 500.1", "error": "1"})
	if v := reckoningtest.Value(t, r, "warp"); !reckoningtest.Near(v.Value, -2, 1e-12) || *v.Low > -2.5 || *v.High < -1.5 {
		t.Errorf("%+v", v)
	}
	if say := verdict(t, r, "warp_means"); say != "shorter by more than the reading error." {
		t.Error(say)
	}
	if say := verdict(t, r, "weft_means"); say != "within the reading error: no change can be told." {
		t.Error(say)
	}
	reckoningtest.Refused(t, Change(), form{"warp_before": "350; 351", "warp_after": "343"}, "warp_after")
	one := reckoningtest.Run(t, Change(), form{"warp_before": "350", "warp_after": "343"})
	if len(one.Unknown) != 2 {
		t.Errorf("unknown: %+v", one.Unknown)
	}
}

// D-03 and D-04 (d).
func TestMassAndRoll(t *testing.T) {
	r := reckoningtest.Run(t, MassPerArea(), form{"mass": "1.845 g", "area": "100"})
	if v := reckoningtest.Value(t, r, "per_area"); !reckoningtest.Near(v.Value, 184.5, 1e-9) {
		t.Errorf("%+v", v)
	}
	r = reckoningtest.Run(t, MassPerArea(), form{"mass": "1 oz", "width": "36 in", "height": "36 in"})
	if v := reckoningtest.Value(t, r, "per_area"); !strings.Contains(v.Shown, "1 oz/yd²") {
		t.Errorf("an ounce a square yard is shown as %q", v.Shown)
	}
	reckoningtest.Refused(t, MassPerArea(), form{"mass": 3}, "area")
	reckoningtest.Refused(t, MassPerArea(), form{"mass": 3, "area": 9, "width": 3}, "area")
	r = reckoningtest.Run(t, Roll(), form{"tube": 75, "length": "2500 mm", "thick": 1.2, "width": "90", "beyond": 5})
	if v := reckoningtest.Value(t, r, "outer"); v.Value < 97.1 || v.Value > 97.3 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "tube_length"); v.Value != 100 {
		t.Errorf("%+v", v)
	}
}

// A dent has a field and says what would mend it, in the unit that was typed.
func TestADentHasAField(t *testing.T) {
	f := form{"AB": 1200, "BC": 800, "CD": 1200, "DA": 800, "AC": "144.22 cm", "BD": 500}
	p := reckoningtest.Refused(t, Outline(), f, "AC")
	if !strings.Contains(p.Say, "dented") || p.Allowed != "about 197.74 cm (1977.4 mm)" || p.Value != "144.22 cm" || !strings.Contains(p.Say, "AC would have to change least") || !strings.Contains(p.Say, "as well: BD.") { // √(2 (1200² + 800²) - 500²)
		t.Errorf("%+v", p)
	}
	f = form{"AB": "48 in", "BC": "32 in", "CD": "48 in", "DA": "32 in", "AC": "57.7 in", "BD": "20 in"}
	if p := reckoningtest.Refused(t, Outline(), f, "AC"); p.Allowed != "about 79.09 in (2009 mm)" { // √(2 (48² + 32²) - 20²) = 79.09
		t.Errorf("%+v", p)
	}
	if p := reckoningtest.Refused(t, Outline(), f.With(form{"BD": "90 in"}), "BD"); p.Allowed != "up to 80 in (2032 mm)" {
		t.Errorf("%+v", p)
	}
	reckoningtest.Refused(t, Outline(), form{"AB": 40, "BC": 30, "CD": 40, "DA": 30, "AC": 50, "BD": 50, "error": 30}, "error")
}

// Who measures in inches reads the way to the answer in them, and slips as one does on
// such a tape: (d), a rectangle of 48 × 36 in, of which CD is read a foot too short. At the least they
// disagree by AC: C stands √(36² - 30²) over BD, at its middle, and A 28.8, at 21.6 from D,
// so that AC would be 49.42 in, which is 10.58 less.
func TestWorkingInInches(t *testing.T) {
	r := reckoningtest.Run(t, Outline(), form{"AB": "48 in", "BC": "36 in", "CD": "36 in", "DA": "36 in", "AC": "60 in", "BD": "60 in", "error": "0.1 in"})
	if say := verdict(t, r, "agree"); !strings.Contains(say, "CD 36 in, for 48 in (a foot too little)") || !strings.Contains(say, "by 11 in (270 mm) at the least") {
		t.Error(say)
	}
	if !slices.ContainsFunc(r.Cautions, func(c reckoning.Caution) bool { return strings.Contains(c.Say, "their ranges do not hold") }) {
		t.Errorf("ranges of measures that do not agree: %+v", r.Cautions)
	}
	for _, w := range r.Working {
		if strings.Contains(w.Put, " mm") && !strings.Contains(w.Put, " in") {
			t.Errorf("only millimetres: %q", w.Put)
		}
	}
	r = reckoningtest.Run(t, Change(), form{"warp_before": "20 in", "warp_after": "19.5 in", "error": "0.02 in"})
	if w := r.Working; !slices.ContainsFunc(w, func(w reckoning.Working) bool { return w.Put == "100 × (19.5 in - 20 in) ÷ 20 in = -2.5 %" }) {
		t.Errorf("%+v", w)
	}
	r = reckoningtest.Run(t, Roll(), form{"tube": "3 in", "length": "100 in", "thick": "0.1 in", "width": "40 in", "beyond": "2 in"})
	if w := r.Working; !slices.ContainsFunc(w, func(w reckoning.Working) bool { return w.Put == "40 in + 2 × 2 in = 44 in (1117.6 mm)" }) {
		t.Errorf("%+v", w)
	}
}

// However large the error, a length does not shrink to less than nothing.
func TestAChangeStaysAboveNothing(t *testing.T) {
	f := form{"warp_before": "5", "warp_after": "5", "error": "2.4"}
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Change(), f), "warp"); *v.Low < -100 || !reckoningtest.Near(*v.Low, 100*(2.6-7.4)/7.4, 1e-9) || !reckoningtest.Near(*v.High, 100*(7.4-2.6)/2.6, 1e-9) {
		t.Errorf("%+v, %v to %v", v, *v.Low, *v.High)
	}
	reckoningtest.Refused(t, Change(), f.With(form{"error": "2.5"}), "error")
}

// 4 in longer at the least (STASH, mpmuseum.org, a): what is shorter is said, and 2 in
// at each end is not.
func TestTheTubeIsLongEnough(t *testing.T) {
	f := form{"tube": 75, "length": "2500 mm", "thick": 1.2, "width": "90"}
	says := func(f form) bool {
		return slices.ContainsFunc(reckoningtest.Run(t, Roll(), f).Cautions, func(c reckoning.Caution) bool { return strings.Contains(c.Say, "at least 4 in") })
	}
	if says(f) || says(f.With(form{"beyond": "2 in"})) || !says(f.With(form{"beyond": "5 cm"})) {
		t.Error("what is said of 5.1 cm, 2 in and 5 cm is wrong")
	}
}

// A ± at width and height reaches the mass of a square metre: 620 g on 1.20 × 2.15 m.
func TestMassPerAreaHasARange(t *testing.T) {
	r := reckoningtest.Run(t, MassPerArea(), form{"mass": "620 g", "width": 120, "height": 215, "width_pm": 1, "height_pm": 1})
	if v := reckoningtest.Value(t, r, "per_area"); !reckoningtest.Near(*v.Low, 620/(1.21*2.16), 1e-9) || !reckoningtest.Near(*v.High, 620/(1.19*2.14), 1e-9) {
		t.Errorf("%+v", v)
	}
}
