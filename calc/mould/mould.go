// Package mould holds what is published of when mould grows. The statements are
// kept apart: no index of our own is made of them.
package mould

// Say is one published statement, and whether these circumstances fall under it.
type Say struct {
	By    string
	Where string
	Text  string
	Warns bool // these circumstances are what it warns of
}

// Humidities that the statements name, in per cent.
const (
	PracticallyNothing = 65 // below water activity 0.65
	Damp               = 75
	Prolific           = 75
	Indoor             = 60
)

// WarmC is the temperature that a park service's sheet gives as its most, °C.
const WarmC = 24

// Hours within which wet material is to be dry.
const (
	DryEarly = 24
	DryLate  = 48
)

// Says returns the statements for a relative humidity in per cent, a temperature
// in °C, hours at that humidity, and hours wet; hours of 0 are not known.
func Says(humidity, celsius, hours, wet float64) []Say {
	const week = 24 * 7
	// Nobody reads a meter so closely, and 75.2 °F is 24 °C but for the last bit.
	const bit = 1e-9
	celsius -= bit
	above := humidity - bit
	humidity += bit
	return []Say{
		{"US National Park Service", "Conserve O Gram 3/4, 1993", "Keep the humidity below 65 % and the temperature at 24 °C or less; aim for 45 to 55 % and 18 to 20 °C.", humidity >= PracticallyNothing || celsius > WarmC},
		{"S. Michalski, Canadian Conservation Institute", "Incorrect Relative Humidity", "Damp is above 75 %.", above > Damp},
		{"T. Padfield, citing Ayerst 1969", "padfield.org", "Weeks above 75 % are likely to grow mould on nutritious surfaces.", above > Damp && (hours == 0 || hours >= week)},
		{"a summary of water activity", "experts123", "Practically nothing grows below a water activity of 0.65; prolific growth needs 75 to 80 % or more.", humidity >= Prolific},
		{"US Environmental Protection Agency", "A Brief Guide to Mold, Moisture, and Your Home", "Dry wet materials within 24 to 48 hours; keep the air indoors below 60 %, best 30 to 50 %.", wet > DryEarly || humidity >= Indoor},
	}
}
