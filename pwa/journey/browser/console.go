package browser

import (
	"regexp"
	"strings"
	"sync"
	"testing"
)

// console keeps what the pages and workers of one browser complained of.
type console struct {
	mu       sync.Mutex
	expected []*regexp.Regexp
	faults   []string
	lines    []string
}

// add records a line; bad says that a page without fault would not write it.
func (c *console) add(bad bool, line string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.lines = append(c.lines, line)
	if !bad {
		return
	}
	for _, re := range c.expected {
		if re.MatchString(line) {
			return
		}
	}
	c.faults = append(c.faults, line)
}

func (c *console) expect(patterns ...string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, s := range patterns {
		c.expected = append(c.expected, regexp.MustCompile(s))
	}
}

// report fails the test for what was not expected.
func (c *console) report(t testing.TB) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.faults) > 0 {
		t.Errorf("the browser's console complains:\n%s", strings.Join(c.faults, "\n"))
	}
	if t.Failed() && len(c.lines) > 0 {
		t.Logf("the whole console:\n%s", strings.Join(c.lines, "\n"))
	}
}

// unreachable is what an engine itself writes when a server is away or goes
// away; a page cannot keep it from doing so.
var unreachable = []string{
	`net::ERR_(CONNECTION_[A-Z]+|ADDRESS_UNREACHABLE|INTERNET_DISCONNECTED|EMPTY_RESPONSE|NETWORK_CHANGED|SOCKET_NOT_CONNECTED)`,
	`WebSocket connection to '[^']*' failed`,
}
