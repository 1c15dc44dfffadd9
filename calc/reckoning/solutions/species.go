package solutions

import (
	"strconv"

	"sinkside/calc/buffer"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// acids are those whose species are listed, with the names of these.
var acids = []struct {
	buffer.Acid
	source  *reckoning.Source
	species [4]string
}{
	{buffer.Citric, &citricPK, [4]string{"citric acid", "dihydrogen citrate⁻", "hydrogen citrate²⁻", "citrate³⁻"}},
	{buffer.Phosphoric, &otherPK, [4]string{"phosphoric acid", "dihydrogen phosphate⁻", "hydrogen phosphate²⁻", "phosphate³⁻"}},
}

// Species is the reckoning of how an acid is shared out at a pH.
func Species() *reckoning.Reckoning {
	results := []reckoning.ResultSpec{
		{Name: "f0", Title: "With all its protons", Unit: "%"},
		{Name: "f1", Title: "One proton lost", Unit: "%"},
		{Name: "f2", Title: "Two protons lost", Unit: "%"},
		{Name: "f3", Title: "All three protons lost", Unit: "%"},
		{Name: "charge", Title: "Mean negative charge", Unit: ""},
	}
	for i, title := range []string{"With all its protons, in a litre", "One proton lost, in a litre", "Two protons lost, in a litre", "All three protons lost, in a litre"} {
		results = append(results, reckoning.ResultSpec{Name: "c" + strconv.Itoa(i), Title: title, Unit: "mmol/L"})
	}
	return (&reckoning.Reckoning{
		Name: "species", Title: "Forms of an acid at a pH", Asks: "How much of the citrate or phosphate is in which form at this pH?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("acid", "Acid", buffer.Citric.Name, "citric acid", buffer.Phosphoric.Name, "phosphoric acid"),
			reckoning.Number("ph", "pH", 0, 14),
			reckoning.Quantity("total", "All of it together", "mmol/L", 0.001, 5000).Maybe().Note("In whatever form it went in. Gives the concentrations."),
			reckoning.Number("off", "± pH", 0, 2).Usually("0.4").Note("How far pH and constants together may be off. Ideal equations miss 0.05 mol/L citrate by 0.35 and citrate-phosphate by 0.74."),
		},
		Results: results,
		Sources: reckoning.From(&speciesSum, &citricPK, &otherPK, &bands, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"acid":"citric","ph":"5.2","total":"20 mmol/L","off":"0.4"}`,
		Usual:   bands.Name,
		Figures: speciesFigures, Explain: explainSpecies,
	}).Ready()
}

func acidOf(s *reckoning.Sheet) (buffer.Acid, *reckoning.Source, [4]string) {
	for _, a := range acids {
		if a.Name == s.Choice("acid") {
			return a.Acid, a.source, a.species
		}
	}
	return acids[0].Acid, acids[0].source, acids[0].species
}

func speciesFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	a, _, _ := acidOf(s)
	pH, off := s.Base("ph"), s.Base("off")
	var out, amounts reckoning.Figures
	for i, f := range a.Fractions(pH) {
		n := strconv.Itoa(i)
		low, high := a.FractionBetween(i, pH-off, pH+off)
		low, high = min(low, f), max(high, f) // the last bits
		out.Between("f"+n, f, low, high)
		if c := s.Base("total"); c > 0 {
			amounts.Between("c"+n, float64(f*c), float64(low*c), float64(high*c))
		}
	}
	out.Between("charge", a.Charge(pH), a.Charge(pH-off), a.Charge(pH+off))
	return append(out, amounts...), nil
}

func explainSpecies(s *reckoning.Sheet, out *reckoning.Result) {
	a, source, names := acidOf(s)
	fractions := a.Fractions(s.Base("ph"))
	table := out.Table("At pH "+unit.Text(s.Base("ph"), 4), "Form", "Share", "Concentration")
	for i, f := range fractions {
		c := ""
		if s.Has("total") {
			c = unit.Text(s.Base("total")*f*1000, 4) + " mmol/L"
			if f < reckoning.Least {
				c = "hardly any"
			}
		}
		table.Row(names[i], reckoning.Share(unit.Fraction(f)), c)
	}
	constants := ""
	for i, pK := range a.PK {
		if i > 0 {
			constants += ", "
		}
		constants += unit.Text(pK, 5)
	}
	out.Work("Constants, as pK, at 25 °C.", "", constants, source.Name)
	for i, pK := range a.PK {
		out.Work("How many times as much "+names[i+1]+" as "+names[i]+".", "10^(pH - pK)", "10^("+unit.Text(s.Base("ph"), 4)+" - "+unit.Text(pK, 5)+") = "+timesText(buffer.Ratio(pK, s.Base("ph"))), speciesSum.Name)
	}
	out.Work("Shared out so that all of it is 100 %. The ranges are what ±"+unit.Text(s.Base("off"), 3)+" in the pH makes of it.", "", "", bands.Name)
	solutionPeople(out)
	out.Object("The constants are for water without salt at 25 °C. In a buffer of 0.1 mol/L those of the later protons are lower by some tenths.", bands)
}

// timesText writes a ratio that may be far from 1.
func timesText(r float64) string {
	if r < 1e-6 {
		return "less than 0.000001"
	}
	if r > 1e6 {
		return "more than 1 000 000"
	}
	return unit.Text(r, 4)
}
