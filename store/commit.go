package store

import (
	"errors"
	"fmt"
	"time"

	"github.com/dgraph-io/badger/v4"

	"sinkside/sync/journal"
)

// cost is what a call asks of a transaction at most: keys, bytes by badger's own
// reckoning, and bytes for the packs.
type cost struct{ keys, bytes, pack int64 }

func (c cost) plus(d cost) cost {
	return cost{c.keys + d.keys, c.bytes + d.bytes, c.pack + d.pack}
}

// put is the cost of one key and value.
func put(key, value int) cost {
	const overhead = 2 + 10 + 12 // badger's marks and version, and some to spare
	return cost{keys: 1, bytes: int64(key+value) + overhead}
}

// maxPack bounds the bytes of chunks in one transaction, so that the first of
// them does not wait long for the last.
const maxPack = 8 << 20

// A call is one caller's part of a transaction.
type call struct {
	cost  cost
	apply func(b *batch) error // puts into the batch; an error fails this call alone
	alone func() error         // in place of apply: a work of several transactions
	done  chan error           // takes one result
}

// batch is a transaction in the making.
type batch struct {
	s     *Store
	tx    *badger.Txn
	heads map[journal.Chain]journal.Head // heads that the batch moves
	fresh int                            // chains that it begins

	chunks []chunk          // for the packs
	brings map[*arrival]int // how many of them are of a blob
	then   []func()         // run once it is durable
}

// do hands a call to the committer and waits until it is durable.
func (s *Store) do(c *call) error {
	c.done = make(chan error, 1)
	select {
	case s.calls <- c:
		return <-c.done
	case <-s.quit:
		return ErrClosed
	}
}

// committer is the one goroutine that writes. While one transaction is being
// made durable, calls gather; the next transaction takes them all.
func (s *Store) committer() {
	defer s.ended.Done()
	var held *call
	for {
		first := held
		if held = nil; first == nil {
			select {
			case first = <-s.calls:
			case <-s.quit:
				return
			}
		}
		if first.alone != nil {
			first.done <- s.guarded(0, first.alone)
		} else {
			held = s.writeGathered(first)
		}
		// A database that failed in a write can fail in a read as well, so it is
		// replaced at once; when that does not go now, before the next write.
		if s.wounded != nil && s.space.forWriting(0) == nil {
			if err := s.heal(); err != nil {
				s.o.Warn(err.Error())
			}
		}
	}
}

// writeGathered writes first and the calls that wait with it, and returns the
// one that is for the next transaction, if any.
func (s *Store) writeGathered(first *call) (held *call) {
	calls, size, held := s.gather(first)
	err := s.guarded(size.bytes+size.pack, func() error {
		s.write(calls)
		calls = nil
		return nil
	})
	for _, c := range calls {
		c.done <- err
	}
	return held
}

// gather takes the calls that wait, as far as they fit into one transaction. The
// first that does not fit is held for the next one.
func (s *Store) gather(first *call) (calls []*call, size cost, held *call) {
	calls, size = []*call{first}, first.cost
	for {
		select {
		case c := <-s.calls:
			if c.alone != nil || !s.fits(size.plus(c.cost)) {
				return calls, size, c
			}
			calls, size = append(calls, c), size.plus(c.cost)
		default:
			return calls, size, nil
		}
	}
}

// fits tells whether one transaction can take c.
func (s *Store) fits(c cost) bool {
	const spare = 256 // the count of heads and badger's own last mark
	return c.keys < s.maxKeys-4 && c.bytes < s.maxBytes-spare && c.pack <= maxPack
}

// guarded runs f, which writes n bytes, once badger is sound and there is room.
func (s *Store) guarded(n int64, f func() error) error {
	if err := s.space.forWriting(n); err != nil {
		return err
	}
	if err := s.heal(); err != nil {
		return err
	}
	if err := s.finishRemovals(); err != nil {
		return err
	}
	s.writes.Add(1)
	return f()
}

// write makes one transaction of the calls and answers them. A call that fails
// by itself is answered, and the rest is begun again without it.
func (s *Store) write(calls []*call) {
	for len(calls) > 0 {
		b := &batch{
			s: s, tx: s.db.NewTransaction(true),
			heads: map[journal.Chain]journal.Head{}, brings: map[*arrival]int{},
		}
		failed, err := b.build(calls)
		if err == nil {
			err = b.commit()
			for _, c := range calls {
				c.done <- err
			}
			return
		}
		b.tx.Discard()
		calls[failed].done <- err
		calls = append(calls[:failed:failed], calls[failed+1:]...)
	}
}

