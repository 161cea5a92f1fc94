package network

// This file holds the kinds of surface, each of which names the relations at
// work on it.

import (
	"encoding/binary"
	"fmt"
	"math"
)

// Shape says how a square metre of a surface gives heat to the air. The kinds
// are those of this package; nil is a surface without convection.
type Shape interface {
	// check says what is wrong with its figures, "" for nothing.
	check() string
	// appendKey appends what tells the shape from any other.
	appendKey(dst []byte) []byte
	// terms appends the relations of natural convection at work on it, hot
	// where the surface is hotter than the air; false where the shape is of
	// another kind.
	terms(dst []term, share float64, hot bool) ([]term, bool)
}

// HorizontalCylinder is the side of a round thing that lies: a cable, a rod.
type HorizontalCylinder struct {
	D float64 // m, diameter
}

// VerticalPlate is an upright face, H m high.
type VerticalPlate struct {
	H float64
}

// VerticalCylinder is the side of a round thing that stands.
type VerticalCylinder struct {
	D, H float64 // m, diameter and height
}

// FaceUp is a level face with the air above it.
type FaceUp struct {
	L float64 // m, area over perimeter
}

// FaceDown is a level face with the air below it.
type FaceDown struct {
	L float64 // m, area over perimeter
}

// Block is a compact body of any shape and position, all of its surface.
type Block struct {
	SqrtArea float64 // m, square root of its whole area
}

// Face is a share of a composite surface.
type Face struct {
	Share float64 // of the area; the shares of a surface add up to 1
	Shape Shape   // one of natural convection
}

// Faces is a surface of several faces at one temperature.
type Faces struct {
	Faces []Face
}

// Given is a convective coefficient that is known beforehand, W/(m²K).
type Given struct {
	H float64
}

// PowerLaw is h = C (|ΔT|/L)^M, W/(m²K), the simplified relations of the
// textbooks for air: L in m, ΔT in K.
type PowerLaw struct {
	C, L, M float64
}

// AirFlow says how moving air meets a surface.
type AirFlow int

const (
	Across AirFlow = iota // across a cylinder
	Along                 // along a flat face
)

// MovingAir is a surface in air that moves. Its coefficient is that of the
// moving air and that of still air by the sum of their cubes, eq. (15).
type MovingAir struct {
	Speed  float64 // m/s
	Length float64 // m: diameter for Across, length along the air for Along
	Kind   AirFlow
	Over   Shape // what it would be in still air, one of natural convection
}

// BarOnEdge is the shape of a flat bar that runs level with its width
// upright, per square metre of all four long sides (m).
func BarOnEdge(width, thickness float64) Shape {
	return bar(width, thickness)
}

// BarFlat is the shape of a flat bar that runs level with its width level,
// per square metre of all four long sides (m).
func BarFlat(width, thickness float64) Shape {
	return bar(thickness, width)
}

// bar is a long bar of rectangular section. Its four sides share one layer of
// air that rises around them, so it is a plate as high as the air's way from
// the middle of the bottom to the middle of the top (Lienhard 1973, Int. J. Heat
// Mass Transfer 16, 2121: the length of travel of the fluid as the length of
// Nu and Ra, for bodies of any section; from memory). Relations for each face
// alone would count the still air around a narrow edge once more for every face.
func bar(height, depth float64) Shape { return VerticalPlate{height + depth} }

// Box is the shape of all six faces of a box (m).
func Box(length, width, height float64) Shape {
	top, sides := length*width, 2*height*(length+width)
	all := 2*top + sides
	l := top / (2 * (length + width))
	return Faces{[]Face{
		{sides / all, VerticalPlate{height}},
		{top / all, FaceUp{l}},
		{top / all, FaceDown{l}},
	}}
}

// A term is one relation of natural convection at work on a share of a
// surface: it gives the conductance share · Nu(y L³)/L per W/(m K) of the air.
type term struct {
	family   family
	share, l float64
	aspect   float64
	nusselt  relation
	stated   statement
}

// statement is the range of Ra for which a relation is stated.
type statement struct {
	name     string
	from, to float64
}

var (
	statedPlate    = statement{"vertical face", 0, 1e12}
	statedCylinder = statement{"horizontal cylinder", 1e-5, 1e12}
	statedStanding = statement{"vertical cylinder", 0, 1e12}
	statedUp       = statement{"face towards the rising air", 1, 1e10}
	statedDown     = statement{"face against the rising air", 1e3, 1e10}
	statedBlock    = statement{"compact block", 0, 1e8}
)

func (s HorizontalCylinder) terms(dst []term, share float64, _ bool) ([]term, bool) {
	return append(dst, term{roundLike, share, s.D, 0, horizontalCylinder, statedCylinder}), true
}

func (s VerticalPlate) terms(dst []term, share float64, _ bool) ([]term, bool) {
	return append(dst, term{plateLike, share, s.H, 0, verticalPlate, statedPlate}), true
}

func (s VerticalCylinder) terms(dst []term, share float64, _ bool) ([]term, bool) {
	return append(dst, term{plateLike, share, s.H, s.H / s.D, verticalCylinder, statedStanding}), true
}

func (s FaceUp) terms(dst []term, share float64, hot bool) ([]term, bool) {
	return append(dst, level(s.L, share, hot)), true
}

