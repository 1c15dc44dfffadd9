package watch

import (
	"math"
	"strings"
	"testing"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning/rinsing"
)

// kerchief is a day of seven rinses and a drying, with numbers that were made
// up: 4 µS/cm and what a quarter leaves of 800 (R-04-1 of the values, moved).
func kerchief() *day {
	d := newDay()
	d.Colours = []string{"red", "undyed"}
	d.dwell("red", "", 90, "25")
	d.set("dry_mass_g", "48.2").set("pick_up_pct", "250").set("width_mm", "622").set("height_mm", "618")
	d.conductivity(nil, -10, "4.0", "25", false)
	s := d.begin("wash", 0, 8, 8)
	s.Liquid = "Surfactant"
	d.conductivity(s, 7, "612", "22", true)
	for i, k := range []string{"204", "54", "16.5", "7.1", "4.8"} {
		from := float64(10 + 10*i)
		s := d.begin("rinse", from, 5, from+5)
		d.read(s, from+1, "temperature", "21")
		d.conductivity(s, from+2, "900", "25", false)
		d.read(s, from+3, "ph", []string{"7.1", "6.8", "6.6", "6.4", "6.3"}[i])
		d.read(s, from+4, "colour", []string{"2", "1", "0", "0", "0"}[i])
		d.read(s, from+4.2, "suds", []string{"1", "1", "0", "0", "0"}[i])
		d.conductivity(s, from+4.5, k, "25", true)
	}
	s = d.begin("drying", 70, 0, 0)
	s.Airflow, s.Sides = "gentle", 2
	d.read(s, 71, "air_temperature", "21")
	d.read(s, 71, "humidity", "47")
	return d
}

// upTo is the kerchief's day until some rinses were made.
func upTo(rinses int) *day {
	d := kerchief()
	d.Steps = d.Steps[:1+rinses]
	return d
}

func TestThePointsOfTheCurve(t *testing.T) {
	r := Of(&upTo(2).State).Rinse
	var out []string
	for _, p := range r.Points {
		fit := p.WhyNot
		if p.Fitted {
			fit = "fitted"
		}
		out = append(out, p.Label+" "+digits(p.Value)+" → "+digits(math.Round(p.K25*10)/10)+" "+p.How+", "+fit+" at "+inWords(p.Place))
	}
	// 612 at 22 °C: 612 ÷ (1 - 0.02 × 3) = 651.1 (W-02, linear).
	want := `Wash 1 612 → 651.1 corrected, not of a rinse at nought
Rinse 1 900 → 900 corrected, not taken at the end after agitation at one
Rinse 1 204 → 204 corrected, fitted at one
Rinse 2 900 → 900 corrected, not taken at the end after agitation at two
Rinse 2 54 → 54 corrected, fitted at two`
	if got := strings.Join(out, "\n"); got != want {
		t.Errorf("points\n%s\nwant\n%s", got, want)
	}
	if r.Source == nil || r.Source.K25 != 4 {
		t.Errorf("source %+v", r.Source)
	}
	if got := string(r.Working.Inputs); got != `{"readings":"204; 54","source":"4","litres":"8; 8","kept":"0.1205","suds":"some","ph_change":"-0.3","colour":"1"}` {
		t.Errorf("asked with %s", got)
	}
}

func TestWhenRinsingMayStop(t *testing.T) {
	for _, c := range []struct {
		name    string
		rinses  int
		change  func(d *day)
		propose string
		more    bool
		say     string // in the sentence, the reasons or the refusal
	}{
		{"one reading", 1, nil, rinsing.GoOn, false, "Fewer than two readings"},
		{"a decay", 2, nil, rinsing.GoOn, true, "Go on rinsing: "},
		{"near for the second time", 5, nil, rinsing.Stop, true, "You decide."},
		{"pure water", 5, nil, rinsing.Stop, true, "a pH drifts"},
		{"suds never checked", 5, func(d *day) { strip(d, "suds") }, rinsing.Look, true, "The suds check is missing"},
		{"the suds check stays", 5, nil, rinsing.Stop, true, "conductivity does not see non-ionic detergent"},
		{"suds still", 5, func(d *day) { last(d, "suds").Value = "1" }, rinsing.GoOn, true, "Suds still show."},
		{"colour still", 5, func(d *day) { last(d, "colour").Value = "1" }, rinsing.Look, true, "Colour 1"},
		{"pH still moves", 5, func(d *day) { last(d, "ph").Value = "5.1" }, rinsing.Look, true, "pH still moves"},
		{"a plateau far above", 3, func(d *day) { last(d, "conductivity").Value = "53" }, rinsing.Look, false, "dye, finish or size"},
		{"no source", 3, func(d *day) { d.Loose = nil }, rinsing.Look, false, "Measure the conductivity of the rinse water"},
		{"a source without its temperature", 3, func(d *day) { d.Loose[0].LiquorC = "" }, rinsing.Look, false, "Measure the rinse water again"},
		{"a source that cannot be read", 3, func(d *day) { d.Loose[0].Value = "pure" }, rinsing.Look, false, "has not been measured"},
		{"nothing at the end", 1, func(d *day) { last(d, "conductivity").AtEnd = false }, rinsing.Look, false, "not taken at the end after agitation"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := upTo(c.rinses)
			if c.change != nil {
				c.change(d)
			}
			r := Of(&d.State).Rinse
			if r.Propose != c.propose || (r.MoreHigh != nil) != c.more {
				t.Errorf("proposes %s, foretells %v; want %s, %v. %s", r.Propose, r.MoreHigh != nil, c.propose, c.more, r.Say)
			}
			all := r.Say + " " + r.Refused + " " + strings.Join(r.Reasons, " ")
			has(t, "what it says", all, c.say, "conductivity does not see non-ionic detergent")
			lacks(t, "what it says", strings.ToLower(all), "safe")
		})
	}
}

