package mounts

import (
	"fmt"
	"strings"
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

// Sheets that are alike are drawn once; beyond what a person scrolls through it is said
// which are not drawn.
func TestEverySheetIsDrawnOrNamed(t *testing.T) {
	f := form{"stock_width": 100, "stock_length": 100, "pieces": []form{{"name": "a", "width": 90, "height": 90, "count": 20, "grain": "free"}, {"name": "b", "width": 60, "height": 60, "count": 1, "grain": "free"}}}
	r := reckoningtest.Run(t, Cutting(), f)
	if len(r.Pictures) != 2 || r.Pictures[0].Title != "Sheets 1 to 20, all alike" || r.Pictures[1].Title != "Sheet 21" || len(r.Verdicts) != 0 {
		t.Errorf("%+v %+v", r.Pictures, r.Verdicts)
	}
	var pieces []form
	for i := range 30 {
		pieces = append(pieces, form{"name": fmt.Sprintf("piece %d", i+1), "width": 90 - i, "height": 90, "grain": "along"})
	}
	r = reckoningtest.Run(t, Cutting(), form{"stock_width": 100, "stock_length": 100, "pieces": pieces})
	if v := reckoningtest.Value(t, r, "sheets"); v.Value != 30 || len(r.Pictures) != 20 {
		t.Errorf("%v sheets, %d pictures", v.Value, len(r.Pictures))
	}
	if say := reckoningtest.Verdict(t, r, "drawn"); !strings.HasPrefix(say, "Sheets 21 to 30 are not drawn.") || len(r.Tables[0].Rows) != 30 {
		t.Error(say)
	}
}

// A refusal says what was typed, to the last figure, and in inches to those who typed
// them.
func TestWhatIsTooLargeIsSaidExactly(t *testing.T) {
	f := form{"stock_width": 400, "stock_length": 12340, "pieces": []form{{"name": "long", "width": 300, "height": 12345.5, "grain": "along"}}}
	if p := reckoningtest.Refused(t, Cutting(), f, "pieces"); !strings.Contains(p.Say, "long of 300 × 12\u00a0345.5 mm, is larger than the stock of 400 × 12\u00a0340 mm.") {
		t.Error(p.Say)
	}
	f = form{"stock_width": "40 cm", "stock_length": "1234 cm", "pieces": []form{{"name": "long", "width": "30 cm", "height": "1234.55 cm", "grain": "along"}}}
	if p := reckoningtest.Refused(t, Cutting(), f, "pieces"); !strings.Contains(p.Say, "long of 30 × 1234.55 cm (300 × 12\u00a0345.5 mm), is larger than the stock of 40 × 1234 cm (400 × 12\u00a0340 mm).") {
		t.Error(p.Say)
	}
	f = form{"stock_width": "16 in", "stock_length": "40 in", "pieces": []form{{"name": "long", "width": "12 in", "height": "40.125 in", "grain": "along"}}}
	if p := reckoningtest.Refused(t, Cutting(), f, "pieces"); !strings.Contains(p.Say, "long of 12 × 40.125 in (304.8 × 1019.18 mm), is larger than the stock of 16 × 40 in (406.4 × 1016 mm).") {
		t.Error(p.Say)
	}
}

// Too short a length of cloth says how much these pieces take, and that length then
// does: two of 600 mm do not lie beside each other on 1000.
func TestTooShortAClothSaysHowMuchItTakes(t *testing.T) {
	f := form{"stock": "cloth", "stock_width": 1000, "stock_length": 900, "pieces": []form{{"name": "a", "width": 600, "height": 800, "count": 2, "grain": "along"}}}
	if p := reckoningtest.Refused(t, Cutting(), f, "stock_length"); p.Allowed != "at least 1600 mm" || !strings.Contains(p.Say, "they take 1600 mm") {
		t.Errorf("%+v", p)
	}
	r := reckoningtest.Run(t, Cutting(), f.With(form{"stock_length": 1600}))
	if v := reckoningtest.Value(t, r, "used"); v.Value != 1600 || r.Pictures[0].Title != "The cloth, as far as it is used" {
		t.Errorf("%+v", v)
	}
}

// Four hundred pieces are laid out and drawn.
func TestFourHundredPieces(t *testing.T) {
	f := form{"stock_width": 1000, "stock_length": 1000, "pieces": []form{{"name": "a", "width": 95, "height": 95, "count": 100, "grain": "free"}, {"name": "b", "width": 45, "height": 95, "count": 100, "grain": "along"}, {"name": "c", "width": 45, "height": 45, "count": 100, "grain": "free"}, {"name": "d", "width": 20, "height": 30, "count": 100, "grain": "across"}}}
	r := reckoningtest.Run(t, Cutting(), f)
	drawn := 0
	for _, p := range r.Pictures {
		drawn += len(p.Shapes)
	}
	if len(r.Tables[0].Rows) != 400 || drawn != 400 {
		t.Errorf("%d rows, %d drawn", len(r.Tables[0].Rows), drawn)
	}
}
