package journal

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseAtAgreesWithPackageTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone := time.FixedZone("", rapid.IntRange(-23*60-59, 23*60+59).Draw(t, "offset in minutes")*60)
		sec := rapid.Int64Range(-62135596800+100_000, 253402300799-100_000).Draw(t, "Unix seconds")
		at := time.Unix(sec, rapid.Int64Range(0, 999_999_999).Draw(t, "ns")).In(zone)
		layout := rapid.SampledFrom([]string{time.RFC3339, time.RFC3339Nano, "2006-01-02T15:04:05.000Z07:00"}).Draw(t, "layout")
		text := at.Format(layout)
		want, err := time.Parse(time.RFC3339Nano, text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := ParseAt(text); err != nil || got != want.UnixMilli() {
			t.Errorf("ParseAt(%s) = %d, %v, want %d", text, got, err, want.UnixMilli())
		}
	})
}

func TestParseAtRefuses(t *testing.T) {
	for _, s := range []string{
		"", "now", "2026-03-04", "2026-03-04T10:02:11", "2026-03-04 10:02:11Z", "2026-3-04T10:02:11Z",
		"2026-02-29T10:02:11Z", "2026-13-01T10:02:11Z", "2026-00-01T10:02:11Z", "2026-04-31T10:02:11Z",
		"2026-03-04T24:00:00Z", "2026-03-04T10:60:00Z", "2026-03-04T10:02:60Z", "2026-03-04T10:02:11.Z",
		"2026-03-04T10:02:11+1:00", "2026-03-04T10:02:11+24:00", "2026-03-04T10:02:11+01:60", "2026-03-04T10:02:11Z ",
		"+026-03-04T10:02:11Z", "2026-03-04t10:02:11z",
	} {
		if ms, err := ParseAt(s); err == nil {
			t.Errorf("ParseAt(%q) = %d, want an error", s, ms)
		}
	}
}

// Whatever a stranger wrote, the two must not give different times.
func FuzzParseAt(f *testing.F) {
	f.Add("2026-03-04T10:02:11+01:00")
	f.Add("2024-02-29T23:59:59.9999Z")
	f.Add("0000-01-01T00:00:00-00:00")
	f.Fuzz(func(t *testing.T, s string) {
		got, err := ParseAt(s)
		if err != nil {
			return
		}
		want, err := time.Parse(time.RFC3339Nano, s)
		if err != nil || got != want.UnixMilli() {
			t.Errorf("ParseAt(%q) = %d, package time says %d, %v", s, got, want.UnixMilli(), err)
		}
	})
}
