package watch

import (
	"math"
	"strings"
	"testing"

	"sinkside/calc/dossier"
)

func TestTheEstimate(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(d *day)
		missing string
		say     string
		water   float64 // g; below 0 for none
		timed   bool
	}{
		{"by the pick-up", func(*day) {}, "", "It held about 120 g of water when drying began, by its pick-up.", 120.5, true},
		{"by one weighing", func(d *day) { d.read(nil, 69, "mass", "96.4").Unit = "g" }, "", "It holds about 48.2 g of water.", 48.2, true},
		{"corrected by weighings", func(d *day) {
			s := &d.Steps[len(d.Steps)-1]
			d.read(s, 90, "mass", "90").Unit = "g"
			d.read(s, 120, "mass", "75").Unit = "g"
			d.read(s, 150, "mass", "61").Unit = "g"
		}, "", "as the weighings have corrected it", 12.8, true},
		{"below the dry mass", func(d *day) { d.read(nil, 90, "mass", "40").Unit = "g" }, "", "cannot be estimated. Not known: a weighing is below the dry mass", -1, false},
		{"one that rises", func(d *day) {
			d.read(nil, 90, "mass", "80").Unit = "g"
			d.read(nil, 120, "mass", "95").Unit = "g"
		}, "", "The weighings do not correct the rate: the mass rises", 46.8, true},
		{"what nobody measured is said", func(d *day) {
			d.read(nil, 90, "mass", "80").Unit = "g"
			s := &d.Steps[len(d.Steps)-1]
			s.Airflow, s.Sides = "", 0
		}, "", "Assumed: air at 0.1 m/s, one face open to the air and a scale that is right within 1 g.", 31.8, true},
		{"nor how fast gentle air is", func(*day) {}, "", "Assumed: air at 0.2 m/s for “gentle”.", 120.5, true},
		{"weighed more often than a series holds", func(d *day) {
			s := &d.Steps[len(d.Steps)-1]
			for i := range 60 {
				d.read(s, 90+float64(i), "mass", digits(120-float64(i))).Unit = "g"
			}
		}, "", "as the weighings have corrected it", 12.8, true},
		{"a weighing of an earlier day does not count", func(d *day) { d.read(nil, -100, "mass", "48.2").Unit = "g" }, "", "by its pick-up", 120.5, true},
		{"nothing is known", func(d *day) {
			d.Fields = map[string][]dossier.FieldValue{}
			d.Last = map[string]dossier.Reading{}
		}, "the temperature and the humidity of the room|width and height|the dry mass|a weighing, or the pick-up", "cannot be estimated yet. Missing: the temperature", -1, false},
		{"the room was read yesterday", func(d *day) {
			r := d.Last["humidity"]
			r.At = at(-1000)
			d.Last["humidity"] = r
		}, "the temperature and the humidity of the room", "Missing", -1, false},
		{"a room that cannot be", func(d *day) {
			r := d.Last["humidity"]
			r.Value = "-4"
			d.Last["humidity"] = r
		}, "", "How long it takes cannot be estimated. ", -1, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := kerchief()
			c.change(d)
			x := Of(&d.State).Drying
			if got := strings.Join(x.Missing, "|"); got != c.missing {
				t.Errorf("missing %q, want %q", got, c.missing)
			}
			has(t, "what it says", strings.ReplaceAll(x.Say, "\u00a0", " "), c.say)
			if (x.EarlyMS != nil) != c.timed || c.timed && *x.EarlyMS >= *x.LateMS {
				t.Errorf("early %v, late %v", x.EarlyMS, x.LateMS)
			}
			if (x.WaterG != nil) != (c.water >= 0) || x.WaterG != nil && math.Abs(*x.WaterG-c.water) > 0.05 {
				t.Errorf("water %v, want %v", x.WaterG, c.water)
			}
			if strings.Contains(c.say, "corrected") != x.Corrected {
				t.Errorf("corrected %v", x.Corrected)
			}
		})
	}
}

func TestTheRoom(t *testing.T) {
	x := Of(&kerchief().State).Drying
	// Dew point of 21 °C and 47 %: 9.2 °C by the equations of reckoning air.
	if x.DewC == nil || math.Abs(*x.DewC-9.2) > 0.1 {
		t.Errorf("dew point %v", x.DewC)
	}
	has(t, "the room", strings.ReplaceAll(x.RoomSay, "\u00a0", " "), "21 °C, 47 % RH, dew point 9.3")
	if x.MouldMS != nine+24*hourMS {
		t.Errorf("mould at minute %d", (x.MouldMS-nine)/minuteMS)
	}
	has(t, "asked", string(x.Working.Inputs), `"air_speed":"0.2"`, `"sides":"2"`, `"width":"62.2"`)
}
