package cli

import (
	"fmt"
	"math"
	"strings"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

// torqueText is the screen of a nut's torque: what to do, what a change would
// cost, the sweep, the spoiled joint, what a meter shows, two cautions.
func torqueText(r *study.Torque, more ...string) string {
	d := dressed(r.Conditions)
	var b strings.Builder
	b.WriteString(texttable.Wrap("", headline(r.Conditions, drawnText(r.Conditions), "left on until settled"), width))
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  ", fmt.Sprintf("%s: tighten to %s, as stated. %s", r.Nut, d.bothTorques(r.Stated), cost(d, r)), width))
	b.WriteString(texttable.Wrap("  ", strings.TrimSpace(moreTorque(d, r)+" "+dirtVersusTorque(d, r)), width))
	b.WriteByte('\n')
	b.WriteString(labelled("Hottest terminal", fmt.Sprintf("%s, %s above air: %s", d.both(r.Hottest.Temp), d.difference(r.Hottest.Rise), r.Hottest.Place)))
	b.WriteString(labelled("Likely range", likelyRange(d, r.Hottest)))
	if r.Tightest != nil {
		b.WriteString(labelled("Tightest limit", tightest(d, *r.Tightest)))
	}
	b.WriteByte('\n')
	b.WriteString(sweepTable(d, r))
	for _, note := range sweepNotes(d, r) {
		b.WriteString(texttable.Wrap("  ", note, width))
	}
	b.WriteByte('\n')
	b.WriteString(spoiledTable(d, r))
	b.WriteByte('\n')
	b.WriteString(texttable.Wrap("  Meter    ", meter(r), width))
	b.WriteString(texttable.Wrap("  Nut      ", nutLine(d, r), width))
	b.WriteString(notes(r.Warnings))
	b.WriteString(cautionLines(torqueCautions(r), more...))
	return b.String()
}

// torqueCautions are the two that apply: what the hottest metal does to a
// hand, and whose word on a torque comes first.
func torqueCautions(r *study.Torque) [2]string {
	return [2]string{touchOr(r.Touch, cautionIsolate), cautionEstimate}
}

// bothTorques has the other everyday unit beside the file's.
func (d dress) bothTorques(nm float64) string {
	other := d.otherTorque()
	return fmt.Sprintf("%s (%s %s)", d.torqueText(nm), torqueNumber(nm, other), other)
}

// otherTorque is the everyday unit of the other side of the ocean.
func (d dress) otherTorque() string {
	if strings.Contains(d.torque, "lb") {
		return "N·m"
	}
	return "in·lb"
}

// kelvins is a change as small as it is said to be.
func (d dress) kelvins(k float64) string {
	if math.Abs(k) < 0.05 {
		return "less than 0.1 " + d.riseUnit()
	}
	return d.difference(math.Abs(k))
}

// cost tells what less torque costs.
func cost(d dress, r *study.Torque) string {
	var texts []string
	for _, c := range r.Changes {
		name := ""
		switch c.Name {
		case study.HalfTorque:
			name = "Half of that"
		case study.FingerTight:
			name = "finger-tight"
		default:
			continue
		}
		texts = append(texts, name+" "+changeText(d, c, "costs"))
	}
	if r.Finger == 0 {
		texts = append(texts, "fingers alone give as much as half of it")
	}
	return strings.Join(texts, "; ") + "."
}

// changeText is a change likely and, where it differs, with all joints at the
// bad end of their ranges.
func changeText(d dress, c study.TorqueChange, verb string) string {
	if c.Ends != "" {
		return "has no lasting state"
	}
	text := verb + " " + d.kelvins(c.Change)
	switch careless := d.kelvins(c.Careless); {
	case c.CarelessEnds != "":
		text += " (assembled carelessly: no lasting state)"
	case careless != d.kelvins(c.Change):
		text += " (" + careless + " if assembled carelessly)"
	}
	return text
}

// moreTorque tells what more would bring, and not to.
func moreTorque(d dress, r *study.Torque) string {
	for _, c := range r.Changes {
		if c.Name == study.AFifthMore {
			return "20 % more " + changeText(d, c, "would gain") + ": do not."
		}
	}
	return "20 % more is past what the thread holds: do not."
}

// dirtVersusTorque sets tarnished faces at the stated torque against half the
// torque.
func dirtVersusTorque(d dress, r *study.Torque) string {
	own := r.OwnCurve().Stated()
	for _, c := range r.Curves {
		dirty := c.Stated()
		if c.Faces != "tarnished" || !dirty.Lasts() || !own.Lasts() || c.Faces == r.OwnCurve().Faces {
			continue
		}
		costs := float64(dirty.Hottest - own.Hottest)
		if costs < 0 {
			return "" // the file's faces are worse
		}
		text := fmt.Sprintf("Tarnished faces cost %s", d.kelvins(costs))
		for _, half := range r.Changes {
			if half.Name != study.HalfTorque || half.Ends != "" {
				continue
			}
			switch {
			case costs > 1.1*half.Change:
				return text + ", more than half the torque."
			case costs < half.Change/1.1:
				return text + ", less than half the torque."
			}
			return text + ", about as much as half the torque."
		}
		return text + "."
	}
	return ""
}

// sweepTable is the sweep at its named torques.
func sweepTable(d dress, r *study.Torque) string {
	own := r.OwnCurve()
	first, second := d.torque, d.otherTorque()
	columns := []texttable.Column{
		{Head: "torque\n" + first, Align: texttable.Point}, {Head: "\n" + second, Align: texttable.Point}, {Head: "clamp\nkN", Align: texttable.Point},
		{Head: "faces\nµΩ", Align: texttable.Point}, {Head: "\nmV", Align: texttable.Point}, {Head: "\nW", Align: texttable.Point},
	}
	for i, c := range r.Curves {
		head := c.Faces + "\n" + d.temp
		if i == r.Own {
			head = c.Faces + " *\n" + d.temp
		}
		columns = append(columns, texttable.Column{Head: head, Align: texttable.Right})
	}
	t := texttable.Table{Indent: 2, Columns: append(columns, texttable.Column{})}
	for i, p := range own.Points {
		if p.Name == "" {
			continue
		}
		cells := append([]string{torqueNumber(p.Torque, first), torqueNumber(p.Torque, second), quantity.Number(p.Clamp/1e3, 2)}, faceCells(p)...)
		for k := range r.Curves {
			cells = append(cells, sweptTemp(d, r, k, i))
		}
		t.Row(append(cells, sweepMark(r, p))...)
	}
	return t.String(width)
}

// sweptTemp is a temperature of the sweep, to a tenth, since a sweep is read
// for its differences.
func sweptTemp(d dress, r *study.Torque, curve, point int) string {
	c := r.Curves[curve]
	p := c.Points[point]
	switch {
	case !p.Lasts():
		return "none lasts"
	case p.Passes() && !c.Always:
		return "LIMIT " + d.tenths(p.Hottest)
	}
	return d.tenths(p.Hottest)
}

// tenths is a temperature without its unit, to a tenth of a degree.
func (d dress) tenths(t quantity.Temp) string {
	switch d.temp {
	case "°F":
		return fmt.Sprintf("%.1f", t.Fahrenheit())
	case "K":
		return fmt.Sprintf("%.1f", float64(t))
	}
	return fmt.Sprintf("%.1f", t.Celsius())
}

// faceCells are µΩ, mV and W of the faces under the nut.
func faceCells(p study.TorquePoint) []string {
	if !p.Lasts() || p.Resistance == 0 {
		return []string{"", "", ""}
	}
	return []string{quantity.Number(p.Resistance*1e6, 2), quantity.Number(p.Drop*1e3, 2), quantity.Number(p.Heat, 2)}
}

func torqueNumber(nm float64, unit string) string {
	number, _, _ := strings.Cut(quantity.Format(quantity.Torque, nm, unit, 2), " ")
	return number
}

func sweepMark(r *study.Torque, p study.TorquePoint) string {
	switch {
	case p.Name == study.StatedTorque:
		return "<- stated"
	case p.Torque > r.Stated:
		return "do not"
	case p.Name == study.FingerTight || p.Name == study.HalfTorque:
		return p.Name
	}
	return ""
}

// sweepNotes are what is read off the sweep.
func sweepNotes(d dress, r *study.Torque) []string {
	list := []string{"* as in the file; µΩ, mV and W are those of all faces under the nut. " + enoughText(d, r.OwnCurve())}
	list = append(list, passedNotes(d, r)...)
	for _, b := range r.Bands {
		list = append(list, bandText(d, b))
	}
	return list
}

// passedNotes say where in the sweep limits are passed; curves of which the
// same is to be said share a line.
func passedNotes(d dress, r *study.Torque) []string {
	var texts, faces []string
	for _, c := range r.Curves {
		text := ""
		switch {
		case c.Always && c.Passed != nil:
			text = fmt.Sprintf("LIMIT passed at every torque: %s, at %s.", c.Passed.Name, c.Passed.Place)
		case c.Always:
			text = "no lasting state at any torque."
		case c.Least > 0:
			text = fmt.Sprintf("LIMIT passed below %s: %s, at %s.", d.torqueText(c.Least), c.Passed.Name, c.Passed.Place)
		default:
			continue
		}
		if n := len(texts); n > 0 && texts[n-1] == text {
			faces[n-1] += ", " + c.Faces
			continue
		}
		texts, faces = append(texts, text), append(faces, c.Faces)
	}
	for i := range texts {
		texts[i] = "Faces " + faces[i] + ": " + texts[i]
	}
	return texts
}

func enoughText(d dress, c study.TorqueCurve) string {
	gain := "1 K"
	if d.riseUnit() != "K" {
		gain = d.difference(1)
	}
	switch {
	case c.Enough == 0:
		return "Up to the end of the sweep, a tenth more torque gains " + gain + " or more."
	case c.Enough <= c.Points[0].Torque*1.001:
		return fmt.Sprintf("From the first torque on, a tenth more gains less than %s.", gain)
	}
	return fmt.Sprintf("Past %s, a tenth more torque gains less than %s.", d.torqueText(c.Enough), gain)
}

// bandText says what a way of tightening may really give at the stated torque.
func bandText(d dress, b study.TorqueBand) string {
	name := strings.ToUpper(b.Name[:1]) + b.Name[1:]
	text := fmt.Sprintf("%s, clamp %s: ", name, either(b))
	if !b.Loose.Lasts() || !b.Tight.Lasts() {
		return text + "no lasting state at its least clamp."
	}
	return text + fmt.Sprintf("%s … %s %s.", d.tenths(b.Tight.Hottest), d.tenths(b.Loose.Hottest), d.temp)
}

// either writes the scatter of a clamp force.
func either(b study.TorqueBand) string {
	low, high := 100*(1-b.Low), 100*(b.High-1)
	if math.Abs(low-high) < 0.5 {
		return fmt.Sprintf("±%.0f %%", high)
	}
	return fmt.Sprintf("−%.0f … +%.0f %%", low, high)
}

// spoiledTable is the same joint made worse.
func spoiledTable(d dress, r *study.Torque) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{
		{Head: fmt.Sprintf("Same nut, same %s, spoiled", drawnText(r.Conditions))}, {Head: "kN", Align: texttable.Point},
		{Head: "µΩ", Align: texttable.Point}, {Head: "mV", Align: texttable.Point}, {Head: "W", Align: texttable.Point},
		{Head: d.temp, Align: texttable.Right}, {Head: "change", Align: texttable.Right}, {}}}
	row := func(name string, p study.TorquePoint, change, mark string) {
		cells := append([]string{name, quantity.Number(p.Clamp/1e3, 2)}, faceCells(p)...)
		temp := ""
		if p.Lasts() && p.Hottest > 0 {
			temp = d.tenths(p.Hottest)
		}
		t.Row(append(cells, temp, change, mark)...)
	}
	row("as stated, faces as in the file", r.OwnCurve().Stated(), "", "")
	for _, s := range r.Spoiled {
		switch {
		case s.Breaks != "":
			t.Row(s.Name, "", "", "", "", "", "", s.Breaks)
		case !s.Point.Lasts():
			row(s.Name, s.Point, "", "no lasting state")
		default:
			mark := ""
			if s.Point.Passes() && !r.OwnCurve().Stated().Passes() {
				mark = "LIMIT"
			}
			row(s.Name, s.Point, signed(d, s.Change), mark)
		}
	}
	return t.String(width)
}

