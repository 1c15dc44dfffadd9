package browser

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// tickMS is how long one tick of /proc's processor time is, on every Linux that
// is in use.
const tickMS = 10

// Busy is the processor time that the browser's renderers have used: pages and
// their workers; and that of all its processes, the painting included.
func (c *Chromium) Busy() (renderers, all time.Duration) {
	c.t.Helper()
	for _, pid := range processes(filepath.Join(c.o.Home, "profile")) {
		used, err := busy(pid)
		if err != nil {
			continue // ended meanwhile
		}
		all += used
		if b, err := os.ReadFile(fmt.Sprintf("/proc/%d/cmdline", pid)); err == nil && strings.Contains(string(b), "--type=renderer") {
			renderers += used
		}
	}
	return renderers, all
}

// busy is the processor time of one process.
func busy(pid int) (time.Duration, error) {
	b, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return 0, err
	}
	// The name in brackets may hold anything; after it the 12th and 13th fields
	// are what was used in user and in kernel mode.
	_, rest, _ := strings.Cut(string(b[strings.LastIndex(string(b), ")"):]), " ")
	fields := strings.Fields(rest)
	var ticks int64
	for _, i := range []int{11, 12} {
		if len(fields) <= i {
			return 0, fmt.Errorf("process %d: stat has %d fields", pid, len(fields))
		}
		n, err := strconv.ParseInt(fields[i], 10, 64)
		if err != nil {
			return 0, err
		}
		ticks += n
	}
	return time.Duration(ticks) * tickMS * time.Millisecond, nil
}
