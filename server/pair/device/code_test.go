package device

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"
)

func (s *studio) code(t *testing.T) Code {
	t.Helper()
	c, err := s.NewCode()
	if err != nil {
		t.Fatalf("NewCode: %v", err)
	}
	return c
}

func TestCodeIsEasyToType(t *testing.T) {
	s := marram(t)
	seen := map[byte]bool{}
	for range 200 {
		c := s.code(t)
		if len(c.Text) != 9 || c.Text[4] != '-' {
			t.Fatalf("code %q, want two groups of four", c.Text)
		}
		if !c.Expires.Equal(wednesday.Add(10 * time.Minute)) {
			t.Fatalf("expires %v, want 10 minutes from %v", c.Expires, wednesday)
		}
		for _, b := range []byte(c.Text[:4] + c.Text[5:]) {
			seen[b] = true
		}
	}
	for b := range seen {
		if !strings.Contains(alphabet, string(b)) {
			t.Errorf("a code holds %q", b)
		}
	}
	if len(seen) != len(alphabet) {
		t.Errorf("200 codes use %d of %d characters", len(seen), len(alphabet))
	}
	for _, b := range "AEIOU01ILSBZ5" {
		if strings.ContainsRune(alphabet, b) {
			t.Errorf("the alphabet holds %q, a vowel or a look-alike", b)
		}
	}
}

func TestCodeIsReadAsPeopleTypeIt(t *testing.T) {
	for _, write := range []func(string) string{
		strings.ToLower,
		func(c string) string { return strings.ReplaceAll(c, "-", "") },
		func(c string) string { return " " + strings.ReplaceAll(c, "-", " ") + "\n" },
		func(c string) string { return strings.ReplaceAll(strings.ReplaceAll(c, "8", "B"), "2", "z") },
		func(c string) string { return strings.ReplaceAll(c, "-", "\u2013") },
	} {
		s := marram(t)
		typed := write(s.code(t).Text)
		if _, _, err := s.Pair(typed, "", "192.168.7.31"); err != nil {
			t.Errorf("Pair(%q) = %v", typed, err)
		}
	}
}

func TestCodeIsSpentOnce(t *testing.T) {
	s := marram(t)
	c := s.code(t)
	if _, _, err := s.Pair(c.Text, "Runa's phone", "192.168.7.31"); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if _, _, err := s.Pair(c.Text, "Somebody", "192.168.7.32"); !errors.Is(err, ErrCode) {
			t.Errorf("second Pair = %v, want ErrCode", err)
		}
		s.reopen(t)
	}
}

// TestCodeIsSpentOnceAtOnce has twenty phones type one code in the same moment.
func TestCodeIsSpentOnceAtOnce(t *testing.T) {
	s := marram(t)
	c := s.code(t)
	var all sync.WaitGroup
	in := make(chan string, 20)
	for i := range 20 {
		all.Go(func() {
			if d, _, err := s.Pair(c.Text, fmt.Sprint(i), fmt.Sprintf("192.168.7.%d", i)); err == nil {
				in <- d.Label
			}
		})
	}
	all.Wait()
	if len(in) != 1 || len(s.List()) != 1 {
		t.Errorf("%d came in, %d are listed, want 1", len(in), len(s.List()))
	}
}

func TestCodeRunsOut(t *testing.T) {
	s := marram(t)
	early, late := s.code(t), s.code(t)
	s.clock.pass(10*time.Minute - time.Second)
	if _, _, err := s.Pair(early.Text, "", "192.168.7.31"); err != nil {
		t.Errorf("a second before the end: %v", err)
	}
	s.clock.pass(time.Second)
	if _, _, err := s.Pair(late.Text, "", "192.168.7.31"); !errors.Is(err, ErrCode) {
		t.Errorf("at the end: %v, want ErrCode", err)
	}
	s.reopen(t)
	if len(s.records.held[codesBucket]) != 0 {
		t.Errorf("%d codes are left on disk", len(s.records.held[codesBucket]))
	}
}

func TestCodeOutlivesARestartButNoClockSetBack(t *testing.T) {
	s := marram(t)
	first, second := s.code(t), s.code(t)
	if strings.Contains(s.records.text(), first.Text) {
		t.Error("the store holds the code itself")
	}
	s.reopen(t)
	if _, _, err := s.Pair(first.Text, "", "192.168.7.31"); err != nil {
		t.Errorf("after a restart: %v", err)
	}
	s.clock.pass(-time.Hour)
	s.reopen(t)
	if _, _, err := s.Pair(second.Text, "", "192.168.7.31"); !errors.Is(err, ErrCode) {
		t.Errorf("an hour earlier: %v, want ErrCode", err)
	}
}

