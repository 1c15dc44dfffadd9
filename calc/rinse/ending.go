package rinse

import (
	"math"

	"sinkside/calc/unit"
)

// Readings are the conductivities at 25 °C, in µS/cm, at the ends of rinses in
// their order, and what they are to be judged by. There must be one at least.
//
// What a rinse leaves of the excess over its source water is a share of it, so
// that the excess decays geometrically,
//
//	κ_i = κ_source + excess · rⁱ
//
// and its logarithm lies on a straight line, fitted by least squares. Where
// rinses had unequal volumes and the liquid kept is known, i counts in rinses
// like the last one: a rinse with V_i of fresh water counts for
// ln(1 + V_i/V_kept) ÷ ln(1 + V_last/V_kept) of them. With complete mixing the
// line is then straight whatever the volumes were.
type Readings struct {
	K      []float64
	Source float64       // of the rinse water
	Fresh  []unit.Volume // for each rinse; nil where not known
	Kept   unit.Volume   // after draining; 0 where not known
	Rules
}

// Rules are what the readings are judged by. No published figure was found for
// any of them: the usual ones are our own choice, and a person may change them.
type Rules struct {
	Times, Above float64       // near the source is Times × it, at most MostByTimes above it, or this many µS/cm above it, whichever is more
	Flat         unit.Fraction // readings that differ by less than this share of the excess have levelled off
	Scatter      unit.Fraction // the excess of no rinse is foretold closer than this
	Meter        unit.Fraction // error of the meter, of the reading,
	MeterLeast   float64       // and at least this many µS/cm
}

// UsualRules returns the rules that are taken where nothing else is said.
func UsualRules() Rules {
	return Rules{Times: 2, Above: 5, Flat: 0.05, Scatter: 0.10, Meter: 0.02, MeterLeast: 1}
}

// Limits of the account that no rule changes, our own choice as well.
const (
	// SlowestRatio is the share that a rinse may leave at most for an end to be
	// foretold: at 90 % the readings hardly show a decay.
	SlowestRatio = 0.9
	// MostByTimes is how far above the source, in µS/cm, Times may put what is near
	// it: twice a pure water is a little, twice a tap water is another water.
	MostByTimes = 20
	// Tailing is by how many times the share that the last rinse left may exceed
	// the fitted one before the line is held to be bent.
	Tailing = 1.5
)

// Refusal is why no end of rinsing is foretold.
type Refusal uint8

// The refusals.
const (
	Foretold  Refusal = iota // none: an end is foretold
	Few                      // fewer than two readings stand clear of the source
	Rose                     // the last reading lies above the one before
	Flat                     // the last two differ little and stay above what is near the source
	NoDecay                  // each rinse leaves nearly all
	Scattered                // no decay can be told from the scatter
	TooSlow                  // it may take more than Most rinses
	Under                    // the last reading lies below the source by more than the meter's error
)

// Ending is what readings say about the end of rinsing.
type Ending struct {
	Near    float64 // what counts as near the source, µS/cm
	Excess  float64 // of the last reading over the source, µS/cm; below 0 where it lies below
	Reached bool    // the last reading is near the source
	Settled bool    // and so is the one before it
	Used    []bool  // which readings take part in the fit
	Fit     bool    // a falling line was found
	Ratio   float64 // what each rinse like the last leaves of the excess by the fit; 0 without a line
	Start   float64 // fitted excess at the first reading in the fit, µS/cm; 0 without a line
	Mixing  float64 // what the last rinse would leave by mixing alone; 0 where volumes are not known
	Tails   bool    // the last rinse left much more than the fit would have it
	Moved   bool    // Change is known: there are two readings, the first of them clear of the source
	Change  float64 // of the excess from the last reading but one to the last: -0.75 left a quarter

	Refusal           Refusal
	MoreLow, MoreHigh int // rinses more like the last, at least and at most; only where Foretold

	source float64
	line   line
}

// line is ln(excess) = a + b·x, x in rinses like the last one from the first
// reading on.
type line struct {
	a, b      float64
	mean, sxx float64 // mean of x, and the sum of squares about it
	n         float64
	width     float64 // half the range of one reading about a line that is known
	places    []float64
	first     int // first reading that takes part
}

