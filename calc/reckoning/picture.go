package reckoning

import (
	"math"

	"sinkside/calc/unit"
)

// Picture begins a picture of so many millimetres; its shapes are added to what
// it returns, before the next picture is begun.
func (r *Result) Picture(title string, width, height unit.Length) *Picture {
	r.Pictures = append(r.Pictures, Picture{Title: title, Width: width.Millimetres(), Height: height.Millimetres(), Shapes: []Shape{}})
	return &r.Pictures[len(r.Pictures)-1]
}

// Shape adds a line through points, x and y by turns in millimetres.
func (p *Picture) Shape(label string, closed bool, points ...float64) {
	p.Shapes = append(p.Shapes, Shape{label, closed, points})
}

// frame says how large what a picture shows is, in whole millimetres, and in inches for
// one who measures by them.
func (s *Sheet) frame(p *Picture) string {
	out := unit.Text(math.Round(p.Width), 6) + " × " + unit.Text(math.Round(p.Height), 6) + " mm"
	if s.system() != unit.Metric {
		in := mustUnit("in")
		out = unit.Text(in.Of(p.Width), 4) + " × " + in.Write(p.Height, 4) + ", " + out
	}
	return out
}
