package browser

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// slice is how long a slowed browser runs before it is stopped again.
const slice = time.Millisecond

// slowDown makes every thread of every process of a browser run one n-th of
// the time, until stop is called. The DevTools protocol's own slow-down leaves
// workers, compiler threads and storage at full speed, and there the app has
// its core; a phone has no fast threads in reserve.
func slowDown(profile string, n int) (stop func()) {
	quit, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		tick := time.NewTicker(slice)
		defer tick.Stop()
		var pids []int
		defer func() { signal(pids, syscall.SIGCONT) }()
		for i := 0; ; i++ {
			if i%(8*n) == 0 {
				pids = processes(profile)
			}
			if i%n == 0 {
				signal(pids, syscall.SIGCONT)
			} else {
				signal(pids, syscall.SIGSTOP)
			}
			select {
			case <-quit:
				return
			case <-tick.C:
			}
		}
	}()
	return func() { close(quit); <-done }
}

// signal sends a signal to processes; one that ended meanwhile needs none.
func signal(pids []int, s syscall.Signal) {
	for _, pid := range pids {
		syscall.Kill(pid, s)
	}
}

// processes lists the running processes that were started on a profile folder.
func processes(profile string) (pids []int) {
	cmdlines, _ := filepath.Glob("/proc/[0-9]*/cmdline") // the pattern is sound
	for _, f := range cmdlines {
		b, err := os.ReadFile(f)
		if err != nil || !strings.Contains(string(b), profile) {
			continue // ended meanwhile, or another's
		}
		if pid, err := strconv.Atoi(filepath.Base(filepath.Dir(f))); err == nil {
			pids = append(pids, pid)
		}
	}
	return pids
}
