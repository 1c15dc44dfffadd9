package dossier

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
)

// A profile is copied; both copies go on; the second to sync is refused, claims
// a successor id and re-issues.
func TestLaw2Chains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(rapid.Uint64().Draw(t, "seed"), 2, rapid.SampledFrom([]int64{0, yearsMS}).Draw(t, "skew"))
		s.live(rapid.IntRange(1, 20).Draw(t, "before"))
		orig := s.devs[0]
		base := orig.log.Head(journal.Chain{Job: job, Dev: orig.id})
		twin := &device{id: orig.id, skew: orig.skew, clock: orig.clock}
		twin.log.Merge(&orig.log)
		for range rapid.IntRange(1, 6).Draw(t, "original goes on") {
			s.pass(1000)
			s.act(orig)
		}
		var refused []journal.Entry
		for range rapid.IntRange(1, 8).Draw(t, "twin goes on") {
			s.pass(1500)
			refused = append(refused, s.act(twin))
		}
		var hub journal.Log
		hub.Merge(&orig.log)
		hub.Merge(&s.devs[1].log)
		if v := hub.Add(refused[0]); v != journal.Fork {
			t.Fatalf("the twin's first entry is %v, want a fork", v)
		}
		head := hub.Head(journal.Chain{Job: job, Dev: orig.id})
		// Healing: the successor writes each refused entry again, with its old name.
		heir := &device{id: journal.NewID(1_765_000_000_000, [10]byte{99}), skew: twin.skew, clock: twin.clock}
		for _, e := range refused {
			hub.Add(e)
			n, err := journal.Write(journal.Draft{Job: job, At: e.At, By: e.By, Kind: e.Kind, BV: e.BV, Body: e.Body, Was: e.Name},
				heir.id, heir.log.Head(journal.Chain{Job: job, Dev: heir.id}), heir.clock.Tick(s.now))
			if err != nil {
				t.Fatal(err)
			}
			heir.log.Add(n)
			if v := hub.Add(n); v != journal.Stored {
				t.Fatalf("a re-issued entry is %v", v)
			}
		}
		if hub.Head(journal.Chain{Job: job, Dev: orig.id}) != head || head.N <= base.N {
			t.Fatal("the fork changed the chain")
		}
		for _, h := range hub.Heads() {
			for i, e := range hub.Since(h.Chain, 1) {
				if e.N != uint64(i)+1 {
					t.Fatalf("chain %v has %d at place %d", h.Chain, e.N, i+1)
				}
			}
		}
		aside := map[journal.Name]bool{}
		for _, e := range hub.Aside() {
			aside[e.Name] = true
		}
		d := foldOf(hub.Job(job))
		log := d.Log(0, d.Len())
		for _, e := range refused {
			at := slices.IndexFunc(log, func(l LogLine) bool { return l.Was == e.Name.String() })
			if at < 0 || string(log[at].Body) != string(e.Body) {
				t.Fatalf("refused entry %s is not in the log again", e.Kind)
			}
			if e.N == refused[0].N && !aside[e.Name] {
				t.Fatal("the refused branch was not kept aside")
			}
			if strings.Contains(log[at].Doubt, "has not arrived") {
				t.Fatalf("a reference does not resolve: %s (%s)", log[at].Doubt, e.Body)
			}
		}
		// Unsure of what arrived, the heir re-issues once more: nothing is doubled.
		again := s.write(heir, refused[0].Kind, string(refused[0].Body), 0, refused[0].Name)
		before := d.State()
		d.Add(again)
		if saysOf(d.State()) != saysOf(before) {
			t.Fatalf("a second re-issue of %s was counted", refused[0].Kind)
		}
	})
}

// saysOf is what a state says of the object, without what it says of its entries.
func saysOf(s *State) string {
	same := *s
	same.Entries, same.LastMS, same.Doubts = 0, 0, nil
	return string(same.AppendJSON(nil))
}

