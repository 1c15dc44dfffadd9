package solutions

import "sinkside/calc/reckoning"

// Sources of the buffers.
var (
	gomori     = reckoning.Source{Name: "citrate buffer table", Where: "Gomori 1955, reprinted in a laboratory hand-out: 0.1 mol/L citric acid and 0.1 mol/L trisodium citrate made up to 100 mL, pH 3.0 to 5.8. The printed row for pH 6.0 does not add up and is left out.", Mark: reckoning.Read}
	mcIlvaine  = reckoning.Source{Name: "citrate-phosphate buffer table", Where: "McIlvaine's mixtures, University of Massachusetts laboratory recipe page: 0.1 mol/L citric acid and 0.2 mol/L disodium hydrogen phosphate, pH 2.6 to 7.4.", Mark: reckoning.Read}
	citricPK   = reckoning.Source{Name: "constants of citric acid", Where: "Dissociation quotients for citric acid, J. Solution Chem., doi 10.1007/BF02439444, abstract: pK 3.127, 4.759, 6.397 at 25 °C and no ionic strength.", Mark: reckoning.Read}
	otherPK    = reckoning.Source{Name: "constants of other acids", Where: "Ionization Constants of Aqueous Polyprotic Acids, J. R. Fromm, 1997: phosphoric acid 2.148, 7.206, 12.342, carbonic acid 10.329; tables differ by 0.03.", Mark: reckoning.Read}
	handbookPK = reckoning.Source{Name: "constants from a handbook", Where: "CRC Handbook: acetic acid 4.756; ion product of water 14.00 at 25 °C.", Mark: reckoning.Memory}
	henderson  = reckoning.Source{Name: "Henderson and Hasselbalch", Where: "pH = pKa + log10(base ÷ acid). Held against a worked answer at ontola.com: 7.21, and 7.23 after 5 mmol of strong base.", Mark: reckoning.Read}
	bands      = reckoning.Source{Name: "ideal against published buffers", Where: "The equations without activities, set against the two published tables: off by up to 0.35 pH for 0.05 mol/L citrate, shown as ±0.4, and for citrate-phosphate by up to 0.74, at pH 5.4, shown as ±0.75. The rows of pH 3, 5 and 7 alone would give ±0.7, which does not hold those of 5.4 and 5.6.", Mark: reckoning.Computed}
	speciesSum = reckoning.Source{Name: "species of an acid", Where: "Each fraction is [H]^n times the constants up to it, over the sum of all: textbook algebra.", Mark: reckoning.Memory}
	balance    = reckoning.Source{Name: "charge balance", Where: "Sodium and hydrogen ions balance hydroxide and the charges of the acids; without activities.", Mark: reckoning.Memory}
)
