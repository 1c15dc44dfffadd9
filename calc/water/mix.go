package water

import "sinkside/calc/unit"

// The equations below give every litre the same heat for each kelvin. Hot water
// is lighter than cold, by 2 % at 65 °C, and the vessel takes some heat: a mixed
// bath comes out a little below what they say.

// Mixed returns the temperature of two waters poured together:
//
//	T = (V1·T1 + V2·T2) / (V1 + V2)
//
// Together they must be more than nothing.
func Mixed(v1 unit.Volume, t1 unit.Temperature, v2 unit.Volume, t2 unit.Temperature) unit.Temperature {
	share := float64(v1) / float64(v1+v2)
	return t2 + unit.Temperature(float64(share*float64(t1-t2)))
}

// HotShare returns the share of hot water that makes a target, which lies from
// cold to hot; hot must be above cold.
func HotShare(cold, hot, target unit.Temperature) float64 {
	return float64(target-cold) / float64(hot-cold)
}

// HotNeeded returns how hot the hot water must be, so that the two together have
// the target temperature. There must be hot water.
func HotNeeded(cold unit.Volume, at unit.Temperature, hot unit.Volume, target unit.Temperature) unit.Temperature {
	return target + unit.Temperature(float64(float64(cold)/float64(hot)*float64(target-at)))
}
