package gels

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type form = reckoningtest.Form
	type off = map[string]float64
	reckoningtest.HoldBetween(t, Gel(), form{"strength": 2, "additive": "calcium_acetate", "additive_strength": 0.4, "length": 40, "width": 30, "thickness": 6}, off{"length": 1, "width": 2, "thickness": 1.5})
	reckoningtest.HoldBetween(t, Gel(), form{"shape": "area", "strength": 3, "sheets": 2, "area": 1200, "thickness": 6}, off{"area": 200, "thickness": 1.5})
}
