package scenarios

import "clampheat/scenarios/quantity"

// This file declares the whole vocabulary of a scenario file as Go types. The
// reader, the complaint about a wrong key and the JSON schema all read the
// tags below and nothing else, so a key is declared once:
//
//	key   the word in the file
//	is    what the value is: text, word, count, size, section, or a quantity
//	      of the package quantity (current, torque, length, …)
//	need  "yes" where the key may not be missing
//	from  the table of package materials that the word is looked up in
//	words the words allowed, where no table lists them
//	above, least, most
//	      the bounds of a quantity: more than, no less than, no more than;
//	      outside, the value cannot be meant
//	also  a second spelling of the key
//	later "warning": a key that is kept for later
//	doc   one sentence for the schema and the messages
//
// The key of an item of the path that names its kind of part is listed in
// kinds (kinds.go), with the keys that go with that kind.
//
// Grounds of the bounds, common practice without a source unless named: no
// colder air than −89 °C has been recorded (World Meteorological Organization,
// Vostok 1983); altitudes as ISO 2533 tabulates the air up to the tropopause;
// 1500 V is the end of low voltage (IEC 60038); nothing that is bolted in a
// van, a boat or a cabin carries 10 kA for longer than a fuse allows; a battery
// of 1 Ω starts no engine and runs no inverter; a box of 10 m is a room, and the
// heat of a room is 10 kW; fans of boxes blow no 10000 m³/h.

// Pos is a place in the file, counted from 1, in characters.
type Pos struct{ Line, Column, Length int }

// Quantity is a number in SI (temperatures in K) as the file gives it.
type Quantity struct {
	Value float64
	Unit  string // as written: outputs keep the file's unit
	Set   bool
	Pos   Pos
}

// Word is a text of the file.
type Word struct {
	Text string
	Set  bool
	Pos  Pos
}

// Section is a flat section, width × thickness, m.
type Section struct {
	Width, Thickness float64
	Unit             string
	Set              bool
	Pos              Pos
}

// Measured is "2.1 mV at 140 A" or "12 µΩ", as ohms.
type Measured struct {
	Resistance float64 // Ω
	Current    float64 // A of the test; 0 where ohms were given
	Unit       string
	Set        bool
	Pos        Pos
}

// AtRated is "75 mV at 300 A", "22 W at 300 A" or "0.25 mΩ".
type AtRated struct {
	Drop, Power, Resistance float64 // V, W, Ω: one of them
	Current                 float64 // A; 0 = the rated current
	Set                     bool
	Pos                     Pos
}

// Melt is a point of a fuse's time–current curve: "900 A in 2 s".
type Melt struct {
	Current, Time float64 // A, s
	Pos           Pos
}

// Step is one line of a supply: "140 A for 15 min", "0 A to 140 A over 5 min",
// or "140 A" from then on.
type Step struct {
	From, To float64 // A, W or K; equal where the value is constant
	For      float64 // s; +Inf for the last of those that do not repeat
	Pos      Pos
}

// Supply is a value over time: one value or a list of steps.
type Supply struct {
	Kind    quantity.Kind // Current, Power or Temperature
	Steps   []Step
	Repeats bool // after the last step the first begins anew
	Unit    string
	Set     bool
	Pos     Pos
}

// Air is the temperature of the room's air. Where it changes, the quantity is
// the highest of its course.
type Air struct {
	Quantity
	Course  Supply // not set where the air stays as it is
	FromLog bool   // a column of the log has its course
}

// Names are words of the file's own, "A B C D", in their order.
type Names struct {
	List []Word
	Set  bool
	Pos  Pos
}

// Count is a whole number.
type Count struct {
	N   int
	Set bool
	Pos Pos
}

// Vents are the free areas of a low and a high vent, m².
type Vents struct {
	Low, High float64
	Unit      string
	Set       bool
	Pos       Pos
}

// Bunch is "3 touching" or "4 round": alike cables that touch each other.
type Bunch struct {
	Count int
	Round bool // a bunch, not a row
	Set   bool
	Pos   Pos
}

// Pipe is "50 mm plastic" or "50 mm plastic, 3 cables": a conduit by its outer
// diameter, its material and how many alike cables are in it.
type Pipe struct {
	Diameter float64 // m
	Material string
	Count    int // 0 where not given
	Set      bool
	Pos      Pos
}

