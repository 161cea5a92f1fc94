package cli

import (
	"fmt"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios"
	"clampheat/scenarios/study"
)

// The cautions of the trade. Common practice, no source, but for the burn
// thresholds, which come with their source in each result.
const (
	cautionIsolate  = "Disconnect the bank and check that the stack is dead before a nut is touched. Insulated tools, no rings or watches."
	cautionTouch    = "Bare metal above the touch figure of a result burns. Let it cool, or keep a cover on it."
	cautionHotJoint = "A fuse does not protect against a hot joint: the joint heats at a current that the fuse carries for good."
	cautionRating   = "A fuse that runs hot is never cured by a higher rating, nor by a second fuse in parallel fitted in the field."
	cautionWasher   = "No washer between faces that carry current; it belongs under the nut."
	cautionAttend   = "A soak is attended: stay with it, a hand's reach from the switch, and end it when a limit is passed."
	cautionBank     = "Disconnect every battery of a bank: each one keeps the bar live. Where one fuse opens, its current goes to the others."
	cautionUnlike   = "Do not put unlike batteries in parallel, nor an old one beside new ones: they share unequally and charge each other. What they can drive into a short circuit adds up; so must the interrupting rating."
	cautionEstimate = "An estimate, not a certificate: local codes, makers' instructions and licensed practice come first."
)

var cautions = []string{cautionIsolate, cautionTouch, cautionHotJoint, cautionRating, cautionWasher, cautionAttend, cautionBank, cautionUnlike, cautionEstimate}

func (s *session) cautionsCommand() *ucli.Command {
	return &ucli.Command{
		Name: "cautions", Usage: "print all cautions",
		UsageText: "clampheat cautions",
		Description: "Prints what to mind when stacks are worked on or run hot. A screen ends with the\n" +
			"those that apply to its result.",
		Action: func(c *ucli.Context) error {
			if err := nothing(c); err != nil {
				return err
			}
			return s.print(allCautions())
		},
	}
}

func allCautions() string {
	var b strings.Builder
	for _, text := range cautions {
		b.WriteString(texttable.Wrap("- ", text, width))
	}
	return b.String()
}

// further are the cautions that apply because of what lies in the stack: a
// washer between two faces, batteries in parallel.
func further(sc *scenarios.Scenario) []string {
	var list []string
	for i := range sc.File.Path {
		if strings.HasSuffix(sc.File.Path[i].Kind, "washer") {
			list = append(list, cautionWasher)
			break
		}
	}
	for _, w := range sc.File.Ways {
		if w.Kind == scenarios.BatteryWay {
			return append(list, cautionBank, cautionUnlike)
		}
	}
	return list
}

// steadyCautions are the two that apply: what the hottest metal does to a
// hand, and what a limit passed at a fuse does not call for.
func steadyCautions(r *study.Steady) [2]string {
	first := touchOr(r.Touch, cautionIsolate)
	if r.Exit() != exitFine && r.Element != nil {
		return [2]string{first, cautionRating}
	}
	return [2]string{first, cautionEstimate}
}

func soakCautions(r *study.Soak) [2]string {
	return [2]string{touchOr(r.Touch, cautionIsolate), cautionAttend}
}

func touchOr(t *study.TouchCaution, otherwise string) string {
	if t == nil {
		return otherwise
	}
	text := strings.TrimRight(t.Text, ".")
	if t.Source != "" {
		text += " (" + t.Source + ")"
	}
	return text + ". Disconnect the bank before a nut is touched."
}

// cautionLines ends a screen: the two that apply to its result, and those that
// its stack calls for besides.
func cautionLines(two [2]string, more ...string) string {
	var b strings.Builder
	label := "  CAUTION  "
	for _, text := range append(two[:], more...) {
		b.WriteString(texttable.Wrap(label, text, width))
		label = "           "
	}
	fmt.Fprintf(&b, "           All %d: clampheat cautions\n", len(cautions))
	return b.String()
}
