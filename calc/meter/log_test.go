package meter

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func minute(t interface{ Fatal(...any) }, text string) Minute {
	m, ok := ParseMinute(text)
	if !ok {
		t.Fatal("cannot read " + text)
	}
	return m
}

// The standard library counts the same minutes.
func TestMinutesAgreeWithTheCalendar(t *testing.T) {
	zero := minute(t, "1970-01-01 00:00")
	rapid.Check(t, func(t *rapid.T) {
		at := time.Unix(60*rapid.Int64Range(-1035593280, 4199040000).Draw(t, "minutes"), 0).UTC()
		if at.Year() < 0 || at.Year() > 9999 {
			return
		}
		text := at.Format("2006-01-02 15:04")
		if got, want := int64(minute(t, text)-zero), at.Unix()/60; got != want {
			t.Fatalf("%s is minute %d, want %d", text, got, want)
		}
	})
}

func TestTimesThatAreNone(t *testing.T) {
	for _, text := range []string{"", "2026-03-01", "2026-3-1 9:30", "01.03.2026 09:30", "2026-02-29 09:30", "1900-02-29 00:00", "2026-13-01 00:00", "2026-00-01 00:00",
		"2026-04-31 00:00", "2026-01-00 00:00", "2026-01-01 24:00", "2026-01-01 12:60", "2026-01-01x12:00", "2026-01-01 12:00:00", "２026-01-01 12:0"} {
		if m, ok := ParseMinute(text); ok {
			t.Errorf("%q is read as %d", text, m)
		}
	}
	if minute(t, " 2024-02-29T23:59 ")+1 != minute(t, "2024-03-01 00:00") || minute(t, "2000-02-29 00:00")+1440 != minute(t, "2000-03-01 00:00") {
		t.Error("leap days are counted otherwise")
	}
}

func TestWhatAReadingStandsOn(t *testing.T) {
	log := []Check{{100, "pH 1", false}, {500, "PH 1 ", true}, {300, "pH 1", false}, {50, "EC", false}}
	rows := []struct {
		name string
		on   string
		at   Minute
		want Standing
	}{
		{"before all", "pH 1", 99, Standing{-1, 0, 0, false}},
		{"in the same minute", "pH 1", 100, Standing{0, 0, 2, false}},
		{"between two good ones", "ph 1", 250, Standing{0, 150, 2, false}},
		{"between a good and a bad one", "pH 1", 400, Standing{2, 100, 1, true}},
		{"after a bad one", "pH 1", 600, Standing{1, 100, -1, true}},
		{"another instrument", "EC", 600, Standing{3, 550, -1, false}},
		{"one without any", "EC 2", 600, Standing{-1, 0, -1, false}},
	}
	for _, r := range rows {
		if got := StandingOf(log, r.on, r.at); got != r.want {
			t.Errorf("%s: %+v, want %+v", r.name, got, r.want)
		}
	}
}

func FuzzParseMinute(f *testing.F) {
	f.Add("2026-03-01 09:30")
	f.Add("0000-01-01T00:00")
	f.Fuzz(func(t *testing.T, text string) {
		if m, ok := ParseMinute(text); ok && (m < -366*24*60 || m > 10000*366*24*60) {
			t.Fatalf("%q is minute %d", text, m)
		}
	})
}
