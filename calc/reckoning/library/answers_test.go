package library

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

func TestFiguresAreShownInThePersonsUnits(t *testing.T) {
	rows := []struct {
		name, reckoning string
		form            form
		figure, want    string
	}{
		{"metric", "solution", form{"litres": 40, "target": 2.34, "active": 28, "density": 1.04}, "product_volume", "321 mL"},
		{"US gallons", "solution", form{"litres": in(10, "US gal"), "target": 2.34, "active": 28, "density": 1.04}, "product_volume", "304 mL, 10.3 US fl oz"},
		{"US gallons, a mass", "solution", form{"litres": in(10, "US gal"), "target": 2.34, "active": 28}, "product_mass", "316 g, 11.2 oz"},
		{"imperial gallons", "solution", form{"litres": "10 imp gal", "target": 2.34, "active": 28, "density": 1.04}, "product_volume", "365 mL, 12.9 imp fl oz"},
		{"inches leave the gallon open", "tray", form{"length": "36 in", "width": "24 in", "depth": "6 in"}, "litres", "85 L, 22.4 US gal, 18.7 imp gal"},
		{"pounds", "tray", form{"length": 90, "width": 60, "depth": 10, "tray_mass": in(13, "lb")}, "filled_mass", "59.8 kg, 132 lb"},
		{"a range", "solution", form{"litres": 40, "target": 2.34, "active": 28, "active_pm": 2}, "product_mass", "334 g (312 to 360 g)"},
		{"a range that rounding hides", "solution", form{"litres": 40, "target": 2.34, "active": 28, "density": 1.04, "density_pm": "0,01"}, "water", "39.7 L"},
		{"a share", "rinse", form{"kept": 1, "fresh": 9, "n": 3}, "left", "0.1 %, 1 part in 1000"},
		{"a share with its range", "rinse", form{"kept": 1, "kept_pm": 0.5, "fresh": 9, "n": 1}, "left", "10 % (5.26 to 14.3 %)"},
		{"a share that means nothing", "rinse", form{"kept": 0.1, "fresh": 20, "n": 5}, "left", "less than 0.0001 %"},
		{"a share of nothing", "regain", form{"known": "both", "conditioned": 7, "dry": 7, "fibre": "flax"}, "regain", "0 %"},
		{"a whole number with its range", "rinse", form{"kept": 1.5, "kept_pm": 1, "fresh": 10, "target": 1}, "needed", "3 (2 to 3)"},
		{"times the CMC", "solution", form{"litres": 1, "target": 3.4944, "active": 28, "cmc": 2.34}, "multiple", "1.49 × CMC"},
		{"a chosen mS/cm", "conductivity", form{"value": "0,5 mS/cm", "temp": 15}, "k25", "625 µS/cm, 0.625 mS/cm"},
		{"the field's own unit alone", "conductivity", form{"value": 500, "temp": 15}, "k25", "625 µS/cm"},
		{"centimetres", "mount", form{"width": "30 cm", "height": "40 cm", "board": "0.6 cm"}, "board_width", "380 mm, 38 cm"},
		{"centimetres, and millimetres too", "mount", form{"width": "30 cm", "height": "40 cm", "board": 6}, "board_width", "380 mm"},
		{"per cent", "solution", form{"litres": 2, "target": "0,5 % w/v", "form": "powder", "active": 100}, "strength", "5 g/L, 0.5 % w/v"},
		{"minutes would be unhandy", "fade", form{"wool": "3", "lux": 50, "day": "600 min", "days": 300}, "hours", "60\u00a0000 h (40\u00a0000 to 90\u00a0000 h)"},
		{"no cell constant in inches", "cell_constant", form{"standard": "kcl001", "temperature": "68 °F", "reading": 1273}, "constant", "1 /cm"},
		{"a trace", "solution", form{"litres": "10 mL", "target": "1 mg/mL", "active": 50}, "product_mass", "20 mg"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if got := valueOf(t, reckon(t, r.reckoning, r.form), r.figure).Shown; got != r.want {
				t.Errorf("%s is shown as %q, want %q", r.figure, got, r.want)
			}
		})
	}
}

