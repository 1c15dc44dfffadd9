package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"sinkside/calc/reckoning/library"
	"sinkside/sync/jsontext"
)

type reckonCmd struct {
	List bool   `help:"List every reckoning with its inputs, ranges and sources, as JSON."`
	Name string `arg:"" optional:"" help:"Which reckoning; --list names them."`
	File string `arg:"" optional:"" default:"-" help:"File with the inputs as JSON; - or nothing reads them from standard input."`
}

// Help is shown below the flags.
func (reckonCmd) Help() string {
	return `Inputs are one JSON object: {"litres": "12,5", "active": {"value": "30", "unit": "%"}}. A bare number or text is in
the input's usual unit. The answer is JSON with values, working, cautions and sources; or, with exit code 1,
{"problems": [...]}, each naming its field and the range allowed.`
}

// maxInputs is the most that reckon reads, in bytes: a form has a few hundred.
const maxInputs = 64 << 10

func (c *reckonCmd) Run(std streams) error {
	if c.List {
		return printJSON(std.out, library.All().Append(nil))
	}
	if c.Name == "" {
		return usagef("which reckoning? sinkside reckon --list names them")
	}
	if _, ok := library.All().Find(c.Name); !ok {
		return usagef("there is no reckoning %q; sinkside reckon --list names them", c.Name)
	}
	in, err := c.inputs(std.in)
	if err != nil {
		return err
	}
	out, ok := library.All().Answer(nil, c.Name, in)
	if err := printJSON(std.out, out); err != nil {
		return err
	}
	if !ok {
		return &failure{say: "these inputs cannot be reckoned with; the answer says which and why."}
	}
	return nil
}

func (c *reckonCmd) inputs(stdin io.Reader) (jsontext.Value, error) {
	from := stdin
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return nil, &failure{fmt.Sprintf("cannot read the inputs: %v", err), err}
		}
		defer f.Close()
		from = f
	}
	text, err := io.ReadAll(io.LimitReader(from, maxInputs+1))
	switch {
	case err != nil:
		return nil, &failure{fmt.Sprintf("cannot read the inputs: %v", err), err}
	case len(text) > maxInputs:
		return nil, &failure{say: fmt.Sprintf("the inputs are over %d bytes.", maxInputs)}
	}
	text = bytes.TrimSpace(text)
	if err := jsontext.Valid(text); err != nil {
		return nil, &failure{fmt.Sprintf("the inputs are not JSON: %v", err), err}
	}
	return text, nil
}

// printJSON writes JSON for people and programs: indented, with a line end.
func printJSON(w io.Writer, text []byte) error {
	var b bytes.Buffer
	if err := json.Indent(&b, text, "", "  "); err != nil {
		return err
	}
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}
