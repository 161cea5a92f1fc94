package validation

import (
	"context"
	"embed"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"clampheat/materials"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file holds open measured soaks of other things against networks made
// from what is stated or published about them; testdata/measured_inputs.json
// says which is which and was written before any comparison. None is of a
// bolted stack, so all errors are reported as found and none is judged.

//go:embed testdata/measured_inputs.json testdata/pouch_cell_91A8_discharge_then_rest.csv
//go:embed testdata/two_heater_bench_step_test.csv testdata/dc_distribution_board_71A_open.csv
var soakData embed.FS

// stated is a figure of the inputs' file.
type stated struct{ Value float64 }

type soakInputs struct {
	Pouch struct {
		Length       stated                              `json:"length_m"`
		Width        stated                              `json:"width_m"`
		Thickness    stated                              `json:"thickness_m"`
		Mass         stated                              `json:"mass_kg"`
		End          stated                              `json:"discharge_end_s"`
		Emissivity   stated                              `json:"emissivity"`
		HeatCapacity struct{ Low, Middle, High float64 } `json:"heat_capacity_J_kgK"`
		AsMeasured   struct {
			Air float64 `json:"air_in_rest_mean_C"`
		} `json:"as_measured"`
	} `json:"pouch_cell"`
	Bench struct {
		Mass         stated `json:"mass_kg"`
		HeatCapacity stated `json:"heat_capacity_J_kgK"`
		ToAir        stated `json:"area_to_air_m2"`
		Between      stated `json:"area_between_m2"`
		Emissivity   stated `json:"emissivity"`
		Film         stated `json:"film_coefficient_W_m2K"`
		Heater1      stated `json:"heater1_W_per_percent"`
		Heater2      stated `json:"heater2_W_per_percent"`
		Air          stated `json:"air_C"`
	} `json:"two_heater_bench"`
	Board struct {
		OneExponential struct {
			Start float64 `json:"start_C"`
			Rise  float64 `json:"final_rise_K"`
			Tau   float64 `json:"time_constant_s"`
		} `json:"one_exponential"`
	} `json:"dc_distribution_board"`
}

// Documents of the measured data, as LICENSES.md of testdata names them.
const (
	pouchSource = "Wiggins, Allu and Wang, Oak Ridge National Laboratory, doi:10.5281/zenodo.2580327"
	benchSource = "APMonitor, two-heater bench, step test, commit f36e65a7"
	boardSource = "Grant, d.c. distribution board, 2023, commit 48e9543c"
	analogous   = "an analogous soak, not of a bolted stack; "
)

// columns reads columns of a log by their names.
func columns(name string, wanted ...string) ([][]float64, error) {
	file, err := soakData.Open("testdata/" + name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("measured log %s: %w", name, err)
	}
	out := make([][]float64, len(wanted))
	for k, column := range wanted {
		at := -1
		for i, head := range rows[0] {
			if head == column {
				at = i
			}
		}
		if at < 0 {
			return nil, fmt.Errorf("measured log %s has no column %q", name, column)
		}
		for i, row := range rows[1:] {
			v, err := strconv.ParseFloat(row[at], 64)
			if err != nil {
				return nil, fmt.Errorf("measured log %s, line %d: %w", name, i+2, err)
			}
			out[k] = append(out[k], v)
		}
	}
	return out, nil
}

func soakCases() ([]Case, error) {
	data, err := soakData.ReadFile("testdata/measured_inputs.json")
	if err != nil {
		return nil, err
	}
	var in soakInputs
	if err := json.Unmarshal(data, &in); err != nil {
		return nil, fmt.Errorf("inputs of the measured soaks: %w", err)
	}
	var cases []Case
	for _, group := range []func(*soakInputs) ([]Case, error){pouchCases, benchCases, boardCases} {
		more, err := group(&in)
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

func differences(a, b []float64) []float64 {
	d := make([]float64, len(a))
	for i := range a {
		d[i] = a[i] - b[i]
	}
	return d
}

// rms is the root mean square of some numbers.
func rms(v []float64) float64 {
	sum := 0.0
	for _, d := range v {
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(v)))
}

// bench is two heated parts side by side, stepped one after the other.
type bench struct {
	in     *soakInputs
	log    [][]float64 // s, %, %, °C, °C
	states [2][]float64
}

// soak follows both parts through the steps of their heaters. One current
// heats everything in a network, so each heater is a resistance at 1 A, changed
// at every step of the log.
func (b *bench) soak(ctx context.Context) error {
	p := &b.in.Bench
	air := p.Air.Value + celsius
	n := network.New(network.Surroundings{Air: air})
	var heaters [2]network.ResistorID
	for i := range heaters {
		id := n.AddNode(network.Node{Name: "part", Capacity: p.Mass.Value * p.HeatCapacity.Value})
		heaters[i] = n.AddResistor(network.Resistor{Name: "heater", A: id, B: id})
		n.AddSurface(id, network.Surface{Name: "part", Area: p.ToAir.Value, Emissivity: p.Emissivity.Value, Shape: network.Given{H: p.Film.Value}})
	}
	// What faces the other part conducts by the film coefficient, and by
	// radiation at a middling temperature: 4 ε σ T³ at 310 K.
	const radiant = 4 * materials.StefanBoltzmann * 310 * 310 * 310
	n.AddLink("between", 0, 1, p.Between.Value*(p.Film.Value+p.Emissivity.Value*radiant))
	n.SetSupply(network.Constant(1), 0)
	if err := n.Finish(); err != nil {
		return err
	}
	soaker := solver.NewSoaker(n)
	times, h1, h2 := b.log[0], b.log[1], b.log[2]
	x := []float64{air, air}
	b.states = [2][]float64{{air}, {air}}
	for from := 0; from < len(times)-1; {
		to := from + 1
		for to < len(times)-1 && h1[to] == h1[from] && h2[to] == h2[from] {
			to++
		}
		for i, watts := range [2]float64{h1[from] * p.Heater1.Value, h2[from] * p.Heater2.Value} {
			if err := n.SetResistor(heaters[i], watts, 0); err != nil {
				return err
			}
		}
		res, err := soaker.Run(ctx, solver.SoakOptions{Tol: 1e-3, Start: x, From: times[from], Until: times[to], Times: times[from+1 : to+1]})
		if err != nil {
			return err
		}
		for _, s := range res.States {
			b.states[0] = append(b.states[0], s[0])
			b.states[1] = append(b.states[1], s[1])
		}
		x, from = res.X, to
	}
	return nil
}

func benchCases(in *soakInputs) ([]Case, error) {
	log, err := columns("two_heater_bench_step_test.csv", "time_s", "heater1_pct", "heater2_pct", "T1_C", "T2_C")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for i := range 2 {
		measured := make([]float64, len(log[0]))
		for k, v := range log[3+i] {
			measured[k] = v + celsius
		}
		for _, largest := range []bool{false, true} {
			name, claim := "root mean square", "root mean square error"
			if largest {
				name, claim = "largest", "largest error"
			}
			cases = append(cases, Case{
				Group: "measured soaks", Name: fmt.Sprintf("two heaters/part %d, %s", i+1, name), Kind: Measured, Reported: true,
				Claim:  claim + " over 10 min of a step test of two heated parts, from nominal figures",
				Source: benchSource, Unit: "K",
				Note: analogous + "nominal figures of the bench, none of them measured on it",
				Got: func(ctx context.Context, _ Inputs) (float64, error) {
					b := &bench{in: in, log: log}
					if err := b.soak(ctx); err != nil {
						return 0, err
					}
					d := differences(b.states[i], measured)
					if !largest {
						return rms(d), nil
					}
					worst := 0.0
					for _, v := range d {
						if math.Abs(v) > math.Abs(worst) {
							worst = v
						}
					}
					return worst, nil
				},
			})
		}
	}
	return cases, nil
}

// boardCases follow the board's sensor by one lump of constant loss, which is
// all that can be done without masses and areas.
func boardCases(in *soakInputs) ([]Case, error) {
	log, err := columns("dc_distribution_board_71A_open.csv", "time_s", "temp_C")
	if err != nil {
		return nil, err
	}
	fit := in.Board.OneExponential
	return []Case{{
		Group: "measured soaks", Name: "distribution board/one lump", Kind: Measured, Reported: true,
		Claim:  "root mean square error over 92 min at 71 A of one lump with its fitted time constant and rise",
		Source: boardSource, Unit: "K",
		Note: analogous + "masses and areas are not stated, so the two figures are fitted: this describes and predicts nothing",
		Got: func(ctx context.Context, _ Inputs) (float64, error) {
			const loss, amps = 1.0, 71.0
			air := fit.Start + celsius
			n := network.New(network.Surroundings{Air: air})
			id := n.AddNode(network.Node{Name: "board", Capacity: fit.Tau * loss})
			n.AddResistor(network.Resistor{Name: "board", A: id, B: id, R20: loss * fit.Rise / (amps * amps)})
			n.AddHold("room", id, loss, air)
			n.SetSupply(network.Constant(amps), 0)
			if err := n.Finish(); err != nil {
				return 0, err
			}
			res, err := solver.Soak(ctx, n, solver.SoakOptions{Tol: 1e-3, Start: []float64{air}, Until: log[0][len(log[0])-1], Times: log[0]})
			if err != nil {
				return 0, err
			}
			var d []float64
			for i, x := range res.States {
				d = append(d, x[0]-celsius-log[1][i])
			}
			return rms(d), nil
		},
	}}, nil
}