// End judges readings.
func (r Readings) End() Ending {
	n := len(r.K)
	last := r.K[n-1] - r.Source
	e := Ending{Near: max(min(r.Times*r.Source, r.Source+MostByTimes), r.Source+r.Above), Excess: last, source: r.Source, Used: make([]bool, n)}
	e.Reached = r.K[n-1] <= e.Near
	if r.Kept > 0 && r.even() {
		e.Mixing = float64(Left(r.Kept, r.Fresh[n-1]))
	}
	for i, k := range r.K {
		e.Used[i] = k-r.Source > r.errorOf(k)
	}
	if n > 1 {
		before := r.K[n-2] - r.Source
		e.Settled = e.Reached && r.K[n-2] <= e.Near
		if e.Moved = e.Used[n-2]; e.Moved {
			e.Change = last/before - 1
		}
	}
	e.Refusal = r.fit(&e)
	e.Fit = e.Refusal == Foretold
	if e.Fit {
		e.Ratio, e.Start = math.Exp(e.line.b), math.Exp(e.line.a+float64(e.line.b*e.line.places[e.line.first]))
		e.Refusal = r.foretell(&e)
	}
	if -last > r.errorOf(r.Source) {
		e.Refusal = Under
	} else if e.Reached {
		e.Refusal, e.MoreLow, e.MoreHigh = Foretold, 0, 1
		if e.Settled {
			e.MoreHigh = 0
		}
	} else if why := r.stuck(&e); why != Foretold {
		e.Refusal = why
	}
	if e.Refusal != Foretold {
		e.MoreLow, e.MoreHigh = 0, 0
	}
	return e
}

// errorOf returns how far off the meter may be at a reading.
func (r Readings) errorOf(k float64) float64 {
	return max(r.MeterLeast, float64(k*float64(r.Meter)))
}

// even reports whether there is a volume for each reading.
func (r Readings) even() bool { return len(r.Fresh) == len(r.K) }

// places returns where each reading lies on the line's axis.
func (r Readings) places() []float64 {
	xs := make([]float64, len(r.K))
	thins := func(i int) float64 { return math.Log(1 + float64(r.Fresh[i])/float64(r.Kept)) }
	for i := 1; i < len(xs); i++ {
		xs[i] = xs[i-1] + 1
		if r.Kept > 0 && r.even() {
			xs[i] = xs[i-1] + thins(i)/thins(len(xs)-1)
		}
	}
	return xs
}

// stuck says why readings above what is near the source cannot go on as the line
// does.
func (r Readings) stuck(e *Ending) Refusal {
	n := len(r.K)
	if n < 2 {
		return Foretold
	}
	fell := r.K[n-2] - r.K[n-1]
	small := max(float64(float64(r.Flat)*(r.K[n-2]-r.Source)), r.errorOf(r.K[n-1]))
	switch {
	case fell < -small:
		return Rose
	case fell < small:
		return Flat
	}
	return Foretold
}

// fit puts the line through the readings that stand clear of the source.
func (r Readings) fit(e *Ending) Refusal {
	l := &e.line
	l.places = r.places()
	var sumX, sumY, meter float64
	for i, x := range l.places {
		if !e.Used[i] {
			continue
		}
		if l.n == 0 {
			l.first = i
		}
		over := r.K[i] - r.Source
		l.n++
		sumX += x
		sumY += math.Log(over)
		meter += float64(r.errorOf(r.K[i]) / over * r.errorOf(r.K[i]) / over)
	}
	if l.n < 2 {
		return Few
	}
	l.mean = sumX / l.n
	meanY := sumY / l.n
	var sxy float64
	for i, x := range l.places {
		if e.Used[i] {
			l.sxx += float64((x - l.mean) * (x - l.mean))
			sxy += float64((x - l.mean) * (math.Log(r.K[i]-r.Source) - meanY))
		}
	}
	l.b = sxy / l.sxx
	l.a = meanY - float64(l.b*l.mean)
	l.width = max(math.Sqrt(meter/l.n), float64(r.Scatter))
	if l.n > 2 {
		l.width = max(l.width, l.scatter(r, e.Used)*student(int(l.n)-2))
	}
	switch {
	case math.Exp(l.b) > SlowestRatio:
		return NoDecay
	case -l.b <= l.width/math.Sqrt(l.sxx):
		return Scattered
	}
	return Foretold
}

