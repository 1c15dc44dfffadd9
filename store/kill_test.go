package store_test

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"sinkside/store"
	"sinkside/store/storetest"
	"sinkside/sync/journal"
)

var killRounds = flag.Int("kill-rounds", 5, "how often TestKill kills the writing process")

// The test binary runs itself as the process that is killed or measured.
const childEnv = "SINKSIDE_STORE_CHILD"

func TestMain(m *testing.M) {
	switch os.Getenv(childEnv) {
	case "write":
		fail(writeUntilKilled(os.Getenv("DIR")))
	case "open":
		fail(openAndMeasure(os.Getenv("DIR")))
	default:
		os.Exit(m.Run())
	}
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

// child ends at a data race too: its parent, which kills it or waits for it, then fails.
func child(role, dir string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childEnv+"="+role, "DIR="+dir, "GORACE=halt_on_error=1")
	cmd.Stderr = os.Stderr
	return cmd
}

const killDevices = 4

// killed names the chains that the killed process writes.
func killed(dev int) journal.Chain {
	return journal.Chain{Job: storetest.ID(uint64(dev % 2)), Dev: storetest.ID(uint64(100 + dev))}
}

// quiet stands for the testing.TB of an author outside a test.
type quiet struct{ testing.TB }

func (quiet) Helper()                   {}
func (quiet) Fatalf(f string, a ...any) { panic(fmt.Sprintf(f, a...)) }

// writeUntilKilled appends to four chains at once, and a photograph's chunks and
// records beside them, printing what was acknowledged.
func writeUntilKilled(dir string) error {
	s, err := store.Open(dir, small)
	if err != nil {
		return err
	}
	var out sync.Mutex
	acknowledge := func(format string, a ...any) {
		out.Lock()
		defer out.Unlock()
		fmt.Printf(format+"\n", a...)
	}
	failed := make(chan error)
	for dev := range killDevices {
		go func() {
			a := storetest.NewAuthor(killed(dev).Job, killed(dev).Dev)
			head, err := s.Head(a.Chain)
			if err != nil {
				failed <- err
			}
			a.Head = head
			for {
				es := a.Run(quiet{}, 1+dev*5, 100)
				verdicts, err := s.Append(es)
				if err != nil {
					failed <- err
				}
				for _, v := range verdicts {
					if v != journal.Stored {
						failed <- errors.New("verdict " + v.String())
					}
				}
				acknowledge("entry %d %d", dev, a.Head.N)
			}
		}()
	}
	go func() {
		for n := 0; ; n++ {
			if err := s.Put("acks", "last", fmt.Append(nil, n)); err != nil {
				failed <- err
			}
			acknowledge("record %d 0", n)
			data, sum := storetest.Photo(uint64(n%50), 150_000)
			if _, _, err := s.BlobBegin(sum, int64(len(data))); err != nil {
				failed <- err
			}
			for i := range 2 {
				if _, _, err := s.BlobChunk(sum, i, storetest.Chunk(data, i)); err != nil {
					failed <- err
				}
			}
			acknowledge("photo %d 0", n%50)
		}
	}()
	return <-failed
}

// acks is what a killed process acknowledged.
type acks struct {
	entries [killDevices]uint64
	record  int
	photos  map[int]bool
	count   int
}

func (a *acks) read(line string) error {
	var what string
	var i int
	var n uint64
	if _, err := fmt.Sscanf(line, "%s %d %d", &what, &i, &n); err != nil {
		return fmt.Errorf("line %q: %w", line, err)
	}
	a.count++
	switch what {
	case "entry":
		a.entries[i] = n
	case "record":
		a.record = i
	case "photo":
		a.photos[i] = true
	}
	return nil
}

// TestKill kills a writing process again and again. Whatever it acknowledged is
// there afterwards, chains are unbroken, and nothing is there twice.
func TestKill(t *testing.T) {
	dir := t.TempDir()
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	chance := rand.New(rand.NewPCG(seed, 0))
	got := acks{photos: map[int]bool{}}
	for round := range *killRounds {
		got.count, got.record = 0, -1
		killOnce(t, dir, 1+chance.IntN(300), time.Duration(chance.IntN(3000))*time.Microsecond, &got)
		s, err := store.Open(dir, small)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		for dev := range killDevices {
			wholeChain(t, s, killed(dev), got.entries[dev])
		}
		if v, _, err := s.Get("acks", "last"); err != nil || got.record >= 0 && atoi(v) < got.record {
			t.Errorf("round %d: record = %q, %v, want %d or later", round, v, err, got.record)
		}
		for n := range got.photos {
			data, sum := storetest.Photo(uint64(n), 150_000)
			if size, whole, err := s.BlobHas(sum); size != int64(len(data)) || !whole || err != nil {
				t.Errorf("round %d: photograph %d: %d bytes, whole %t, %v", round, n, size, whole, err)
			}
		}
		if err := s.Check(func(damage error) { t.Errorf("round %d: %v", round, damage) }); err != nil {
			t.Fatal(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d rounds, %v entries, %d photographs", *killRounds, got.entries, len(got.photos))
}

func atoi(b []byte) (n int) {
	fmt.Sscan(string(b), &n)
	return n
}

// killOnce runs a writing process, kills it some time after enough lines, and
// takes in all that it had acknowledged by then.
func killOnce(t *testing.T, dir string, enough int, later time.Duration, got *acks) {
	t.Helper()
	cmd := child("write", dir)
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(pipe)
	for {
		line, err := lines.ReadString('\n')
		if err == io.EOF {
			break // a line that was cut off was not acknowledged
		}
		if err == nil {
			err = got.read(line)
		}
		if err != nil {
			t.Fatal(err)
		}
		if got.count == enough {
			time.AfterFunc(later, func() { cmd.Process.Kill() })
		}
	}
	var exit *exec.ExitError
	if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != -1 {
		t.Fatalf("the writing process ended by itself: %v", err)
	}
}

// wholeChain wants a chain to be unbroken, as its author writes it, and to reach
// at least place n.
func wholeChain(t *testing.T, s *store.Store, c journal.Chain, n uint64) {
	t.Helper()
	a := storetest.NewAuthor(c.Job, c.Dev)
	err := s.Range(c, 1, func(line []byte) error {
		if want := a.Next(t, 100); !bytes.Equal(line, want.Line) {
			return fmt.Errorf("line %d = %.80s, want %.80s", want.N, line, want.Line)
		}
		return nil
	})
	if err != nil {
		t.Errorf("device %s: %v", c.Dev, err)
	}
	if h, err := s.Head(c); err != nil || h != a.Head || h.N < n {
		t.Errorf("device %s: head %d, %v, lines to %d, acknowledged to %d", c.Dev, h.N, err, a.Head.N, n)
	}
}