// A phone whose entries had arrived although it never heard so re-issues them all
// the same, and its person goes on from the copies. The copies change nothing, and
// what goes on from them is about the entries that they are copies of.
func TestLaw2ReferencesToACopyMeanTheOriginal(t *testing.T) {
	s := newStudio(1, 1, 0)
	phone := s.devs[0]
	write := func(d *device, kind, body string, was journal.Name) journal.Entry {
		return s.write(d, kind, body, 0, was)
	}
	firsts := []journal.Entry{
		write(phone, "begin", `{"what":"wash","liquid":"bath A","litres":9,"target_s":300}`, journal.Name{}),
		write(phone, "note", `{"text":"dye on the blotter"}`, journal.Name{}),
		write(phone, "reading", `{"q":"ph","value":6.4,"unit":"pH"}`, journal.Name{}),
		write(phone, "set", `{"field":"fibre","value":"wool"}`, journal.Name{}),
	}
	heir := &device{id: journal.NewID(1_765_000_000_000, [10]byte{99}), clock: phone.clock}
	var copies []string
	for _, e := range firsts {
		copies = append(copies, write(heir, e.Kind, string(e.Body), e.Name).Name.String())
	}
	arrived := foldOf(append(phone.log.Job(job), heir.log.Job(job)...)).State()
	if want := foldOf(firsts).State(); saysOf(arrived) != saysOf(want) {
		t.Errorf("with copies\n%s\nwant\n%s", saysOf(arrived), saysOf(want))
	}
	s.pass(300_000)
	end := write(heir, "end", `{"of":"`+copies[0]+`"}`, journal.Name{})
	write(heir, "strike", `{"of":"`+copies[1]+`","why":"wrong tray"}`, journal.Name{})
	write(heir, "amend", `{"of":"`+copies[2]+`","over":["`+copies[2]+`"],"why":"misread","body":{"q":"ph","value":6.1,"unit":"pH","of":"`+copies[0]+`"}}`, journal.Name{})
	write(heir, "set", `{"field":"fibre","value":"wool bunting","over":["`+copies[3]+`"]}`, journal.Name{})
	for name, es := range map[string][]journal.Entry{"both": append(phone.log.Job(job), heir.log.Job(job)...), "copies alone": heir.log.Job(job)} {
		st := foldOf(es).State()
		if len(st.Steps) != 1 || st.Steps[0].EndEntry != end.Name.String() || len(st.Steps[0].Readings) != 1 {
			t.Errorf("%s: steps %+v, want one bath that ended and its reading", name, st.Steps)
		}
		if st.Notes != 0 || st.Last["ph"].Value != "6.1" || len(st.Fields["fibre"]) != 1 || st.Fields["fibre"][0].Value != "wool bunting" {
			t.Errorf("%s: state %s", name, st.AppendJSON(nil))
		}
	}
}

// References by the names of a refused branch, whose entries are here under new
// ones only.
func TestLaw2ReplacementsByARefusedName(t *testing.T) {
	s := newStudio(1, 1, 0)
	heir := s.devs[0]
	set, note := journal.Name{1}, journal.Name{2}
	s.write(heir, "set", `{"field":"fibre","value":"wool"}`, 0, set)
	n := s.write(heir, "note", `{"text":"clear"}`, 0, note)
	amend := s.write(heir, "amend", `{"of":"`+note.String()+`","over":["`+note.String()+`"],"why":"x","body":{"text":"not clear"}}`, 0, journal.Name{3})
	s.write(heir, "amend", `{"of":"`+note.String()+`","over":["`+journal.Name{3}.String()+`"],"why":"y","body":{"text":"cloudy"}}`, 0, journal.Name{})
	s.write(heir, "set", `{"field":"fibre","value":"wool bunting","over":["`+set.String()+`"]}`, 0, journal.Name{})
	x := foldOf(s.all())
	if got := x.State().Fields["fibre"]; len(got) != 1 || got[0].Value != "wool bunting" {
		t.Errorf("fibre %+v, want the later value alone", got)
	}
	for _, l := range x.Log(0, x.Len()) {
		for _, a := range l.Amended {
			if l.Entry == n.Name.String() && a.Stands == (a.Entry == amend.Name.String()) {
				t.Errorf("amendments %+v, want the second to stand alone", l.Amended)
			}
		}
	}
}
