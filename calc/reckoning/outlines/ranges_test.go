package outlines

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type off = map[string]float64
	reckoningtest.HoldBetween(t, MassPerArea(), form{"mass": 620, "width": 120, "height": 215}, off{"mass": 5, "width": 2, "height": 3})
	reckoningtest.HoldBetween(t, MassPerArea(), form{"mass": 620, "area": 25800}, off{"mass": 5, "area": 300})
	reckoningtest.HoldBetween(t, Roll(), form{"tube": 75, "length": 250, "thick": 1.2, "width": 90}, off{"tube": 3, "length": 10, "thick": 0.4, "width": 1})
}
