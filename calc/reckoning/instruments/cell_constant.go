package instruments

import (
	"math"

	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// CellConstant reckons the constant of a conductivity cell.
func CellConstant() *reckoning.Reckoning {
	var standards []string
	for _, one := range meter.Standards {
		standards = append(standards, one.Name, one.Title)
	}
	reading := reckoning.Quantity("reading", "Reading in it", "µS/cm", 1, 200000).In("µS/cm", "mS/cm").Note("With the meter's correction for temperature off.")
	temperature := reckoning.Quantity("temperature", "Temperature of the standard", "°C", 0, 50)
	return (&reckoning.Reckoning{
		Name: "cell_constant", Title: "Constant of a conductivity cell", Asks: "Does my conductivity meter read right, and what is its cell constant?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("standard", "Standard", standards...), temperature, reading,
			reckoning.Quantity("set", "Constant that the meter is set to", "/cm", 0.01, 20).In("/cm").Usually("1"),
			reckoning.Quantity("nominal", "Constant printed on the cell", "/cm", 0.01, 20).In("/cm").Maybe().Note("Where it is another than the one set."),
			reckoning.PlusMinus(&temperature), reckoning.PlusMinus(&reading),
		},
		Results: []reckoning.ResultSpec{
			{Name: "constant", Title: "Cell constant", Unit: "/cm"}, {Name: "conducts", Title: "The standard conducts", Unit: "µS/cm"},
			{Name: "off", Title: "The meter reads off by", Unit: "% change", Signed: true}, {Name: "from_nominal", Title: "Constant away from the printed one", Unit: "% change", Signed: true},
		},
		Sources: reckoning.From(&kclTables, &cellRule, &reckoning.Definitions, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"standard":"s1413","temperature":"22","temperature_pm":"0.2","reading":"1,3 mS/cm","reading_pm":"0.005","set":"1.0","nominal":"1"}`,
		Figures: cellFigures, Explain: explainCell,
	}).Ready()
}

func standardOf(s *reckoning.Sheet) meter.Standard {
	one, _ := meter.StandardNamed(s.Choice("standard"))
	return one
}

// nominal is the constant that the cell is held against.
func nominal(s *reckoning.Sheet) float64 {
	if s.Has("nominal") {
		return s.Base("nominal")
	}
	return s.Base("set")
}

func cellFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	one := standardOf(s)
	k, err := one.Conducts(unit.Temperature(s.Base("temperature")))
	if err != nil {
		low, high := one.Ends()
		allowed := unit.Text(low.Celsius(), 3) + " to " + text("°C", high.Celsius(), 3)
		return nil, s.Cannot("temperature", allowed, "the values of "+one.Title+" are known from "+allowed+".")
	}
	if ratio := k / s.Base("reading"); ratio < 0.05 || ratio > 20 {
		return nil, s.Cannot("reading", text("µS/cm", k/20, 4)+" to "+text("µS/cm", k*20, 4), "the standard conducts "+text("µS/cm", k, 4)+". Is it another standard, or mS/cm for µS/cm?")
	}
	constant := meter.CellConstant(s.Base("set"), s.Base("reading"), k)
	var out reckoning.Figures
	out.Between("constant", constant, constant*(1-one.Within), constant*(1+one.Within))
	out.Between("conducts", k, k*(1-one.Within), k*(1+one.Within))
	share := s.Base("reading") / k
	out.Between("off", 100*(share-1), 100*(share/(1+one.Within)-1), 100*(share/(1-one.Within)-1))
	away := constant / nominal(s)
	out.Between("from_nominal", 100*(away-1), 100*(away*(1-one.Within)-1), 100*(away*(1+one.Within)-1))
	return out, nil
}

// Up to these a constant is left alone, and up to these it is set anew, in per
// cent of the printed one. Both are our choice.
const (
	leaveWithin = 2
	setWithin   = 10
)

func explainCell(s *reckoning.Sheet, out *reckoning.Result) {
	out.People("A meter near water runs from its battery. Read the safety data sheet of the standard, and never pour it back.", reckoning.CommonPractice)
	one := standardOf(s)
	k, _ := out.Value("conducts")
	constant, _ := out.Value("constant")
	away, _ := out.Value("from_nominal")
	out.Work("What the standard conducts, on the curve through its table.", "κ(T)", one.Title+" at "+text("°C", s.Base("temperature"), 4)+" = "+text("µS/cm", k, 5), kclTables.Name)
	out.Work("The constant with which the meter would read that.", "K = K(set) × κ(T) ÷ reading", text("/cm", s.Base("set"), 4)+" × "+text("µS/cm", k, 5)+" ÷ "+text("µS/cm", s.Base("reading"), 5)+" = "+text("/cm", constant, 4), cellRule.Name)
	by := fixed(math.Abs(away), 1) + " % from the " + text("/cm", nominal(s), 4) + " that it is held against: "
	switch tenth := math.Round(math.Abs(away) * 10); {
	case tenth <= leaveWithin*10:
		out.Verdict("constant_means", "Constant", by+"within 2 %, leave it.")
	case tenth <= setWithin*10:
		out.Verdict("constant_means", "Constant", by+"set the meter to "+text("/cm", constant, 4)+" and measure again.")
	default:
		out.Verdict("constant_means", "Constant", by+"more than 10 %. Look for the cause before you set it: a soiled cell, air in it, an old standard, a correction for temperature left on.")
	}
	out.Work("When to set it: up to 2 % leave, up to 10 % set anew.", "", "", reckoning.OurChoice.Name)
	out.Object("With the meter's correction for temperature on it shows the standard at 25 °C: then this comparison is wrong.", reckoning.CommonPractice)
	out.Object("A standard for the range that is measured: 84 µS/cm for purified and rinse water, 1413 µS/cm for tap water and baths. Weak standards take up carbon dioxide from the air; pour fresh, use once.", reckoning.CommonPractice)
	if one.Within >= 0.01 {
		out.Object("A standard as sold is known to about 1 %: so is the constant.", kclTables)
	}
}
