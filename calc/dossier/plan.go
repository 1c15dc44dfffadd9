package dossier

import (
	"slices"
	"strings"

	"sinkside/sync/journal"
)

// What is agreed before the object gets wet.

// colours takes the field apart: at semicolons or lines where there are any,
// else at commas. Where people must still choose between two values the colours
// of both count.
func (f *folded) colours() {
	s := &f.state
	for _, v := range s.Fields["colours"] {
		sep := ","
		if strings.ContainsAny(v.Value, ";\n") {
			sep = ";"
		}
		for _, c := range strings.Split(strings.ReplaceAll(v.Value, "\n", sep), sep) {
			if c = strings.TrimSpace(c); c != "" && !slices.Contains(s.Colours, c) {
				s.Colours = append(s.Colours, c)
			}
		}
	}
}

// checklistItems are what is looked at before the object gets wet, in order,
// each with what it is called.
var checklistItems = [][2]string{
	{"surface_cleaned", "Surface cleaned"},
	{"weak_netted", "Weak areas netted"},
	{"outline_traced", "Outline traced"},
	{"weighed", "Weighed"},
	{"photographed", "Photographed"},
	{"screens_both_sides", "Support screens on both sides"},
	{"drying_place_clear", "Drying place clear"},
	{"blotters_ready", "Blotters ready"},
	{"fans_ready", "Fans ready"},
	{"second_person", "Second person there"},
	{"stop_plan_agreed", "Stop plan agreed"},
	{"meters_calibrated", "Meters calibrated"},
	{"sound_checked", "Sound checked"},
	{"phone_charged", "Phone charged and unplugged"},
}

// checkField is what stands before an item in the name of its field.
const checkField = "check."

func (f *folded) checklist() {
	s := &f.state
	s.Checklist = make([]Tick, len(checklistItems))
	for i, it := range checklistItems {
		is := s.Fields[checkField+it[0]]
		if is == nil {
			is = []FieldValue{}
		}
		s.Checklist[i] = Tick{Item: it[0], Title: it[1], Is: is}
	}
}

// plans finds those that nothing replaced (law 3). Plans that replace each other
// in a ring, which can only be forged, are all shown.
func (f *folded) plans() {
	live := f.of("plan")
	tips := f.tips(live, func(x *fact) []journal.Name { return f.says(x).over })
	if len(tips) == 0 {
		tips = live
	}
	for _, x := range tips {
		f.state.Plans = append(f.state.Plans, Plan{Entry: x.Name.String(), By: x.By, AtMS: f.moment(x).MS, Baths: f.says(x).baths})
	}
}

func (f *folded) dwells() {
	for _, x := range f.of("dwell") {
		b := f.says(x)
		f.state.Dwells = append(f.state.Dwells, Dwell{
			Entry: x.Name.String(), Colour: b.colour, Liquid: b.liquid, S: b.s, TempC: b.tempC, PHFrom: b.phFrom, PHTo: b.phTo,
			Faces: b.faces, Name: b.name, By: x.By, AtMS: f.moment(x).MS,
		})
	}
}
