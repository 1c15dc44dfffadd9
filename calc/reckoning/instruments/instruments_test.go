package instruments

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/meter"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

var all = reckoning.List{PHCalibration(), CellConstant(), Calibrations()}

func run(t *testing.T, name, form string) reckoning.Result {
	t.Helper()
	return reckoningtest.RunText(t, all, name, form)
}

const (
	published = `{"points":[{"buffer":"own","own_ph":"7.01","reading":-15},{"buffer":"own","own_ph":4.01,"reading":160}],"samples":"160; -15; 72,5"}`
	shownAsPH = `{"shown":"ph","points":[{"buffer":"t7","reading":7},{"buffer":"t4","reading":4}]}`
)

// Marks: (a) read, (b) from memory, (c) common practice, (d) computed.
func TestPublishedValues(t *testing.T) {
	rows := []struct {
		source       string
		name, form   string
		figure       string
		want, within float64
	}{
		{"(a) studylib.net 25392327: 175 mV over 3 pH", "ph_calibration", published, "slope", 58.333, 0.001},
		{"(a) the theoretical slope there", "ph_calibration", published, "theory", 59.16, 0.005},
		{"(d) share of it", "ph_calibration", published, "share", 98.60, 0.01},
		{"(d) offset in pH 7", "ph_calibration", published, "offset", -15 + 0.01*58.333, 0.001},
		{"(d) a perfect meter", "ph_calibration", shownAsPH, "share", 100, 1e-9},
		{"(d) its zero", "ph_calibration", shownAsPH, "zero", 7, 1e-9},
		{"P-05 (a) the technical buffers at 0 °C are 3.12 apart", "ph_calibration", `{"temperature":0,"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":156}]}`, "slope", 50, 1e-9},
		{"P-05 (a) the standard ones at 10 °C are 2.92 apart", "ph_calibration", `{"temperature":"50 °F","points":[{"buffer":"phosphate","reading":0},{"buffer":"phthalate","reading":146}]}`, "slope", 50, 1e-9},
		{"W-01 (a) 1413 at 20 °C is 1278", "cell_constant", `{"temperature":20,"reading":1278}`, "constant", 1, 1e-9},
		{"W-01 (a) 84 at 30 °C is 92.19", "cell_constant", `{"standard":"s84","temperature":30,"reading":92.19,"set":0.1}`, "constant", 0.1, 1e-9},
		{"W-01 (a) KCl 0.01 mol/kg at 0 °C", "cell_constant", `{"standard":"kcl001","temperature":0,"reading":700}`, "conducts", 772.92, 1e-6},
		{"W-01 (a) KCl 0.1 mol/kg at 50 °C", "cell_constant", `{"standard":"kcl01","temperature":50,"reading":"19 mS/cm"}`, "conducts", 19180.9, 1e-6},
		{"(d) a meter that reads low", "cell_constant", `{"temperature":25,"reading":1300}`, "constant", 1.08692, 0.00001},
		{"(d) by so much", "cell_constant", `{"temperature":25,"reading":1300}`, "off", -7.9972, 0.0001},
	}
	for _, r := range rows {
		result := run(t, r.name, r.form)
		got, ok := result.Value(r.figure)
		if !ok || !(math.Abs(got-r.want) <= r.within) {
			t.Errorf("%s: %s = %v (%v), want %v", r.source, r.figure, got, ok, r.want)
		}
	}
}

