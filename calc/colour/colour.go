// Package colour measures how far apart two colours are, and takes a colour from
// one way of writing it to another.
//
// Sources: CIE 15 for CIELAB and its difference of 1976, and the difference of
// 1994 (from memory); Sharma, Wu and Dalal, Color Research and Application 30
// (2005) 21-30, for CIEDE2000; IEC 61966-2-1 for sRGB, white point x 0.3127, y
// 0.3290; Bradford adaptation to D50 (B. Lindbloom, brucelindbloom.com, read).
package colour

import "math"

// Lab is a colour in CIELAB: lightness 0 to 100, and two axes, green to red and
// blue to yellow, without unit.
type Lab struct{ L, A, B float64 }

// Chroma is the distance from grey, C*.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue is the hue angle h in degrees, 0 up to 360; 0 of a grey.
func (c Lab) Hue() float64 {
	h := math.Atan2(c.B, c.A) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	if h >= 360 { // a hair below nought rounds up to the whole turn
		h = 0
	}
	return h
}

// Parts is a difference taken apart: in lightness, chroma and hue, of the second
// colour from the first.
type Parts struct{ L, C, H float64 }

// PartsOf returns ΔL*, ΔC*ab and ΔH*ab; the last has the sign of the turn.
func PartsOf(first, second Lab) Parts {
	p := Parts{L: second.L - first.L, C: second.Chroma() - first.Chroma()}
	da, db := second.A-first.A, second.B-first.B
	p.H = math.Sqrt(max(float64(da*da)+float64(db*db)-float64(p.C*p.C), 0))
	if float64(first.A*second.B)-float64(second.A*first.B) < 0 {
		p.H = -p.H
	}
	return p
}

// CIE76 is the difference of 1976, ΔE*ab: the straight distance.
func CIE76(x, y Lab) float64 {
	dl, da, db := x.L-y.L, x.A-y.A, x.B-y.B
	return math.Sqrt(float64(dl*dl) + float64(da*da) + float64(db*db))
}

// Weights of CIE94.
type Weights94 struct{ KL, K1, K2 float64 }

// What CIE94 is weighted for.
var (
	GraphicArts = Weights94{1, 0.045, 0.015}
	Textiles    = Weights94{2, 0.048, 0.014}
)

// CIE94 is the difference of 1994. It is weighted by the chroma of the first
// colour, the reference, so it is not the same both ways.
func CIE94(reference, sample Lab, w Weights94) float64 {
	p, c := PartsOf(reference, sample), reference.Chroma()
	l := p.L / w.KL
	dc := p.C / (1 + float64(w.K1*c))
	h := p.H / (1 + float64(w.K2*c))
	return math.Sqrt(float64(l*l) + float64(dc*dc) + float64(h*h))
}

// Terms are what a difference of 2000 is put together from.
type Terms struct {
	L, C, H    float64 // ΔL′, ΔC′ and ΔH′
	SL, SC, SH float64 // by which each is divided, beside kL, kC and kH
	RT         float64 // by which chroma and hue are turned towards each other
	Delta      float64 // ΔE00
}

// CIEDE2000 is the difference of 2000, with the weights kL, kC and kH, which are 1
// unless somebody agreed on others; for textiles kL is 2.
func CIEDE2000(x, y Lab, kL, kC, kH float64) float64 { return TermsOf(x, y, kL, kC, kH).Delta }

// TermsOf returns the difference of 2000 with what it is put together from.
func TermsOf(x, y Lab, kL, kC, kH float64) Terms {
	c := (x.Chroma() + y.Chroma()) / 2
	g := 0.5 * (1 - math.Sqrt(seventh(c)))
	x.A, y.A = x.A*(1+g), y.A*(1+g)
	c1, c2 := x.Chroma(), y.Chroma()
	h1, h2 := x.Hue(), y.Hue()
	dh, mean := h2-h1, h1+h2
	switch {
	case c1 == 0 || c2 == 0:
		dh = 0
	case math.Abs(h1-h2) <= 180:
		mean /= 2
	case mean < 360:
		mean = (mean + 360) / 2
	default:
		mean = (mean - 360) / 2
	}
	switch {
	case dh > 180:
		dh -= 360
	case dh < -180:
		dh += 360
	}
	l, cm := (x.L+y.L)/2, (c1+c2)/2
	t := 1 - 0.17*cosine(mean-30) + 0.24*cosine(2*mean) + 0.32*cosine(float64(3*mean)+6) - 0.20*cosine(float64(4*mean)-63)
	off := l - 50
	sl := 1 + 0.015*off*off/math.Sqrt(20+float64(off*off))
	sc := 1 + 0.045*cm
	sh := 1 + 0.015*cm*t
	turn := (mean - 275) / 25
	rt := -2 * math.Sqrt(seventh(cm)) * math.Sin(60*math.Exp(-float64(turn*turn))*math.Pi/180)
	out := Terms{L: y.L - x.L, C: c2 - c1, H: 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*math.Pi/180), SL: sl, SC: sc, SH: sh, RT: rt}
	dl, dc, dH := out.L/(kL*sl), out.C/(kC*sc), out.H/(kH*sh)
	out.Delta = math.Sqrt(max(float64(dl*dl)+float64(dc*dc)+float64(dH*dH)+float64(rt*dc*dH), 0))
	return out
}

// seventh is C⁷ ÷ (C⁷ + 25⁷).
func seventh(c float64) float64 {
	c3 := c * c * c
	c7 := c3 * c3 * c
	const f = 6103515625 // 25⁷
	return c7 / (c7 + f)
}

func cosine(degrees float64) float64 { return math.Cos(degrees * math.Pi / 180) }
