package rinsing

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
	"sinkside/calc/water"
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
	decay     = reckoning.Source{Name: "fitted decay", Where: "What batch rinsing leaves is a share of what was there: κ = source + excess × rⁿ. Least squares on the logarithm of what stands above the source.", Mark: reckoning.Computed}
	students  = reckoning.Source{Name: "Student's t", Where: "Range of a new reading about a fitted line: textbook statistics, for nine of ten. Quantiles of Student's t from the usual tables, held against the integral of the density.", Mark: reckoning.Memory}
	levelling = reckoning.Source{Name: "levelling off", Where: "Doddington Hall, conservation of textiles: pH and conductivity of the liquor plotted through the wash; about an hour passed before conductivity levelled.", Mark: reckoning.Read}
	notSeen   = reckoning.Source{Name: "what conductivity misses", Where: "Industrial rinsing guides: conductivity misses whatever does not conduct.", Mark: reckoning.Read}
)

var end = declareEnd()

// End reckons how far rinsing has come.
func End() *reckoning.Reckoning { return end }

func declareEnd() *reckoning.Reckoning {
	volumes := []string{"L", "mL", "US gal", "US fl oz", "imp gal", "imp fl oz"}
	siemens := func(name, title, help string, least, most float64, usual string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "µS/cm", Units: []string{"µS/cm", "mS/cm"}, Min: least, Max: most, Default: usual, Optional: usual != "", Help: help}
	}
	share := func(name, title, help string, least, most float64, usual string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "%", Units: []string{"%"}, Min: least, Max: most, Default: usual, Optional: true, Help: help}
	}
	return (&reckoning.Reckoning{
		Name: "rinse_end", Title: "When rinsing may stop", Asks: "How far has rinsing come, and how many rinses more may it take?", Family: family,
		Example: `{"readings":{"value":"1,2; 0.41; 0,15; 0.052","unit":"mS/cm"},"source":3,"litres":"10; 12; 10; 9","kept":"1,4","suds":"none","ph_change":"−0.1","colour":1,"flat":4}`,
		Inputs: []reckoning.Input{
			{Name: "readings", Title: "Readings at the ends of the rinses", Kind: reckoning.KindSeries, Unit: "µS/cm", Units: []string{"µS/cm", "mS/cm"}, Max: water.MostConductive,
				Help: "In their order, at 25 °C: 802; 202; 52. The bath before the first rinse may lead."},
			siemens("source", "Rinse water as it is poured", "The same meter, at 25 °C as well.", 0, water.MostConductive, ""),
			{Name: "litres", Title: "Fresh water of each rinse", Kind: reckoning.KindSeries, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
				Help: "One figure for each reading, or one less where the bath leads. With the liquid kept, unequal rinses are allowed for."},
			{Name: "kept", Title: "Liquid kept after draining", Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.001, Max: 500, Optional: true,
				Help: "What the textile and its support still hold. A kilogram is about a litre."},
			{Name: "suds", Title: "Suds, shaken in a clear jar", Kind: reckoning.KindChoice, Default: sudsUnknown,
				Choices: reckoning.Choices(sudsUnknown, "not checked", sudsNone, "none", sudsSome, "some")},
			{Name: "ph_change", Title: "pH, changed since the rinse before by", Kind: reckoning.KindNumber, Min: -7, Max: 7, Optional: true},
			{Name: "colour", Title: "Colour of the rinse water", Kind: reckoning.KindNumber, Max: 5, Whole: true, Optional: true, Help: "0 for none to 5 for strong."},
			{Name: "near_times", Title: "Near the source: times the source", Kind: reckoning.KindNumber, Min: 1, Max: 20, Default: "2", Optional: true,
				Help: "A reading up to this or the next counts as near, whichever is more; by this never above 20 µS/cm over the source. Our choice."},
			siemens("near_above", "Near the source: or above it by", "Our choice.", 0.5, 1000, "5"),
			share("flat", "Levelled off: changes by less than", "Of what stands above the source, from one rinse to the next. Our choice.", 0.1, 50, "5"),
			share("scatter", "Least scatter from rinse to rinse", "Of what stands above the source. No rinse is foretold closer. Our choice.", 1, 100, "10"),
			share("meter", "Error of the meter", "Of the reading. Our choice; the meter's manual has its own.", 0.1, 20, "2"),
			siemens("meter_least", "Error of the meter, at least", "Our choice; often the last figure shown, twice over.", 0.01, 100, "1"),
			{Name: "ph_steady", Title: "pH is steady within", Kind: reckoning.KindNumber, Min: 0.01, Max: 2, Default: "0.2", Optional: true, Help: "Our choice."},
		},
		Results: []reckoning.ResultSpec{
			{Name: "more_low", Title: "Rinses more, at least", Unit: ""},
			{Name: "more_high", Title: "Rinses more, at most", Unit: ""},
			{Name: "more_litres", Title: "Fresh water for them, at most", Unit: "L"},
			{Name: "excess", Title: "Last reading, above the source", Unit: "µS/cm"},
			{Name: "under", Title: "Last reading, below the source", Unit: "µS/cm"},
			{Name: "near", Title: "Near the source up to", Unit: "µS/cm"},
			{Name: "fell", Title: "Fell since the rinse before, of what stands above the source", Unit: "%"},
			{Name: "rose", Title: "Rose since the rinse before, of what stands above the source", Unit: "%"},
			{Name: "ratio", Title: "Each rinse leaves, by the readings", Unit: "%"},
			{Name: "mixing", Title: "The last would leave, by mixing alone", Unit: "%"},
		},
		Sources: reckoning.From(&reckoning.OurChoice, &decay, &students, &levelling, &notSeen, &batch, &adsorption, &reckoning.SaltCoefficients, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareRinseEnd, Figures: rinseEndFigures, Explain: explainRinseEnd, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func prepareRinseEnd(s *reckoning.Sheet) {
	if got, n := len(freshOf(s)), len(s.Series("readings")); got != 0 && got != n {
		s.Beyond("litres", reckoning.Counted(n, "figure"), "there are "+reckoning.Counted(got, "figure")+" for "+reckoning.Counted(n, "reading")+". Give one for each, one less where the bath leads, or leave it empty.")
	}
}

// fresh returns the litres of the rinse that led to each reading. Those that leave
// out the first are led by a bath, and what is put there for it counts nowhere.
func freshOf(s *reckoning.Sheet) []float64 {
	litres := s.Series("litres")
	if n := len(litres); n > 0 && n == len(s.Series("readings"))-1 {
		return append([]float64{litres[0]}, litres...)
	}
	return litres
}

// ending judges the readings of a filled form.
func endingOf(s *reckoning.Sheet) rinse.Ending {
	r := rinse.Readings{K: s.Series("readings"), Source: s.Base("source"), Kept: unit.Volume(s.Base("kept")), Rules: rinse.Rules{
		Times: s.Base("near_times"), Above: s.Base("near_above"), Flat: unit.Fraction(s.Base("flat")), Scatter: unit.Fraction(s.Base("scatter")),
		Meter: unit.Fraction(s.Base("meter")), MeterLeast: s.Base("meter_least"),
	}}
	for _, v := range freshOf(s) {
		r.Fresh = append(r.Fresh, unit.Volume(v))
	}
	return r.End()
}

func rinseEndFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	e := endingOf(s)
	var out reckoning.Figures
	if e.Refusal == rinse.Foretold {
		out.Add("more_low", float64(e.MoreLow))
		out.Add("more_high", float64(e.MoreHigh))
		if litres := s.Series("litres"); len(litres) > 0 && e.MoreHigh > 0 {
			out.Add("more_litres", float64(e.MoreHigh)*litres[len(litres)-1])
		}
	}
	if e.Excess < -reckoning.Least {
		out.Add("under", -e.Excess)
	} else {
		out.Add("excess", max(e.Excess, 0))
	}
	out.Add("near", e.Near)
	switch {
	case e.Moved && e.Change < -reckoning.Least:
		out.Add("fell", min(-e.Change, 1))
	case e.Moved && e.Change > reckoning.Least:
		out.Add("rose", e.Change)
	}
	if e.Fit {
		out.Add("ratio", e.Ratio)
	}
	if e.Mixing > 0 {
		out.Add("mixing", e.Mixing)
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
func RinseCurve(in jsontext.Value) (RinseEnding, []reckoning.Problem) {
	s, problems := end.Fill(in)
	if len(problems) > 0 {
		return RinseEnding{}, problems
	}
	const least, most = 2, 8 // places ahead: enough to see where it goes
	e := endingOf(s)
	out := RinseEnding{Ending: e, Curve: e.Curve(min(max(e.MoreHigh, least), most)), Refused: refusedOf(s, e)}
	out.Propose, out.Say, out.Reasons = proposalOf(s, e)
	return out, nil
}
