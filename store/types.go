package store

import "errors"

const (
	// ChunkSize is the size of a blob's chunk in bytes; the last one may be
	// shorter.
	ChunkSize = 128 << 10
	// MaxBlob is the largest blob in bytes: 1 GiB.
	MaxBlob = 1 << 30
	// MaxRecord is the largest small record in bytes.
	MaxRecord = 64 << 10
	// MaxKey is the longest name of a bucket or of a key in it, in bytes.
	MaxKey = 512
)

var (
	// ErrNewer says that a newer version of the program wrote this store.
	ErrNewer = errors.New("store is from a newer version")
	// ErrInUse says that another process has this store open: mostly a second
	// server, or a command that should ask the running server instead.
	ErrInUse = errors.New("store is in use")
	// ErrNoAccess says that this user may not write in the store's folder, or that
	// its disk takes no writes at all. Nothing is wrong with the store.
	ErrNoAccess = errors.New("store may not be written")
	// ErrFull says that the disk is full. Nothing of the call was acknowledged;
	// it can be made again once there is space. It has a method Full() bool, by
	// which packages that do not import this one can tell it.
	ErrFull error = fullError{}
	// ErrDamaged says that bytes in the store are not those that were written.
	// The cause names them.
	ErrDamaged = errors.New("damaged in the store")
	// ErrClosed says that the store was closed before or during the call.
	ErrClosed = errors.New("store is closed")
	// ErrForeign says that the folder holds something that is no store.
	ErrForeign = errors.New("folder is no store")
	// ErrRecord says that a small record's bucket, key or value is outside its
	// limits.
	ErrRecord = errors.New("record out of limits")
	// ErrBlob says that a blob or chunk is not what was announced: size out of
	// limits, a chunk that does not fit, or a whole whose SHA-256 is not its
	// name.
	ErrBlob = errors.New("blob is not what was announced")
	// ErrNoBlob says that the store holds no such blob, or not this chunk.
	ErrNoBlob = errors.New("no such blob")
)

// Chunks returns how many chunks a blob of size bytes has.
func Chunks(size int64) int { return int((size + ChunkSize - 1) / ChunkSize) }

// ChunkLen returns the length in bytes of chunk i of a blob of size bytes, 0
// when it has no such chunk.
func ChunkLen(size int64, i int) int {
	if i < 0 || i >= Chunks(size) {
		return 0
	}
	return int(min(ChunkSize, size-int64(i)*ChunkSize))
}

// Change is one change of a small record: its new value, or its deletion.
type Change struct {
	Bucket, Key string
	Value       []byte
	Delete      bool
}

type fullError struct{}

func (fullError) Error() string { return "disk is full" }
func (fullError) Full() bool    { return true }