func last(d *day, q string) *dossier.Reading {
	return lastIn(&d.Steps[len(d.Steps)-1], q)
}

func strip(d *day, q string) {
	for i := range d.Steps {
		var kept []dossier.Reading
		for _, r := range d.Steps[i].Readings {
			if r.Q != q {
				kept = append(kept, r)
			}
		}
		d.Steps[i].Readings = kept
	}
}

func TestWhatDoesNotTakePartInTheFit(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(d *day)
		fitted string
		why    string
	}{
		{"raw without a temperature", func(d *day) { lastIn(&d.Steps[3], "conductivity").LiquorC = "" }, "", "no temperature of the liquor"},
		{"compensated is not corrected twice", func(d *day) {
			r := last(d, "conductivity")
			r.Compensated, r.LiquorC = true, "15"
		}, "204; 54; 16.5", ""},
		{"another water", func(d *day) { d.Steps[1].Liquid = "Tap water" }, "54; 16.5", "rinsed with another water: Tap water"},
		{"a rinse that was not measured", func(d *day) { lastIn(&d.Steps[2], "conductivity").AtEnd = false }, "16.5", "one was not measured at its end"},
		{"a wash between", func(d *day) {
			d.begin("wash", 40, 5, 45)
			s := d.begin("rinse", 50, 5, 55)
			d.conductivity(s, 54, "99", "25", true)
			// A wash again: only what follows it is of one decay.
		}, "99", "another bath or a drying came after it"},
		{"a later reading of the same rinse", func(d *day) { d.conductivity(&d.Steps[3], 34.8, "15", "25", true) }, "204; 54; 15", "a later reading of this rinse counts"},
		{"hotter than the reckoning takes", func(d *day) { lastIn(&d.Steps[1], "conductivity").LiquorC = "80" }, "54; 16.5", "0 to 60 °C"},
		{"a unit that is not known", func(d *day) { last(d, "conductivity").Unit = "ppm" }, "204; 54", ""},
		{"millisiemens", func(d *day) {
			r := last(d, "conductivity")
			r.Unit, r.Value = "mS/cm", "0.0165"
		}, "204; 54; 16.5", ""},
		{"by ISO 7888 outside of its natural water", func(d *day) { d.set("k25_way", "iso7888") }, "", "60 to 1000"},
		{"below nothing", func(d *day) { last(d, "conductivity").Value = "-3" }, "204; 54", "0 to 200"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := upTo(3)
			c.change(d)
			r := Of(&d.State).Rinse
			want := `{"readings":"` + c.fitted + `","source"`
			if c.fitted != "" && !strings.HasPrefix(string(r.Working.Inputs), want) {
				t.Errorf("asked with %s, want %s", r.Working.Inputs, want)
			}
			why := ""
			for _, p := range r.Points {
				why += p.WhyNot + "\n"
			}
			has(t, "why not", why, c.why)
		})
	}
}

func TestHowReadingsCameTo25IsSaid(t *testing.T) {
	d := upTo(3)
	reasons := func() string {
		return strings.ReplaceAll(strings.Join(Of(&d.State).Rinse.Reasons, " "), "\u00a0", " ")
	}
	has(t, "reasons", reasons(), "brought to 25 °C at the usual 2 % a degree, not one found")
	last(d, "conductivity").Compensated = true
	has(t, "reasons", reasons(), "Some readings were brought to 25 °C by the meter and some here")
	d.Loose[0].Compensated = true
	for i := range d.Steps {
		if r := lastIn(&d.Steps[i], "conductivity"); r != nil {
			r.Compensated = true
		}
	}
	lacks(t, "reasons", reasons(), "25 °C")
}

func TestMoreRinsesThanASeriesHolds(t *testing.T) {
	d := newDay()
	d.conductivity(nil, -10, "4", "25", false)
	for i := range 60 {
		s := d.begin("rinse", float64(10*i), 5, float64(10*i+5))
		d.conductivity(s, float64(10*i)+4.5, digits(1000-10*float64(i)), "25", true)
	}
	r := Of(&d.State).Rinse
	if p := &r.Points[9]; p.Fitted || !strings.Contains(p.WhyNot, "no longer counts") || !r.Points[10].Fitted {
		t.Errorf("point %+v", p)
	}
	lacks(t, "the refusal", r.Refused, "numbers")
}

func TestTheFittedCurveLiesOnTheRinses(t *testing.T) {
	d := upTo(3)
	d.Steps[1].Liquid = "Tap water" // so that the fit begins at the second
	r := Of(&d.State).Rinse
	if len(r.Curve) < 4 || r.Curve[0].Place != 2 || r.Curve[1].Place != 3 {
		t.Fatalf("curve %+v", r.Curve)
	}
	// 4 + 50 and 4 + 12.5: two points lie on their line.
	for i, want := range []float64{54, 16.5} {
		if b := r.Curve[i]; math.Abs(b.K25-want) > 0.01 || b.Low >= b.K25 || b.High <= b.K25 {
			t.Errorf("band %+v, want %v within it", b, want)
		}
	}
	if r.ChangePct == nil || math.Abs(*r.ChangePct+75) > 0.01 {
		t.Errorf("change %v, want -75 %%", r.ChangePct)
	}
}

func TestNoRinseBeforeOneIsMeasured(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 8, 8)
	d.conductivity(s, 7, "612", "22", true)
	d.begin("rinse", 10, 5, 0)
	if r := Of(&d.State).Rinse; r != nil {
		t.Errorf("rinse %+v before a conductivity of one", r)
	}
}
