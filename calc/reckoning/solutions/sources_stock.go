package solutions

import "sinkside/calc/reckoning"

// Sources of dilutions, stocks, recipes, hydrates and of the CMC beside salt.
var (
	thinning   = reckoning.Source{Name: "dilution by mass", Where: "water = solution × (w1 ÷ w2 - 1). Held against a published worked answer, assignmentexpert.com 100038: 118 g of 36 % w/w take 306.8 g of water to 10 %.", Mark: reckoning.Read}
	toMolar    = reckoning.Source{Name: "mol/L from % w/w", Where: "mol/L = 10 × % w/w × density ÷ molar mass. Held against laboratorynotes.com: 25 % hydrochloric acid is 7.68 mol/L. One chemistry page divides by the density, which is wrong.", Mark: reckoning.Read}
	readError  = reckoning.Source{Name: "reading error", Where: "A reading is taken to be off by up to the smallest step that is shown; its share of the amount is step ÷ amount, and the shares of two steps add.", Mark: reckoning.Practice}
	shrinking  = reckoning.Source{Name: "volumes do not add", Where: "Alcohol and water together take up less room than apart, so a mixture is made up to a mark.", Mark: reckoning.Practice}
	weightsOf  = reckoning.Source{Name: "atomic weights", Where: "Commission on Isotopic Abundances and Atomic Weights, Standard Atomic Weights 2021: H, C, N, O, Na, S, Ca, P, K. H, C, N, O and S are published as ranges; their single values are from memory. Sums are right to about ±0.02 g/mol.", Mark: reckoning.Read}
	weightsToo = reckoning.Source{Name: "atomic weights of other elements", Where: "The same table for elements besides those nine, such as magnesium, chlorine and boron, from memory.", Mark: reckoning.Memory}
	printed178 = reckoning.Source{Name: "a printed molar mass", Where: "University of Massachusetts laboratory recipe “Citric acid buffer”: disodium hydrogen phosphate 141.98, its dihydrate 178.05 g/mol. Atomic weights give 141.96 and 177.99; two waters on 141.98 make 178.01, so the 178.05 does not follow from the page's own figure.", Mark: reckoning.Read}
	swapping   = reckoning.Source{Name: "hydrates", Where: "The same amount of substance: mass × molar mass of what is there ÷ molar mass of what is asked for.", Mark: reckoning.Computed}
	rosen      = reckoning.Source{Name: "CMC beside sodium chloride", Where: "M. J. Rosen, Surfactants and Interfacial Phenomena, 3rd edition, table 2-1, 21 °C: sodium dodecyl sulfate 5.6, 1.5 and 0.52 mmol/L beside 0.01, 0.10 and 0.40 mol/L.", Mark: reckoning.Memory}
	corrin     = reckoning.Source{Name: "Corrin and Harkins", Where: "log10 CMC = a - b·log10(CMC + salt), mol/L; a = -3.563 and b = 0.718 by least squares through the measured rows, which it meets within 15 %.", Mark: reckoning.Computed}
	weakSalt   = reckoning.Source{Name: "CMC beside counter-ions", Where: "J. Colloid Interface Sci. 200 (1998) 310, abstract: counter-ions up to about 340 mmol/L take the CMC from about 8 to about 0.7 mmol/L.", Mark: reckoning.Read}
	ironRecipe = reckoning.Source{Name: "published baths for iron stains", Where: "Heritage Science 11:56, 2023: ascorbic acid 10 g/L, disodium EDTA 10 g/L, biosurfactant 8 g/L. M. MacKenzie, TEXCONS 2005: 3 to 5 % ammonium citrate near neutral. S. Tse, TEXCONS 2004: 5 % dithionite, then 5 % EDTA or DTPA.", Mark: reckoning.Read}
	fastness   = reckoning.Source{Name: "wash fastness baths", Where: "ISO wash fastness tests as summarised at chemwifi.com: liquor 50:1, soap 5 g/L; at 60 °C with 2 g/L of soda.", Mark: reckoning.Read}
)
