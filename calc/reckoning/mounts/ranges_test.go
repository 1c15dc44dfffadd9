package mounts

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type off = map[string]float64
	reckoningtest.HoldBetween(t, Mount(), form{"width": 300, "height": 400, "board": 6, "loft": 4, "layers": 2}, off{"width": 3, "height": 5, "board": 1, "loft": 2})
	reckoningtest.HoldBetween(t, Frame(), form{"width": 380, "height": 480, "mount": 6, "loft": 4, "textile": 1, "glazing": "glass", "glass": 3, "rest": 2.6, "factor": 4, "fixings": 3}, off{"width": 3, "height": 4, "mount": 0.5, "loft": 2, "textile": 0.5, "glass": 0.3, "rest": 0.2})
	reckoningtest.HoldBetween(t, HangingStrip(), form{"edge": 960, "tape": 50}, off{"edge": 4, "tape": 1})
	reckoningtest.HoldBetween(t, Slope(), form{"mass": 620, "angle": 40, "edge": 1200}, off{"mass": 20, "angle": 8, "edge": 40})
	reckoningtest.HoldBetween(t, Stitches(), form{"where": "edge", "along": 300, "spacing": 4, "shortest": 3, "longest": 9}, off{"along": 30})
	reckoningtest.HoldBetween(t, Stitches(), form{"where": "area", "along": 60, "across": 40, "spacing": 4}, off{"along": 10, "across": 8})
}
