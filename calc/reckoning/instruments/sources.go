// Package instruments holds the reckonings of meters: pH calibrations, cell
// constants, and on which calibration a reading stands.
package instruments

import (
	"math"
	"strconv"

	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Instruments"

// Sources of the reckonings of instruments.
var (
	standardBuffers  = reckoning.Source{Name: "standard buffers", Where: "Table of JIS Z 8802, ±0.02 pH, 0 to 50 °C (carbonate to 30), reprinted by a maker of pH meters, “Reference solution”.", Mark: reckoning.Read}
	technicalBuffers = reckoning.Source{Name: "technical buffers", Where: "Buffers 4.00, 7.00 and 10.01 as sold in America, ±0.02 pH, 0 to 50 °C: instrument manual MI 611-211, table 7.", Mark: reckoning.Read}
	nernst           = reckoning.Source{Name: "theoretical slope", Where: "ln(10) R T ÷ F for each pH: 59.16 mV at 25 °C.", Mark: reckoning.Memory}
	slopeRule        = reckoning.Source{Name: "slope of an electrode", Where: "95 to 105 % probably works, 90 to 95 % wants maintenance, 85 to 90 % full maintenance now, below that it is not calibrated: manual 109118-1 of a bench pH meter, 3.4.2.", Mark: reckoning.Read}
	offsetRule       = reckoning.Source{Name: "offset of an electrode", Where: "Outside of ±30 mV in buffer 7 the bulb is coated and is to be cleaned: “How to calculate offset and slope”, studylib.net 25392327, and manuals of pH meters.", Mark: reckoning.Read}
	kclTables        = reckoning.Source{Name: "potassium chloride standards", Where: "0.01 and 0.1 mol/kg: CRC Handbook, p. 5-73 (Wu, Koch and Pratt 1991), about 0.03 %. 84, 500, 1413 µS/cm and 12.88 mS/cm as sold: bench-meter manual S230, p. 45, 1 %, taken from 10 to 30 °C alone, since its values below and above are misprinted.", Mark: reckoning.Read}
	cellRule         = reckoning.Source{Name: "cell constant", Where: "Constant = conductivity of the standard ÷ conductance that the cell shows.", Mark: reckoning.Memory}
)

// text writes a quantity of the kind's own unit in one unit.
func text(symbol string, base float64, figures int) string {
	u, _ := unit.Named(symbol)
	return u.Write(base, figures)
}

// fixed writes a number with so many decimals.
func fixed(x float64, decimals int) string {
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	return strconv.FormatFloat(math.Round(x*scale)/scale+0, 'f', decimals, 64) // -0 + 0 is 0
}
