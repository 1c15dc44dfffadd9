package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// density20 is why the water is reckoned as it is.
var density20 = reckoning.Source{Name: reckoning.WaterDensity.Name, Where: reckoning.WaterDensity.Where + " Baths up to 2 % w/v are taken to weigh what water weighs.", Mark: reckoning.Read}

func explainSolution(s *reckoning.Sheet, out *reckoning.Result) {
	strength, p := strengthOf(s), productOf(s)
	bath := unit.Volume(s.Base("litres"))
	active := strength.In(bath)
	workContent(s, out, "")
	workStrength(s, out, "", strength, bathDensityOf(s))
	out.Work("Active substance that the bath needs.", "active = bath × strength",
		reckoning.Volume(bath)+" × "+reckoning.Grams(strength)+" = "+reckoning.Weight(active), dilution.Name)
	workProduct(s, out, active, strength, p)
	workMistake(s, out, active, strength)
	workWater(s, out, bath)
	solutionUnknown(s, out)
	solutionCautions(s, out, strength)
}

// workStrength accounts for a strength that was given by way of the CMC, of an
// amount or of a share. of is whose it is, where there are several.
func workStrength(s *reckoning.Sheet, out *reckoning.Result, of string, strength unit.Concentration, bath unit.Density) {
	mm := func() string { return reckoning.InUnit("g/mol", s.Base("molar_mass")) }
	if s.Has("cmc") && s.Kind("cmc") == unit.MolarityKind {
		out.Work(of+"CMC in grams.", "g/L = mol/L × g/mol", reckoning.InUnit("mmol/L", s.Base("cmc"))+" × "+mm()+" = "+reckoning.Grams(inGrams(s, "cmc")), dilution.Name)
	}
	switch s.Kind("target") {
	case unit.MultipleKind:
		out.Work(of+"Strength in grams.", "strength = multiple × CMC",
			unit.Text(s.Base("target"), 6)+" × "+reckoning.Grams(inGrams(s, "cmc"))+" = "+reckoning.Grams(strength), paste.Name)
	case unit.MolarityKind:
		out.Work(of+"Strength in grams.", "g/L = mol/L × g/mol", reckoning.InUnit("mmol/L", s.Base("target"))+" × "+mm()+" = "+reckoning.Grams(strength), dilution.Name)
	}
	workShares(s, out, of, strength, bath)
	workActive(s, out, of)
}

// workProduct accounts for how much product to take.
func workProduct(s *reckoning.Sheet, out *reckoning.Result, active unit.Mass, strength unit.Concentration, p solution.Product) {
	share, stock, _ := p.Contents()
	mass := solution.ProductMass(active, share)
	bath := unit.Volume(s.Base("litres"))
	dense := reckoning.InUnit("g/mL", float64(p.Density))
	switch {
	case p.ByVolume > 0:
		v := solution.StockVolume(stock, strength, bath)
		out.Work("Product that holds it.", "volume = bath × strength ÷ active content",
			reckoning.Volume(bath)+" × "+reckoning.Grams(strength)+" ÷ "+reckoning.Grams(stock)+" = "+reckoning.Volume(v), dilution.Name)
		if p.Density > 0 {
			out.Work("The same, weighed.", "mass = volume × density", reckoning.Volume(v)+" × "+dense+" = "+reckoning.Weight(mass), dilution.Name)
		}
	default:
		out.Work("Product that holds it.", "product = active ÷ active share",
			reckoning.Weight(active)+" ÷ "+unit.Text(float64(share), 4)+" = "+reckoning.Weight(mass), dilution.Name)
		if p.Density > 0 {
			out.Work("The same, measured by volume.", "volume = mass ÷ density", reckoning.Weight(mass)+" ÷ "+dense+" = "+reckoning.Volume(mass.Over(p.Density)), dilution.Name)
		}
	}
}

// workMistake sets the usual mistake beside the right figure.
func workMistake(s *reckoning.Sheet, out *reckoning.Result, active unit.Mass, strength unit.Concentration) {
	weak, ok := out.Value("mistaken_strength")
	if !ok {
		return
	}
	taken := reckoning.Weight(active)
	if v, ok := out.Value("mistaken_volume"); ok {
		taken = unit.Text(v, 4) + " mL"
	}
	share := weak / strength.GramsPerLitre()
	out.Work("The usual mistake: taking the product for pure, "+taken+" of it, makes a bath of "+unit.Text(share*100, 3)+" % of the strength wanted.",
		"weak strength = strength × active share", reckoning.Grams(strength)+" × "+unit.Text(share, 4)+" = "+reckoning.Grams(unit.Concentration(weak)), reckoning.Arithmetic.Name)
}

