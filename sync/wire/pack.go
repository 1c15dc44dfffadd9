package wire

// WorthDeflating is the size in bytes from which a frame is deflated: below it
// the gain is smaller than a network packet.
const WorthDeflating = 512

// Deflate appends the raw deflate (RFC 1951) of src to dst.
type Deflate func(dst, src []byte) []byte

// Inflate appends to dst what src, a complete raw deflate stream, inflates to.
// It fails when that is over limit bytes, or when src is not such a stream.
type Inflate func(dst, src []byte, limit int) ([]byte, error)

// Compressible tells whether frames of this type are ever deflated. Blobs are
// photographs, which gain nothing.
func (t Type) Compressible() bool { return t < TypeBlobOffer || t > 0x1f }

// Pack returns the message for a plain frame: deflated when that is worth it.
// A nil deflate leaves all frames plain.
func Pack(plain []byte, deflate Deflate) []byte {
	if deflate == nil || len(plain) < WorthDeflating || !Type(plain[0]).Compressible() {
		return plain
	}
	msg := make([]byte, 1, len(plain)/2)
	msg[0] = plain[0] | Deflated
	msg = deflate(msg, plain[1:])
	if len(msg) >= len(plain) {
		return plain
	}
	return msg
}

// Unpack returns the plain frame of a message. A message that was not deflated
// is returned as it is.
func Unpack(msg []byte, inflate Inflate) ([]byte, error) {
	switch {
	case len(msg) == 0:
		return nil, ErrEmpty
	case len(msg) > MaxFrame:
		return nil, ErrTooLarge
	case msg[0]&Deflated == 0:
		return msg, nil
	}
	plain := make([]byte, 1, min(4*len(msg), MaxFrame))
	plain[0] = msg[0] &^ Deflated
	plain, err := inflate(plain, msg[1:], MaxFrame-1)
	if err != nil {
		return nil, err
	}
	return plain, nil
}
