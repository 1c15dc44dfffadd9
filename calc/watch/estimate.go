package watch

import (
	"math"
	"strings"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/climate"
	"sinkside/calc/unit"
)

// roomAgeMS is how old a reading of the room may be when drying begins.
const roomAgeMS = 12 * hourMS

// airSpeed is the speed of the air in m/s where it was only said how it moves:
// our own choice, since no published figure was found. Empty where nothing is
// said, which leaves it to the reckoning.
func airSpeed(s *dossier.Step) string {
	if x, ok := number(s.AirMS); ok && x >= 0 {
		return digits(x)
	}
	switch s.Airflow {
	case "still":
		return "0.05"
	case "gentle":
		return "0.2"
	case "fan":
		return "0.5"
	}
	return ""
}

// estimate asks the reckonings about the room and how long drying may take.
func (l *look) estimate(s *dossier.Step, d *Drying) {
	q := ask("drying")
	temp, humidity := l.room("air_temperature", s), l.room("humidity", s)
	d.need(q, temp != "" && humidity != "", "the temperature and the humidity of the room", "temperature", temp, "humidity", humidity)
	d.theRoom(temp, humidity)
	width, height := l.centimetres("width_mm"), l.centimetres("height_mm")
	d.need(q, width != "" && height != "", "width and height", "width", width, "height", height)
	q.put("air_speed", airSpeed(s))
	if s.Sides == 2 {
		q.put("sides", "2")
	}
	dry, ok := number(l.field("dry_mass_g"))
	d.need(q, ok && dry > 0, "the dry mass", "dry_mass", digits(dry), "", "")
	times, masses, from := l.weighings(s)
	guess := ""
	if masses == "" {
		from, guess = begun(s), " when drying began, by its pick-up"
		g, ok := l.held()
		d.need(q, ok, "a weighing, or the pick-up", "water", digits(g), "", "")
	} else {
		d.need(q, true, "", "weighed_at", times, "weighed", masses)
	}
	if len(d.Missing) > 0 {
		d.Say = "How long it takes cannot be estimated yet. Missing: " + listed(d.Missing) + "."
		return
	}
	d.Working = q.asked()
	out, problems := reckonings.Run(d.Working.Name, d.Working.Inputs)
	if len(problems) > 0 {
		d.Say = "How long it takes cannot be estimated. " + problems[0].Say
		return
	}
	d.answer(out, from, guess)
	d.Say += assumed(s, masses != "")
}

// assumed says what nobody measured and the estimate rests on.
func assumed(s *dossier.Step, weighed bool) string {
	var things []string
	if x, ok := number(s.AirMS); !ok || x < 0 {
		switch speed := airSpeed(s); speed {
		case "":
			things = append(things, "air at 0.1\u00a0m/s")
		default:
			things = append(things, "air at "+speed+"\u00a0m/s for “"+s.Airflow+"”")
		}
	}
	if s.Sides != 1 && s.Sides != 2 {
		things = append(things, "one face open to the air")
	}
	if weighed {
		things = append(things, "a scale that is right within 1\u00a0g")
	}
	if things == nil {
		return ""
	}
	return " Assumed: " + listed(things) + "."
}

// need gives two inputs where they are known, and says what is missing where not.
func (d *Drying) need(q *question, known bool, what, a, x, b, y string) {
	if !known {
		d.Missing = append(d.Missing, what)
		return
	}
	q.put(a, x)
	q.put(b, y)
}

// theRoom says what the air is like.
func (d *Drying) theRoom(temp, humidity string) {
	if temp == "" || humidity == "" {
		return
	}
	q := ask("air")
	q.put("temperature", temp)
	q.put("humidity", humidity)
	d.Air = q.asked()
	d.RoomSay = temp + "\u00a0°C, " + humidity + "\u00a0% RH"
	if dew, why := figure(d.Air, "dew_point"); why == "" {
		d.DewC = &dew
		d.RoomSay += ", dew point " + degrees(math.Round(dew*10)/10)
	}
}

