package cli

import (
	"runtime/debug"
	"testing"
)

func TestVersion(t *testing.T) {
	for name, c := range map[string]struct {
		info debug.BuildInfo
		want string
	}{
		"released": {debug.BuildInfo{GoVersion: "go1.26.0", Main: debug.Module{Version: "v1.2.0"}}, "clampheat v1.2.0, built with go1.26.0\n"},
		"from a checkout": {debug.BuildInfo{GoVersion: "go1.26.0", Settings: []debug.BuildSetting{
			{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}}},
			"clampheat (devel), revision 0123456789ab, with changes, built with go1.26.0\n"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := described(&c.info); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
