package solutions

import (
	"errors"
	"strings"

	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// Choices of the substance beside those that are listed.
const (
	ownFormula = "formula"
	ownMasses  = "masses"
)

// Hydrate is the reckoning that replaces one form of a substance by another.
func Hydrate() *reckoning.Reckoning {
	choices := make([]string, 0, 2*len(solution.Substances)+4)
	listed := []string{ownFormula}
	for _, s := range solution.Substances {
		choices = append(choices, s.Name, s.Title+", "+s.Formula)
		listed = append(listed, s.Name)
	}
	choices = append(choices, ownFormula, "another, by its formula", ownMasses, "another, by its molar masses")
	mass := reckoning.Quantity("mass", "The recipe asks for", "g", 0.0001, 1e6)
	return (&reckoning.Reckoning{
		Name: "hydrate", Title: "Anhydrous or with water", Asks: "My jar holds another form, with or without crystal water, than the recipe asks for: how much do I weigh?", Family: family,
		Inputs: []reckoning.Input{
			mass,
			reckoning.Choose("substance", "Substance", choices...),
			reckoning.Text("formula", "Formula without the water").If("substance", ownFormula).Note("Such as Na2CO3 or (NH4)2HC6H5O7."),
			reckoning.Number("asked_waters", "Waters in the form that the recipe asks for", 0, 24).If("substance", listed...).Note("0 is anhydrous, 1 a monohydrate, 2 a dihydrate, 10 a decahydrate; 0.5 a half."),
			reckoning.Number("have_waters", "Waters in the form in the jar", 0, 24).If("substance", listed...).Note("From its label."),
			reckoning.Quantity("asked_molar_mass", "Molar mass that the recipe asks for", "g/mol", 10, 500000).If("substance", ownMasses),
			reckoning.Quantity("have_molar_mass", "Molar mass of what is in the jar", "g/mol", 10, 500000).If("substance", ownMasses),
			reckoning.PlusMinus(&mass),
		},
		Results: []reckoning.ResultSpec{
			{Name: "take", Title: "Weigh out", Unit: "g"},
			{Name: "ratio", Title: "For each gram of the recipe", Unit: "g"},
			{Name: "amount", Title: "As an amount", Unit: "mmol"},
			{Name: "asked", Title: "Molar mass that the recipe asks for", Unit: "g/mol", Digits: 6},
			{Name: "have", Title: "Molar mass of what is in the jar", Unit: "g/mol", Digits: 6},
			{Name: "mistaken", Title: "Wrong: strength if the same mass were taken", Unit: "%"},
		},
		Sources: reckoning.From(&weightsOf, &weightsToo, &printed178, &swapping, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"mass":"10 g","substance":"citric_acid","asked_waters":"1","have_waters":"0"}`,
		Prepare: prepareHydrate, Figures: hydrateFigures, Explain: explainHydrate,
	}).Ready()
}

// dryMass returns the molar mass without water, and the formula it comes from.
func dryMass(s *reckoning.Sheet) (unit.MolarMass, string, error) {
	formula := s.Words("formula")
	if s.Choice("substance") != ownFormula {
		formula = listedSubstance(s).Formula
	}
	m, err := solution.MolarMassOf(formula)
	return m, formula, err
}

func listedSubstance(s *reckoning.Sheet) solution.Substance {
	for _, one := range solution.Substances {
		if one.Name == s.Choice("substance") {
			return one
		}
	}
	return solution.Substance{}
}

func prepareHydrate(s *reckoning.Sheet) {
	if s.Choice("substance") != ownFormula {
		return
	}
	switch _, _, err := dryMass(s); {
	case errors.Is(err, solution.ErrElement):
		s.Fault("formula", "it names an element that is not listed here. Capital and small letters matter: Co is cobalt, CO carbon and oxygen.")
	case err != nil:
		s.Fault("formula", "it is no chemical formula such as Na2CO3.")
	}
}

// twoForms returns the molar masses of the form asked for and of the one there.
func twoForms(s *reckoning.Sheet) (asked, have unit.MolarMass) {
	if s.Choice("substance") == ownMasses {
		return unit.MolarMass(s.Base("asked_molar_mass")), unit.MolarMass(s.Base("have_molar_mass"))
	}
	dry, _, _ := dryMass(s)
	return solution.Hydrated(dry, s.Base("asked_waters")), solution.Hydrated(dry, s.Base("have_waters"))
}

func hydrateFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	asked, have := twoForms(s)
	m := unit.Mass(s.Base("mass"))
	var out reckoning.Figures
	out.Add("take", solution.Instead(m, asked, have).Grams())
	out.Add("ratio", float64(have/asked))
	out.Add("amount", m.Grams()/float64(asked))
	out.Add("asked", float64(asked))
	out.Add("have", float64(have))
	if have != asked {
		out.Add("mistaken", float64(asked/have))
	}
	return out, nil
}

func explainHydrate(s *reckoning.Sheet, out *reckoning.Result) {
	asked, have := twoForms(s)
	if s.Choice("substance") != ownMasses {
		dry, formula, _ := dryMass(s)
		source := weightsOf
		if solution.FromMemory(formula) {
			source = weightsToo
		}
		out.Work("Molar mass without water, by adding atomic weights up.", formula, unit.Text(float64(dry), 6)+" g/mol", source.Name)
		workWaters(s, out, "asked_waters", dry, asked)
		workWaters(s, out, "have_waters", dry, have)
	}
	m := unit.Mass(s.Base("mass"))
	out.Work("The same amount in the form that is there.", "take = mass × M(jar) ÷ M(recipe)",
		reckoning.Weight(m)+" × "+unit.Text(float64(have), 6)+" ÷ "+unit.Text(float64(asked), 6)+" = "+reckoning.Weight(solution.Instead(m, asked, have)), swapping.Name)
	if have != asked {
		out.Work("The usual mistake: the same mass of the other form makes "+unit.Text(100*float64(asked/have), 3)+" % of the strength wanted.", "M(recipe) ÷ M(jar)", "", reckoning.Arithmetic.Name)
	}
	if one := listedSubstance(s); one.Name == "disodium_hydrogen_phosphate" && (s.Base("asked_waters") == 2 || s.Base("have_waters") == 2) {
		workPrinted(out)
	}
	notSold(s, out)
	solutionPeople(out)
	powderPeople(out)
	out.Object("An old jar may have taken up or lost water, so that no label is right: keep it closed, and measure the pH or conductivity of what you made.", reckoning.CommonPractice)
}

func workWaters(s *reckoning.Sheet, out *reckoning.Result, name string, dry, with unit.MolarMass) {
	n := s.Base(name)
	if n == 0 {
		return
	}
	out.Work(s.Asked(name)+".", "M = M(dry) + n × 18.015", unit.Text(float64(dry), 6)+" + "+unit.Text(n, 3)+" × "+unit.Text(float64(solution.Water), 5)+" = "+unit.Text(float64(with), 6)+" g/mol", weightsOf.Name)
}

// workPrinted says that a page prints another molar mass for a phosphate than its
// formula has.
func workPrinted(out *reckoning.Result) {
	out.Work("A laboratory recipe prints 178.05 g/mol for disodium hydrogen phosphate dihydrate. The formula gives 177.99, which is taken here; the mass differs by 0.03 %.", "", "", printed178.Name)
}

// notSold warns of a number of waters in which a substance is not commonly sold.
func notSold(s *reckoning.Sheet, out *reckoning.Result) {
	one := listedSubstance(s)
	if one.Name == "" {
		return
	}
	var usual []string
	for _, w := range one.Waters {
		usual = append(usual, unit.Text(w, 3))
	}
	for _, name := range []string{"asked_waters", "have_waters"} {
		if n := s.Base(name); !one.Sold(n) {
			out.Object("With "+unit.Text(n, 3)+" waters "+one.Title+" is not commonly sold; it is with "+strings.Join(usual, ", ")+". Look at the label again.", reckoning.CommonPractice)
		}
	}
}
