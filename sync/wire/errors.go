package wire

import "strconv"

// Error says what is wrong with a message. Name is the same in every version
// and in every language; What is for people who write a client.
type Error struct {
	Name string
	At   int // offset in the plain frame, 0 being its type byte
	What string
}

func (e *Error) Error() string {
	s := "frame: " + e.Name
	if e.What != "" {
		s += " at byte " + strconv.Itoa(e.At) + ": " + e.What
	}
	return s
}

// Is tells errors apart by Name alone.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.Name == e.Name
}

// The errors, without a place. A message that gives one of them ends the
// connection.
var (
	// ErrEmpty: a message of no bytes.
	ErrEmpty = &Error{Name: "empty"}
	// ErrNotBinary: a message of text.
	ErrNotBinary = &Error{Name: "not-binary"}
	// ErrTooLarge: a message, or what it inflates to, is over MaxFrame.
	ErrTooLarge = &Error{Name: "too-large"}
	// ErrUnknownType: no frame of this version has this type, or it is not sent
	// in this direction.
	ErrUnknownType = &Error{Name: "unknown-type"}
	// ErrInflate: the payload of a message marked deflated is not.
	ErrInflate = &Error{Name: "cannot-inflate"}
	// ErrShort: the frame ends inside a field.
	ErrShort = &Error{Name: "cut-short"}
	// ErrLeftOver: bytes follow the last field.
	ErrLeftOver = &Error{Name: "left-over"}
	// ErrSpelling: a number is not in its shortest form, or a run's cut is not
	// where it belongs.
	ErrSpelling = &Error{Name: "bad-spelling"}
	// ErrCount: more items than allowed, or none where one is needed.
	ErrCount = &Error{Name: "bad-count"}
	// ErrOrder: items are not sorted, or one is there twice.
	ErrOrder = &Error{Name: "bad-order"}
	// ErrValue: a field is outside its range, or a reserved flag is set.
	ErrValue = &Error{Name: "bad-value"}
	// ErrEntry: a line is no entry.
	ErrEntry = &Error{Name: "bad-entry"}
	// ErrRun: an entry is not the next of its run.
	ErrRun = &Error{Name: "bad-run"}
)
