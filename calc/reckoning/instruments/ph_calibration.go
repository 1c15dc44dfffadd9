package instruments

import (
	"errors"
	"math"
	"strconv"

	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const (
	inMillivolts = "mv"
	asPH         = "ph"
	ownBuffer    = "own"
)

// PHCalibration reckons a calibration of two or three buffers.
func PHCalibration() *reckoning.Reckoning {
	var buffers []string
	for _, b := range meter.Buffers {
		buffers = append(buffers, b.Name, b.Title)
	}
	buffers = append(buffers, ownBuffer, "another, by its label")
	return (&reckoning.Reckoning{
		Name: "ph_calibration", Title: "Calibration of a pH electrode", Asks: "Is my pH electrode in order, and what were my readings really?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("shown", "The meter shows", inMillivolts, "millivolts", asPH, "pH, with an older calibration or none"),
			reckoning.Quantity("temperature", "Temperature of the buffers", "°C", 0, 50).Usually("25").Note("Of all of them, and of what is measured."),
			reckoning.Rows("points", "Buffers", 3,
				reckoning.Choose("buffer", "Buffer", buffers...),
				reckoning.Number("own_ph", "Its pH at this temperature", 0, 14).If("buffer", ownBuffer).Note("From its label."),
				reckoning.Number("reading", "Reading", -1000, 1000).Note("In millivolts, or pH where the meter shows that."),
			),
			reckoning.Number("reading_off", "± each reading", 0, 50).Maybe().Note("How far off a reading may be, as the meter shows it: in mV, or in pH. The buffers' own ±0.02 pH is counted besides."),
			reckoning.Series("samples", "Readings to correct", "", -1000, 1000).Maybe().Note("As they were shown: 12; 15; 9."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "slope", Title: "Slope, for each pH", Unit: "mV"}, {Name: "share", Title: "Slope of the theoretical", Unit: "%"}, {Name: "theory", Title: "Theoretical slope, for each pH", Unit: "mV"},
			{Name: "offset", Title: "Offset, in pH 7", Unit: "mV", Signed: true}, {Name: "zero", Title: "It shows 0 mV in pH", Signed: true}, {Name: "misfit", Title: "Furthest buffer from one straight line, pH"},
		},
		Sources: reckoning.From(&standardBuffers, &technicalBuffers, &nernst, &slopeRule, &offsetRule, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"shown":"mv","temperature":"20","points":[{"buffer":"t4","reading":"169,5"},{"buffer":"t7","reading":"-6"},{"buffer":"t10","reading":"-174"}],"samples":"12; 30; -60"}`,
		Prepare: preparePH, Figures: phFigures, Explain: explainPH,
	}).Ready()
}

// bufferOf returns the pH of a row's buffer and what it is called.
func bufferOf(row *reckoning.Sheet, at unit.Temperature) (float64, string, error) {
	if row.Choice("buffer") == ownBuffer {
		return row.Base("own_ph"), "own buffer", nil
	}
	b, _ := meter.BufferNamed(row.Choice("buffer"))
	ph, err := b.PH(at)
	return ph, b.Title, err
}

func preparePH(s *reckoning.Sheet) {
	at := unit.Temperature(s.Base("temperature"))
	if !s.Sound() {
		return
	}
	for _, row := range s.Rows("points") {
		if _, _, err := bufferOf(row, at); err != nil {
			b, _ := meter.BufferNamed(row.Choice("buffer"))
			s.Beyond("temperature", "0 to "+text("°C", b.Warmest().Celsius(), 3), "the table of the buffer "+b.Title+" ends at "+text("°C", b.Warmest().Celsius(), 3)+".")
		}
	}
	for i, x := range s.Series("samples") {
		if s.Choice("shown") == asPH && outsidePH(x) {
			s.Beyond("samples", shownRange, "entry "+strconv.Itoa(i+1)+": a reading of "+unit.Text(x, 6)+" is no pH. Are the readings in millivolts?")
		}
	}
}

// shownRange is what a meter shows of a pH.
const shownRange = "-2 to 16"

// outsidePH reports whether no meter shows such a pH.
func outsidePH(x float64) bool { return x < -2 || x > 16 }

// potential returns a reading in millivolts. A meter that shows pH is taken to
// count from its own calibration as from a perfect electrode.
func potential(s *reckoning.Sheet, reading float64) meter.Potential {
	if s.Choice("shown") == asPH {
		return meter.Ideal(reading, unit.Temperature(s.Base("temperature")))
	}
	return meter.Potential(reading)
}

func calibrationOf(s *reckoning.Sheet) (meter.Calibration, error) {
	at := unit.Temperature(s.Base("temperature"))
	var points []meter.Point
	for _, row := range s.Rows("points") {
		ph, _, err := bufferOf(row, at)
		if err != nil {
			return meter.Calibration{}, err
		}
		points = append(points, meter.Point{PH: ph, Read: potential(s, row.Base("reading"))})
	}
	return meter.Calibrate(points, at)
}

func phFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	for i, row := range s.Rows("points") {
		if x := row.Base("reading"); s.Choice("shown") == asPH && outsidePH(x) {
			return nil, reckoning.InRow("points", i+1, row.Cannot("reading", shownRange, unit.Text(x, 6)+" is no pH. Are the readings in millivolts?"))
		}
	}
	c, err := calibrationOf(s)
	switch {
	case errors.Is(err, meter.ErrPoints):
		return nil, s.Cannot("points", "2 or 3 rows", err.Error()+".")
	case errors.Is(err, meter.ErrApart):
		return nil, s.Cannot("points", "at least 1 pH apart", "the buffers are to lie at least 1 pH apart.")
	case err != nil:
		theory := meter.Theory(unit.Temperature(s.Base("temperature")))
		return nil, s.Cannot("points", "readings that fall by "+text("mV", float64(theory/10), 3)+" to "+text("mV", float64(theory*2), 3)+" for each pH", err.Error()+".")
	}
	if off := readingOff(s); 2*off >= c.Nearest()-1 {
		most := (c.Nearest() - 1) / 2
		shown := "below " + text("mV", float64(most), 3)
		if s.Choice("shown") == asPH {
			shown = "below " + unit.Text(float64(most/meter.Theory(c.At)), 3)
		}
		return nil, s.Cannot("reading_off", shown, "the readings of the buffers would be no surer than their difference.")
	}
	var out reckoning.Figures
	within := func(name string, of func(meter.Calibration) float64) {
		low, high := of(c), of(c)
		for _, moved := range c.Moved(meter.BufferError, readingOff(s)) {
			low, high = min(low, of(moved)), max(high, of(moved))
		}
		out.Between(name, of(c), low, high)
	}
	within("slope", func(c meter.Calibration) float64 { return float64(c.Slope) })
	within("share", meter.Calibration.Share)
	out.Add("theory", float64(meter.Theory(c.At)))
	within("offset", func(c meter.Calibration) float64 { return float64(c.Offset) })
	within("zero", meter.Calibration.Zero)
	if len(c.Points) == 3 {
		out.Add("misfit", misfit(c))
	}
	return out, nil
}

// readingOff is how far off each reading may be.
func readingOff(s *reckoning.Sheet) meter.Potential {
	if s.Choice("shown") == asPH {
		return meter.Potential(s.Base("reading_off")) * meter.Theory(unit.Temperature(s.Base("temperature")))
	}
	return meter.Potential(s.Base("reading_off"))
}

// correctedWithin returns the least and the greatest pH that a reading may mean: by
// the calibrations that the errors of buffers and readings allow, and its own error.
func correctedWithin(allowed []meter.Calibration, read, off meter.Potential) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, moved := range allowed {
		for _, r := range []meter.Potential{read - off, read + off} {
			low, high = min(low, moved.PH(r)), max(high, moved.PH(r))
		}
	}
	return low, high
}

// onLine returns the pH of a reading on the one straight line.
func onLine(c meter.Calibration, read meter.Potential) float64 {
	return 7 + float64((c.Offset-read)/c.Slope)
}

// misfit is how far the worst buffer lies from the line, in pH.
func misfit(c meter.Calibration) float64 {
	worst := 0.0
	for _, p := range c.Points {
		worst = max(worst, math.Abs(onLine(c, p.Read)-p.PH))
	}
	return worst
}
