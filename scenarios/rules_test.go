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
			"6:5 no stud clamps these: the cable's lug and the cable's lug both have a hole only | put a part with a stud between them, a battery switch or a holder"}},
		{"meeting/base of a compact holder on a lug", cable + holder + bar, []string{
			"6:5 no stud clamps these: the cable's lug and the compact holder's base both have a hole only | put a part with a stud between them, a battery switch or a holder"}},
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
		t.Run(test.name, func(t *testing.T) {
			s, err := Read("a.yaml", written(test.path))
			var got []Problem
			if problems, ok := err.(*Problems); ok {
				got = problems.List
			} else if err != nil {
				t.Fatal(err)
			} else {
				got = s.File.Warnings
			}
			if a, b := strings.Join(told(got), "\n"), strings.Join(test.want, "\n"); a != b {
				t.Errorf("told\n%s\nwant\n%s", a, b)
			}
		})
	}
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
