package reckoning

import (
	"sinkside/calc/solution"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// density20 is why the water is reckoned as it is.
var density20 = Source{density.Name, density.Where + " Baths up to 2 % w/v are taken to weigh what water weighs.", Read}

// inUnit writes a quantity in one unit for the working, closer than results are
// shown, so that the next step can be followed.
//
//go:noinline
func inUnit(symbol string, base float64) string { return mustUnit(symbol).Write(base, 4) }

// handy writes a quantity in the metric unit that fits its size.
func handy(k unit.Kind, base float64) string {
	return unit.Handy(k, base, unit.Metric)[0].Write(base, 4)
}

func grams(c unit.Concentration) string {
	return handy(unit.ConcentrationKind, c.GramsPerLitre())
}

func weight(m unit.Mass) string   { return handy(unit.MassKind, m.Grams()) }
func volume(v unit.Volume) string { return handy(unit.VolumeKind, v.Litres()) }

func explainSolution(s *sheet, out *Result) {
	strength, p := strengthOf(s), productOf(s)
	bath := unit.Volume(s.base("litres"))
	active := strength.In(bath)
	s.workStrength(out, strength)
	out.work("Active substance that the bath needs.", "active = bath × strength",
		volume(bath)+" × "+grams(strength)+" = "+weight(active), dilution.Name)
	s.workProduct(out, active, strength, p)
	s.workMistake(out, active, strength)
	s.workWater(out, bath)
	s.solutionUnknown(out)
	s.solutionCautions(out, strength)
}

// workStrength accounts for a strength that was given by way of the CMC or of
// an amount.
func (s *sheet) workStrength(out *Result, strength unit.Concentration) {
	mm := func() string { return inUnit("g/mol", s.base("molar_mass")) }
	if s.has("cmc") && s.kind("cmc") == unit.MolarityKind {
		out.work("CMC in grams.", "g/L = mol/L × g/mol", inUnit("mmol/L", s.base("cmc"))+" × "+mm()+" = "+grams(s.inGrams("cmc")), dilution.Name)
	}
	switch s.kind("target") {
	case unit.MultipleKind:
		out.work("Strength in grams.", "strength = multiple × CMC",
			unit.Text(s.base("target"), 6)+" × "+grams(s.inGrams("cmc"))+" = "+grams(strength), paste.Name)
	case unit.MolarityKind:
		out.work("Strength in grams.", "g/L = mol/L × g/mol", inUnit("mmol/L", s.base("target"))+" × "+mm()+" = "+grams(strength), dilution.Name)
	}
}

// workProduct accounts for how much product to take.
func (s *sheet) workProduct(out *Result, active unit.Mass, strength unit.Concentration, p solution.Product) {
	if s.kind("active") == unit.MolarityKind {
		out.work("Active content of the product in grams.", "g/L = mol/L × g/mol",
			inUnit("mol/L", s.base("active"))+" × "+inUnit("g/mol", s.base("molar_mass"))+" = "+grams(p.ByVolume), dilution.Name)
	}
	share, stock, _ := p.Contents()
	mass := solution.ProductMass(active, share)
	bath := unit.Volume(s.base("litres"))
	dense := inUnit("g/mL", float64(p.Density))
	switch {
	case p.ByVolume > 0:
		v := solution.StockVolume(stock, strength, bath)
		out.work("Product that holds it.", "volume = bath × strength ÷ active content",
			volume(bath)+" × "+grams(strength)+" ÷ "+grams(stock)+" = "+volume(v), dilution.Name)
		if p.Density > 0 {
			out.work("The same, weighed.", "mass = volume × density", volume(v)+" × "+dense+" = "+weight(mass), dilution.Name)
		}
	default:
		out.work("Product that holds it.", "product = active ÷ active share",
			weight(active)+" ÷ "+unit.Text(float64(share), 4)+" = "+weight(mass), dilution.Name)
		if p.Density > 0 {
			out.work("The same, measured by volume.", "volume = mass ÷ density", weight(mass)+" ÷ "+dense+" = "+volume(mass.Over(p.Density)), dilution.Name)
		}
	}
}

// workMistake sets the usual mistake beside the right figure.
func (s *sheet) workMistake(out *Result, active unit.Mass, strength unit.Concentration) {
	weak, ok := out.value("mistaken_strength")
	if !ok {
		return
	}
	taken := weight(active)
	if v, ok := out.value("mistaken_volume"); ok {
		taken = unit.Text(v, 4) + " mL"
	}
	share := weak / strength.GramsPerLitre()
	out.work("The usual mistake: taking the product for pure, "+taken+" of it, makes a bath of "+unit.Text(share*100, 3)+" % of the strength wanted.",
		"weak strength = strength × active share", grams(strength)+" × "+unit.Text(share, 4)+" = "+grams(unit.Concentration(weak)), arithmetic.Name)
}

// workWater says how to make the bath up.
func (s *sheet) workWater(out *Result, bath unit.Volume) {
	how := "Stir it into part of the water, then make up to " + s.litres(bath) + ": the mark decides, not the water poured."
	switch s.choice("form") {
	case formPaste:
		how = "Stir the jar first, since pastes settle. Dissolve what you weighed in a little lukewarm water, then make up to " + s.litres(bath) + ": the mark decides, not the water poured."
	case formPowder:
		how = "Sprinkle it into part of the water and stir until it is dissolved, then make up to " + s.litres(bath) + ": the mark decides, not the water poured."
	}
	put := ""
	at20, _ := tray.WaterDensity(waterAt)
	dense := unit.Text(float64(at20), 4) + " kg/L"
	water, ok := out.value("water")
	if v, measured := out.value("product_volume"); ok && measured {
		put = volume(bath) + " - " + unit.Text(v, 4) + " mL = " + inUnit("L", water)
	} else if m, weighed := out.value("product_mass"); ok && weighed {
		put = "(" + volume(bath) + " × " + dense + " - " + weight(unit.Mass(m)) + " of product) ÷ " + dense + " = " + inUnit("L", water)
	}
	out.work(how, "", put, practice.Name)
}

// solutionUnknown lists what the inputs leave open.
func (s *sheet) solutionUnknown(out *Result) {
	title := func(name string) string { return s.r.spec(name).Title }
	if _, ok := out.value("product_volume"); !ok && s.choice("form") != formPowder {
		out.unknown("product_volume", title("product_volume"), "Not known without the density of the product. Weigh it.")
	}
	if _, ok := out.value("product_mass"); !ok {
		out.unknown("product_mass", title("product_mass"), "Not known without the density of the product. Measure it by volume.")
	}
	if !s.has("cmc") {
		out.unknown("multiple", title("multiple"), "Not known without the CMC of the active substance.")
	}
	if _, ok := out.value("water"); !ok {
		out.unknown("water", title("water"), "Not known at this strength without the density of the product. Make it up to the mark.")
	}
}

func (s *sheet) solutionCautions(out *Result, strength unit.Concentration) {
	out.people("Read the product's safety data sheet before you open it, and wear what it asks for.", practice)
	out.people("Concentrate splashes: gloves and eye protection on, the jar low in the sink.", practice)
	if s.choice("form") == formPowder {
		out.people("Raise no dust: still air, the scoop close to the pan, a mask where the data sheet asks for one.", practice)
	}
	out.people("If the product is a strong acid or alkali, add it to the water, never water to it.", aboutAcid)
	out.people("What may go down the drain is for the local rule to say.", practice)
	out.object("Test every colour with this liquid at this strength before the object meets it.", practice)
	s.micelleCautions(out, strength)
	a := s.find("active")
	if a.u.Kind == unit.FractionKind && a.base < float64(unit.Percent) {
		out.object("An active content of "+inUnit("% w/w", a.base)+" is very low for a product. Was a share such as 0.28 typed where 28 % was meant?", practice)
	}
	if a.u.Kind == unit.FractionKind && s.choice("form") == formLiquid {
		out.object("Make sure that the label means per cent of the mass (w/w). For per cent by volume (w/v) the amount differs by the density.", dilution)
	}
}

// manyCMC is the strongest of the published baths, in CMC.
const manyCMC = 10

func (s *sheet) micelleCautions(out *Result, strength unit.Concentration) {
	if !s.has("cmc") {
		out.object("If this is a surfactant: its CMC is not known here, so nobody can say whether the bath lies above it. Ask the maker.", cmcRange)
		return
	}
	const slack = 1e-9 // a bath asked for at 1 × CMC is not below it
	times := float64(solution.InCMC(strength, s.inGrams("cmc")))
	shown := unit.Text(times, 3) + " × CMC"
	switch {
	case times < 1-slack:
		out.object("At "+shown+" the bath is below the CMC: it wets, but it hardly holds soil in the water.", practice)
	case times > manyCMC+slack:
		out.object("At "+shown+" the bath is stronger than the 2 to 10 × CMC of published practice, and takes more rinsing.", cmcRange)
	}
	out.object("A CMC is given for pure water at about 25 °C. Salt in the water or in the product lowers it, so the true multiple may be higher.", cmcSalt)
}
