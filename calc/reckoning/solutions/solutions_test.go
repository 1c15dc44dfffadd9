package solutions

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/sync/jsontext"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula.

var all = reckoning.List{Solution(), BathStrength(), Strengths(), Dilution(), SmallAmount(), Several(), Recipe(), Hydrate(), CMCSalt(), BufferRecipe(), BufferPH(), BufferMix(), Species()}

type form = reckoningtest.Form

func run(t interface {
	Fatal(...any)
	Fatalf(string, ...any)
}, name string, f form) reckoning.Result {
	r, problems := all.Run(name, f.JSON(t))
	if len(problems) > 0 {
		t.Fatalf("%s %v: %+v", name, f, problems)
	}
	return r
}

func value(t interface{ Fatalf(string, ...any) }, r reckoning.Result, name string) reckoning.Value {
	for _, v := range r.Values {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no figure %s in %+v", name, r.Values)
	return reckoning.Value{}
}

func TestEveryExampleIsAnsweredInFull(t *testing.T) {
	for _, r := range all {
		got, problems := all.Run(r.Name, jsontext.Value(r.Example))
		if len(problems) > 0 {
			t.Errorf("%s: %+v", r.Name, problems)
			continue
		}
		if len(got.Values) == 0 || len(got.Working) == 0 || len(got.Cautions) == 0 || len(r.Sources) == 0 {
			t.Errorf("%s: %+v", r.Name, got)
		}
		if got.Cautions[0].About != reckoning.People || !strings.Contains(got.Cautions[0].Say, "safety data sheet") {
			t.Errorf("%s begins its cautions with %+v", r.Name, got.Cautions[0])
		}
		named := map[string]bool{"": true}
		for _, s := range r.Sources {
			named[s.Name] = true
		}
		for _, w := range got.Working {
			if !named[w.Source] {
				t.Errorf("%s: a step leans on %q, which is not among its sources", r.Name, w.Source)
			}
		}
		for _, c := range got.Cautions {
			if !named[c.Source] {
				t.Errorf("%s: a caution leans on %q, which is not among its sources", r.Name, c.Source)
			}
		}
		for _, table := range got.Tables {
			for _, row := range table.Rows {
				if len(row) != len(table.Columns) {
					t.Errorf("%s, %s: row %q under %q", r.Name, table.Title, row, table.Columns)
				}
			}
		}
	}
}

func TestPublishedValues(t *testing.T) {
	rows := []struct {
		source string
		name   string
		form   form
		figure string
		want   float64
		within float64 // relative
	}{
		{"S-02-5 (d) 10 % w/w in a bath of 1.035 g/mL: g/L", "solution", form{"litres": 1, "target": "10 % w/w", "form": "powder", "active": 100, "bath_density": 1.035}, "strength", 103.5, 1e-9},
		{"1 % w/w in water of W-06 998.203 kg/m³ (b): g for 2 L (d)", "solution", form{"litres": 2, "target": "1 % w/w", "form": "powder", "active": 100}, "product_mass", 19.964, 1e-5},
		{"70 from 96 % v/v, any density (d): mL", "solution", form{"litres": 1, "target": "70 % v/v", "form": "liquid", "active": "96 % v/v", "pure_density": 0.789}, "product_volume", 729.17, 1e-5},
		{"the usual mistake, 700 mL (d)", "solution", form{"litres": 1, "target": "70 % v/v", "form": "liquid", "active": "96 % v/v", "pure_density": 0.789}, "mistaken_volume", 700, 1e-9},
		{"70 % v/v of a liquid of 0.789 g/mL (d): g/L", "solution", form{"litres": 1, "target": "70 % v/v", "form": "liquid", "active": "96 % v/v", "pure_density": 0.789}, "strength", 552.3, 1e-9},
		{"S-02-7 (d) 8 L of 0.010 mol/L trisodium citrate dihydrate", "solution", form{"litres": 8, "target": "0.010 mol/L", "form": "powder", "active": 100, "molar_mass": 294.098}, "product_mass", 23.528, 1e-4},

		{"S-03 (a) 8 mL/L of the paste: g/L", "bath_strength", form{"litres": 1, "amount": 8, "active": 28, "density": 1.04}, "strength", 2.3296, 0.005},
		{"S-03 (a) 8 mL/L: mmol/L", "bath_strength", form{"litres": 1, "amount": 8, "active": 28, "density": 1.04, "molar_mass": 288.378}, "molarity", 8.078, 0.005},
		{"S-03 (a) 12 mL/L: multiple", "bath_strength", form{"litres": 1, "amount": 12, "active": 28, "density": 1.04, "cmc": 2.34}, "multiple", 1.493, 0.005},
		{"S-03 (d) 334.3 g in 40 L: multiple", "bath_strength", form{"litres": 40, "amount": "334.3 g", "active": 28, "cmc": "8.114 mmol/L", "molar_mass": 288.38}, "multiple", 1, 0.005},
		{"practice sheet 8 (a): taken for pure, 3.3 times too much", "bath_strength", form{"litres": 1, "amount": "10 g", "active": 30}, "believed_strength", 10, 1e-9},
		{"Z-11 (d): 38 % w/w acid, mol/L", "strengths", form{"strength": "38 % w/w", "density": 1.18, "molar_mass": 36.46}, "mol_l", 12.30, 0.0005},
		{"S-02-2 (a, density b)", "strengths", form{"strength": "25 % w/w", "density": 1.12, "molar_mass": 36.46}, "mol_l", 7.68, 0.003},
		{"S-02-5 (d)", "strengths", form{"strength": "10 % w/w", "density": 1.035}, "g_l", 103.5, 0.001},
		{"S-02-5 (d) the other way", "strengths", form{"strength": "10.35 % w/v", "density": 1.035}, "w_w", 10, 1e-9},
		{"S-03 (d) 2.34 g/L ÷ 288.38", "strengths", form{"strength": "2.34 g/L", "molar_mass": 288.38}, "mol_l", 0.008114, 1e-4},
		{"70 % v/v of 0.789 g/mL (d)", "strengths", form{"strength": "70 % v/v", "pure_density": 0.789}, "g_l", 552.3, 1e-9},

		{"S-02-1 (a) Molarity Worksheet Key: mL stock", "dilution", form{"amount": "500 mL", "stock": "12 mol/L", "wanted": "2 mol/L"}, "stock_volume", 83.33, 1e-4},
		{"S-02-1 (a) the same: L water", "dilution", form{"amount": "500 mL", "stock": "12 mol/L", "wanted": "2 mol/L"}, "water_volume", 0.41667, 1e-4},
		{"S-02-2 (a, density b) laboratorynotes.com", "dilution", form{"amount": 1, "stock": "25 % w/w", "wanted": "1 mol/L", "density": 1.12, "molar_mass": 36.46}, "stock_molarity", 7.68, 0.003},
		{"S-02-3 (a) assignmentexpert.com 100038: g water", "dilution", form{"by": "mass", "know": "stock", "amount": "100 mL", "density": 1.18, "stock": "36 % w/w", "wanted": "10 % w/w"}, "water_mass", 306.8, 0.0004},
		{"S-02-3 the same, weighed (d)", "dilution", form{"by": "mass", "know": "total", "amount": "424.8 g", "stock": "36 % w/w", "wanted": "10 % w/w"}, "stock_mass", 118, 1e-9},
		{"S-02-4 (d) mL of 1 % w/v", "dilution", form{"amount": 5, "stock": 1, "wanted": "0.1 % w/v"}, "stock_volume", 500, 1e-12},
		{"S-02-4 (d) L water", "dilution", form{"amount": 5, "stock": "10 g/L", "wanted": "0,1"}, "water_volume", 4.5, 1e-12},
		{"S-02-5 (d) 10 % w/w at 1.035 is 10.35 % w/v: g/L", "dilution", form{"amount": 1, "stock": "10 % w/w", "wanted": "1 % w/v", "density": 1.035}, "stock_gl", 103.5, 1e-9},
		{"Z-11 (d): 38 % w/w at 1.18 is 12.30 mol/L and not 10.47", "dilution", form{"amount": 1, "stock": "38 % w/w", "wanted": "1.23 mol/L", "density": 1.18, "molar_mass": 36.46}, "stock_molarity", 12.30, 0.0005},
		{"Z-11 (d): a litre of a tenth of that takes 100 mL", "dilution", form{"amount": 1, "stock": "38 % w/w", "wanted": "1.23 mol/L", "density": 1.18, "molar_mass": 36.46}, "stock_volume", 100, 0.001},
		{"70 % v/v from 96 % v/v, a litre (d): mL", "dilution", form{"amount": 1, "stock": "96 % v/v", "wanted": "70 % v/v"}, "stock_volume", 729.17, 1e-5},
		{"C1V1 = C2V2 from the stock at hand (d): L", "dilution", form{"know": "stock", "amount": "50 mL", "stock": 10, "wanted": 0.5}, "total_volume", 1, 1e-12},

		{"20 mg weighed to 10 mg is off by half (d)", "small_amount", form{"litres": 2, "target": "10 mg/L", "balance": 0.01}, "reading", 50, 1e-9},
		{"5 % of 10 mg (d)", "small_amount", form{"litres": 2, "target": "10 mg/L", "balance": "10 mg"}, "least_mass", 0.2, 1e-9},
		{"X-04 (a) bath of Heritage Science 11:56, 5 L: g in all (d)", "several", form{"litres": 5, "ingredients": []form{
			{"name": "ascorbic acid", "target": 10}, {"name": "disodium EDTA", "target": 10}, {"name": "biosurfactant", "target": 8}}}, "active_mass", 140, 1e-12},
		{"S-03 (a) 40 L at 2.34 g/L of a 28 % paste: g", "several", form{"litres": 40, "ingredients": []form{{"name": "paste", "form": "paste", "target": 2.34, "active": 28, "density": 1.04}}}, "products", 334.3, 0.005},
		{"S-02-7 (d) 8 L of 0.010 mol/L trisodium citrate dihydrate: g", "several", form{"litres": 8, "ingredients": []form{{"name": "trisodium citrate", "target": "10 mmol/L", "molar_mass": 294.098}}}, "products", 23.528, 1e-4},
		{"X-12 (a) soap 5 g/L and soda 2 g/L, 50:1 on 100 g (d): g", "several", form{"litres": 5, "ingredients": []form{{"name": "soap", "target": 5}, {"name": "soda", "target": 2}}}, "products", 35, 1e-12},
		{"twelve times a litre (d)", "recipe", form{"made": 1, "litres": 12, "ingredients": []form{{"name": "citrate", "amount": "5 g"}, {"name": "stock", "amount": "20 mL"}}}, "weighed", 60, 1e-12},
		{"the same, measured (d): L", "recipe", form{"made": 1, "litres": 12, "ingredients": []form{{"name": "citrate", "amount": "5 g"}, {"name": "stock", "amount": "20 mL"}}}, "poured", 0.24, 1e-12},

		{"S-02-8 (d) 10 g citric acid monohydrate by anhydrous", "hydrate", form{"mass": 10, "asked_waters": 1, "have_waters": 0}, "take", 9.143, 0.0003},
		{"S-02-8 the other way (d)", "hydrate", form{"mass": "9.143 g", "asked_waters": 0, "have_waters": 1}, "take", 10, 0.0003},
		{"S-01 (d) by formula: citrate dihydrate", "hydrate", form{"mass": 1, "substance": "formula", "formula": "C6H5Na3O7", "asked_waters": 2, "have_waters": 0}, "asked", 294.098, 1e-4},
		{"S-01 (a) by printed molar masses 210.14 and 192.12", "hydrate", form{"mass": 10, "substance": "masses", "asked_molar_mass": 210.14, "have_molar_mass": 192.12}, "take", 9.1425, 1e-4},

		{"S-04 (b) Rosen, 0.01 mol/L", "cmc_salt", form{"salt_strength": 10}, "cmc", 5.6, 0.15},
		{"S-04 (b) Rosen, 0.10 mol/L", "cmc_salt", form{"salt_strength": "100 mmol/L"}, "cmc", 1.5, 0.15},
		{"S-04 (b) Rosen, 0.40 mol/L", "cmc_salt", form{"salt_strength": "0,4 mol/L"}, "cmc", 0.52, 0.15},
		{"S-04 (d) law at 0.10 mol/L", "cmc_salt", form{"salt_strength": "100 mmol/L"}, "cmc", 1.4, 0.03},
		{"S-03 (a) 2.34 g/L in CMC of pure water", "cmc_salt", form{"salt_strength": 0, "strength": 2.34}, "multiple_pure", 0.99, 0.02},

		{"P-04 (a) Gomori 5.2, 100 mL: acid", "buffer_recipe", form{"ph": 5.2, "litres": "100 mL"}, "acid_stock", 18, 1e-9},
		{"P-04 (a) Gomori 5.2, 100 mL: citrate", "buffer_recipe", form{"ph": 5.2, "litres": "100 mL"}, "salt_stock", 32, 1e-9},
		{"P-04 (a) Gomori 5.2, 100 mL: water", "buffer_recipe", form{"ph": 5.2, "litres": "100 mL"}, "water", 50, 1e-9},
		{"P-04 (a) with S-01 (a) 210.14: 18 mL of 0.1 mol/L, g", "buffer_recipe", form{"ph": 5.2, "litres": "100 mL"}, "acid_mass", 0.37825, 1e-3},
		{"P-04 (a) with S-01 (a) 294.10: 32 mL of 0.1 mol/L, g", "buffer_recipe", form{"ph": 5.2, "litres": "100 mL"}, "salt_mass", 0.94112, 1e-3},
		{"P-04 (a) McIlvaine 7.0, a litre: acid", "buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1}, "acid_stock", 176.5, 1e-9},
		{"P-04 (a) McIlvaine 7.0: phosphate", "buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1}, "salt_stock", 823.5, 1e-9},
		{"P-04 (a) half-way from 4.0 to 4.4 (d)", "buffer_recipe", form{"ph": 4.2, "litres": "100 mL"}, "acid_stock", 30.5, 1e-9},

		{"P-02-1 (a) ontola.com, with pK 7.21", "buffer_ph", form{"pair": "own", "pka": 7.21, "base": 200, "acid": 200}, "ph", 7.21, 1e-9},
		{"P-02-2 (a) the same after 5 mmol NaOH", "buffer_ph", form{"pair": "own", "pka": 7.21, "base": 200, "acid": 200, "strong_base": 5}, "ph_after", 7.2317, 0.0007},
		{"P-02-3 (d) citrate pair 2, 3:1", "buffer_ph", form{"pair": "citrate2", "base": 3, "acid": 1}, "ph", 5.236, 0.0004},
		{"P-02-4 (d) phosphate 7.00", "buffer_ph", form{"ask": "ratio", "pair": "phosphate2", "ph": 7, "total": 100}, "ratio", 0.6223, 0.0016},
		{"P-02-5 (a) carbonate", "buffer_ph", form{"pair": "carbonate", "base": 1, "acid": 1}, "ph", 10.329, 0.0002},
		{"J-04 (a) 20 mmol/L phosphate at pH 6.9, a litre (d): mmol base", "buffer_ph", form{"ask": "ratio", "pair": "phosphate2", "ph": 6.9, "total": 20}, "base_amount", 6.616, 0.001},

		{"P-04 (d) Gomori row 4.0 by charge balance", "buffer_mix", form{"litres": 1, "citric_acid": 33, "trisodium_citrate": 17}, "ph", 3.98, 0.003},
		{"P-04 (d) Gomori row 3.0", "buffer_mix", form{"litres": 1, "citric_acid": 46.5, "trisodium_citrate": 3.5}, "ph", 2.65, 0.004},
		{"P-04 (d) McIlvaine row 5.0", "buffer_mix", form{"litres": 1, "citric_acid": 48.5, "hydrogen_phosphate": 103}, "ph", 5.70, 0.004},
		{"P-04 (d) McIlvaine row 7.0", "buffer_mix", form{"litres": 1, "citric_acid": 17.65, "hydrogen_phosphate": 164.7}, "ph", 7.55, 0.003},

		{"P-03 (a statement, d answer) HA²⁻ at 5.2, %", "species", form{"ph": 5.2}, "f2", 69.966, 0.005},
		{"P-03 (d) at 5.2 and 20 mmol/L", "species", form{"ph": 5.2, "total": 20}, "c2", 13.993, 0.005},
		{"Z-09 (d): with pK3 6.397 the last two are alike at 6.4, not at 5.6", "species", form{"ph": 6.397}, "f3", 49.43, 0.001},
		{"P-01 (a) phosphate 1:1 at its pK", "species", form{"acid": "phosphoric", "ph": 7.206}, "f1", 50, 1e-4},
	}
	for _, r := range rows {
		if got := value(t, run(t, r.name, r.form), r.figure); !reckoningtest.Near(got.Value, r.want, r.within) {
			t.Errorf("%s: %s = %v %s, want %v", r.source, r.figure, got.Value, got.Unit, r.want)
		}
	}
}

// An ideal pH is never shown without its band.
func TestIdealAnswersCarryTheirBand(t *testing.T) {
	rows := []struct {
		source string
		name   string
		form   form
		figure string
		band   float64
	}{
		{"P-04: ±0.4 for citrate", "buffer_ph", form{"pair": "citrate2", "base": 3, "acid": 1}, "ph", 0.4},
		{"P-04: ±0.4 for citrate", "buffer_mix", form{"litres": 1, "citric_acid": 33, "trisodium_citrate": 17}, "ph", 0.4},
		{"citrate stronger than what was compared", "buffer_mix", form{"litres": 1, "citric_acid": 66, "trisodium_citrate": 34}, "ph", 0.75},
		{"P-04: ±0.7 for McIlvaine, 0.74 at its worst row", "buffer_mix", form{"litres": 1, "citric_acid": 33, "hydrogen_phosphate": 17}, "ph", 0.75},
	}
	for _, r := range rows {
		v := value(t, run(t, r.name, r.form), r.figure)
		if v.Low == nil || !reckoningtest.Near(v.Value-*v.Low, r.band, 1e-9) || !reckoningtest.Near(*v.High-v.Value, r.band, 1e-9) {
			t.Errorf("%s: %+v", r.source, v)
		}
	}
	for _, name := range []string{"f0", "f1", "f2", "f3"} {
		if v := value(t, run(t, "species", form{"ph": 5.2}), name); v.Low == nil || *v.Low >= *v.High {
			t.Errorf("%s has no range: %+v", name, v)
		}
	}
	v := value(t, run(t, "cmc_salt", form{"salt_strength": 100}), "cmc")
	if v.Low == nil || *v.Low > 1.5 || *v.High < 1.5 {
		t.Errorf("S-04 (b): the band of %+v does not hold 1.5 mmol/L", v)
	}
}

func TestScalingDoubles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		litres := rapid.Float64Range(0.1, 500).Draw(t, "litres")
		ph := float64(rapid.IntRange(30, 58).Draw(t, "tenths")) / 10
		rows := []struct {
			name, by, figure string
			form             form
		}{
			{"dilution", "amount", "stock_volume", form{"stock": 10, "wanted": 1}},
			{"several", "litres", "products", form{"ingredients": []form{{"name": "a", "target": 3, "active": 60}, {"name": "b", "target": 2}}}},
			{"recipe", "litres", "weighed", form{"made": 3, "ingredients": []form{{"name": "a", "amount": 7}}}},
			{"hydrate", "mass", "take", form{"asked_waters": 0, "have_waters": 1}},
			{"buffer_recipe", "litres", "acid_mass", form{"ph": ph}},
		}
		for _, r := range rows {
			r.form[r.by] = litres
			one := value(t, run(t, r.name, r.form), r.figure).Value
			r.form[r.by] = 2 * litres
			if two := value(t, run(t, r.name, r.form), r.figure).Value; !reckoningtest.Near(two, 2*one, 1e-12) {
				t.Fatalf("%s: %v for %v, %v for twice as much", r.name, one, litres, two)
			}
		}
	})
}

