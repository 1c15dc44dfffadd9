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
	if len(text) > MostInSeries*MaxText {
		return nil, Unit{}, wrong(text, "is too long for one series.")
	}
	parts, err := parted(text)
	if err != nil {
		return nil, Unit{}, err
	}
	if len(parts) > MostInSeries {
		return nil, Unit{}, wrong(text, "holds more than ", strconv.Itoa(MostInSeries), " numbers.")
	}
	last := len(parts) - 1
	_, u, err := Read(strings.TrimSpace(parts[last]), allowed, chosen)
	if err != nil {
		return nil, Unit{}, atEntry(last, err)
	}
	xs := make([]float64, 0, len(parts))
	for i, part := range parts {
		part = strings.TrimSpace(part)
		x, its, err := Read(part, allowed, u)
		if err == nil && its.Symbol != u.Symbol {
			err = wrong(part, "is in another unit than the last one, which is in ", u.Symbol, ".")
		}
		if err != nil {
			return nil, Unit{}, atEntry(i, err)
		}
		xs = append(xs, x)
	}
	return xs, u, nil
}

func atEntry(i int, err error) error {
	return &Error{Say: "entry " + strconv.Itoa(i+1) + ": " + err.Error()}
}

// parted cuts a series into its entries.
func parted(text string) ([]string, error) {
	s := strings.TrimSpace(strings.ReplaceAll(text, "\r", "\n"))
	if strings.Contains(s, ";") {
		return strings.Split(strings.TrimSuffix(s, ";"), ";"), nil
	}
	if strings.Contains(s, "\n") {
		return strings.FieldsFunc(s, func(r rune) bool { return r == '\n' }), nil
	}
	// Thin and no-break spaces part thousands, never entries.
	var parts []string
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\t' })
	for i, w := range words {
		switch w = strings.TrimSuffix(w, ","); {
		case len(parts) > 0 && !beginsNumber(w):
			parts[len(parts)-1] += " " + w
		case i > 0 && isThousands(words[i-1], w):
			return nil, wrong(text, "can be read as one number or as two at “", words[i-1], " ", w, "”: put a semicolon between the numbers.")
		default:
			parts = append(parts, w)
		}
	}
	if len(parts) == 0 {
		return nil, &Error{Text: text, Say: "Nothing is typed here yet."}
	}
	return parts, nil
}

func beginsNumber(s string) bool {
	return s != "" && strings.ContainsAny(s[:1], "0123456789.,+-") || strings.HasPrefix(s, "−") || strings.HasPrefix(s, "–")
}

// isThousands reports whether two words side by side may be one number above a
// thousand. After three digits nobody means that: readings of 802 202 do not
// occur.
func isThousands(before, w string) bool {
	a, rest := digitsOf(before)
	b, _ := digitsOf(w)
	return rest == "" && (len(a) == 1 || len(a) == 2) && a[0] != '0' && len(b) == 3
}
