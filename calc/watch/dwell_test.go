package watch

import (
	"strings"
	"testing"

	"sinkside/calc/dossier"
)

func TestTheTestedDwell(t *testing.T) {
	for _, c := range []struct {
		name     string
		make     func(d *day)
		s        int64 // minutes
		colour   string
		untested string
		say      string
	}{
		{"nothing recorded", func(*day) {}, 0, "", "", "No test recorded."},
		{"a colour without a test, from the first second", func(d *day) { d.Colours = []string{"red silk", "undyed"} }, 0, "", "red silk: no test recorded", "No test recorded for red silk."},
		{"two without", func(d *day) { d.Colours = []string{"red", "blue", "Undyed ground"} }, 0, "", "red: no test recorded|blue: no test recorded", "No test recorded for red and blue."},
		{"a name with a comma", func(d *day) { d.Colours = []string{"pink ribbon, taken off", "blue"} }, 0, "", "pink ribbon, taken off: no test recorded|blue: no test recorded", "No test recorded for pink ribbon, taken off; blue."},
		{"the longest for each, the smallest over all", func(d *day) {
			d.Colours = []string{"red", "blue"}
			d.dwell("red", water, 40, "25")
			d.dwell("Red", "", 90, "25")
			d.dwell("blue", water, 75, "25")
		}, 75, "blue", "", "Tested for 1 h 15 min, which blue sets; Osk Tarrin vouches for it."},
		{"one for every colour", func(d *day) {
			d.Colours = []string{"red", "blue"}
			d.dwell("", water, 60, "25")
			d.dwell("red", water, 30, "25")
		}, 60, "red", "", "Tested for 1 h"},
		{"a limit and a colour without one", func(d *day) {
			d.Colours = []string{"red", "blue"}
			d.dwell("blue", water, 75, "25")
		}, 75, "blue", "red: no test recorded", "No test recorded for red. Tested for 1 h 15 min, which blue sets"},
		{"another liquid", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", "Tap water", 75, "25")
		}, 0, "", "red: no test recorded in Deionised water", "Red: no test recorded in Deionised water."},
		{"colder than the bath", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "18")
		}, 0, "", "red: tested at 18 °C, the bath has 22 °C", ""},
		{"as warm as the bath", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "22")
		}, 75, "red", "", ""},
		{"the test's temperature is not said", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "")
		}, 75, "red", "", "The temperature of the bath or of a test is not known."},
		{"outside the pH band", func(d *day) {
			d.Colours = []string{"red"}
			x := d.dwell("red", water, 75, "25")
			x.PHFrom, x.PHTo = "5.5", "6.5"
		}, 0, "", "red: tested for pH 5.5 to 6.5, the bath has 7.1", ""},
		{"at the edge of the pH band", func(d *day) {
			d.Colours = []string{"red"}
			x := d.dwell("red", water, 75, "25")
			x.PHFrom, x.PHTo = "5.5", "7.1"
		}, 75, "red", "", ""},
		{"a band, and no pH of this bath", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "25").PHTo = "7"
			strip(d, "ph")
		}, 75, "red", "", "It holds up to pH 7, and the pH of the bath has not been measured."},
		{"a bath of nobody knows what", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "25")
			d.Steps[0].Liquid = ""
		}, 0, "", "red: tested in Deionised water, and it is not said what the bath is of", ""},
		{"one face", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "25").Faces = "one"
		}, 0, "", "red: tested on one face only", ""},
		{"faces not said", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 75, "25").Faces = ""
		}, 0, "", "red: tested, but not said whether on both faces", ""},
		{"the nearest of those that do not fit is told", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", "Tap water", 99, "25")
			d.dwell("red", water, 75, "19.5")
		}, 0, "", "red: tested at 19.5 °C, the bath has 22 °C", ""},
		{"no colours listed, but tests", func(d *day) { d.dwell("red", water, 30, "25") }, 30, "red", "", "No colours are listed for this object."},
		{"undyed only", func(d *day) { d.Colours = []string{"undyed"} }, 0, "", "", "No test recorded. No dyed colour is listed."},
		{"no time, less than none, more than can be", func(d *day) {
			d.Colours = []string{"red"}
			d.dwell("red", water, 0, "25")
			d.dwell("red", water, -5, "25")
			d.dwell("red", water, 1<<50, "25")
		}, 0, "", "red: no test recorded", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay()
			s := d.begin("wash", 0, 10, 0)
			d.read(s, 1, "temperature", "22")
			d.read(s, 2, "ph", "7.1")
			c.make(d)
			got := Of(&d.State).Dwell
			if got.S != c.s*60 || got.Colour != c.colour || got.MarkS != c.s*48 {
				t.Errorf("limit %d s, mark %d s, colour %q; want %d min of %q", got.S, got.MarkS, got.Colour, c.s, c.colour)
			}
			if u := strings.ReplaceAll(strings.Join(got.Untested, "|"), "\u00a0", " "); u != c.untested {
				t.Errorf("untested %q, want %q", u, c.untested)
			}
			has(t, "what it says", got.Say, c.say)
			lacks(t, "what it says", strings.ToLower(got.Say), "safe")
		})
	}
}

