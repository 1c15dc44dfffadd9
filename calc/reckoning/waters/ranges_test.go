package waters

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type form = reckoningtest.Form
	type off = map[string]float64
	reckoningtest.HoldBetween(t, Mix(), form{"find": "litres", "litres": 60, "target": 30, "cold": 9, "hot": 58}, off{"target": 3, "cold": 4, "hot": 6})
	reckoningtest.HoldBetween(t, Mix(), form{"find": "result", "cold": 9, "hot": 58, "cold_litres": 20, "hot_litres": 12}, off{"cold": 4, "hot": 6, "cold_litres": 5, "hot_litres": 6})
	reckoningtest.HoldBetween(t, Mix(), form{"find": "hot", "target": 35, "cold": 15, "cold_litres": 10, "hot_litres": 12}, off{"target": 2, "cold": 4, "cold_litres": 3, "hot_litres": 3})
	reckoningtest.HoldBetween(t, Density(), form{"temperature": 20, "volume": 10}, off{"temperature": 5, "volume": 1})
	reckoningtest.HoldBetween(t, Density(), form{"temperature": 5, "volume": 10}, off{"temperature": 4, "volume": 1}) // across the densest
	reckoningtest.HoldBetween(t, Coefficient(), form{"k1": 1413, "t1": 25, "k2": 1278, "t2": 20}, off{"k1": 10, "t1": 0.5, "k2": 10, "t2": 0.5})
	reckoningtest.HoldBetween(t, Conductivity(), form{"coefficient": 2, "value": 500, "temp": 24}, off{"value": 10, "temp": 4})
	reckoningtest.HoldBetween(t, Hardness(), form{"from": "ions", "calcium": 130, "magnesium": 5}, off{"calcium": 20, "magnesium": 4})
	reckoningtest.HoldBetween(t, Chelator(), form{"agent": "edta", "hardness": 200, "volume": 20, "purity": 98}, off{"hardness": 30, "volume": 2, "purity": 1})
	reckoningtest.HoldBetween(t, Grade(), form{"conductivity": 0.8}, off{"conductivity": 0.3})
	reckoningtest.HoldBetween(t, Plan(), form{"rinses": 4, "rinse_litres": 8, "stock": 40, "rate": 4}, off{"stock": 30, "rate": 1})
}
