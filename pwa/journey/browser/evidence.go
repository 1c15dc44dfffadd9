package browser

import (
	"os"
	"path/filepath"
	"strings"
)

// Shot keeps a picture of the page in the folder that SINKSIDE_SHOTS names, if
// it names one.
func (p *Page) Shot(name string) {
	p.t.Helper()
	if dir := os.Getenv("SINKSIDE_SHOTS"); dir != "" {
		p.saveShot(filepath.Join(dir, name+".png"))
	}
}

func (p *Page) saveShot(path string) {
	png, err := p.d.shot()
	if err == nil {
		if err = os.MkdirAll(filepath.Dir(path), 0o755); err == nil {
			err = os.WriteFile(path, png, 0o644)
		}
	}
	if err != nil {
		p.t.Logf("%s: no picture: %v", p.Name, err)
		return
	}
	p.t.Logf("%s: picture in %s", p.Name, path)
}

// leaveEvidence says what a failed test's page looked like.
func (p *Page) leaveEvidence() {
	if where, err := evaluate[string](p, `location.href+"\n"+document.body.innerText.slice(0,2000)`); err == nil {
		p.t.Logf("%s showed %s", p.Name, where)
	}
	name := strings.NewReplacer("/", "-", " ", "-").Replace(p.t.Name() + "-" + p.Name)
	p.saveShot(filepath.Join(os.TempDir(), "sinkside-journey", name+".png"))
}
