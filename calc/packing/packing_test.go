package packing

import (
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

const hair = 1e-6

// mustHold holds a layout to what it may never do.
func mustHold(t interface{ Fatalf(string, ...any) }, pieces []Piece, stock Stock, l Layout) {
	if len(l.Placed) != len(pieces) {
		t.Fatalf("%d of %d pieces were placed", len(l.Placed), len(pieces))
	}
	for i, p := range l.Placed {
		w, h := pieces[i].Width, pieces[i].Height
		if p.Turned {
			w, h = h, w
		}
		if p.Piece != i || !(p.Width > w-0.006 && p.Width < w+0.006 && p.Length > h-0.006 && p.Length < h+0.006) {
			t.Fatalf("piece %d of %+v became %+v", i, pieces[i], p)
		}
		if p.Turned && pieces[i].Grain == Along || !p.Turned && pieces[i].Grain == Across {
			t.Fatalf("the grain of piece %d, %+v, was not kept: %+v", i, pieces[i], p)
		}
		if p.X < 0 || p.Y < 0 || p.X+p.Width > stock.Width+0.006 || p.Y+p.Length > stock.Length+0.006 || p.Sheet < 0 || p.Sheet >= l.Sheets {
			t.Fatalf("piece %d leaves the sheet: %+v of %+v", i, p, stock)
		}
		for _, q := range l.Placed[:i] {
			apart := p.X+p.Width+stock.Gap <= q.X+hair || q.X+q.Width+stock.Gap <= p.X+hair || p.Y+p.Length+stock.Gap <= q.Y+hair || q.Y+q.Length+stock.Gap <= p.Y+hair
			if p.Sheet == q.Sheet && !apart {
				t.Fatalf("%+v and %+v overlap or are nearer than %v", p, q, stock.Gap)
			}
		}
	}
	if w := l.Waste(stock); w < 0 || w >= 1 {
		t.Fatalf("waste %v", w)
	}
}

func TestALayoutNeverOverlapsNorLeavesTheSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hundredths := func(least, most int) *rapid.Generator[float64] {
			return rapid.Map(rapid.IntRange(least, most), func(n int) float64 { return float64(n) / 100 })
		}
		stock := Stock{hundredths(20000, 150000).Draw(t, "width"), hundredths(20000, 300000).Draw(t, "length"), hundredths(0, 500).Draw(t, "gap")}
		var pieces []Piece
		for range rapid.IntRange(1, 30).Draw(t, "pieces") {
			pieces = append(pieces, Piece{hundredths(500, 60000).Draw(t, "w"), hundredths(500, 60000).Draw(t, "h"), Grain(rapid.IntRange(0, 2).Draw(t, "grain"))})
		}
		l, err := Pack(pieces, stock)
		var large TooLarge
		if errors.As(err, &large) {
			p := pieces[large.Piece]
			straight, turned := p.Width <= stock.Width && p.Height <= stock.Length, p.Height <= stock.Width && p.Width <= stock.Length
			if p.Grain != Across && straight || p.Grain != Along && turned {
				t.Fatalf("%+v fits %+v and was refused", p, stock)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		mustHold(t, pieces, stock, l)
		if again, _ := Pack(pieces, stock); !reflect.DeepEqual(again, l) {
			t.Fatalf("twice the same pieces, two layouts")
		}
	})
}

func TestWhatFitsExactlyLeavesNothing(t *testing.T) {
	stock := Stock{Width: 1000, Length: 2000}
	four := []Piece{{500, 1000, Along}, {500, 1000, Along}, {500, 1000, Along}, {1000, 500, Across}}
	l, err := Pack(four, stock)
	if err != nil || l.Sheets != 1 || l.Waste(stock) > hair || l.Used != 2000 {
		t.Errorf("%+v (%v)", l, err)
	}
	mustHold(t, four, stock, l)
	// With a saw's width between them no two fit beside or behind each other.
	stock.Gap = 3
	if l, _ = Pack(four, stock); l.Sheets != 4 {
		t.Errorf("with a gap: %d sheets", l.Sheets)
	}
	// On cloth the length used is the shortest: two side by side.
	cloth := Stock{Width: 1400, Length: 20000}
	if l, _ = Pack([]Piece{{600, 800, Along}, {600, 800, Along}}, cloth); l.Used != 800 {
		t.Errorf("two side by side take %v mm", l.Used)
	}
}

func TestWhatCannotBeLaidOut(t *testing.T) {
	stock := Stock{Width: 700, Length: 1000}
	for _, r := range []struct {
		pieces []Piece
		want   error
	}{
		{nil, ErrNone}, {[]Piece{{0, 5, Free}}, ErrNone}, {make([]Piece, Most+1), ErrMany},
		{[]Piece{{100, 100, Free}, {1200, 300, Free}}, TooLarge{1, false}}, {[]Piece{{900, 300, Along}}, TooLarge{0, true}}, {[]Piece{{300, 900, Across}}, TooLarge{0, true}},
	} {
		if _, err := Pack(r.pieces, stock); !errors.Is(err, r.want) {
			t.Errorf("%v: %v, want %v", r.pieces, err, r.want)
		}
	}
}

// BenchmarkForty lays 40 pieces out.
func BenchmarkForty(b *testing.B) {
	var pieces []Piece
	for i := range 40 {
		pieces = append(pieces, Piece{60 + 17*float64(i/2), 400 - 13*float64(i/2), Grain(i % 3)})
	}
	for b.Loop() {
		if _, err := Pack(pieces, Stock{1000, 1400, 3}); err != nil {
			b.Fatal(err)
		}
	}
}
