package watch

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/climate"
	"sinkside/calc/reckoning/rinsing"
	"sinkside/calc/reckoning/waters"
)

// What must be watched is reckoned with these. The browser's core carries them
// and no others: the library of all is a module of its own there.
var reckonings = reckoning.List{waters.Conductivity(), rinsing.End(), climate.Air(), climate.Drying()}

// Reckonings returns the reckonings that a watch needs. Callers must not change
// them.
func Reckonings() reckoning.List { return reckonings }
