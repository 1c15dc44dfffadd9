package watch

import (
	"strconv"

	"sinkside/sync/jsontext"
)

// digits writes a number with six significant figures at most, as forms read it.
func digits(x float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

func conductivity(way string, x float64, temp string) Asked {
	q := ask("conductivity")
	q.put("way", way)
	q.put("value", digits(x))
	q.put("temp", temp)
	return q.asked()
}

// question is put together for a reckoning, one input after the other.
type question struct {
	name string
	w    jsontext.Writer
}

func ask(name string) *question {
	q := &question{name: name}
	q.w.Begin('{')
	return q
}

// put gives an input; what is empty is not known and left out.
func (q *question) put(input, text string) {
	if text != "" {
		q.w.Key(input)
		q.w.Str(text)
	}
}

func (q *question) asked() Asked {
	q.w.End('}')
	return Asked{q.name, q.w.B}
}

// figure asks for one figure; why says what stands against it.
func figure(a Asked, name string) (x float64, why string) {
	x, ok, problems := reckonings.One(a.Name, a.Inputs, name)
	switch {
	case len(problems) > 0:
		return 0, problems[0].Say
	case !ok:
		return 0, "it cannot be reckoned"
	}
	return x, ""
}
