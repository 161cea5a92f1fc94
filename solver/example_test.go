package solver_test

import (
	"context"
	"errors"
	"fmt"

	"clampheat/solver"
)

// heater is a lump of 400 J/K with a heating current and a loss of 0.5 W/K to
// air at 300 K. Its resistance rises with its temperature.
type heater struct{ power, load float64 }

func (h *heater) Structure() solver.Structure               { return solver.Structure{Nodes: 1} }
func (h *heater) Capacities(dst []float64)                  { dst[0] = 400 }
func (h *heater) Drift(float64, []float64, []float64) bool  { return false }
func (h *heater) SetLoad(lambda float64)                    { h.load = lambda }
func (h *heater) LoadDerivative(_ float64, x, df []float64) { df[0] = 2 * h.load * h.ohmic(x[0]) }
func (h *heater) ohmic(t float64) float64                   { return h.power * (1 + 0.004*(t-300)) }

func (h *heater) Balance(_ float64, x, f []float64) solver.Flow {
	flow := solver.Flow{Made: h.load * h.load * h.ohmic(x[0]), Lost: 0.5 * (x[0] - 300)}
	f[0] = flow.Made - flow.Lost
	return flow
}

func (h *heater) Linearize(t float64, x, f []float64, j *solver.Jacobian) solver.Flow {
	j.Diag[0] = h.load*h.load*h.power*0.004 - 0.5
	return h.Balance(t, x, f)
}

func ExampleSoak() {
	res, err := solver.Soak(context.Background(), &heater{power: 10, load: 1}, solver.SoakOptions{
		Start: []float64{300},
		Until: 3600,
		Times: []float64{60, 900, 3600},
		Events: []solver.Event{
			{Name: "10 K warmer", Node: 0, Level: 310},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for k, t := range res.Times {
		fmt.Printf("%4.0f s: %.1f K\n", t, res.States[k][0])
	}
	fmt.Printf("%s at %.0f s\n", res.Events[0].Name, res.Events[0].Time)
	// Output:
	//   60 s: 301.4 K
	//  900 s: 314.0 K
	// 3600 s: 321.4 K
	// 10 K warmer at 536 s
}

func ExampleSteady() {
	for _, power := range []float64{10, 200} {
		res, err := solver.Steady(context.Background(), &heater{power: power, load: 1}, solver.SteadyOptions{
			Start:    []float64{300},
			Ceilings: []float64{400},
		})
		var ceiling *solver.CeilingError
		switch {
		case errors.As(err, &ceiling):
			fmt.Printf("above %.0f K beyond %.3f of the load\n", ceiling.Ceiling, ceiling.Load)
		case err != nil:
			fmt.Println(err)
		default:
			fmt.Printf("%.2f K\n", res.X[0])
		}
	}
	// Output:
	// 321.74 K
	// above 400 K beyond 0.423 of the load
}

// pulsed is the heater with its current on for the first 5 of every 15 minutes.
type pulsed struct{ heater }

func (p *pulsed) Balance(t float64, x, f []float64) solver.Flow {
	p.switched(t)
	return p.heater.Balance(t, x, f)
}

func (p *pulsed) Linearize(t float64, x, f []float64, j *solver.Jacobian) solver.Flow {
	p.switched(t)
	return p.heater.Linearize(t, x, f, j)
}

func (p *pulsed) switched(t float64) {
	p.load = 0
	if t < 300 {
		p.load = 1
	}
}

// A duty cycle goes straight to the cycle that lasts.
func ExamplePeriodic() {
	res, err := solver.Periodic(context.Background(), &pulsed{heater{power: 20}}, solver.PeriodicOptions{
		Period: 900,
		Breaks: []float64{300},
		Start:  []float64{315},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("between %.1f K and %.1f K, at %.0f s, in the mean %.1f K\n", res.X[0], res.Peak[0], res.PeakTime[0], res.Mean[0])
	// Output:
	// between 309.3 K and 319.6 K, at 300 s, in the mean 314.1 K
}

// What a watt more would do to the temperature of a steady state: here 1/(0.5 −
// 0.04) K, since the resistance takes 0.04 W/K of the loss away.
func ExampleSteadySolver_Adjoint() {
	s := solver.NewSteadySolver(&heater{power: 10})
	res, err := s.Solve(context.Background(), solver.SteadyOptions{Start: []float64{300}})
	if err != nil {
		fmt.Println(err)
		return
	}
	worth := []float64{1} // the output is the temperature of node 0
	if err := s.Adjoint(0, res.X, worth, worth); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f K, and %.3f K more for each watt\n", res.X[0], worth[0])
	// Output:
	// 321.7 K, and 2.174 K more for each watt
}
