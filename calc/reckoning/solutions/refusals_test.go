package solutions

import (
	"math"
	"strings"
	"testing"

	"sinkside/sync/jsontext"
)

func TestWhatIsRefused(t *testing.T) {
	one := func(row form) []form { return []form{row} }
	rows := []struct {
		why, name string
		form      form
		field     string
	}{
		{"w/w of a bath that is not thin", "solution", form{"litres": 1, "target": "5 % w/w", "form": "powder", "active": 100}, "bath_density"},
		{"per cent of what?", "solution", form{"litres": 1, "target": "2 %", "form": "powder", "active": 100}, "target"},
		{"millilitres of a powder", "solution", form{"litres": 1, "target": "2 % v/v", "form": "powder", "active": 100}, "target"},
		{"v/v without the pure density", "solution", form{"litres": 1, "target": "2 % v/v", "form": "liquid", "active": "96 % v/v"}, "pure_density"},

		{"mL of a w/w paste", "bath_strength", form{"litres": 1, "amount": 8, "active": 28}, "density"},
		{"more product than bath", "bath_strength", form{"litres": 1, "amount": "1.5 L", "active": 28, "density": 1.04}, "amount"},
		{"denser than itself", "bath_strength", form{"litres": 1, "amount": 8, "active": "150 % w/v", "density": 1.04}, "active"},
		{"w/w to anything", "strengths", form{"strength": "28 % w/w"}, "density"},
		{"mol/L to anything", "strengths", form{"strength": "1 mol/L"}, "molar_mass"},
		{"v/v to anything", "strengths", form{"strength": "70 % v/v"}, "pure_density"},
		{"more than it weighs", "strengths", form{"strength": "150 % w/v", "density": 1.1}, "strength"},
		{"more than pure", "strengths", form{"strength": "100 % w/v", "pure_density": 0.789}, "strength"},
		{"a mole too much", "strengths", form{"strength": "40 mol/L", "molar_mass": 300}, "strength"},

		{"weaker to stronger", "dilution", form{"amount": 1, "stock": 1, "wanted": 2}, "wanted"},
		{"w/w measured without density", "dilution", form{"amount": 1, "stock": "38 % w/w", "wanted": "1 % w/v"}, "density"},
		{"per cent of what?", "dilution", form{"amount": 1, "stock": "38 % v/v", "wanted": "1 % w/v"}, "wanted"},
		{"mol/L without molar mass", "dilution", form{"amount": 1, "stock": "3 mol/L", "wanted": "1 % w/v"}, "molar_mass"},
		{"w/w in a made-up volume", "dilution", form{"amount": 1, "stock": "38 % w/w", "wanted": "1 % w/w", "density": 1.1}, "wanted"},
		{"weighed by volume", "dilution", form{"by": "mass", "amount": "1 L", "stock": "38 % w/w", "wanted": "1 % w/w"}, "amount"},
		{"weighed with w/v", "dilution", form{"by": "mass", "amount": "1 kg", "stock": "38 % w/v", "wanted": "1 % w/w"}, "stock"},
		{"measured in grams", "dilution", form{"amount": "1 kg", "stock": 2, "wanted": 1}, "amount"},
		{"a balance for a volume", "dilution", form{"amount": 1, "stock": 2, "wanted": 1, "step": "0.1 g"}, "step"},
		{"nothing", "dilution", form{"amount": 1, "stock": 0, "wanted": 1}, "stock"},

		{"no ingredients", "several", form{"litres": 1, "ingredients": []form{}}, "ingredients"},
		{"a paste too weak", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "form": "paste", "target": 300, "active": 28, "density": 1.04})}, "ingredients.1.target"},
		{"more than fits", "several", form{"litres": 1, "ingredients": []form{{"name": "a", "target": 450}, {"name": "b", "target": 450}, {"name": "c", "target": 450}}}, "ingredients"},
		{"mmol/L without molar mass", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": "3 mmol/L"})}, "ingredients.1.molar_mass"},
		{"a powder by volume", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": 3, "active": "3 g/L"})}, "ingredients.1.active"},
		{"a multiple of no CMC", "several", form{"litres": 1, "ingredients": []form{{"name": "a", "target": 3}, {"name": "b", "form": "paste", "target": "3 × CMC", "active": 28}}}, "ingredients.2.cmc"},
		{"per cent of what?", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": "3 %"})}, "ingredients.1.target"},
		{"millilitres of a powder", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": "3 % v/v"})}, "ingredients.1.target"},
		{"v/v without the pure density", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "form": "liquid", "target": "3 % v/v", "active": "96 % v/v"})}, "ingredients.1.pure_density"},
		{"w/w of a bath that is not thin", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": "5 % w/w"})}, "bath_density"},
		{"too strong by way of the CMC", "several", form{"litres": 1, "ingredients": one(form{"name": "a", "target": "100 × CMC", "cmc": 20})}, "ingredients.1.target"},
		{"a row without a name", "several", form{"litres": 1, "ingredients": one(form{"target": 3})}, "ingredients.1.name"},
		{"more liquid than recipe", "recipe", form{"made": 1, "litres": 2, "ingredients": one(form{"name": "a", "amount": "2 L"})}, "made"},

		{"no formula", "hydrate", form{"mass": 1, "substance": "formula", "formula": "soda", "asked_waters": 0, "have_waters": 10}, "formula"},
		{"no element", "hydrate", form{"mass": 1, "substance": "formula", "formula": "NaCl2X", "asked_waters": 0, "have_waters": 10}, "formula"},
		{"forty waters", "hydrate", form{"mass": 1, "asked_waters": 0, "have_waters": 40}, "have_waters"},

		{"more salt than was measured", "cmc_salt", form{"salt": "trisodium_citrate", "salt_strength": 200}, "salt_strength"},
		{"more salt than was measured", "cmc_salt", form{"salt_strength": 401}, "salt_strength"},

		{"Z-12: Gomori has no pH 6.0", "buffer_recipe", form{"ph": 6, "litres": 1}, "ph"},
		{"above McIlvaine", "buffer_recipe", form{"table": "citrate_phosphate", "ph": 7.5, "litres": 1}, "ph"},
		{"below Gomori", "buffer_recipe", form{"ph": 2.9, "litres": 1}, "ph"},
		{"citrate with seven waters", "buffer_recipe", form{"ph": 5, "litres": 1, "salt_form": "7"}, "salt_form"},

		{"all acid spent", "buffer_ph", form{"pair": "phosphate2", "base": 10, "acid": 10, "strong_base": 10}, "strong_base"},
		{"all base spent", "buffer_ph", form{"pair": "phosphate2", "base": 10, "acid": 10, "strong_acid": 12}, "strong_acid"},
		{"far from the pKa", "buffer_ph", form{"ask": "ratio", "pair": "phosphate2", "ph": 3, "total": 10}, "ph"},
		{"no buffer", "buffer_ph", form{"pair": "phosphate2", "base": 1000, "acid": 0.5}, "base"},
		{"no buffer in it", "buffer_mix", form{"litres": 1, "strong_base": 5}, "citric_acid"},
		{"syrup", "buffer_mix", form{"litres": 1, "citric_acid": 5000}, "litres"},
		{"lye", "buffer_mix", form{"litres": 1, "citric_acid": 5, "strong_base": 5000}, "strong_base"},
		{"pH 15", "species", form{"ph": 15}, "ph"},
	}
	for _, r := range rows {
		_, problems := all.Run(r.name, r.form.JSON(t))
		if len(problems) != 1 || problems[0].Field != r.field || problems[0].Say == "" {
			t.Errorf("%s, %s %v: %+v, want %s refused", r.why, r.name, r.form, problems, r.field)
		}
	}
}

