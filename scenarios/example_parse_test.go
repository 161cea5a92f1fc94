package scenarios_test

import (
	"fmt"

	"clampheat/scenarios"
)

func ExampleParse() {
	_, err := scenarios.Parse("feed.yaml", []byte(`current: 140 A
air: 25
path:
  - battery post: M8
    nut: 12 mm
  - cable: 1/0 AWG
    lenght: 1.5 m
`))
	fmt.Println(err)
	// Output:
	// feed.yaml:2:6: a temperature needs a unit after "25"
	//     2 | air: 25
	//       |      ^^
	//         allowed: °C, °F, K
	//         hint: write for example "25 °C"
	// feed.yaml:5:10: mm is a length; a torque is wanted
	//     5 |     nut: 12 mm
	//       |          ^^^^^
	//         allowed: N·m, in·lb, ft·lb
	//         hint: write for example "12 N·m"
	// feed.yaml:7:5: unknown key "lenght"
	//     7 |     lenght: 1.5 m
	//       |     ^^^^^^
	//         hint: did you mean "length"?
}