// workWater says how to make the bath up.
func workWater(s *reckoning.Sheet, out *reckoning.Result, bath unit.Volume) {
	how := "Stir it into part of the water, then make up to " + s.Litres(bath) + ": the mark decides, not the water poured."
	switch s.Choice("form") {
	case formPaste:
		how = "Stir the jar first, since pastes settle. Dissolve what you weighed in a little lukewarm water, then make up to " + s.Litres(bath) + ": the mark decides, not the water poured."
	case formPowder:
		how = "Sprinkle it into part of the water and stir until it is dissolved, then make up to " + s.Litres(bath) + ": the mark decides, not the water poured."
	}
	put := ""
	dense := unit.Text(float64(water20()), 4) + " kg/L"
	water, ok := out.Value("water")
	if v, measured := out.Value("product_volume"); ok && measured {
		put = reckoning.Volume(bath) + " - " + unit.Text(v, 4) + " mL = " + reckoning.InUnit("L", water)
	} else if m, weighed := out.Value("product_mass"); ok && weighed {
		put = "(" + reckoning.Volume(bath) + " × " + dense + " - " + reckoning.Weight(unit.Mass(m)) + " of product) ÷ " + dense + " = " + reckoning.InUnit("L", water)
	}
	out.Work(how, "", put, reckoning.CommonPractice.Name)
}

// solutionUnknown lists what the inputs leave open.
func solutionUnknown(s *reckoning.Sheet, out *reckoning.Result) {
	title := func(name string) string { return s.Title(name) }
	if _, ok := out.Value("product_volume"); !ok && s.Choice("form") != formPowder {
		out.NotKnown("product_volume", title("product_volume"), "Not known without the density of the product. Weigh it.")
	}
	if _, ok := out.Value("product_mass"); !ok {
		out.NotKnown("product_mass", title("product_mass"), "Not known without the density of the product. Measure it by volume.")
	}
	if !s.Has("cmc") {
		out.NotKnown("multiple", title("multiple"), "Not known without the CMC of the active substance.")
	}
	if _, ok := out.Value("water"); !ok {
		out.NotKnown("water", title("water"), "Not known at this strength without the density of the product. Make it up to the mark.")
	}
}

func solutionCautions(s *reckoning.Sheet, out *reckoning.Result, strength unit.Concentration) {
	out.People("Read the product's safety data sheet before you open it, and wear what it asks for.", reckoning.CommonPractice)
	out.People("Concentrate splashes: gloves and eye protection on, the jar low in the sink.", reckoning.CommonPractice)
	if s.Choice("form") == formPowder {
		out.People("Raise no dust: still air, the scoop close to the pan, a mask where the data sheet asks for one.", reckoning.CommonPractice)
	}
	out.People("If the product is a strong acid or alkali, add it to the water, never water to it.", aboutAcid)
	if s.Kind("target") == unit.VolumeShareKind || s.Kind("active") == unit.VolumeShareKind {
		out.People("If the liquid burns, as alcohols do: no flame or spark, and air the room.", reckoning.CommonPractice)
	}
	out.People("What may go down the drain is for the local rule to say.", reckoning.CommonPractice)
	out.Object("Test every colour with this liquid at this strength before the object meets it.", reckoning.CommonPractice)
	shareCautions(s, out)
	micelleCautions(s, out, strength)
	byMass, active := s.Kind("active") == unit.FractionKind, s.Base("active")
	if byMass && active < float64(unit.Percent) {
		out.Object("An active content of "+reckoning.InUnit("% w/w", active)+" is very low for a product. Was a share such as 0.28 typed where 28 % was meant?", reckoning.CommonPractice)
	}
	if byMass && s.Choice("form") == formLiquid {
		out.Object("Make sure that the label means per cent of the mass (w/w). For per cent by volume (w/v) the amount differs by the density.", dilution)
	}
}

// manyCMC is the strongest of the published baths, in CMC.
const manyCMC = 10

func micelleCautions(s *reckoning.Sheet, out *reckoning.Result, strength unit.Concentration) {
	if !s.Has("cmc") {
		out.Object("If this is a surfactant: its CMC is not known here, so nobody can say whether the bath lies above it. Ask the maker.", cmcRange)
		return
	}
	const slack = 1e-9 // a bath asked for at 1 × CMC is not below it
	times := float64(solution.InCMC(strength, inGrams(s, "cmc")))
	shown := unit.Text(times, 3) + " × CMC"
	switch {
	case times < 1-slack:
		out.Object("At "+shown+" the bath is below the CMC: it wets, but it hardly holds soil in the water.", reckoning.CommonPractice)
	case times > manyCMC+slack:
		out.Object("At "+shown+" the bath is stronger than the 2 to 10 × CMC of published practice, and takes more rinsing.", cmcRange)
	}
	out.Object("A CMC is given for pure water at about 25 °C. Salt in the water or in the product lowers it, so the true multiple may be higher.", cmcSalt)
}
