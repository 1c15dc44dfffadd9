package watch

import (
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"sinkside/calc/dossier"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// Random days, with what people type and what they cannot have meant, written as
// entries and folded.

var job = journal.NewID(1_770_000_000_000, [10]byte{9})

type scribe struct {
	rng     *rand.Rand
	now     int64
	clock   journal.Clock
	log     journal.Log
	dev     journal.ID
	entries []journal.Entry
	names   []string // of begins
}

func stamp(ms int64) string { return time.UnixMilli(ms).UTC().Format("2006-01-02T15:04:05.000Z07:00") }

func newScribe(seed uint64) *scribe {
	return &scribe{rng: rand.New(rand.NewPCG(seed, 5)), now: nine, dev: journal.NewID(1_760_000_000_000, [10]byte{1})}
}

func (s *scribe) put(kind, body string) string {
	d := journal.Draft{Job: job, At: stamp(s.now), By: "RV", Kind: kind, BV: dossier.BodyVersion(kind, jsontext.Value(body)), Body: jsontext.Value(body)}
	e, err := journal.Write(d, s.dev, s.log.Head(journal.Chain{Job: job, Dev: s.dev}), s.clock.Tick(s.now))
	if err != nil {
		panic(err.Error() + ": " + body)
	}
	s.log.Add(e)
	s.entries = append(s.entries, e)
	return e.Name.String()
}

func (s *scribe) one(of ...string) string { return of[s.rng.IntN(len(of))] }

// number is a number as it may stand in an entry, sensible or not.
func (s *scribe) number() string {
	return s.one("0", "1", "5", "6.5", "7.2", "20", "22", "25", "48.2", "204", "900", "-3", "-0.5", "1e300", "1e-300", "4.1", "96", "250", "100000", "0.0001", `"12"`, `"much"`, "null", "true")
}

func (s *scribe) of(chance int) string {
	if len(s.names) == 0 || s.rng.IntN(chance) == 0 {
		return ""
	}
	return `,"of":"` + s.names[max(0, len(s.names)-1-s.rng.IntN(min(3, len(s.names))))] + `"`
}

func (s *scribe) act() {
	s.now += s.rng.Int64N(6 * minuteMS)
	n := s.number
	switch s.rng.IntN(18) {
	case 0, 1, 2:
		what := s.one("presoak", "wash", "rinse", "rinse", "rinse", "flowing", "local", "suction", "humidify", "drying", "sonic")
		s.names = append(s.names, s.put("begin", `{"what":"`+what+`","liquid":"`+s.one(water, "Tap water", "")+`","litres":`+n()+`,"target_s":`+s.one("0", "60", "200", "480", "600", "-5", "9000000000000000000", "1.5")+
			`,"temp_c":`+n()+`,"planned":`+s.one("0", "1", "2", "3", "-1", "99")+`,"uncleared":`+s.one("true", "false")+`,"unticked":["weighed","stop_plan_agreed"],"airflow":"`+s.one("still", "fan", "")+`","sides":`+s.one("1", "2", "7")+`}`))
	case 3, 4:
		if of := s.of(8); of != "" {
			s.put(s.one("end", "end", "end", "abort"), `{`+of[1:]+`}`)
		}
	case 5, 6, 7:
		s.put("reading", `{"q":"conductivity","value":`+n()+`,"unit":"`+s.one("uS/cm", "uS/cm", "mS/cm", "ppm")+`","liquor_c":`+n()+`,"compensated":`+s.one("true", "false", "false")+`,"source":`+s.one("true", "false", "false")+`,"at_end":`+s.one("true", "true", "false")+s.of(5)+`}`)
	case 8, 9:
		s.put("reading", `{"q":"`+s.one("temperature", "ph", "colour", "suds", "mass", "air_temperature", "humidity")+`","value":`+n()+`,"unit":"`+s.one("degC", "g", "")+`"`+s.of(3)+`}`)
	case 10:
		s.put("set", `{"field":"`+s.one("colours", "stop_plan", "name", "reading_every_min", "dry_first_min", "dry_first_hours", "dry_later_min", "dry_mass_g", "pick_up_pct", "width_mm", "height_mm", "check.weighed")+
			`","value":`+s.one(n(), `"red, blue, undyed"`, `"yes"`)+`,"over":[]}`)
	case 11:
		s.put("dwell", `{"colour":"`+s.one("red", "blue", "")+`","liquid":"`+s.one(water, "")+`","s":`+s.one("60", "1800", "5400", "-1", "9000000000000000000")+`,"temp_c":`+n()+`,"ph_from":`+n()+`,"ph_to":`+n()+`,"faces":"`+s.one("both", "both", "one", "")+`","name":"Osk Tarrin"}`)
	case 12:
		s.put("act", `{"what":"`+s.one("check", "blotter", "turn", "drain")+`"`+s.of(3)+`}`)
	case 13:
		s.put("plan", `{"baths":[{"what":"presoak","liquid":"`+water+`","litres":`+n()+`,"target_s":600,"temp_c":`+n()+`},{"what":"wash"},{"what":"rinse","target_s":-4},{"what":"drying"}],"over":[]}`)
	case 14:
		s.put("overnight", `{"who":"IB","until":"`+s.one(stamp(s.now+hourMS), "", "tomorrow")+`"}`)
	case 15:
		s.put("decide", `{"what":"`+s.one("stop_rinsing", "go_on")+`","why":"so","proposed":"that"`+s.of(2)+`}`)
	case 16:
		if s.rng.IntN(4) == 0 {
			s.put("dry", `{"how":"touch"}`)
		}
	case 17:
		if cs := Of(s.fold(s.entries)).Cues; len(cs) > 0 {
			s.put("heard", `{"cue":`+strconv.Quote(cs[s.rng.IntN(len(cs))].ID)+`}`)
		}
	}
}

func (s *scribe) fold(entries []journal.Entry) *dossier.State {
	d := dossier.New(job)
	for _, e := range entries {
		d.Add(e)
	}
	return d.State()
}

func drawDay(t *rapid.T) *scribe {
	s := newScribe(rapid.Uint64().Draw(t, "seed"))
	s.put("open", `{"name":"Sampler band of drawn-thread work"}`)
	for range rapid.IntRange(0, 50).Draw(t, "acts") {
		s.act()
	}
	return s
}

// A word: the letters stand in the names of entries now and then.
var safe = regexp.MustCompile(`(?i)(^|[^\w-])safe(ly|r|ty)?($|[^\w-])`)

// What is worked out is whole numbers or finite ones, in order, once each, and
// reads as JSON.
func TestWhateverWasRecorded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawDay(t)
		w := Of(s.fold(s.entries))
		text := string(checkJSON(t, w))
		if strings.Contains(text, `"k25":null`) || strings.Contains(text, `"low":null`) || strings.Contains(text, `"high":null`) || strings.Contains(text, `"value":null`) {
			t.Fatalf("a number that is none in %s", text)
		}
		if safe.MatchString(text) {
			t.Fatalf("it says that something is safe: %s", text)
		}
		seen := map[string]bool{}
		for i, c := range w.Cues {
			if seen[c.ID] || c.ID == "" || c.Say == "" || c.Speak == "" || !strings.HasPrefix(c.ID, c.Kind+":") {
				t.Fatalf("cue %+v", c)
			}
			seen[c.ID] = true
			if i > 0 && c.AtMS < w.Cues[i-1].AtMS {
				t.Fatalf("cues out of order: %+v", w.Cues)
			}
		}
		seen = map[string]bool{}
		for i, x := range w.Warnings {
			if seen[x.ID] || x.Say == "" || i > 0 && x.FromMS < w.Warnings[i-1].FromMS {
				t.Fatalf("warnings %+v", w.Warnings)
			}
			seen[x.ID] = true
		}
		if w.Dwell.Say == "" || w.Next.Say == "" || len(w.StopPlan.Steps) == 0 || w.Drying != nil && w.Drying.Say == "" {
			t.Fatalf("it says nothing: %+v", w)
		}
		if w.Rinse != nil && (w.Rinse.Say == "" || !strings.Contains(strings.Join(w.Rinse.Reasons, " "), "conductivity does not see non-ionic detergent")) {
			t.Fatalf("rinse without the suds check: %+v", w.Rinse)
		}
	})
}

