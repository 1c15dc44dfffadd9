package unit

import (
	"encoding/json"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNumberReadsWhatPeopleType(t *testing.T) {
	rows := []struct {
		name, text string
		want       float64
		spelt      string // with its digits kept; empty: refused with an exponent
	}{
		{"whole", "40", 40, "40"},
		{"point", "12.5", 12.5, "12.5"},
		{"comma", "12,5", 12.5, "12.5"},
		{"comma with two digits", "0,75", 0.75, "0.75"},
		{"comma with four digits cannot be thousands", "1,2345", 1.2345, "1.2345"},
		{"comma after four digits cannot be thousands", "1234,567", 1234.567, "1234.567"},
		{"thousands never begin with nought", "0,998", 0.998, "0.998"},
		{"point with three digits is the decimal point", "1.035", 1.035, "1.035"},
		{"bare decimals", ".5", 0.5, "0.5"},
		{"bare decimals with comma", ",5", 0.5, "0.5"},
		{"groups by space", "1 250", 1250, "1250"},
		{"groups by thin space", "1\u2009250\u2009000", 1250000, "1250000"},
		{"groups by narrow no-break space and comma", "1\u202f250,5", 1250.5, "1250.5"},
		{"groups by no-break space and point", "1\u00a0250.5", 1250.5, "1250.5"},
		{"groups by comma and a point", "1,234.5", 1234.5, "1234.5"},
		{"groups by point and a comma", "1.234,5", 1234.5, "1234.5"},
		{"two commas must be groups", "1,234,567", 1234567, "1234567"},
		{"two points must be groups", "1.234.567", 1234567, "1234567"},
		{"groups by apostrophe", "1’250", 1250, "1250"},
		{"minus", "-3.5", -3.5, "-3.5"},
		{"typographic minus", "−3,5", -3.5, "-3.5"},
		{"plus", "+4", 4, "4"},
		{"space around", "  7\t", 7, "7"},
		{"exponent", "2.5e-3", 0.0025, ""},
		{"leading noughts", "007", 7, "7"},
		{"nought", "0,0", 0, "0.0"},
		{"noughts behind the point are kept", " 7,10 ", 7.1, "7.10"},
		{"minus nought is nought", "-0", 0, "-0"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, _, err := Read(r.text, nil, Unit{})
			if err != nil || got != r.want || math.Signbit(got) != math.Signbit(r.want) {
				t.Errorf("Read(%q) = %v, %v, want %v", r.text, got, err, r.want)
			}
			if spelt, err := Number(r.text); spelt != r.spelt || (err == nil) == (r.spelt == "") {
				t.Errorf("Number(%q) = %q, %v, want %q", r.text, spelt, err, r.spelt)
			}
		})
	}
}

func TestNumberRefusesAndSaysWhy(t *testing.T) {
	rows := []struct {
		name, text, say string
		read            bool // said by Read, since Number takes no exponent
	}{
		{"ambiguous comma", "1,234", "1.234 or as 1234", false},
		{"ambiguous comma, tens of thousands", "12,345", "12.345 or as 12345", false},
		{"nothing", " ", "Nothing is typed", false},
		{"words", "a lot", "is no number", false},
		{"NaN", "NaN", "is no number", false},
		{"infinity", "Inf", "is no number", false},
		{"infinity sign", "∞", "is no number", false},
		{"beyond a float", "1e400", "far too large", true},
		{"absurdly large", "9999999999999", "far too large", false},
		{"absurdly small", "1e-30", "far too small", true},
		{"vanishing", "1e-400", "far too small", true},
		{"broken off at the point", "12.", "breaks off after its point", false},
		{"broken off at the comma", "12,", "breaks off after its comma", false},
		{"two numbers", "12 5", "groups that are not of three", false},
		{"an address", "192.168.1.1", "groups that are not of three", false},
		{"mixed marks", "1,234 567", "mixes its marks", false},
		{"a unit where none belongs", "3 L", "leave out “L”", false},
		{"two signs", "--5", "is no number", false},
		{"a fraction", "1/2", "leave out “/2”", false},
		{"too long", strings.Repeat("1", MaxText+1), "too long", false},
		{"hexadecimal", "0x1p4", "leave out “x1p4”", false},
		{"underscores", "1_000", "leave out “_000”", false},
		{"an exponent", "1e3", "without an exponent", false},
		{"a fraction sign", "½", "is no number", false},
		{"digits of another script", "٣", "is no number", false},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			spelt, err := Number(r.text)
			if r.read {
				_, _, err = Read(r.text, nil, Unit{})
			}
			var e *Error
			if !errors.As(err, &e) || !strings.Contains(e.Say, r.say) {
				t.Errorf("Number(%q) = %s, %v, want an error that says %q", r.text, spelt, err, r.say)
			}
		})
	}
}

