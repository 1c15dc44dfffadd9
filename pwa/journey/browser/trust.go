package browser

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// Trust puts a root certificate into the certificate store that Chromium
// reads below a home folder, as a person does who installs it on a phone. The
// checks of the browser stay on.
func Trust(home string, root []byte) error {
	db := filepath.Join(home, ".pki", "nssdb")
	if err := os.MkdirAll(db, 0o700); err != nil {
		return err
	}
	if _, err := os.Stat(filepath.Join(db, "cert9.db")); err != nil {
		if err := certutil("-N", "--empty-password", "-d", "sql:"+db); err != nil {
			return err
		}
	}
	file := filepath.Join(home, "root.crt")
	if err := os.WriteFile(file, root, 0o600); err != nil {
		return err
	}
	return certutil("-A", "-d", "sql:"+db, "-n", "studio", "-t", "C,,", "-i", file)
}

func certutil(args ...string) error {
	out, err := exec.Command("certutil", args...).CombinedOutput()
	if err != nil {
		return fmt.Errorf("certutil %v: %w: %s", args, err, out)
	}
	return nil
}
