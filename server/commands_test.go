package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"
)

var update = flag.Bool("update", false, "write what the commands said into testdata")

// TestCommands holds conversations: each file in testdata is one, run line by line in a folder
// with the files that it carries. A line "$ sinkside …" is typed, "< file" feeds it; what follows
// is what was said on both outputs, and "[exit N]" where that is not 0. Codes, ids, times and the
// folder's own path stand as CODE, ID, TIME and DIR.
func TestCommands(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no conversations: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			dir := t.TempDir()
			golden := filepath.Join(here(t), file)
			for _, f := range archive.Files {
				if err := os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			t.Chdir(dir)
			want := string(archive.Comment)
			got := converse(t, want, dir)
			if *update {
				archive.Comment = []byte(got)
				if err := os.WriteFile(golden, txtar.Format(archive), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if got != want {
				t.Errorf("said:\n%s\nwant:\n%s\n%s", got, want, firstDifference(got, want))
			}
		})
	}
}

func here(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// converse types each command of a conversation and writes the conversation anew.
func converse(t *testing.T, script, dir string) string {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(script) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "#"):
			if b.Len() > 0 {
				b.WriteByte('\n')
			}
			b.WriteString(line + "\n")
		case strings.HasPrefix(line, "$ sinkside"):
			b.WriteString("\n" + line + "\n" + typed(t, strings.TrimPrefix(line, "$ sinkside"), dir))
		}
	}
	return strings.TrimPrefix(b.String(), "\n")
}

func typed(t *testing.T, line, dir string) string {
	t.Helper()
	args, stdin, _ := strings.Cut(line, "<")
	var in []byte
	if name := strings.TrimSpace(stdin); name != "" {
		var err error
		if in, err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	code := run(context.Background(), strings.Fields(args), streams{bytes.NewReader(in), &out, &out})
	said := steady(out.String(), dir)
	if said != "" && !strings.HasSuffix(said, "\n") {
		said += "\n"
	}
	if code != 0 {
		said += fmt.Sprintf("[exit %d]\n", code)
	}
	return said
}

var changing = []struct {
	find *regexp.Regexp
	put  string
}{
	{regexp.MustCompile(`\b[C-Y2-9]{4}-[C-Y2-9]{4}\b`), "CODE"},
	{regexp.MustCompile(`\b[0-7][0-9A-HJKMNP-TV-Z]{25}\b`), "ID"},
	{regexp.MustCompile(`\b\d{4}-\d\d-\d\d \d\d:\d\d\b|\b\d\d:\d\d\b`), "TIME"},
	{regexp.MustCompile(`\b1[0-9]{12}\b`), "MILLISECONDS"},
	{regexp.MustCompile(`sinkside unreleased.*`), "sinkside VERSION"},
	{regexp.MustCompile(` +\n`), "\n"},
}

func steady(s, dir string) string {
	s = strings.ReplaceAll(s, dir, "DIR")
	for _, c := range changing {
		s = c.find.ReplaceAllString(s, c.put)
	}
	return s
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("first difference in line %d: %q, want %q", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}

func TestReckonAnswersInJSON(t *testing.T) {
	var out, problems bytes.Buffer
	in := strings.NewReader(`{"width": "60", "length": {"value": "80", "unit": "cm"}, "depth": "5,5"}`)
	if code := run(context.Background(), []string{"reckon", "tray"}, streams{in, &out, &problems}); code != 0 || problems.Len() > 0 {
		t.Fatalf("exit %d, %s", code, &problems)
	}
	var answer struct {
		Values []struct {
			Name  string
			Value float64
			Unit  string
		}
		Working, Sources []any
	}
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
		t.Fatal(err)
	}
	// 80 cm × 60 cm × 5.5 cm ÷ 1000, by arithmetic.
	if v := answer.Values[0]; v.Name != "litres" || math.Abs(v.Value-26.4) > 1e-9 || v.Unit != "L" {
		t.Errorf("first value = %+v, want 26.4 L", v)
	}
	if len(answer.Working) == 0 || len(answer.Sources) == 0 {
		t.Error("no working or no sources")
	}
	out.Reset()
	if code := run(context.Background(), []string{"reckon", "--list"}, streams{in, &out, &problems}); code != 0 || !json.Valid(out.Bytes()) {
		t.Errorf("--list: exit %d, %s", code, &out)
	}
}

func TestNoCommandShowsTheHelp(t *testing.T) {
	var bare, help, problems bytes.Buffer
	for args, out := range map[string]*bytes.Buffer{"": &bare, "--help": &help} {
		if code := run(context.Background(), strings.Fields(args), streams{nil, out, &problems}); code != exitOK {
			t.Errorf("sinkside %s: exit %d, want 0", args, code)
		}
	}
	if bare.String() != help.String() || !strings.Contains(help.String(), "A first day:") {
		t.Errorf("bare command said:\n%s", &bare)
	}
}
