package web

import (
	"encoding/csv"
	"io"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"sinkside/calc/dossier"
	"sinkside/sync/jsontext"
)

// csvColumns are the columns of an exported log, one row an entry:
//
//	treatment     the treatment's id
//	object        the object's name, as it is now
//	number        the studio's number for it
//	happened      when it happened, RFC 3339 with the author's own offset, corrected for a wrong clock
//	happened_as_written  the same as its author's device wrote it; differs where the clock was wrong
//	recorded      when it was entered, UTC
//	timing        how its time is known where not by the clock as it happened: late, from memory, estimated, or both
//	by            initials
//	kind          the entry's kind, as in its line
//	says          a sentence: the entry as it was first written
//	standing      stands, amended or struck
//	now_says      amended entries: the sentence that holds now; two or more when people must still choose
//	now_happened  amended entries: the time that holds now, where the amendment gave another
//	changed_by    who amended or struck it last
//	changed       when, UTC
//	why           the reason given
//	doubt         what is doubtful about it, where something is
//	device, n     the device that wrote it, and its place in that device's chain
//	entry         its name: the SHA-256 of the line in the JSON export; one that starts with a minus has an
//	              apostrophe before it here, like every text that a spreadsheet would run
//	body          what its author wrote, as JSON
var csvColumns = []string{"treatment", "object", "number", "happened", "happened_as_written", "recorded", "timing", "by", "kind", "says",
	"standing", "now_says", "now_happened", "changed_by", "changed", "why", "doubt", "device", "n", "entry", "body"}

// logRow is one entry for the export, with the treatment that it belongs to.
type logRow struct {
	sum  dossier.Summary
	line dossier.LogLine
}

// writeCSV writes RFC 4180 with a header row. It starts with a byte order mark: without it a
// common spreadsheet reads "µS/cm" and "°C" as nonsense.
func writeCSV(w io.Writer, rows []logRow) error {
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(csvColumns); err != nil {
		return err
	}
	for _, r := range rows {
		cells := r.cells()
		for i, c := range cells {
			cells[i] = harmless(c)
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (r logRow) cells() []string {
	l := r.line
	c := standingOf(l)
	return []string{r.sum.Job, r.sum.Name, r.sum.Number, happened(l.At).Format(time.RFC3339), l.At.At, utc(l.At.RecordedMS), timing(l), l.By, l.Kind, l.Say,
		c.standing, c.nowSays, c.nowHappened, c.by, c.changed, c.why, l.Doubt, l.Dev, strconv.FormatUint(l.N, 10), l.Entry, string(l.Body)}
}

// timing tells whether an entry was written as it happened and by the clock.
func timing(l dossier.LogLine) string {
	var said []string
	if l.Late {
		said = append(said, "late")
	}
	if how, ok := jsontext.Get(l.Body, "how"); ok {
		switch text, _ := how.Text(); text {
		case "memory":
			said = append(said, "from memory")
		case "estimate":
			said = append(said, "estimated")
		}
	}
	return strings.Join(said, ", ")
}

// change is what became of an entry.
type change struct{ standing, nowSays, nowHappened, by, changed, why string }

// standingOf tells what holds of an entry: struck beats amended, since nothing of it counts then.
// What it said before and after its amendments stays in the row either way.
func standingOf(l dossier.LogLine) change {
	c := change{standing: "stands"}
	var says, ats, whys []string
	for _, a := range l.Amended {
		if a.Struck || !a.Stands {
			continue
		}
		c.standing, c.by, c.changed = "amended", a.By, utc(a.MS)
		says, whys = append(says, a.Say), append(whys, a.Why)
		if a.At != "" {
			ats = append(ats, a.At)
		}
	}
	c.nowSays, c.nowHappened, c.why = strings.Join(says, " / "), strings.Join(ats, " / "), strings.Join(whys, " / ")
	if l.Struck != nil {
		c.standing, c.by, c.changed, c.why = "struck", l.Struck.By, utc(l.Struck.MS), l.Struck.Why
	}
	return c
}

func utc(ms int64) string { return time.UnixMilli(ms).UTC().Format(time.RFC3339) }

// happened is the corrected moment in the author's own offset.
func happened(m dossier.Moment) time.Time {
	at := time.UnixMilli(m.MS).UTC()
	if written, err := time.Parse(time.RFC3339Nano, m.At); err == nil {
		_, offset := written.Zone()
		at = at.In(time.FixedZone("", offset))
	}
	return at
}

// harmless keeps a spreadsheet from running a cell as a formula: text that starts the way a
// formula does gets an apostrophe, which spreadsheets take as "this is text". Numbers stay numbers.
func harmless(cell string) string {
	text := strings.TrimLeft(cell, " ")
	if text == "" || plainNumber.MatchString(cell) {
		return cell
	}
	if first, _ := utf8.DecodeRuneInString(text); strings.ContainsRune("=+-@\t\r\n|%＝＋－＠", first) {
		return "'" + cell
	}
	return cell
}

var plainNumber = regexp.MustCompile(`^-?[0-9]+([.,][0-9]+)?$`)
