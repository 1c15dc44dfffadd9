package unit

import (
	"strings"
	"unicode"
)

// Read reads a number with or without its unit, as a person types it into a
// field whose unit chooser stands at chosen and offers allowed. It returns the
// number as typed and the unit that it is in.
//
// A unit that was typed goes before the one that was chosen. A name that several
// units bear, such as gal, means the chosen one where that is among them, and is
// otherwise refused. Inches, pounds and gallons may be typed with a fraction or in two
// units, as in 12 3/8 in and 5' 6". Errors are of type [*Error].
func Read(text string, allowed []Unit, chosen Unit) (float64, Unit, error) {
	if x, u, ok, err := byTape(text, allowed, chosen); ok {
		return x, u, err
	}
	num, name, err := cut(text)
	if err != nil {
		return 0, Unit{}, err
	}
	x, err := value(text, num)
	if err != nil {
		return 0, Unit{}, err
	}
	u := chosen
	if name != "" {
		if u, err = pick(text, name, allowed, chosen); err != nil {
			return 0, Unit{}, err
		}
	}
	if u.Kind == TemperatureKind && u.Base(x) < absoluteZero {
		return 0, Unit{}, wrong(text, "is colder than anything can be.")
	}
	return x, u, nil
}

// absoluteZero in degrees Celsius, by definition of the kelvin.
const absoluteZero = -273.15

// pick finds the unit that a typed name means.
func pick(text, name string, allowed []Unit, chosen Unit) (Unit, error) {
	name = spaced(name)
	if strings.HasPrefix(name, "±") || strings.HasPrefix(name, "+") {
		return Unit{}, wrong(text, "holds a ±: it has a field of its own.")
	}
	var fits []Unit
	for _, u := range allowed {
		if u.called(name) {
			if u.Symbol == chosen.Symbol {
				return u, nil
			}
			fits = append(fits, u)
		}
	}
	switch len(fits) {
	case 1:
		return fits[0], nil
	case 0:
		return Unit{}, wrong(text, misfit(text, name), instead(allowed))
	}
	return Unit{}, wrong(text, "leaves open which ", quoted(name), " is meant: ", symbols(fits), ".")
}

// misfit says what is wrong with a name that fits no unit of the field.
func misfit(text, name string) string {
	for _, u := range table {
		if u.called(name) {
			return "is " + u.Kind.String() + "."
		}
	}
	if text == name {
		return "is no unit known here."
	}
	return "ends in " + quoted(name) + ", which is no unit known here."
}

func instead(allowed []Unit) string {
	if len(allowed) == 0 {
		return " Write the number alone."
	}
	return " Use " + symbols(allowed) + "."
}

// symbols lists units for a person: "mL, L or US gal".
func symbols(units []Unit) string {
	var b strings.Builder
	for i, u := range units {
		switch {
		case i > 0 && i == len(units)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(u.Symbol)
	}
	return b.String()
}

// spaced makes every run of spaces, thin ones among them, one plain space.
func spaced(s string) string {
	return strings.Join(strings.FieldsFunc(s, unicode.IsSpace), " ")
}

// Choose finds the unit that name means among those allowed, as [Read] does for
// the unit behind a number; a symbol that was taken from the list of units is
// that unit, also where people use the same word for another, as oz.
func Choose(name string, allowed []Unit, chosen Unit) (Unit, error) {
	if len(name) > MaxText {
		return Unit{}, wrong(name, "is too long for a unit.")
	}
	for _, u := range allowed {
		if u.Symbol == name {
			return u, nil
		}
	}
	return pick(name, name, allowed, chosen)
}