// A comma with three digits behind it is a decimal comma or one between thousands;
// where only one of the two lies in the range, that is meant.
func TestACommaBeforeThreeDigitsIsReadWhereOneReadingFits(t *testing.T) {
	f := form{"litres": 40, "target": 2.34, "active": 28, "density": "1,040 g/mL"}
	if v := valueOf(t, reckon(t, "solution", f), "product_volume"); v.Shown != "321 mL" {
		t.Errorf("1,040 g/mL gives %s", v.Shown)
	}
	if w := reckon(t, "solution", f).Working; !slices.ContainsFunc(w, func(w reckoning.Working) bool {
		return strings.Contains(w.Say, "“1,040 g/mL” was read as 1.04 g/mL")
	}) {
		t.Errorf("the working does not say how it was read: %+v", w)
	}
	f["litres"] = "1,234"
	if _, problems := All().Run("solution", f.json(t)); len(problems) != 1 || !strings.Contains(problems[0].Say, "can be read as 1.234 or as 1234") {
		t.Errorf("1,234 L, of which both fit: %+v", problems)
	}
}

// Air cannot hold more than 100 % and a can no less than nothing: a reading near such
// an end is uncertain all the same.
func TestARangeEndsWhereTheQuantityDoes(t *testing.T) {
	rows := []struct {
		name, reckoning string
		form            form
		figure          string
		low, high       float64
		say             string
	}{
		{"more than all", "solution", form{"litres": 1, "target": 10, "form": "powder", "active": 98, "active_pm": 4}, "product_mass", 10, 10 / 0.94, "cannot be more than 100 %, so its range ends there. 94 % w/w to 100 % w/w"},
		{"less than nothing", "water_plan", form{"rinses": 1, "rinse_litres": 10, "spare": 0, "stock": 1, "stock_pm": 2}, "short", 7, 10, "cannot be less than 0, so its range ends there. 0 L to 3 L"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			r := reckon(t, row.reckoning, row.form)
			v := valueOf(t, r, row.figure)
			if v.Low == nil || !near(*v.Low, row.low, 1e-12) || !near(*v.High, row.high, 1e-12) {
				t.Errorf("%s: %+v, want %v to %v", row.figure, v, row.low, row.high)
			}
			if !slices.ContainsFunc(r.Working, func(w reckoning.Working) bool { return strings.Contains(w.Say+" "+w.Put, row.say) }) {
				t.Errorf("the working does not say so: %+v", r.Working)
			}
		})
	}
}

func TestAPictureSaysItsSizeInThePersonsUnits(t *testing.T) {
	sides := form{"AB": "300", "BC": "400", "CD": "300", "DA": "400", "AC": "500", "BD": "500"}
	if got := reckon(t, "outline", sides).Pictures[0].Size; got != "300 × 400 mm" {
		t.Errorf("in millimetres: %s", got)
	}
	for name := range sides {
		sides[name] = reckoningtest.In(map[string]float64{"AB": 12, "BC": 16, "CD": 12, "DA": 16, "AC": 20, "BD": 20}[name], "in")
	}
	if got := reckon(t, "outline", sides).Pictures[0].Size; got != "12 × 16 in, 305 × 406 mm" {
		t.Errorf("in inches: %s", got)
	}
}

func TestOnlyWhatAnUncertainInputBearsOnHasARange(t *testing.T) {
	r := reckon(t, "solution", form{"litres": 40, "target": 2.34, "active": 28, "active_pm": 2})
	if v := valueOf(t, r, "product_mass"); v.Low == nil || v.High == nil || *v.Low >= v.Value || *v.High <= v.Value {
		t.Errorf("product_mass = %+v, want a range around it", v)
	}
	if v := valueOf(t, r, "active_mass"); v.Low != nil || v.High != nil {
		t.Errorf("active_mass = %+v, want no range", v)
	}
	for _, v := range reckon(t, "tray", form{"length": 90, "width": 60, "depth": 10}).Values {
		if v.Low != nil || v.High != nil {
			t.Errorf("%s has a range and nothing was uncertain", v.Name)
		}
	}
}

