package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"sinkside/server/pair/device"
	"sinkside/store"
	"sinkside/store/memory"
)

// A full disk is no fault of the server's: at its start the person is told what to do, and at its end
// it has stopped in order, though it could not note when devices were last seen.
func TestAFullDiskAtTheStartAndAtTheEnd(t *testing.T) {
	full := fmt.Errorf("keep epochs: %w: free 160 MB", store.ErrFull)
	var said bytes.Buffer
	code := complain(&said, startFault("/srv/sinkside", full))
	for _, want := range []string{"/srv/sinkside is full", "Make room", "start it again", "free 160 MB"} {
		if !strings.Contains(said.String(), want) {
			t.Errorf("said %q, want %q in it", said.String(), want)
		}
	}
	if code != exitFailed {
		t.Errorf("exit code %d, want %d", code, exitFailed)
	}
	if err := unlessFull(full); err != nil {
		t.Errorf("at the end: %v, want nothing", err)
	}
	other := errors.New("read: input/output error")
	if startFault("/srv/sinkside", other) != other || unlessFull(other) != other {
		t.Error("another fault was changed")
	}
}

// A studio machine that is switched on with a full disk shows what it holds; it tells no code that it
// could not keep.
func TestAServerGreetsOnAFullDisk(t *testing.T) {
	records := memory.New()
	register, err := device.Open(records, device.Options{})
	if err != nil {
		t.Fatal(err)
	}
	records.Fail(store.ErrFull)
	h := &house{plan: plan{serveCmd: serveCmd{dataFlag: dataFlag{"/srv/sinkside"}}}, log: zerolog.Nop(), desk: &desk{devices: register}}
	var said bytes.Buffer
	if err := h.greet(&said); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(said.String(), "/srv/sinkside is full") || strings.Contains(said.String(), "#/pair/") {
		t.Errorf("said %q, want that the disk is full, and no link", said.String())
	}
}
