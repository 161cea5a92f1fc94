package cli

import (
	"fmt"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// checkText is the screen of a stack as understood.
func checkText(r *study.Check, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, drawnText(r.Conditions), "as understood"), width))
	for _, part := range []string{partsTable(r), boltsTable(d, r), jointsTable(r), fusesTable(d, r), sideBySideLines(d, r), boxCheckLines(r), nodesTable(d, r), assumptions(r)} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  Drop     ", dropText(r.Drop, " in all, cold, at "+drawnText(r.Conditions), len(r.Branches) > 0, r.Conditions, r.DropParts), width))
	b.WriteString(sizingLines(d, r.Conditions, r.Sizing))
	b.WriteString(notes(r.Warnings))
	b.WriteString(cautionLines([2]string{cautionIsolate, cautionEstimate}, more...))
	return b.String()
}

// meterAt is the current that a meter's readings are told for.
func meterAt(r *study.Check) string {
	switch {
	case len(r.Branches) > 0:
		return "its current"
	case r.Power > 0:
		return current3(r.Current)
	}
	return current(r.Current)
}

// sideBySideLines are the ways as they share while cold, and conductors that lie
// with others like them.
func sideBySideLines(d dress, r *study.Check) string {
	text := branchTable(d, r.Branches, true) + spreadLines(r.Spreads)
	for _, run := range r.Runs {
		text += texttable.Wrap("  ", run.Name+": "+run.Text+".", width)
	}
	return text
}

// boxCheckLines are the figures of a box.
func boxCheckLines(r *study.Check) string {
	b := r.Box
	if b == nil {
		return ""
	}
	mm := func(m float64) string { return fmt.Sprintf("%.4g", m*1e3) }
	text := fmt.Sprintf("%s × %s × %s mm (width, height, depth), %s %s mm, %s; holds %s.", mm(b.Width), mm(b.Height), mm(b.Depth),
		b.Wall, mm(b.Thick), b.Mounting, strings.Join(b.Holds, ", "))
	if b.Inlet > 0 || b.Outlet > 0 {
		text += fmt.Sprintf(" Vents %s cm² low and %s cm² high, %s mm apart.", quantity.Number(b.Inlet*1e4, 2), quantity.Number(b.Outlet*1e4, 2), mm(b.VentRise))
	}
	if b.Fan > 0 {
		text += fmt.Sprintf(" A fan blows %s m³/h through it.", quantity.Number(b.Fan*3600, 2))
	}
	if b.Heat > 0 {
		text += fmt.Sprintf(" Other things in it make %s W.", power(b.Heat))
	}
	text += fmt.Sprintf(" Effective cooling surface %s m², rise at the top %s × that at half the height (%s).", quantity.Number(b.Cooling, 2), quantity.Number(b.TopRatio, 2), b.Source)
	return texttable.Wrap("  Box      ", text, width)
}

func partsTable(r *study.Check) string {
	if len(r.Parts) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Parts"}, {Head: "kg", Align: texttable.Point}, {Head: "J/K", Align: texttable.Point},
		{Head: "cm²", Align: texttable.Point}, {Head: "µΩ at 20 °C", Align: texttable.Point}}}
	for _, p := range r.Parts {
		t.Row(p.Name, number(p.Mass), number(p.Capacity), number(p.Area*1e4), number(p.Resistance*1e6))
	}
	return t.String(width)
}

func boltsTable(d dress, r *study.Check) string {
	if len(r.Bolts) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Bolts"}, {Head: "thread"}, {Head: "torque", Align: texttable.Right},
		{Head: "clamp, kN", Align: texttable.Right}, {Head: "of yield", Align: texttable.Right}, {Head: "yields at", Align: texttable.Right}}}
	var warnings strings.Builder
	for _, bolt := range r.Bolts {
		low, likely, high := spread(bolt.Clamp, 1e-3)
		t.Row(bolt.Name, bolt.Fastener, d.torqueText(bolt.Torque), fmt.Sprintf("%s  (%s … %s)", likely, low, high),
			quantity.Format(quantity.Share, bolt.Utilisation, "%", 2), d.torqueText(bolt.Yield))
		for _, w := range bolt.Warnings {
			warnings.WriteString(texttable.Wrap("    ", bolt.Name+": "+w, width))
		}
	}
	return t.String(width) + warnings.String()
}