// build applies the calls in turn; failed is the one that gave err.
func (b *batch) build(calls []*call) (failed int, err error) {
	for i, c := range calls {
		if err := c.apply(b); err != nil {
			return i, err
		}
	}
	if b.fresh > 0 {
		return len(calls) - 1, b.set(headsKey, countValue(b.s.heads.chains()+b.fresh))
	}
	return 0, nil
}

func (b *batch) set(key, value []byte) error { return b.tx.Set(key, value) }

// head is the head of a chain as this batch will leave it.
func (b *batch) head(c journal.Chain) journal.Head {
	if h, ok := b.heads[c]; ok {
		return h
	}
	return b.s.heads.head(c)
}

// commit makes the batch durable, and only then shows its heads.
func (b *batch) commit() error {
	if err := b.writeChunks(); err != nil {
		b.tx.Discard()
		return b.s.failed(err)
	}
	if err := b.s.commit(b.tx); err != nil {
		return err
	}
	b.s.heads.set(b.heads)
	for _, f := range b.then {
		f()
	}
	return nil
}

// writeChunks makes the chunks durable in a pack, and puts where they stand.
func (b *batch) writeChunks() error {
	if len(b.chunks) == 0 {
		return nil
	}
	places, err := b.s.packs.write(b.chunks)
	if err != nil {
		return err
	}
	for i, c := range b.chunks {
		if err := b.set(c.key, places[i].value()); err != nil {
			return err
		}
	}
	return nil
}

// commit makes a transaction durable. When it fails, nobody knows how much of it
// badger holds in memory or on disk: the store is wounded, and badger is opened
// anew before the next write.
func (s *Store) commit(tx *badger.Txn) error {
	defer tx.Discard()
	err := s.o.fault("commit")
	if err == nil {
		err = tx.Commit()
	}
	if err == nil {
		err = s.o.fault("sync")
	}
	if err == nil {
		return nil
	}
	s.wounded = err
	return s.failed(err)
}

// commitOne makes one key durable, outside any batch.
func (s *Store) commitOne(key, value []byte) error {
	tx := s.db.NewTransaction(true)
	defer tx.Discard()
	if err := tx.Set(key, value); err != nil {
		return err
	}
	return s.commit(tx)
}

// failed says why a write failed, in our words.
func (s *Store) failed(err error) error {
	if noSpace(err) {
		return fmt.Errorf("%w (%v)", s.space.tooFull(), err)
	}
	return fmt.Errorf("write to %s: %w", s.dir, err)
}

// closingTime is how long badger may take to close before it is given up. It
// tries for ever to write its last table to a disk that refuses.
const closingTime = 30 * time.Second

// heal opens badger anew where it must be. Closing writes what it holds in memory
// into a table of its own, so that what is read afterwards is on the disk,
// whatever became of a sync that failed.
func (s *Store) heal() error {
	if s.wounded == nil {
		return nil
	}
	why := s.wounded
	err := s.replaceDB()
	if err == nil {
		s.blobs.forget()
		err = errors.Join(s.loadRemovals(), s.loadHeads())
	}
	if err != nil {
		s.wounded = why
	}
	return err
}

// replaceDB closes badger and opens it again; readers wait.
func (s *Store) replaceDB() error {
	s.dbMu.Lock()
	defer s.dbMu.Unlock()
	if s.stuck {
		return s.gone
	}
	s.gone = fmt.Errorf("%w after a failed write to %s (%v); look at the disk, then start again", ErrClosed, s.dir, s.wounded)
	if s.db != nil {
		old := s.db
		s.db = nil
		closed := make(chan error, 1)
		go func() { closed <- old.Close() }()
		select {
		case err := <-closed:
			if err != nil {
				s.o.Warn("close after a failed write: " + err.Error())
			}
		case <-time.After(closingTime):
			s.stuck = true
			return s.gone
		}
	}
	db, err := s.openDB()
	if err == nil {
		s.db = db
	}
	return err
}
