package journal

import "errors"

// ErrAt says that a text is no time as an entry's at gives it.
var ErrAt = errors.New("not a time: expected RFC 3339 with offset")

// ParseAt reads when something happened, RFC 3339 with offset, and returns Unix
// milliseconds; what is finer is cut off. It takes what [time.RFC3339Nano]
// takes, but no leap second and no day that does not exist. Package time would
// do it, at 70 KB of the phone's download.
func ParseAt(s string) (unixMS int64, err error) {
	p := atParser{s: s}
	year, month, day := p.digits(4), p.after('-', 2), p.after('-', 2)
	hour, minute, second := p.after('T', 2), p.after(':', 2), p.after(':', 2)
	ms := p.fraction()
	offset := p.offset()
	if p.bad || p.s != "" || month < 1 || month > 12 || day < 1 || day > daysIn(year, month) || hour > 23 || minute > 59 || second > 59 {
		return 0, ErrAt
	}
	minutes := (daysSince1970(year, month, day)*24+int64(hour))*60 + int64(minute) - int64(offset)
	return (minutes*60+int64(second))*1000 + int64(ms), nil
}

// atParser takes the text apart from the left; bad stays true once something
// was not as expected.
type atParser struct {
	s   string
	bad bool
}

func (p *atParser) digits(n int) (v int) {
	if len(p.s) < n {
		p.bad = true
		return 0
	}
	for _, c := range []byte(p.s[:n]) {
		if c < '0' || c > '9' {
			p.bad = true
			return 0
		}
		v = 10*v + int(c-'0')
	}
	p.s = p.s[n:]
	return v
}

func (p *atParser) after(mark byte, n int) int {
	if p.s == "" || p.s[0] != mark {
		p.bad = true
		return 0
	}
	p.s = p.s[1:]
	return p.digits(n)
}

// fraction reads the decimals of the second, if there are any, as milliseconds.
func (p *atParser) fraction() (ms int) {
	if p.s == "" || p.s[0] != '.' {
		return 0
	}
	p.s = p.s[1:]
	n := 0
	for ; p.s != "" && p.s[0] >= '0' && p.s[0] <= '9'; n++ {
		if n < 3 {
			ms = 10*ms + int(p.s[0]-'0')
		}
		p.s = p.s[1:]
	}
	p.bad = p.bad || n == 0
	for ; n < 3; n++ {
		ms *= 10
	}
	return ms
}

// offset reads Z or the offset from UTC, in minutes.
func (p *atParser) offset() int {
	if p.s == "Z" {
		p.s = ""
		return 0
	}
	if p.s == "" || p.s[0] != '+' && p.s[0] != '-' {
		p.bad = true
		return 0
	}
	minus := p.s[0] == '-'
	p.s = p.s[1:]
	h, m := p.digits(2), p.after(':', 2)
	p.bad = p.bad || h > 23 || m > 59
	if minus {
		return -(h*60 + m)
	}
	return h*60 + m
}

func daysIn(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// daysSince1970 counts days of the Gregorian calendar, which a year begins in
// March here, so that the leap day comes last.
func daysSince1970(year, month, day int) int64 {
	y, m := int64(year), int64(month)
	if m <= 2 {
		y, m = y-1, m+12
	}
	leaps := floorDiv(y, 4) - floorDiv(y, 100) + floorDiv(y, 400)
	return y*365 + leaps + (153*(m-3)+2)/5 + int64(day) - 719469
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
