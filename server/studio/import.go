package studio

import (
	"fmt"

	"sinkside/sync/journal"
)

// Import takes in entries of one device that came from a file, in the file's order, and marks on
// the machine's own chain, treatment by treatment, which of them are new; by is who did it. The
// mark goes in with the entries, so that none can be there unmarked. Taking in the same entries
// again changes nothing and marks nothing.
//
// The verdicts are in the order of es. What forks is kept aside, as it would be had the device
// sent it.
func (m *Machine) Import(es []journal.Entry, by string) ([]journal.Verdict, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	marks, err := m.marks(es, by)
	if err != nil {
		return nil, err
	}
	verdicts, err := m.intake.Append(append(marks, es...))
	if err != nil {
		return nil, fmt.Errorf("take in entries from a file: %w", err)
	}
	verdicts = verdicts[len(marks):]
	var aside []journal.Entry
	for i, v := range verdicts {
		if v == journal.Fork {
			aside = append(aside, es[i])
		}
	}
	if len(aside) > 0 {
		if err := m.intake.KeepAside(aside); err != nil {
			return nil, fmt.Errorf("keep a refused branch aside: %w", err)
		}
	}
	return verdicts, nil
}

// marks drafts an imported entry for each chain that es would extend.
func (m *Machine) marks(es []journal.Entry, by string) ([]journal.Entry, error) {
	heads := map[journal.Chain]journal.Head{}
	from := map[journal.Chain]uint64{}
	var order []journal.Chain
	for i := range es {
		e, c := &es[i], es[i].Chain()
		head, ok := heads[c]
		if !ok {
			var err error
			if head, err = m.store.Head(c); err != nil {
				return nil, fmt.Errorf("read the head of a chain: %w", err)
			}
			heads[c] = head
		}
		if e.N <= head.N || journal.Extend(head, e, nil) != journal.Stored {
			continue
		}
		if from[c] == 0 {
			from[c] = e.N
			order = append(order, c)
		}
		heads[c] = journal.Head{N: e.N, Name: e.Name}
	}
	marks := make([]journal.Entry, 0, len(order))
	for _, c := range order {
		mark, err := m.imported(c, from[c], heads[c].N, by)
		if err != nil {
			return nil, fmt.Errorf("mark what came from a file: %w", err)
		}
		marks = append(marks, mark)
	}
	return marks, nil
}
