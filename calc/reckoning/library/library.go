// Package library lists every reckoning that there is, family by family. Nothing
// is reckoned here: the families declare and account for the reckonings, and
// package reckoning makes forms and answers of them.
package library

import (
	"slices"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/climate"
	"sinkside/calc/reckoning/colours"
	"sinkside/calc/reckoning/fibres"
	"sinkside/calc/reckoning/gels"
	"sinkside/calc/reckoning/hours"
	"sinkside/calc/reckoning/instruments"
	"sinkside/calc/reckoning/lighting"
	"sinkside/calc/reckoning/mounts"
	"sinkside/calc/reckoning/outlines"
	"sinkside/calc/reckoning/rinsing"
	"sinkside/calc/reckoning/solutions"
	"sinkside/calc/reckoning/trays"
	"sinkside/calc/reckoning/waters"
)

// One line for each family, in the order in which a person is shown them.
var all = slices.Concat(
	reckoning.List{solutions.Solution(), solutions.BathStrength(), solutions.Strengths(), solutions.Dilution(), solutions.SmallAmount(), solutions.Several(), solutions.Recipe(), solutions.Hydrate(), solutions.CMCSalt(),
		solutions.BufferRecipe(), solutions.BufferPH(), solutions.BufferMix(), solutions.Species()},
	reckoning.List{gels.Gel(), gels.Paste()},
	reckoning.List{waters.Plan(), waters.Conductivity(), waters.Coefficient(), waters.Hardness(), waters.Chelator(), waters.Mix(), waters.Density(), waters.Grade()},
	reckoning.List{instruments.PHCalibration(), instruments.CellConstant(), instruments.Calibrations()},
	reckoning.List{trays.Tray(), trays.Depth(), trays.Ratio(), trays.WetMass(), trays.Lift()},
	reckoning.List{rinsing.Rinse(), rinsing.Split(), rinsing.Flow(), rinsing.End()},
	reckoning.List{fibres.Regain(), fibres.Equilibrium()},
	reckoning.List{climate.Air(), climate.Drying(), climate.Mould(), climate.Salt(), climate.Chamber()},
	reckoning.List{colours.Difference(), colours.Change(), colours.Stain(), colours.Repeated(), colours.Convert()},
	reckoning.List{lighting.Dose(), lighting.Fade(), lighting.Cap(), lighting.Rota(), lighting.Ultraviolet()},
	reckoning.List{outlines.Outline(), outlines.Change(), outlines.MassPerArea(), outlines.Roll()},
	reckoning.List{mounts.Mount(), mounts.Placing(), mounts.Stitches(), mounts.Cutting(), mounts.Mass(), mounts.Frame(), mounts.HangingStrip(), mounts.Slope()},
	reckoning.List{hours.Spent(), hours.Estimate()},
)

// All returns every reckoning. Callers must not change them.
func All() reckoning.List { return all }
