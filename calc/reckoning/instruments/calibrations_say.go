package instruments

import (
	"strconv"

	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
)

func explainLog(s *reckoning.Sheet, out *reckoning.Result) {
	rows := s.Rows("calibrations")
	t := out.Table("Readings", "Time", "Instrument", "Reading", "Calibrated", "Before it by", "Remark")
	for _, one := range readingsOf(s) {
		calibrated, age := "none before it", ""
		if one.On >= 0 {
			calibrated, age = rows[one.On].Words("time"), ago(one.Age)
		}
		t.Row(one.row.Words("time"), one.row.Words("instrument"), one.row.Words("value"), calibrated, age, remarkOf(one, rows))
	}
	log := out.Table("Calibrations", "Time", "Instrument", "Slope, %", "Offset", "Judged")
	for _, row := range rows {
		_, why := bad(row)
		log.Row(row.Words("time"), row.Words("instrument"), row.Words("slope"), row.Words("offset"), why)
	}
	out.Work("Each reading stands on the last calibration of its instrument up to that minute.", "age = time of the reading - time of the calibration", "", reckoning.Arithmetic.Name)
	out.Work("A calibration is bad by its slope below 90 % or above 105 %, or its offset outside of ±30 mV, unless it was noted as good or bad.", "", "", slopeRule.Name)
	if n, _ := out.Value("doubtful"); n > 0 {
		out.Object("From when on the instrument was off is not known: readings since the last good calibration are kept, marked, and not used to decide anything.", reckoning.CommonPractice)
	}
	if n, _ := out.Value("without"); n > 0 {
		out.Object("A reading without a calibration is kept as it was written, with that said beside it.", reckoning.CommonPractice)
	}
	for _, one := range readingsOf(s) {
		if one.On >= 0 && one.Next < 0 {
			out.Object("No calibration follows the last readings. Measure a buffer or a standard once more at the end of the day, so that they lie between two.", reckoning.CommonPractice)
			break
		}
	}
	out.Object("Times are counted as they were typed, from one clock: where the clock was put forward or back between them, an hour is missing or too many.", reckoning.Arithmetic)
}

// remarkOf says what a reading stands on.
func remarkOf(one stands, rows []*reckoning.Sheet) string {
	switch {
	case one.On < 0:
		return "no calibration before it"
	case one.Doubtful:
		if isBad, _ := bad(rows[one.On]); isBad {
			return "doubtful: on a bad calibration"
		}
		return "doubtful: the next calibration, " + rows[one.Next].Words("time") + ", was bad"
	case one.remark == "old":
		return "on an old calibration"
	case one.Next < 0:
		return "not confirmed by a later calibration yet"
	}
	return ""
}

// ago writes an age: 45 min, 3 h 5 min, 2 d 4 h.
func ago(age meter.Minute) string {
	days, hours, minutes := age/1440, age/60%24, age%60
	n := func(x meter.Minute) string { return strconv.FormatInt(int64(x), 10) }
	switch {
	case days > 0:
		return n(days) + " d " + n(hours) + " h"
	case hours > 0:
		return n(hours) + " h " + n(minutes) + " min"
	}
	return n(minutes) + " min"
}
