package gels

import (
	"strconv"

	"sinkside/calc/gel"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

func explainGel(s *reckoning.Sheet, out *reckoning.Result) {
	workGel(s, out)
	published(s, out)
	gelCautions(s, out)
}

func workGel(s *reckoning.Sheet, out *reckoning.Result) {
	whole, b := gelOf(s), batchOf(s)
	n := int(s.Base("sheets"))
	times := ""
	if n > 1 {
		times = strconv.Itoa(n) + " × "
	}
	thick := func() string { return reckoning.InUnit("mm", s.Base("thickness")) }
	switch s.Choice("shape") {
	case shapeSheet:
		out.Work("Gel in the sheet.", "volume = length × width × thickness",
			times+reckoning.InUnit("cm", s.Base("length"))+" × "+reckoning.InUnit("cm", s.Base("width"))+" × "+thick()+" = "+reckoning.Volume(whole), volumes.Name)
	case shapeArea:
		out.Work("Gel on the area.", "volume = area × thickness", times+reckoning.InUnit("cm²", s.Base("area"))+" × "+thick()+" = "+reckoning.Volume(whole), volumes.Name)
	default:
		out.Work("Gel.", "", times+reckoning.Volume(unit.Volume(s.Base("volume")))+" = "+reckoning.Volume(whole), "")
	}
	out.Work("With what is spare.", "take = gel × (1 + spare)", reckoning.Volume(whole)+" × (1 + "+reckoning.InUnit("%", s.Base("spare"))+") = "+reckoning.Volume(b.Volume), reckoning.CommonPractice.Name)
	out.Work("Gelling agent.", "agent = volume × strength", reckoning.Volume(b.Volume)+" × "+reckoning.InUnit("% w/v", s.Base("strength"))+" = "+reckoning.Weight(b.Agent), perHundred.Name)
	if b.Additive > 0 {
		out.Work("What the water also holds.", "additive = volume × strength", reckoning.Volume(b.Volume)+" × "+reckoning.Grams(unit.Concentration(s.Base("additive_strength")))+" = "+reckoning.Weight(b.Additive), perHundred.Name)
	}
	out.Work("Weigh the water before and after heating and make up what boiled away, or the gel comes out stronger.", "", "", reckoning.CommonPractice.Name)
}

// published sets what was read beside the strength asked for.
func published(s *reckoning.Sheet, out *reckoning.Result) {
	ranges := gel.RangesOf(s.Choice("agent"))
	c := unit.Concentration(s.Base("strength"))
	asked := reckoning.InUnit("% w/v", c.GramsPerLitre())
	if len(ranges) == 0 {
		out.Verdict("published", "Beside what was published", "No published strength is known here for this agent. "+asked+" is your own choice: try it first.")
		return
	}
	table := out.Table("Published strengths", "Strength", "Thickness", "What for", "Where")
	inside := false
	for _, p := range ranges {
		inside = inside || p.Holds(c)
		thick := ""
		if p.Thick > 0 {
			thick = reckoning.InUnit("mm", p.Thick.Millimetres())
		}
		strength := unit.Text(p.Low.GramsPerLitre()/10, 3) + " to " + reckoning.InUnit("% w/v", p.High.GramsPerLitre())
		if p.Low == p.High {
			strength = reckoning.InUnit("% w/v", p.High.GramsPerLitre())
		}
		table.Row(strength, thick, p.Purpose, p.Where)
	}
	say := asked + " lies outside of every published strength that is known here."
	if inside {
		say = asked + " lies among the published strengths. That others used it says nothing about this object."
	}
	out.Verdict("published", "Beside what was published", say)
}

func gelCautions(s *reckoning.Sheet, out *reckoning.Result) {
	out.People("Read the safety data sheets of the agent and of all that goes into the water, and follow local rules.", reckoning.CommonPractice)
	out.People("Raise no dust when you weigh the powder.", reckoning.CommonPractice)
	hot := s.Choice("agent") != gel.CelluloseEt && s.Choice("agent") != gel.OtherAgent
	if hot {
		out.People("The hot gel sticks and scalds, and boils up without warning in a microwave oven: gloves and eye protection on, half-full vessels, stir between short bursts.", reckoning.CommonPractice)
	}
	additiveCautions(s, out, hot)
	agentNotes(s, out)
	out.Object("Wet gel gives off water: test on each material and colour first, with this gel at this strength and for this time, and look for tide lines and residues.", reckoning.CommonPractice)
	if s.Choice("shape") != shapeVolume {
		load, _ := out.Value("load")
		out.Object("The layer lies on the object with about "+unit.Text(load, 3)+" kg on each square metre, before any weight on top.", volumes)
	}
}

func additiveCautions(s *reckoning.Sheet, out *reckoning.Result, hot bool) {
	switch s.Choice("additive") {
	case addEnzyme:
		out.People("Enzyme powder is a sensitiser when it is breathed in: no dust, a mask where the data sheet asks for one, and wet wiping instead of sweeping.", reckoning.CommonPractice)
		out.Object("Conservation work with enzymes normally stays at or below 37 to 40 °C. Heat ends an enzyme: never boil it with the gel.", reckoning.CommonPractice)
		out.Object("Detergents, chelators, oxidants, iron and copper hold an amylase back. Its published buffer: 20 mmol/L sodium phosphate with 6.7 mmol/L sodium chloride at pH 6.9.", enzymeFacts)
	case addSolvent:
		out.People("No solvent near heat, flame or a microwave oven. Ventilation, gloves and disposal by the safety data sheet and local rules.", reckoning.CommonPractice)
	case addAgent:
		out.Object("A chelator takes metal from mordants, iron-tannate black and metal thread as well as from a stain. Chelator, detergent and salt stay behind and are to be cleared with water, which the object must bear.", reckoning.CommonPractice)
		if hot {
			out.Object("Salts, acids and alkalis change how a gel sets. Agar is said to gel well between pH 4.3 and 10.", agarTexture)
		}
	}
}

// agentNotes says what was read about setting and melting.
func agentNotes(s *reckoning.Sheet, out *reckoning.Result) {
	switch s.Choice("agent") {
	case gel.Agar:
		out.Object("Agar pours at 85 to 95 °C and sets at 32 to 45 °C: lay it on the object only once it is at a temperature that the object bears.", agarTexture)
	case gel.LowGellan:
		out.Object("Low acyl gellan needs calcium to set, 0.4 g/L calcium acetate in the published gels, and is heated until it is clear. The more absorbent the sheet below, the higher the published strength.", gellanFacts)
	case gel.HighGellan:
		out.Object("High acyl gellan gels at about 70 °C; published with 0.4 g/L calcium acetate.", gellanFacts)
	}
}
