package dossier

import (
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// What single members of a body are read with.

func nameOf(v jsontext.Value) (journal.Name, error) {
	s, err := v.Text()
	if err != nil {
		return journal.Name{}, err
	}
	return journal.ParseName(s)
}

// namesOf reads on after a name that cannot be read, and returns that error.
func namesOf(v jsontext.Value, into *[]journal.Name) error {
	var first error
	err := jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		n, err := nameOf(v)
		if err == nil {
			*into = append(*into, n)
		} else if first == nil {
			first = err
		}
		return nil
	})
	if err != nil {
		return err
	}
	return first
}

func textsOf(v jsontext.Value, into *[]string) error {
	return jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		s, err := v.Text()
		*into = append(*into, s)
		return err
	})
}

func numberToken(v jsontext.Value) (string, error) {
	if v.Kind() != jsontext.Number {
		return "", errors.New("no number")
	}
	return string(v), nil
}

// bathsOf reads the baths of a plan. Each is read as a begin is.
func bathsOf(v jsontext.Value) ([]PlannedBath, error) {
	baths := []PlannedBath{}
	err := jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		b, err := readBody("begin", v)
		baths = append(baths, PlannedBath{What: b.what, Liquid: b.liquid, Litres: b.litres, TargetS: b.targetS, TempC: b.tempC, Batch: b.batch})
		return err
	})
	if err != nil {
		return nil, err
	}
	return baths, nil
}

func monoOf(v jsontext.Value) (*mono, error) {
	var m mono
	err := jsontext.Members(v, func(key string, v jsontext.Value) (err error) {
		switch key {
		case "s":
			m.session, err = v.Text()
		case "ms":
			m.ms, err = v.Int()
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	if m.session == "" || m.ms < 0 {
		return nil, errors.New("no session")
	}
	return &m, nil
}

// token is a set value as text: what a string spells, or a number as written.
func token(v jsontext.Value) string {
	if s, err := v.Text(); err == nil {
		return s
	}
	return string(v)
}
