package materials_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"clampheat/materials"
)

func TestLookup(t *testing.T) {
	t.Run("metal/spellings", func(t *testing.T) {
		for _, name := range []string{"copper", " Copper", "CU", "annealed-copper"} {
			if m, err := materials.LookupMetal(name); err != nil || m.Name != "annealed copper" {
				t.Errorf("%q gives %q, %v", name, m.Name, err)
			}
		}
	})
	// The words of the trade that the look-ups must know.
	words := map[string][]string{
		"metal":            {"copper", "Cu-ETP", "C11000", "brass", "phosphor bronze", "aluminium", "6061-T6", "6101", "stainless", "steel", "tin", "silver", "zinc", "nickel", "lead"},
		"plating":          {"bare", "tin", "tinned", "tin-plated", "silver-plated", "nickel", "bare brass"},
		"face state":       {"brushed", "as received", "tarnished", "corroded"},
		"finish":           {"bright tin", "polished copper", "oxidised copper", "painted", "jacket", "plastic", "dull black"},
		"insulation":       {"105 °C", "105", "PVC 70 °C", "XLPE 90 °C", "silicone 180 °C"},
		"fastener":         {"M4", "M8", "m10", "M16", "#10-24", "1/4-20", "5/16-18", "3/8-16", "7/16-14", "1/2-13", "3/8"},
		"property class":   {"4.8", "8.8", "10.9", "A2-70", "A4-70", "SAE grade 2", "grade 5", "silicon bronze"},
		"thread condition": {"dry", "lubricated", "anti-seize", "zinc plated", "stainless dry"},
		"tightening":       {"torque wrench", "by feel"},
		"conductor":        {"1/0 AWG", "250 kcmil"},
	}
	for kind, list := range words {
		for _, name := range list {
			if err := lookUps[kind](name); err != nil {
				t.Errorf("%s/%s: %v", kind, name, err)
			}
		}
	}
}

// lookUps holds every look-up by a name.
var lookUps = map[string]func(string) error{
	"metal":            errorOf(materials.LookupMetal),
	"plating":          errorOf(materials.LookupPlating),
	"face state":       errorOf(materials.LookupFaceState),
	"finish":           errorOf(materials.LookupFinish),
	"insulation":       errorOf(materials.LookupInsulation),
	"fastener":         errorOf(materials.LookupFastener),
	"property class":   errorOf(materials.LookupPropertyClass),
	"thread condition": errorOf(materials.LookupThreadCondition),
	"tightening":       errorOf(materials.LookupTightening),
	"conductor":        errorOf(materials.LookupConductor),
}

func errorOf[T any](f func(string) (T, error)) func(string) error {
	return func(name string) error {
		_, err := f(name)
		return err
	}
}

func TestUnknownError(t *testing.T) {
	for _, c := range []struct {
		kind, name string
		near       []string // first of the near names
	}{
		{"metal", "coper", []string{"annealed copper"}},
		{"metal", "bras", []string{"brass C26000", "brass C36000"}},
		{"metal", "alumnium", []string{"aluminium 1350"}},
		{"metal", "unobtainium", nil},
		{"finish", "oxydised copper", []string{"oxidised copper"}},
		{"plating", "tin plted", []string{"tin"}},
		{"fastener", "M9", []string{"M4"}},
		{"thread condition", "lubed", nil},
		{"conductor", "45 mm²", []string{"50 mm²", "35 mm²"}},
		{"conductor", "22 AWG", []string{"18 AWG"}},
		{"conductor", "50", []string{"50 mm²"}},
		{"conductor", "275 kcmil", []string{"300 kcmil", "250 kcmil"}},
	} {
		t.Run(c.kind+"/"+c.name, func(t *testing.T) {
			err := lookUps[c.kind](c.name)
			var unknown *materials.UnknownError
			if !errors.As(err, &unknown) {
				t.Fatalf("got %v", err)
			}
			if unknown.Kind != c.kind || unknown.Name != c.name || len(unknown.All) < 4 {
				t.Errorf("kind %q, name %q, %d known names", unknown.Kind, unknown.Name, len(unknown.All))
			}
			if got := unknown.Near[:min(len(unknown.Near), len(c.near))]; !slices.Equal(got, c.near) || (c.near == nil && len(unknown.Near) > 0) {
				t.Errorf("near %q, want %q first", unknown.Near, c.near)
			}
			if text := err.Error(); !strings.Contains(text, c.name) || len(text) > 700 || strings.Contains(text, "\n") {
				t.Errorf("unreadable: %s", text)
			}
		})
	}
}

// FuzzLookup wants every look-up to answer any name with a row or with an
// UnknownError whose near names are known and few.
func FuzzLookup(f *testing.F) {
	for _, s := range []string{"copper", "105 °C", "", "-", "M8", "a2_70", strings.Repeat("ab", 200), "\xff", "İ"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		for kind, lookUp := range lookUps {
			err := lookUp(name)
			if err == nil {
				continue
			}
			var unknown *materials.UnknownError
			if !errors.As(err, &unknown) {
				t.Fatalf("%s %q: %v", kind, name, err)
			}
			if len(unknown.Near) > 3 {
				t.Errorf("%s %q: %d near names", kind, name, len(unknown.Near))
			}
			for _, n := range unknown.Near {
				if !slices.Contains(unknown.All, n) {
					t.Errorf("%s %q: the near name %q is not known", kind, name, n)
				}
			}
		}
	})
}

// FuzzLookupConductor wants what can be read to be a sound conductor whose
// own name reads back as the same one.
func FuzzLookupConductor(f *testing.F) {
	for _, s := range []string{"1/0 AWG", "AWG 2", "#4", "0000 awg", "50 mm²", "50mm2 tinned", "25 mm² class 2", "250 MCM", "1e1 mm2", "-3 awg", "4/0", "5/0", "mm²", "class", "2 awg class 2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		c, err := materials.LookupConductor(name)
		if err != nil {
			return
		}
		if !(c.Area > 0 && c.Resistance20 > 0 && c.Diameter.Valid()) || math.IsInf(c.Resistance20, 0) {
			t.Fatalf("%q gives %+v", name, c)
		}
		again, err := materials.LookupConductor(c.Name)
		if err != nil || again.Name != c.Name || again.Area != c.Area || again.Resistance20 != c.Resistance20 {
			t.Errorf("%q is named %q, which gives %q, %v", name, c.Name, again.Name, err)
		}
	})
}

// What a caller does to an answer stays the caller's.
func TestAnswersAreCopies(t *testing.T) {
	spoil := func(aliases []string, also []materials.Source) {
		for i := range aliases {
			aliases[i] = "spoiled"
		}
		for i := range also {
			also[i].Key = "spoiled"
		}
	}
	materials.Sources()[0].Key = "spoiled"
	spoil(materials.Metals()[0].Aliases, materials.Metals()[0].Also)
	copper, err := materials.LookupMetal("copper")
	if err != nil {
		t.Fatal(err)
	}
	spoil(copper.Aliases, copper.Also)
	again, err := materials.LookupMetal("copper")
	if err != nil {
		t.Fatal(err)
	}
	for _, list := range [][]string{again.Aliases, materials.Metals()[0].Aliases, {again.Also[0].Key, materials.Sources()[0].Key, materials.Metals()[0].Also[0].Key}} {
		if slices.Contains(list, "spoiled") {
			t.Errorf("%v shows a caller's change", list)
		}
	}
}
