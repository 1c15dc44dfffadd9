package authority

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

var errShape = errors.New("it should hold two certificates and a key")

// read returns fs.ErrNotExist (wrapped) when there is no authority yet.
func read(path string) (*Authority, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("read the certificate authority: %w", err)
	}
	a, err := parse(text)
	if err != nil {
		return nil, fmt.Errorf("the certificate authority in %s cannot be used: %w; "+
			"put the file back from a backup, or start once with --new-authority and let every phone trust the new one", path, err)
	}
	return a, nil
}

func parse(text []byte) (*Authority, error) {
	var certs []*x509.Certificate
	var key *ecdsa.PrivateKey
	for block, rest := pem.Decode(text); block != nil; block, rest = pem.Decode(rest) {
		switch block.Type {
		case "CERTIFICATE":
			cert, err := x509.ParseCertificate(block.Bytes)
			if err != nil {
				return nil, err
			}
			certs = append(certs, cert)
		case "PRIVATE KEY":
			parsed, err := x509.ParsePKCS8PrivateKey(block.Bytes)
			if err != nil {
				return nil, err
			}
			var ok bool
			if key, ok = parsed.(*ecdsa.PrivateKey); !ok {
				return nil, errShape
			}
		}
	}
	if len(certs) != 2 || key == nil {
		return nil, errShape
	}
	a := &Authority{root: certs[0], inter: certs[1], key: key}
	if err := a.inter.CheckSignatureFrom(a.root); err != nil {
		return nil, err
	}
	if !key.PublicKey.Equal(a.inter.PublicKey) {
		return nil, errors.New("the key is not the key of its certificate")
	}
	return a, nil
}

// write replaces the file as a whole: after a crash there is the old authority
// or the new one, never half of either.
func (a *Authority) write(path string) error {
	der, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return fmt.Errorf("write the certificate authority: %w", err)
	}
	var text bytes.Buffer
	for _, block := range []pem.Block{
		{Type: "CERTIFICATE", Bytes: a.root.Raw},
		{Type: "CERTIFICATE", Bytes: a.inter.Raw},
		{Type: "PRIVATE KEY", Bytes: der},
	} {
		if err := pem.Encode(&text, &block); err != nil {
			return fmt.Errorf("write the certificate authority: %w", err)
		}
	}
	if err := replaceFile(path, text.Bytes()); err != nil {
		return fmt.Errorf("write the certificate authority: %w", err)
	}
	return nil
}

// replaceFile relies on os.CreateTemp making its file with mode 0600.
func replaceFile(path string, text []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".authority-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err = os.Rename(f.Name(), path); err != nil {
		return err
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// syncFolder makes a new name outlast a power cut. Not every system can sync a
// folder; where it cannot, the rename itself is all there is to have.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
