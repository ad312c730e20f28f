package ingest

import (
	"slices"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"
)

// A vocabulary maps every accepted spelling, in plain form, to the one that is
// stored.
type vocabulary map[string]string

var (
	sides  = vocabulary{"left": "left", "centre": "centre", "center": "centre", "middle": "centre", "right": "right"}
	depths = vocabulary{"front": "front", "middle": "middle", "centre": "middle", "center": "middle", "back": "back"}

	puttSlopes = vocabulary{
		"uphill": "uphill", "up": "uphill", "level": "level", "flat": "level",
		"downhill": "downhill", "down": "downhill",
	}
	puttBreaks = vocabulary{
		"left to right": "left to right", "l to r": "left to right", "l r": "left to right",
		"straight": "straight", "none": "straight",
		"right to left": "right to left", "r to l": "right to left", "r l": "right to left",
	}
	penaltyKinds = vocabulary{
		"penalty area": "penalty area", "water": "penalty area", "hazard": "penalty area", "water hazard": "penalty area",
		"out of bounds": "out of bounds", "ob": "out of bounds", "oob": "out of bounds",
		"lost ball": "lost ball", "lost": "lost ball",
		"unplayable": "unplayable", "unplayable ball": "unplayable", "other": "other",
	}
	intents = vocabulary{
		"attack": "attack", "safe": "safe",
		"lay up": "lay up", "layup": "lay up", "get out": "get out",
	}
	faults = vocabulary{"decision": "decision", "execution": "execution"}

	yesNoWords = vocabulary{
		"yes": "yes", "y": "yes", "true": "yes", "1": "yes",
		"no": "no", "n": "no", "false": "no", "0": "no",
	}
)

// plainForm lower-cases words and puts one space for every run of separators,
// so that "Left-to-right" and "left_to_right" are the same.
func plainForm(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !isNameRune(r) && r != '°'
	}), " ")
}

func isNameRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// meanings lists the words that a vocabulary stores, sorted.
func (v vocabulary) meanings() []string {
	seen := map[string]bool{}
	for _, word := range v {
		seen[word] = true
	}
	return sortedKeys(seen)
}

// nearest is the known spelling closest to text, or "" when none is near
// enough to be meant: at most a third of the letters may differ, two neighbours
// that changed places being one. No word of the shot log is nearly as long as
// longestGuess.
func nearest(text string, known []string) string {
	const longestGuess = 40
	if len(text) > longestGuess {
		return ""
	}
	best, bestDistance := "", len([]rune(text))/3+1
	for _, word := range known {
		distance := levenshtein.ComputeDistance(text, word)
		if distance == 2 && neighboursSwapped(text, word) {
			distance = 1
		}
		if distance < bestDistance {
			best, bestDistance = word, distance
		}
	}
	return best
}

// neighboursSwapped tells whether words that differ do so in that two neighbours
// changed places.
func neighboursSwapped(one, other string) bool {
	a, b := []rune(one), []rune(other)
	if len(a) != len(b) {
		return false
	}
	at := 0
	for a[at] == b[at] {
		at++
	}
	return at+1 < len(a) && a[at] == b[at+1] && a[at+1] == b[at] && slices.Equal(a[at+2:], b[at+2:])
}

func didYouMean(text string, known []string) string {
	if word := nearest(text, known); word != "" {
		return "did you mean " + word + "?"
	}
	return ""
}
