package hours

import (
	"slices"

	"sinkside/calc/effort"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

func explainEstimate(s *reckoning.Sheet, out *reckoning.Result) {
	table := out.Table("Step by step", "Step", "Times", "Hours, median", "Spread", "Rests on")
	single := "" // steps that rest on one past step alone
	for _, row := range s.Rows("steps") {
		f, _ := foretold(s, row)
		all := f.Scaled(row.Base("times"))
		between := unit.Text(all.Low, 3) + " to " + unit.Text(all.High, 3)
		if f.N == 1 {
			between = "not known"
			if single != "" {
				single += ", "
			}
			single += row.Words("step")
		}
		table.Row(row.Words("step"), unit.Text(row.Base("times"), 3), unit.Text(all.Median, 3), between, restsOn(f))
	}
	if single != "" {
		out.Object("One past step alone shows no spread, so the range leaves out what these may differ by: "+single+".", reckoning.Arithmetic)
	}
	low, median, high := sums(s)
	h := func(x float64) string { return reckoning.InUnit("h", x) }
	out.Work("For each step the median of the past ones of its kind, times how often it is planned; where size counts, of the hours for each square metre, times the area. On the same kind of object alone where there are three or more of those.", "hours = Σ times × median", h(median), medians.Name)
	out.Work("The range adds all the low ends and all the high ends. It is wider than chance alone would make it, since not all steps go badly at once.", "low to high = Σ times × quartile", h(low)+" to "+h(high), medians.Name)
	bought, more := materials(s), s.Base("contingency")
	if _, work, _, ok := workCosts(s); ok {
		out.Work("Work at the rate of each step, materials and contingency.", "total = (Σ hours × rate + materials) × (1 + contingency)",
			"("+paid(s)+" + "+unit.Text(bought, 6)+") × "+unit.Text(1+more, 4)+" = "+unit.Text((work+bought)*(1+more), money), reckoning.Arithmetic.Name)
	} else {
		out.NotKnown("total", s.Title("total"), "Not known without a rate for every step.")
	}
	out.Object("This is what like work took before, not what this object will ask for. Say to the owner which steps rest on few past ones.", reckoning.CommonPractice)
	out.Object("Past times from a log are how long a step lasted, not how long somebody stood at it: take out a drying that nobody sat by, or put in the time of its checks.", reckoning.CommonPractice)
	out.Object("Have the plan approved in writing, and approved anew where it changes much.", planning)
}

// paid writes the hours of the planned steps with the rate of each, those at one rate
// together, in the order in which each rate comes first.
func paid(s *reckoning.Sheet) string {
	var rates, hours []float64
	for _, row := range s.Rows("steps") {
		rate := s.Base("rate")
		if row.Has("rate") {
			rate = row.Base("rate")
		}
		i := slices.Index(rates, rate)
		if i < 0 {
			i, rates, hours = len(rates), append(rates, rate), append(hours, 0)
		}
		f, _ := foretold(s, row)
		hours[i] += float64(f.Median * row.Base("times"))
	}
	say := ""
	for i, rate := range rates {
		if say != "" {
			say += " + "
		}
		say += reckoning.InUnit("h", hours[i]) + " × " + unit.Text(rate, 6)
	}
	return say
}

func restsOn(f effort.Foretold) string {
	say := reckoning.Counted(f.N, "past step")
	if f.Alike {
		say += ", same kind of object"
	}
	if !f.Quartiles {
		say += ", too few for quartiles: least to most"
	}
	return say
}
