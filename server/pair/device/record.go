package device

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"sinkside/sync/journal"
)

const devicesBucket = "devices"

// seenEvery is how often Run writes down when devices were last seen. More
// often would cost an fsync a device and tell nobody anything.
const seenEvery = 5 * time.Minute

// entry is a device with what never leaves the register.
type entry struct {
	Device
	token    digest    // SHA-256 of its token
	nonce    digest    // SHA-256 of the nonce that it was asked for with; zero unless a successor
	seenKept time.Time // Seen as it stands on disk
}

// record is an entry on disk: JSON, its times in Unix milliseconds.
type record struct {
	V        int    `json:"v"`
	Label    string `json:"label"`
	Created  int64  `json:"created_ms"`
	Seen     int64  `json:"seen_ms"`
	Revoked  int64  `json:"revoked_ms,omitempty"`
	Succeeds string `json:"succeeds,omitempty"`
	Token    []byte `json:"token_sha256"`
	Nonce    []byte `json:"nonce_sha256,omitempty"`
}

// put writes one entry; the caller holds changing and has a copy of its own.
func (r *Register) put(e entry) error {
	rec := record{V: 1, Label: e.Label, Created: millis(e.Created), Seen: millis(e.Seen), Revoked: millis(e.Revoked), Token: e.token[:]}
	if e.Succeeds != (journal.ID{}) {
		rec.Succeeds, rec.Nonce = e.Succeeds.String(), e.nonce[:]
	}
	text, err := json.Marshal(rec)
	if err != nil {
		return err
	}
	return r.records.Put(devicesBucket, e.ID.String(), text)
}

func (r *Register) readDevices() error {
	return r.records.Each(devicesBucket, func(key string, value []byte) error {
		e, err := parseEntry(key, value)
		if err != nil {
			return fmt.Errorf("device %s: %w", key, err)
		}
		r.devices[e.ID] = e
		return nil
	})
}

func parseEntry(key string, value []byte) (*entry, error) {
	var rec record
	if err := json.Unmarshal(value, &rec); err != nil {
		return nil, err
	}
	id, err := journal.ParseID(key)
	if err != nil {
		return nil, err
	}
	e := &entry{Device: Device{ID: id, Label: rec.Label, Created: moment(rec.Created), Seen: moment(rec.Seen), Revoked: moment(rec.Revoked)}}
	e.seenKept = e.Seen
	if len(rec.Token) != len(e.token) {
		return nil, fmt.Errorf("its token's hash has %d bytes, want %d", len(rec.Token), len(e.token))
	}
	copy(e.token[:], rec.Token)
	copy(e.nonce[:], rec.Nonce)
	if rec.Succeeds != "" {
		if e.Succeeds, err = journal.ParseID(rec.Succeeds); err != nil {
			return nil, err
		}
	}
	return e, nil
}

// Run writes down, every few minutes and once more when ctx ends, when devices
// were last seen. It returns the last failure; until then it tries again.
func (r *Register) Run(ctx context.Context) error {
	tick := time.NewTicker(seenEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return r.Flush()
		case <-tick.C:
			_ = r.Flush() // said at the end if it still fails
		}
	}
}

// Flush writes down when devices were last seen.
func (r *Register) Flush() error {
	r.changing.Lock()
	defer r.changing.Unlock()
	for _, e := range r.newlySeen() {
		if err := r.put(e); err != nil {
			return fmt.Errorf("keep when %s was seen: %w", e.ID, err)
		}
		r.mu.Lock()
		r.devices[e.ID].seenKept = e.Seen
		r.mu.Unlock()
	}
	return nil
}

func (r *Register) newlySeen() []entry {
	r.mu.RLock()
	defer r.mu.RUnlock()
	var list []entry
	for _, e := range r.devices {
		if !e.Seen.Equal(e.seenKept) {
			list = append(list, *e)
		}
	}
	return list
}

func millis(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

func moment(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms)
}
