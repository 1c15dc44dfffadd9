// Package packing lays rectangular pieces out on sheets of stock or on a width of
// cloth, with their grain kept.
//
// It keeps, for each sheet, all the largest empty rectangles (the method of maximal
// rectangles), puts each piece where a rule likes it best, and does so for several
// orders of the pieces and several rules; the layout with the fewest sheets, then
// the shortest last one, is kept. It is a good layout, not proved the best.
//
// Measures are whole hundredths of a millimetre, so that one layout comes out on
// every machine.
package packing

import (
	"errors"
	"math"
	"slices"
)

// Grain says how a piece lies to the grain, which runs along the length of the
// stock.
type Grain uint8

// The ways a piece may lie.
const (
	Along  Grain = iota // its height along the grain
	Across              // its width along the grain
	Free                // either way
)

// Piece is one piece to cut, in mm.
type Piece struct {
	Width, Height float64
	Grain         Grain
}

// Stock is what is cut from: sheets, or a width of cloth of so much length. Gap is
// left between pieces, for the saw or the seam; none is needed at the edges.
type Stock struct{ Width, Length, Gap float64 }

// Placed is a piece in its place: x across and y along the stock, mm.
type Placed struct {
	Piece               int // which, as they were given
	Sheet               int // from 0
	X, Y, Width, Length float64
	Turned              bool // its width lies along the stock
}

// Layout is a whole layout.
type Layout struct {
	Placed []Placed // in the order of the pieces
	Sheets int
	Used   float64 // how far the last sheet is used, along it, mm
}

// Most is how many pieces are laid out.
const Most = 400

var (
	// ErrMany is returned for more than Most pieces.
	ErrMany = errors.New("too many pieces")
	// ErrNone is returned where there are no pieces, or one has no size.
	ErrNone = errors.New("no piece, or one without a size")
)

// TooLarge is returned where a piece fits the stock no way that its grain allows.
type TooLarge struct {
	Piece   int
	ByGrain bool // it would fit if it could be turned
}

func (TooLarge) Error() string { return "a piece is larger than the stock" }

const scale = 100 // hundredths of a millimetre

func whole(mm float64) int { return int(math.Round(mm * scale)) }

type rect struct{ x, y, w, h int }

func (r rect) holds(s rect) bool {
	return s.x >= r.x && s.y >= r.y && s.x+s.w <= r.x+r.w && s.y+s.h <= r.y+r.h
}

func (r rect) meets(s rect) bool {
	return s.x < r.x+r.w && r.x < s.x+s.w && s.y < r.y+r.h && r.y < s.y+s.h
}

// item is a piece with the ways that it may lie, gap included.
type item struct {
	piece int
	ways  [2]rect // w and h alone; the second one turned
	n     int     // of ways
	first bool    // the first way is the turned one
}

func (t item) turned(way int) bool { return t.first != (way == 1) }

// Pack lays pieces out.
func Pack(pieces []Piece, stock Stock) (Layout, error) {
	if len(pieces) == 0 {
		return Layout{}, ErrNone
	}
	if len(pieces) > Most {
		return Layout{}, ErrMany
	}
	gap := whole(stock.Gap)
	sheet := rect{0, 0, whole(stock.Width) + gap, whole(stock.Length) + gap}
	items := make([]item, len(pieces))
	for i, p := range pieces {
		t, err := ways(i, p, sheet, gap)
		if err != nil {
			return Layout{}, err
		}
		items[i] = t
	}
	var best Layout
	for _, order := range orders {
		sorted := slices.Clone(items)
		slices.SortStableFunc(sorted, func(a, b item) int { return order(b) - order(a) })
		for _, rule := range rules {
			l := lay(sorted, sheet, gap, rule)
			if best.Placed == nil || l.Sheets < best.Sheets || l.Sheets == best.Sheets && whole(l.Used) < whole(best.Used) {
				best = l
			}
		}
	}
	return best, nil
}

func ways(i int, p Piece, sheet rect, gap int) (item, error) {
	w, h := whole(p.Width), whole(p.Height)
	if w <= 0 || h <= 0 {
		return item{}, ErrNone
	}
	straight, turned := rect{w: w + gap, h: h + gap}, rect{w: h + gap, h: w + gap}
	fits := func(r rect) bool { return r.w <= sheet.w && r.h <= sheet.h }
	t := item{piece: i}
	add := func(r rect, is bool) {
		if fits(r) {
			if t.n == 0 {
				t.first = is
			}
			t.ways[t.n] = r
			t.n++
		}
	}
	if p.Grain != Across {
		add(straight, false)
	}
	if p.Grain != Along && !(p.Grain == Free && w == h) {
		add(turned, true)
	}
	if t.n == 0 {
		return t, TooLarge{i, fits(straight) || fits(turned)}
	}
	return t, nil
}

