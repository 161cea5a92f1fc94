package model

// This file holds the box around a stack as its maker states it.

// Mounting says what the back of a box, its face Width × Height, stands
// against.
type Mounting int

const (
	Free       Mounting = iota // air on all six sides
	OnBulkhead                 // a bulkhead at the temperature of the room's air
	Insulated                  // insulation: no heat goes through the back
)

// A Wall is what a box is made of.
type Wall struct {
	Name         string
	Conductivity float64 // W/(m K)
	Density      float64 // kg/m³
	SpecificHeat float64 // J/(kg K)
	Thickness    float64 // m
}

// An Enclosure is a box around parts of a stack: their surfaces lose heat to
// its air and, by radiation, to its wall, and these lose it to the room. The
// air inside is of one temperature; EnclosureFigures says by how much it may be
// hotter at the top. The body of a post in the box stands in the box as well;
// a body at the end of a cable or bar stands outside; a body of several parts
// cannot do both.
//
// Heat, that of other things in the box, is all given to the air, while much of
// that of real parts goes to the wall by radiation: in closed boxes of sheet
// steel of 0.2 to 7 m² the air's rise comes out 27 to 44 percent above that of
// IEC TR 60890 (file boxrise.go), at rises of 8 to 67 K, which is on the safe
// side.
type Enclosure struct {
	Label                string
	Width, Height, Depth float64 // m, outer
	Wall                 Wall
	Inside, Outside      float64 // emissivity of the wall's faces
	Mounting             Mounting
	// Bulkhead is the conductance of the contact with it, W/(m² K).
	Bulkhead float64
	// Inlet and Outlet are the free areas, m², of a low and a high vent, and
	// VentRise, m, the height between them; 0, all three, for no vents.
	Inlet, Outlet, VentRise float64
	Fan                     float64 // m³/s of the room's air that a fan blows through
	Heat                    float64 // W of other things in the box
	Parts                   []int   // indices in Stack.Parts of those inside; nil = all
}
