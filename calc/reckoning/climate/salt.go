package climate

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/salts"
	"sinkside/calc/unit"
)

var (
	greenspan = reckoning.Source{Name: "Greenspan 1977", Where: "Journal of Research of the NBS 81A, 89-96, as reprinted by T. Padfield, padfield.org: 5, 20 and 25 °C, ±0.5 % RH.", Mark: reckoning.Read}
	wexler    = reckoning.Source{Name: "Wexler", Where: "Constant humidity solutions, CRC Handbook 15-33: RH = A × e^(B ÷ T), ±2 %.", Mark: reckoning.Read}
	padfield  = reckoning.Source{Name: "practice with salts", Where: "T. Padfield, padfield.org: an hour for a bulky instrument, twenty minutes for a small sensor; the 98 % point needs a room of constant temperature.", Mark: reckoning.Read}
	mixing    = reckoning.Source{Name: "well-mixed air", Where: "What is left of a difference falls by e with each exchange of the air; the usual model of ventilation, from memory.", Mark: reckoning.Memory}
)

// Salt gives the humidity over saturated salts.
func Salt() *reckoning.Reckoning {
	pairs := []string{"none", "which salts lie next to the humidity wanted"}
	for _, s := range salts.All {
		pairs = append(pairs, s.Formula, s.Name)
	}
	return (&reckoning.Reckoning{
		Name: "salt", Title: "Humidity over a saturated salt", Asks: "Which salt keeps this humidity in a closed box?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("salt", "Salt", pairs...),
			reckoning.Quantity("wanted", "Humidity wanted", "%", 5, 99).In("%").If("salt", "none"),
			reckoning.Quantity("temperature", "Temperature", "°C", salts.Lowest, salts.Highest).Usually("20"),
		},
		Results: []reckoning.ResultSpec{
			{Name: "humidity", Title: "Humidity over it", Unit: "%"}, {Name: "other", Title: "By the other published form", Unit: "%"},
			{Name: "below", Title: "Next drier salt", Unit: "%"}, {Name: "above", Title: "Next damper salt", Unit: "%"},
		},
		Sources: reckoning.From(&greenspan, &wexler, &padfield, &reckoning.Definitions, &reckoning.CommonPractice),
		Example: `{"salt":"none","wanted":"55","temperature":"20"}`,
		Figures: saltFigures, Explain: explainSalt,
	}).Ready()
}

func saltOf(s *reckoning.Sheet) (salts.Salt, bool) {
	for _, x := range salts.All {
		if x.Formula == s.Choice("salt") {
			return x, true
		}
	}
	return salts.Salt{}, false
}

func saltFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	t := s.Base("temperature")
	x, ok := saltOf(s)
	if !ok {
		below, above := salts.Around(s.Base("wanted")*100, t)
		if below >= 0 {
			out.Add("below", salts.All[below].Humidity(t)/100)
		}
		if above >= 0 {
			out.Add("above", salts.All[above].Humidity(t)/100)
		}
		return out, nil
	}
	if rh, err := x.Greenspan(t); err == nil {
		out.Between("humidity", rh/100, (rh-0.5)/100, (rh+0.5)/100)
		if w, err := x.Wexler(t); err == nil {
			out.Between("other", w/100, w*0.98/100, min(w*1.02, 100)/100)
		}
		return out, nil
	}
	w, err := x.Wexler(t)
	if err != nil {
		return nil, s.Cannot("temperature", "", "there is no published figure of this salt here.")
	}
	out.Between("humidity", w/100, w*0.98/100, min(w*1.02, 100)/100)
	return out, nil
}

