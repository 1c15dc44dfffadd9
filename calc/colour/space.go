package colour

import (
	"errors"
	"math"
	"strings"
)

// XYZ is a colour in CIE XYZ, white having Y 1.
type XYZ struct{ X, Y, Z float64 }

// Whites that a Lab is seen against.
var (
	D65 = XYZ{0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290}
	D50 = XYZ{0.96422, 1, 0.82521}
)

// RGB is a colour in sRGB, each of its three lights from 0 to 1.
type RGB struct{ R, G, B float64 }

// ErrHex is returned where a text is no colour as six hexadecimal digits.
var ErrHex = errors.New("a colour is six hexadecimal digits, as #336699")

// ErrGamut is returned where sRGB cannot show a colour.
var ErrGamut = errors.New("sRGB cannot show this colour")

// Hex reads "#336699", with or without its sign.
func Hex(text string) (RGB, error) {
	s := strings.TrimPrefix(strings.TrimSpace(text), "#")
	if len(s) != 6 {
		return RGB{}, ErrHex
	}
	var v [3]float64
	for i := range v {
		high, low := digit(s[2*i]), digit(s[2*i+1])
		if high < 0 || low < 0 {
			return RGB{}, ErrHex
		}
		v[i] = float64(16*high+low) / 255
	}
	return RGB{v[0], v[1], v[2]}, nil
}

func digit(c byte) int {
	if c >= 'A' && c <= 'F' {
		c += 'a' - 'A'
	}
	return strings.IndexByte("0123456789abcdef", c)
}

// Hex writes a colour as "#336699", each light to the nearest of 255 steps.
func (c RGB) Hex() string {
	const digits = "0123456789abcdef"
	out := []byte{'#'}
	for _, x := range []float64{c.R, c.G, c.B} {
		n := int(math.Round(255 * min(max(x, 0), 1)))
		out = append(out, digits[n>>4], digits[n&15])
	}
	return string(out)
}

type matrix [3][3]float64

func (m matrix) by(v [3]float64) (out [3]float64) {
	for i := range m {
		out[i] = float64(m[i][0]*v[0]) + float64(m[i][1]*v[1]) + float64(m[i][2]*v[2])
	}
	return out
}

// inverse by cofactors; the matrices here are far from singular.
func (m matrix) inverse() (out matrix) {
	det := 0.0
	for j := range 3 {
		det += m[0][j] * m.cofactor(0, j)
	}
	for i := range 3 {
		for j := range 3 {
			out[j][i] = m.cofactor(i, j) / det
		}
	}
	return out
}

func (m matrix) cofactor(i, j int) float64 {
	a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
	return float64(m[a][c]*m[b][d]) - float64(m[a][d]*m[b][c])
}

// toXYZ follows from the primaries of sRGB, (0.64, 0.33), (0.30, 0.60) and (0.15,
// 0.06), and its white.
var toXYZ = matrix{
	{0.4123907992659593, 0.357584339383878, 0.1804807884018343},
	{0.2126390058715102, 0.715168678767756, 0.0721923153607337},
	{0.0193308187155918, 0.119194779794626, 0.9505321522496607},
}

var bradford = matrix{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}

// XYZ returns the colour under D65.
func (c RGB) XYZ() XYZ {
	v := toXYZ.by([3]float64{linear(c.R), linear(c.G), linear(c.B)})
	return XYZ{v[0], v[1], v[2]}
}

// RGB returns a colour that is given under D65; ErrGamut, with the nearest light
// in each of the three, where it lies outside by more than rounding.
func (c XYZ) RGB() (RGB, error) {
	v := toXYZ.inverse().by([3]float64{c.X, c.Y, c.Z})
	const rounding = 1e-4
	var err error
	for i, x := range v {
		if x < -rounding || x > 1+rounding {
			err = ErrGamut
		}
		v[i] = encoded(min(max(x, 0), 1))
	}
	return RGB{v[0], v[1], v[2]}, err
}

func linear(x float64) float64 {
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

func encoded(x float64) float64 {
	if x <= 0.0031308 {
		return x * 12.92
	}
	return 1.055*math.Pow(x, 1/2.4) - 0.055
}

// Adapted takes a colour seen under one white to another, after Bradford.
func (c XYZ) Adapted(from, to XYZ) XYZ {
	if from == to {
		return c
	}
	f, t := bradford.by([3]float64{from.X, from.Y, from.Z}), bradford.by([3]float64{to.X, to.Y, to.Z})
	v := bradford.by([3]float64{c.X, c.Y, c.Z})
	for i := range v {
		v[i] *= t[i] / f[i]
	}
	v = bradford.inverse().by(v)
	return XYZ{v[0], v[1], v[2]}
}

const (
	epsilon = 216.0 / 24389
	kappa   = 24389.0 / 27
)

// Lab returns the colour against a white that it is seen under.
func (c XYZ) Lab(white XYZ) Lab {
	f := func(x float64) float64 {
		if x > epsilon {
			return math.Cbrt(x)
		}
		return (float64(kappa*x) + 16) / 116
	}
	x, y, z := f(c.X/white.X), f(c.Y/white.Y), f(c.Z/white.Z)
	return Lab{float64(116*y) - 16, 500 * (x - y), 200 * (y - z)}
}

// XYZ returns a colour that was measured against a white.
func (c Lab) XYZ(white XYZ) XYZ {
	y := (c.L + 16) / 116
	back := func(f float64) float64 {
		if f3 := f * f * f; f3 > epsilon {
			return f3
		}
		return (float64(116*f) - 16) / kappa
	}
	return XYZ{back(y+c.A/500) * white.X, back(y) * white.Y, back(y-c.B/200) * white.Z}
}
