package bridge

import (
	"sinkside/sync/journal"
	"sinkside/sync/link"
)

// linkOffer says that the host has a photograph that entries mention.
//
//	in   blob size now
//	out  effects
func linkOffer(k *call) error {
	blob, size := k.args.name("blob"), k.args.int("size")
	return k.onLink(func(l *link.Link) error { l.Offer(blob, uint64(max(size, 0))); return nil })
}

// linkChunk answers an effect's read; no payload says that the photograph is
// gone.
//
//	in   blob index now; payload: the chunk
//	out  effects
func linkChunk(k *call) error {
	blob, index := k.args.name("blob"), k.args.int("index")
	return k.onLink(func(l *link.Link) error { l.Chunk(blob, uint64(index), k.payload); return nil })
}

// sum names a photograph, where the browser cannot.
//
//	in   payload: its bytes
//	out  blob
func sum(k *call) error {
	text(&k.w, "blob", journal.Sum(k.payload).String())
	return nil
}
