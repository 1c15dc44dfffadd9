package hours

import (
	"sinkside/calc/effort"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Spent adds the hours of a log up by kind of step.
func Spent() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "hours", Title: "Hours by kind of step", Asks: "How many hours has this treatment taken, and on what?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Rows("work", "Work done", mostRows,
				reckoning.Text("step", "Kind of step"),
				took(), people(),
			).Note("One row for each time. From a treatment its log fills these in."),
			reckoning.Number("rate", "Rate for an hour of one person", 0, 1e6).Maybe().Note("In your currency."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "hours", Title: "All hours of work", Unit: "h"},
			{Name: "lasted", Title: "All steps one after the other", Unit: "h"},
			{Name: "cost", Title: "Cost of the work, in your currency", Digits: money},
		},
		Sources: reckoning.From(&planning, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"work":[{"step":"Surface cleaning","took":"1.5"},{"step":"Wash","took":"25 min","people":2},{"step":"Rinse","took":"12 min","people":2},{"step":"Rinse","took":"15 min","people":2},{"step":"Drying","took":"18 h"}],"rate":"42"}`,
		Figures: spentFigures, Explain: explainSpent,
	}).Ready()
}

// worked is the work of a row: how long the step took, times the people at it.
func worked(row *reckoning.Sheet) float64 { return float64(row.Base("took") * row.Base("people")) }

// work returns the rows as hours of work, and how long all of them lasted.
func work(s *reckoning.Sheet) (done []effort.Done, lasted float64) {
	for _, row := range s.Rows("work") {
		lasted += row.Base("took")
		done = append(done, effort.Done{Step: row.Words("step"), Hours: worked(row)})
	}
	return done, lasted
}

func total(sums []effort.Sum) float64 {
	x := 0.0
	for _, sum := range sums {
		x += sum.Hours
	}
	return x
}

func spentFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	done, lasted := work(s)
	all := total(effort.Sums(done))
	var out reckoning.Figures
	out.Add("hours", all)
	out.Add("lasted", lasted)
	if s.Has("rate") {
		out.Add("cost", all*s.Base("rate"))
	}
	return out, nil
}

func explainSpent(s *reckoning.Sheet, out *reckoning.Result) {
	done, lasted := work(s)
	sums := effort.Sums(done)
	all := total(sums)
	table := out.Table("Hours by kind of step", "Step", "Times", "Hours", "Share")
	for _, sum := range sums {
		share := "-"
		if all > 0 {
			share = unit.Text(100*sum.Hours/all, 3) + " %"
		}
		table.Row(sum.Step, unit.Text(float64(sum.Times), 3), unit.Text(sum.Hours, 3), share)
	}
	out.Work("Hours of work: how long each step took, times the people at it.", "hours = Σ took × people", reckoning.Counted(len(done), "row")+", "+reckoning.InUnit("h", all)+" of work within "+reckoning.InUnit("h", lasted), reckoning.Arithmetic.Name)
	if s.Has("rate") {
		out.Work("Cost of the work.", "cost = hours × rate", reckoning.InUnit("h", all)+" × "+unit.Text(s.Base("rate"), 6)+" = "+unit.Text(all*s.Base("rate"), 4), reckoning.Arithmetic.Name)
	} else {
		out.NotKnown("cost", s.Title("cost"), "Not known without a rate.")
	}
	out.Object("A log knows how long a step lasted, not how long somebody stood at it: a drying that nobody sat by is in here with all its hours. Take its row out, or put in the minutes of its checks.", reckoning.CommonPractice)
	out.Object("What no step was begun for, such as reading, talking with the owner and writing the report, is in no log. Add rows for it.", reckoning.CommonPractice)
}