func TestTheUsualMistakeStandsBesideTheRightFigure(t *testing.T) {
	r := reckon(t, "solution", form{"litres": 40, "target": 2.34, "active": 28})
	if right, wrong := valueOf(t, r, "product_mass"), valueOf(t, r, "mistaken_mass"); !near(wrong.Value, right.Value*0.28, 1e-12) {
		t.Errorf("mistaken %v g beside %v g", wrong.Value, right.Value)
	}
	r = reckon(t, "solution", form{"litres": 10, "target": 5, "form": "liquid", "active": "30 % w/v"})
	if wrong, weak := valueOf(t, r, "mistaken_volume"), valueOf(t, r, "mistaken_strength"); !near(wrong.Value, 50, 1e-12) || !near(weak.Value, 1.5, 1e-12) {
		t.Errorf("mistaken: %v mL make %v g/L, want 50 and 1.5", wrong.Value, weak.Value)
	}
	for _, v := range reckon(t, "solution", form{"litres": 2, "target": 5, "form": "powder", "active": 100}).Values {
		if strings.HasPrefix(v.Name, "mistaken") {
			t.Errorf("a pure powder shows the mistake %s", v.Name)
		}
	}
}

func TestWhatCannotBeKnownIsListedAndNotMadeUp(t *testing.T) {
	rows := []struct {
		name    string
		form    form
		unknown []string
	}{
		{"paste, nothing more", form{"litres": 40, "target": 2.34, "active": 28}, []string{"product_volume", "multiple"}},
		{"all known", form{"litres": 40, "target": 2.34, "active": 28, "density": 1.04, "cmc": 2.34}, nil},
		{"stock by volume", form{"litres": 5, "target": 1, "form": "liquid", "active": "1 % w/v", "cmc": 2.34}, []string{"product_mass"}},
		{"powder is never measured by volume", form{"litres": 5, "target": 1, "form": "powder", "active": 90, "cmc": 2.34}, nil},
		{"strong, of unknown density", form{"litres": 1, "target": 100, "active": 50, "cmc": 2.34}, []string{"product_volume", "water"}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			result := reckon(t, "solution", r.form)
			var got []string
			for _, u := range result.Unknown {
				got = append(got, u.Name)
				if u.Say == "" || u.Title == "" {
					t.Errorf("%s is unknown without a word", u.Name)
				}
				if _, both := result.Value(u.Name); both {
					t.Errorf("%s is both unknown and known", u.Name)
				}
			}
			if !slices.Equal(got, r.unknown) {
				t.Errorf("unknown are %v, want %v", got, r.unknown)
			}
		})
	}
}

