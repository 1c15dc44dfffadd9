package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// formatVersion is the version of the layout that this code writes.
const formatVersion = 1

// A migration brings a store from one version of the layout to the next. It
// must bear being run again after it was cut off at any point.
type migration func(s *Store) error

// migrations holds the step that leads away from each older version.
var migrations = map[int]migration{}

const formatWords = "sinkside store "

// readFormat returns the layout version of the store in dir, making a new
// store's one the current one. It stands in a file of its own, read before
// badger touches anything: a later version may use another badger.
func readFormat(dir string, current int) (int, error) {
	text, err := os.ReadFile(filepath.Join(dir, "format"))
	if errors.Is(err, fs.ErrNotExist) {
		if err := checkEmpty(dir); err != nil {
			return 0, err
		}
		return current, errors.Join(writeFormat(dir, current), syncDir(filepath.Dir(dir)))
	}
	if err != nil {
		return 0, fmt.Errorf("read the store's format: %w", err)
	}
	number, ok := strings.CutPrefix(strings.TrimSpace(string(text)), formatWords)
	version, err := strconv.Atoi(number)
	switch {
	case !ok || err != nil || version < 1:
		return 0, fmt.Errorf("%w: the file format in %s does not say which version it is", ErrForeign, dir)
	case version > current:
		return 0, fmt.Errorf("%w: %s has format %d and this program knows up to %d; use the newer program, or another folder",
			ErrNewer, dir, version, current)
	}
	return version, nil
}

// checkEmpty refuses a folder that has a database but no format file.
func checkEmpty(dir string) error {
	files, err := os.ReadDir(filepath.Join(dir, "db"))
	if err != nil {
		return fmt.Errorf("look into the store's folder: %w", err)
	}
	for _, f := range files {
		if f.Name() == "MANIFEST" {
			return fmt.Errorf("%w: %s holds a database without the file format; give another folder", ErrForeign, dir)
		}
	}
	return nil
}

func writeFormat(dir string, version int) error {
	line := formatWords + strconv.Itoa(version) + "\n"
	if err := writeFile(filepath.Join(dir, "format"), []byte(line)); err != nil {
		return fmt.Errorf("note the store's format: %w", err)
	}
	return nil
}

// writeFile replaces a file so that after a crash it is the old or the new one.
func writeFile(path string, data []byte) error {
	f, err := os.Create(path + ".new")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Rename(path+".new", path); err != nil {
		return err
	}
	return syncDir(filepath.Dir(path))
}

// migrate takes a store of an older version to the current one, step by step,
// noting each step that is done.
func (s *Store) migrate(version int) error {
	for ; version < s.o.format; version++ {
		step, ok := s.o.steps[version]
		if !ok {
			return fmt.Errorf("%w: %s has format %d, which this program no longer reads; open it with an older one first",
				ErrForeign, s.dir, version)
		}
		if err := step(s); err != nil {
			return fmt.Errorf("bring the store from format %d to %d: %w", version, version+1, err)
		}
		if err := writeFormat(s.dir, version+1); err != nil {
			return err
		}
	}
	return nil
}
