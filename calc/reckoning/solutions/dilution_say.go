package solutions

import (
	"errors"

	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

func explainDilution(s *reckoning.Sheet, out *reckoning.Result) {
	workPercents(s, out, "", "stock", "wanted")
	workStrengths(s, out)
	if s.Choice("by") == byMass {
		workThinned(s, out)
	} else {
		workMeasured(s, out)
	}
	if s.Has("step") {
		workReading(s, out)
	}
	solutionPeople(out)
	out.People("If the stronger solution is an acid or alkali, add it to the water in small portions, never water to it: it can boil and spit.", aboutAcid)
	if s.Kind("stock") == unit.VolumeShareKind {
		out.People("Alcohols and other solvents burn: no flame or spark, air the room.", reckoning.CommonPractice)
		out.Object("Alcohol and water take up less room together than apart: make up to the mark, and do not add the two volumes.", shrinking)
	}
	out.Object("Label the weaker solution with substance, strength with w/v, v/v or w/w, date and name, and test it before the object meets it.", reckoning.CommonPractice)
}

// solutionPeople are the cautions that go with every solution that is made up.
func solutionPeople(out *reckoning.Result) {
	out.People("Read the safety data sheet of every substance before you open it, wear what it asks for, and follow local rules, for the drain as well.", reckoning.CommonPractice)
	out.People("Concentrates splash: gloves and eye protection on.", reckoning.CommonPractice)
}

// powderPeople is the caution where a powder is weighed.
func powderPeople(out *reckoning.Result) {
	out.People("Raise no dust when you weigh a powder: still air, the scoop close to the pan. Enzyme powder is a sensitiser when it is breathed in.", reckoning.CommonPractice)
}

// workStrengths brings strengths in different units to one.
func workStrengths(s *reckoning.Sheet, out *reckoning.Result) {
	mm := func() string { return reckoning.InUnit("g/mol", s.Base("molar_mass")) }
	for _, name := range []string{"stock", "wanted"} {
		c := inGramsPerLitre(s, name)
		title := s.Asked(name) + ", in grams."
		switch {
		case c == 0 || s.Kind("stock") == s.Kind("wanted") && name == "wanted":
		case s.Kind(name) == unit.FractionKind:
			out.Work(title, "g/L = 10 × % w/w × density in g/mL", "10 × "+reckoning.InUnit("% w/w", s.Base(name))+" × "+reckoning.InUnit("g/mL", s.Base("density"))+" = "+reckoning.Grams(c), dilution.Name)
		case s.Kind(name) == unit.MolarityKind:
			out.Work(title, "g/L = mol/L × g/mol", reckoning.InUnit("mol/L", s.Base(name))+" × "+mm()+" = "+reckoning.Grams(c), dilution.Name)
		}
	}
	if m, ok := out.Value("stock_molarity"); ok && s.Kind("stock") == unit.FractionKind {
		out.Work("The stronger, as an amount. It is multiplied by the density, never divided.", "mol/L = 10 × % w/w × density ÷ molar mass",
			"10 × "+unit.Text(s.Base("stock")*100, 4)+" × "+unit.Text(s.Base("density"), 4)+" ÷ "+unit.Text(s.Base("molar_mass"), 5)+" = "+unit.Text(m, 4)+" mol/L", toMolar.Name)
	}
}

func workThinned(s *reckoning.Sheet, out *reckoning.Result) {
	t := thinned(s)
	from, to := reckoning.InUnit("% w/w", s.Base("stock")), reckoning.InUnit("% w/w", s.Base("wanted"))
	if s.Kind("amount") == unit.VolumeKind {
		out.Work("What is there, weighed.", "mass = volume × density",
			reckoning.Volume(unit.Volume(s.Base("amount")))+" × "+reckoning.InUnit("g/mL", s.Base("density"))+" = "+reckoning.Weight(t.Stock), dilution.Name)
	}
	if s.Choice("know") == knowsTotal {
		out.Work("Stronger solution to weigh.", "m1 = m2 × w2 ÷ w1", reckoning.Weight(t.Total)+" × "+to+" ÷ "+from+" = "+reckoning.Weight(t.Stock), thinning.Name)
		out.Work("Water to weigh.", "water = m2 - m1", reckoning.Weight(t.Total)+" - "+reckoning.Weight(t.Stock)+" = "+reckoning.Weight(t.Water), thinning.Name)
		return
	}
	out.Work("Water to add.", "water = m1 × (w1 ÷ w2 - 1)", reckoning.Weight(t.Stock)+" × ("+from+" ÷ "+to+" - 1) = "+reckoning.Weight(t.Water), thinning.Name)
}

func workMeasured(s *reckoning.Sheet, out *reckoning.Result) {
	v, total := measured(s)
	stock, wanted := strengthText(s.Kind("stock"), s.Base("stock")), strengthText(s.Kind("wanted"), s.Base("wanted"))
	if s.Kind("stock") != s.Kind("wanted") {
		stock, wanted = reckoning.Grams(inGramsPerLitre(s, "stock")), reckoning.Grams(inGramsPerLitre(s, "wanted"))
	}
	if s.Choice("know") == knowsTotal {
		out.Work("Stronger solution to measure.", "V1 = C2 × V2 ÷ C1", wanted+" × "+reckoning.Volume(total)+" ÷ "+stock+" = "+reckoning.Volume(v), dilution.Name)
	} else {
		out.Work("What it is made up to.", "V2 = C1 × V1 ÷ C2", stock+" × "+reckoning.Volume(v)+" ÷ "+wanted+" = "+reckoning.Volume(total), dilution.Name)
	}
	out.Work("Put most of the water in first, add the stronger, then make up to "+s.Litres(total)+": the mark decides, not the water poured.",
		"", reckoning.Volume(total)+" - "+reckoning.Volume(v)+" = "+reckoning.Volume(total-v), reckoning.CommonPractice.Name)
}

// workReading says how well the amount can be read, and a way round where that is
// not well enough.
func workReading(s *reckoning.Sheet, out *reckoning.Result) {
	kind, taken, bath := unit.VolumeKind, 0.0, unit.Volume(0)
	if s.Choice("by") == byMass {
		kind, taken = unit.MassKind, thinned(s).Stock.Grams()
	} else {
		v, total := measured(s)
		taken, bath = v.Litres(), total
	}
	e := solution.ReadingError(s.Base("step"), taken)
	allowed := unit.Fraction(s.Base("tolerated"))
	out.Work("How well the amount can be read.", "error = step ÷ amount", reckoning.Handy(kind, s.Base("step"))+" ÷ "+reckoning.Handy(kind, taken)+" = "+reckoning.Share(e), readError.Name)
	if float64(e) <= float64(allowed)*(1+1e-9) {
		out.Verdict("way", "Way to measure it", "Directly: one reading is off by "+reckoning.Share(e)+" at most, within the "+reckoning.Share(allowed)+" tolerated.")
		return
	}
	if s.Choice("by") == byMass {
		least := unit.Mass(s.Base("step") / float64(allowed))
		out.Verdict("way", "Way to weigh it", "Too little for this balance: weigh at least "+reckoning.Weight(least)+", make more of the weaker solution, or thin it in two steps by volume.")
		return
	}
	if s.Choice("know") == knowsStock {
		out.Verdict("way", "Way to measure it", "Too little for this measure: one reading may be off by "+reckoning.Share(e)+". Take a finer measure.")
		return
	}
	step := unit.Volume(s.Base("step"))
	between(out, unit.VolumeKind, taken, bath, solution.Steps{First: step.Litres(), Measure: step, Allowed: allowed, Vessel: unit.Volume(s.Base("vessel"))}, "of the stronger solution")
}

// between says how an amount too small to read is taken by way of an
// intermediate stock, or why that does not work either. The amount is in the own
// unit of kind: grams or litres.
func between(out *reckoning.Result, kind unit.Kind, amount float64, bath unit.Volume, steps solution.Steps, what string) {
	b, err := solution.ByStock(amount, bath, steps)
	title := "Way to take it"
	switch {
	case err == nil:
	case errors.Is(err, solution.ErrDose):
		out.Verdict("way", title, "Too little for these instruments, also by an intermediate stock: what must be taken of that is more than the whole. Take a finer measure or make more.")
		return
	default:
		out.Verdict("way", title, "Too little for these instruments, also by one intermediate stock of up to "+reckoning.Volume(steps.Vessel)+". Take a finer balance or measure, a larger vessel, or tolerate a larger error.")
		return
	}
	first, dose, made := reckoning.Handy(kind, b.First), reckoning.Volume(b.Dose), reckoning.Volume(b.Made)
	out.Verdict("way", title, "By an intermediate stock: "+first+" "+what+" made up to "+made+", and "+dose+" of that into the bath. Both readings together are off by "+reckoning.Share(b.Error)+" at most.")
	table := out.Table("By an intermediate stock", "Step", "Take", "Make up to", "Reading error")
	table.Row("1, the intermediate stock", first+" "+what, made, reckoning.Share(solution.ReadingError(steps.First, b.First)))
	table.Row("2, the bath", dose+" of the intermediate stock", reckoning.Volume(bath), reckoning.Share(solution.ReadingError(steps.Measure.Litres(), b.Dose.Litres())))
	out.Work("What the dose holds.", "amount = first ÷ made up to × dose", first+" ÷ "+made+" × "+dose+" = "+reckoning.Handy(kind, amount), reckoning.Arithmetic.Name)
}

// strengthText writes a strength for the working, in the way it was given.
func strengthText(k unit.Kind, base float64) string {
	switch k {
	case unit.FractionKind:
		return reckoning.InUnit("% w/w", base)
	case unit.VolumeShareKind:
		return reckoning.InUnit("% v/v", base)
	}
	return reckoning.Handy(k, base)
}
