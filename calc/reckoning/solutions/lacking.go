package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// lack is what is still needed, or does not go together, before a strength and a
// product mean something.
type lack struct{ field, allowed, say string }

// lacking finds what is wanting in a form, or in a row of one, that asks for a
// strength of a product. weighed tells whether the density of the finished bath is
// known.
func lacking(s *reckoning.Sheet, weighed bool) []lack {
	var out []lack
	add := func(field, say string) { out = append(out, lack{field: field, say: say}) }
	if !s.Has("molar_mass") {
		for _, name := range []string{"target", "active", "cmc"} {
			if s.Has(name) && s.Kind(name) == unit.MolarityKind {
				add("molar_mass", "it is needed, since "+s.Asked(name)+" is given as an amount.")
			}
		}
	}
	if s.Kind("target") == unit.MultipleKind && !s.Has("cmc") {
		add("cmc", "a multiple of the CMC cannot be worked out while the CMC is not known. Ask the maker, or give the strength in g/L.")
	}
	if s.Choice("form") == formPowder && s.Kind("active") != unit.FractionKind {
		out = append(out, lack{"active", s.Allowed("active").String(), "a powder is weighed, so its active content is to be by mass (% w/w)."})
	}
	if s.Kind("target") == unit.FractionKind && !weighed && unit.Fraction(s.Base("target")) > thinByMass {
		add("bath_density", "above 2 % w/w it is needed, since the bath no longer weighs what water weighs. Or give the strength in % w/v.")
	}
	for _, name := range []string{"target", "active"} {
		switch {
		case s.Kind(name) != unit.VolumeShareKind:
		case s.Choice("form") != formLiquid:
			return append(out, lack{name, "% v/v of a liquid only", "% v/v counts millilitres of a liquid, and the product is none. Give % w/v or % w/w."})
		case !s.Has("pure_density"):
			add("pure_density", "it is needed for % v/v. To thin one % v/v to another, “Thin a stronger solution” does without.")
		}
	}
	return out
}

// beyondLimits finds what was given as an amount or a multiple and comes to more
// than the same would be allowed in grams.
func beyondLimits(s *reckoning.Sheet, strength unit.Concentration) []lack {
	var out []lack
	limit := func(name string, c unit.Concentration, most float64) {
		if s.Has(name) && c.GramsPerLitre() > most {
			upTo := unit.Text(most, 4) + " g/L"
			out = append(out, lack{name, "up to " + upTo, "it comes to " + reckoning.Grams(c) + ", which is more than " + upTo + "."})
		}
	}
	limit("active", inGrams(s, "active"), 2000)
	limit("cmc", inGrams(s, "cmc"), 50)
	if s.Kind("target") != unit.VolumeShareKind { // a share by volume has its own end
		limit("target", strength, 500)
	}
	return out
}
