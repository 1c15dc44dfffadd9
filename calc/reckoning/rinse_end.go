package reckoning

import (
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// What the suds check showed.
const (
	sudsNone    = "none"
	sudsSome    = "some"
	sudsUnknown = "unknown"
)

// Sources of the end of rinsing.
var (
	ours      = Source{"our choice", "Chosen for this program, since no published figure was found. Change it where yours is better.", Ours}
	decay     = Source{"fitted decay", "What batch rinsing leaves is a share of what was there: κ = source + excess × rⁿ. Least squares on the logarithm of what stands above the source.", Computed}
	students  = Source{"Student's t", "Range of a new reading about a fitted line: textbook statistics, for nine of ten. Quantiles of Student's t from the usual tables, held against the integral of the density.", Memory}
	levelling = Source{"levelling off", "Doddington Hall, conservation of textiles: pH and conductivity of the liquor plotted through the wash; about an hour passed before conductivity levelled.", Read}
	notSeen   = Source{"what conductivity misses", "Industrial rinsing guides: conductivity misses whatever does not conduct.", Read}
)

func rinseEndReckoning() *Reckoning {
	volumes := []string{"L", "mL", "US gal", "imp gal"}
	siemens := func(name, title, help string, least, most float64, usual string) Input {
		return Input{Name: name, Title: title, Kind: Quantity, Unit: "µS/cm", Units: conductivityUnits, Min: least, Max: most, Default: usual, Optional: usual != "", Help: help}
	}
	share := func(name, title, help string, least, most float64, usual string) Input {
		return Input{Name: name, Title: title, Kind: Quantity, Unit: "%", Units: []string{"%"}, Min: least, Max: most, Default: usual, Optional: true, Help: help}
	}
	return (&Reckoning{
		Name: "rinse_end", Title: "When rinsing may stop", Asks: "How far has rinsing come, and how many rinses more may it take?",
		Inputs: []Input{
			{Name: "readings", Title: "Readings at the ends of the rinses", Kind: Series, Unit: "µS/cm", Units: conductivityUnits, Max: mostConductive,
				Help: "In their order, at 25 °C: 802; 202; 52. The bath before the first rinse may lead."},
			siemens("source", "Rinse water as it is poured", "The same meter, at 25 °C as well.", 0, mostConductive, ""),
			{Name: "litres", Title: "Fresh water of each rinse", Kind: Series, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
				Help: "One figure for each reading, or one less where the bath leads. With the liquid kept, unequal rinses are allowed for."},
			{Name: "kept", Title: "Liquid kept after draining", Kind: Quantity, Unit: "L", Units: volumes, Min: 0.001, Max: 500, Optional: true,
				Help: "What the textile and its support still hold. A kilogram is about a litre."},
			{Name: "suds", Title: "Suds, shaken in a clear jar", Kind: OneOf, Default: sudsUnknown,
				Choices: []Choice{{sudsUnknown, "not checked"}, {sudsNone, "none"}, {sudsSome, "some"}}},
			{Name: "ph_change", Title: "pH, changed since the rinse before by", Kind: Number, Min: -7, Max: 7, Optional: true},
			{Name: "colour", Title: "Colour of the rinse water", Kind: Number, Max: 5, Whole: true, Optional: true, Help: "0 for none to 5 for strong."},
			{Name: "near_times", Title: "Near the source: times the source", Kind: Number, Min: 1, Max: 20, Default: "2", Optional: true,
				Help: "A reading up to this or the next counts as near, whichever is more; by this never above 20 µS/cm over the source. Our choice."},
			siemens("near_above", "Near the source: or above it by", "Our choice.", 0.5, 1000, "5"),
			share("flat", "Levelled off: changes by less than", "Of what stands above the source, from one rinse to the next. Our choice.", 0.1, 50, "5"),
			share("scatter", "Least scatter from rinse to rinse", "Of what stands above the source. No rinse is foretold closer. Our choice.", 1, 100, "10"),
			share("meter", "Error of the meter", "Of the reading. Our choice; the meter's manual has its own.", 0.1, 20, "2"),
			siemens("meter_least", "Error of the meter, at least", "Our choice; often the last figure shown, twice over.", 0.01, 100, "1"),
			{Name: "ph_steady", Title: "pH is steady within", Kind: Number, Min: 0.01, Max: 2, Default: "0.2", Optional: true, Help: "Our choice."},
		},
		Results: []ResultSpec{
			{Name: "more_low", Title: "Rinses more, at least", Unit: ""},
			{Name: "more_high", Title: "Rinses more, at most", Unit: ""},
			{Name: "more_litres", Title: "Fresh water for them, at most", Unit: "L"},
			{Name: "excess", Title: "Last reading, above the source", Unit: "µS/cm"},
			{Name: "near", Title: "Near the source up to", Unit: "µS/cm"},
			{Name: "fell", Title: "Fell since the rinse before, of what stands above the source", Unit: "%"},
			{Name: "rose", Title: "Rose since the rinse before, of what stands above the source", Unit: "%"},
			{Name: "ratio", Title: "Each rinse leaves, by the readings", Unit: "%"},
			{Name: "mixing", Title: "The last would leave, by mixing alone", Unit: "%"},
		},
		Sources: from(&ours, &decay, &students, &levelling, &notSeen, &batch, &adsorption, &saltSource, &definitions, &practice, &arithmetic),
		prepare: prepareRinseEnd, figures: rinseEndFigures, explain: explainRinseEnd, usual: ours.Name,
	}).setUp()
}

func prepareRinseEnd(s *sheet) {
	if got, n := len(s.fresh()), len(s.series("readings")); got != 0 && got != n {
		s.fault(s.find("litres"), "there are "+count(got, "figure")+" for "+count(n, "reading")+". Give one for each, or leave it empty.")
	}
}

// fresh returns the litres of the rinse that led to each reading. Those that leave
// out the first are led by a bath, and what is put there for it counts nowhere.
func (s *sheet) fresh() []float64 {
	litres := s.series("litres")
	if n := len(litres); n > 0 && n == len(s.series("readings"))-1 {
		return append([]float64{litres[0]}, litres...)
	}
	return litres
}

// ending judges the readings of a filled form.
func (s *sheet) ending() rinse.Ending {
	r := rinse.Readings{K: s.series("readings"), Source: s.base("source"), Kept: unit.Volume(s.base("kept")), Rules: rinse.Rules{
		Times: s.base("near_times"), Above: s.base("near_above"), Flat: unit.Fraction(s.base("flat")), Scatter: unit.Fraction(s.base("scatter")),
		Meter: unit.Fraction(s.base("meter")), MeterLeast: s.base("meter_least"),
	}}
	for _, v := range s.fresh() {
		r.Fresh = append(r.Fresh, unit.Volume(v))
	}
	return r.End()
}

func rinseEndFigures(s *sheet) ([]figure, *Problem) {
	e := s.ending()
	var out figures
	if e.Refusal == rinse.Foretold {
		out.add("more_low", float64(e.MoreLow))
		out.add("more_high", float64(e.MoreHigh))
		if litres := s.series("litres"); len(litres) > 0 && e.MoreHigh > 0 {
			out.add("more_litres", float64(e.MoreHigh)*litres[len(litres)-1])
		}
	}
	out.add("excess", max(e.Excess, 0))
	out.add("near", e.Near)
	switch {
	case e.Moved && e.Change < -least:
		out.add("fell", min(-e.Change, 1))
	case e.Moved && e.Change > least:
		out.add("rose", e.Change)
	}
	if e.Fit {
		out.add("ratio", e.Ratio)
	}
	if e.Mixing > 0 {
		out.add("mixing", e.Mixing)
	}
	return out, nil
}

// RinseEnding is all that the reckoning rinse_end finds, for those who draw it
// or propose by it.
type RinseEnding struct {
	rinse.Ending
	Curve   []rinse.Band // the fit, from the first reading it rests on to some rinses beyond the last; empty without one
	Propose string       // GoOn, Stop or Look
	Say     string       // the proposal in a sentence or two
	Reasons []string     // what speaks for it and what is missing, the suds check always among them
	Refused string       // why no rinses more are foretold; empty where they are
}

// RinseCurve reckons rinse_end from the same inputs and by the same code as [Run]
// does. It is there because a figure of a [Result] cannot be a list. The places
// of the curve are the numbers of the readings, from 1.
func RinseCurve(in jsontext.Value) (RinseEnding, []Problem) {
	s, problems := fill("rinse_end", in)
	if len(problems) > 0 {
		return RinseEnding{}, problems
	}
	const least, most = 2, 8 // places ahead: enough to see where it goes
	e := s.ending()
	out := RinseEnding{Ending: e, Curve: e.Curve(min(max(e.MoreHigh, least), most)), Refused: s.refused(e)}
	out.Propose, out.Say, out.Reasons = s.proposal(e)
	return out, nil
}
