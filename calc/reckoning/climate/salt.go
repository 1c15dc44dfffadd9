package climate

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/salts"
	"sinkside/calc/unit"
)

var (
	greenspan = reckoning.Source{Name: "Greenspan 1977", Where: "Journal of Research of the NBS 81A, 89-96, as reprinted by T. Padfield, padfield.org: 5, 20 and 25 °C, ±0.5 % RH.", Mark: reckoning.Read}
	// H-03: the conflict is shown.
	greenspanOwn = reckoning.Source{Name: "Greenspan's own figure", Where: "Of sodium chloride at 20 °C, from memory of the paper.", Mark: reckoning.Memory}
	wexler       = reckoning.Source{Name: "Wexler", Where: "Constant humidity solutions, CRC Handbook 15-33: RH = A × e^(B ÷ T), ±2 %.", Mark: reckoning.Read}
	padfield     = reckoning.Source{Name: "practice with salts", Where: "T. Padfield, padfield.org: an hour for a bulky instrument, twenty minutes for a small sensor; the 98 % point needs a room of constant temperature.", Mark: reckoning.Read}
	mixing       = reckoning.Source{Name: "well-mixed air", Where: "What is left of a difference falls by e with each exchange of the air; the usual model of ventilation, from memory.", Mark: reckoning.Memory}
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
		Sources: reckoning.From(&greenspan, &greenspanOwn, &wexler, &padfield, &reckoning.Definitions, &reckoning.CommonPractice),
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
			rh, low, high := published(salts.All[below], t)
			out.Between("below", rh, low, high)
		}
		if above >= 0 {
			rh, low, high := published(salts.All[above], t)
			out.Between("above", rh, low, high)
		}
		return out, nil
	}
	rh, low, high := published(x, t)
	out.Between("humidity", rh, low, high)
	if _, err := x.Greenspan(t); err == nil {
		if w, low, high, ok := byWexler(x, t); ok {
			out.Between("other", w, low, high)
		}
	}
	return out, nil
}

// byWexler is the humidity over a salt by the fitted form, with its ±2 %; false
// where it has no such figure.
func byWexler(x salts.Salt, t float64) (rh, low, high float64, ok bool) {
	w, err := x.Wexler(t)
	return w / 100, w * 0.98 / 100, min(w*1.02, 100) / 100, err == nil
}

// published is the humidity over a salt: Greenspan's where he has one, with his ±0.5,
// else by the fitted form.
func published(x salts.Salt, t float64) (rh, low, high float64) {
	if g, err := x.Greenspan(t); err == nil {
		return g / 100, (g - 0.5) / 100, (g + 0.5) / 100
	}
	rh, low, high, _ = byWexler(x, t)
	return rh, low, high
}

func explainSalt(s *reckoning.Sheet, out *reckoning.Result) {
	t := s.Base("temperature")
	at := reckoning.Celsius(unit.Temperature(t))
	x, ok := saltOf(s)
	if ok {
		if rh, err := x.Greenspan(t); err == nil {
			out.Work("Straight between the published points.", "5 °C "+unit.Text(x.At[0], 3)+", 20 °C "+unit.Text(x.At[1], 3)+", 25 °C "+unit.Text(x.At[2], 3)+" %", "at "+at+": "+unit.Text(rh, 3)+" %", greenspan.Name)
		}
		if x.Name == "sodium chloride" {
			out.Work("The reprint has 75.7 % for it at 20 °C. Greenspan's own figure is 75.5 %, from memory. The reprint's is taken, and the ± holds both.", "", "", greenspanOwn.Name)
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
			table.Row(x.Name+", "+x.Formula, known(x.Greenspan(t)), known(x.Wexler(t)), beware(x))
		}
		out.Work("The salts whose humidities lie next below and next above: by Greenspan where he has a figure, else by the fitted form.", "", say, greenspan.Name)
		if below < 0 {
			out.NotKnown("below", s.Title("below"), "No salt listed here keeps it drier than that.")
		}
		if above < 0 {
			out.NotKnown("above", s.Title("above"), "No salt listed here keeps it damper than that.")
		}
	}
	out.People("Read the salt's safety data sheet: some are alkaline, some oxidise, some are harmful. Gloves, no food near by, a label on the box.", reckoning.CommonPractice)
	if x.Caution != "" {
		out.People(x.Name+": "+x.Caution+".", reckoning.CommonPractice)
	}
	if x.Note != "" {
		out.Object(x.Name+": "+x.Note+".", padfield)
	}
	out.Object("Salt creeps and spatters, and corrodes metal thread: a tray that cannot tip, a breathable cover, a distance from the object.", reckoning.CommonPractice)
	out.Object("It keeps its humidity while both solid and liquid are there, the box is tight and the temperature steady. Give a bulky thing an hour and more; a textile takes up far more than an instrument.", padfield)
}

// beware is what a table says of a salt.
func beware(x salts.Salt) string {
	if x.Note != "" {
		return x.Note
	}
	return x.Caution
}

func known(x float64, err error) string {
	if err != nil {
		return "-"
	}
	return unit.Text(x, 3)
}
