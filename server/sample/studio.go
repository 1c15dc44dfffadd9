package sample

import (
	"errors"
	"time"

	"sinkside/sync/journal"
)

// The sample's liquids. The strength is an invented working solution, not advice.
const (
	water = "Deionised water"
	wash  = "Non-ionic surfactant 0.5 g/L in deionised water"
)

// Entries writes the sample as it would stand at now, in now's time zone: a bonnet washed eight
// days ago, a whole wash day with three textiles two days ago, a flag washed yesterday and a sampler
// band that came in this hour. The last eighty bits
// of each treatment's ID come from entropy.
func Entries(now time.Time, entropy func() [10]byte) ([]journal.Entry, error) {
	start := func(day time.Time) *scribe {
		return newScribe(journal.NewID(uint64(now.UnixMilli()), entropy()), day)
	}
	treatments := []*scribe{
		bonnet(start(now.AddDate(0, 0, -8))),
		apron(start(now.AddDate(0, 0, -3))),
		mittens(start(now.AddDate(0, 0, -2))),
		kerchief(start(now.AddDate(0, 0, -2))),
		flag(start(now.AddDate(0, 0, -1))),
		band(start(now), now),
	}
	var out []journal.Entry
	for _, s := range treatments {
		if s.err != nil {
			return nil, errors.Join(errors.New("write the sample studio"), s.err)
		}
		out = append(out, s.out...)
	}
	return out, nil
}

// bonnet is a day that went to plan, from the first soak to the closed treatment.
func bonnet(s *scribe) *scribe {
	s.at("08:52:10").open(runa, "Child's quilted bonnet")
	s.at("08:52:40").set(runa, "number", "MH 114")
	s.at("08:53:05").set(runa, "fibre", "cotton, cotton wadding")
	s.at("08:54:20").set(runa, "dry_mass_g", 68.4)
	s.at("08:55:02").set(runa, "width_mm", 212)
	s.at("08:55:09").set(runa, "height_mm", 185)
	s.at("08:56:31").set(runa, "colours", "undyed; pink ribbon, taken off before washing")
	s.at("09:01:00").note(runa, journal.Name{}, "Ribbon unpicked and kept in its envelope. Support net on both sides.")

	soak := s.at("09:10:00").begin(runa, "presoak", water, 6, 10)
	s.at("09:11:12").temperature(runa, soak, 21.5)
	s.at("09:12:02").ph(runa, soak, 6.4)
	s.at("09:18:40").conductivity(runa, soak, 46)
	s.at("09:20:18").end(runa, soak)

	first := s.at("09:23:30").begin(runa, "wash", wash, 6, 8)
	s.at("09:24:15").temperature(osk, first, 22.5)
	s.at("09:25:01").ph(osk, first, 6.8)
	s.at("09:27:00").note(runa, first, "Sponged through the net, right side up. Yellow liquor from the wadding.")
	s.at("09:30:48").conductivity(osk, first, 118)
	s.at("09:31:44").end(runa, first)

	rinses := []struct {
		from, middle, to string
		ph, conductivity float64
	}{
		{"09:34:00", "09:37:10", "09:39:05", 6.8, 71},
		{"09:41:30", "09:44:20", "09:46:40", 6.7, 32.5},
		{"09:49:00", "09:52:00", "09:54:08", 6.6, 15.8},
		{"09:56:20", "09:59:30", "10:01:25", 6.5, 8.4},
		{"10:04:00", "10:07:10", "10:09:12", 6.5, 5.6},
		{"10:11:30", "10:14:40", "10:16:36", 6.4, 4.9},
	}
	for _, r := range rinses {
		bath := s.at(r.from).begin(osk, "rinse", water, 6, 5)
		s.at(r.middle).ph(runa, bath, r.ph)
		s.conductivity(runa, bath, r.conductivity)
		s.at(r.to).end(osk, bath)
	}
	s.at("10:18:00").note(runa, journal.Name{}, "No suds in the shake test. Last two rinses 0.7 µS/cm apart and near the tap's 4.2: stopped here.")
	s.at("10:26:00").note(osk, journal.Name{}, "Blotted twice, crown filled with net, fan on low.")
	s.at("16:40:00").note(runa, journal.Name{}, "Dry to the touch throughout, no tide line.")
	s.at("16:42:00").put(runa, "close", body("why", "washed and dry"))
	return s
}

