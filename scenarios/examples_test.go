package scenarios_test

import (
	"errors"
	"fmt"
	"log"
	"strings"
	"testing"

	"clampheat/model"
	"clampheat/scenarios"
)

func TestExampleFiles(t *testing.T) {
	if n := len(scenarios.Examples()); n < 3 {
		t.Fatalf("%d examples", n)
	}
	for _, e := range scenarios.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			data, err := scenarios.Example(e.Name)
			if err != nil {
				t.Fatal(err)
			}
			text := string(data)
			for _, want := range []string{
				scenarios.Modeline + "\n", "Invented", "disconnected", "tools insulated", "burns", "does not protect against a hot joint",
				"raise its rating", "parallel", "No washer", "attended", "not a certificate", "local codes", "makers' instructions", "licensed practice",
			} {
				if !strings.Contains(text, want) {
					t.Errorf("does not say %q", want)
				}
			}
			if e.Title == "" || e.Text == "" {
				t.Errorf("is listed as %+v", e)
			}
			s, err := scenarios.Open(scenarios.ExamplePrefix + e.Name)
			if err != nil {
				t.Fatal(err)
			}
			if s.Name != "example:"+e.Name {
				t.Errorf("is called %q", s.Name)
			}
		})
	}
}

func TestUnknownExample(t *testing.T) {
	_, err := scenarios.Open("example:compct")
	var unknown *scenarios.UnknownExampleError
	if !errors.As(err, &unknown) || unknown.Near != "compact" {
		t.Errorf("got %v", err)
	}
	if want := `there is no example "compct"; did you mean "compact"?`; err.Error() != want {
		t.Errorf("got %q, want %q", err, want)
	}
}

func TestStarter(t *testing.T) {
	for _, e := range scenarios.Starters() {
		data, err := scenarios.Starter(e.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := scenarios.Read(e.Name+".yaml", data); err != nil {
			t.Error(err)
		}
	}
}

// A scenario becomes a stack, as it is and with one assumption at the end of
// its range.
func ExampleScenario_Stack() {
	s, err := scenarios.Open("example:compact")
	if err != nil {
		log.Fatal(err)
	}
	for _, a := range s.Assumptions() {
		if a.ID == "compact holder.base width" {
			fmt.Println(a.ID+":", a)
			stack, err := s.Stack(map[string]float64{a.ID: a.Value.Low})
			if err != nil {
				log.Fatal(err)
			}
			fmt.Printf("narrowest: %.0f mm\n", 1e3*stack.Parts[1].(*model.Block).Width)
		}
	}
	// Output:
	// compact holder.base width: 20.0 mm (18.0 … 25.0 mm)
	// narrowest: 18 mm
}

// A scenario with branches tells which parts each has, and what is left when one
// opens.
func ExampleScenario_Ways() {
	s, err := scenarios.Read("two.yaml", []byte(`current: 200 A
air: 25 °C
path:
  - battery post: M10
    nut: 20 N·m
  - branches:
      left: [{cable: 50 mm², length: 1 m}]
      right: [{cable: 35 mm², length: 1 m}]
  - inverter terminal: M10
    nut: 20 N·m
`))
	if err != nil {
		log.Fatal(err)
	}
	for i, way := range s.Ways() {
		if way.Kind != scenarios.BranchWay {
			continue
		}
		_, opened, err := s.Opened(i)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %d parts; without it the stack has %d\n", way.Name, len(way.Parts), len(opened.Parts))
	}
	// Output:
	// left: 3 parts; without it the stack has 5
	// right: 3 parts; without it the stack has 5
}
