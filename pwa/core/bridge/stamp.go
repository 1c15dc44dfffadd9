package bridge

import (
	"bytes"

	"sinkside/calc/dossier"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// stamp makes an entry of a draft. It keeps nothing: head and clock come from
// the database and go back there in the transaction that stores the entry.
//
//	in   job at by kind bv was? dev n name clock now; payload: the body
//	out  n name t; payload: the line
func stamp(k *call) error {
	a := &k.args
	d := journal.Draft{
		Job: a.id("job"), At: a.text("at"), By: a.text("by"), Kind: a.text("kind"), BV: int(a.int("bv")),
		Body: k.payload, Was: a.name("was"),
	}
	dev := a.id("dev")
	head := journal.Head{N: uint64(a.int("n")), Name: a.name("name")}
	clock := journal.Clock{Last: a.clock("clock")}
	now := a.int("now")
	if a.err != nil {
		return a.err
	}
	e, err := journal.Write(d, dev, head, clock.Tick(now))
	if err != nil {
		return err
	}
	writeHead(&k.w, journal.Head{N: e.N, Name: e.Name})
	k.w.Key("t")
	k.w.Str(e.T.String())
	k.body = e.Line
	return nil
}

func writeHead(w *jsontext.Writer, h journal.Head) {
	w.Key("n")
	w.Uint(h.N)
	w.Key("name")
	w.Str(h.Name.String())
}

// check holds a draft against the folded treatment, as far as that is here.
//
//	in   job kind at by now offset_ms; payload: the body
//	out  errors, bv: body version to write it with; payload: the body as it shall be
//	     written, when there is no error
func check(k *call) error {
	a := &k.args
	job := a.text("job")
	p := dossier.Proposal{Kind: a.text("kind"), At: a.text("at"), By: a.text("by"), Body: bytes.Clone(k.payload)}
	now := dossier.Now{MS: a.int("now"), OffsetMS: a.int("offset_ms")}
	if a.err != nil {
		return a.err
	}
	var st *dossier.State
	if f := k.core.folds[job]; f != nil {
		st = f.dossier.State()
	}
	body, errs := dossier.Check(p, now, st)
	k.w.Key("errors")
	k.w.Raw(dossier.AppendErrors(nil, errs))
	if len(errs) == 0 {
		k.body = body
	} else {
		body = p.Body // promised to the person: it is written as it came
	}
	k.w.Key("bv")
	k.w.Int(int64(dossier.BodyVersion(p.Kind, body)))
	return nil
}
