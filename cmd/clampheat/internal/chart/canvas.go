package chart

import (
	"fmt"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// This file chooses the canvas of a format.

// canvasFor makes a canvas of a format of Formats.
func canvasFor(w, h vg.Length, format string) (vg.CanvasWriterTo, error) {
	switch format {
	case "png":
		return pngCanvas{vgimg.PngCanvas{Canvas: vgimg.New(w, h)}}, nil
	case "svg":
		return vgsvg.New(w, h), nil
	case "pdf":
		return newPDF(w, h), nil
	}
	return nil, fmt.Errorf("no picture can be written as %q", format)
}

// pngCanvas places the letters of a text itself. The canvas under it moves
// letters that go closely together, such as "A" and a blank, by as many points
// at every size, so that small texts lose their blanks.
type pngCanvas struct{ vgimg.PngCanvas }

func (c pngCanvas) FillString(f font.Face, pt vg.Point, s string) {
	for i, letter := range s {
		if !unicode.IsSpace(letter) {
			upTo := s[:i+len(string(letter))]
			at := vg.Point{X: pt.X + f.Width(upTo) - f.Width(string(letter)), Y: pt.Y}
			c.PngCanvas.FillString(f, at, string(letter))
		}
	}
}