func TestWhatIsSaid(t *testing.T) {
	rows := []struct {
		name string
		form form
		want string
	}{
		{"solution", form{"litres": 1, "target": "70 % v/v", "form": "liquid", "active": "96 % v/v", "pure_density": 0.789}, "no flame or spark"},
		{"solution", form{"litres": 1, "target": "1 % w/w", "form": "powder", "active": 100}, "10 × 1 % w/w × 0.9982 g/mL = 9.982 g/L"},
		{"dilution", form{"amount": 1, "stock": 10, "wanted": 1, "step": "1 mL"}, "Directly: one reading is off by 1 % at most"},
		{"dilution", form{"amount": 2, "stock": 10, "wanted": 0.01, "step": "1 mL", "tolerated": 10}, "By an intermediate stock"},
		{"dilution", form{"amount": "100 mL", "stock": 10, "wanted": 0.001, "step": "1 mL", "tolerated": 10}, "Take a finer balance or measure"},
		{"dilution", form{"amount": "10 mL", "stock": 10, "wanted": 0.5, "step": "1 mL"}, "what must be taken of that is more than the whole"},
		{"dilution", form{"amount": "100 g", "by": "mass", "stock": "10 % w/w", "wanted": "0.01 % w/w", "step": "0.1 g"}, "Too little for this balance"},
		{"dilution", form{"amount": 1, "stock": "96 % v/v", "wanted": "70 % v/v"}, "take up less room together"},
		{"strengths", form{"strength": "10 % w/w", "density": 1.035}, `"w/v, grams in 100 mL of the solution","10.35 % w/v"`},
		{"small_amount", form{"litres": 2, "target": "10 mg/L", "balance": 0.01, "vessel": 2}, "By an intermediate stock: 400 mg of the product made up to 1 L, and 50 mL"},
		{"small_amount", form{"litres": 2, "target": "10 g/L", "balance": 0.01}, "Weigh 20 g directly"},
		{"small_amount", form{"litres": 2, "target": "10 mg/L", "balance": 0.01, "dissolves": "0.1 g/L"}, "more than dissolves"},
		{"several", form{"litres": 5, "ingredients": []form{{"name": "surfactant paste", "form": "paste", "target": 8, "active": 28}}}, `"surfactant paste","8 g/L","40 g","143 g","","40 g"`},
		{"several", form{"litres": 5, "balance": "0.1 g", "ingredients": []form{{"name": "dye", "target": "10 mg/L"}, {"name": "salt", "target": 10}}}, "dye, 50 mg; this balance weighs well from 2 g on"},
		{"several", form{"litres": 5, "balance": "0.1 g", "ingredients": []form{{"name": "salt", "target": 10}}}, "weighs all of them within 5 %"},
		{"several", form{"litres": 5, "ingredients": []form{{"name": "ascorbic acid", "target": 10}}}, "Heritage Science 11:56"},
		{"recipe", form{"made": 10, "litres": 1, "ingredients": []form{{"name": "a", "amount": "1 g"}}, "balance": "0.1 g"}, "too little to weigh well"},
		{"hydrate", form{"mass": 10, "asked_waters": 1, "have_waters": 0}, "109 % of the strength wanted"},
		{"hydrate", form{"mass": 10, "asked_waters": 1, "have_waters": 5}, "is not commonly sold"},
		{"cmc_salt", form{"salt": "trisodium_citrate", "salt_strength": 10}, "only the sodium is counted"},
		{"buffer_recipe", form{"ph": 4.2, "litres": 1}, "lies between the published rows pH 4 and pH 4.4"},
		{"buffer_recipe", form{"ph": 4, "litres": 1}, "is a published row"},
		{"buffer_ph", form{"pair": "phosphate2", "base": 50, "acid": 1}, "a pair buffers little"},
		{"buffer_mix", form{"litres": 1, "citric_acid": 44.25, "hydrogen_phosphate": 111.5}, "does not hold its rows of pH 5.4 and 5.6"},
		{"hydrate", form{"mass": 10, "substance": "disodium_hydrogen_phosphate", "asked_waters": 2, "have_waters": 0}, "prints 178.05 g/mol"},
		{"buffer_recipe", form{"table": "citrate_phosphate", "ph": 5, "litres": 1}, "prints 178.05 g/mol"},
		{"hydrate", form{"mass": 10, "substance": "magnesium_sulfate", "asked_waters": 7, "have_waters": 0}, `"put":"120.361 g/mol","source":"atomic weights of other elements"`},
		{"hydrate", form{"mass": 10, "asked_waters": 1, "have_waters": 0}, `"put":"192.123 g/mol","source":"atomic weights"`},
		{"species", form{"ph": 1, "total": 1}, "hardly any"},
		{"strengths", form{"strength": "70 % v/v", "pure_density": 0.789}, "no flame or spark"},
		{"buffer_recipe", form{"ph": 4, "litres": 2}, "make up to 2 L with water. Weighed, dissolve both in part of the water and make up to 2 L."},
		{"buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1}, "together they are all of it"},
		{"buffer_recipe", form{"ph": 4, "litres": 1}, "acid cotton and linen"},
		{"buffer_mix", form{"litres": 1, "citric_acid": 33, "trisodium_citrate": 17}, "acid cotton and linen"},
		{"buffer_ph", form{"pair": "phosphate2", "base": 10, "acid": 10}, "Raise no dust"},
	}
	for _, r := range rows {
		text, ok := all.Answer(nil, r.name, r.form.JSON(t))
		if !ok || !strings.Contains(string(text), r.want) {
			t.Errorf("%s %v does not say %q: %s", r.name, r.form, r.want, text)
		}
	}
}

// What holds for citrate and phosphate is not said of other buffers, nor what acid
// does of a mild one; and no water is named where two stocks make up the whole.
func TestWhatIsNotSaid(t *testing.T) {
	rows := []struct {
		name string
		form form
		not  string
	}{
		{"buffer_ph", form{"pair": "carbonate", "base": 10, "acid": 10}, "Citrate takes up"},
		{"buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1}, "acid cotton and linen"},
		{"buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1}, `"name":"water"`},
		{"buffer_recipe", form{"table": "citrate_phosphate", "ph": 7, "litres": 1, "salt_form": "0"}, "prints 178.05 g/mol"},
	}
	for _, r := range rows {
		if text, ok := all.Answer(nil, r.name, r.form.JSON(t)); !ok || strings.Contains(string(text), r.not) {
			t.Errorf("%s %v says %q: %s", r.name, r.form, r.not, text)
		}
	}
}

func TestZ11IsNotDividedByTheDensity(t *testing.T) {
	v := value(t, run(t, "dilution", form{"amount": 1, "stock": "38 % w/w", "wanted": "1 mol/L", "density": 1.18, "molar_mass": 36.46}), "stock_molarity")
	if v.Value < 12 {
		t.Errorf("Z-11: %v mol/L, the published slip gives 10.47", v.Value)
	}
}

func FuzzSolutions(f *testing.F) {
	for _, r := range all {
		f.Add(r.Name, r.Example)
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		r, problems := all.Run(name, jsontext.Value(text))
		if len(problems) == 0 && len(r.Values) == 0 {
			t.Fatalf("%s %q: neither figures nor problems", name, text)
		}
		for _, v := range r.Values {
			signed := strings.HasPrefix(v.Name, "ph") || v.Name == "moved"
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) || v.Value < 0 && !signed || v.Low != nil && (*v.Low > v.Value || *v.High < v.Value) {
				t.Fatalf("%s %q: %+v", name, text, v)
			}
		}
	})
}