// What the one says to take makes the bath that the other was asked for.
func TestTheBathIsAsStrongAsItWasMade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		litres := rapid.Float64Range(0.1, 1000).Draw(t, "litres")
		target := rapid.Float64Range(0.1, 50).Draw(t, "g/L")
		active := rapid.Float64Range(10, 99).Draw(t, "active")
		f := form{"litres": litres, "target": target, "active": active, "density": 1.04}
		made := run(t, "solution", f)
		for _, by := range []string{"product_mass", "product_volume"} {
			v := value(t, made, by)
			bath := form{"litres": litres, "amount": reckoningtest.In(v.Value, v.Unit), "active": active, "density": 1.04}
			if back := value(t, run(t, "bath_strength", bath), "strength").Value; !reckoningtest.Near(back, target, 1e-9) {
				t.Fatalf("%v of %v: %v g/L, want %v", by, v, back, target)
			}
		}
	})
}

func TestDilutionUndoesConcentrationThroughTheForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := rapid.Float64Range(0.1, 99).Draw(t, "stock")
		wanted := stock * rapid.Float64Range(0.001, 1).Draw(t, "of it")
		for _, by := range []string{"volume", "mass"} {
			symbol, amount, stockIs, totalIs := "% w/v", "L", "stock_volume", "total_volume"
			if by == "mass" {
				symbol, amount, stockIs, totalIs = "% w/w", "g", "stock_mass", "total_mass"
			}
			in := func(x float64, u string) form { return form{"value": x, "unit": u} }
			f := form{"by": by, "know": "total", "amount": in(500, amount), "stock": in(stock, symbol), "wanted": in(wanted, symbol)}
			taken := value(t, run(t, "dilution", f), stockIs)
			back := value(t, run(t, "dilution", form{"by": by, "know": "stock", "amount": in(taken.Value, taken.Unit), "stock": f["stock"], "wanted": f["wanted"]}), totalIs)
			if !reckoningtest.Near(back.Value, 500, 1e-9) {
				t.Fatalf("by %s: 500 come back as %v, by %v", by, back, taken)
			}
		}
	})
}

