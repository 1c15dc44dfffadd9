package wire

// Armed says whether this device would ring: its sound was unlocked, and it
// stays awake.
type Armed struct{ Armed bool }

const armedRings = 1

// Type returns TypeArmed.
func (f *Armed) Type() Type             { return TypeArmed }
func (f *Armed) append(b []byte) []byte { return appendFlags(b, f.Armed) }
func (f *Armed) read(r *reader)         { f.Armed = r.flags(armedRings) != 0 }

// Ringers tells how many devices are armed, the receiver included. A session
// begins with none.
type Ringers struct{ Count uint64 }

// Type returns TypeRingers.
func (f *Ringers) Type() Type             { return TypeRingers }
func (f *Ringers) append(b []byte) []byte { return appendUint(b, f.Count) }
func (f *Ringers) read(r *reader)         { f.Count = r.uint() }
