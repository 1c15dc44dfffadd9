package browser

import (
	"context"
	"fmt"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Touch is what a finger or a drop of water does on the glass. Its times are
// told to the browser, not waited for.
type Touch struct {
	X, Y   float64       // CSS pixels
	Held   time.Duration // how long ago it came down when it goes
	Drift  float64       // CSS pixels that it slides to the right before it goes
	Second bool          // something else comes down elsewhere meanwhile
}

// CanBackdate tells whether touches can say when they came down.
func (p *Page) CanBackdate() bool {
	t, ok := p.d.(*tab)
	return ok && t.touch
}

// Backdated touches an element as if the finger had come down d ago, and lets
// go at once. A page knows of no touch before it was opened.
func (p *Page) Backdated(selector string, d time.Duration) {
	p.t.Helper()
	p.Until("a page that was open by then", fmt.Sprintf(`performance.now()>%d`, (d+100*time.Millisecond).Milliseconds()))
	s := p.reach(selector)
	p.Drops(Touch{X: s.X, Y: s.Y, Held: d})
}

// Fingers holds an element for a time while a second finger comes down
// elsewhere, or while the finger slides away.
func (p *Page) Fingers(selector string, d time.Duration, second, slide bool) {
	p.t.Helper()
	s := p.reach(selector)
	touch := Touch{X: s.X, Y: s.Y, Held: d, Second: second}
	if slide {
		touch.Drift = 40
	}
	p.Drops(touch)
}

// Drops lets touches fall, one after the other.
func (p *Page) Drops(touches ...Touch) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's touches have the time at which they are made", p.Name)
	}
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	for _, drop := range touches {
		if err := t.drop(ctx, drop); err != nil {
			p.t.Fatalf("%s: touch: %v", p.Name, err)
		}
	}
}

// drop tells the browser when each event happened, its end too: a machine that
// is busy between two of them makes no touch longer than it was.
func (t *tab) drop(ctx context.Context, d Touch) error {
	now := time.Now()
	points := []*input.TouchPoint{point(0, d.X, d.Y)}
	if err := t.touchedAt(ctx, input.DispatchTouchEventTypeTouchStart, now.Add(-d.Held), points...); err != nil {
		return err
	}
	if d.Second {
		points = append(points, point(1, 40, 300))
		if err := t.touchedAt(ctx, input.DispatchTouchEventTypeTouchStart, now.Add(-d.Held/2), points...); err != nil {
			return err
		}
	}
	for _, part := range []float64{0.4, 1} {
		if d.Drift == 0 {
			break
		}
		points[0] = point(0, d.X+part*d.Drift, d.Y)
		if err := t.touchedAt(ctx, input.DispatchTouchEventTypeTouchMove, now, points...); err != nil {
			return err
		}
	}
	return t.touchedAt(ctx, input.DispatchTouchEventTypeTouchEnd, now)
}

// touched sends one event of the glass, which happens now.
func (t *tab) touched(ctx context.Context, typ input.DispatchTouchEventType, points ...*input.TouchPoint) error {
	return t.touchedAt(ctx, typ, time.Time{}, points...)
}

// touchedAt sends one event of the glass; the zero time is now.
func (t *tab) touchedAt(ctx context.Context, typ input.DispatchTouchEventType, when time.Time, points ...*input.TouchPoint) error {
	var at input.TimeSinceEpoch
	if !when.IsZero() {
		at = input.TimeSinceEpoch(float64(when.UnixMicro()) / 1e6)
	}
	if points == nil {
		points = []*input.TouchPoint{}
	}
	_, err := chromedp.Call(ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: typ, Timestamp: at, TouchPoints: points})
	return err
}

func point(id, x, y float64) *input.TouchPoint {
	return &input.TouchPoint{X: x, Y: y, RadiusX: new(8.0), RadiusY: new(8.0), Force: new(1.0), ID: new(id)}
}
