package solutions

import (
	"errors"

	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// Forms of a product.
const (
	formPaste  = "paste"
	formLiquid = "liquid"
	formPowder = "powder"
)

// Solution reckons what a bath takes of a product.
func Solution() *reckoning.Reckoning {
	litres := reckoning.Input{Name: "litres", Title: "Bath", Kind: reckoning.KindQuantity, Unit: "L", Units: []string{"L", "mL", "US gal", "imp gal", "US fl oz", "imp fl oz"}, Min: 0.01, Max: 5000,
		Help: "How much finished solution you want."}
	active := reckoning.Input{Name: "active", Title: "Active content of the product", Kind: reckoning.KindQuantity, Unit: "% w/w", Units: []string{"% w/w", "% w/v", "g/L", "mol/L", "% v/v"}, Min: 0.1, Max: 100,
		Ranges: []reckoning.Range{{Unit: "% w/v", Min: 0.01, Max: 200}, {Unit: "g/L", Min: 0.1, Max: 2000}, {Unit: "mol/L", Min: 0.0001, Max: 40}, {Unit: "% v/v", Min: 0.1, Max: 100}},
		Help:   "From the label or the maker: how much of the product is the active substance. 100 for a pure powder. Labels mostly mean w/w, per cent of the mass."}
	density := reckoning.Input{Name: "density", Title: "Density of the product", Kind: reckoning.KindQuantity, Unit: "g/mL", Units: []string{"g/mL", "kg/m³"}, Min: 0.6, Max: 2.5, Optional: true,
		When: "form", Is: []string{formPaste, formLiquid},
		Help: "Only needed to measure by volume. The safety data sheet has it in section 9; or weigh 100 mL."}
	cmc := reckoning.Input{Name: "cmc", Title: "CMC of the active substance", Kind: reckoning.KindQuantity, Unit: "g/L", Units: []string{"g/L", "mg/L", "% w/v", "mmol/L"}, Min: 0.0001, Max: 50, Optional: true,
		Ranges: []reckoning.Range{{Unit: "mmol/L", Min: 0.0001, Max: 500}},
		Help:   "Critical micelle concentration of a surfactant. Leave empty if you do not know it. Sodium dodecyl sulfate: 2.34 g/L."}
	return (&reckoning.Reckoning{
		Name: "solution", Title: "A solution of the right strength", Asks: "How much of this product makes a bath of the strength I want?", Family: "Solutions",
		Example: `{"litres":"40 L","litres_pm":"0,5","target":{"value":3,"unit":"× CMC"},"form":"paste","active":{"value":28,"unit":"% w/w"},"active_pm":"1","density":"1,04","density_pm":0.01,"cmc":{"value":8.2,"unit":"mmol/L"},"cmc_pm":0.2,"molar_mass":288.378}`,
		Inputs: []reckoning.Input{
			litres,
			{Name: "target", Title: "Strength wanted", Kind: reckoning.KindQuantity, Unit: "g/L", Units: []string{"g/L", "% w/v", "× CMC", "mmol/L", "mol/L", "% w/w", "% v/v"}, Min: 0.001, Max: 500,
				Ranges: []reckoning.Range{{Unit: "× CMC", Min: 0.01, Max: 100}, {Unit: "mmol/L", Min: 0.001, Max: 5000}, {Unit: "mol/L", Min: 0.000001, Max: 5}, {Unit: "% w/w", Min: 0.0001, Max: 50}, {Unit: "% v/v", Min: 0.001, Max: 99}},
				Help:   "Active substance in the finished bath, not product; say which per cent it is. Published detergent baths lie at 1 to 1.5 and at 2 to 10 × CMC."},
			{Name: "form", Title: "The product is", Kind: reckoning.KindChoice, Default: formPaste,
				Choices: reckoning.Choices(formPaste, "a paste", formLiquid, "a liquid", formPowder, "a powder")},
			active, density, cmc,
			{Name: "molar_mass", Title: "Molar mass of the active substance", Kind: reckoning.KindQuantity, Unit: "g/mol", Units: []string{"g/mol"}, Min: 10, Max: 500000, Optional: true,
				Help: "Only needed where something is given in mol/L or mmol/L."},
			bathDensity(), pureDensity(),
			reckoning.PlusMinus(&litres), reckoning.PlusMinus(&active), reckoning.PlusMinus(&density), reckoning.PlusMinus(&cmc),
		},
		Results: []reckoning.ResultSpec{
			{Name: "product_mass", Title: "Product to weigh out", Unit: "g"},
			{Name: "product_volume", Title: "Product to measure out", Unit: "mL"},
			{Name: "water", Title: "Water, about", Unit: "L"},
			{Name: "active_mass", Title: "Active substance in the bath", Unit: "g"},
			{Name: "strength", Title: "Strength of the bath", Unit: "g/L"},
			{Name: "multiple", Title: "Strength, counted in CMC", Unit: "× CMC"},
			{Name: "molarity", Title: "Strength, as an amount", Unit: "mmol/L"},
			{Name: "mistaken_mass", Title: "Wrong: product, if it were all active", Unit: "g"},
			{Name: "mistaken_volume", Title: "Wrong: product, if it were all active", Unit: "mL"},
			{Name: "mistaken_strength", Title: "Wrong: the weak bath that would make", Unit: "g/L"},
		},
		Sources: reckoning.From(&dilution, &paste, &cmcRange, &cmcSalt, &density20, &reckoning.Definitions, &aboutAcid, &shrinking, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareSolution, Figures: solutionFigures, Explain: explainSolution,
	}).Ready()
}

// prepareSolution checks what two inputs must agree on.
func prepareSolution(s *reckoning.Sheet) {
	for _, l := range lacking(s, s.Has("bath_density")) {
		s.Beyond(l.field, l.allowed, l.say)
	}
	if !s.Sound() {
		return
	}
	// What was given as an amount or a multiple is held to the same limits as if
	// it had been given in grams.
	for _, l := range beyondLimits(s, strengthOf(s)) {
		s.Beyond(l.field, l.allowed, l.say)
	}
}

// inGrams returns an input that is a strength by volume in g/L; 0 where it is
// not one.
func inGrams(s *reckoning.Sheet, name string) unit.Concentration {
	switch s.Kind(name) {
	case unit.ConcentrationKind:
		return unit.Concentration(s.Base(name))
	case unit.MolarityKind:
		return unit.Molarity(s.Base(name)).Concentration(unit.MolarMass(s.Base("molar_mass")))
	case unit.VolumeShareKind:
		return solution.PureAt(unit.Fraction(s.Base(name)), unit.Density(s.Base("pure_density")))
	}
	return 0
}

func strengthOf(s *reckoning.Sheet) unit.Concentration { return strengthIn(s, bathDensityOf(s)) }

// strengthIn returns the strength that a form or a row of one wants, in a bath of a
// density.
func strengthIn(s *reckoning.Sheet, bath unit.Density) unit.Concentration {
	switch s.Kind("target") {
	case unit.MultipleKind:
		return solution.OfCMC(unit.Multiple(s.Base("target")), inGrams(s, "cmc"))
	case unit.FractionKind:
		return unit.Fraction(s.Base("target")).At(bath)
	}
	return inGrams(s, "target")
}

func productOf(s *reckoning.Sheet) solution.Product {
	p := solution.Product{ByVolume: inGrams(s, "active")}
	if s.Kind("active") == unit.FractionKind {
		p.ByMass = unit.Fraction(s.Base("active"))
	}
	if s.Has("density") {
		p.Density = unit.Density(s.Base("density"))
	}
	return p
}

func solutionFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	strength, product := strengthOf(s), productOf(s)
	bath := unit.Volume(s.Base("litres"))
	b, err := solution.Make(bath, strength, product, water20())
	if err != nil {
		return nil, cannotMake(s, err, strength, product)
	}
	share, stock, _ := product.Contents()
	var out reckoning.Figures
	add := func(name string, base float64) {
		if base > 0 {
			out = append(out, reckoning.Fig(name, base))
		}
	}
	add("product_mass", b.Product.Grams())
	add("product_volume", b.Measure.Litres())
	add("water", b.Water.Litres())
	add("active_mass", b.Active.Grams())
	add("strength", strength.GramsPerLitre())
	if s.Has("cmc") {
		add("multiple", float64(solution.InCMC(strength, inGrams(s, "cmc"))))
	}
	if s.Has("molar_mass") {
		add("molarity", strength.Molarity(unit.MolarMass(s.Base("molar_mass"))).MolesPerLitre())
	}
	return append(out, mistaken(b, bath, strength, share, stock, pureOf(s))...), nil
}

// nearlyPure is the active share from which taking a product for pure is no
// mistake worth showing.
const nearlyPure = 0.995

// mistaken returns what comes of the usual mistake: as much product taken as
// active substance is wanted. Of a product known by volume alone a millilitre is
// taken for a gram, as people then do, or for one of the pure liquid where its
// density was asked for.
func mistaken(b solution.Batch, bath unit.Volume, strength unit.Concentration, share unit.Fraction, stock unit.Concentration, pure unit.Density) reckoning.Figures {
	switch {
	case share > 0 && share < nearlyPure:
		return reckoning.Figures{reckoning.Fig("mistaken_mass", b.Active.Grams()), reckoning.Fig("mistaken_strength", solution.TakenAsPure(strength, share).GramsPerLitre())}
	case share == 0 && stock < nearlyPure*unit.Fraction(1).At(pure):
		taken := b.Active.Over(pure)
		return reckoning.Figures{reckoning.Fig("mistaken_volume", taken.Litres()), reckoning.Fig("mistaken_strength", solution.Diluted(stock, taken, bath).GramsPerLitre())}
	}
	return nil
}

// cannotMake says to the person why no bath comes of these inputs.
func cannotMake(s *reckoning.Sheet, err error, strength unit.Concentration, p solution.Product) *reckoning.Problem {
	switch {
	case errors.Is(err, solution.ErrTooWeak):
		_, stock, _ := p.Contents()
		return s.Cannot("target", "up to "+reckoning.Grams(stock), "a bath of "+reckoning.Grams(strength)+" cannot be made from a product that holds "+reckoning.Grams(stock)+" itself.")
	case errors.Is(err, solution.ErrTooMuch):
		most := unit.Concentration(float64(p.ByMass) * 1000)
		return s.Cannot("target", "up to "+reckoning.Grams(most), "a bath of "+reckoning.Grams(strength)+" would take more than a kilogram of this product to each litre. Is the strength meant in another unit?")
	case errors.Is(err, solution.ErrTooDense):
		return s.Cannot("active", "up to "+reckoning.Grams(unit.Fraction(1).At(p.Density)), "a litre of the product would hold more active substance than it weighs.")
	}
	return &reckoning.Problem{Say: err.Error()}
}
