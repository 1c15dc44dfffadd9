package library

import (
	"sinkside/calc/reckoning"
	"strings"
	"testing"

	"sinkside/sync/jsontext"
)

func TestProblemsNameFieldValueUnitAndRange(t *testing.T) {
	paste := func(more form) form {
		f := form{"litres": 40, "target": 2.34, "active": 28}
		for k, v := range more {
			f[k] = v
		}
		return f
	}
	rinsing := func(more form) form {
		f := form{"kept": 1, "fresh": 9, "n": 3}
		for k, v := range more {
			f[k] = v
		}
		return f
	}
	level := func(more form) form {
		f := form{"length": 90, "width": 60, "depth": 10}
		for k, v := range more {
			f[k] = v
		}
		return f
	}
	rows := []struct {
		name, reckoning string
		form            form
		want            reckoning.Problem // Say: a part of it
	}{
		{"no litres", "solution", paste(form{"litres": 0}), reckoning.Problem{Field: "litres", Value: "0", Unit: "L", Allowed: "0.01 to 5000 L", Say: "0 L is not within 0.01 to 5000 L"}},
		{"less than none", "solution", paste(form{"litres": "−3"}), reckoning.Problem{Field: "litres", Value: "−3", Unit: "L", Allowed: "0.01 to 5000 L", Say: "-3 L is not within"}},
		{"in the unit that was chosen", "solution", paste(form{"litres": in("9000", "US gal")}), reckoning.Problem{Field: "litres", Value: "9000", Unit: "US gal", Allowed: "0.00265 to 1320 US gal", Say: "9000 US gal is not within 0.00265 to 1320 US gal"}},
		{"in the unit that was typed", "solution", paste(form{"litres": in("1 mL", "US gal")}), reckoning.Problem{Field: "litres", Value: "1 mL", Unit: "mL", Allowed: "10 to 5\u00a0000\u00a0000 mL", Say: ""}},
		{"ambiguous comma", "solution", paste(form{"litres": "1,035"}), reckoning.Problem{Field: "litres", Value: "1,035", Unit: "L", Allowed: "0.01 to 5000 L", Say: "1.035 or as 1035"}},
		{"ambiguous gallon", "solution", paste(form{"litres": "10 gal"}), reckoning.Problem{Field: "litres", Value: "10 gal", Unit: "L", Allowed: "0.01 to 5000 L", Say: "US gal or imp gal"}},
		{"no number", "solution", paste(form{"active": "most of it"}), reckoning.Problem{Field: "active", Value: "most of it", Unit: "% w/w", Allowed: "0.1 to 100 % w/w", Say: "is no number"}},
		{"NaN", "solution", paste(form{"active": "NaN"}), reckoning.Problem{Field: "active", Value: "NaN", Unit: "% w/w", Allowed: "0.1 to 100 % w/w", Say: "is no number"}},
		{"more than all", "solution", paste(form{"active": 128}), reckoning.Problem{Field: "active", Value: "128", Unit: "% w/w", Allowed: "0.1 to 100 % w/w", Say: "128 % w/w is not within"}},
		{"nothing", "solution", form{"target": 2.34, "active": 28}, reckoning.Problem{Field: "litres", Value: "", Unit: "L", Allowed: "0.01 to 5000 L", Say: "nothing is given yet"}},
		{"empty text", "solution", paste(form{"litres": "  "}), reckoning.Problem{Field: "litres", Value: "  ", Unit: "L", Allowed: "0.01 to 5000 L", Say: "nothing is given yet"}},
		{"null", "solution", paste(form{"litres": nil}), reckoning.Problem{Field: "litres", Value: "", Unit: "L", Allowed: "0.01 to 5000 L", Say: "nothing is given yet"}},
		{"a truth value", "solution", paste(form{"litres": true}), reckoning.Problem{Field: "litres", Value: "true", Unit: "L", Allowed: "0.01 to 5000 L", Say: "a number or a text is expected"}},
		{"a list", "solution", paste(form{"litres": []int{1}}), reckoning.Problem{Field: "litres", Value: "[1]", Unit: "L", Allowed: "0.01 to 5000 L", Say: "a number or a text is expected"}},
		{"a unit of another kind", "solution", paste(form{"litres": in(40, "kg")}), reckoning.Problem{Field: "litres", Value: "40", Unit: "kg", Allowed: "0.01 to 5000 L", Say: "is a mass"}},
		{"a unit that is a number", "solution", paste(form{"litres": map[string]any{"value": 4, "unit": 5}}), reckoning.Problem{Field: "litres", Value: "4", Unit: "L", Allowed: "0.01 to 5000 L", Say: "the unit is to be a text"}},
		{"a member too many", "solution", paste(form{"litres": map[string]any{"value": 4, "units": "L"}}), reckoning.Problem{Field: "litres", Value: "4", Unit: "L", Allowed: "0.01 to 5000 L", Say: "nothing besides"}},
		{"no such input", "solution", paste(form{"liters": 4}), reckoning.Problem{Field: "liters", Value: "4", Unit: "", Allowed: "", Say: "There are: litres, target"}},
		{"no such choice", "solution", paste(form{"form": "gas"}), reckoning.Problem{Field: "form", Value: "gas", Unit: "", Allowed: "paste, liquid, powder", Say: "one of paste, liquid, powder"}},
		{"a choice with a unit", "solution", paste(form{"form": in("paste", "L")}), reckoning.Problem{Field: "form", Value: "paste", Unit: "L", Allowed: "", Say: "no unit"}},
		{"multiple of an unknown CMC", "solution", paste(form{"target": "3 × CMC"}), reckoning.Problem{Field: "cmc", Value: "", Unit: "g/L", Allowed: "0.0001 to 50 g/L", Say: "while the CMC is not known"}},
		{"amount without a molar mass", "solution", paste(form{"target": "10 mmol/L"}), reckoning.Problem{Field: "molar_mass", Value: "", Unit: "g/mol", Allowed: "10 to 500\u00a0000 g/mol", Say: "is given as an amount"}},
		{"a powder by volume", "solution", paste(form{"form": "powder", "active": "90 g/L"}), reckoning.Problem{Field: "active", Value: "90 g/L", Unit: "g/L", Allowed: "0.1 to 100 % w/w", Say: "by mass"}},
		{"too strong by way of the CMC", "solution", paste(form{"target": "100 × CMC", "cmc": 20}), reckoning.Problem{Field: "target", Value: "100 × CMC", Unit: "× CMC", Allowed: "up to 500 g/L", Say: "comes to 2000 g/L"}},
		{"stronger than the product", "solution", paste(form{"target": 400, "density": 1.04}), reckoning.Problem{Field: "target", Value: "400", Unit: "g/L", Allowed: "up to 291.2 g/L", Say: "cannot be made from a product that holds 291.2 g/L itself"}},
		{"more product than bath", "solution", paste(form{"target": 400}), reckoning.Problem{Field: "target", Value: "400", Unit: "g/L", Allowed: "up to 280 g/L", Say: "more than a kilogram"}},
		{"denser than itself", "solution", paste(form{"form": "liquid", "active": "110 % w/v", "density": 1.04}), reckoning.Problem{Field: "active", Value: "110 % w/v", Unit: "% w/v", Allowed: "up to 1040 g/L", Say: "than it weighs"}},
		{"± past the range", "solution", paste(form{"active": "19 g/L", "active_pm": 19.5}), reckoning.Problem{Field: "active_pm", Value: "19.5", Unit: "g/L", Allowed: "0.1 to 2000 g/L", Say: "19 ± 19.5 g/L reaches outside"}},
		{"± as large as itself", "solution", paste(form{"active_pm": 28}), reckoning.Problem{Field: "active_pm", Value: "28", Unit: "% w/w", Allowed: "0.1 to 100 % w/w", Say: "28 ± 28 % w/w reaches outside"}},
		{"± less than none", "solution", paste(form{"active_pm": -1}), reckoning.Problem{Field: "active_pm", Value: "-1", Unit: "% w/w", Allowed: "", Say: "cannot be less than 0"}},
		{"± in another kind of unit", "solution", paste(form{"active_pm": "2 g/L"}), reckoning.Problem{Field: "active_pm", Value: "2 g/L", Unit: "g/L", Allowed: "", Say: "to be in % w/w"}},
		{"± of nothing", "solution", paste(form{"density_pm": 0.1}), reckoning.Problem{Field: "density_pm", Value: "0.1", Unit: "", Allowed: "", Say: "Density of the product is empty"}},
		{"a ± at whose edge the form is refused", "buffer_ph", form{"ask": "ph", "pair": "phosphate2", "base": 200, "base_pm": 60, "acid": 0.25}, reckoning.Problem{Field: "base", Value: "200", Unit: "mmol", Allowed: "0.00025 to 250 mmol", Say: "At the edge of the ±"}},
		{"a ± at whose edge no bath comes", "solution", paste(form{"target": 280, "density": 1.04, "active_pm": 2}), reckoning.Problem{Field: "target", Value: "280", Unit: "g/L", Allowed: "up to 270.4 g/L", Say: "cannot be made"}},

		{"hot water", "tray", level(form{"temperature": 60}), reckoning.Problem{Field: "temperature", Value: "60", Unit: "°C", Allowed: "0 to 40 °C", Say: "60 °C is not within 0 to 40 °C"}},
		{"cold, in °F", "tray", level(form{"temperature": "20 °F"}), reckoning.Problem{Field: "temperature", Value: "20 °F", Unit: "°F", Allowed: "32 to 104 °F", Say: ""}},
		{"a tray like a lake", "tray", level(form{"length": "40 m"}), reckoning.Problem{Field: "length", Value: "40 m", Unit: "m", Allowed: "0.01 to 15 m", Say: ""}},
		{"measures worse than themselves", "tray", level(form{"measure_pm": 100}), reckoning.Problem{Field: "measure_pm", Value: "100", Unit: "cm", Allowed: "0.1 to 150 cm", Say: "10 ± 10 cm reaches outside"}},
		{"a round tray without its diameter", "tray", form{"shape": "round", "depth": 5}, reckoning.Problem{Field: "diameter", Value: "", Unit: "cm", Allowed: "1 to 1500 cm", Say: "nothing is given yet"}},

		{"ISO 7888 in warm water", "conductivity", form{"value": 500, "temp": 36, "way": "iso7888"}, reckoning.Problem{Field: "temp", Value: "36", Unit: "°C", Allowed: "0 to 35.9 °C", Say: "ends at 0 and at 35.9 °C. Correct it with one coefficient"}},
		{"ISO 7888 in rinse water", "conductivity", form{"value": 12, "temp": 20, "way": "iso7888"}, reckoning.Problem{Field: "value", Value: "12", Unit: "µS/cm", Allowed: "60 to 1000 µS/cm", Say: "natural water of about 60 to 1000"}},
		{"ISO 7888 at the edge of the ±", "conductivity", form{"value": 990, "value_pm": 20, "temp": 20, "way": "iso7888"}, reckoning.Problem{Field: "value", Value: "990", Unit: "µS/cm", Allowed: "60 to 1000 µS/cm", Say: "At the edge of the ±: Reading"}},
		{"a reading without its temperature", "conductivity", form{"value": 500}, reckoning.Problem{Field: "temp", Value: "", Unit: "°C", Allowed: "0 to 60 °C", Say: "nothing is given yet"}},
		{"a coefficient as a share", "conductivity", form{"value": 500, "temp": 20, "coefficient": "0.02"}, reckoning.Problem{Field: "coefficient", Value: "0.02", Unit: "%/K", Allowed: "0.5 to 3 %/K", Say: "0.02 %/K is not within"}},

		{"an entry of a series that is none", "rinse_end", form{"readings": "802; 2o2; 52", "source": 2}, reckoning.Problem{Field: "readings", Value: "802; 2o2; 52", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "entry 2: “2o2” ends in “o2”"}},
		{"an entry outside of its range", "rinse_end", form{"readings": in("802; -3", "µS/cm"), "source": 2}, reckoning.Problem{Field: "readings", Value: "802; -3", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "entry 2: -3 µS/cm is not within"}},
		{"an entry in another unit", "rinse_end", form{"readings": "0.8 mS/cm; 202 µS/cm", "source": 2}, reckoning.Problem{Field: "readings", Value: "0.8 mS/cm; 202 µS/cm", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "entry 1: “0.8 mS/cm” is in another unit"}},
		{"a series with thousands by a space", "rinse_end", form{"readings": "1 200 410", "source": 2}, reckoning.Problem{Field: "readings", Value: "1 200 410", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "put a semicolon"}},
		{"a series that is a list", "rinse_end", form{"readings": []int{802, 202}, "source": 2}, reckoning.Problem{Field: "readings", Value: "[802,202]", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "a number or a text is expected"}},
		{"volumes for other rinses", "rinse_end", form{"readings": "802; 202; 52", "source": 2, "litres": "10; 10; 9; 9"}, reckoning.Problem{Field: "litres", Value: "10; 10; 9; 9", Unit: "L", Allowed: "3 figures", Say: "4 figures for 3 readings"}},
		{"no source", "rinse_end", form{"readings": "802; 202"}, reckoning.Problem{Field: "source", Value: "", Unit: "µS/cm", Allowed: "0 to 200\u00a0000 µS/cm", Say: "nothing is given yet"}},
		{"colour between", "rinse_end", form{"readings": "802; 202", "source": 2, "colour": 1.5}, reckoning.Problem{Field: "colour", Value: "1.5", Unit: "", Allowed: "0 to 5", Say: "a whole number"}},

		{"baths without their litres", "water_plan", form{"washes": 2, "rinses": 3, "rinse_litres": 8}, reckoning.Problem{Field: "wash_litres", Value: "", Unit: "L", Allowed: "0.01 to 5000 L", Say: "since 2 are planned"}},
		{"nothing planned", "water_plan", form{"stock": 30}, reckoning.Problem{Field: "rinses", Value: "", Unit: "", Allowed: "0 to 50", Say: "nothing is planned yet"}},
		{"half a rinse", "rinse", rinsing(form{"n": 2.5}), reckoning.Problem{Field: "n", Value: "2.5", Unit: "", Allowed: "1 to 50", Say: "a whole number"}},
		{"no rinse", "rinse", rinsing(form{"n": 0}), reckoning.Problem{Field: "n", Value: "0", Unit: "", Allowed: "1 to 50", Say: "0 is not within 1 to 50"}},
		{"a number with a unit", "rinse", rinsing(form{"n": "3 L"}), reckoning.Problem{Field: "n", Value: "3 L", Unit: "", Allowed: "1 to 50", Say: "Write the number alone"}},
		{"nothing kept", "rinse", form{"fresh": 9, "n": 3}, reckoning.Problem{Field: "kept", Value: "", Unit: "L", Allowed: "0.001 to 500 L", Say: "dry mass and pick-up in its place"}},
		{"kept twice over", "rinse", rinsing(form{"dry_mass": 400, "pick_up": 120}), reckoning.Problem{Field: "pick_up", Value: "120", Unit: "%", Allowed: "5 to 2000 %", Say: "given already"}},
		{"kept like a lake", "rinse", form{"dry_mass": "150 kg", "pick_up": 2000, "fresh": 9, "n": 3}, reckoning.Problem{Field: "pick_up", Value: "2000", Unit: "%", Allowed: "0.001 to 500 L of liquid kept", Say: "3000 L of liquid kept"}},
		{"nothing to rinse with", "rinse", form{"kept": 1, "n": 3}, reckoning.Problem{Field: "fresh", Value: "", Unit: "L", Allowed: "0.01 to 5000 L", Say: "or the stock of water"}},
		{"nothing asked", "rinse", form{"kept": 1, "fresh": 9}, reckoning.Problem{Field: "n", Value: "", Unit: "", Allowed: "1 to 50", Say: "give a number of rinses"}},
		{"no way to divide", "rinse", form{"kept": 1, "water": 30, "target": 1}, reckoning.Problem{Field: "n", Value: "", Unit: "", Allowed: "1 to 50", Say: "to divide the stock"}},
		{"a stock that covers nothing", "rinse", form{"kept": 1, "water": 5, "least": 8}, reckoning.Problem{Field: "water", Value: "5", Unit: "L", Allowed: "8 to 50\u00a0000 L", Say: "does not cover the object once"}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, problems := All().Run(r.reckoning, r.form.json(t))
			var got reckoning.Problem
			for _, p := range problems {
				if p.Field == r.want.Field {
					got = p
				}
			}
			said := got.Say
			got.Say = r.want.Say
			if got != r.want || !strings.Contains(said, r.want.Say) {
				got.Say = said
				t.Errorf("problems are %+v, want %+v", problems, r.want)
			}
			if len(problems) > 1 && r.name != "kept like a lake" {
				t.Errorf("%d problems: %+v", len(problems), problems)
			}
		})
	}
}

func TestAllFieldsAreToldAtOnce(t *testing.T) {
	_, problems := All().Run("solution", form{"litres": 0, "target": "1,2,34", "active": "x"}.json(t))
	if len(problems) != 3 {
		t.Errorf("%d problems, want one for each of the three fields: %+v", len(problems), problems)
	}
}

func TestWhatIsNoFormAtAll(t *testing.T) {
	for _, text := range []string{``, `{`, `[]`, `3`, `null`, `{"litres":1,"litres":2}`, "{\"litres\":\"\xff\"}"} {
		_, problems := All().Run("solution", jsontext.Value(text))
		if len(problems) == 0 || !strings.Contains(problems[0].Say, "cannot be read") {
			t.Errorf("All().Run(%q) has the problems %+v", text, problems)
		}
	}
	_, problems := All().Run("soup", jsontext.Value(`{}`))
	if len(problems) != 1 || !strings.Contains(problems[0].Say, "solution, ") || problems[0].Value != "soup" {
		t.Errorf("an unknown reckoning has the problems %+v", problems)
	}
}
