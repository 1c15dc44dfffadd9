package dossier

import "sinkside/sync/journal"

// Past shows a dossier as it stood at times of its log. Going forward costs
// little; going back starts anew.
//
// It is not safe for concurrent use.
type Past struct {
	of   *Dossier
	from *folded // what the entries' times were taken from
	ms   int64
	then *Dossier
}

// Past returns the past of d, which follows what is added to d.
func (d *Dossier) Past() *Past { return &Past{of: d} }

// At returns the dossier of the entries that had been recorded by ms, studio
// Unix milliseconds. A chain is taken up to its first later entry, so that no
// entry comes without those before it. The result is valid until the next call.
func (p *Past) At(ms int64) *Dossier {
	f := p.of.fold()
	if p.from != f || ms < p.ms {
		p.then = New(p.of.job)
	}
	p.from, p.ms = f, ms
	later := map[journal.ID]bool{}
	for _, x := range f.ordered {
		switch {
		case later[x.Dev]:
		case x.recordedMS+x.offset > ms:
			later[x.Dev] = true
		default:
			p.then.Add(x.Entry)
		}
	}
	return p.then
}
