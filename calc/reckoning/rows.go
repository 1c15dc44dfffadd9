package reckoning

import (
	"strconv"
	"unicode/utf8"

	"sinkside/sync/jsontext"
)

// MostText is the longest name, in characters, that a person may give.
const MostText = 60

// settleText takes a name.
func (s *Sheet) settleText(a *answer) {
	if !a.given {
		if !a.in.Optional {
			s.fault(a, "nothing is given yet.")
		}
		return
	}
	if n := utf8.RuneCountInString(a.text); n > MostText {
		s.fault(a, "it is longer than "+strconv.Itoa(MostText)+" characters.")
		return
	}
	a.known = true
}

// settleRows reads a table, each row as a form of its own. What is wrong with a
// row is told of the field "table.row.column", rows counted from 1.
func (s *Sheet) settleRows(a *answer) {
	n := 0
	if a.given {
		if a.raw.Kind() != jsontext.Array {
			s.fault(a, "a list of rows is expected.")
			return
		}
		_ = jsontext.Elements(a.raw, func(_ int, v jsontext.Value) error {
			if n++; n <= a.in.MaxRows {
				s.settleRow(a, n, v)
			}
			return nil
		})
	}
	switch {
	case n > a.in.MaxRows:
		s.fault(a, "there are "+strconv.Itoa(n)+" rows, and "+strconv.Itoa(a.in.MaxRows)+" at most are taken.")
	case n == 0 && !a.in.Optional:
		s.fault(a, "there is no row yet.")
	default:
		a.known = n > 0
	}
}

func (s *Sheet) settleRow(a *answer, n int, v jsontext.Value) {
	row := read(&Reckoning{Inputs: a.in.Columns}, v)
	for _, p := range row.problems {
		s.problem(*InRow(a.in.Name, n, &p))
	}
	a.rows = append(a.rows, row)
}

// InRow makes what is wrong with a row of a table a problem of the whole form: of the
// field "table.row.column", rows counted from 1, or "table.row" for the row as such.
func InRow(table string, row int, p *Problem) *Problem {
	n := strconv.Itoa(row)
	at := table + "." + n
	if p.Field != "" {
		at += "." + p.Field
	}
	out := *p
	out.Field, out.Say = at, "Row "+n+": "+p.Say
	return &out
}
