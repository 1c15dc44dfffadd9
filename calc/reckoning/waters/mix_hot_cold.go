package waters

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

// What is asked about hot and cold.
const (
	findLitres = "litres"
	findResult = "result"
	findHot    = "hot"
)

// Mix reckons with hot and cold water.
func Mix() *reckoning.Reckoning {
	warm := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "°C", 0, 100)
	}
	hot := warm("hot", "Hot water").If("find", findLitres, findResult)
	cold := warm("cold", "Cold water")
	coldLitres := volumeInput("cold_litres", "How much of the cold", 0, 5000).If("find", findResult, findHot)
	hotLitres := volumeInput("hot_litres", "How much of the hot", 0.001, 5000).If("find", findResult, findHot)
	target := warm("target", "Temperature wanted").If("find", findLitres, findHot)
	return (&reckoning.Reckoning{
		Name: "mix_hot_cold", Title: "Mixing hot and cold water", Asks: "How many litres of hot and of cold make a bath of this temperature?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("find", "Find", findLitres, "the litres of both", findResult, "what temperature results", findHot, "how hot the hot must be"),
			target, volumeInput("litres", "Bath", 0.01, 5000).If("find", findLitres),
			cold, hot, coldLitres, hotLitres,
			reckoning.PlusMinus(&target), reckoning.PlusMinus(&cold), reckoning.PlusMinus(&hot), reckoning.PlusMinus(&coldLitres), reckoning.PlusMinus(&hotLitres),
		},
		Results: []reckoning.ResultSpec{
			{Name: "hot_volume", Title: "Hot water", Unit: "L"}, {Name: "cold_volume", Title: "Cold water", Unit: "L"},
			{Name: "temperature", Title: "The bath is at", Unit: "°C"}, {Name: "hot_needed", Title: "The hot water must be at", Unit: "°C"}, {Name: "total", Title: "In all", Unit: "L"},
		},
		Sources: reckoning.From(&equalHeat, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"find":"litres","target":"30","litres":"60 L","cold":"9","cold_pm":"1","hot":"136.4 °F","hot_pm":"2"}`,
		Figures: mixFigures, Explain: explainMix,
	}).Ready()
}

func mixFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	at := func(name string) unit.Temperature { return unit.Temperature(s.Base(name)) }
	litres := func(name string) unit.Volume { return unit.Volume(s.Base(name)) }
	var out reckoning.Figures
	switch s.Choice("find") {
	case findLitres:
		if at("hot")-at("cold") < 0.1 {
			return nil, s.Cannot("hot", "above "+s.Degrees(at("cold")), "it is to be warmer than the cold water.")
		}
		if at("target") < at("cold") || at("target") > at("hot") {
			return nil, s.Cannot("target", s.Degrees(at("cold"))+" to "+s.Degrees(at("hot")), "these two waters cannot make it.")
		}
		share := water.HotShare(at("cold"), at("hot"), at("target"))
		out.Product("hot_volume", share, s.Base("litres"))
		out.Product("cold_volume", 1-share, s.Base("litres"))
	case findResult:
		out.Add("temperature", water.Mixed(litres("hot_litres"), at("hot"), litres("cold_litres"), at("cold")).Celsius())
		out.Add("total", float64(litres("hot_litres")+litres("cold_litres")))
	case findHot:
		needed := water.HotNeeded(litres("cold_litres"), at("cold"), litres("hot_litres"), at("target"))
		if needed < at("target") || needed > 100 {
			warmest := water.Mixed(litres("hot_litres"), 100, litres("cold_litres"), at("cold"))
			return nil, s.Cannot("target", s.Degrees(at("cold"))+" to "+s.Degrees(warmest), "the added water would have to be at "+s.Degrees(needed)+". Take more of it, or less of the cold.")
		}
		out.Add("hot_needed", needed.Celsius())
		out.Add("total", float64(litres("hot_litres")+litres("cold_litres")))
	}
	return out, nil
}

// scalds is from where on water is called hot here, °C.
const scalds = 45

func explainMix(s *reckoning.Sheet, out *reckoning.Result) {
	c := func(name string) string { return text("°C", s.Base(name), 4) }
	l := func(name string) string { return reckoning.Volume(unit.Volume(s.Base(name))) }
	hottest := s.Base("hot")
	switch s.Choice("find") {
	case findLitres:
		share := water.HotShare(unit.Temperature(s.Base("cold")), unit.Temperature(hottest), unit.Temperature(s.Base("target")))
		out.Work("The share of hot water.", "share = (wanted - cold) ÷ (hot - cold)", "("+c("target")+" - "+c("cold")+") ÷ ("+c("hot")+" - "+c("cold")+") = "+unit.Text(100*share, 4)+" %", equalHeat.Name)
		out.Work("The litres.", "hot = share × bath; cold = the rest", unit.Text(100*share, 4)+" % × "+l("litres")+" = "+reckoning.Volume(unit.Volume(share*s.Base("litres"))), reckoning.Arithmetic.Name)
	case findResult:
		t, _ := out.Value("temperature")
		out.Work("Both give each other their heat.", "T = (V1 × T1 + V2 × T2) ÷ (V1 + V2)", "("+l("hot_litres")+" × "+c("hot")+" + "+l("cold_litres")+" × "+c("cold")+") ÷ "+reckoning.Volume(unit.Volume(s.Base("hot_litres")+s.Base("cold_litres")))+" = "+text("°C", t, 4), equalHeat.Name)
	case findHot:
		hottest, _ = out.Value("hot_needed")
		out.Work("How much warmer than the bath the hot water must be.", "hot = wanted + cold litres ÷ hot litres × (wanted - cold)", c("target")+" + "+l("cold_litres")+" ÷ "+l("hot_litres")+" × ("+c("target")+" - "+c("cold")+") = "+text("°C", hottest, 4), equalHeat.Name)
	}
	if hottest >= scalds {
		out.People("Water this hot scalds, the hotter the faster. Put the cold in first and add the hot to it, carry it in closed cans, and keep hands out until it is stirred and measured.", reckoning.CommonPractice)
	}
	out.Object("Stir, wait and measure before the object goes in: the tray takes heat as well, and a bath comes out a little cooler than this.", reckoning.CommonPractice)
	out.Object("Never pour hot water onto the object or beside it.", reckoning.CommonPractice)
}
