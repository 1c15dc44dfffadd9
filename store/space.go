package store

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"
)

// space watches the room on the disk. Badger writes its files through memory
// maps of sparse files: when the disk cannot back a page, the process gets a bus
// error and is gone. So a write is refused, with ErrFull, long before that.
type space struct {
	dir     string
	floor   int64 // bytes that must be free beside what a write needs
	reserve int64 // bytes in the file "reserve"
	free    func(dir string) (int64, error)
	held    atomic.Bool // the reserve is there
}

func (p *space) path() string { return filepath.Join(p.dir, "reserve") }

// forOpening sees to it that badger can be opened: it then writes what its logs
// hold into tables, and makes new logs. On a full disk the reserve is given up
// for that.
func (p *space) forOpening() error {
	if info, err := os.Stat(p.path()); err == nil {
		p.held.Store(info.Size() == p.reserve)
	}
	need := p.inLogs()
	free, err := p.free(p.dir)
	if err == nil && free < need && p.release() {
		free, err = p.free(p.dir)
	}
	switch {
	case err != nil:
		return fmt.Errorf("ask for the free space of %s: %w", p.dir, err)
	case free < need:
		return p.tooFull()
	}
	return nil
}

// inLogs is how many bytes badger writes to get its logs into tables, and 2 MB
// for all that it makes anew besides.
func (p *space) inLogs() int64 {
	need := int64(2 << 20)
	logs, err := filepath.Glob(filepath.Join(p.dir, "db", "*.mem"))
	if err != nil {
		return need
	}
	for range logs {
		need += memTable
	}
	return need
}

// low tells whether there is too little room for badger to rearrange its files.
func (p *space) low() bool {
	free, err := p.free(p.dir)
	return err != nil || free < p.floor
}

// forWriting says whether a write of n bytes may go ahead. The reserve that was
// given up is taken again when there is plenty.
func (p *space) forWriting(n int64) error {
	free, err := p.free(p.dir)
	if err != nil {
		return fmt.Errorf("ask for the free space of %s: %w", p.dir, err)
	}
	// Badger writes everything twice: into its log, and later into a table.
	if free < p.floor+2*n {
		return p.tooFull()
	}
	if !p.held.Load() && free >= p.floor+2*n+p.reserve {
		p.held.Store(p.take() == nil)
	}
	return nil
}

// forClosing makes room for badger to write its last table.
func (p *space) forClosing() {
	if free, err := p.free(p.dir); err == nil && free < p.inLogs() {
		p.release()
	}
}

func (p *space) tooFull() error {
	need := (p.floor + p.reserve) >> 20
	return fmt.Errorf("%w: free %d MB on the disk that holds %s; what is stored stays readable", ErrFull, max(need, 1), p.dir)
}

func (p *space) release() bool {
	p.held.Store(false)
	return os.Remove(p.path()) == nil
}

func (p *space) take() error {
	f, err := os.Create(p.path())
	if err != nil {
		return err
	}
	err = allocate(f, p.reserve)
	if err := f.Close(); err != nil {
		return err
	}
	if err != nil {
		os.Remove(p.path())
	}
	return err
}

// fill allocates by writing, where the system has no call for it.
func fill(f *os.File, n int64) error {
	zeros := make([]byte, 1<<20)
	for n > 0 {
		k, err := f.Write(zeros[:min(n, int64(len(zeros)))])
		if err != nil {
			return err
		}
		n -= int64(k)
	}
	return f.Sync()
}

// noSpace tells whether a badger error is that of a full disk. Badger keeps the
// text of a cause, not always the cause.
func noSpace(err error) bool {
	text := err.Error()
	return strings.Contains(text, syscall.ENOSPC.Error()) || strings.Contains(text, "disk quota exceeded")
}