// File is a scenario file.
type File struct {
	Name     string    // as given to Parse, for messages
	Warnings []Problem // what is odd without being wrong, sorted
	lines    []string
	files    Files // opens what stands beside the file; nil where nothing can be opened
	dropped  bool  // a part of the path could not be read: its neighbours are no neighbours
	// Ways are the ways that the current takes through the parts: the main one
	// first, then those side by side, in the order of the file.
	Ways   []Way
	groups []group
	taken  map[int]bool // ways that are taken out

	Title       Word     `key:"title" is:"text" doc:"One line that names the stack in every output."`
	Current     Supply   `key:"current" is:"supply" doc:"The current, or a list of steps: 140 A for 15 min; 0 A to 140 A over 5 min; 140 A."`
	Power       Supply   `key:"power" is:"power supply" doc:"A power that is drawn in place of a current, one value or a list of steps; the current follows from the voltage that is left."`
	Duty        Supply   `key:"duty" is:"duty" doc:"Steps that repeat for ever, all in A or all in W: 180 A for 5 min; 0 A for 10 min."`
	Log         Log      `key:"log" is:"log" doc:"A CSV file beside this one whose first row names its columns with their units, time_s,current_A (or a power; with air_C for the air): straight lines join its rows."`
	Repeats     Word     `key:"repeats" is:"word" words:"yes|no" doc:"Whether the log begins anew after its last row."`
	Ripple      Quantity `key:"ripple" is:"share" least:"0 %" most:"100 %" doc:"Rms of the alternating part of the current, as % of the mean."`
	Air         Air      `key:"air" is:"air" need:"yes" least:"-100 °C" most:"200 °C" doc:"Temperature of the air around the stack, a list of steps (15 °C to 32 °C over 8 h; 32 °C for 2 h), or from log."`
	Radiant     Quantity `key:"radiant" is:"temperature" least:"-100 °C" most:"200 °C" doc:"Temperature of the walls that the stack sees; the air's where not given."`
	Altitude    Quantity `key:"altitude" is:"altitude" least:"-500 m" most:"11000 m" doc:"Height above sea level."`
	AirSpeed    Quantity `key:"air speed" is:"speed" least:"0 m/s" most:"50 m/s" doc:"Speed of moving air over the stack; still air where not given."`
	Start       Start    `key:"start" is:"start" doc:"Where the soak starts: a temperature of every part, or the settled profile scaled to a hottest terminal (hottest terminal 40 °C)."`
	BankVoltage Quantity `key:"bank voltage" is:"voltage" above:"0 V" most:"1500 V" doc:"Voltage of the battery bank, for drops in % and for a power that is drawn."`
	SourceOhms  Quantity `key:"source resistance" is:"resistance" least:"0 µΩ" most:"10 Ω" doc:"Resistance between the bank's open-circuit voltage and the beginning of the path, where a power is drawn."`
	Limits      []Limit  `key:"limits" is:"limits" also:"limit" doc:"Limits of your own: a temperature, a rise, or touch with a contact time."`
	Path        []Item   `key:"path" is:"path" need:"yes" doc:"The parts in the order in which the current meets them."`

	Return    Return    `key:"return" is:"return" doc:"The return cable, for the drop of the whole circuit: its size and length."`
	Enclosure Enclosure `key:"enclosure" is:"enclosure" doc:"A box around the stack or some parts of it; none for no box."`
	Variants  Variants  `key:"variants" is:"variants" doc:"Named changes of the scenario, to compare: keys of the file, or a part with its keys."`

	Spreads Later `key:"spreads" is:"anything" later:"warning" doc:"Ranges of inputs for sampling."`
}

// Later is a key that is kept for later.
type Later struct {
	Set bool
	Pos Pos
}

// Return is the cable by which the current goes back, which adds to the drop and
// is no part of the stack.
type Return struct {
	Cable  Word     `key:"cable" is:"word" from:"conductor" need:"yes" doc:"Size of the return cable: 1/0 AWG."`
	Length Quantity `key:"length" is:"length" need:"yes" above:"0 mm" most:"1000 m" doc:"Length of the return cable."`
	Set    bool
	Pos    Pos
}

// Log is a table of current or power over time in a file of its own.
type Log struct {
	Supply
	Name string // of the file, as written
}

