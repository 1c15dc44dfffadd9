package solutions

import (
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning/reckoningtest"
)

// A bath of one ingredient is the bath that “A solution of the right strength” makes,
// in every way of giving a strength and a content.
func TestOneIngredientIsTheSameAsASolution(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		litres := rapid.Float64Range(0.1, 500).Draw(t, "litres")
		x := rapid.Float64Range(0.1, 1.9).Draw(t, "strength")
		row := rapid.SampledFrom([]form{
			{"form": "paste", "target": reckoningtest.In(x, "× CMC"), "active": "28 % w/w", "density": 1.04, "cmc": "2.34 g/L"},
			{"form": "paste", "target": reckoningtest.In(x, "× CMC"), "active": "28 % w/w", "cmc": "8.2 mmol/L", "molar_mass": 288.378},
			{"form": "liquid", "target": reckoningtest.In(x, "% v/v"), "active": "96 % v/v", "pure_density": 0.789},
			{"form": "liquid", "target": reckoningtest.In(x, "% v/v"), "active": "90 % w/w", "density": 0.82, "pure_density": 0.789},
			{"form": "powder", "target": reckoningtest.In(x, "% w/w"), "active": "99 % w/w"},
			{"form": "liquid", "target": reckoningtest.In(x, "mmol/L"), "active": "2 mol/L", "molar_mass": 60.05},
			{"form": "liquid", "target": reckoningtest.In(x, "% w/v"), "active": "30 % w/v"},
		}).Draw(t, "row")
		alone := run(t, "solution", row.With(form{"litres": litres}))
		together := run(t, "several", form{"litres": litres, "ingredients": []form{row.With(form{"name": "it"})}})
		same := map[string]string{"active_mass": "active_mass", "strength": "strength"}
		if _, ok := alone.Value("product_mass"); ok {
			same["product_mass"] = "products"
		}
		for one, all := range same {
			if a, b := value(t, alone, one).Value, value(t, together, all).Value; !reckoningtest.Near(b, a, 1e-12) {
				t.Fatalf("%v: %s %v, together %v", row, one, a, b)
			}
		}
	})
}

// S-03 (a): 40 L at 1 × CMC of 2.34 g/L take 334.3 g of a 28 % w/w paste (d); and 2 %
// v/v of a pure liquid in 5 L are 100 mL.
func TestMultiplesAndSharesByVolumeBesideEachOther(t *testing.T) {
	f := form{"litres": 40, "ingredients": []form{
		{"name": "paste", "form": "paste", "target": "1 × CMC", "cmc": 2.34, "active": 28, "density": 1.04},
		{"name": "alcohol", "form": "liquid", "target": "2 % v/v", "active": "100 % v/v", "pure_density": 0.789},
	}}
	r := run(t, "several", f)
	want := [][]string{{"paste", "2.34 g/L, 1 × CMC", "93.6 g", "334 g", "321 mL", "93.6 g"}, {"alcohol", "15.78 g/L", "631 g", "", "800 mL", ""}}
	for i, row := range r.Tables[0].Rows {
		for k, cell := range row {
			if cell != want[i][k] {
				t.Errorf("row %d: %q, want %q", i+1, row, want[i])
				break
			}
		}
	}
	said := map[string]int{}
	for _, c := range r.Cautions {
		said[c.Say]++
	}
	for say, n := range said {
		if n > 1 {
			t.Errorf("said %d times: %s", n, say)
		}
	}
}

// What two fields do not allow together names the range that they do allow, in place
// of the field's own.
func TestContradictionsNameWhatIsAllowedHere(t *testing.T) {
	rows := []struct {
		name           string
		form           form
		field, allowed string
	}{
		{"buffer_ph", form{"pair": "phosphate2", "base": "1 mol", "acid": 0.5}, "base", "0.0005 to 500 mmol"},
		{"buffer_ph", form{"pair": "phosphate2", "base": 10, "acid": 10, "strong_base": 15, "strong_acid": 2}, "strong_base", "below 12 mmol"},
		{"buffer_ph", form{"pair": "phosphate2", "base": 10, "acid": 8, "strong_acid": 15}, "strong_acid", "below 10 mmol"},
		{"buffer_mix", form{"litres": 1, "citric_acid": 400}, "litres", "at least 2 L"},
		{"buffer_mix", form{"litres": 1, "citric_acid": 5, "strong_base": 5000}, "strong_base", "below 1015 mmol"},
		{"buffer_mix", form{"litres": 1, "citric_acid": 5, "strong_acid": 5000}, "strong_acid", "below 1000 mmol"},
		{"buffer_recipe", form{"ph": 5, "litres": 1, "salt_form": "7"}, "salt_form", "dihydrate or anhydrous"},
		{"dilution", form{"amount": 1, "stock": 1, "wanted": 2}, "wanted", "up to 10 g/L"},
		{"dilution", form{"amount": 1, "stock": "38 % w/w", "density": 1.18, "molar_mass": 36.46, "wanted": "13 mol/L"}, "wanted", "up to 12.3 mol/L"},
		{"dilution", form{"amount": "1 kg", "stock": 2, "wanted": 1}, "amount", "0.0001 to 5000 L"},
		{"dilution", form{"by": "mass", "amount": "1 kg", "stock": "38 % w/v", "wanted": "1 % w/w"}, "stock", "0.0001 to 100 % w/w"},
		{"dilution", form{"amount": 1, "stock": 2, "wanted": 1, "step": "0.1 g"}, "step", "0.001 to 1000 mL"},
		{"bath_strength", form{"litres": "1 US gal", "amount": "8 L", "active": 28, "density": 1.04}, "amount", "up to 3.79 L (1 US gal)"},
		{"bath_strength", form{"litres": 1, "amount": "2 kg", "active": 28}, "amount", "up to 1 kg"},
		{"bath_strength", form{"litres": 1, "amount": 8, "active": "150 % w/v", "density": 1.04}, "active", "up to 1040 g/L"},
		{"strengths", form{"strength": "150 % w/v", "density": 1.1}, "strength", "up to 1100 g/L"},
		{"small_amount", form{"litres": 1, "target": "300 g/L", "active": 20, "balance": 0.1}, "target", "up to 200 g/L"},
		{"cmc_salt", form{"salt": "trisodium_citrate", "salt_strength": 130, "salt_strength_pm": 10}, "salt_strength", "up to 133.3 mmol/L"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, r.form.JSON(t))
		if len(problems) != 1 || problems[0].Field != r.field || problems[0].Allowed != r.allowed {
			t.Errorf("%s %v: %+v, want %s within %q", r.name, r.form, problems, r.field, r.allowed)
		}
	}
}
