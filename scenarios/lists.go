package scenarios

import (
	"slices"
	"strconv"
	"strings"

	"clampheat/scenarios/quantity"
)

// This file reads names and counts: those of studs, batteries and branches, of
// cables in a bundle, of bars side by side.

// mostNames is how many studs, batteries or branches stand in one row.
const mostNames = 50

// names reads "A B C D" or a list; each name once. What says what they name.
func (r *reader) names(what string, n *node, split bool) Names {
	out := Names{Set: true, Pos: n.pos}
	before := len(r.problems)
	take := func(text string, pos Pos) {
		word := Word{Text: text, Set: true, Pos: pos}
		if first := slices.IndexFunc(out.List, func(w Word) bool { return w.Text == text }); first >= 0 {
			r.mistake(pos, "%q stands here twice among the %s", text, what).hint("each has a name of its own")
			return
		}
		if !r.nameFits(text, pos) || what == "batteries" && !r.ownName(text, pos) {
			return
		}
		out.List = append(out.List, word)
	}
	switch {
	case n.shape == list:
		for _, item := range n.items {
			if text, ok := r.text(item); ok {
				take(text, item.pos)
			}
		}
		if len(n.items) == 0 {
			r.mistake(n.pos, "the list of %s is empty", what)
		}
	default:
		text, ok := r.text(n)
		if !ok {
			return Names{}
		}
		if !split {
			take(text, n.pos)
			break
		}
		if count, err := strconv.Atoi(text); err == nil && count > 0 {
			r.mistake(n.pos, "%s are written by their names, not by their number", what).hint("write a name for each, for example \"%s: %s\"", what, firstNames(count))
			return Names{}
		}
		for _, name := range strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' }) {
			take(name, n.pos)
		}
	}
	if len(out.List) == 0 || len(r.problems) > before {
		return Names{}
	}
	if len(out.List) > mostNames {
		r.mistake(n.pos, "there are %d %s here; at most %d are computed", len(out.List), what, mostNames)
		return Names{}
	}
	return out
}

// firstNames are names for as many things as a file counts, of which the hint of
// a message shows no more than five.
func firstNames(count int) string {
	return strings.Join(strings.Split("ABCDE", "")[:min(count, 5)], " ")
}

// ownName refuses what a bus bar calls its studs for the path before it and
// after it.
func (r *reader) ownName(text string, pos Pos) bool {
	if text != studIn && text != studOut {
		return true
	}
	r.mistake(pos, "%q cannot be a name here", text).
		hint("on a bus bar the part before it lands on the stud %q and the part after it on %q: choose another name", studIn, studOut)
	return false
}

// nameFits refuses what would spoil a label.
func (r *reader) nameFits(text string, pos Pos) bool {
	const longestName = 40 // characters, what a column of a table can show
	switch {
	case len([]rune(text)) > longestName:
		r.mistake(pos, "a name has at most %d characters", longestName)
	case strings.ContainsAny(text, ":"):
		r.mistake(pos, "a name cannot hold a colon").hint("outputs write a part of a branch as \"name: part\"")
	default:
		return true
	}
	return false
}

const bunchHint = `write "3 touching" for cables side by side in a row, or "4 round" for a bunch`

// mostBundled is how many cables one strap holds; the published grouping
// factors end at about as many.
const mostBundled = 24

// bunch reads "3 touching" or "4 round".
func (r *reader) bunch(n *node) Bunch {
	text, ok := r.text(n)
	if !ok {
		return Bunch{}
	}
	words := strings.Fields(text)
	if len(words) != 2 {
		r.mistake(n.pos, "a bundle is a number of cables and how they lie").hint("%s", bunchHint)
		return Bunch{}
	}
	count, err := strconv.Atoi(words[0])
	if err != nil || count < 2 || count > mostBundled {
		r.mistake(n.pos, "a bundle has 2 to %d cables; it is %q", mostBundled, words[0]).hint("%s", bunchHint)
		return Bunch{}
	}
	how, known := oneOf([]string{"touching", "round"}, words[1])
	if !known {
		r.mistake(n.pos, "cables cannot lie %q", words[1]).allow("touching", "round").hint("%s", bunchHint)
		return Bunch{}
	}
	return Bunch{Count: count, Round: how == "round", Set: true, Pos: n.pos}
}

const pipeHint = `write the outer diameter and the material: "50 mm plastic", or "50 mm plastic, 3 cables"`

// pipeWords are the materials of conduits.
var pipeWords = []string{"plastic", "steel", "aluminium"}

// pipe reads "50 mm plastic" or "50 mm plastic, 3 cables".
func (r *reader) pipe(n *node) Pipe {
	text, ok := r.text(n)
	if !ok {
		return Pipe{}
	}
	out := Pipe{Set: true, Pos: n.pos}
	text, tail, counted := strings.Cut(text, ",")
	if counted {
		number, _, _ := cutWord(tail, "cables")
		count, err := strconv.Atoi(strings.TrimSpace(number))
		if err != nil || count < 1 || count > mostBundled {
			r.mistake(n.pos, "a conduit holds 1 to %d cables", mostBundled).hint("%s", pipeHint)
			return Pipe{}
		}
		out.Count = count
	}
	words := strings.Fields(text)
	if len(words) < 2 {
		r.mistake(n.pos, "a conduit has a diameter and a material").hint("%s", pipeHint)
		return Pipe{}
	}
	material, known := oneOf(pipeWords, words[len(words)-1])
	if !known {
		p := r.mistake(n.pos, "the material of this conduit is not known").allow(pipeWords...).hint("%s", pipeHint)
		if guess := near(words[len(words)-1], pipeWords); guess != "" {
			p.hint("did you mean %q?", guess)
		}
		return Pipe{}
	}
	v, err := quantity.Parse(quantity.Length, strings.Join(words[:len(words)-1], " "))
	if err != nil {
		r.quantityProblem(n.pos, err).hint("%s", pipeHint)
		return Pipe{}
	}
	const most = 0.5 // m; the widest conduit of the trade has about a fifth of it
	if !(v.SI > 0 && v.SI <= most) {
		r.mistake(n.pos, "a conduit has more than 0 mm and at most 500 mm; it is %s", quantity.Format(quantity.Length, v.SI, v.Unit, 0))
		return Pipe{}
	}
	out.Diameter, out.Material = v.SI, material
	return out
}

// count reads a whole number of alike bars.
func (r *reader) count(f field, n *node) Count {
	const most = 10 // bars that one joint still clamps; common practice, no source
	text, ok := r.text(n)
	if !ok {
		return Count{}
	}
	v, err := strconv.Atoi(text)
	if err != nil || v < 1 || v > most {
		r.mistake(n.pos, "%q is a whole number from 1 to %d; it is %q", f.key, most, text)
		return Count{}
	}
	return Count{N: v, Set: true, Pos: n.pos}
}
