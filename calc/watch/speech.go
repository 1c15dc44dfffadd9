package watch

import "strconv"

var ones = [...]string{"nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
	"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}

var tens = [...]string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}

// inWords spells a whole number from 0 to 999 for a voice, other ones in digits.
func inWords(n int64) string {
	switch {
	case n < 0 || n > 999:
		return strconv.FormatInt(n, 10)
	case n < 20:
		return ones[n]
	case n < 100:
		if n%10 == 0 {
			return tens[n/10]
		}
		return tens[n/10] + "-" + ones[n%10]
	case n%100 == 0:
		return ones[n/100] + " hundred"
	}
	return ones[n/100] + " hundred and " + inWords(n%100)
}

// lasting is a length for people to read: "45 s", "7 min 30 s", "1 h 15 min".
// From an hour on, seconds are left out.
func lasting(ms int64) string { return length(ms, strconv.Itoa, " h", " min", " s", "", " ") }

// spoken is the same for a voice: "seven minutes and thirty seconds".
func spoken(ms int64) string {
	return length(ms, func(n int) string { return inWords(int64(n)) }, " hour", " minute", " second", "s", " and ")
}

func length(ms int64, write func(int) string, hour, minute, second, many, and string) string {
	s := max(ms, 0) / 1000
	h, m, rest := s/3600, s/60%60, s%60
	if h > 0 {
		rest = 0
	}
	out := ""
	for i, n := range [...]int64{h, m, rest} {
		if n == 0 && (i < 2 || out != "") {
			continue
		}
		if out != "" {
			out += and
		}
		out += write(int(n)) + [...]string{hour, minute, second}[i]
		if n != 1 {
			out += many
		}
	}
	return out
}
