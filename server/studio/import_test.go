package studio

import (
	"bytes"
	"errors"
	"slices"
	"strconv"
	"testing"
	"time"

	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)

func id(b byte) journal.ID { return journal.ID{0: 1, 15: b} }

// chainOf writes n notes of dev in job, the first of them after head.
func chainOf(t *testing.T, job, dev journal.ID, head journal.Head, n int, text string) []journal.Entry {
	t.Helper()
	var out []journal.Entry
	for i := range n {
		d := journal.Draft{Job: job, At: "2026-03-04T10:00:00Z", By: "OT", Kind: "note", BV: 1,
			Body: jsontext.Value(`{"text":` + strconv.Quote(text) + `}`)}
		e, err := journal.Write(d, dev, head, journal.At(noon.UnixMilli()+int64(i)))
		if err != nil {
			t.Fatal(err)
		}
		head = journal.Head{N: e.N, Name: e.Name}
		out = append(out, e)
	}
	return out
}

func open(t *testing.T) (*Machine, *memory.Store) {
	t.Helper()
	st := memory.New()
	m, err := Open(st, st, func() time.Time { return noon })
	if err != nil {
		t.Fatal(err)
	}
	return m, st
}

// marksIn lists the imported entries on the machine's own chain.
func marksIn(t *testing.T, m *Machine, st *memory.Store, job journal.ID) []string {
	t.Helper()
	var marks []string
	err := st.Range(journal.Chain{Job: job, Dev: m.ID}, 1, func(line []byte) error {
		e, err := journal.Parse(bytes.Clone(line))
		marks = append(marks, e.Kind+" "+string(e.Body))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return marks
}

func want(t *testing.T, got []journal.Verdict, want ...journal.Verdict) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("verdicts = %v, want %v", got, want)
	}
}

func TestImportMarksWhatIsNewAndNothingTwice(t *testing.T) {
	m, st := open(t)
	job, phone := id(1), id(2)
	es := chainOf(t, job, phone, journal.Head{}, 5, "rinse clear")
	if _, err := st.Append(es[:2]); err != nil {
		t.Fatal(err)
	}
	got, err := m.Import(es, "RV")
	if err != nil {
		t.Fatal(err)
	}
	const s, k = journal.Stored, journal.Known
	want(t, got, k, k, s, s, s)
	mark := `imported {"dev":"` + phone.String() + `","from":3,"to":5,"by":"RV"}`
	if marks := marksIn(t, m, st, job); !slices.Equal(marks, []string{mark}) {
		t.Errorf("marks = %q, want %q", marks, mark)
	}
	if got, err = m.Import(es, "RV"); err != nil {
		t.Fatal(err)
	}
	want(t, got, k, k, k, k, k)
	if marks := marksIn(t, m, st, job); len(marks) != 1 {
		t.Errorf("after importing again: %d marks, want 1", len(marks))
	}
}

func TestImportRefusesGapsAndKeepsForksAside(t *testing.T) {
	m, st := open(t)
	job, phone := id(1), id(2)
	kept := chainOf(t, job, phone, journal.Head{}, 2, "as sent")
	if _, err := st.Append(kept); err != nil {
		t.Fatal(err)
	}
	forked := chainOf(t, job, phone, journal.Head{N: 1, Name: kept[0].Name}, 2, "from a restored phone")
	gap := chainOf(t, id(3), phone, journal.Head{}, 3, "a lost line")[1:]
	got, err := m.Import(append(forked, gap...), "RV")
	if err != nil {
		t.Fatal(err)
	}
	want(t, got, journal.Fork, journal.Fork, journal.Gap, journal.Gap)
	if marks := append(marksIn(t, m, st, job), marksIn(t, m, st, id(3))...); len(marks) != 0 {
		t.Errorf("marks = %q, want none, since nothing was taken", marks)
	}
	aside := 0
	if err := st.Aside(func([]byte) error { aside++; return nil }); err != nil || aside != 2 {
		t.Errorf("%d lines kept aside (%v), want 2", aside, err)
	}
}

func TestImportOnAFullDiskTakesNothing(t *testing.T) {
	m, st := open(t)
	es := chainOf(t, id(1), id(2), journal.Head{}, 2, "rinse clear")
	st.Fail(store.ErrFull)
	if _, err := m.Import(es, "RV"); !errors.Is(err, store.ErrFull) {
		t.Fatalf("Import = %v, want the store's error", err)
	}
	st.Fail(nil)
	got, err := m.Import(es, "RV")
	if err != nil {
		t.Fatal(err)
	}
	want(t, got, journal.Stored, journal.Stored)
	if marks := marksIn(t, m, st, id(1)); len(marks) != 1 {
		t.Errorf("%d marks, want 1", len(marks))
	}
}

func TestReceiptKeyIsTheStores(t *testing.T) {
	st := memory.New()
	first, err := ReceiptKey(st)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := ReceiptKey(st); err != nil || !again.Equal(first) {
		t.Errorf("read again: %v, want the same key", err)
	}
	if other, err := ReceiptKey(memory.New()); err != nil || other.Equal(first) {
		t.Errorf("another store's: %v, want a key of its own", err)
	}
}

func TestMachineKeepsItsIDAndItsClock(t *testing.T) {
	m, st := open(t)
	es := chainOf(t, id(1), id(2), journal.Head{}, 2, "rinse clear")
	if _, err := m.Import(es[:1], "RV"); err != nil {
		t.Fatal(err)
	}
	earlier, err := Open(st, st, func() time.Time { return noon.Add(-time.Hour) })
	if err != nil || earlier.ID != m.ID {
		t.Fatalf("opened again = %v, %v, want the same id %v", earlier, err, m.ID)
	}
	if _, err := earlier.Import(es, "RV"); err != nil {
		t.Fatal(err)
	}
	var times []journal.Time
	err = st.Range(journal.Chain{Job: id(1), Dev: m.ID}, 1, func(line []byte) error {
		e, err := journal.Parse(line)
		times = append(times, e.T)
		return err
	})
	if err != nil || len(times) != 2 || times[1] <= times[0] {
		t.Errorf("clock readings %v (%v), want two that rise though the time was set back", times, err)
	}
}
