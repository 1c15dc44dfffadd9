package waters

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/sync/jsontext"
)

var all = reckoning.List{Plan(), Conductivity(), Coefficient(), Hardness(), Chelator(), Mix(), Density(), Grade()}

func run(t *testing.T, name, form string) reckoning.Result {
	t.Helper()
	return reckoningtest.RunText(t, all, name, form)
}

// Marks: (a) read, (b) from memory, (c) common practice, (d) computed.
func TestPublishedValues(t *testing.T) {
	rows := []struct {
		source       string
		name, form   string
		figure       string
		want, within float64
	}{
		{"W-02 (d) 1413 at 25, 1278 at 20 °C", "coefficient", `{"k1":1413,"t1":25,"k2":1278,"t2":20}`, "coefficient", 1.911, 0.0005},
		{"W-02 (d) the same in other units", "coefficient", `{"k1":"1.413 mS/cm","t1":"77 °F","k2":1278,"t2":"68 °F"}`, "coefficient", 1.911, 0.0005},
		{"W-01 (a) KCl 0.01 mol/kg, 30 and 20 °C: about 1.94 to 1.99 (a)", "coefficient", `{"k1":1408.23,"t1":25,"k2":1546.63,"t2":30}`, "coefficient", 1.966, 0.0005},
		{"W-05 (d) 50 mg/L", "hardness", `{"hardness":50}`, "dh", 2.80, 0.01},
		{"W-05 (d) 11.21 °dH", "hardness", `{"hardness":"11,21 °dH"}`, "mg", 200, 0.2},
		{"W-05 (d) 20.45 gpg", "hardness", `{"hardness":"20.45 gpg"}`, "fh", 35.0, 0.07},
		{"W-05 (d) 24.55 °e", "hardness", `{"hardness":"24.55 °e"}`, "mmol", 3.497, 0.007},
		{"W-05 (a) ukaps.org, 131.6 mg Ca/L", "hardness", `{"from":"ions","calcium":131.6}`, "dh", 18.4, 0.1},
		{"W-05 (d) magnesium", "hardness", `{"from":"ions","calcium":0,"magnesium":"10"}`, "mg", 41.179, 0.001},
		{"(d) ions as amounts", "hardness", `{"from":"ions","calcium":"1.5 mmol/L","magnesium":"0.5 mmol/L"}`, "mmol", 2, 1e-9},
		{"(d) 10 L at 1 mmol/L", "chelator", `{"hardness":"1 mmol/L","volume":10,"agent":"edta"}`, "mass", 3.72238, 1e-6},
		{"(d) citrate, 98 %, half more", "chelator", `{"hardness":"2 mmol/L","volume":5,"excess":1.5,"purity":98}`, "mass", 4.41147 / 0.98, 1e-6},
		{"(d) one's own", "chelator", `{"hardness":100.086,"volume":1,"agent":"own","molar_mass":400}`, "mass", 0.4, 1e-9},
		{"W-07-1 (a)", "mix_hot_cold", `{"find":"result","cold":20,"cold_litres":"50 mL","hot":80,"hot_litres":"100 mL"}`, "temperature", 60, 1e-9},
		{"W-07-2 (a)", "mix_hot_cold", `{"find":"hot","target":40,"cold":20,"cold_litres":8,"hot_litres":4}`, "hot_needed", 80, 1e-9},
		{"W-07-3 (d)", "mix_hot_cold", Mix().Example, "hot_volume", 25.71, 0.005},
		{"W-07-4 (d)", "mix_hot_cold", `{"find":"result","cold":14,"cold_litres":18,"hot":45,"hot_litres":12}`, "temperature", 26.40, 1e-9},
		{"W-04 (d) 0.056 µS/cm", "water_grade", `{"conductivity":0.056}`, "resistance", 17.86, 0.005},
		{"W-04 (d) 0.2 MΩ·cm", "water_grade", `{"by":"resistivity","resistivity":0.2}`, "k25", 5, 1e-9},
		{"conductivity takes a meter's ppm as NaCl (b): 702.1 for 1413", "conductivity", `{"value":"702.1 ppm NaCl","way":"compensated"}`, "k25", 1413, 0.01},
		{"and as KCl (b): 744.7 for 1413", "conductivity", `{"value":{"value":"744,7","unit":"ppm KCl"},"way":"compensated"}`, "k25", 1413, 0.01},
		{"W-02 (d)", "conductivity", `{"value":500,"temp":15,"coefficient":2}`, "k25", 625, 0.1},
		{"practice 8 (a): (1 + 2 + 3) × 8 and two spare", "water_plan", `{"presoaks":1,"presoak_litres":8,"washes":2,"wash_litres":8,"rinses":3,"rinse_litres":8}`, "total", 64, 1e-9},
		{"(d) 24 L at a US gallon an hour of 3.785412 L", "water_plan", `{"rinses":3,"rinse_litres":8,"spare":0,"rate":"1 gal/h"}`, "total_hours", 6.34013, 1e-5},
		{"practice 8 (a): hours = litres ÷ litres an hour", "water_plan", `{"rinses":3,"rinse_litres":8,"rate":"20 L/h"}`, "total_hours", 2, 1e-9},
	}
	for _, r := range rows {
		result := run(t, r.name, r.form)
		got, ok := result.Value(r.figure)
		if !ok || !(math.Abs(got-r.want) <= r.within) {
			t.Errorf("%s: %s = %v (%v), want %v", r.source, r.figure, got, ok, r.want)
		}
	}
}

