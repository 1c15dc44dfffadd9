package bridge

import (
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// args reads a request's header. The first error stays in err, so that an
// operation reads all that it needs and then looks once.
type args struct {
	v   jsontext.Value
	err error
}

func (a *args) get(key string) (jsontext.Value, bool) {
	if a.err != nil {
		return nil, false
	}
	return jsontext.Get(a.v, key)
}

func (a *args) fail(key string, err error) {
	if a.err == nil && err != nil {
		a.err = errors.New(key + ": " + err.Error())
	}
}

// need reads a member that must be there.
func need[T any](a *args, key string, read func(jsontext.Value) (T, error)) (out T) {
	v, ok := a.get(key)
	if !ok {
		a.fail(key, errors.New("missing"))
		return out
	}
	out, err := read(v)
	a.fail(key, err)
	return out
}

func (a *args) text(key string) string { return need(a, key, jsontext.Value.Text) }
func (a *args) int(key string) int64   { return need(a, key, jsontext.Value.Int) }
func (a *args) bool(key string) bool   { return need(a, key, jsontext.Value.Bool) }

func (a *args) id(key string) (id journal.ID) {
	s := a.text(key)
	if a.err == nil {
		var err error
		id, err = journal.ParseID(s)
		a.fail(key, err)
	}
	return id
}

// name reads an entry's name; an absent or empty one is the zero Name.
func (a *args) name(key string) (n journal.Name) {
	if _, ok := a.get(key); !ok {
		return n
	}
	s := a.text(key)
	if a.err == nil && s != "" {
		var err error
		n, err = journal.ParseName(s)
		a.fail(key, err)
	}
	return n
}

func (a *args) clock(key string) (t journal.Time) {
	s := a.text(key)
	if a.err == nil {
		var err error
		t, err = journal.ParseTime(s)
		a.fail(key, err)
	}
	return t
}
