package browser

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
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

// SlowPage makes the page's own thread n times slower, as the DevTools protocol
// does it; workers, compiler threads and storage keep their speed.
func (c *Chromium) SlowPage(n int) {
	c.t.Helper()
	if _, err := chromedp.Call(c.ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: float64(n)}); err != nil {
		c.t.Fatalf("%s: slow the page: %v", c.o.Name, err)
	}
}

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
	// A killed browser leaves a folder with its socket behind, outside of the profile.
	if socket, err := os.Readlink(filepath.Join(profile, "SingletonSocket")); err == nil {
		os.RemoveAll(filepath.Dir(socket))
	}
}

// LoseCookies takes from a killed browser the cookies that it had written, as if it had
// been killed before it wrote them: Chromium does that within half a minute.
func (c *Chromium) LoseCookies() {
	c.t.Helper()
	for _, name := range []string{"Cookies", "Cookies-journal"} {
		for _, folder := range []string{"Default", filepath.Join("Default", "Network")} {
			if err := os.Remove(filepath.Join(c.o.Home, "profile", folder, name)); err != nil && !os.IsNotExist(err) {
				c.t.Fatalf("%s: lose the cookies: %v", c.o.Name, err)
			}
		}
	}
}
