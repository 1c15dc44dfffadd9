package hours

import (
	"strings"

	"sinkside/calc/effort"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// How a step is compared with past ones.
const (
	anySize = "any_size"
	byArea  = "by_area"
)

// Estimate foretells hours and cost of a new treatment from past ones.
func Estimate() *reckoning.Reckoning {
	object := func(title string) reckoning.Input {
		return reckoning.Text("object", title).Maybe().Note("Such as flag, bonnet, sampler: a word that you use each time.")
	}
	area := func(title string) reckoning.Input {
		return reckoning.Quantity("area", title, "m²", 0.0001, 500).Maybe()
	}
	return (&reckoning.Reckoning{
		Name: "estimate", Title: "Estimate from past treatments", Asks: "How many hours may a new treatment take, and what may it cost?", Family: family,
		Inputs: []reckoning.Input{
			object("Kind of object"), area("Area of the object"),
			reckoning.Rows("steps", "Steps planned", 30,
				reckoning.Text("step", "Kind of step"),
				reckoning.Count("times", "Times", 1, 100).Usually("1"),
				reckoning.Choose("size", "It takes", anySize, "as long for any size", byArea, "longer for a larger object"),
				reckoning.Number("rate", "Its own rate for an hour", 0, 1e6).Maybe(),
			),
			reckoning.Rows("past", "Past steps", mostRows, reckoning.Text("step", "Kind of step"), object("Kind of object"), area("Area"), took(), people()),
			reckoning.Number("rate", "Rate for an hour", 0, 1e6).Maybe().Note("In your currency. Of steps that have none of their own."),
			reckoning.Rows("materials", "Materials", 30, reckoning.Text("name", "Name"), reckoning.Number("amount", "Amount", 0, 1e6), reckoning.Number("price", "Price of one", 0, 1e6)).Maybe(),
			reckoning.Quantity("contingency", "Contingency", "%", 0, 200).In("%").Usually("10").Note("Added on top for what nobody foresees. Yours to choose; 10 is often taken."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "hours", Title: "Hours, by the medians", Unit: "h"},
			{Name: "work_cost", Title: "Cost of the work, in your currency", Digits: money},
			{Name: "materials_cost", Title: "Cost of the materials, in your currency", Digits: money},
			{Name: "total", Title: "All with contingency, in your currency", Digits: money},
		},
		Sources: reckoning.From(&medians, &planning, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"object":"flag","area":"1.2 m²","steps":[{"step":"Wash","times":2},{"step":"Stitching","size":"by_area"},{"step":"Report"}],"past":[{"step":"Wash","object":"flag","area":"2 m²","took":"0.8"},{"step":"Wash","object":"bonnet","area":"0.1","took":"0.5"},{"step":"Wash","object":"flag","area":"1","took":"0.7"},{"step":"Stitching","object":"flag","area":"2","took":"22"},{"step":"Stitching","object":"flag","area":"1","took":"9"},{"step":"Stitching","object":"flag","area":"1.4","took":"17"},{"step":"Report","took":"3.5"},{"step":"Report","took":"5"}],"rate":"42","materials":[{"name":"silk crepeline, metre","amount":"2","price":"31,5"},{"name":"thread","amount":"1","price":"9"}]}`,
		Prepare: prepareEstimate, Figures: estimateFigures, Explain: explainEstimate,
	}).Ready()
}

func prepareEstimate(s *reckoning.Sheet) {
	for i, row := range s.Rows("steps") {
		_, why := foretold(s, row)
		switch {
		case row.Choice("size") == byArea && !s.Has("area"):
			s.Missing("area", "it is needed, since "+row.Words("step")+" is to take longer for a larger object.")
		case why != nil:
			s.Fault("steps", "row "+unit.Text(float64(i+1), 3)+", "+row.Words("step")+": "+why.Error()+"; there are "+kinds(s)+". Add past ones, or leave it out and add its hours yourself.")
		}
	}
}

func pastOf(s *reckoning.Sheet) []effort.Done {
	var past []effort.Done
	for _, p := range s.Rows("past") {
		past = append(past, effort.Done{Step: p.Words("step"), Object: p.Words("object"), Area: p.Base("area"), Hours: worked(p)})
	}
	return past
}

// kinds lists the kinds of the past steps.
func kinds(s *reckoning.Sheet) string {
	var names []string
	for _, sum := range effort.Sums(pastOf(s)) {
		names = append(names, sum.Step)
	}
	return strings.Join(names, ", ")
}

// foretold returns what a planned step takes once.
func foretold(s, row *reckoning.Sheet) (effort.Foretold, error) {
	return effort.Foretell(pastOf(s), row.Words("step"), s.Words("object"), s.Base("area"), row.Choice("size") == byArea)
}

// sums adds up what all planned steps take, least, by the medians, and most.
func sums(s *reckoning.Sheet) (low, median, high float64) {
	for _, row := range s.Rows("steps") {
		f, _ := foretold(s, row)
		all := f.Scaled(row.Base("times"))
		low, median, high = low+all.Low, median+all.Median, high+all.High
	}
	return low, median, high
}

// workCosts adds up what all planned steps cost, least, by the medians, and most;
// false where the rate of one of them is not known.
func workCosts(s *reckoning.Sheet) (low, median, high float64, ok bool) {
	for _, row := range s.Rows("steps") {
		rate := s.Base("rate")
		switch {
		case row.Has("rate"):
			rate = row.Base("rate")
		case !s.Has("rate"):
			return 0, 0, 0, false
		}
		f, _ := foretold(s, row)
		all := f.Scaled(float64(row.Base("times") * rate))
		low, median, high = low+all.Low, median+all.Median, high+all.High
	}
	return low, median, high, true
}

func materials(s *reckoning.Sheet) float64 {
	x := 0.0
	for _, row := range s.Rows("materials") {
		x += float64(row.Base("amount") * row.Base("price"))
	}
	return x
}

func estimateFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	low, median, high := sums(s)
	bought, more := materials(s), 1+s.Base("contingency")
	var out reckoning.Figures
	out.Between("hours", median, low, high)
	if low, median, high, ok := workCosts(s); ok {
		with := func(work float64) float64 { return (work + bought) * more }
		out.Between("work_cost", median, low, high)
		out.Between("total", with(median), with(low), with(high))
	}
	if s.Has("materials") {
		out.Add("materials_cost", bought)
	}
	return out, nil
}
