package web

import (
	"bufio"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"sinkside/server/answer"
)

func TestABodyThatDoesNotComeIsTooSlow(t *testing.T) {
	s := New(Config{Log: zerolog.Nop()})
	srv := httptest.NewServer(budget(maxBody, 20*time.Millisecond, 10*time.Second, s.handle(func(_ http.ResponseWriter, r *http.Request) error {
		_, err := io.ReadAll(r.Body)
		return bodyFault(err)
	})))
	defer srv.Close()
	conn, err := net.Dial("tcp", srv.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if _, err := io.WriteString(conn, "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 10\r\n\r\nhalf"); err != nil {
		t.Fatal(err)
	}
	res, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	var f answer.Refusal
	if err := json.NewDecoder(res.Body).Decode(&f); err != nil || res.StatusCode != http.StatusRequestTimeout || f.Code != "too-slow" {
		t.Errorf("%d %+v (%v), want 408 too-slow", res.StatusCode, f, err)
	}
}

func TestABrokenRouteDoesNotEndTheServer(t *testing.T) {
	s := New(Config{Log: zerolog.Nop()})
	h := s.survive(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("a mistake") }))
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/", nil))
	var f answer.Refusal
	if err := json.Unmarshal(w.Body.Bytes(), &f); err != nil || w.Code != http.StatusInternalServerError || f.Code != "failed" {
		t.Errorf("%d %s, want 500 failed", w.Code, w.Body)
	}
}
