package wire

import "sinkside/sync/journal"

// Entries brings a device what others wrote. Runs carry a receipt, so that the
// device can give them back to a studio machine that lost them.
type Entries struct{ Runs []Run }

// Type returns TypeEntries.
func (f *Entries) Type() Type             { return TypeEntries }
func (f *Entries) append(b []byte) []byte { return appendRuns(b, f.Runs) }
func (f *Entries) read(r *reader)         { f.Runs = r.runs() }

// Push brings entries to the studio machine: the device's own, or, with a
// receipt, others' that it lost. Each is answered by one Ack.
type Push struct {
	Batch uint64 // the device counts its pushes of a session from 1
	// More says that another push is right behind, so that the studio machine
	// can write both at once.
	More bool
	Runs []Run
}

const pushMore = 1

// Type returns TypePush.
func (f *Push) Type() Type { return TypePush }

func (f *Push) append(b []byte) []byte {
	return appendRuns(appendFlags(appendUint(b, f.Batch), f.More), f.Runs)
}

func (f *Push) read(r *reader) {
	f.Batch = r.uint()
	f.More = r.flags(pushMore) != 0
	f.Runs = r.runs()
}

// Ack says what became of a push. Entries that it neither covers by a receipt
// nor refuses were not kept: see Want and Notice.
type Ack struct {
	Batch    uint64
	Receipts []Receipt
	Refusals []Refusal
}

// Refusal says that a chain's entries from place N on are not taken.
type Refusal struct {
	Code  Code
	Chain journal.Chain
	// Head holds the first refused place, and what the studio machine has there;
	// the zero Name when it has nothing.
	journal.Head
}

// Code is why entries were refused.
type Code byte

// The codes.
const (
	// CodeFork: that place holds another entry. The refused ones are kept aside.
	CodeFork Code = 1
	// CodeForeign: another device's chain, and no receipt. Ends the session.
	CodeForeign Code = 2
	// CodeReceipt: a receipt that this studio machine did not sign. Ends the
	// session, unless the chain was asked for: then another studio machine may
	// have stood here before.
	CodeReceipt Code = 3
	// CodeTooMuch: more entries without a receipt between than can be held until
	// it comes.
	CodeTooMuch Code = 4
)

func (c Code) String() string {
	switch c {
	case CodeFork:
		return "fork"
	case CodeForeign:
		return "foreign-chain"
	case CodeReceipt:
		return "bad-receipt"
	case CodeTooMuch:
		return "too-much"
	}
	return "unknown"
}

// Type returns TypeAck.
func (f *Ack) Type() Type { return TypeAck }

func (f *Ack) append(b []byte) []byte {
	b = appendUint(b, f.Batch)
	b = appendUint(b, uint64(len(f.Receipts)))
	for i := range f.Receipts {
		b = appendChain(b, f.Receipts[i].Chain)
		b = appendHead(b, f.Receipts[i].Head)
		b = append(b, f.Receipts[i].Sig[:]...)
	}
	b = appendUint(b, uint64(len(f.Refusals)))
	for i := range f.Refusals {
		b = append(b, byte(f.Refusals[i].Code))
		b = appendChain(b, f.Refusals[i].Chain)
		b = appendHead(b, f.Refusals[i].Head)
	}
	return b
}

func (f *Ack) read(r *reader) {
	f.Batch = r.uint()
	for range r.count(0, maxItems, 129) {
		f.Receipts = append(f.Receipts, Receipt{journal.ChainHead{Chain: r.chain(), Head: r.head()}, r.sig()})
	}
	for range r.count(0, maxItems, 66) {
		c := Code(r.byte())
		if c < CodeFork || c > CodeTooMuch {
			r.fail(ErrValue, "a refusal for a reason that this version does not know")
		}
		f.Refusals = append(f.Refusals, Refusal{c, r.chain(), r.head()})
	}
}

// Want asks for chains of which the device holds more than the studio machine,
// or another branch. It names the studio machine's own heads, N 0 for none.
type Want struct{ Heads []journal.ChainHead }

// Type returns TypeWant.
func (f *Want) Type() Type { return TypeWant }

func (f *Want) append(b []byte) []byte {
	b = appendUint(b, uint64(len(f.Heads)))
	for i := range f.Heads {
		b = appendChain(b, f.Heads[i].Chain)
		b = appendUint(b, f.Heads[i].N)
		if f.Heads[i].N > 0 {
			b = append(b, f.Heads[i].Name[:]...)
		}
	}
	return b
}

func (f *Want) read(r *reader) {
	for range r.count(1, maxItems, 33) {
		h := journal.ChainHead{Chain: r.chain()}
		if h.N = r.uint(); h.N > maxPlace {
			r.fail(ErrValue, "a place in a chain is at most 2^63-1")
		}
		if h.N > 0 {
			h.Name = r.name()
		}
		f.Heads = append(f.Heads, h)
	}
}
