package authority

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// wednesday is the day on which the tests' studio is set up.
var wednesday = time.Date(2026, 3, 4, 10, 2, 11, 0, time.UTC)

// hands is a clock that a test moves.
type hands struct{ at time.Time }

func (h *hands) now() time.Time { return h.at }

func marram(t *testing.T) (Options, *hands) {
	t.Helper()
	clock := &hands{wednesday}
	return Options{Dir: t.TempDir(), Name: "marram", PublicName: "studio.example.org",
		Studio: "Marram House Textile Studio", Now: clock.now}, clock
}

func open(t *testing.T, o Options) *Authority {
	t.Helper()
	a, err := Open(o)
	if err != nil {
		t.Fatalf("Open: %v", err)
	}
	return a
}

func TestOpenMakesOnceAndKeeps(t *testing.T) {
	o, _ := marram(t)
	first := open(t, o)
	if !first.Made() {
		t.Error("the first Open does not say that it made an authority")
	}
	second := open(t, o)
	if second.Made() || !bytes.Equal(first.Root(), second.Root()) {
		t.Error("the second Open made another authority")
	}
	if got, want := second.HostName(), "marram.local"; got != want {
		t.Errorf("HostName() = %q, want %q", got, want)
	}
	replaced, err := Replace(o)
	if err != nil {
		t.Fatalf("Replace: %v", err)
	}
	if bytes.Equal(replaced.Root(), first.Root()) || !bytes.Equal(open(t, o).Root(), replaced.Root()) {
		t.Error("Replace did not put a new root in the old one's place")
	}
}