func TestWhatIsSaid(t *testing.T) {
	slope := func(mv string) string {
		return `{"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":` + mv + `}]}`
	}
	rows := []struct{ name, form, want string }{
		{"ph_calibration", slope("176"), "good, within 95 to 105 %"},
		{"ph_calibration", slope("165"), "worn, within 90 to 95 %"},
		{"ph_calibration", slope("155"), "poor, within 85 to 90 %"},
		{"ph_calibration", slope("140"), "not to be used"},
		{"ph_calibration", slope("140"), "Take no decision"},
		{"ph_calibration", slope("190"), "above 105 %"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":-31},{"buffer":"t4","reading":146}]}`, "outside of ±30 mV"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0},{"buffer":"phthalate","reading":176}]}`, "Buffers of two sets"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":12},{"buffer":"t4","reading":177},{"buffer":"t10","reading":-178}]}`, "do not lie on one line"},
		{"ph_calibration", published, `["160","4.01","3.99 and 4.03",""]`},
		{"ph_calibration", published, `["-15","7.01","6.99 and 7.03",""]`},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":177}],"samples":"-100"}`, "beyond the buffers"},
		{"ph_calibration", shownAsPH, "takes as its slope already"},
		{"cell_constant", `{"temperature":25,"reading":1400}`, "leave it"},
		{"cell_constant", `{"temperature":25,"reading":1300}`, "set the meter to 1.087 /cm"},
		{"cell_constant", `{"temperature":25,"reading":1000}`, "Look for the cause"},
		{"cell_constant", `{"temperature":25,"reading":1300,"set":0.92,"nominal":1}`, "leave it"},
		{"calibrations", Calibrations().Example, "no calibration before it"},
		{"calibrations", Calibrations().Example, "the next calibration, 2026-03-01 14:00, was bad"},
		{"calibrations", Calibrations().Example, `"45 min"`},
		{"calibrations", Calibrations().Example, "bad: slope 84 %"},
	}
	for _, r := range rows {
		text, ok := all.Answer(nil, r.name, jsontext.Value(r.form))
		if !ok || !strings.Contains(string(text), r.want) {
			t.Errorf("%s %s does not say %q: %s", r.name, r.form, r.want, text)
		}
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	rows := []struct{ name, form, field, say string }{
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0}]}`, "points", "two or three"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0},{"buffer":"phosphate","reading":8}]}`, "points", "1 pH apart"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":-170}]}`, "points", "do not fall"},
		{"ph_calibration", `{"temperature":35,"points":[{"buffer":"t7","reading":0},{"buffer":"carbonate","reading":-170}]}`, "temperature", "ends at 30 °C"},
		{"ph_calibration", `{"temperature":51,"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":170}]}`, "temperature", "0 to 50"},
		{"ph_calibration", `{"shown":"ph","points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":170}]}`, "points.2.reading", "millivolts"},
		{"ph_calibration", `{"shown":"ph","points":[{"buffer":"t7","reading":7},{"buffer":"t4","reading":4}],"samples":"7.2; -120"}`, "samples", "entry 2: a reading of -120 is no pH"},
		{"ph_calibration", `{"points":[{"buffer":"t7","reading":0},{"buffer":"t4","reading":20}],"reading_off":12}`, "reading_off", "no surer than their difference"},
		{"ph_calibration", `{"points":[{"buffer":"own","reading":0},{"buffer":"t4","reading":170}]}`, "points.1.own_ph", "nothing is given"},
		{"cell_constant", `{"temperature":5,"reading":896}`, "temperature", "10 to 30 °C"}, // Z-06
		{"cell_constant", `{"temperature":35,"reading":1667}`, "temperature", "10 to 30 °C"},
		{"cell_constant", `{"temperature":25,"reading":1.413}`, "reading", "mS/cm for µS/cm"},
		{"cell_constant", `{"standard":"kcl001","temperature":25,"reading":"1408 °C"}`, "reading", ""},
		{"calibrations", `{"calibrations":[{"time":"1.3.2026 09:30","instrument":"A"}],"readings":[{"time":"2026-03-01 10:00","instrument":"A","value":"7"}]}`, "calibrations.1.time", "Row 1: Time: “1.3.2026 09:30” is no time"},
		{"calibrations", `{"calibrations":[{"time":"2026-03-01 09:30","instrument":"A"}],"readings":[{"time":"2026-02-30 10:00","instrument":"A","value":"7"}]}`, "readings.1.time", "Row 1: Time: “2026-02-30 10:00” is no time"},
		{"calibrations", `{"calibrations":[{"time":"2026-03-01 09:30","instrument":"A"},{"time":"2026-03-01T09:30","instrument":"a "}],"readings":[{"time":"2026-03-01 10:00","instrument":"A","value":"7"}]}`, "calibrations.2.time", "in that minute already, in row 1"},
		{"calibrations", `{"calibrations":[{"time":"2026-03-01 09:30","instrument":"A","offset":"small"}],"readings":[{"time":"2026-03-01 10:00","instrument":"A","value":"7"}]}`, "calibrations.1.offset", "no voltage"},
		{"calibrations", `{"calibrations":[],"readings":[{"time":"2026-03-01 10:00","instrument":"A","value":"7"}]}`, "calibrations", "no row yet"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, jsontext.Value(r.form))
		if len(problems) != 1 || problems[0].Field != r.field || !strings.Contains(problems[0].Say, r.say) {
			t.Errorf("%s %s: %+v, want %s refused, saying %q", r.name, r.form, problems, r.field, r.say)
		}
	}
}

