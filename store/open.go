package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"time"

	"github.com/dgraph-io/badger/v4"
	"github.com/dgraph-io/badger/v4/options"

	"sinkside/sync/journal"
)

// Options says how to open a store. Its zero value is right for a studio.
type Options struct {
	// FreeFloor is how many bytes must be free on the disk for a write to be
	// taken; 0 means 128 MiB. Badger writes through memory maps, and a map that
	// the disk cannot back ends the process, so the disk must never fill up to
	// the last byte while badger writes or rearranges its files. 128 MiB covers
	// what it rearranges at once for a store of some gigabytes.
	FreeFloor int64
	// Reserve is how many bytes the file "reserve" holds back; 0 means 32 MiB.
	// They are given up to open or close a store on a full disk.
	Reserve int64
	// TidyEvery is how often a store at rest gives back the space of removed
	// photographs; 0 means every ten minutes.
	TidyEvery time.Duration
	// Free says how many bytes are free on the disk that holds dir; nil asks
	// the system.
	Free func(dir string) (int64, error)
	// Warn is told of trouble in the background; nil drops it.
	Warn func(sentence string)

	// fault is asked at named points of a write, for tests; an error is what
	// the disk would have answered.
	fault func(point string) error
	// format and steps stand for a later version of the layout, for tests.
	format int
	steps  map[int]migration
}

func (o Options) withDefaults() Options {
	if o.FreeFloor == 0 {
		o.FreeFloor = 128 << 20
	}
	if o.Reserve == 0 {
		o.Reserve = 32 << 20
	}
	if o.TidyEvery == 0 {
		o.TidyEvery = 10 * time.Minute
	}
	if o.Free == nil {
		o.Free = freeBytes
	}
	if o.Warn == nil {
		o.Warn = func(string) {}
	}
	if o.fault == nil {
		o.fault = func(string) error { return nil }
	}
	if o.format == 0 {
		o.format, o.steps = formatVersion, migrations
	}
	return o
}

// Store is a store on disk. Open makes one. All methods may be called at the
// same time.
type Store struct {
	dir   string
	o     Options
	space space
	packs packs

	dbMu  sync.RWMutex // held to replace db
	db    *badger.DB   // nil when closed or broken: then gone says why
	gone  error
	stuck bool // badger could not be closed, so this process cannot open it again

	heads index
	blobs incoming

	calls chan *call
	quit  chan struct{} // closed to end the committer and the tidier
	ended sync.WaitGroup
	once  sync.Once

	maxKeys, maxBytes int64        // badger's limits for one transaction
	writes            atomic.Int64 // counts transactions, to see when the store rests

	// Owned by the committer.
	wounded  error        // why badger must be opened anew before the next write
	removals []journal.ID // treatments whose removal has begun
}

// errLean is why a store that was opened on a full disk is opened anew.
var errLean = errors.New("the disk was full when it was opened")

// Open opens the store in dir, making it when the folder is empty or missing.
// It fails with ErrNewer, ErrInUse, ErrNoAccess, ErrFull, ErrForeign or
// ErrDamaged, in a sentence that says what to do.
func Open(dir string, o Options) (*Store, error) {
	o = o.withDefaults()
	s := &Store{
		dir: dir, o: o,
		packs: packs{dir: filepath.Join(dir, "blobs"), size: packSize, fault: o.fault},
		calls: make(chan *call),
		quit:  make(chan struct{}),
	}
	for _, folder := range []string{s.dbDir(), s.packs.dir} {
		if err := os.MkdirAll(folder, 0o700); err != nil {
			return nil, noAccess(folder, fmt.Errorf("make the store's folder: %w", err))
		}
		if err := s.tryWriting(folder); err != nil {
			return nil, err
		}
	}
	version, err := readFormat(dir, o.format)
	if err != nil {
		return nil, err
	}
	s.space = space{dir: dir, floor: o.FreeFloor, reserve: o.Reserve, free: o.Free}
	if err := s.space.forOpening(); err != nil {
		return nil, err
	}
	if s.db, err = s.openDB(); err != nil {
		return nil, err
	}
	if err := s.start(version); err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	return s, nil
}

// start brings an opened database up to date and starts the goroutines.
func (s *Store) start(version int) error {
	if err := s.migrate(version); err != nil {
		return err
	}
	s.maxKeys, s.maxBytes = s.db.MaxBatchCount(), s.db.MaxBatchSize()
	if err := s.loadRemovals(); err != nil {
		return err
	}
	if s.wounded == nil {
		if err := s.finishRemovals(); err != nil {
			return err
		}
	}
	if err := s.loadHeads(); err != nil {
		return err
	}
	if err := s.packs.open(); err != nil {
		return err
	}
	s.ended.Add(2)
	go s.committer()
	go s.tidier()
	return nil
}

