package instruments

import (
	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

func explainPH(s *reckoning.Sheet, out *reckoning.Result) {
	c, _ := calibrationOf(s)
	first, last := c.Points[0], c.Points[len(c.Points)-1]
	if s.Choice("shown") == asPH {
		out.Work("What the meter showed as pH, as a perfect electrode's millivolts.", "mV = (7 - pH) × theoretical slope", "", nernst.Name)
	}
	out.Work("Theoretical slope.", "ln(10) × R × T ÷ F", text("°C", c.At.Celsius(), 4)+": "+text("mV", float64(meter.Theory(c.At)), 4), nernst.Name)
	if len(c.Points) == 2 {
		out.Work("Slope between the buffers.", "slope = (mV1 - mV2) ÷ (pH2 - pH1)", "("+mv(first.Read)+" - "+inSum(last.Read)+") ÷ ("+fixed(last.PH, 3)+" - "+fixed(first.PH, 3)+") = "+mv(c.Slope), reckoning.Arithmetic.Name)
	} else {
		out.Work("Slope of the straight line nearest to all three buffers.", "least squares", mv(c.Slope)+" for each pH", reckoning.Arithmetic.Name)
	}
	out.Work("As a share.", "slope ÷ theoretical slope", mv(c.Slope)+" ÷ "+mv(meter.Theory(c.At))+" = "+fixed(100*c.Share(), 1)+" %", reckoning.Arithmetic.Name)
	out.Work("Offset and zero.", "zero = 7 + offset ÷ slope", "7 + "+inSum(c.Offset)+" ÷ "+mv(c.Slope)+" = "+fixed(c.Zero(), 3), reckoning.Arithmetic.Name)
	ranges := "The ranges are what buffers off by 0.02 pH, each its own way, make of these."
	if s.Has("reading_off") {
		ranges = "The ranges are what buffers off by 0.02 pH and readings off by " + unit.Text(s.Base("reading_off"), 3) + ", each its own way, make of these."
	}
	out.Work(ranges, "", "", technicalBuffers.Name)
	out.Verdict("slope_means", "Slope", slopeSays(c))
	out.Verdict("offset_means", "Offset", offsetSays(c))
	bufferTable(s, out, c)
	correctedTable(s, out, c)
	cautionsPH(s, out, c)
}

func mv(p meter.Potential) string { return text("mV", float64(p), 5) }

// inSum writes a voltage behind a sign, in brackets where it has one of its own.
func inSum(p meter.Potential) string {
	if p < 0 {
		return "(" + mv(p) + ")"
	}
	return mv(p)
}

func slopeSays(c meter.Calibration) string {
	percent := fixed(100*c.Share(), 1) + " %: "
	switch meter.SlopeState(100 * c.Share()) {
	case meter.Good:
		return percent + "good, within 95 to 105 %."
	case meter.Worn:
		return percent + "worn, within 90 to 95 %. Clean it, and renew its filling solution."
	case meter.Failed:
		return percent + "not to be used, below 85 %. Fresh buffers first; then full care, or another electrode."
	}
	if c.Share() > 1 {
		return percent + "above 105 %, which no electrode does: the buffers, their temperature or the readings are likely wrong."
	}
	return percent + "poor, within 85 to 90 %. Full care before it is used."
}

func offsetSays(c meter.Calibration) string {
	if meter.OffsetState(c.Offset) == meter.Good {
		return fixed(float64(c.Offset), 1) + " mV: good, within ±30 mV."
	}
	return fixed(float64(c.Offset), 1) + " mV: outside of ±30 mV. Clean the bulb and the junction, and take fresh buffers."
}

func bufferTable(s *reckoning.Sheet, out *reckoning.Result, c meter.Calibration) {
	t := out.Table("Buffers", "Buffer", "pH at "+text("°C", c.At.Celsius(), 3), "Reading", "mV", "Off one straight line, pH")
	for _, row := range s.Rows("points") {
		ph, title, _ := bufferOf(row, c.At)
		read := potential(s, row.Base("reading"))
		t.Row(title, fixed(ph, 3), unit.Text(row.Base("reading"), 6), fixed(float64(read), 1), fixed(onLine(c, read)-ph, 2))
	}
}

func correctedTable(s *reckoning.Sheet, out *reckoning.Result, c meter.Calibration) {
	samples := s.Series("samples")
	if len(samples) == 0 {
		return
	}
	allowed := c.Moved(meter.BufferError, readingOff(s))
	t := out.Table("Corrected readings", "Reading", "pH", "Between", "")
	for _, x := range samples {
		ph := c.PH(potential(s, x))
		remark := ""
		switch {
		case ph < -1 || ph > 15:
			t.Row(unit.Text(x, 6), "none", "", "no pH of a bath: look at the reading")
			continue
		case !c.Within(ph):
			remark = "beyond the buffers: less sure"
		}
		low, high := correctedWithin(allowed, potential(s, x), readingOff(s))
		t.Row(unit.Text(x, 6), fixed(ph, 2), fixed(low, 2)+" and "+fixed(high, 2), remark)
	}
	if len(c.Points) == 3 {
		out.Work("Each reading on the line between the two buffers around it.", "pH = pH1 + (mV1 - mV) ÷ (mV1 - mV2) × (pH2 - pH1)", "", reckoning.Arithmetic.Name)
		return
	}
	out.Work("Each reading on the line through both buffers.", "pH = 7 + (offset - mV) ÷ slope", "", reckoning.Arithmetic.Name)
}

// bentFrom is from where on a buffer off the line is spoken of, in pH: more than
// two buffers of ±0.02 explain.
const bentFrom = 0.05

func cautionsPH(s *reckoning.Sheet, out *reckoning.Result, c meter.Calibration) {
	out.People("A meter near water runs from its battery. Read the safety data sheets of the buffers, the alkaline ones above all, and of what the electrode is kept in.", reckoning.CommonPractice)
	if meter.SlopeState(100*c.Share()) == meter.Failed {
		out.Object("Take no decision about a bath from these readings.", slopeRule)
	}
	if len(c.Points) == 3 && misfit(c) > bentFrom {
		out.Object("The three buffers do not lie on one line, by up to "+fixed(misfit(c), 2)+" pH: one of them is likely stale, soiled or taken for another.", reckoning.CommonPractice)
	}
	technical, standard, own := false, false, false
	for _, row := range s.Rows("points") {
		switch name := row.Choice("buffer"); name {
		case ownBuffer:
			own = true
		case "t4", "t7", "t10":
			technical = true
		default:
			standard = true
		}
	}
	if technical && standard {
		out.Object("Buffers of two sets: make sure that 6.86 and 7.00, or 9.18 and 10.01, are not taken for one another.", standardBuffers)
	}
	if own {
		out.Object("A label gives the pH by temperature: take the figure for this one.", reckoning.CommonPractice)
	}
	if s.Choice("shown") == asPH {
		out.Object("From shown pH the slope is a share of what the meter takes as its slope already: only of a meter without a calibration is it the electrode's.", reckoning.Arithmetic)
	}
	out.Object("Buffers are known to ±0.02, so no corrected reading is surer than that. They are fresh, not poured back, and as warm as what is measured.", technicalBuffers)
	out.Object("In purified water and late rinses an electrode is slow and uncertain, however good its slope.", reckoning.CommonPractice)
}