func units(t interface{ Fatalf(string, ...any) }, symbols ...string) []Unit {
	var out []Unit
	for _, s := range symbols {
		u, ok := Named(s)
		if !ok {
			t.Fatalf("Named(%q) is unknown", s)
		}
		out = append(out, u)
	}
	return out
}

func TestReadTakesTheTypedUnitFirst(t *testing.T) {
	volumes := []string{"L", "mL", "US gal", "US fl oz", "imp gal", "imp fl oz"}
	rows := []struct {
		name, text string
		allowed    []string // the first is the chosen one
		x          float64
		unit       string
	}{
		{"none typed", "12,5", volumes, 12.5, "L"},
		{"typed close", "12,5L", volumes, 12.5, "L"},
		{"typed apart by a thin space", "500\u2009ml", volumes, 500, "mL"},
		{"small letters", "500ml", volumes, 500, "mL"},
		{"words", "3 litres", volumes, 3, "L"},
		{"a gallon that is named", "2 us gal", volumes, 2, "US gal"},
		{"a gallon, the imperial one chosen", "2 gal", []string{"imp gal", "US gal", "L"}, 2, "imp gal"},
		{"ounces, fluid ones chosen", "6 oz", []string{"US fl oz", "imp fl oz", "L"}, 6, "US fl oz"},
		{"inches by their sign", "12\"", []string{"mm", "cm", "in"}, 12, "in"},
		{"feet by their sign", "4'", []string{"mm", "ft"}, 4, "ft"},
		{"degrees", "21 °C", []string{"°C", "°F"}, 21, "°C"},
		{"degrees with the ordinal sign", "70ºF", []string{"°C", "°F"}, 70, "°F"},
		{"a per cent sign means the chosen per cent", "28%", []string{"% w/w", "% w/v", "g/L"}, 28, "% w/w"},
		{"a per cent sign means the other per cent", "28 %", []string{"% w/v", "% w/w", "g/L"}, 28, "% w/v"},
		{"the only per cent there is", "0.5 %", []string{"g/L", "% w/v"}, 0.5, "% w/v"},
		{"micro as Greek mu", "250 μS/cm", []string{"mS/cm", "µS/cm"}, 250, "µS/cm"},
		{"micro as u", "250uS/cm", []string{"µS/cm"}, 250, "µS/cm"},
		{"an exponent is no unit", "2e2 mL", volumes, 200, "mL"},
		{"times the CMC", "3x", []string{"g/L", "× CMC"}, 3, "× CMC"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			allowed := units(t, r.allowed...)
			x, u, err := Read(r.text, allowed, allowed[0])
			if err != nil || x != r.x || u.Symbol != r.unit {
				t.Errorf("Read(%q) = %v %s, %v, want %v %s", r.text, x, u.Symbol, err, r.x, r.unit)
			}
		})
	}
}

func TestReadRefusesAndSaysWhy(t *testing.T) {
	volumes := []string{"L", "US gal", "imp gal", "US fl oz", "imp fl oz"}
	rows := []struct {
		name, text string
		allowed    []string
		say        string
	}{
		{"which gallon", "2 gal", volumes, "which “gal” is meant: US gal or imp gal"},
		{"which ounce", "2 fl oz", volumes, "US fl oz or imp fl oz"},
		{"which per cent", "28 %", []string{"g/L", "% w/w", "% w/v"}, "% w/w or % w/v"},
		{"a mass for a volume", "40 kg", volumes, "is a mass. Use L, US gal"},
		{"no such unit", "3 buckets", volumes, "which is no unit known here"},
		{"a range", "28 ± 2", []string{"% w/w"}, "field of its own"},
		{"a range in ASCII", "28 +/- 2", []string{"% w/w"}, "field of its own"},
		{"no units at all", "5 L", nil, "Write the number alone"},
		{"below absolute zero", "-300 °C", []string{"°C"}, "colder than anything"},
		{"below absolute zero in °F", "-500", []string{"°F"}, "colder than anything"},
		{"ambiguous with a unit", "1,035 g/mL", []string{"g/mL"}, "1.035 or as 1035"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			allowed := units(t, r.allowed...)
			var chosen Unit
			if len(allowed) > 0 {
				chosen = allowed[0]
			}
			x, u, err := Read(r.text, allowed, chosen)
			var e *Error
			if !errors.As(err, &e) || !strings.Contains(e.Say, r.say) {
				t.Errorf("Read(%q) = %v %s, %v, want an error that says %q", r.text, x, u.Symbol, err, r.say)
			}
		})
	}
}

