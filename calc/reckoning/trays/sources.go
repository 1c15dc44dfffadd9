package trays

import "sinkside/calc/reckoning"

// Sources of the tray.
var (
	geometry  = reckoning.Source{Name: "geometry", Where: "Length × width × depth; practice sheets give it in centimetres ÷ 1000.", Mark: reckoning.Computed}
	slopeNote = reckoning.Source{Name: "sloped trays", Where: "American Institute for Conservation, textile specialty group: a sloped tray needs more depth at one end.", Mark: reckoning.Read}
)
