package reckoning

import (
	"strings"
	"testing"

	"sinkside/sync/jsontext"
)

// pieces has one table and one name, and adds the lengths of its rows up.
func pieces() *Reckoning {
	return (&Reckoning{
		Name: "pieces", Title: "Pieces", Asks: "How long are they together?", Family: "Tests",
		Inputs: []Input{
			Text("who", "Who cuts").Maybe(),
			Rows("pieces", "Pieces", 3, Text("name", "Name"), Quantity("length", "Length", "mm", 1, 5000), Count("count", "How many", 1, 50).Usually("1"), Choose("grain", "Grain", "along", "along", "free", "free")),
		},
		Results: []ResultSpec{{Name: "sum", Title: "Together", Unit: "mm"}},
		Sources: From(&Arithmetic),
		Figures: func(s *Sheet) (Figures, *Problem) {
			var out Figures
			sum := 0.0
			for _, row := range s.Rows("pieces") {
				sum += row.Base("length") * row.Base("count")
			}
			out.Add("sum", sum)
			return out, nil
		},
		Explain: func(s *Sheet, out *Result) {
			table := out.Table("Pieces", "name", "grain")
			for _, row := range s.Rows("pieces") {
				table.Row(row.Words("name"), row.Choice("grain"))
			}
			out.Object("For "+s.Words("who")+".", Arithmetic)
		},
	}).Ready()
}

func TestATableIsReadRowByRow(t *testing.T) {
	in := `{"who":" Osk Tarrin ","pieces":[{"name":"board","length":"38 cm","count":2,"grain":"free"},{"name":"cloth","length":{"value":"1,5","unit":"m"}}]}`
	r, problems := List{pieces()}.Run("pieces", jsontext.Value(in))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if sum, _ := r.Value("sum"); sum != 2*380+1500 {
		t.Errorf("sum = %v", sum)
	}
	if rows := r.Tables[0].Rows; rows[0][0] != "board" || rows[0][1] != "free" || rows[1][1] != "along" {
		t.Errorf("rows = %q", rows)
	}
	if r.Cautions[0].Say != "For Osk Tarrin." {
		t.Errorf("cautions = %+v", r.Cautions)
	}
}

func TestWhatIsWrongInARowIsToldOfIt(t *testing.T) {
	rows := []struct{ in, field, say string }{
		{`{"pieces":[{"name":"a","length":10},{"name":"b","length":"6 m"}]}`, "pieces.2.length", "Row 2: Length: 6 m is not within 0.001 to 5 m."},
		{`{"pieces":[{"length":10}]}`, "pieces.1.name", "Row 1: Name: nothing is given yet."},
		{`{"pieces":[{"name":"a","length":10,"grain":"askew"}]}`, "pieces.1.grain", "it is one of along, free."},
		{`{"pieces":[{"name":"a","length":10,"width":10}]}`, "pieces.1.width", "There is no input of this name."},
		{`{"pieces":[7]}`, "pieces.1", "Row 1: "},
		{`{"pieces":7}`, "pieces", "a list of rows is expected."},
		{`{"pieces":[]}`, "pieces", "there is no row yet."},
		{`{}`, "pieces", "there is no row yet."},
		{`{"pieces":[{"name":"a","length":1},{"name":"a","length":1},{"name":"a","length":1},{"name":"a","length":1}]}`, "pieces", "there are 4 rows, and 3 at most are taken."},
		{`{"who":"` + strings.Repeat("é", MostText+1) + `","pieces":[{"name":"a","length":1}]}`, "who", "it is longer than 60 characters."},
	}
	for _, row := range rows {
		_, problems := List{pieces()}.Run("pieces", jsontext.Value(row.in))
		if len(problems) != 1 || problems[0].Field != row.field || !strings.Contains(problems[0].Say, row.say) {
			t.Errorf("%s: %+v, want %s: %s", row.in, problems, row.field, row.say)
		}
	}
}
