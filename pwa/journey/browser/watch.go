package browser

import (
	"context"
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// watch collects the console of a tab and of the workers that it starts.
func (c *Chromium) watch(ctx context.Context) error {
	return chromedp.Listen(ctx, func(ev any) {
		if a, ok := ev.(*target.EventAttachedToTarget); ok {
			if strings.Contains(a.TargetInfo.Type, "worker") {
				go c.watchWorker(ctx, a.TargetInfo.TargetID, a.TargetInfo.Type)
			}
			return
		}
		c.hear(c.o.Name, ev)
	})
}

// watchWorker listens to a worker until it ends. A worker that ended before
// the browser could be asked has nothing more to say.
func (c *Chromium) watchWorker(ctx context.Context, id target.ID, kind string) {
	wctx, _ := chromedp.NewContext(ctx, chromedp.WithTargetID(id), chromedp.WithDetachOnCancel(),
		chromedp.WithListener(func(ev any) { c.hear(c.o.Name+", "+kind, ev) }))
	if err := chromedp.Do(wctx); err != nil {
		c.log.add(false, fmt.Sprintf("%s: %s not watched: %v", c.o.Name, kind, err))
	}
}

// hear sorts one event of a page or worker. Errors, uncaught exceptions and
// what the Content-Security-Policy refused are faults; so is a warning that
// the engine itself gives.
func (c *Chromium) hear(who string, ev any) {
	switch e := ev.(type) {
	case *runtime.EventConsoleAPICalled:
		bad := e.Type == "error" || e.Type == "assert"
		c.log.add(bad, who+": "+string(e.Type)+": "+arguments(e.Args))
	case *runtime.EventExceptionThrown:
		d := e.ExceptionDetails
		text := d.Text
		if d.Exception != nil {
			text += " " + d.Exception.Description
		}
		c.log.add(true, who+": not caught: "+text)
	case *log.EventEntryAdded:
		bad := e.Entry.Level == log.EntryLevelError || e.Entry.Source == log.EntrySourceSecurity
		c.log.add(bad, fmt.Sprintf("%s: %s %s: %s %s", who, e.Entry.Source, e.Entry.Level, e.Entry.Text, e.Entry.URL))
	}
}

func arguments(args []*runtime.RemoteObject) string {
	var words []string
	for _, a := range args {
		switch {
		case a.Description != "":
			words = append(words, a.Description)
		default:
			words = append(words, strings.Trim(string(a.Value), `"`))
		}
	}
	return strings.Join(words, " ")
}
