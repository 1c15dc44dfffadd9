package water

import (
	"math"

	"sinkside/calc/unit"
)

// Plan is what a wash day takes of one water. Litres are of one bath. What a
// practice sheet gives as (pre-soak + washes + rinses) × bath + spare is kept
// apart here, since washes are often larger than rinses.
type Plan struct {
	Presoaks, Washes, Rinses, Spare int
	Presoak, Wash, Rinse            unit.Volume
	Other                           unit.Volume // in all: solutions, jars, hands
}

// SpareRinses is how many rinses beyond the plan the water should still give:
// common practice.
const SpareRinses = 2

// BeforeRinses returns what is used before the first rinse, and by the way.
func (p Plan) BeforeRinses() unit.Volume {
	return unit.Volume(p.Presoaks)*p.Presoak + unit.Volume(p.Washes)*p.Wash + p.Other
}

// Planned returns what the planned baths take.
func (p Plan) Planned() unit.Volume { return p.BeforeRinses() + unit.Volume(p.Rinses)*p.Rinse }

// Total returns what the planned baths and the spare rinses take.
func (p Plan) Total() unit.Volume { return p.Planned() + unit.Volume(p.Spare)*p.Rinse }

// Short returns what a stock lacks of a need; 0 where it lacks nothing.
func Short(stock, need unit.Volume) unit.Volume {
	return unit.Volume(max(float64(need-stock), 0))
}

// RinsesFrom returns how many whole rinses a stock gives once all before them has
// been served; 0 where it does not reach so far, or nothing is rinsed.
func (p Plan) RinsesFrom(stock unit.Volume) int {
	if p.Rinse <= 0 {
		return 0
	}
	const slack = 1e-9 // what only rounding misses is there
	return int(max(math.Floor(float64(stock-p.BeforeRinses())/float64(p.Rinse)+slack), 0))
}

// Flow is how fast water is made, in litres an hour.
type Flow float64

// Hours returns how long it takes to make so much. The flow must be above 0.
func (f Flow) Hours(v unit.Volume) float64 { return float64(v) / float64(f) }
