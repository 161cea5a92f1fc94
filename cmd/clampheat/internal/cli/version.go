package cli

import (
	"runtime/debug"
	"strings"
)

// version says which program this is, from what the Go tools recorded when
// they built it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "clampheat, built without a record of its version\n"
	}
	return described(info)
}

func described(info *debug.BuildInfo) string {
	words := []string{"clampheat", info.Main.Version}
	if info.Main.Version == "" {
		words[1] = "(devel)"
	}
	settings := map[string]string{}
	for _, s := range info.Settings {
		settings[s.Key] = s.Value
	}
	if revision := settings["vcs.revision"]; revision != "" {
		const enough = 12 // characters that tell revisions apart
		words = append(words, "revision "+revision[:min(enough, len(revision))])
		if settings["vcs.modified"] == "true" {
			words = append(words, "with changes")
		}
	}
	return strings.Join(words[:2], " ") + ", " + strings.Join(append(words[2:], "built with "+info.GoVersion), ", ") + "\n"
}
