package trays

import (
	"strings"

	"sinkside/calc/lift"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// What is lifted.
const (
	steadyLoad = "steady"
	filledTray = "filled_tray"
	looseLoad  = "loose"
	byTeam     = "team"
)

// Lift says what two published ways of judging say of a lift by one person.
func Lift() *reckoning.Reckoning {
	steady := func(in reckoning.Input) reckoning.Input { return in.If("what", steadyLoad) }
	load := steady(reckoning.Quantity("load", "Load", "kg", 0.1, 200))
	zones := func() []string {
		var out []string
		for _, i := range []int{2, 0, 1, 3, 4} {
			out = append(out, string(rune('0'+i)), lift.Zones[i].Name)
		}
		return out
	}
	rates := []string{}
	for _, f := range lift.Frequencies {
		say := unit.Text(f.PerMinute, 2) + " in a minute"
		if f.PerMinute < 0.5 {
			say = "once, or every five minutes"
		}
		rates = append(rates, unit.Text(f.PerMinute, 2), say)
	}
	return (&reckoning.Reckoning{
		Name: "lift", Title: "Lifting a load", Asks: "May one person lift this, by what is published?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("what", "What is lifted", steadyLoad, "a steady load, lifted by one", filledTray, "a tray or vessel with water in it", looseLoad, "a load that shifts, sags or swings", byTeam, "lifted by two or more"),
			load,
			steady(reckoning.Quantity("hands", "Hands in front of the ankles", "cm", 25, 63)).Note("25 cm (10 in) close to the body, 63 cm (25 in) with the arms stretched."),
			steady(reckoning.Quantity("from", "Hands above the floor, at the start", "cm", 0, 175)), steady(reckoning.Quantity("to", "Hands above the floor, at the end", "cm", 0, 175)),
			steady(reckoning.Number("turn", "Turn of the body, degrees", 0, 135).Usually("0")),
			steady(reckoning.Choose("rate", "How often", rates...)),
			steady(reckoning.Choose("lasts", "Lifting lasts, in all", "1", "up to an hour", "2", "up to two hours", "8", "up to eight hours")), steady(reckoning.Choose("grip", "Grip", "1", "good: handles, or fingers under it", "0.95", "fair", "0.9", "poor: nothing to hold")),
			steady(reckoning.Choose("start", "Height of the hands at the start", zones()...)), steady(reckoning.Choose("end", "Height of the hands at the end", zones()...)),
			steady(reckoning.Choose("reach", "Arms", "close", "load close to the body", "far", "arms stretched")),
			reckoning.PlusMinus(&load),
		},
		Results: []reckoning.ResultSpec{
			{Name: "limit", Title: "Recommended weight limit, NIOSH", Unit: "kg"}, {Name: "index", Title: "Lifting index, NIOSH"},
			{Name: "men", Title: "Figure of the HSE filter, men", Unit: "kg"}, {Name: "women", Title: "Figure of the HSE filter, women", Unit: "kg"},
		},
		Sources: reckoning.From(&niosh, &hse, &salvage, &reckoning.OurChoice, &reckoning.CommonPractice),
		Example: `{"what":"steady","load":"9","hands":"40","from":"80","to":"110","turn":"30","rate":"1","lasts":"1","grip":"1","start":"2","end":"1","reach":"close"}`,
		Prepare: prepareLift, Figures: liftFigures, Explain: explainLift, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// prepareLift finds answers that contradict each other. The filter's zones are
// asked for beside the heights, since they go by the person's own body: where one
// was left as it stood, the figure would be too high.
func prepareLift(s *reckoning.Sheet) {
	if s.Choice("what") != steadyLoad {
		return
	}
	for _, at := range [2][2]string{{"start", "from"}, {"end", "to"}} {
		z, height := lift.Zones[zone(s, at[0])], s.Base(at[1])/10
		if s.Has(at[1]) && (height < z.Least || height > z.Most) {
			within := unit.Text(z.Least, 3) + " to " + unit.Text(z.Most, 3) + " cm"
			if s.Inches(at[1]) {
				within += " (" + unit.Text(z.Least/2.54, 2) + " to " + unit.Text(z.Most/2.54, 2) + " in)"
			}
			s.Beyond(at[0], "hands at "+within, "“"+z.Name+"” is at "+within+" for most adults, and the hands are at "+hands(s, at[1])+".")
		}
	}
	if s.Has("from") && s.Has("to") {
		rises, falls := s.Base("to") > s.Base("from"), s.Base("to") < s.Base("from")
		if up := zone(s, "start") - zone(s, "end"); rises && up < 0 || falls && up > 0 {
			s.Beyond("end", zonesFrom(s, rises), "by the heights above the floor the hands go the other way.")
		}
	}
	if s.Has("hands") && s.Base("hands")/10 >= lift.Stretched && s.Choice("reach") == "close" {
		s.Beyond("reach", "arms stretched", "hands "+hands(s, "hands")+" in front of the ankles are not close to the body.")
	}
	if multiplier(s) == 0 {
		s.Beyond("rate", "up to "+unit.Text(mostOften(s), 2)+" in a minute", "so often for so long is not to be done at all, by the NIOSH equation, whatever the load.")
	}
}

// zonesFrom names the zones in which hands can end that rise, or fall, from where
// they start.
func zonesFrom(s *reckoning.Sheet, rises bool) string {
	var names []string
	for i, z := range lift.Zones {
		if start := zone(s, "start"); rises && i <= start || !rises && i >= start {
			names = append(names, z.Name)
		}
	}
	return strings.Join(names, " or ")
}

// mostOften is the greatest frequency that may be kept up for as long as is asked.
func mostOften(s *reckoning.Sheet) float64 {
	most := 0.0
	for _, f := range lift.Frequencies {
		if f.Multipliers[lasting(s)] > 0 {
			most = f.PerMinute
		}
	}
	return most
}

// lasting is the place of a form's duration among the multipliers.
func lasting(s *reckoning.Sheet) int {
	switch s.Choice("lasts") {
	case "2":
		return lift.TwoHours
	case "8":
		return lift.EightHours
	}
	return lift.AnHour
}

// hands writes where the hands are, in inches too for those who measure in them.
func hands(s *reckoning.Sheet, name string) string {
	say := reckoning.InUnit("cm", s.Base(name))
	if s.Inches(name) {
		say += " (" + reckoning.InUnit("in", s.Base(name)) + ")"
	}
	return say
}

// zone is the place in lift.Zones that a form names.
func zone(s *reckoning.Sheet, name string) int { return int(s.Choice(name)[0] - '0') }

// multiplier is that of the frequency of a form.
func multiplier(s *reckoning.Sheet) float64 {
	for _, f := range lift.Frequencies {
		if f.PerMinute == number(s.Choice("rate")) {
			return f.Multipliers[lasting(s)]
		}
	}
	return 0
}

func number(text string) float64 {
	for _, f := range lift.Frequencies {
		if unit.Text(f.PerMinute, 2) == text {
			return f.PerMinute
		}
	}
	return 0
}

// asked is the lift of the form, judged where it starts or ends, whichever is the
// worse.
func asked(s *reckoning.Sheet) lift.Lift {
	l := lift.Lift{H: s.Base("hands") / 10, D: max(s.Base("to")-s.Base("from"), s.Base("from")-s.Base("to")) / 10, A: s.Base("turn"), F: multiplier(s), C: 1}
	switch s.Choice("grip") {
	case "0.95":
		l.C = 0.95
	case "0.9":
		l.C = 0.9
	}
	l.V = s.Base("from") / 10
	end := l
	end.V = s.Base("to") / 10
	if end.Limit() < l.Limit() {
		return end
	}
	return l
}

func filtered(s *reckoning.Sheet, women bool) float64 {
	return lift.Reduced(lift.Filter(zone(s, "start"), zone(s, "end"), women, s.Choice("reach") == "far"), number(s.Choice("rate")), s.Base("turn"))
}

func liftFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	if s.Choice("what") != steadyLoad {
		return out, nil
	}
	l := asked(s)
	out.Add("limit", l.Limit()*1000)
	out.Add("index", l.Index(s.Base("load")/1000))
	out.Add("men", filtered(s, false)*1000)
	out.Add("women", filtered(s, true)*1000)
	return out, nil
}

func explainLift(s *reckoning.Sheet, out *reckoning.Result) {
	out.People("Neither figure says that a lift is safe. The risk assessment of the place, local rules and whoever is qualified for them come first; pregnancy, an injury or wet hands change everything.", hse)
	switch s.Choice("what") {
	case filledTray:
		out.Verdict("advice", "No figure is given", "A tray with water in it is not lifted, carried or tipped: its water shifts. Drain it by tap, siphon or pump where it stands, take the object out on its support, then move the empty tray.")
		out.Work("Both published ways are void for loads that shift.", "", "", niosh.Name)
		return
	case looseLoad:
		out.Verdict("advice", "No figure is given", "Both published ways are made for a steady load. Lay it on a stiff support and let the water run off first; then it is another question.")
		out.Work("Both published ways are void for loads that shift.", "", "", niosh.Name)
		return
	case byTeam:
		out.Verdict("advice", "No figure is given", "Neither way may be shared out among people: two do not carry twice what one does. Ask whoever does the risk assessments of the place.")
		out.Work("Both published ways are for one person.", "", "", niosh.Name)
		return
	}
	out.People("This is for a steady load alone: a tray with water in it is not lifted, carried or tipped.", niosh)
	explainSteady(s, out)
}

// explainSteady accounts for what is published about one person and a steady load.
func explainSteady(s *reckoning.Sheet, out *reckoning.Result) {
	l, load := asked(s), s.Base("load")/1000
	m := l.Multipliers()
	kg := func(x float64) string { return s.Weight(unit.Mass(x) * unit.Kilogram) }
	cm := func(x float64) string { // in inches too for those who measure in them
		say := unit.Text(x, 4) + " cm"
		if s.Inches("hands") || s.Inches("from") || s.Inches("to") {
			say += " (" + unit.Text(x/2.54, 3) + " in)"
		}
		return say
	}
	out.Work("What goes into the equation, at the start or the end of the lift, whichever gives less. Lengths in cm.", "H hands in front, V hands above the floor, D way up or down, A turn",
		"H "+cm(l.H)+", V "+cm(l.V)+", D "+cm(l.D)+", A "+unit.Text(l.A, 3)+"°", niosh.Name)
	out.Work("The NIOSH equation.", "23 kg × 25/H × (1 - 0.003 |V - 75|) × (0.82 + 4.5/D) × (1 - 0.0032 A) × F × C",
		kg(lift.Constant)+" × "+unit.Text(m.H, 3)+" × "+unit.Text(m.V, 3)+" × "+unit.Text(m.D, 3)+" × "+unit.Text(m.A, 3)+" × "+unit.Text(l.F, 3)+" × "+unit.Text(l.C, 3)+" = "+kg(l.Limit()), niosh.Name)
	out.Work("Lifting index.", "load ÷ limit", kg(load)+" ÷ "+kg(l.Limit())+" = "+unit.Text(l.Index(load), 3), niosh.Name)
	out.Work("The filter: the smallest figure of the zones that the hands pass, less what frequency and turn take off.", "", "men "+kg(filtered(s, false))+", women "+kg(filtered(s, true)), hse.Name)
	adviceOn(s, out, l)
	out.Object("A textile that is wet is lifted on a solid support or sling: the added water tears weak cloth.", salvage)
}

// adviceOn holds the load, at its heaviest by its ±, against both published ways.
func adviceOn(s *reckoning.Sheet, out *reckoning.Result, l lift.Lift) {
	heaviest := s.Base("load") / 1000
	for _, v := range out.Values {
		if v.Name == "index" && v.High != nil {
			heaviest = *v.High * l.Limit()
		}
	}
	const slack = 1 + 1e-9
	switch {
	case l.Index(heaviest) > slack || heaviest > filtered(s, false)*slack:
		out.Verdict("advice", "By what is published", "Beyond what is published for one person: make it lighter, nearer, fewer times, or use a trolley, a hoist or another way.")
	case heaviest > filtered(s, true)*slack:
		out.Verdict("advice", "By what is published", "Beyond the filter's figure for women, within that for men: by the filter it needs a closer look before anybody lifts it.")
	default:
		out.Verdict("advice", "By what is published", "Within both figures. They are screens, not a promise: look at the way, the floor and the person.")
	}
}
