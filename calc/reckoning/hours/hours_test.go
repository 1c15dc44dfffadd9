package hours

import (
	"slices"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

// (d): 25 and 12 and 15 minutes of two people are 104 minutes.
func TestHoursOfALog(t *testing.T) {
	work := []form{{"step": "Wash", "took": "25 min", "people": 2}, {"step": "Rinse", "took": "12 min", "people": 2}, {"step": "rinse", "took": "0,25 h", "people": 2}, {"step": "Report", "took": "2 h"}}
	r := reckoningtest.Run(t, Spent(), form{"work": work, "rate": 30})
	for name, want := range map[string]float64{"hours": (50+24+30)/60.0 + 2, "lasted": (25+12+15)/60.0 + 2, "cost": 30 * ((50+24+30)/60.0 + 2)} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-12) {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	rows := r.Tables[0].Rows
	if len(rows) != 3 || rows[1][0] != "Rinse" || rows[1][1] != "2" || rows[1][2] != "0.9" {
		t.Errorf("by kind: %q", rows)
	}
}

func past() []form {
	return []form{
		{"step": "Stitching", "object": "flag", "area": "2 m²", "took": 20}, {"step": "Stitching", "object": "flag", "area": "1 m²", "took": 8},
		{"step": "Stitching", "object": "flag", "area": "1 m²", "took": 12}, {"step": "Stitching", "object": "bonnet", "area": "0,1 m²", "took": 4}, {"step": "Report", "took": 3},
	}
}

// (d): flags took 8, 10 and 12 h/m², so 3 m² take 30 h, 24 to 36, and two reports 6 h;
// with 40 for the hour, materials of 60 and a tenth on top, (36 × 40 + 60) × 1.1 = 1650.
func TestAnEstimate(t *testing.T) {
	f := form{"object": "Flag", "area": "3 m²", "past": past(), "rate": 40, "contingency": 10,
		"steps":     []form{{"step": "stitching", "size": "by_area"}, {"step": "Report", "times": 2}},
		"materials": []form{{"name": "net", "amount": "1,5", "price": 40}}}
	r := reckoningtest.Run(t, Estimate(), f)
	for name, want := range map[string][3]float64{"hours": {30, 36, 42}, "work_cost": {1200, 1440, 1680}, "total": {1386, 1650, 1914}} {
		v := reckoningtest.Value(t, r, name)
		if v.Low == nil || !reckoningtest.Near(*v.Low, want[0], 1e-12) || !reckoningtest.Near(v.Value, want[1], 1e-12) || !reckoningtest.Near(*v.High, want[2], 1e-12) {
			t.Errorf("%s = %+v, want %v", name, v, want)
		}
	}
	if v := reckoningtest.Value(t, r, "materials_cost"); v.Value != 60 {
		t.Errorf("materials %v", v.Value)
	}
	if rows := r.Tables[0].Rows; !strings.Contains(rows[0][4], "same kind of object") || !strings.Contains(rows[1][4], "1 past step, too few for quartiles") {
		t.Errorf("rests on: %q", rows)
	}
}

func TestWhatAnEstimateRefuses(t *testing.T) {
	f := form{"past": past(), "steps": []form{{"step": "Framing"}}}
	if p := reckoningtest.Refused(t, Estimate(), f, "steps"); !strings.Contains(p.Say, "row 1, Framing: no step of this kind is among the past ones; there are Stitching, Report.") {
		t.Errorf("%+v", p)
	}
	f["steps"] = []form{{"step": "Report", "size": "by_area"}}
	reckoningtest.Refused(t, Estimate(), f, "area")
	f["area"] = "1 m²"
	if p := reckoningtest.Refused(t, Estimate(), f, "steps"); !strings.Contains(p.Say, "no past step of this kind has an area") {
		t.Errorf("%+v", p)
	}
	reckoningtest.Refused(t, Estimate(), form{"past": past()}, "steps")
}

func TestAnEstimateWithoutARateSaysSo(t *testing.T) {
	r := reckoningtest.Run(t, Estimate(), form{"past": past(), "steps": []form{{"step": "Report"}}})
	if len(r.Unknown) != 1 || r.Unknown[0].Name != "total" {
		t.Errorf("unknown: %+v", r.Unknown)
	}
	if _, ok := r.Value("total"); ok {
		t.Error("a total without a rate")
	}
}

// A row is copied from the hours of a log to an estimate as it stands, and comes to
// the same work, in whatever unit it was typed and however many were at it.
func TestARowOfALogIsOneOfAnEstimate(t *testing.T) {
	for _, row := range []form{
		{"step": "Rinse", "took": 0.5}, {"step": "Rinse", "took": "30 min"}, {"step": "Rinse", "took": reckoningtest.In(1800, "s")},
		{"step": "Rinse", "took": "0,25", "people": 2}, {"step": "Rinse", "took": reckoningtest.In("15", "min"), "people": 2},
	} {
		spent := reckoningtest.Value(t, reckoningtest.Run(t, Spent(), form{"work": []form{row}}), "hours")
		again := reckoningtest.Value(t, reckoningtest.Run(t, Estimate(), form{"steps": []form{{"step": "Rinse"}}, "past": []form{row}}), "hours")
		if !reckoningtest.Near(spent.Value, 0.5, 1e-12) || !reckoningtest.Near(again.Value, 0.5, 1e-12) {
			t.Errorf("%v: %v h and %v h, want half an hour", row, spent.Value, again.Value)
		}
	}
}

// The two forms ask for a time in one way: title, own unit, units to choose from
// and range; and they take seconds, in which the log's own times come.
func TestBothFormsAskForATimeAlike(t *testing.T) {
	columns := func(r *reckoning.Reckoning, table string) map[string]reckoning.Input {
		out := map[string]reckoning.Input{}
		for _, in := range r.Inputs {
			if in.Name == table {
				for _, c := range in.Columns {
					out[c.Name] = c
				}
			}
		}
		return out
	}
	log, past := columns(Spent(), "work"), columns(Estimate(), "past")
	for _, name := range []string{"step", "took", "people"} {
		a, b := log[name], past[name]
		if a.Title != b.Title || a.Unit != b.Unit || !slices.Equal(a.Units, b.Units) || a.Min != b.Min || a.Max != b.Max || a.Default != b.Default {
			t.Errorf("%s is asked as %+v and as %+v", name, a, b)
		}
	}
	if units := log["took"].Units; !slices.Contains(units, "s") || slices.Contains(units, "days") {
		t.Errorf("a time may be in %q", units)
	}
}

// (d): two reports of 3 h at 50 and three metres of stitching, 30 h, at 20 are 900;
// with a tenth on top 990. Without a rate for the one the cost is not known.
func TestAStepMayHaveARateOfItsOwn(t *testing.T) {
	f := form{"object": "flag", "area": "3 m²", "past": past(), "rate": 20, "contingency": 10,
		"steps": []form{{"step": "stitching", "size": "by_area"}, {"step": "Report", "times": 2, "rate": 50}}}
	r := reckoningtest.Run(t, Estimate(), f)
	for name, want := range map[string]float64{"work_cost": 900, "total": 990} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-12) {
			t.Errorf("%s = %+v, want %v", name, v, want)
		}
	}
	put := ""
	for _, w := range r.Working {
		put += w.Put + "\n"
	}
	if !strings.Contains(put, "(30 h × 20 + 6 h × 50 + 0) × 1.1 = 990") {
		t.Error(put)
	}
	if rows := r.Tables[0].Rows; rows[0][1] != "1" || rows[1][1] != "2" {
		t.Errorf("times: %q", rows)
	}
	if !strings.Contains(r.Cautions[0].Say, "no spread") || !strings.HasSuffix(r.Cautions[0].Say, ": Report.") || r.Tables[0].Rows[1][3] != "not known" {
		t.Errorf("a step that rests on one past step: %+v, %q", r.Cautions[0], r.Tables[0].Rows[1])
	}
	delete(f, "rate")
	if r := reckoningtest.Run(t, Estimate(), f); len(r.Unknown) != 1 || r.Unknown[0].Name != "total" {
		t.Errorf("unknown: %+v", r.Unknown)
	}
}
