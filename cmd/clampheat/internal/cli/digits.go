package cli

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// This file rounds the numbers of JSON to what a reader can use. A solver
// leaves sixteen digits, of which the last ten say nothing about a stack.

const (
	// perDegree rounds temperatures and rises to a thousandth.
	perDegree = 1000
	// significant digits of all other numbers.
	significant = 6
)

// numberLine is a line of indented JSON that holds a number, with its key where
// it has one.
var numberLine = regexp.MustCompile(`^(\s*)((?:"(?:[^"\\]|\\.)*": )?)(-?[0-9][-+.0-9eE]*)(,?)$`)

// keyLine is how a line begins that has a key.
var keyLine = regexp.MustCompile(`^\s*"((?:[^"\\]|\\.)*)": `)

// rounded rounds the numbers of indented JSON, one value a line. What a number
// means is told by the unit at the end of its own key, or of the key of what
// holds it.
func rounded(text string) (string, error) {
	var b strings.Builder
	var holders []string // the keys of the objects and lists around the line
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		key := ""
		if m := keyLine.FindStringSubmatch(line); m != nil {
			key = m[1]
		}
		switch {
		case strings.HasSuffix(line, "{") || strings.HasSuffix(line, "["):
			holders = append(holders, key)
		case len(holders) > 0 && strings.ContainsAny(strings.TrimSpace(line)[:1], "}]"):
			holders = holders[:len(holders)-1]
		}
		if m := numberLine.FindStringSubmatch(line); m != nil {
			number, err := round(m[3], inDegrees(key, holders))
			if err != nil {
				return "", err
			}
			line = m[1] + m[2] + number + m[4]
		}
		b.WriteString(line + "\n")
	}
	return b.String(), nil
}

// inDegrees says whether the number of a key is a temperature or a rise.
func inDegrees(key string, holders []string) bool {
	degrees := func(k string) bool {
		return (strings.HasSuffix(k, "_C") || strings.HasSuffix(k, "_K")) && !strings.HasSuffix(k, "_per_K")
	}
	if degrees(key) {
		return true
	}
	// The members of a list and of a range have the unit of what holds them.
	switch key {
	case "", "low", "likely", "high":
		for i := len(holders) - 1; i >= 0; i-- {
			if holders[i] != "" {
				return degrees(holders[i])
			}
		}
	}
	return false
}

func round(text string, degrees bool) (string, error) {
	if !strings.ContainsAny(text, ".eE") {
		return text, nil // a count
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return "", fmt.Errorf("the number %s of the result cannot be rounded: %w", text, err)
	}
	if degrees {
		v = math.Round(v*perDegree)/perDegree + 0
	} else if v, err = strconv.ParseFloat(strconv.FormatFloat(v, 'g', significant, 64), 64); err != nil {
		return "", fmt.Errorf("the number %s of the result cannot be rounded: %w", text, err)
	}
	data, err := json.Marshal(v)
	return string(data), err
}
