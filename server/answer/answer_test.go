package answer

import (
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"sinkside/store"
)

func TestOfFindsWhatToSay(t *testing.T) {
	for name, row := range map[string]struct {
		err  error
		want *Refusal
	}{
		"a refusal inside": {fmt.Errorf("read: %w", BadJSON), BadJSON},
		"a full disk":      {fmt.Errorf("put: %w", store.ErrFull), DiskFull},
		"a large body":     {&http.MaxBytesError{Limit: 4}, TooLarge},
		"anything else":    {errors.New("no such file"), Failed},
	} {
		got := Of(row.err)
		if got.Status != row.want.Status || got.Code != row.want.Code || got.Say != row.want.Say {
			t.Errorf("%s: %+v, want %+v", name, got, row.want)
		}
	}
}

func TestARefusalKeepsItsCauseToItself(t *testing.T) {
	slow := &Refusal{Status: http.StatusTooManyRequests, Code: "slow-down", Say: "Wait.", Wait: 1500 * time.Millisecond}
	w := httptest.NewRecorder()
	slow.Because(errors.New("a secret")).Write(w)
	if w.Code != 429 || w.Body.String() != `{"code":"slow-down","say":"Wait."}`+"\n" || w.Header().Get("Retry-After") != "2" {
		t.Errorf("%d %s %v", w.Code, w.Body, w.Header())
	}
}
