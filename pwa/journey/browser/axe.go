package browser

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// A Finding is one barrier that axe found on a screen.
type Finding struct {
	ID, Impact, Help string
	Nodes            []struct {
		HTML           string
		FailureSummary string
	}
}

// axeFile is the accessibility checker of the web app's development packages.
func axeFile() string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "..", "node_modules", "axe-core", "axe.min.js")
}

// Barriers runs axe over what the page shows now and returns the findings
// that are serious or critical.
func (p *Page) Barriers() []Finding {
	p.t.Helper()
	if !Eval[bool](p, `typeof window.axe==="object"`) {
		src, err := os.ReadFile(axeFile())
		if err != nil {
			p.t.Fatalf("%s: axe-core is not installed (npm ci in pwa): %v", p.Name, err)
		}
		Eval[bool](p, `(()=>{`+string(src)+`;return true})()`)
	}
	return Eval[[]Finding](p, `axe.run(document,{resultTypes:["violations"]}).then(r=>r.violations
	  .filter(v=>v.impact==="serious"||v.impact==="critical")
	  .map(v=>({ID:v.id,Impact:v.impact,Help:v.help,Nodes:v.nodes.map(n=>({HTML:n.html,FailureSummary:n.failureSummary}))})))`)
}

// NoBarriers fails the test for every serious or critical finding of axe.
func (p *Page) NoBarriers(screen string) {
	p.t.Helper()
	for _, f := range p.Barriers() {
		var b strings.Builder
		for _, n := range f.Nodes {
			b.WriteString("\n    " + n.HTML + "\n      " + strings.ReplaceAll(n.FailureSummary, "\n", "\n      "))
		}
		p.t.Errorf("%s: %s: %s (%s): %s%s", p.Name, screen, f.ID, f.Impact, f.Help, b.String())
	}
}