func (s *Store) dbDir() string { return filepath.Join(s.dir, "db") }

// memTable is how many bytes badger gathers before it writes a table.
const memTable = 8 << 20

// badgerOptions is badger tuned small: a studio machine is often an old laptop.
// Every value stays in the tree; the value log, which stays empty, is as small
// as badger lets it be.
func badgerOptions(dir string) badger.Options {
	return badger.DefaultOptions(dir).
		WithSyncWrites(true).
		WithDetectConflicts(false). // there is one writer, the committer
		WithNumMemtables(2).
		WithMemTableSize(memTable).
		WithBlockCacheSize(8 << 20).
		WithCompression(options.Snappy).
		WithValueLogFileSize(1 << 20).
		WithValueThreshold(2 * MaxRecord).
		WithNumCompactors(2).
		WithNumLevelZeroTables(3).
		WithNumLevelZeroTablesStall(6).
		WithChecksumVerificationMode(options.OnBlockRead).
		WithMetricsEnabled(false)
}

// openDB opens badger. On a full disk it is opened for reading and for closing
// alone: without the goroutines that rearrange its files, which would need room.
// The first write that finds room again opens it anew.
func (s *Store) openDB() (db *badger.DB, err error) {
	defer unreadable(&err)
	o := badgerOptions(s.dbDir()).WithLogger(badgerLog{s.o.Warn})
	s.wounded = nil
	if s.space.low() {
		s.wounded = errLean
		o = o.WithNumCompactors(0).WithNumLevelZeroTablesStall(1 << 20)
	}
	db, err = badger.Open(o)
	// A process that was killed when badger had just made a file leaves it empty.
	// Badger fills it as it opens, and yet fails; the next try finds it whole.
	for tries := 0; tries < 3 && err != nil && strings.Contains(err.Error(), "Create a new file"); tries++ {
		db, err = badger.Open(o)
	}
	switch {
	case err == nil:
		return db, nil
	case strings.Contains(err.Error(), "directory lock"):
		return nil, fmt.Errorf("%w: another process%s has %s open; stop it first, or give this one a folder of its own",
			ErrInUse, s.holder(), s.dir)
	case noSpace(err):
		return nil, s.space.tooFull()
	}
	return nil, fmt.Errorf("%w: %s cannot be opened (%v); keep a copy of the folder and restore a backup beside it",
		ErrDamaged, s.dir, err)
}

// tryWriting finds out beforehand what badger would not tell apart from damage: its
// errors carry no cause. What else a try can meet, a full disk above all, is met
// again by whoever writes in earnest.
func (s *Store) tryWriting(folder string) error {
	err := s.o.fault("try")
	if err == nil {
		var f *os.File
		if f, err = os.CreateTemp(folder, ".try-*"); err == nil {
			_ = errors.Join(f.Close(), os.Remove(f.Name()))
		}
	}
	if err = noAccess(folder, err); errors.Is(err, ErrNoAccess) {
		return err
	}
	return nil
}

// noAccess makes ErrNoAccess of an error that says that a folder takes no writes
// from this user.
func noAccess(folder string, err error) error {
	if errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) {
		return fmt.Errorf("%w: this user may not write in %s; give it the right to, or give another folder (%v)", ErrNoAccess, folder, err)
	}
	return err
}

// holder names the process that badger wrote into its lock file, if any.
func (s *Store) holder() string {
	pid, err := os.ReadFile(filepath.Join(s.dbDir(), "LOCK"))
	if err != nil || len(pid) == 0 {
		return ""
	}
	return " (number " + strings.TrimSpace(string(pid)) + ")"
}

// Close ends the store. Calls that wait to be written fail with ErrClosed.
func (s *Store) Close() (err error) {
	s.once.Do(func() {
		close(s.quit)
		s.ended.Wait()
		s.space.forClosing()
		s.dbMu.Lock()
		defer s.dbMu.Unlock()
		err = s.packs.close()
		if s.db != nil {
			err = errors.Join(err, s.db.Close())
		}
		s.db, s.gone = nil, ErrClosed
	})
	return err
}

// view runs f in a reading transaction.
func (s *Store) view(f func(*badger.Txn) error) (err error) {
	s.dbMu.RLock()
	defer s.dbMu.RUnlock()
	if s.db == nil {
		return s.gone
	}
	defer unreadable(&err)
	return s.db.View(f)
}

// unreadable, deferred, makes an error of a panic: badger trusts some bytes of
// its files before it checks them.
func unreadable(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("%w: a file of the database (%v)", ErrDamaged, p)
	}
}
