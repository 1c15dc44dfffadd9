// Package unit holds quantities as types, each with its unit inside, so that a
// mass can never be added to a volume and a percentage by mass never be taken
// for one by volume. It also reads what a person types and writes what a person
// reads.
//
// Inside, a volume is in litres, a mass in grams, a length in millimetres, a
// temperature in degrees Celsius, a concentration in grams per litre, a density
// in grams per millilitre, a conductivity in microsiemens per centimetre. A
// quantity made of that unit is held exactly; others are right to the last bit
// or two of a float64, and reading there and back is tested to 4 parts in 10^16.
//
// The package imports no fmt and no host: it runs in the browser as on the
// studio machine.
package unit

// Volume is a volume in litres.
type Volume float64

// Volume units. The two gallons and their fluid ounces differ by 20 % and -4 %:
// a bare "gal" or "fl oz" is therefore never guessed. Both gallons are exact by
// definition (231 cubic inches; 4.54609 litres); from memory of NIST Special
// Publication 811, appendix B.
const (
	Litre              Volume = 1
	Millilitre                = Litre / 1000
	USGallon           Volume = 3.785411784
	USFluidOunce              = USGallon / 128
	ImperialGallon     Volume = 4.54609
	ImperialFluidOunce        = ImperialGallon / 160
)

// Litres returns the volume in litres, exactly.
func (v Volume) Litres() float64 { return float64(v) }

// Millilitres returns the volume in millilitres.
func (v Volume) Millilitres() float64 { return float64(v) * 1000 }

// At returns the mass of the volume when it has density d.
func (v Volume) At(d Density) Mass { return Mass(float64(v) * float64(d) * 1000) }

// Mass is a mass in grams.
type Mass float64

// Mass units. The pound is 453.59237 g and 7000 grains by definition; from
// memory of NIST Special Publication 811, appendix B.
const (
	Gram      Mass = 1
	Milligram      = Gram / 1000
	Kilogram       = Gram * 1000
	Pound     Mass = 453.59237
	Ounce          = Pound / 16
)

// Grams returns the mass in grams, exactly.
func (m Mass) Grams() float64 { return float64(m) }

// Kilograms returns the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }

// Over returns the volume that the mass takes up at density d, which must not
// be zero.
func (m Mass) Over(d Density) Volume { return Volume(float64(m) / float64(d) / 1000) }

// Length is a length in millimetres.
type Length float64

// Length units. The inch is 25.4 mm by definition.
const (
	Millimetre Length = 1
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch       Length = 25.4
	Foot              = 12 * Inch
)

// Millimetres returns the length in millimetres, exactly.
func (l Length) Millimetres() float64 { return float64(l) }

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// Celsius returns the temperature in degrees Celsius, exactly.
func (t Temperature) Celsius() float64 { return float64(t) }

// Fraction is a share of a mass: 0.28 is 28 % by mass (w/w). As a pick-up it
// may be above 1.
type Fraction float64

// Percent is one hundredth.
const Percent Fraction = 0.01

// Percent returns the share in hundredths.
func (f Fraction) Percent() float64 { return float64(f) * 100 }

// At returns what a share by mass is by volume, in a liquid of density d:
// % w/v = % w/w times the density in g/mL, never divided by it.
func (f Fraction) At(d Density) Concentration { return Concentration(float64(f) * float64(d) * 1000) }

// Concentration is a mass in a volume of finished solution, in grams per litre.
// One per cent by volume (w/v) is 10 g/L.
type Concentration float64

// Concentration units.
const (
	GramPerLitre      Concentration = 1
	PercentByVolume                 = 10 * GramPerLitre
	MilligramPerLitre               = GramPerLitre / 1000
)

// GramsPerLitre returns the concentration in g/L, exactly.
func (c Concentration) GramsPerLitre() float64 { return float64(c) }

// In returns the mass that a volume of the solution holds.
func (c Concentration) In(v Volume) Mass { return Mass(float64(c) * float64(v)) }

// Share returns what the concentration is by mass, in a liquid of density d,
// which must not be zero.
func (c Concentration) Share(d Density) Fraction {
	return Fraction(float64(c) / (float64(d) * 1000))
}

// Molarity returns the amount of a substance of molar mass m that a litre
// holds. m must not be zero.
func (c Concentration) Molarity(m MolarMass) Molarity { return Molarity(float64(c) / float64(m)) }

// Molarity is an amount of substance in a volume, in moles per litre.
type Molarity float64

// MolesPerLitre returns the molarity in mol/L, exactly.
func (m Molarity) MolesPerLitre() float64 { return float64(m) }

// Concentration returns the mass in a litre when a mole weighs mm.
func (m Molarity) Concentration(mm MolarMass) Concentration {
	return Concentration(float64(m) * float64(mm))
}

// Density is a mass in a volume, in grams per millilitre, which is kilograms
// per litre.
type Density float64

// GramPerMillilitre stands for the density of water and of dilute baths where it
// is not known closer.
const GramPerMillilitre Density = 1

// GramsPerMillilitre returns the density in g/mL, exactly.
func (d Density) GramsPerMillilitre() float64 { return float64(d) }

// MolarMass is the mass of one mole, in grams.
type MolarMass float64

// Multiple is a concentration counted in critical micelle concentrations.
type Multiple float64

// Amount is an amount of substance in moles.
type Amount float64

// Moles returns the amount in mol, exactly.
func (a Amount) Moles() float64 { return float64(a) }

// Mass returns what the amount weighs when a mole weighs mm.
func (a Amount) Mass(mm MolarMass) Mass { return Mass(float64(a) * float64(mm)) }
