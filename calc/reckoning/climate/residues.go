package climate

import "sinkside/calc/reckoning"

var residues = reckoning.Source{Name: "old residues", Where: "Old collections may hold arsenic, mercury, lead and organochlorines: abstract of a study at the German Historical Museum. Steaming or shaping a felt hat can release mercury vapour: a costume museum's handbook.", Mark: reckoning.Read}

// oldResidues is the caution where damp, warmth or handling may set old
// pesticides free. No limit of exposure is given: those are the country's.
func oldResidues(out *reckoning.Result) {
	out.People("An old textile may hold arsenic, mercury, lead or other old pesticides, and damp or warmth can drive mercury vapour off. Gloves, washed hands, nothing to eat near it; where nobody knows, have it tested by somebody qualified first. Local rules and limits hold.", residues)
}
