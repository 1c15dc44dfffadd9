package reckoning

import (
	"testing"

	"sinkside/sync/jsontext"
)

// A figure that has a range of its own keeps it, and widens it where an input is
// uncertain as well.
func TestAFigureMayHaveARangeOfItsOwn(t *testing.T) {
	length := Quantity("length", "Length", "mm", 0, 1000)
	r := (&Reckoning{
		Name: "twice", Title: "Twice", Asks: "What is twice as long?", Inputs: []Input{length, PlusMinus(&length)}, Sources: From(&Arithmetic),
		Results: []ResultSpec{{Name: "twice", Title: "Twice", Unit: "mm"}, {Name: "below", Title: "Below", Unit: "mm", Signed: true}},
		Figures: func(s *Sheet) (Figures, *Problem) {
			var out Figures
			x := s.Base("length")
			out.Between("twice", 2*x, 2*x-1, 2*x+3)
			out.Add("below", -x)
			return out, nil
		},
		Explain: func(*Sheet, *Result) {},
	}).Ready()
	for _, row := range []struct {
		in        string
		low, high float64
	}{{`{"length":10}`, 19, 23}, {`{"length":10,"length_pm":2}`, 15, 27}} {
		out, problems := List{r}.Run("twice", jsontext.Value(row.in))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if v := out.Values[0]; v.Value != 20 || v.Low == nil || *v.Low != row.low || *v.High != row.high {
			t.Errorf("%s: %+v, want 20 within %v to %v", row.in, v, row.low, row.high)
		}
		if x, _ := out.Value("below"); x != -10 {
			t.Errorf("below = %v: a figure that may be below nought was not let through", x)
		}
	}
}
