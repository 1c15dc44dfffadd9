package watch

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"sinkside/calc/dossier"
)

// Hand-made states for the tables: a morning that begins at nine.

var nine = time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC).UnixMilli()

func at(minutes float64) dossier.Moment {
	return dossier.Moment{MS: nine + int64(minutes*minuteMS)}
}

func ended(minutes float64) *dossier.Moment { m := at(minutes); return &m }

func ms(minutes float64) *int64 { t := at(minutes).MS; return &t }

const water = "Deionised water"

// day is a state that is put together step by step.
type day struct {
	dossier.State
	n int
}

func newDay() *day {
	return &day{State: dossier.State{Job: "J", Open: true, Fields: map[string][]dossier.FieldValue{}, Last: map[string]dossier.Reading{}}}
}

func (d *day) name() string { d.n++; return "e" + strconv.Itoa(d.n) }

func (d *day) set(field, value string) *day {
	d.Fields[field] = append(d.Fields[field], dossier.FieldValue{Value: value})
	return d
}

// begin adds a step of some minutes that runs until end, or on where end is 0.
func (d *day) begin(what string, from, target, end float64) *dossier.Step {
	s := dossier.Step{Entry: d.name(), What: what, Begun: at(from), TargetS: int64(target * 60), Liquid: water, Litres: "8", Wets: what != "drying", Immerses: immerses(what), Versions: 1, Ordinal: 1}
	for i := range d.Steps {
		if d.Steps[i].What == what {
			s.Ordinal++
		}
	}
	if end > 0 {
		s.Ended = ended(end)
	}
	if s.Immerses {
		if end > 0 {
			d.ImmersedMS += int64((end - from) * minuteMS)
		} else if d.RunningSinceMS == nil {
			d.RunningSinceMS = ms(from)
		}
	}
	if s.Wets && d.WetSinceMS == nil {
		d.WetSinceMS, d.FirstWetMS = ms(from), ms(from)
	}
	d.Steps = append(d.Steps, s)
	return &d.Steps[len(d.Steps)-1]
}

func (d *day) read(s *dossier.Step, minute float64, q, value string) *dossier.Reading {
	r := dossier.Reading{Entry: d.name(), Q: q, Value: value, At: at(minute)}
	d.Last[q] = r
	if s == nil {
		d.Loose = append(d.Loose, r)
		return &d.Loose[len(d.Loose)-1]
	}
	r.Of = s.Entry
	s.Readings = append(s.Readings, r)
	return &s.Readings[len(s.Readings)-1]
}

func (d *day) conductivity(s *dossier.Step, minute float64, value, liquor string, atEnd bool) {
	r := d.read(s, minute, "conductivity", value)
	r.Unit, r.LiquorC, r.AtEnd, r.Source = "uS/cm", liquor, atEnd, s == nil
}

func (d *day) dwell(colour, liquid string, minutes int64, temp string) *dossier.Dwell {
	d.Dwells = append(d.Dwells, dossier.Dwell{Entry: d.name(), Colour: colour, Liquid: liquid, S: minutes * 60, TempC: temp, Faces: "both", Name: "Osk Tarrin"})
	return &d.Dwells[len(d.Dwells)-1]
}

// cues writes the cues as "minute kind: sentence", loud ones with a bang, heard
// ones with who heard them.
func cues(w *Watch) string {
	var out []string
	for _, c := range w.Cues {
		s := strconv.FormatFloat(float64(c.AtMS-nine)/minuteMS, 'f', -1, 64) + " " + c.Kind + ": " + c.Say
		if c.Loud {
			s += "!"
		}
		if c.HeardBy != "" {
			s += " (" + c.HeardBy + ")"
		}
		out = append(out, s)
	}
	return strings.ReplaceAll(strings.Join(out, "\n"), "\u00a0", " ")
}

// said writes the warnings as "minute tone: sentence".
func said(w *Watch) string {
	var out []string
	for _, x := range w.Warnings {
		out = append(out, strconv.FormatFloat(float64(x.FromMS-nine)/minuteMS, 'f', -1, 64)+" "+x.Tone+": "+x.Say)
	}
	return strings.ReplaceAll(strings.Join(out, "\n"), "\u00a0", " ")
}

func has(t *testing.T, what, text string, wants ...string) {
	t.Helper()
	for _, w := range wants {
		if !strings.Contains(text, w) {
			t.Errorf("%s is\n%s\nand lacks %q", what, text, w)
		}
	}
}

func lacks(t *testing.T, what, text string, not ...string) {
	t.Helper()
	for _, w := range not {
		if strings.Contains(text, w) {
			t.Errorf("%s is\n%s\nand must not hold %q", what, text, w)
		}
	}
}
