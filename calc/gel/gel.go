// Package gel reckons what a sheet of gel or a poultice takes: volume from area
// and thickness, gelling agent and additive from the volume. It is arithmetic;
// the published strengths that are set beside it are in this package too, each
// with where it was read.
package gel

import "sinkside/calc/unit"

// Area is an area in square metres.
type Area float64

// Sheet returns the area of a rectangular sheet.
func Sheet(length, width unit.Length) Area {
	return Area(float64(length) * float64(width) / 1e6)
}

// Volume returns what a layer of that area and thickness holds.
func Volume(a Area, thick unit.Length) unit.Volume {
	return unit.Volume(float64(a) * float64(thick)) // a square metre one millimetre thick is a litre
}

// WithSpare adds what stays in the pot and is trimmed off: 0.10 is a tenth more.
func WithSpare(v unit.Volume, spare unit.Fraction) unit.Volume {
	return v + unit.Volume(float64(v)*float64(spare))
}

// Batch is what to weigh for a gel.
type Batch struct {
	Volume   unit.Volume
	Agent    unit.Mass
	Additive unit.Mass
}

// Make returns what a volume of gel takes, of the agent and of one additive. A
// strength of % w/v counts grams of dry agent in 100 mL of water taken, as the
// published recipes do.
func Make(v unit.Volume, agent, additive unit.Concentration) Batch {
	return Batch{v, agent.In(v), additive.In(v)}
}

// Published is a range of strengths that was read for one agent.
type Published struct {
	Agent   string // name of the choice
	Low     unit.Concentration
	High    unit.Concentration
	Thick   unit.Length // where the source says one; else 0
	Purpose string
	Where   string
}

// Names of the agents that have a choice of their own.
const (
	Agar        = "agar"
	Agarose     = "agarose"
	LowGellan   = "gellan_low"
	HighGellan  = "gellan_high"
	CelluloseEt = "cellulose_ether"
	OtherAgent  = "other"
)

// Ranges are the strengths that were read. There is none here for cellulose
// ethers or any other agent.
var Ranges = []Published{
	{Agar, 0.5 * unit.PercentByVolume, 5 * unit.PercentByVolume, 0, "agar in water, boiled, gels towards 35 °C", "Sansonetti and others, 12th stone congress, 2012"},
	{Agar, 3 * unit.PercentByVolume, 5 * unit.PercentByVolume, 0, "rigid agar compared with agarose on stained cotton", "Revista Conserva, 2024, abstract"},
	{Agarose, 1 * unit.PercentByVolume, 1 * unit.PercentByVolume, 0, "a textile laboratory's usual gel", "report of D. Goodin's talk, AIC 45th annual meeting, 2017"},
	{Agarose, 3.4 * unit.PercentByVolume, 3.4 * unit.PercentByVolume, 6, "cast a quarter inch thick to clean a tapestry", "report of D. Goodin's talk, AIC 45th annual meeting, 2017"},
	{Agarose, 3 * unit.PercentByVolume, 5 * unit.PercentByVolume, 0, "rigid agarose compared with agar on stained cotton", "Revista Conserva, 2024, abstract"},
	{LowGellan, 2 * unit.PercentByVolume, 4 * unit.PercentByVolume, 0, "on paper, with 0.4 g/L calcium acetate, heated until clear; the more absorbent the sheet, the higher", "National Research Institute for Cultural Properties, Tokyo, Conservation and Restoration of Western Paper, §5-1"},
}

// RangesOf returns what was read for an agent; none where nothing was.
func RangesOf(agent string) []Published {
	var out []Published
	for _, p := range Ranges {
		if p.Agent == agent {
			out = append(out, p)
		}
	}
	return out
}

// Holds reports whether a strength lies in the range, give or take the last
// bits.
func (p Published) Holds(c unit.Concentration) bool {
	const slack = 1e-9
	return float64(c) >= float64(p.Low)*(1-slack) && float64(c) <= float64(p.High)*(1+slack)
}

// CalciumAcetate is the additive of the published gellan gels: 0.4 g/L, low acyl
// (Tokyo, §5-1) and high acyl (C. Magee, AIC blog, 2019), both read.
const CalciumAcetate = 0.4 * unit.GramPerLitre
