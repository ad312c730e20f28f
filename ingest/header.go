package ingest

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

var namesInNormalForm = func() map[string]field {
	names := map[string]field{}
	for f := range fieldCount {
		names[normalForm(definitions[f].name)] = f
		for _, synonym := range definitions[f].synonyms {
			names[synonym] = f
		}
	}
	return names
}()

// longestName is the letters of the longest name: no more of a header are looked
// at, however long it is.
var longestName = func() (longest int) {
	for name := range namesInNormalForm {
		longest = max(longest, utf8.RuneCountInString(name))
	}
	return longest
}()

func fieldNamed(normal string) field {
	if f, known := namesInNormalForm[normal]; known {
		return f
	}
	return noField
}

// matchName finds the field that a header names, with the unit in its suffix:
// `To hole (m)`, `to_hole_yd` and `TOHOLE` are all to_hole.
func matchName(name string) (meaning, bool) {
	if f := fieldNamed(normalForm(name)); f != noField {
		return meaning{field: f, order: unsettled}, true
	}
	afterName := false
	for i, letters := 0, 0; i < len(name) && letters <= longestName; {
		r, width := utf8.DecodeRuneInString(name[i:])
		if isNameRune(r) {
			letters++
			afterName = true
		} else if afterName {
			afterName = false
			if f := fieldNamed(normalForm(name[:i])); f != noField {
				unit := unitNamed(normalForm(name[i:]))
				if unit != NoUnit && units[unit].kind == definitions[f].kind && (unit != Degrees || f >= latitude && f <= holeLongitude) {
					return meaning{field: f, unit: unit, order: unsettled}, true
				}
			}
		}
		i += width
	}
	return meaning{field: noField}, false
}

// A header says what each column of a file means.
type header struct {
	meanings []meaning
	unused   []string // columns that no field matches
}

// matchHeader resolves the column names of a file. What the user mapped goes
// before what a name seems to say. The error says, for the whole file, what is
// missing or named twice and how to mend it.
func matchHeader(names []string, mapping Mapping) (header, error) {
	h := header{meanings: make([]meaning, len(names))}
	rejects := isListOfRejects(names) // of logs that name their units differently
	if rejects {
		names = append(make([]string, len(rejectColumns)), names[len(rejectColumns):]...)
	}
	var mapped [fieldCount + 1]bool
	for i, name := range names {
		m, known := mapping[normalForm(name)]
		if !known {
			m.field = noField
		}
		h.meanings[i] = m
		mapped[m.field] = known
	}
	var taken [fieldCount]string
	var twice error
	for i, name := range names {
		m := &h.meanings[i]
		if m.field == noField {
			if guess, known := matchName(name); known && !mapped[guess.field] {
				*m = guess
			}
		}
		if m.field == noField {
			if strings.TrimSpace(name) != "" {
				h.unused = append(h.unused, strings.TrimSpace(name))
			}
			continue
		}
		if earlier := taken[m.field]; earlier != "" && twice == nil && !rejects {
			twice = fmt.Errorf("columns %q and %q both mean %s: rename one, or say with --columns which is meant", earlier, name, m.field)
		}
		taken[m.field] = name
	}
	if twice != nil {
		return h, twice
	}
	return h, h.complete(names, mapping)
}

// complete checks that the needed fields are there. The error tells how to come
// by those that are not, from the names of the columns and what of them was mapped.
func (h header) complete(names []string, mapping Mapping) error {
	var absent []string
	for _, f := range []field{date, hole, par} {
		if !h.has(f) {
			absent = append(absent, f.String())
		}
	}
	positions := h.has(latitude) && h.has(longitude) || h.has(x) && h.has(y)
	if strokes := slices.ContainsFunc(strokeFields, h.has); strokes || !h.has(holeScore) {
		if !h.has(toHole) && !positions {
			absent = append(absent, toHole.String())
		}
		if !h.has(lie) {
			absent = append(absent, lie.String())
		}
	}
	if len(absent) == 0 {
		return nil
	}
	hint := "name the column so, or map yours with --columns (`their name = our name`)"
	switch slip := mapping.slip(names, h.unused); {
	case slip != "":
		hint = slip
	case len(h.unused) > 0:
		hint += "; not known: " + listed(h.unused)
	}
	for _, theirs := range h.unused {
		if slices.Contains(scoreWords, normalForm(theirs)) && !slices.ContainsFunc(strokeFields, h.has) {
			hint = fmt.Sprintf("is this a scorecard, and %q the score of a hole? Then name the column score, or map it with --columns", theirs)
		}
	}
	for _, name := range absent {
		for _, theirs := range h.unused {
			if nearest(normalForm(theirs), []string{normalForm(name)}) != "" {
				hint = fmt.Sprintf("is %q meant as %s? Then rename it, or map it with --columns", theirs, name)
			}
		}
	}
	return fmt.Errorf("no column for %s; %s", listed(absent), hint)
}

func (h header) has(f field) bool {
	return slices.ContainsFunc(h.meanings, func(m meaning) bool { return m.field == f })
}

// known is how many columns mean something.
func (h header) known() (n int) {
	for _, m := range h.meanings {
		if m.field != noField {
			n++
		}
	}
	return n
}

func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func sortedKeys(set map[string]bool) []string {
	keys := make([]string, 0, len(set))
	for key := range set {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
