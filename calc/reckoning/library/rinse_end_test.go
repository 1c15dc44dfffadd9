package library

import (
	"math"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/rinsing"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func endingOf(t interface{ Fatalf(string, ...any) }, text []byte) rinsing.RinseEnding {
	e, problems := rinsing.RinseCurve(text)
	if len(problems) > 0 {
		t.Fatalf("rinsing.RinseCurve(%s) has the problems %+v", text, problems)
	}
	return e
}

func TestWhatIsProposed(t *testing.T) {
	rows := []struct {
		name    string
		form    form
		propose string
		say     string
		reason  string
	}{
		{"far off", form{"readings": "802; 202; 52", "source": 2}, rinsing.GoOn, "2 rinses more like the last", "The suds check is missing"},
		{"one reading", form{"readings": "802", "source": 2}, rinsing.GoOn, "Go on rinsing.", "800 µS/cm above the source; near it is up to 7 µS/cm"},
		{"near for the first time", form{"readings": "802; 202; 30", "source": 20}, rinsing.GoOn, "one rinse more shows whether it stays", "above the source, near it"},
		{"near, suds", form{"readings": "202; 32; 30", "source": 20, "suds": "some"}, rinsing.GoOn, "suds still show", "Suds still show"},
		{"near, all well", form{"readings": "202; 32; 30", "source": 20, "suds": "none", "ph_change": "-0,1", "colour": 0}, rinsing.Stop, "You decide", "pH steady"},
		{"near, suds not checked", form{"readings": "202; 32; 30", "source": 20, "ph_change": 0, "colour": 0}, rinsing.Look, "missing or does not fit", "shake some"},
		{"near, pH not read", form{"readings": "202; 32; 30", "source": 20, "suds": "none", "colour": 0}, rinsing.Look, "missing or does not fit", "The pH was not measured in both"},
		{"near, pH moves", form{"readings": "202; 32; 30", "source": 20, "suds": "none", "ph_change": 0.4, "colour": 0}, rinsing.Look, "missing or does not fit", "pH still moves, by 0.4"},
		{"near, colour", form{"readings": "202; 32; 30", "source": 20, "suds": "none", "ph_change": 0, "colour": 2}, rinsing.Look, "missing or does not fit", "Colour 2 in the rinse water"},
		{"below the source", form{"readings": "32; 12", "source": 20, "suds": "none", "ph_change": 0, "colour": 0}, rinsing.Look, "Measure the rinse water again", "8 µS/cm below the source"},
		{"at the source but for the meter", form{"readings": "202; 19.5", "source": 20}, rinsing.GoOn, "one rinse more", "as far as the meter can tell"},
		{"a tap water, far from it", form{"readings": "900; 700", "source": 500}, rinsing.GoOn, "rinses more like the last", "200 µS/cm above the source; near it is up to 520 µS/cm"},
		{"levelled off", form{"readings": "802; 202; 200", "source": 20, "suds": "none"}, rinsing.Look, "dye, finish or size", "No suds"},
		{"rose", form{"readings": "802; 202; 260", "source": 20}, rinsing.Look, "lies above the one before", ""},
		{"R-04-3 (d)", form{"readings": "500; 500; 500", "source": 0}, rinsing.Look, "hardly change it", ""},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			e := endingOf(t, r.form.json(t))
			if e.Propose != r.propose || !strings.Contains(e.Say, r.say) || !strings.Contains(strings.Join(e.Reasons, " "), r.reason) {
				t.Errorf("proposes %s: %q because %q; want %s, %q, %q", e.Propose, e.Say, e.Reasons, r.propose, r.say, r.reason)
			}
			if strings.Contains(strings.ToLower(e.Say), "safe") {
				t.Errorf("nothing here is called safe: %q", e.Say)
			}
		})
	}
}

// The curve and the figures come of the same code.
func TestTheCurveAgreesWithTheFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, _ := All().Find("rinse_end")
		text := anyForm(t, r).json(t)
		result, problems := All().Run(r.Name, text)
		if len(problems) > 0 {
			return
		}
		e := endingOf(t, text)
		low, foretold := result.Value("more_low")
		high, _ := result.Value("more_high")
		if foretold != (e.Refused == "") || foretold && (low != float64(e.MoreLow) || high != float64(e.MoreHigh)) {
			t.Fatalf("%v to %v rinses more, beside %d to %d, refused %q", low, high, e.MoreLow, e.MoreHigh, e.Refused)
		}
		if _, fit := result.Value("ratio"); fit != (len(e.Curve) > 0) {
			t.Fatalf("a ratio %v beside a curve of %d places", fit, len(e.Curve))
		}
		if foretold == slices.ContainsFunc(result.Unknown, func(u reckoning.Unknown) bool { return u.Name == "more_low" }) {
			t.Fatalf("foretold and unknown: %+v", result)
		}
		if e.Propose == rinsing.Stop && (!e.Settled || len(e.Reasons) < 4) {
			t.Fatalf("proposes to stop because of %q", e.Reasons)
		}
		for i, b := range e.Curve {
			if i > 0 && (b.Place != e.Curve[i-1].Place+1 || b.K25 > e.Curve[i-1].K25) || !(b.Low <= b.K25 && b.K25 <= b.High) || math.IsInf(b.High, 0) {
				t.Fatalf("curve %+v", e.Curve)
			}
		}
	})
}

// Before the first rinse stands the bath, to which no rinse led.
func TestLitresMayLeaveOutTheBathThatLeads(t *testing.T) {
	less := reckon(t, "rinse_end", form{"readings": "802; 202; 52", "source": 2, "litres": "4; 9", "kept": 1})
	all := reckon(t, "rinse_end", form{"readings": "802; 202; 52", "source": 2, "litres": "20; 4; 9", "kept": 1})
	for _, v := range all.Values {
		if got := valueOf(t, less, v.Name); got.Value != v.Value {
			t.Errorf("%s is %v, with a figure for the bath %v", v.Name, got.Value, v.Value)
		}
	}
}

func TestTheCurveOfAnExactDecay(t *testing.T) {
	// R-04-1 (d): 2 + 800 × 0.25ⁱ, and on to i = 5.
	e := endingOf(t, form{"readings": "802; 202; 52; 14.5", "source": 2}.json(t))
	want := []float64{802, 202, 52, 14.5, 5.125, 2.78125}
	if len(e.Curve) != len(want) {
		t.Fatalf("curve %+v", e.Curve)
	}
	for i, b := range e.Curve {
		if b.Place != i+1 || math.Abs(b.K25-want[i]) > 1e-9*want[i] || b.Low >= b.K25 || b.High <= b.K25 {
			t.Errorf("%+v, want %v at %d", b, want[i], i+1)
		}
	}
	if _, problems := rinsing.RinseCurve([]byte(`{"readings":"x"}`)); len(problems) != 2 {
		t.Errorf("problems %+v, want one of readings and one of source", problems)
	}
}
