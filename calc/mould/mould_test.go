package mould

import "testing"

// B-01 (a): what each statement warns of, by its own figures.
func TestWhatIsWarnedOf(t *testing.T) {
	rows := []struct {
		name                          string
		humidity, celsius, hours, wet float64
		warns                         [5]bool
	}{
		{"a good store", 50, 19, 0, 0, [5]bool{}},
		{"warm", 50, 25, 0, 0, [5]bool{0: true}},
		{"rather humid", 66, 20, 0, 0, [5]bool{0: true, 4: true}},
		{"damp for a night", 80, 20, 10, 0, [5]bool{0: true, 1: true, 3: true, 4: true}},
		{"damp for weeks", 80, 20, 400, 0, [5]bool{true, true, true, true, true}},
		{"damp, for how long is not known", 80, 20, 0, 0, [5]bool{true, true, true, true, true}},
		{"wet for a day and a half", 50, 20, 0, 36, [5]bool{4: true}},
	}
	for _, r := range rows {
		for i, s := range Says(r.humidity, r.celsius, r.hours, r.wet) {
			if s.Warns != r.warns[i] || s.By == "" || s.Text == "" {
				t.Errorf("%s: %+v, want %v", r.name, s, r.warns[i])
			}
		}
	}
}

func TestMoreHumidityNeverWarnsLess(t *testing.T) {
	before := 0
	for h := 0.0; h <= 100; h++ {
		n := 0
		for _, s := range Says(h, 20, 500, 0) {
			if s.Warns {
				n++
			}
		}
		if n < before {
			t.Errorf("at %v %% %d warn, a little below %d", h, n, before)
		}
		before = n
	}
}