// Ounces and pounds are taken where a mixture or a product is weighed.
func TestWeighedInPounds(t *testing.T) {
	r := reckoningtest.Run(t, Dilution(), form{"by": "mass", "know": "total", "amount": "2 lb", "stock": "10 % w/w", "wanted": "1 % w/w", "step": reckoningtest.In("0.1", "oz")})
	if v := reckoningtest.Value(t, r, "stock_mass"); !reckoningtest.Near(v.Value, 90.718474, 1e-9) || !strings.Contains(v.Shown, "3.2 oz") {
		t.Errorf("%+v", v)
	}
	r = reckoningtest.Run(t, BathStrength(), form{"litres": "1 US gal", "amount": reckoningtest.In("1", "oz"), "active": "28 % w/w"})
	if v := reckoningtest.Value(t, r, "active_mass"); !reckoningtest.Near(v.Value, 0.28*28.349523125, 1e-9) {
		t.Errorf("%+v", v)
	}
}

// A pH that harms one fibre or another is told of, a mild one is not.
func TestAlkaliAndAcidAreToldOf(t *testing.T) {
	for pH, want := range map[string]bool{"4": true, "6.5": false, "10": true} {
		said := false
		for _, c := range reckoningtest.Run(t, BufferPH(), form{"ask": "ratio", "pair": "own", "pka": pH, "ph": pH, "total": "40 mmol"}).Cautions {
			said = said || strings.Contains(c.Say, "Alkali weakens wool and silk")
		}
		if said != want {
			t.Errorf("pH %s: %v", pH, said)
		}
	}
}
