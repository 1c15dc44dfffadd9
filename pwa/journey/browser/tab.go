package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// Downloads makes the browser keep what a page saves in a folder.
func (p *Page) Downloads(dir string) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine saves no files here", p.Name)
	}
	if err := t.downloads(dir); err != nil {
		p.t.Fatalf("%s: downloads: %v", p.Name, err)
	}
}

// SavedFile waits for a complete file in the downloads folder whose name
// matches a pattern, and returns its path.
func (p *Page) SavedFile(dir, pattern string) string {
	p.t.Helper()
	var found string
	ok := poll(Patience, func() bool {
		names, _ := fs.Glob(os.DirFS(dir), pattern) // the pattern is the test's own
		for _, n := range names {
			if !strings.HasSuffix(n, ".crdownload") {
				found = filepath.Join(dir, n)
				return true
			}
		}
		return false
	})
	if !ok {
		p.t.Fatalf("%s: no file %s was saved", p.Name, pattern)
	}
	return found
}

// tab drives one tab through the DevTools protocol.
type tab struct {
	ctx   context.Context
	touch bool
}

func (t *tab) navigate(url string) error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	return chromedp.Do(ctx, chromedp.Navigate(url))
}

func (t *tab) reload() error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	return chromedp.Do(ctx, chromedp.Reload())
}

func (t *tab) eval(js string) (json.RawMessage, error) {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	raw, err := chromedp.Run(ctx, chromedp.Evaluate[[]byte](js, chromedp.EvalAwaitPromise))
	if errors.Is(err, chromedp.ErrJSUndefined) || errors.Is(err, chromedp.ErrJSNull) {
		return nil, nil
	}
	return raw, err
}

func (t *tab) press(x, y float64, held func()) error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	down, up := t.finger, t.letGo
	if !t.touch {
		down, up = t.mouseDown, t.mouseUp
	}
	if err := down(ctx, x, y); err != nil {
		return err
	}
	held()
	return up(ctx, x, y)
}

func (t *tab) finger(ctx context.Context, x, y float64) error {
	return t.touched(ctx, input.DispatchTouchEventTypeTouchStart, point(0, x, y))
}

func (t *tab) letGo(ctx context.Context, _, _ float64) error {
	return t.touched(ctx, input.DispatchTouchEventTypeTouchEnd)
}

func (t *tab) mouseDown(ctx context.Context, x, y float64) error {
	return chromedp.Do(ctx, chromedp.MouseEvent(chromedp.MouseMoved, x, y),
		chromedp.MouseEvent(chromedp.MousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

func (t *tab) mouseUp(ctx context.Context, x, y float64) error {
	return chromedp.Do(ctx, chromedp.MouseEvent(chromedp.MouseReleased, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// keys inserts text as an on-screen keyboard does, all at once; Enter, Tab and
// the like are pressed.
func (t *tab) keys(text string) error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	if len(text) == 1 && (text[0] < ' ' || text[0] == 0x7f) || len([]rune(text)) == 1 && []rune(text)[0] >= 0xe000 {
		return chromedp.Do(ctx, chromedp.KeyEvent(text))
	}
	_, err := chromedp.Call(ctx, input.InsertText, input.InsertTextParams{Text: text})
	return err
}

func (t *tab) shot() ([]byte, error) {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	r, err := chromedp.Call(ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng})
	return r.Data, err
}

func (t *tab) files(selector string, paths ...string) error {
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	return chromedp.Do(ctx, func(ctx context.Context, tgt *chromedp.Target) (chromedp.Void, error) {
		doc, err := cdp.Call(ctx, tgt, dom.GetDocument, dom.GetDocumentParams{})
		if err != nil {
			return chromedp.Void{}, err
		}
		n, err := cdp.Call(ctx, tgt, dom.QuerySelector, dom.QuerySelectorParams{NodeID: doc.Root.NodeID, Selector: selector})
		if err != nil {
			return chromedp.Void{}, err
		}
		if n.NodeID == 0 {
			return chromedp.Void{}, fmt.Errorf("no %s", selector)
		}
		_, err = cdp.Call(ctx, tgt, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: paths, NodeID: n.NodeID})
		return chromedp.Void{}, err
	})
}

// Close closes the page's tab and leaves its browser running.
func (p *Page) Close() {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine has one tab", p.Name)
	}
	if _, err := chromedp.CallBrowser(t.ctx, target.CloseTarget, target.CloseTargetParams{TargetID: chromedp.FromContext(t.ctx).Target.TargetID}); err != nil {
		p.t.Fatalf("%s: close the tab: %v", p.Name, err)
	}
}

func (t *tab) downloads(dir string) error {
	_, err := chromedp.CallBrowser(t.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir, EventsEnabled: new(true),
	})
	return err
}

func (t *tab) before(js string) error {
	_, err := chromedp.Call(t.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: js})
	return err
}

// Key presses a key of a keyboard; held, when not nil, runs while it is down.
func (p *Page) Key(key string, held func()) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's driver holds no keys", p.Name)
	}
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	codes := map[string]int64{"Enter": 13, " ": 32, "Escape": 27, "Tab": 9}
	for _, typ := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeRawKeyDown, input.DispatchKeyEventTypeKeyUp} {
		_, err := chromedp.Call(ctx, input.DispatchKeyEvent, input.DispatchKeyEventParams{
			Type: typ, Key: key, Code: key, WindowsVirtualKeyCode: codes[key], NativeVirtualKeyCode: codes[key],
		})
		if err != nil {
			p.t.Fatalf("%s: key %s: %v", p.Name, key, err)
		}
		if typ == input.DispatchKeyEventTypeRawKeyDown && held != nil {
			held()
		}
	}
}
