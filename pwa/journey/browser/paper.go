package browser

import (
	"context"
	"os"
	"path/filepath"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// PDF prints the page on A4 and returns it as PDF. The folder that SINKSIDE_SHOTS
// names, if it names one, keeps it under a name.
func (p *Page) PDF(name string) []byte {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's driver does not print", p.Name)
	}
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	r, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: new(true)})
	if err != nil {
		p.t.Fatalf("%s: print: %v", p.Name, err)
	}
	if dir := os.Getenv("SINKSIDE_SHOTS"); dir != "" {
		path := filepath.Join(dir, name+".pdf")
		if err := os.WriteFile(path, r.Data, 0o644); err != nil {
			p.t.Logf("%s: no PDF: %v", p.Name, err)
		} else {
			p.t.Logf("%s: printed to %s", p.Name, path)
		}
	}
	return r.Data
}

// AsPrinted lets the page look as on paper, or as on the screen again.
func (p *Page) AsPrinted(is bool) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's media cannot be changed", p.Name)
	}
	media := ""
	if is {
		media = "print"
	}
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media}); err != nil {
		p.t.Fatalf("%s: media %q: %v", p.Name, media, err)
	}
}
