package tstypes

import (
	"reflect"
	"testing"
)

type value []byte

type inner struct {
	MS int64 `json:"ms"`
}

type outer struct {
	Name   string            `json:"name"`
	Open   bool              `json:"open"`
	Count  uint16            `json:"count"`
	Size   float64           `json:"size"`
	When   *inner            `json:"when"`
	Note   string            `json:"note,omitempty"`
	Limit  *int64            `json:"limit,omitempty"`
	Steps  []inner           `json:"steps"`
	By     map[string][]int  `json:"by"`
	Last   map[string]*inner `json:"last"`
	Body   value             `json:"body"`
	Hidden string            `json:"-"`
	secret int
}

func TestGenerate(t *testing.T) {
	_ = outer{secret: 1}
	got, err := Generate([]reflect.Type{reflect.TypeFor[outer]()}, Names{reflect.TypeFor[inner](): "Moment"})
	if err != nil {
		t.Fatal(err)
	}
	want := `export interface outer {
  name: string;
  open: boolean;
  count: number;
  size: number;
  when: Moment | null;
  note?: string;
  limit?: number;
  steps: Moment[];
  by: Record<string, number[]>;
  last: Record<string, Moment | null>;
  body: unknown;
}

export interface Moment {
  ms: number;
}
`
	if got != want {
		t.Errorf("Generate =\n%s\nwant\n%s", got, want)
	}
}

func TestGenerateRefuses(t *testing.T) {
	type untagged struct{ Name string }
	type channel struct {
		C chan int `json:"c"`
	}
	type byNumber struct {
		M map[int]string `json:"m"`
	}
	for _, root := range []reflect.Type{reflect.TypeFor[untagged](), reflect.TypeFor[channel](), reflect.TypeFor[byNumber]()} {
		if got, err := Generate([]reflect.Type{root}, nil); err == nil {
			t.Errorf("Generate of %s = %s, want an error", root, got)
		}
	}
	two := []reflect.Type{reflect.TypeFor[inner](), reflect.TypeFor[outer]()}
	if got, err := Generate(two, Names{two[0]: "Same", two[1]: "Same"}); err == nil {
		t.Errorf("two structs of one name = %s, want an error", got)
	}
}
