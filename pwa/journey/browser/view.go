package browser

import (
	"context"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// View gives the tab a screen of w by h CSS pixels, in light or in dim surroundings.
func (p *Page) View(w, h int64, dim bool) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's screen cannot be changed", p.Name)
	}
	if err := t.view(w, h, dim); err != nil {
		p.t.Fatalf("%s: view %d x %d: %v", p.Name, w, h, err)
	}
}

func (t *tab) view(w, h int64, dim bool) error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(w, h)); err != nil {
		return err
	}
	scheme := "light"
	if dim {
		scheme = "dark"
	}
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	return err
}
