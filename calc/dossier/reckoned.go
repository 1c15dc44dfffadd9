package dossier

import (
	"strings"

	"sinkside/sync/jsontext"
)

// Reckoned is a reckoning whose result was kept with the treatment: with its
// inputs and the version of the program that made it, so that it can be made
// again and compared.
type Reckoned struct {
	Entry   string `json:"entry"`
	Name    string `json:"name"`
	Title   string `json:"title"`
	Inputs  string `json:"inputs"` // as JSON, an object, as they were asked
	Values  []Kept `json:"values"`
	Program string `json:"program"`
	Text    string `json:"text"` // what it was for
	At      Moment `json:"at"`
	By      string `json:"by"`
}

// Kept is one figure or one verdict of it.
type Kept struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Shown string `json:"shown"`
	Value string `json:"value"` // the number as it was written; empty of a verdict, which is in words
	Unit  string `json:"unit"`
}

// keptOf reads on after a value that cannot be read, and returns that error.
func keptOf(v jsontext.Value) ([]Kept, error) {
	var out []Kept
	var first error
	err := jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		var k Kept
		err := jsontext.Members(v, func(key string, v jsontext.Value) (err error) {
			switch key {
			case "name":
				k.Name, err = v.Text()
			case "title":
				k.Title, err = v.Text()
			case "shown":
				k.Shown, err = v.Text()
			case "unit":
				k.Unit, err = v.Text()
			case "value":
				k.Value, err = numberToken(v)
			}
			return err
		})
		if err == nil {
			out = append(out, k)
		} else if first == nil {
			first = err
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, first
}

func (f *folded) reckoned() {
	for _, x := range f.byTime("reckoned") {
		b := f.says(x)
		f.state.Reckoned = append(f.state.Reckoned, Reckoned{
			Entry: x.Name.String(), Name: b.name, Title: b.title, Inputs: string(b.inputs), Values: b.values, Program: b.program, Text: b.text, At: f.moment(x), By: x.By,
		})
	}
}

// mostSaid is how many figures a line of the log holds; all are in the entry.
const mostSaid = 3

func sayReckoned(b *body) string {
	title := b.title
	if title == "" {
		title = b.name
	}
	var said []string
	for _, k := range b.values[:min(len(b.values), mostSaid)] {
		said = append(said, lowered(k.Title)+" "+k.Shown)
	}
	if len(b.values) > mostSaid {
		said = append(said, "…")
	}
	if text := strings.TrimSpace(b.text); text != "" {
		title += " (" + text + ")"
	}
	return "Reckoned, " + title + ": " + strings.Join(said, "; ")
}

// lowered begins a title as it stands inside a sentence; one that begins with a
// sign, such as pH, keeps it.
func lowered(title string) string {
	if len(title) > 1 && title[0] >= 'A' && title[0] <= 'Z' && title[1] >= 'a' && title[1] <= 'z' {
		return string(title[0]+'a'-'A') + title[1:]
	}
	return title
}

// reckoned checks what is kept of a reckoning. Whether its inputs are right was
// for the reckoning to say.
func (c *checker) reckoned() {
	c.text("name", maxText, true, "Say which reckoning it is.")
	c.text("title", maxText, false, "")
	c.text("program", maxText, true, "Say which version of the program reckoned it.")
	c.text("text", maxNote, false, "")
	if c.vals["inputs"].Kind() != jsontext.Object {
		c.fail("inputs", "", "What was put in is missing.")
	}
	if kept, err := keptOf(c.vals["values"]); err != nil || len(kept) == 0 {
		c.fail("values", "", "There is no result to keep.")
	}
}

func (r *Reckoned) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", r.Entry, "name", r.Name, "title", r.Title, "inputs", r.Inputs)
	w.KeyList("values", len(r.Values), func(i int) {
		k := &r.Values[i]
		w.Begin('{')
		w.Texts("name", k.Name, "title", k.Title, "shown", k.Shown, "value", k.Value, "unit", k.Unit)
		w.End('}')
	})
	w.Texts("program", r.Program, "text", r.Text)
	moment(w, "at", &r.At)
	w.KeyStr("by", r.By)
	w.End('}')
}
