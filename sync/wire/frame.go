package wire

import "sinkside/sync/journal"

// Version is the newest protocol version that this code speaks; it speaks the
// earlier ones too.
const Version = 2

// VersionRings is the first version that has Armed and Ringers.
const VersionRings = 2

const (
	// MaxFrame is the largest message in bytes, and the largest frame that one
	// may inflate to, type byte included.
	MaxFrame = 256 << 10
	// MaxBatch is how many bytes of lines a frame of entries is filled with: one
	// line more, and the rest of the frame, still fit into MaxFrame.
	MaxBatch = 128 << 10
	// MaxOpened is how many treatments a device may hold open by hand.
	MaxOpened = 256
	// ChunkSize is the size of a blob's chunk in bytes; the last may be shorter.
	ChunkSize = 128 << 10
	// MaxBlob is the largest blob in bytes.
	MaxBlob = 1 << 30

	maxItems = MaxFrame
	maxPlace = 1<<63 - 1
)

// Type is a frame's first byte without the deflate bit.
type Type byte

// Deflated is the bit of the first byte that marks a deflated payload.
const Deflated = 0x80

// The types. 0x22 to 0x2f are kept for what else is about rings; types from 0x60
// on are skipped by a receiver that does not know them.
const (
	TypeHello       Type = 0x01 // device: who I am, what I hold
	TypeWelcome     Type = 0x02 // studio: the answer
	TypeHeads       Type = 0x03 // device: the heads of all that I hold
	TypeEntries     Type = 0x04 // studio: entries of others
	TypePush        Type = 0x05 // device: entries to keep
	TypeAck         Type = 0x06 // studio: what became of a push
	TypeWant        Type = 0x07 // studio: chains of which you hold more than I
	TypeCaughtUp    Type = 0x08 // studio: you have all of it
	TypeSubscribe   Type = 0x09 // device: these treatments too
	TypeUnsubscribe Type = 0x0a // device: these no longer
	TypeSummaries   Type = 0x0b // studio: one line about each treatment
	TypeNotice      Type = 0x0c // studio: what a person should know

	TypeBlobOffer Type = 0x10 // both: a blob and its size
	TypeBlobWant  Type = 0x11 // both: send me this blob, from this chunk on
	TypeBlobChunk Type = 0x12 // both: one chunk
	TypeBlobHave  Type = 0x13 // studio: the blob is whole and on the disk
	TypeBlobLack  Type = 0x14 // studio: no such blob here

	TypeArmed   Type = 0x20 // device: whether I would ring; from version 2 on
	TypeRingers Type = 0x21 // studio: how many devices would; from version 2 on

	// TypeSkipped is the first type that an older receiver may skip.
	TypeSkipped Type = 0x60
)

// Frame is one of the frames below, or *Skipped.
type Frame interface {
	Type() Type
	append([]byte) []byte // the payload
	read(*reader)
}

// Append writes f as a plain frame behind dst.
func Append(dst []byte, f Frame) []byte {
	return f.append(append(dst, byte(f.Type())))
}

// Parse reads a plain frame. What it returns refers to msg.
func Parse(msg []byte) (Frame, error) {
	switch {
	case len(msg) == 0:
		return nil, ErrEmpty
	case len(msg) > MaxFrame:
		return nil, ErrTooLarge
	}
	f := blank(Type(msg[0]))
	if f == nil {
		return nil, ErrUnknownType
	}
	r := reader{b: msg, at: 1}
	f.read(&r)
	if err := r.done(); err != nil {
		return nil, err
	}
	return f, nil
}

func blank(t Type) Frame {
	switch t {
	case TypeHello:
		return &Hello{}
	case TypeWelcome:
		return &Welcome{}
	case TypeHeads:
		return &Heads{}
	case TypeEntries:
		return &Entries{}
	case TypePush:
		return &Push{}
	case TypeAck:
		return &Ack{}
	case TypeWant:
		return &Want{}
	case TypeCaughtUp:
		return &CaughtUp{}
	case TypeSubscribe:
		return &Subscribe{}
	case TypeUnsubscribe:
		return &Unsubscribe{}
	case TypeSummaries:
		return &Summaries{}
	case TypeNotice:
		return &Notice{}
	case TypeBlobOffer:
		return &BlobOffer{}
	case TypeBlobWant:
		return &BlobWant{}
	case TypeBlobChunk:
		return &BlobChunk{}
	case TypeBlobHave:
		return &BlobHave{}
	case TypeBlobLack:
		return &BlobLack{}
	case TypeArmed:
		return &Armed{}
	case TypeRingers:
		return &Ringers{}
	}
	if t >= TypeSkipped && t < Deflated {
		return &Skipped{Of: t}
	}
	return nil
}

// Skipped is a frame of a later version that may be passed over.
type Skipped struct {
	Of      Type
	Payload []byte
}

// Type returns the frame's type.
func (f *Skipped) Type() Type             { return f.Of }
func (f *Skipped) append(b []byte) []byte { return append(b, f.Payload...) }
func (f *Skipped) read(r *reader)         { f.Payload = r.bytes(len(r.b) - r.at) }

// Receipt is the studio machine's signature over the head of a chain: all
// entries up to it are on its disk.
type Receipt struct {
	journal.ChainHead
	Sig [64]byte
}

// receiptContext keeps a receipt from being taken for another signature.
const receiptContext = "sinkside receipt 1\x00"

// ReceiptText returns the bytes that a receipt signs with Ed25519: the context
// "sinkside receipt 1" and a zero byte, treatment, device, n as 8 bytes
// big-endian, name.
func ReceiptText(h journal.ChainHead) []byte {
	b := make([]byte, 0, len(receiptContext)+72)
	b = appendChain(append(b, receiptContext...), h.Chain)
	for shift := 56; shift >= 0; shift -= 8 {
		b = append(b, byte(h.N>>shift))
	}
	return append(b, h.Name[:]...)
}
