package watch

import (
	"strconv"
	"testing"
)

// washDay is a day of 200 entries: seven baths read as often as anybody reads
// them, and a drying.
func washDay() *scribe {
	s := newScribe(1)
	s.put("open", `{"name":"Harbour-office signal flag"}`)
	for field, value := range map[string]string{"colours": `"red, brown, blue, undyed"`, "dry_mass_g": "48.2", "width_mm": "622", "height_mm": "618"} {
		s.put("set", `{"field":"`+field+`","value":`+value+`,"over":[]}`)
	}
	for _, colour := range []string{"red", "brown", "blue"} {
		s.put("dwell", `{"colour":"`+colour+`","liquid":"","s":5400,"temp_c":25,"faces":"both","name":"Osk Tarrin"}`)
	}
	s.put("reading", `{"q":"conductivity","value":4.1,"unit":"uS/cm","source":true,"liquor_c":21}`)
	k := 800.0
	for i := range 9 {
		what := "rinse"
		if i == 0 {
			what = "wash"
		}
		name := s.put("begin", `{"what":"`+what+`","liquid":"`+water+`","litres":8,"target_s":600,"temp_c":22}`)
		of := `,"of":"` + name + `"}`
		for j := range 4 {
			s.now += 2 * minuteMS
			s.put("reading", `{"q":"temperature","value":21.5,"unit":"degC"`+of)
			s.put("reading", `{"q":"ph","value":6.5,"unit":"pH"`+of)
			s.put("act", `{"what":"rock","s":30`+of)
			if j > 1 {
				s.put("reading", `{"q":"conductivity","value":`+strconv.FormatFloat(k+4, 'f', 1, 64)+`,"unit":"uS/cm","liquor_c":21.5,"at_end":`+strconv.FormatBool(j == 3)+of)
			}
			s.put("reading", `{"q":"colour","value":0,"unit":"0-5"`+of)
		}
		k /= 3
		s.put("end", `{`+of[1:])
	}
	name := s.put("begin", `{"what":"drying","face":"up","held":"weights","airflow":"gentle","sides":1}`)
	s.put("reading", `{"q":"air_temperature","value":21,"unit":"degC"}`)
	s.put("reading", `{"q":"humidity","value":47,"unit":"%"}`)
	for i := range 6 {
		s.now += 15 * minuteMS
		s.put("act", `{"what":"check","of":"`+name+`"}`)
		s.put("reading", `{"q":"mass","value":`+strconv.Itoa(96-6*i)+`,"unit":"g","of":"`+name+`"}`)
	}
	return s
}

func BenchmarkOf(b *testing.B) {
	s := washDay()
	st := s.fold(s.entries)
	for b.Loop() {
		Of(st)
	}
	b.ReportMetric(float64(len(s.entries)), "entries")
}

func BenchmarkAppendJSON(b *testing.B) {
	s := washDay()
	w := Of(s.fold(s.entries))
	var dst []byte
	for b.Loop() {
		dst = w.AppendJSON(dst[:0])
	}
	b.ReportMetric(float64(len(dst)), "bytes")
}
