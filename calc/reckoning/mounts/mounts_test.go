package mounts

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

// CCI Notes 13/6 (a), the case (d). X-08: CCI Notes 13/4 (a), the case (d).
func TestMountAndStrip(t *testing.T) {
	r := reckoningtest.Run(t, Mount(), form{"width": "30 cm", "height": "40 cm", "margin": "4 cm", "board": 6, "loft": 4, "turn": 40})
	for name, want := range map[string]float64{"board_width": 380, "board_height": 480, "all_round": 50, "cover_width": 480, "cover_height": 580, "back_width": 390, "back_height": 490, "thick": 10} {
		if v := reckoningtest.Value(t, r, name); v.Value != want {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	if rows := r.Tables[0].Rows; len(rows) != 4 || rows[2][1] != "480 × 580 mm" {
		t.Errorf("%q", rows)
	}
	r = reckoningtest.Run(t, HangingStrip(), form{"edge": "96 cm", "tape": "5 cm"})
	for name, want := range map[string]float64{"strip": 940, "sleeve_width": 60} {
		if v := reckoningtest.Value(t, r, name); v.Value != want {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	reckoningtest.Refused(t, HangingStrip(), form{"edge": 60, "short": 60}, "short")
}

// A rectangle is placed square and in the middle.
func TestPlacing(t *testing.T) {
	f := form{"AB": 300, "BC": 400, "CD": 300, "DA": 400, "AC": 500, "BD": 500, "width": 380, "height": 480, "spacing": 100}
	r := reckoningtest.Run(t, Placing(), f)
	want := [][]string{{"A", "40", "40", "340", "440"}, {"B", "340", "40", "40", "440"}, {"C", "340", "440", "40", "40"}, {"D", "40", "440", "340", "40"}}
	for i, row := range r.Tables[0].Rows {
		if strings.Join(row, " ") != strings.Join(want[i], " ") {
			t.Errorf("%q, want %q", row, want[i])
		}
	}
	if n := len(r.Tables[1].Rows); n != 2+3+2+3 {
		t.Errorf("%d marks along the sides: %q", n, r.Tables[1].Rows)
	}
	reckoningtest.Refused(t, Placing(), f.With(form{"width": 290}), "width")
}

// One fixing bears all, and nothing is said of others that would hold.
func TestOneFixing(t *testing.T) {
	for fixings, want := range map[int]string{1: "20 kg × 4 = 80 kg, 784.5 N", 2: "20 kg × 4 ÷ 1 = 80 kg, 784.5 N", 3: "20 kg × 4 ÷ 2 = 40 kg, 392.3 N"} {
		r := reckoningtest.Run(t, Frame(), form{"width": 380, "height": 480, "mount": 10, "glazing": "none", "rest": 20, "factor": 4, "fixings": fixings})
		w := r.Working[len(r.Working)-1]
		if w.Put != want || strings.Contains(w.Say, "the others") != (fixings > 1) {
			t.Errorf("%d: %+v", fixings, w)
		}
	}
}

// A person who measures in inches reads what is marked, cut and sewn in inches.
func TestTablesInInches(t *testing.T) {
	r := reckoningtest.Run(t, Placing(), form{"AB": "12 in", "BC": "16 in", "CD": "12 in", "DA": "16 in", "AC": "20 in", "BD": "20 in", "width": "15 in", "height": "19 in", "spacing": "4 in"})
	if title := r.Tables[0].Title; title != "Corners, in from the edges of the board" || strings.Join(r.Tables[0].Rows[1], " ") != "B 13.5 1.5 1.5 17.5" || strings.Join(r.Tables[1].Rows[0], " ") != "AB 1 5.5 1.5 9.5 17.5" {
		t.Errorf("%s %q %q", title, r.Tables[0].Rows, r.Tables[1].Rows)
	}
	r = reckoningtest.Run(t, Mount(), form{"width": "12 in", "height": "16 in", "margin": "1.5 in", "board": "0.25 in", "loft": "0.25 in", "turn": "1.5 in"})
	if size := r.Tables[0].Rows[2][1]; size != "19 × 23 in" {
		t.Error(size)
	}
	r = reckoningtest.Run(t, Cutting(), form{"stock": "sheets", "stock_width": "32 in", "stock_length": "40 in", "pieces": []any{form{"name": "a", "width": "12 in", "height": "16 in", "count": 2}}})
	if row := r.Tables[0].Rows[1]; strings.Join(row, "|") != "1|a|12|0|12 × 16 in" {
		t.Errorf("%q", row)
	}
	r = reckoningtest.Run(t, Stitches(), form{"where": "edge", "along": "12 in", "spacing": "0.25 in", "shortest": 3, "longest": 9})
	if c := r.Tables[0].Columns; c[1] != "At, in" || r.Tables[0].Rows[4][1] != "1" {
		t.Errorf("%q %q", c, r.Tables[0].Rows[4])
	}
	r = reckoningtest.Run(t, Mass(), form{"layers": []any{form{"name": "board", "by": "mass", "mass": "2 lb"}}})
	if v := reckoningtest.Value(t, r, "mass"); v.Shown != "907 g, 2 lb" || r.Tables[0].Rows[0][2] != "907 g (2 lb)" {
		t.Errorf("%s, %q", v.Shown, r.Tables[0].Rows)
	}
}

// Twelve metres of cloth are laid out to the tenth of a millimetre, and a mark that
// would come beside a corner is left out.
func TestTablesKeepMillimetres(t *testing.T) {
	r := reckoningtest.Run(t, Cutting(), form{"stock": "cloth", "stock_width": 100, "stock_length": 30000, "pieces": []any{form{"name": "a", "width": 90, "height": "12345.5"}, form{"name": "b", "width": 90, "height": "12000"}}})
	if row := r.Tables[0].Rows[1]; row[3] != "12\u00a0345.5" {
		t.Errorf("%q", row)
	}
	r = reckoningtest.Run(t, Placing(), form{"AB": 300.5, "BC": 400, "CD": 300.5, "DA": 400, "AC": 500.3, "BD": 500.3, "width": 380, "height": 480, "spacing": 100})
	if n := len(r.Tables[1].Rows); n != 2+3+2+3 {
		t.Errorf("%d marks along the sides: %q", n, r.Tables[1].Rows)
	}
}

func TestStitches(t *testing.T) {
	f := form{"where": "edge", "along": 300, "spacing": 4, "shortest": 3, "longest": 9, "allow": 0}
	r := reckoningtest.Run(t, Stitches(), f)
	if v := reckoningtest.Value(t, r, "count"); v.Value != 76 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "apart"); v.Value < 1.7 || v.Value > 1.8 {
		t.Errorf("%+v", v)
	}
	for spacing, want := range map[string]string{"4": "Within the 3 to 5 mm published", "0.15 in": "Within the 3 to 5 mm (about 1/8 to 3/16 in) published", "0.25 in": "Outside of the 3 to 5 mm (about 1/8 to 3/16 in) published"} {
		if say := reckoningtest.Verdict(t, reckoningtest.Run(t, Stitches(), f.With(form{"spacing": spacing})), "spacing"); !strings.HasPrefix(say, want) {
			t.Errorf("every %s: %s", spacing, say)
		}
	}
	reckoningtest.Refused(t, Stitches(), f.With(form{"longest": 5}), "longest")
	reckoningtest.Refused(t, Stitches(), f.With(form{"along": 20000, "spacing": 1}), "spacing")
	more := reckoningtest.Run(t, Stitches(), f.With(form{"allow": 50}))
	if a, b := reckoningtest.Value(t, r, "thread").Value, reckoningtest.Value(t, more, "thread").Value; !reckoningtest.Near(b, 1.5*a, 1e-12) {
		t.Errorf("%v and %v", a, b)
	}
	area := reckoningtest.Run(t, Stitches(), form{"where": "area", "along": 40, "spacing": 4, "across": 60})
	left, right := 0, 0
	for _, row := range area.Tables[0].Rows {
		if row[2] != area.Tables[0].Rows[0][2] {
			left++
		}
		if row[3] != area.Tables[0].Rows[0][3] {
			right++
		}
	}
	// 5, 60 and 11 mm make the first line (d): 76 ÷ 5, and one.
	if v := reckoningtest.Value(t, area, "held"); working(area, "Small stitches") != strconv.Itoa(int(v.Value))+" on 11 lines" || v.Value < 11*15 || v.Value > 11*19 {
		t.Errorf("%+v, %s", v, working(area, "Small stitches"))
	}
	if v := reckoningtest.Value(t, r, "needles"); v.Value != 3 || working(r, "Needlefuls") != "1 m ÷ 400 mm: 3" { // 1.0003 m
		t.Errorf("%+v, %s", v, working(r, "Needlefuls"))
	}
	if len(area.Tables[0].Rows) != 11 || left < 8 || right < 8 {
		t.Errorf("%q", area.Tables[0].Rows)
	}
}

func TestCutting(t *testing.T) {
	piece := func(name string, w, h float64, count int, grain string) form {
		return form{"name": name, "width": w, "height": h, "count": count, "grain": grain}
	}
	f := form{"stock_width": 1000, "stock_length": 2000, "pieces": []form{piece("a", 500, 1000, 4, "along")}}
	r := reckoningtest.Run(t, Cutting(), f)
	for name, want := range map[string]float64{"sheets": 1, "used": 2000, "waste": 0, "cut": 2} {
		if v := reckoningtest.Value(t, r, name); v.Value != want {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	if len(r.Pictures) != 1 || len(r.Pictures[0].Shapes) != 4 || len(r.Tables[0].Rows) != 4 {
		t.Errorf("%+v", r.Pictures)
	}
	p := reckoningtest.Refused(t, Cutting(), f.With(form{"pieces": []form{piece("a", 10, 10, 1, "free"), piece("wide", 1200, 300, 1, "along")}}), "pieces")
	if !strings.Contains(p.Say, "row 2, wide of 1200 × 300 mm, is larger than the stock of 1000 × 2000 mm; turned, against its grain, it would fit") {
		t.Error(p.Say)
	}
	reckoningtest.Refused(t, Cutting(), f.With(form{"pieces": []form{piece("a", 10, 10, 100, "free"), piece("b", 10, 10, 100, "free"), piece("c", 10, 10, 100, "free"), piece("d", 10, 10, 100, "free"), piece("e", 10, 10, 1, "free")}}), "pieces")
	reckoningtest.Refused(t, Cutting(), form{"stock": "cloth", "stock_width": 1000, "stock_length": 900, "pieces": []form{piece("a", 600, 800, 2, "along")}}, "stock_length")
}

func TestMassFrameAndSlope(t *testing.T) {
	r := reckoningtest.Run(t, Mass(), form{"layers": []form{{"name": "glass", "by": "volume", "width": "1 m", "height": "1 m", "thick": 3, "density": 2.5}, {"name": "cloth", "width": 500, "height": 1000, "per_area": 150}, {"name": "frame", "by": "mass", "mass": "2 kg"}}})
	if v := reckoningtest.Value(t, r, "mass"); !reckoningtest.Near(v.Value, 7500+75+2000, 1e-12) {
		t.Errorf("%+v", v)
	}
	f := form{"width": 1000, "height": 1000, "mount": 6, "loft": 4, "textile": 1, "spacer": 6, "back": 4, "glazing": "glass", "glass": 3, "rest": 2.5, "factor": 4, "fixings": 3}
	r = reckoningtest.Run(t, Frame(), f)
	for name, want := range map[string]float64{"depth": 24, "opening_width": 1004, "glazing_mass": 7500, "mass": 10000, "each": 20, "force": 196.133} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-9) {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	none := reckoningtest.Run(t, Frame(), f.With(form{"glazing": "none"}))
	if len(none.Unknown) != 1 {
		t.Errorf("%+v", none.Unknown)
	}
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Slope(), form{"mass": 600, "angle": 30, "edge": "120 cm"}), "on_width"); !reckoningtest.Near(v.Value, 250, 1e-9) { // X-09 (d)
		t.Errorf("%+v", v)
	}
}

// Margins of their own left and right and below: 300 + 2 × 30, 400 + 40 + 60.
func TestUnevenMargins(t *testing.T) {
	f := form{"width": 300, "height": 400, "board": 6, "loft": 4, "margin": 40, "sides": 30, "below": 60}
	r := reckoningtest.Run(t, Mount(), f)
	for name, want := range map[string]float64{"board_width": 360, "board_height": 500, "cover_height": 600} {
		if v := reckoningtest.Value(t, r, name); v.Value != want {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	large := reckoningtest.Run(t, Mount(), f.With(form{"width": "1234.5", "width_pm": "2"}))
	if v := reckoningtest.Value(t, large, "board_width"); v.Shown != "1294.5 mm (1292.5 to 1296.5 mm)" {
		t.Errorf("a board of 1294.5 mm is shown as %q", v.Shown)
	}
	if p := reckoningtest.Refused(t, Mount(), form{"width": 20, "height": 20, "margin": 0, "board": 5, "inset": 10}, "inset"); !strings.Contains(p.Say, "20 × 20 mm") {
		t.Errorf("%+v", p)
	}
}

// The padding has its field in the rebate, may be left out, and its ± reaches the depth.
func TestPaddingInTheRebate(t *testing.T) {
	f := form{"width": 380, "height": 480, "mount": 6, "textile": 1, "spacer": 6, "back": 4, "glazing": "none", "rest": 2, "factor": 4}
	r := reckoningtest.Run(t, Frame(), f)
	if v := reckoningtest.Value(t, r, "depth"); v.Value != 17 {
		t.Errorf("%+v", v)
	}
	r = reckoningtest.Run(t, Frame(), f.With(form{"loft": 4, "loft_pm": 1}))
	if v := reckoningtest.Value(t, r, "depth"); v.Value != 21 || *v.Low != 20 || *v.High != 22 {
		t.Errorf("%+v", v)
	}
	if w := working(r, "Depth of the rebate"); w != "6 mm + 4 mm + 1 mm + 6 mm + 0 mm + 4 mm = 21 mm" {
		t.Error(w)
	}
}

// working is the put-in of the step that begins so; empty where there is none.
func working(r reckoning.Result, begins string) string {
	for _, w := range r.Working {
		if strings.HasPrefix(w.Say, begins) {
			return w.Put
		}
	}
	return ""
}

// What is weighed or read carries its ± to the answer (d).
func TestMountsCarryTheirErrors(t *testing.T) {
	r := reckoningtest.Run(t, Mass(), form{"layers": []form{{"name": "glass", "by": "volume", "width": "1 m", "height": "1 m", "thick": 3, "density": 2.5, "off": "4 %"}, {"name": "cloth", "width": 500, "height": 1000, "per_area": 150}, {"name": "frame", "by": "mass", "mass": "2 kg", "off": "10 g"}}})
	if v := reckoningtest.Value(t, r, "mass"); !reckoningtest.Near(*v.Low, 9575-310, 1e-12) || !reckoningtest.Near(*v.High, 9575+310, 1e-12) {
		t.Errorf("%+v", v)
	}
	if row := r.Tables[0].Rows[0]; strings.Join(row, "|") != "glass|1000 × 1000 mm × 3 mm × 2.5 g/mL|7.5 kg ± 300 g" {
		t.Errorf("%q", row)
	}
	if p := reckoningtest.Refused(t, Mass(), form{"layers": []form{{"name": "frame", "by": "mass", "mass": "100 g", "off": "100 g"}}}, "layers"); !strings.Contains(p.Say, "row 1, frame, may be off by 100 g") {
		t.Error(p.Say)
	}
	for _, c := range []struct {
		reckoning *reckoning.Reckoning
		form      form
		figure    string
		low, high float64
	}{
		{HangingStrip(), form{"edge": 960, "edge_pm": 3}, "strip", 937, 943},
		{Frame(), form{"width": 380, "height": 480, "mount": 6, "glazing": "none", "rest": 2, "rest_pm": 0.1, "factor": 4, "fixings": 2}, "each", 7.6, 8.4},
		{Slope(), form{"mass": 600, "angle": 30, "angle_pm": 2}, "along", 600 * math.Sin(28*math.Pi/180), 600 * math.Sin(32*math.Pi/180)},
		{Stitches(), form{"where": "edge", "along": 300, "along_pm": 4, "spacing": 4, "shortest": 3, "longest": 9}, "count", 75, 77},
		{Mount(), form{"width": 300, "height": 400, "board": 6, "loft": 4, "loft_pm": 1, "board_pm": 0.5}, "cover_width", 477, 483},
	} {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, c.reckoning, c.form), c.figure); v.Low == nil || !reckoningtest.Near(*v.Low, c.low, 1e-9) || !reckoningtest.Near(*v.High, c.high, 1e-9) {
			t.Errorf("%s: %+v, want %v to %v", c.reckoning.Name, v, c.low, c.high)
		}
	}
}

// Whoever typed inches reads every step that says millimetres in inches as well.
func TestWorkingInInches(t *testing.T) {
	for _, c := range []struct {
		reckoning *reckoning.Reckoning
		form      form
		step, put string
	}{
		{Mount(), form{"width": "12 in", "height": "16 in", "margin": "1.5 in", "board": "0.25 in", "loft": "0.25 in", "turn": "1.5 in"}, "Board, width", "12 in + 1.5 in + 1.5 in = 15 in (381 mm)"},
		{HangingStrip(), form{"edge": "38 in", "tape": "2 in", "short": "0.75 in", "wider": "0.2 in"}, "The strip", "38 in - 0.75 in = 37.25 in (946.15 mm)"},
		{Frame(), form{"width": "15 in", "height": "19 in", "mount": "0.25 in", "loft": "0.25 in", "glazing": "glass", "glass": "0.125 in", "rest": "5 lb", "factor": 4}, "Depth of the rebate", "0.25 in + 0.25 in + 0 in + 0 in + 0.125 in + 0 in = 0.625 in (15.88 mm)"},
		{Placing(), form{"AB": "12 in", "BC": "16 in", "CD": "12 in", "DA": "16 in", "AC": "20 in", "BD": "20 in", "width": "15 in", "height": "19 in", "spacing": "4 in"}, "Turned", "least margin 1.5 in (38.1 mm)"},
		{Cutting(), form{"stock_width": "32 in", "stock_length": "40 in", "pieces": []form{{"name": "a", "width": "12 in", "height": "16 in", "count": 2}}}, "Waste", "1 - 384 in² ÷ 512 in² = 25 %"},
		{Stitches(), form{"where": "edge", "along": "12 in", "spacing": "0.25 in", "shortest": "0.125 in", "longest": "0.375 in"}, "How many", "12 in ÷ 0.25 in: 49"},
		{Slope(), form{"mass": "2 lb", "angle": 30, "edge": "40 in"}, "Load on a metre", "453.6 g ÷ 40 in (1016 mm) = 446.4 g on a metre"},
	} {
		r := reckoningtest.Run(t, c.reckoning, c.form)
		if got := working(r, c.step); got != c.put {
			t.Errorf("%s: %q, want %q", c.reckoning.Name, got, c.put)
		}
		for _, w := range r.Working {
			if strings.Contains(w.Put, " mm") && !strings.Contains(w.Put, " in") {
				t.Errorf("%s, only millimetres: %q", c.reckoning.Name, w.Put)
			}
		}
	}
}
