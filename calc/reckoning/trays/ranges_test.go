package trays

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type off = map[string]float64
	reckoningtest.HoldBetween(t, Depth(), form{"cover": 3, "length": 100, "width": 50, "litres": 20, "thick": 1}, off{"length": 5, "width": 4, "litres": 3, "thick": 0.5})
	reckoningtest.HoldBetween(t, Depth(), form{"shape": "round", "cover": 3, "diameter": 60, "litres": 20, "thick": 1}, off{"diameter": 5, "litres": 3, "thick": 0.5})
	reckoningtest.HoldBetween(t, Depth(), form{"shape": "sloped", "length": 100, "width": 50, "litres": 12, "fall": 5, "thick": 1}, off{"length": 5, "width": 4, "litres": 4, "fall": 1, "thick": 0.5}) // from dry to covered at the shallow end
	reckoningtest.HoldBetween(t, Ratio(), form{"wanted": 50, "dry_mass": 400, "litres": 24}, off{"dry_mass": 30, "litres": 2})
	reckoningtest.HoldBetween(t, WetMass(), form{"by": "trial", "dry_mass": 400, "trial_dry": 12, "trial_wet": 31, "support": 1.2}, off{"dry_mass": 20, "trial_dry": 0.5, "trial_wet": 2, "support": 0.1})
	reckoningtest.HoldBetween(t, WetMass(), form{"by": "guess", "dry_mass": 400, "pick_up": 120}, off{"dry_mass": 20, "pick_up": 40})
	reckoningtest.HoldBetween(t, Lift(), form{"hands": 40, "from": 80, "to": 110, "start": "2", "end": "1", "load": 9}, off{"load": 1})
	reckoningtest.HoldBetween(t, Tray(), form{"length": 90, "width": 60, "depth": 10, "tray_mass": 6}, off{"tray_mass": 0.5})
}
