package store

import (
	"fmt"
	"strings"
)

// badgerLog takes in what badger says. Its errors and warnings are about work in
// the background; what it reports about progress is dropped.
type badgerLog struct{ warn func(sentence string) }

func (l badgerLog) Errorf(format string, args ...any) {
	l.warn("database: " + strings.TrimSpace(fmt.Sprintf(format, args...)))
}

func (l badgerLog) Warningf(format string, args ...any) { l.Errorf(format, args...) }

func (badgerLog) Infof(string, ...any)  {}
func (badgerLog) Debugf(string, ...any) {}
