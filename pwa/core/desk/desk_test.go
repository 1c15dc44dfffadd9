package desk

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

func ask(d *Desk, request string) (head, payload string) {
	h, p, _ := bytes.Cut(d.Call([]byte(request)), []byte{'\n'})
	return string(h), string(p)
}

func TestTheLibraryListsAndRuns(t *testing.T) {
	var d Desk
	head, list := ask(&d, `{"op":"list"}`+"\n")
	var all []struct{ Name, Example string }
	if err := json.Unmarshal([]byte(list), &all); err != nil || head != "{}" || len(all) < 10 {
		t.Fatalf("%s %s (%v)", head, list, err)
	}
	for _, r := range all {
		head, got := ask(&d, `{"op":"run","name":"`+r.Name+`"}`+"\n"+r.Example)
		if head != "{}" || !strings.HasPrefix(got, `{"values":`) {
			t.Errorf("%s: %s %s", r.Name, head, got)
		}
	}
	if _, got := ask(&d, `{"op":"run","name":"tray"}`+"\n{}"); !strings.HasPrefix(got, `{"problems":`) {
		t.Errorf("tray without inputs: %s", got)
	}
}

func TestBadRequestsAreRefused(t *testing.T) {
	for _, request := range []string{"", "what\n", "{}\n", `{"op":"nothing"}` + "\n", `{"op":"run"}` + "\n{}", `{"op":7}` + "\n"} {
		var d Desk
		if head, _ := ask(&d, request); !strings.HasPrefix(head, `{"error":"`) || strings.Contains(head, "crashed") {
			t.Errorf("%q: %s", request, head)
		}
	}
}