func TestTheLiquidOfTheDwell(t *testing.T) {
	plan := func(d *day) {
		d.Plans = []dossier.Plan{{Baths: []dossier.PlannedBath{{What: "presoak", Liquid: "A", TempC: "20"}, {What: "suction", Liquid: "B"}, {What: "wash", Liquid: "C", TempC: "24"}}}}
		d.Colours = []string{"red"}
		d.dwell("red", "", 30, "22")
	}
	for _, c := range []struct {
		name, want string
		make       func(d *day)
	}{
		{"of the bath that runs", "R", func(d *day) { d.begin("wash", 0, 10, 0).Liquid = "R " }},
		{"of the next that is planned", "A", func(d *day) { plan(d) }},
		{"of the next planned that immerses", "C", func(d *day) { plan(d); d.begin("presoak", 0, 5, 5).Planned = 1 }},
		{"of the last", "Z", func(d *day) { d.begin("wash", 0, 10, 5).Liquid = "Z" }},
		{"of none", "", func(*day) {}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay()
			c.make(d)
			if got := Of(&d.State).Dwell.Liquid; got != c.want {
				t.Errorf("liquid %q, want %q", got, c.want)
			}
		})
	}
	d := newDay()
	plan(d)
	d.begin("presoak", 0, 5, 5).Planned = 1
	if got := Of(&d.State).Dwell.Untested; len(got) != 1 || got[0] != "red: tested at 22\u00a0°C, the plan has 24\u00a0°C" {
		t.Errorf("untested %q", got)
	}
}

func TestWhenTheDwellEnds(t *testing.T) {
	d := newDay()
	d.Colours = []string{"red"}
	d.dwell("red", "", 60, "")
	d.begin("presoak", 0, 20, 20) // 20 min immersed
	if got := Of(&d.State).Dwell; got.EndMS != nil || got.MarkMS != nil {
		t.Error("it ends while nothing is immersed")
	}
	s := d.begin("wash", 30, 0, 0)
	got := Of(&d.State).Dwell
	if *got.EndMS != at(70).MS || *got.MarkMS != at(58).MS {
		t.Errorf("mark %d, end %d; want minutes 58 and 70", (*got.MarkMS-nine)/minuteMS, (*got.EndMS-nine)/minuteMS)
	}
	has(t, "cues", cues(Of(&d.State)), "58 mark: 80 % of the tested dwell: 12 min left!", "70 end: Tested dwell of 1 h is used up!")
	d.ImmersedMS = 70 * minuteMS
	w := Of(&d.State)
	if *w.Dwell.EndMS != at(20).MS {
		t.Errorf("used up before: end at minute %d, want 20, so that the time over is right", (*w.Dwell.EndMS-nine)/minuteMS)
	}
	has(t, "cues", cues(w), "30 end:")
	lacks(t, "cues", cues(w), "mark:")
	has(t, "warnings", said(w), "30 limit: Immersed longer than the tested dwell of 1 h.")
	d.ImmersedMS = 50 * minuteMS
	has(t, "cues", cues(Of(&d.State)), "30 mark: 80 % of the tested dwell: 10 min left!")
	// Lifted out, what is past stays said until the object is dry.
	end := at(45)
	s.Ended, d.RunningSinceMS, d.ImmersedMS = &end, nil, 65*minuteMS
	has(t, "warnings", said(Of(&d.State)), "45 limit: Immersed longer than the tested dwell of 1 h.")
	d.WetSinceMS = nil
	lacks(t, "warnings", said(Of(&d.State)), "Immersed")
}

func TestTheLastBathCountsWhereNoneIsPlanned(t *testing.T) {
	d := newDay()
	d.Colours = []string{"red"}
	d.dwell("red", "", 60, "20").PHTo = "7"
	s := d.begin("wash", 0, 10, 10)
	d.read(s, 3, "temperature", "22")
	d.read(s, 4, "ph", "8")
	if got := Of(&d.State).Dwell.Untested[0]; got != "red: tested at 20\u00a0°C, the last bath had 22\u00a0°C" {
		t.Errorf("untested %q", got)
	}
	d.Dwells[0].TempC = ""
	if got := Of(&d.State).Dwell.Untested[0]; got != "red: tested up to pH 7, the last bath had 8" {
		t.Errorf("untested %q", got)
	}
}
