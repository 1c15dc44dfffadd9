package trays

import "sinkside/calc/reckoning"

// Sources of the tray.
var (
	geometry   = reckoning.Source{Name: "geometry", Where: "Length × width × depth; practice sheets give it in centimetres ÷ 1000.", Mark: reckoning.Computed}
	slopeNote  = reckoning.Source{Name: "sloped trays", Where: "American Institute for Conservation, textile specialty group: a sloped tray needs more depth at one end.", Mark: reckoning.Read}
	fastness   = reckoning.Source{Name: "ISO wash-fastness tests", Where: "Liquor 50:1, soap 5 g/L: chemwifi.com.", Mark: reckoning.Read}
	drained    = reckoning.Source{Name: "water after draining", Where: "After drip-draining the construction of the cloth decides, not the fibre: rieter.com, Moisture.", Mark: reckoning.Read}
	centrifuge = reckoning.Source{Name: "after a centrifuge", Where: "Morton and Hearle, chapter 12, and Preston and Nimkar 1949: cotton 48, wool 45, silk 50, viscose 105, nylon 15 % of the dry mass, give or take ten.", Mark: reckoning.Memory}
	niosh      = reckoning.Source{Name: "revised NIOSH equation", Where: "Equation and load constant: CCOHS; the multipliers' forms from a solved example, homeworksource.com 1093113; multipliers for frequency from memory of NIOSH 94-110. Held against the published example, 15.7 kg.", Mark: reckoning.Read}
	hse        = reckoning.Source{Name: "HSE filter", Where: "Great Britain, Simple manual handling risk filters: smallest figure of the zones, not safe limits; reductions by a works booklet, watmos.simplyhas.com. The figures from memory of L23 and INDG143.", Mark: reckoning.Memory}
	salvage    = reckoning.Source{Name: "lifting wet cloth", Where: "A salvage sheet: solid support or sling, because added water tears weak cloth.", Mark: reckoning.Read}
)
