package solutions

import (
	"strings"

	"sinkside/calc/buffer"
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// BufferRecipe is the reckoning that reads a published buffer recipe.
func BufferRecipe() *reckoning.Reckoning {
	litres := reckoning.Quantity("litres", "Buffer", "L", 0.01, 5000)
	return (&reckoning.Reckoning{
		Name: "buffer_recipe", Title: "A buffer from a published table", Asks: "What do I mix for a citrate or citrate-phosphate buffer of this pH?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("table", "Buffer of", buffer.Gomori.Name, "citrate, 0.05 mol/L: pH 3.0 to 5.8", buffer.McIlvaine.Name, "citrate and phosphate: pH 2.6 to 7.4"),
			reckoning.Number("ph", "pH wanted", 2.6, 7.4).Note("Between two rows of the table a straight line is taken. Beyond its last row nothing is given."),
			litres,
			reckoning.Choose("acid_form", "Citric acid in the jar", "1", "monohydrate", "0", "anhydrous"),
			reckoning.Choose("salt_form", "Citrate or phosphate in the jar", "2", "dihydrate", "0", "anhydrous", "7", "heptahydrate (phosphate)", "12", "dodecahydrate (phosphate)"),
			reckoning.PlusMinus(&litres),
		},
		Results: []reckoning.ResultSpec{
			{Name: "acid_stock", Title: "0.1 mol/L citric acid", Unit: "mL"},
			{Name: "salt_stock", Title: "The other stock: 0.1 mol/L citrate, or 0.2 mol/L phosphate", Unit: "mL"},
			{Name: "water", Title: "Water, made up to the mark", Unit: "mL"},
			{Name: "acid_mass", Title: "Or weigh: citric acid", Unit: "g"},
			{Name: "salt_mass", Title: "Or weigh: citrate or phosphate", Unit: "g"},
		},
		Sources: reckoning.From(&gomori, &mcIlvaine, &weightsOf, &printed178, &swapping, &bands, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"table":"citrate","ph":"5.2","litres":"2 L","acid_form":"1","salt_form":"2"}`,
		Prepare: prepareBufferRecipe, Figures: bufferRecipeFigures, Explain: explainBufferRecipe,
	}).Ready()
}

func tableOf(s *reckoning.Sheet) buffer.Recipe {
	if s.Choice("table") == buffer.McIlvaine.Name {
		return buffer.McIlvaine
	}
	return buffer.Gomori
}

// saltOf returns the salt of the table's other stock.
func saltOf(s *reckoning.Sheet) solution.Substance {
	if s.Choice("table") == buffer.McIlvaine.Name {
		return substanceNamed("disodium_hydrogen_phosphate")
	}
	return substanceNamed("trisodium_citrate")
}

func substanceNamed(name string) solution.Substance {
	for _, one := range solution.Substances {
		if one.Name == name {
			return one
		}
	}
	panic("solutions: no substance " + name)
}

func prepareBufferRecipe(s *reckoning.Sheet) {
	r := tableOf(s)
	if _, err := r.At(s.Base("ph")); err != nil {
		low, high := r.Span()
		allowed := unit.Text(low, 3) + " to " + unit.Text(high, 3)
		s.Beyond("ph", allowed, "the published table for "+r.Title+" has "+allowed+". Beyond it nothing is guessed here.")
	}
	if !saltOf(s).Sold(watersOf(s, "salt_form")) {
		s.Beyond("salt_form", formsOf(s), saltOf(s).Title+" is not sold in this form.")
	}
}

// formsOf says in which forms the salt of the table is sold.
func formsOf(s *reckoning.Sheet) string {
	var forms []string
	for _, f := range saltForms {
		if saltOf(s).Sold(f.waters) {
			forms = append(forms, f.name)
		}
	}
	return strings.Join(forms, " or ")
}

// saltForms are the forms that can be chosen.
var saltForms = [...]struct {
	waters float64
	name   string
}{{2, "dihydrate"}, {0, "anhydrous"}, {7, "heptahydrate"}, {12, "dodecahydrate"}}

// watersOf returns the number of waters that a choice of form stands for.
func watersOf(s *reckoning.Sheet, name string) float64 {
	switch s.Choice(name) {
	case "1":
		return 1
	case "2":
		return 2
	case "7":
		return 7
	case "12":
		return 12
	}
	return 0
}

// bufferMix is a recipe scaled to litres.
type bufferMix struct {
	buffer.Mix
	acid, salt, water  unit.Volume
	acidMass, saltMass unit.Mass
}

func bufferMixOf(s *reckoning.Sheet) (bufferMix, error) {
	r := tableOf(s)
	mix, err := r.At(s.Base("ph"))
	if err != nil {
		return bufferMix{}, err
	}
	litres := s.Base("litres")
	out := bufferMix{Mix: mix, acid: unit.Volume(mix.Acid * litres), salt: unit.Volume(mix.Base * litres), water: unit.Volume(mix.Water * litres)}
	acid := substanceNamed("citric_acid").MolarMass(watersOf(s, "acid_form"))
	salt := saltOf(s).MolarMass(watersOf(s, "salt_form"))
	out.acidMass = r.Acid.Concentration(acid).In(out.acid)
	out.saltMass = r.Base.Concentration(salt).In(out.salt)
	return out, nil
}

func bufferRecipeFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	mix, err := bufferMixOf(s)
	if err != nil {
		return nil, s.Cannot("ph", "", "it lies outside of the published table.")
	}
	var out reckoning.Figures
	out.Add("acid_stock", mix.acid.Litres())
	out.Add("salt_stock", mix.salt.Litres())
	if mix.water > 0 { // the two stocks of citrate and phosphate make up the whole
		out.Add("water", mix.water.Litres())
	}
	out.Add("acid_mass", mix.acidMass.Grams())
	out.Add("salt_mass", mix.saltMass.Grams())
	return out, nil
}

func explainBufferRecipe(s *reckoning.Sheet, out *reckoning.Result) {
	r := tableOf(s)
	mix, _ := bufferMixOf(s)
	source := gomori
	if r.Name == buffer.McIlvaine.Name {
		source = mcIlvaine
	}
	pH := func(x float64) string { return "pH " + unit.Text(x, 3) }
	litres := unit.Volume(s.Base("litres"))
	if mix.Between() {
		out.Verdict("rows", "Read from the table", pH(s.Base("ph"))+" lies between the published rows "+pH(mix.Low.PH)+" and "+pH(mix.High.PH)+", on a straight line between them. It is not itself a published mixture.")
	} else {
		out.Verdict("rows", "Read from the table", pH(s.Base("ph"))+" is a published row.")
	}
	table := out.Table("Rows of the published table, for 100 mL", "pH", "0.1 mol/L citric acid", unit.Text(float64(r.Base), 2)+" mol/L "+r.Other)
	table.Row(unit.Text(mix.Low.PH, 3), unit.Text(mix.Low.Acid, 4)+" mL", unit.Text(mix.Low.Base, 4)+" mL")
	if mix.Between() {
		table.Row(unit.Text(mix.High.PH, 3), unit.Text(mix.High.Acid, 4)+" mL", unit.Text(mix.High.Base, 4)+" mL")
	}
	out.Work("Citric acid stock.", "mL of the row × litres × 10", unit.Text(mix.Acid*100, 4)+" mL in 100 mL, for "+reckoning.Volume(litres)+" = "+reckoning.Volume(mix.acid), source.Name)
	out.Work("Stock of "+r.Other+".", "mL of the row × litres × 10", unit.Text(mix.Base*100, 4)+" mL in 100 mL, for "+reckoning.Volume(litres)+" = "+reckoning.Volume(mix.salt), source.Name)
	acid := substanceNamed("citric_acid").MolarMass(watersOf(s, "acid_form"))
	salt := saltOf(s).MolarMass(watersOf(s, "salt_form"))
	out.Work("The same, weighed.", "mass = volume × mol/L × g/mol",
		reckoning.Volume(mix.acid)+" × "+unit.Text(float64(r.Acid), 2)+" × "+unit.Text(float64(acid), 6)+" = "+reckoning.Weight(mix.acidMass)+" of citric acid; "+
			reckoning.Volume(mix.salt)+" × "+unit.Text(float64(r.Base), 2)+" × "+unit.Text(float64(salt), 6)+" = "+reckoning.Weight(mix.saltMass)+" of "+r.Other, weightsOf.Name)
	how := "Measured, mix the two stocks: together they are all of it."
	if mix.water > 0 {
		how = "Measured, mix the two stocks and make up to " + s.Litres(litres) + " with water."
	}
	out.Work(how+" Weighed, dissolve both in part of the water and make up to "+s.Litres(litres)+".", "", "", reckoning.CommonPractice.Name)
	if r.Name == buffer.McIlvaine.Name && watersOf(s, "salt_form") == 2 {
		workPrinted(out)
	}
	bufferCautions(out, s.Base("ph"))
	if mix.Between() {
		out.Object("A straight line between rows misses the true mixture by about 1 mL in 100 mL at most, and so the pH by some hundredths.", bands)
	}
}

// bufferCautions are those of every buffer of citrate or phosphate.
func bufferCautions(out *reckoning.Result, pH float64) {
	solutionPeople(out)
	powderPeople(out)
	harshOnFibres(out, pH)
	measureIt(out)
	takesMetal(out)
}

// harshOnFibres tells of acid and alkali, in which fibres and dyes suffer.
func harshOnFibres(out *reckoning.Result, pH float64) {
	if pH < 4.5 || pH > 8.5 {
		out.Object("Alkali weakens wool and silk, acid cotton and linen, and many dyes change with either: test each fibre and colour at this pH.", reckoning.CommonPractice)
	}
}

func measureIt(out *reckoning.Result) {
	out.Object("Measure the pH of the finished buffer with a calibrated meter, at the temperature at which it is used, and correct it. Thinned, it drifts.", reckoning.CommonPractice)
}

// takesMetal is what citrate and phosphate can do to the object.
func takesMetal(out *reckoning.Result) {
	out.Object("Citrate takes up calcium, iron and other metals: mordants, pigments and metal threads among them. Phosphate forms deposits with calcium. Test first.", reckoning.CommonPractice)
}