// Enclosure is a box.
type Enclosure struct {
	Width     Quantity `key:"width" is:"length" need:"yes" above:"0 mm" most:"10 m" doc:"Width of the box, outside."`
	Height    Quantity `key:"height" is:"length" need:"yes" above:"0 mm" most:"10 m" doc:"Height of the box, outside."`
	Depth     Quantity `key:"depth" is:"length" need:"yes" above:"0 mm" most:"10 m" doc:"Depth of the box, outside, from the side that it is mounted with to its front."`
	Wall      Word     `key:"wall" is:"word" from:"wall" need:"yes" doc:"What the box is made of: steel, aluminium, polycarbonate, ABS, plywood and others, which clampheat materials lists under walls."`
	Thickness Quantity `key:"thickness" is:"length" above:"0 mm" most:"200 mm" doc:"Thickness of the wall."`
	Finish    Word     `key:"finish" is:"word" from:"finish" doc:"Surface of the wall, inside and outside, for its emissivity."`
	Mounting  Word     `key:"mounting" is:"word" words:"free|on bulkhead|against insulation" doc:"What the back of the box stands against."`
	Vents     Vents    `key:"vents" is:"vents" doc:"Free area of a low and of a high vent, each: 20 cm²; or 20 cm² low, 30 cm² high."`
	VentRise  Quantity `key:"vent rise" is:"length" above:"0 mm" most:"10 m" doc:"Height from the low vent to the high one."`
	Fan       Quantity `key:"fan" is:"flow of air" above:"0 m³/h" most:"10000 m³/h" doc:"Air of the room that a fan blows through the box."`
	Heat      Quantity `key:"other heat" is:"power" least:"0 W" most:"10 kW" doc:"Heat of other things in the box."`
	Holds     Names    `key:"holds" is:"labels" doc:"The parts in the box, a list by name or kind ([link bar, battery switch]), or branches by name; where no cable is among them, those between two of them are in it too."`
	Set       bool
	Pos       Pos
}

// Variants are the changes of the scenario that the file names; see
// variants.go.
type Variants struct {
	List []Variant
	Set  bool
	Pos  Pos
}

// Variant is the file with some of it changed.
type Variant struct {
	Name        Word
	file        *File
	first, last int // its lines
}

// Start is a start of a soak other than the air's temperature.
type Start struct {
	Temp     float64 // K
	Terminal bool    // the settled profile scaled so that the hottest terminal has Temp
	Set      bool
	Pos      Pos
}

// Limit is a limit of the user's own.
type Limit struct {
	Temp, Rise float64 // K, one of them; both 0 for touch
	Touch      float64 // s of contact
	Unit       string
	Set        bool
	Pos        Pos
}

