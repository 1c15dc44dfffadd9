package watch

import "testing"

func TestNumbersInWords(t *testing.T) {
	for n, want := range map[int64]string{0: "nought", 3: "three", 13: "thirteen", 20: "twenty", 24: "twenty-four", 90: "ninety", 100: "one hundred",
		101: "one hundred and one", 999: "nine hundred and ninety-nine", 1000: "1000", -1: "-1"} {
		if got := inWords(n); got != want {
			t.Errorf("inWords(%d) = %q, want %q", n, got, want)
		}
	}
}

func TestLengths(t *testing.T) {
	for _, c := range []struct {
		s            int64
		read, spoken string
	}{
		{0, "0 s", "nought seconds"}, {1, "1 s", "one second"}, {45, "45 s", "forty-five seconds"}, {60, "1 min", "one minute"},
		{300, "5 min", "five minutes"}, {450, "7 min 30 s", "seven minutes and thirty seconds"}, {3600, "1 h", "one hour"},
		{4500, "1 h 15 min", "one hour and fifteen minutes"}, {7261, "2 h 1 min", "two hours and one minute"}, {-5, "0 s", "nought seconds"},
	} {
		if got := lasting(c.s * 1000); got != c.read {
			t.Errorf("lasting(%d s) = %q, want %q", c.s, got, c.read)
		}
		if got := spoken(c.s * 1000); got != c.spoken {
			t.Errorf("spoken(%d s) = %q, want %q", c.s, got, c.spoken)
		}
	}
}