// answer takes over what the reckoning found. Its minutes count from the last
// weighing, or from where the guess holds.
func (d *Drying) answer(out reckoning.Result, from int64, guess string) {
	var low, high float64
	timed := false
	for _, v := range out.Values {
		switch v.Name {
		case "water_left":
			d.WaterG = &v.Value
		case "minutes_low":
			low = v.Value
		case "minutes_high":
			high, timed = v.Value, true
		}
	}
	for _, v := range out.Verdicts {
		d.Corrected = d.Corrected || v.Name == climate.ByWeighings
	}
	for _, u := range out.Unknown {
		if u.Name == "water_left" {
			d.Say = "How long it takes cannot be estimated. " + u.Say
			return
		}
	}
	since := " after the last weighing"
	if guess != "" {
		since = " after drying began"
	}
	if d.WaterG != nil {
		held := "It holds about " + unit.Text(*d.WaterG, 3) + "\u00a0g of water"
		if guess != "" {
			held = "It held about " + unit.Text(*d.WaterG, 3) + "\u00a0g of water"
		}
		d.Say = held + guess + ". "
	}
	for _, c := range out.Cautions {
		if strings.HasPrefix(c.Say, climate.WeighingsUnused) {
			d.Say += c.Say + " "
		}
	}
	if !timed {
		d.Say += "In this air it hardly dries."
		return
	}
	early, late := later(from, int64(low*minuteMS)), later(from, int64(high*minuteMS))
	d.EarlyMS, d.LateMS = &early, &late
	// Whole minutes: the range is no finer.
	whole := func(minutes float64) string { return lasting(int64(minutes+0.5) * minuteMS) }
	d.Say += "At the steady rate it is gone " + whole(low) + " to " + whole(high) + since
	if d.Corrected {
		d.Say += ", as the weighings have corrected it"
	}
	d.Say += "; the last of it goes more slowly. Feel or weigh it before you call it dry."
}

// room is the last reading of the air of this day, as a number; empty where there
// is none.
func (l *look) room(q string, s *dossier.Step) string {
	r, ok := l.st.Last[q]
	if x, fine := number(r.Value); ok && fine && r.At.MS >= later(begun(s), -roomAgeMS) {
		return digits(x)
	}
	return ""
}

// centimetres is a field in millimetres as the form takes it.
func (l *look) centimetres(field string) string {
	if x, ok := number(l.field(field)); ok && x > 0 {
		return digits(x / 10)
	}
	return ""
}

// weighings lists the masses since the last bath, with the minutes since the
// first of them and the time of the last; empty where there is none. Of two at
// one time the later entered counts, and of very many the last.
func (l *look) weighings(s *dossier.Step) (times, masses string, last int64) {
	since := begun(s)
	if wet := l.last(func(x *dossier.Step) bool { return x.Wets && x.Begun.MS <= s.Begun.MS }); wet != nil && wet.Ended != nil {
		since = min(since, later(wet.Ended.MS, 0))
	}
	var all []*dossier.Reading
	add := func(rs []dossier.Reading) {
		for i := range rs {
			r := &rs[i]
			if x, ok := number(r.Value); r.Q != "mass" || !ok || x <= 0 || r.Unit != "" && r.Unit != "g" || r.At.MS < since || r.At.MS > far {
				continue
			}
			all = append(all, r)
			for j := len(all) - 1; j > 0 && all[j].At.MS < all[j-1].At.MS; j-- {
				all[j], all[j-1] = all[j-1], all[j]
			}
		}
	}
	add(l.st.Loose)
	add(s.Readings)
	all = all[max(0, len(all)-unit.MostInSeries):]
	for i, r := range all {
		if i+1 < len(all) && all[i+1].At.MS-r.At.MS < 1000 {
			continue
		}
		x, _ := number(r.Value)
		if masses != "" {
			times, masses = times+"; ", masses+"; "
		}
		times += digits(float64(r.At.MS-all[0].At.MS) / minuteMS)
		masses += digits(x)
		last = r.At.MS
	}
	return times, masses, last
}
