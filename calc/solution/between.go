package solution

import (
	"errors"

	"sinkside/calc/unit"
)

// Why no intermediate stock can be proposed.
var (
	// ErrVessel happens when the intermediate stock would take a vessel larger
	// than there is. A finer measure, or a larger error allowed, helps.
	ErrVessel = errors.New("the intermediate stock would take a larger vessel")
	// ErrDose happens when what must be taken of the intermediate stock is more
	// than the bath itself.
	ErrDose = errors.New("the bath is smaller than what can be measured well enough")
)

// Steps says how finely a person can weigh or measure, and how far off the amount
// may be. Step is the smallest difference that the balance or measure shows; a
// single reading is counted as off by no more than that.
type Steps struct {
	First    float64       // step of what the first amount is taken with: g or L
	Measure  unit.Volume   // step of the measure for the intermediate stock
	Allowed  unit.Fraction // relative error allowed in the amount
	Vessel   unit.Volume   // the largest in which the stock can be made
	Smallest unit.Volume   // the smallest; 0: 10 mL
}

// ReadingError returns the relative error of one amount read in steps.
func ReadingError(step, amount float64) unit.Fraction { return unit.Fraction(step / amount) }

// Between is a way by an intermediate stock: take First, make it up to Made, and
// take Dose of that. First is in the unit of what was asked for, grams or litres.
type Between struct {
	First float64
	Made  unit.Volume
	Dose  unit.Volume
	Error unit.Fraction // both reading errors, added
}

// ByStock proposes an intermediate stock for an amount too small to be taken
// directly, in grams or litres. Both steps share the error allowed evenly; the
// dose and the stock are made round numbers. bath must hold the dose.
//
//	First/Made × Dose = amount
//	step/First + step/Dose ≤ allowed
func ByStock(amount float64, bath unit.Volume, s Steps) (Between, error) {
	half := float64(s.Allowed) / 2
	dose := round(float64(s.Measure)/half, 0)
	if dose > float64(bath)*(1+slack) {
		return Between{}, ErrDose
	}
	least := s.First / half
	made := round(dose*max(1, least/amount), max(float64(s.Smallest), float64(10*unit.Millilitre)))
	if made > float64(s.Vessel)*(1+slack) {
		return Between{}, ErrVessel
	}
	first := amount * made / dose
	return Between{First: first, Made: unit.Volume(made), Dose: unit.Volume(dose),
		Error: ReadingError(s.First, first) + ReadingError(float64(s.Measure), dose)}, nil
}

// slack keeps a last bit from deciding which round number is taken.
const slack = 1e-9

// round returns the least of 1, 2, 2.5, 5 times a power of ten litres that is not
// below x and not below least.
func round(x, least float64) float64 {
	x = max(x, least)
	for _, power := range [...]float64{1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1, 10, 100, 1000, 1e4, 1e5, 1e6} {
		for _, n := range [...]float64{1, 2, 2.5, 5} {
			if n*power >= x*(1-slack) {
				return n * power
			}
		}
	}
	return 1e7
}
