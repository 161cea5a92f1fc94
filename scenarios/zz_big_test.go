package scenarios

import ("testing";"fmt";"strings")

func bigFile() []byte {
	var b strings.Builder
	b.WriteString("air: 25 °C\ncurrent: 500 A\npath:\n  - batteries: ")
	n := 24
	for i := range n { fmt.Fprintf(&b, "B%d ", i) }
	b.WriteString("\n    voltage: 12.8 V\n    each:\n")
	b.WriteString("      - battery post: M8\n        nut: 12 N·m\n      - compact holder: generic\n        fuse: 200 A\n        nut: 8 N·m\n")
	for range 3 { b.WriteString("      - cable: 50 mm²\n        length: 1 m\n      - battery switch: generic\n        nuts: 10 N·m\n") }
	s := strings.TrimSuffix(b.String(), "      - battery switch: generic\n        nuts: 10 N·m\n")
	b.Reset(); b.WriteString(s)
	b.WriteString("  - bus bar: copper\n    section: 40 × 10 mm\n    spacing: 60 mm\n    nuts: 20 N·m\n    studs: ")
	for i := range n { fmt.Fprintf(&b, "B%d ", i) }
	b.WriteString("out\n  - cable: 95 mm²\n    length: 1 m\n")
	return []byte(b.String())
}
func BenchmarkBig(b *testing.B) {
	data := bigFile()
	for b.Loop() { s, err := Read("big", data); if err != nil { b.Fatal(err) }; _ = s }
}