// TestRootKeyIsNowhere looks through the whole data folder: the one key there
// is the intermediate's.
func TestRootKeyIsNowhere(t *testing.T) {
	o, _ := marram(t)
	a := open(t, o)
	files, err := os.ReadDir(o.Dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 1 || files[0].Name() != FileName {
		t.Fatalf("the data folder holds %v, want %s alone", files, FileName)
	}
	path := filepath.Join(o.Dir, FileName)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if info.Mode().Perm() != 0o600 {
		t.Errorf("mode = %v, want 0600", info.Mode().Perm())
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	keys := 0
	for block, rest := pem.Decode(text); block != nil; block, rest = pem.Decode(rest) {
		if !strings.Contains(block.Type, "KEY") {
			continue
		}
		keys++
		key, err := x509.ParsePKCS8PrivateKey(block.Bytes)
		if err != nil {
			t.Fatal(err)
		}
		if !a.key.Equal(key) || a.key.PublicKey.Equal(a.root.PublicKey) {
			t.Error("a key other than the intermediate's is on disk")
		}
	}
	if keys != 1 {
		t.Errorf("%d keys on disk, want 1", keys)
	}
}

func TestOpenKeepsTheFileToItsOwner(t *testing.T) {
	o, _ := marram(t)
	open(t, o)
	path := filepath.Join(o.Dir, FileName)
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	open(t, o)
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode after Open = %v, %v, want 0600", info.Mode().Perm(), err)
	}
}

func TestOpenRefusesADamagedFile(t *testing.T) {
	o, _ := marram(t)
	open(t, o)
	path := filepath.Join(o.Dir, FileName)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	other, _ := marram(t)
	open(t, other)
	foreign, err := os.ReadFile(filepath.Join(other.Dir, FileName))
	if err != nil {
		t.Fatal(err)
	}
	key := bytes.Index(whole, []byte("-----BEGIN PRIVATE"))
	foreignKey := bytes.Index(foreign, []byte("-----BEGIN PRIVATE"))
	for name, text := range map[string][]byte{
		"empty":         nil,
		"cut":           whole[:key+20],
		"another's key": append(bytes.Clone(whole[:key]), foreign[foreignKey:]...),
		"not PEM":       []byte("linen"),
	} {
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(o); err == nil || !strings.Contains(err.Error(), "--new-authority") {
			t.Errorf("%s: Open = %v, want a sentence that says what to do", name, err)
		}
	}
}

func TestOpenWithAChangedName(t *testing.T) {
	o, _ := marram(t)
	open(t, o)
	rows := []struct {
		name, public string
		refused      string
	}{
		{"marram", "studio.example.org", ""},
		{"marram", "", ""},
		{"marram.local", "sinks.studio.example.org", ""},
		{"marram", "192.168.9.4", ""},
		{"marram", "textiles.example.org", "textiles.example.org"},
		{"marram", "203.0.113.9", "203.0.113.9"},
		{"dune", "", "dune.local"},
	}
	for _, row := range rows {
		o.Name, o.PublicName = row.name, row.public
		_, err := Open(o)
		if row.refused == "" {
			if err != nil {
				t.Errorf("Open(%s, %s) = %v, want none", row.name, row.public, err)
			}
			continue
		}
		var ne *NameError
		if !errors.As(err, &ne) || ne.Name != row.refused {
			t.Errorf("Open(%s, %s) = %v, want a NameError for %s", row.name, row.public, err, row.refused)
			continue
		}
		for _, part := range []string{row.refused, "marram.local, localhost, studio.example.org", "--new-authority", "every phone must then trust"} {
			if !strings.Contains(ne.Error(), part) {
				t.Errorf("%q does not say %q", ne, part)
			}
		}
	}
}

func TestOpenRefusesImpossibleNames(t *testing.T) {
	for _, name := range []string{"", ".local", "two.labels", "Marram House", "-marram", "marram-", strings.Repeat("a", 64), "märz"} {
		o, _ := marram(t)
		o.Name = name
		if _, err := Open(o); err == nil {
			t.Errorf("Open with the name %q succeeded", name)
		}
	}
	for _, public := range []string{"https://studio.example.org", "studio.example.org:8743", "studio example", "a..b"} {
		o, _ := marram(t)
		o.PublicName = public
		if _, err := Open(o); err == nil || !strings.Contains(err.Error(), "without https:// and without a port") {
			t.Errorf("Open with the public name %q = %v, want what to give instead", public, err)
		}
	}
}

func TestOpenWithAWrongClock(t *testing.T) {
	o, clock := marram(t)
	a := open(t, o)
	clock.at = wednesday.Add(-48 * time.Hour)
	if _, err := Open(o); err == nil || !strings.Contains(err.Error(), "set the machine's clock") {
		t.Errorf("two days before: Open = %v, want the clock named", err)
	}
	clock.at = a.inter.NotAfter
	if _, err := Open(o); err == nil || !strings.Contains(err.Error(), "--new-authority") {
		t.Errorf("at its end: Open = %v, want what to do", err)
	}
}

func TestFingerprint(t *testing.T) {
	o, _ := marram(t)
	o.PublicName = netip.MustParseAddr("203.0.113.9").String()
	f := open(t, o).Fingerprint()
	rows := f.Rows()
	if len(rows) != 4 || len(rows[0]) != 23 || len(f.String()) != 95 || f.String() != strings.ToUpper(f.String()) {
		t.Errorf("fingerprint %q in rows %q", f, rows)
	}
	var known Fingerprint
	known[0], known[31] = 0x3f, 0x0a
	if got := known.String(); !strings.HasPrefix(got, "3F 00 ") || !strings.HasSuffix(got, " 00 0A") {
		t.Errorf("String() = %q", got)
	}
}

func TestNames(t *testing.T) {
	for _, row := range [][4]string{
		{"Marram", "", "marram.local", ""},
		{"marram.local", "Studio.Example.org.", "marram.local", "studio.example.org"},
		{"marram", "MARRAM.local", "marram.local", "marram.local"},
		{"marram", "localhost", "marram.local", "localhost"},
		{"marram", "FD00::0:20", "marram.local", "fd00::20"},
	} {
		if host, public, err := Names(row[0], row[1]); err != nil || host != row[2] || public != row[3] {
			t.Errorf("Names(%q, %q) = %q, %q, %v, want %q, %q", row[0], row[1], host, public, err, row[2], row[3])
		}
	}
}
