package climate

import (
	"sinkside/calc/mould"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

var (
	mouldSays = reckoning.Source{Name: "published on mould", Where: "US National Park Service, Conserve O Gram 3/4, 1993; S. Michalski, CCI, Incorrect Relative Humidity; T. Padfield citing Ayerst 1969; US EPA, A Brief Guide to Mold, Moisture, and Your Home; a summary of water activity at experts123.", Mark: reckoning.Read}
	freezing  = reckoning.Source{Name: "freezing", Where: "Australian Museum: frozen in a sealed bag for 48 hours; many protocols ask for -20 °C for two weeks or -30 °C for three days.", Mark: reckoning.Memory}
)

// Mould sets what is published of mould beside a humidity and hours wet.
func Mould() *reckoning.Reckoning {
	humidity, temperature := reckoning.Quantity("humidity", "Relative humidity", "%", 1, 100).In("%"), reckoning.Quantity("temperature", "Temperature", "°C", -20, 60)
	return (&reckoning.Reckoning{
		Name: "mould", Title: "Danger of mould", Asks: "Is there a danger of mould in this air, or after so many hours wet?", Family: family,
		Inputs: []reckoning.Input{
			humidity, temperature,
			reckoning.Quantity("at_it", "For how long", "h", 0, 100000).Maybe().Note("At this humidity. Leave empty where nobody knows."),
			reckoning.Quantity("wet", "Wet for", "h", 0, 10000).Maybe().Note("Of something that was wetted: since the first wetting."),
			reckoning.PlusMinus(&humidity), reckoning.PlusMinus(&temperature),
		},
		Results: []reckoning.ResultSpec{{Name: "warn", Title: "Published statements that warn of this, of five"}, {Name: "left", Title: "Until two days wet are over", Unit: "h"}},
		Sources: reckoning.From(&mouldSays, &freezing, &residues, &reckoning.Definitions, &reckoning.CommonPractice),
		Example: `{"humidity":"78","temperature":"21","at_it":"10 days","wet":"20 h"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			n := 0
			for _, say := range said(s) {
				if say.Warns {
					n++
				}
			}
			var out reckoning.Figures
			out.Add("warn", float64(n))
			if s.Has("wet") {
				out.Add("left", max(mould.DryLate-s.Base("wet"), 0))
			}
			return out, nil
		},
		Explain: explainMould,
	}).Ready()
}

func said(s *reckoning.Sheet) []mould.Say {
	return mould.Says(s.Base("humidity")*100, s.Base("temperature"), s.Base("at_it"), s.Base("wet"))
}

func explainMould(s *reckoning.Sheet, out *reckoning.Result) {
	table := out.Table("What is published, each by itself", "Who", "Says", "Here")
	for _, say := range said(s) {
		here := "does not warn of this"
		if say.Warns {
			here = "warns of this"
		}
		table.Row(say.By+", "+say.Where, say.Text, here)
	}
	if low, high, _ := out.Range("warn"); low < high {
		out.Verdict("open", "What the ± leaves open", "Between "+unit.Text(low, 1)+" and "+unit.Text(high, 1)+" of the five warn, within what humidity and temperature may be off by. Go by the more.")
	}
	out.Work("Each statement by its own figures. They are not made into one number: they speak of different things, and none of them of this object.", "", unit.Text(s.Base("humidity")*100, 3)+" %, "+reckoning.Celsius(unit.Temperature(s.Base("temperature"))), mouldSays.Name)
	if s.Has("wet") {
		put := "48 h - " + reckoning.InUnit("h", s.Base("wet")) + " = " + reckoning.InUnit("h", mould.DryLate-s.Base("wet"))
		if s.Base("wet") > mould.DryLate {
			put += ": they are over"
			out.Object("It has been wet for longer than the 48 hours that are published: look for mould now, in folds, seams and stuffing too, and keep it apart from other objects.", mouldSays)
		}
		out.Work("Wet material is to be dry within 24 to 48 hours.", "48 h - hours wet", put, mouldSays.Name)
	}
	out.People("Mould is a hazard to lungs: do not brush, blow or sniff. Whoever works on it wears what the safety data and local rules ask for; active or large growth is for qualified people.", reckoning.CommonPractice)
	oldResidues(out)
	out.Object("These are circumstances, not a finding: look at the object, its folds and its back, and at the surface's own humidity, which on a cold wall is higher than the room's.", reckoning.CommonPractice)
	out.Object("What cannot be dried in time is commonly frozen, sealed, to gain time; protocols differ in temperature and days.", freezing)
}