// flag is a day on which things happened: a slip of the thumb, a wrong figure, a probe left in its
// buffer, a wash that ran over and one that was begun before its test was written up.
func flag(s *scribe) *scribe {
	s.at("08:31:00").open(osk, "Harbour-office signal flag")
	s.at("08:31:50").set(osk, "number", "MH 121")
	s.at("08:32:20").set(osk, "fibre", "wool bunting, linen hoist")
	s.at("08:34:00").set(osk, "dry_mass_g", 412)
	s.at("08:35:10").set(osk, "width_mm", 1830)
	s.at("08:35:22").set(osk, "height_mm", 1220)
	s.at("08:36:30").set(osk, "colours", "red, blue, undyed")
	s.at("08:40:00").note(osk, journal.Name{}, "Soot along the fly end. Blue repair thread in the hoist, newer than the rest.")

	slip := s.at("09:02:10").begin(runa, "presoak", water, 60, 15)
	s.at("09:02:31").strike(runa, slip, "taken back")

	soak := s.at("09:04:00").begin(runa, "presoak", water, 6, 15)
	s.at("09:05:20").amend(runa, soak, "a nought was missing: sixty litres in the big tray", bath("presoak", water, 60, 15))
	s.at("09:07:00").temperature(osk, soak, 20.5)
	s.at("09:08:10").ph(osk, soak, 6.1)
	s.at("09:16:00").conductivity(osk, soak, 88)
	s.at("09:19:12").end(runa, soak)

	first := s.at("09:27:00").begin(runa, "wash", wash, 60, 10)
	wrong := s.at("09:28:30").ph(osk, first, 4)
	s.at("09:29:40").strike(osk, wrong, "the probe still stood in its buffer")
	s.at("09:30:10").ph(osk, first, 6.6)
	s.at("09:31:00").temperature(osk, first, 21.5)
	s.at("09:33:30").note(runa, first, "Sponged from the hoist outwards. Grey liquor, no red, no blue.")
	s.at("09:36:00").conductivity(osk, first, 164)
	s.at("09:37:20").end(runa, first)

	second := s.at("09:45:00").put(runa, "begin", body("what", "wash", "liquid", wash, "litres", 60.0, "target_s", 600, "uncleared", true))
	s.at("09:46:10").temperature(osk, second, 22.0)
	s.at("09:50:00").conductivity(osk, second, 151)
	s.at("09:55:40").note(osk, second, "Past the ten minutes: the net had caught on the tray's lip. Freed by two people.")
	s.at("09:57:30").end(runa, second)
	s.at("10:00:00").note(runa, second, "Begun uncleared: blue repair thread had stood only 20 minutes against this solution. Osk held a blotter to it throughout; clean.")

	rinses := []struct {
		from, middle, to string
		ph, conductivity float64
		late             time.Duration
	}{
		{"10:06:00", "10:12:00", "10:16:20", 6.6, 93, 0},
		{"10:24:00", "10:29:00", "10:34:10", 6.5, 44.5, 0},
		{"10:45:00", "10:48:00", "10:51:10", 6.4, 21.3, 4 * time.Minute},
		{"10:59:00", "11:04:00", "11:09:30", 6.3, 11.2, 0},
		{"11:17:00", "11:22:00", "11:27:10", 6.2, 7.1, 0},
		{"11:35:00", "11:40:00", "11:45:05", 6.2, 5.8, 0},
	}
	for i, r := range rinses {
		rinse := s.at(r.from).putLate(osk, r.late, "begin", bath("rinse", water, 60, 10))
		s.at(r.middle).ph(runa, rinse, r.ph)
		s.conductivity(runa, rinse, r.conductivity)
		if i == 2 {
			s.note(runa, rinse, "A breath of red on the sponge at the fly end. Watched the blotter for three minutes: nothing more.")
		}
		s.at(r.to).end(osk, rinse)
	}
	s.at("11:48:00").note(runa, journal.Name{}, "Suds gone at the fourth rinse. Conductivity levels off above the tap's 4.2: stopped by agreement, RV and OT.")
	s.at("12:05:00").note(osk, journal.Name{}, "Blocked to the tracing, blotters changed twice, two fans. Next check at 13:00.")
	s.at("17:30:00").note(runa, journal.Name{}, "Hoist still damp. Left face up on dry blotters, fans on low, door locked.")
	return s
}

// band came in within the last hour and has not been near water.
func band(s *scribe, now time.Time) *scribe {
	s.now = now.Add(-50 * time.Minute).Truncate(time.Second)
	next := func(d time.Duration) *scribe { s.now = s.now.Add(d); return s }
	s.open(runa, "Sampler band of drawn-thread work")
	next(40*time.Second).set(runa, "number", "MH 126")
	next(30*time.Second).set(runa, "fibre", "linen, silk thread")
	next(70*time.Second).set(runa, "width_mm", 148)
	next(10*time.Second).set(runa, "height_mm", 640)
	next(2*time.Minute).set(runa, "colours", "undyed, red silk, green silk")
	next(5*time.Minute).note(runa, journal.Name{}, "Green silk is of two kinds: the lower border is a bluer green. Test both.")
	next(6*time.Minute).note(osk, journal.Name{}, "Not weighed yet: the scale is out until tomorrow.")
	return s
}
