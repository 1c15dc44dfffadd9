package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

// version is set by the build (-ldflags "-X main.version=1.2.3").
var version string

type versionCmd struct{}

func (versionCmd) Run(std streams) error {
	fmt.Fprintf(std.out, "sinkside %s (%s %s/%s)\n", versionText(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return nil
}

// versionText is the version of the build, or else the commit that it was built from.
func versionText() string {
	if version != "" {
		return version
	}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			commit = s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = " with changes"
		}
	}
	if commit == "" {
		return "unreleased"
	}
	return "unreleased, commit " + commit + changed
}
