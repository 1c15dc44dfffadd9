package hands

import (
	"testing"
	"time"
)

func TestReadClock(t *testing.T) {
	for face, want := range map[string]time.Duration{
		"6:12":    6*time.Minute + 12*time.Second,
		"0:00":    0,
		"1:02:03": time.Hour + 2*time.Minute + 3*time.Second,
		"+1:48":   -(time.Minute + 48*time.Second),
	} {
		if got, err := readClock(face); err != nil || got != want {
			t.Errorf("readClock(%q) = %v, %v, want %v", face, got, err, want)
		}
	}
	if _, err := readClock("soon"); err == nil {
		t.Error("readClock takes words")
	}
}
