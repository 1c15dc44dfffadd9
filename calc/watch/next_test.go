package watch

import (
	"strings"
	"testing"

	"sinkside/calc/dossier"
)

func TestWhatComesNext(t *testing.T) {
	plan := func(d *day) *day {
		d.Plans = []dossier.Plan{{Baths: []dossier.PlannedBath{{What: "presoak", Liquid: water, Litres: "8", TargetS: 600},
			{What: "wash", Liquid: "Surfactant", Litres: "8.50", TargetS: 480, TempC: "22"}, {What: "rinse", Liquid: water}, {What: "rinse"}}}}
		return d
	}
	for _, c := range []struct {
		name, want string
		place      int64
		minute     float64 // of AtMS; 0 for none
		make       func() *day
	}{
		{"nothing", "No bath is planned yet.", 0, 0, newDay},
		{"the first of the plan", "Pre-soak 1: Deionised water, 8 L, 10 min.", 1, 0, func() *day { return plan(newDay()) }},
		{"two plans that nobody has chosen between", "Pre-soak 1: Deionised water, 8 L, 10 min. Two plans stand: choose one.", 1, 0, func() *day {
			d := plan(newDay())
			d.Plans = append([]dossier.Plan{{Entry: "another"}}, d.Plans...)
			return d
		}},
		{"out of the bath and into the next", "Lift out of Pre-soak 1. Then Wash 1: Surfactant, 8.5 L, 8 min, 22 °C.", 2, 10, func() *day {
			d := plan(newDay())
			d.begin("presoak", 0, 10, 0).Planned = 1
			return d
		}},
		{"no target", "Pre-soak 1 runs without a target. Then Wash 1", 2, 0, func() *day {
			d := plan(newDay())
			d.begin("presoak", 0, 0, 0).Planned = 1
			return d
		}},
		{"between baths", "Rinse 2.", 4, 0, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 3
			return d
		}},
		{"the last of the plan", "Lift out of Rinse 1. It is the last of the plan.", 0, 5, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 0).Planned = 4
			return d
		}},
		{"a bath beyond the plan", "Lift out of Rinse 1. Nothing more is planned.", 0, 5, func() *day {
			d := plan(newDay())
			d.begin("wash", 0, 5, 1).Planned = 4
			d.begin("rinse", 2, 3, 0)
			return d
		}},
		{"what is not lifted out", "End Humidification 1.", 0, 5, func() *day {
			d := newDay()
			d.begin("humidify", 0, 5, 0)
			return d
		}},
		{"of two that run the one whose time is up first", "Lift out of Rinse 1.", 0, 20, func() *day {
			d := newDay()
			d.begin("wash", 0, 30, 0)
			d.begin("rinse", 10, 10, 0)
			d.begin("rinse", 11, 0, 0)
			return d
		}},
		{"a plan made after the object was dry begins at its first", "Pre-soak 1: ", 1, 0, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 4
			d.WetSinceMS, d.Dry, d.Plans[0].AtMS = nil, &dossier.Dry{At: at(100)}, at(200).MS
			return d
		}},
		{"and goes on there once it is wet again", "Lift out of Pre-soak 1. Then Wash 1", 2, 310, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 4
			d.WetSinceMS, d.Plans[0].AtMS = nil, at(200).MS
			d.begin("presoak", 300, 10, 0).Planned = 1
			return d
		}},
		{"a plan of before it was dry goes on", "Declared dry.", 0, 0, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 4
			d.WetSinceMS, d.Dry, d.Plans[0].AtMS = nil, &dossier.Dry{At: at(100)}, at(-10).MS
			return d
		}},
		{"the plan is over", "The plan is over and the object is wet.", 0, 0, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 9
			return d
		}},
		{"rinsing was stopped", "Rinsing was stopped. Blot and dry.", 0, 0, func() *day {
			d := plan(newDay())
			d.begin("rinse", 0, 5, 5).Planned = 3
			d.Decisions = []dossier.Decision{{What: "stop_rinsing", At: at(6)}}
			return d
		}},
		{"drying", "Look at the drying.", 0, 25, func() *day {
			d := newDay()
			d.begin("drying", 10, 0, 0)
			return d
		}},
		{"dry", "Declared dry.", 0, 0, func() *day {
			d := newDay()
			d.Dry = &dossier.Dry{}
			return d
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := Of(&c.make().State).Next
			has(t, "next", strings.ReplaceAll(n.Say, "\u00a0", " "), c.want)
			if n.Place != c.place || (n.AtMS != nil) != (c.minute > 0) || n.AtMS != nil && *n.AtMS != at(c.minute).MS {
				t.Errorf("place %d at %v, want %d at minute %v", n.Place, n.AtMS, c.place, c.minute)
			}
		})
	}
}

func TestTheStopPlan(t *testing.T) {
	d := newDay()
	p := Of(&d.State).StopPlan
	if !p.Generic || len(p.Steps) == 0 {
		t.Errorf("general plan %+v", p)
	}
	has(t, "caution", p.Caution, "No stop plan was agreed", "Flushing can spread a dye", "Never lift a filled tray")
	d.set("stop_plan", "first\n").set("stop_plan", " Drain \n\n Lift on the screen\r\n")
	p = Of(&d.State).StopPlan
	if p.Generic || strings.Join(p.Steps, "|") != "Drain|Lift on the screen" {
		t.Errorf("agreed plan %+v", p)
	}
	has(t, "caution", p.Caution, "Never lift a filled tray")
}
