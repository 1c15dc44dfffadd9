package bridge

import (
	"sinkside/calc/dossier"
	"sinkside/sync/jsontext"
)

// stateAndWatch answers with a state and what must be watched in it, one behind
// the other: the screens read the second only when they show it.
func (k *call) stateAndWatch(st *dossier.State) {
	k.body = st.AppendJSON(nil)
	k.w.Key("state")
	k.w.Int(int64(len(k.body)))
	k.body = appendWatch(k.body, st)
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
		p.body = appendWatch(p.body, st)
	}
}

// appendWatch writes a Watch of which nothing is known.
func appendWatch(dst []byte, st *dossier.State) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	text(&w, "job", st.Job)
	w.Key("dwell")
	w.Raw([]byte(`{"s":0,"mark_s":0,"mark_ms":null,"end_ms":null,"colour":"","name":"","entry":"","liquid":"","untested":[],"say":""}`))
	for _, list := range []string{"cues", "warnings", "due"} {
		w.Key(list)
		w.Raw([]byte("[]"))
	}
	w.Key("next")
	w.Raw([]byte(`{"say":"","at_ms":null,"place":0}`))
	w.Key("rinse")
	w.Raw([]byte("null"))
	w.Key("drying")
	w.Raw([]byte("null"))
	w.Key("stop_plan")
	w.Raw([]byte(`{"steps":[],"generic":true,"caution":""}`))
	w.End('}')
	return w.B
}
