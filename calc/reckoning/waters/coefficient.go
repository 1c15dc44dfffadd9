package waters

import (
	"math"

	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

// Coefficient reckons a temperature coefficient from two readings.
func Coefficient() *reckoning.Reckoning {
	reading := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "µS/cm", 0.05, water.MostConductive)
	}
	temp := func(name, title string) reckoning.Input { return reckoning.Quantity(name, title, "°C", 0, 60) }
	k1, t1 := reading("k1", "Reading nearest to 25 °C").Note("Not corrected for temperature by the meter."), temp("t1", "Temperature of that reading")
	k2, t2 := reading("k2", "The other reading"), temp("t2", "Temperature of the other reading")
	return (&reckoning.Reckoning{
		Name: "coefficient", Title: "Temperature coefficient of a water", Asks: "By how much does the conductivity of my water change with temperature?", Family: family,
		Inputs: []reckoning.Input{k1, t1, k2, t2, reckoning.PlusMinus(&k1), reckoning.PlusMinus(&t1), reckoning.PlusMinus(&k2), reckoning.PlusMinus(&t2)},
		Results: []reckoning.ResultSpec{
			{Name: "coefficient", Title: "Change by the kelvin", Unit: "%/K"}, {Name: "k25", Title: "The first reading at 25 °C", Unit: "µS/cm"},
		},
		Sources: reckoning.From(&twoReadings, &linearSource, &reckoning.SaltCoefficients, &reckoning.Definitions, &reckoning.CommonPractice),
		Example: `{"k1":"1413","k1_pm":"5","t1":"25","k2":"1.278 mS/cm","t2":"68 °F","t2_pm":"0.2"}`,
		Figures: coefficientFigures, Explain: explainCoefficient,
	}).Ready()
}

// Within these a water's coefficient lies, %/K: salts about 2, acids 1.5, pure
// water about 5, from memory; and readings nearer in temperature than leastApart
// tell nothing.
const (
	leastCoefficient = 0.2
	mostCoefficient  = 8
	leastApart       = 2 // K
)

func coefficientFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	k1, k2 := water.Conductivity(s.Base("k1")), water.Conductivity(s.Base("k2"))
	t1, t2 := unit.Temperature(s.Base("t1")), unit.Temperature(s.Base("t2"))
	if off := unit.Temperature(math.Abs(float64(t2 - 25))); math.Abs(float64(t1-25)) > float64(off)+1e-9 {
		return nil, s.Cannot("t1", s.Degrees(25-off)+" to "+s.Degrees(25+off), "it lies further from 25 °C than the other. Put the nearer reading first.")
	}
	if math.Abs(float64(t1-t2)) < leastApart-1e-9 {
		return nil, s.Cannot("t2", "below "+s.Degrees(t1-leastApart)+" or above "+s.Degrees(t1+leastApart), "the temperatures lie less than 2 °C apart: the reading error would be the whole of it. Warm or cool the water further.")
	}
	a := water.CoefficientOf(k1, t1, k2, t2)
	if !(a >= leastCoefficient && a <= mostCoefficient) {
		low, high := water.ReadingFor(k1, t1, t2, leastCoefficient), water.ReadingFor(k1, t1, t2, mostCoefficient)
		return nil, s.Cannot("k2", text("µS/cm", max(0, float64(min(low, high))), 4)+" to "+text("µS/cm", float64(max(low, high)), 4), "the two readings give "+unit.Text(float64(a), 3)+" %/K, and water has 0.2 to 8. Was it the same water, and did the meter leave its reading uncorrected?")
	}
	var out reckoning.Figures
	out.Add("coefficient", float64(a))
	if sum := 1 + float64(a)/100*(t1.Celsius()-25); sum > 0.2 {
		out.Add("k25", float64(water.Linear(k1, t1, a)))
	}
	return out, nil
}

func explainCoefficient(s *reckoning.Sheet, out *reckoning.Result) {
	byBattery(out)
	a, _ := out.Value("coefficient")
	k1, k2 := text("µS/cm", s.Base("k1"), 5), text("µS/cm", s.Base("k2"), 5)
	t1, t2 := text("°C", s.Base("t1"), 4), text("°C", s.Base("t2"), 4)
	out.Work("From two readings of the same water.", "α = (κ1 - κ2) ÷ ((T1 - T2) × κ1)", "("+k1+" - "+k2+") ÷ (("+t1+" - "+t2+") × "+k1+") = "+text("%/K", a, 4), twoReadings.Name)
	if k25, ok := out.Value("k25"); ok {
		out.Work("The first reading at 25 °C.", "κ25 = κ1 ÷ (1 + α × (T1 - 25))", text("µS/cm", k25, 4), linearSource.Name)
	} else {
		out.NotKnown("k25", s.Title("k25"), "So far from 25 °C the straight line does not hold.")
	}
	out.Object("Both readings of one sample, stirred, with the meter's own correction off. Let it settle: a cell that is still cooling reads neither.", reckoning.CommonPractice)
	out.Object("It holds for this water alone: once detergent or another salt is in it, it is another.", reckoning.SaltCoefficients)
}
