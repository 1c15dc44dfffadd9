package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
)

// packSize is where a pack is closed and the next begun, in bytes.
const packSize = 64 << 20

// packHead is what stands before each chunk in a pack: the blob's sum (32), the
// chunk's number (4) and its length (4), so that a pack can be read by itself.
const packHead = 40

// packs are files to whose end chunks are written. They take the place of
// badger's value log, which writes through memory maps: that takes more than
// twice as long for photographs, and kills the process when the disk is full.
//
// Only the committer writes. The bytes behind the last chunk that a key points
// to, left by a write that failed or was cut off, are never read.
type packs struct {
	dir   string
	size  int64 // where a pack ends
	fault func(point string) error
	now   atomic.Uint32 // number of the pack that is written to
	file  *os.File      // nil: the next write begins a pack
	end   int64         // where the next chunk goes
}

// place is where a chunk stands: a pack, an offset in it, and its length.
type place struct {
	pack   uint32
	offset int64
	length int
}

func (p place) value() []byte {
	b := binary.BigEndian.AppendUint32(make([]byte, 0, 16), p.pack)
	b = binary.BigEndian.AppendUint64(b, uint64(p.offset))
	return binary.BigEndian.AppendUint32(b, uint32(p.length))
}

func placeOfChunk(value []byte) (p place, right bool) {
	if len(value) != 16 {
		return p, false
	}
	p.pack = binary.BigEndian.Uint32(value)
	p.offset = int64(binary.BigEndian.Uint64(value[4:]))
	p.length = int(binary.BigEndian.Uint32(value[12:]))
	return p, p.offset >= packHead && p.length >= 1 && p.length <= ChunkSize
}

func (p *packs) path(n uint32) string { return filepath.Join(p.dir, fmt.Sprintf("%06d.pack", n)) }

// open finds the last pack, and goes on behind its end.
func (p *packs) open() error {
	all, err := p.numbers()
	if err != nil || len(all) == 0 {
		return err
	}
	p.now.Store(all[len(all)-1])
	if p.file, err = os.OpenFile(p.path(p.now.Load()), os.O_RDWR, 0); err != nil {
		return err
	}
	info, err := p.file.Stat()
	if err == nil {
		p.end = info.Size()
	}
	return err
}

// numbers returns the numbers of all packs, sorted.
func (p *packs) numbers() (all []uint32, err error) {
	files, err := os.ReadDir(p.dir)
	if err != nil {
		return nil, fmt.Errorf("list the packs: %w", err)
	}
	for _, f := range files {
		name, ok := strings.CutSuffix(f.Name(), ".pack")
		if n, err := strconv.ParseUint(name, 10, 32); ok && err == nil {
			all = append(all, uint32(n))
		}
	}
	slices.Sort(all)
	return all, nil
}

func (p *packs) close() error {
	if p.file == nil {
		return nil
	}
	err := p.file.Close()
	p.file = nil
	return err
}

// begin begins the next pack.
func (p *packs) begin() error {
	if err := p.close(); err != nil {
		return err
	}
	n := p.now.Load() + 1
	f, err := os.OpenFile(p.path(n), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	p.now.Store(n)
	p.file, p.end = f, 0
	return syncDir(p.dir)
}

// chunk is a chunk on its way into a pack.
type chunk struct {
	key  []byte
	data []byte
}

// write appends chunks, makes them durable, and returns their places. When it
// fails none is kept, and the next write begins a new pack: what a disk holds
// after a failed sync cannot be told.
func (p *packs) write(chunks []chunk) (places []place, err error) {
	if p.file == nil || p.end >= p.size {
		if err := p.begin(); err != nil {
			return nil, err
		}
	}
	start := p.end
	if places, err = p.append(chunks); err == nil {
		if err = p.fault("pack sync"); err == nil {
			err = p.file.Sync()
		}
	}
	if err != nil {
		// Giving the space back is all that truncating is for.
		return nil, errors.Join(err, p.file.Truncate(start), p.close())
	}
	return places, nil
}

func (p *packs) append(chunks []chunk) (places []place, err error) {
	places = make([]place, len(chunks))
	var head [packHead]byte
	for i, c := range chunks {
		if err := p.fault("pack write"); err != nil {
			return nil, err
		}
		copy(head[:], c.key[1:37]) // sum and number, as in the key
		binary.BigEndian.PutUint32(head[36:], uint32(len(c.data)))
		if _, err := p.file.WriteAt(head[:], p.end); err != nil {
			return nil, err
		}
		if _, err := p.file.WriteAt(c.data, p.end+packHead); err != nil {
			return nil, err
		}
		places[i] = place{p.now.Load(), p.end + packHead, len(c.data)}
		p.end += packHead + int64(len(c.data))
	}
	return places, nil
}

// errMoved says that a pack is gone, since its chunks were moved to another.
var errMoved = errors.New("pack is gone")

// read returns the bytes at a place.
func (p *packs) read(at place) ([]byte, error) {
	f, err := os.Open(p.path(at.pack))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errMoved
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data := make([]byte, at.length)
	_, err = f.ReadAt(data, at.offset)
	return data, err
}