// W-06: the formula (d) and the CRC table (a; from 20 °C on b). Z-01: a misprinted
// formula gives 996.73 at 25 °C. Z-02: a page has 998.29 at 20 and 997.13 at 25.
func TestDensities(t *testing.T) {
	for c, want := range map[string][2]float64{"0": {999.840, 999.841}, "4": {999.972, 999.973}, "5": {999.964, 999.965}, "10": {999.699, 999.700}, "15": {999.099, 999.099},
		"20": {998.203, 998.203}, "25": {997.043, 997.044}, "40": {992.212, 992.22}} {
		result := run(t, "water_density", `{"temperature":`+c+`}`)
		got, _ := result.Value("density")
		if math.Abs(got-want[0]) > 0.001 || math.Abs(got-want[1]) > 0.02 {
			t.Errorf("W-06: %s °C = %v, want %v", c, got, want)
		}
		for at, wrong := range map[string]float64{"20": 998.29, "25": 997.13} {
			if c == at && math.Abs(got-wrong) < 0.05 {
				t.Errorf("Z-02: %s °C = %v", c, got)
			}
		}
		if c == "25" && math.Abs(got-996.73) < 0.1 {
			t.Errorf("Z-01: 25 °C = %v", got)
		}
	}
	result := run(t, "water_density", Density().Example)
	if got, _ := result.Value("mass"); math.Abs(got-9.97043) > 0.0001 {
		t.Errorf("10 L at 25 °C weigh %v kg", got)
	}
	if r := run(t, "water_density", `{"temperature":20,"volume":40}`); !strings.Contains(r.Cautions[0].Say, "carry") {
		t.Errorf("40 L: %+v", r.Cautions)
	}
}

func TestWaterIsLighterTheWarmerAboveFourDegrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(4, 39.9).Draw(t, "colder")
		b := rapid.Float64Range(a+0.05, 40).Draw(t, "warmer")
		density := func(at float64) float64 {
			x, ok, problems := all.One("water_density", reckoningtest.Form{"temperature": at}.JSON(t), "density")
			if !ok {
				t.Fatal(problems)
			}
			return x
		}
		if x, y := density(a), density(b); !(y < x) || y < 990 || x > 1000 {
			t.Fatalf("%v kg/m³ at %v °C, %v at %v", x, a, y, b)
		}
	})
}

