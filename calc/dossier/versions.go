package dossier

import (
	"slices"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// versions are the corrections of one entry.
type versions struct {
	all    []*fact // amends that count or were struck, in recorded order
	stands []*fact // those that nothing replaced; two or more are for a person to choose from
	now    version // what the entry says with them
}

// version is what an entry says.
type version struct {
	body  body
	inner jsontext.Value
	at    string // empty: unchanged
	atMS  int64
	bad   string
}

// resolveAmends sorts the corrections by the entry that they are about and finds
// which stand. Each names the versions that it replaces, so that two made at
// once both stand until a third replaces them (law 3).
func (f *folded) resolveAmends() {
	for _, x := range f.ordered {
		if x.Kind != "amend" || x.unknown || x.again || x.body.of.IsZero() {
			continue
		}
		root := f.root(x)
		if root == nil {
			f.doubt(x, "the entry that it corrects has not arrived")
			continue
		}
		v := f.versions[root]
		if v == nil {
			v = &versions{}
			f.versions[root] = v
		}
		v.all = append(v.all, x)
	}
	for _, root := range f.ordered {
		if v := f.versions[root]; v != nil {
			f.settle(root, v)
		}
	}
}

// root follows amend to what it is about, through amends of amends.
func (f *folded) root(x *fact) *fact {
	for range len(f.facts) {
		if x = f.find(x.body.of); x == nil || x.Kind != "amend" {
			return x
		}
	}
	return nil
}

func (f *folded) settle(root *fact, v *versions) {
	var live []*fact
	for _, x := range v.all {
		if f.strikes[x] == nil {
			live = append(live, x)
		}
	}
	v.stands = f.tips(live, func(x *fact) []journal.Name { return x.body.over })
	v.now = version{body: root.body}
	if len(v.stands) == 0 {
		if len(live) > 0 {
			f.doubt(live[0], "these corrections replace each other in a ring, so none is used")
		}
		return
	}
	// The later one is shown while people have not chosen.
	last := v.stands[len(v.stands)-1]
	v.now = readVersion(root.Kind, last)
	if v.now.bad != "" {
		f.doubt(last, v.now.bad)
	}
}

// tips returns the facts that none of the others replaces.
func (f *folded) tips(live []*fact, over func(*fact) []journal.Name) []*fact {
	replaced := map[*fact]bool{}
	for _, x := range live {
		for _, n := range over(x) {
			if y := f.find(n); y != nil && y != x {
				replaced[y] = true
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(live), func(x *fact) bool { return replaced[x] })
}

func readVersion(kind string, amend *fact) version {
	b, err := readBody(kind, amend.body.inner)
	v := version{body: b, inner: amend.body.inner, at: amend.body.at}
	if err != nil {
		v.bad = err.Error()
	}
	if v.at != "" {
		if ms, err := journal.ParseAt(v.at); err == nil {
			v.atMS = ms
		} else {
			v.at, v.bad = "", "its corrected time cannot be read, so the first one stands"
		}
	}
	return v
}

// says is what x says now, corrections included.
func (f *folded) says(x *fact) *body {
	if v := f.versions[x]; v != nil && v.now.bad == "" {
		return &v.now.body
	}
	return &x.body
}

// fields folds what was set. A treatment's name and number may come with its
// opening, which then counts as the first value.
func (f *folded) fields() {
	sets := map[string][]*fact{}
	for _, x := range f.ordered {
		if !f.stands(x) {
			continue
		}
		switch b := f.says(x); x.Kind {
		case "open":
			if b.name != "" {
				sets["name"] = append(sets["name"], x)
			}
			if b.number != "" {
				sets["number"] = append(sets["number"], x)
			}
		case "set":
			if b.field != "" {
				sets[b.field] = append(sets[b.field], x)
			}
		}
	}
	for field, live := range sets {
		tips := f.tips(live, func(x *fact) []journal.Name { return f.says(x).over })
		if len(tips) == 0 {
			tips = live
		}
		for _, x := range tips {
			f.state.Fields[field] = append(f.state.Fields[field], FieldValue{
				Value: fieldText(f.says(x), x.Kind, field), Entry: x.Name.String(), By: x.By, AtMS: f.moment(x).MS,
			})
		}
	}
}

func fieldText(b *body, kind, field string) string {
	switch {
	case kind == "set":
		return token(b.value)
	case field == "number":
		return b.number
	}
	return b.name
}
