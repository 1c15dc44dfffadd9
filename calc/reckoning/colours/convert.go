package colours

import (
	"math"

	"sinkside/calc/colour"
	"sinkside/calc/reckoning"
)

// What a colour is known by.
const (
	byHex = "hex"
	byLab = "lab"
	byXYZ = "xyz"
)

// Convert takes a colour from one way of writing it to the others.
func Convert() *reckoning.Reckoning {
	coordinates := lab("is", "Colour")
	for i := range coordinates {
		coordinates[i] = coordinates[i].If("known", byLab)
	}
	xyz := func(name string) reckoning.Input {
		return reckoning.Number(name, name+", white having Y 1", 0, 1.2).If("known", byXYZ)
	}
	return (&reckoning.Reckoning{
		Name: "colour_convert", Title: "A colour in other coordinates", Asks: "What is this colour in Lab, XYZ or as a screen shows it?", Family: family,
		Inputs: append(append([]reckoning.Input{
			reckoning.Choose("known", "Known as", byHex, "sRGB in six hexadecimal digits", byLab, "L*, a*, b*", byXYZ, "X, Y, Z"),
			reckoning.Text("hex", "sRGB").If("known", byHex).Note("As #336699."),
			reckoning.Choose("white", "Seen under", "d65", "D65, daylight and screens", "d50", "D50, the graphic trade").If("known", byLab, byXYZ),
		}, coordinates...), xyz("X"), xyz("Y"), xyz("Z")),
		Results: []reckoning.ResultSpec{
			{Name: "l_d65", Title: "L* under D65", Digits: 4}, {Name: "a_d65", Title: "a* under D65", Signed: true, Digits: 4}, {Name: "b_d65", Title: "b* under D65", Signed: true, Digits: 4},
			{Name: "l_d50", Title: "L* under D50", Digits: 4}, {Name: "a_d50", Title: "a* under D50", Signed: true, Digits: 4}, {Name: "b_d50", Title: "b* under D50", Signed: true, Digits: 4},
			{Name: "x", Title: "X under D65", Signed: true, Digits: 4}, {Name: "y", Title: "Y under D65", Signed: true, Digits: 4}, {Name: "z", Title: "Z under D65", Signed: true, Digits: 4},
		},
		Sources: reckoning.From(&srgb, &cielab, &reckoning.CommonPractice),
		Example: `{"known":"hex","hex":"#8b4513"}`,
		Prepare: func(s *reckoning.Sheet) {
			if s.Has("hex") {
				if _, err := colour.Hex(s.Words("hex")); err != nil {
					s.Fault("hex", err.Error()+".")
				}
			}
		},
		Figures: convertFigures, Explain: explainConvert,
	}).Ready()
}

// underD65 is the colour of the form, whatever it was given as.
func underD65(s *reckoning.Sheet) colour.XYZ { return underD65By(s, s.Base) }

// underD65By is the colour of the form with its numbers as base gives them.
func underD65By(s *reckoning.Sheet, base func(string) float64) colour.XYZ {
	white := colour.D65
	if s.Choice("white") == "d50" {
		white = colour.D50
	}
	switch s.Choice("known") {
	case byLab:
		return colour.Lab{L: base("is_l"), A: base("is_a"), B: base("is_b")}.XYZ(white).Adapted(white, colour.D65)
	case byXYZ:
		return colour.XYZ{X: base("X"), Y: base("Y"), Z: base("Z")}.Adapted(white, colour.D65)
	}
	c, _ := colour.Hex(s.Words("hex"))
	return c.XYZ()
}

func darkerThanBlack(c colour.XYZ) bool {
	return min(c.Lab(colour.D65).L, c.Adapted(colour.D65, colour.D50).Lab(colour.D50).L) < -1e-9
}

// noColour says how light a colour must be at least beside its other two numbers,
// not to be darker than black under the other white.
func noColour(s *reckoning.Sheet) *reckoning.Problem {
	field, low, high := "is_l", s.Base("is_l"), 100.0
	if s.Choice("known") == byXYZ {
		field, low, high = "Y", s.Base("Y"), 1.2
	}
	for range 60 {
		mid := (low + high) / 2
		if darkerThanBlack(underD65By(s, func(name string) float64 {
			if name == field {
				return mid
			}
			return s.Base(name)
		})) {
			low = mid
		} else {
			high = mid
		}
	}
	return s.Limits(field, high, math.Inf(1), "is of no colour: under the other white it would be darker than black")
}

func convertFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	c := underD65(s)
	d65, d50 := c.Lab(colour.D65), c.Adapted(colour.D65, colour.D50).Lab(colour.D50)
	if darkerThanBlack(c) {
		return nil, noColour(s)
	}
	var out reckoning.Figures
	for _, f := range []struct {
		name string
		x    float64
	}{
		{"l_d65", max(d65.L, 0)}, {"a_d65", d65.A}, {"b_d65", d65.B}, {"l_d50", max(d50.L, 0)}, {"a_d50", d50.A}, {"b_d50", d50.B}, {"x", c.X}, {"y", c.Y}, {"z", c.Z},
	} {
		out.Add(f.name, f.x)
	}
	return out, nil
}

func explainConvert(s *reckoning.Sheet, out *reckoning.Result) {
	c := underD65(s)
	rgb, err := c.RGB()
	if err != nil {
		out.Verdict("screen", "On a screen", "sRGB cannot show this colour. The nearest that each of its three lights can do is "+rgb.Hex()+", which is another colour.")
	} else {
		out.Verdict("screen", "On a screen", rgb.Hex())
	}
	out.Work("sRGB and XYZ under D65.", "each light by the curve of sRGB, then the matrix of its primaries", "X "+put(c.X)+", Y "+put(c.Y)+", Z "+put(c.Z), srgb.Name)
	out.Work("Lab against a white; for D50 adapted after Bradford.", "L* = 116 f(Y) - 16; a* = 500 (f(X) - f(Y)); b* = 200 (f(Y) - f(Z))",
		labels(c.Lab(colour.D65))+" under D65; "+labels(c.Adapted(colour.D65, colour.D50).Lab(colour.D50))+" under D50", cielab.Name)
	out.Object("The colour of a photograph is no measurement: it holds the lamp, the camera and its program. Only with a target in the picture, or an instrument, can colours be compared.", reckoning.CommonPractice)
}
