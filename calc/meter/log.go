package meter

import "strings"

// Minute is a time of the clock on the wall, in minutes from 0000-03-01 00:00, of
// whatever place the clock hangs in.
type Minute int64

// ParseMinute reads a time as people write it down: 2026-03-01 09:30, with a space
// or a T between day and hour. Seconds, zones and other orders are refused, since
// 03-04 may be either of two days.
func ParseMinute(text string) (Minute, bool) {
	const form = "0000-00-00 00:00"
	text = strings.TrimSpace(text)
	if len(text) != len(form) {
		return 0, false
	}
	for i := range len(form) {
		digit := text[i] >= '0' && text[i] <= '9'
		switch {
		case form[i] == '0' && !digit, form[i] == '-' && text[i] != '-', form[i] == ':' && text[i] != ':',
			form[i] == ' ' && text[i] != ' ' && text[i] != 'T':
			return 0, false
		}
	}
	number := func(from, to int) int64 {
		n := int64(0)
		for _, c := range text[from:to] {
			n = 10*n + int64(c-'0')
		}
		return n
	}
	year, month, day, hour, minute := number(0, 4), number(5, 7), number(8, 10), number(11, 13), number(14, 16)
	if month < 1 || month > 12 || day < 1 || day > daysIn(year, month) || hour > 23 || minute > 59 {
		return 0, false
	}
	return Minute((days(year, month, day)*24+hour)*60 + minute), true
}

func daysIn(year, month int64) int64 {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// days counts from the first of March of the year 0: with the year beginning in
// March, the leap day is its last.
func days(year, month, day int64) int64 {
	if month < 3 {
		year, month = year-1, month+12
	}
	if year < 0 {
		return day - 1 + (153*(month-3)+2)/5 - 366 // January and February of the year 0, a leap year
	}
	return 365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + day - 1
}

// Check is one calibration in the log of an instrument.
type Check struct {
	At         Minute
	Instrument string
	Bad        bool
}

// Standing is what a reading rests on.
type Standing struct {
	On       int    // the place of the last calibration up to it; -1 where there is none
	Age      Minute // since that
	Next     int    // the place of the first one after it; -1 where there is none
	Doubtful bool   // the one is bad or the other is
}

// StandingOf returns what a reading of an instrument stands on. One taken in the
// same minute as a calibration stands on it. Names of instruments are compared
// without regard to capitals and to space around them.
//
// A reading between a good calibration and a bad one is doubtful: from when on the
// instrument was off is not known.
func StandingOf(log []Check, instrument string, at Minute) Standing {
	s := Standing{On: -1, Next: -1}
	for i, c := range log {
		if !Same(c.Instrument, instrument) {
			continue
		}
		switch {
		case c.At <= at && (s.On < 0 || c.At > log[s.On].At):
			s.On = i
		case c.At > at && (s.Next < 0 || c.At < log[s.Next].At):
			s.Next = i
		}
	}
	if s.On >= 0 {
		s.Age = at - log[s.On].At
		s.Doubtful = log[s.On].Bad || s.Next >= 0 && log[s.Next].Bad
	}
	return s
}

// Same reports whether two names are one instrument's.
func Same(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }
