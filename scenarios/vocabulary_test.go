package scenarios

import (
	"slices"
	"testing"

	"clampheat/scenarios/quantity"
)

// The vocabulary leaves nothing out that can be used, and promises nothing that
// the reader refuses.
func TestVocabularyForPeople(t *testing.T) {
	v := Vocabulary()
	known := map[string]bool{}
	for _, k := range v.Keys {
		known[k.Key] = true
		if k.Doc == "" {
			t.Errorf("the key %q is not explained", k.Key)
		}
	}
	var names []string
	for _, p := range v.Parts {
		names = append(names, p.Kind)
		if p.Doc == "" || p.Of == "" {
			t.Errorf("the kind %q is not explained", p.Kind)
		}
		for _, key := range slices.Concat(p.Need, p.Keys) {
			if !known[key] {
				t.Errorf("%s: the key %q is not explained", p.Kind, key)
			}
		}
	}
	if want := kindNames(); !slices.Equal(names, want) {
		t.Errorf("kinds are %q, want %q", names, want)
	}
	listed := map[string]bool{}
	for _, u := range v.Units {
		for _, spellings := range u.Units {
			listed[spellings[0]] = true
			for _, s := range spellings {
				got, err := quantity.Parse(quantity.Kind(u.Kind), "2 "+s)
				if err != nil {
					t.Errorf("%s: %q cannot be typed: %v", u.Kind, s, err)
				} else if got.Unit != spellings[0] {
					t.Errorf("%s: %q is read as %q, want %q", u.Kind, s, got.Unit, spellings[0])
				}
			}
		}
	}
	for unit := range typed {
		if !listed[unit] {
			t.Errorf("spellings are listed for %q, which is no unit", unit)
		}
	}
}