func (s FaceDown) terms(dst []term, share float64, hot bool) ([]term, bool) {
	return append(dst, level(s.L, share, !hot)), true
}

// level is a level face from which the air that it warms or cools flows off
// freely, or not: a cold face down behaves like a hot face up.
func level(l, share float64, free bool) term {
	if free {
		return term{plateLike, share, l, 0, faceUp, statedUp}
	}
	return term{stalled, share, l, 0, faceDown, statedDown}
}

func (s Block) terms(dst []term, share float64, _ bool) ([]term, bool) {
	return append(dst, term{plain, share, s.SqrtArea, 0, compactBlock, statedBlock}), true
}

func (s Faces) terms(dst []term, share float64, hot bool) ([]term, bool) {
	for _, f := range s.Faces {
		if f.Share == 0 {
			continue
		}
		var ok bool
		if f.Shape == nil {
			return dst, false
		}
		if dst, ok = f.Shape.terms(dst, share*f.Share, hot); !ok {
			return dst, false
		}
	}
	return dst, true
}

func (Given) terms(dst []term, _ float64, _ bool) ([]term, bool)     { return dst, false }
func (PowerLaw) terms(dst []term, _ float64, _ bool) ([]term, bool)  { return dst, false }
func (MovingAir) terms(dst []term, _ float64, _ bool) ([]term, bool) { return dst, false }

// checkShape says what is wrong with a shape. A pointer to a shape has its
// methods too, but the arranging of a network knows the shapes themselves.
func checkShape(s Shape) string {
	switch s.(type) {
	case HorizontalCylinder, VerticalPlate, VerticalCylinder, FaceUp, FaceDown, Block, Channel, Faces, Given, PowerLaw, MovingAir:
		return s.check()
	}
	return fmt.Sprintf("has a shape of the type %T, which is none of this package's; shapes are given by value", s)
}

func (s HorizontalCylinder) check() string { return lengths(s.D) }
func (s VerticalPlate) check() string      { return lengths(s.H) }
func (s VerticalCylinder) check() string   { return lengths(s.D, s.H) }
func (s FaceUp) check() string             { return lengths(s.L) }
func (s FaceDown) check() string           { return lengths(s.L) }
func (s Block) check() string              { return lengths(s.SqrtArea) }

// shareSlack is how far the shares of a composite surface may miss 1 by
// rounding.
const shareSlack = 1e-9

func (s Faces) check() string {
	sum := 0.0
	for _, f := range s.Faces {
		if !notNegative(f.Share) {
			return "has a share that is negative or not a number"
		}
		sum += f.Share
		if f.Shape == nil {
			return "has a face without a shape"
		}
		if why := checkShape(f.Shape); why != "" {
			return why
		}
	}
	if math.Abs(sum-1) > shareSlack {
		return "has shares that do not add up to 1"
	}
	if _, ok := s.terms(nil, 1, true); !ok {
		return "has a face that is not one of natural convection"
	}
	return ""
}

func (s Given) check() string {
	if !notNegative(s.H) {
		return "has a coefficient that is negative or not a number"
	}
	return ""
}

func (s PowerLaw) check() string {
	if !notNegative(s.C) || !notNegative(s.M) || s.M > 1 {
		return "has a power law with C below 0 or M outside 0…1"
	}
	return lengths(s.L)
}

func (s MovingAir) check() string {
	if !positive(s.Speed) {
		return "has an air speed that is not above 0"
	}
	if s.Kind != Across && s.Kind != Along {
		return "has an unknown kind of flow"
	}
	if s.Over == nil {
		return "has moving air without its shape in still air"
	}
	if why := checkShape(s.Over); why != "" {
		return why
	}
	if _, ok := s.Over.terms(nil, 1, true); !ok {
		return "has moving air over a shape that is not one of natural convection"
	}
	return lengths(s.Length)
}

func lengths(ls ...float64) string {
	for _, l := range ls {
		if !positive(l) {
			return "has a length that is not above 0"
		}
	}
	return ""
}

func (s HorizontalCylinder) appendKey(b []byte) []byte { return key(b, 'c', s.D) }
func (s VerticalPlate) appendKey(b []byte) []byte      { return key(b, 'p', s.H) }
func (s VerticalCylinder) appendKey(b []byte) []byte   { return key(b, 's', s.D, s.H) }
func (s FaceUp) appendKey(b []byte) []byte             { return key(b, 'u', s.L) }
func (s FaceDown) appendKey(b []byte) []byte           { return key(b, 'd', s.L) }
func (s Block) appendKey(b []byte) []byte              { return key(b, 'b', s.SqrtArea) }
func (s Given) appendKey(b []byte) []byte              { return key(b, 'g', s.H) }
func (s PowerLaw) appendKey(b []byte) []byte           { return key(b, 'w', s.C, s.L, s.M) }

func (s Faces) appendKey(b []byte) []byte {
	b = key(b, 'f', float64(len(s.Faces)))
	for _, f := range s.Faces {
		b = f.Shape.appendKey(key(b, 'x', f.Share))
	}
	return b
}

func (s MovingAir) appendKey(b []byte) []byte {
	return s.Over.appendKey(key(b, 'm', s.Speed, s.Length, float64(s.Kind)))
}

func key(b []byte, kind byte, figures ...float64) []byte {
	b = append(b, kind)
	for _, f := range figures {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(f))
	}
	return b
}
