package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"sinkside/store"
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