func TestWhatIsSaid(t *testing.T) {
	rows := []struct{ name, form, want string }{
		{"water_grade", `{"conductivity":0.2}`, "within the limits of type III, so of type II and type IV too"},
		{"water_grade", `{"conductivity":0.2}`, "type III is purer than type II"},
		{"water_grade", `{"conductivity":0.2}`, "does not prove a grade"},
		{"water_grade", `{"conductivity":0.2}`, "1.1 µS/cm"},
		{"water_grade", `{"conductivity":4,"ph":9}`, "grade 3 by conductivity, not by pH"},
		{"water_grade", `{"conductivity":4,"ph":6}`, "within the limits of grade 3"},
		{"water_grade", `{"conductivity":40}`, `"say":"none"`},
		{"water_grade", `{"conductivity":1,"conductivity_pm":0.1}`, "reaches over a limit"},
		{"water_grade", `{"by":"resistivity","resistivity":18.2}`, "within the limits of type I,"},
		{"water_grade", `{"by":"resistivity","resistivity":17.9}`, "within the limits of type III,"},
		{"water_grade", `{"conductivity":0.05}`, "look at the meter"},
		{"hardness", `{"hardness":150}`, `"say":"hard"`},
		{"hardness", `{"hardness":30}`, `"say":"slightly hard"`},
		{"chelator", `{"hardness":200,"volume":10}`, "mordants"},
		{"chelator", `{"hardness":200,"volume":10}`, "safety data sheet"},
		{"chelator", `{"hardness":200,"volume":10,"agent":"edta"}`, "above about pH 8"},
		{"chelator", `{"hardness":200,"volume":10,"excess":0.5}`, "leaves hardness unbound"},
		{"mix_hot_cold", `{"target":35,"litres":60,"cold":10,"hot":60}`, "scalds"},
		{"mix_hot_cold", `{"find":"hot","target":40,"cold":20,"cold_litres":8,"hot_litres":4}`, "scalds"},
		{"conductivity", `{"value":"300 ppm NaCl","temp":20}`, "meter's own factor"},
		{"coefficient", `{"k1":1413,"t1":25,"k2":1278,"t2":20}`, "correction off"},
		{"coefficient", `{"k1":1413,"t1":25,"k2":1278,"t2":20}`, "runs from its battery"},
		{"water_grade", `{"conductivity":0.2}`, "runs from its battery"},
	}
	for _, r := range rows {
		text, ok := all.Answer(nil, r.name, jsontext.Value(r.form))
		if !ok || !strings.Contains(string(text), r.want) {
			t.Errorf("%s %s does not say %q: %s", r.name, r.form, r.want, text)
		}
	}
	if text, _ := all.Answer(nil, "mix_hot_cold", jsontext.Value(`{"target":25,"litres":60,"cold":10,"hot":40}`)); strings.Contains(string(text), "scalds") {
		t.Error("water of 40 °C is said to scald")
	}
	if text, _ := all.Answer(nil, "conductivity", jsontext.Value(`{"value":300,"temp":20}`)); strings.Contains(string(text), "own factor") {
		t.Error("a reading in µS/cm is warned of as if in ppm")
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	rows := []struct{ name, form, field, say string }{
		{"coefficient", `{"k1":1413,"t1":25,"k2":1400,"t2":24}`, "t2", "less than 2 °C apart"},
		{"coefficient", `{"k1":1278,"t1":20,"k2":1413,"t2":25}`, "t1", "nearer reading first"},
		{"coefficient", `{"k1":1413,"t1":25,"k2":1500,"t2":20}`, "k2", "same water"},
		{"coefficient", `{"k1":1413,"t1":25,"k2":141,"t2":20}`, "k2", "same water"},
		{"hardness", `{"hardness":-1}`, "hardness", "0 to 5"},
		{"hardness", `{"hardness":"20 °C"}`, "hardness", ""},
		{"hardness", `{"from":"ions","magnesium":3}`, "calcium", "nothing is given"},
		{"chelator", `{"hardness":2000,"volume":10,"excess":20,"agent":"own","molar_mass":5000}`, "hardness", "500 g"},
		{"mix_hot_cold", `{"target":65,"litres":60,"cold":10,"hot":60}`, "target", "cannot make it"},
		{"mix_hot_cold", `{"target":5,"litres":60,"cold":10,"hot":60}`, "target", "cannot make it"},
		{"mix_hot_cold", `{"target":10,"litres":60,"cold":10,"hot":10}`, "hot", "warmer"},
		{"mix_hot_cold", `{"find":"hot","target":60,"cold":20,"cold_litres":8,"hot_litres":4}`, "target", "140 °C"},
		{"mix_hot_cold", `{"find":"hot","target":20,"cold":30,"cold_litres":8,"hot_litres":4}`, "target", "would have to be"},
		{"water_density", `{"temperature":41}`, "temperature", "0 to 40 °C"},
		{"water_density", `{"temperature":-1}`, "temperature", "0 to 40 °C"},
		{"water_grade", `{"conductivity":0}`, "conductivity", "0.05"},
		{"water_grade", `{"by":"resistivity","resistivity":25}`, "resistivity", "20"},
		{"water_grade", `{"conductivity":1,"ph":15}`, "ph", "0 to 14"},
		{"water_plan", `{"stock":20}`, "rinses", "nothing is planned"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, jsontext.Value(r.form))
		if len(problems) != 1 || problems[0].Field != r.field || !strings.Contains(problems[0].Say, r.say) {
			t.Errorf("%s %s: %+v, want %s refused, saying %q", r.name, r.form, problems, r.field, r.say)
		}
	}
}

// What the reckoning for litres gives, the one for the temperature gives back.
func TestMixingThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := rapid.Float64Range(0.01, 40).Draw(t, "cold")
		hot := rapid.Float64Range(cold+5, 100).Draw(t, "hot")
		target := cold + (hot-cold)*rapid.Float64Range(0.01, 0.99).Draw(t, "target")
		form := reckoningtest.Form{"target": target, "litres": 60, "cold": cold, "hot": hot}
		h, _, problems := all.One("mix_hot_cold", form.JSON(t), "hot_volume")
		c, ok, _ := all.One("mix_hot_cold", form.JSON(t), "cold_volume")
		if !ok || math.Abs(h+c-60) > 1e-9 {
			t.Fatal(h, c, problems)
		}
		form = reckoningtest.Form{"find": "result", "cold": cold, "hot": hot, "hot_litres": h, "cold_litres": c}
		got, ok, problems := all.One("mix_hot_cold", form.JSON(t), "temperature")
		if !ok || math.Abs(got-target) > 1e-9 {
			t.Fatalf("%v °C, want %v: %+v", got, target, problems)
		}
	})
}

