package scenarios

import (
	"strings"
	"testing"
)

// Each rule of how parts fit and of what a torque can be, with the words in
// which it is told.
func TestRules(t *testing.T) {
	const post, cable = "  - battery post: M8\n    nut: 12 N·m\n", "  - cable: 1/0 AWG\n    length: 1 m\n"
	const bar = "  - link bar: copper\n    section: 20 x 3 mm\n    length: 50 mm\n"
	const holder = "  - compact holder: generic\n    fuse: 300 A\n    nut: 8 N·m\n"
	const battery = "  - battery switch: generic\n    nuts: 20 N·m\n"
	tests := []struct {
		name, path string
		want       []string // place, message and hint of each problem
	}{
		{"torque/past yield", strings.Replace(post, "12", "900", 1) + cable, []string{
			"5:10 900 N·m would break M8: its thread (class 5.8, dry) yields at 26 N·m even at the highest friction"}},
		{"torque/number of another unit", "  - battery post: M10\n    nut: 428 N·m\n" + cable, []string{
			"5:10 428 N·m would break M10: its thread (class 5.8, dry) yields at 51 N·m even at the highest friction | was 428 in·lb meant? That is 48 N·m"}},
		{"torque/unit too small", "  - battery post: M10\n    nut: 22 in·lb\n" + cable, []string{
			"5:10 warning: 22 in·lb is 2.5 N·m, 6 % of what M10 holds; 22 N·m would be usual for it"}},
		{"torque/near yield", strings.Replace(post, "12", "22", 1) + cable, []string{
			"5:10 warning: 22 N·m takes the thread to 105 % of its yield figure if it is dry (nut factor 0.2, friction 0.15) | the maker of the part may allow less than the bolt"}},
		{"melts/within the rating", cable + "  - high-capacity holder: generic\n    fuse: 300 A\n    nuts: 20 N·m\n    melts: 200 A in 30 s\n" + cable, []string{
			"9:12 warning: a fuse carries its rating for good: 200 A is not above its 300 A"}},
		{"torque/low and no other unit fits", strings.Replace(post, "12", "1.5", 1) + cable, []string{
			"5:10 warning: 1.5 N·m is 7 % of what M8 holds: hardly any force clamps the faces"}},
		{"torque/more than studs", cable + strings.Replace(battery, "20 N·m", "[20 N·m, 20 N·m, 3 N·m]", 1) + cable, []string{
			"7:12 a battery switch has two studs, but 3 torques stand here | one torque for all nuts, or one for each stud in the order of the path"}},
		{"torque/one for each stud", cable + strings.Replace(battery, "20 N·m", "[20 N·m, 15 N·m]", 1) + cable, nil},
		{"torque/beside another mistake", strings.Replace(post, "12", "900", 1) + strings.Replace(cable, "1 m", "1", 1), []string{
			"5:10 900 N·m would break M8: its thread (class 5.8, dry) yields at 26 N·m even at the highest friction",
			"7:13 a length needs a unit after \"1\" | write for example \"1 mm\""}},
		{"meeting/two studs", post + battery + cable, []string{
			"6:5 two studs meet here: that of the battery post and that of the battery switch | a stud clamps a face with a hole: put a link bar or a cable between them"}},
		{"meeting/two studs with a washer between", post + "  - steel washer: M8\n" + battery + cable, []string{
			"7:5 two studs meet here: that of the battery post and that of the battery switch | a stud clamps a face with a hole: put a link bar or a cable between them"}},
		{"meeting/two lugs", cable + cable, []string{
			"6:5 no stud clamps these: the cable's lug and the cable's lug both have a hole only | put a part with a stud between them: a battery switch, a holder or a bus bar"}},
		{"meeting/base of a compact holder on a lug", cable + holder + bar, []string{
			"6:5 no stud clamps these: the cable's lug and the compact holder's base both have a hole only | put a part with a stud between them: a battery switch, a holder or a bus bar"}},
		{"meeting/cable without a lug", post + strings.Replace(cable, "1 m\n", "1 m\n    lugs: last\n", 1) + post, []string{
			"8:11 the cable has no lug where it meets the battery post | leave \"lugs\" out, or write \"lugs: both\""}},
		{"meeting/not judged where a part is unknown", cable + "  - battery swich: generic\n    nuts: 20 N·m\n" + cable, []string{
			"6:5 unknown kind of part \"battery swich\" | did you mean \"battery switch\"?"}},
		{"end/stud with nothing on it", cable + battery, []string{
			"6:5 nothing lies on the last stud of this battery switch | add the cable, bar or post that the current goes on to"}},
		{"end/first stud with nothing on it", battery + cable, []string{
			"4:5 nothing lies on the first stud of this battery switch | add the cable, bar or post that the current comes from"}},
		{"end/post alone", post, []string{
			"4:5 nothing lies on the stud of this battery post | add the cable, bar or post that the current goes on to"}},
		{"end/compact holder on nothing", holder + cable, []string{
			"4:5 the base of this compact holder lies on no stud | put the part whose stud carries it, a battery post for example, next to it"}},
		{"end/washer", post + cable + "  - steel washer: M8\n", []string{
			"8:5 a washer lies between two faces | put it between the two parts that press on it"}},
		{"end/post within the path", cable + post + cable, []string{
			"6:5 a battery post cannot stand within the path | the current comes from a body or goes into it: put the battery post first or last"}},
		{"face/no metal around the hole", post + strings.Replace(bar, "20", "8", 1), []string{
			"6:5 no face is left around the hole for M8 between battery post M8 and link bar | a smaller thread, or a wider part"}},
		{"value/without effect", post + strings.Replace(holder, "300 A\n", "300 A\n    lies: flat\n", 1) + cable, []string{
			"8:11 \"lies\" has no effect here: the generic compact holder has no such figure | leave it out"}},
		{"value/fuse with hardly any drop", post + strings.Replace(holder, "300 A\n", "300 A\n    fuse drop: 0.1 mV\n", 1) + cable, []string{
			"8:16 fuse 300 A: the data 0.0001 V at 300 A, leave nothing for the element beside its caps"}},
		{"value/fuse of another size", post + strings.Replace(holder, "300 A", "600 A", 1) + cable, []string{
			"7:11 warning: the generic compact holder has the size of fuses from 30 A to 300 A | state its sizes below it, or take the figures with care"}},
		{"value/surface larger than the sides", post + strings.Replace(bar, "50 mm\n", "50 mm\n    surface: 1 m²\n", 1), []string{
			"9:14 this is more than all sides of the link bar have, 23.0 cm² | leave it out, or correct section and length"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { tells(t, written(test.path), test.want) })
	}
}

// tells holds what is told of a scenario against what is to be told.
func tells(t *testing.T, data []byte, want []string) {
	t.Helper()
	s, err := Read("a.yaml", data)
	var got []Problem
	if problems, ok := err.(*Problems); ok {
		got = problems.List
	} else if err != nil {
		t.Fatal(err)
	} else {
		got = s.File.Warnings
	}
	if a, b := strings.Join(told(got), "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("told\n%s\nwant\n%s", a, b)
	}
}

// Each rule of how batteries, branches, circuits and bus bars fit.
func TestRules_groups(t *testing.T) {
	const post, cable = "  - battery post: M8\n    nut: 12 N·m\n", "  - cable: 25 mm²\n    length: 1 m\n"
	const batteries = "  - batteries: A B\n    each: [{battery post: M8, nut: 12 N·m}, {cable: 25 mm², length: 1 m}]\n"
	const washer = "  - steel washer: M8\n"
	bus := func(studs string) string {
		return "  - bus bar: copper\n    section: 25 × 5 mm\n    studs: " + studs + "\n    spacing: 40 mm\n    nuts: 20 N·m\n"
	}
	branches := func(a, b string) string { return "  - branches:\n      a: [" + a + "]\n      b: [" + b + "]\n" }
	const lug, sw = "{cable: 16 mm², length: 1 m}", "{battery switch: generic, nuts: 20 N·m}"
	tests := []struct {
		name, path string
		want       []string
	}{
		{"batteries/after a part", cable + "  - battery switch: generic\n    nuts: 20 N·m\n" + batteries + post, []string{
			"8:5 batteries can only be the first of the path | the current comes from them: put them first",
			"9:13 a battery post cannot stand within the path | the current comes from a body or goes into it: put the battery post first or last"}},
		{"batteries/without a stud of the name", batteries + bus("A out") + cable, []string{
			"4:16 the bus bar has no stud \"B\" for the battery of that name | each battery lands on the stud of its name: write it into \"studs\", where it sits along the bar"}},
		{"circuits/misspelt", cable + bus("in pump lamp") + "  - circuits: {pmup: {current: 5 A, path: [" + lug + "]}, lamp: {current: 5 A, path: [" + lug + "]}}\n", []string{
			"1:1 \"current\" stands beside circuits, which have currents of their own | leave it out: the circuits' currents are added",
			"11:16 the bus bar has no stud \"pmup\" for the circuit of that name | did you mean \"pump\"?"}},
		{"circuits/steps that would repeat", post + "  - circuits: {a: {current: [5 A for 1 min, 0 A for 1 min], path: [" + lug + "]}}\n", []string{
			"1:1 \"current\" stands beside circuits, which have currents of their own | leave it out: the circuits' currents are added",
			"6:45 the steps of a circuit do not repeat, and this one does not say what flows after the last | add a last line without a time, for example \"0 A\""}},
		{"circuits/a duty", post + "  - circuits: {a: {current: 5 A, duty: [5 A for 1 min], path: [" + lug + "]}}\n", []string{
			"1:1 \"current\" stands beside circuits, which have currents of their own | leave it out: the circuits' currents are added",
			"6:34 unknown key \"duty\" | a circuit draws a current, one value or steps that do not repeat"}},
		{"batteries/a number", strings.Replace(batteries, "A B", "3", 1) + post, []string{
			"4:16 batteries are written by their names, not by their number | write a name for each, for example \"batteries: A B C\""}},
		{"batteries/a name of the bar's own", strings.Replace(batteries, "A B", "A out", 1) + bus("A out") + cable, []string{
			"4:16 \"out\" cannot be a name here | on a bus bar the part before it lands on the stud \"in\" and the part after it on \"out\": choose another name"}},
		{"bus bar/a number of studs", batteries + bus("3") + cable, []string{
			"8:12 studs are written by their names, not by their number | write a name for each, for example \"studs: A B C\""}},
		{"bus bar/a stud to spare", batteries + bus("A B spare out") + cable, nil},
		{"branches/one alone", post + "  - branches: {left: [" + lug + "]}\n", []string{
			"6:16 one branch alone stands beside nothing | write its parts into the path itself, without \"branches\", or add the other branch"}},
		{"bus bar/without a way out", batteries + bus("A B C") + cable, []string{
			"8:12 the bus bar has no stud \"out\", on which the outgoing cable lands | the part before a bus bar lands on the stud \"in\", the part after it on \"out\": name it where it sits along the bar, for example \"studs: A … out\""}},
		{"bus bar/without a way in", cable + bus("a out") + cable, []string{
			"8:12 the bus bar has no stud \"in\", on which the incoming cable lands | the part before a bus bar lands on the stud \"in\", the part after it on \"out\": name it where it sits along the bar, for example \"studs: in a …\""}},
		{"bus bar/at the end", batteries + bus("A B out"), []string{
			"6:5 nothing lies on the last stud of this bus bar | add the cable, bar or post that the current goes on to"}},
		{"bus bar/after a stud", cable + "  - battery switch: generic\n    nuts: 20 N·m\n" + bus("in out") + cable, []string{
			"8:5 two studs meet here: that of the battery switch and that of the bus bar | a stud clamps a face with a hole: put a link bar or a cable between them"}},
		{"bus bar/too short", batteries + bus("A B out") + "    length: 60 mm\n" + cable, []string{
			"11:13 3 studs at this spacing need 80.0 mm | leave the length out, or correct it"}},
		{"bus bar/return without batteries", cable + bus("in out") + "    return: same end\n" + cable, []string{
			"11:13 no row of batteries meets on this bar, so that no negative leaves one | leave \"return\" out"}},
		{"bus bar/torques for other studs", batteries + strings.Replace(bus("A B out"), "20 N·m", "[20 N·m, 20 N·m]", 1) + cable, []string{
			"10:12 a bus bar has 3 studs, but 2 torques stand here | one torque for all nuts, or one for each stud in the order of the path"}},
		{"bus bar/a gap beside one bar", batteries + bus("A B out") + "    gap: 5 mm\n" + cable, []string{
			"11:10 one bar has no gap beside it | say how many there are: \"bars: 2\""}},
		{"circuits/before a part", post + "  - circuits:\n      a: {current: 5 A, path: [" + lug + "]}\n" + "  - battery switch: generic\n    nuts: 20 N·m\n" + cable, []string{
			"1:1 \"current\" stands beside circuits, which have currents of their own | leave it out: the circuits' currents are added",
			"6:5 circuits can only be the last of the path | the current ends in them; what comes after a part of them belongs into their paths"}},
		{"branches/each with a stud", cable + branches(sw, sw) + cable, []string{
			"8:12 two studs meet here: that of the battery switch and that of the battery switch | a stud clamps a face with a hole: put a link bar or a cable between them"}},
		{"branches/without a stud", cable + branches(lug, lug) + post, []string{
			"7:12 no stud clamps these: the cable's lug and the cable's lug both have a hole only | put a part with a stud between them: a battery switch, a holder or a bus bar"}},
		{"branches/a post within", post + branches("{terminal: M8, nut: 5 N·m}", lug) + post, []string{
			"7:12 a terminal cannot stand within the path | the current comes from a body or goes into it: put the terminal first or last; a row of studs on which cables meet is a bus bar: \"- bus bar: copper\""}},
		{"branches/a washer alone", post + branches("{steel washer: M8}", lug) + post, []string{
			"7:12 a washer lies between two faces | put it between the two parts that press on it"}},
		{"branches/a washer at the free end", post + branches(lug, lug+", {steel washer: M8}"), []string{
			"8:42 a washer lies between two faces | put it between the two parts that press on it"}},
		{"branches/two from one post to the room", post + washer + branches(lug, lug), nil},
		{"bars/side by side and flat", cable + "  - battery switch: generic\n    nuts: 20 N·m\n  - bar: copper\n    section: 40 × 5 mm\n    length: 1 m\n    bars: 2\n    lies: flat\n", []string{
			"8:5 bar: the way it lies must be on edge or upright for bars side by side: air does not rise between level ones"}},
		{"cable/bundle and conduit counted twice", post + cable + "    bundle: 3 touching\n    conduit: 50 mm plastic, 3 cables\n", []string{
			"9:14 the cables are counted twice, in the bundle and in the conduit | leave \"bundle\" out"}},
		{"cable/conduit too narrow", post + cable + "    conduit: 10 mm plastic\n", []string{
			"6:5 cable 25 mm²: the conduit's inner diameter of 9 mm does not hold 1 cables of 9.772 mm"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { tells(t, written(test.path), test.want) })
	}
	t.Run("box/holds nothing that is there", func(t *testing.T) {
		const box = "enclosure: {width: 30 cm, height: 20 cm, depth: 10 cm, wall: steel, holds: [battery psot]}\n"
		tells(t, append([]byte(box), written(post+cable)...), []string{
			"1:77 \"battery psot\" is no part of the path | did you mean \"battery post\"?"})
	})
	t.Run("box/holds nothing", func(t *testing.T) {
		const box = "enclosure: {width: 30 cm, height: 20 cm, depth: 10 cm, wall: steel}\n"
		tells(t, append([]byte(box), written(post+cable)...), []string{
			"1:1 nothing of the path is in this box | say what it holds: \"holds: [compact holder]\""})
	})
	t.Run("box/a fan in metres a second", func(t *testing.T) {
		const box = "enclosure: {width: 30 cm, height: 20 cm, depth: 10 cm, wall: steel, holds: cable, fan: 8 m/s}\n"
		tells(t, append([]byte(box), written(post+cable)...), []string{
			"1:88 m/s is a speed; a flow of air is wanted | write for example \"30 m³/h\""})
	})
	t.Run("power/batteries without a voltage", func(t *testing.T) {
		tells(t, []byte(strings.Replace(string(written(batteries+post)), "current: 140 A", "power: 500 W", 1)), []string{
			"1:8 a power needs the voltage that it is drawn at | write below \"batteries:\" for example \"voltage: 12.8 V\", one for all or a list"})
	})
	t.Run("power/batteries' voltages beside that of the bank", func(t *testing.T) {
		file := strings.Replace(string(written(batteries+post)), "current: 140 A", "power: 500 W\nbank voltage: 12 V", 1)
		tells(t, []byte(strings.Replace(file, "A B\n", "A B\n    voltage: 12.8 V\n", 1)), []string{
			"2:15 warning: the power is drawn at the batteries' own voltages, not at the \"bank voltage\" | it counts for drops in % only"})
	})
	t.Run("current/none without batteries", func(t *testing.T) {
		tells(t, []byte(strings.Replace(string(written(post+cable)), "140 A", "0 A", 1)), []string{
			"1:10 no current flows at all | write \"140 A\", or a list: \"0 A to 140 A over 5 min\", \"140 A for 15 min\", \"100 A\""})
	})
	t.Run("current/charging", func(t *testing.T) {
		tells(t, []byte(strings.Replace(string(written(batteries+post)), "140 A", "-20 A", 1)), []string{
			"1:10 the current must be between 0 A and 10 kA; it is -20 A | a current flows the way the path is written; for charging write the path from the charger to the battery post"})
	})
	t.Run("path/too many parts", func(t *testing.T) {
		names := strings.Join(strings.Split("abcdefghijklmnopqrstuvwx", ""), " ")
		path := "  - batteries: " + names + "\n    each:\n" + strings.ReplaceAll(strings.Repeat(strings.ReplaceAll(cable, "  -", "      -"), 9), "\n    length", "\n        length")
		tells(t, written(path), []string{
			"4:5 the path has 216 parts | a stack of up to 200 parts is computed; split it where a long cable lets no heat through"})
	})
}

// told writes problems in short.
func told(problems []Problem) []string {
	var lines []string
	for _, p := range problems {
		line := strings.Split(strings.TrimPrefix(p.Error(), p.File+":"), "\n")[0]
		line = strings.Replace(line, ": ", " ", 1)
		if p.Hint != "" {
			line += " | " + p.Hint
		}
		lines = append(lines, line)
	}
	return lines
}