// jointsTable shows each joint with what a meter should read, which is how an
// installer finds the bad one.
func jointsTable(r *study.Check) string {
	if len(r.Joints) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Joints"},
		{Head: "µΩ\nlow", Align: texttable.Point}, {Head: "likely", Align: texttable.Point}, {Head: "high", Align: texttable.Point},
		{Head: "mV at " + meterAt(r) + "\nlow", Align: texttable.Point}, {Head: "likely", Align: texttable.Point}, {Head: "high", Align: texttable.Point}}}
	for _, j := range r.Joints {
		low, likely, high := spread(j.Resistance, 1e6)
		mLow, mLikely, mHigh := spread(j.Drop, 1e3)
		name := j.Name
		if j.Kind == "measured" || j.Kind == "fixed" {
			name += " (" + j.Kind + ")"
		}
		t.Row(name, low, likely, high, mLow, mLikely, mHigh)
	}
	return t.String(width)
}

func fusesTable(d dress, r *study.Check) string {
	if len(r.Fuses) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Fuses"}, {Head: "rated", Align: texttable.Right},
		{Head: "cold, µΩ", Align: texttable.Right}, {Head: "element above its ends at rated current, " + d.riseUnit(), Align: texttable.Right}}}
	scale := 1.0
	if d.temp == "°F" {
		scale = 1.8
	}
	for _, f := range r.Fuses {
		low, likely, high := spread(f.Cold, 1e6)
		rLow, rLikely, rHigh := spread(f.ElementRise, scale)
		t.Row(f.Name, current(f.Rated), fmt.Sprintf("%s  (%s … %s)", likely, low, high), fmt.Sprintf("%s  (%s … %s)", rLikely, rLow, rHigh))
	}
	return t.String(width)
}

func nodesTable(d dress, r *study.Check) string {
	if len(r.Nodes) == 0 {
		return ""
	}
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: "Nodes, settled"}, {Head: d.temp, Align: texttable.Right}, {Head: "cm²", Align: texttable.Point},
		{Head: "convection\nW/m²K", Align: texttable.Point}, {Head: "radiation\nW/m²K", Align: texttable.Point},
		{Head: "to room\nW/K", Align: texttable.Point}, {Head: "Biot", Align: texttable.Point}}}
	var warnings strings.Builder
	for _, n := range r.Nodes {
		t.Row(n.Name, d.degrees(n.Temp), number(n.Area*1e4), number(n.Convection), number(n.Radiation), number(n.Conductance), number(n.Biot))
		for _, w := range n.Warnings {
			warnings.WriteString(texttable.Wrap("    ", n.Name+": "+w, width))
		}
	}
	return t.String(width) + warnings.String()
}

// assumptions lists what the file left open: the value on one line, where it
// comes from under it. Values of one place stand under its name.
func assumptions(r *study.Check) string {
	if len(r.Assumptions) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "  Assumed: %d values that the file left open\n", len(r.Assumptions))
	var places []string
	at := map[string][]study.AssumptionCheck{}
	for _, a := range r.Assumptions {
		if at[a.Where] == nil {
			places = append(places, a.Where)
		}
		at[a.Where] = append(at[a.Where], a)
	}
	for _, place := range places {
		b.WriteString(texttable.Wrap("  ", place, width))
		for _, a := range at[place] {
			b.WriteString(texttable.Wrap("    ", fmt.Sprintf("%s: %s", a.What, a.Value), width))
			b.WriteString(texttable.Wrap("      ", origin(a), width))
		}
	}
	return b.String()
}

// origin says where an assumption comes from.
func origin(a study.AssumptionCheck) string {
	parts := []string{a.Basis}
	for _, more := range []string{a.Source, a.Ground} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, "; ")
}

// number writes one for a table of mixed sizes; nothing for nought.
func number(x float64) string {
	if x == 0 {
		return ""
	}
	return quantity.Number(x, 2)
}
