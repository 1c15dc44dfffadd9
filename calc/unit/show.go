package unit

import (
	"strconv"
	"strings"
)

// Text writes x for people, rounded to so many significant figures: no
// exponent, no trailing zeros behind the point, and digits in groups of three
// from 10 000 on, apart by a no-break space so that a line never ends in them.
// x must be finite.
func Text(x float64, figures int) string {
	e := strconv.FormatFloat(x, 'e', max(figures, 1)-1, 64)
	rounded, err := strconv.ParseFloat(e, 64)
	if err != nil {
		return e
	}
	s := strconv.FormatFloat(rounded, 'f', -1, 64)
	whole, decimals, found := strings.Cut(s, ".")
	whole = grouped(whole)
	if found {
		return whole + "." + decimals
	}
	return whole
}

func grouped(whole string) string {
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	if len(whole) < 5 {
		return sign + whole
	}
	var b strings.Builder
	b.WriteString(sign)
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteRune('\u00a0')
		}
		b.WriteRune(c)
	}
	return b.String()
}

// Write writes a quantity of the kind's own unit in u: "321 mL".
func (u Unit) Write(base float64, figures int) string {
	if u.Symbol == "" {
		return Text(base, figures)
	}
	return Text(u.Of(base), figures) + " " + u.shown()
}

// shown is the symbol as people read it beside a number: a change is in per cent.
func (u Unit) shown() string {
	if u.Kind == ChangeKind {
		return "%"
	}
	return u.Symbol
}

// ladder lists, for one kind and system, the units a person would choose from
// the smallest up, each with the size from which it is used.
type rung struct {
	from   float64 // in the kind's own unit
	symbol string
}

func ladder(k Kind, s System) []rung {
	switch {
	case k == VolumeKind && s == Metric:
		return []rung{{0, "mL"}, {1, "L"}}
	case k == VolumeKind && s == US:
		return []rung{{0, "US fl oz"}, {float64(USGallon) / 2, "US gal"}}
	case k == VolumeKind && s == Imperial:
		return []rung{{0, "imp fl oz"}, {float64(ImperialGallon) / 2, "imp gal"}}
	case k == MassKind && s == Metric:
		return []rung{{0, "mg"}, {1, "g"}, {1000, "kg"}}
	case s == InchPound:
		return inchPound(k)
	case k == ConcentrationKind && s == Metric:
		return []rung{{0, "mg/L"}, {0.1, "g/L"}}
	case k == MolarityKind && s == Metric:
		return []rung{{0, "mmol/L"}, {1, "mol/L"}}
	}
	return nil
}

// inchPound lists the units of kinds that do not ask which gallon.
func inchPound(k Kind) []rung {
	switch k {
	case MassKind:
		return []rung{{0, "oz"}, {float64(Pound), "lb"}}
	case LengthKind:
		return []rung{{0, "in"}, {float64(10 * Foot), "ft"}}
	case AreaKind:
		return []rung{{0, "in²"}, {float64(Foot*Foot) / 1e6, "ft²"}}
	case TemperatureKind:
		return []rung{{0, "°F"}}
	case IlluminanceKind:
		return []rung{{0, "fc"}}
	case ArealMassKind:
		return []rung{{0, "oz/yd²"}}
	case SpeedKind:
		return []rung{{0, "ft/min"}}
	}
	return nil
}

// BySize reports whether a metric unit is one of those that are chosen by size.
func BySize(u Unit) bool {
	for _, r := range ladder(u.Kind, Metric) {
		if r.symbol == u.Symbol {
			return true
		}
	}
	return false
}

// Handy returns the units in which a person who works in system s reads a
// quantity of kind k: the metric one that fits its size first, where there is a
// choice of them, then that of s where the kind has one. Someone who measures in inches has not said which gallon, so InchPound
// gives both.
func Handy(k Kind, base float64, s System) []Unit {
	var out []Unit
	add := func(system System) {
		if u, ok := rungFor(ladder(k, system), base); ok {
			out = append(out, u)
		}
	}
	add(Metric)
	// Less than a thousandth of an ounce is read by nobody.
	if s != Metric && !(k == MassKind && base < float64(Ounce)/1000) {
		add(InchPound)
	}
	if s&US != 0 {
		add(US)
	}
	if s&Imperial != 0 {
		add(Imperial)
	}
	return out
}

func rungFor(rungs []rung, base float64) (Unit, bool) {
	if len(rungs) == 0 {
		return Unit{}, false
	}
	at := rungs[0]
	for _, r := range rungs {
		if base >= r.from {
			at = r
		}
	}
	return Named(at.symbol)
}
