package scenarios

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
//	later "error" or "warning": a key whose work does not exist yet; an error
//	      where leaving it out would change a temperature
//	doc   one sentence for the schema and the messages
//
// The key of an item of the path that names its kind of part is listed in
// kinds (kinds.go), with the keys that go with that kind.
//
// Grounds of the bounds, common practice without a source unless named: no
// colder air than −89 °C has been recorded (World Meteorological Organization,
// Vostok 1983); altitudes as ISO 2533 tabulates the air up to the tropopause;
// 1500 V is the end of low voltage (IEC 60038); nothing that is bolted in a
// van, a boat or a cabin carries 10 kA for longer than a fuse allows.

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
	From, To float64 // A; equal where the current is constant
	For      float64 // s; +Inf for the last
	Pos      Pos
}

// Supply is the current: one value or a list of steps.
type Supply struct {
	Steps []Step
	Unit  string
	Set   bool
	Pos   Pos
}

// File is a scenario file.
type File struct {
	Name     string    // as given to Parse, for messages
	Warnings []Problem // what is odd without being wrong, sorted
	lines    []string
	dropped  bool // a part of the path could not be read: its neighbours are no neighbours

	Title       Word     `key:"title" is:"text" doc:"One line that names the stack in every output."`
	Current     Supply   `key:"current" is:"supply" need:"yes" doc:"The current, or a list of steps: 140 A for 15 min; 0 A to 140 A over 5 min; 140 A."`
	Ripple      Quantity `key:"ripple" is:"share" least:"0 %" most:"100 %" doc:"Rms of the alternating part of the current, as % of the mean."`
	Air         Quantity `key:"air" is:"temperature" need:"yes" least:"-100 °C" most:"200 °C" doc:"Temperature of the air around the stack."`
	Radiant     Quantity `key:"radiant" is:"temperature" least:"-100 °C" most:"200 °C" doc:"Temperature of the walls that the stack sees; the air's where not given."`
	Altitude    Quantity `key:"altitude" is:"altitude" least:"-500 m" most:"11000 m" doc:"Height above sea level."`
	AirSpeed    Quantity `key:"air speed" is:"speed" least:"0 m/s" most:"50 m/s" doc:"Speed of moving air over the stack; still air where not given."`
	Start       Start    `key:"start" is:"start" doc:"Where the soak starts: a temperature of every part, or the settled profile scaled to a hottest terminal (hottest terminal 40 °C)."`
	BankVoltage Quantity `key:"bank voltage" is:"voltage" above:"0 V" most:"1500 V" doc:"Voltage of the battery bank, for drops in %."`
	Limits      []Limit  `key:"limits" is:"limits" also:"limit" doc:"Limits of your own: a temperature, a rise, or touch with a contact time."`
	Path        []Item   `key:"path" is:"path" need:"yes" doc:"The parts in the order in which the current meets them."`

	Return   Return   `key:"return" is:"return" doc:"The return cable, for the drop of the whole circuit: its size and length."`
	Variants Variants `key:"variants" is:"variants" doc:"Named changes of the scenario, to compare: keys of the file, or a part with its keys."`

	Spreads   Later `key:"spreads" is:"anything" later:"warning" doc:"Ranges of inputs for sampling."`
	Enclosure Later `key:"enclosure" is:"anything" later:"error" doc:"A box around the stack."`
	Duty      Later `key:"duty" is:"anything" later:"error" doc:"A repeating cycle or a log of current."`
	Power     Later `key:"power" is:"anything" later:"error" doc:"A constant power drawn in place of a current."`
}

// Later is a key of the vocabulary whose work does not exist yet.
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

	// Passed through to comparisons.
	Price Word `key:"price" is:"text" doc:"Price, passed through."`
	Size  Word `key:"size" is:"text" doc:"Size, passed through."`
	Mass  Word `key:"mass" is:"text" doc:"Mass, passed through."`
}
