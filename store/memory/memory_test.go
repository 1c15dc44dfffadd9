package memory

import (
	"errors"
	"testing"

	"sinkside/store"
	"sinkside/store/storetest"
)

func TestAcceptance(t *testing.T) {
	storetest.Run(t, storetest.Maker{New: func(*testing.T) storetest.Store { return New() }})
}

func TestFailWritesNothing(t *testing.T) {
	s, a := New(), storetest.NewAuthor(storetest.ID(1), storetest.ID(2))
	es := a.Run(t, 2, 40)
	s.Fail(store.ErrFull)
	if _, err := s.Append(es); !errors.Is(err, store.ErrFull) {
		t.Errorf("Append = %v, want ErrFull", err)
	}
	s.Fail(nil)
	if h, err := s.Head(a.Chain); err != nil || h.N != 0 {
		t.Errorf("Head = %v, %v, want nothing stored", h, err)
	}
	if _, err := s.Append(es); err != nil {
		t.Errorf("Append after the failure = %v", err)
	}
}
