package reckoning

import (
	"errors"

	"sinkside/calc/solution"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// Forms of a product.
const (
	formPaste  = "paste"
	formLiquid = "liquid"
	formPowder = "powder"
)

func solutionReckoning() *Reckoning {
	litres := Input{Name: "litres", Title: "Bath", Kind: Quantity, Unit: "L", Units: []string{"L", "mL", "US gal", "imp gal", "US fl oz", "imp fl oz"}, Min: 0.01, Max: 5000,
		Help: "How much finished solution you want."}
	active := Input{Name: "active", Title: "Active content of the product", Kind: Quantity, Unit: "% w/w", Units: []string{"% w/w", "% w/v", "g/L", "mol/L"}, Min: 0.1, Max: 100,
		Ranges: []Range{{"% w/v", 0.01, 200}, {"g/L", 0.1, 2000}, {"mol/L", 0.0001, 40}},
		Help:   "From the label or the maker: how much of the product is the active substance. 100 for a pure powder. Labels mostly mean w/w, per cent of the mass."}
	density := Input{Name: "density", Title: "Density of the product", Kind: Quantity, Unit: "g/mL", Units: []string{"g/mL", "kg/m³"}, Min: 0.6, Max: 2.5, Optional: true,
		When: "form", Is: []string{formPaste, formLiquid},
		Help: "Only needed to measure by volume. The safety data sheet has it in section 9; or weigh 100 mL."}
	cmc := Input{Name: "cmc", Title: "CMC of the active substance", Kind: Quantity, Unit: "g/L", Units: []string{"g/L", "mg/L", "% w/v", "mmol/L"}, Min: 0.0001, Max: 50, Optional: true,
		Ranges: []Range{{"mmol/L", 0.0001, 500}},
		Help:   "Critical micelle concentration of a surfactant. Leave empty if you do not know it. Sodium dodecyl sulfate: 2.34 g/L."}
	return (&Reckoning{
		Name: "solution", Title: "A solution of the right strength", Asks: "How much of this product makes a bath of the strength I want?",
		Inputs: []Input{
			litres,
			{Name: "target", Title: "Strength wanted", Kind: Quantity, Unit: "g/L", Units: []string{"g/L", "% w/v", "× CMC", "mmol/L"}, Min: 0.001, Max: 500,
				Ranges: []Range{{"× CMC", 0.01, 100}, {"mmol/L", 0.001, 5000}},
				Help:   "Active substance in the finished bath, not product. Published detergent baths lie at 1 to 1.5 and at 2 to 10 × CMC."},
			{Name: "form", Title: "The product is", Kind: OneOf, Default: formPaste,
				Choices: []Choice{{formPaste, "a paste"}, {formLiquid, "a liquid"}, {formPowder, "a powder"}}},
			active, density, cmc,
			{Name: "molar_mass", Title: "Molar mass of the active substance", Kind: Quantity, Unit: "g/mol", Units: []string{"g/mol"}, Min: 10, Max: 500000, Optional: true,
				Help: "Only needed where something is given in mol/L or mmol/L."},
			plusMinus(&litres), plusMinus(&active), plusMinus(&density), plusMinus(&cmc),
		},
		Results: []ResultSpec{
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
		Sources: from(&dilution, &paste, &cmcRange, &cmcSalt, &density20, &definitions, &aboutAcid, &practice, &arithmetic),
		prepare: prepareSolution, figures: solutionFigures, explain: explainSolution,
	}).setUp()
}

// prepareSolution checks what two inputs must agree on.
func prepareSolution(s *sheet) {
	if !s.has("molar_mass") {
		for _, name := range []string{"target", "active", "cmc"} {
			if s.has(name) && s.kind(name) == unit.MolarityKind {
				s.missing("molar_mass", "it is needed, since "+s.find(name).in.Title+" is given as an amount.")
			}
		}
	}
	if s.kind("target") == unit.MultipleKind && !s.has("cmc") {
		s.missing("cmc", "a multiple of the CMC cannot be worked out while the CMC is not known. Ask the maker, or give the strength in g/L.")
	}
	if s.choice("form") == formPowder && s.kind("active") != unit.FractionKind {
		s.fault(s.find("active"), "a powder is weighed, so its active content is to be by mass (% w/w).")
	}
	if len(s.problems) > 0 {
		return
	}
	// What was given as an amount or a multiple is held to the same limits as if
	// it had been given in grams.
	s.limit("active", s.inGrams("active"), 2000)
	s.limit("cmc", s.inGrams("cmc"), 50)
	s.limit("target", strengthOf(s), 500)
}

// limit notes when an input comes to more than so many grams in a litre.
func (s *sheet) limit(name string, c unit.Concentration, most float64) {
	if a := s.find(name); a.known && c.GramsPerLitre() > most {
		r := Range{"g/L", 0, most}
		s.problem(Problem{Field: name, Value: a.text, Unit: a.u.Symbol, Allowed: "up to " + unit.Text(r.Max, 4) + " g/L",
			Say: a.in.Title + ": it comes to " + grams(c) + ", which is more than " + unit.Text(most, 4) + " g/L."})
	}
}

// inGrams returns an input that is a strength by volume in g/L; 0 where it is
// not one.
func (s *sheet) inGrams(name string) unit.Concentration {
	switch s.kind(name) {
	case unit.ConcentrationKind:
		return unit.Concentration(s.base(name))
	case unit.MolarityKind:
		return unit.Molarity(s.base(name)).Concentration(unit.MolarMass(s.base("molar_mass")))
	}
	return 0
}

func strengthOf(s *sheet) unit.Concentration {
	if s.kind("target") == unit.MultipleKind {
		return solution.OfCMC(unit.Multiple(s.base("target")), s.inGrams("cmc"))
	}
	return s.inGrams("target")
}

func productOf(s *sheet) solution.Product {
	p := solution.Product{ByVolume: s.inGrams("active")}
	if s.kind("active") == unit.FractionKind {
		p.ByMass = unit.Fraction(s.base("active"))
	}
	if s.has("density") {
		p.Density = unit.Density(s.base("density"))
	}
	return p
}

// waterAt is the temperature for which the water that makes up a solution is
// reckoned, as volumetric ware is marked for it.
const waterAt unit.Temperature = 20

func solutionFigures(s *sheet) ([]figure, *Problem) {
	water, err := tray.WaterDensity(waterAt)
	if err != nil {
		return nil, &Problem{Say: err.Error()}
	}
	strength, product := strengthOf(s), productOf(s)
	bath := unit.Volume(s.base("litres"))
	b, err := solution.Make(bath, strength, product, water)
	if err != nil {
		return nil, s.cannotMake(err, strength, product)
	}
	share, stock, _ := product.Contents()
	var out []figure
	add := func(name string, base float64) {
		if base > 0 {
			out = append(out, fig(name, base))
		}
	}
	add("product_mass", b.Product.Grams())
	add("product_volume", b.Measure.Litres())
	add("water", b.Water.Litres())
	add("active_mass", b.Active.Grams())
	add("strength", strength.GramsPerLitre())
	if s.has("cmc") {
		add("multiple", float64(solution.InCMC(strength, s.inGrams("cmc"))))
	}
	if s.has("molar_mass") {
		add("molarity", strength.Molarity(unit.MolarMass(s.base("molar_mass"))).MolesPerLitre())
	}
	return append(out, mistaken(b, bath, strength, share, stock)...), nil
}

// nearlyPure is the active share from which taking a product for pure is no
// mistake worth showing.
const nearlyPure = 0.995

// mistaken returns what comes of the usual mistake: as much product taken as
// active substance is wanted. Of a product known by volume alone a millilitre is
// taken for a gram, as people then do.
func mistaken(b solution.Batch, bath unit.Volume, strength unit.Concentration, share unit.Fraction, stock unit.Concentration) []figure {
	switch {
	case share > 0 && share < nearlyPure:
		return []figure{fig("mistaken_mass", b.Active.Grams()), fig("mistaken_strength", solution.TakenAsPure(strength, share).GramsPerLitre())}
	case share == 0 && stock < nearlyPure*unit.Fraction(1).At(gramPerMillilitre):
		taken := unit.Volume(b.Active.Grams()) * unit.Millilitre
		return []figure{fig("mistaken_volume", taken.Litres()), fig("mistaken_strength", solution.Diluted(stock, taken, bath).GramsPerLitre())}
	}
	return nil
}

// cannotMake says to the person why no bath comes of these inputs.
func (s *sheet) cannotMake(err error, strength unit.Concentration, p solution.Product) *Problem {
	switch {
	case errors.Is(err, solution.ErrTooWeak):
		_, stock, _ := p.Contents()
		return s.cannot("target", "up to "+grams(stock), "a bath of "+grams(strength)+" cannot be made from a product that holds "+grams(stock)+" itself.")
	case errors.Is(err, solution.ErrTooMuch):
		most := unit.Concentration(float64(p.ByMass) * 1000)
		return s.cannot("target", "up to "+grams(most), "a bath of "+grams(strength)+" would take more than a kilogram of this product to each litre. Is the strength meant in another unit?")
	case errors.Is(err, solution.ErrTooDense):
		return s.cannot("active", "up to "+grams(unit.Fraction(1).At(p.Density)), "a litre of the product would hold more active substance than it weighs.")
	}
	return &Problem{Say: err.Error()}
}