// orders are what pieces are sorted by, the largest first.
var orders = []func(item) int{
	func(t item) int { return t.ways[0].w * t.ways[0].h / scale },
	func(t item) int { return max(t.ways[0].w, t.ways[0].h) },
	func(t item) int { return t.ways[0].h },
	func(t item) int { return t.ways[0].w },
	func(t item) int { return t.ways[0].w + t.ways[0].h },
	func(t item) int { return 0 }, // as they were given
}

// rules say how much they like a piece at the corner of an empty rectangle: less is
// better, the first number first.
var rules = []func(free, piece rect) [2]int{
	// The shorter rest is shortest.
	func(f, p rect) [2]int { return [2]int{min(f.w-p.w, f.h-p.h), max(f.w-p.w, f.h-p.h)} },
	// The end lies nearest to the beginning of the stock.
	func(f, p rect) [2]int { return [2]int{f.y + p.h, f.x} },
	// The least is left empty.
	func(f, p rect) [2]int { return [2]int{f.w*f.h/scale - p.w*p.h/scale, min(f.w-p.w, f.h-p.h)} },
}

// lay puts pieces down one after the other.
func lay(items []item, sheet rect, gap int, rule func(free, piece rect) [2]int) Layout {
	var sheets [][]rect // the largest empty rectangles of each
	out := Layout{Placed: make([]Placed, len(items))}
	ends := []int{}
	for _, t := range items {
		at, on, way := place(t, sheets, rule)
		if on < 0 {
			sheets, ends = append(sheets, []rect{sheet}), append(ends, 0)
			at, on, way = place(t, sheets, rule)
		}
		sheets[on] = cut(sheets[on], at)
		ends[on] = max(ends[on], at.y+at.h-gap)
		out.Placed[t.piece] = Placed{Piece: t.piece, Sheet: on, X: mm(at.x), Y: mm(at.y), Width: mm(at.w - gap), Length: mm(at.h - gap), Turned: t.turned(way)}
	}
	out.Sheets, out.Used = len(sheets), mm(ends[len(ends)-1])
	return out
}

func mm(x int) float64 { return float64(x) / scale }

// place finds where a rule likes a piece best: on the first sheet that takes it.
func place(t item, sheets [][]rect, rule func(free, piece rect) [2]int) (at rect, on, way int) {
	on = -1
	for i, free := range sheets {
		var best [2]int
		for _, f := range free {
			for w := range t.n {
				p := t.ways[w]
				if p.w > f.w || p.h > f.h {
					continue
				}
				like := rule(f, p)
				if on < 0 || like[0] < best[0] || like[0] == best[0] && like[1] < best[1] {
					at, on, way, best = rect{f.x, f.y, p.w, p.h}, i, w, like
				}
			}
		}
		if on >= 0 {
			return at, on, way
		}
	}
	return at, on, way
}

// cut takes a piece out of the empty rectangles, and keeps the largest.
func cut(free []rect, p rect) []rect {
	var out []rect
	for _, f := range free {
		if !f.meets(p) {
			out = append(out, f)
			continue
		}
		if p.x > f.x {
			out = append(out, rect{f.x, f.y, p.x - f.x, f.h})
		}
		if right := p.x + p.w; right < f.x+f.w {
			out = append(out, rect{right, f.y, f.x + f.w - right, f.h})
		}
		if p.y > f.y {
			out = append(out, rect{f.x, f.y, f.w, p.y - f.y})
		}
		if below := p.y + p.h; below < f.y+f.h {
			out = append(out, rect{f.x, below, f.w, f.y + f.h - below})
		}
	}
	var kept []rect
	for i, a := range out {
		inside := false
		for j, b := range out {
			if i != j && b.holds(a) && (!a.holds(b) || j < i) {
				inside = true
				break
			}
		}
		if !inside {
			kept = append(kept, a)
		}
	}
	return kept
}

// Taken is the stock that the pieces are cut from, mm²: whole sheets, and the last as
// far as it is used.
func (l Layout) Taken(stock Stock) float64 {
	return stock.Width * (float64(float64(l.Sheets-1)*stock.Length) + l.Used)
}

// Cut is the area of all pieces, mm².
func (l Layout) Cut() float64 {
	sum := 0.0
	for _, p := range l.Placed {
		sum += float64(p.Width * p.Length)
	}
	return sum
}

// Waste returns the share of what is taken of the stock that no piece takes; 0 where
// nothing is.
func (l Layout) Waste(stock Stock) float64 {
	all := l.Taken(stock)
	if all <= 0 {
		return 0
	}
	return max(1-l.Cut()/all, 0)
}
