package validation

import (
	"context"
	"math"

	"clampheat/model/network"
)

// This file holds conduction, contacts and heating in time against the worked
// examples of textbooks, with their own figures. Bodies that the books solve
// in closed form are cut into rings and slices here and left to the solver.

// rings is how many a round body is cut into: enough for 1e-4 of a rise.
const rings = 100

func solidCases() ([]Case, error) {
	list := append(conductionExamples(), lumpExamples()...)
	list = append(list, wallExamples()...)
	for i := range list {
		list[i].group = "solids"
	}
	return exampleCases(list)
}

func conductionExamples() []example {
	// jacketed gives the temperature of Cengel's wire under its cover, °C.
	jacketed := func(ctx context.Context, in Inputs) (float64, error) {
		net := network.New(network.Surroundings{Air: in["air_C"] + celsius})
		inner := in["diameter_m"] / 2
		outer := inner + in["cover_m"]
		cover := addRings(net, inner, outer, in["length_m"], in["cover_k"], rings)
		wire := net.AddNode(network.Node{Name: "wire"})
		dr := in["cover_m"] / rings
		net.AddLink("wire to cover", wire, cover[0], in["cover_k"]*2*math.Pi*inner*in["length_m"]/(dr/2))
		net.AddSurface(cover[rings], network.Surface{Area: 2 * math.Pi * outer * in["length_m"], Shape: network.Given{H: in["h"]}})
		net.AddResistor(heater(wire, in["volts"]*in["amps"], in["amps"]))
		net.SetSupply(network.Constant(in["amps"]), 0)
		x, err := settle(ctx, net, in["air_C"]+celsius)
		if err != nil {
			return 0, err
		}
		return x[wire] - celsius, nil
	}
	// hotWire gives the temperature of a node of Holman's wire, °C.
	hotWire := func(node int) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			net := network.New(network.Surroundings{Air: in["fluid_C"] + celsius})
			r := in["diameter_m"] / 2
			wire := addRings(net, 0, r, in["length_m"], in["k"], rings)
			ohms := in["resistivity_ohm_m"] * in["length_m"] / (math.Pi * r * r)
			heatRings(net, wire, in["amps"]*in["amps"]*ohms, in["amps"])
			net.AddSurface(wire[rings], network.Surface{Area: 2 * math.Pi * r * in["length_m"], Shape: network.Given{H: in["h"]}})
			x, err := settle(ctx, net, in["fluid_C"]+celsius)
			if err != nil {
				return 0, err
			}
			return x[wire[node]] - celsius, nil
		}
	}
	return []example{
		{id: "24b", name: "wire in a cover", breaks: "h", kelvin: 0.5, got: jacketed},
		{id: "25", name: "wire with heat inside/centre", breaks: "k", kelvin: 0.5,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				net := network.New(network.Surroundings{Air: in["surface_C"] + celsius})
				wire := addRings(net, 0, in["diameter_m"]/2, in["length_m"], in["k"], rings)
				heatRings(net, wire, in["heat_W"], 1)
				// A surface without resistance to the temperature that is given.
				net.AddHold("surface", wire[rings], 1e9, in["surface_C"]+celsius)
				x, err := settle(ctx, net, in["surface_C"]+celsius)
				if err != nil {
					return 0, err
				}
				return x[wire[0]] - celsius, nil
			}},
		{id: "28b", name: "wire carrying 200 A/surface", breaks: "amps", kelvin: 0.5, got: hotWire(rings)},
		{id: "28c", name: "wire carrying 200 A/centre", breaks: "amps", kelvin: 0.5, got: hotWire(0)},
		{id: "23", name: "annular fins", breaks: "h", share: 0.02, got: annularFins},
		{id: "29a", name: "two bars and a contact/heat", breaks: "difference_K", share: 0.01,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				heat, _, err := twoBars(ctx, in)
				return heat, err
			}},
		{id: "29b", name: "two bars and a contact/step", breaks: "difference_K", share: 0.01,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				_, step, err := twoBars(ctx, in)
				return step, err
			}},
		{id: "30b", name: "plate behind a contact/heat", breaks: "film_h", share: 0.01,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				heat, _, err := plateBehindContact(ctx, in)
				return heat, err
			}},
		{id: "30c", name: "plate behind a contact/step", breaks: "contact_h", share: 0.01,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				_, step, err := plateBehindContact(ctx, in)
				return step, err
			}},
	}
}

// twoBars gives heat, W, and step at the contact, K, of two bars end to end.
func twoBars(ctx context.Context, in Inputs) (heat, step float64, err error) {
	area := math.Pi / 4 * in["diameter_m"] * in["diameter_m"]
	bar := in["k"] * area / in["length_m"]
	net := network.New(network.Surroundings{Air: 300})
	a := net.AddNode(network.Node{Name: "one face"})
	b := net.AddNode(network.Node{Name: "other face"})
	net.AddHold("hot end", a, bar, 300+in["difference_K"])
	contact := net.AddLink("contact", a, b, in["contact_h"]*area)
	net.AddHold("cold end", b, bar, 300)
	x, err := settle(ctx, net, 300)
	if err != nil {
		return 0, 0, err
	}
	return net.ReadLink(contact, x), x[a] - x[b], nil
}

