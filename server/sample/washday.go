package sample

import (
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// The wash day: three textiles side by side, two trays and a drying board, two days ago. It goes
// through everything that the sink knows, and can be played.

// kerchiefWash is the batch that the kerchief and the mittens are washed in. Invented, not advice.
const kerchiefWash = "Anionic surfactant 2.3 g/L in deionised water"

// kerchief is the textile that the day is about: planned, tested by hand, washed, rinsed until the
// curve flattens, handed over in the middle, dried by weight.
func kerchief(s *scribe) *scribe {
	s.at("08:36:00").open(runa, "Pilot-boat neckerchief")
	s.at("08:36:30").set(runa, "number", "MH 124")
	s.at("08:36:50").set(runa, "fibre", "cotton, block printed")
	s.at("08:37:30").set(runa, "dry_mass_g", 48.2)
	s.at("08:38:00").set(runa, "width_mm", 622)
	s.at("08:38:10").set(runa, "height_mm", 618)
	s.at("08:38:40").set(runa, "colours", "red, brown, undyed")
	for _, item := range []string{"surface_cleaned", "weak_netted", "outline_traced", "weighed", "photographed", "screens_both_sides", "drying_place_clear", "blotters_ready", "fans_ready", "second_person", "meters_calibrated", "sound_checked", "phone_charged"} {
		s.after(5*time.Second).set(runa, "check."+item, "yes")
	}
	s.at("08:42:00").set(osk, "stop_plan", "Drain the tray, never lift it filled\nLift on the screen\nBlot from both sides, red side first\nBoth fans on\nFresh blotters on both faces, weights\nPhotograph the blotters")
	s.at("08:42:20").set(osk, "decides", "OT")
	s.at("08:43:00").dwell(osk, "red", "", 60, 23)
	s.at("08:43:40").dwell(osk, "brown", water, 90, 23)
	s.at("08:44:20").dwell(osk, "brown", kerchiefWash, 75, 23)
	s.at("08:45:00").put(runa, "plan", body("baths", list(
		planned("presoak", water, 8, 10, 22), planned("wash", kerchiefWash, 8, 8, 22),
		planned("rinse", water, 8, 5, 22), planned("rinse", water, 8, 5, 22), planned("rinse", water, 8, 5, 22),
		planned("rinse", water, 8, 5, 22), planned("rinse", water, 8, 5, 22)), "over", []journal.Name{}))
	s.at("08:46:00").put(osk, "reading", body("q", "conductivity", "value", 4.1, "unit", "uS/cm", "source", true, "liquor_c", 21.0))

	soak := s.at("09:00:00").bath(runa, 1, "presoak", water, 8, 10, body("temp_c", 22, "unticked", []string{"stop_plan_agreed"}))
	s.at("09:01:10").temperature(runa, soak, 21.8)
	s.at("09:02:00").ph(runa, soak, 6.2)
	s.at("09:03:00").act(runa, soak, "press_water", 60)
	s.at("09:05:20").act(runa, soak, "turn", 0)
	s.at("09:08:30").colour(runa, soak, 1)
	s.at("09:09:10").endConductivity(osk, soak, 96, 21.5)
	s.at("09:09:50").heard(runa, "target:", soak)
	s.at("09:10:05").end(runa, soak)

	wash := s.at("09:13:00").bath(runa, 2, "wash", kerchiefWash, 8, 8, body("temp_c", 22))
	s.at("09:14:00").temperature(runa, wash, 22.1)
	s.at("09:14:40").ph(osk, wash, 6.9)
	s.at("09:15:00").act(runa, wash, "sponge", 180)
	s.at("09:19:00").colour(runa, wash, 2)
	s.at("09:19:30").suds(osk, wash, true)
	s.at("09:20:20").endConductivity(osk, wash, 612, 22.0)
	s.at("09:21:10").heard(runa, "target:", wash)
	s.at("09:21:20").end(runa, wash)
	s.at("09:22:00").act(runa, wash, "drain", 0)

	rinses := []struct {
		from, middle, last, to string
		pH, k, degC            float64
		colour                 int
		suds                   bool
	}{
		{"09:24:00", "09:26:30", "09:28:20", "09:29:05", 6.8, 206, 21.5, 1, true},
		{"09:31:30", "09:34:00", "09:35:50", "09:36:35", 6.6, 79, 21.3, 1, true},
		{"09:39:00", "09:41:30", "09:43:20", "09:44:20", 6.5, 31.5, 21.4, 1, false},
		{"09:47:00", "09:49:30", "09:51:20", "09:52:10", 6.4, 13.9, 21.2, 0, false},
		{"09:55:00", "09:57:30", "09:59:20", "10:00:15", 6.3, 7.6, 21.2, 0, false},
		{"10:03:00", "10:05:30", "10:07:20", "10:08:10", 6.3, 5.3, 21.1, 0, false},
	}
	who := runa
	var last journal.Name
	for i, r := range rinses {
		place := min(i+3, 7)
		last = s.at(r.from).bath(who, place, "rinse", water, 8, 5, body("temp_c", 22))
		s.at(r.middle).temperature(who, last, r.degC)
		s.after(20*time.Second).ph(who, last, r.pH)
		s.after(10*time.Second).act(who, last, "rock", 60)
		s.at(r.last).colour(who, last, r.colour)
		s.after(10*time.Second).suds(who, last, r.suds)
		s.after(10*time.Second).endConductivity(who, last, r.k, r.degC)
		switch i {
		case 0:
			// A slip that is put right: the figure of the last bath read off again.
			wrong := s.after(5*time.Second).put(who, "reading", body("q", "ph", "value", 0.8, "unit", "pH", "of", last))
			s.after(8*time.Second).strike(who, wrong, "a digit was lost")
		case 2:
			s.note(who, last, "A breath of red on the sponge at the lower hem. Watched a blotter for a minute: nothing more.")
		}
		s.at(r.to).end(who, last)
		s.after(30*time.Second).act(who, last, "drain", 0)
		if i == 2 {
			s.at("09:45:30").put(osk, "takeover", body("from", "RV"))
			who = osk
		}
	}
	s.at("10:09:30").put(osk, "decide", body("what", "stop_rinsing", "why", "the last two rinses differ by about 2 µS/cm, close to the water's own; no suds, no colour, pH steady",
		"proposed", "The last rinses differ little and stand near the source water.", "of", last))
	s.at("10:11:00").act(osk, last, "lift", 0)
	s.at("10:12:00").act(osk, last, "blot", 120)
	s.at("10:14:30").act(runa, last, "blotter", 0)

	s.at("10:16:00").put(osk, "reading", body("q", "mass", "value", 96.4, "unit", "g"))
	dry := s.at("10:18:00").put2(osk, "begin", body("what", "drying", "where", "drying board", "face", "up", "held", "weights", "airflow", "gentle", "air_m_s", 0.3, "sides", 1))
	s.at("10:19:00").room(osk, dry, 21.2, 47)
	s.at("10:31:00").act(osk, dry, "check", 0)
	s.at("10:31:40").act(osk, dry, "blotter", 0)
	s.at("10:45:00").act(runa, dry, "check", 0)
	s.at("10:46:00").put(runa, "reading", body("q", "mass", "value", 74.8, "unit", "g", "of", dry))
	s.at("11:00:00").act(runa, dry, "check", 0)
	s.at("11:01:00").note(runa, dry, "Hem dry, centre cool to the back of the hand. No line at the hem.")
	s.at("11:14:00").act(osk, dry, "check", 0)
	s.at("11:15:00").put(osk, "reading", body("q", "mass", "value", 54.1, "unit", "g", "of", dry))
	s.at("11:28:00").act(osk, dry, "check", 0)
	s.at("11:40:00").put(osk, "reading", body("q", "mass", "value", 48.6, "unit", "g", "of", dry))
	s.at("11:41:00").put(osk, "dry", body("how", "weight", "text", "48.6 g against 48.2 g before the bath, the same ten minutes later"))
	return s
}

// mittens is the second tray. It bleeds, and is broken off.
func mittens(s *scribe) *scribe {
	s.at("08:50:00").open(osk, "Net-mender's mittens")
	s.at("08:50:30").set(osk, "number", "MH 125")
	s.at("08:50:50").set(osk, "fibre", "wool, knitted")
	s.at("08:51:20").set(osk, "dry_mass_g", 86)
	s.at("08:51:50").set(osk, "colours", "blue, undyed")
	for _, item := range []string{"surface_cleaned", "weighed", "photographed", "drying_place_clear", "blotters_ready"} {
		s.after(5*time.Second).set(osk, "check."+item, "yes")
	}
	soak := s.at("09:17:00").put(osk, "begin", body("what", "presoak", "liquid", water, "litres", 5.0, "target_s", 600, "where", "small tray", "uncleared", true,
		"unticked", []string{"weak_netted", "outline_traced", "screens_both_sides", "fans_ready", "second_person", "stop_plan_agreed", "meters_calibrated", "sound_checked", "phone_charged"}))
	s.at("09:18:00").temperature(osk, soak, 19.5)
	s.at("09:23:40").colour(osk, soak, 1)
	s.at("09:25:30").colour(osk, soak, 3)
	off := s.at("09:26:00").put(osk, "abort", body("of", []journal.Name{soak}, "generic", true,
		"steps", []string{"Drain the tray. Never lift a filled tray.", "Lift on the screen.", "Blot; flush only if the stop plan says so: flushing can spread a dye.", "Fans on.", "Absorbent on both faces."}))
	s.at("09:30:00").put(osk, "reason", body("of", off, "text", "Blue in the water after eight minutes, on the rib of the left mitten only. A repair thread, by the look of it; it had not been tested."))
	s.at("09:33:00").put(osk, "reason", body("of", soak, "text", "Begun without a test: I took the blue for one colour. It is two."))
	dry := s.at("09:36:00").put2(osk, "begin", body("what", "drying", "where", "rack", "face", "up", "held", "none", "airflow", "fan", "air_m_s", 0.8, "sides", 2))
	s.at("09:37:00").room(osk, dry, 21.0, 47)
	s.at("09:48:00").act(osk, dry, "check", 0)
	s.at("09:49:00").act(osk, dry, "blotter", 0)
	s.at("10:03:00").act(osk, dry, "check", 0)
	s.at("10:20:00").act(runa, dry, "check", 0)
	s.at("10:40:00").act(runa, dry, "check", 0)
	s.at("11:24:00").act(runa, dry, "check", 0)
	s.at("11:34:00").put(runa, "dry", body("how", "touch", "text", "also inside the thumb"))
	return s
}

// apron was washed the day before and left drying overnight.
func apron(s *scribe) *scribe {
	s.at("14:02:00").open(runa, "Fish-market apron")
	s.at("14:02:30").set(runa, "number", "MH 119")
	s.at("14:02:50").set(runa, "fibre", "linen")
	s.at("14:03:20").set(runa, "dry_mass_g", 318)
	s.at("14:03:50").set(runa, "colours", "undyed")
	soak := s.at("14:20:00").begin(runa, "presoak", water, 20, 20)
	s.at("14:22:00").temperature(runa, soak, 21)
	s.at("14:39:00").endConductivity(runa, soak, 140, 21)
	s.at("14:41:00").end(runa, soak)
	for i, k := range []float64{58, 24.5, 12.1} {
		r := s.at([]string{"14:46:00", "15:04:00", "15:22:00"}[i]).begin(runa, "rinse", water, 20, 12)
		s.after(8*time.Minute).temperature(runa, r, 21)
		s.after(3*time.Minute).endConductivity(runa, r, k, 21)
		s.after(2*time.Minute).end(runa, r)
	}
	dry := s.at("16:05:00").put2(runa, "begin", body("what", "drying", "where", "drying board", "face", "up", "held", "pins", "airflow", "gentle", "air_m_s", 0.2, "sides", 1))
	s.at("16:06:00").room(runa, dry, 20.8, 51)
	s.at("16:30:00").act(runa, dry, "blotter", 0)
	s.at("17:10:00").act(runa, dry, "check", 0)
	s.at("17:25:00").put(runa, "overnight", body("who", "IB", "until", s.on(1, "08:55:00").Format(time.RFC3339), "text", "fans on low, door locked, IB looks in at nine"))
	s.nextDay().at("08:58:00").act(runa, dry, "check", 0)
	s.at("09:50:00").act(runa, dry, "check", 0)
	s.at("10:52:00").put(osk, "dry", body("how", "touch", "text", "waistband and hem too; unpinned"))
	return s
}

// planned is one bath of a plan.
func planned(what, liquid string, litres float64, minutes int, degC float64) jsontext.Value {
	return body("what", what, "liquid", liquid, "litres", litres, "target_s", minutes*60, "temp_c", degC)
}

// bath begins a bath that follows the plan. more is an object of further members.
func (s *scribe) bath(by person, place int, what, liquid string, litres float64, minutes int, more jsontext.Value) journal.Name {
	pairs := []any{"what", what, "liquid", liquid, "litres", litres, "target_s", minutes * 60, "planned", place, "where", "large tray"}
	_ = jsontext.Members(more, func(key string, v jsontext.Value) error { pairs = append(pairs, key, v); return nil })
	return s.put(by, "begin", body(pairs...))
}

func (s *scribe) dwell(by person, colour, liquid string, minutes int, degC float64) {
	s.put(by, "dwell", body("colour", colour, "liquid", liquid, "s", minutes*60, "temp_c", degC, "faces", "both", "name", "Osk Tarrin"))
}

func (s *scribe) act(by person, of journal.Name, what string, seconds int) {
	if seconds == 0 {
		s.put(by, "act", body("what", what, "of", of))
		return
	}
	s.put(by, "act", body("what", what, "of", of, "s", seconds))
}

func (s *scribe) colour(by person, of journal.Name, step int) {
	s.put(by, "reading", body("q", "colour", "value", step, "unit", "0-5", "of", of))
}

func (s *scribe) suds(by person, of journal.Name, some bool) {
	value := 0
	if some {
		value = 1
	}
	s.put(by, "reading", body("q", "suds", "value", value, "unit", "", "of", of))
}

// endConductivity is taken at the end of a bath, after agitation.
func (s *scribe) endConductivity(by person, of journal.Name, microsiemensPerCM, degC float64) {
	s.put(by, "reading", body("q", "conductivity", "value", microsiemensPerCM, "unit", "uS/cm", "of", of, "liquor_c", degC, "at_end", true))
}

func (s *scribe) room(by person, of journal.Name, degC, percent float64) {
	s.put(by, "reading", body("q", "air_temperature", "value", degC, "unit", "degC", "of", of))
	s.after(20*time.Second).put(by, "reading", body("q", "humidity", "value", percent, "unit", "%", "of", of))
}

func (s *scribe) heard(by person, kind string, step journal.Name) {
	s.put(by, "heard", body("cue", kind+step.String()))
}
