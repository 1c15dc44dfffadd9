package bridge

import "sinkside/calc/dossier"

// appendShelf appends what the studio's own log says, as JSON.
func appendShelf(dst []byte, d *dossier.Dossier) []byte {
	return d.Shelf().AppendJSON(dst)
}
