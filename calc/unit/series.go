package unit

import (
	"strconv"
	"strings"
)

// MostInSeries is how many numbers are read as one series.
const MostInSeries = 50

// Series reads numbers that stand in one field, as people list readings: "802;
// 202; 52", "802 202 52" or one to a line, each with a decimal comma or point.
// It returns them in their order and the unit that all are in: the one behind
// the last of them, else chosen.
//
// Where a semicolon or a new line stands between any two, only those part the
// numbers; else spaces do, and commas that a space follows. A space may also
// stand between thousands: "1 200" is therefore refused where only spaces part
// the numbers. Refused too are an entry left out, as in "802; ; 52", and one in
// another unit than the last. Errors are of type [*Error] and name the entry.
func Series(text string, allowed []Unit, chosen Unit) ([]float64, Unit, error) {
	parts, err := parted(text)
	if err != nil {
		return nil, Unit{}, err
	}
	xs := make([]float64, len(parts))
	at := len(parts) - 1
	_, u, err := Read(parts[at], allowed, chosen)
	for i := 0; i < len(parts) && err == nil; i++ {
		var its Unit
		at = i
		if xs[i], its, err = Read(parts[i], allowed, u); err == nil && its.Symbol != u.Symbol {
			err = wrong(parts[i], "is in another unit than the last one, which is in ", u.Symbol, ".")
		}
	}
	if err != nil {
		return nil, Unit{}, &Error{Text: text, Say: "entry " + strconv.Itoa(at+1) + ": " + err.Error()}
	}
	return xs, u, nil
}

// parted cuts a series into its entries. What parts them is one byte long, so it
// cannot stand inside of a longer character.
func parted(text string) ([]string, error) {
	marks := " \t" // thin and no-break spaces part thousands, never entries
	if strings.Contains(text, "\n") {
		marks = "\n\r"
	}
	if strings.Contains(text, ";") {
		marks = ";"
	}
	var parts []string
	before, start := "", 0
	for i := range len(text) + 1 {
		if i < len(text) && strings.IndexByte(marks, text[i]) < 0 {
			continue
		}
		part := strings.TrimSpace(text[start:i])
		start = i + 1
		spaces := marks[0] == ' '
		if spaces {
			part = strings.TrimSuffix(part, ",")
		}
		switch {
		case part == "" && (marks != ";" || i == len(text)):
		case spaces && parts != nil && !beginsNumber(part):
			parts[len(parts)-1] += " " + part
			before = ""
		case spaces && isThousands(before, part):
			return nil, wrong(text, "can be read as one number or as two at “", before, " ", part, "”: put a semicolon between the numbers.")
		default:
			parts = append(parts, part)
			before = part
		}
	}
	switch {
	case parts == nil:
		return nil, &Error{Text: text, Say: "Nothing is typed here yet."}
	case len(parts) > MostInSeries:
		return nil, wrong(text, "holds more than ", strconv.Itoa(MostInSeries), " numbers.")
	}
	return parts, nil
}

func beginsNumber(s string) bool {
	return s != "" && strings.IndexByte("0123456789.,+-", s[0]) >= 0 || strings.HasPrefix(s, "−") || strings.HasPrefix(s, "–")
}

// isThousands reports whether two words side by side may be one number above a
// thousand. After three digits nobody means that: readings of 802 202 do not
// occur.
func isThousands(before, w string) bool {
	a, rest := digitsOf(before)
	b, _ := digitsOf(w)
	return rest == "" && (len(a) == 1 || len(a) == 2) && a[0] != '0' && len(b) == 3
}
