package reckoning

import (
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
		want            Problem // Say: a part of it
	}{
		{"no litres", "solution", paste(form{"litres": 0}), Problem{"litres", "0", "L", "0.01 to 5000 L", "0 L is not within 0.01 to 5000 L"}},
		{"less than none", "solution", paste(form{"litres": "−3"}), Problem{"litres", "−3", "L", "0.01 to 5000 L", "-3 L is not within"}},
		{"in the unit that was chosen", "solution", paste(form{"litres": in("9000", "US gal")}), Problem{"litres", "9000", "US gal", "0.00265 to 1320 US gal", "9000 US gal is not within 0.00265 to 1320 US gal"}},
		{"in the unit that was typed", "solution", paste(form{"litres": in("1 mL", "US gal")}), Problem{"litres", "1 mL", "mL", "10 to 5\u00a0000\u00a0000 mL", ""}},
		{"ambiguous comma", "solution", paste(form{"density": "1,035"}), Problem{"density", "1,035", "g/mL", "0.6 to 2.5 g/mL", "1.035 or as 1035"}},
		{"ambiguous gallon", "solution", paste(form{"litres": "10 gal"}), Problem{"litres", "10 gal", "L", "0.01 to 5000 L", "US gal or imp gal"}},
		{"no number", "solution", paste(form{"active": "most of it"}), Problem{"active", "most of it", "% w/w", "0.1 to 100 % w/w", "is no number"}},
		{"NaN", "solution", paste(form{"active": "NaN"}), Problem{"active", "NaN", "% w/w", "0.1 to 100 % w/w", "is no number"}},
		{"more than all", "solution", paste(form{"active": 128}), Problem{"active", "128", "% w/w", "0.1 to 100 % w/w", "128 % w/w is not within"}},
		{"nothing", "solution", form{"target": 2.34, "active": 28}, Problem{"litres", "", "L", "0.01 to 5000 L", "nothing is given yet"}},
		{"empty text", "solution", paste(form{"litres": "  "}), Problem{"litres", "  ", "L", "0.01 to 5000 L", "nothing is given yet"}},
		{"null", "solution", paste(form{"litres": nil}), Problem{"litres", "", "L", "0.01 to 5000 L", "nothing is given yet"}},
		{"a truth value", "solution", paste(form{"litres": true}), Problem{"litres", "true", "L", "0.01 to 5000 L", "a number or a text is expected"}},
		{"a list", "solution", paste(form{"litres": []int{1}}), Problem{"litres", "[1]", "L", "0.01 to 5000 L", "a number or a text is expected"}},
		{"a unit of another kind", "solution", paste(form{"litres": in(40, "kg")}), Problem{"litres", "40", "kg", "0.01 to 5000 L", "is a mass"}},
		{"a unit that is a number", "solution", paste(form{"litres": map[string]any{"value": 4, "unit": 5}}), Problem{"litres", "4", "L", "0.01 to 5000 L", "the unit is to be a text"}},
		{"a member too many", "solution", paste(form{"litres": map[string]any{"value": 4, "units": "L"}}), Problem{"litres", "4", "L", "0.01 to 5000 L", "nothing besides"}},
		{"no such input", "solution", paste(form{"liters": 4}), Problem{"liters", "4", "", "", "There are: litres, target"}},
		{"no such choice", "solution", paste(form{"form": "gas"}), Problem{"form", "gas", "", "paste, liquid, powder", "one of paste, liquid, powder"}},
		{"a choice with a unit", "solution", paste(form{"form": in("paste", "L")}), Problem{"form", "paste", "L", "", "no unit"}},
		{"multiple of an unknown CMC", "solution", paste(form{"target": "3 × CMC"}), Problem{"cmc", "", "g/L", "0.0001 to 50 g/L", "while the CMC is not known"}},
		{"amount without a molar mass", "solution", paste(form{"target": "10 mmol/L"}), Problem{"molar_mass", "", "g/mol", "10 to 500\u00a0000 g/mol", "is given as an amount"}},
		{"a powder by volume", "solution", paste(form{"form": "powder", "active": "90 g/L"}), Problem{"active", "90 g/L", "g/L", "0.1 to 2000 g/L", "by mass"}},
		{"too strong by way of the CMC", "solution", paste(form{"target": "100 × CMC", "cmc": 20}), Problem{"target", "100 × CMC", "× CMC", "up to 500 g/L", "comes to 2000 g/L"}},
		{"stronger than the product", "solution", paste(form{"target": 400, "density": 1.04}), Problem{"target", "400", "g/L", "up to 291.2 g/L", "cannot be made from a product that holds 291.2 g/L itself"}},
		{"more product than bath", "solution", paste(form{"target": 400}), Problem{"target", "400", "g/L", "up to 280 g/L", "more than a kilogram"}},
		{"denser than itself", "solution", paste(form{"form": "liquid", "active": "110 % w/v", "density": 1.04}), Problem{"active", "110 % w/v", "% w/v", "up to 1040 g/L", "than it weighs"}},
		{"± past the range", "solution", paste(form{"active": 99, "active_pm": 2}), Problem{"active_pm", "2", "% w/w", "0.1 to 100 % w/w", "99 ± 2 % w/w reaches outside"}},
		{"± as large as itself", "solution", paste(form{"active_pm": 28}), Problem{"active_pm", "28", "% w/w", "0.1 to 100 % w/w", "28 ± 28 % w/w reaches outside"}},
		{"± less than none", "solution", paste(form{"active_pm": -1}), Problem{"active_pm", "-1", "% w/w", "0.1 to 100 % w/w", "reaches outside"}},
		{"± in another kind of unit", "solution", paste(form{"active_pm": "2 g/L"}), Problem{"active_pm", "2 g/L", "g/L", "", "to be in % w/w"}},
		{"± of nothing", "solution", paste(form{"density_pm": 0.1}), Problem{"density_pm", "0.1", "", "", "Density of the product is empty"}},
		{"a ± at whose edge no bath comes", "solution", paste(form{"target": 280, "density": 1.04, "active_pm": 2}), Problem{"target", "280", "g/L", "up to 270.4 g/L", "cannot be made"}},

		{"hot water", "tray", level(form{"temperature": 60}), Problem{"temperature", "60", "°C", "0 to 40 °C", "60 °C is not within 0 to 40 °C"}},
		{"cold, in °F", "tray", level(form{"temperature": "20 °F"}), Problem{"temperature", "20 °F", "°F", "32 to 104 °F", ""}},
		{"a tray like a lake", "tray", level(form{"length": "40 m"}), Problem{"length", "40 m", "m", "0.01 to 15 m", ""}},
		{"measures worse than themselves", "tray", level(form{"measure_pm": 100}), Problem{"measure_pm", "100", "cm", "0.1 to 150 cm", "10 ± 10 cm reaches outside"}},
		{"a round tray without its diameter", "tray", form{"shape": "round", "depth": 5}, Problem{"diameter", "", "cm", "1 to 1500 cm", "nothing is given yet"}},

		{"ISO 7888 in warm water", "conductivity", form{"value": 500, "temp": 36, "way": "iso7888"}, Problem{"temp", "36", "°C", "0 to 35.9 °C", "ends at 0 and at 35.9 °C. Correct it with one coefficient"}},
		{"ISO 7888 in rinse water", "conductivity", form{"value": 12, "temp": 20, "way": "iso7888"}, Problem{"value", "12", "µS/cm", "60 to 1000 µS/cm", "natural water of about 60 to 1000"}},
		{"ISO 7888 at the edge of the ±", "conductivity", form{"value": 990, "value_pm": 20, "temp": 20, "way": "iso7888"}, Problem{"value", "990", "µS/cm", "60 to 1000 µS/cm", "At the edge of the ±: Reading"}},
		{"a reading without its temperature", "conductivity", form{"value": 500}, Problem{"temp", "", "°C", "0 to 60 °C", "nothing is given yet"}},
		{"a coefficient as a share", "conductivity", form{"value": 500, "temp": 20, "coefficient": "0.02"}, Problem{"coefficient", "0.02", "%/K", "0.5 to 3 %/K", "0.02 %/K is not within"}},

		{"an entry of a series that is none", "rinse_end", form{"readings": "802; 2o2; 52", "source": 2}, Problem{"readings", "802; 2o2; 52", "µS/cm", "0 to 200\u00a0000 µS/cm", "entry 2: “2o2” ends in “o2”"}},
		{"an entry outside of its range", "rinse_end", form{"readings": in("802; -3", "µS/cm"), "source": 2}, Problem{"readings", "802; -3", "µS/cm", "0 to 200\u00a0000 µS/cm", "entry 2: -3 µS/cm is not within"}},
		{"an entry in another unit", "rinse_end", form{"readings": "0.8 mS/cm; 202 µS/cm", "source": 2}, Problem{"readings", "0.8 mS/cm; 202 µS/cm", "µS/cm", "0 to 200\u00a0000 µS/cm", "entry 1: “0.8 mS/cm” is in another unit"}},
		{"a series with thousands by a space", "rinse_end", form{"readings": "1 200 410", "source": 2}, Problem{"readings", "1 200 410", "µS/cm", "0 to 200\u00a0000 µS/cm", "put a semicolon"}},
		{"a series that is a list", "rinse_end", form{"readings": []int{802, 202}, "source": 2}, Problem{"readings", "[802,202]", "µS/cm", "0 to 200\u00a0000 µS/cm", "a number or a text is expected"}},
		{"volumes for other rinses", "rinse_end", form{"readings": "802; 202; 52", "source": 2, "litres": "10; 10; 9; 9"}, Problem{"litres", "10; 10; 9; 9", "L", "0.01 to 5000 L", "4 figures for 3 readings"}},
		{"no source", "rinse_end", form{"readings": "802; 202"}, Problem{"source", "", "µS/cm", "0 to 200\u00a0000 µS/cm", "nothing is given yet"}},
		{"colour between", "rinse_end", form{"readings": "802; 202", "source": 2, "colour": 1.5}, Problem{"colour", "1.5", "", "0 to 5", "a whole number"}},

		{"baths without their litres", "water_plan", form{"washes": 2, "rinses": 3, "rinse_litres": 8}, Problem{"wash_litres", "", "L", "0.01 to 5000 L", "since 2 are planned"}},
		{"nothing planned", "water_plan", form{"stock": 30}, Problem{"rinses", "", "", "0 to 50", "nothing is planned yet"}},
		{"half a rinse", "rinse", rinsing(form{"n": 2.5}), Problem{"n", "2.5", "", "1 to 50", "a whole number"}},
		{"no rinse", "rinse", rinsing(form{"n": 0}), Problem{"n", "0", "", "1 to 50", "0 is not within 1 to 50"}},
		{"a number with a unit", "rinse", rinsing(form{"n": "3 L"}), Problem{"n", "3 L", "", "1 to 50", "Write the number alone"}},
		{"nothing kept", "rinse", form{"fresh": 9, "n": 3}, Problem{"kept", "", "L", "0.001 to 500 L", "dry mass and pick-up in its place"}},
		{"kept twice over", "rinse", rinsing(form{"dry_mass": 400, "pick_up": 120}), Problem{"pick_up", "120", "%", "5 to 2000 %", "given already"}},
		{"kept like a lake", "rinse", form{"dry_mass": "150 kg", "pick_up": 2000, "fresh": 9, "n": 3}, Problem{"pick_up", "2000", "%", "0.001 to 500 L of liquid kept", "3000 L of liquid kept"}},
		{"nothing to rinse with", "rinse", form{"kept": 1, "n": 3}, Problem{"fresh", "", "L", "0.01 to 5000 L", "or the stock of water"}},
		{"nothing asked", "rinse", form{"kept": 1, "fresh": 9}, Problem{"n", "", "", "1 to 50", "give a number of rinses"}},
		{"no way to divide", "rinse", form{"kept": 1, "water": 30, "target": 1}, Problem{"n", "", "", "1 to 50", "to divide the stock"}},
		{"a stock that covers nothing", "rinse", form{"kept": 1, "water": 5, "least": 8}, Problem{"water", "5", "L", "0.01 to 50\u00a0000 L", "does not cover the object once"}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, problems := Run(r.reckoning, r.form.json(t))
			var got Problem
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
	_, problems := Run("solution", form{"litres": 0, "target": "1,234", "active": "x"}.json(t))
	if len(problems) != 3 {
		t.Errorf("%d problems, want one for each of the three fields: %+v", len(problems), problems)
	}
}

func TestWhatIsNoFormAtAll(t *testing.T) {
	for _, text := range []string{``, `{`, `[]`, `3`, `null`, `{"litres":1,"litres":2}`, "{\"litres\":\"\xff\"}"} {
		_, problems := Run("solution", jsontext.Value(text))
		if len(problems) == 0 || !strings.Contains(problems[0].Say, "cannot be read") {
			t.Errorf("Run(%q) has the problems %+v", text, problems)
		}
	}
	_, problems := Run("soup", jsontext.Value(`{}`))
	if len(problems) != 1 || !strings.Contains(problems[0].Say, namesOf(all)) || problems[0].Value != "soup" {
		t.Errorf("an unknown reckoning has the problems %+v", problems)
	}
}
