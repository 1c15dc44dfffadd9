package jsontext

// Members of an object: a name and its value in one call.

// Texts writes members that are strings: names and strings by turns.
func (w *Writer) Texts(pairs ...string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		w.KeyStr(pairs[i], pairs[i+1])
	}
}

// KeyStr writes a member that is a string.
func (w *Writer) KeyStr(k, s string) { w.Key(k); w.Str(s) }

// KeyInt writes a member that is a whole number.
func (w *Writer) KeyInt(k string, i int64) { w.Key(k); w.Int(i) }

// KeyFloat writes a member that is a number; null when it is not finite.
func (w *Writer) KeyFloat(k string, f float64) { w.Key(k); w.Float(f) }

// KeyBool writes a member that is true or false.
func (w *Writer) KeyBool(k string, b bool) { w.Key(k); w.Bool(b) }

// KeyIntOrNull writes a member that is a whole number; null where there is none.
func (w *Writer) KeyIntOrNull(k string, i *int64) {
	w.Key(k)
	if i == nil {
		w.Null()
		return
	}
	w.Int(*i)
}

// KeyFloatOrNull writes a member that is a number; null where there is none, or
// it is not finite.
func (w *Writer) KeyFloatOrNull(k string, f *float64) {
	w.Key(k)
	if f == nil {
		w.Null()
		return
	}
	w.Float(*f)
}

// KeyStrs writes a member that is an array of strings.
func (w *Writer) KeyStrs(k string, items []string) {
	w.Key(k)
	w.Begin('[')
	for _, s := range items {
		w.Str(s)
	}
	w.End(']')
}

// KeyList writes a member that is an array of n values, each by write. It is no
// generic function, of which each kind of item would cost the phone a copy.
func (w *Writer) KeyList(k string, n int, write func(i int)) {
	w.Key(k)
	w.Begin('[')
	for i := range n {
		write(i)
	}
	w.End(']')
}
