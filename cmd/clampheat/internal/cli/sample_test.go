package cli

import (
	"clampheat/materials"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// Results made by hand, with every figure invented, for tests of the outputs.

func celsius(c float64) quantity.Temp { return quantity.Temp(c + 273.15) }

func sampleConditions() study.Conditions {
	return study.Conditions{Title: "Inverter feed, compact holder", File: "compact.yaml", Current: 140, Air: celsius(25), TempUnit: "°C", TorqueUnit: "N·m"}
}

func sampleMargin(place string, at float64) *study.Margin {
	return &study.Margin{Place: place, Name: "tin-plated terminal", Source: "IEC 60947-1", Limit: celsius(90), Rise: 65,
		Left: 90 - at, Careless: kelvins(90 - at - 12), Verdict: study.Holds}
}

func terminalRow(name string, at float64) study.Row {
	return study.Row{Kind: "terminal", Name: name, Terminal: true, Temp: celsius(at), Rise: at - 25, Limit: sampleMargin(name, at)}
}

func sampleSteady() *study.Steady {
	r := &study.Steady{
		Conditions: sampleConditions(),
		Hottest:    study.Span{Place: "fuse 300 A, nut side", Temp: celsius(66.2), Rise: 41.2, Careful: celsius(60), Careless: celsius(78)},
		Rows: []study.Row{
			terminalRow("battery post M8", 49),
			{Kind: "joint", Name: "battery post to base", Temp: celsius(55), Resistance: 9.3e-6, Drop: 1.3e-3, Heat: 0.18, Bolt: "battery post", Torque: 12, Clamp: 7500},
			terminalRow("holder base", 61),
			{Kind: "joint", Name: "base to fuse", Temp: celsius(63), Resistance: 18e-6, Drop: 2.5e-3, Heat: 0.35, Bolt: "holder", Torque: 8.5, Clamp: 5300},
			terminalRow("fuse 300 A, base side", 65),
			{Kind: "element", Name: "fuse 300 A, element", Temp: celsius(118), Rise: 93, Resistance: 221e-6, Drop: 31e-3, Heat: 4.34},
			terminalRow("fuse 300 A, nut side", 66.2),
			{Kind: "joint", Name: "fuse to lug", Temp: celsius(65), Resistance: 18e-6, Drop: 2.5e-3, Heat: 0.35, Bolt: "holder", Torque: 8.5, Clamp: 5300, SameNut: true},
			terminalRow("lug", 64),
			{Kind: "part", Name: "cable 1/0 AWG 1.5 m, hottest end", Temp: celsius(63), Rise: 38, Resistance: 532e-6, Drop: 74.5e-3, Heat: 10.43,
				Limit: &study.Margin{Place: "cable", Name: "insulation 105 °C", Limit: celsius(105), Left: 42, Careless: kelvins(30), Verdict: study.Holds}},
			terminalRow("inverter terminal M8", 44),
		},
		Made: []study.Watts{{Name: "cable", Heat: 10.4}, {Name: "fuse", Heat: 4.3}, {Name: "joints", Heat: 1.2}, {Name: "rest", Heat: 0.4}},
		Lost: []study.Watts{{Name: "convection", Heat: 9.5}, {Name: "radiation", Heat: 4.6}, {Name: "into battery", Heat: 1.7}, {Name: "into inverter", Heat: 0.6}},
		Heat: 16.4, Drop: 0.117, From: "battery post", To: "inverter terminal",
		Element:  &study.ElementState{Name: "the fuse", Temp: celsius(118)},
		Telling:  []study.Telling{{ID: "fuse.drop", Text: "fuse drop 75 mV at 300 A", Worth: 6}, {ID: "faces", Text: "faces as received", Worth: 5}, {ID: "battery.takes", Text: "battery takes 0.07 W/K", Worth: 2}},
		More:     11,
		Touch:    &study.TouchCaution{Text: "Bare metal at 66 °C burns within seconds", Source: "ISO 13732-1"},
		Numerics: study.Numerics{Nodes: 87, Bookkeeping: 3e-12, Quadrature: 3e-12, Cutting: 0.03, Iterations: 7},
	}
	r.Tightest = sampleMargin("fuse 300 A, nut side", 66.2)
	r.Margins = []study.Margin{*r.Tightest, *r.Rows[9].Limit}
	at := 0.0
	for _, row := range r.Rows {
		length := 0.03
		if row.Kind == "part" {
			length = 1.5
		}
		if row.Terminal {
			r.Profile = append(r.Profile, study.Point{Along: at, Temp: row.Temp, Careful: row.Temp - 5, Careless: row.Temp + 12, Name: row.Name})
		} else if row.Kind != "joint" {
			for range 10 {
				at += length / 11
				r.Profile = append(r.Profile, study.Point{Along: at, Temp: row.Temp - 10, Careful: row.Temp - 13, Careless: row.Temp})
			}
			at += length / 11
		}
	}
	return r
}

func sampleSoak() *study.Soak {
	r := &study.Soak{
		Conditions: sampleConditions(), Until: 900,
		Hottest: study.Span{Place: "fuse 300 A, nut side", Temp: celsius(54), Rise: 29, Careful: celsius(50), Careless: celsius(62)},
		Peak:    study.Moment{Place: "fuse 300 A, nut side", Time: 900, Temp: celsius(54)},
		Lasting: true, Final: celsius(66.2), To90: 1680, To99: 4000, Settled: 7600,
		Made: 14400, Lost: 9000, Stored: 5400,
		Touch:    &study.TouchCaution{Text: "Bare metal at 54 °C burns within a minute", Source: "ISO 13732-1"},
		Numerics: study.Numerics{Nodes: 87, Bookkeeping: 3e-12, Quadrature: 3e-6, Cutting: 0.2, Steps: 41},
	}
	steady := sampleSteady()
	for t := 0.0; t <= r.Until; t += 15 {
		r.Times = append(r.Times, t)
		r.Currents = append(r.Currents, 140)
	}
	for _, row := range steady.Rows {
		if row.Kind == "joint" {
			continue
		}
		s := study.Series{Name: row.Name, Terminal: row.Terminal}
		for _, t := range r.Times {
			s.Temps = append(s.Temps, celsius(25+row.Rise*t/(t+400)))
		}
		s.Highest = s.Temps[len(s.Temps)-1]
		r.Series = append(r.Series, s)
	}
	for _, m := range steady.Margins {
		r.Limits = append(r.Limits, study.Crossing{Margin: m})
	}
	r.Measured = []study.Difference{{Channel: "lug_C", Place: "lug", Times: []float64{0, 300, 600, 900},
		Temps: []quantity.Temp{celsius(25), celsius(40), celsius(46), celsius(50)}, Mean: 1.2, Rms: 1.5, Largest: 2.4, At: 300}}
	return r
}

func sampleCheck() *study.Check {
	return &study.Check{
		Conditions: sampleConditions(),
		Parts:      []study.PartCheck{{Name: "battery post M8", Mass: 0.05, Capacity: 19, Area: 20e-4, Resistance: 1e-5}, {Name: "cable 1/0 AWG 1.5 m", Mass: 0.75, Capacity: 300, Area: 700e-4, Resistance: 480e-6}},
		Bolts: []study.BoltCheck{{Name: "battery post", Fastener: "M8 8.8", Torque: 12, Clamp: materials.Range{Low: 5200, Likely: 7500, High: 9800}, Yield: 25, Utilisation: 0.48,
			Warnings: []string{"the torque is above what is usual for the thread"}}},
		Joints: []study.JointCheck{{Name: "battery post to base", Bolt: "battery post", Kind: "bolted", Resistance: materials.Range{Low: 5e-6, Likely: 9.3e-6, High: 30e-6}, Drop: materials.Range{Low: 0.7e-3, Likely: 1.3e-3, High: 4.2e-3}, Conductance: 0.8}},
		Fuses:  []study.FuseCheck{{Name: "fuse 300 A", Rated: 300, Cold: materials.Range{Low: 170e-6, Likely: 210e-6, High: 250e-6}, ElementRise: materials.Range{Low: 80, Likely: 120, High: 200}}},
		Nodes:  []study.NodeCheck{{Name: "battery post M8", Temp: celsius(49), Area: 20e-4, Convection: 7.1, Radiation: 1.2, Conductance: 0.016, Biot: 0.0004, Warnings: []string{"Ra is below the range of the correlation"}}},
		Assumptions: []study.AssumptionCheck{
			{ID: "battery post.takes", Where: "battery post", What: "heat into the battery", Value: "0.07 W/K (0.03 … 0.2 W/K)", Basis: "assumed", Source: "geometry", Ground: "two copper straps of a cell, a tenth of a metre long, and nothing that is known better than that"},
			{ID: "battery post.faces", Where: "battery post", What: "faces", Value: "as received", Basis: "assumed", Ground: "most common"},
		},
		Drop: 0.105,
	}
}

func kelvins(v float64) *float64 { return &v }
