package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// Options say how a Chromium is set up.
type Options struct {
	Name  string            // whose browser it is
	Home  string            // folder for profile and certificate store; a later start on it is the same phone
	Root  []byte            // certificate to trust; none when empty
	Hosts map[string]string // name to address, as mDNS would tell
	Phone bool              // 390 x 844 with touch, in place of 1280 x 800
}

// Chromium is a running browser.
type Chromium struct {
	o       Options
	t       testing.TB
	ctx     context.Context
	release context.CancelFunc
	log     *console
	first   *Page
	stopped bool
}

// Start starts Chromium with one empty tab. The test's end closes it.
func Start(t testing.TB, o Options) *Chromium {
	t.Helper()
	if len(o.Root) > 0 {
		if err := Trust(o.Home, o.Root); err != nil {
			t.Fatalf("%s: trust the studio's certificate: %v", o.Name, err)
		}
	}
	c := &Chromium{o: o, t: t, log: &console{}}
	alloc, release := chromedp.NewExecAllocator(context.Background(), c.flags()...)
	c.release = release
	c.ctx, _ = chromedp.NewContext(alloc)
	t.Cleanup(func() {
		c.Close()
		c.log.report(t)
	})
	p, err := c.open(c.ctx)
	if err != nil {
		c.stopped = true
		release()
		t.Fatalf("%s: start Chromium: %v", o.Name, err)
	}
	c.first = p
	return c
}

func (c *Chromium) flags() []chromedp.ExecAllocatorOption {
	f := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromiumPath()),
		chromedp.NoSandbox,
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("lang", "en-GB"),
		chromedp.WindowSize(1280, 800),
		chromedp.UserDataDir(filepath.Join(c.o.Home, "profile")),
		chromedp.Env("HOME="+c.o.Home, "LANG=en_GB.UTF-8"),
	)
	var rules []string
	for name, addr := range c.o.Hosts {
		rules = append(rules, "MAP "+name+" "+addr)
	}
	sort.Strings(rules)
	if len(rules) > 0 {
		f = append(f, chromedp.Flag("host-resolver-rules", strings.Join(rules, ",")))
	}
	return f
}

// chromiumPath finds the browser where Debian and others put it.
func chromiumPath() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return "chromium"
}

// open prepares the tab of a context: screen, touch, speed and console.
func (c *Chromium) open(ctx context.Context) (*Page, error) {
	if err := chromedp.Do(ctx); err != nil {
		return nil, err
	}
	tab := &tab{ctx: ctx}
	if err := c.watch(ctx); err != nil {
		return nil, err
	}
	if c.o.Phone {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844, chromedp.EmulatePortrait, chromedp.EmulateMobile, chromedp.EmulateTouch)); err != nil {
			return nil, err
		}
	}
	tab.touch = c.o.Phone
	return newPage(c.t, c.o.Name, tab, c.log), nil
}

// Page is the browser's first tab.
func (c *Chromium) Page() *Page { return c.first }

// NewTab opens one more tab, in front.
func (c *Chromium) NewTab() *Page {
	c.t.Helper()
	ctx, _ := chromedp.NewContext(c.ctx)
	p, err := c.open(ctx)
	if err != nil {
		c.t.Fatalf("%s: open a tab: %v", c.o.Name, err)
	}
	p.Name += ", another tab"
	return p
}

// Expect says which console complaints are no fault from now on.
func (c *Chromium) Expect(patterns ...string) { c.log.expect(patterns...) }

// ExpectUnreachable says that the studio machine may be away from now on.
func (c *Chromium) ExpectUnreachable() { c.log.expect(unreachable...) }

// Console is every line that the browser's pages and workers wrote so far.
func (c *Chromium) Console() []string {
	c.log.mu.Lock()
	defer c.log.mu.Unlock()
	return append([]string(nil), c.log.lines...)
}

// Close shuts the browser down in order. It does nothing to a stopped one.
func (c *Chromium) Close() {
	if c.stopped {
		return
	}
	c.stopped = true
	ctx, cancel := context.WithTimeout(c.ctx, 10*time.Second)
	defer cancel()
	if err := chromedp.Cancel(ctx); err != nil {
		c.t.Logf("%s: close Chromium: %v", c.o.Name, err)
	}
	c.release()
}

// Slow makes the whole browser run n times slower until the returned function
// is called.
func (c *Chromium) Slow(n int) (stop func()) { return slowDown(filepath.Join(c.o.Home, "profile"), n) }

// Kill ends the browser with SIGKILL, as a phone whose battery is flat, and
// waits until it is gone.
func (c *Chromium) Kill() {
	c.t.Helper()
	c.stopped = true
	if err := chromedp.FromContext(c.ctx).Browser.Process().Kill(); err != nil {
		c.t.Fatalf("%s: kill Chromium: %v", c.o.Name, err)
	}
	<-c.ctx.Done()
	c.release()
	// The lock names the process that is gone; the renderers outlive it for
	// a moment and then leave the profile alone.
	profile := filepath.Join(c.o.Home, "profile")
	if !poll(Patience, func() bool { return len(processes(profile)) == 0 }) {
		c.t.Fatalf("%s: a process of the killed browser still runs", c.o.Name)
	}
}

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
	_, err := chromedp.Call(ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{
		Type:        input.DispatchTouchEventTypeTouchStart,
		TouchPoints: []*input.TouchPoint{{X: x, Y: y, RadiusX: new(8.0), RadiusY: new(8.0), Force: new(1.0), ID: new(0.0)}},
	})
	return err
}

func (t *tab) letGo(ctx context.Context, _, _ float64) error {
	_, err := chromedp.Call(ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{
		Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{},
	})
	return err
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
