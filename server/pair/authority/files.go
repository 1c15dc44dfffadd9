package authority

import (
	"crypto/tls"
	"fmt"
	"os"
	"sync"
	"time"
)

// Files is a certificate of the person's own, kept in two PEM files. They are
// looked at again when they change, so a renewal needs no restart.
// Files is safe for concurrent use.
type Files struct {
	certPath, keyPath string

	mu      sync.Mutex
	cert    *tls.Certificate
	seen    stamp // of the files that cert came from
	tried   stamp // of the files that were last read, perhaps in vain
	problem error
}

// stamp tells one state of the two files from another.
type stamp struct {
	certTime, keyTime time.Time
	certSize, keySize int64
}

// OpenFiles reads the certificate (with its chain) and the key. The error
// names the file that is at fault as far as it can be known.
func OpenFiles(certPath, keyPath string) (*Files, error) {
	f := &Files{certPath: certPath, keyPath: keyPath}
	now, err := f.stat()
	if err == nil {
		err = f.load(now)
	}
	if err != nil {
		return nil, fmt.Errorf("use the certificate %s with the key %s: %w", certPath, keyPath, err)
	}
	return f, nil
}

// TLS is a server's configuration with this certificate.
func (f *Files) TLS() *tls.Config { return serverTLS(f.GetCertificate) }

// GetCertificate is for tls.Config. While new files cannot be read (they may
// be half written) the old certificate goes on and Problem says why.
func (f *Files) GetCertificate(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now, err := f.stat()
	switch {
	case err != nil:
		f.problem = err
	case now == f.seen:
		f.problem = nil
	case now != f.tried:
		f.problem = f.load(now)
	}
	return f.cert, nil
}

// Problem is why the files, as they are now on disk, are not in use; nil when they are.
func (f *Files) Problem() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.problem
}

// Covers says whether the certificate is for this host name or address.
func (f *Files) Covers(host string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.cert.Leaf.VerifyHostname(host); err != nil {
		return fmt.Errorf("the certificate %s is not for %s: %w", f.certPath, host, err)
	}
	return nil
}

// load notes the state it tried before it reads, so that a change during the
// reading is seen next time.
func (f *Files) load(now stamp) error {
	f.tried = now
	cert, err := tls.LoadX509KeyPair(f.certPath, f.keyPath)
	if err != nil {
		return fmt.Errorf("read the certificate and its key: %w", err)
	}
	f.cert, f.seen = &cert, now
	return nil
}

func (f *Files) stat() (stamp, error) {
	cert, err := os.Stat(f.certPath)
	if err != nil {
		return stamp{}, fmt.Errorf("look at the certificate: %w", err)
	}
	key, err := os.Stat(f.keyPath)
	if err != nil {
		return stamp{}, fmt.Errorf("look at the key: %w", err)
	}
	return stamp{cert.ModTime(), key.ModTime(), cert.Size(), key.Size()}, nil
}