func TestOldestCodeGivesWay(t *testing.T) {
	s := marram(t)
	oldest := s.code(t)
	var newest Code
	for range maxCodes {
		newest = s.code(t)
	}
	if _, _, err := s.Pair(oldest.Text, "", "192.168.7.31"); !errors.Is(err, ErrCode) {
		t.Errorf("oldest: %v, want ErrCode", err)
	}
	if _, _, err := s.Pair(newest.Text, "", "192.168.7.31"); err != nil {
		t.Errorf("newest: %v", err)
	}
}

func TestPairWithAFullDiskKeepsTheCode(t *testing.T) {
	for _, bucket := range []string{codesBucket, devicesBucket} {
		s := marram(t)
		c := s.code(t)
		s.records.refuse = bucket
		if _, _, err := s.Pair(c.Text, "Runa's phone", "192.168.7.31"); !errors.Is(err, errFull) {
			t.Errorf("%s refused: Pair = %v, want the disk's refusal", bucket, err)
		}
		if len(s.List()) != 0 {
			t.Errorf("%s refused: a device came in", bucket)
		}
		s.records.refuse = ""
		if _, _, err := s.Pair(c.Text, "Runa's phone", "192.168.7.31"); err != nil {
			t.Errorf("%s has space again: Pair = %v", bucket, err)
		}
	}
}

func TestWrongCodesAreSlowedDown(t *testing.T) {
	s := marram(t)
	good := s.code(t)
	for i := range triesEach {
		if _, _, err := s.Pair("CDFG-HJKM", "", "192.168.7.66"); !errors.Is(err, ErrCode) {
			t.Fatalf("try %d = %v, want ErrCode", i+1, err)
		}
	}
	var slow *SlowDown
	if _, _, err := s.Pair(good.Text, "", "192.168.7.66"); !errors.As(err, &slow) || slow.Wait != time.Minute {
		t.Fatalf("one try too many = %v, want to wait a minute", err)
	}
	s.clock.pass(time.Minute - time.Millisecond)
	if _, _, err := s.Pair(good.Text, "", "192.168.7.66"); !errors.As(err, &slow) {
		t.Errorf("before the minute is over = %v, want SlowDown", err)
	}
	if _, _, err := s.Pair(good.Text, "", "192.168.7.31"); err != nil {
		t.Errorf("another address = %v, want no limit for it", err)
	}
	good = s.code(t)
	s.clock.pass(time.Millisecond)
	if _, _, err := s.Pair(good.Text, "", "192.168.7.66"); err != nil {
		t.Errorf("after the minute = %v", err)
	}
}

func TestWrongCodesFromEverywhereAreSlowedDown(t *testing.T) {
	s := marram(t)
	for i := range triesAll {
		if _, _, err := s.Pair("CDFG-HJKM", "", fmt.Sprintf("10.0.%d.1", i)); !errors.Is(err, ErrCode) {
			t.Fatalf("try %d = %v, want ErrCode", i+1, err)
		}
	}
	var slow *SlowDown
	if _, _, err := s.Pair(s.code(t).Text, "", "192.168.7.31"); !errors.As(err, &slow) || slow.Wait != triesAllBack {
		t.Errorf("one too many = %v, want to wait %v", err, triesAllBack)
	}
}

func TestLimiterForgets(t *testing.T) {
	var l limiter
	for i := range maxAddresses {
		l.failed(fmt.Sprintf("10.%d.%d.1", i/256, i%256), wednesday)
	}
	l.failed("192.168.7.66", wednesday)
	if len(l.each) != maxAddresses {
		t.Errorf("remembers %d addresses, want %d at most", len(l.each), maxAddresses)
	}
	l.failed("192.168.7.66", wednesday.Add(time.Hour))
	if len(l.each) != 1 {
		t.Errorf("remembers %d addresses an hour later, want 1", len(l.each))
	}
}

func TestNeighbourhood(t *testing.T) {
	for from, want := range map[string]string{
		"192.168.7.66":           "192.168.7.66",
		"::ffff:192.168.7.66":    "192.168.7.66",
		"fd00::1":                "fd00::/64",
		"fd00::ffff":             "fd00::/64",
		"fe80::1%eth0":           "fe80::/64",
		"not an address, anyway": "not an address, anyway",
	} {
		if got := neighbourhood(from); got != want {
			t.Errorf("neighbourhood(%s) = %s, want %s", from, got, want)
		}
	}
}

func TestTidyLabel(t *testing.T) {
	for typed, want := range map[string]string{
		"  Runa's \n phone ":       "Runa's phone",
		"":                         "Unnamed device",
		" \x00\x1b[31m":            "[31m",
		"\xff\xfe":                 "Unnamed device",
		"\u202egnp.exe":            "gnp.exe",
		strings.Repeat("ä", 80):    strings.Repeat("ä", 60),
		"Tablet\u2028at the sink ": "Tablet at the sink",
	} {
		if got := tidyLabel(typed); got != want {
			t.Errorf("tidyLabel(%q) = %q, want %q", typed, got, want)
		}
	}
}
