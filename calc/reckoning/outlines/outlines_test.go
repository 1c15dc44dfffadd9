package outlines

import (
	"strings"
	"testing"

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
	if !strings.HasPrefix(say, "They do not agree") || !strings.Contains(say, "CD 1303 mm, for 1203 mm (10 cm too much)") {
		t.Error(say)
	}
	table := wrong.Tables[0]
	if len(table.Rows) != 6 {
		t.Errorf("%d could be misread, want all six: %q", len(table.Rows), table.Rows)
	}
	if p := reckoningtest.Refused(t, Outline(), f.With(form{"AC": 9000}), "AC"); !strings.Contains(p.Say, "make no outline") || p.Allowed != "up to 1960 mm" || p.Value != "9000" {
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
	r = reckoningtest.Run(t, Roll(), form{"tube": 75, "length": "2500 mm", "thick": 1.2, "width": "90"})
	if v := reckoningtest.Value(t, r, "outer"); v.Value < 97.1 || v.Value > 97.3 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "tube_length"); v.Value != 100 {
		t.Errorf("%+v", v)
	}
}
