package gels

import (
	"math"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/sync/jsontext"
)

var all = reckoning.List{Gel(), Paste()}

func run(t *testing.T, name, form string) reckoning.Result {
	t.Helper()
	return reckoningtest.RunText(t, all, name, form)
}

func TestPublishedRecipes(t *testing.T) {
	rows := []struct {
		source       string
		name, form   string
		figure       string
		want, within float64
	}{
		{"recipe arithmetic, J-03 (d): 500 mL at 3 %", "gel", `{"shape":"volume","volume":500,"spare":0,"strength":3}`, "agent_mass", 15.0, 0.005},
		{"J-03 (d): 30 × 40 cm, 6 mm", "gel", `{"length":"40 cm","width":"30 cm","thickness":"6 mm","spare":0,"strength":2}`, "gel_volume", 720, 0.005},
		{"J-03 (d): the same at 2 %", "gel", `{"length":"400 mm","width":"0,3 m","thickness":"6 mm","spare":0,"strength":"20 g/L"}`, "agent_mass", 14.4, 0.005},
		{"J-03 (d): calcium acetate at 0.4 g/L", "gel", Gel().Example, "additive_mass", 0.288, 0.005},
		{"J-01 (a) a quarter inch is taken for 6 mm", "gel", `{"length":"10 in","width":"10 in","thickness":"0.25 in","spare":0,"strength":3.4}`, "agent_mass", 13.93, 0.001},
		{"an area of 1200 cm² is the same sheet (d)", "gel", `{"shape":"area","area":1200,"thickness":6,"spare":0,"strength":2}`, "agent_mass", 14.4, 1e-9},
		{"two sheets and a tenth to spare (d)", "gel", `{"length":40,"width":30,"thickness":6,"sheets":2,"spare":10,"strength":2}`, "pour_volume", 1584, 1e-9},
		{"6 mm of water press with 6 kg on a square metre (d)", "gel", `{"length":40,"width":30,"thickness":6,"strength":2}`, "load", 6, 1e-9},
		{"J-06 (c): 1 part to 4 to 6, 5 taken", "paste", Paste().Example, "water", 250, 1e-9},
		{"10 g of glue at 5 % w/w (d)", "paste", `{"kind":"glue","glue":10,"glue_strength":5}`, "water_mass", 190, 1e-9},
	}
	for _, r := range rows {
		result := run(t, r.name, r.form)
		got, ok := result.Value(r.figure)
		if !ok || !(math.Abs(got-r.want) <= r.within*r.want) {
			t.Errorf("%s: %s = %v (%v), want %v", r.source, r.figure, got, ok, r.want)
		}
		if len(result.Cautions) == 0 || len(result.Working) == 0 {
			t.Errorf("%s: no cautions or no working", r.source)
		}
	}
}

func TestWhatStandsBesideIt(t *testing.T) {
	rows := []struct{ form, want string }{
		{`{"length":40,"width":30,"thickness":6,"agent":"gellan_low","strength":2}`, "lies among the published strengths"},
		{`{"length":40,"width":30,"thickness":6,"agent":"gellan_low","strength":8}`, "outside of every published strength"},
		{`{"length":40,"width":30,"thickness":6,"agent":"cellulose_ether","strength":2}`, "No published strength is known here"},
		{`{"length":40,"width":30,"thickness":6,"agent":"gellan_high","strength":2}`, "No published strength is known here"},
		{`{"length":40,"width":30,"thickness":6,"strength":2,"additive":"enzyme","additive_strength":1}`, "pH 6.9"},
		{`{"length":40,"width":30,"thickness":6,"strength":2,"additive":"enzyme","additive_strength":1}`, "sensitiser"},
		{`{"length":40,"width":30,"thickness":6,"strength":2,"additive":"solvent","additive_strength":1}`, "No solvent near heat"},
		{`{"length":40,"width":30,"thickness":6,"strength":2}`, "scalds"},
		{`{"length":40,"width":30,"thickness":6,"strength":2,"additive":"cleaning","additive_strength":5}`, "takes metal from mordants"},
	}
	for _, r := range rows {
		text, _ := all.Answer(nil, "gel", jsontext.Value(r.form))
		if !strings.Contains(string(text), r.want) {
			t.Errorf("%s does not say %q: %s", r.form, r.want, text)
		}
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	rows := []struct{ name, form, field string }{
		{"gel", `{"length":40,"width":30,"thickness":0,"strength":2}`, "thickness"},
		{"gel", `{"length":40,"width":30,"thickness":"6 cm","strength":2}`, "thickness"},
		{"gel", `{"length":40,"width":-30,"thickness":6,"strength":2}`, "width"},
		{"gel", `{"length":40,"width":30,"thickness":6,"strength":60}`, "strength"},
		{"gel", `{"length":500,"width":500,"thickness":50,"strength":2}`, "thickness"},
		{"gel", `{"shape":"volume","volume":"150 L","sheets":3,"strength":2}`, "volume"},
		{"gel", `{"length":40,"width":30,"thickness":6,"sheets":1.5,"strength":2}`, "sheets"},
		{"gel", `{"length":40,"width":30,"thickness":6,"strength":2,"additive":"calcium_acetate"}`, "additive_strength"},
		{"gel", `{"length":40,"width":30,"thickness":6,"strength":"2 % w/w"}`, "strength"},
		{"paste", `{"starch":50,"parts":0}`, "parts"},
		{"paste", `{"kind":"glue","glue":10,"glue_strength":100}`, "glue_strength"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, jsontext.Value(r.form))
		if len(problems) != 1 || problems[0].Field != r.field || problems[0].Say == "" {
			t.Errorf("%s %s: %+v, want %s refused", r.name, r.form, problems, r.field)
		}
	}
}

func TestThicknessThatIsNotSure(t *testing.T) {
	r := run(t, "gel", `{"length":40,"width":30,"thickness":6,"thickness_pm":1,"spare":0,"strength":2}`)
	for _, v := range r.Values {
		if v.Name == "gel_volume" && (v.Low == nil || math.Abs(*v.Low-600) > 1e-9 || math.Abs(*v.High-840) > 1e-9) {
			t.Errorf("6 ± 1 mm: %+v", v)
		}
	}
}

func FuzzGel(f *testing.F) {
	f.Add("gel", Gel().Example)
	f.Add("paste", Paste().Example)
	f.Add("gel", `{"shape":"area","area":"2 ft²","thickness":"0.25 in","strength":"3","agent":"other"}`)
	f.Fuzz(func(t *testing.T, name, form string) {
		r, problems := all.Run(name, jsontext.Value(form))
		if len(problems) == 0 && len(r.Values) == 0 {
			t.Fatalf("%s %q: neither figures nor problems", name, form)
		}
		for _, v := range r.Values {
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) || v.Value < 0 {
				t.Fatalf("%s %q: %+v", name, form, v)
			}
		}
	})
}

// What together comes to more than is poured in one go names how thick the layer, or
// how large each volume, may be (d): 200 L on 25 m² with a tenth to spare, and 200 L in
// three with the same.
func TestTooMuchGelNamesWhatIsAllowedHere(t *testing.T) {
	type form = reckoningtest.Form
	if p := reckoningtest.Refused(t, Gel(), form{"length": 500, "width": 500, "thickness": 50, "strength": 2}, "thickness"); p.Allowed != "up to 7.273 mm" {
		t.Errorf("%+v", p)
	}
	if p := reckoningtest.Refused(t, Gel(), form{"shape": "volume", "volume": "150 L", "sheets": 3, "strength": 2}, "volume"); p.Allowed != "up to 60.6 L" {
		t.Errorf("%+v", p)
	}
}
