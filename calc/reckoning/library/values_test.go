package library

import "testing"

// Published values, asked at the door as a person asks. Marks of a source: (a)
// read, (b) from memory, (c) common practice, (d) computed from the formula,
// which is a check against regression only. The arithmetic itself is held
// against the same tables in calc/solution, calc/tray and calc/rinse.
func TestPublishedValues(t *testing.T) {
	rows := []struct {
		source    string
		name      string
		form      form
		figure    string
		want      float64
		tolerance float64 // relative
	}{
		{"S-02-1 (a) course worksheet, Molarity Worksheet Key: 500 mL of 2 mol/L from 12 mol/L", "solution",
			form{"litres": "500 mL", "target": in(2000, "mmol/L"), "form": "liquid", "active": in(12, "mol/L"), "molar_mass": 36.46}, "product_volume", 83.33, 1e-4},
		{"S-02-1 (a) the same, water in L", "solution",
			form{"litres": "500 mL", "target": in(2000, "mmol/L"), "form": "liquid", "active": in(12, "mol/L"), "molar_mass": 36.46}, "water", 0.41667, 1e-4},
		{"S-02-2 (a, density b) laboratorynotes.com: 7.68 mol/L acid is 25 % w/w at 1.12 g/mL, so a litre of 0.768 takes 100 mL", "solution",
			form{"litres": 1, "target": in(768, "mmol/L"), "form": "liquid", "active": 25, "density": 1.12, "molar_mass": 36.46}, "product_volume", 100, 0.003},
		{"S-02-4 (d): 5 L of 0.1 % w/v from a 1 % w/v stock", "solution",
			form{"litres": 5, "target": "0.1 % w/v", "form": "liquid", "active": "1 % w/v"}, "product_volume", 500, 1e-12},
		{"S-02-4 (d) the same, water", "solution",
			form{"litres": 5, "target": "0.1 % w/v", "form": "liquid", "active": "1 % w/v"}, "water", 4.5, 1e-12},
		{"S-02-5 (d): 10 % w/w at 1.035 g/mL is 10.35 % w/v, so a litre of 1.035 % takes 100 mL", "solution",
			form{"litres": 1, "target": "1.035 % w/v", "form": "liquid", "active": 10, "density": 1.035}, "product_volume", 100, 1e-12},
		{"S-02-6 (d): 2 L of 0.5 % w/v from solid", "solution",
			form{"litres": 2, "target": "0.5 % w/v", "form": "powder", "active": 100}, "product_mass", 10, 1e-12},
		{"S-02-7 (d): 8 L of 0.010 mol/L trisodium citrate dihydrate", "solution",
			form{"litres": 8, "target": "10 mmol/L", "form": "powder", "active": 100, "molar_mass": 294.098}, "product_mass", 23.528, 0.0005},
		{"S-02-8 (d): 9.143 g anhydrous citric acid as monohydrate, active content 192.123/210.138", "solution",
			form{"litres": 1, "target": 9.143, "form": "powder", "active": 91.427}, "product_mass", 10, 0.0002},
		{"S-03 (a) CCI Notes 13/9, inverse (d): 40 L at 1 × CMC, mL", "solution",
			form{"litres": 40, "target": "1 × CMC", "active": "28 %", "density": "1,04", "cmc": 2.34}, "product_volume", 321.4, 0.005},
		{"S-03 (a) the same, g", "solution",
			form{"litres": 40, "target": "1 × CMC", "active": "28 %", "density": "1,04", "cmc": 2.34}, "product_mass", 334.3, 0.005},
		{"S-03 (a) 8 mL/L are 2.3296 g/L, times 2.34 g/L", "solution",
			form{"litres": 1, "target": 2.3296, "active": 28, "density": 1.04, "cmc": 2.34}, "multiple", 0.996, 0.005},
		{"S-03 (a) the same, mL", "solution",
			form{"litres": 1, "target": 2.3296, "active": 28, "density": 1.04}, "product_volume", 8, 0.005},
		{"S-03 (a) 8 mL/L are 8.078 mmol/L", "solution",
			form{"litres": 1, "target": 2.3296, "active": 28, "density": 1.04, "molar_mass": 288.378}, "molarity", 8.078, 0.005},
		{"S-03 (a) 12 mL/L, mL", "solution",
			form{"litres": 1, "target": "1.493 × CMC", "active": 28, "density": 1.04, "cmc": 2.34}, "product_volume", 12, 0.005},
		{"S-03 (a) 12 mL/L are 1.493 times 2.34 g/L", "solution",
			form{"litres": 1, "target": "0.34944 % w/v", "active": 28, "density": 1.04, "cmc": 2.34}, "multiple", 1.493, 0.005},
		{"S-03 (a) 12 mL/L are 12.117 mmol/L", "solution",
			form{"litres": 1, "target": 3.4944, "active": 28, "density": 1.04, "molar_mass": 288.378}, "molarity", 12.117, 0.005},
		{"S-04 (value b) Mukerjee and Mysels, 8.2 mmol/L: near 2.34 g/L of CCI 13/9 (a)", "solution",
			form{"litres": 1, "target": "1 × CMC", "active": 28, "cmc": in(8.2, "mmol/L"), "molar_mass": 288.378}, "strength", 2.34, 0.02},
		{"Z-11 (d): 38 % w/w at 1.18 g/mL is 12.30 mol/L, so a litre of 1.230 takes 100 mL and not 117", "solution",
			form{"litres": 1, "target": in(1230, "mmol/L"), "form": "liquid", "active": 38, "density": 1.18, "molar_mass": 36.46}, "product_volume", 100, 0.001},
		{"J-01 recipe arithmetic (d): 720 mL at 2 % w/v", "solution",
			form{"litres": "720 mL", "target": "2 % w/v", "form": "powder", "active": 100}, "product_mass", 14.4, 1e-12},
		{"practice sheet 8 (a): at 30 % active the usual mistake makes 30 % of the strength", "solution",
			form{"litres": 1, "target": 10, "active": 30}, "mistaken_strength", 3, 1e-12},

		{"practice sheet 8 (c), L × W × D in cm ÷ 1000", "tray",
			form{"length": 90, "width": 60, "depth": 10}, "litres", 54, 1e-12},
		{"W-06 CRC 53rd p. F-4 (b): 998.203 kg/m³ at 20 °C", "tray",
			form{"length": 100, "width": 100, "depth": 10}, "water_mass", 99.8203, 2e-5},
		{"W-06 CRC 53rd p. F-4 (a): 999.973 kg/m³ at 4 °C", "tray",
			form{"length": 100, "width": 100, "depth": 10, "temperature": "4 °C"}, "water_mass", 99.9973, 2e-5},
		{"W-06 CRC 53rd p. F-4 (b): 992.22 kg/m³ at 40 °C, given in °F", "tray",
			form{"length": 100, "width": 100, "depth": 10, "temperature": "104 °F"}, "water_mass", 99.222, 2e-5},

		{"W-02 (a formula, d value): 500 at 15 °C", "conductivity", form{"value": 500, "temp": 15}, "k25", 625.0, 1e-12},
		{"W-02 (a formula, d value): 250 at 30 °C, given in °F and mS/cm", "conductivity", form{"value": "0,25 mS/cm", "temp": "86 °F"}, "k25", 227.3, 5e-4},
		{"W-02 (a formula, d value): 1278 at 20 °C, 1.94 %/K", "conductivity", form{"value": 1278, "temp": 20, "coefficient": "1,94 %/K"}, "k25", 1415.3, 1e-4},
		{"W-02 (a) manual PS9TK p. 59, natural water; result (d)", "conductivity", form{"value": 900, "temp": 15, "coefficient": 1.68}, "k25", 1081.7, 1e-4},
		{"W-03 (a) manual C.A 10141: 500 at 10 °C", "conductivity", form{"value": 500, "temp": 10, "way": "iso7888"}, "k25", 714, 1e-3},
		{"W-03 (a) the same: 500 at 30.2 °C, f25 0.900", "conductivity", form{"value": 500, "temp": "30,2", "way": "iso7888"}, "k25", 450, 1e-3},
		{"R-04-1 (d): exact decay to a quarter", "rinse_end", form{"readings": "802, 202, 52, 14.5", "source": 2}, "ratio", 25, 0.0005},
		{"R-04-1 (d): near is 5 µS/cm, reached at the fifth i, two after the last; scatter at its least", "rinse_end",
			form{"readings": "802; 202; 52; 14,5", "source": 2, "near_times": 1, "near_above": 3, "scatter": 1, "meter": 0.1, "meter_least": 0.01}, "more_high", 2, 0},
		{"R-04-1 (d) the same, at least", "rinse_end",
			form{"readings": "802; 202; 52; 14,5", "source": 2, "near_times": 1, "near_above": 3, "scatter": 1, "meter": 0.1, "meter_least": 0.01}, "more_low", 2, 0},
		{"R-04-1 (d): from 52 to 14.5 above 2", "rinse_end", form{"readings": "802 202 52 14.5", "source": 2}, "fell", 75, 1e-12},
		{"R-04-2 (d): least squares on logarithms", "rinse_end", form{"readings": "1200; 410; 150; 52", "source": 0}, "ratio", 35.27, 0.0005},
		{"R-04-2 (d) the same in mS/cm", "rinse_end", form{"readings": "1,2; 0,41; 0,15; 0,052 mS/cm", "source": 0}, "ratio", 35.27, 0.0005},
		{"R-01 (d): what 9 L leave beside 1 L kept", "rinse_end", form{"readings": "802; 202", "source": 2, "litres": "9 9", "kept": 1}, "mixing", 10, 0.001},
		{"practice sheet 8 (c), (pre-soak + washes + rinses) × bath + spare: (1 + 2 + 3 + 2) × 8 L (d)", "water_plan",
			form{"presoaks": 1, "presoak_litres": 8, "washes": 2, "wash_litres": 8, "rinses": 3, "rinse_litres": 8}, "total", 64, 1e-12},
		{"practice sheet 8 (c), hours = litres ÷ litres an hour: 64 - 50 at 4 L/h (d)", "water_plan",
			form{"presoaks": 1, "presoak_litres": 8, "washes": 2, "wash_litres": 8, "rinses": 3, "rinse_litres": 8, "stock": 50, "rate": 4}, "make_hours", 3.5, 1e-12},
		{"the same (d): 26 L are left for rinses of 8 L", "water_plan",
			form{"presoaks": 1, "presoak_litres": 8, "washes": 2, "wash_litres": 8, "rinses": 3, "rinse_litres": 8, "stock": 50}, "rinses_from_stock", 3, 0},
		{"compensated by the meter: never corrected twice (d)", "conductivity", form{"value": 900, "temp": 15, "coefficient": 1.68, "way": "compensated"}, "k25", 900, 0},

		{"R-01-1 (a) The Power of Dilution, mikefay.info", "rinse",
			form{"kept": "40.2 mL", "fresh": "655.8 mL", "n": 1}, "left", 5.78, 0.001},
		{"R-01-2 (a) freddyo.com 13180153, n = 4", "rinse",
			form{"kept": 1, "fresh": 1, "n": 4}, "left", 6.25, 1e-12},
		{"R-01-3 (a) justaaa.com 321415, one portion", "rinse",
			form{"kept": "100 mL", "fresh": "1500 mL", "n": 1}, "left", 6.25, 1e-12},
		{"R-01-4, Z-04 (d): five portions leave 0.0977 and not 0.98 %", "rinse",
			form{"kept": "100 mL", "water": "1500 mL", "n": 5}, "left", 0.0977, 0.001},
		{"R-01 (d)", "rinse", form{"kept": 1, "fresh": 9, "n": 1}, "left", 10, 0.001},
		{"R-01 (d)", "rinse", form{"kept": 1, "fresh": 9, "n": 3}, "left", 0.1, 0.001},
		{"R-01 (d)", "rinse", form{"kept": 0.5, "fresh": 10, "n": 2}, "left", 0.226757, 0.001},
		{"R-01 (d)", "rinse", form{"kept": 1.5, "fresh": 12, "n": 4}, "left", 0.015242, 0.001},
		{"R-01 (d)", "rinse", form{"kept": 2, "fresh": 8, "n": 5}, "left", 0.032, 0.001},
		{"R-01 (d): 2.000 made whole", "rinse", form{"kept": 1, "fresh": 9, "target": 1}, "needed", 2, 0},
		{"R-01 (d): 2.261 made whole", "rinse", form{"kept": 1.5, "fresh": 10, "target": 1}, "needed", 3, 0},
		{"R-01 (d): 2.120 made whole", "rinse", form{"kept": 0.8, "fresh": 20, "target": 0.1}, "needed", 3, 0},
		{"R-02 (d): 30 L in one", "rinse", form{"kept": 1, "water": 30, "n": 1}, "left", 3.225806, 0.001},
		{"R-02 (d): 30 L in two", "rinse", form{"kept": 1, "water": 30, "n": 2}, "left", 0.390625, 0.001},
		{"R-02 (d): 30 L in three, each at least 10 L", "rinse", form{"kept": 1, "water": 30, "least": 10}, "best_left", 0.075131, 0.001},
		{"R-02 (d): 30 L in five, each at least 6 L", "rinse", form{"kept": 1, "water": 30, "least": 6}, "best_left", 0.005950, 0.001},
		{"R-02 (d): 10 L in two", "rinse", form{"kept": 1, "water": 10, "n": 2}, "left", 2.777778, 0.001},
		{"R-05 (d): a 400 g linen at 120 % holds 480 g, mL", "rinse", form{"dry_mass": 400, "pick_up": 120, "fresh": 10, "n": 1}, "kept_volume", 0.480, 1e-12},
		// One rinse of 3.2 L beside 0.8 L kept leaves a fifth of a 30 % bath: 6.0 %.
		{"R-05 (a) collegedunia.com: 80 % pick-up of a 6.0 % bath leaves 4.8 %", "rinse",
			form{"dry_mass": 1000, "pick_up": 80, "fresh": 3.2, "n": 1, "start": "30 % w/v"}, "residue_share", 4.8, 1e-9},
	}
	for _, r := range rows {
		if got := valueOf(t, reckon(t, r.name, r.form), r.figure); !near(got.Value, r.want, r.tolerance) {
			t.Errorf("%s: %s = %v %s, want %v", r.source, r.figure, got.Value, got.Unit, r.want)
		}
	}
}
