package bridge

import (
	"sinkside/calc/dossier"
	"sinkside/calc/watch"
)

// stateAndWatch answers with a state and what must be watched in it, one behind
// the other: the screens read the second only when they show it.
func (k *call) stateAndWatch(st *dossier.State) {
	k.body = st.AppendJSON(nil)
	k.w.Key("state")
	k.w.Int(int64(len(k.body)))
	k.body = watch.Of(st).AppendJSON(k.body)
}

// past is a treatment as somebody looks back at it.
type past struct {
	of    *dossier.Past
	then  *dossier.Dossier
	n     int    // entries of then that were folded
	body  []byte // of the answer
	state int64  // bytes of it that are the state
}

// foldAsOf folds a treatment as it stood at a time of its log.
//
//	in   job ms
//	out  state: bytes of it, 0 before the first entry; payload: State and Watch
func foldAsOf(k *call) error {
	job, ms := k.args.text("job"), k.args.int("ms")
	if k.args.err != nil {
		return k.args.err
	}
	var p past
	if f := k.core.folds[job]; f != nil {
		if f.past == nil {
			f.past = &past{of: f.dossier.Past()}
		}
		f.past.goTo(ms)
		p = *f.past
	}
	k.w.Key("state")
	k.w.Int(p.state)
	k.body = p.body
	return nil
}

// goTo folds only where entries came or went.
func (p *past) goTo(ms int64) {
	then := p.of.At(ms)
	if then == p.then && then.Len() == p.n {
		return
	}
	p.then, p.n = then, then.Len()
	p.body, p.state = nil, 0
	if p.n > 0 {
		st := then.State()
		p.body = st.AppendJSON(nil)
		p.state = int64(len(p.body))
		p.body = watch.Of(st).AppendJSON(p.body)
	}
}
