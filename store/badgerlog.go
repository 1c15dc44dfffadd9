package store

import (
	"fmt"
	"strings"
	"sync/atomic"
)

// badgerLog takes in what badger says. Its errors and warnings are about work in
// the background; what it reports about progress is dropped.
type badgerLog struct {
	warn func(sentence string)
	// unsynced counts failed syncs of the value log. Badger only logs those and
	// reports the transaction as written, so the committer looks here.
	unsynced atomic.Int64
}

func (l *badgerLog) Errorf(format string, args ...any) {
	if strings.Contains(format, "curlf sync") {
		l.unsynced.Add(1)
	}
	l.warn("database: " + strings.TrimSpace(fmt.Sprintf(format, args...)))
}

func (l *badgerLog) Warningf(format string, args ...any) {
	l.warn("database: " + strings.TrimSpace(fmt.Sprintf(format, args...)))
}

func (*badgerLog) Infof(string, ...any)  {}
func (*badgerLog) Debugf(string, ...any) {}
