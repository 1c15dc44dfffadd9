package browser

import (
	"encoding/json"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
)

// WebKit is a running WPE WebKit: old (as a phone of 2022), without a window,
// driven by the W3C WebDriver protocol.
type WebKit struct {
	t       testing.TB
	name    string
	home    string
	driver  *exec.Cmd
	session *session
	page    *Page
}

// StartWebKit starts WPE WebKit with one empty tab. WebKit knows no resolver
// rules and no certificate store of its own; plain HTTP on 127.0.0.1 counts as
// a secure context there. The test's end closes it.
func StartWebKit(t testing.TB, name, home string) *WebKit {
	t.Helper()
	w := &WebKit{t: t, name: name, home: home}
	if err := w.start(); err != nil {
		w.kill()
		t.Fatalf("%s: start WPE WebKit: %v", name, err)
	}
	t.Cleanup(w.Close)
	w.page = newPage(t, name, w.session, &console{})
	return w
}

// Page is the browser's tab.
func (w *WebKit) Page() *Page { return w.page }

func (w *WebKit) start() error {
	port, err := freePort()
	if err != nil {
		return err
	}
	runtimeDir := filepath.Join(w.home, "run")
	if err := os.MkdirAll(runtimeDir, 0o700); err != nil {
		return err
	}
	w.driver = exec.Command("WPEWebDriver", "--port="+strconv.Itoa(port))
	w.driver.Env = append(os.Environ(), "HOME="+w.home, "XDG_RUNTIME_DIR="+runtimeDir,
		"XDG_DATA_HOME="+filepath.Join(w.home, "data"), "XDG_CACHE_HOME="+filepath.Join(w.home, "cache"),
		"LIBGL_ALWAYS_SOFTWARE=1", "EGL_PLATFORM=surfaceless", "LANG=en_GB.UTF-8", "DBUS_SESSION_BUS_ADDRESS=disabled:")
	w.driver.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // the browser is its child; both end together
	if err := w.driver.Start(); err != nil {
		return err
	}
	url := "http://127.0.0.1:" + strconv.Itoa(port)
	if !poll(Patience, func() bool { _, err := call("GET", url+"/status", nil); return err == nil }) {
		return fmt.Errorf("the driver does not answer")
	}
	w.session, err = newSession(url, miniBrowser())
	return err
}

// miniBrowser is the browser that comes with the engine's library.
func miniBrowser() string {
	found, _ := filepath.Glob("/usr/lib/*/wpe-webkit-1.*/MiniBrowser") // the pattern is sound
	if len(found) == 0 {
		return "MiniBrowser"
	}
	return found[len(found)-1]
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

// Close ends the session and the browser.
func (w *WebKit) Close() {
	if w.session != nil {
		w.session.end() // an answer is not needed: the group is killed next
		w.session = nil
	}
	w.kill()
}

// Kill ends browser and driver with SIGKILL.
func (w *WebKit) Kill() {
	w.session = nil
	w.kill()
}

func (w *WebKit) kill() {
	if w.driver == nil || w.driver.Process == nil {
		return
	}
	syscall.Kill(-w.driver.Process.Pid, syscall.SIGKILL) // no such group: all ended already
	w.driver.Wait()                                      // it was killed, so it reports an error
	w.driver = nil
}

// session drives one WebDriver session.
type session struct{ url string }

func newSession(driver, binary string) (*session, error) {
	raw, err := call("POST", driver+"/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"wpe:browserOptions": map[string]any{"binary": binary, "args": []string{"--automation", "--headless"}},
	}}})
	if err != nil {
		return nil, err
	}
	var v struct{ SessionID string }
	if err := json.Unmarshal(raw, &v); err != nil {
		return nil, err
	}
	s := &session{url: driver + "/session/" + v.SessionID}
	if _, err = call("POST", s.url+"/timeouts", map[string]any{"script": Patience.Milliseconds(), "pageLoad": Patience.Milliseconds()}); err != nil {
		return nil, err
	}
	return s, nil
}

func (s *session) end() { call("DELETE", s.url, nil) }

func (s *session) navigate(url string) error {
	_, err := call("POST", s.url+"/url", map[string]any{"url": url})
	return err
}

func (s *session) reload() error {
	_, err := call("POST", s.url+"/refresh", map[string]any{})
	return err
}

func (s *session) eval(js string) (json.RawMessage, error) {
	raw, err := call("POST", s.url+"/execute/async", map[string]any{"args": []any{}, "script": `
	  const done=arguments[arguments.length-1];
	  Promise.resolve().then(()=>(` + js + `)).then(v=>done({ok:v===undefined?null:v}),e=>done({error:String(e)}))`})
	if err != nil {
		return nil, err
	}
	var v struct {
		OK    json.RawMessage
		Error string
	}
	if err := json.Unmarshal(raw, &v); err != nil {
		return nil, err
	}
	if v.Error != "" {
		return nil, fmt.Errorf("%s", v.Error)
	}
	if string(v.OK) == "null" {
		return nil, nil
	}
	return v.OK, nil
}

func (s *session) press(x, y float64, held func()) error {
	at := map[string]any{"type": "pointerMove", "duration": 0, "origin": "viewport", "x": int(x), "y": int(y)}
	if err := s.act("pointer", "finger", map[string]any{"pointerType": "mouse"}, at, map[string]any{"type": "pointerDown", "button": 0}); err != nil {
		return err
	}
	held()
	return s.act("pointer", "finger", map[string]any{"pointerType": "mouse"}, map[string]any{"type": "pointerUp", "button": 0})
}

func (s *session) keys(text string) error {
	var acts []map[string]any
	for _, r := range text {
		acts = append(acts, map[string]any{"type": "keyDown", "value": string(r)}, map[string]any{"type": "keyUp", "value": string(r)})
	}
	return s.act("key", "keyboard", nil, acts...)
}

func (s *session) act(kind, id string, parameters map[string]any, acts ...map[string]any) error {
	source := map[string]any{"type": kind, "id": id, "actions": acts}
	if parameters != nil {
		source["parameters"] = parameters
	}
	_, err := call("POST", s.url+"/actions", map[string]any{"actions": []any{source}})
	return err
}

func (s *session) shot() ([]byte, error) {
	raw, err := call("GET", s.url+"/screenshot", nil)
	if err != nil {
		return nil, err
	}
	var png []byte // base64 in JSON
	return png, json.Unmarshal(raw, &png)
}

func (s *session) files(string, ...string) error {
	return fmt.Errorf("this engine's driver chooses no files")
}
