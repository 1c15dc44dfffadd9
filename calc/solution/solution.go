// Package solution reckons how much of a product with a known active content
// makes a bath of a wanted strength.
//
// Three words are kept apart, because mixing them up is the usual way to a wrong
// bath: the active substance, which does the work; the product, which holds only
// a share of it; and the strength, which counts active substance in the finished
// bath. A strength is a mass by volume (% w/v, g/L). An active content may be by
// mass (w/w, as on most labels) or by volume (w/v, a stock solution); the two
// differ by the density of the product.
//
// The equations are textbook algebra (from memory): C1·V1 = C2·V2 and
// % w/v = % w/w × density. Published cases that bear them out stand in the tests.
package solution

import (
	"errors"

	"sinkside/calc/unit"
)

// What a wish can ask that no product can give.
var (
	// ErrTooWeak happens when the product holds less active substance than the
	// bath should. Usually the strength was meant in another unit.
	ErrTooWeak = errors.New("product weaker than the bath that it should make")
	// ErrTooMuch happens when the density is not known and the bath would take
	// more than a kilogram of product to the litre, so that only the density can
	// tell whether it fits in.
	ErrTooMuch = errors.New("more than a kilogram of product to each litre of bath")
	// ErrTooDense happens when a litre of the product would hold more active
	// substance than it weighs.
	ErrTooDense = errors.New("more active substance in a litre of product than it weighs")
)

// Product says what is in the jar. Exactly one of ByMass and ByVolume is given;
// the other follows from it where the density is known.
type Product struct {
	ByMass   unit.Fraction      // active share by mass, above 0 to 1; 0: not given
	ByVolume unit.Concentration // active mass in a litre of product; 0: not given
	Density  unit.Density       // 0: not known, or a powder, whose grains it would not describe
}

// Contents completes p: both active contents where the density allows it, and
// 0 for the one that cannot be known.
func (p Product) Contents() (unit.Fraction, unit.Concentration, error) {
	switch {
	case p.Density == 0:
		return p.ByMass, p.ByVolume, nil
	case p.ByVolume == 0:
		return p.ByMass, p.ByMass.At(p.Density), nil
	}
	share := p.ByVolume.Share(p.Density)
	if share > 1 {
		return 0, 0, ErrTooDense
	}
	return share, p.ByVolume, nil
}

// Batch is what to take for one bath. What is 0 cannot be known from what was
// given.
type Batch struct {
	Active  unit.Mass   // active substance in the bath
	Product unit.Mass   // product to weigh out
	Measure unit.Volume // or product to measure out
	Water   unit.Volume // about how much water makes it up
}

// Make reckons a bath of the given volume and strength from a product. water is
// the density of the water. The bath must be above zero, and so must the
// strength.
func Make(bath unit.Volume, strength unit.Concentration, p Product, water unit.Density) (Batch, error) {
	share, stock, err := p.Contents()
	if err != nil {
		return Batch{}, err
	}
	b := Batch{Active: strength.In(bath)}
	if share > 0 {
		b.Product = ProductMass(b.Active, share)
	}
	if stock > 0 {
		if strength > stock {
			return Batch{}, ErrTooWeak
		}
		b.Measure = StockVolume(stock, strength, bath)
		b.Water = bath - b.Measure
		return b, nil
	}
	if b.Product.Kilograms() > bath.Litres() {
		return Batch{}, ErrTooMuch
	}
	if wanted := strength.Share(water); strength <= Dilute && wanted < share {
		b.Water = WaterToThin(b.Product, share, wanted).Over(water)
	}
	return b, nil
}

// Dilute is the strength up to which a bath is taken to weigh what water weighs:
// 2 % w/v. The error is then below 1 % of the water (common practice).
const Dilute = 2 * unit.PercentByVolume

// ProductMass returns the product that holds so much active substance, at an
// active share above 0.
func ProductMass(active unit.Mass, share unit.Fraction) unit.Mass {
	return unit.Mass(float64(active) / float64(share))
}

// StockVolume returns how much of a stock makes total of the wanted strength:
// V1 = C2·V2/C1, in whatever unit both strengths have. stock must be above 0.
func StockVolume[C unit.Concentration | unit.Molarity](stock, wanted C, total unit.Volume) unit.Volume {
	return unit.Volume(float64(wanted) * float64(total) / float64(stock))
}

// Diluted returns the strength of total that holds v of a stock: C2 = C1·V1/V2,
// the inverse of [StockVolume]. total must be above 0.
func Diluted[C unit.Concentration | unit.Molarity](stock C, v, total unit.Volume) C {
	return C(float64(stock) * float64(v) / float64(total))
}

// WaterToThin returns the water that brings a mass of solution from one share by
// mass down to another, which must be above 0 and not above the first:
// m_water = m·(w1/w2 - 1).
func WaterToThin(m unit.Mass, from, to unit.Fraction) unit.Mass {
	return unit.Mass(float64(m) * (float64(from)/float64(to) - 1))
}

// InCMC returns how many times its critical micelle concentration a strength is.
// cmc must be above 0.
func InCMC(strength, cmc unit.Concentration) unit.Multiple {
	return unit.Multiple(float64(strength) / float64(cmc))
}

// OfCMC returns the strength that is so many times the critical micelle
// concentration: the inverse of [InCMC].
func OfCMC(times unit.Multiple, cmc unit.Concentration) unit.Concentration {
	return unit.Concentration(float64(times) * float64(cmc))
}

// TakenAsPure returns the strength that comes of the usual mistake: weighing out
// as much product as active substance is wanted, as if the product were nothing
// else. share is its active share by mass.
func TakenAsPure(strength unit.Concentration, share unit.Fraction) unit.Concentration {
	return unit.Concentration(float64(strength) * float64(share))
}