// signed is a change with its sign, to a tenth.
func signed(d dress, k float64) string {
	if d.temp == "°F" {
		k *= 1.8
	}
	text := fmt.Sprintf("%+.1f", k)
	if strings.Trim(text, "+-0.") == "" {
		text = "0.0"
	}
	return text + " " + d.riseUnit()
}

// meter says what a class can check with a voltmeter.
func meter(r *study.Torque) string {
	text := fmt.Sprintf("%s across the worst face under the nut at %s", quantity.Scaled(quantity.Voltage, r.Meter, 2), throughNut(r))
	if r.MeterCareless > 0 {
		text += fmt.Sprintf("; careless assembly shows up to %s. More than that: disconnect, take apart, look",
			quantity.Scaled(quantity.Voltage, r.MeterCareless, 2))
	}
	text += "."
	if r.Meter < coarseMeter {
		text += " A meter that counts tenths of a millivolt hardly sees the likely figure; it does see a bad face."
	}
	return text
}

// coarseMeter is the drop, V, that a pocket meter with a step of 0.1 mV is not
// trusted with. Common practice, no source.
const coarseMeter = 0.3e-3

// nutLine says how near the nut is to its thread, and what other nuts there
// are.
func nutLine(d dress, r *study.Torque) string {
	text := fmt.Sprintf("%s, class %s, thread %s: %s is %.0f %% of what the thread holds. The maker of the part may allow less than the bolt.",
		r.Fastener, r.Class, r.Thread, d.torqueText(r.Stated), 100*r.Share)
	if len(r.Others) == 0 {
		return text
	}
	var others []string
	for _, o := range r.Others {
		costs := d.kelvins(o.Half)
		if o.NoLast {
			costs = "no lasting state"
		}
		others = append(others, fmt.Sprintf("%s (%s)", o.Nut, costs))
	}
	why := " It is the nut whose half torque costs most."
	if r.Asked {
		why = ""
	}
	return text + why + " Others, with what half their torque costs: " + strings.Join(others, "; ") + "."
}

// throughNut is the current in the joints under the nut.
func throughNut(r *study.Torque) string {
	if r.Through > 0 {
		return current3(r.Through)
	}
	return current(r.Current)
}
