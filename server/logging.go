package main

import (
	"io"
	"log"
	"os"
	"time"

	"github.com/rs/zerolog"
)

// newLog writes to w what is of this level and above: readable on a terminal, JSON lines otherwise,
// unless format says which.
//
// Whatever is logged, a token, a code, a name or what a person wrote is not. Devices and treatments
// appear by id.
func newLog(w io.Writer, format, level string) zerolog.Logger {
	if format == "text" || format == "auto" && isTerminal(w) {
		w = zerolog.ConsoleWriter{Out: w, TimeFormat: time.TimeOnly, NoColor: !isTerminal(w)}
	}
	least, err := zerolog.ParseLevel(level)
	if err != nil {
		least = zerolog.InfoLevel // the command line takes no other word
	}
	return zerolog.New(w).Level(least).With().Timestamp().Logger()
}

// isTerminal tells whether a person looks at w.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// handshakeLog takes what net/http says about connections that came to nothing, most of all phones
// that do not trust the certificate yet. It is for who looks for the cause of such a thing.
func handshakeLog(l zerolog.Logger) *log.Logger {
	return log.New(lineWriter{l}, "", 0)
}

type lineWriter struct{ log zerolog.Logger }

func (w lineWriter) Write(line []byte) (int, error) {
	w.log.Debug().Bytes("cause", line).Msg("connection ended early")
	return len(line), nil
}