func TestReadingsAndTheirCalibrations(t *testing.T) {
	form := `{"calibrations":[
		{"time":"2026-03-01 09:30","instrument":"pH A","slope":98,"offset":"-4"},
		{"time":"2026-03-02 09:00","instrument":"pH A","slope":97,"offset":"40 mV"},
		{"time":"2026-03-03 09:00","instrument":"pH A","slope":91},
		{"time":"2026-02-01 09:00","instrument":"EC","found":"good"},
		{"time":"2026-03-04 09:00","instrument":"EC","found":"bad"}],
		"readings":[
		{"time":"2026-03-01 09:29","instrument":"pH A","value":"7.0"},
		{"time":"2026-03-01 09:30","instrument":"PH A","value":"7.0"},
		{"time":"2026-03-02 10:00","instrument":"pH A","value":"7.0"},
		{"time":"2026-03-03 10:00","instrument":"pH A","value":"7.0"},
		{"time":"2026-03-05 10:00","instrument":"pH A","value":"7.0"},
		{"time":"2026-03-01 10:00","instrument":"EC","value":"300"},
		{"time":"2026-03-01 10:00","instrument":"EC 2","value":"300"}]}`
	r := run(t, "calibrations", form)
	for name, want := range map[string]float64{"sound": 1, "doubtful": 3, "old": 1, "without": 2} {
		if got, _ := r.Value(name); got != want {
			t.Errorf("%s = %v, want %v: %v", name, got, want, r.Tables[0].Rows)
		}
	}
	want := []string{"no calibration before it", "doubtful: the next calibration, 2026-03-02 09:00, was bad", "doubtful: on a bad calibration",
		"not confirmed by a later calibration yet", "on an old calibration", "doubtful: the next calibration, 2026-03-04 09:00, was bad", "no calibration before it"}
	for i, row := range r.Tables[0].Rows {
		if row[5] != want[i] {
			t.Errorf("reading %d: %q, want %q", i+1, row[5], want[i])
		}
	}
	if got := r.Tables[0].Rows[5][4]; got != "28 d 1 h" {
		t.Errorf("age %q, want 28 d 1 h", got)
	}
}

// Whatever buffers and electrode: each buffer's own reading is corrected to that
// buffer.
func TestACalibrationReproducesItsBuffers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(0.01, 30).Draw(t, "temperature")
		names := rapid.SampledFrom([][]string{{"t4", "t7"}, {"t7", "t10"}, {"t4", "t7", "t10"}, {"phthalate", "phosphate", "borax"}, {"phosphate", "carbonate"}}).Draw(t, "buffers")
		share, offset := rapid.Float64Range(0.6, 1.1).Draw(t, "share"), rapid.Float64Range(-60, 60).Draw(t, "offset")
		var points []reckoningtest.Form
		var samples, want []string
		for _, name := range names {
			b, _ := meter.BufferNamed(name)
			ph, err := b.PH(unit.Temperature(at))
			if err != nil {
				t.Fatal(err)
			}
			read := unit.Text(offset+share*float64(meter.Ideal(ph, unit.Temperature(at))), 7)
			points = append(points, reckoningtest.Form{"buffer": name, "reading": read})
			samples, want = append(samples, read), append(want, fixed(ph, 2))
		}
		form := reckoningtest.Form{"temperature": at, "points": points, "samples": strings.Join(samples, "; ")}
		r, problems := reckoningtest.Ask(t, PHCalibration(), form)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		for i, row := range r.Tables[1].Rows {
			if row[1] != want[i] {
				t.Fatalf("%s mV is corrected to %s, want %s", row[0], row[1], want[i])
			}
		}
		if got, _ := r.Value("share"); math.Abs(got-100*share) > 0.01 {
			t.Fatalf("slope %v %%, want %v", got, 100*share)
		}
	})
}

func FuzzInstruments(f *testing.F) {
	for _, r := range all {
		f.Add(r.Name, r.Example)
	}
	f.Add("ph_calibration", published)
	f.Add("ph_calibration", shownAsPH)
	f.Fuzz(func(t *testing.T, name, form string) {
		r, problems := all.Run(name, jsontext.Value(form))
		if len(problems) == 0 && len(r.Values) == 0 {
			t.Fatalf("%s %q: neither figures nor problems", name, form)
		}
		for _, v := range r.Values {
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) {
				t.Fatalf("%s %q: %s = %v", name, form, v.Name, v.Value)
			}
		}
	})
}
