package chart

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

// A PDF carries its font and what each glyph means, and is the same each time.
func TestPDF(t *testing.T) {
	f := Path(path())
	const title = "70 mm² · 9.5 µΩ … 12 µΩ → −3 °C, Größe"
	f.Title = title
	var first, second bytes.Buffer
	for _, w := range []*bytes.Buffer{&first, &second} {
		if err := f.Write(w, "pdf"); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("two files of one figure differ")
	}
	for _, part := range []string{"/FontFile2", "/ToUnicode", "/Identity-H"} {
		if !bytes.Contains(first.Bytes(), []byte(part)) {
			t.Errorf("the file has no %s", part)
		}
	}
	t.Run("text", func(t *testing.T) {
		reader, err := exec.LookPath("pdftotext")
		if err != nil {
			t.Skip("no pdftotext on this system")
		}
		file := filepath.Join(t.TempDir(), "a.pdf")
		if err := os.WriteFile(file, first.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(reader, "-layout", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{title, "air 77 °F"} {
			if !strings.Contains(string(out), want) {
				t.Errorf("%q is missing in\n%s", want, out)
			}
		}
	})
}

// An arc as curves stays on its circle and ends where it should.
func TestArc(t *testing.T) {
	for _, angle := range []float64{0.3, math.Pi / 2, 2 * math.Pi, -3} {
		part := vg.PathComp{Pos: vg.Point{X: 5, Y: 7}, Radius: 10, Start: 0.4, Angle: angle}
		var at vg.Point
		end := arc(part, func(p vg.Point) { at = p }, func(a, b, to vg.Point) {
			// The middle of the curve is where it is furthest from the circle's ends.
			middle := at.Add(a.Scale(3)).Add(b.Scale(3)).Add(to).Scale(1.0 / 8)
			if r := math.Hypot(float64(middle.X-5), float64(middle.Y-7)); math.Abs(r-10) > 3e-3 {
				t.Errorf("%g rad: %g from the middle, want 10", angle, r)
			}
			at = to
		})
		sin, cos := math.Sincos(0.4 + angle)
		if math.Hypot(float64(end.X)-5-10*cos, float64(end.Y)-7-10*sin) > 1e-9 {
			t.Errorf("%g rad: ends at %v", angle, end)
		}
	}
}
