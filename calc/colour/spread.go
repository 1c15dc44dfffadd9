package colour

import "math"

// Spread is what repeated readings of one place come to.
type Spread struct {
	N    int
	Mean Lab
	SD   Lab     // standard deviation of each, with n - 1; 0 of one reading
	MCDM float64 // mean colour difference from the mean, ΔE*ab
	Half Lab     // half the width of the range that holds the mean in 95 of 100 cases
}

// Repeated returns the mean and the spread of at least one reading.
func Repeated(readings []Lab) Spread {
	n := float64(len(readings))
	out := Spread{N: len(readings)}
	for _, r := range readings {
		out.Mean = Lab{out.Mean.L + r.L/n, out.Mean.A + r.A/n, out.Mean.B + r.B/n}
	}
	var sum Lab
	for _, r := range readings {
		dl, da, db := r.L-out.Mean.L, r.A-out.Mean.A, r.B-out.Mean.B
		sum = Lab{sum.L + float64(dl*dl), sum.A + float64(da*da), sum.B + float64(db*db)}
		out.MCDM += CIE76(r, out.Mean) / n
	}
	if len(readings) < 2 {
		return out
	}
	out.SD = Lab{math.Sqrt(sum.L / (n - 1)), math.Sqrt(sum.A / (n - 1)), math.Sqrt(sum.B / (n - 1))}
	half := student95(len(readings)-1) / math.Sqrt(n)
	out.Half = Lab{half * out.SD.L, half * out.SD.A, half * out.SD.B}
	return out
}

// Reach is how far from its mean the colour of the place may lie in ΔE*ab, when
// each of its three parts is as far off as its own range allows.
func (s Spread) Reach() float64 { return CIE76(s.Half, Lab{}) }

// student95 is Student's t for a two-sided range of 95 of 100, by the degrees of
// freedom; from the usual tables (memory), beyond 30 by 1.96 + 2.4 ÷ df, which
// agrees with them to 0.005.
func student95(df int) float64 {
	table := [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
		2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
		2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042}
	if df <= len(table) {
		return table[df-1]
	}
	return 1.96 + 2.4/float64(df)
}
