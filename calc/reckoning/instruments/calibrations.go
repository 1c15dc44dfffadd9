package instruments

import (
	"strconv"

	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// How a calibration in the log is judged.
const (
	judgeFigures = "figures"
	judgeGood    = "good"
	judgeBad     = "bad"
)

const timeForm = "Year-month-day hour:minute, such as 2026-03-01 09:30."

// Calibrations tells on which calibration each reading stands.
func Calibrations() *reckoning.Reckoning {
	when := reckoning.Text("time", "Time").Note(timeForm)
	instrument := reckoning.Text("instrument", "Instrument").Note("By one name throughout.")
	return (&reckoning.Reckoning{
		Name: "calibrations", Title: "Readings and their calibrations", Asks: "Which readings were taken on which calibration, and which are in doubt?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Rows("calibrations", "Calibrations", 40, when, instrument,
				reckoning.Choose("found", "Judged", judgeFigures, "by slope and offset", judgeGood, "good", judgeBad, "bad"),
				reckoning.Number("slope", "Slope, %", 0, 200).Maybe().Note("Of a pH electrode, in per cent of the theoretical."),
				reckoning.Text("offset", "Offset").Maybe().Note("As noted: -4 mV."),
			),
			reckoning.Rows("readings", "Readings", 100, when, instrument, reckoning.Text("value", "Reading")),
			reckoning.Quantity("oldest", "A calibration is good for", "h", 0.5, 8766).Usually("24").Note("By your own rule; on the day of use is usual."),
		},
		Results: []reckoning.ResultSpec{{Name: "sound", Title: "Readings without a remark"}, {Name: "doubtful", Title: "Doubtful readings"}, {Name: "old", Title: "Readings on an old calibration"}, {Name: "without", Title: "Readings without a calibration"}},
		Sources: reckoning.From(&slopeRule, &offsetRule, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"calibrations":[{"time":"2026-03-01 09:30","instrument":"pH A","slope":"98,5","offset":"-4 mV"},{"time":"2026-03-01 14:00","instrument":"pH A","slope":"84","offset":"12 mV"}],"readings":[{"time":"2026-03-01 09:00","instrument":"pH A","value":"6.9"},{"time":"2026-03-01 10:15","instrument":"pH A","value":"7.4"}],"oldest":"24"}`,
		Figures: logFigures, Explain: explainLog,
	}).Ready()
}

// timeAllowed is what a time may be.
const timeAllowed = "year-month-day hour:minute, such as 2026-03-01 09:30"

// wrongRow returns the first row whose time, offset or place in the log makes no
// sense.
func wrongRow(s *reckoning.Sheet) *reckoning.Problem {
	for _, table := range []string{"calibrations", "readings"} {
		for i, row := range s.Rows(table) {
			if _, ok := meter.ParseMinute(row.Words("time")); !ok {
				return reckoning.InRow(table, i+1, row.Cannot("time", timeAllowed, "“"+row.Words("time")+"” is no time of the form 2026-03-01 09:30."))
			}
		}
	}
	rows := s.Rows("calibrations")
	for i, row := range rows {
		if _, ok := offsetOf(row); !ok {
			return reckoning.InRow("calibrations", i+1, row.Cannot("offset", "-1000 to 1000 mV", "“"+row.Words("offset")+"” is no voltage between -1000 and 1000 mV."))
		}
		at, _ := meter.ParseMinute(row.Words("time"))
		for k, other := range rows[:i] {
			if also, _ := meter.ParseMinute(other.Words("time")); also == at && meter.Same(other.Words("instrument"), row.Words("instrument")) {
				return reckoning.InRow("calibrations", i+1, row.Cannot("time", "another minute than "+other.Words("time"), "this instrument was calibrated in that minute already, in row "+strconv.Itoa(k+1)+". Which of the two came first?"))
			}
		}
	}
	return nil
}

// offsetOf reads the offset of a calibration, 0 where none was noted; false where
// it is no voltage.
func offsetOf(row *reckoning.Sheet) (meter.Potential, bool) {
	if row.Words("offset") == "" {
		return 0, true
	}
	own, _ := unit.Named("mV")
	x, _, err := unit.Read(row.Words("offset"), []unit.Unit{own}, own)
	return meter.Potential(x), err == nil && x >= -1000 && x <= 1000
}

// bad says whether a calibration was bad, and why.
func bad(row *reckoning.Sheet) (bool, string) {
	switch row.Choice("found") {
	case judgeGood:
		return false, "noted as good"
	case judgeBad:
		return true, "noted as bad"
	}
	offset, _ := offsetOf(row)
	switch {
	case row.Has("slope") && meter.SlopeState(row.Base("slope")) >= meter.Poor:
		return true, "bad: slope " + unit.Text(row.Base("slope"), 4) + " %"
	case meter.OffsetState(offset) != meter.Good:
		return true, "bad: offset " + mv(offset)
	case !row.Has("slope") && row.Words("offset") == "":
		return false, "not judged: no slope, no offset"
	}
	return false, "good by slope and offset"
}

// logOf returns the calibrations in the order of their rows.
func logOf(s *reckoning.Sheet) []meter.Check {
	var log []meter.Check
	for _, row := range s.Rows("calibrations") {
		at, _ := meter.ParseMinute(row.Words("time"))
		isBad, _ := bad(row)
		log = append(log, meter.Check{At: at, Instrument: row.Words("instrument"), Bad: isBad})
	}
	return log
}

// stands is a reading with what it stands on, and what is to be said of it:
// without, doubtful, old or nothing.
type stands struct {
	row *reckoning.Sheet
	meter.Standing
	remark string
}

func readingsOf(s *reckoning.Sheet) []stands {
	var out []stands
	log := logOf(s)
	for _, row := range s.Rows("readings") {
		at, _ := meter.ParseMinute(row.Words("time"))
		one := stands{row: row, Standing: meter.StandingOf(log, row.Words("instrument"), at)}
		switch {
		case one.On < 0:
			one.remark = "without"
		case one.Doubtful:
			one.remark = "doubtful"
		case float64(one.Age) > s.Base("oldest")*60+1e-6:
			one.remark = "old"
		}
		out = append(out, one)
	}
	return out
}

func logFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if p := wrongRow(s); p != nil {
		return nil, p
	}
	count := map[string]float64{}
	for _, one := range readingsOf(s) {
		count[one.remark]++
	}
	var out reckoning.Figures
	out.Add("sound", count[""])
	out.Add("doubtful", count["doubtful"])
	out.Add("old", count["old"])
	out.Add("without", count["without"])
	return out, nil
}