// plateBehindContact gives heat, W, and step, K, of a plate pressed on
// something hot and cooled on its other side.
func plateBehindContact(ctx context.Context, in Inputs) (heat, step float64, err error) {
	hot := in["hot_C"] + celsius
	net := network.New(network.Surroundings{Air: in["air_C"] + celsius})
	near := net.AddNode(network.Node{Name: "near side"})
	far := net.AddNode(network.Node{Name: "far side"})
	net.AddHold("contact", near, in["contact_h"]*in["contact_m2"], hot)
	net.AddLink("plate", near, far, in["k"]*in["film_m2"]/in["plate_m"])
	film := net.AddSurface(far, network.Surface{Area: in["film_m2"], Shape: network.Given{H: in["film_h"]}})
	x, err := settle(ctx, net, hot)
	if err != nil {
		return 0, 0, err
	}
	return net.ReadSurface(film, x).Convection, hot - x[near], nil
}

// annularFins gives the heat, W, of a cylinder with rings cast on.
func annularFins(ctx context.Context, in Inputs) (float64, error) {
	base, r0 := in["base_K"], in["inner_radius_m"]
	r1 := r0 + in["length_m"]
	net := network.New(network.Surroundings{Air: in["air_K"]})
	fin := addRings(net, r0, r1, in["thickness_m"], in["k"], rings)
	dr := in["length_m"] / rings
	root := net.AddHold("cylinder", fin[0], in["k"]*2*math.Pi*r0*in["thickness_m"]/(dr/2), base)
	for i := range rings {
		net.AddSurface(fin[i], network.Surface{Shape: network.Given{H: in["h"]},
			Area: 2 * 2 * math.Pi * (r0 + (float64(i)+0.5)*dr) * dr})
	}
	net.AddSurface(fin[rings], network.Surface{Shape: network.Given{H: in["h"]}, Area: 2 * math.Pi * r1 * in["thickness_m"]})
	x, err := settle(ctx, net, in["air_K"])
	if err != nil {
		return 0, err
	}
	bare, err := surfaceAt(network.Surroundings{Air: in["air_K"]}, network.Surface{Shape: network.Given{H: in["h"]},
		Area: 2 * math.Pi * r0 * (in["cylinder_height_m"] - in["fins"]*in["thickness_m"])}, base)
	return -in["fins"]*net.ReadHold(root, x) + bare.Convection, err
}

func lumpExamples() []example {
	// ball gives surface and heat capacity of a ball in the example's gas.
	ball := func(in Inputs) (network.Surface, float64) {
		d := in["diameter_m"]
		return network.Surface{Area: math.Pi * d * d, Emissivity: in["emissivity"], Shape: network.Given{H: in["h"]}},
			in["rho"] * in["c"] * math.Pi / 6 * d * d * d
	}
	cool := func(gas string) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			s, capacity := ball(in)
			room := network.Surroundings{Air: in[gas] + celsius}
			if walls, ok := in["walls_C"]; ok {
				room.Radiant = walls + celsius
			}
			return lumpTime(ctx, room, s, capacity, in["start_C"]+celsius, in["end_C"]+celsius)
		}
	}
	return []example{
		{id: "32b", name: "thermocouple bead/time", breaks: "h", share: 0.01, got: cool("gas_C")},
		{id: "33b", name: "thermocouple bead in a hot duct/time", got: cool("gas_C"),
			reported: "Printed to two digits from a stepwise solution; the example's own equation in steps of 0.1 ms gives 4.97 s"},
		{id: "35", name: "steel ball/time", breaks: "h", share: 0.01, got: cool("fluid_C")},
		{id: "33a", name: "thermocouple bead in a hot duct/settled", breaks: "walls_C", kelvin: 0.2,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				net := network.New(network.Surroundings{Air: in["gas_C"] + celsius, Radiant: in["walls_C"] + celsius})
				s, _ := ball(in)
				net.AddSurface(net.AddNode(network.Node{Name: "bead"}), s)
				x, err := settle(ctx, net, in["start_C"]+celsius)
				if err != nil {
					return 0, err
				}
				return x[0] - celsius, nil
			}},
	}
}

func wallExamples() []example {
	heated := func(depth string) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			w := newWall(in["k"], in["alpha"], in["time_s"])
			w.net.AddResistor(heater(w.surface, in["flux_W_m2"], 1))
			w.net.SetSupply(network.Constant(1), 0)
			temp, err := w.at(ctx, in["start_C"]+celsius, in[depth], in["time_s"])
			return temp - celsius, err
		}
	}
	return []example{
		{id: "38a", name: "thick wall/surface held", breaks: "surface_C", kelvin: 0.5,
			got: func(ctx context.Context, in Inputs) (float64, error) {
				w := newWall(in["k"], in["alpha"], in["time_s"])
				// A surface without resistance to the temperature that is given.
				w.net.AddHold("surface", w.surface, 1e9, in["surface_C"]+celsius)
				temp, err := w.at(ctx, in["start_C"]+celsius, in["depth_m"], in["time_s"])
				return temp - celsius, err
			}},
		{id: "38b", name: "thick wall/heated", breaks: "flux_W_m2", kelvin: 0.5, got: heated("depth_m")},
		{id: "39a", name: "thick wood/heated, surface", breaks: "flux_W_m2", kelvin: 0.5, got: heated("depth_m")},
		{id: "39b", name: "thick aluminium/heated, surface", breaks: "flux_W_m2", kelvin: 0.5, got: heated("depth_m")},
	}
}