func TestChooseFindsAUnitByItsNames(t *testing.T) {
	allowed := units(t, "L", "mL", "US gal", "imp gal")
	for name, want := range map[string]string{"ML": "mL", " us  gal ": "US gal", "litre": "L"} {
		if u, err := Choose(name, allowed, allowed[0]); err != nil || u.Symbol != want {
			t.Errorf("Choose(%q) = %q, %v, want %q", name, u.Symbol, err, want)
		}
	}
	for name, say := range map[string]string{"gal": "US gal or imp gal", "kg": "is a mass", "bucket": "“bucket” is no unit known here. Use L,", "": "no unit known", strings.Repeat("x", 70): "too long"} {
		if u, err := Choose(name, allowed, allowed[0]); err == nil || !strings.Contains(err.Error(), say) {
			t.Errorf("Choose(%q) = %q, %v, want an error that says %q", name, u.Symbol, err, say)
		}
	}
}

func TestQuotesShowWhatWasTypedAndHideWhatTurnsALineAbout(t *testing.T) {
	_, err := Number("\u202e12\x00 and a good deal more than can be quoted")
	if err == nil || !strings.HasPrefix(err.Error(), "“\ufffd12\ufffd and a good deal mor…”") {
		t.Errorf("the error says %v", err)
	}
}

func TestWhatIsWrittenReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e9, 1e9).Draw(t, "x")
		if math.Abs(x) < smallest {
			x = 0
		}
		u := rapid.SampledFrom(table).Draw(t, "unit")
		text := Text(x, 17) + "\u2009" + u.Symbol
		got, read, err := Read(text, []Unit{u}, u)
		if u.Kind == TemperatureKind && u.Base(x) < absoluteZero {
			return
		}
		if err != nil || got != x || read.Symbol != u.Symbol {
			t.Fatalf("Read(%q) = %v %s, %v, want %v", text, got, read.Symbol, err, x)
		}
		comma := strings.Replace(Text(x, 17), ".", ",", 1)
		if got, err := Number(comma); err == nil && got != strconv.FormatFloat(x, 'f', -1, 64) {
			t.Fatalf("Number(%q) = %s, want %v or a refusal", comma, got, x)
		}
	})
}

// A symbol taken from the list is that unit, though people call another by it; in
// a text it still leaves open which is meant.
func TestAChosenSymbolIsThatUnit(t *testing.T) {
	allowed := units(t, "g", "oz", "mL", "US fl oz", "imp fl oz")
	oz, err := Choose("oz", allowed, allowed[0])
	if err != nil || oz.Symbol != "oz" {
		t.Errorf("%q, %v", oz.Symbol, err)
	}
	if _, _, err := Read("5 oz", allowed, allowed[0]); err == nil || !strings.Contains(err.Error(), "leaves open") {
		t.Errorf("%v", err)
	}
	if x, u, err := Read("5 oz", allowed, oz); err != nil || x != 5 || u.Symbol != "oz" {
		t.Errorf("%v %q, %v", x, u.Symbol, err)
	}
}

// FuzzRead holds that no text gives a number that is none, a unit that was not
// offered, or an error without a sentence.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"12,5 L", "1,234", "−3.5e-2 gal", "1\u2009000,5ml", "28 ± 2 %", "NaN", "1e999", "'", "5'", "٣", "½ L", "1½ US gal", "2 3/8 imp gal", "1 US gal 1 imp gal", "0x10", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		allowed := units(t, "L", "mL", "US gal", "imp gal")
		x, u, err := Read(text, allowed, allowed[0])
		var e *Error
		switch {
		case err == nil && (math.IsNaN(x) || math.Abs(x) > largest || u.Kind != VolumeKind):
			t.Errorf("Read(%q) = %v %s", text, x, u.Symbol)
		case err != nil && (!errors.As(err, &e) || e.Say == "" || e.Text != text):
			t.Errorf("Read(%q) gives the error %#v", text, err)
		}
		spelt, err := Number(text)
		if err != nil {
			return
		}
		back, berr := strconv.ParseFloat(spelt, 64)
		if x, _, err := Read(text, nil, Unit{}); err != nil || berr != nil || back != x || !json.Valid([]byte(spelt)) {
			t.Errorf("Number(%q) = %s, Read gives %v, %v", text, spelt, x, err)
		}
	})
}