func explainSalt(s *reckoning.Sheet, out *reckoning.Result) {
	t := s.Base("temperature")
	at := reckoning.Celsius(unit.Temperature(t))
	x, ok := saltOf(s)
	if ok {
		if rh, err := x.Greenspan(t); err == nil {
			out.Work("Straight between the published points.", "5 °C "+unit.Text(x.At[0], 3)+", 20 °C "+unit.Text(x.At[1], 3)+", 25 °C "+unit.Text(x.At[2], 3)+" %", "at "+at+": "+unit.Text(rh, 3)+" %", greenspan.Name)
		}
		if w, err := x.Wexler(t); err == nil {
			out.Work("By the fitted form, T in kelvin.", "RH = A × e^(B ÷ T)", unit.Text(x.A, 4)+" × e^("+unit.Text(x.B, 3)+" ÷ "+unit.Text(t+273.15, 5)+") = "+unit.Text(w, 4)+" %", wexler.Name)
		}
	} else {
		wanted := s.Base("wanted") * 100
		below, above := salts.Around(wanted, t)
		say := ""
		for _, i := range []int{below, above} {
			if i >= 0 && (i != below || say == "") {
				if say != "" {
					say += "; "
				}
				say += salts.All[i].Name + " (" + salts.All[i].Formula + ") " + unit.Text(salts.All[i].Humidity(t), 3) + " %"
			}
		}
		out.Verdict("salts", "Salts next to it", say)
		table := out.Table("All salts at "+at, "Salt", "Greenspan, % RH", "Wexler, % RH", "Beware")
		for _, x := range salts.All {
			table.Row(x.Name+", "+x.Formula, known(x.Greenspan(t)), known(x.Wexler(t)), x.Caution)
		}
		out.Work("The salts whose humidities lie next below and next above.", "", say, greenspan.Name)
	}
	out.People("Read the salt's safety data sheet: some are alkaline, some oxidise, some are harmful. Gloves, no food near by, a label on the box.", reckoning.CommonPractice)
	if x.Caution != "" {
		out.People(x.Name+": "+x.Caution+".", reckoning.CommonPractice)
	}
	out.Object("Salt creeps and spatters, and corrodes metal thread: a tray that cannot tip, a breathable cover, a distance from the object.", reckoning.CommonPractice)
	out.Object("It keeps its humidity while both solid and liquid are there, the box is tight and the temperature steady. Give a bulky thing an hour and more; a textile takes up far more than an instrument.", padfield)
}

func known(x float64, err error) string {
	if err != nil {
		return "-"
	}
	return unit.Text(x, 3)
}

// Chamber reckons how long a chamber takes to a humidity.
func Chamber() *reckoning.Reckoning {
	percent := func(name, title string, least, most float64) reckoning.Input {
		return reckoning.Quantity(name, title, "%", least, most).In("%")
	}
	exchange := reckoning.Number("exchange", "Exchanges of its air in an hour", 0.01, 100).Note("With conditioned air, or with the air over the solution. A still box has well below one, a fan in it several.")
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile in it", "g", 0.1, 200000).Maybe()
	regainFrom, regainTo := percent("regain_from", "Its regain now", 0, 100).Maybe().Note("Water in it, in per cent of the dry mass."), percent("regain_to", "Its regain then", 0, 100).Maybe()
	return (&reckoning.Reckoning{
		Name: "chamber", Title: "Conditioning in a chamber", Asks: "How long does this box take to a humidity, and how much water goes in or out?", Family: family,
		Inputs: []reckoning.Input{
			percent("from", "Humidity now", 1, 100), percent("to", "Humidity wanted", 1, 100), percent("near", "Near enough within", 0.1, 20).Usually("2").Note("No less than what your humidity meter may be off by."),
			exchange,
			reckoning.Quantity("volume", "Volume of the chamber", "L", 0.1, 100000), reckoning.Quantity("temperature", "Temperature", "°C", 0, 60).Usually("20"),
			dry, regainFrom, regainTo,
			reckoning.PlusMinus(&exchange), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&regainFrom), reckoning.PlusMinus(&regainTo),
		},
		Results: []reckoning.ResultSpec{
			{Name: "hours", Title: "The air is near enough after", Unit: "h"},
			{Name: "air_water", Title: "Water into the air, below nought out of it", Unit: "g", Signed: true},
			{Name: "textile_water", Title: "Water into the textile, below nought out of it", Unit: "g", Signed: true},
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

// intoAir is the water that the chamber's air takes up, g.
func intoAir(s *reckoning.Sheet) float64 {
	t := unit.Temperature(s.Base("temperature"))
	held := func(rh string) float64 { return absolute(t, unit.Fraction(s.Base(rh))) }
	return (held("to") - held("from")) * s.Base("volume") / 1000
}

func explainChamber(s *reckoning.Sheet, out *reckoning.Result) {
	oldResidues(out)
	from, to, near := s.Base("from")*100, s.Base("to")*100, s.Base("near")*100
	out.Work("The air, well mixed: what is left of the difference falls by e with each exchange.", "hours = ln(|to - from| ÷ near) ÷ exchanges",
		"ln(|"+unit.Text(to, 3)+" - "+unit.Text(from, 3)+"| ÷ "+unit.Text(near, 3)+") ÷ "+unit.Text(s.Base("exchange"), 3)+" = "+reckoning.InUnit("h", salts.Hours(from, to, near, s.Base("exchange"))), mixing.Name)
	out.Work("Water in the air of the chamber, then less now.", "volume × (vapour then - vapour now)", reckoning.InUnit("g", intoAir(s)), saturation.Name)
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