// scatter returns the standard deviation of the readings about the line.
func (l *line) scatter(r Readings, used []bool) float64 {
	var sum float64
	for i, x := range l.places {
		if used[i] {
			off := math.Log(r.K[i]-r.Source) - l.a - float64(l.b*x)
			sum += float64(off * off)
		}
	}
	return math.Sqrt(sum / (l.n - 2))
}

// student90 are the quantiles of Student's t that hold 90 % between -t and t, for
// 1 to 10 degrees of freedom (from memory of the usual tables; a test integrates
// the density).
var student90 = [...]float64{6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812}

// student returns the quantile for any number of degrees of freedom, above the
// table by the first terms of its expansion (Abramowitz and Stegun 26.7.5, from
// memory), right within 0.001.
func student(freedom int) float64 {
	if freedom <= len(student90) {
		return student90[freedom-1]
	}
	const z, first, second = 1.645, 1.524, 1.42 // of the normal distribution; (z³+z)/4; (5z⁵+16z³+3z)/96
	f := float64(freedom)
	return z + first/f + second/(f*f)
}

// at returns ln(excess) on the line, and half the range in which nine of ten
// readings at x lie.
func (l *line) at(x float64) (mid, half float64) {
	off := x - l.mean
	return l.a + float64(l.b*x), l.width * math.Sqrt(1+1/l.n+float64(off*off)/l.sxx)
}

// foretell finds the rinses more. It never foretells none, since the last
// reading, which counts more than the line, is not near the source.
func (r Readings) foretell(e *Ending) Refusal {
	l, n := &e.line, len(r.K)
	const slack = 1e-9 // what is met but for rounding is met
	goal := math.Log(e.Near-r.Source) + slack
	end := l.places[n-1]
	for m := 1; m <= Most && e.MoreHigh == 0; m++ {
		mid, half := l.at(end + float64(m))
		if e.MoreLow == 0 && mid-half <= goal {
			e.MoreLow = m
		}
		if mid+half <= goal {
			e.MoreHigh = m
		}
	}
	if e.MoreHigh == 0 {
		return TooSlow
	}
	if n < 3 || !e.Used[n-1] || !e.Used[n-2] || e.Excess <= 0 {
		return Foretold
	}
	// A line that bends is not to be believed: the last rinse then sets the pace
	// for the worse end.
	pace := math.Log(e.Excess/(r.K[n-2]-r.Source)) / (end - l.places[n-2])
	if e.Tails = pace > l.b+math.Log(Tailing); !e.Tails {
		return Foretold
	}
	if math.Exp(pace) > SlowestRatio {
		return NoDecay
	}
	e.MoreHigh = max(e.MoreHigh, int(math.Ceil((goal-math.Log(e.Excess))/pace)))
	if e.MoreHigh > Most {
		return TooSlow
	}
	return Foretold
}

// Band is the fitted conductivity at the end of one rinse, µS/cm at 25 °C, with
// the range in which nine of ten readings lie.
type Band struct {
	Place          int // the reading's number from 1, and on beyond the last
	K25, Low, High float64
}

// Curve returns the fit from the first reading that takes part to some rinses
// like the last beyond it; nothing without a line.
func (e Ending) Curve(ahead int) []Band {
	if !e.Fit {
		return nil
	}
	var out []Band
	n := len(e.line.places)
	for i := e.line.first; i < n+ahead; i++ {
		x := e.line.places[min(i, n-1)] + float64(max(i-n+1, 0))
		mid, half := e.line.at(x)
		const most = 100 // e¹⁰⁰ is still a number
		half = min(half, most)
		out = append(out, Band{i + 1, e.source + math.Exp(mid), e.source + math.Exp(mid-half), e.source + math.Exp(mid+half)})
	}
	return out
}
