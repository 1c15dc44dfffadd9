package waters

import (
	"strings"

	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

const (
	byConductivity = "conductivity"
	byResistivity  = "resistivity"
)

// Grade finds the grade of laboratory water that a reading allows.
func Grade() *reckoning.Reckoning {
	k := reckoning.Quantity("conductivity", "Conductivity at 25 °C", "µS/cm", 0.05, 2000).In("µS/cm", "mS/cm").If("by", byConductivity)
	r := reckoning.Quantity("resistivity", "Resistivity at 25 °C", "MΩ·cm", 0.0005, 20).If("by", byResistivity)
	return (&reckoning.Reckoning{
		Name: "water_grade", Title: "Grade of purified water", Asks: "Which grade of laboratory water does this water reach?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("by", "Measured", byConductivity, "conductivity", byResistivity, "resistivity"),
			k, r, reckoning.Number("ph", "pH", 0, 14).Maybe().Note("Two grades ask for it."),
			reckoning.PlusMinus(&k), reckoning.PlusMinus(&r),
		},
		Results: []reckoning.ResultSpec{{Name: "k25", Title: "Conductivity at 25 °C", Unit: "µS/cm"}, {Name: "resistance", Title: "Resistivity at 25 °C", Unit: "MΩ·cm"}},
		Sources: reckoning.From(&isoGrades, &astmTypes, &airWater, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"by":"conductivity","conductivity":"0,8","conductivity_pm":"0.3","ph":"5.8"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			k := purity(s)
			var out reckoning.Figures
			out.Add("k25", float64(k))
			out.Add("resistance", float64(k.Resistivity()))
			return out, nil
		},
		Explain: explainGrade,
	}).Ready()
}

func purity(s *reckoning.Sheet) water.Conductivity {
	if s.Choice("by") == byResistivity {
		return water.Resistivity(s.Base("resistivity")).Conductivity()
	}
	return water.Conductivity(s.Base("conductivity"))
}

func explainGrade(s *reckoning.Sheet, out *reckoning.Result) {
	byBattery(out)
	k := purity(s)
	if s.Choice("by") == byResistivity {
		out.Work("As a conductivity.", "κ = 1 ÷ resistivity", "1 ÷ "+text("MΩ·cm", s.Base("resistivity"), 4)+" = "+text("µS/cm", float64(k), 4), reckoning.Arithmetic.Name)
	} else {
		out.Work("As a resistivity.", "resistivity = 1 ÷ κ", "1 ÷ "+text("µS/cm", float64(k), 4)+" = "+text("MΩ·cm", float64(k.Resistivity()), 4), reckoning.Arithmetic.Name)
	}
	astm := typesOf(s, k)
	out.Verdict("iso", "ISO 3696, by what was measured", gradeSays(s, water.Reached(water.ISO, k)))
	out.Verdict("astm", "ASTM D1193, by what was measured", gradeSays(s, astm))
	limits(out)
	edges(s, out)
	out.Object("Conductivity alone does not prove a grade: the standards also limit what oxidises, silica, absorbance, residue and more, which no meter at the sink sees.", isoGrades)
	out.Object("By conductivity ASTM type III is purer than type II: the numbers of its types are no order of purity.", astmTypes)
	if k < water.InAir {
		out.Object("Water standing in air takes up carbon dioxide and soon reads about 1.1 µS/cm: so pure a reading is true only in the pipe, without air, and says nothing about a bath.", airWater)
	}
	if k < water.Pure {
		out.Object("No water conducts less than about 0.055 µS/cm at 25 °C: look at the meter and its correction for temperature.", reckoning.CommonPractice)
	}
	if s.Has("ph") {
		if ph := s.Base("ph"); ph > 7+1e-9 && water.ISO[2].MeetsPH(ph) {
			out.Object("One reprint of ISO 3696 ends the pH of grade 3 at 7.0, not at 7.5.", isoGrades)
		}
		out.Object("In water this thin a pH electrode is slow and easily off, and carbon dioxide from the air brings any pure water to about pH 5.6.", reckoning.CommonPractice)
	} else {
		out.NotKnown("ph", "pH", "Grade 3 and type IV limit it too: 5.0 to 7.5 (7.0 in one reprint) and 5.0 to 8.0.")
	}
}

// typesOf returns the ASTM types that are reached. Type I is held against its
// printed resistivity where that was measured.
func typesOf(s *reckoning.Sheet, k water.Conductivity) []water.Grade {
	types := water.Reached(water.ASTM, k)
	if s.Choice("by") == byResistivity && len(types) == len(water.ASTM) && s.Base("resistivity") < float64(water.TypeI)*(1-1e-9) {
		return types[1:]
	}
	return types
}

// gradeSays names the purest grade that is reached and the others.
func gradeSays(s *reckoning.Sheet, grades []water.Grade) string {
	var names, failed []string
	for _, g := range grades {
		if s.Has("ph") && !g.MeetsPH(s.Base("ph")) {
			failed = append(failed, g.Name+" by conductivity, not by pH ("+unit.Text(g.LowPH, 2)+" to "+unit.Text(g.HighPH, 2)+")")
			continue
		}
		names = append(names, g.Name)
	}
	say := "none"
	if len(names) > 0 {
		say = "within the limits of " + names[0]
		if len(names) > 1 {
			say += ", so of " + strings.Join(names[1:], " and ") + " too"
		}
	}
	if len(failed) > 0 {
		say += "; " + strings.Join(failed, "; ")
	}
	return say
}

func limits(out *reckoning.Result) {
	t := out.Table("Limits at 25 °C, purest first", "Grade", "Conductivity at most", "pH")
	add := func(standard string, grades []water.Grade) {
		for _, g := range grades {
			ph := "not limited"
			if g.HighPH > 0 {
				ph = unit.Text(g.LowPH, 2) + " to " + unit.Text(g.HighPH, 2)
			}
			t.Row(standard+" "+g.Name, text("µS/cm", float64(g.Most), 3), ph)
		}
	}
	add("ISO 3696", water.ISO)
	add("ASTM D1193", water.ASTM)
}

// edges says where the ± of the reading reaches over a limit.
func edges(s *reckoning.Sheet, out *reckoning.Result) {
	for _, v := range out.Values {
		if v.Name != "k25" || v.Low == nil {
			continue
		}
		for _, grades := range [][]water.Grade{water.ISO, water.ASTM} {
			if len(water.Reached(grades, water.Conductivity(*v.Low))) != len(water.Reached(grades, water.Conductivity(*v.High))) {
				out.Object("The ± of the reading reaches over a limit: the grade above or below it may be the true one.", reckoning.Arithmetic)
				return
			}
		}
	}
}