// Every device comes to the same, in whatever order the entries reached it.
func TestNoOrderOfArrivalShows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawDay(t)
		want := string(Of(s.fold(s.entries)).AppendJSON(nil))
		mixed := rapid.Permutation(s.entries).Draw(t, "order")
		if got := string(Of(s.fold(mixed)).AppendJSON(nil)); got != want {
			t.Fatalf("watch\n%s\nwant\n%s", got, want)
		}
		st := s.fold(s.entries)
		before := string(st.AppendJSON(nil))
		Of(st)
		if after := string(st.AppendJSON(nil)); after != before {
			t.Fatalf("the state was changed to\n%s\nfrom\n%s", after, before)
		}
	})
}

// Acknowledging a cue takes no cue away and changes no other.
func TestAcknowledgingTakesNothingAway(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawDay(t)
		before := Of(s.fold(s.entries)).Cues
		if len(before) == 0 {
			return
		}
		heard := before[rapid.IntRange(0, len(before)-1).Draw(t, "cue")].ID
		s.put("heard", `{"cue":`+strconv.Quote(heard)+`}`)
		after := Of(s.fold(s.entries)).Cues
		for _, b := range before {
			found := false
			for _, a := range after {
				if a.ID == b.ID {
					found = true
					if b.ID == heard && a.HeardBy == "" || b.ID != heard && a != b {
						t.Fatalf("cue %+v became %+v after %s was acknowledged", b, a, heard)
					}
				}
			}
			if !found {
				t.Fatalf("%s is gone after %s was acknowledged", b.ID, heard)
			}
		}
	})
}

// More immersion never gives more time.
func TestMoreImmersionNeverMovesTheEndLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawDay(t)
		st := *s.fold(s.entries)
		before := Of(&st).Dwell
		st.ImmersedMS += rapid.Int64Range(0, 1<<40).Draw(t, "more")
		after := Of(&st).Dwell
		if (before.EndMS == nil) != (after.EndMS == nil) || before.EndMS != nil && (*after.EndMS > *before.EndMS || *after.MarkMS > *before.MarkMS) {
			t.Fatalf("limit %+v became %+v", before, after)
		}
	})
}

// Another colour without a test never gives more time, and is said.
func TestAnUntestedColourIsAlwaysSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawDay(t)
		st := *s.fold(s.entries)
		if len(st.Colours) == 0 {
			return
		}
		general := false
		for i := range st.Dwells {
			general = general || st.Dwells[i].Colour == ""
		}
		before := Of(&st).Dwell
		st.Colours = append([]string{"saffron"}, st.Colours...)
		after := Of(&st).Dwell
		if before.S > 0 && after.S > before.S {
			t.Fatalf("limit %d s became %d s", before.S, after.S)
		}
		if !general && !strings.Contains(after.Say, "No test recorded for saffron") {
			t.Fatalf("it says %q", after.Say)
		}
	})
}
