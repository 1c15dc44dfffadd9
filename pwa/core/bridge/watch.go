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