// Item is one entry of the path. Kind is its first key, Of that key's value.
// Only the fields that the kind allows (see kinds) may be set.
type Item struct {
	Kind string
	Of   Word
	Pos  Pos
	// Way is the index in File.Ways of the way that the part lies on.
	Way   int
	from  *node  // of the tree, for variants
	lanes []lane // of branches and circuits
	names Names  // of batteries

	Label Word `key:"name" is:"text" doc:"A name of your own for outputs."`

	// Fasteners: on the part that owns the stud.
	Nut        Quantity   `key:"nut" is:"torque" above:"0 N·m" doc:"Torque of the one nut."`
	Nuts       []Quantity `key:"nuts" is:"torques" above:"0 N·m" doc:"Torque of all nuts of the part, or a list in the order of the path."`
	Stud       Word       `key:"stud" is:"word" from:"fastener" doc:"Thread of the part's studs."`
	Class      Word       `key:"class" is:"word" from:"property class" doc:"Property class of the stud."`
	Thread     Word       `key:"thread" is:"word" from:"thread condition" doc:"State of the thread, such as dry or lubricated."`
	Tightened  Word       `key:"tightened" is:"word" from:"tightening" doc:"How the torque was set, such as torque wrench or by feel."`
	ClampKept  Quantity   `key:"clamp kept" is:"share" above:"0 %" most:"100 %" doc:"Share of the clamp force left after settling."`
	Faces      Word       `key:"faces" is:"word" from:"face state" doc:"State of the contact faces: brushed, as received, tarnished, corroded."`
	Plating    Word       `key:"plating" is:"word" from:"plating" doc:"Outermost metal of the faces."`
	MeasuredAt Measured   `key:"measured" is:"measured" doc:"What a meter showed over all faces under a nut together, from lug to post without a fuse between them, replacing the prediction: 2.1 mV at 140 A, or 12 µΩ; several faces share it as predicted."`

	// Bodies and surfaces.
	Metal    Word     `key:"metal" is:"word" from:"metal" doc:"Metal of the part."`
	Finish   Word     `key:"finish" is:"word" from:"finish" doc:"Surface, for its emissivity: a word, or a measured figure (emissivity 0.4)."`
	Section  Section  `key:"section" is:"section" above:"0 mm" most:"1000 mm" doc:"Width × thickness."`
	Length   Quantity `key:"length" is:"length" above:"0 mm" most:"1000 m" doc:"Length along the current."`
	Diameter Quantity `key:"diameter" is:"length" above:"0 mm" most:"200 mm" doc:"Diameter of the metal that carries the current."`
	Surface  Quantity `key:"surface" is:"area" above:"0 cm²" most:"10 m²" doc:"Metal surface that sees the room."`
	Lies     Word     `key:"lies" is:"word" words:"on edge|flat|level|upright" doc:"How the part lies."`
	Exposed  Quantity `key:"exposed" is:"share" least:"0 %" most:"100 %" doc:"Share of the surface that sees the room."`
	Ohms     Quantity `key:"resistance" is:"resistance" above:"0 µΩ" most:"1 Ω" doc:"Measured resistance at 20 °C, in place of the one of the geometry."`
	Takes    Quantity `key:"body takes" is:"conductance" least:"0 W/K" most:"100 W/K" doc:"Heat that the body behind the part takes, per kelvin above the air."`
	Heat     Quantity `key:"body heat capacity" is:"heat capacity" above:"0 J/K" most:"1000 kJ/K" doc:"Heat capacity of the body behind the part."`
	Cover    Word     `key:"cover" is:"word" words:"closed|open|none" doc:"Cover over the part."`
	Case     Word     `key:"case" is:"text" doc:"Name of the body that a stud stands on or of the base that a holder is screwed to: what is on the same one shares its temperature, in the path of each battery too."`
	Limit    []Limit  `key:"limit" is:"limits" also:"limits" doc:"A limit of your own for this part."`

	// Fuse in a holder.
	Fuse         Quantity `key:"fuse" is:"current" above:"0 A" most:"10 kA" doc:"Rated current of the fuse."`
	FuseDrop     AtRated  `key:"fuse drop" is:"at rated" doc:"What the fuse's data say: 75 mV at 300 A, 22 W at 300 A, or a cold resistance 0.25 mΩ."`
	FuseElement  Quantity `key:"fuse element rise" is:"rise" above:"0 K" most:"1000 K" doc:"Rise of the element above the caps at rated current in the maker's rig."`
	Interrupting Quantity `key:"interrupting rating" is:"current" above:"0 A" doc:"Current that the fuse can interrupt."`

	Melts []Melt `key:"melts" is:"melts" doc:"Points of the fuse's time–current curve, as its data give them: 600 A in 30 s; 900 A in 2 s."`

	// Cable.
	Insulation Word     `key:"insulation" is:"word" from:"insulation" doc:"Insulation by its temperature: 105 °C."`
	Wall       Quantity `key:"wall" is:"length" above:"0 mm" most:"50 mm" doc:"Thickness of the insulation."`
	Strands    Word     `key:"strands" is:"word" words:"class 2|class 5" doc:"Stranding of a mm² conductor, IEC 60228."`
	Tinned     Word     `key:"tinned" is:"word" words:"yes|no" doc:"Tinned strands."`
	Lugs       Word     `key:"lugs" is:"word" words:"both|first|last|none" doc:"Ends with a crimped lug."`
	CrimpOhms  Quantity `key:"crimp resistance" is:"resistance" above:"0 µΩ" most:"1 Ω" doc:"Resistance of each crimp at 20 °C."`
	GoesOn     Word     `key:"goes on" is:"word" words:"alike|held at air" doc:"How a cable's end without a part goes on."`

	Bundle  Bunch `key:"bundle" is:"bunch" doc:"Alike cables with the same current that touch: 3 touching lie in a row, 4 round in a bunch."`
	Conduit Pipe  `key:"conduit" is:"pipe" doc:"A pipe around the cable, by its outer diameter and material, and the number of alike cables in it: 50 mm plastic; 50 mm plastic, 3 cables."`

	// Bars side by side, and a bar with a row of studs.
	Bars    Count    `key:"bars" is:"count" doc:"Number of alike bars side by side."`
	Gap     Quantity `key:"gap" is:"length" above:"0 mm" most:"200 mm" doc:"Gap between bars side by side."`
	Studs   Names    `key:"studs" is:"names" doc:"Names of the studs in their order along the bar: A B C D out; batteries, branches and circuits land on the stud of their name, the incoming cable on 'in', the outgoing on 'out'."`
	Spacing Quantity `key:"spacing" is:"length" above:"0 mm" most:"2 m" doc:"Distance from stud to stud."`
	Return  Word     `key:"return" is:"word" words:"same end|opposite end|none" doc:"Where the negative leaves a row of batteries: at the same end as the positive, at the opposite end, or none: they meet in one point."`

	// Batteries side by side.
	Voltage  []Quantity `key:"voltage" is:"voltages" above:"0 V" most:"1500 V" doc:"Open-circuit voltage of the batteries, one for all or a list: [13.2 V, 13.3 V]."`
	Internal []Quantity `key:"internal resistance" is:"resistances" above:"0 µΩ" most:"1 Ω" doc:"Internal resistance of the batteries, one for all or a list: [2 mΩ, 6 mΩ]."`
	Each     []Item     `key:"each" is:"path" doc:"The path from each battery to where they meet."`

	// Passed through to comparisons.
	Price Word `key:"price" is:"text" doc:"Price, passed through."`
	Size  Word `key:"size" is:"text" doc:"Size, passed through."`
	Mass  Word `key:"mass" is:"text" doc:"Mass, passed through."`
}
