package dossier

import (
	"bytes"
	"cmp"
	"slices"

	"sinkside/sync/journal"
)

// order puts the entries in recorded order. Inside a chain the place decides,
// and a clock that ran backwards is held at its highest; between chains the clock
// does, then the device.
func (f *folded) order() {
	for _, x := range f.facts {
		f.chains[x.Dev] = append(f.chains[x.Dev], x)
		f.ordered = append(f.ordered, x)
	}
	for _, chain := range f.chains {
		slices.SortFunc(chain, inChain)
		var high journal.Time
		for _, x := range chain {
			high = max(high, x.T)
			x.order = high
		}
	}
	slices.SortFunc(f.ordered, func(a, b *fact) int {
		if o := cmp.Compare(a.order, b.order); o != 0 {
			return o
		}
		if o := bytes.Compare(a.Dev[:], b.Dev[:]); o != 0 {
			return o
		}
		return inChain(a, b)
	})
}

// inChain orders by place; two entries in one place can only come from a fork
// that reached the set, and go by name.
func inChain(a, b *fact) int {
	if o := cmp.Compare(a.N, b.N); o != 0 {
		return o
	}
	return bytes.Compare(a.Name[:], b.Name[:])
}

// clocks finds out how far each device's clock was off.
func (f *folded) clocks() {
	devs := make([]journal.ID, 0, len(f.chains))
	for dev := range f.chains {
		devs = append(devs, dev)
	}
	journal.SortBy(devs, func(a, b *journal.ID) int { return bytes.Compare(a[:], b[:]) })
	for _, dev := range devs {
		if seen, ok := f.spreadOffsets(f.chains[dev]); ok {
			f.state.Clocks = append(f.state.Clocks, ClockSeen{dev.String(), seen})
		}
	}
}

// spreadOffsets gives each entry of a chain the clock offset that held there:
// the last one recorded up to it, or, before the first, the first: a phone that
// was offline all day learns in the evening how wrong it was. A second copy
// counts for its own chain, unless the first was struck. It returns the latest
// offset and whether there was any.
func (f *folded) spreadOffsets(chain []*fact) (latest int64, any bool) {
	for _, x := range chain {
		if x.Kind != "clock" || x.unknown || x.doubt != "" || f.strikes[f.find(x.Name)] != nil {
			x.offset = latest
			continue
		}
		latest = x.body.offsetMS
		x.offset = latest
		if !any {
			for _, y := range chain {
				if y == x {
					break
				}
				y.offset = latest
			}
			any = true
		}
	}
	return latest, any
}