func TestCautionsFitTheInputs(t *testing.T) {
	rows := []struct {
		name, reckoning string
		form            form
		about, say      string
	}{
		{"every solution", "solution", form{"litres": 1, "target": 1, "active": 28}, reckoning.People, "safety data sheet"},
		{"splashes", "solution", form{"litres": 1, "target": 1, "active": 28}, reckoning.People, "splashes"},
		{"dust", "solution", form{"litres": 1, "target": 1, "form": "powder", "active": 28}, reckoning.People, "no dust"},
		{"below the CMC", "solution", form{"litres": 1, "target": "0.5 × CMC", "active": 28, "cmc": 2.34}, reckoning.Object, "below the CMC"},
		{"far above the CMC", "solution", form{"litres": 1, "target": "12 × CMC", "active": 28, "cmc": 2.34}, reckoning.Object, "stronger than the 2 to 10"},
		{"CMC unknown", "solution", form{"litres": 1, "target": 1, "active": 28}, reckoning.Object, "CMC is not known"},
		{"share for per cent", "solution", form{"litres": 1, "target": 0.1, "active": 0.28}, reckoning.Object, "0.28 typed where 28 % was meant"},
		{"dust of several powders", "several", form{"litres": 1, "ingredients": []any{map[string]any{"name": "amylase", "target": 1, "form": "powder"}}}, reckoning.People, "Enzyme powder is a sensitiser"},
		{"dust of a hydrate", "hydrate", form{"mass": 1, "asked_waters": 1, "have_waters": 0}, reckoning.People, "no dust"},
		{"old pesticides in damp", "chamber", form{"from": 35, "to": 55, "exchange": 1, "volume": 80}, reckoning.People, "arsenic, mercury"},
		{"old pesticides in drying", "drying", form{"water": 100, "area": 1000, "temperature": 20, "humidity": 50}, reckoning.People, "arsenic, mercury"},
		{"old pesticides beside mould", "mould", form{"humidity": 80, "temperature": 20}, reckoning.People, "arsenic, mercury"},
		{"a meter by water", "conductivity", form{"value": 500, "temp": 20}, reckoning.People, "runs from its battery"},
		{"a pH meter by water", "ph_calibration", form{"points": []any{map[string]any{"buffer": "t4", "reading": "170"}, map[string]any{"buffer": "t7", "reading": 0}}}, reckoning.People, "runs from its battery"},
		{"a cell by water", "cell_constant", form{"standard": "s1413", "temperature": 25, "reading": 1413}, reckoning.People, "runs from its battery"},
		{"a filled tray", "tray", form{"length": 90, "width": 60, "depth": 10, "tray_mass": 6}, reckoning.People, "Never lift, carry or tip a filled tray: this one comes to 59.9 kg"},
		{"a shallow end", "tray", form{"shape": "sloped", "length": 90, "width": 60, "shallow": 2, "deep": 10}, reckoning.Object, "shallow end"},
		{"adsorption", "rinse", form{"kept": 1, "fresh": 9, "n": 3}, reckoning.Object, "hold surfactant back"},
		{"a wet textile", "rinse", form{"dry_mass": 400, "pick_up": 120, "fresh": 9, "n": 3}, reckoning.People, "comes to 880 g, without its support"},
		{"water runs out", "rinse", form{"kept": 1, "fresh": 9, "n": 3, "water": 20}, reckoning.Object, "runs out before 3 rinses"},
		{"no spare water", "rinse", form{"kept": 1, "fresh": 9, "n": 3, "water": 30}, reckoning.Object, "less than two spare rinses"},
		{"target missed", "rinse", form{"kept": 1, "fresh": 9, "n": 1, "target": 1}, reckoning.Object, "1 rinse planned do not reach"},
		{"suds are to be checked", "rinse_end", form{"readings": "802; 202", "source": 2, "suds": "none"}, reckoning.Object, "suds check is not optional: conductivity does not see non-ionic"},
		{"fibres hold on", "rinse_end", form{"readings": "802; 402; 202", "source": 2, "litres": "9; 9; 9", "kept": 1}, reckoning.Object, "Each rinse leaves 50 % where mixing alone would leave 10 %"},
		{"levelled off", "rinse_end", form{"readings": "802; 202; 200", "source": 2}, reckoning.Object, "A level far above the source is a finding"},
		{"unequal rinses", "rinse_end", form{"readings": "802; 202; 52", "source": 2, "litres": "9; 9; 4"}, reckoning.Object, "counted as if they were alike"},
		{"far from 25 °C", "conductivity", form{"value": 500, "temp": 10}, reckoning.Object, "0.2 %/K more or less moves it by about 4.3 %"},
		{"a meter that may not", "conductivity", form{"value": 500, "way": "compensated"}, reckoning.Object, "Make sure that the meter does correct"},
		{"no water for the rinses", "water_plan", form{"washes": 2, "wash_litres": 20, "rinses": 3, "rinse_litres": 10, "stock": 30}, reckoning.Object, "Do not begin"},
		{"water for some rinses", "water_plan", form{"washes": 2, "wash_litres": 10, "rinses": 3, "rinse_litres": 10, "stock": 45}, reckoning.Object, "runs out before the plan is done"},
		{"water without spare", "water_plan", form{"washes": 2, "wash_litres": 10, "rinses": 3, "rinse_litres": 10, "stock": 65}, reckoning.Object, "but not for all spare rinses"},
		{"water for washes alone", "water_plan", form{"washes": 2, "wash_litres": 10, "stock": 15}, reckoning.Object, "before the plan is done"},
		{"water is heavy", "water_plan", form{"washes": 2, "wash_litres": 10, "rinses": 3, "rinse_litres": 10}, reckoning.People, "It comes to 70 kg to bring"},
		{"object not covered", "rinse", form{"kept": 1, "fresh": 5, "n": 1, "water": 30, "least": 8}, reckoning.Object, "less than the least that covers"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			result := reckon(t, r.reckoning, r.form)
			if !slices.ContainsFunc(result.Cautions, func(c reckoning.Caution) bool { return c.About == r.about && strings.Contains(c.Say, r.say) }) {
				t.Errorf("no caution about %s says %q: %+v", r.about, r.say, result.Cautions)
			}
		})
	}
	// A bath at just 1 × CMC is not below it, whatever the last bit says.
	for _, c := range reckon(t, "solution", form{"litres": 1, "target": "1 × CMC", "active": 28, "cmc": 2.3}).Cautions {
		if strings.Contains(c.Say, "below the CMC") {
			t.Errorf("at 1 × CMC: %s", c.Say)
		}
	}
}

