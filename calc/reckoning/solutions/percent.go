package solutions

import (
	"strings"

	"sinkside/calc/reckoning"
)

// whichPercent says in words what each per cent counts. They differ by the density,
// and labels often leave open which is meant.
func whichPercent(symbol string) string {
	switch symbol {
	case "% w/w":
		return ", grams in 100 g"
	case "% w/v":
		return ", grams in 100 mL"
	case "% v/v":
		return ", millilitres of the liquid in 100 mL"
	}
	return ""
}

// symbolOf returns the unit in which an input was read, which a refusal would name.
func symbolOf(s *reckoning.Sheet, name string) string { return s.Cannot(name, "", "").Unit }

// workPercents says which per cent was taken for a strength whose text does not name
// one itself: a bare % means the one at which the form stands, and another would make
// another bath. of goes before the title of the input.
func workPercents(s *reckoning.Sheet, out *reckoning.Result, of string, names ...string) {
	for _, name := range names {
		text := s.Words(name)
		symbol := symbolOf(s, name)
		means := whichPercent(symbol)
		if text == "" || means == "" || strings.Contains(text, "/") {
			continue
		}
		out.Work(of+s.Asked(name)+": “"+text+"” was taken as "+symbol+means+". Where another per cent is meant, choose that.", "", "", "")
	}
}

// workContent does so for the content of a product. A powder's is by mass alone, so
// that nothing is left open there.
func workContent(s *reckoning.Sheet, out *reckoning.Result, of string) {
	if s.Choice("form") != formPowder {
		workPercents(s, out, of, "active")
	}
}
