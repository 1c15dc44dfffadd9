package climate

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/salts"
	"sinkside/calc/unit"
)

// Chamber reckons how long a chamber takes to a humidity.
func Chamber() *reckoning.Reckoning {
	percent := func(name, title string, least, most float64) reckoning.Input {
		return reckoning.Quantity(name, title, "%", least, most).In("%")
	}
	exchange := reckoning.Number("exchange", "Exchanges of its air in an hour", 0.01, 100).Note("With conditioned air, or with the air over the solution. A still box has well below one, a fan in it several.")
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile in it", "g", 0.1, 200000).Maybe()
	temperature := reckoning.Quantity("temperature", "Temperature", "°C", 0, 60).Usually("20")
	regainFrom, regainTo := percent("regain_from", "Its regain now", 0, 100).Maybe().Note("Water in it, in per cent of the dry mass."), percent("regain_to", "Its regain then", 0, 100).Maybe()
	return (&reckoning.Reckoning{
		Name: "chamber", Title: "Conditioning in a chamber", Asks: "How long does this box take to a humidity, and how much water goes in or out?", Family: family,
		Inputs: []reckoning.Input{
			percent("from", "Humidity now", 1, 100), percent("to", "Humidity wanted", 1, 100), percent("near", "Near enough within", 0.1, 20).Usually("2").Note("No less than what your humidity meter may be off by."),
			exchange,
			reckoning.Quantity("volume", "Volume of the chamber", "L", 0.1, 100000), temperature,
			dry, regainFrom, regainTo,
			reckoning.PlusMinus(&exchange), reckoning.PlusMinus(&temperature), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&regainFrom), reckoning.PlusMinus(&regainTo),
		},
		Results: []reckoning.ResultSpec{
			{Name: "hours", Title: "The air is near enough after", Unit: "h"},
			{Name: "air_water", Title: "Water into the air (minus: out of it)", Unit: "g", Signed: true},
			{Name: "textile_water", Title: "Water into the textile (minus: out of it)", Unit: "g", Signed: true},
		},
		Sources: reckoning.From(&mixing, &padfield, &residues, &saturation, &reckoning.OurChoice, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"from":"35","to":"55","near":"2","exchange":"0.5","volume":"80","dry_mass":"400 g","regain_from":"5,5","regain_to":"7.5"}`,
		Prepare: func(s *reckoning.Sheet) {
			if some, all := s.Has("dry_mass") || s.Has("regain_from") || s.Has("regain_to"), s.Has("dry_mass") && s.Has("regain_from") && s.Has("regain_to"); some && !all {
				for _, name := range []string{"dry_mass", "regain_from", "regain_to"} {
					if !s.Has(name) {
						s.Missing(name, "it is needed with the others of the textile.")
					}
				}
			}
		},
		Figures: chamberFigures, Explain: explainChamber, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func chamberFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	out.Add("hours", salts.Hours(s.Base("from")*100, s.Base("to")*100, s.Base("near")*100, s.Base("exchange")))
	out.Add("air_water", intoAir(s))
	if s.Has("dry_mass") {
		out.Add("textile_water", s.Base("dry_mass")*(s.Base("regain_to")-s.Base("regain_from")))
	}
	return out, nil
}

// vapourAt is the vapour in the chamber's air at one of its humidities, g/m³.
func vapourAt(s *reckoning.Sheet, rh string) float64 {
	return absolute(unit.Temperature(s.Base("temperature")), unit.Fraction(s.Base(rh)))
}

// intoAir is the water that the chamber's air takes up, g.
func intoAir(s *reckoning.Sheet) float64 {
	return (vapourAt(s, "to") - vapourAt(s, "from")) * s.Base("volume") / 1000
}

func explainChamber(s *reckoning.Sheet, out *reckoning.Result) {
	oldResidues(out)
	from, to, near := s.Base("from")*100, s.Base("to")*100, s.Base("near")*100
	if hours := salts.Hours(from, to, near, s.Base("exchange")); hours == 0 {
		out.Work("The air is near enough already.", "|to - from| ≤ near", "|"+unit.Text(to, 3)+" - "+unit.Text(from, 3)+"| ≤ "+unit.Text(near, 3), mixing.Name)
	} else {
		out.Work("The air, well mixed: what is left of the difference falls by e with each exchange.", "hours = ln(|to - from| ÷ near) ÷ exchanges",
			"ln(|"+unit.Text(to, 3)+" - "+unit.Text(from, 3)+"| ÷ "+unit.Text(near, 3)+") ÷ "+unit.Text(s.Base("exchange"), 3)+" = "+reckoning.InUnit("h", hours), mixing.Name)
	}
	out.Work("Water in the air of the chamber, then less now.", "volume × (vapour then - vapour now)",
		reckoning.InUnit("L", s.Base("volume"))+" × ("+reckoning.InUnit("g/m³", vapourAt(s, "to"))+" - "+reckoning.InUnit("g/m³", vapourAt(s, "from"))+") ÷ 1000 L/m³ = "+reckoning.InUnit("g", intoAir(s)), saturation.Name)
	if water, ok := out.Value("textile_water"); ok {
		out.Work("Water in the textile, then less now.", "dry mass × (regain then - regain now)", reckoning.InUnit("g", s.Base("dry_mass"))+" × ("+reckoning.InUnit("%", s.Base("regain_to"))+" - "+reckoning.InUnit("%", s.Base("regain_from"))+") = "+reckoning.InUnit("g", water), reckoning.Arithmetic.Name)
		if air := intoAir(s); max(water, -water) > 2*max(air, -air) {
			out.Object("The textile takes up or gives off far more water than the air: it sets the pace, and the hours above are those of an empty box. Days, not hours, are usual; weigh it until it keeps its mass.", reckoning.CommonPractice)
		}
	} else {
		out.NotKnown("textile_water", s.Title("textile_water"), "Not known without the dry mass and both regains.")
	}
	out.Object("An hour for a bulky instrument, twenty minutes for a small sensor, are published; a textile is neither.", padfield)
	out.Object("Change humidity slowly: a fast one strains fibres, seams and paint. How fast a piece may go is for its conservator to say.", reckoning.CommonPractice)
}
