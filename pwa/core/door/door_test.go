package door

import (
	"errors"
	"testing"
)

func TestAnswersAndRefusals(t *testing.T) {
	do := func(op string, c *Call) error {
		switch op {
		case "echo":
			c.W.Key("n")
			c.W.Int(int64(len(c.Payload)))
			c.Body = append([]byte("> "), c.Payload...)
			return nil
		case "half": // what was begun to be written goes away
			c.W.Key("n")
			c.W.Int(1)
			c.Body = []byte("half")
			return errors.New("not so")
		case "crash":
			var none []int
			_ = none[c.Payload[0]]
		case "throw":
			panic(7)
		}
		return NoOperation(op)
	}
	var out []byte
	for _, r := range []struct{ request, want string }{
		{"{\"op\":\"echo\"}\nlines\nof it", "{\"n\":11}\n> lines\nof it"},
		{"{\"op\":\"half\"}\n", "{\"error\":\"not so\"}\n"},
		{"{\"op\":\"crash\"}\n ", "{\"error\":\"the core failed: runtime error: index out of range [32] with length 0\",\"crashed\":true}\n"},
		{"{\"op\":\"throw\"}\n", "{\"error\":\"the core failed: unknown\",\"crashed\":true}\n"},
		{"{\"op\":\"else\"}\n", "{\"error\":\"there is no operation else\"}\n"},
		{"{}\n", "{\"error\":\"op: missing\"}\n"},
		{"{\"op\":\"echo\"}", "{\"n\":0}\n> "},
	} {
		out = Answer(out, []byte(r.request), do)
		if string(out) != r.want {
			t.Errorf("%q: %q, want %q", r.request, out, r.want)
		}
	}
}