func TestPeopleComeFirst(t *testing.T) {
	for name, f := range examples {
		object := false
		for _, c := range reckon(t, name, f).Cautions {
			object = object || c.About == reckoning.Object
			if object && c.About == reckoning.People {
				t.Errorf("%s: a caution about people comes after one about the object: %s", name, c.Say)
			}
		}
	}
}

// examples are the full forms that the reckonings themselves show.
var examples = func() map[string]form {
	out := map[string]form{}
	for _, r := range All() {
		var f form
		if err := json.Unmarshal([]byte(r.Example), &f); err != nil {
			panic(r.Name + ": " + err.Error())
		}
		out[r.Name] = f
	}
	return out
}()

func TestDefaultsAndWhatIsNotUsedAreSaid(t *testing.T) {
	r := reckon(t, "tray", form{"length": 90, "width": 60, "depth": 10, "diameter": 50})
	var said []string
	for _, w := range r.Working {
		said = append(said, w.Say)
	}
	all := strings.Join(said, "\n")
	for _, want := range []string{"does not bear on what was chosen: Diameter inside", "taken as usual: Water temperature 20 °C"} {
		if !strings.Contains(all, want) {
			t.Errorf("the working does not say %q:\n%s", want, all)
		}
	}
}

func TestTheWorkingCanBeFollowed(t *testing.T) {
	rows := []struct {
		reckoning string
		form      form
		puts      []string
	}{
		{"solution", form{"litres": 40, "target": "1 × CMC", "active": 28, "density": 1.04, "cmc": 2.34},
			[]string{"1 × 2.34 g/L = 2.34 g/L", "40 L × 2.34 g/L = 93.6 g", "93.6 g ÷ 0.28 = 334.3 g", "334.3 g ÷ 1.04 g/mL = 321.4 mL", "2.34 g/L × 0.28 = 0.6552 g/L", "40 L - 321.4 mL = 39.68 L"}},
		{"solution", form{"litres": in(10, "US gal"), "target": in(10, "mmol/L"), "form": "powder", "active": 100, "molar_mass": 294.098},
			[]string{"10 US gal = 37.854 L", "10 mmol/L × 294.1 g/mol = 2.941 g/L", "37.85 L × 2.941 g/L = 111.3 g", "111.3 g ÷ 1 = 111.3 g"}},
		{"tray", form{"shape": "round", "diameter": 50, "depth": 8}, []string{"π × (50 cm)² ÷ 4 × 8 cm = 15.71 L", "15.71 L × 0.9982 kg/L at 20 °C = 15.68 kg"}},
		{"air", form{"temperature": 20, "humidity": 65}, []string{"65 % × 2339 Pa = 1520 Pa", "ps(13.23 °C) = 1520 Pa", "Tw = 15.8 °C"}},
		{"air", form{"temperature": 25, "known": "wet_bulb", "wet_bulb": 18}, []string{"10.02 g/kg; 1606 Pa ÷ 3169 Pa = 50.68 %"}},
		{"drying", form{"dry_mass": 400, "pick_up": 120, "area": "1 m²", "sides": "2", "temperature": 20, "humidity": 50, "air_speed": 0.3},
			[]string{"1 m² = 10\u00a0000 cm²", "400 g × 120 % = 480 g", "wet bulb 13.78 °C", "2 m² × (0.089 + 0.0782 × 0.3) × (1.576 - 1.169) kPa ÷ 2450 kJ/kg = 134.5 g/h", "480 g ÷ (94.1 to 205 g/h) = 141 to 306 min"}},
		{"conductivity", form{"value": 500, "temp": 15}, []string{"500 µS/cm ÷ (1 + 2 % × (15 - 25)) = 625 µS/cm"}},
		{"conductivity", form{"value": 500, "temp": 20.1, "way": "iso7888"}, []string{"500 µS/cm × 1.113 = 556.8 µS/cm"}},
		{"water_plan", form{"presoaks": 1, "presoak_litres": 8, "washes": 2, "wash_litres": 8, "rinses": 3, "rinse_litres": 8, "other": "1,5", "stock": 50, "rate": 4},
			[]string{"1 × 8 L + 2 × 8 L + 3 × 8 L + 2 spare × 8 L + 1 × 1.5 L = 65.5 L", "65.5 L - 50 L = 15.5 L; ÷ 4 L/h = 3.875 h"}},
		{"rinse_end", form{"readings": "0,802; 0,202; 0,052; 0,0145 mS/cm", "source": 2, "litres": "10; 9; 9; 9", "kept": 1},
			[]string{"0.802; 0.202; 0.052; 0.0145 mS/cm = 802; 202; 52; 14.5 µS/cm", "2 × 2 µS/cm; 2 µS/cm + 5 µS/cm; so 7 µS/cm",
				"800; 200; 50; 12.5 µS/cm", "r = 0.25, excess at the first reading 800 µS/cm", "1 rinse more", "1 L ÷ (1 L + 9 L) = 10 %"}},
		{"rinse", form{"kept": 1.5, "fresh": 10, "n": 2, "target": 1}, []string{"1.5 L ÷ (1.5 L + 10 L) = 13.04 %", "100 % → 13.04 % → 1.701 %", "2.261, so 3"}},
		{"rinse", form{"kept": 1, "fresh": 1, "n": 12}, []string{"100 % → 50 % → 25 % → 12.5 % → 6.25 % → 3.125 % → 1.562 % → 0.7812 % → 0.3906 % → … → 0.02441 %"}},
	}
	for _, r := range rows {
		var puts []string
		for _, w := range reckon(t, r.reckoning, r.form).Working {
			puts = append(puts, w.Put)
		}
		for _, want := range r.puts {
			if !slices.Contains(puts, want) {
				t.Errorf("%s %v: no step puts %q; there are %q", r.reckoning, r.form, want, puts)
			}
		}
	}
}

func TestAFigureThatSomeEdgeLacksSaysSo(t *testing.T) {
	r := reckon(t, "rinse", form{"kept": 10, "kept_pm": 1, "fresh": 1, "target": 1})
	if v := valueOf(t, r, "needed"); v.Value != 49 || v.Low != nil || v.Shown != "49" {
		t.Errorf("needed = %+v, want 49 without a range", v)
	}
	if !slices.ContainsFunc(r.Working, func(w reckoning.Working) bool {
		return strings.Contains(w.Say, "Rinses that reach what may be left: no range is given")
	}) {
		t.Errorf("the working does not say why: %+v", r.Working)
	}
}

// Rinses needed fall as the water for each rises, so their product has its
// extremes between the ends.
func TestTheRangeOfAProductHoldsWhatLiesBetween(t *testing.T) {
	r := reckon(t, "rinse", form{"kept": 1.5, "kept_pm": 0.7, "fresh": 10, "fresh_pm": 2, "target": 0.1})
	if v := valueOf(t, r, "needed_water"); v.Low == nil || *v.Low > 24 || *v.High < 50 {
		t.Errorf("needed_water = %+v, and 2.2 L kept with 10 L fresh takes 50 L", v)
	}
}
