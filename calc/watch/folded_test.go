package watch

import (
	"strings"
	"testing"
)

// A wash day as it is written and folded, from the first tap to dry.
func TestADayThatWasWritten(t *testing.T) {
	s := newScribe(7)
	look := func() *Watch { return Of(s.fold(s.entries)) }
	after := func(minutes int64) { s.now = nine + minutes*minuteMS }
	s.put("open", `{"name":"Harbour-office signal flag"}`)
	s.put("set", `{"field":"colours","value":"red, undyed","over":[]}`)
	has(t, "the dwell", look().Dwell.Say, "No test recorded for red.")
	s.put("dwell", `{"colour":"red","liquid":"Deionised water","s":1200,"temp_c":25,"faces":"both","name":"Osk Tarrin"}`)
	s.put("plan", `{"baths":[{"what":"presoak","liquid":"Deionised water","litres":8,"target_s":480,"temp_c":22},{"what":"rinse","liquid":"Deionised water","litres":8,"target_s":300}],"over":[]}`)
	w := look()
	has(t, "the dwell", w.Dwell.Say, "Tested for 20 min, which red sets; Osk Tarrin vouches for it.")
	has(t, "next", w.Next.Say, "Pre-soak 1: Deionised water, 8")
	after(0)
	soak := s.put("begin", `{"what":"presoak","liquid":"Deionised water","litres":8,"target_s":480,"temp_c":22,"planned":1,"unticked":["stop_plan_agreed"]}`)
	w = look()
	has(t, "cues", cues(w), "3 ahead: Pre-soak 1: 5 min left\n", "8 target: Pre-soak 1: the time is up!", "16 mark: 80 % of the tested dwell: 4 min left!", "20 end:", "1440 mould")
	has(t, "warnings", said(w), "0 caution: Pre-soak 1 was begun with this unticked: ")
	after(8)
	s.put("heard", `{"cue":"target:`+soak+`"}`)
	has(t, "cues", cues(look()), "8 target: Pre-soak 1: the time is up! (RV)")
	after(9)
	s.put("end", `{"of":"`+soak+`"}`)
	lacks(t, "cues", cues(look()), "target", "mark")
	after(10)
	s.put("begin", `{"what":"rinse","liquid":"Deionised water","litres":8,"target_s":300,"planned":2}`)
	w = look()
	has(t, "cues", cues(w), "15 target: Rinse 1", "17 mark", "21 end")
	has(t, "next", w.Next.Say, "It is the last of the plan.")
	off := s.put("abort", `{"of":["`+s.entries[len(s.entries)-1].Name.String()+`"],"steps":["Drain the tray."],"generic":true}`)
	w = look()
	lacks(t, "cues", cues(w), "target")
	has(t, "warnings", said(w), "It was broken off.")
	s.put("reason", `{"of":"`+off+`","text":"red in the water"}`)
	lacks(t, "warnings", said(look()), "broken off")
	after(20)
	s.put("begin", `{"what":"drying","face":"up","held":"weights","airflow":"still","sides":1}`)
	after(30)
	s.put("overnight", `{"who":"IB","until":"`+stamp(nine+700*minuteMS)+`"}`)
	w = look()
	has(t, "cues", cues(w), "700 return: IB was to be back by now!", "700 check: Drying 1")
	if w.Drying == nil || !strings.Contains(w.Drying.Say, "Missing") {
		t.Errorf("drying %+v", w.Drying)
	}
	s.put("dry", `{"how":"touch"}`)
	w = look()
	if cues(w) != "" || w.Drying != nil || w.Next.Say != "Declared dry." {
		t.Errorf("after it is dry: %q, next %q, drying %+v", cues(w), w.Next.Say, w.Drying)
	}
}
