package solution

import "sinkside/calc/unit"

// Thinned is a dilution by mass: solution and water that together are the weaker
// one.
type Thinned struct {
	Stock, Water, Total unit.Mass
}

// ThinTo returns the dilution by mass that makes total: stock = total·w2/w1. Both
// shares must be above 0 and to not above from.
func ThinTo(total unit.Mass, from, to unit.Fraction) Thinned {
	part := float64(to) / float64(from)
	return Thinned{unit.Mass(float64(total) * part), unit.Mass(float64(total) * (1 - part)), total}
}

// ThinFrom returns the dilution by mass of all the stock that there is.
func ThinFrom(stock unit.Mass, from, to unit.Fraction) Thinned {
	water := WaterToThin(stock, from, to)
	return Thinned{stock, water, stock + water}
}

// MadeFrom returns the volume that a volume of stock is made up to:
// V2 = C1·V1/C2. wanted must be above 0.
func MadeFrom(stock, wanted float64, v unit.Volume) unit.Volume {
	return unit.Volume(stock * float64(v) / wanted)
}

// ByShare returns the molarity of a solution known by mass:
// c = 10·(% w/w)·density/M. It is multiplied by the density, never divided.
func ByShare(w unit.Fraction, d unit.Density, m unit.MolarMass) unit.Molarity {
	return w.At(d).Molarity(m)
}

// PureAt returns the mass in a litre of a liquid that is there by volume: % v/v
// times the density of the pure liquid.
func PureAt(share unit.Fraction, pure unit.Density) unit.Concentration {
	return unit.Concentration(float64(share) * float64(pure) * 1000)
}
