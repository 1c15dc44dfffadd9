package bridge

import (
	"bytes"
	"errors"

	"sinkside/calc/dossier"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// fold is one treatment in the core.
type fold struct {
	dossier *dossier.Dossier
	heads   map[journal.ID]journal.Head // the last entry of each chain that was added
	past    *past                       // nil before anybody looked back
}

// foldAdd adds lines to a treatment's fold, any number of times. A line that is
// no entry of this treatment is passed over: what is stored was read once
// before, so it can only come from another build.
//
//	in   job; payload: lines
//	out  refused: how many lines were passed over
func foldAdd(k *call) error {
	job := k.args.id("job")
	if k.args.err != nil {
		return k.args.err
	}
	f := k.core.fold(job)
	refused := 0
	for line := range bytes.SplitSeq(bytes.Clone(k.payload), []byte{'\n'}) {
		if len(line) > 0 && !f.add(job, line) {
			refused++
		}
	}
	k.w.Key("refused")
	k.w.Int(int64(refused))
	return nil
}

func (c *Core) fold(job journal.ID) *fold {
	if c.folds == nil {
		c.folds = map[string]*fold{}
	}
	f := c.folds[job.String()]
	if f == nil {
		f = &fold{dossier: dossier.New(job), heads: map[journal.ID]journal.Head{}}
		c.folds[job.String()] = f
	}
	return f
}

func (f *fold) add(job journal.ID, line []byte) bool {
	e, err := journal.Parse(line)
	if err != nil || e.Job != job {
		return false
	}
	f.dossier.Add(e)
	if e.N > f.heads[e.Dev].N {
		f.heads[e.Dev] = journal.Head{N: e.N, Name: e.Name}
	}
	return true
}

// foldState folds a treatment.
//
//	in   job
//	out  heads, summary (not of the shelf), state: bytes of it; payload: State, or
//	     Shelf, and behind a State its Watch
func foldState(k *call) error {
	f, err := k.folded()
	if err != nil {
		return err
	}
	k.w.Key("heads")
	k.w.Begin('[')
	devs := make([]journal.ID, 0, len(f.heads))
	for dev := range f.heads {
		devs = append(devs, dev)
	}
	journal.SortBy(devs, func(a, b *journal.ID) int { return bytes.Compare(a[:], b[:]) })
	for _, dev := range devs {
		k.w.Begin('{')
		k.w.Key("dev")
		k.w.Str(dev.String())
		writeHead(&k.w, f.heads[dev])
		k.w.End('}')
	}
	k.w.End(']')
	if k.args.text("job") == journal.Shelf.String() {
		k.body = appendShelf(nil, f.dossier)
		k.w.Key("state")
		k.w.Int(int64(len(k.body)))
		return nil
	}
	st := f.dossier.State()
	sum := dossier.Summarise(st)
	k.w.Key("summary")
	k.w.Raw(sum.AppendJSON(nil))
	k.stateAndWatch(st)
	return nil
}

// folded returns the fold that the header names; it must be there.
func (k *call) folded() (*fold, error) {
	job := k.args.text("job")
	if k.args.err != nil {
		return nil, k.args.err
	}
	f := k.core.folds[job]
	if f == nil {
		return nil, errors.New("treatment " + job + " is not folded")
	}
	return f, nil
}

// foldLog gives a page of the log, in recorded order.
//
//	in   job from count
//	out  payload: {"total":n,"lines":[LogLine]}
func foldLog(k *call) error {
	from, count := k.args.int("from"), k.args.int("count")
	f, err := k.folded()
	if err != nil {
		return err
	}
	var w jsontext.Writer
	w.Begin('{')
	w.Key("total")
	w.Int(int64(f.dossier.Len()))
	w.Key("lines")
	w.Raw(dossier.AppendLog(nil, f.dossier.Log(int(from), int(count))))
	w.End('}')
	k.body = w.B
	return nil
}

// foldDrop forgets a treatment's fold.
//
//	in   job
func foldDrop(k *call) error {
	delete(k.core.folds, k.args.text("job"))
	return k.args.err
}

// foldHours gives the ended steps of a treatment, as the reckoning of hours takes
// them.
//
//	in   job
//	out  payload: an array of rows
func foldHours(k *call) error {
	job := k.args.text("job")
	if k.args.err != nil {
		return k.args.err
	}
	var w jsontext.Writer
	w.Begin('[')
	if f := k.core.folds[job]; f != nil {
		f.dossier.State().AppendWorked(&w)
	}
	w.End(']')
	k.body = w.B
	return nil
}
