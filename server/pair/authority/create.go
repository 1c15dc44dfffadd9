package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"math/big"
	"time"
)

const (
	// authorityLife is how long root and intermediate hold. The root's key is
	// gone, so nothing can lengthen it: phones trust a new root after this.
	authorityLife = 10 * 365 * 24 * time.Hour
	// backdated lets a phone whose clock is late still accept what was just made.
	backdated = time.Hour
	// rootBackdated is longer, for clocks that a flat battery set back to
	// yesterday; a leaf is never older than its authority.
	rootBackdated = 24 * time.Hour
)

// create makes root and intermediate. The root's key lives in this function
// only: once it has signed the intermediate there is no way to sign another.
func create(o Options) (*Authority, error) {
	rootKey, err := newKey()
	if err != nil {
		return nil, err
	}
	now := o.Now().UTC()
	owner := o.Studio
	if owner == "" {
		owner = o.Name
	}
	rootCert := &x509.Certificate{
		Subject:               pkix.Name{CommonName: "Sinkside " + owner, Organization: []string{owner}},
		NotBefore:             now.Add(-rootBackdated),
		NotAfter:              now.Add(authorityLife),
		KeyUsage:              x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		BasicConstraintsValid: true,
		IsCA:                  true,
		MaxPathLen:            1,
	}
	root, err := sign(rootCert, rootCert, &rootKey.PublicKey, rootKey)
	if err != nil {
		return nil, err
	}
	key, err := newKey()
	if err != nil {
		return nil, err
	}
	names, ranges := o.permitted()
	inter, err := sign(&x509.Certificate{
		Subject:                     pkix.Name{CommonName: "Sinkside intermediate " + owner, Organization: []string{owner}},
		NotBefore:                   rootCert.NotBefore,
		NotAfter:                    rootCert.NotAfter,
		KeyUsage:                    x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		ExtKeyUsage:                 []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid:       true,
		IsCA:                        true,
		MaxPathLenZero:              true,
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         names,
		PermittedIPRanges:           ranges,
	}, root, &key.PublicKey, rootKey)
	if err != nil {
		return nil, err
	}
	return &Authority{root: root, inter: inter, key: key}, nil
}

func newKey() (*ecdsa.PrivateKey, error) {
	return ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
}

// sign gives the certificate a random serial of 127 bits, which is positive
// and within the 20 octets of RFC 5280.
func sign(cert, parent *x509.Certificate, pub *ecdsa.PublicKey, key *ecdsa.PrivateKey) (*x509.Certificate, error) {
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127))
	if err != nil {
		return nil, err
	}
	cert.SerialNumber = serial.Add(serial, big.NewInt(1))
	der, err := x509.CreateCertificate(rand.Reader, cert, parent, pub, key)
	if err != nil {
		return nil, err
	}
	return x509.ParseCertificate(der)
}
