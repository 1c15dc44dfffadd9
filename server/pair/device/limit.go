package device

import (
	"fmt"
	"net/netip"
	"time"
)

// How often a pairing code may be tried in vain: so many at once, and then one
// more each time that so much time has passed.
const (
	triesEach     = 8 // from one address
	triesEachBack = time.Minute
	triesAll      = 60 // from all together
	triesAllBack  = 10 * time.Second
	maxAddresses  = 1024 // remembered at once
)

// A SlowDown says that there were too many tries with wrong codes.
type SlowDown struct {
	Wait time.Duration // until the next try
}

func (e *SlowDown) Error() string {
	return fmt.Sprintf("too many wrong pairing codes, wait %s", e.Wait.Round(time.Second))
}

// A limiter counts wrong tries. Its zero value has seen none. The caller locks.
type limiter struct {
	all  bucket
	each map[string]bucket
}

// bucket is the time at which all its tries will be given back.
type bucket struct{ full time.Time }

// wait is how long from now until a further try; 0 or less: at once.
func (b bucket) wait(now time.Time, size int, back time.Duration) time.Duration {
	if !b.full.After(now) {
		return 0 // also where full is the zero time, from which Sub would overflow
	}
	return b.full.Sub(now) - time.Duration(size-1)*back
}

func (b bucket) failed(now time.Time, back time.Duration) bucket {
	if b.full.Before(now) {
		b.full = now
	}
	return bucket{b.full.Add(back)}
}

func (l *limiter) wait(from string, now time.Time) time.Duration {
	return max(l.all.wait(now, triesAll, triesAllBack), l.each[neighbourhood(from)].wait(now, triesEach, triesEachBack))
}

func (l *limiter) failed(from string, now time.Time) {
	l.all = l.all.failed(now, triesAllBack)
	if l.each == nil {
		l.each = map[string]bucket{}
	}
	if len(l.each) >= maxAddresses {
		l.forget(now)
	}
	key := neighbourhood(from)
	if _, known := l.each[key]; known || len(l.each) < maxAddresses {
		l.each[key] = l.each[key].failed(now, triesEachBack)
	}
}

// forget drops addresses that have all their tries again. Should that free
// none, the limit over all still holds.
func (l *limiter) forget(now time.Time) {
	for key, b := range l.each {
		if !b.full.After(now) {
			delete(l.each, key)
		}
	}
}

// neighbourhood is what counts as one address: with IPv6 a device has a whole
// /64 to choose from.
func neighbourhood(from string) string {
	addr, err := netip.ParseAddr(from)
	if err != nil {
		return from
	}
	addr = addr.Unmap().WithZone("")
	if addr.Is4() {
		return addr.String()
	}
	prefix, err := addr.Prefix(64)
	if err != nil {
		return addr.String()
	}
	return prefix.String()
}