func FuzzWaters(f *testing.F) {
	for _, r := range all {
		f.Add(r.Name, r.Example)
	}
	f.Fuzz(func(t *testing.T, name, form string) {
		r, problems := all.Run(name, jsontext.Value(form))
		if len(problems) == 0 && len(r.Values) == 0 {
			t.Fatalf("%s %q: neither figures nor problems", name, form)
		}
		for _, v := range r.Values {
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) || v.Value < 0 {
				t.Fatalf("%s %q: %s = %v", name, form, v.Name, v.Value)
			}
		}
	})
}

// What two fields do not allow together names the range that they do allow.
func TestContradictionsNameWhatIsAllowedHere(t *testing.T) {
	type form = reckoningtest.Form
	rows := []struct {
		name           string
		form           form
		field, allowed string
	}{
		{"mix_hot_cold", form{"find": "litres", "target": 30, "litres": 10, "cold": 40, "hot": 20}, "hot", "above 40 °C"},
		{"mix_hot_cold", form{"target": 65, "litres": 10, "cold": "50 °F", "hot": "140 °F"}, "target", "10 °C (50 °F) to 60 °C (140 °F)"},
		{"mix_hot_cold", form{"find": "hot", "target": 60, "cold": 20, "cold_litres": 8, "hot_litres": 4}, "target", "20 °C to 46.67 °C"}, // (8 × 20 + 4 × 100) ÷ 12
		{"coefficient", form{"k1": 1278, "t1": 18.25, "k2": 1413, "t2": 27}, "t1", "23 °C to 27 °C"},
		{"coefficient", form{"k1": 1278, "t1": "68 °F", "k2": 1413, "t2": 25}, "t1", "25 °C (77 °F) to 25 °C (77 °F)"},
		{"coefficient", form{"k1": 1413, "t1": 25, "k2": 1400, "t2": 24}, "t2", "below 23 °C or above 27 °C"},
		{"coefficient", form{"k1": 1413, "t1": 25, "k2": 10, "t2": 20}, "k2", "847.8 µS/cm to 1399 µS/cm"}, // 1413 × (1 - 5 × 8 %), (1 - 5 × 0.2 %)
		{"chelator", form{"hardness": 2000, "volume": 10, "excess": 20, "agent": "own", "molar_mass": 5000}, "hardness", "up to 500.4 mg/L CaCO3"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, r.form.JSON(t))
		if len(problems) != 1 || problems[0].Field != r.field || problems[0].Allowed != r.allowed {
			t.Errorf("%s %v: %+v, want %s within %q", r.name, r.form, problems, r.field, r.allowed)
		}
	}
}
