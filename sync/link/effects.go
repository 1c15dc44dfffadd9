package link

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Effects is what the host has to do since the last Take.
type Effects struct {
	Frames []Frame // to send, in order

	// Drop names chains of other devices whose entries and receipt are to be
	// forgotten, or kept aside: the studio machine holds another branch, and
	// sends it.
	Drop []journal.Chain
	// Store holds entries to keep, each the next of its chain in the host's log.
	// Own entries are among them: those of a log that was dropped, or that a
	// restored phone lost.
	Store []journal.Entry
	// Receipts replace earlier ones of the same chain.
	Receipts []wire.Receipt
	// ForgetSummaries comes before Summaries.
	ForgetSummaries bool
	Summaries       []wire.Summary
	Generation      *wire.Generation // to keep with the summaries; nil: unchanged

	// Fetch asks for entries of the log; answer with Link.Fetched.
	Fetch []Range
	// Fork is set once, when a successor id is needed.
	Fork *Fork
	// Offset is the device's clock against the studio machine's, once a session.
	Offset *Offset
	// CaughtUp names treatments of which everything is here now.
	CaughtUp []journal.ID
	// AllCaughtUp says so of everything that the device follows.
	AllCaughtUp bool
	// Notices are codes of what a person should know.
	Notices []string
	// Ringers is how many devices are armed now, this one included; nil:
	// unchanged. A session begins with none.
	Ringers *uint64

	Blobs BlobEffects
}

// Frame is a plain frame to send.
type Frame struct {
	Bytes []byte
	// Deflate says that it is worth deflating, where the host can: see wire.Pack.
	Deflate bool
}

// Range names entries of one chain, From and To included.
type Range struct {
	Chain    journal.Chain
	From, To uint64
}

// Fork names the chains of this device that need a successor id. Everything
// else that this device wrote is on the studio machine's disk, except what it
// wrote since, and is not to be written again.
type Fork struct{ Chains []ForkedChain }

// ForkedChain is one of them: entries from place From on were refused.
type ForkedChain struct {
	Chain journal.Chain
	From  uint64
}

// Offset is studio time minus device time in milliseconds, give or take Within.
type Offset struct{ MS, Within int64 }

// BlobEffects is what the host has to do about blobs.
type BlobEffects struct {
	// Read asks for chunks to send; answer with Link.Chunk, no faster than the
	// transport takes them.
	Read []ChunkRef
	// Done names blobs that are whole on the studio machine's disk.
	Done [][32]byte
	// Got holds chunks that were wanted. The host checks the whole blob's sum.
	Got []Chunk
	// Lacks names wanted blobs that the studio machine does not have.
	Lacks [][32]byte
}

// ChunkRef names one chunk of a blob.
type ChunkRef struct {
	Sum   [32]byte
	Index uint64
}

// Chunk is one chunk of a blob of Size bytes.
type Chunk struct {
	ChunkRef
	Size uint64
	Data []byte
}

// Phase is how far a session has come.
type Phase uint8

// The phases.
const (
	Off      Phase = iota // no connection
	Greeting              // Hello is sent
	Catching              // Welcome came; entries are missing here
	Live                  // nothing is missing here
)

// Status is what a screen shows of the link.
type Status struct {
	Phase  Phase
	Unsent int  // own entries without a receipt
	Full   bool // the studio machine cannot keep more for now
	Forked bool // a successor id is needed
}
